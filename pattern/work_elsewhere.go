package pattern

import "crochet/tallyturn/pattern/stitch"

// timesElsewhere is how often a group fits whose stitches all go about those of one earlier
// round of the piece, "*ch 6, sc around bar of next sc of 4th rnd*": as often as that round has
// them. It is not known where the places of a pass are told in another way, or where
// they do not come out even.
func (w *rowWork) timesElsewhere(s *Step) (int64, bool) {
	if w.kind != Round || s.stopAt || s.Times.Bound.Kind != NoBound && s.Times.Bound.Kind != ToEnd {
		return 0, false
	}
	var row *workedRow
	var of []Filter
	number, used := 0, int64(0)
	for _, b := range s.Body {
		if b.Op != OpWork && b.Op != OpInto {
			continue
		}
		t := &b.Target
		if t.Which != Next || len(t.Of) != 1 || t.Of[0].Kind != OneStitch && t.Of[0].Kind != AnyStitch || t.Within != nil || t.Row.Piece != "" {
			return 0, false
		}
		if row == nil {
			number, of = t.Row.At(w.pr.size), t.Of
			_, row = w.pr.findRow(w.pc, t.Row)
		}
		if row == nil || row.fabric == nil || row.fabric.free || row.fabric.bare || t.Row.At(w.pr.size) != number || !sameFilters(t.Of, of) {
			return 0, false
		}
		used += max(1, t.N.At(w.pr.size)) * int64(max(1, b.Legs))
	}
	have := int64(0)
	w.pr.spend(len(row.fabric.runs) / 16)
	for i := range row.fabric.runs {
		if r := &row.fabric.runs[i]; w.matches(&r.place, of) {
			have += r.n
		}
	}
	for _, b := range w.row.Steps {
		if b.Op == OpWork && b.Target.Row != nil && b.Target.Row.At(w.pr.size) == number {
			have -= max(1, b.Target.N.At(w.pr.size)) // "sc around first sc of Rnd 4, *ch 6, ..."
		}
	}
	if have < used || have%used != 0 || have/used > maxGroups {
		return 0, false
	}
	return have / used, true
}

// closesBySlip reports whether the last work of a row is the slip stitch that closes its
// round, "sl st to first sc".
func closesBySlip(row *Row) bool {
	for i := len(row.Steps) - 1; i >= 0; i-- {
		switch s := row.Steps[i]; s.Op {
		case OpNote, OpFasten, OpColour, OpTurn:
		default:
			return i > 0 && s.Op == OpWork && s.Stitch == stitch.Slip && s.N.N <= 1 && s.Target.Which != Each
		}
	}
	return false
}
