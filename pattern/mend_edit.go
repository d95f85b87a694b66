package pattern

import (
	"regexp"
	"sort"
	"strings"
	"sync"

	"crochet/tallyturn/pattern/stitch"
)

// editKind is what an edit changes.
type editKind uint8

const (
	editNumber editKind = iota // a number in the words
	editTotal                  // the stated total
	editDrop                   // an instruction is left out
	editFirst                  // an instruction more at the beginning
	editLast                   // an instruction more at the end
)

// edit is one small change to a row.
type edit struct {
	kind  editKind
	span  Span   // the number, or the instruction
	to    int64  // editNumber
	total *Total // editTotal
	step  *Step  // editFirst, editLast
	size  int
	cost  int    // the likelier the slip, the less
	text  string // the change in words
}

// apply gives a copy of the row with the change made.
func (e edit) apply(r *Row) *Row {
	c := *r
	switch e.kind {
	case editTotal:
		c.Total = e.total
	case editNumber:
		c.Setup, c.Steps = e.renumbered(r.Setup), e.renumbered(r.Steps)
	case editDrop:
		c.Steps = nil
		for _, s := range r.Steps {
			if s.Span != e.span {
				c.Steps = append(c.Steps, s)
			}
		}
	case editFirst:
		at := 0
		for at < len(r.Steps) && !makesStitches(r.Steps[at]) {
			at++
		}
		c.Steps = inserted(r.Steps, at, e.step)
	case editLast:
		at := len(r.Steps)
		for at > 0 && (!makesStitches(r.Steps[at-1]) || r.Steps[at-1].Op == OpWork && r.Steps[at-1].Stitch == stitch.Slip) {
			at--
		}
		c.Steps = inserted(r.Steps, at, e.step)
	}
	return &c
}

func inserted(steps []*Step, at int, s *Step) []*Step {
	out := append([]*Step(nil), steps[:at]...)
	return append(append(out, s), steps[at:]...)
}

// renumbered copies steps with the number at the edit's span changed.
func (e edit) renumbered(steps []*Step) []*Step {
	if steps == nil {
		return nil
	}
	out := make([]*Step, len(steps))
	for i, s := range steps {
		c := *s
		if s.special == nil {
			c.Body = e.renumbered(s.Body)
		}
		if s.ending != nil {
			end := *s.ending
			end.Body = e.renumbered(s.ending.Body)
			c.ending = &end
		}
		for _, n := range numbersOf(&c) {
			if n.num.Span == e.span && !e.span.Empty() || n.implied == e.span && !n.implied.Empty() {
				*n.num = n.num.with(e.to, e.size)
			}
		}
		out[i] = &c
	}
	return out
}

// with is the number with its value for one size changed. A number that was
// only understood is written from now on.
func (n Num) with(to int64, size int) Num {
	if len(n.Sizes) == 0 {
		n.N = to
		return n
	}
	n.Sizes = append([]int64(nil), n.Sizes...)
	n.Sizes[min(max(size, 0), len(n.Sizes)-1)] = to
	n.N = n.Sizes[0]
	return n
}

// numRole is what a number does in its instruction.
type numRole uint8

const (
	roleTimes numRole = iota
	roleCount         // so many places
	rolePer           // so many stitches in each
	roleChain
	roleHook // the so-many-th chain from the hook
	roleNth
	roleBound
)

// numAt is a number of an instruction.
type numAt struct {
	num     *Num
	role    numRole
	phrase  Span // the words it is best quoted with
	which   Which
	implied Span // of "next st", where no number is written and 1 is meant
}

