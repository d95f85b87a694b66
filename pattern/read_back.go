package pattern

import "crochet/tallyturn/pattern/stitch"

// alongBack = [ number ] stitch "back" [ "down" | "along" | "up" ] [ "the" ] [ "chain" | "ch" ] .
//
// Behind a chain it is worked back along it, "ch 4, 3 sc back": from the chain
// that a stitch of its height begins in, so many or all of them. Which chain that is may be
// told behind it: "19 sc back from the 2nd ch", "30 sc, beginning in the second chain".
func (x *rowReader) alongBack() []*Step {
	chained := x.lastStep != nil && x.lastStep.Op == OpChain && !x.lastStep.Counts.Said && x.lastStep.N.N >= 3 && x.lastStep.N.Sizes == nil
	if turned := x.lastStep != nil && x.lastStep.Op == OpTurn; !chained && !turned && (x.worked || x.afterRows && x.above != nil) {
		return nil
	}
	start := x.p
	var n Num
	if x.peek().kind == tNum {
		if x.peek().frac || x.peek().num == 0 {
			return nil
		}
		n, _ = x.number()
	}
	id, k := x.stitchAt(0)
	if k == 0 || stitch.Of(id).Kind != stitch.Basic && id != stitch.Slip {
		x.p = start
		return nil
	}
	x.p += k
	sp := Span{int(x.ts[x.p-k].start), int(x.ts[x.p-1].end)}
	x.phrase("all", "[the|along]", "[way]")
	back := x.phrase("back", "[again]", "[down|along|up|over|across|to]", "[the|this|that|your]", "[ch|chain|chs|chains|it|start|beginning]")
	from := x.beginsInChain(back)
	if back = back || from > 0; !chained && from == 0 {
		x.p = start
		return nil
	}
	// A cord needs no such word: nothing else is as long as its chain less one.
	back = back || chained && x.row.noLabel && !x.worked && x.lastStep.N.N >= 8 && n.N == x.lastStep.N.N-1
	if !back || !x.endsClause() {
		x.p = start
		return nil
	}
	first := int64(2)
	if id != stitch.Slip {
		first = max(first, int64(stitch.Of(id).Turn)+1) // "ch 8, 6 hdc back": two of them turn
	}
	if from > 0 {
		first = from
	}
	// The number counts the stitch at the hook too: it is that of neither step.
	hook := &Step{Op: OpWork, Stitch: id, N: Num{N: 1}, Target: Target{Which: FromHook, N: Num{N: first}, Of: []Filter{{Kind: ChainStitch}}, said: true}, Span: sp}
	if n.N == 1 {
		return []*Step{hook}
	}
	rest := &Step{Op: OpWork, Stitch: id, N: Num{N: 1}, Span: sp, Target: Target{Which: Each, Bound: Bound{Kind: ToEnd}, said: true}}
	if n.N > 0 {
		rest.Target = Target{Which: Next, N: Num{N: n.N - 1}, said: true}
	}
	return []*Step{hook, rest}
}

// beginsInChain takes which chain the first stitch goes into, "from the 2nd ch", "starting
// at the third chain from the hook", and gives its number, or 0.
func (x *rowReader) beginsInChain(back bool) int64 {
	start := x.p
	said := x.phrase("[,]", "[and]", "starting|beginning|begin|start|starts|begins|from", "[at|in|from|with|into|on]", "[the]")
	if !said && back {
		x.phrase("[in|into|at]", "[the]")
	}
	if t := x.peek(); (said || back) && t.kind == tOrd && t.num > 1 && t.num < 12 && x.at(1).isAny("ch", "chain") && !x.at(1).head {
		n := t.num
		x.p += 2
		x.phrase("from", "[the|your]", "hook|hk")
		return n
	}
	x.p = start
	return 0
}
