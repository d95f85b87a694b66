package pattern

// sidesTold = ( "for" | "on" | "along" | "to" ) ( "all" | "each of" | "both" ) [ "the" ] [ "other" ] number ( "sides" | "corners" | ... ) .
//
// It is how often a repeat is worked where that is told by the sides of the work:
// "repeat from * for all 4 sides", "on each of the other three sides", which are
// more than the one that was worked.
func (x *rowReader) sidesTold() (Times, bool) {
	start := x.p
	no := func() (Times, bool) {
		x.p = start
		return Times{}, false
	}
	if !x.accept("for", "on", "along", "to", "round", "around") {
		return Times{}, false
	}
	all := x.accept("all", "each", "every")
	x.accept("of")
	the := x.accept("the")
	more := x.accept("other", "remaining", "rem", "next", "following")
	n := x.peek()
	if n.kind != tNum || n.frac || n.big || n.num < 1 || !all && !(the && more) {
		return no()
	}
	num, _ := x.number()
	more = x.accept("other", "remaining", "more", "further") || more
	if x.accept("long", "short") || !x.accept("sides", "corners", "edges", "points", "petals", "sections", "quarters", "arms", "rays") {
		return no()
	}
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{)]*") && !x.peek().head {
		return no()
	}
	tm := Times{Kind: Exactly, N: num, sure: true, Span: x.spanFrom(start)}
	if more {
		tm.Kind, tm.more, tm.sure = More, true, false
	}
	return tm, true
}

// whichIs takes words that only tell more of the place just named, "in next dc
// which is the centre one of the corner 3", "in next st, the one that was marked".
func (x *rowReader) whichIs() bool {
	if !x.peek().isAny("which", "that") || !x.at(1).isAny("is", "are", "was", "were", "should", "will") || !x.at(2).isAny("the", "a", "an", "at", "on", "in", "your", "one", "be") {
		return false
	}
	for k := 3; k < 14; k++ {
		switch t := x.at(k); {
		case t.kind == tEnd || t.isMark(",;.)]*("):
			x.p += k
			return true
		case t.plainStitch() && x.at(k-1).kind == tNum && x.at(k+1).isAny("in", "into"), t.isAny("ch", "chain", "skip", "rep", "repeat", "times", "inc", "dec", "work", "and", "then"):
			return false
		}
	}
	return false
}
