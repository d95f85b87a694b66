package pattern

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
)

// An error says that a number of the author's is wrong. It is sure only where
// the reader is sure of what it read, and the best witness to that is a small
// slip that explains it: one number out by one or two with which the row comes
// out. Who reads a row amiss finds it out by anything, and no small change to
// a number mends that. So an error that nothing explains is a doubt, and is told as a
// warning; and one that stands on a row which did not come out follows from that
// one as likely as from anything of its own.

// Bounds on the search for a number that explains an error.
const (
	doubtTries  = 120
	doubtPieces = 12
	doubtRows   = 150
	doubtBy     = 3 // a number is out by so many at most
	doubtFlips  = 4 // chains that nobody explains, each taken the other way
)

// countCode reports whether a finding of this code is one of the count of a row,
// which a row read amiss would have as well.
func countCode(c Code) bool {
	switch c {
	case CodeOverrun, CodeMisfit, CodeLeft, CodeStepped, CodeTotal:
		return true
	}
	return false
}

// doubt takes back the errors of a piece that nothing explains, and those that
// follow from others.
func (pr *prover) doubt(p *Piece, w *pieceWork, found int) {
	if w.slipTold {
		return
	}
	order := pr.errorsInOrder(found)
	after := -1 // where the piece is amiss, and no row came out since
	for _, i := range order {
		f := &pr.out[i]
		if !countCode(f.Code) {
			continue
		}
		if after >= 0 && w.agreedBetween(pr.out[after].Span.Start, f.Span.Start) {
			after = -1
		}
		if w.explained[i] {
			if after < 0 {
				after = i
			}
			continue
		}
		if after >= 0 {
			line, _ := pr.pat.Source.Position(pr.out[after].Span.Start)
			f.Severity = Warning
			f.Message += fmt.Sprintf("; it may follow from line %d, which does not come out", line)
			continue
		}
		after = i
		if pr.searchWitness(p, found, i) {
			continue
		}
		f.Severity = Warning
		f.Message += "; no small change to a number explains it, and it may be read amiss"
	}
}

// errorsInOrder lists the errors since found in the order of the text.
func (pr *prover) errorsInOrder(found int) []int {
	var out []int
	for i := found; i < len(pr.out); i++ {
		if pr.out[i].Severity == Error {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(pr.out[a].Span.Start, pr.out[b].Span.Start) })
	return out
}

// agreedBetween reports whether a row that stands between two places of the text
// agrees with the total that it states, and all of the row below it is used.
func (w *pieceWork) agreedBetween(from, to int) bool {
	for _, r := range w.proof.Rows {
		if at := r.Row.Span.Start; at > from && r.Row.Span.End <= to && r.Status == Agrees && r.Left == 0 {
			return true
		}
	}
	return false
}

// explains reports whether an edit is one that an author would slip by.
func (e *edit) explains(ask *mendAsk, size int) bool {
	switch e.kind {
	case editNumber:
		from, ok := int64(0), false
		each := func(_ *Step, n numAt) {
			if sp := cover(n.num.Span, n.implied); !ok && sp == e.span {
				from, ok = n.num.At(size), true
			}
		}
		eachNumber(ask.label.Setup, 0, each)
		eachNumber(ask.label.Steps, 0, each)
		return ok && (slipOf(from, e.to) || from > hugeCount)
	case editTotal:
		if len(e.total.Parts) > 1 && sumOf(e.total, size) == sumOf(ask.total, size) {
			return true // the kinds are told the wrong way round
		}
		for i := range e.total.Parts {
			a, b := ask.total.Parts[i].N.At(size), e.total.Parts[i].N.At(size)
			if lo, hi := min(a, b), max(a, b); lo*7 < hi*4 && hi-lo > doubtBy {
				return false
			}
		}
		return true
	}
	return e.kind != editDrop
}

// upheld reports whether a total that is set right is stated by the next rows too.
func (p *proposal) upheld() bool {
	if p.edit.kind != editTotal || len(p.trial.rows) < 3 {
		return false
	}
	for _, r := range p.trial.rows[1:3] {
		if !r.clean || r.status != Agrees {
			return false
		}
	}
	return true
}

// hugeCount is more than any row has: what is larger is no word misread.
const hugeCount = 10_000

// sumOf adds up the parts of a total.
func sumOf(t *Total, size int) int64 {
	n := int64(0)
	for i := range t.Parts {
		n += t.Parts[i].N.At(size)
	}
	return n
}

