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
	s.inCorner = n.N <= maxInCorner && x.at(-1).is("corner")
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
		x.accept("evenly")
		if !x.phrase("per", "side|edge") && !x.phrase("along|on|across|to|down|for", "each|every", "[of]", "[the]", "[4|four]", "side|sides|edge|edges") {
			return false
		}
		return x.accept("evenly") || x.edgeEnds(0) || x.peek().kind == tNum || x.peek().isAny("work", "make") || x.phrase("of", "[the]", "square|linen|cloth|material|napkin|handkerchief|mat|doily")
	}
	corner := func() bool { return x.cornersNamed() && x.edgeEnds(0) }
	x.phrase("go|work", "[all]", "around|round", "[hem|edge]", "with")
	x.accept("work", "make", "place", "put", "working", "making", "placing", "putting")
	var a, b Num
	ok := false
	if side() {
		x.accept(",")
		x.accept("work", "make", "place", "put", "working", "making", "placing", "putting")
		a, ok = count()
	} else if a, ok = count(); ok {
		ok = side()
	}
	if !ok {
		return fail()
	}
	x.accept(",", ";")
	x.phrase("and|with|working|making|having|plus|then", "[work|make|with|working|place|placing|put]")
	if b, ok = count(); !ok || !corner() {
		return fail()
	}
	s := x.freely(start, id, Num{N: a.N + b.N})
	s[0].perSide, s[0].corner = true, b.N
	return s
}

// cornersBeside reads what the corners get behind a count along the edge: "72 sc evenly
// along the edge and 3 sc in each corner", ", working 2 more in each of the 4 corners".
// Whether the count has them in it only the total tells.
func (x *rowReader) cornersBeside() []*Step {
	l := x.lastStep
	if l == nil || l.Op != OpFree || l.perSide || l.N.N < 1 || l.N.Sizes != nil || l.corner > 0 {
		return nil
	}
	start := x.p
	x.accept(",", ";")
	from := x.p
	added := x.accept("and", "plus", "then", "&", "+")
	x.phrase("[work|working|make|making|with|placing|place|put|putting|having|adding|include|including]")
	t := x.peek()
	if t.kind != tNum || t.frac || t.num > maxInCorner {
		x.p = start
		return nil
	}
	n, _ := x.number()
	x.accept("more", "extra", "additional")
	if made, words := x.stitchAt(0); words > 0 && made == l.Stitch {
		x.p += words
	}
	x.accept("st", "sts", "stitches")
	if !x.cornersNamed() || !x.edgeEnds(0) {
		x.p = start
		return nil
	}
	l.corner, l.cornerAdded = n.N, added
	return x.noteFrom(from)
}

// maxInCorner is how many stitches a corner of an edge gets at most.
const maxInCorner = 9

// settleSides takes so many sides as the total shows, or the four of a square.
func (x *rowReader) settleSides() {
	for _, s := range x.row.Steps {
		switch {
		case s.Op == OpGroup && s.Times.Kind == Fill && allAlongEdges(s.Body):
			x.settlePasses(s)
		case s.perSide && s.N.N > 0:
			x.settlePerSide(s)
		case s.Op == OpFree && s.corner > 0:
			x.settleCorners(s)
		}
	}
}

// settlePerSide takes a side and its corner as often as the total shows.
func (x *rowReader) settlePerSide(s *Step) {
	sides := int64(4)
	if n, ok := x.onlyStated(); ok {
		if k := n / s.N.N; k >= 3 && k <= 8 && k*s.N.N == n {
			sides = k
		}
	} else if x.afterRows {
		s.N = Num{} // of how many sides is not said
		return
	}
	s.N.N *= sides
	s.sides = sides
}

// allAlongEdges reports whether all that a group works are counts along edges, which no row
// below can bound.
func allAlongEdges(body []*Step) bool {
	for _, s := range body {
		if s.Op != OpNote && (s.Op != OpFree || s.N.N < 1 || s.N.Sizes != nil) {
			return false
		}
	}
	return len(body) > 1
}

// settlePasses takes "*18 sc along edge, 3 sc in corner; rep from * around" as often as the
// total shows, or else for the four corners of a square.
func (x *rowReader) settlePasses(s *Step) {
	per, corners := int64(0), int64(0)
	for _, b := range s.Body {
		per += b.N.N
		if b.inCorner {
			corners++
		}
	}
	n, ok := x.onlyStated()
	switch {
	case corners == 0 || !ok:
	case n%per == 0 && n/per <= 12:
		s.sides = n / per
	case 4%corners == 0:
		s.sides = 4 / corners
	}
}

// settleCorners takes what the corners get for part of the count along the edge, for more
// than it, or the count for that of one side, as the total shows. Where there is no total,
// corners told beside a count may be in it or not.
func (x *rowReader) settleCorners(s *Step) {
	n, ok := x.onlyStated()
	if !ok {
		if s.cornerAdded && !x.totalSaid(s) {
			s.N = Num{}
		}
		return
	}
	if s.N.N == n {
		return
	}
	for _, sides := range [...]int64{4, 3, 5, 6, 8} {
		for _, all := range [...]int64{s.N.N + sides*s.corner, sides * (s.N.N + s.corner)} {
			if all == n {
				s.N, s.sides = Num{N: all}, sides
				return
			}
		}
	}
	if s.cornerAdded {
		s.N, s.sides = Num{N: s.N.N + 4*s.corner}, 4
	}
}

// totalSaid reports whether the word "total" or "in all" stands behind a step: its number is
// all that the row has.
func (x *rowReader) totalSaid(s *Step) bool {
	for i := range x.ts {
		if t := &x.ts[i]; int(t.start) >= s.Span.Start && (t.isAny("total", "altogether") || t.is("all") && i > 0 && x.ts[i-1].is("in")) {
			return true
		}
	}
	return false
}

// onlyStated is the one number that the total of the row states.
func (x *rowReader) onlyStated() (int64, bool) {
	if t := x.row.Total; t != nil && len(t.Parts) == 1 && t.Parts[0].N.Sizes == nil {
		return t.Parts[0].N.N, true
	}
	return 0, false
}
