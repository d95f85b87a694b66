package pattern

import "crochet/tallyturn/pattern/stitch"

// Makers' own notes leave out what goes without saying: the stitch, where all
// of a piece is worked in one ("2 in first, 9, 2 in last"), and the whole of a
// row that only goes on ("plain", "same"). Nothing here is read so unless the
// words around it are as short: a number amid prose is no stitches.

// bareStitches = number [ place | ( "each" | "per" ) rowword | bound ] .
//
// A number that stands by itself between the marks of a row is so many
// stitches, in the stitch that the piece is worked in.
func (x *rowReader) bareStitches() []*Step {
	t := x.peek()
	said := t.word && (x.worked || x.afterRows) && (x.onePlaceAt(1) || x.eachPlaceAt(1) ||
		x.afterRows && !x.worked && x.phraseAt(1, "in|into", "each|every|all") > 0) // "two in each"
	if t.kind != tNum || t.frac || t.big || t.num == 0 || t.word && !said || !x.startsClause() {
		return nil
	}
	start := x.p
	n, ok := x.number()
	if !ok {
		return nil
	}
	for x.peek().isAny("st", "sts", "stitches", "plain", "even", "straight", "normal", "regular") {
		x.p++
	}
	s := &Step{Op: OpWork, Stitch: x.bareStitch()}
	switch t := x.peek(); {
	case t.isAny("ea", "each") && n.N <= 3 && !isRowWord(x.at(1)):
		x.p++
		x.phrase("st|one")
		if !x.endsClause() && !(x.peek().kind == tNum && (x.end1() || x.at(1).head)) && !x.peek().isAny("around", "round", "across") {
			break
		}
		x.phrase("all", "around|round|across")
		x.phrase("around|round|across")
		s.N, s.Target = n, Target{Which: Each, Bound: Bound{Kind: ToEnd}, said: true, Span: x.spanFrom(start)}
		s.Span = x.spanFrom(start)
		x.saidBare(start)
		return []*Step{s}
	case t.isAny("in", "into") && !x.at(1).isAny("all", "total", "the", "blo", "flo", "white", "black"), t.isAny("in", "into") && x.at(1).is("the") && (x.onePlaceAt(0) || x.at(2).isAny("middle", "center", "centre", "ring")):
		if n.N > 9 {
			break // no more go into one stitch than a shell has
		}
		out := x.finish(start, s, n, true)
		if len(out) != 1 || out[0].Op != OpWork || !out[0].Target.said || !x.endsClause() && !(x.peek().isAny("for", "so", "making", "giving", "to") && x.peek().opens(opensTotal) && x.at(1).kind == tNum) {
			break
		}
		x.saidBare(start)
		return out
	case x.phrase("in|into", "[the|a]", "[blo|flo]") && x.at(-1).isAny("blo", "flo"), x.phrase("blo|flo"), x.phrase("[in|into|thru|through]", "[the]", "back|front|both", "loop|loops|lp|lps", "[only]"), x.phrase("each|per|every|this|in", "[each|every|this]", "row|rnd|round|rd"), x.phrase("around|across|round"), true:
		if !x.endsClause() || !x.terseRow() {
			break
		}
		s.N, s.Target = Num{N: 1}, Target{Which: Next, N: n}
		s.Span = x.spanFrom(start)
		x.saidBare(start)
		return []*Step{s}
	}
	x.p = start
	return nil
}

// onePlaceAt reports whether the k-th token leads to one place that is named by how it stands
// to the one before: "in the next", "into the second", "in the st after".
func (x *rowReader) onePlaceAt(k int) bool {
	n := x.phraseAt(k, "in|into", "[the]")
	if n < 0 {
		return false
	}
	switch t := x.at(k + n); {
	case t.kind == tOrd, t.isAny("next", "first", "last", "same", "following", "other"):
		return true
	case t.isAny("one", "st", "stitch"):
		return x.at(k+n+1).isAny("after", "following", "beside", "before")
	}
	return false
}

