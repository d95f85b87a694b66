package pattern

// onwardWords lead from one row to the next, and are the name of no piece.
var onwardWords = newWordSet("and now then next after that this finally lastly last at onward onwards on continue continuing we go here you are well so right ok okay good great nearly there almost done first second third")

// onward reports a line between two numbered rows that only leads from one to the other:
// "And now", "After that:", "Next!". It closes the row before it, and says nothing else.
func (r *reader) onward(i int) bool {
	ln := r.lines[i]
	if r.row == nil || ln.end-ln.start > 6 || i+1 >= len(r.lines) {
		return false
	}
	words := 0
	for k := ln.start; k < ln.end; k++ {
		switch t := &r.toks[k]; {
		case t.in(onwardWords):
			words++
		case t.isMark(",.:!-"):
		default:
			return false
		}
	}
	if words == 0 || !r.endsSentence() && !r.capital(ln.start) {
		return false
	}
	l, ok := r.labelAt(r.lines[i+1].start)
	return ok && r.countsOn(l)
}
