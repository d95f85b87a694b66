package spoken

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// place says where a step goes, with its preposition: "in each of the next
// three stitches". It is false for places that only the author's words tell.
func (x *rowTeller) place(s *pattern.Step) (string, bool) {
	t := &s.Target
	if t.Within != nil || t.Row != nil {
		return "", false
	}
	one, many, ok := x.noun(s, t.Of)
	if !ok {
		return "", false
	}
	in := "in "
	switch {
	case stitch.Of(s.Stitch).Kind == stitch.Post && s.Defined() == nil:
		in = "around "
	case len(t.Of) == 1 && (t.Of[0].Kind == pattern.Space || t.Of[0].Kind == pattern.ChainStitch):
		in = "into "
	}
	bound, ok := x.bound(t.Bound)
	if !ok {
		return "", false
	}
	n := x.at(t.N)
	switch t.Which {
	case pattern.Next:
		switch {
		case t.NextUnsaid() && n > 1 || t.Bound.Kind != pattern.NoBound:
			return "", false
		case t.NextUnsaid():
			return in + "the " + one, true
		case n > 1:
			return in + "each of the next " + x.number(n) + " " + many, true
		}
		return in + "the next " + one, true
	case pattern.Each:
		if n > 0 {
			return "", false
		}
		return in + "each " + strings.ReplaceAll(one, " and ", " and "+in+"each ") + bound, true
	case pattern.First, pattern.Last:
		word := map[pattern.Which]string{pattern.First: "first ", pattern.Last: "last "}[t.Which]
		if n > 1 {
			return in + "each of the " + word + x.number(n) + " " + many, t.Bound.Kind == pattern.NoBound
		}
		return in + "the " + word + one, t.Bound.Kind == pattern.NoBound
	case pattern.Nth:
		return in + "the " + ordinal(n, x.to == stitch.UK) + " " + one, n > 0 && t.Bound.Kind == pattern.NoBound
	case pattern.Same:
		return in + "the same " + one, t.Bound.Kind == pattern.NoBound
	case pattern.FromHook:
		return "into the " + ordinal(n, x.to == stitch.UK) + " chain from the hook", true
	case pattern.InRing:
		if x.ownRing(s) {
			return "into a magic ring", true
		}
		return "into the ring", true
	case pattern.TurnTop:
		return "in the top of the " + x.startChain(), len(t.Of) == 0 && !x.ordinal(s)
	}
	return "", false
}

// ownRing reports stitches that are worked into a magic ring which no
// instruction of the row made before them: "6 sc in MR", and not "MR, 6 sc in
// ring" nor "mr 6".
func (x *rowTeller) ownRing(s *pattern.Step) bool {
	for _, k := range append(slices.Clone(lead(x.r)), x.r.Row.Steps...) {
		if k == s {
			break
		}
		if k.Op == pattern.OpRing {
			return false
		}
	}
	for _, b := range cut(x.source(s)) {
		if b.low == "magic" || b.low == "mr" || b.low == "mc" {
			return true
		}
	}
	return false
}

// startChain is what the chain at the start of a row is called.
func (x *rowTeller) startChain() string {
	if x.goesRound() {
		return "beginning chain"
	}
	return "turning chain"
}

// ordinal reports a step whose words say which chain is meant: "3rd of ch-5",
// which need not be the top.
func (x *rowTeller) ordinal(s *pattern.Step) bool {
	bits := cut(x.source(s))
	for i, b := range bits {
		if ordinals()[b.low] || i > 0 && b.glued && bits[i-1].kind == bitNumber && (b.low == "st" || b.low == "nd" || b.low == "rd" || b.low == "th" || b.low == "d") {
			return true
		}
	}
	return false
}

// noun names the places meant, as one and as several.
func (x *rowTeller) noun(s *pattern.Step, of []pattern.Filter) (one, many string, ok bool) {
	if len(of) == 0 {
		return "stitch", "stitches", true
	}
	for i, f := range of {
		a, b := "", ""
		switch f.Kind {
		case pattern.AnyStitch:
			a = "stitch"
		case pattern.OneStitch:
			a, b = f.Stitch.Words(x.to), f.Stitch.Plural(x.to)
		case pattern.ChainStitch:
			a = "chain"
		case pattern.Space:
			switch {
			case f.Size > 0:
				a = "chain-" + x.number(f.Size) + " space"
			case s.Target.Which == pattern.Same:
				a = "space"
			default:
				a = "chain space"
			}
			if x.sayLoop(s) {
				a = strings.TrimSuffix(a, "space") + "loop"
			}
		case pattern.PicotPlace:
			a = "picot"
		case pattern.AnyCluster:
			a = "cluster"
		}
		if a == "" {
			return "", "", false
		}
		if b == "" {
			b = plurals(a)
		}
		if i > 0 {
			one, many = one+" and ", many+" and "
		}
		one, many = one+a, many+b
	}
	return one, many, true
}

// sayLoop reports whether the author calls the spaces loops.
func (x *rowTeller) sayLoop(s *pattern.Step) bool {
	for _, b := range cut(x.source(s)) {
		switch b.low {
		case "loop", "loops", "lp", "lps":
			return true
		}
	}
	return false
}

// bound says how far a run goes, with a space before it.
func (x *rowTeller) bound(b pattern.Bound) (string, bool) {
	switch b.Kind {
	case pattern.NoBound:
		return "", true
	case pattern.ToEnd:
		if x.goesRound() {
			return " all the way " + x.around(), true
		}
		return " across", true
	case pattern.ToLast:
		return " until you have " + x.remaining(b) + " left", len(b.Of) <= 1
	case pattern.ToMarker:
		return " until you reach the marker", true
	}
	return "", false
}

// goesRound reports work in rounds, whatever the pattern calls them.
func (x *rowTeller) goesRound() bool {
	return x.r.Kind == pattern.Round || slices.ContainsFunc(x.r.Row.Steps, func(s *pattern.Step) bool { return s.Op == pattern.OpJoin })
}

func (x *rowTeller) remaining(b pattern.Bound) string {
	one, many, ok := x.noun(&pattern.Step{}, b.Of)
	if !ok {
		one, many = "stitch", "stitches"
	}
	n := x.at(b.N)
	return x.number(n) + " " + plural(n, one, many)
}

func (t *teller) around() string {
	if t.to == stitch.UK {
		return "round"
	}
	return "around"
}
