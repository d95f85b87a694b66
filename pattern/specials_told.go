package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// A name for a group of stitches is often given in passing, in a sentence of the notes:
// "By a clam I mean 3 dc in one space.", "When I say group, work 3 dc in the same place."

// definitionsTold keeps the definitions that the sentences of a line tell.
func (r *reader) definitionsTold(ln line) {
	from := ln.start
	for k := ln.start + 1; k <= ln.end; k++ {
		switch t := &r.toks[k]; {
		case k == ln.end, t.isMark(";"), t.is(".") && !(k+1 < ln.end && r.toks[k+1].glued):
			r.definitionTold(from, k)
			from = k + 1
		case strings.Contains(r.src.Text[r.toks[k-1].end:max(t.start, r.toks[k-1].end)], "."):
			r.definitionTold(from, k) // the stop of an abbreviation that ends a sentence
			from = k
		}
	}
}

// definitionTold keeps the definition that a sentence tells.
//
//	told = [ "when" "I" "say" | "by" | "the" "word" | ... ] name [ "," ] ( "means" | "I" "mean" | "is" | ... ) body .
func (r *reader) definitionTold(from, to int) {
	if to-from < 5 || to-from > 60 {
		return
	}
	x := r.scratch(from)
	for k := from; k < min(from+3, to); k++ {
		if r.toks[k].is(":") && k+1 < to && r.toks[k+1].kind != tNum && !r.toks[k+1].isMark("([") {
			x.p = k + 1 // "Terminology note: ..."
		}
	}
	for x.peek().isMark("^-\"'") {
		x.p++ // a bullet, or quotes about the name
	}
	lead := x.phrase("when|where|whenever|wherever|if", "[ever]", "i|it|we|you|the", "[pattern]", "say|says|write|see|read|reads") || x.phrase("by")
	x.phrase("[the]", "word|term")
	if !x.accept("a", "an", "each", "every", "the", "all") && x.peek().kind == tNum && x.peek().num == 1 {
		x.p++ // "1 group = 3 dc in one space"
	}
	for x.peek().isMark("\"'") {
		x.p++
	}
	name, end := x.p, 0
	for n := 0; n < 4 && x.p < to; n++ {
		save := x.p
		for x.peek().isMark("\"',") {
			x.p++
		}
		if x.peek().isMark("([") && x.at(1).kind == tWord && x.at(2).isMark(")]") {
			x.p += 3 // its short form
		}
		if n > 0 && (x.saysNamesAs() || lead && x.phrase("[you|then|please|just]", "work|make|do|crochet")) && x.toldBody(to) {
			end = save
			break
		}
		x.p = save
		if t := x.peek(); t.kind != tWord && !(t.is("-") && t.glued) || isRowWord(t) {
			return
		}
		x.p++
	}
	if end == 0 || end-name > 3 {
		return
	}
	names := []string{r.nameIn(name, end)}
	if one, ok := strings.CutSuffix(names[0], "s"); ok && end-name == 1 && r.toks[x.p].kind == tNum {
		names = append(names, one) // "groups are 3 dc in one space"
	}
	if k := end; r.toks[k].isMark("([") {
		names = append(names, r.toks[k+1].text)
	}
	if r.defineMesh(names, x.p, to) {
		return
	}
	if names = r.definable(names, x.p, to); len(names) > 0 && r.names[names[0]] == nil {
		r.keepSpecial(names, from, x.p, to)
	}
}

// saysNamesAs takes the words between a name and what it stands for.
func (x *rowReader) saysNamesAs() bool {
	if !x.phrase("[i|we|it|that|this]", "[always]", "mean|means|meaning") && !x.phrase("stands|stand", "for") && !x.phrase("refers|refer", "to") && !x.phrase("consists|consist", "of") &&
		!x.phrase("is|are|will", "[be]", "[always|just]", "[made|worked|formed]", "[up]", "[as|of|by|from]", "[working]") && !x.peek().isMark("=:") && !(x.peek().is("-") && !x.peek().glued) {
		return false
	}
	for x.peek().isMark(":=-") {
		x.p++
	}
	return true
}

// toldBody reports stitches with a place for all of them: "3 dc in the same place",
// "(3 dc, ch 2, 3 dc)". A number alone might be that of a gauge.
//
// It comes to where they begin, behind "a set of".
func (x *rowReader) toldBody(to int) bool {
	x.phrase("a|an|one", "group|set|cluster|bunch", "of")
	start := x.p
	defer func() { x.p = start }()
	bracket := x.peek().isMark("([")
	if bracket {
		x.p++
	}
	if x.peek().kind != tNum || x.peek().frac || x.peek().num > 15 {
		return false
	}
	x.p++
	id, n := x.stitchAt(0)
	if n == 0 || id == stitch.Slip || stitch.Of(id).Kind != stitch.Basic {
		return false
	}
	if bracket {
		return true
	}
	placed := false
	for ; x.p < to; x.p++ {
		t := x.peek()
		if isRowWord(t) || t.isAny("tall", "high", "wide", "long", "beginning", "start", "inches", "cm", "instead") {
			return false
		}
		placed = placed || t.isAny("in", "into") && x.at(1).isAny("one", "the", "same", "a", "each", "any") && x.p+1 < to
	}
	return placed
}
