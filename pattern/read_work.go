package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// mainStitch is the stitch that inc and dec are worked in.
func (x *rowReader) mainStitch() stitch.ID {
	if x.main != stitch.None {
		return x.main
	}
	return stitch.SC
}

// plainWordsBefore stand before a stitch and change nothing of it.
var plainWordsBefore = newWordSet("beg beginning regular standard normal standing stdg stand chainless starting loose")

// makeWords may go before a stitch.
var makeWords = newWordSet("work make a an then crochet")

// clusterWords are what several stitches closed as one are called.
var clusterWords = newWordSet("cluster cl bobble popcorn puff")

// moreWords may stand between a number and its stitch.
var moreWords = newWordSet("more additional extra regular of further")

// work = [ number ] stitch [ "tog" ] [ number ] [ place ] [ times ] .
func (x *rowReader) work() []*Step {
	start := x.p
	count, counted := Num{N: 1}, false
	if x.phrase("work|working", "evenly", "in") {
		if id, n := x.stitchAt(0); n > 0 {
			x.p += n
			return x.free(start, &Step{Stitch: id}, false)
		}
		x.p = start
	}
	if x.picksUp() {
		x.p += 2 // "pick up 36 sc along the edge"
	}
	evenly := x.peek().is("evenly") && x.at(1).isAny("work", "sc", "crochet", "dc", "hdc", "make")
	if evenly {
		x.p++
	}
	if x.peek().isAny("work", "working") {
		if d := x.incDec(start, count, counted); d != nil {
			return d
		}
	}
	if !x.at(1).isAny("off") {
		if x.peek().isAny("work", "make") && x.at(1).isAny("a", "an") && x.at(2).kind == tNum {
			x.p++ // "make a 4-dc cluster"
		}
		if x.acceptIn(makeWords) && (x.at(1).in(blockWords) || x.at(1).in(meshWords)) {
			x.accept("a", "an") // "work a block over first block"
		}
	}
	if x.at(1).kind == tNum {
		x.accept("only", "just") // "work only 2 sc in last ch"
	}
	for x.peek().in(plainWordsBefore) {
		x.p++
	}
	if x.peek().kind == tNum && !x.peek().frac {
		count, counted = x.number()
		if !counted {
			return nil
		}
		if x.peek().isAny("x") && x.at(1).kind != tNum {
			x.p++ // "3 x sc": three plain ones
		} else if x.peek().isAny("x") && x.at(1).kind == tNum {
			// "1 x 2sc": a plain count of increases
			if _, n := x.stitchAt(2); n > 0 {
				x.p++
				per, _ := x.number()
				_, n := x.stitchAt(0)
				id, _ := x.stitchAt(0)
				x.p += n
				sp := x.spanFrom(start)
				return []*Step{{Op: OpWork, Stitch: id, N: per, Target: Target{Which: Next, N: count, said: true, Span: sp}, Span: sp}}
			}
		}
		x.acceptIn(moreWords)
		if (x.peek().in(plainWordsBefore) || x.peek().isAny("plain", "ordinary", "usual")) && x.stitchFollows(1) {
			x.p++ // "2 plain sc"
		}
		if x.peek().isAny("blo", "flo") && x.stitchFollows(1) {
			x.p++ // "5 FLO hdc"
		}
	}
	if counted && x.peek().is("-") && x.stitchFollows(1) {
		_, n := x.stitchAt(1)
		if x.at(1+n).isAny("cluster", "cl", "bobble", "popcorn", "puff", "clusters") {
			x.p++ // "3-tr cluster"
		}
	}
	sp, n := x.specialAt(0)
	if n == 0 || !sp.spaced() {
		if inc := x.incDec(start, count, counted); inc != nil {
			return inc
		}
	}
	if n > 0 {
		if sp.Body != nil {
			x.definedInline(n)
		}
		return x.special(start, sp, n, count, counted)
	}
	n = groupWord(x, 0)
	if n == 0 && x.peek().is("v") && x.at(1).isAny("in", "into") {
		n = 1 // "V in each V"
	}
	if n > 0 {
		if sp, k := x.definedInline(n); sp != nil {
			return x.special(start, sp, k, count, counted)
		}
		return x.undefinedGroup(start, n, count, counted)
	}
	if p := x.filet(start, count, counted || x.oneMesh()); p != nil {
		return p
	}
	if counted && x.peek().isAny("mr", "mc") && (x.end1() || x.at(1).separator() || x.at(1).isMark("([{<=")) && !x.worked {
		x.p++ // "6 MR"
		sp := x.spanFrom(start)
		return []*Step{{Op: OpWork, Stitch: x.mainStitch(), N: count, Target: Target{Which: InRing, said: true, Span: sp}, Span: sp}}
	}
	var id stitch.ID
	if id, n = x.stitchAt(0); n == 0 {
		if id = x.initialStitch(); id == stitch.None {
			x.p = start
			return nil
		}
		n = 1
	}
	if counted && x.at(n).isAny("increased", "decreased", "dec'd", "inc'd") {
		x.p = start
		return nil
	}
	x.p += n
	if id == stitch.Slip && (x.lastToFirst() || x.seam()) {
		return x.noteFrom(start)
	}
	s := &Step{Op: OpWork, Stitch: id, N: Num{N: 1}}
	x.gloss()
	x.accept("st", "sts", "stitch", "stitches")
	if x.peek().is("of") && stitch.Of(id).Kind == stitch.Compound && x.at(1).kind == tNum && x.stitchFollows(2) {
		_, n := x.stitchAt(2)
		x.p += 2 + n // "a cluster of 3 d c in each sp"
	}
	if x.together(s) {
		return x.finish(start, s, count, counted)
	}
	if counted && x.withPart() {
		return x.finish(start, s, count, counted)
	}
	if counted && count.N >= 2 && x.phrase("[worked|closed|joined|taken|made]", "[off]", "tog|together") {
		// "3 dtr worked together into next st": a cluster; "over next 3" a decrease
		if x.peek().isAny("over") || x.peek().isAny("in", "into") && x.at(1).isAny("next") && x.at(2).kind == tNum {
			s.Legs = int(count.N)
			return x.finish(start, s, Num{N: 1}, false)
		}
		if x.peek().isAny("in", "into") {
			s.Stitch = stitch.Cluster
			return x.finish(start, s, Num{N: 1}, false)
		}
		s.Legs = int(count.N)
		return x.finish(start, s, Num{N: 1}, false)
	}
	if !counted && x.peek().is("-") && x.peek().glued && x.at(1).kind == tNum && x.at(1).glued {
		x.p++ // "hdc-5"
	}
	x.loopsAfter()
	if evenly {
		s.N = count
		return x.free(start, s, counted)
	}
	// "sc inc" is one, but in "inc 4 sc inc" the stitches stand between two
	between := start > 0 && x.ts[start-1].isAny("inc", "incs", "increase", "dec", "decs", "decrease")
	if x.peek().isAny("inc", "increase", "incs") && !between {
		x.p++
		return x.increase(start, id, count, counted)
	}
	if x.peek().isAny("dec", "decrease", "decs") && !between {
		x.p++
		s.Legs = 2
		return x.finish(start, s, count, counted)
	}
	if x.peek().in(clusterWords) && counted && count.N >= 2 {
		// "3 dc cluster" is one stitch
		x.p++
		s.Stitch = stitch.Cluster
		return x.finish(start, s, Num{N: 1}, false)
	}
	if x.peek().is("-") && counted && x.at(1).in(clusterWords) {
		x.p += 2
		s.Stitch = stitch.Cluster
		return x.finish(start, s, Num{N: 1}, false)
	}
	if t := x.peek(); !counted && t.kind == tNum && !t.frac {
		// "sc 5", "sc 2 in next st"
		if x.at(1).isAny("times", "time", "x") && !(x.at(1).is("x") && x.at(2).kind == tNum) {
			return x.finish(start, s, count, false)
		}
		if _, sized := x.sizedSpace(0); !sized {
			count, counted = x.number()
			x.accept("more")
			if sp, n := x.stitchAt(0); n > 0 && sp == id {
				x.p += n
			}
			x.accept("sts", "st", "stitches")
		}
	}
	if x.at(0).is("x") && x.at(1).kind == tNum && !counted {
		x.p++
		count, counted = x.number()
	}
	return x.finish(start, s, count, counted)
}

