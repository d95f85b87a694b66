package spoken

import (
	"crochet/tallyturn/pattern"
)

// total says what the row comes to. Before is what the row before it came to;
// 0 where that is not known.
func (x *rowTeller) total(before int64) string {
	n, ok := x.r.Expect()
	if !ok || n <= 0 {
		return ""
	}
	what, mixed := x.totalParts()
	if what == "" {
		what, mixed = x.number(n)+plural(n, " stitch", " stitches"), false
	}
	switch {
	case x.r.Count() > 1:
		if x.r.Kind == pattern.Round {
			return "You have " + what + " in each round."
		}
		return "You have " + what + " in each row."
	case mixed:
		return "That gives you " + what + "."
	case before == n:
		return "You still have " + what + "."
	case before > n:
		return "That leaves you with " + what + "."
	}
	return "That gives you " + what + "."
}

// totalParts says the total kind by kind, as the author states it, where it
// is right.
func (x *rowTeller) totalParts() (said string, mixed bool) {
	s := x.r.Stated
	if s == nil || x.r.Status == pattern.Differs {
		return "", false
	}
	var parts []string
	for _, p := range s.Parts {
		n, one, many := x.at(p.N), "", ""
		switch p.Kind {
		case pattern.PartStitches:
			one, many = "stitch", "stitches"
		case pattern.PartStitch:
			one, many = p.ID.Words(x.to), p.ID.Plural(x.to)
		case pattern.PartSpace:
			if one = "chain space"; p.Size > 0 {
				one = "chain-" + x.number(p.Size) + " space"
			}
		case pattern.PartChain:
			one = "chain"
		case pattern.PartNamed:
			if one = x.own(p.Name); n != 1 {
				many = one
				if last := one[max(len(one)-1, 0):]; last != "s" {
					many = plurals(one)
				}
			}
		}
		if one == "" || n <= 0 {
			return "", false
		}
		if many == "" {
			many = plurals(one)
		}
		parts = append(parts, x.number(n)+" "+plural(n, one, many))
	}
	return series(parts), len(parts) > 1
}