// slipOf reports whether one number is written for another by a slip: it is out
// by a little, or its figures are turned round, or one of them is dropped or
// written twice.
func slipOf(a, b int64) bool {
	if by := max(a-b, b-a); by <= doubtBy || 5*by <= max(a, b) {
		return true
	}
	s, t := itoa(a), itoa(b)
	if len(s) == len(t)+1 {
		s, t = t, s
	}
	if len(t) == len(s)+1 { // 9 for 19, 120 for 12
		for i := range len(t) {
			if t[:i]+t[i+1:] == s {
				return true
			}
		}
	}
	if len(s) == len(t) && len(s) > 1 {
		var at []int
		for i := range len(s) {
			if s[i] != t[i] {
				at = append(at, i)
			}
		}
		return len(at) == 2 && at[1] == at[0]+1 && s[at[0]] == t[at[1]] && s[at[1]] == t[at[0]]
	}
	return false
}

// weigh notes whether the error of an ask is explained by one of its mends, or
// by a small change to what it states.
func (w *pieceWork) weigh(ask *mendAsk) {
	size := w.pr.size
	ok := false
	for i := range ask.found {
		ok = ok || ask.found[i].edit.explains(ask, size) || ask.found[i].upheld()
	}
	ok = ok || w.totalOut(ask, ask.base) || w.readsNear(ask) || w.comesOut(ask)
	if !ok {
		return
	}
	if w.explained == nil {
		w.explained = make(map[int]bool)
	}
	w.explained[ask.finding] = true
}

// totalOut reports whether a row comes out but for one number of its total,
// and that is out by a little.
func (w *pieceWork) totalOut(ask *mendAsk, o outcome) bool {
	if ask.total == nil || !o.onlyTotal() {
		return false
	}
	agrees := func(i int, by int64) bool {
		t := ask.total.outBy(i, by, w.pr.size)
		return by != 0 && t != nil && (checkable(t) && w.compare(o.rw, t).agrees || !checkable(t) && w.otherAgrees(o.rw, t))
	}
	for i := range ask.total.Parts {
		for by := int64(-doubtBy); by <= doubtBy; by++ {
			if agrees(i, by) {
				return true
			}
		}
		// Two kinds are no bare number that may be something else.
		if n := ask.total.Parts[i].N.At(w.pr.size); len(ask.total.Parts) > 1 && slipOf(n, o.made) && agrees(i, o.made-n) {
			return true
		}
	}
	return false
}

// onlyTotal reports whether a row uses the row below to the stitch, and misses no more
// than its total.
func (o *outcome) onlyTotal() bool {
	return o.fatal == nil && o.status == Differs && o.left == 0 && o.rw.misfitLeft == 0
}

// outBy is a total with the number of one of its parts changed by so much; nil where
// that leaves none.
func (t *Total) outBy(i int, by int64, size int) *Total {
	n := t.Parts[i].N.At(size) + by
	if n < 1 {
		return nil
	}
	c := *t
	c.Parts = slices.Clone(t.Parts)
	c.Parts[i].N = c.Parts[i].N.with(n, size)
	return &c
}

// comesOut reports whether a row uses the row below to the stitch, and the rows
// that follow use it: then what it misses is its total, by whatever that is out.
func (w *pieceWork) comesOut(ask *mendAsk) bool {
	o := ask.base
	if ask.total == nil || !o.onlyTotal() || o.made == 0 {
		return false
	}
	for _, p := range ask.found {
		if p.edit.kind != editTotal {
			continue
		}
		for _, r := range p.trial.rows[min(1, len(p.trial.rows)):] {
			if !r.clean {
				return false
			}
		}
		if len(p.trial.rows) > 1 {
			return true
		}
	}
	return ask.at == len(w.mends.items)-1 && w.standsOnSure(ask.label) // nothing follows to tell
}

// standsOnSure reports whether a row stands on a foundation, or on a row that agrees
// with its total.
func (w *pieceWork) standsOnSure(row *Row) bool {
	sure := true
	for _, r := range w.proof.Rows {
		if r.Row == row {
			break
		}
		sure = r.Status == Agrees
	}
	return sure
}

// readsNear reports whether a row comes out to the stitch under another reading
// that its words allow, and misses its total by as little as a slip does.
func (w *pieceWork) readsNear(ask *mendAsk) bool {
	if ask.total == nil || ask.row != ask.label || ask.base.rw.below == nil || ask.base.status != Differs && ask.base.fatal == nil {
		return false
	}
	below := ask.base.rw.below
	stated, has := w.totalOf(ask.total)
	for _, o := range ask.start.readings(ask.row, below) {
		c := ask.start
		c.mends, c.trial, c.links, c.proof = nil, nil, nil, &PieceProof{Piece: w.piece}
		c.uses = c.uses[:len(c.uses):len(c.uses)]
		t := c.judge(c.attempt(ask.row, below, o), ask.total)
		if w.totalOut(ask, t) || t.onlyTotal() && t.made > 0 && has && slipOf(stated, t.made) {
			return true
		}
	}
	return false
}

