package pattern

import "crochet/tallyturn/pattern/stitch"

// inColours reads "3 A, 1 B" of a row worked from two balls: so many of the
// stitch that the rows before were worked in, in that colour.
func (x *rowReader) inColours() []*Step {
	t, c := x.peek(), x.at(1)
	if t.kind != tNum || t.frac || !c.isAny("a", "b", "c", "d", "e", "f", "mc", "cc") {
		return nil
	}
	if after := x.at(2); after.kind != tEnd && !after.separator() && !after.isMark(")]}*([") {
		return nil
	}
	start := x.p
	n, _ := x.number()
	x.p++
	id := x.main
	if id == stitch.None {
		id = stitch.SC
	}
	yarn := c.span()
	return []*Step{
		{Op: OpColour, Span: yarn, Text: "with " + x.src.Slice(yarn)},
		{Op: OpWork, Stitch: id, N: Num{N: 1}, Target: Target{Which: Next, N: n}, Span: x.spanFrom(start)},
	}
}