// picksUp reports whether stitches are picked up, "pick up 36 sc", and not yarn or a
// dropped loop.
func (x *rowReader) picksUp() bool {
	return x.peek().isAny("pick", "picking") && x.at(1).is("up") && x.at(2).kind == tNum && !x.at(2).frac && x.stitchFollows(3)
}

// gloss passes over the other side's name for the stitch just read: "14 dc
// (14 tr)".
func (x *rowReader) gloss() {
	if !x.peek().isMark("([/") {
		return
	}
	if x.peek().is("/") {
		if _, n := x.lookup(x.other, 1); n > 0 {
			x.p += 1 + n
		}
		return
	}
	if end := x.closer(0); end > 0 && end-x.p <= 6 && (x.otherName(end) || x.at(1).isAny("uk", "us", "british", "american") && x.wordsOnly(1, end-x.p) || x.at(1).isAny("instead", "rather") || x.at(1).is("not") && x.at(2).kind == tNum) {
		x.p = end + 1 // "2 tr (instead of 3) in last ch"
	}
}

// loopWords say which loop a stitch goes into, or how it is worked.
var loopWords = newWordSet("blo flo tbl tfl loosely bl fl")

// loopsAfter takes "sc BLO", "sc in BLO" is a place's own.
func (x *rowReader) loopsAfter() {
	if x.peek().is("-") && x.at(1).isAny("blo", "flo", "bl", "fl") {
		x.p += 2
		return
	}
	if x.peek().in(loopWords) {
		x.p++
		if x.accept("of") {
			x.p--
		}
		return
	}
	x.accept("loosely")
	if x.peek().isMark("(") && x.at(1).isAny("blo", "flo", "bl", "fl") && x.at(2).is(")") {
		x.p += 3
	}
}

// together = [ "-" ] number "tog" | "next" number "sts together" .
func (x *rowReader) together(s *Step) bool {
	if !x.peek().opens(opensTog) {
		return false
	}
	k := 0
	if x.at(k).is("-") {
		k++
	}
	if n := x.at(k); n.kind == tNum && n.num >= 2 && n.num < 100 {
		j := k + 1
		if x.at(j).is("-") {
			j++
		}
		x.nounSkip(&j)
		if x.at(j).isAny("tog", "together", "tg", "toge") {
			s.Legs = int(n.num)
			x.p += j + 1
			return true
		}
	}
	if n := x.phraseAt(0, "[the|in]", "next|first|last|following|foll"); n > 0 && x.at(n).kind == tNum {
		j := n + 1
		last := x.at(n - 1).is("last")
		x.nounSkip(&j)
		if x.at(j).isAny("tog", "together") {
			s.Legs = int(x.at(n).num)
			if last {
				s.Target = Target{Which: Last, N: Num{N: x.at(n).num}, said: true}
			}
			x.p += j + 1
			return true
		}
	}
	return false
}

// withPart takes "together with the arm", "through body and arm together": as many
// stitches as ever, and the part is joined on by them.
func (x *rowReader) withPart() bool {
	start := x.p
	if x.phrase("tog|together|through", "[both]", "[with]", "[the|a]", "[first|second|other|left|right]") && x.at(-1).isAny("with", "the", "a", "second", "first", "other", "left", "right", "through") {
		words := 0
		for x.peek().kind == tWord && words < 6 && !x.stitchFollows(0) && !x.peek().isAny("st", "sts", "in", "into", "each", "next", "both", "around", "across") {
			words++
			x.p++
		}
		named := false
		for i := start; i < x.p; i++ {
			named = named || x.ts[i].in(partWords) || x.ts[i].isAny("body", "head", "tail", "ears", "wings", "flipper", "flippers", "fins", "claws")
		}
		if named && x.endsClause() {
			return true
		}
	}
	x.p = start
	return false
}

func (x *rowReader) nounSkip(j *int) {
	if n, ok := x.nounAt(*j); ok && !x.at(*j).isAny("tog") {
		*j += n.tokens
	}
}

// roundBack reports whether a place, read from a token on, is the back of a stem:
// "1 raised tr round back of next tr".
func (x *rowReader) roundBack(from int) bool {
	for i := from; i+1 < x.p; i++ {
		if x.ts[i].isAny("round", "around", "about") {
			return x.ts[i+1].is("back") || x.ts[i+1].is("the") && x.ts[i+2].is("back")
		}
	}
	return false
}

// closesRepeat reports whether the stitch that begins at a token stands right behind a
// repeat that was told: so many close the row.
func (x *rowReader) closesRepeat(start int) bool {
	if l := x.lastStep; l != nil && l.Op == OpGroup && l.Times.Kind != Once {
		return true
	}
	return start > 1 && x.ts[start-1].isAny("and", "then", ",", ";") && x.ts[start-2].isAny("times", "more", "twice", "once", "thrice")
}

