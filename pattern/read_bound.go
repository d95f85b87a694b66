package pattern

// bound = "across" | "around" | "to end" | "to last" number noun
//
//	| "until" number noun "remain" | "to within" number noun "of end" | "to" noun .
func (x *rowReader) bound() (Bound, bool) {
	b := Bound{}
	if !x.peek().opens(opensBound) {
		return b, false
	}
	start := x.p
	done := func(k BoundKind) (Bound, bool) {
		b.Kind = k
		b.Span = x.spanFrom(start)
		return b, true
	}
	x.accept("evenly")
	allTheWay := x.peek().is("all") && x.at(1).is("the")
	if !allTheWay && x.accept("all", "right") && !x.peek().isAny("around", "round", "across", "along", "the") {
		x.p = start
		return b, false
	}
	x.accept("evenly")
	switch {
	case x.peek().isAny("along", "across") && x.phraseAt(1, "[the]", "other|opposite|second", "side|edge", "of") > 0 && x.p == start && x.at(-1).isAny("ch", "chs", "chain", "chains", "st", "sts", "stitches"):
		// "in next 5 ch along other side of ch": it says where they are
	case x.peek().isAny("along", "across") && x.phraseAt(1, "[the]", "other|opposite|second", "side|edge", "in|into") > 0:
		// "1 sc along other side in each of next 19 ch": so does it here, before them
	case x.peek().is("rnd"):
		if prev := x.at(-1); !prev.isMark(")]*") && !prev.isAny("sc", "dc", "hdc", "tr", "htr", "st", "sts", "blo", "flo", "ea") || !x.end1() && !x.at(1).isMark(".,;([{=-:") {
			break
		}
		x.p++ // "[sc 2, 2 sc in nxt] rnd (24)"
		return done(ToEnd)
	case x.accept("across", "along", "acr"):
		if x.nestedBound(&b) {
			return done(b.Kind)
		}
		x.phrase("[the]", "[entire|whole|full|rest|remaining|remainder]", "[of]", "[the]", "row|rnd|round|edge|chain|ch|foundation|side|top")
		x.phrase("[the]", "rem|remaining|rest|remainder", "[of]", "[the]", "[sts|stitches|row|ch|chs]")
		x.phrase("each|all|both|every", "[the]", "[four|other]", "st|stitch|side|sides|edge|edges")
		return done(ToEnd)
	case x.peek().isAny("around", "round", "about", "arnd") && !x.postAhead() && !(x.peek().is("round") && x.at(1).kind == tNum && !x.at(-1).is("all")):
		x.p++
		if x.nestedBound(&b) {
			return done(b.Kind)
		}
		x.phrase("[the]", "[entire|whole|full|rest|remaining]", "[of]", "[the]", "row|rnd|round|ring|circle|chain|edge")
		return done(ToEnd)
	case x.phrase("along|down|up|on", "each|all|both|every", "[the]", "[four|4|two|other|of]", "[the]", "side|sides|edge|edges"):
		return done(ToEnd)
	case x.phrase("the", "way|whole", "around|round|across|along|row|rnd"), x.phrase("the", "rest", "of", "[the]", "row|rnd|round|way"),
		x.phrase("for|in", "[the]", "rest|remainder", "of", "[the]", "row|rnd|round"):
		return done(ToEnd)
	case x.phrase("to|until|till|til|through|thru", "[the]", "[very]", "end", "[of]", "[the]", "[row|rnd|round|chain|ch|r|foundation|side]"):
		return done(ToEnd)
	case x.phrase("until|till", "you", "[are|get|reach|come]", "[are]", "[back|round|around]", "[at|to]", "[the]", "start|beginning|end", "[of]", "[the]", "[row|rnd|round]"), x.phrase("until|till|to", "[the]", "end|start", "is", "reached"), x.phrase("all|the", "[the]", "way", "[down|along|across|around|round|to|back]", "[the]", "[ch|chain|row|rnd|round|end|start]"):
		return done(ToEnd)
	case x.toBeginning():
		return done(ToEnd)
	case x.phrase("from", "end", "to", "end"), x.phrase("to", "[the]", "finish"):
		return done(ToEnd)
	case x.phrase("to|until|up|till|til", "[you]", "[reach]", "[to]", "[within|withing]", "[the]", "[next|1st|first]", "marker|m|pm"),
		x.phrase("to|until|up|till", "[to]", "[the]", "marked", "st|stitch"):
		return done(ToMarker)
	case x.phrase("as", "far", "as", "[the]", "last|final"), x.phrase("to|until|till|til|up|thru|through", "[you]", "[reach|get|come|are]", "[to|at]", "[within|withing]", "[the]", "last|final"):
		for i := start; i < x.p; i++ {
			b.within = b.within || x.ts[i].isAny("within", "withing")
		}
		x.accept("of")
		b.N = Num{N: 1}
		if sp, ok := x.sizedSpace(0); ok {
			x.p += sp.tokens
			b.Of = []Filter{sp.filter}
			return done(ToLast)
		}
		if x.peek().kind == tNum {
			b.N, _ = x.number()
		}
		x.boundNoun(&b)
		return done(ToLast)
	case x.phrase("to|until|till|up", "[to]", "within|withing"), x.phrase("within"):
		if n, ok := x.countOf(&b); ok {
			b.N, b.within = n, true
			x.phrase("[of|from]", "[the]", "end", "[of]", "[the]", "[row|rnd|round|chain]")
			return done(ToLast)
		}
		x.phrase("[of]", "the")
		if n, ok := x.nounAt(0); ok && n.turn {
			x.p += n.tokens
			b.N = Num{N: 1} // "to within turning ch", which the step behind it names
			return done(ToLast)
		}
	case x.phrase("until|till|til", "you", "reach|meet", "[the]", "tch") || x.phrase("until|till|til", "you", "reach|meet", "[the]", "turning", "ch|chain"):
		return done(ToEnd) // which the step behind it names
	case x.phrase("until|till|til", "[there]", "[are|is]", "[only]", "[you've|you]", "[have]", "[got]", "[only|just]"):
		if n, ok := x.countOf(&b); ok {
			b.N = n
			if x.phrase("[are|is]", "[still]", "remain|remains|left|rem|remaining|unworked", "[at]", "[the]", "[end]", "[of]", "[the]", "[row|rnd|round]") || x.phrase("from", "[the]", "end") || x.phrase("before", "[the]", "end") {
				return done(ToLast)
			}
			if x.phrase("to", "go") {
				return done(ToLast)
			}
		}
	case x.phrase("up", "to"), x.phrase("to"), x.phrase("until"):
		// "to next corner", "up to the ch-1 sp": as far as a place of a kind
		if x.toTheMiddle(&b) {
			return done(ToPlace)
		}
		x.accept("the", "[next]", "next", "first", "centre", "center", "middle")
		x.accept("next")
		if n, ok := x.nounAt(0); ok && !n.ring && !n.edge {
			x.p += n.tokens
			if n.turn {
				return done(ToEnd)
			}
			b.Of = []Filter{n.filter}
			x.phrase("of", "[next]", "corner")
			return done(ToPlace)
		}
		if x.phrase("[the]", "point", "[of]") {
			return done(ToEnd)
		}
	}
	x.p = start
	return b, false
}

