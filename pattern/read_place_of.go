package pattern

import "slices"

// looks are words that say how a place looks.
var looks = newWordSet("free empty adjacent plain vacant large small big little long short outer inner lone tall resulting new")

// adjectives passes over words between an article and the name of a place that
// tell it apart to the eye and change no count: "in the free picot", "in next
// large loop".
func (x *rowReader) adjectives() {
	for x.peek().in(looks) && x.nounFollows(1) {
		x.p++
	}
}

// corresponding reads a place of a motif that lies beside this one, after its
// preposition: "corresponding picot of first motif", "matching ch-3 sp". Work
// goes into it as well, and it takes nothing of the row below.
func (x *rowReader) corresponding(start int) (Target, bool) {
	save := x.p
	x.accept("next", "same")
	if !x.accept("corresponding", "matching", "adjoining", "opposite", "adjacent", "neighbouring", "neighboring", "respective") {
		x.p = save
		return Target{}, false
	}
	said := !x.at(-1).isAny("adjacent", "opposite") // which may lie on this piece too
	x.accept("corner", "joining")
	n, ok := x.nounAt(0)
	if !ok || n.ring || n.edge || x.at(n.tokens).isAny("side", "edge") {
		x.p = save
		return Target{}, false
	}
	x.p += n.tokens
	t := Target{Which: Next, N: Num{N: 1}, said: true}
	x.fill(&t, n)
	t.Which = Next
	if x.qualify(&t); t.Row == nil && !said {
		x.p = save
		return Target{}, false
	}
	t.Span = x.spanFrom(start)
	t.Row = &RowRef{Piece: besideThis, Span: t.Span}
	return t, true
}

// besideThis is the piece of a place on a motif that has no name.
const besideThis = "\x01"

// ofOtherMotif reads "of first motif", "on the previous square": the place is
// on another motif, that this one is joined to.
func (x *rowReader) ofOtherMotif(t *Target) bool {
	start := x.p
	if !x.accept("of", "on", "from", "in") {
		return false
	}
	the := x.accept("the", "a", "an", "any", "each")
	adj := false
	for x.peek().kind == tOrd || x.peek().isAny("previous", "prev", "preceding", "last", "other", "another", "adjacent", "adjoining", "next", "neighbouring", "neighboring", "joining", "completed", "finished", "corresponding", "opposite", "already") {
		adj = true
		x.p++
	}
	if !the && !adj || !adj && x.at(-1).is("each") || !x.accept("motif", "motifs", "square", "squares", "hexagon", "hexagons", "medallion", "medallions", "pentagon", "triangle", "octagon", "wheel", "granny", "doily") {
		x.p = start
		return false
	}
	x.accept("square", "motif")
	if x.peek().kind == tNum && !x.nounFollows(1) {
		x.p++
	}
	t.Row = &RowRef{Piece: besideThis, Span: x.spanFrom(start)}
	return true
}

// leftIn reads "left in row 3", "left free on Rnd 2": the places that an
// earlier row did not use.
func (x *rowReader) leftIn(t *Target) bool {
	start := x.p
	if !x.accept("left", "remaining", "skipped", "missed", "unworked", "free") {
		return false
	}
	x.accept("free", "unworked", "unused", "over")
	row := x.p
	if x.accept("in", "on", "of", "from", "at") {
		x.accept("the")
		if n, ok := x.rowName(); ok {
			t.Which, t.Row = Unworked, &RowRef{Number: int(n.N), Sizes: n.Sizes, Span: x.spanFrom(row)}
			return true
		}
	}
	x.p = start
	return false
}

// onSide takes where on the piece a place is, which changes no count: "in the gap
// on the side", "in next sp along that edge", "in ch-2 sp at corner".
func (x *rowReader) onSide(t *Target) bool {
	if t.Which == Each || t.Which == RowEnds || t.Which == Centre {
		return false
	}
	start := x.p
	if x.accept("on", "at", "along", "of") && x.phrase("[the|this|that|its]", "[next|other|same|long|short|straight|first|second]", "side|sides|corner|edge|middle", "[of]", "[the|each|this]", "[square|motif|side|piece]") && (x.end() || x.peek().separator() || x.peek().isMark(")]*([") || x.peek().isAny("and", "around", "then")) {
		if chain := len(t.Of) == 1 && t.Of[0].Kind == ChainStitch; !(chain || x.row.Numbers.First.N == 1) || !x.worked || !x.across(start) {
			return true
		}
	}
	x.p = start
	return false
}

// across reports "other" among the words from a token on: in a first row that is the
// other side of its foundation.
func (x *rowReader) across(from int) bool {
	return slices.ContainsFunc(x.ts[from:x.p], func(t token) bool { return t.is("other") })
}

// justMade takes "just made" after a place. A loop just made, where the round
// has not begun, is the one that the round before was closed with.
func (x *rowReader) justMade(t *Target) bool {
	if !x.phrase("just", "made|worked|joined|formed|completed") {
		return false
	}
	if !x.worked && len(t.Of) == 1 && t.Of[0].Kind == Space {
		t.Which = Same
	}
	return true
}
