package pattern

import (
	"fmt"
	"strings"
)

// namedClaimed holds a total in a name of the author's own against the repeat that gives
// the name: "* ch 3, skip 2 d c, s c in next d c, ch 3, skip 2 d c, d c in next d c
// (lacet), repeat from * across. There are 6 lacets." There are as many as the repeat has
// passes, or one more where the name is given once outside of it; one of the halves at the
// ends may be counted too, so that only a number this near is taken for a slip.
func (pr *prover) namedClaimed() {
	for _, w := range pr.pieces {
		for _, rp := range w.proof.Rows {
			row := rp.Row
			if t := row.Total; t == nil || rp.Status != Unstated || rp.Trace == nil || len(t.Parts) != 1 || t.Parts[0].Kind != PartOther {
				continue
			}
			p := row.Total.Parts[0]
			want, name := p.N.At(pr.size), oneOfThem(p.Name)
			n, ok := passesNaming(rp.Trace, row.Steps, name)
			if !ok && (name == "repeat" || name == "rep") {
				// "- that's 24 repeats"; the first may be told before the repeat
				n, ok = passesNaming(rp.Trace, row.Steps, anyRepeat)
				ok = ok && want != n+1 && slipOf(want, n)
			}
			if ok && n > 2 && want != n {
				pr.say(Error, CodeTotal, row.Total.Span, fmt.Sprintf("the repeat that makes them is worked %s, and %d %s are stated", countWords(n, "time", "times"), want, p.Name), fmt.Sprintf("the total should read %d %s", n, p.Name))
				rp.Status = Differs
			}
		}
	}
}

// anyRepeat is the name that each repeat gives: its own.
const anyRepeat = "*"

// passesNaming is how often the only repeat of a row is worked whose words end in a
// bracket that gives a name, where no other words of the row do.
func passesNaming(t *Trace, steps []*Step, name string) (int64, bool) {
	if name == "" {
		return 0, false
	}
	var group *Step
	for _, s := range steps {
		switch {
		case s.Op == OpNote && givesName(s, name):
			return 0, false // made once more, outside
		case s.Op == OpGroup && len(s.Body) > 0 && (name == anyRepeat || givesName(s.Body[len(s.Body)-1], name)):
			if group != nil || s.partial != 0 || s.ending != nil {
				return 0, false
			}
			group = s
		}
	}
	if group == nil {
		return 0, false
	}
	for _, k := range t.Kids {
		if k.Step == group && k.Of > 0 {
			return k.Of, true
		}
		for _, kk := range k.Kids {
			if kk.Step == group && kk.Of > 0 {
				return kk.Of, true
			}
		}
	}
	return 0, false
}

// givesName reports a remark that is such a name in brackets: "(lacet)", "(1 lacet made)".
func givesName(s *Step, name string) bool {
	if s.Op != OpNote || !strings.HasPrefix(s.Text, "(") {
		return false
	}
	for _, w := range strings.Fields(strings.ToLower(strings.Trim(s.Text, "().,"))) {
		if oneOfThem(w) == name {
			return true
		}
	}
	return false
}

// oneOfThem is a noun without the ending of several, in small letters.
func oneOfThem(noun string) string {
	noun = strings.ToLower(noun)
	for _, end := range [...]string{"sses", "shes", "ches", "xes"} {
		if strings.HasSuffix(noun, end) {
			return strings.TrimSuffix(noun, "es")
		}
	}
	if strings.HasSuffix(noun, "ss") {
		return noun // "cross"
	}
	return strings.TrimSuffix(noun, "s")
}
