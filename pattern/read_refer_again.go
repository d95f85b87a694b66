package pattern

// Rows may say no more than that what was worked comes again, and leave to the label how many
// rows that is: "Rows 18-25: and once more.", "Rows 10-13: And again with the next colour.",
// "Rows 5-24: Keep going just like that."

// onceMore reads rows that say only that rows above them come again. Where those were a
// repeat themselves, the same rows are repeated, so that their number is still held against
// the label; else as many as the label has.
func (x *rowReader) onceMore() []*Step {
	start := x.p
	if start > 1 || start == 1 && !x.ts[0].isAny("and", "then") || x.worked || x.above == nil || x.row.Numbers.Last.N <= x.row.Numbers.First.N {
		return nil
	}
	fail := func() []*Step { x.p = start; return nil }
	x.accept("and", "then")
	x.phrase("the|do|work|repeat", "[the]", "[same|lot|these|those|them|whole]", "[lot|rows|rounds]")
	x.accept("all", "just")
	twice := false
	switch {
	case x.phrase("once|twice", "more|again"):
		twice = x.at(-2).is("twice")
	case x.phrase("one", "more", "time"):
	case x.phrase("[the]", "[same]", "again", "[twice]"):
		twice = x.at(-1).is("twice")
	case x.phrase("[the]", "same", "[as]", "[once]", "[before|more]"), x.phrase("ditto"):
	default:
		return fail()
	}
	if !x.saysNothingMore() {
		return fail()
	}
	r := &Refer{}
	switch was := x.above.Refer; {
	case was != nil && (!was.mayComeAgain() || was.Edits != nil):
		return fail()
	case was == nil || was.LastRows > 0:
		r.LastRows = int(min(x.row.Numbers.Last.N-x.row.Numbers.First.N+1, maxAgain))
	default:
		r.First, r.Last, r.List, r.Piece = was.First, was.Last, was.List, was.Piece
	}
	if twice {
		r.Times = Num{N: 2}
		if r.LastRows%2 != 0 {
			return fail()
		}
		r.LastRows /= 2
	}
	return x.refersTo(r, 0)
}

// mayComeAgain reports rows repeated that may be so once more: they are named, or the last so
// many, one size is worked as the others, and nothing else tells where they end.
func (r *Refer) mayComeAgain() bool {
	return (r.First > 0 || r.List != nil || r.LastRows > 0) && r.Then == nil && !r.Measure && !r.Forms && r.Sizes[0] == nil
}

// maxAgain is how many rows anybody works again without naming them.
const maxAgain = 60

// saysNothingMore passes over words to the end of a sentence that name neither a stitch nor a
// number: "with the next colour", "in blue".
func (x *rowReader) saysNothingMore() bool {
	for k := 0; !x.end() && !x.peek().isMark(".!([{=-"); k++ {
		_, n := x.stitchAt(0)
		if t := x.peek(); n > 0 || k > 12 || t.kind == tNum || isRowWord(t) || t.isAny("but", "until", "till", "times", "inc", "dec", "ch", "increasing", "decreasing", "ending", "each", "except") {
			return false
		}
		x.p++
	}
	return true
}

// likeThat reads rows that go on as those before them do: "carry on like this", "keep going in
// the same way", "just like that", with what they change and how long.
func (x *rowReader) likeThat() []*Step {
	start := x.p
	if start > 0 || x.worked || x.above == nil || x.row.Numbers.First.N == 0 || x.row.Kind != FlatRow && x.row.Kind != Round {
		return nil
	}
	fail := func() []*Step { x.p = start; return nil }
	verb := x.phrase("carry|keep|go|continue|cont|work|working|continuing", "[on|going]", "[on|working]")
	x.accept("just", "exactly")
	if !x.phrase("like", "this|that|so|these|those|before") && !x.phrase("in", "[exactly]", "this|that|the", "[very|same]", "way|manner|fashion|vein|pattern|patt") && !(verb && x.phrase("as", "before|set|established|you|above|now")) {
		return fail()
	}
	if t := x.peek(); !x.end() && !t.isMark(".,;!([{=-") && !t.isAny("until", "till", "for", "to", "increasing", "decreasing", "inc", "dec", "with") {
		return fail()
	}
	r := &Refer{LastRows: 1}
	if was := x.above.Refer; was != nil {
		if !was.mayComeAgain() {
			return fail()
		}
		r = &Refer{First: was.First, Last: was.Last, List: was.List, Piece: was.Piece, LastRows: was.LastRows}
	}
	x.referTimes(r)
	x.referEdits(r)
	if s := x.referShaped(r, start); s != nil {
		return s
	}
	if x.peek().isMark(",;:.") && x.workFollows(1) && !x.end1() && x.at(2).kind != tEnd {
		return fail() // "continue as set, one tr in every tr": it is told how
	}
	return x.refersTo(r, start)
}
