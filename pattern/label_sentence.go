package pattern

import "crochet/tallyturn/pattern/stitch"

// A pattern may have no labels at all: the maker tells round after round in lines or
// sentences, "6 sc in ring", "2 in each, 12", "Turn with ch 1, and increase ...". There a
// row ends where it has come out, and what follows begins another.

// maxSentenceRow is how many words a row told without a label has at most.
const maxSentenceRow = 120

// surveySentences finds whether a page labels no row, at the head of a line or behind
// other words.
func (r *reader) surveySentences() {
	if r.unlabelled = !r.hasLabel && !r.weakOK && len(r.counted) == 0 && r.runOn == nil; !r.unlabelled {
		return
	}
	for _, ln := range r.lines {
		if _, ok := r.labelAt(r.labelStart(ln)); ok {
			r.unlabelled = false
			return
		}
	}
	for i := 1; i < len(r.toks)-1; i++ {
		if !r.toks[i].head && (isRowWord(&r.toks[i]) || r.toks[i].kind == tOrd) && r.mayLabel(i) {
			if l, ok := r.labelAt(i); ok && l.strong && !l.weak && !l.told() && r.labelFits(l, i) {
				r.unlabelled = false
				return
			}
		}
	}
}

// rowsTold reports a page whose rows are told with no labels at the heads of lines, more
// than the one that needs none.
func (r *reader) rowsTold() bool {
	if !r.unlabelled && r.runOn == nil {
		return false
	}
	for _, p := range r.pat.Pieces {
		if len(p.Rows) > 1 {
			return true
		}
	}
	return false
}

// afterRow are words that lead on to the next row.
var afterRow = newWordSet("then now next and after that finally lastly so , right ok okay again")

// startsSentenceRow reports whether a row without a label begins at token i, on a page that labels
// none, with the words of the row before it given: they come out by themselves, and the
// next begin work behind a stop, a line's end or "then".
func (r *reader) startsSentenceRow(i int, words []token) bool {
	n := len(words)
	if !r.unlabelled || n < 2 || n > maxSentenceRow {
		return false
	}
	t, p := &r.toks[i], &r.toks[i-1]
	switch {
	case t.head:
		if p.is(",") || p.isAny("and", "then", "in", "the", "next", "to", "of", "with", "each") {
			return false
		}
	case p.isMark(".!;)]"):
	case t.is("then"):
	default:
		return false
	}
	k := i
	for k < i+4 && r.toks[k].in(afterRow) {
		k++
	}
	if x := r.scratch(i); !x.evenAgain() && !r.sentenceWorks(k) {
		return false
	}
	return r.comesOut(words, r.turnsAt(k), !t.head && !p.isMark(".!;)]"))
}

// sentenceWorks reports work at token k, as a row told without a label begins.
func (r *reader) sentenceWorks(k int) bool {
	x := r.scratch(k)
	t := x.peek()
	switch {
	case t.isAny("repeat", "rep", "join", "fasten", "do", "turn") && !r.turnsAt(k):
		return false
	case t.kind == tNum && (x.at(1).head || x.countsOnly()):
		return false // a total that stands by itself
	case x.evenAgain() || x.stepFollows(0) || r.turnsAt(k):
		return true
	}
	x.p = k
	if x.phrase("we|you|i", "[now|then|just]") && x.acceptIn(toldWork) && x.stepFollows(0) {
		return true
	}
	x.p = k
	return t.isAny("work", "make", "put", "crochet", "into", "in", "do", "on", "you", "i", "we") && r.hasStitches(line{k, min(k+12, r.lineEnd(k))}) || t.kind == tNum && (x.at(1).isMark("(*[") || x.at(1).isAny("together", "plain", "inc", "dec"))
}

// countsOnly reports a sentence that is a total and nothing else, "24 sc + 3 loops."
func (x *rowReader) countsOnly() bool {
	start := x.p
	_, ok := x.parts(x.clauseEnd())
	ok = ok && (x.end() || x.peek().head || x.peek().isMark(".!"))
	x.p = start
	return ok
}

// chainMade takes a chain of so many, "ch 12", "12 ch", and gives how many; -1 where there is
// none.
func (x *rowReader) chainMade() int64 {
	n := int64(-1)
	switch {
	case x.peek().isAny("ch", "chain", "chaining") && x.at(1).kind == tNum:
		n = x.at(1).num
	case x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chains"):
		n = x.peek().num
	default:
		return n
	}
	x.p += 2
	return n
}

// turnsAt reports the turn that begins a row at token k: "turn, ch 1", "ch 1, turn", "Turn
// with 1 ch".
func (r *reader) turnsAt(k int) bool {
	x := r.scratch(k)
	if x.accept("turn", "turning") {
		x.phrase("[your|the]", "[work]")
		x.accept("with", ",", "and")
		x.accept("and")
		return x.at(0).isAny("ch", "chain") || x.at(1).isAny("ch", "chain", "chains")
	}
	if x.chainMade() < 0 {
		return false
	}
	if x.peek().isMark("(") {
		if end := x.closer(0); end > 0 && end < x.p+10 {
			x.p = end + 1
		}
	}
	for x.peek().isMark(",.") || x.peek().isAny("and") {
		x.p++
	}
	return x.peek().isAny("turn")
}