// mostInPlace is how many stitches a place may get where only "around" says which: more of
// them are all that the row has.
const mostInPlace = 6

// finish reads the place and the times of a stitch and makes its steps.
func (x *rowReader) finish(start int, s *Step, count Num, counted bool) []*Step {
	s.N = count
	if !counted {
		s.N = Num{N: 1}
	}
	if s.Legs == 0 && !counted && x.peek().isAny("next", "nxt") && (x.at(1).kind == tNum || x.nounFollows(1)) {
		// "sc next 7 sts"
		t, ok := Target{Which: Next, said: true}, false
		x.p++
		if ok = x.counted(&t, true); ok {
			x.qualify(&t)
			if b, ok := x.bound(); ok {
				t.Bound = b
			}
			return x.emit(start, s, []Target{t}, counted)
		}
	}
	save := x.p
	if counted && !x.afterRows && x.onHost(s, count) {
		return x.free(start, s, true)
	}
	if x.peek().is(",") && x.at(1).is("all") && x.at(2).isAny("in", "into") {
		x.p++
	}
	if s.Legs == 0 && s.Stitch != stitch.Slip && (!counted || count.N > 2 || count.Sizes != nil) && x.peek().isAny("along", "down", "up", "across", "on", "around", "round", "over") {
		if counted && x.alongEdgeNamed() {
			return x.free(start, s, true)
		}
		if n := x.phraseAt(0, "along|down|up|across|on|over", "each", "of", "[the|these|those|all]"); counted && n > 0 && x.at(n).kind == tNum && partsCounted(x.ts[x.p+n:]) > 0 {
			return x.free(start, s, true) // "10 sc along each of the 18 free sides"
		}
		x.p = save
	}
	if x.peek().opens(opensFree) {
		if x.peek().isAny("closely") || x.phrase("all", "along|around|round", "[the]", "[upper|lower|outer|top|side|neck|bottom]", "edge|edges|side|sides|opening") || x.phrase("on|around|round|along", "[all]", "[the]", "four|all|both|other|three", "sides|edges") {
			return x.free(start, s, counted)
		}
		if x.phrase("to|for|in", "each|every", "[dc|tr|sc|hdc|htr]", "row|rnd", "[end|ends]") {
			return x.free(start, s, false)
		}
	}
	if s.Stitch == stitch.Slip && !counted && x.peek().isAny("along", "over", "across", "up", "down") && x.at(1).is("to") {
		x.p++ // "ss along to 3rd tr of first fan"
		probe := &Step{}
		if x.toPlace(probe); probe.Target.said {
			return x.emit(start, s, []Target{probe.Target}, counted)
		}
		x.p = save
	}
	if counted && s.Legs == 0 && count.N > 3 && x.peek().isAny("each", "every", "per") && (x.at(1).separator() || x.at(1).isMark("([{)") || x.at(1).kind == tEnd || isRowWord(x.at(1))) {
		x.p++ // "R4-6: 22 sc each": so many in each of the rounds
		if isRowWord(x.peek()) {
			x.p++
		}
		return x.emit(start, s, nil, counted)
	}
	if counted && s.Legs == 0 {
		if t, ok := x.overChain(s.N.N); ok {
			return x.emit(start, s, []Target{t}, counted)
		}
	}
	if counted && s.Legs == 0 && (count.N > 1 || count.Sizes != nil) && x.phrase("to", "[the]", "finish|end|complete", "[off|it|with|up|row|rnd|round]", "[the]", "[row|rnd|round]") && x.endsClause() && (x.at(-1).is("finish") || x.closesRepeat(start)) {
		return x.emit(start, s, nil, counted) // "rep from * 4 more times, 3 sc to finish"
	}
	x.p = save
	x.layersBefore()
	if s.Legs > 0 && x.peek().isAny("starting", "beginning", "begun", "commencing") && x.at(1).isAny("in", "into") {
		x.p++ // "dc2tog starting in the 3rd ch from hook": the first of its places
	}
	places := x.place()
	if len(places) == 0 && !x.peek().isAny("evenly") {
		x.p = save
	}
	if s.Stitch == stitch.Slip && len(places) == 1 {
		x.toBody(save, &places[0])
	}
	if stitch.Of(s.Stitch).Kind == stitch.Post && x.roundBack(save) {
		s.Stitch = s.Stitch.BackPost()
	}
	if s.Stitch == stitch.Slip && (len(places) == 0 || places[0].Bound.Kind == ToPlace && x.ts[save].is("to")) {
		x.p = save
		x.accept("over", "across", "along")
		probe := &Step{}
		x.toPlace(probe)
		if probe.Target.said {
			return x.emit(start, s, []Target{probe.Target}, counted)
		}
		x.p = save
		places = x.place()
	}
	if len(places) == 0 && x.phrase("evenly") {
		return x.free(start, s, counted)
	}
	if len(places) == 0 && counted && s.Legs == 0 && x.peek().isAny("down", "up") && x.edgeAfter(1) {
		return x.free(start, s, true) // "21 sc down the row ends"
	}
	if counted && s.Legs == 0 && s.N.N > 2 && len(places) == 1 && x.ts[save].isAny("along", "across", "down", "up") && places[0].Which == Each && places[0].Bound.Kind == ToEnd && places[0].Row == nil && x.at(-1).isAny("edge", "edges", "side", "foundation", "chain", "ch") {
		x.p = save
		return x.free(start, s, true) // "30 sc along the foundation edge"
	}
	if counted && s.Legs == 0 && s.N.N > 1 && len(places) == 1 && places[0].Which == Each && places[0].Bound.Kind == ToEnd && len(places[0].Of) == 0 && x.partNamed(save) {
		places = nil // "sc 15 across heel"
	}
	if len(places) == 1 && places[0].Bound.Kind == ToEnd && x.evenlySaid(save) {
		x.p = save
		return x.free(start, s, counted)
	}
	if counted && s.Legs == 0 && count.N > mostInPlace && x.afterRows && len(places) == 1 && places[0].Which == Each && places[0].Span == places[0].Bound.Span && places[0].Bound.Kind == ToEnd && x.endsClause() {
		return x.emit(start, s, nil, counted) // "18 sc around": so many in all
	}
	if len(places) == 1 && s.Legs == 0 && (places[0].Which == Next || places[0].Which == First && !x.worked) && places[0].N.N > 1 && stitch.Of(s.Stitch).Kind == stitch.Compound && x.ts[save].is("over") {
		places[0].Which = Next      // "cluster over first 3 dc", where the row begins
		s.Legs = int(places[0].N.N) // "cluster over next 3 dc"
	}
	for i := range places {
		if places[i].Which == RowEnds {
			x.p = save
			return x.free(start, s, counted)
		}
	}
	return x.emit(start, s, places, counted)
}

