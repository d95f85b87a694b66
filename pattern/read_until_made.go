package pattern

// madeNouns are what a pass of a repeat may make one of.
var madeNouns = newWordSet("loops lps spokes petals shells scallops points arms groups clusters fans rays arches arcs leaves bars spaces sps picots bobbles popcorns puffs tufts holes eyelets sections wedges")

// timesUntilMade takes how often a repeat is worked where that is told by what comes of it:
// "rep from * until 12 spokes are made", "until there are 8 loops", "to make 6 petals in all".
// A chain that stands for a stitch at the beginning of the row has made the first of them.
//
//	timesUntilMade = ( "until" | "to make" ) [ "there are" | "you have" ] number noun [ "are made" | "in all" ] .
func (x *rowReader) timesUntilMade() (Times, bool) {
	start := x.p
	fail := func() (Times, bool) { x.p = start; return Times{}, false }
	if !x.phrase("until|till|til", "[there|you|we]", "[are|have|is|get|made]", "[made|a]", "[total]", "[of]") && !x.phrase("to", "make|form|give", "[a]", "[total]", "[of]") {
		return Times{}, false
	}
	n, ok := x.number()
	if !ok || n.N < 2 || len(n.Sizes) > 0 {
		return fail()
	}
	if x.accept("ch", "chain") {
		x.accept("-")
		if x.peek().kind == tNum {
			x.p++ // "12 ch-3 loops"
		}
	}
	if !x.acceptIn(madeNouns) {
		return fail()
	}
	if x.phrase("are|is|have|remain", "[been]", "[made|worked|complete|completed|formed|done|finished]"); x.at(-1).is("remain") {
		return fail()
	}
	x.phrase("made|worked|complete|completed|formed|altogether")
	x.phrase("in", "all|total")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{)]") && !x.peek().isAny("join", "turn", "and", "ending") && !x.peek().head {
		return fail()
	}
	if x.begunByChain() {
		n.N--
	}
	return Times{Kind: Exactly, N: n, Span: x.spanFrom(start), sure: true}, true
}

// begunByChain reports whether the row begins with a chain as high as a stitch: it is the
// first of what its passes make.
func (x *rowReader) begunByChain() bool {
	const stands = 3 // chains, for a dc
	for i := 0; i+1 < len(x.ts) && i < x.p; i++ {
		a, b := &x.ts[i], &x.ts[i+1]
		switch {
		case a.isAny("*", "**") || x.stitchFollows(i-x.p) && !a.isAny("ch", "chain"):
			return false
		case a.isAny("ch", "chain") && b.kind == tNum:
			return b.num >= stands
		case a.kind == tNum && b.isAny("ch", "chain"):
			return a.num >= stands
		}
	}
	return false
}
