package pattern

// gaugeLinks stand between what is counted on a swatch and how large that is.
var gaugeLinks = newWordSet("= to measure measures equals equal in per over is makes gives across is about approx approximately roughly around a an every")

// gaugeLine reports whether a line before any row tells the gauge under no heading, "20 sc
// and 24 rows = 9 cm", "My gauge: 5 dc to the inch". None of it is worked.
//
//	gauge line = { word } number stitch [ ( "and" | "x" ) number "rows" ] link number unit { word } .
func (r *reader) gaugeLine(ln line) bool {
	x := r.scratch(ln.start)
	for x.p < ln.end && x.p < ln.start+5 && x.peek().kind != tNum && !x.stitchFollows(0) && !x.peek().isAny("ch", "chain", "ring", "work", "make") && !isRowWord(x.peek()) {
		x.p++
	}
	if x.peek().kind != tNum || x.p >= ln.end {
		return false
	}
	x.p++
	if _, n := x.stitchAt(0); n > 0 {
		x.p += n
	} else if !x.accept("st", "sts", "stitches") {
		return false
	}
	x.accept("sts", "st", "stitches")
	if x.accept("and", "x", "&", ",", "/", "by") && x.peek().kind == tNum && isRowWord(x.at(1)) {
		x.p += 2
	}
	from := x.p
	x.acceptIn(gaugeLinks)
	for x.p > from && x.acceptIn(gaugeLinks) {
	}
	if x.p == from || x.peek().kind != tNum || !x.at(1).isAny("cm", "cms", "mm", "in", "inch", "inches", "\"", "centimetres", "centimeters") || x.at(1).is("in") && !x.at(2).separator() && x.p+2 < ln.end {
		return false
	}
	for x.p += 2; x.p < ln.end; x.p++ {
		if x.stitchFollows(0) || x.peek().isAny("ch", "chain", "ring", "join") || isRowWord(x.peek()) && x.at(1).kind == tNum {
			return false
		}
	}
	return true
}
