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
	if ln.start < r.summary {
		return true // it goes on over the end of the line
	}
	if r.row != nil && !r.endsSentence() && !r.capital(ln.start) || !r.toks[ln.start].isAny("dec", "decrease", "inc", "increase", "shape", "reduce", "widen", "narrow", "decreasing", "increasing") {
		return false
	}
	for j := i; j < min(i+3, len(r.lines)-1) && (j == i || !r.toks[r.lines[j].start].blank); j++ {
		end := r.lines[j].end
		if end-ln.start > 4 && r.toks[end-1].is(":") && r.tellsHow(end-1) && r.labelled(r.lines[j+1].start) {
			r.summary = end
			return true
		}
	}
	return false
}

// tellsHow reports words before a token that lead on to what is told in full, "that is".
func (r *reader) tellsHow(end int) bool {
	a, b := &r.toks[end-2], &r.toks[end-1]
	return a.isAny("that", "this", "which") && b.isAny("is", "means", "way") || a.is("as") && b.isAny("follows", "below") || a.is("like") && b.is("this") || b.isAny("thus", "namely", "meaning", "so")
}
