package pattern

import "crochet/tallyturn/pattern/stitch"

// An edging that a sentence tells, behind the last row of a piece, has no label and no
// number of stitches: "Work 1 row of sc around neck and armholes", "Finish the long
// edges with 3 dc in each space". Only the author knows what it comes to.

// edgingVerbs begin such a sentence.
var edgingVerbs = newWordSet("work crochet make do add finish edge trim border neaten complete tidy")

// edgedNouns are what an edging runs along.
var edgedNouns = newWordSet("edge edges side sides neck neckline armhole armholes opening openings hem border outside end ends top bottom front fronts cuff cuffs lapels pocket pockets brim margin outline curve curves")

// edging reads the whole sentence. It gives the stitch and how many rows are told.
//
//	edging = verb [ article | number ] row [ "of" ] stitch [ "evenly" ] along
//	       | verb ( "an edging" | "a border" ) [ "of" [ number row "of" ] stitch ] along
//	       | verb [ "off" ] [ article ] { adjective } edge ( "with" | "in" ) { words } stitch .
//	along  = ( "along" | "around" | ... ) { words } edge | "all" ( "round" | "around" ) .
func (x *rowReader) edging() (id stitch.ID, rows Num, ok bool) {
	start := x.p
	fail := func() (stitch.ID, Num, bool) { x.p = start; return stitch.None, Num{}, false }
	if !x.acceptIn(edgingVerbs) {
		return fail()
	}
	verb := x.at(-1)
	rows = Num{N: 1}
	count := func() bool {
		x.accept("a", "an", "one", "another", "the", "final", "last")
		if t := x.peek(); t.kind == tNum && !t.frac && !t.big && t.num > 0 && t.num < 40 {
			rows, _ = x.number()
		}
		x.accept("more", "further", "final")
		if !isRowWord(x.peek()) || x.peek().is("r") {
			return false
		}
		x.p++
		x.accept("of", "in")
		return true
	}
	made := func() bool {
		n := 0
		id, n = x.stitchAt(0)
		x.p += n
		return n > 0
	}
	save := x.p
	switch {
	case count():
		if !made() {
			return fail()
		}
		x.accept("evenly", "loosely", "tightly", "neatly")
		if !x.alongEdges() {
			return fail()
		}
	case x.back(save) && verb.isAny("work", "crochet", "make", "add", "finish", "complete") && x.phrase("[with]", "[a|an|the|simple]", "[simple|narrow|plain]", "edging|border|trim"):
		if x.phrase("of|in") {
			if at := x.p; !count() {
				x.p = at
			}
			if !made() {
				return fail()
			}
		}
		x.accept("evenly")
		if !x.alongEdges() {
			return fail()
		}
	case x.back(save) && verb.isAny("finish", "edge", "trim", "border", "neaten", "complete", "tidy"):
		x.accept("off", "round", "around")
		words := 0
		edge := verb.isAny("edge", "border", "trim") && x.phrase("all", "round|around")
		for !edge && words < 6 && x.peek().kind == tWord && !x.peek().isAny("with", "in", "by") {
			edge = x.peek().in(edgedNouns)
			x.p++
			words++
			if edge && (x.peek().isAny("and", "of") || x.peek().in(edgedNouns)) {
				edge = false
			}
		}
		if !edge || !x.phrase("with|in|by", "[working]", "[a|an|the]") {
			return fail()
		}
		if at := x.p; !count() {
			x.p = at
			rows = Num{N: 1}
		}
		if x.peek().kind == tNum {
			x.p++
		}
		if !made() {
			return fail()
		}
	default:
		return fail()
	}
	x.toEdgingEnd()
	return id, rows, true
}

// back goes back to a token.
func (x *rowReader) back(to int) bool {
	x.p = to
	return true
}

// alongEdges takes which edges an edging runs along: "around neck and armholes", "along
// each of the straight sides only", "all round".
func (x *rowReader) alongEdges() bool {
	if x.phrase("all", "round|around|along") || x.phrase("round|around", "[the]", "whole|entire") {
		return true
	}
	if !x.accept("along", "around", "round", "across", "over", "up", "down", "on", "in", "into", "to") {
		return false
	}
	for k := 0; k < 7 && x.peek().kind == tWord; k++ {
		if x.peek().in(edgedNouns) {
			x.p++
			return !x.peek().isAny("of") || !x.at(1).isAny("row", "rnd", "round") && !isRowWord(x.at(2))
		}
		if isRowWord(x.peek()) || x.stitchFollows(0) && !x.at(1).in(edgedNouns) {
			return false
		}
		x.p++
	}
	return false
}

// toEdgingEnd goes to the stop that ends a sentence, or to a bracket that may hold its
// total.
func (x *rowReader) toEdgingEnd() {
	for !x.end() && !x.peek().isMark(".;([{=") && !(x.peek().is(":") && x.peek().head) {
		if x.peek().is("-") && !x.peek().glued {
			break
		}
		x.p++
	}
}

// edgingTold reads an edging as stitches that only the author can count.
func (x *rowReader) edgingTold() []*Step {
	if !x.peek().in(edgingVerbs) || x.p > 0 && !x.at(-1).separator() && !x.at(-1).isMark(":)") && !x.at(-1).isAny("and", "then", "to") && !x.peek().head {
		return nil
	}
	start := x.p
	id, _, ok := x.edging()
	if !ok {
		return nil
	}
	sp := x.spanFrom(start)
	return []*Step{{Op: OpFree, Stitch: id, Span: sp, Text: x.src.Slice(sp)}}
}

// edgingBehindTalk is the token at which an edging begins that stands on a line behind
// words of the making up, "Sew the side seams; work 1 row sc around neck"; 0 where none does.
func (r *reader) edgingBehindTalk(ln line) int {
	if r.piece == nil || r.sec != noSection || len(r.piece.Rows) == 0 {
		return 0
	}
	for k := ln.start + 2; k < ln.end; k++ {
		if (r.toks[k-1].is(";") || r.toks[k-1].isMark(".)]") && r.capital(k)) && r.edgingAt(k) {
			return k
		}
	}
	return 0
}

// endsPart reports whether the words gathered so far end at a semicolon.
func (r *reader) endsPart() bool {
	return len(r.row.body) > 0 && r.row.body[len(r.row.body)-1].is(";")
}

// edgingAlone reports whether a sentence at token i is an edging that stands behind
// work, or rows repeated, that it is no part of.
func (r *reader) edgingAlone(i int, body []token) bool {
	return r.edgingAt(i) && (repeatsRows(body) || len(body) > 0 && r.worksStitches(body))
}

// edgingAt reports whether the words at token i tell an edging.
func (r *reader) edgingAt(i int) bool {
	x := r.scratch(i)
	if x.accept("with", "using") {
		for n := 0; n < 6 && x.peek().kind == tWord; n++ {
			x.p++ // "With White, work one row of ss around armholes"
		}
		x.accept(",")
	}
	_, _, ok := x.edging()
	return ok
}
