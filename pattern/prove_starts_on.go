package pattern

import (
	"slices"

	"crochet/tallyturn/pattern/stitch"
)

// startNear is how far from a count told before it a row may come out and still be meant
// to be worked on that count: one number of it is wrong then.
const startNear = 6

// startedOn is what a row is worked on whose words, or those before it, tell how many
// stitches it begins on, where no row below does: the count told, if the row comes out on
// it or on one near it. Where the row below does not bear it, only a count on which it
// comes out to the stitch stands in for it: the yarn was joined elsewhere.
func (w *pieceWork) startedOn(row, label *Row, below *fabric, total *Total) (*fabric, bool) {
	if row != label || len(row.starts) == 0 || w.host != nil || w.foundation > 0 && w.after == nil && len(w.rows) == 0 || beginsItself(row) {
		return below, false
	}
	if w.links != nil {
		was, _ := w.links.base.At(w.links.row1)
		if was == nil || was.on != onTold {
			return below, false
		}
		return w.toldStart(row, was.Available), true
	}
	unseen := below == nil || below.free
	elsewhere := attachesFirst(row) || w.after != nil && len(w.rows) == 0
	if !unseen && (!elsewhere || w.comesOutOn(below, row, label, total)) {
		return below, false
	}
	for _, s := range row.starts {
		if w.comesOutOn(w.startOf(s, 0), row, label, total) {
			return w.startOf(s, 0), true
		}
	}
	if !unseen || len(row.bad) > 0 {
		return below, false
	}
	for _, s := range row.starts {
		for by := int64(1); by <= min(startNear, s.n.At(w.pr.size)/4); by++ {
			if w.comesOutOn(w.startOf(s, by), row, label, total) || w.comesOutOn(w.startOf(s, -by), row, label, total) {
				return w.startOf(s, 0), true
			}
		}
	}
	return below, false
}

// startOf is the fabric of a count told, with so many stitches more.
func (w *pieceWork) startOf(s startCount, more int64) *fabric {
	id := s.id
	if id == stitch.None {
		id = stitch.SC
	}
	return uniform(s.n.At(w.pr.size)+more, id)
}

// toldStart is the fabric of the count told of a row that has so many stitches.
func (w *pieceWork) toldStart(row *Row, n int64) *fabric {
	i := slices.IndexFunc(row.starts, func(s startCount) bool { return s.n.At(w.pr.size) == n })
	return w.startOf(row.starts[max(i, 0)], 0)
}

// beginsItself reports whether a row makes its own beginning, and does not only join yarn.
func beginsItself(row *Row) bool {
	return !attachesFirst(row) && startsAfresh(row)
}

// attachesFirst reports a row before which the yarn is joined.
func attachesFirst(row *Row) bool {
	if len(row.Setup) > 0 {
		return row.Setup[0].Op == OpAttach
	}
	return len(row.Steps) > 0 && row.Steps[0].Op == OpAttach
}
