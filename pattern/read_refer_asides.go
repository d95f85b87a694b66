package pattern

// What authors say beside the rows that they repeat, which changes no count: how the times
// are shared out among the colours, and how long their own one came out.

// timesShared takes how the times told before are shared out: "twice, once in navy and once
// in sand", "4 times, the first two with A, then with B", "twice (once in each colour)".
// Without it the last of those numbers would be read as how often the rows are repeated.
func (x *rowReader) timesShared(r *Refer) bool {
	if r.Times.N == 0 && r.Rows.N == 0 {
		return false
	}
	save := x.p
	x.accept(",", ";", "-", ":")
	x.accept("and", "then")
	x.accept("the")
	switch {
	case x.phrase("first|second|third|other|next|last", "[time|one|repeat|two|2]"):
	case x.phrase("once|twice"):
	case x.peek().kind == tNum && x.at(1).isAny("time", "times"):
		x.p += 2
	case x.peek().kind == tOrd:
		x.p++
		x.accept("time", "repeat", "one")
	case x.p > save:
	default:
		return false
	}
	if !x.yarnOfRows() {
		x.p = save
		return false
	}
	return true
}

// yarnOfRows takes the yarn that rows are worked with, to the end of its clause: "with the
// next blue", "in N for the dc rows", "using C", "for each colour". Nothing in it is counted.
func (x *rowReader) yarnOfRows() bool {
	save := x.p
	if !x.accept("in", "with", "using", "for") || x.end() || x.peek().separator() {
		x.p = save
		return false
	}
	each := x.accept("each", "every")
	for k := 0; !x.end() && !x.peek().separator() && !x.peek().isMark("([{)]}=-") && !x.peek().isAny("and", "then"); k++ {
		t := x.peek()
		named := each || t.isAny("color", "colour", "yarn", "shade")
		if t.kind == tNum || t.kind == tOrd && !named || isRowWord(t) && x.at(1).kind == tNum || k == 0 && (x.stitchFollows(0) && len(t.text) > 1 || x.nounFollows(0)) {
			x.p = save
			return false
		}
		x.p++
	}
	return true
}

// madeMine takes how long the author's own piece came out, beside rows that are worked to a
// length: "mine's 150cm", "I made mine 62 inches long", "(ours took 54 rows)".
func (x *rowReader) madeMine() bool {
	save := x.p
	bracket := x.accept("(", "[")
	if !bracket {
		x.accept(",", ";", "-")
	}
	x.accept("and", "but")
	own := x.phrase("mine|mine's|ours|ours's") || x.phrase("my|our", "scarf|one|own|piece|blanket|sample|shawl|strap|belt|band", "[was|is|has|took|came|ended|measured|measures]") ||
		x.phrase("i|we", "made|did|worked|got|stopped|used|went|needed|ended|have|had|like|prefer|crocheted")
	if !own {
		x.p = save
		return false
	}
	x.toClauseEnd()
	if bracket && !x.accept(")", "]") {
		x.p = save
		return false
	}
	return true
}
