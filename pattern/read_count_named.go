package pattern

// countNamed reads "Count your petals: 20 of them", "count the stitches: 48 in all": what
// is counted stands before the number.
//
//	countNamed = "count" [ "your" | "the" ] unit ( ":" | "-" | "," ) number [ "of them" | "in all" ] .
func (x *rowReader) countNamed(before []*Step) bool {
	start := x.p
	p := TotalPart{Kind: PartStitches}
	if !x.worked || !x.phrase("count|check", "[up]", "[your|the|all]", "[your|the]") || x.peek().kind != tWord || !x.pieceUnit(&p) || !x.peek().isMark(":-,") || x.at(1).kind != tNum || x.at(1).frac {
		x.p = start
		return false
	}
	x.p++
	from := x.p
	p.N, _ = x.number()
	p.Span = x.spanFrom(from)
	if !x.phrase("of", "them|these") && !x.phrase("in", "all|total") {
		x.accept("altogether", "total")
	}
	if !x.end() && !x.peek().isMark(".;!)") && !x.peek().head {
		x.p = start
		return false
	}
	x.setTotal([]TotalPart{p}, x.spanFrom(start), before)
	return true
}
