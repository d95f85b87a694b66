package pattern

// colourBefore finds the label behind a word or two that name a yarn or a part,
// "RED r13) (5, dec) x3", "grey Rnd 4: sc around", or lead up to it, "For round 3, sc
// around": no mark stands between, so the label must be closed by one and count on from
// the row before.
func (r *reader) colourBefore(ln line) (label, int) {
	at := ln.start + 1
	for at < min(ln.end-2, ln.start+4) && !(isRowWord(&r.toks[at]) && r.toks[at+1].kind == tNum) {
		at++
	}
	if at >= min(ln.end-2, ln.start+4) {
		return label{}, 0
	}
	led := at == ln.start+1 && r.toks[ln.start].isAny("for", "in", "on", "now", "then") && r.capital(ln.start)
	for k := ln.start; k < at && !led; k++ {
		t := &r.toks[k]
		if _, n := r.scratch(k).stitchAt(0); n > 0 || t.kind != tWord || t.isAny("repeat", "rep", "work", "as", "to", "of", "from", "see", "until", "like", "same", "in", "at", "for", "and", "on", "ch", "through", "last", "inc", "dec") {
			return label{}, 0
		}
	}
	if led {
		return r.ledTo(at, ln)
	}
	if l, ok := r.labelAt(at); ok && l.strong && !l.weak && r.toks[l.end-1].isMark(":)-") && r.countsOn(l) {
		return l, at
	}
	return label{}, 0
}

// ledTo reads the label of a row told in a sentence, "For round 3, sc around", "In Rnd 4
// work 12 sc": the row that comes next, and work behind it.
func (r *reader) ledTo(at int, ln line) (label, int) {
	x := r.scratch(at)
	l := label{numbers: Numbering{First: Num{N: x.at(1).num, Span: x.at(1).span()}}}
	l.numbers.Last = l.numbers.First
	if isRoundWord(x.peek()) {
		l.kind = Round
	}
	x.p += 2
	comma := x.accept(",", ":", "-")
	x.phrase("[you|we]", "[just|simply]", "work|do|make|crochet")
	if l.end = x.p; !r.countsOn(l) || !comma && x.p == at+2 || !r.beginsStep(line{x.p, ln.end}) {
		return label{}, 0
	}
	return l, at
}
