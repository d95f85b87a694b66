package pattern

// edges reads the closing of edges, which makes no stitch of the row: "join
// last row to first with sl st", "whipstitch the side edges together".
func (x *rowReader) edges() []*Step {
	if !x.peek().opens(opensClosing) {
		return nil
	}
	start := x.p
	if !x.phrase("join|seam|whipstitch|whip|graft|close", "[st|stitch]") || !x.lastToFirst() && !x.seam() {
		x.p = start
		return nil
	}
	return x.noteFrom(start)
}

// lastToFirst takes "last row to first with sl st".
func (x *rowReader) lastToFirst() bool {
	save := x.p
	if x.phrase("[the]", "last|first|final", "row|rnd|edge", "to|and", "[the]", "first|last|foundation|starting|beginning|base|opposite", "[row|rnd|ch|chain|edge]") {
		x.toClauseEnd()
		return true
	}
	x.p = save
	return false
}

// seam takes "sl st the short ends together" from its second word on: making
// up, not a row's work.
func (x *rowReader) seam() bool {
	if !x.peek().isAny("the", "your", "both", "all", "pieces", "edges", "sides", "short", "long", "seam", "together", "through", "tog", "open", "closed", "ends", "side", "last", "first") {
		return false
	}
	for k := 0; k < 12; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isAny(",", ".", ";", ")", "in", "into", "next", "st", "sts") || t.kind == tNum && !x.at(k+1).isAny("short", "long", "ends", "edges", "sides", "pieces", "layers") {
			return false
		}
		if t.isAny("together", "tog", "seam", "edges", "ends", "sides", "layers", "pieces", "closed") {
			x.toClauseEnd()
			return true
		}
	}
	return false
}
