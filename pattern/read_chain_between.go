package pattern

import "slices"

// What stands on both sides of a chain that is told to lie between it.
var (
	groupNouns   = newWordSet("group groups grp grps cluster clusters shell shells fan fans tuft tufts petal petals block blocks v vs popcorn popcorns puff puffs bobble bobbles set sets bunch bunches trio trios triple triples lot lots one ones pair pairs bar bars star stars pc")
	betweenWords = newWordSet("between betw bet btw")
)

// chainBetween takes a chain that is told behind the groups of a round, and lies between
// each of them and the next: "3 dc in each ch-1 sp, ch 1 between", "... with 2 ch between
// the clusters", "... separated by ch 1". The step before it then makes a chain after each.
//
//	chainBetween = [ "with" | "working" | ... ] chain ( "between" | "in" "between" ) [ "each" | "all" | ... ] [ groups ]
//	             | [ "with" | "working" | ... ] chain "after" "each" groups | "separated by" chain .
//
// The round closes, so that there are as many chains as groups; a row that ends has one
// fewer, and is left to the other readings. Two stitches in each place with a chain between
// them are a V-stitch, which is another matter. Common practice, no source.
func (x *rowReader) chainBetween(before []*Step) bool {
	if x.row.Kind != Round || len(before) == 0 {
		return false
	}
	start := x.p
	fail := func() bool { x.p = start; return false }
	for x.peek().isMark(",;.-") {
		x.p++
	}
	x.accept("and", "always")
	x.accept("with", "working", "work", "making", "make", "having", "leaving", "putting", "placing")
	apart := x.phrase("[each]", "separated|divided|spaced", "by|with")
	at := x.p
	n, ok := x.chainLength()
	if !ok {
		return fail()
	}
	sp := x.spanFrom(at)
	groups := apart
	if !apart {
		x.accept("in")
		if x.phraseAt(0, "after", "each|every", "[of]", "[the|these|those]") <= 0 && !x.acceptIn(betweenWords) && !x.phrase("along|across|on|for", "[each|every|all|the]", "[of]", "[the]", "side|sides") {
			return fail()
		}
		after := x.accept("after")
		if sides := x.at(-1).isAny("side", "sides"); sides {
			groups = true
		} else if groups, ok = x.betweenWhich(); !ok || after && !groups {
			return fail()
		}
	}
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{)]*") && !x.peek().isAny("around", "and", "join", "turn", "to", "all") && !x.peek().head {
		return fail()
	}
	chain := &Step{Op: OpChain, N: n, Span: sp}
	i := lastMaking(before)
	if i < 0 || !withChainBehind(before, i, chain, groups) {
		return fail()
	}
	x.remember(before[i : i+1])
	return true
}

// chainLength takes "ch 1", "1 ch", "a chain", "2 chains", "ch-1 sp".
func (x *rowReader) chainLength() (Num, bool) {
	x.phrase("a|one", "[single]")
	if word := x.at(-1); word.isAny("a", "single") {
		if !x.accept("ch", "chain") {
			return Num{}, false
		}
		x.accept("-")
		if x.peek().kind != tNum {
			return Num{N: 1}, true
		}
	} else if word.is("one") {
		x.p--
	}
	behind := x.accept("ch", "chain", "chains")
	if behind {
		x.accept("-")
	}
	n, ok := x.number()
	if !ok || n.N < 1 || n.N > 20 || !behind && !x.accept("ch", "chain", "chains", "chs") {
		return Num{}, false
	}
	x.accept("sp", "sps", "space", "spaces")
	return n, true
}

// betweenWhich takes what a chain lies between, and tells whether that names groups.
func (x *rowReader) betweenWhich() (groups, ok bool) {
	x.phrase("each|every|all|both|two|2", "[of]")
	x.accept("the", "these", "those")
	if x.accept("them") {
		return false, true
	}
	if x.acceptIn(groupNouns) {
		if x.at(-1).is("v") {
			x.phrase("[-]", "st|sts|stitch|stitches")
		}
		if x.peek().is("of") && x.at(1).kind == tNum {
			x.p += 2 // "each group of 3"
			x.nounDrop()
		}
		return true, true
	}
	if x.peek().isAny("corner", "corners", "*", "**") {
		return false, false
	}
	if _, n := x.stitchAt(0); n > 0 {
		x.p += n
		return false, true
	}
	x.nounDrop()
	return false, true
}

// lastMaking is the index of the last step that makes stitches, -1 where something else
// but a remark stands behind it.
func lastMaking(steps []*Step) int {
	for i, s := range slices.Backward(steps) {
		switch {
		case s.Op == OpWork || s.Op == OpInto || s.Op == OpGroup || s.Op == OpAlong:
			return i
		case s.Op != OpNote:
			return -1
		}
	}
	return -1
}

// withChainBehind has the step at an index make a chain after each of its passes. It
// reports whether the step is one that has several, around the whole of the round.
func withChainBehind(steps []*Step, i int, chain *Step, groups bool) bool {
	s := steps[i]
	switch {
	case s.special != nil:
		return false
	case s.Op == OpGroup && (s.Times.Kind == Fill || s.Times.Kind == Exactly) && s.partial == 0 && !s.stopAt && s.ending == nil && !endsInChain(s.Body):
		c := *s
		c.Body = append(slices.Clone(s.Body), chain)
		steps[i] = &c
	case s.Op == OpAlong && (s.Times.Kind == Once) && !slices.ContainsFunc(s.Body, func(b *Step) bool { return chainedEach(b, chain, true) == nil }):
		c := *s
		c.Body = slices.Clone(s.Body)
		for k, b := range c.Body {
			c.Body[k] = chainedEach(b, chain, true)
		}
		steps[i] = &c
	case eachStep(s):
		c := chainedEach(s, chain, groups)
		if c == nil {
			return false
		}
		steps[i] = c
		for k := i - 1; k >= 0 && eachStep(steps[k]); k-- { // "(3 dc, ch 2, 3 dc) in each corner sp, 3 dc in each side sp, ch 1 between all"
			if c := chainedEach(steps[k], chain, groups); c != nil {
				steps[k] = c
			}
		}
	default:
		return false
	}
	return true
}

// chainedEach is a step into each place as one that makes a chain behind what it works
// there; nil where it cannot be told so.
func chainedEach(s, chain *Step, groups bool) *Step {
	if !eachStep(s) {
		return nil
	}
	out := &Step{Op: OpInto, N: Num{N: 1}, Target: s.Target, Span: cover(s.Span, chain.Span)}
	if s.Op == OpInto {
		if endsInChain(s.Body) || s.N.N > 1 {
			return nil
		}
		out.Body = append(slices.Clone(s.Body), chain)
		return out
	}
	if s.N.N == 2 && !groups || len(s.N.Sizes) > 0 {
		return nil
	}
	inner := *s
	inner.Target = Target{Which: Next, N: s.N}
	inner.N = Num{N: 1}
	out.Body = []*Step{&inner, chain}
	return out
}
