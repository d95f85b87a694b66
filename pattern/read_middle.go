package pattern

// middleWords are what the middle of a group, or of a corner, is called.
var middleWords = newWordSet("centre center middle mid central")

// toTheMiddle reads how far a run goes where it is told by a middle: "to centre
// dc of the corner 3", "to next corner centre", "to the middle sc of next shell".
func (x *rowReader) toTheMiddle(b *Bound) bool {
	start := x.p
	x.acceptIn(pointers)
	if x.spineNamed() {
		b.Of, b.centre = []Filter{{Kind: Space, Name: spine}}, true
		return true
	}
	if x.middleAlone(b) {
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

// middleAlone takes "to centre", "to the centre sp", "to the middle ch-2 sp" of a row that
// goes back and forth, of which nothing tells that each of some groups has one: the space
// that both halves grow from.
func (x *rowReader) middleAlone(b *Bound) bool {
	if x.row.Kind != FlatRow || x.depth > 1 || len(x.marks) > 0 {
		return false
	}
	start := x.p
	x.accept("the", "your")
	if !x.acceptIn(middleWords) {
		x.p = start
		return false
	}
	f := Filter{Kind: Space, Name: spine}
	if n, ok := x.nounAt(0); ok && n.filter.Kind == Space && !n.ring && !n.edge && !n.turn {
		x.p += n.tokens
		f.Size = n.filter.Size
	}
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([*") && !x.peek().head && !x.peek().isAny("and", "then") {
		x.p = start
		return false
	}
	b.Of = []Filter{f}
	return true
}

// throughMiddle joins "sc in each dc across with 3 sc in centre sp", "sc in each dc, 3 sc in the
// spine sp": the space in the middle is met on the way.
func (x *rowReader) throughMiddle(a, b *Step) *Step {
	if x.row.Kind != FlatRow || !eachStep(a) || a.Target.Bound.Kind != NoBound && a.Target.Bound.Kind != ToEnd || !stitchesOnly(a.Target.Of) {
		return nil
	}
	if b.Op != OpWork && b.Op != OpInto || b.Legs > 0 || b.Target.Which != Centre || b.Target.Within != nil || b.Target.Bound.Kind != NoBound || len(b.Target.Of) != 1 || b.Target.Of[0].Kind != Space {
		return nil
	}
	if !x.joinedBy(a, b, "with", "working", "making", "placing", "putting", "doing", "work", "make", "and", "but", "except") && !x.onlyStops(a, b) {
		return nil
	}
	run, middle := *a, *b
	run.Target.Bound = Bound{}
	middle.Target.Which, middle.Target.N = Each, Num{}
	middle.Target.Of = []Filter{{Kind: Space, Size: b.Target.Of[0].Size, Name: spine}}
	return runsOver(&run, &middle)
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
	all = all || corner && x.at(-1).is("corners")
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
