package pattern

// sideSpace is the name of the spaces between one corner of a round and the next.
const sideSpace = "side"

// onSides are the words that say where on the work a place is.
var onSides = newWordSet("on along of down at across in up")

// alongSides takes which spaces of a round are meant where that is told by its sides:
// "in each sp along the sides", "in the gap in the middle of each side", "in each of
// the 2 spaces on every side". A number is then how many each side has.
//
//	alongSides = [ "in" [ "the" ] "middle" ] ( "on" | "along" | "of" ) [ "each" | "every" | "all" ] [ "of" ] [ "the" ] [ number ] ( "side" | "sides" | "edge" | "edges" ) .
func (x *rowReader) alongSides(t *Target) bool {
	if len(t.Of) != 1 || t.Of[0].Kind != Space || t.Of[0].corner || t.Of[0].Name == "corner" || t.Which != Each && t.Which != Next {
		return false
	}
	start := x.p
	x.phrase("in|at", "[the]", "middle|center|centre")
	if !x.acceptIn(onSides) {
		x.p = start
		return false
	}
	all := x.accept("each", "every", "all", "both", "ea")
	x.accept("of")
	the := x.accept("the", "its", "this", "that")
	if x.peek().kind == tNum && !x.peek().frac && (all || the) {
		x.p++
	}
	x.accept("straight", "long", "short", "other", "remaining")
	if !x.accept("side", "sides", "edge", "edges") {
		x.p = start
		return false
	}
	one := !all && !x.at(-1).isAny("sides", "edges")
	if one && (t.Which != Each || len(x.marks) == 0 && x.depth < 2) {
		x.p = start
		return false
	}
	x.phrase("of", "[the|your]", "square|motif|work|piece|granny")
	if !x.end() && !x.peek().separator() && !x.peek().isMark(")]*([") && !x.peek().isAny("and", "around", "then", "with", "working") {
		x.p = start
		return false
	}
	if t.Which == Next {
		if t.N.N > 1 {
			t.told = t.N
		}
		t.Which, t.N, t.plain = Each, Num{}, false
	}
	t.Of = []Filter{{Kind: Space, Size: t.Of[0].Size, Name: sideSpace}}
	if one { // in a repeat, "3 dc in each sp along the side": as far as the next corner
		t.Bound = Bound{Kind: ToPlace, Of: []Filter{{Kind: Space, Name: "corner", corner: true}}}
	}
	return true
}

// betweenCorners takes "between corners" behind a space: it is one of a side.
func (x *rowReader) betweenCorners() bool {
	return x.phrase("between|bet|betw", "[the|each|two|2]", "[two|2]", "corners|corner", "[sps|spaces|sp]")
}

// eachGap takes "each group", "all the clusters" behind "between", outside any repeat:
// every gap between the groups of the row below is meant.
func (x *rowReader) eachGap(t *Target) bool {
	start := x.p
	each := x.accept("each", "every", "all")
	x.phrase("of")
	x.accept("the")
	if x.accept("group", "groups", "grp", "grps", "cluster", "clusters", "shells", "shell", "tufts") && (each || plural(x.at(-1)) || x.at(-1).isAny("groups", "clusters", "grps", "tufts")) && x.depth == 1 && len(x.marks) == 0 {
		t.Which, t.Of = Each, []Filter{{Kind: Space, Name: "gap"}}
		return true
	}
	x.p = start
	return false
}

// namesCorners and namesSides report whether a step goes into all the corner spaces of
// a round, or into all those of its sides.
func namesCorners(s *Step) bool {
	return eachStep(s) && len(s.Target.Of) == 1 && s.Target.Of[0].Kind == Space && (s.Target.Of[0].corner || s.Target.Of[0].Name == "corner")
}

func namesSides(s *Step) bool {
	return eachStep(s) && len(s.Target.Of) == 1 && s.Target.Of[0].Kind == Space && (s.Target.Of[0].Name == sideSpace || s.Target.Of[0].Name == "gap" || anySpace(s.Target.Of[0]))
}

// anySpace reports a space of some size or of any, of which no word tells where it lies.
func anySpace(f Filter) bool { return f == Filter{Kind: Space, Size: f.Size} }

// cornersAndSides reports two steps of which one goes into the corners of a round and
// the other into what lies between them: they run on together however they are told,
// "In each corner: 3 dc, ch 2, 3 dc. In each side gap: 3 dc."
func (x *rowReader) cornersAndSides(a, b *Step) *Step {
	a, b = allCorners(a), allCorners(b)
	switch {
	case namesCorners(a):
		b = x.allSides(b)
	case namesCorners(b):
		a = x.allSides(a)
	}
	if !(namesCorners(a) && namesSides(b) || namesSides(a) && namesCorners(b)) {
		return nil
	}
	return runsOver(a, b)
}

// allSides is a step into a number of spaces that is told beside one into all the
// corners, "in each of the 4 ch-1 sps", as one into each of them.
func (x *rowReader) allSides(s *Step) *Step {
	if s.Op != OpWork && s.Op != OpInto || s.Target.Which != Next || s.Target.N.N < 2 || len(s.Target.Of) != 1 || !x.saidEach(s.Target) {
		return s
	}
	f := s.Target.Of[0]
	switch {
	case f.Kind == Space && (f.Size == 0 && f.Name == "" || f.Name == "gap"):
		f = Filter{Kind: Space, Name: sideSpace} // "in each of the 8 sps between"
	case !anySpace(f):
		return s
	}
	c := *s
	c.Target.Of = []Filter{f}
	c.Target.Which, c.Target.N, c.Target.told = Each, Num{}, s.Target.N
	return &c
}

// allCorners is a step into a number of corners, "in the four corners", as one into
// each of them.
func allCorners(s *Step) *Step {
	if s.Op != OpWork && s.Op != OpInto || s.Target.Which != Next || s.Target.N.N < 2 || len(s.Target.Of) != 1 || !s.Target.Of[0].corner && s.Target.Of[0].Name != "corner" {
		return s
	}
	c := *s
	c.Target.Which, c.Target.N, c.Target.told = Each, Num{}, s.Target.N
	return &c
}
