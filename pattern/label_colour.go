package pattern

// colourBefore finds the label behind a word or two that name a yarn or a part,
// "RED r13) (5, dec) x3", "grey Rnd 4: sc around": no mark stands between, so the
// label must be closed by one and count on from the row before.
func (r *reader) colourBefore(ln line) (label, int) {
	at := ln.start + 1
	for at < min(ln.end-2, ln.start+4) && !(isRowWord(&r.toks[at]) && r.toks[at+1].kind == tNum) {
		at++
	}
	if at >= min(ln.end-2, ln.start+4) {
		return label{}, 0
	}
	for k := ln.start; k < at; k++ {
		t := &r.toks[k]
		if _, n := r.scratch(k).stitchAt(0); n > 0 || t.kind != tWord || t.isAny("repeat", "rep", "work", "as", "to", "of", "from", "see", "until", "like", "same", "in", "at", "for", "and", "on", "ch", "through", "last", "inc", "dec") {
			return label{}, 0
		}
	}
	if l, ok := r.labelAt(at); ok && l.strong && !l.weak && r.toks[l.end-1].isMark(":)-") && r.countsOn(l) {
		return l, at
	}
	return label{}, 0
}