func (x *rowReader) nounFollows(k int) bool {
	_, ok := x.nounAt(k)
	return ok
}

// evenlySaid reports whether "evenly" stands among the words since from.
func (x *rowReader) evenlySaid(from int) bool {
	for i := from; i < x.p; i++ {
		if x.ts[i].is("evenly") {
			return true
		}
	}
	return x.peek().is("evenly")
}

// free reads work along an edge, whose number only the author knows unless
// she gives it.
func (x *rowReader) free(start int, s *Step, counted bool) []*Step {
	s.Op = OpFree
	for !x.end() && !x.peek().isMark(",;.:)]*([") && !(x.peek().is("-") && !x.peek().glued) && !x.peek().is("=") && !x.peek().is("{") {
		if x.peek().isAny("and") && !x.at(1).isAny("in", "along", "across", "around", "down", "up", "into", "the", "other", "over", "each") {
			break
		}
		x.p++
	}
	if !counted {
		s.N = Num{}
	}
	for i := start; i < x.p; i++ {
		if x.ts[i].isAny("each", "every") {
			per := s.N
			if !counted {
				per = Num{N: 1} // "sc in the end of each of the 12 rows"
			}
			s.N = perRow(x.ts[i:x.p], per)
			break
		}
	}
	s.Span = x.spanFrom(start)
	s.Text = x.src.Slice(s.Span)
	return []*Step{s}
}

// partNamed reads on in "across heel", "along the top of the foot": a count
// stands before it, so it only says where on the piece they are.
func (x *rowReader) partNamed(from int) bool {
	if !x.ts[from].isAny("across", "along", "over") || x.p != from+1 && !(x.p == from+2 && x.ts[from+1].is("the")) {
		return false
	}
	k := 0
	for ; k < 6; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.separator() || t.isMark("([{)]}*") || k > 0 && t.isAny("and", "then", "turn", "join") {
			break
		}
		if _, n := x.stitchAt(k); t.kind != tWord || n > 0 || t.isAny("and", "then", "turn", "join", "with", "working", "making", "in", "into", "row", "rnd", "round", "edge", "edges", "side", "sides", "ch", "chain", "each", "every", "ending", "leaving", "do", "rep", "repeat", "to", "until", "sp", "loop") {
			return false
		}
	}
	x.p += k
	return k > 0
}

// edgeAfter reports whether an edge is named k tokens on: "the row ends", "one
// side", "the other short edge".
func (x *rowReader) edgeAfter(k int) bool {
	for ; x.at(k).isAny("the", "this", "one", "each", "other", "next", "second", "first", "left", "right", "long", "short"); k++ {
	}
	return x.at(k).isAny("side", "edge", "sides", "edges") || isRowWord(x.at(k)) && x.at(k+1).isAny("end", "ends", "edges")
}

// edgeParts are what an edge may be told off by, beside rows.
var edgeParts = newWordSet("ends blocks squares meshes bars ridges tiles sides edges slopes")

// partAdjectives may stand before what parts of an edge are called.
var partAdjectives = newWordSet("free long short outer remaining straight open equal other side")

// partsCounted is how many parts of an edge the words tell of, "7 row ends", "18 free
// sides", where they begin with that; else none.
func partsCounted(words []token) int64 {
	t := &words[0]
	if t.kind != tNum || t.frac || t.big || t.num >= 100_000 {
		return 0
	}
	k := 1
	for k < len(words)-1 && words[k].in(partAdjectives) {
		k++
	}
	if k < len(words) && (isRowWord(&words[k]) || words[k].in(edgeParts)) {
		return t.num
	}
	return 0
}

// perRow is so many stitches to each of so many rows, "2 sc in the end of each
// of next 10 rows", "in each of 7 row ends"; how many rows is mostly not said.
func perRow(words []token, per Num) Num {
	for i := 1; i+1 < len(words); i++ {
		if n := partsCounted(words[i:]); n > 0 && per.Sizes == nil {
			return Num{N: mul(per.N, n)}
		}
	}
	return Num{}
}

// emit makes one step for each place of a list.
func (x *rowReader) emit(start int, s *Step, places []Target, counted bool) []*Step {
	if x.holdBack && counted && s.N.N >= 2 && len(places) == 1 {
		// "holding back the last loop of each tr, make 3 tr in next st"
		x.holdBack = false
		s.Stitch, s.N = stitch.Cluster, Num{N: 1}
		counted = false
		x.drawnOff()
	} else if x.holdBack && len(places) == 1 && places[0].Which == Next && places[0].N.N >= 2 {
		x.holdBack = false
		s.Stitch, s.Legs = stitch.Cluster, int(places[0].N.N)
		x.drawnOff()
	}
	if len(places) == 0 {
		// "7 sc", "sc": as many plain ones
		s.bare = counted && s.N.N >= 2 && s.Legs == 0
		if s.Legs == 0 || counted {
			s.Target = Target{Which: Next, N: s.N}
			if s.Target.Which == Next && s.N.N == 0 && s.N.Sizes == nil {
				s.Target.N = s.N
			}
			s.N = Num{N: 1}
		} else if s.Target.Which != Last {
			s.Target = Target{Which: Next, N: Num{N: 1}}
		}
		s.Span = x.spanFrom(start)
		return x.repeated(start, []*Step{s})
	}
	out := make([]*Step, len(places))
	out[0] = s
	for i := range out[1:] {
		c := *s
		out[1+i] = &c
	}
	for i, t := range places {
		c := out[i]
		c.Target = t
		c.Span = t.Span
		if i == 0 {
			c.Span = Span{int(x.ts[start].start), t.Span.End}
		}
		if c.Legs > 0 {
			x.legs(c)
		} else if (t.Which == Next || t.Which == Last) && c.N.N > 1 && c.N.N == t.N.N && !x.saidEach(t) {
			c.bare = true                                                          // "6 sc in next 6 sts": one in each; "2 sc in next 2 sts" may be two
			if c.N.N > 3 || strings.HasPrefix(x.src.Text[t.Span.Start:], "over") { // "3 dc over last 3"
				c.N = Num{N: 1}
				c.bare = false
			}
		} else if t.Which == Next && t.N.N > 1 && c.N.N > t.N.N && c.N.N%t.N.N == 0 && !x.saidEach(t) && counted {
			c.N.N = c.N.N / t.N.N // "10 sc in next 5 sts"
		} else if i > 0 && len(places) > 1 && counted && t.Which == Each {
			// "2 sc in next st and in each st": the number holds for all
		}
	}
	out[0].Counts, x.hookCounts = x.hookCounts, Counts{}
	last := out[len(out)-1]
	last.Span.End = int(x.ts[x.p-1].end)
	return x.repeated(start, out)
}

