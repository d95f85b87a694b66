package pattern

// maxLabelTalk is how many words and marks may stand on a line before its label.
const maxLabelTalk = 16

// besideLabels are words that go on to name a row without a mark between, and begin none.
var besideLabels = newWordSet("to of from in at for and on through last")

// tellsOfRows are words whose sentence names a row that stands elsewhere, or works one.
var tellsOfRows = newWordSet("repeat repeating rep work working as see until till like same ch chain chains inc dec increase decrease after before skip miss join end ending each every st sts stitch stitches into if")

// colourBefore finds the label behind words that name a yarn or a part, "RED r13) (5,
// dec) x3", "grey Rnd 4: sc around", "Shape neck, Row 6: ...", or lead up to it, "For
// round 3, sc around", "Now for the sides, 10th row.--": it must be closed by a mark, and
// count on from the row before, or begin a part that the word before it names, "Join the
// short ends. Leg rnd 1: ...".
func (r *reader) colourBefore(ln line) (label, int) {
	for at := ln.start + 1; at < min(ln.end-2, ln.start+maxLabelTalk); at++ {
		t := &r.toks[at-1]
		if t.kind != tWord && !t.isMark(",.!:") || t.in(tellsOfRows) {
			return label{}, 0
		}
		if _, n := r.scratch(at - 1).stitchAt(0); n > 0 {
			return label{}, 0
		}
		if numbered := isRowWord(&r.toks[at]) && r.toks[at+1].kind == tNum; !numbered && !(r.toks[at].kind == tOrd && isRowWord(&r.toks[at+1])) {
			continue
		}
		if at == ln.start+1 && t.isAny("for", "in", "on", "now", "then") && r.capital(ln.start) {
			return r.ledTo(at, ln)
		}
		l, ok := r.labelAt(at)
		if !ok || !l.strong || l.weak || t.in(besideLabels) {
			return label{}, 0
		}
		if _, body, named := r.runIn(ln); named && body == at {
			return label{}, 0 // "Border, Rnd 2: ...", under the name of its piece
		}
		closed := r.toks[l.end-1].isMark(":)-") || r.toks[l.end-1].is(".") && r.beginsStep(line{l.end, ln.end})
		if closed && r.countsOn(l) {
			return l, at
		}
		return r.beginsNamed(at, ln)
	}
	return label{}, 0
}

// beginsNamed reads the label of a first row behind the name of its part, where a
// sentence before them ends: "Sew the ends. Leg rnd 1: ...".
func (r *reader) beginsNamed(at int, ln line) (label, int) {
	if r.row == nil || at < ln.start+3 || r.toks[at+1].num != 1 || !r.capital(at-1) || !r.toks[at-2].isMark(".!") {
		return label{}, 0
	}
	name := &r.toks[at-1]
	name.head = true // the part begins here, as on a line of its own
	if l, ok := r.labelAt(at - 1); ok && !l.weak && r.toks[l.end-1].is(":") {
		return l, at - 1
	}
	name.head = false
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
