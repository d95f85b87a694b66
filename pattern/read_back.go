package pattern

import "crochet/tallyturn/pattern/stitch"

// alongBack = [ number ] stitch "back" [ "down" | "along" | "up" ] [ "the" ] [ "chain" | "ch" ] .
//
// Behind a chain it is worked back along it, "ch 4, 3 sc back": from the chain
// that a stitch of its height begins in, so many or all of them.
func (x *rowReader) alongBack() []*Step {
	if x.lastStep == nil || x.lastStep.Op != OpChain || x.lastStep.Counts.Said || x.lastStep.N.N < 3 || x.lastStep.N.Sizes != nil {
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
	// A cord needs no such word: nothing else is as long as its chain less one.
	back = back || x.row.noLabel && !x.worked && x.lastStep.N.N >= 8 && n.N == x.lastStep.N.N-1
	if !back || !x.endsClause() {
		x.p = start
		return nil
	}
	first := int64(2)
	if id != stitch.Slip {
		first = max(first, int64(stitch.Of(id).Turn)+1) // "ch 8, 6 hdc back": two of them turn
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