func (x *rowReader) saidEach(t Target) bool {
	for i := x.p - 1; i >= 0 && int(x.ts[i].start) >= t.Span.Start; i-- {
		if x.ts[i].isAny("each", "every", "ea", "all") {
			return true
		}
	}
	return false
}

// legs reads a place after sc2tog: "over next 2 sts" names its own places,
// "in next 6 sts" says how far it goes.
func (x *rowReader) legs(s *Step) {
	n, legs := s.Target.N.N, int64(s.Legs)
	switch s.Target.Which {
	case Next, First, Last, Nth:
		switch {
		case n <= 1 || n == legs:
			if s.Target.Which == First || s.Target.Which == Last {
				s.Target.N = Num{N: legs}
			} else {
				s.Target.N = Num{N: 1}
			}
		case n%legs == 0 && s.Target.N.Sizes == nil:
			if s.Target.Which != Last {
				s.Target.N.N = n / legs
			}
		default:
			s.Legs = int(n) // "dec over next 3 sts"
			s.Target.N = Num{N: 1}
		}
	}
}

// repeated reads "3 times" after a stitch, which repeats the last of steps.
func (x *rowReader) repeated(start int, steps []*Step) []*Step {
	save := x.p
	last := steps[len(steps)-1]
	if x.peek().is(",") && x.at(1).kind == tNum && x.at(2).isAny("times") && !x.at(3).isAny("more") && !(x.worked && x.depth == 1 && x.lastWordsAfter(3)) {
		x.p++
	}
	if x.peek().isAny("do", "work", "repeat", "make") && x.at(1).isAny("this", "that", "it", "these", "all") {
		return steps // "sc in next 3 sts, inc. Do this 6 times": all of it
	}
	tm, ok := x.times()
	if !ok || tm.Kind == Fill && last.Target.said {
		x.p = save
		return steps
	}
	if tm.Kind == Fill && tm.Bound.Kind == NoBound {
		x.p = save
		return steps
	}
	g := &Step{Op: OpGroup, Body: []*Step{last}, Times: tm, Span: x.spanFrom(start)}
	return append(steps[:len(steps)-1], g)
}

// incDec = [ number ] ( "inc" | "dec" ) [ place ] [ times ] .
func (x *rowReader) incDec(start int, count Num, counted bool) []*Step {
	theNext := x.peek().is("the") && x.at(1).is("next")
	// "crochet all 3 sts together", "crochet the last 2 sts together"
	all := x.peek().is("all") && x.at(1).kind == tNum || x.peek().is("the") && x.at(1).isAny("first", "last", "following", "rem", "remaining") && x.at(2).kind == tNum
	if !x.peek().opens(opensIncDec) && !(counted && x.togetherAt(0)) && !theNext && !all {
		return nil
	}
	save := x.p
	if theNext {
		x.p++ // "crochet the next 2 sts together"
	}
	if counted && count.N >= 2 && count.N <= 5 && x.togetherAt(0) {
		x.nounDrop() // "2 sts together"
	}
	x.accept("invisible", "inv", "invis", "standard", "simple")
	if x.peek().is("-") && x.at(-1).isAny("inv", "invisible") {
		x.p++
	}
	t := x.peek()
	if from := x.at(-1); x.p > save && from.isAny("inv", "invis") && (x.end() || t.separator() || t.isMark(")]") || t.is("x") && x.at(1).kind == tNum) {
		// "(6, inv) x 3": of the two that are made invisible, the decrease
		return x.finish(start, &Step{Op: OpWork, Stitch: x.mainStitch(), Legs: 2}, count, counted)
	}
	switch {
	case t.isAny("inc", "incs", "increase", "increases", "increasing", "invinc", "incr"):
		x.p++
		if x.abbreviated() {
			x.p++
		}
		return x.increase(start, stitch.None, count, counted)
	case t.isAny("dec", "decs", "decrease", "decreases", "decreasing", "invdec", "invd", "decr", "tog"), t.is("together") && counted && count.N >= 2 && count.N <= 5:
		x.p++
		if x.abbreviated() {
			x.p++
		}
		s := &Step{Op: OpWork, Stitch: x.mainStitch(), Legs: 2}
		if t.isAny("tog", "together") && counted && count.Sizes == nil && count.N >= 2 && count.N <= 5 {
			s.Legs = int(count.N) // "2 tog" is one decrease
			return x.finish(start, s, Num{N: 1}, false)
		}
		x.accept("a", "an")
		if x.peek().kind == tNum && x.peek().num == 1 && (x.at(1).isAny("st", "sts", "stitch", "over", "at", "in") || x.nounFollows(1)) {
			x.p++
			x.nounDrop()
		} else if x.at(0).isAny("st", "stitch") && x.at(-1).isAny("a") {
			x.p++
		}
		x.decGloss(s)
		if d := x.eachEnd(start, -1); d != nil {
			return d
		}
		if !counted && x.evenUpToChange() {
			s.N, s.Target, s.Span = Num{N: 1}, Target{Which: Next, N: Num{N: 1}}, x.spanFrom(start)
			return []*Step{s}
		}
		if !counted && x.peek().kind == tNum && !x.peek().frac && !x.countsBehind(2) && !x.at(1).isAny("times", "time", "x", "sts", "st", "stitches") {
			count, counted = x.number() // "dec 3": three of them
		}
		return x.finish(start, s, count, counted)
	case t.isAny("work", "crochet", "next", "draw", "working", "off", "take", "taking", "all", "the"):
		// "work next 2 sts tog", "take next 2 sts together", "work off next 2 sc as 1 sc"
		k := 1
		if t.is("next") {
			k = 0
		}
		for x.at(k).isAny("off", "all", "the", "these", "next", "following", "last", "first", "rem", "remaining", "over") {
			k++
		}
		if n := x.at(k); n.kind == tNum && !n.frac && n.num >= 2 && n.num < 12 {
			j := k + 1
			x.nounSkip(&j)
			id := x.mainStitch()
			if x.at(j).is("off") {
				j++ // "work the 2 sc off as 1 sc"
			}
			if x.at(j).is("as") && (x.at(j+1).is("one") || x.at(j+1).num == 1) {
				j += 2
				if sid, n := x.stitchAt(j); n > 0 {
					id = sid
					j += n
				} else if x.at(j).isAny("st", "stitch") {
					j++
				}
			} else if x.at(j).isAny("tog", "together") {
				j++
				if x.phraseAt(j, "in|as", "[a]", "single|one", "[sc|st]") > 0 {
					j += x.phraseAt(j, "in|as", "[a]", "single|one", "[sc|st]")
				}
			} else {
				break
			}
			s := &Step{Op: OpWork, Stitch: id, Legs: int(n.num), N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: 1}}}
			for i := 0; i < k; i++ {
				if x.at(i).is("last") {
					s.Target = Target{Which: Last, N: Num{N: n.num}, said: true}
				}
			}
			x.p += j
			s.Span = x.spanFrom(start)
			return x.repeated(start, []*Step{s})
		}
	}
	x.p = save
	return nil
}

