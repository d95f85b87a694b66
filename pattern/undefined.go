package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/stitch"
)

// undefined says of each group that is used without a definition what it was
// taken for, where it is first used.
func (pr *prover) undefined() {
	said := make(map[*Special]bool)
	var scan func(steps []*Step, depth int)
	scan = func(steps []*Step, depth int) {
		for _, s := range steps {
			if sp := s.special; sp != nil {
				if usual(sp) && !said[sp] {
					said[sp] = true
					pr.say(Note, CodeUndefined, s.Span, fmt.Sprintf("the pattern does not say what a %s is; it is taken for %s in one place", sp.Names[0], groupWords(sp.Body, pr.terms, pr.size)), "")
				}
				continue
			}
			if depth < maxDepth {
				scan(s.Body, depth+1)
			}
		}
	}
	for _, p := range pr.pat.Pieces {
		for _, r := range p.Rows {
			scan(r.Setup, 0)
			scan(r.Steps, 0)
		}
	}
}

func usual(sp *Special) bool {
	for _, u := range usualGroups {
		if u == sp {
			return true
		}
	}
	return false
}

// groupWords says what a group is made of: "dc, ch 1, dc".
func groupWords(body []*Step, t stitch.Terms, size int) string {
	out := ""
	for i, s := range body {
		if i > 0 {
			out += ", "
		}
		switch n := s.Target.N.At(size); {
		case s.Op == OpChain:
			out += "ch " + itoa(s.N.At(size))
		case n > 1:
			out += itoa(n) + " " + s.Stitch.Name(t)
		default:
			out += s.Stitch.Name(t)
		}
	}
	return out
}
