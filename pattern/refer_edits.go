package pattern

import "slices"

// edited is a row with its loops changed: "making ch 6 instead of ch 4".
func edited(r *Row, edits []Edit) *Row {
	c := *r
	c.Steps = editSteps(r.Steps, edits, true)
	c.Total = nil
	return &c
}

// growing gives the rows of "Rnds 9-12: As last rnd, having 1 more sc between
// increases", "Rep last 2 rnds twice, each time with one more sc before the inc": each
// is told by the one that stands as far before it.
func growing(out []*Row, row *Row, r *Refer, size int) []*Row {
	n := max(int(row.Numbers.Last.At(size)-row.Numbers.First.At(size))+1, r.allLen(size))
	block := len(out)
	if block < 1 || n < 2 || n > 5000 || !slices.ContainsFunc(r.Edits, func(e Edit) bool { return e.More != 0 }) {
		return out
	}
	for len(out) < n {
		out = append(out, edited(out[len(out)-block], r.Edits))
	}
	return out
}

// unlessChanged leaves out of the edits a number of stitches more or fewer that the row
// comes to by itself: "As Row 2, decreasing 2 sts in each row" adds nothing to a row that
// decreases two.
func (w *pieceWork) unlessChanged(row *Row, edits []Edit) []Edit {
	var out []Edit
	for _, e := range edits {
		if by := e.Delta.At(w.pr.size); by != 0 && w.changeOf(row) == by {
			continue
		}
		out = append(out, e)
	}
	return out
}

// changeOf is by how many stitches a row differed from the one below it where it was
// worked; 0 where it was not, or stands on a foundation.
func (w *pieceWork) changeOf(row *Row) int64 {
	for i, rp := range w.proof.Rows {
		if rp.Row == row && i > 0 && rp.Made > 0 && w.proof.Rows[i-1].Made > 0 {
			return rp.Made - w.proof.Rows[i-1].Made
		}
	}
	return 0
}

// editedAll gives rows that are changed alike.
func editedAll(rows []*Row, edits []Edit) []*Row {
	if len(edits) > 0 {
		for i := range rows {
			rows[i] = edited(rows[i], edits)
		}
	}
	return rows
}

func editSteps(steps []*Step, edits []Edit, start bool) []*Step {
	out := make([]*Step, len(steps))
	begun := !start
	for i, s := range steps {
		c := *s
		if c.Op == OpChain && begun && !c.Counts.Said {
			for _, e := range edits {
				if e.To > 0 && (e.From == c.N.N || e.From == 0 && c.N.N > 1) {
					c.N = Num{N: e.To}
				}
			}
		}
		if makesStitches(s) {
			begun = true
		}
		if len(c.Body) > 0 && c.special == nil {
			c.Body = editSteps(c.Body, edits, false)
		}
		out[i] = &c
	}
	if start {
		out = withRuns(out, edits)
		runs := runsOf(out, 0, nil)
		for _, e := range edits {
			e.changeRuns(runs)
		}
		out = withoutEmptied(out)
	}
	for _, e := range edits {
		if start && e.End != nil && e.Row == 0 {
			out = endingOtherwise(out, e.End)
		}
		if start && e.Delta.N != 0 {
			out = append(out, &Step{Op: OpDelta, N: e.Delta, Span: e.Span})
		}
	}
	return out
}