// decGloss passes over a bracket that says how a decrease is made, before where it is:
// "dec 1 sc (work 2 sc tog) over first 2 sts", "dec (draw up a loop in each of 2 sts, yo
// and through all loops) over next 2 sts".
func (x *rowReader) decGloss(s *Step) {
	if !x.peek().isMark("([") {
		return
	}
	end := x.closer(0)
	if end < 0 || end-x.p > 30 || !x.ts[end+1].isAny("over", "across", "at", "in", "on") {
		return
	}
	made, legs := false, int64(0)
	for k := x.p + 1; k < end; k++ {
		t := &x.ts[k]
		made = made || t.isAny("tog", "together", "draw", "drawing", "through", "one")
		if t.kind == tNum && !t.frac && t.num >= 2 && t.num <= 5 && x.ts[end-1].isAny("tog", "together") {
			legs = t.num
		}
	}
	if !made {
		return
	}
	if x.p = end + 1; legs > 0 {
		s.Legs = int(legs)
	}
}

// evenUpToChange reports so many stitches from a change to the next one, "inc 9 sc inc": a
// step of their own that no comma parts from the first, and not how often it is worked.
func (x *rowReader) evenUpToChange() bool {
	t := x.peek()
	if t.kind != tNum || t.frac {
		return false
	}
	_, n := x.stitchAt(1)
	if n == 0 {
		return false
	}
	n++
	comma := x.at(n).isAny(",", "and", "then")
	if comma {
		n++
	}
	if !x.at(n).isAny("inc", "incs", "dec", "decs", "increase", "decrease") {
		return false
	}
	if comma && x.at(n+1).kind == tNum {
		_, again := x.stitchAt(n + 2)
		return again == 0 // "inc 3 sc, dec 3 sc"
	}
	return true
}

// countsBehind reports that the number that ends the row is its total and not how often a
// change is worked that takes so many places: the row below has not so many, "6 sc, dec 14".
func (x *rowReader) countsBehind(takes int64) bool {
	t := x.peek()
	return x.worked && x.countBefore > 0 && x.at(1).kind == tEnd && t.num*takes > x.countBefore
}

// abbreviated reports whether the full stop here only ends an abbreviation:
// "dec. 1 st at each end", but not "dec. 18 sts."
func (x *rowReader) abbreviated() bool {
	n := x.at(1)
	return x.peek().is(".") && x.peek().glued && (n.kind == tWord || n.kind == tNum && (n.num == 1 || x.at(2).isAny("times", "evenly", "over")))
}

func (x *rowReader) nounDrop() {
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
	}
}

// increase reads what follows "inc".
func (x *rowReader) increase(start int, id stitch.ID, count Num, counted bool) []*Step {
	if id == stitch.None {
		id = x.mainStitch()
	}
	s := &Step{Op: OpWork, Stitch: id, N: Num{N: 2}}
	if sp := x.redefined("inc"); sp != nil {
		s.special = sp
	}
	x.accept("a", "an")
	if x.peek().kind == tNum && x.peek().num == 1 && (x.at(1).isAny("st", "sts", "stitch", "in", "at") || x.nounFollows(1)) {
		x.p++
		if !x.peek().isAny("in", "at") {
			x.nounDrop()
		}
	} else if x.peek().isAny("st", "stitch") {
		x.p++
	}
	if d := x.eachEnd(start, 1); d != nil {
		return d
	}
	if !counted && x.evenUpToChange() {
		s.Target, s.Span = Target{Which: Next, N: Num{N: 1}}, x.spanFrom(start)
		return []*Step{x.asSpecial(s)}
	}
	save := x.p
	places := x.place()
	if len(places) == 1 && x.evenlySaid(save) || x.peek().is("evenly") {
		x.p = start
		return nil
	}
	if len(places) == 0 {
		x.p = save
		n := count
		if t := x.peek(); !counted && t.kind == tNum && !t.frac && !x.countsBehind(1) && !x.at(1).isAny("times", "time", "x", "sts", "st", "stitches", "sc", "dc", "hdc", "ch", "in") {
			n, counted = x.number() // "inc 3"
		}
		if !counted {
			n = Num{N: 1}
		}
		s.Target = Target{Which: Next, N: n}
		s.Span = x.spanFrom(start)
		return x.repeated(start, []*Step{x.asSpecial(s)})
	}
	if len(places) == 1 && counted && places[0].Which == Next && places[0].N.N <= 1 && count.N > 1 {
		places[0].N = count
	}
	out := x.emit(start, s, places, false)
	for i, o := range out {
		if o.Op == OpWork {
			o.N = Num{N: 2}
			o.bare = false
			out[i] = x.asSpecial(o)
		} else if o.Op == OpGroup {
			o.Body[0].N = Num{N: 2}
			o.Body[0] = x.asSpecial(o.Body[0])
		}
	}
	return out
}

// redefined is the pattern's own meaning of "inc", where it has one.
func (x *rowReader) redefined(word string) *Special {
	sp := x.names[word]
	if sp != nil && sp.Body != nil {
		return sp
	}
	return nil
}

