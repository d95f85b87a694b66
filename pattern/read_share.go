package pattern

// sharedBy are what the stitches of a round are told apart by: "11 tr per side",
// "7 along each edge".
var sharedBy = newWordSet("side sides edge edges corner corners end ends petal petals section sections point points half front back sleeve sleeves wedge wedges segment segments motif scallop repeat leg spoke ray rib")

// part = share | plain part [ "on each side" ] .
//
// What stands on each side is a share of the row beside its total, and counts
// nothing by itself.
func (x *rowReader) part(end int) (TotalPart, bool) {
	start := x.p
	if n, ok := x.number(); ok {
		if middle, half := x.sidesOfMiddle(); half || x.shareOf(end) { // "28 sts, 7 on each side"
			return TotalPart{N: n, Kind: PartOther, Name: oneLine(x.src.Slice(Span{n.Span.End, x.spanFrom(start).End})), Span: x.spanFrom(start), share: true, halves: half, middle: middle}, true
		}
		x.p = start
	}
	p, ok := x.plainPart(end)
	if ok {
		if middle, half := x.sidesOfMiddle(); half || x.shareOf(end) { // "11 tr per side"
			p.Span = x.spanFrom(start)
			p.halves, p.middle = half, middle
			p.figures = p.Kind != PartStitches && p.Kind != PartStitch
			p.Kind, p.Name, p.share = PartOther, oneLine(x.src.Slice(Span{p.N.Span.End, p.Span.End})), true
			return p, ok
		}
	}
	if n := x.eachRowAhead(0); ok && n > 0 && (p.Kind == PartStitches || p.Kind == PartStitch) {
		x.p += n
		p.Span, p.eachRow = x.spanFrom(start), true
	}
	return p, ok
}

// shareOf takes "per side", "on each of the 4 sides", "between corners".
func (x *rowReader) shareOf(end int) bool {
	start := x.p
	switch {
	case x.phrase("per"), x.phrase("[on|along|in|to|at|for|across|down|up|of]", "each|every|either|both|all", "[of]", "[the]"):
	case x.phrase("between", "[the|each|two|2]"):
	case x.phrase("on|along|to", "a"):
	default:
		return false
	}
	if x.peek().kind == tNum {
		x.p++
	}
	x.accept("straight", "long", "short", "other", "outer", "the")
	if x.p >= end || !x.acceptIn(sharedBy) {
		x.p = start
		return false
	}
	x.phrase("of", "[the]", "square|motif|piece|work")
	x.phrase("between", "[the]", "corners|corner", "[sps|spaces|sp]")
	return true
}

// middles are what the two halves of a row lie on either side of; those of the first set
// have no stitch of their own.
var (
	openMiddles  = newWordSet("sp space gap hole loop")
	solidMiddles = newWordSet("middle center centre spine backbone increase tip stitch st marker")
)

// sidesOfMiddle takes "on each side of the ch-2 space", "before and after the gap", "either
// side of the spine": of the two halves of the row as many are told. It gives how many
// stitches may stand between them at most.
func (x *rowReader) sidesOfMiddle() (int64, bool) {
	start := x.p
	if x.phrase("[on|at|to|in|for]", "each|either|both", "[of]", "[the]", "half|halves") {
		return maxCorner, true
	}
	if !x.phrase("[on|at|to]", "each|either|both", "[of|the]", "side|sides", "of", "[the|that|your]") && !x.phrase("before|left", "and", "after|right", "[of]", "[the|that|your]") {
		x.p = start
		return 0, false
	}
	named := x.phrase("center|centre|middle|central|increase|corner|spine|marked")
	if x.phrase("ch|chain", "[-]") && x.peek().kind == tNum {
		x.p++
	}
	switch {
	case x.acceptIn(openMiddles):
		return 0, true
	case x.acceptIn(solidMiddles), named && x.at(-1).isAny("spine", "increase"):
		return maxCorner, true
	case named && x.at(-1).in(solidMiddles) && (x.peek().separator() || x.peek().isMark(")]") || x.end() || x.peek().isAny("now", "by")):
		return maxCorner, true
	}
	x.p = start
	return 0, false
}

// onlyShares reports whether a total tells of shares and of nothing else.
func onlyShares(parts []TotalPart) bool {
	for i := range parts {
		if !parts[i].share {
			return false
		}
	}
	return true
}

// inShare reports whether a word is part of a share, or tells that the count is that of each row.
func inShare(parts []TotalPart, t *token) bool {
	for i := range parts {
		if p := &parts[i]; (p.share || p.eachRow) && p.Span.Contains(t.span()) {
			return true
		}
	}
	return false
}