// comesOut reports whether the words of a row are all understood and end it: with a total,
// with a stitch in each to the end, or with the stitches in a ring. What begins with a turn
// shows it as well. Amid a sentence, before "then", only a total or a ring ends a row.
func (r *reader) comesOut(words []token, turned, amid bool) bool {
	r.scanRow = Row{noLabel: true}
	x := r.rowReaderFor(words, &r.scanRow)
	r.unalias(x.ts)
	x.afterRows = r.piece != nil && len(r.piece.Rows) > 0 || r.row != nil
	x.main, x.countBefore = r.said.main, r.said.count
	r.scanRow.Kind = Round
	x.readRow()
	x.regroup(true)
	row := &r.scanRow
	if len(row.bad) > 0 {
		return false
	}
	makes, ring, wide := false, false, x.bounded
	for _, s := range row.Steps {
		if s.Op == OpWork && s.Stitch == stitch.Slip {
			continue
		}
		makes = makes || makesStitches(s)
		ring = ring || s.Op == OpWork && s.Target.Which == InRing
		wide = wide || s.Op == OpEven || s.Op == OpGroup && s.Times.Kind == Fill
	}
	wide = wide && !amid
	if row.Refer == nil && (!makes || row.Total == nil && !ring && !wide && !turned) {
		return false
	}
	r.said.main, r.said.count = x.main, countAfter(row, r.said.count)
	return true
}

// saidSoFar is what is known of the row before, while rows without a label are found.
type saidSoFar struct {
	main  stitch.ID // the stitch it was made in
	count int64     // how many it has, or 0
}

// evenAgain reports so many rows worked even at the place it stands.
func (x *rowReader) evenAgain() bool {
	start := x.p
	_, _, ok := x.evenRows()
	x.p = start
	return ok
}

// sentenceLine takes a line that begins a row without a label, or the first row of all
// behind words that lead up to it.
func (r *reader) sentenceLine(ln line) bool {
	if r.sec != noSection {
		return false
	}
	if r.row != nil {
		if !r.startsSentenceRow(ln.start, r.row.body) {
			return false
		}
		r.closeRow()
		r.words(ln.start, ln.end)
		return true
	}
	if len(r.setup) > 0 {
		if !r.startsSentenceRow(ln.start, r.setup) {
			return false
		}
		r.flushSetup(false)
		r.words(ln.start, ln.end)
		return true
	}
	if k := r.begunInTalk(ln); k > 0 {
		r.prose(line{ln.start, k})
		r.words(k, ln.end)
		return true
	}
	return false
}

// maxLeadUp is how many words may lead up to the first stitches of a pattern.
const maxLeadUp = 30

// begunInTalk finds where the first row begins on a line that opens with other words, on a
// page that labels no first row: "We start from the crown with 12 hdc in a magic ring",
// "ok so ch 16 then sc in 2nd ch from hook". It is 0 where it does not, or at once.
func (r *reader) begunInTalk(ln line) int {
	if !r.unlabelled && (r.numbered[1] || !r.numbered[2] && !r.numbered[3]) || r.rows > 0 || r.beginsWork(ln) {
		return 0
	}
	if _, k := r.labelWithin(ln, maxLeadUp); k > 0 && !r.unlabelled {
		return 0
	}
	for k := ln.start; k < min(ln.end, ln.start+maxLeadUp); k++ {
		t := &r.toks[k]
		if r.ringBegins(k, ln.end) || r.chainBegins(k, ln.end) {
			return k
		}
		if t.kind == tNum || t.kind == tOrd || t.isMark("=*([|") || isRowWord(t) && !t.is("r") {
			return 0
		}
	}
	return 0
}

// ringBegins reports stitches into a ring at token k, "12 hdc in a magic ring", "a loop and put 10
// sc in it", "a ring of 6".
func (r *reader) ringBegins(k, end int) bool {
	x := r.scratch(k)
	x.phrase("[a|the]", "ring|loop|circle", "and", "put|work|make")
	looped := x.p > k
	if x.phrase("[a|the]", "[magic]", "ring|loop|circle", "of") && x.peek().kind == tNum && x.p < end {
		return true
	}
	if x.peek().kind != tNum || x.peek().num < 2 {
		return false
	}
	_, n := x.stitchAt(1)
	if n == 0 {
		return false
	}
	x.p += 1 + n
	if !x.phrase("in|into|inside|onto", "[a|the|our|your]") {
		return false
	}
	for n := 0; n < 3 && x.p+n < end; n++ {
		if t := x.at(n); t.isAny("ring", "loop", "circle", "mr", "mc") || looped && t.is("it") {
			return true
		}
	}
	return false
}

// chainBegins reports the chain of a foundation at token k with stitches behind it, "chain 28 and the
// first row is", "ch 2 then 3 sc in 2nd ch".
func (r *reader) chainBegins(k, end int) bool {
	x := r.scratch(k)
	return x.chainMade() > 1 && (x.peek().isMark(",.;:") || x.peek().isAny("and", "then", "n", "in") || x.peek().head) && (r.hasStitches(line{x.p, end}) || x.p >= end-1)
}
