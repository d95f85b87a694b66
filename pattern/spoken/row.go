package spoken

import (
	"slices"
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
// Leads are steps that are said with the row after.
func (t *teller) row(r *pattern.RowProof, before int64, last bool, leads []*pattern.Step) string {
	x := t.ofRow(r)
	if r.Status == pattern.Unread {
		return x.asWritten() + " " + x.total(before)
	}
	own := slices.DeleteFunc(slices.Clone(r.Row.Steps), func(s *pattern.Step) bool { return slices.Contains(leads, s) })
	steps, after := x.parted(own)
	said := x.sentences(append(slices.Clone(lead(r)), steps...)) + " " + x.total(before)
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
	p := paragraph{x: x}
	for i, s := range steps {
		if refer := x.r.Row.Refer; s.Unsaid() && (s.Op != pattern.OpNote || refer == nil || !refer.Measure) {
			continue
		}
		p.step(steps, i, s)
	}
	p.flush()
	if p.lead != "" {
		p.out = append(p.out, sentence(capitals(strings.TrimSuffix(p.lead, ", "))))
	}
	return strings.Join(p.out, " ")
}

// paragraph gathers the sentences of a row.
type paragraph struct {
	x      *rowTeller
	out    []string
	run    []string // instructions of the sentence at hand
	lead   string   // words to put before the next instruction: "with navy, "
	worked bool     // the first stitch has been said
}

func (p *paragraph) flush() {
	p.out = append(p.out, split(p.run)...)
	p.run = nil
}

func (p *paragraph) step(steps []*pattern.Step, i int, s *pattern.Step) {
	x := p.x
	switch {
	case s.Op == pattern.OpColour && i+1 < len(steps) && coloured(s, steps[i+1]):
		return // it is said with the stitches
	case i > 0 && coloured(steps[i-1], s):
		if one, many, noun, ok := x.name(s); ok {
			p.run = append(p.run, p.lead+x.count(x.at(s.Target.N), one, many, noun)+" in "+x.own(x.source(steps[i-1])))
			p.lead, p.worked = "", true
			return
		}
	case s.Op == pattern.OpNote || s.Op == pattern.OpColour:
		p.remark(steps, i, s)
		return
	case s.Op == pattern.OpGroup && len(s.Body) > 0 && x.tellable(s):
		before := p.worked || makesNow(steps[:i])
		p.flush()
		p.out = append(p.out, x.repeat(s, p.lead, before, makes(steps[i+1:]))...)
		p.lead, p.worked = "", true
		return
	case s.Op == pattern.OpStay && !p.worked && len(p.run) > 0:
		p.run[len(p.run)-1] += " and " + x.clause(s)
		return
	}
	if s.Op == pattern.OpLeave && len(p.run) == 0 && len(p.out) > 0 && p.lead == "" {
		if said := x.clause(s); strings.HasPrefix(said, "leaving") {
			last := &p.out[len(p.out)-1]
			*last = strings.TrimSuffix(*last, ".") + ", " + said + "."
			return
		}
	}
	if !p.worked && !prelude(s) {
		if s.Op != pattern.OpRing {
			p.flush()
		}
		p.worked = true
	}
	if closing(s) || s.Op == pattern.OpTurn && p.worked {
		p.flush()
	}
	had := len(p.run)
	p.run = x.add(p.run, steps, i)
	if n := len(p.run); p.lead != "" && n > had {
		p.run[n-1], p.lead = p.lead+p.run[n-1], ""
	}
	if s.Op == pattern.OpJoin || s.Op == pattern.OpStay {
		p.flush()
	}
}

// coloured reports whether a colour is named within the words of the stitches
// worked in it: "3 A".
func coloured(c, s *pattern.Step) bool {
	return c.Op == pattern.OpColour && s.Op == pattern.OpWork && c.Span.Start >= s.Span.Start && c.Span.End <= s.Span.End
}

func closing(s *pattern.Step) bool {
	return s.Op == pattern.OpJoin || s.Op == pattern.OpFasten || s.Op == pattern.OpStay
}

// remark says a remark or a change of colour: with the instruction before it
// where it leans on that, before the next one, or in a sentence of its own.
func (p *paragraph) remark(steps []*pattern.Step, i int, s *pattern.Step) {
	x := p.x
	said := x.remarked(unbracket(x.source(s)))
	if said == "" || i > 0 && x.told(steps[i-1], s) {
		return
	}
	bracket := x.bracketed(s)
	switch {
	case said == "magic ring":
		said = "make a magic ring"
	case said == "back loop only" || said == "front loop only":
		said = "working in the " + said
	case which(said) != said:
		said, bracket = which(said), true
	}
	joint := ", "
	goesOn := i > 0 && strings.Trim(x.between(steps[i-1], s), " \t") == "" && x.between(steps[i-1], s) != ""
	if goesOn && !bracket && s.Op == pattern.OpNote {
		joint = " "
	}
	switch {
	case !p.worked && !bracket && leads(said):
		p.flush()
		p.lead += said + ", "
	case s.Op == pattern.OpNote && (bracket || goesOn || leans(said)) && len(p.run) > 0:
		p.run[len(p.run)-1] += joint + said
	case s.Op == pattern.OpNote && (bracket || goesOn || leans(said)) && len(p.out) > 0 && p.lead == "":
		last := &p.out[len(p.out)-1]
		*last = strings.TrimSuffix(*last, ".") + joint + said + "."
	case leads(said):
		p.lead += said + ", "
	default:
		p.flush()
		p.out = append(p.out, sentence(capitals(p.lead+said)))
		p.lead = ""
	}
}

// told reports a remark that only says again what was said of the step before
// it: "(skipped ch counts as dc)", "(cluster)".
func (x *rowTeller) told(before, s *pattern.Step) bool {
	if c := before.Counts; c.Said && c.Span.Start < s.Span.End && s.Span.Start < c.Span.End {
		return true
	}
	if !x.bracketed(s) {
		return false
	}
	o := own{from: x.from, to: x.to}
	if o.glossed(x.source(before), unbracket(x.source(s))) {
		return true
	}
	one, _, _, ok := x.name(before)
	return ok && x.remarked(unbracket(x.source(s))) == one
}

// which begins a remark that has a verb of its own.
func which(said string) string {
	switch first, _, _ := strings.Cut(said, " "); first {
	case "is", "isn't", "counts", "does", "doesn't":
		return "which " + said
	}
	return said
}

// between is the source between two steps; "." where they do not stand one
// after the other.
func (x *rowTeller) between(a, b *pattern.Step) string {
	if a.Span.Empty() || b.Span.Start < a.Span.End {
		return "."
	}
	return x.proof.Pattern.Source.Slice(pattern.Span{Start: a.Span.End, End: b.Span.Start})
}

// bracketed reports a step that stands in brackets.
func (x *rowTeller) bracketed(s *pattern.Step) bool {
	at := s.Span.Start
	return strings.IndexByte("([{", x.proof.Pattern.Source.Text[at]) >= 0 || at > 0 && strings.IndexByte("([{", x.proof.Pattern.Source.Text[at-1]) >= 0
}

// unbracket takes the brackets off text that stands in them.
func unbracket(s string) string {
	if s != "" && strings.IndexByte("([{", s[0]) >= 0 {
		return strings.Trim(s, "()[]{}")
	}
	return s
}

// leads reports words that go before the instruction they belong to.
func leads(said string) bool {
	first, _, _ := strings.Cut(said, " ")
	return first == "with" || first == "using" || first == "working" || first == "in" || first == "holding" || first == "from"
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
func leans(said string) bool {
	first, _, _ := strings.Cut(said, " ")
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
		case s.Op == pattern.OpChain && run[n-1] == "turn":
			run[n-1] += " and " + x.clause(s)
			return run
		case s.Op == pattern.OpNote && i > 0:
			if !x.told(steps[i-1], s) {
				run[n-1] += ", " + which(x.own(unbracket(x.source(s))))
			}
			return run
		case s.Op == pattern.OpWork && x.placeOnly(s):
			if place, ok := x.place(s); ok && len(x.lost(s)) == 0 {
				work, counts, _ := strings.Cut(run[n-1], passed)
				if run[n-1] = work + " and " + place; counts != "" {
					run[n-1] += passed + counts
				}
				return run
			}
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

// split makes sentences of a list of instructions. One that does some steps
// again stands by itself, so that it is plain which they are.
func split(run []string) []string {
	var out []string
	for from := 0; from < len(run); {
		to := from
		for to < len(run) && !doesAgain(run[to]) {
			to++
		}
		if to == from {
			out = append(out, connected(run[from], len(out) > 0))
			from++
			continue
		}
		n := to - from
		parts := (n + most - 1) / most
		for k := range parts {
			out = append(out, connected(list(run[from+k*n/parts:from+(k+1)*n/parts]), len(out) > 0))
		}
		from = to
	}
	return out
}

// connected is a sentence that may go on from the one before.
func connected(s string, goesOn bool) string {
	first, _, _ := strings.Cut(s, " ")
	switch {
	case !goesOn:
	case doesAgain(s):
		s = "next, " + s
	case strings.HasSuffix(first, "ing") || first == "with" || first == "into":
		s = "then, " + s
	default:
		s = "then " + s
	}
	return sentence(s)
}

// doesAgain reports an instruction that does several steps again.
func doesAgain(item string) bool {
	return strings.Contains(item, ", and do those ") || strings.Contains(item, ", and repeat those ")
}

// list joins instructions: "a, b, then c".
func list(items []string) string {
	switch n := len(items); n {
	case 0:
		return ""
	case 1:
		return items[0]
	default:
		if strings.HasPrefix(items[n-1], "then ") {
			return strings.Join(items, ", ")
		}
		for i := range items[:n-1] {
			items[i] = strings.TrimSuffix(items[i], ",") // "chain three, which counts as a double crochet,"
		}
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
