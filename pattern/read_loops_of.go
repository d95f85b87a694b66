package pattern

// loopsLeft reads the loops of an earlier row as a place to join yarn in: "back loops of
// R4", "unworked front loops left free in Rnd 6", "the loops that were left on Row 3".
// The row must be named: loops alone only say where in a stitch the hook goes.
//
//	loops = { "free" | "unworked" | ... } [ "back" | "front" ] loop { "left" | "free" | ... } ( "of" | "in" ) row .
func (x *rowReader) loopsLeft(t *Target) bool {
	start := x.p
	for x.acceptIn(leftWords) || x.accept("unused", "any", "leftover", "first") {
	}
	x.accept("back", "front", "rear", "other")
	if !x.accept("loop", "loops", "lp", "lps", "blo", "flo") {
		x.p = start
		return false
	}
	x.accept("only")
	x.phrase("that|which", "were|was|are|is|you", "[have]")
	for x.acceptIn(leftWords) || x.accept("left", "unused", "over", "behind", "showing") {
	}
	row := x.p
	if x.accept("of", "in", "on", "from", "at") {
		x.accept("the")
		if n, ok := x.rowName(); ok && (x.row.Numbers.First.N == 0 || n.N < x.row.Numbers.First.N) {
			t.Which, t.N = Anywhere, Num{N: 1}
			t.Row = &RowRef{Number: int(n.N), Sizes: n.Sizes, Span: x.spanFrom(row)}
			return true
		}
	}
	x.p = start
	return false
}

// joinedInLoops is where yarn is joined, in loops of an earlier row.
func (x *rowReader) joinedInLoops() []Target {
	t := Target{said: true}
	start := x.p
	if x.at(-1).isAny("in", "on", "into") || x.at(-1).is("the") && x.at(-2).isAny("in", "on", "into") {
		x.accept("the", "those")
		if !x.loopsLeft(&t) {
			x.p = start
			return nil
		}
	} else if !x.inLoopsLeft(&t) {
		return nil
	}
	t.Span = x.spanFrom(start)
	return []Target{t}
}

// inLoopsLeft is loopsLeft behind its preposition.
func (x *rowReader) inLoopsLeft(t *Target) bool {
	start := x.p
	if x.acceptIn(prepositions) || x.accept("to", "along") {
		x.accept("the", "those")
		if x.loopsLeft(t) {
			return true
		}
	}
	x.p = start
	return false
}

// workedInLoops reads a clause that leads the row to loops left earlier, before any of
// its work: "Working in the back loops left in R4, ...", "In free loops of Rnd 3: ...".
func (x *rowReader) workedInLoops() []*Step {
	start := x.p
	if x.worked || x.p > 0 && !x.at(-1).separator() && !x.at(-1).is(")") {
		return nil
	}
	x.accept("now", "then", "next")
	if x.phrase("go|return", "[back]") || x.phrase("work|working|crochet|crocheting|continue|continuing|worked") {
		x.accept("only")
	}
	t := Target{said: true}
	if !x.inLoopsLeft(&t) {
		x.p = start
		return nil
	}
	t.Span = x.spanFrom(start)
	if x.phrase("[and]", "join|rejoin|attach") {
		x.colourWord()
		x.phrase("[yarn]", "[there|here]")
	}
	if !x.end() && !x.peek().separator() && !x.peek().is(":") && !x.peek().head {
		x.p = start
		return nil // "in free loops of Rnd 3 work 2 sc"
	}
	s := &Step{Op: OpAttach, Target: t, Span: x.spanFrom(start)}
	s.Text = x.src.Slice(s.Span)
	return []*Step{s}
}

// leadsEarlier reports a line that only says where the next row is worked, in a row
// before the one at hand: "Now join Y in the back loops left free in R23." It belongs
// to the label below it.
func (r *reader) leadsEarlier(ln line) bool {
	if !r.endsClauseSoFar() || r.row.row.Numbers.First.N < 2 || ln.end >= len(r.toks)-1 {
		return false
	}
	x := r.scratch(ln.start)
	x.accept("now", "then", "next")
	if x.accept("with", "using") {
		for x.p < ln.end && !x.peek().is(",") {
			x.p++
		}
		x.accept(",")
	}
	join := x.accept("join", "rejoin", "attach", "reattach")
	if !join && !x.accept("work", "working", "go", "return") {
		return false
	}
	earlier := false
	for ; x.p < ln.end; x.p++ {
		if n, ok := x.rowName(); ok {
			earlier = n.N < r.row.row.Numbers.First.N
			break
		}
		join = join || x.peek().isAny("loop", "loops", "lp", "lps")
	}
	if !earlier || !join || r.hasStitches(ln) {
		return false
	}
	_, label := r.labelAt(ln.end)
	return label
}
