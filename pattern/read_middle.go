package pattern

// middleWords are what the middle of a group, or of a corner, is called.
var middleWords = newWordSet("centre center middle mid central")

// toTheMiddle reads how far a run goes where it is told by a middle: "to centre
// dc of the corner 3", "to next corner centre", "to the middle sc of next shell".
func (x *rowReader) toTheMiddle(b *Bound) bool {
	start := x.p
	x.acceptIn(pointers)
	if x.spineNamed() || x.rowMiddle() {
		b.Of, b.centre = []Filter{{Kind: Space, Name: spine}}, true
		return true
	}
	x.accept("next", "first", "following")
	corner := x.accept("corner")
	if !x.acceptIn(middleWords) {
		x.p = start
		return false
	}
	x.accept("-")
	n, named := x.nounAt(0)
	if named && n.filter.Kind == Space || n.ring || n.edge || n.turn {
		x.p = start // a space is a place of its own kind
		return false
	}
	if named {
		x.p += n.tokens
		b.Of = []Filter{n.filter}
	}
	if _, grouped := x.ofGroup(); !grouped && !corner {
		whole := Target{Which: Centre}
		if !x.partOf(&whole) || whole.Within == nil || whole.Within.Kind != NamedGroup {
			x.p = start
			return false
		}
	}
	b.centre = true
	return true
}

// spineNamed takes the word for the middle of a shawl that both halves grow from: "spine",
// "the centre spine", "spine sp", "ch-2 spine".
func (x *rowReader) spineNamed() bool {
	start := x.p
	x.accept("the", "your")
	x.acceptIn(middleWords)
	if x.phrase("ch|chain", "-") && x.peek().kind == tNum {
		x.p++
		x.acceptIn(spaceWords)
	}
	if !x.accept("spine") {
		x.p = start
		return false
	}
	if n, ok := x.nounAt(0); ok && !n.ring && !n.edge && !n.turn && x.peek().kind == tWord {
		x.p += n.tokens // "spine sp", "spine st", "spine ch-2 sp"
	}
	return true
}

// rowMiddle takes the middle of a row that goes to and fro, "center", "the centre sp", "middle
// ch-2 sp", where it is of nothing smaller.
func (x *rowReader) rowMiddle() bool {
	start := x.p
	x.accept("the", "your")
	if x.row.Kind == FlatRow && x.acceptIn(middleWords) {
		if n, ok := x.nounAt(0); ok && n.filter.Kind == Space {
			x.p += n.tokens
		}
		if t := x.peek(); t.kind == tEnd || t.isMark(",;.([*") || t.isAny("and", "then") {
			return true
		}
	}
	x.p = start
	return false
}

// ofGroup takes the group that a middle stitch is of: "of the corner 3", "of each
// 3 sc group", "of the 3 at the corner", "of each corner", "of the 3 in all four
// corners". It says whether all of them are meant.
func (x *rowReader) ofGroup() (all, ok bool) {
	start := x.p
	if !x.accept("of", "in", "at") {
		return false, false
	}
	every := func() { all = x.accept("each", "every", "all", "both") || all }
	every()
	x.accept("of")
	x.accept("the", "these", "those", "a", "that", "your")
	x.accept("next", "following", "same", "last", "first")
	corner := x.accept("corner", "corners")
	number := x.peek().kind == tNum && !x.peek().frac && x.peek().num < 30
	if number {
		x.p++
		x.accept("-")
	}
	n, named := x.nounAt(0)
	if named && (n.filter.Kind == AnyStitch || n.filter.Kind == OneStitch || n.filter.Kind == NamedGroup) {
		x.p += n.tokens
	} else {
		named = false
	}
	corner = x.accept("group", "groups", "cluster", "clusters", "set", "corner", "corners", "increase", "inc") || corner
	if number || named {
		save := x.p
		if x.accept("at", "in", "on", "of", "along", "for") {
			every()
			x.accept("of")
			x.accept("the", "a", "next", "that")
			x.accept("other", "next")
			if x.peek().kind == tNum {
				x.p++
			}
			if !x.accept("corner", "corners") {
				x.p = save
			} else {
				corner = true
			}
		} else if x.phrase("made|worked", "[in|at]", "[the|each|every]", "corner") {
			corner = true
		}
	}
	if !corner && !number {
		x.p = start
		return false, false
	}
	return all, true
}