var oneNext = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(?:in )?(?:the )?(?:next|last|first) (?:st|sc|hdc|dc|tr|htr|dtr|ch)$`)
})

// numbersOf lists the numbers of an instruction itself, not of those in it.
func numbersOf(s *Step) []numAt {
	var out []numAt
	phrase := func(sp Span, n *Num) Span {
		if !sp.Contains(n.Span) || n.Span.Empty() {
			sp = n.Span
		}
		if s.Span.Contains(n.Span) && s.Span.Len() <= 36 && len(s.Body) == 0 {
			sp = cover(sp, s.Span)
		}
		return sp
	}
	add := func(n *Num, role numRole, sp Span) {
		if n.Span.Empty() {
			return
		}
		for _, o := range out {
			if o.num.Span == n.Span {
				role = o.role
			}
		}
		out = append(out, numAt{num: n, role: role, phrase: phrase(sp, n), which: s.Target.Which})
	}
	if s.Op == OpGroup {
		add(&s.Times.N, roleTimes, s.Times.Span)
		add(&s.Times.Bound.N, roleBound, s.Times.Bound.Span)
		return out
	}
	own := rolePer
	if s.Op == OpChain {
		own = roleChain
	}
	add(&s.N, own, s.Span)
	t := &s.Target
	switch {
	case t.Which == FromHook:
		add(&t.N, roleHook, t.Span)
	case t.Which == Nth:
		add(&t.N, roleNth, t.Span)
	default:
		add(&t.N, roleCount, t.Span)
	}
	add(&t.Bound.N, roleBound, t.Bound.Span)
	add(&t.told, roleCount, t.Span)
	if s.Op == OpWork && t.said && t.Which == Next && t.N.N == 1 && t.N.Span.Empty() && !t.Span.Empty() && s.Legs == 0 {
		out = append(out, numAt{num: &t.N, role: roleCount, phrase: t.Span, implied: t.Span})
	}
	return out
}

// eachNumber goes through the numbers of steps and of the steps in them.
func eachNumber(steps []*Step, depth int, do func(s *Step, n numAt)) {
	if depth > maxDepth {
		return
	}
	for _, s := range steps {
		for _, n := range numbersOf(s) {
			do(s, n)
		}
		if s.special == nil {
			eachNumber(s.Body, depth+1, do)
		}
		if s.ending != nil {
			eachNumber(s.ending.Body, depth+1, do)
		}
	}
}

// numberEdits tries other numbers for each of the row's own: neighbours, and
// the one that its effect on the row asks for.
func (w *pieceWork) numberEdits(ask *mendAsk, test func(edit) *trial) {
	size := w.pr.size
	var all []numAt
	seen := make(map[Span]bool)
	gather := func(s *Step, n numAt) {
		key := cover(n.num.Span, n.implied)
		if n.role == roleChain && s.Op != OpChain || seen[key] {
			return
		}
		seen[key] = true
		if n.implied.Empty() || oneNext().MatchString(w.pr.pat.Source.Slice(n.implied)) {
			all = append(all, n)
		}
	}
	eachNumber(ask.label.Setup, 0, gather)
	eachNumber(ask.label.Steps, 0, gather)
	if len(all) > mendTries/2 {
		all = all[:mendTries/2]
	}
	made, left := ask.base.made, ask.base.left+ask.base.rw.misfitLeft
	stated, has := w.totalOf(ask.total)
	for _, n := range all {
		from := n.num.At(size)
		done := map[int64]bool{from: true}
		run := func(to int64) (r trialRow, ok bool) {
			least := int64(1)
			if n.role == roleHook {
				least = 2
			}
			if to < least || done[to] {
				return r, false
			}
			done[to] = true
			t := test(w.numberEdit(ask, n, to, int64(len(done))))
			if t == nil || len(t.rows) == 0 {
				return r, false
			}
			return t.rows[0], true
		}
		up, upOK := run(from + 1)
		down, downOK := run(from - 1)
		if ask.base.fatal != nil {
			w.fitting(from, run, downOK && down.fatal)
			continue
		}
		// what one more of it does to the count, and to what is left
		solve := func(r trialRow, by int64) {
			if d := (r.made - made) * by; has && d != 0 && (stated-made)%d == 0 {
				run(from + (stated-made)/d)
			}
			if d := (left - r.left) * by; left > 0 && d > 0 && left%d == 0 {
				run(from + left/d)
			}
		}
		switch {
		case upOK && !up.fatal:
			solve(up, 1)
		case downOK && !down.fatal:
			solve(down, -1)
		}
		run(from + 2)
		run(from - 2)
	}
}

// fitting finds the largest number below from with which the row does not run
// out of places.
func (w *pieceWork) fitting(from int64, run func(int64) (trialRow, bool), fatal bool) {
	if !fatal {
		run(from - 2)
		return
	}
	lo, hi := int64(0), from-1 // hi does not fit
	for hi-lo > 1 {
		mid := lo + (hi-lo)/2
		if hi-lo > 8 && from-hi < 4 {
			mid = hi - 2
		}
		r, ok := run(mid)
		if !ok {
			return
		}
		if r.fatal {
			hi = mid
		} else {
			lo = mid
		}
	}
	run(lo - 1)
}

// numberEdit is the edit of a number, with its words.
func (w *pieceWork) numberEdit(ask *mendAsk, n numAt, to, nth int64) edit {
	size := w.pr.size
	from := n.num.At(size)
	e := edit{kind: editNumber, span: cover(n.num.Span, n.implied), to: to, size: size}
	e.cost = [...]int{roleTimes: 0, roleCount: 0, rolePer: 1, roleChain: 2, roleHook: 6, roleNth: 1, roleBound: 1}[n.role]
	if by := max(to-from, from-to); by > 1 {
		e.cost += int(min(by, 6))
	}
	if n.role == roleChain && len(ask.label.Steps) > 0 && n.num.Span.Start < firstMade(ask.label.Steps) {
		if from > 6 {
			e.cost -= 2 // the foundation
		} else {
			e.cost += 6 // a turning chain: its height follows from the stitch
		}
	}
	if !n.implied.Empty() {
		e.cost += 2
	}
	if n.role == rolePer && to > 2 && from > 0 && (n.which == First || n.which == Last) {
		e.cost += 5 // an end is shaped by two in one stitch, hardly by more
	}
	src := w.pr.pat.Source
	old := src.Slice(n.phrase)
	var fresh string
	if n.implied.Empty() {
		at := Span{n.num.Span.Start - n.phrase.Start, n.num.Span.End - n.phrase.Start}
		fresh = old[:at.Start] + renumber(old[at.Start:at.End], to, size) + old[at.End:]
	} else {
		i := strings.LastIndexByte(old, ' ')
		fresh = old[:i] + " " + itoa(to) + old[i:]
	}
	fresh = singular(fresh, to)
	e.text = "change " + w.nthOf(ask.label, n.phrase) + quote(old) + " to " + quote(fresh)
	return e
}

func firstMade(steps []*Step) int {
	for _, s := range steps {
		if makesStitches(s) {
			return s.Span.Start
		}
	}
	return 0
}

// totalEdit is the total as the row has it.
func (w *pieceWork) totalEdit(ask *mendAsk) (edit, bool) {
	t := ask.total
	if t == nil || t.delta || t != ask.label.Total || ask.base.fatal != nil || ask.base.status != Differs {
		return edit{}, false
	}
	c := *t
	c.Parts = append([]TotalPart(nil), t.Parts...)
	size, src := w.pr.size, w.pr.pat.Source
	type change struct {
		at   Span
		text string
	}
	var changes []change
	tl := tallyOf(&ask.base.rw.out)
	zero := false
	for i := range c.Parts {
		p := &c.Parts[i]
		n, ok := w.partMade(tl, ask.base, *p)
		if !ok {
			return edit{}, false
		}
		if p.Kind == PartSpace && p.Size > 0 && tl.bySize[p.Size] == 0 && len(tl.bySize) == 1 {
			// the spaces are there, and are of another length
			for is := range tl.bySize {
				at, ok := w.sizeIn(t, p)
				if !ok {
					return edit{}, false
				}
				changes = append(changes, change{at, itoa(is)})
				p.Size = is
			}
		}
		if n == p.N.At(size) {
			continue
		}
		zero = zero || n == 0
		if p.N.Span.Empty() || !t.Span.Contains(p.N.Span) {
			return edit{}, false
		}
		changes = append(changes, change{p.N.Span, renumber(src.Slice(p.N.Span), n, size)})
		p.N = p.N.with(n, size)
	}
	if len(changes) == 0 || ask.base.made == 0 {
		return edit{}, false
	}
	e := edit{kind: editTotal, total: &c, span: t.Span, size: size}
	text := src.Slice(t.Span)
	sort.SliceStable(changes, func(i, j int) bool { return changes[i].at.Start > changes[j].at.Start })
	for _, ch := range changes {
		a, b := ch.at.Start-t.Span.Start, ch.at.End-t.Span.Start
		text = text[:a] + ch.text + text[b:]
	}
	e.text = oneLine(text)
	if at := strings.IndexAny(e.text, "([{<0123456789"); at > 0 {
		e.text = e.text[at:]
	}
	e.text = strings.TrimRight(e.text, " .,;:")
	if zero {
		c.Parts = []TotalPart{{N: Num{N: ask.base.made}, Kind: PartStitches}}
		e.text = "(" + w.kindWords(ask.base) + ")"
	}
	return e, true
}

// sizeIn finds the length of a space where a part of a total names it: the 2
// of "12 ch-2 sps".
func (w *pieceWork) sizeIn(t *Total, p *TotalPart) (Span, bool) {
	words := w.pr.pat.Source.Slice(Span{p.N.Span.End, t.Span.End})
	at := strings.Index(words, itoa(p.Size))
	if comma := strings.IndexByte(words, ','); at < 0 || comma >= 0 && comma < at {
		return Span{}, false
	}
	at += p.N.Span.End
	return Span{at, at + len(itoa(p.Size))}, true
}

// kindWords lists what a row made by kind.
func (w *pieceWork) kindWords(o outcome) string {
	var out []string
	for _, k := range kindsOf(&o.rw.out, w.pr.terms) {
		out = append(out, itoa(k.N)+" "+k.Name)
	}
	return strings.Join(out, ", ")
}

// partMade is what a row made of the thing that a part of a total counts.
func (w *pieceWork) partMade(t tally, o outcome, p TotalPart) (int64, bool) {
	switch p.Kind {
	case PartStitches:
		return o.made, true
	case PartStitch:
		if n := w.family(t, p.ID); t.byID[p.ID] == 0 || n == t.stitches {
			return n, true
		}
		return t.byID[p.ID], true
	case PartSpace:
		if n := t.bySize[p.Size]; p.Size > 0 && n > 0 {
			return n, true
		}
		return t.spaces, true
	case PartChain:
		return t.chains, true
	case PartNamed:
		if n := t.byID[p.ID]; p.ID != stitch.None && n > 0 {
			return n, true
		}
		if n := w.named(t, p); n > 0 {
			return n, true
		}
		return 0, false
	}
	return p.N.At(w.pr.size), true
}

// stepEdits are the instructions that may be one too many, or missing at an
// end of the row.
func (w *pieceWork) stepEdits(ask *mendAsk) []edit {
	var out []edit
	row, src := ask.label, w.pr.pat.Source
	for _, s := range row.Steps {
		single := s.Op == OpWork || s.Op == OpSkip || s.Op == OpInto
		if !single || s.Target.Which == Each || s.Span.Empty() || s.implicit || len(out) >= 12 {
			continue
		}
		words := src.Slice(s.Span)
		if len(words) > 60 || !strings.Contains(words, " ") && words != "inc" && words != "dec" {
			continue
		}
		out = append(out, edit{kind: editDrop, span: s.Span, cost: 5,
			text: "leave out " + w.nthOf(row, s.Span) + quote(words)})
	}
	if row.Kind != FlatRow || ask.base.rw.below == nil || ask.base.rw.below.chain {
		return out
	}
	main := mainOf(&ask.base.rw.out)
	name := main.Name(w.pr.terms)
	add := func(kind editKind, s *Step, words, verb string) {
		s.Op, s.Stitch = OpWork, main
		out = append(out, edit{kind: kind, step: s, span: row.Span, cost: 4, text: verb + quote(words)})
	}
	last := func(n int64) Target { return Target{Which: Last, N: Num{N: n}, said: true} }
	first := func(n int64) Target { return Target{Which: First, N: Num{N: n}, said: true} }
	add(editLast, &Step{N: Num{N: 1}, Target: last(1)}, name+" in last st", "end with ")
	add(editLast, &Step{N: Num{N: 2}, Target: last(1)}, "2 "+name+" in last st", "end with ")
	add(editFirst, &Step{N: Num{N: 2}, Target: first(1)}, "2 "+name+" in first st", "begin with ")
	add(editLast, &Step{N: Num{N: 1}, Legs: 2, Target: last(2)}, name+"2tog over last 2 sts", "end with ")
	add(editFirst, &Step{N: Num{N: 1}, Legs: 2, Target: first(2)}, name+"2tog over first 2 sts", "begin with ")
	return out
}
