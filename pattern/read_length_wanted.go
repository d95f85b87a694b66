package pattern

// lengthWanted reads what says, behind rows that are repeated, to go on with them for as
// long as the maker likes: "Like 2nd and 3rd rows. Repeat these two rows for the
// length wanted."
func (x *rowReader) lengthWanted() []*Step {
	start := x.p
	if !x.phrase("repeat|rep|rpt|repeating|continue|cont", "[repeating|working|with]", "these|those|last|the", "[same|last]") {
		return nil
	}
	if x.peek().kind == tNum && !x.peek().frac {
		x.p++
	}
	if !isRowWord(x.peek()) || x.at(1).kind == tNum {
		x.p = start
		return nil
	}
	x.p++
	wanted := x.phrase("for|to", "[the]", "desired|required|wanted|needed", "length|size|width|height") || x.phrase("for|to", "[the]", "length|size|width|height", "desired|required|wanted|needed|wished") ||
		x.measured() || x.lengthOf()
	if !wanted || !x.end() && !x.peek().isMark(".,;(") {
		x.p = start
		return nil
	}
	x.endingRow()
	return x.remarkFrom(start)
}

// lengthOf = [ "for" | "to" ] [ "the" | "a" ] ( "length" | "depth" | ... ) [ "of" | "required" ... ] { word } .
//
// It is how far rows that are repeated go, told by what they are for: "for length of
// shelf", "to the width of the cloth", "the length of the scarf".
func (x *rowReader) lengthOf() bool {
	start := x.p
	x.accept("for", "to", "through", "throughout")
	x.accept("the", "a", "any", "whole", "entire")
	x.accept("full", "whole", "entire", "required", "desired")
	if !x.accept("length", "depth", "width", "height", "size", "strip") || !x.end() && !x.peek().isMark(".,;(") && !x.peek().isAny("of", "for", "required", "desired", "wanted", "needed", "you", "that", "to") {
		x.p = start
		return false
	}
	for x.peek().kind == tWord && !x.peek().head && !x.stitchFollows(0) {
		x.p++
	}
	if !x.end() && !x.peek().isMark(".,;(") {
		x.p = start
		return false
	}
	return true
}
