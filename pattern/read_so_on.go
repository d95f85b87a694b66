package pattern

// soOn = [ "and" ] ( "so" ( "on" | "continue" ) | "go" "on" "so" ) ( bound | "in" "each" noun | times ) .
//
// "Ch 5, turn, dc on dc, ch 2, dc on next dc, and so continue across": what was
// worked last, from where it began to come again, fills the row, or is worked as often as
// is told.
func (x *rowReader) soOn() []*Step {
	start := x.p
	if !x.worked || x.bounded || len(x.marks) > 0 || x.depth > 1 {
		return nil
	}
	if tm, ok := x.doneAgain(); ok && (tm.Kind == Exactly && tm.sure || tm.Kind == Fill && tm.Bound.Kind == ToEnd) && x.endsClause() {
		return []*Step{{Op: OpGroup, Times: tm, Text: cycleText, Span: x.spanFrom(start)}} // "do this five times in all"
	}
	x.p = start
	x.accept("and")
	if !x.phrase("so", "on|continue|forth|repeat", "[in|on]", "[this|that|the]", "[same|way|manner]", "[way|manner]") && !x.phrase("go|carry|keep|continue", "[on]", "so|thus") && !x.phrase("go|carry|keep|continue", "[on]", "like|in", "this|that", "[way|manner|fashion]") {
		x.p = start
		return nil
	}
	x.accept(",")
	b, ok := x.bound()
	if from := x.p; !ok && (x.phrase("in|into|on|around|round|over", "each|every", "[of]", "[the]", "[remaining|rem|following]") || x.at(-1).isAny("in", "on") && x.phrase("each|every", "[of]", "[the]", "[remaining|rem|following]")) {
		if n, named := x.nounAt(0); named {
			x.p += n.tokens // "and so on around each dc"
			b, ok = Bound{Kind: ToEnd, Span: x.spanFrom(from)}, true
		}
	}
	tm, bare := Times{Kind: Fill, Bound: b}, false
	switch {
	case ok:
	case x.at(-1).isAny("on", "forth") && (x.end() || x.peek().is(".")) && x.at(-3).is("and"):
		tm.Bound, ok, bare = Bound{Kind: ToEnd}, true, true // ", and so on."
	default:
		x.phrase("[for]", "a", "total", "of")
		tm, ok = x.times()
		ok = ok && tm.Kind == Exactly
	}
	if !ok || tm.Kind == Fill && tm.Bound.Kind != ToEnd {
		x.p = start
		return nil
	}
	g := &Step{Op: OpGroup, Times: tm, Text: cycleText, Span: x.spanFrom(start), byTurns: bare}
	x.endings(g)
	g.Span = x.spanFrom(start)
	return []*Step{g}
}

// cycleText marks a repeat of what was worked last.
const cycleText = "cycle"

// wrapCycle puts into a repeat the steps since one like the last of them was
// worked before: of "dc, ch 2, dc" the last two. Where there is none, it is all
// since the row began.
func (x *rowReader) wrapCycle(out []*Step, g *Step) []*Step {
	n := len(out)
	for i := n - 2; i >= 0 && n-i < 20; i-- {
		if out[n-1].Target.Which != Nth && sameStep(out[i], out[n-1], false) {
			g.Body = append([]*Step(nil), out[i+1:]...)
			g.Span = cover(g.Body[0].Span, g.Span)
			return append(out[:i+1:i+1], g)
		}
	}
	return x.wrapRest(out, g)
}

// lastGoes reads where the last stitch of a row lands, said with no word of
// working it: "the last dc in the 3d st of the chain", "last sc is made in the top of
// the turning ch".
func (x *rowReader) lastGoes() bool {
	start := x.p
	if x.phrase("[with|so]", "[that]", "[the|your]", "last|final") {
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
			x.phrase("is|will|should|must", "[be]") // "last sc is made in", "the last dc should fall on"
			if x.phrase("[being|going|coming|goes|comes|go|come|made|worked|placed|falls|fall|lands|land]", "in|into|on|upon", "[the]", "[top|3d|3rd|4th|5th|2d|2nd|third|second|fourth|fifth|end|turning|first|last]") {
				return true
			}
		}
	}
	x.p = start
	return false
}
