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
	if t.in(colourNames) {
		return true
	}
	return len(t.text) == 1 && x.capital(t)
}

// colourNames are what a yarn is called by where no letter stands for it, and the
// letters that need no capital to be one.
var colourNames = newWordSet("a b c d e f mc cc white black grey gray red blue navy teal aqua turquoise green mint yellow gold orange coral pink purple lilac brown tan beige cream ivory silver " +
	"peach rose magenta violet lavender plum burgundy maroon rust mustard lemon olive lime sage khaki camel caramel chocolate sand charcoal copper salmon apricot crimson scarlet cyan indigo denim natural ecru skin flesh")

// colourShades may stand before the name of a colour.
var colourShades = newWordSet("dark light pale bright deep medium mid main contrast")

// yarnBefore reads the yarn that stitches are worked in where it stands before them with
// no word of joining it: "B 11 sc, W 8 sc", "dark blue (3 sc, dec) x 2", "in cream: sc 9".
func (x *rowReader) yarnBefore() []*Step {
	t := x.peek()
	if t.kind != tWord || !x.startsClause() || x.at(1).kind == tEnd || x.pat.blocks || x.stitchFollows(0) {
		return nil // but "H d c" is a stitch
	}
	start := x.p
	with := x.accept("in", "with", "using")
	x.phrase("[the]", "yarn|color|colour")
	name := x.p
	if n := x.yarnNamed(0); n > 0 {
		x.p += n
	} else if c := x.peek(); !x.colourName(c) || c.isAny("a", "b", "c", "d", "e", "f") && !x.capital(c) {
		x.p = start
		return nil
	} else {
		x.p++
	}
	x.phrase("yarn|only")
	sp := Span{int(x.ts[name].start), int(x.ts[x.p-1].end)}
	marked := x.accept(":", "-")
	if !marked && with && x.peek().is(",") {
		x.p = start // which change of colour reads
		return nil
	}
	if n := x.peek(); !x.stitchFollows(0) && !(n.kind == tNum && (x.stitchFollows(1) || x.at(1).isAny("inc", "dec"))) && !n.isAny("inc", "dec") && !(n.isMark("([{") && x.worksWithin(0) && x.followsTimes(x.closer(0)+1)) {
		x.p = start
		return nil
	}
	return []*Step{{Op: OpColour, Span: sp, Text: "with " + x.src.Slice(sp)}}
}

// yarnNamed is the length of a yarn that is called by its colour, "yellow", "the pale
// blue", "sea green yarn", from the token k further on; none where a letter stands for it.
func (x *rowReader) yarnNamed(k int) int {
	i := k
	if x.at(i).is("the") {
		i++
	}
	if t := x.at(i); t.in(colourShades) || t.kind == tWord && x.at(i+1).in(colourNames) && len(x.at(i+1).text) > 2 && !t.in(colourNames) && !t.in(prepositions) && !t.isAny("and", "or", "a", "an", "then", "to") {
		i++
	}
	if t := x.at(i); !t.in(colourNames) || len(t.text) < 3 {
		return 0
	}
	for i++; x.at(i).in(colourNames) && len(x.at(i).text) > 2; i++ {
	}
	if x.at(i).in(yarnNames) {
		i++
	}
	return i - k
}

// inYarn takes the yarn that what follows is made with, "In pink, magic ring", "In the pale
// blue: ch 20".
func (x *rowReader) inYarn() bool {
	if !x.peek().isAny("in", "with", "using") {
		return false
	}
	n := x.yarnNamed(1)
	if n == 0 || !x.at(1+n).isMark(",;:") && !x.rowsToldAt(1+n) {
		return false
	}
	x.p += 1 + n
	return true
}

// yarnTaken reads another yarn that is gone over to, "pick up Teal and", "return to the
// white,", "swap back to navy", as far as its name.
func (x *rowReader) yarnTaken() bool {
	start := x.p
	if x.phrase("pick|drop|take", "[up]", "[the]") || x.phrase("now|and|then", "[back]", "to|with|in") || x.phrase("go|return|swap|switch|change|going|returning", "[back]", "to") {
		n := x.yarnNamed(0)
		if n == 0 && x.peek().kind == tWord && x.capital(x.peek()) && !x.stitchFollows(0) && !isRowWord(x.peek()) {
			n = 1
		}
		if next := x.at(n); n > 0 && (next.kind == tEnd || next.isMark(",;:.") || next.isAny("and", "then") || x.rowsToldAt(n)) {
			x.p += n
			return true
		}
	}
	x.p = start
	return false
}

// rowsToldAt reports whether the words k tokens on tell of rows to work again.
func (x *rowReader) rowsToldAt(k int) bool {
	if x.at(k).isAny("work", "do", "make") {
		k++
	}
	for ; x.at(k).isAny("as", "for", "the", "in", "like", "rep", "repeat", "same"); k++ {
	}
	return isRowWord(x.at(k)) || x.at(k).kind == tOrd && isRowWord(x.at(k+1))
}

// capital reports whether a word is written with one.
func (x *rowReader) capital(t *token) bool {
	c := x.src.Text[t.start]
	return 'A' <= c && c <= 'Z'
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
