package pattern

// countedOn sets right a place that is counted from the beginning of the row, behind
// the first stitches of it: "sl st across the first 5 dc and into the 6th". The 6th is
// the next one then, and the 7th would leave one out.
func countedOn(first, t *Target) {
	n := first.N.N
	if first.Which != First || t.Which != Nth || len(first.N.Sizes)+len(t.N.Sizes) > 0 || n < 2 || t.N.N <= n || t.Within != nil || t.Row != nil || t.Bound.Kind != NoBound {
		return
	}
	// Neither number stands for itself alone: to change one would change both.
	first.N.Span = Span{}
	t.N = Num{N: t.N.N - n}
	if t.N.N == 1 {
		t.Which = Next
	}
}

// slipsOverInto reports whether a slip stitch that went over stitches, from a token
// on, now goes into the place that it was made for: "sl st over 2 dc into the ch-2
// sp", with no word between the two.
func (x *rowReader) slipsOverInto(from int) bool {
	if from == 0 || x.p == from || !x.ts[from].isAny("over", "across", "along") || !x.ts[from-1].isAny("ss", "slst", "st", "sts", "stitch", "stitches") {
		return false
	}
	if t := &x.ts[from-1]; t.isAny("st", "sts", "stitch", "stitches") && (from == 1 || !x.ts[from-2].isAny("sl", "slip")) {
		return false
	}
	return x.peek().isAny("into", "to", "in") && (x.at(1).isAny("the", "next", "first", "corner", "ch", "same") || x.at(1).kind == tNum && x.at(2).isAny("ch"))
}

// standsOver takes the stitch that a turning chain stands over, where the row was
// slipped to it: "sl st into the 6th dc, ch 3 over the 6th dc".
func (x *rowReader) standsOver() bool {
	if !x.peek().is("over") || !x.ts[0].isAny("sl", "slip", "ss", "slst") {
		return false
	}
	start := x.p
	x.p++
	x.accept("the")
	o := x.peek()
	named := o.is("same")
	for i := 0; i < start && o.kind == tOrd; i++ {
		named = named || x.ts[i].kind == tOrd && x.ts[i].num == o.num
	}
	x.p++
	n, ok := x.nounAt(0)
	if !named || !ok || n.filter.Kind != OneStitch && n.filter.Kind != AnyStitch {
		x.p = start
		return false
	}
	x.p += n.tokens
	if !x.end() && !x.peek().separator() {
		x.p = start
		return false
	}
	return true
}