func (x *rowReader) asSpecial(s *Step) *Step {
	if s.special == nil {
		return s
	}
	return &Step{Op: OpInto, Name: s.special.Names[0], Body: s.special.Body, Target: s.Target, Span: s.Span, special: s.special, N: Num{N: 1}}
}

// eachEnd reads "1 st at each end": a change of the count whose places are
// the edges.
func (x *rowReader) eachEnd(start, sign int) []*Step {
	save := x.p
	x.accept("in", "at", "on")
	x.accept("the")
	n := int64(0)
	switch {
	case x.phrase("each|both|either|ea", "end|ends|side|sides|edge|edges"):
		n = 2
	case x.phrase("beg|beginning|start", "and|&", "[at]", "[the]", "end"):
		n = 2
	case x.phrase("beg|beginning|start|end|lower|upper|neck|front|side|inner|outer|armhole", "[edge]"):
		if !x.at(-1).isAny("edge") && !x.peek().is("of") && !x.end() && !x.peek().separator() {
			x.p = save
			return nil
		}
		n = 1
	default:
		x.p = save
		return nil
	}
	x.phrase("of", "[the|this|next|every|each]", "[next]", "[row|rnd|rows]")
	s := &Step{Op: OpDelta, N: Num{N: n * int64(sign)}, Stitch: x.main, Span: x.spanFrom(start)}
	return []*Step{s}
}

// everyNth reads "making 2 sc in every 5th sc": so many more as fit.
func (x *rowReader) everyNth() []*Step {
	if !x.peek().opens(opensChange) {
		return nil
	}
	start := x.p
	x.phrase("making|working|with|but|work")
	if x.peek().kind != tNum {
		x.p = start
		return nil
	}
	per, _ := x.number()
	id, n := x.stitchAt(0)
	x.p += n
	if n == 0 || !x.phrase("in|into", "every|each") || x.peek().kind != tOrd || x.peek().num < 2 {
		x.p = start
		return nil
	}
	every := x.peek()
	x.p++
	x.nounDrop()
	return []*Step{{Op: OpDelta, Stitch: id, N: Num{N: per.N - 1, Span: per.Span}, Target: Target{N: Num{N: every.num, Span: every.span()}}, Span: x.spanFrom(start)}}
}

// delta = "increasing" number "sts evenly" | number "sts increased" .
func (x *rowReader) delta() []*Step {
	if !x.peek().opens(opensChange) {
		return nil
	}
	start := x.p
	x.accept("and", "while", "by")
	sign := int64(0)
	switch t := x.peek(); {
	case t.isAny("increasing", "increase", "inc"):
		sign = 1
	case t.isAny("decreasing", "decrease", "dec"):
		sign = -1
	}
	if sign == 0 {
		if t := x.peek(); t.kind == tNum && !t.frac && (x.at(1).isAny("more", "fewer", "less") || x.nounFollows(1) && x.at(2).isAny("more", "fewer", "less")) && x.phraseAt(2, "[more|fewer|less]", "[sts|st|stitches]", "than") > 0 {
			n, _ := x.number()
			x.nounDrop()
			if x.accept("more") {
			} else if x.accept("fewer", "less") {
				n.N = -n.N
			}
			x.toClauseEnd()
			if x.row.Total == nil {
				x.row.changes = rowChanges{delta: n, deltaSet: true}
			}
			return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
		}
		if t := x.peek(); t.kind == tNum && (x.at(2).isAny("increased", "inc'd") || x.at(2).isAny("decreased", "dec'd") || x.at(1).isAny("increases", "decreases", "inc", "dec") && x.at(2).isAny("made", "evenly")) {
			if x.at(2).isAny("made") || x.at(2).isAny("increased", "decreased", "inc'd", "dec'd") {
				x.p += 3
				return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
			}
		}
		x.p = start
		return nil
	}
	x.p++
	if x.peek().is(".") && x.peek().glued && x.at(1).kind == tNum && !x.worked {
		x.p++ // "Inc. 6 sts."
	}
	x.accept("by")
	if x.peek().isAny("where", "when", "as", "enough", "sufficiently", "gradually", "occasionally", "to", "if") && x.ts[x.p-1].isAny("increasing", "decreasing") {
		x.toClauseEnd()
		sp := x.spanFrom(start)
		return []*Step{{Op: OpFree, Stitch: x.main, Span: sp, Text: x.src.Slice(sp)}}
	}
	if x.peek().kind != tNum {
		x.p = start
		return nil
	}
	n, _ := x.number()
	noun := x.accept("sts", "st", "stitches", "stitch")
	x.accept("times")
	if id, k := x.stitchAt(0); k > 0 && id != stitch.None {
		x.p += k
	}
	even := x.phrase("[spaced]", "evenly|equally", "[spaced|distributed]", "[around|across|along]", "[the]", "[row|rnd|round]") || x.phrase("at", "even|equal", "intervals|distances")
	alone := !x.worked && x.afterRows && x.depth == 1 && noun && x.endsClause() // "Decrease 6 sts. (18)"
	told := x.ts[start].isAny("increasing", "decreasing") && x.worked && (x.end() || x.peek().isMark(".([{=<"))
	if !even && !told && !alone && !x.phrase("around|across") && !x.phrase("over|in", "[the|this]", "row|rnd|round") {
		x.p = start
		return nil
	}
	x.accept("spaced", "around", "across")
	x.phrase("in|on", "each|every|this|the|all", "[of]", "[these|next]", "[row|rnd|round|rows|rnds]")
	for i := range n.Sizes {
		n.Sizes[i] *= sign
	}
	n.N *= sign
	x.phrase("around|across|in|over", "[this|the]", "row|rnd|round")
	return []*Step{{Op: OpDelta, N: n, Stitch: x.main, Span: x.spanFrom(start), evenly: even || alone}}
}

// shape reads words that shape without naming stitches: "work even".
func (x *rowReader) shape() []*Step {
	if !x.peek().opens(opensEven) {
		return nil
	}
	start := x.p
	if x.row.noLabel {
		if _, id, ok := x.evenRows(); ok {
			sp := x.spanFrom(start)
			return []*Step{{Op: OpEven, Stitch: id, Span: sp, Text: x.src.Slice(sp)}}
		}
	}
	if x.phrase("[work|continue|cont|working]", "even|straight") && (x.phrase("in", "pattern|patt", "[across|around]") || x.phrase("[across|around]")) {
		if x.at(-1).isAny("even", "straight", "pattern", "patt", "across", "around") && !x.peek().isAny("increase", "number") {
			s := &Step{Op: OpEven, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}
			if x.phrase("in", "[each]") {
				if id, n := x.stitchAt(0); n > 0 {
					x.p += n
					s.Stitch = id
				}
			}
			s.Span = x.spanFrom(start)
			return []*Step{s}
		}
	}
	x.p = start
	return nil
}

