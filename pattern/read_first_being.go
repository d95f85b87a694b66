package pattern

// firstBeing reads what a round begins with where that is told behind its stitches:
// "12 dc in ring, the first being 3 ch", "first dc = ch 3", "with ch 3 as the first dc".
// The chain is one of the stitches counted.
//
//	firstBeing = [ "with" ] [ "the" ] "first" [ stitch ] [ "of" "these" ] ( "being" | "is" | "=" | ... ) [ "a" ] chain
//	           | [ "the" ] "first" chain "=" stitch
//	           | [ "with" ] chain ( "as" | "standing" "in" "for" | ... ) [ "the" ] "first" stitch .
func (x *rowReader) firstBeing() *Step {
	if !x.worked || x.depth > 1 || !x.peek().isAny("with", "where", "the", "first", "ch", "1st") && x.peek().kind != tOrd && x.peek().kind != tNum {
		return nil
	}
	start := x.p
	fail := func() *Step { x.p = start; return nil }
	with := x.accept("with", "where", "working", "making")
	x.accept("the")
	if o := x.peek(); o.kind == tOrd && o.num == 1 || o.is("first") {
		x.p++
		if x.someChain() { // "first ch 3 = dc"
			if !x.phrase("=|is|being|as|for|counts|counting", "[as|for|=]", "[a|the|one|first]") {
				return fail()
			}
			if x.peek().kind == tNum && x.peek().num == 1 {
				x.p++
			}
			_, n := x.stitchAt(0)
			if x.p += n; n == 0 && !x.accept("st", "stitch") || !x.beingEnds() {
				return fail()
			}
			return x.noteStep(start)
		}
		x.accept("one", "st", "stitch")
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
		}
		x.phrase("of", "[these|them|the]", "[sts|stitches]")
		if !x.phrase("being|is|=", "[replaced|made|formed|worked]", "[by|of|up|as]", "[of]") && !x.phrase("replaced|made|formed|counted", "[up]", "by|of|as") || !x.someChain() {
			return fail()
		}
	} else if !x.someChain() || !with && !x.peek().isAny("standing", "replacing", "counting", "being", "taking", "acting") || !x.phrase("as|for|standing|counting|replacing|being|taking|acting", "[for|as|in|the]", "[place|for]", "[of]", "[the|a]", "first|1st") {
		return fail()
	} else if _, n := x.stitchAt(0); n > 0 {
		x.p += n
	} else {
		x.accept("one", "st", "stitch")
	}
	if !x.beingEnds() {
		return fail()
	}
	return x.noteStep(start)
}

// beingEnds reports whether such a clause is done.
func (x *rowReader) beingEnds() bool {
	return x.end() || x.peek().head || x.peek().separator() || x.peek().isMark(")]([")
}

// someChain takes "3 ch", "a ch-3", "chain 3".
func (x *rowReader) someChain() bool {
	start := x.p
	x.accept("a", "the", "your")
	if x.accept("ch", "chain") {
		x.accept("-", "of")
		if x.peek().kind == tNum && x.peek().num < 9 {
			x.p++
			return true
		}
	} else if x.peek().kind == tNum && x.peek().num < 9 {
		x.p++
		x.accept("-")
		if x.accept("ch", "chain", "chs", "chains") {
			return true
		}
	}
	x.p = start
	return false
}