// withRuns gives a row that only increases, "2 sc in each st around", room for plain
// stitches between its increases: "As Rnd 2, with 1 more sc between the increases" is a
// plain one and an increase, around.
func withRuns(steps []*Step, edits []Edit) []*Step {
	if !slices.ContainsFunc(edits, func(e Edit) bool { return e.At == EditBetween && e.Was == 0 && (e.More > 0 || e.Between > 0) }) || len(runsOf(steps, 0, nil)) > 0 {
		return steps
	}
	s := loneStep(steps)
	if s == nil {
		return steps
	}
	times := Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
	shape := s
	switch n, sign := changesOf(s); {
	case sign != 0:
		times = Times{Kind: Exactly, N: Num{N: n.N, Sizes: n.Sizes}}
		if s.Op == OpGroup {
			shape = s.Body[0]
		}
	case s.Op == OpGroup && s.Times.Kind == Fill && s.special == nil && len(s.Body) == 1 && s.Body[0].shapes():
		times, shape = s.Times, s.Body[0]
	case s.Op != OpWork || s.Legs > 0 || s.N.N != 2 || s.Target.Which != Each || len(s.Target.Bound.N.Sizes) > 0 || s.Target.Bound.Kind != NoBound && s.Target.Bound.Kind != ToEnd:
		return steps
	}
	one := *shape
	one.Target = Target{Which: Next, N: Num{N: 1}}
	plain := &Step{Op: OpWork, Stitch: shape.Stitch, N: Num{N: 1}, Target: Target{Which: Next}, Span: shape.Span, emptied: true}
	*s = Step{Op: OpGroup, Body: []*Step{plain, &one}, Times: times, Span: s.Span}
	return steps
}

// withoutEmptied leaves out the runs of plain stitches of which none is left.
func withoutEmptied(steps []*Step) []*Step {
	out := steps[:0]
	for _, s := range steps {
		if s.Op == OpWork && s.emptied {
			continue
		}
		if s.special == nil {
			s.Body = withoutEmptied(s.Body)
		}
		out = append(out, s)
	}
	return out
}

// plainRun is one run of plain stitches in a row: "sc in next 4 sts".
type plainRun struct {
	step  *Step
	told  int64
	apart bool // it stands in a repeat, or by itself between two increases
}

// runsOf gathers the runs of plain stitches of a row, in order.
func runsOf(steps []*Step, depth int, out []plainRun) []plainRun {
	for i, s := range steps {
		t := &s.Target
		if s.Op == OpWork && s.Legs == 0 && s.N.N <= 1 && t.Row == nil && (t.Which == Next || (t.Which == First || t.Which == Last) && t.N.N > 1) {
			alone := depth == 0 && i > 0 && i+1 < len(steps) && !s.shapes() && steps[i-1].shapes() && steps[i+1].shapes() // the one run between two increases
			told := max(1, t.N.N)
			if s.emptied {
				told = 0
			}
			out = append(out, plainRun{s, told, alone || depth > 0})
		}
		if len(s.Body) > 0 && s.special == nil && s.Op == OpGroup {
			out = runsOf(s.Body, depth+1, out)
		}
	}
	return out
}

// changeRuns gives the runs that an edit means their other number.
func (e *Edit) changeRuns(runs []plainRun) {
	if e.Between == 0 && e.More == 0 {
		return
	}
	for _, r := range e.runsMeant(runs) {
		n := e.Between
		if e.More != 0 {
			n = max(0, r.told+e.More)
		}
		r.step.Target.N, r.step.emptied = Num{N: n}, n == 0
	}
}

// runsMeant are the runs of plain stitches that an edit names.
func (e *Edit) runsMeant(runs []plainRun) []plainRun {
	all := runs
	if e.Was > 0 {
		var were []plainRun
		for _, r := range runs {
			if r.told == e.Was {
				were = append(were, r)
			}
		}
		if len(were) > 0 && e.At == EditBetween {
			return were
		}
		if len(were) > 0 {
			all = were
		}
	}
	if len(all) == 0 {
		return nil
	}
	switch e.At {
	case EditStart:
		return all[:1]
	case EditEnd:
		return all[len(all)-1:]
	case EditMiddle:
		best := 0
		for i := range all {
			if all[i].told > all[best].told {
				best = i
			}
		}
		return all[best : best+1]
	}
	var apart []plainRun
	for _, r := range all {
		if r.apart {
			apart = append(apart, r)
		}
	}
	if len(apart) == 0 && len(all) == 1 {
		return all
	}
	return apart
}
