package pattern

import "crochet/tallyturn/pattern/stitch"

// edgeUnits are the pieces that an edge is made up of where they are joined, as the squares
// of a blanket are.
var edgeUnits = newWordSet("motif motifs square squares hexagon hexagons panel panels strip strips medallion medallions gore gores")

// edgesSum reads stitches that are told edge by edge, where how many such edges there are is
// said or known: "62 sc along each long edge, 40 sc along each short edge and 3 sc in each of
// the 4 corners", "14 sc across each of the 6 motifs". No row below tells of them, and what
// they add up to is proven.
//
//	edgesSum = [ "work" ] part { ( "," | "and" | "with" ) part } [ along edge ] .
//	part     = number [ stitch ] prep [ "the" edge "of" ] ( "both" | ( "each" | "all" ) [ "of" ] [ "the" ] [ number ] ) { look } ( edge | unit | "corners" ) .
func (x *rowReader) edgesSum() []*Step {
	start := x.p
	fail := func() []*Step { x.p = start; return nil }
	if x.depth > 1 || x.worked || x.peek().kind != tNum && x.at(1).kind != tNum {
		return nil
	}
	x.accept("work", "make", "place", "crochet")
	sum, id, sides, corners := int64(0), stitch.None, false, int64(0)
	for n := 0; n < maxEdges; n++ {
		save := x.p
		if n > 0 {
			x.accept(",", ";")
			x.accept("and", "with", "plus")
			x.accept("work", "make", "working", "making", "placing")
		}
		of, made, times, corner := x.edgePart(id)
		if of == 0 {
			x.p = save
			break
		}
		if id = made; corner {
			if corners = of; times > 0 {
				sum, corners = sum+of*times, 0
			}
			continue
		}
		if times == 0 {
			return fail()
		}
		sides, sum = true, sum+of*times
	}
	if sum += 4 * corners; !sides || sum < 3 {
		return fail()
	}
	x.alongEdgeNamed()
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{=<") && !x.peek().head {
		return fail()
	}
	return x.freely(start, id, Num{N: sum})
}

// maxEdges is the most parts that such a sum is told in.
const maxEdges = 6

// edgePart reads one part of edgesSum: how many stitches, of which kind, on each edge, and
// how many such edges there are; times is 0 where that is not said, and of where no part
// stands here.
func (x *rowReader) edgePart(id stitch.ID) (of int64, made stitch.ID, times int64, corner bool) {
	start := x.p
	fail := func() (int64, stitch.ID, int64, bool) { x.p = start; return 0, stitch.None, 0, false }
	t := x.peek()
	if t.kind != tNum || t.frac || t.big || t.num < 1 || t.num > 5000 {
		return fail()
	}
	n, _ := x.number()
	if s, words := x.stitchAt(0); words > 0 && s != stitch.Slip {
		id = s
		x.p += words
	}
	if n.Sizes != nil || id == stitch.None {
		return fail()
	}
	x.accept("evenly", "spaced")
	into := x.peek().isAny("in", "into", "at")
	if !x.accept("along", "across", "on", "in", "into", "at", "over", "to", "down", "for") {
		return fail()
	}
	x.phrase("the", "top|bottom|edge|side|end|upper|lower|outer", "[edge|side|end]", "of")
	switch {
	case x.accept("both"):
		times = 2
	case x.accept("each", "every", "all"):
	default:
		return fail()
	}
	x.accept("of")
	x.accept("the", "these", "those")
	if c := x.peek(); times == 0 && c.kind == tNum && !c.frac && !c.big && c.num > 1 && c.num < 500 {
		times = c.num
		x.p++
	}
	for x.peek().in(edgeLooks) && !(x.peek().in(edgeNouns) && x.edgeEnds(1)) {
		if times == 0 && x.peek().isAny("long", "short") {
			times = 2
		}
		x.p++
	}
	switch {
	case x.accept("corner", "corners"):
		corner = true
	case into:
		return fail()
	case x.acceptIn(edgeUnits), x.acceptIn(edgeNouns):
	default:
		return fail()
	}
	return n.N, id, times, corner
}
