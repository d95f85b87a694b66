package pattern

// alikeAgain = ( "make" | "work" | "crochet" ) [ article ] ( "second" | "other" | "another" ) name ( [ "in" ] "the same" way | "to match" | "likewise" ) .
//
// It sends back to a whole piece, "Make second mitten the same way; there is no
// right or left", and works nothing here.
func (x *rowReader) alikeAgain() bool {
	if !x.accept("make", "making", "work", "crochet", "do") {
		return false
	}
	x.accept("the", "a", "your", "one")
	if o := x.peek(); o.kind == tOrd && o.num > 1 || o.isAny("other", "another", "opposite", "remaining") {
		x.p++
	} else {
		return false
	}
	x.accept("one", "of")
	for k := 0; k < 4 && !x.alikeWord(); k++ {
		if t := x.peek(); t.kind != tWord || isRowWord(t) || t.isAny("side", "half", "end", "edge", "shoulder") || x.stitchFollows(0) {
			return false
		}
		x.p++
	}
	return x.alikeWord()
}

// alikeWord reports words that say of a piece that it is made as one before.
func (x *rowReader) alikeWord() bool {
	k := 0
	for x.at(k).isAny("in", "exactly", "just", "quite") {
		k++
	}
	return x.phraseAt(k, "the", "same", "[way|manner|fashion]") > 0 || x.phraseAt(k, "likewise|alike|similarly") > 0
}

// slipsInside reports a thing that is slipped into the work, "Slip the card into
// the base": no stitch, no loop and no marker.
func (x *rowReader) slipsInside() bool {
	if !x.accept("slip", "slide", "drop") || !x.accept("the", "a", "your", "an", "this", "some") {
		return false
	}
	for k := 0; k < 4; k++ {
		t := x.peek()
		if k > 0 && x.phrase("in|into|inside|over|onto|through|under|between|up", "[the|its|your|this|each]") {
			return !x.nounFollows(0) && !x.stitchFollows(0) && x.peek().kind == tWord
		}
		if t.kind != tWord || t.isAny("hook", "marker", "first", "last", "next", "hooks") || isRowWord(t) || x.nounFollows(0) || x.stitchFollows(0) {
			return false
		}
		x.p++
	}
	return false
}
