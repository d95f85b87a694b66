package pattern

import "crochet/tallyturn/pattern/stitch"

// onEarlier sets a row all of whose work goes into one earlier row of the piece to work on
// that row: "*sc around the post of next sc of Rnd 3, ch 4; repeat from * around", behind
// the petals. What stands there is then used up like the places of a row below.
func (w *pieceWork) onEarlier(rw *rowWork, body []*Step) {
	var first *Step
	if !oneEarlier(body, &first) || first == nil || rw.rowBelow(first.Target.Row) {
		return
	}
	ref := first.Target.Row.sized(w.pr.size)
	if row := w.worked(ref.Number); row != nil && row.fabric != nil && !row.fabric.free && len(row.fabric.runs) > 0 {
		w.onto(rw, w, row, first, ref.Span)
		rw.attached, rw.cur = false, cursor{}
	}
}

// oneEarlier reports whether all steps that take places name the same row by its number. It
// gives the first of them.
func oneEarlier(steps []*Step, first **Step) bool {
	for _, s := range steps {
		switch s.Op {
		case OpWork, OpInto:
			r := s.Target.Row
			if r == nil && s.Stitch == stitch.Slip && *first != nil {
				continue // it closes the round
			}
			if r == nil || r.Number == 0 || r.Piece != "" || r.After != "" {
				return false
			}
			if *first == nil {
				*first = s
			} else if (*first).Target.Row.Number != r.Number {
				return false
			}
		case OpGroup:
			if !oneEarlier(s.Body, first) || s.ending != nil {
				return false
			}
		case OpChain, OpNote, OpPicot, OpJoin, OpTurn, OpFasten, OpColour, OpStay:
		default:
			return false
		}
	}
	return true
}