// eachPlaceAt reports whether the k-th token leads to each of some places: "in each", "into each
// of the first two".
func (x *rowReader) eachPlaceAt(k int) bool {
	if n := x.phraseAt(k, "in|into", "each|every", "[st|stitch|one]"); n > 0 && (x.at(k+n).kind == tEnd || x.at(k+n).isMark(",.;=([)")) {
		return true
	}
	return x.phraseAt(k, "in|into", "each|every|all", "[of]", "[the]", "next|first|following|last|other|others|remaining|rest") > 0
}

// saidBare keeps the first number of a row that was taken for stitches.
func (x *rowReader) saidBare(start int) {
	if x.bareIn == stitch.None {
		x.bareAt, x.bareIn = x.ts[start].span(), x.bareStitch()
	}
}

// tellBare says, once for a pattern, what a bare number was taken for.
func (r *reader) tellBare(x *rowReader) {
	if x.bareIn == stitch.None || r.bareTold {
		return
	}
	r.bareTold = true
	terms := r.pat.Terms
	if terms == stitch.Unknown {
		terms = r.pat.evidence
	}
	r.pat.note(Note, CodeReading, x.bareAt, "a number by itself is read as so many stitches, here %s", x.bareIn.Name(terms))
}

// bareStitch is the stitch that a bare number is worked in: the one that the
// pattern says goes without saying, or that of the work before.
func (x *rowReader) bareStitch() stitch.ID {
	if x.main == stitch.None && x.pat.usual != stitch.None {
		return x.pat.usual
	}
	return x.mainStitch()
}

// startsClause reports whether the words before here are done: a mark, or a
// word that only joins.
func (x *rowReader) startsClause() bool {
	if x.p == 0 {
		return true
	}
	p := x.at(-1)
	return p.in(toldWork) || p.separator() && !p.glued || p.separator() && !p.is("-") || p.isMark("([{*+)]}&") || p.isAny("**", "then", "and", "blo", "flo", "turn", "only", "ch1", "plus") || p.in(makeWords) && (x.onePlaceAt(1) || x.eachPlaceAt(1))
}

// endsClause reports whether nothing more is said of what was just read.
func (x *rowReader) endsClause() bool {
	t := x.peek()
	return t.kind == tEnd || t.head || t.separator() && !(t.is("-") && t.glued) || t.isMark(")]}([{<*+&") || t.isAny("**", "and", "then", "turn", "join", "plus", "rep", "repeat")
}

// terseRow reports whether a row is written in as few words as a bare number
// needs: it stands among increases, decreases, skips and other such numbers, or
// is all that the row says.
func (x *rowReader) terseRow() bool {
	if x.terse == 0 {
		x.terse = -1
		if x.pat.usual != stitch.None || x.fewWords() {
			x.terse = 1
		}
	}
	return x.terse > 0
}

func (x *rowReader) fewWords() bool {
	alone := true
	for i := range x.ts {
		t := &x.ts[i]
		switch {
		case t.kind == tEnd || t.kind == tNum && (i == 0 || x.ts[i-1].kind == tPunct) && !(i+1 < len(x.ts) && x.ts[i+1].isAny("in", "into")) || t.separator() || t.isMark("([{<)]}>*"):
		case t.isAny("inc", "incs", "dec", "decs", "increase", "decrease", "inv", "sk", "skip", "miss", "sl", "slst", "ss"):
			return true
		case t.kind == tWord && x.stitchFollows(i-x.p):
			return true
		case t.kind == tNum && !t.frac && i+1 < len(x.ts) && x.ts[i+1].isAny("in", "into") && i > 0 && (x.ts[i-1].kind == tPunct || x.ts[i-1].isAny("and", "then")):
			return true
		case t.isAny("ch", "chain") || t.kind == tNum && i > 0 && x.ts[i-1].isAny("ch", "chain"):
		case t.isAny("turn", "join", "blo", "flo", "each", "per", "round", "row", "rnd", "rd", "around", "across", "st", "sts", "stitches", "total", "fo", "f", "o", "fasten", "off", "plain", "even", "done", "in", "stuff", "back", "front", "both", "loop", "loops", "lp", "lps", "only", "thru", "through"):
		default:
			alone = false
		}
	}
	return alone && x.afterRows
}

