package pattern

import "crochet/tallyturn/pattern/stitch"

// inColours reads "3 A, 1 B" or "White 12, Black 4" of a row worked from two
// balls: so many of the stitch that the rows before were worked in, in that
// colour.
func (x *rowReader) inColours() []*Step {
	start := x.p
	number, c := x.peek(), x.at(1)
	if number.kind != tNum {
		number, c = c, number
	}
	if number.kind != tNum || number.frac || !x.colourName(c) || x.pat.blocks {
		return nil
	}
	if after := x.at(2); after.kind != tEnd && !after.head && !after.separator() && !after.isMark(")]}*([") {
		return nil
	}
	if number == x.at(1) {
		x.p++
	}
	n, _ := x.number()
	x.p = start + 2
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

// colourName reports a word that names a yarn: a colour, or the letter that
// stands for one.
func (x *rowReader) colourName(t *token) bool {
	if t.kind != tWord {
		return false
	}
	switch t.text {
	case "a", "b", "c", "d", "e", "f", "mc", "cc",
		"white", "black", "grey", "gray", "red", "blue", "navy", "teal", "aqua", "turquoise", "green", "mint", "yellow", "gold", "orange", "coral", "pink", "purple", "lilac", "brown", "tan", "beige", "cream", "ivory", "silver":
		return true
	}
	c := x.src.Text[t.start]
	return len(t.text) == 1 && 'A' <= c && c <= 'Z'
}

// cutColour reads "Cut the white.", "cut Navy": a yarn by its colour, and no
// work.
func (x *rowReader) cutColour() bool {
	start := x.p
	if !x.phrase("cut|break|drop", "[off]", "[the]") {
		return false
	}
	if t := x.peek(); t.kind != tWord || t.isAny("and", "yarn", "in") || x.stitchFollows(0) {
		x.p = start
		return false
	}
	x.p++
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([)") && !x.peek().head && !x.peek().isAny("and", "join") {
		x.p = start
		return false
	}
	return true
}

// colourBehind reads the yarn behind stitches, "sc 11 in black".
func (x *rowReader) colourBehind() bool {
	if !x.worked || !x.peek().is("in") || !x.colourName(x.at(1)) {
		return false
	}
	if t := x.at(2); t.kind != tEnd && !t.head && !t.separator() && !t.isMark("([)]}*") && !t.isAny("and", "then") {
		return false
	}
	x.p += 2
	return true
}
