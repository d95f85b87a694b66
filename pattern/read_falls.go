package pattern

// edgeNouns are what a stretch along the outside of a piece is called.
var edgeNouns = newWordSet("edge edges side sides opening border end ends rim brim")

// edgeLooks tell one edge of a piece from the others.
var edgeLooks = newWordSet("one long short side top bottom straight upper lower outer inner neck front back left right first second third fourth opposite other next foundation each remaining armhole last curved")

// alongEdgeNamed = ( "along" | "down" | "across" ... ) [ "the" ] { look } [ edge | "row ends" ] [ "of" [ "the" ] name ] [ "on" [ "the" ] look "side" ] .
//
// It is where stitches go that no row below tells of. The top and the bottom are edges
// without the word.
func (x *rowReader) alongEdgeNamed() bool {
	start := x.p
	if !x.accept("along", "down", "up", "across", "on", "around", "round", "over", "in") {
		return false
	}
	x.accept("the", "this", "that", "your")
	looks := 0
	for x.peek().in(edgeLooks) && !(x.peek().in(edgeNouns) && x.edgeEnds(1)) {
		looks++
		x.p++
	}
	bare := looks > 0 && x.at(-1).isAny("top", "bottom") && x.at(-looks-1).is("the") && !x.ts[start].isAny("in", "on") // "across the top"
	switch n, ok := x.nounAt(0); {
	case ok && n.edge && x.at(0).isAny("row", "end", "ends") && !x.edgesEach(n.tokens): // "along the row ends", "up ends of rows"
		x.p += n.tokens
	case looks == 0 || !x.acceptIn(edgeNouns) && !bare:
		x.p = start
		return false
	}
	if save := x.p; x.phrase("of", "[the|this|your]") {
		for k := 0; k < 4 && x.peek().kind == tWord && !x.stitchFollows(0) && !x.peek().isAny("and", "then", "working", "with", "each", "row", "rows", "chain", "ch"); k++ {
			x.p++
		}
		if !x.edgeEnds(0) {
			x.p = save
		}
	}
	if save := x.p; x.phrase("on|at", "[the]") && (!x.acceptIn(edgeLooks) || !x.acceptIn(edgeNouns)) {
		x.p = save // "on other side"
	}
	if !x.edgeEnds(0) {
		x.p = start
		return false
	}
	return true
}

// edgesEach reports whether the next n words tell of each row, or of how many.
func (x *rowReader) edgesEach(n int) bool {
	for k := range n {
		if t := x.at(k); t.kind == tNum || t.isAny("each", "every") {
			return true
		}
	}
	return false
}

// edgeEnds reports whether the words of an edge are done k tokens on.
func (x *rowReader) edgeEnds(k int) bool {
	t := x.at(k)
	return t.kind == tEnd || t.separator() || t.isMark("([{)]*") || t.isAny("of", "and", "then", "working", "with", "evenly")
}

// fallsSo takes how stitches along an edge fall, which the number or the total of
// them tells already: "working 1 sc in end of each row", "with 22 d.c. to each
// square". Behind stitches that have a place of their own it makes them the
// author's to count.
func (x *rowReader) fallsSo() []*Step {
	if x.lastStep == nil || x.depth > 1 {
		return nil
	}
	start := x.p
	if n := x.eachRowsShare(0); n > 0 {
		x.p += n
		return x.noteFrom(start)
	}
	if x.peek().kind != tNum && x.at(1).kind != tNum {
		return nil
	}
	if x.peek().kind == tNum { // the word before it was taken to join them
		if x.p == 0 || !x.at(-1).isAny("working", "making", "with", "having", "placing") {
			return nil
		}
	} else if !x.accept("working", "making", "with", "having", "placing") {
		return nil
	}
	x.number()
	_, n := x.stitchAt(0)
	if n == 0 {
		x.p = start
		return nil
	}
	x.p += n
	free := x.lastStep.Op == OpFree
	switch {
	case x.phrase("to|for|along|across", "each|every", "square|motif|block|panel|strip|hexagon|side|edge"):
	case free && (x.phrase("in|into|at|to|for|on", "[the]", "end|ends|side|edge", "of", "[each|every]", "row|rows") || x.phrase("in|into|at|to|for|on", "each|every", "row", "[end]") || x.cornersNamed()):
	default:
		x.p = start
		return nil
	}
	for {
		save := x.p
		x.accept(",")
		if x.accept("and", "or") && x.phrase("[work|working]") && x.cornersTold() {
			continue
		}
		x.p = save
		break
	}
	sp := x.spanFrom(start)
	if free {
		return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}}
	}
	return []*Step{{Op: OpFree, Stitch: x.main, Span: sp, Text: x.src.Slice(sp)}}
}

// eachRowsShare is how many tokens from the k-th on tell how stitches along row ends fall
// that were counted before, "1 in each row", "about one st per row end", and nothing else; 0
// where none do.
func (x *rowReader) eachRowsShare(k int) int {
	if l := x.lastStep; l == nil || l.Op != OpFree {
		return 0
	}
	start := k
	if n := x.phraseAt(k, "[that]", "[is|that's|thats|i.e]", "[about|roughly|working|making|with]"); n > 0 {
		k += n
	}
	if t := x.at(k); t.kind != tNum || t.frac || t.num > 4 {
		return 0
	}
	k++
	if _, n := x.stitchAt(k); n > 0 {
		k += n
	} else if x.at(k).isAny("st", "sts", "stitch", "stitches") {
		k++
	}
	n := x.phraseAt(k, "per", "row", "[end]")
	if n < 0 {
		n = x.phraseAt(k, "in|into|to|for|at|on", "[the]", "[end|side|edge]", "[of]", "each|every", "[sc|hdc|dc|tr|htr]", "row", "[-]", "[end|edge]")
	}
	if n < 0 || !x.edgeEnds(k+n) {
		return 0
	}
	return k + n - start
}

// cornersNamed reads "in each outer point", "in each corner".
func (x *rowReader) cornersNamed() bool {
	start := x.p
	if x.accept("in", "into", "at", "to") && x.accept("each", "every", "all") {
		x.phrase("of", "[the]")
		if x.peek().kind == tNum {
			x.p++
		}
		x.accept("outer", "inner", "outside", "inside", "front", "lower", "upper", "of", "the")
		if x.accept("corner", "corners", "point", "points", "tip", "tips", "valley", "valleys", "peak", "peaks") {
			x.phrase("of", "[the]", "cover|blanket|piece|square|work|afghan")
			return true
		}
	}
	x.p = start
	return false
}

// cornersTold reads "skipping 2 sts at each inner point", "1 extra d.c. into each of
// the four corners".
func (x *rowReader) cornersTold() bool {
	start := x.p
	x.accept("skipping", "skip", "missing", "miss")
	if x.peek().kind == tNum {
		x.p++
		x.accept("extra", "more")
		if x.nounFollows(0) {
			x.nounDrop()
			if x.cornersNamed() {
				return true
			}
		}
	}
	x.p = start
	return false
}