// endsNamed is where words that name both ends of a row stop, from the k-th token on: "at
// each end", "in first and last st"; -1 where there are none.
func (x *rowReader) endsNamed(k int) int {
	k += max(0, x.phraseAt(k, "[at|in|on]", "[the]"))
	if n := x.phraseAt(k, "each|ea|both", "end|ends|side|sides|edge|edges"); n > 0 {
		return k + n
	}
	if n := x.phraseAt(k, "first", "[st|stitch]", "and|&|+|/", "[in]", "[the]", "last", "[st|sts|stitch|stitches]"); n > 0 {
		return k + n
	}
	return -1
}

// restBetween reads what the stitches between the ends get, where no number tells how many
// they are: "inc first + last st, sc between", "2 sc in first and last st, sc in the rest".
// The words for the ends stop at the k-th token, and two in one place are made of a stitch.
func (x *rowReader) restBetween(k int, two stitch.ID) []*Step {
	start, t := x.p, x.peek()
	end := k
	for x.at(k).isAny(",", ";", "and", "with", "work") {
		k++
	}
	if k == end {
		return nil
	}
	k += max(0, x.phraseAt(k, "[the]"))
	lead := x.at(k).isAny("rest", "others")
	if lead {
		k += 1 + max(0, x.phraseAt(k+1, "[of]", "[the]", "[row]", "[in]"))
	}
	id, n := x.stitchAt(k)
	if n == 0 || id == stitch.Slip {
		return nil
	}
	from := k
	k += n
	if !lead {
		m := x.phraseAt(k, "[in]", "[each|all|every]", "[of]", "[the]", "[st|sts|stitches]", "[in]", "[the]", "between|rest|others|other|remaining|middle|centre|center", "[of|them|st|sts|stitches|ones]", "[the]", "[row|them]")
		if m < 0 {
			return nil
		}
		k += m
	}
	if after := x.at(k); after.kind != tEnd && !after.head && !after.separator() && !after.isMark("([{=)") {
		return nil
	}
	shape := Step{Op: OpWork, Stitch: id, N: Num{N: 2}, Target: Target{Which: Next, N: Num{N: 1}}, Span: Span{int(t.start), int(x.at(end - 1).end)}}
	keep := int64(1)
	switch {
	case t.isAny("dec", "decrease"):
		shape.N, shape.Legs, keep = Num{N: 1}, 2, 2
	case t.kind == tNum:
		shape.Stitch = two
	}
	middle := Step{Op: OpWork, Stitch: id, N: Num{N: 1}, Span: Span{int(x.at(from).start), int(x.at(k - 1).end)}}
	middle.Target = Target{Which: Each, said: true, Span: middle.Span, Bound: Bound{Kind: ToLast, N: Num{N: keep}}}
	x.p = start + k
	last := shape
	last.Span = middle.Span
	x.worked, x.bounded = true, true
	return []*Step{&shape, &middle, &last}
}

// betweenEnds = ( "inc" | "dec" ) [ "at" ] ( "each" | "both" ) ( "end" | "side" ) "," [ stitch "in" "the" ] number [ stitch ] "between" .
//
// It is the one row in which a change at both ends has its middle counted out.
func (x *rowReader) betweenEnds() []*Step {
	start := x.p
	t := x.peek()
	two := t.kind == tNum && t.num == 2 && !t.frac && x.at(1).plainStitch() // "2 sc in first and last st"
	if !two && !t.isAny("inc", "dec", "increase", "decrease") {
		return nil
	}
	at := 1
	made, of := x.stitchAt(1)
	if two {
		at += of
	}
	end := x.endsNamed(at)
	if end < 0 {
		return nil
	}
	if s := x.restBetween(end, made); s != nil {
		return s
	}
	if two {
		return nil
	}
	k := end
	for x.at(k).isAny(",", ";", "and", "with", "work") {
		k++
	}
	id, n := x.stitchAt(k)
	k += n
	k += max(0, x.phraseAt(k, "[in]", "[each]", "[of]", "[the]"))
	num := x.at(k)
	if num.kind != tNum || num.frac || num.num == 0 {
		return nil
	}
	k++
	if n == 0 {
		id, n = x.stitchAt(k)
		k += n
	}
	k += max(0, x.phraseAt(k, "[st|sts|stitches]", "[in]"))
	if !x.at(k).isAny("between", "middle", "centre", "center") {
		return nil
	}
	if id == stitch.None {
		id = x.bareStitch()
	}
	shape := Step{Op: OpWork, Stitch: id, N: Num{N: 2}, Target: Target{Which: Next, N: Num{N: 1}}, Span: Span{int(t.start), int(x.at(end - 1).end)}}
	if t.isAny("dec", "decrease") {
		shape.N, shape.Legs = Num{N: 1}, 2
	}
	middle := Step{Op: OpWork, Stitch: id, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: num.num, Span: num.span()}}, Span: num.span()}
	x.p += k + 1
	last := shape
	last.Span = x.spanFrom(start)
	last.Span.Start = middle.Span.End
	return []*Step{&shape, &middle, &last}
}

