package pattern

import "crochet/tallyturn/pattern/stitch"

// Booklets say in the row itself how a cluster is made, behind the stitches that it is
// made of: they come to one. A popcorn is told in read_dropped_loop.go.

// heldBack takes the stitches just told for a cluster, "3 d c in next sp, holding back on
// hook the last loop of each, thread over and pull through all loops". The words that hold
// them back have been read, from a token on. It reports whether the stitches stood before.
//
//	heldBack = "holding" ... "last loop" ... [ drawnOff ] .
func (x *rowReader) heldBack() bool {
	s := x.lastStep
	if s == nil || s.Op != OpWork || s.special != nil || s.Stitch == stitch.Slip || s.Legs > 0 || !s.Target.said {
		return false
	}
	save := x.p
	if !x.drawnOff() && !x.end() && !x.peek().isMark(";.*") {
		x.p = save
		return false // what they hold back may be told next
	}
	switch t := s.Target; {
	case s.N.N >= 2 && t.N.N <= 1:
		s.Stitch, s.N = stitch.Cluster, Num{N: 1}
	case s.N.N <= 1 && t.Which == Next && t.N.N >= 2:
		s.Stitch, s.Legs, s.N = stitch.Cluster, int(t.N.N), Num{N: 1}
	default:
		x.p = save
		return false
	}
	s.bare = false
	return true
}

// drawnOff passes over how loops that were held are worked off: ", thread over and draw
// through all loops on hook", "then pulling thread through all 4 loops at once".
func (x *rowReader) drawnOff() bool {
	save := x.p
	for x.peek().isAny(",", ";", "and", "&", "then") {
		x.p++
	}
	over := x.phrase("yo|yoh|yrh|wrh|woh|o") || x.phrase("yarn|thread|wool|cotton", "over|round", "[the]", "[hook|needle]")
	for x.peek().isAny(",", "and", "&", "then") {
		x.p++
	}
	draws := x.phrase("draw|pull|drawing|pulling|drawn|work|working|take|taking|bring|finish|finishing", "[off]", "[yarn|thread|wool|cotton|it|them]", "[off]")
	if !over && !draws {
		x.p = save
		return false
	}
	x.phrase("through|thru|thro|off")
	x.phrase("all|the|remaining", "[of]", "[the|remaining]")
	if x.peek().kind == tNum {
		x.p++
	}
	if !x.phrase("loops|lps|loop|sts|together|tog", "[left|remaining]", "[on]", "[the]", "[hook|needle]") {
		x.p = save
		return false
	}
	x.phrase("at", "once|one", "[time]")
	x.phrase("together|tog|tightly")
	return true
}
