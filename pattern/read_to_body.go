package pattern

import "crochet/tallyturn/pattern/stitch"

// bodyNouns are what a band or a border is worked onto, sideways, row by row.
var bodyNouns = newWordSet("hat beanie cap crown body blanket afghan shawl scarf cowl sock mitt mitten glove sweater jumper cardigan vest main work bag basket cushion panel centre center edge edging row-ends sleeve yoke piece garment")

// toBody takes slip stitches that hold a row to what it is worked onto, "sc in each sc
// across, sl st in next 2 sts of hat", "sl st into the next 2 sts of the last round", for
// ones that go beside the row below: ribbings and borders worked sideways end every
// second row so (common practice, no source).
//
//	toBody = ( "of" | "on" | "along" ... ) ( body | "last" "round" ) .
func (x *rowReader) toBody(from int, t *Target) {
	if x.row.Kind != FlatRow || !x.worked || t.Which != Next || t.Row != nil && t.Row.Piece != "" {
		return
	}
	for i := from; i < x.p; i++ {
		if x.ts[i].isAny("rnd", "round", "rnds", "rounds") && i > from+1 {
			t.Row = &RowRef{Piece: besideThis, Span: x.spanFrom(from)}
			return
		}
	}
	start := x.p
	if t.Row == nil && x.accept("of", "on", "along", "from") && x.accept("the", "your", "main") {
		x.accept("main")
	}
	for k := 0; k < 3 && x.p > start && x.peek().kind == tWord; k++ {
		named := x.peek().in(bodyNouns)
		x.p++
		if named && x.edgeEnds(0) {
			t.Row = &RowRef{Piece: besideThis, Span: x.spanFrom(start)}
			return
		}
	}
	x.p = start
}

// namesSlips reports a step that is about slip stitches, "skip the sl sts".
func namesSlips(s *Step) bool {
	return len(s.Target.Of) == 1 && s.Target.Of[0].Kind == OneStitch && s.Target.Of[0].Stitch == stitch.Slip
}
