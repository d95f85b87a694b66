package pattern

// mostBack is how many rows are looked back at for how they changed.
const mostBack = 12

// changing gives the rows of a label that is told by how each row differs from the one
// before it, "continue increasing in this way until there are 48 sts": by how many is
// seen in the rows before. Any other row is given as it is.
func (w *pieceWork) changing(row *Row, count int) []*Row {
	at := -1
	for i, s := range row.Steps {
		if s.Op == OpDelta && s.goesOn {
			at = i
		}
	}
	if at < 0 {
		return []*Row{row}
	}
	by, every, since := w.changeBefore(row.Steps[at].N.N)
	if until, ok := w.totalOf(row.Total.last()); ok && row.until.N == 0 && w.madeLast > 0 && count > 0 {
		want, even := (until-w.madeLast)/int64(count), (until-w.madeLast)%int64(count) == 0
		if even && want*row.Steps[at].N.N >= 0 && !w.changesAlike(by) {
			by, every, since = want, 1, 0
		}
	}
	var block []*Row
	for k := range every {
		s := *row.Steps[at]
		s.goesOn = false
		switch {
		case by == 0:
			s.Op, s.N, s.Text = OpFree, Num{}, w.pr.pat.Source.Slice(s.Span)
		case (k+since)%every == every-1:
			s.N = Num{N: by}
		default:
			s.Op, s.N = OpEven, Num{}
		}
		c := *row
		c.Steps = append([]*Step(nil), row.Steps...)
		c.Steps[at] = &s
		block = append(block, &c)
	}
	return block
}

// changeBefore is by how many stitches the rows before change, in a sign's direction;
// every how many rows they do, and how many rows ago the last of them was. It is 0
// where none does.
func (w *pieceWork) changeBefore(sign int64) (by int64, every, since int) {
	diffs := w.changesBack()
	every = 1
	for i, d := range diffs {
		switch {
		case d == 0 || d*sign < 0:
		case by == 0:
			by, since = d, i
		case d == by && i > since:
			return by, i - since, since
		default:
			return by, 1, 0
		}
	}
	if since > 0 {
		every = since + 1
	}
	return by, every, since
}

// changesAlike reports whether the two rows before changed by so many stitches each.
func (w *pieceWork) changesAlike(by int64) bool {
	diffs := w.changesBack()
	return len(diffs) > 1 && by != 0 && diffs[0] == by && diffs[1] == by
}

// changesBack is by how many stitches each row before differs from the one below it,
// the last one first.
func (w *pieceWork) changesBack() []int64 {
	var made []int64
	for i := len(w.proof.Rows) - 1; i >= 0 && len(made) <= mostBack; i-- {
		rp := w.proof.Rows[i]
		if rp.Made < 0 {
			break
		}
		for k := 0; k < rp.Count() && len(made) <= mostBack; k++ {
			made = append(made, rp.Made)
		}
	}
	var diffs []int64
	for i := 0; i+1 < len(made); i++ {
		diffs = append(diffs, made[i]-made[i+1])
	}
	return diffs
}
