package pattern

// persons begin a sentence in which the author talks of more than the work.
var persons = newWordSet("i i'm i've i'd i'll we we've we're he she they my our his her mine ours who whoever nobody anyone everyone somebody")

// talkNever are words that no remark has: whatever is said with one of them is work, or
// not understood.
var talkNever = newWordSet("ch chs chain chains each every next skip sk miss rep repeat turn join rejoin attach reattach work working crochet inc dec increase decrease times twice in into around round across along evenly row rows rnd rnds rounds")

// talk takes a sentence in which nothing is worked: one that follows once the
// yarn is cut, "Bobble optional.", and one of the author's own, "I mean the
// first one you made of it." No figure stands in it, but of how
// large the author's own is, and no word of work.
func (x *rowReader) talk() *Step {
	t := x.peek()
	if n := x.anotherTime(); n > 0 {
		start := x.p
		x.p += n
		return x.noteStep(start)
	}
	if n := x.rowSpokenOf(); n > 0 {
		start := x.p
		x.p += n
		return x.noteStep(start)
	}
	if t.kind != tWord && t.kind != tOrd && !t.word || x.p == 0 || !x.worked || x.depth > 1 || !x.at(-1).isMark(".!?)-;") {
		return nil
	}
	personal := t.in(persons)
	if !personal && (!x.off || x.at(-1).isMark("-;")) {
		return nil
	}
	start := x.p
	if x.rowsIMade() {
		return x.noteStep(start)
	}
	for !x.end() && !x.peek().isMark(".!?;([{<") && !(x.peek().head && x.p > start && x.rowCapital()) {
		t := x.peek()
		if n := x.measureOfMine(start); n > 0 {
			x.p += n
			continue
		}
		if t.kind == tNum && !t.word || !personal && (t.in(talkNever) || t.plainStitch()) || personal && t.isAny("ch", "each", "every", "skip", "rep", "repeat", "inc", "dec") && !(t.is("each") && x.at(-1).is("of") && x.at(1).separator()) {
			x.p = start
			return nil
		}
		x.p++
	}
	if x.p == start {
		return nil
	}
	return x.noteStep(start)
}

// anotherTime is how many tokens tell what the author would do another time, "try 16
// next time", "maybe use 4 rounds next time": none of it is worked in this one.
func (x *rowReader) anotherTime() int {
	if !x.worked || !x.peek().isAny("try", "trying", "maybe", "perhaps", "might", "would", "could", "should", "better", "use", "make", "do", "go") || x.p > 0 && !x.at(-1).isMark(".,;!?-(") {
		return 0
	}
	for k := 1; k < 12 && !x.at(k).isMark(".,;!?)") && x.at(k).kind != tEnd; k++ {
		if x.at(k).isAny("next", "another") && x.at(k+1).is("time") && (x.at(k+2).kind == tEnd || x.at(k+2).isMark(".,;!?)") || x.at(k+2).head) {
			return k + 2
		}
	}
	return 0
}

// rowDoes are verbs for what comes of a row, and not for what is worked in it.
var rowDoes = newWordSet("uses use brings bring takes take ends end finishes finish completes complete lands land lines line closes close reaches reach looks look sits sit meets meet should")

// rowSpokenOf is how many tokens tell what comes of a row when it is done: "Row 65 uses
// up the last of the hat stitches.", "Rnds 9 and 10 should reach the tip of your thumb."
func (x *rowReader) rowSpokenOf() int {
	if x.p == 0 || x.depth > 1 || !x.worked && x.row.Refer == nil || !x.at(-1).isMark(".!?)]") || !isRowWord(x.peek()) || x.at(1).kind != tNum {
		return 0
	}
	k := 2
	for x.at(k).isAny("-", "to", "and", "&", "through") && x.at(k+1).kind == tNum {
		k += 2
	}
	if !x.at(k).in(rowDoes) {
		return 0
	}
	for k++; k < 24; k++ {
		t := x.at(k)
		switch {
		case t.kind == tEnd || t.isMark(".!?"):
			return k
		case t.isAny("ch", "chs", "chain", "skip", "sk", "miss", "rep", "repeat", "inc", "dec", "increase", "decrease", "turn", "join", "work", "worked", "working", "with", "each", "every") || t.plainStitch() || t.isMark("([{*=:"):
			return 0
		}
	}
	return 0
}

// measureOfMine is how many tokens tell how large the author's own came out, "Mine has
// 84 rows", "mine took 3 repeats": a number of no stitches, of what she made.
func (x *rowReader) measureOfMine(start int) int {
	if !x.ts[start].isAny("mine", "ours") || x.p == start || x.peek().kind != tNum {
		return 0
	}
	n := 1
	if x.at(1).isAny("-", "to", "or") && x.at(2).kind == tNum {
		n = 3
	}
	if x.at(n).isAny("more", "full", "whole", "of") {
		n++
	}
	if !isRowWord(x.at(n)) && !x.at(n).isAny("repeats", "reps", "stripes", "times", "cm", "in", "inch", "inches", "mm", "m", "hours", "days", "evenings", "weeks", "balls", "skeins") {
		return 0
	}
	n++
	if !x.at(n).separator() && x.at(n).kind != tEnd && !x.at(n).head && !x.at(n).isAny("long", "wide", "high", "tall", "deep", "square", "across", "in", "all", "so", "and", "of") {
		return 0
	}
	return n
}

