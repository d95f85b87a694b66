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

// summarised reports a sentence that sums up the shaping of the rows written out under it:
// "Dec 1 st at each end of the next 3 rows, that is:", "Increase on alternate rows until
// there are 20 sts, as follows:". The rows tell the rest.
func (r *reader) summarised(i int) bool {
	ln := r.lines[i]
	n := ln.end - ln.start
	if n < 5 || !r.toks[ln.end-1].is(":") || i+1 >= len(r.lines) || r.row != nil && !r.endsSentence() && !r.capital(ln.start) {
		return false
	}
	if !r.toks[ln.start].isAny("dec", "decrease", "inc", "increase", "shape", "reduce", "widen", "narrow", "decreasing", "increasing") {
		return false
	}
	a, b := &r.toks[ln.end-3], &r.toks[ln.end-2]
	told := a.isAny("that", "this", "which") && b.isAny("is", "means", "way") || a.is("as") && b.isAny("follows", "below") || a.is("like") && b.is("this") || b.isAny("thus", "namely", "meaning", "so")
	return told && r.labelled(r.lines[i+1].start)
}