// inStitch reads "sc: (8, dec) x6": the stitch that the numbers of the row are
// worked in stands before them.
func (x *rowReader) inStitch() []*Step {
	if x.p > 0 || x.worked || x.depth > 1 || !x.peek().plainStitch() && x.peek().kind != tWord {
		return nil
	}
	id, n := x.stitchAt(0)
	if n == 0 || id == stitch.Slip || stitch.Of(id).Kind != stitch.Basic || !x.at(n).is(":") || x.at(n+1).kind == tEnd || x.at(n+1).kind == tNum && !x.terseRow() {
		return nil
	}
	start := x.p
	x.p += n + 1
	x.main = id
	return x.noteFrom(start)
}

// plainRow reads a row that says only that it goes on: "plain", "even",
// "same", "no change", "one plain round of sc".
func (x *rowReader) plainRow() []*Step {
	if x.worked || x.depth > 1 || !x.startsClause() {
		return nil
	}
	start := x.p
	s := &Step{Op: OpEven}
	x.phrase("all|just|work|do|crochet|knit")
	x.phrase("[a|an|one|another]", "[1]")
	if n := x.peek(); n.kind == tNum && !n.frac && n.num > 1 && isRowWord(x.at(1)) && x.row.Numbers.Last.N > x.row.Numbers.First.N {
		x.p++ // "work 6 rnds straight": that they are 6 is held against the label
	}
	if id, n := x.stitchAt(0); n > 0 && x.p == start && id != stitch.Slip && stitch.Of(id).Kind == stitch.Basic && x.at(n).isAny("plain", "straight", "even") && (x.at(n+1).kind == tEnd || x.at(n+1).isMark(".,;([=-")) {
		x.p += n + 1 // "d.c. plain"
		s.Stitch = id
		s.Span = x.spanFrom(start)
		s.Text = x.src.Slice(s.Span)
		return []*Step{s}
	}
	rows := x.phrase("more|further|plain", "rounds|rows|rnds|rds|round|row|rnd|rd") || x.phrase("rounds|rows|rnds|rds|round|row|rnd|rd")
	same := false
	switch {
	case rows && x.phrase("[of|in]") && x.evenIn(s):
	case x.phrase("plain|pl|even|straight", "[round|row|rnd|rd]", "[of|in]"):
		if id, n := x.stitchAt(0); n > 0 && id != stitch.Slip {
			x.p += n
			s.Stitch = id
		}
	case x.phrase("no", "change|changes|shaping|increases|decreases|inc|dec|incs|decs", "[or|and]", "[inc|dec|increases|decreases|incs|decs]"), x.phrase("without|with", "[any|no|further]", "[more|further]", "shaping|change|changes|increasing|increases|decreasing|decreases|inc|dec|incs|decs", "[or|and]", "[inc|dec|increases|decreases|increasing|decreasing]"):
	case x.phrase("same|ditto|likewise|idem"), x.phrase("as", "above|before"), x.phrase("the", "same"):
		same = true
		after := x.p
		if x.p = start; start == 0 {
			if s := x.sameBetween(); s != nil {
				return s // "As before, 3 sc between the increases"
			}
		}
		x.p = after
		x.phrase("again|here|thing|as|for", "[before|above|all]")
	case x.phrase("around|across|round"):
	default:
		x.p = start
		return nil
	}
	x.phrase("around|across|throughout|round|all", "[around|round|across]")
	return x.goesEven(s, start, same)
}