// searchWitness looks for a number in the row of an error, or in the two before
// it, that is out by a little and explains the error: with it the error is gone,
// and no other comes.
func (pr *prover) searchWitness(p *Piece, found, at int) bool {
	if len(p.Rows) > doubtRows || pr.doubts >= doubtPieces || pr.exhausted() || pr.spent > maxSpent/8 {
		return true
	}
	pr.doubts++
	last := p.rowAt(pr.out[at].Span.Start)
	r := pr.rehearse(found)
	defer r.end()
	work := func(q *Piece) (errs, score int, here Severity) {
		out := r.work(q)
		for _, g := range out {
			if countCode(g.Code) && p.Rows[last].Span.Contains(g.Span) {
				here = max(here, g.Severity)
			}
		}
		return errorsIn(out), scoreOf(out), here
	}
	errs, score, _ := work(p)
	most := min(doubtTries, maxSpent/16/max(1, pr.spent-r.before.spent))
	tries, ok, errsMost := int64(0), false, errs
	test := func(i int, row *Row) {
		if tries++; tries > most || ok {
			return
		}
		e, s, here := work(p.with(i, row))
		ok = s < score && here < Error && (e < errs || e == errs && here < Warning) && e <= errsMost
	}
	search := func(bys ...int64) {
		tries = 0
		for _, by := range bys {
			for i := last; i >= max(0, last-2) && !ok; i-- {
				pr.nearRows(p.Rows[i], by, func(r *Row) { test(i, r) })
			}
		}
	}
	search(-1, 1, -2, 2, -3, 3)
	// The wrong number may have settled how the chains that nobody explains are
	// taken, the wrong way round.
	usual := pr.flips
	errsMost = 0
	defer func() { pr.flips = usual }()
	for _, k := range slices.Clone(pr.asked)[:min(len(pr.asked), doubtFlips)] {
		if ok {
			break
		}
		pr.flips = maps.Clone(usual)
		if pr.flips == nil {
			pr.flips = make(map[turnKey]bool)
		}
		pr.flips[k] = !pr.flips[k]
		search(-1, 1, -2, 2)
	}
	return ok || most < doubtTries
}

// nearRows gives a row with each of its numbers, in its words, in its label, in
// what it refers to and in its total, changed by so much.
func (pr *prover) nearRows(row *Row, by int64, do func(*Row)) {
	seen := make(map[Span]bool)
	each := func(s *Step, n numAt) {
		sp, to := n.num.Span, n.num.At(pr.size)+by
		if !sp.Empty() && !seen[sp] && to > 0 && (n.role != roleChain || s.Op == OpChain) {
			seen[sp] = true
			e := edit{kind: editNumber, span: sp, to: to, size: pr.size}
			do(e.apply(row))
		}
	}
	eachNumber(row.Setup, 0, each)
	eachNumber(row.Steps, 0, each)
	if a, b := row.Numbers.First.At(pr.size), row.Numbers.Last.At(pr.size); b > a && b+by >= a {
		r := *row
		r.Numbers.Last = row.Numbers.Last.with(b+by, pr.size)
		do(&r)
	}
	if row.Refer != nil {
		for i, e := range row.Refer.Edits {
			r, ref := *row, *row.Refer
			ref.Edits = slices.Clone(row.Refer.Edits)
			switch {
			case e.Between > 0:
				ref.Edits[i].Between = max(1, e.Between+by)
			case e.From > 0:
				ref.Edits[i].To = max(1, e.To+by)
			case e.More != 0:
				ref.Edits[i].More += by
			}
			r.Refer = &ref
			do(&r)
		}
	}
	for i := range row.totalParts() {
		if t := row.Total.outBy(i, by, pr.size); t != nil {
			r := *row
			r.Total = t
			do(&r)
		}
	}
	unwritten(row.Steps, pr.size, by, 0, func(steps []*Step) {
		r := *row
		r.Steps = steps
		do(&r)
	})
}

// totalParts are the parts of what a row states.
func (r *Row) totalParts() []TotalPart {
	if r.Total == nil {
		return nil
	}
	return r.Total.Parts
}

// unwritten gives steps with each of the numbers changed that are not in the tree
// as they are written: those of "in every third stitch", and how many stitches
// are worked together.
func unwritten(steps []*Step, size int, by int64, depth int, do func([]*Step)) {
	for i, s := range steps {
		with := func(c *Step) {
			out := slices.Clone(steps)
			out[i] = c
			do(out)
		}
		for k := range 2 {
			c := *s
			n := [...]*Num{&c.N, &c.Target.N}[k]
			if v := n.At(size); n.Span.Empty() && v > 1 && v+by > 0 {
				*n = n.with(v+by, size)
				with(&c)
			}
		}
		if s.Legs > 2 && s.Legs+int(by) > 0 {
			c := *s
			c.Legs += int(by)
			with(&c)
		}
		if s.special == nil && depth < maxDepth {
			unwritten(s.Body, size, by, depth+1, func(body []*Step) {
				c := *s
				c.Body = body
				with(&c)
			})
		}
	}
}
