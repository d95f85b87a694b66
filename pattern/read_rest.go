package pattern

// again = ( times | bound | "do that" times | "repeated" times | "so on" times ) .
//
// Standing in a clause of its own, behind a list in no bracket, it repeats all
// of the list: "sc in 3, dec, 3 times", "2 sc, inc, x6", "sc, inc, all around".
func (x *rowReader) again(before []*Step) []*Step {
	if !x.worked || x.depth > 1 || len(before) == 0 || x.p == 0 || !x.at(-1).isMark(",;.:-") && !x.at(-1).isAny("and", "then") {
		return nil
	}
	t := x.peek()
	if t.kind != tNum && !t.isAny("x", "twice", "thrice", "do", "make", "i", "you", "we", "repeat", "all", "around", "round", "across", "right", "along", "to", "until", "till", "so", "which", "this", "being", "repeated", "worked", "done", "made", "crocheted") {
		return nil
	}
	start := x.p
	fail := func() []*Step { x.p = start; return nil }
	last := before[len(before)-1]
	repeated := false
	switch {
	case x.phrase("[i|you|we]", "do|make|repeat", "that|this|it|these|the", "[all|same]"), x.phrase("so", "on|forth"):
	case x.phrase("[which|this]", "[is|being]", "repeated|worked|done|made|crocheted"):
		repeated = x.at(-1).is("repeated")
	case t.isAny("make", "i", "you", "we", "repeat", "so", "which", "this", "being"):
		return nil
	}
	asked := x.p > start
	x.phrase("a", "total", "of")
	var tm Times
	if u := x.peek(); u.isAny("all", "around", "round", "across", "right", "along", "to", "until", "till") {
		b, ok := x.bound()
		if !ok || b.Kind != ToEnd {
			return fail()
		}
		tm = Times{Kind: Fill, Bound: b, Span: x.spanFrom(start)}
	} else {
		var ok bool
		if tm, ok = x.times(); !ok || tm.Kind != Exactly {
			return fail()
		}
		tm.star, tm.sure = repeated && !tm.sure, tm.sure || !repeated // "repeated 5 times" may be five more
	}
	if tm.Kind == Fill && x.bounded && last.Op == OpAlong {
		sp := x.spanFrom(start) // "3 dc in each corner sp, all round, ss to first dc"
		return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}}
	}
	if !x.end() && !x.peek().isMark(".([{<=-~:;") && !(x.peek().is(",") && !x.workFollows(1)) && !(x.peek().isAny("and", "so", "for", "to") && x.at(1).in(countTalk) && !x.workFollows(1)) && !(x.peek().kind == tNum && x.end1()) {
		return fail()
	}
	if tm.Kind == Fill && x.bounded {
		sp := x.spanFrom(start) // "sc in each st, all around"
		return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}}
	}
	if !asked && last.Op == OpGroup && last.Times.Kind != Once || !plainList(before) {
		return fail()
	}
	return []*Step{{Op: OpGroup, Times: tm, Text: "rest", Span: x.spanFrom(start)}}
}

// plainList reports whether steps are a list that says no places far off, so that
// all of it may come again.
func plainList(steps []*Step) bool {
	works, inOrder := 0, countedInOrder(steps)
	for i, s := range steps {
		switch {
		case s.Op == OpWork && inOrder, s.Op == OpWork && (s.Target.Which == Next || s.Target.Which == Same), s.Op == OpSkip, s.Op == OpInto:
			works++
		case s.Op == OpGroup && s.Times.Kind == Exactly, s.Op == OpGroup && s.Times.Kind == Once:
			works++
		case s.Op == OpChain && (works > 0 || i < 2), s.Op == OpPicot, s.Op == OpNote, s.Op == OpTurn, s.Op == OpColour, s.Op == OpStay:
		default:
			return false
		}
	}
	return works > 0
}

// workFollows reports whether the token k further on begins work: a stitch, a
// number of them, a chain.
func (x *rowReader) workFollows(k int) bool {
	t := x.at(k)
	if t.kind == tNum {
		k++
	}
	return x.stitchFollows(k) || x.at(k).isAny("inc", "dec", "ch", "chain", "skip", "sk", "miss") || t.kind == tNum && x.at(k).isAny("in", "into", ",", ".")
}

// spacedPlus reports a "+" that joins two steps, "1 sc + inc", and opens
// nothing to repeat.
func (x *rowReader) spacedPlus() bool {
	if !x.peek().is("+") || x.p == 0 || x.at(-1).kind == tPunct && !x.at(-1).isMark(")]") || x.openOutside("+") {
		return false
	}
	for k := 1; k < 60; k++ {
		switch t := x.at(k); {
		case t.kind == tEnd:
			return true
		case t.isAny("from", "to", "at") && x.at(k+1).is("+"):
			return false
		}
	}
	return true
}