// goesEven ends a row that says only that it goes on, which is the one before it again
// where it is the same as that.
func (x *rowReader) goesEven(s *Step, start int, same bool) []*Step {
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{<)]") && !(x.peek().kind == tNum && x.end1()) && !x.peek().isAny("turn", "join", "and") {
		x.p = start
		return nil
	}
	if same && (!x.afterShaping || x.countsOtherwise()) {
		if !x.afterRows {
			x.p = start
			return nil
		}
		sp := x.spanFrom(start)
		x.row.Refer = &Refer{LastRows: 1, Span: sp}
		x.worked, x.bounded = true, true
		return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp), implicit: true}}
	}
	s.Span = x.spanFrom(start)
	s.Text = x.src.Slice(s.Span)
	return []*Step{s}
}

// countsOtherwise reports whether a total follows that is not that of the row
// before: "same = 25" behind a row of 23 shapes as that one did, and is not even.
func (x *rowReader) countsOtherwise() bool {
	k := 0
	for k < 2 && x.at(k).isMark("([{=-:,.") {
		k++
	}
	n := x.at(k)
	return k > 0 && x.totalBefore > 0 && n.kind == tNum && !n.frac && n.num != x.totalBefore && (x.at(k+1).kind == tEnd || x.at(k+1).isMark(")]}.") || x.nounFollows(k+1))
}

// evenIn reads the stitch of "one round of sc", where nothing more is said.
func (x *rowReader) evenIn(s *Step) bool {
	id, n := x.stitchAt(0)
	if n == 0 || id == stitch.Slip || stitch.Of(id).Kind != stitch.Basic || !x.at(n).separator() && x.at(n).kind != tEnd && !x.at(n).isMark("([{<") && !x.at(n).isAny("around", "even", "plain", "straight") {
		return false
	}
	x.p += n
	x.accept("even", "plain", "straight")
	s.Stitch = id
	return true
}

// aside reads a remark that a maker puts among the rows of a toy: where the
// eyes go, what the stitches left are for.
func (x *rowReader) aside() []*Step {
	start := x.p
	switch {
	case x.phrase("draw|pull|sew|gather|catch|drawing|pulling", "[up]", "[all]", "[the|these]", "remaining|rem|last|final") && x.peek().kind == tNum && x.peek().num > 3 && x.nounFollows(1):
		x.p++ // the number is held against the stitches there are
		x.nounDrop()
		if !x.phrase("together|tog|up|closed|shut|tight|tightly") {
			x.p = start
			return nil
		}
	case x.phrase("fix|position|secure|place|put|insert|attach|add|sew|glue|fit|mount|push", "[on|in|down]", "[the|your|both|a]", "[two|2|pair|first]", "[of]", "[the|safety|toy|plastic|glass|black|bead|button]", "[safety|toy]", "eyes|eye|nose|beak|snout|whiskers|cheeks|buttons|squeaker|rattle|bell|joint|joints"):
		for !x.end() && !x.peek().isMark(".!;(") && !x.peek().blank {
			x.p++ // over the ends of lines: "between Rnds 11 and 12, leaving 7 sts between them"
		}
	case x.phrase("[safety|the]", "eyes|eye|nose|mouth|cheeks|eyebrows|whiskers|buttons", "[go|goes|are|at|in|on|between|here|placed|:]") && !x.hasStitchSoon():
	case x.phrase("the|these", "[last|first]"):
		if x.peek().kind == tNum {
			x.p++
		}
		if !x.phrase("skipped|unworked|remaining|free|missed|other", "st|sts|stitch|stitches|loops|chs", "make|makes|form|forms|are|will|become|becomes|is|give|leave|stay") {
			x.p = start
			return nil
		}
	default:
		x.p = start
		return nil
	}
	for !x.end() && !x.peek().isMark(".;=") && !(x.peek().head && x.p > start) {
		x.p++
	}
	return x.noteFrom(start)
}

// shapes reports whether steps increase or decrease: a row said to be the same
// as theirs has the same number of stitches.
func shapes(steps []*Step) bool {
	for _, s := range steps {
		switch {
		case s.Op == OpDelta, s.shapes(), s.Op == OpWork && s.Target.Which == InRing, s.Op == OpRing, s.Op == OpSkip, s.Op == OpInto:
			return true
		case s.Op == OpGroup && shapes(s.Body):
			return true
		}
	}
	return false
}

