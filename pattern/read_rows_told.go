package pattern

// rowsTold reads how many rows a label stands for, said once more behind the
// work: "sc in every stitch, five rounds", "sc around for 3 rnds". The number
// is held against the label with the other claims of the pattern.
func (x *rowReader) rowsTold() []*Step {
	if !x.worked && x.row.Refer == nil || x.depth > 1 || !x.peek().opens(opensNote) {
		return nil
	}
	start := x.p
	x.accept("for", "over")
	if x.peek().kind != tNum || x.peek().frac || !x.at(1).isAny("rows", "rounds", "rnds", "rds") {
		x.p = start
		return nil
	}
	x.p += 2
	x.phrase("[in]", "total|all|altogether")
	x.phrase("like|of", "this|that|these")
	x.phrase("even|straight|plain|worked")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{)") && !x.peek().head {
		x.p = start
		return nil
	}
	return x.noteFrom(start)
}
