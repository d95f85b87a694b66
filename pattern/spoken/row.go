package spoken

import (
	"strings"

	"crochet/tallyturn/pattern"
)

// rowTeller says one row.
type rowTeller struct {
	*teller
	r      *pattern.RowProof
	passes map[*pattern.Step]int64 // how often each repeat of the row is worked in all
}

func (t *teller) ofRow(r *pattern.RowProof) *rowTeller {
	x := &rowTeller{teller: t, r: r, passes: make(map[*pattern.Step]int64)}
	x.countPasses(r.Trace)
	return x
}

func (x *rowTeller) countPasses(t *pattern.Trace) {
	if t == nil {
		return
	}
	if t.Of > 0 && t.Step != nil {
		if n, ok := x.passes[t.Step]; ok && n != t.Of {
			x.passes[t.Step] = -1 // otherwise each time
		} else {
			x.passes[t.Step] = t.Of
		}
	}
	for _, k := range t.Kids {
		x.countPasses(k)
	}
}

// row says the words of a row, without its label: what is worked, what it
// comes to and what stands after that. Before is what the row before came to.
// Last tells that no row of its label follows, so that what closes them is said.
func (t *teller) row(r *pattern.RowProof, before int64, last bool) string {
	x := t.ofRow(r)
	if r.Status == pattern.Unread {
		return x.asWritten() + " " + x.total(before)
	}
	steps, after := x.parted(r.Row.Steps)
	said := x.sentences(r.Lead) + " " + x.sentences(steps) + " " + x.total(before)
	if last {
		said += " " + x.after(after)
	}
	return said
}

// parted parts from the steps of a row those that close it, which are said
// after its total: what stands behind the total, and fastening off.
func (x *rowTeller) parted(steps []*pattern.Step) (row, after []*pattern.Step) {
	at := len(steps)
	for i, s := range steps {
		if total := x.r.Row.Total; s.Op == pattern.OpFasten || total != nil && s.Span.Start >= total.Span.End && !s.Span.Empty() {
			at = i
			break
		}
	}
	if makes(steps[at:]) || !makes(steps[:at]) {
		return steps, nil
	}
	return steps[:at], steps[at:]
}

// after says what closes a row, or the last of several.
func (x *rowTeller) after(steps []*pattern.Step) string {
	said := x.sentences(steps)
	if said != "" && x.r.Count() > 1 && (steps[0].Op == pattern.OpFasten) {
		return "After the last of them, " + small1(said)
	}
	return said
}

// asWritten is a row in the author's own words.
func (x *rowTeller) asWritten() string {
	var words strings.Builder
	for _, w := range x.proof.Words(x.r) {
		words.WriteString(w.Text)
	}
	return sentence(capitals(x.own(words.String())))
}

// makes reports whether any stitch is worked in steps.
func makes(steps []*pattern.Step) bool {
	for _, s := range steps {
		switch s.Op {
		case pattern.OpWork, pattern.OpGroup, pattern.OpInto, pattern.OpFree, pattern.OpAlong, pattern.OpEven, pattern.OpPicot:
			return true
		}
	}
	return false
}

// most is how many instructions go into one sentence.
const most = 4

// sentences says a list of steps: first what goes before the first stitch,
// then the stitches, each repeat in sentences of its own, and what closes the
// row.
func (x *rowTeller) sentences(steps []*pattern.Step) string {
	var out []string
	var run []string // instructions gathered for the next sentence
	begun := false
	flush := func() {
		out = append(out, split(run, begun)...)
		begun = begun || len(run) > 0
		run = nil
	}
	worked := false
	for i := 0; i < len(steps); i++ {
		s := steps[i]
		switch {
		case s.Unsaid() && s.Op != pattern.OpNote:
			continue
		case s.Op == pattern.OpGroup && len(s.Body) > 0 && x.tellable(s):
			lead := ""
			if len(run) > 0 && strings.HasPrefix(run[len(run)-1], "with ") {
				lead, run = run[len(run)-1]+", ", run[:len(run)-1]
			}
			before := worked || makesNow(steps[:i])
			flush()
			out = append(out, x.repeat(s, lead, before, makes(steps[i+1:]))...)
			begun, worked = true, true
			continue
		case s.Op == pattern.OpNote && !x.leans(s):
			flush()
			said := x.own(x.source(s))
			if said == "magic ring" {
				said = "make a magic ring"
			}
			out = append(out, sentence(capitals(said)))
			continue
		}
		if !worked && !prelude(s) {
			if len(run) > 0 && !strings.HasPrefix(run[len(run)-1], "with ") && s.Op != pattern.OpRing {
				flush()
			}
			worked = true
		}
		if s.Op == pattern.OpJoin || s.Op == pattern.OpFasten || s.Op == pattern.OpTurn && worked {
			flush()
		}
		run = x.add(run, steps, i)
		if s.Op == pattern.OpJoin {
			flush()
		}
	}
	flush()
	return strings.Join(out, " ")
}