// lonePass reports whether a round is nothing but one bracket that shapes,
// "rd 3. (1, inc)  18": notes leave it unsaid that it goes all round.
func (x *rowReader) lonePass(s *Step) bool {
	if s.Op != OpGroup || s.Times.Kind != Once || s.special != nil || s.ending != nil || x.row.Kind != Round || !x.afterRows || len(s.Body) < 2 || !shapes(s.Body) {
		return false
	}
	for _, b := range s.Body {
		if b.Op != OpWork || b.Target.Which != Next || !b.bare && b.Target.said && x.row.Total == nil {
			return false
		}
	}
	return true
}

// fillAlone makes a row of one bare stitch, "Rnd 20: sc (64)", go all along it:
// nobody writes a row for a single stitch and leaves its place out.
func (x *rowReader) fillAlone(steps []*Step) {
	var only *Step
	for _, s := range steps {
		switch s.Op {
		case OpNote, OpTurn, OpStay, OpColour, OpFasten, OpJoin:
		case OpChain:
			if only != nil || s.N.N > 4 {
				return
			}
		default:
			if only != nil {
				return
			}
			only = s
		}
	}
	if only != nil && x.lonePass(only) {
		only.Times = Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
		return
	}
	if only == nil || only.Op != OpWork || only.Target.said || only.Target.Which != Next || only.Target.N.N != 1 || !only.Target.N.Span.Empty() || only.N.N > 2 || !only.N.Span.Empty() || only.Stitch == stitch.Slip || !x.afterRows {
		return
	}
	if stitch.Of(only.Stitch).Kind != stitch.Basic {
		return
	}
	total := int64(0)
	if t := x.row.Total; t != nil && len(t.Parts) == 1 {
		total = t.Parts[0].N.N
	}
	if total == 1 || only.Legs > 0 && total == 0 {
		return // the last stitch of a point
	}
	if only.Legs > 0 {
		body := *only
		*only = Step{Op: OpGroup, Body: []*Step{&body}, Times: Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}, Span: body.Span}
		return
	}
	only.Target = Target{Which: Each, Bound: Bound{Kind: ToEnd}}
}

// usualStitch is the stitch that a pattern says goes without saying, "all sc
// unless said", "numbers on their own are sc"; none where it says nothing.
func (r *reader) usualStitch() stitch.ID {
	for _, ln := range r.lines {
		if id := r.legend(ln); id != stitch.None {
			return id
		}
	}
	return stitch.None
}

// wholeIn reports "all dc (uk), spiral", "all sc." in a line of notes, where
// nothing but a mark stands behind the stitch.
func (r *reader) wholeIn(i int, ln line) bool {
	if i >= ln.end {
		return false
	}
	x := r.scratch(i)
	id, n := x.stitchAt(0)
	return n > 0 && stitch.Of(id).Kind == stitch.Basic && id != stitch.Slip && (i+n >= ln.end || x.at(n).isMark(",.;(") || x.at(n).isAny("unless", "throughout"))
}

// legend reads the stitch out of a line that says which one goes without
// saying.
func (r *reader) legend(ln line) stitch.ID {
	if ln.end-ln.start > 30 {
		return stitch.None
	}
	says := false
	for i := ln.start; i < ln.end && !says; i++ {
		t := &r.toks[i]
		switch {
		case t.is("unless"), t.isAny("default", "defaults"), t.isAny("bare", "plain") && i+1 < ln.end && r.toks[i+1].isAny("number", "numbers"):
			says = true
		case t.is("all") && r.wholeIn(i+1, ln):
			says = true
		case t.isAny("number", "numbers", "figures") && i+1 < ln.end:
			for k := i + 1; k < min(i+6, ln.end); k++ {
				says = says || r.toks[k].isAny("own", "alone", "themselves", "itself", "only", "mean", "means", "=")
			}
		}
	}
	if !says {
		return stitch.None
	}
	for i := ln.start; i < ln.end; i++ {
		if id, n := r.scratch(i).stitchAt(0); n > 0 && id != stitch.Slip && stitch.Of(id).Kind == stitch.Basic && !(i > ln.start && r.toks[i-1].kind == tNum) {
			return id
		}
	}
	return stitch.None
}
