package pattern

// rowEndTold takes when a thing is done, "at the end of this and every row", "at end
// of each row": it goes with what was just told, and works nothing.
//
//	told = "at" [ "the" ] "end" "of" rows { ( "and" | "&" ) rows } .
func (x *rowReader) rowEndTold() bool {
	start := x.p
	if !x.phrase("at|on", "[the]", "end|ends|beginning|start", "of") || !x.rowsSpoken() {
		x.p = start
		return false
	}
	for {
		save := x.p
		x.accept(",")
		if !x.accept("and", "&") || !x.rowsSpoken() {
			x.p = save
			break
		}
	}
	if !isRowWord(x.at(-1)) {
		x.p = start
		return false
	}
	return true
}

// rowsSpoken takes rows that are told without a number: "this", "every row", "all
// the following rows".
func (x *rowReader) rowsSpoken() bool {
	start := x.p
	x.phrase("this|the|that|each|every|all|these", "[of]", "[the|these|other]")
	x.phrase("last|next|final|following|foll|succeeding|subsequent|other")
	if isRowWord(x.peek()) && x.at(1).kind != tNum {
		x.p++
	}
	return x.p > start
}
