package pattern

// restTold reads what is left of a row where it is told as being, not as left: "turn; rem
// 30 dc are left for the right front", "the other 8 sts will be the second strap".
//
//	restTold = [ "the" ] ( "rem" | "remaining" | "other" | "last" ) [ number ] noun
//	           ( "are" | "is" | "will be" | "stay" ... ) words .
func (x *rowReader) restTold() []*Step {
	if !x.worked || x.depth > 1 || x.p == 0 || !x.at(-1).isMark(",;.:-") && !x.at(-1).isAny("and", "turn") {
		return nil
	}
	start := x.p
	fail := func() []*Step { x.p = start; return nil }
	if !x.phrase("[the|these|those]", "rem|remaining|other|last|rest", "[of]", "[the]") {
		return nil
	}
	s := &Step{Op: OpLeave}
	if x.peek().kind == tNum {
		s.Target.N, _ = x.number()
	}
	n, named := x.nounAt(0)
	switch {
	case named && !isRowWord(x.peek()):
		x.p += n.tokens
		x.fill(&s.Target, n)
	case s.Target.N.N == 0:
		return fail()
	}
	if !x.tellsWhatFor() {
		return fail()
	}
	s.Span = x.spanFrom(start)
	return []*Step{s}
}

// partTold takes a sentence that tells what the stitches of the row are to be, "These 28
// dc form the back neck", "first strap begins": they are worked by then.
func (x *rowReader) partTold() []*Step {
	if !x.worked || x.depth > 1 || x.p == 0 || !x.at(-1).isMark(";.:-") {
		return nil
	}
	start := x.p
	if x.phrase("these|those") && x.peek().kind == tNum && !x.peek().frac {
		x.p++
		if n, ok := x.nounAt(0); ok && !isRowWord(x.peek()) {
			x.p += n.tokens
		}
		if x.tellsWhatFor() {
			return x.noteFrom(start)
		}
	}
	x.p = start
	if x.phrase("[the]", "first|second|one|left|right|next", "strap|shoulder|side|half|front|sleeve|leg|ear|flap|heel|thumb", "[flap]", "[is|now]", "[now]", "begins|starts|begun|done|complete|completed|finished", "[here|now]") && x.restEnds() {
		return x.noteFrom(start)
	}
	x.p = start
	return nil
}

// tellsWhatFor takes the rest of a clause in which stitches are said to be for a part of
// the work or to wait: a verb of being, and words of which none is work.
func (x *rowReader) tellsWhatFor() bool {
	if !x.phrase("[now|then|will|shall]", "are|is|be|stay|form|make|become|remain|wait", "[now]") || x.restEnds() {
		return false
	}
	for k := 0; ; k++ {
		switch t := x.at(k); {
		case t.kind == tEnd || t.isMark(".,;([)]"):
			x.p += k
			return k > 0
		case k > 12 || t.in(talkNever) && !t.isAny("each") || !x.wordsOnly(k, k+1):
			return false
		}
	}
}

// restEnds reports that a clause ends here.
func (x *rowReader) restEnds() bool {
	return x.end() || x.peek().separator() || x.peek().isMark("([)]")
}
