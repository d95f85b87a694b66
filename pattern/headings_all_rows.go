package pattern

// allRowsTold reports a line above the work on what is done in all rows alike: "Join
// every round with a slip stitch", "Begin each row with 3 ch", "3 ch at the start of
// a round = 1 tr". It has no foundation to make in it.
func (r *reader) allRowsTold(ln line) bool {
	if len(r.pat.Pieces) > 0 || ln.end-ln.start < 5 {
		return false
	}
	for k := ln.start; k+1 < ln.end; k++ {
		a, b := &r.toks[k], &r.toks[k+1]
		if a.isAny("ch", "chain") && b.kind == tNum && b.num > 5 || a.kind == tNum && a.num > 5 && b.isAny("ch", "chain", "chains") || a.isAny("ring", "mr", "loop") && k > ln.start && r.toks[k-1].isAny("a", "magic", "into", "to") {
			return false
		}
	}
	x := r.scratch(ln.start)
	switch {
	case x.phrase("join|close|begin|start|finish|end|turn", "[off|the]", "every|each|all", "[of]", "[the]", "[new]") && isRowWord(x.peek()) && x.p < ln.end:
		return true
	case x.peek().kind == tNum && x.chainsCounted(0) > 0:
		x.p += x.chainsCounted(0)
	case x.phrase("[the|a]", "[first|starting|beginning|turning]", "ch|chain") && x.peek().kind == tNum:
		x.p++
	default:
		return false
	}
	if !x.phrase("at", "[the]", "start|beginning|beg", "of", "a|each|every|the|all|any") || !isRowWord(x.peek()) {
		return false
	}
	x.p++
	return x.peek().isAny("=", "count", "counts", "is", "stands", "does", "will", "always", "takes", "replaces")
}
