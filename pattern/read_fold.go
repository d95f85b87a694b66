package pattern

// fold reads how an opening is closed, without taking what is worked there for
// a part of the sentence: "fold in half", "flatten the ear", before "and sc
// through both layers".
func (x *rowReader) fold() []*Step {
	if !x.peek().opens(opensClosing) {
		return nil
	}
	start := x.p
	if x.seamedAfter() {
		return x.noteFrom(start)
	}
	if x.heldTogether() {
		return x.noteFrom(start)
	}
	if !x.accept("fold", "folding", "flatten", "flattening", "pinch", "press", "squash", "squish") || !x.closesLayers() {
		x.p = start
		return nil
	}
	for !x.end() && !x.peek().isMark(",;.:") {
		if x.peek().isAny("and", "then") && (x.stitchFollows(1) || x.at(1).isAny("work", "working", "crochet", "close", "through", "make") || x.at(1).kind == tNum) {
			break
		}
		x.p++
	}
	x.row.folds = true
	return x.noteFrom(start)
}

// seamedAfter takes a sentence that closes the piece, on a line of its own behind what is
// worked or behind rows that only repeat others,
// "Hold the first and last rows together and slip stitch the 10 sts to make a tube", "Rows 4-61: rep Rows 2 and 3. Hold the short ends together and sl st through both
// thicknesses": it is no work of those rows.
func (x *rowReader) seamedAfter() bool {
	if x.row.Refer == nil && !(x.worked && x.peek().head) || x.p == 0 || !x.at(-1).isMark(".!)") {
		return false
	}
	k := 0
	for x.at(k).isAny("please", "then", "now", "finally") {
		k++
	}
	if !x.at(k).isAny("hold", "put", "place", "lay", "bring", "fold") {
		return false
	}
	together, both := x.at(k).is("fold"), false
	for ; k < maxSeamWords; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(".!") {
			break
		}
		if t.isAny("each", "every", "next", "ch", "marker") || t.isMark("([*") {
			return false
		}
		together = together || t.is("together")
		both = both || t.isAny("both", "layers", "thicknesses", "tube", "cylinder")
	}
	if !together || !both || k == maxSeamWords {
		return false
	}
	x.p += k
	return true
}

// maxSeamWords is how many words such a sentence has at most.
const maxSeamWords = 30

// heldTogether takes how two pieces lie from before the work that joins them:
// "hold both pieces wrong sides together and sc through both layers". It names
// no stitch and no number, and so hides none.
func (x *rowReader) heldTogether() bool {
	start := x.p
	if !x.accept("hold", "holding", "place", "placing", "put", "putting", "lay", "laying") || !x.accept("both", "the", "two", "your") {
		x.p = start
		return false
	}
	together := false
	for k := 0; k < 14 && !x.end(); k++ {
		switch t := x.peek(); {
		case t.is("together"):
			together = true
		case together && (t.isMark(",.;") || t.isAny("and", "then") && (x.stitchFollows(1) || x.at(1).isAny("work", "working", "crochet", "join", "through") || x.at(1).kind == tNum)):
			return true
		case t.kind == tNum && !(t.word && t.num == 2), t.kind == tOrd, t.isMark(".;([{<*"), x.stitchFollows(0):
			x.p = start
			return false
		}
		x.p++
	}
	x.p = start
	return false
}

// closesLayers reports whether stitches follow before the row ends.
func (x *rowReader) closesLayers() bool {
	for k := 0; k < 40 && x.at(k).kind != tEnd; k++ {
		if x.stitchFollows(k) && !x.at(k).isAny("slip", "single", "double") {
			return true
		}
	}
	return false
}

// bothLayers reads "working through both layers", "through both sides to close".
func (x *rowReader) bothLayers() []*Step {
	if !x.peek().opens(opensClosing) {
		return nil
	}
	start := x.p
	x.phrase("work|working|crochet|crocheting|going|close|closing", "[it|the]", "[opening|top|end|edge]", "[by]", "[working|crocheting]")
	if !x.phrase("[in|into]", "through|thru|thro|in|into", "both", "[the]", "layers|sides|thicknesses|edges|halves") && !(x.phrase("through|thru|thro", "both") && x.endsClause()) {
		x.p = start
		return nil
	}
	x.phrase("[of]", "[the]", "[work|piece|ear|wing|fin|leg|arm|tail]", "[at]", "[the]", "[same|once]", "[time]")
	x.phrase("[in]", "[order]", "to", "close|join|seam", "[up|the|it]", "[opening|top|end|gap|hole|edge]", "[closed|up|together]")
	x.row.bothLayers = true
	return x.noteFrom(start)
}

// layersBefore takes "through both layers" from between a stitch and where it
// goes: "sc through both layers across".
func (x *rowReader) layersBefore() {
	start := x.p
	if x.peek().isAny("through", "thru", "thro") && x.bothLayers() != nil && !x.peek().isAny("across", "along", "around", "evenly", "in", "to", "all") {
		x.p = start
	}
}

// nextThroughBoth reports whether a row's words say of the one to come that it
// is worked through both layers.
func nextThroughBoth(words []token) bool {
	both, next := false, false
	for i := 0; i+1 < len(words); i++ {
		switch t := &words[i]; t.text {
		case "both":
			both = both || words[i+1].isAny("layers", "sides", "thicknesses")
		case "next":
			next = next || isRowWord(&words[i+1])
		}
	}
	return both && next
}
