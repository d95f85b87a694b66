package pattern

// handles are what is done to the work with the hands, between stitches.
var handles = newWordSet("push poke pop prod coax ease smooth pinch squeeze fluff puff bend tug pull nudge straighten stretch curl shape arrange adjust plump")

// handling = verb ( "the" | "your" | "each" | ... ) ... "." .
//
// It takes a sentence of what the hands do to what is made, "Push the bobbles out
// to the right side with your thumb", "poke each knot through to the front". It
// says no number and works no stitch.
func (x *rowReader) handling() []*Step {
	t := x.peek()
	if !t.in(handles) || !x.worked || x.depth > 1 {
		return nil
	}
	k := 1
	for x.at(k).isAny("gently", "all", "any", "out", "up", "down", "back", "in", "firmly") {
		k++
	}
	if !x.at(k).isAny("the", "your", "each", "every", "them", "it", "these", "those", "this", "that", "all") && !x.at(k-1).is("all") {
		return nil
	}
	for k++; ; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(".!?;([{*)]}=") || t.head && x.at(k).kind == tWord && !x.lowercase(k) {
			break
		}
		if t.kind == tNum && !t.word || t.kind == tOrd || t.isAny("ch", "chs", "chain", "next", "skip", "sk", "miss", "rep", "repeat", "turn", "join", "inc", "dec", "twice", "times", "loop", "loops", "yarn", "hook", "st", "same", "work", "crochet", ":", "=") || t.plainStitch() {
			return nil // it may say how a stitch is made
		}
	}
	start := x.p
	x.p += k
	return x.remarkFrom(start)
}

// lowercase reports whether the token k further on begins with a small letter.
func (x *rowReader) lowercase(k int) bool { return lowerAt(x.src.Text, x.at(k).start) }

// wayNouns are the parts of a piece that a way goes along.
var wayNouns = newWordSet("side sides edge edges bottom top border end ends length corner corners half front back piece blanket shawl opening neck neckline hem")

// way = { preposition "the" adjectives noun [ "of" place ] "and" } .
//
// Behind a repeat it says where the passes lie, "rep from * once more along the
// bottom and up the second side", and counts nothing.
func (x *rowReader) way() []*Step {
	l := x.lastStep
	if !x.peek().isAny("along", "up", "down", "across", "around", "round", "over") || x.p == 0 || x.at(-1).separator() || l == nil || l.Op != OpGroup || l.Times.Kind == Once || x.depth > 1 {
		return nil
	}
	start := x.p
	for {
		if !x.accept("along", "up", "down", "across", "around", "round", "over", "for", "on", "to") || !x.accept("the", "each", "both", "your", "this", "that", "all") {
			break
		}
		x.accept("of")
		x.accept("the")
		for n := 0; n < 3 && (x.peek().kind == tOrd || x.peek().isAny("other", "long", "short", "opposite", "same", "left", "right", "remaining", "bottom", "top", "lower", "upper", "side", "last", "far", "near", "outer", "inner", "straight", "next", "second", "first", "foundation")); n++ {
			if x.peek().in(wayNouns) && !x.at(1).in(wayNouns) {
				break
			}
			x.p++
		}
		if !x.acceptIn(wayNouns) {
			break
		}
		x.phrase("of", "[the|your]", "blanket|piece|work|shawl|square|panel|cloth|rug|mat|scarf|border")
		if x.end() || x.peek().isMark(",.;)([") || x.peek().head {
			return x.remarkFrom(start)
		}
		if !x.accept("and", "then", "&") {
			break
		}
		x.accept("then", "back")
	}
	x.p = start
	return nil
}