// goOn reads "continue in dc in the same way", "work in sc as before": the row
// is worked even in the stitch named, or in that of the row below.
func (x *rowReader) goOn() []*Step {
	start := x.p
	if !x.peek().opens(opensEven) || x.worked || !x.phrase("continue|cont|work|working|continuing|go", "[on|to]", "[working|work]") {
		x.p = start
		return nil
	}
	s := &Step{Op: OpEven}
	if in := x.p; x.accept("in") {
		if id, n := x.stitchAt(0); n > 0 && id != stitch.Slip {
			x.p += n
			s.Stitch = id
		} else {
			x.p = in
		}
	}
	said := x.phrase("in", "[the|this]", "same", "way|manner|fashion") || x.phrase("as", "before|set|established") || x.phrase("like", "this|that|so")
	if !said || !x.end() && !x.peek().isMark(".;,(") || x.peek().is(",") && x.at(1).kind == tNum && x.at(2).isAny("more", "extra", "fewer", "less") {
		x.p = start
		return nil
	}
	s.Span = x.spanFrom(start)
	s.Text = x.src.Slice(s.Span)
	if s.Stitch == stitch.None && x.eachToldNext() {
		s.Op = OpNote // the words behind say how
	}
	return []*Step{s}
}

// maxEachPlace is how many groups of stitches anybody works into one place.
const maxEachPlace = 4

// special makes the steps of a stitch that the pattern defines.
func (x *rowReader) special(start int, sp *Special, tokens int, count Num, counted bool) []*Step {
	x.p += tokens
	x.accept("st", "sts", "stitch", "stitches")
	s := &Step{Op: OpInto, Name: sp.Names[0], Body: sp.Body, special: sp, N: Num{N: 1}}
	if sp.Body == nil {
		s.Op, s.Stitch = OpWork, stitch.Special
		if id := compoundNamed(sp.Names[0]); id != stitch.None {
			s.Stitch = id
		}
		if sp.Takes > 1 {
			if sp.Stitch != stitch.None && decreases(sp.Names) {
				s.Stitch = sp.Stitch
			}
			s.Legs = int(sp.Takes)
		}
	}
	if t := x.peek(); !counted && t.kind == tNum && !t.frac && !x.at(1).isAny("times", "time", "x") {
		if _, sized := x.sizedSpace(0); !sized {
			count, counted = x.number()
			x.accept("sts", "st")
		}
	}
	save := x.p
	places := x.place()
	if len(places) == 0 {
		x.p = save
		s.Target = Target{Which: Next, N: count}
		if !counted {
			s.Target.N = Num{N: 1}
		}
		s.Span = x.spanFrom(start)
		return x.repeated(start, []*Step{s})
	}
	if sp.Body == nil && s.Legs == 0 && len(places) == 1 && (places[0].Which == Next || places[0].Which == First && !x.worked) && places[0].N.N > 1 && x.ts[save].isAny("over") {
		places[0].Which = Next
		s.Legs = int(places[0].N.N) // "cluster over next 3 dc"
	}
	if s.Legs > 0 {
		// the definition says what it takes; a place only says where
		places[0].N = Num{N: 1}
	}
	var out []*Step
	for i, t := range places {
		c := *s
		if counted && count.N > 1 && t.Which == Next && t.N.N == count.N || counted && count.N > maxEachPlace && t.Which == Each {
			count = Num{N: 1} // "24 shells in each sc around" are as many in all
		}
		c.Target = t
		c.N = Num{N: 1}
		if counted {
			c.N = count
		}
		c.Span = t.Span
		if i == 0 {
			c.Span = Span{int(x.ts[start].start), t.Span.End}
		}
		out = append(out, &c)
	}
	return x.repeated(start, out)
}

func compoundNamed(name string) stitch.ID {
	id, _ := stitch.LexiconFor(stitch.US).Find(name)
	if stitch.Of(id).Kind == stitch.Compound {
		return id
	}
	return stitch.None
}

// specialAt finds the longest name of the pattern's own stitches.
func (x *rowReader) specialAt(k int) (*Special, int) {
	if len(x.names) == 0 || x.at(k).kind != tWord {
		return nil, 0
	}
	var best *Special
	n := 0
	var buf [64]byte
	name := buf[:0]
	for j := k; j < k+6; j++ {
		t := x.at(j)
		if t.kind != tWord && !(t.is("-") && j > k && t.glued) && !(t.kind == tNum && t.glued) {
			break
		}
		if t.is("-") {
			continue
		}
		if len(name) > 0 {
			name = append(name, ' ')
		}
		name = append(name, t.text...)
		if sp := x.names[string(name)]; sp != nil {
			if t.isAny("corner", "corners") && x.at(j+1).isAny("sp", "sps", "space", "spaces", "st", "sts", "stitch", "stitches", "loop", "loops", "ch", "chain", "sc", "dc") {
				continue // the corner of a square, though "corner" is a stitch too
			}
			best, n = sp, j-k+1
		}
	}
	if n > 0 && x.at(k+n).is(".") && x.at(k+n).glued && x.at(k+n+1).isAny("in", "into", "on") {
		n++ // "1 B. into next dc."
	}
	return best, n
}

// undefinedGroup reads "shell" or "V-st" where the pattern does not define
// it: what print usually means.
func (x *rowReader) undefinedGroup(start, tokens int, count Num, counted bool) []*Step {
	name := x.peek().text
	sp := usualGroups[name[:1]]
	if sp == nil {
		return nil
	}
	return x.special(start, sp, tokens, count, counted)
}

var usualGroups = map[string]*Special{
	"s": {Names: []string{"shell", "shells", "scale", "scales"}, Takes: 1, Body: []*Step{{Op: OpWork, Stitch: stitch.DC, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: 5}}}}},
	"f": {Names: []string{"fan", "fans"}, Takes: 1, Body: []*Step{{Op: OpWork, Stitch: stitch.DC, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: 7}}}}},
	"v": {Names: []string{"v st", "v sts", "v stitch"}, Takes: 1, Body: []*Step{
		{Op: OpWork, Stitch: stitch.DC, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: 1}}},
		{Op: OpChain, N: Num{N: 1}},
		{Op: OpWork, Stitch: stitch.DC, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: 1}}}}},
}
