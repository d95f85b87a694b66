package pattern

// shareOpeners begin words that say what there is of each side.
var shareOpeners = newWordSet("that's thats that which so meaning")

// shareSaid reads what is said of each side in words behind a row: "that's 26 per
// side when you come to join", "which makes 14 dc along each edge". It is held
// against what the row has in all.
func (x *rowReader) shareSaid() []*Step {
	if !x.worked || x.depth > 1 || !x.peek().in(shareOpeners) {
		return nil
	}
	start := x.p
	x.p++
	x.phrase("is|makes|gives|means|leaves|you|you'll|making", "[have|get]")
	from := x.p
	if x.peek().kind != tNum || x.peek().frac {
		x.p = start
		return nil
	}
	n, _ := x.number()
	if _, k := x.stitchAt(0); k > 0 {
		x.p += k
	}
	x.accept("st", "sts", "stitches")
	if !x.phrase("per|on|along|to|for", "[each|every|a|the]", "side|edge") || x.at(-1).is("side") && x.at(-2).isAny("on", "along", "to", "for", "the") {
		x.p = start
		return nil
	}
	sp := x.spanFrom(from)
	if x.talkToStop(9, "ch", "rep", "repeat", "skip") < 0 {
		x.p = start
		return nil
	}
	x.row.shares = append(x.row.shares, TotalPart{N: n, Kind: PartStitches, Name: "per side", Span: sp, share: true})
	return x.noteFrom(start)
}

// sideHas reads what each side has in a sentence of its own: "Each side has 6 dc.", "Every
// side should now have 24 sts between corners", "(each side = 24 dc)".
//
//	sideHas = [ "(" ] [ "now" ] ( "each" | "every" ) ( "side" | "edge" ) [ "of the square" ] ( "has" | "=" | ":" ) number [ stitch ] [ ")" ] .
func (x *rowReader) sideHas() *Step {
	if x.depth > 1 || !x.worked && x.row.Refer == nil {
		return nil
	}
	if s := x.soManyASide(); s != nil {
		return s
	}
	start := x.p
	bracket := x.accept("(", "[")
	x.accept("now", "and")
	if !x.accept("each", "every") || !x.accept("side", "edge") {
		x.p = start
		if x.partHas() {
			return x.noteStep(start)
		}
		return nil
	}
	x.phrase("of", "[the|your]", "square|motif|piece|work")
	x.phrase("[will|should|ought|must]", "[to]", "[now|then]", "[has|have|had|is|gets|counts|holds|measures|=|:]", "[now|got|a]", "[total]", "[of]")
	from := x.p
	if x.at(-1).isAny("side", "edge") || x.peek().kind != tNum || x.peek().frac {
		x.p = start
		return nil
	}
	n, _ := x.number()
	x.accept("-")
	if _, k := x.stitchAt(0); k > 0 {
		x.p += k
	}
	x.accept("st", "sts", "stitch", "stitches", "in")
	x.accept("all")
	sp := x.spanFrom(from)
	x.phrase("between", "[the]", "corners|corner", "[sps|spaces]")
	if bracket {
		if !x.accept(")", "]") {
			x.p = start
			return nil
		}
	} else if !x.end() && !x.peek().head && !x.peek().isMark(".;!([,") {
		x.p = start
		return nil
	}
	x.row.shares = append(x.row.shares, TotalPart{N: n, Kind: PartStitches, Name: "per side", Span: sp, share: true})
	return x.noteStep(start)
}

