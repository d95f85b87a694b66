package pattern

import "crochet/tallyturn/pattern/stitch"

// ringAfter reads where a list goes that is told behind it: "ch 3, 2 dc, [ch 2, 3 dc]
// three times, ch 2, all into the ring". All that was worked since the round began and
// names no place of its own goes into the ring.
//
//	ringAfter = [ "all" ] [ "worked" ] ( "in" | "into" ) [ "the" ] ring .
func (x *rowReader) ringAfter(before []*Step) []*Step {
	if !x.worked || x.depth > 1 || len(before) == 0 || !x.peek().isAny("all", "worked", "in", "into") {
		return nil
	}
	start := x.p
	x.accept("all")
	x.accept("worked", "working", "of", "this")
	if !x.accept("in", "into") {
		x.p = start
		return nil
	}
	x.accept("the", "your")
	n, ok := x.nounAt(0)
	if !ok || !n.ring {
		x.p = start
		return nil
	}
	x.p += n.tokens
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([") && !x.peek().isAny("and", "then", "join", "ss", "sl") || !unplacedList(before) {
		x.p = start
		return nil
	}
	intoRing(before)
	return x.noteFrom(start)
}

// unplacedList reports whether steps are a list that names no place.
func unplacedList(steps []*Step) bool {
	for _, s := range steps {
		switch {
		case s.Op == OpWork && !s.Target.said && s.Legs == 0 && s.Stitch != stitch.Slip, s.Op == OpChain, s.Op == OpPicot, s.Op == OpNote, s.Op == OpRing, s.Op == OpColour, s.Op == OpAttach, s.Op == OpInto && !s.Target.said:
		case s.Op == OpGroup && s.Times.Kind != Fill && unplacedList(s.Body):
		default:
			return false
		}
	}
	return true
}

// intoRing has each stitch of a list worked into the ring.
func intoRing(steps []*Step) {
	for _, s := range steps {
		switch s.Op {
		case OpWork, OpInto:
			s.N, s.Target = mulNum(s.N, s.Target.N), Target{Which: InRing, said: true, Span: s.Target.Span}
		case OpGroup:
			intoRing(s.Body)
		}
	}
}

// mulNum is one number times another that is the same for all sizes.
func mulNum(a, b Num) Num {
	switch {
	case b.N <= 1 && b.Sizes == nil:
		return a
	case a.N <= 1 && a.Sizes == nil:
		return b
	}
	a.N = mul(a.N, b.N)
	return a
}
