package pattern

// overChain = ( "along" | "across" ) [ "the" ] chain [ "-" number [ space ] ] .
//
// "2 sc along the ch-2" go into the space, and so do "2 sc along the ch" beside
// stitches that were left free for a thumb. What stands behind a long dash is the
// total: "2 sc along the ch\u201410 sc".
func (x *rowReader) overChain(n int64) (Target, bool) {
	start := x.p
	if !x.accept("along", "across") {
		return Target{}, false
	}
	x.accept("the", "this", "that")
	if !x.accept("ch", "chain") {
		x.p = start
		return Target{}, false
	}
	space := Filter{Kind: Space}
	switch size := x.at(1); {
	case x.peek().is("-") && size.kind == tNum && !size.frac && !(x.longDash(0) && x.totalBehind(0)):
		space.Size = size.num
		x.p += 2
		x.accept("sp", "space", "lp", "loop")
	case n > 2 && x.chainBelow() == n && !x.leftFree(start) && (x.end() || x.peek().isMark(",;.([") || x.longDash(0) || x.peek().is("and")):
		// "9 sc along the ch" that the row below made of nine
	case (n <= 2 || x.leftFree(start)) && (x.end() || x.peek().isMark(",;.([") || x.longDash(0) || x.peek().is("and")):
	default:
		x.p = start
		return Target{}, false
	}
	return Target{Which: Next, N: Num{N: 1}, Of: []Filter{space}, said: true}, true
}

// chainBelow is how long the longest chain of the row below is that is worked in it
// between stitches, or 0.
func (x *rowReader) chainBelow() int64 {
	long := int64(0)
	if x.above == nil {
		return 0
	}
	for i, s := range x.above.Steps {
		if s.Op == OpChain && i > 0 && s.N.Sizes == nil {
			long = max(long, s.N.N)
		}
	}
	return long
}

// leftFree reports whether the row has told, before a token, of stitches that an
// earlier one left.
func (x *rowReader) leftFree(before int) bool {
	for i := max(0, before-maxClause); i < before; i++ {
		if x.ts[i].isAny("skipped", "missed", "free", "unworked") {
			return true
		}
	}
	return false
}

// maxClause is how many words are looked back over at most.
const maxClause = 24

// lastLoop takes the loop that a join closes, where the words name it: "joining
// last ch 6 with sl st to first sc", "Join last ch-7 loop to first sc".
func (x *rowReader) lastLoop() bool {
	start := x.p
	x.accept("the")
	if !x.accept("last", "final") || !x.accept("ch", "chain", "chs", "loop", "lp") {
		x.p = start
		return false
	}
	x.accept("-")
	if t := x.peek(); t.kind == tNum && !t.frac {
		x.p++
	}
	x.accept("loop", "lp", "sp", "space", "arch")
	if !x.peek().isAny("with", "to", "in", "into", "by") {
		x.p = start
		return false
	}
	return true
}