// rowsNamed takes the rows that something just read holds for, "for Rounds 6 and
// 7", "on Rows 3-5 only": their numbers count no stitches.
func (x *rowReader) rowsNamed() bool {
	start := x.p
	if !x.accept("for", "on", "in", "at", "after", "from") {
		return false
	}
	x.accept("the", "only")
	if x.peek().kind == tOrd && isRowWord(x.at(1)) {
		x.p += 2
		return true
	}
	if !isRowWord(x.peek()) || x.at(1).kind != tNum {
		x.p = start
		return false
	}
	x.p += 2
	for x.peek().isAny("-", "to", "and", "&", ",", "through", "thru") {
		k := 1
		for x.at(k).isAny("and", "&") || isRowWord(x.at(k)) {
			k++
		}
		if x.at(k).kind != tNum || x.stitchFollows(k+1) {
			break
		}
		x.p += k + 1
	}
	x.accept("only", "onwards", "on")
	return true
}

// matchSide = [ "on the" number noun "that remain" ] ( "complete" | "work" | "finish" ) [ "second side" ] "to match" ... .
//
// The other side of a neck is worked as the one that is told. With the number of
// stitches it is worked on said, that is held against what is left.
func (x *rowReader) matchSide() []*Step {
	t := x.peek()
	if !t.isAny("complete", "completing", "finish", "finishing", "work", "working", "on", "make", "continue", "cont") {
		return nil
	}
	start := x.p
	on := Num{}
	if x.accept("on") {
		x.phrase("the|these|those", "[rem|remaining|last|other]")
		if n := x.peek(); n.kind == tNum && !n.frac {
			on, _ = x.number()
			x.nounDrop()
		} else if !x.accept("rem", "remaining", "other") {
			x.p = start
			return nil
		} else {
			x.nounDrop()
		}
		x.phrase("that|which", "remain|remains|are|is", "[left]")
		x.accept("left", "remaining", "only", ",")
		x.accept("sts", "stitches")
	}
	if !x.accept("complete", "completing", "finish", "finishing", "work", "working", "make", "continue", "cont") {
		x.p = start
		return nil
	}
	for k := 0; k < 6 && !x.peek().isAny("to", "as", "like"); k++ {
		if u := x.peek(); u.kind != tWord && u.kind != tOrd || x.stitchFollows(0) || u.isAny("in", "into", "even", "straight", "each", "row", "rows", "from", "until") {
			x.p = start
			return nil
		}
		x.p++
	}
	if !x.phrase("to", "match|correspond|mirror") {
		x.p = start
		return nil
	}
	x.phrase("[with|to]", "[the]", "[first|other|left|right|opposite|previous]", "[side|half|front|shoulder|one|strap|end|flap|edge]", "[of]", "[the|neck]", "[neck]")
	if o := x.peek(); o.kind == tOrd {
		x.p++
		x.accept("side", "half", "front", "shoulder", "one")
	}
	save := x.p
	x.accept(",")
	if !x.phrase("reversing|reverse|but", "[reversing]", "[all|the]", "[the]", "shaping|shapings|shape") {
		x.p = save
	}
	sp := x.spanFrom(start)
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([)") && !x.peek().isAny("and", "then", "on", "over", "for", "from") {
		x.p = start
		return nil
	}
	if on.N > 0 {
		s := &Step{Op: OpEven, Span: sp, Text: x.src.Slice(sp)}
		if x.row.Total == nil && x.depth == 1 {
			x.row.Total = &Total{Span: on.Span, Text: x.src.Slice(on.Span), Parts: []TotalPart{{N: on, Span: on.Span, Kind: PartStitches}}}
		}
		return []*Step{s}
	}
	x.row.remarks = append(x.row.remarks, sp)
	return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}}
}

