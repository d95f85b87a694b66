package pattern

// persons begin a sentence in which the author talks of more than the work.
var persons = newWordSet("i i'm i've i'd i'll we we've we're he she they my our his her mine ours who whoever nobody anyone everyone somebody")

// talkNever are words that no remark has: whatever is said with one of them is work, or
// not understood.
var talkNever = newWordSet("ch chs chain chains each every next skip sk miss rep repeat turn join rejoin attach reattach work working crochet inc dec increase decrease times twice in into around round across along evenly row rows rnd rnds rounds")

// talk takes a sentence in which nothing is worked: one that follows once the
// yarn is cut, "Bobble optional.", and one of the author's own, "I mean the
// first one you made of it." No figure stands in it, and no word of work.
func (x *rowReader) talk() *Step {
	t := x.peek()
	if t.kind != tWord && t.kind != tOrd && !t.word || x.p == 0 || !x.worked || x.depth > 1 || !x.at(-1).isMark(".!?)-;") {
		return nil
	}
	personal := t.in(persons)
	if !personal && (!x.off || x.at(-1).isMark("-;")) {
		return nil
	}
	start := x.p
	for !x.end() && !x.peek().isMark(".!?;([{<") && !(x.peek().head && x.p > start && x.rowCapital()) {
		t := x.peek()
		if t.kind == tNum && !t.word || !personal && (t.in(talkNever) || t.plainStitch()) || personal && t.isAny("ch", "each", "every", "skip", "rep", "repeat", "inc", "dec") {
			x.p = start
			return nil
		}
		x.p++
	}
	if x.p == start {
		return nil
	}
	sp := x.spanFrom(start)
	return &Step{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}
}

// rowsNamed takes the rows that something just read holds for, "for Rounds 6 and
// 7", "on Rows 3-5 only": their numbers count no stitches.
func (x *rowReader) rowsNamed() bool {
	start := x.p
	if !x.accept("for", "on", "in", "at", "after", "from") {
		return false
	}
	x.accept("the", "only")
	if x.peek().kind == tOrd && isRowWord(x.at(1)) {
		x.p += 2
		return true
	}
	if !isRowWord(x.peek()) || x.at(1).kind != tNum {
		x.p = start
		return false
	}
	x.p += 2
	for x.peek().isAny("-", "to", "and", "&", ",", "through", "thru") {
		k := 1
		for x.at(k).isAny("and", "&") || isRowWord(x.at(k)) {
			k++
		}
		if x.at(k).kind != tNum || x.stitchFollows(k+1) {
			break
		}
		x.p += k + 1
	}
	x.accept("only", "onwards", "on")
	return true
}
