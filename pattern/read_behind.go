package pattern

// What is worked behind something tells where the hook goes in by two things: what hangs
// before it, and the row whose stitches it takes. "ch 4, sl st behind the next petal in sc of
// Rnd 3", "around the Rnd 3 sc at the back".

// petalWords are what hangs before the work behind it.
var petalWords = newWordSet("petal petals ruffle ruffles frill frills scallop scallops shell shells fan fans leaf leaves flower flowers work piece loop loops arch arches")

// behindPetals passes over what hangs before the place, or the side of the work it is on.
func (x *rowReader) behindPetals() bool {
	start := x.p
	switch {
	case x.phrase("at|on|from|in", "[the]", "back|rear|wrong|reverse", "side|of", "[of]", "[the]", "[work|piece|flower|petal|petals]"), x.phrase("at|on|from", "[the]", "back|rear") && x.endsClause():
		return true
	case x.phrase("behind|between|under|beneath|underneath|from", "[behind]", "[the|these|those|each|every]", "[next|first|last|2|two|previous|same]"):
		if x.acceptIn(petalWords) {
			x.phrase("of", "[the]", "[previous|last]", "row|rnd|round")
			return true
		}
	}
	x.p = start
	return false
}

// rowThenNoun reports a row named before its stitches: "the Rnd 3 sc".
func (x *rowReader) rowThenNoun() bool {
	return isRowWord(x.peek()) && x.at(1).kind == tNum && !x.at(1).frac && x.nounFollows(2)
}

// rowsNoun reads what rowThenNoun reports: the next of those stitches.
func (x *rowReader) rowsNoun(t *Target) bool {
	start := x.p
	n, ok := x.rowName()
	if !ok {
		return false
	}
	t.Row = &RowRef{Number: int(n.N), Sizes: n.Sizes, Span: x.spanFrom(start)}
	one, ok := x.nounAt(0)
	if !ok {
		return false
	}
	x.p += one.tokens
	x.fill(t, one)
	t.Which, t.N = Next, Num{N: 1}
	return true
}
