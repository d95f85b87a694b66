package pattern

// otherEdge = ( "repeat" | "work the same" | "do the same" ) ( "on" | "along" | "for" ) [ "the" ] ( "other" | "opposite" ) edge .
//
// What was worked along an edge is worked along the other one as well. Where a row
// below tells how many stitches lie there, it is the row that says so.
func (x *rowReader) otherEdge() []*Step {
	start := x.p
	if x.lastStep == nil || !x.worked || x.depth > 1 {
		return nil
	}
	if !x.phrase("repeat|rep|rpt", "[this|the]", "[edging|border|row]") && !x.phrase("work|do|make", "[the|in]", "[the]", "same|likewise") && !x.phrase("likewise") {
		return nil
	}
	if !x.accept("on", "along", "for", "at", "across", "down", "up") || !x.phrase("[the]", "other|opposite|second|remaining|3|three", "[remaining|long|short|row]", "side|sides|edge|edges|end|ends") || !x.end() && !x.peek().separator() {
		x.p = start
		return nil
	}
	return x.noteFrom(start)
}
