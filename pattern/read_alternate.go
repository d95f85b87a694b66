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

// goesOn = ( "keep going" | "continue" | ... ) ( "like this" | "alternating" [ "between" ] [ names ] ) [ bound ]
//
//	| "alternate" ( "these two" | "both" ) [ bound ] .
//
// It repeats all since the row began, where nothing says from where. What goes by turns
// stops where the row ends, in whichever of them.
func (x *rowReader) goesOn() []*Step {
	start := x.p
	if !x.worked || x.bounded || len(x.marks) > 0 {
		return nil
	}
	turns := x.phrase("alternate|alternating", "these|those|the|both", "[two|2|both]", "[st|sts|stitches]")
	if !turns {
		if !x.accept("keep", "carry", "continue", "continuing", "go") {
			return nil
		}
		x.accept("going", "on", "working", "repeating", "doing")
		turns = x.byTurns()
	}
	like := x.phrase("like|in", "this|that", "[way|manner|fashion|pattern]") || x.phrase("in", "the", "same", "way|manner|fashion") || x.phrase("the", "same", "way")
	if !turns && !like {
		x.p = start
		return nil
	}
	b, ok := x.bound()
	if !ok && x.phrase("until|till", "you", "run", "out", "[of]", "[st|sts|stitches]") {
		b, ok = Bound{Kind: ToEnd}, true
	}
	if !ok && turns && (x.end() || x.peek().separator()) {
		b, ok = Bound{Kind: ToEnd}, true
	}
	if !ok || b.Kind != ToEnd {
		x.p = start
		return nil
	}
	g := &Step{Op: OpGroup, Times: Times{Kind: Fill, Bound: b}, Text: "rest", byTurns: turns}
	if turns {
		g.Text = cycleText
		x.lastTold()
	}
	g.Span = x.spanFrom(start)
	return []*Step{g}
}

// byTurns takes that stitches go by turns: "alternating", "swapping between sc and dc",
// "alternating these two".
func (x *rowReader) byTurns() bool {
	if !x.accept("alternating", "swapping", "switching") {
		return false
	}
	x.accept("between")
	x.phrase("these|those|the|both", "[two|2|both]", "[st|sts|stitches]")
	for {
		_, n := x.stitchAt(0)
		if n == 0 {
			return true
		}
		x.p += n
		x.accept("and", "&", "with", "then", "/")
	}
}

// lastTold takes which stitch a row that goes by turns comes to an end in, "so you end with
// a dc in the very last st", ", ending with sc", "so the last st is a sc".
func (x *rowReader) lastTold() {
	start := x.p
	x.accept(",", ";", "-")
	x.phrase("[and|so]", "[that]")
	if x.phrase("[you|you'll|you'd|it|it'll]", "[should|will|must]", "end|ends|ending|finish|finishing|finishes", "[up|off]", "with|on|in|by", "[a|an|one]") || x.phrase("the", "[very]", "last|final", "st|stitch|one", "is|will|should", "[be]", "[a|an]") {
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
			x.phrase("in|into", "the", "[very]", "last|final", "st|stitch|sc|dc|hdc|one")
			if x.end() || x.peek().separator() || x.peek().isMark("([{") {
				return
			}
		}
	}
	x.p = start
}
