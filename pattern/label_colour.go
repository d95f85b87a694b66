package pattern

// colourBefore finds the label behind a word or two that name a yarn or a part,
// "RED r13) (5, dec) x3", "grey Rnd 4: sc around": no mark stands between, so the
// label must be closed by one and count on from the row before.
func (r *reader) colourBefore(ln line) (label, int) {
	for k := ln.start; k < min(ln.end-2, ln.start+4); k++ {
		t := &r.toks[k]
		if k > ln.start && isRowWord(t) && r.toks[k+1].kind == tNum {
			l, ok := r.labelAt(k)
			if ok && l.strong && !l.weak && r.toks[l.end-1].isMark(":)-") && r.countsOn(l) {
				return l, k
			}
			return label{}, 0
		}
		if _, n := r.scratch(k).stitchAt(0); n > 0 || t.kind != tWord || t.isAny("repeat", "rep", "work", "as", "to", "of", "from", "see", "until", "like", "same", "in", "at", "for", "and", "on", "ch", "through", "last", "inc", "dec") {
			return label{}, 0
		}
	}
	return label{}, 0
}
