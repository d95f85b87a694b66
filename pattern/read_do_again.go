package pattern

// What an open star repeats may be told with no word of the star: "*Sc in next 6 sts, inc;
// do this 4 times", "* ...; carry on like this all the way round", "* ...; 5 times".

// doneAgain reads how often all since the mark is worked, where a verb points back at it.
//
//	done again = [ "you" | "now" ] ( "do" | "work" | "repeat" | ... ) ( "this" | "that" | "the same" | ... ) times
//	           | "this is" ( "done" | "worked" | ... ) times
//	           | [ "and" ] "again" times .
func (x *rowReader) doneAgain() (Times, bool) {
	start := x.p
	fail := func() (Times, bool) { x.p = start; return Times{}, false }
	again, back, oncemore := false, false, false
	x.phrase("[and]", "[then|now]", "[you|now|just]", "[then|now]")
	switch {
	case x.phrase("keep|carry|go|continue|cont|continuing", "[on|going]", "[doing|working|repeating]", "like|in", "this|that|the", "[same]", "[way|manner|fashion|pattern]"),
		x.phrase("keep|carry|go|continue", "[on|going]", "doing|repeating|working", "this|that|it|so|these|those", "[repeat|sequence|pattern]"):
		back = true
	case x.phrase("so", "on|forth", "[in|on|like]", "[this|that|the]", "[same]", "[way|manner]"):
		if tm, ok := x.times(); ok && tm.Kind == Fill && tm.Bound.Kind == ToEnd {
			return tm, true
		}
		return fail()
	case x.phrase("do|work|make|repeat|rep|rpt|crochet", "this|that|it|these|those|so|the", "[same|whole]", "[sts|stitches|sequence|pattern|repeat|section|bit|part|thing]"):
		back, again = true, x.ts[start].isAny("repeat", "rep", "rpt")
	case x.phrase("this|that", "[whole|is]", "[sequence|repeat|is]", "[is]", "done|worked|repeated|made"):
		back, again = true, x.at(-1).is("repeated")
	case x.phrase("again", "[for]"):
		back, oncemore = true, true
	}
	if !back {
		return fail()
	}
	x.phrase("a", "total", "of")
	tm, ok := x.times()
	if !ok || tm.Kind == Fill && tm.Bound.Kind == ToPlace {
		return fail()
	}
	x.accept("over") // "6 times over"
	if oncemore && tm.Kind == Exactly && !tm.sure {
		tm.Kind, tm.more = More, true // "and again 5 times"
		return tm, true
	}
	tm.star = tm.star || again && !tm.sure && tm.Kind == Exactly
	return tm, true
}

// timesOfStar reads how often an open star is worked, where a bare number of times closes
// it, behind a joint and before nothing more: "*sc in next 6 sts, inc; 6 times".
func (x *rowReader) timesOfStar() (Times, bool) {
	start := x.p
	if tm, ok := x.doneAgain(); ok {
		return tm, true
	}
	x.accept("and", "then")
	if x.accept("rep", "repeat", "rpt") {
		if tm, ok := x.times(); ok && (tm.Kind == Exactly || tm.Kind == More) {
			if tm.Kind == Exactly && !tm.sure {
				tm.Kind, tm.star = More, true // "*sc in next 3 sts, inc, repeat 6 times"
			}
			return tm, true
		}
	}
	x.p = start
	if x.p > 0 && x.at(-1).separator() && (x.peek().kind == tNum || x.peek().isAny("twice")) {
		if tm, ok := x.times(); ok && (tm.Kind == Exactly || tm.Kind == More) && x.lastWords() {
			return tm, true
		}
	}
	x.p = start
	return Times{}, false
}

// closesStar reports whether such words stand here, and none further on that go back to the
// mark.
func (x *rowReader) closesStar(mark string) bool {
	start := x.p
	_, ok := x.timesOfStar()
	x.p = start
	for k := 1; ok && k < maxTotal && x.at(k).kind != tEnd; k++ {
		ok = !x.at(k).is(mark)
	}
	return ok
}