// soManyASide reads a sentence behind the total that counts each half: "15 dc on each side
// of the spine now.", "You have 21 sts either side of the centre space."
//
//	soManyASide = [ "you" "have" ] number [ stitch ] [ "on" ] ( "each" | "either" | "both" ) "side" [ "of" place ] .
func (x *rowReader) soManyASide() *Step {
	if x.row.Total == nil || x.p == 0 || !x.at(-1).isMark(".)!];:") && !x.peek().head {
		return nil
	}
	start := x.p
	fail := func() *Step { x.p = start; return nil }
	x.phrase("[so|now]", "you|there", "[should|will|now]", "have|are|be", "[now]")
	from := x.p
	if x.peek().kind != tNum || x.peek().frac {
		return fail()
	}
	n, _ := x.number()
	if _, k := x.stitchAt(0); k > 0 {
		x.p += k
	}
	x.accept("st", "sts", "stitch", "stitches")
	middle, half := x.sidesOfMiddle()
	if !half && !x.phrase("[on|at|to]", "each|either|both", "[of]", "[the]", "side|sides") {
		return fail()
	}
	sp := x.spanFrom(from)
	if x.talkToStop(9, "ch", "rep", "repeat", "skip", "each", "next") < 0 {
		return fail()
	}
	x.row.shares = append(x.row.shares, TotalPart{N: n, Kind: PartStitches, Name: "per side", Span: sp, share: true, halves: half, middle: middle})
	return x.noteStep(start)
}

// partHas passes over what each of the parts of a round has, which nobody counts but the
// maker: "Each pineapple has 6 lps.", "Every point now has 4 sts.".
func (x *rowReader) partHas() bool {
	start := x.p
	if !x.accept("each", "every") || x.peek().kind != tWord || isRowWord(x.peek()) {
		x.p = start
		return false
	}
	x.p++
	x.phrase("[will|should|ought|must]", "[to]", "[now|then|still]", "has|have|had|gets|counts|numbers|contains", "[now|got|a|only]", "[total]", "[of]")
	if !x.at(-1).isAny("has", "have", "had", "gets", "counts", "numbers", "contains", "now", "got", "only", "of") || x.peek().kind != tNum || x.peek().frac {
		x.p = start
		return false
	}
	x.p++
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
	} else if _, k := x.stitchAt(0); k > 0 {
		x.p += k
	} else if x.peek().kind == tWord {
		x.p++
	}
	x.phrase("in", "it|all")
	if !x.end() && !x.peek().head && !x.peek().isMark(".;!") {
		x.p = start
		return false
	}
	return true
}

// talkToStop takes the words up to the next stop, and gives how many they are: -1 where
// they are more than most, or there is a number, a stitch or one of some words among them.
func (x *rowReader) talkToStop(most int, never ...string) int {
	for k := 0; ; k++ {
		switch t := x.peek(); {
		case t.kind == tEnd || t.head || t.separator() || t.isMark("()[]"):
			return k
		case k >= most || t.kind != tWord || x.stitchFollows(0) || t.isAny(never...):
			return -1
		}
		x.p++
	}
}

// shareAhead reports whether words that say what there is of each side begin k
// tokens on.
func (x *rowReader) shareAhead(k int) bool {
	if !x.at(k).in(shareOpeners) {
		return false
	}
	for j := k + 1; j < k+9; j++ {
		switch t := x.at(j); {
		case t.kind == tEnd || t.head || t.separator() || t.isMark("()[]"):
			return false
		case t.isAny("side", "edge") && x.at(j-1).isAny("per", "each", "every", "a"):
			return true
		}
	}
	return false
}

// notCounted reads what a total leaves out, told behind it: ", not counting the ch-2
// corners", "excluding the chain spaces".
func (x *rowReader) notCounted() []*Step {
	if !x.worked || x.depth > 1 || x.row.Total == nil || !x.at(-1).isMark(",(;-") {
		return nil
	}
	start := x.p
	if !x.phrase("not|without", "counting|including") && !x.phrase("excluding") {
		return nil
	}
	x.accept("the", "any", "your")
	if x.peek().isAny("ch", "chain") && (x.at(1).kind == tNum || x.at(1).is("-")) {
		x.p++
		x.accept("-")
		x.number()
	}
	if x.talkToStop(7) < 1 {
		x.p = start
		return nil
	}
	return x.noteFrom(start)
}