// toBeginning takes "to the beginning of the round", and not "to beg cluster".
func (x *rowReader) toBeginning() bool {
	start := x.p
	if x.phrase("to|until|till", "[the]", "beginning|start|beg", "[of]", "[the]", "[rnd|round|row]") && !(x.at(-1).isAny("beginning", "start", "beg") && x.nounFollows(0)) {
		return true
	}
	x.p = start
	return false
}

// leaves reports whether the row goes on after the bound: a number that
// follows is more work, and no total.
func (b Bound) leaves() bool { return b.Kind == ToLast || b.Kind == ToPlace }

// nestedBound reads the second half of "across to last 2 sts".
func (x *rowReader) nestedBound(b *Bound) bool {
	save := x.p
	x.accept(",")
	if x.peek().isAny("to", "until", "till", "til", "up", "within", "leaving") && !x.peek().is("leaving") {
		if inner, ok := x.bound(); ok && inner.Kind != NoBound {
			*b = inner
			return true
		}
	}
	x.p = save
	return false
}

// countOf reads "3 sts", "one stitch", "a st".
func (x *rowReader) countOf(b *Bound) (Num, bool) {
	save := x.p
	x.accept("the", "last")
	n := Num{N: 1}
	switch {
	case x.peek().kind == tNum:
		n, _ = x.number()
	case x.accept("a"):
	default:
		x.p = save
		return n, false
	}
	x.boundNoun(b)
	return n, true
}

func (x *rowReader) boundNoun(b *Bound) {
	x.accept("rem", "remaining", "unworked")
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
		if n.filter.Kind != AnyStitch && !n.turn {
			b.Of = []Filter{n.filter}
		}
		x.phrase("of", "[the]", "row|rnd|round|end")
		x.phrase("from", "[the]", "end", "[of]", "[the]", "[row|rnd|round]")
	}
}

// postAhead reports whether "around" is followed by a stitch to be worked
// round, and so is not a bound.
func (x *rowReader) postAhead() bool {
	k := 1
	if x.at(k).is("the") {
		k++
	}
	t := x.at(k)
	if t.isAny("next", "each", "same", "following", "foll", "every", "front", "back", "post", "first", "last") || t.kind == tOrd {
		// "around, next" is two steps; "around next st" is one
		return !t.isAny("first", "last") || x.at(k+1).isAny("st", "sts", "dc", "tr", "sc", "hdc", "stitch")
	}
	if t.kind == tNum {
		_, ok := x.nounAt(k + 1)
		return ok && !x.at(k+1).isAny("ch")
	}
	return false
}
