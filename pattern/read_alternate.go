package pattern

// alternate = ( "alternate" | "alternating" ) step "and" step [ "," bound ] .
//
// "Alternate one hdc in a stitch and two hdc in the next, all the way around":
// two things by turns fill the row.
func (x *rowReader) alternate() []*Step {
	start := x.p
	if !x.accept("alternate", "alternating") || !x.hasStitchSoon() {
		x.p = start
		return nil
	}
	x.accept("between", "working")
	g := &Step{Op: OpGroup, Times: Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}}
	for len(g.Body) < 2 {
		x.accept("and", "then", "with")
		s := x.work()
		if len(s) != 1 || s[0].Op != OpWork {
			x.p = start
			return nil
		}
		g.Body = append(g.Body, s...)
	}
	if x.phrase("[,]", "all", "the", "way", "around|round|across|along") || x.phrase("[,]", "around|round|across|along") || x.phrase("[,]", "to", "[the]", "end") {
		g.Times.Bound.Span = x.spanFrom(start)
	}
	g.Span = x.spanFrom(start)
	return []*Step{g}
}

// goesOn = ( "keep going" | "continue" ) "like this" bound .
//
// It repeats all since the row began, where nothing says from where.
func (x *rowReader) goesOn() []*Step {
	start := x.p
	if !x.peek().isAny("keep", "carry", "continue", "continuing", "go") || !x.worked || x.bounded || len(x.marks) > 0 {
		return nil
	}
	x.p++
	x.accept("going", "on", "working", "repeating", "doing")
	if x.phrase("like|in", "this|that", "[way|manner|fashion|pattern]") || x.phrase("in", "the", "same", "way|manner|fashion") || x.phrase("the", "same", "way") {
		if b, ok := x.bound(); ok && b.Kind == ToEnd {
			return []*Step{{Op: OpGroup, Times: Times{Kind: Fill, Bound: b}, Text: "rest", Span: x.spanFrom(start)}}
		}
	}
	x.p = start
	return nil
}
