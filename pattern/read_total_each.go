package pattern

// eachRowAhead is the length of words, k tokens on, that tell of a count that it is that of
// each of the rows told together: "40 each time", "28 sts a round", "12 every row". It is 0
// where more of the clause follows them.
func (x *rowReader) eachRowAhead(k int) int {
	t := x.at(k)
	if t.kind != tWord && t.kind != tNum {
		return 0
	}
	n := max(0, x.phraseAt(k, "each|every", "time|row|rnd|round|rd"),
		x.phraseAt(k, "in|on|at|for|after", "[the]", "[end]", "[of]", "each|every|all", "[of]", "[these|the|those]", "time|row|rnd|round|rd|one|rows|rnds|rounds"),
		x.phraseAt(k, "a|per", "row|rnd|round|rd"),
		x.phraseAt(k, "both|all", "times|rows|rounds|rnds"),
		x.phraseAt(k, "throughout"),
		x.phraseAt(k, "all", "the", "way", "[through|along|up]"))
	if each := x.at(k); n == 0 && each.is("each") && x.rowsToTell() > 1 {
		n = 1 // "24 each"
	}
	if n == 0 {
		return 0
	}
	if after := x.at(k + n); after.kind != tEnd && !after.separator() && !after.isMark("([{)]}?") && !after.head {
		return 0
	}
	return n
}

// groupNames are what an author may call groups of stitches that all have the same number.
var groupNames = newWordSet("groups group blocks block sets clusters petals scallops shells fans points waves sections wedges")

// groupsOf takes how many stitches each of a number of groups has: "4 groups of 7 dc",
// "5 petals of 7 sts each", "6 scallops, 5 tr in each".
func (x *rowReader) groupsOf(p *TotalPart) bool {
	if !x.peek().in(groupNames) {
		return false
	}
	start, name := x.p, x.peek().text
	x.p++
	if !x.accept("of", "with") {
		if !x.accept(",") || x.peek().kind != tNum || max(x.phraseAt(1, "in|to", "each|every"), x.phraseAt(2, "in|to", "each|every")) <= 0 {
			x.p = start
			return false
		}
	}
	x.accept("each", "all")
	if x.peek().kind != tNum || x.peek().frac || x.peek().num < 1 {
		x.p = start
		return false
	}
	per := x.peek().num
	x.p++
	id, k := x.stitchAt(0)
	if x.p += k; k == 0 {
		x.accept("st", "sts", "stitch", "stitches")
	}
	x.phrase("[in|to]", "each|every|apiece", "[petal|group|one|scallop|shell|fan]")
	if k == 0 && name != "petals" && name != "scallops" && x.at(-1).kind == tNum {
		x.p = start
		return false
	}
	p.Kind, p.ID, p.Name, p.per = PartOther, id, name, per
	return true
}

// evenlyGloss reports whether a bracket from here on tells how stitches are spread that the
// row before it counts, "(one sc in each row)", "(2 sts in every row end)": no total of one row.
func (x *rowReader) evenlyGloss(end int) bool {
	if n := x.peek(); n.kind != tNum || n.frac || n.num > 4 || x.rowsToTell() > 1 {
		return false
	}
	if n := x.eachRowsShare(0); n > 0 && x.p+n == end {
		return true
	}
	for k := 1; x.p+k+1 < end; k++ {
		if x.at(k).isAny("in", "into", "for", "to", "at", "on") && x.at(k+1).isAny("each", "every") {
			return !x.at(k + 2).in(sharedBy)
		}
		if x.at(k).separator() {
			return false
		}
	}
	return false
}

// betweenMarks takes a total that stands between two marks at the end of its line, "-14-",
// "~ 20 sc ~", as typed notes set it off.
func (x *rowReader) betweenMarks(before []*Step) bool {
	n := x.at(1)
	if !x.worked || x.depth > 1 || n.kind != tNum || n.frac {
		return false
	}
	start, k := x.p, 2
	part := TotalPart{Kind: PartStitches}
	if id, w := x.stitchAt(k); w > 0 {
		part.Kind, part.ID, k = PartStitch, id, k+w
	} else if x.at(k).isAny("st", "sts", "stitches") {
		k++
	}
	if end := x.at(k + 1); !x.at(k).is(x.peek().text) || end.kind != tEnd && !end.head {
		return false
	}
	x.p++
	part.N, _ = x.number()
	x.p = start + k + 1
	part.Span, part.Name = x.spanFrom(start), x.ts[start+k-1].text
	if k == 2 {
		part.Name = ""
	}
	x.setTotal([]TotalPart{part}, x.spanFrom(start), before)
	return true
}
