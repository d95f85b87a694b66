package pattern

// beginsAnywhere reports whether a round may begin at another place than the one
// below it: both go round, spaces part the sides, and the total can tell whether
// it comes out so. "Start in the first st after any corner" is often said once,
// between two rounds, and then meant of all.
func beginsAnywhere(row *Row, below *fabric, total *Total) bool {
	return row.Kind == Round && total != nil && below != nil && !below.free && !below.ring && !below.chain && !below.bare && below.has(Filter{Kind: Space})
}

// beginElsewhere turns the round below so that this one begins in its first
// space, or at the place behind it.
func (w *rowWork) beginElsewhere(o options) {
	if o&(optFromSpace|optPastSpace) == 0 || w.below == nil {
		return
	}
	for i := range w.below.runs {
		if w.below.runs[i].kind != pSpace {
			continue
		}
		if o.has(optPastSpace) {
			if i++; i == len(w.below.runs) {
				return
			}
		}
		w.rotate(cursor{i, 0})
		w.travelled, w.behind = false, 0
		return
	}
}