// prelude reports what goes before the first stitch of a row.
func prelude(s *pattern.Step) bool {
	switch s.Op {
	case pattern.OpChain, pattern.OpTurn, pattern.OpColour, pattern.OpNote, pattern.OpStay:
		return true
	}
	return false
}

func makesNow(steps []*pattern.Step) bool {
	for _, s := range steps {
		if s.Op == pattern.OpAttach {
			return true
		}
	}
	return makes(steps)
}

// leans reports a remark that says how the instruction before it is worked,
// rather than something of its own.
func (x *rowTeller) leans(s *pattern.Step) bool {
	if at := s.Span.Start; at > 0 && strings.IndexByte("([{", x.proof.Pattern.Source.Text[at-1]) >= 0 {
		return true
	}
	first, _, _ := strings.Cut(strings.ToLower(x.source(s)), " ")
	switch first {
	case "in", "into", "with", "working", "worked", "through", "making", "placing", "being", "taking", "holding", "leaving", "over", "around", "behind", "blo", "flo", "loosely", "tightly", "evenly", "counting", "which", "keeping", "inserting":
		return true
	}
	return false
}

// add puts the i-th step behind the instructions of a sentence.
func (x *rowTeller) add(run []string, steps []*pattern.Step, i int) []string {
	s := steps[i]
	if n := len(run); n > 0 {
		switch {
		case s.Op == pattern.OpTurn && len(x.lost(s)) == 0:
			run[n-1] += " and turn"
			return run
		case s.Op == pattern.OpNote:
			run[n-1] += ", " + x.own(x.source(s))
			return run
		case s.Op == pattern.OpWork && x.placeOnly(s):
			if place, ok := x.place(s); ok && len(x.lost(s)) == 0 {
				run[n-1] += " and " + place
				return run
			}
		case strings.HasPrefix(run[n-1], "with ") && !strings.Contains(run[n-1], ", "):
			run[n-1] += ", " + x.clause(s)
			return run
		}
	}
	if c := x.clause(s); c != "" {
		run = append(run, c)
	}
	return run
}

// placeOnly reports a step that goes on with the stitch before it: "and in
// each ch across".
func (x *rowTeller) placeOnly(s *pattern.Step) bool {
	text := strings.TrimPrefix(strings.ToLower(strings.TrimSpace(x.source(s))), "and ")
	return s.Defined() == nil && s.Target.Said() && (strings.HasPrefix(text, "in ") || strings.HasPrefix(text, "into "))
}

// split makes sentences of a list of instructions.
func split(run []string, begun bool) []string {
	if len(run) == 0 {
		return nil
	}
	parts := (len(run) + most - 1) / most
	var out []string
	for k := range parts {
		from, to := k*len(run)/parts, (k+1)*len(run)/parts
		s := list(run[from:to])
		if k > 0 {
			s = "then " + s
		}
		out = append(out, sentence(s))
	}
	return out
}

// list joins instructions: "a, b, then c".
func list(items []string) string {
	switch n := len(items); n {
	case 0:
		return ""
	case 1:
		return items[0]
	default:
		return strings.Join(items[:n-1], ", ") + ", then " + items[n-1]
	}
}

// series joins things: "a, b and c".
func series(items []string) string {
	switch n := len(items); n {
	case 0:
		return ""
	case 1:
		return items[0]
	default:
		return strings.Join(items[:n-1], ", ") + " and " + items[n-1]
	}
}

// source is a step in the author's words.
func (x *rowTeller) source(s *pattern.Step) string {
	return strings.TrimSpace(x.proof.Pattern.Source.Slice(s.Span))
}
