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
	if !x.phrase("for|to", "[the]", "desired|required|wanted|needed", "length|size|width|height") && !x.phrase("for|to", "[the]", "length|size|width|height", "desired|required|wanted|needed|wished") ||
		!x.end() && !x.peek().isMark(".,;(") {
		x.p = start
		return nil
	}
	x.endingRow()
	return x.remarkFrom(start)
}