// onThese = verb [ "in the round" ] ( "on" | "over" ) "these" number noun [ "only" ] .
//
// It says on how many stitches the work goes on, which are those of this row.
func (x *rowReader) onThese() []*Step {
	if !x.peek().isAny("work", "working", "continue", "continuing", "cont", "go", "going", "proceed", "keep", "finish", "complete", "make", "shape") || !x.worked || x.depth > 1 {
		return nil
	}
	start := x.p
	x.p++
	if x.phrase("[off]", "this|the|that|first|one|your", "[first|second|left|right|one|same]", "shoulder|side|half|leg|thumb|strap|front|neck|fluke|sleeve|part|point|wing|fin|flap|end|claw") {
		x.phrase("as", "follows|below")
		x.accept(",")
	}
	x.phrase("on", "[to]", "[work|working]", "[now|just|only]")
	if x.at(-1).is("on") && x.peek().isAny("these", "those", "this") {
		x.p--
	}
	x.accept("working", "work", "now", "just", "only", "back")
	x.phrase("in", "[the|a]", "round|rounds|rnds|rows|spiral")
	if !x.accept("on", "over", "across", "with") || !x.accept("these", "those") {
		x.p = start
		return nil
	}
	x.accept("first", "last", "rem", "remaining")
	if t := x.peek(); t.kind != tNum || t.frac {
		x.p = start
		return nil
	}
	n, _ := x.number()
	if !x.nounFollows(0) {
		x.p = start
		return nil
	}
	x.nounDrop()
	x.accept(".")
	if x.at(-1).is(".") && !x.peek().isAny("only", "alone") {
		x.p--
	}
	x.accept("only", "alone", "now")
	x.phrase("for|to", "[the]", "[first|left|right]", "[form|make]", "[the]", "shoulder|side|half|leg|thumb|strap|front|neck|fluke|sleeve")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{)") {
		x.p = start
		return nil
	}
	sp := x.spanFrom(start)
	if x.row.Total == nil {
		x.row.Total = &Total{Span: n.Span, Text: x.src.Slice(n.Span), Parts: []TotalPart{{N: n, Span: n.Span, Kind: PartStitches}}}
	}
	return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}}
}

// shapingTold reads what a sentence tells of the increases of a row that is
// already whole, with no number in it: "the increases are shifted here so that
// it stays round". It goes back to where it stood and leaves the end of the
// sentence to the note.
func (x *rowReader) shapingTold() bool {
	if !x.worked || !x.at(-1).isMark(".;-!") && !x.at(-1).isMark(")]}>") {
		return false
	}
	start := x.p
	ok := x.phrase("the|these|your", "increases|decreases|incs|decs|shaping", "are|is|will|get|should") && !x.peek().isAny("worked", "made", "as")
	x.p = start
	for k := 0; ok && k < 40 && x.at(k).kind != tEnd && !x.at(k).isMark(".;([{"); k++ {
		ok = x.at(k).kind != tNum && x.at(k).kind != tOrd && !x.stitchFollows(k)
	}
	return ok
}

// finishedLike reads how a stitch just told of is made at its end: "then finish
// like a sc".
func (x *rowReader) finishedLike() bool {
	start := x.p
	if x.worked && x.phrase("finish|complete|finishing|completing", "[it|off|them|the|this]", "[st|stitch]", "like|as", "[for|with]", "a|an|any|usual|normal", "[usual|normal|regular|ordinary|plain]") {
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
			if x.end() || x.peek().separator() || x.peek().isMark(")]}([{<") {
				return true
			}
		}
	}
	x.p = start
	return false
}

// rowsIMade reads how many rows the author's own came to: "I stopped at 100 rows".
func (x *rowReader) rowsIMade() bool {
	start := x.p
	if x.phrase("i|we", "stopped|finished|ended|made|worked|did", "[up|off]", "[at|after|with|on]", "[about|around|a]", "[total]", "[of]") && x.peek().kind == tNum && isRowWord(x.at(1)) {
		x.p += 2
		x.phrase("in", "all|total")
		if x.end() || x.peek().isMark(".!;)") {
			return true
		}
	}
	x.p = start
	return false
}

// patternGoesOn reads behind rows that are repeated that the maker goes on with
// them for as long as she likes: "Carry on with the eight row repeat until it's as
// long as you like, finishing after a row 4". Where it names the row to end with,
// that must be the one the piece stands at, or what is worked on it would be
// another row than the maker's.
func (x *rowReader) patternGoesOn() bool {
	if x.row.Refer == nil || !x.worked {
		return false
	}
	start := x.p
	fail := func() bool { x.p = start; return false }
	if !x.phrase("carry|continue|keep|go", "[on|going]", "[with|in|repeating]", "the|this|these|your") {
		return fail()
	}
	if x.peek().kind == tNum {
		x.p++
		x.accept("-")
		if !isRowWord(x.peek()) {
			return fail()
		}
		x.p++
		x.accept("-")
	}
	if !x.phrase("pattern|patt", "[repeat]") && !x.phrase("repeat|repeats|rpt") {
		return fail()
	}
	if !x.accept("until", "till", "for") || x.peek().kind == tNum && isRowWord(x.at(1)) {
		return fail()
	}
	for !x.end() && !x.peek().isMark(",.;!([") {
		if t := x.peek(); x.stitchFollows(0) || t.isAny("st", "sts", "stitches", "remain", "times") || isRowWord(t) && !t.is("r") {
			return fail()
		}
		x.p++
	}
	save := x.p
	if x.phrase("[,]", "ending|finishing|end|finish|stopping|stop", "after|with|on", "[a|the]") && isRowWord(x.peek()) && x.at(1).kind == tNum {
		at := x.at(1).num
		if at != int64(x.row.Refer.Last) && at != x.row.Numbers.Last.N || x.row.Refer.List != nil || x.row.Refer.Then != nil {
			return fail()
		}
		x.p += 2
		return true
	}
	x.p = save
	return true
}
