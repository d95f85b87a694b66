package pattern

import "crochet/tallyturn/pattern/stitch"

// Booklets say in the row itself how a cluster or a popcorn is made, behind the stitches
// that it is made of: they come to one.

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

// popped takes the stitches just told for a popcorn, "5 d c in next s c, drop loop from
// hook, insert hook in first of the 5 d c and pull dropped loop through".
//
//	popped = ( "drop" | "remove" | "take" ... ) { words } "through" .
func (x *rowReader) popped() []*Step {
	if !x.peek().isAny("drop", "dropping", "remove", "removing", "take", "taking", "withdraw", "slip", "slipping") {
		return nil
	}
	s := x.lastStep
	if s == nil || s.Op != OpWork || s.special != nil || s.Legs > 0 || s.N.N < 3 || s.Target.N.N > 1 || !s.Target.said {
		return nil
	}
	start := x.p
	if !x.phrase("drop|dropping|slip|slipping", "[the|last|working]", "[last]", "loop|lp|st|stitch", "[from|off]", "[the|your]", "[hook]") &&
		!x.phrase("remove|removing|withdraw|take|taking", "[the|your]", "hook", "[out]", "[from|of]", "[the|last|working]", "[last]", "[loop|lp|st|stitch]") &&
		!x.phrase("take|taking", "[the]", "loop|lp|st|stitch", "off", "[the]", "[hook]") {
		return nil
	}
	for x.peek().isAny(",", "and", "&", "then") {
		x.p++
	}
	if !x.phrase("insert|inserting|put|reinsert|place", "[the|your]", "[hook|it]", "[again]") {
		x.p = start
		return nil
	}
	for n := 0; n < mostPopped; n++ {
		switch t := x.peek(); {
		case t.isAny("through", "thru", "thro") && n > 3 && !x.at(1).isAny("the", "first", "1st", "top") && x.at(1).kind != tOrd:
			x.p++
			x.phrase("it|st|stitch|loop", "[on]", "[hook]")
			s.Stitch, s.N, s.bare = stitch.Popcorn, Num{N: 1}, false
			return x.noteFrom(start)
		case t.kind == tEnd, t.isMark(".;*"):
			x.p = start
			return nil
		}
		x.p++
	}
	x.p = start
	return nil
}

// mostPopped is how many words may tell how a popcorn is closed.
const mostPopped = 32
