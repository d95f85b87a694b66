package pattern

import "crochet/tallyturn/pattern/stitch"

// blocksOf reads what a row of work from corner to corner is made of: so many
// blocks of a colour, or all of one.
//
//	blocks = number colour [ "block" ] | colour "x" number | number "block" [ "in" colour ] |
//	         "all" ( colour | "blocks" ) [ "," grows ] .
func (x *rowReader) blocksOf() []*Step {
	if !x.pat.blocks || x.depth > 1 || x.worked && (x.lastStep == nil || !x.lastStep.isBlock()) {
		return nil // behind stitches it says what they come to: "dc in next 2 ch: 1 B"
	}
	start := x.p
	s := &Step{Op: OpWork, Name: cornerBlock, Stitch: stitch.DC, Target: Target{Which: Next}, N: Num{N: 1}}
	var yarn *token
	colour := func() bool {
		if t := x.peek(); x.colourName(t) {
			yarn = t
			x.p++
			return true
		}
		return false
	}
	isBlock := func() bool { return x.accept("block", "blocks", "blk", "blks", "square", "squares") }
	switch t := x.peek(); {
	case t.is("all"):
		x.p++
		x.accept("in", "of")
		if !colour() && !isBlock() {
			break
		}
		isBlock()
		s.Target.Which = Each
	case t.kind == tNum && !t.frac:
		s.Target.N, _ = x.number()
		if !colour() && !isBlock() {
			x.p = start
			break
		}
		isBlock()
		if yarn == nil && x.peek().isAny("in", "of") {
			x.p++
			if !colour() {
				x.p = start
			}
		}
	case x.colourName(t) && x.at(1).is("x") && x.at(2).kind == tNum:
		colour()
		x.p++
		s.Target.N, _ = x.number()
		isBlock()
	}
	after := x.peek()
	if x.p == start || after.kind != tEnd && !after.head && !after.separator() && !after.isMark("([*)]") || s.Target.Which != Each && s.Target.N.N < 1 {
		x.p = start
		return nil
	}
	s.Span = x.spanFrom(start)
	if s.Target.Which == Each {
		s.grows = x.blocksGrow()
	}
	x.worked = true
	if yarn == nil {
		return []*Step{s}
	}
	return []*Step{{Op: OpColour, Span: yarn.span(), Text: "with " + x.src.Slice(yarn.span())}, s}
}

// blocksGrow reads by how many blocks each row of several differs from the one
// before: ", increasing at both ends so that you add one block per row", ", losing 1
// block each row". It is 0 where that is not told.
func (x *rowReader) blocksGrow() int64 {
	for k := 0; k < 20; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(".;([") {
			return 0
		}
		sign := int64(0)
		switch {
		case t.isAny("add", "adding", "gain", "gaining", "increasing", "increase"):
			sign = 1
		case t.isAny("lose", "losing", "drop", "dropping", "decreasing", "decrease"):
			sign = -1
		default:
			continue
		}
		n := k + 1
		if x.at(n).is("by") {
			n++
		}
		one := x.at(n).isAny("one", "a") || x.at(n).kind == tNum && x.at(n).num == 1
		if one && x.at(n+1).isAny("block", "blk", "square") && x.at(n+2).isAny("per", "each", "every", "in", "a") {
			for n += 3; x.at(n).isAny("each", "every") || isRowWord(x.at(n)); n++ {
			}
			x.p += n
			return sign
		}
	}
	return 0
}

// cornerBlock is the name of a block of work from corner to corner: three chains
// and as many tall stitches.
const cornerBlock = "block"

// isBlock reports a block of work from corner to corner.
func (s *Step) isBlock() bool { return s.Op == OpWork && s.Name == cornerBlock }
