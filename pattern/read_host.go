package pattern

import "crochet/tallyturn/pattern/stitch"

// hostNouns are things that crochet is worked onto and that have no stitches to count:
// cloth, and what is made of it. Booklets of edgings have them all (common practice, no
// source).
var hostNouns = newWordSet("hem hems linen cloth fabric material handkerchief hanky towel napkin pillowcase case sheet crown leg sole ankle wrist yoke neck neckline collar tape braid cord wire binding ribbon scallop scallops selvage selvedge felt canvas muslin voile net lawn organdy leather holes perforations corner brim mold mould curtain curtains blanket jar bottle hanger slipper goods")

// onHost reads on where a count of stitches goes on something that has no row below to
// prove it by: "132 sc in hem", "work 120 dc into the hem of the linen circle", "59 dc
// around crown". Around a thing that has no name among those is enough where nothing was
// worked before.
//
//	onHost = prep { word } .
func (x *rowReader) onHost(s *Step, n Num) bool {
	if s.Legs > 0 || s.Stitch == stitch.Slip || n.N < 3 && n.Sizes == nil {
		return false
	}
	start := x.p
	x.accept("evenly", "closely")
	if !x.accept("in", "into", "around", "round", "along", "across", "over", "on", "to", "through", "down", "up") {
		x.p = start
		return false
	}
	round := x.at(-1).isAny("around", "round") && !x.afterRows && !x.worked && !x.peek().isAny("ring", "the", "ch", "chain")
	named := false
	words := 0
	for ; words < 9; words++ {
		t := x.peek()
		if t.kind == tEnd || t.separator() || t.isMark("([{)]*:=") || words > 0 && t.isAny("and", "then", "working", "with", "join", "evenly") || t.is("-") && !t.glued {
			break
		}
		if t.is("-") || t.kind == tWord && (x.at(1).is("-") && x.at(1).glued || x.at(-1).is("-")) {
			x.p++
			continue // "right-hand corner"
		}
		if t.kind != tWord || t.isAny("st", "sts", "stitch", "stitches", "ch", "chain", "chains", "ring", "loop", "loops", "lp", "sp", "sps", "space", "spaces", "next", "last", "first", "each", "every", "same", "row", "rows", "rnd", "round", "rounds", "end", "marker", "piece", "shell", "group", "block", "picot") || x.stitchFollows(0) && !t.in(hostNouns) {
			x.p = start
			return false
		}
		named = named || t.in(hostNouns)
		x.p++
	}
	if words == 0 || words == 9 || !named && !round {
		x.p = start
		return false
	}
	return true
}

// hostFirst reads the host before what is worked on it: "Into the hem of the linen circle
// work 120 dc".
func (x *rowReader) hostFirst() []*Step {
	if x.afterRows || x.worked || !x.peek().isAny("into", "in", "along", "around", "round", "over", "on", "through") {
		return nil
	}
	start := x.p
	named := false
	for x.p++; x.p-start < 10 && x.peek().kind == tWord && !x.peek().isAny("work", "make", "crochet", "place"); x.p++ {
		if x.stitchFollows(0) && !x.peek().in(hostNouns) || isRowWord(x.peek()) || x.peek().isAny("st", "ch", "ring", "loop", "sp", "each", "every") {
			break
		}
		named = named || x.peek().in(hostNouns) || x.peek().in(edgeNouns)
	}
	if !named || !x.accept("work", "make", "crochet", "place") || x.peek().kind != tNum || x.peek().num < 3 {
		x.p = start
		return nil
	}
	n, _ := x.number()
	id, words := x.stitchAt(0)
	if x.p += words; words == 0 || id == stitch.Slip || !x.edgeEnds(0) {
		x.p = start
		return nil
	}
	return x.freely(start, id, n)
}

// freely is so many stitches that no row below can prove.
func (x *rowReader) freely(start int, id stitch.ID, n Num) []*Step {
	sp := x.spanFrom(start)
	return []*Step{{Op: OpFree, Stitch: id, N: n, Span: sp, Text: x.src.Slice(sp)}}
}

// sidesAndCorners reads "48 sc along each side and 3 sc in each corner": so many times
// the two together as there are corners, which only the total tells of. A square has four.
//
//	sidesAndCorners = count along { "and" } count corners | along count corners .
func (x *rowReader) sidesAndCorners() []*Step {
	start := x.p
	fail := func() []*Step { x.p = start; return nil }
	if x.depth > 1 || x.peek().kind != tNum && x.at(1).kind != tNum && !x.peek().isAny("along", "on", "across", "go", "to") {
		return nil
	}
	var id stitch.ID
	count := func() (Num, bool) {
		if x.peek().kind != tNum || x.peek().frac || x.peek().big {
			return Num{}, false
		}
		n, _ := x.number()
		if made, words := x.stitchAt(0); words > 0 && made != stitch.Slip {
			id = made
			x.p += words
		}
		return n, n.Sizes == nil && id != stitch.None
	}
	side := func() bool {
		return x.phrase("along|on|across|to|down|for", "each|every", "[of]", "[the]", "[4|four]", "side|sides|edge|edges") && (x.edgeEnds(0) || x.peek().kind == tNum || x.peek().isAny("work", "make") || x.phrase("of", "[the]", "square|linen|cloth|material|napkin|handkerchief|mat|doily"))
	}
	corner := func() bool {
		return x.phrase("in|into|at|for|on", "each|every", "[of]", "[the]", "[4|four]", "corner|corners") && x.edgeEnds(0)
	}
	x.phrase("go|work", "[all]", "around|round", "[hem|edge]", "with")
	x.accept("work", "make")
	var a, b Num
	ok := false
	if side() {
		x.accept(",")
		x.accept("work", "make")
		a, ok = count()
	} else if a, ok = count(); ok {
		ok = side()
	}
	if !ok {
		return fail()
	}
	x.accept(",", ";")
	x.phrase("and|with|working|making|having", "[work|make]")
	if b, ok = count(); !ok || !corner() {
		return fail()
	}
	s := x.freely(start, id, Num{N: a.N + b.N})
	s[0].perSide = true
	return s
}

// settleSides takes so many sides as the total shows, or the four of a square.
func (x *rowReader) settleSides() {
	for _, s := range x.row.Steps {
		if !s.perSide || s.N.N < 1 {
			continue
		}
		sides := int64(4)
		if t := x.row.Total; t != nil && len(t.Parts) == 1 && t.Parts[0].N.Sizes == nil {
			if n := t.Parts[0].N.N / s.N.N; n >= 3 && n <= 8 && n*s.N.N == t.Parts[0].N.N {
				sides = n
			}
		} else if x.afterRows {
			s.N = Num{} // of how many sides is not said
			continue
		}
		s.N.N *= sides
	}
}
