package pattern

import "crochet/tallyturn/pattern/stitch"

// star = mark { step } [ mark ] [ [ "rep" ... mark ] times ] .
func (x *rowReader) star() []*Step {
	start := x.p
	mark := x.peek().text
	x.p++
	if x.depth > maxDepth {
		return nil
	}
	x.marks = append(x.marks, openMark{mark, -1})
	g := &Step{Op: OpGroup}
	for {
		g.Body = append(g.Body, x.steps(mark)...)
		if x.end() || x.peek().is(mark) || x.atRepeatOf(mark) || !x.peek().isMark(")]}") {
			break
		}
		if len(x.marks) > 1 || x.depth > 1 {
			break
		}
		x.p++ // a bracket that closes nothing
	}
	partial := x.marks[len(x.marks)-1].partial
	x.marks = x.marks[:len(x.marks)-1]
	closed := x.accept(mark)
	if partial >= 0 {
		g.partial = partial + 1
	}
	if len(g.Body) == 0 && !closed {
		return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: mark}}
	}
	if closed {
		if s := x.inEachPlace(start, g); s != nil {
			x.close(mark, s)
			return []*Step{s}
		}
	}
	x.starTimes(g, mark, closed)
	g.Span = x.spanFrom(start)
	x.close(mark, g)
	return []*Step{g}
}

// starTimes reads how often a starred group is worked.
func (x *rowReader) starTimes(g *Step, mark string, closed bool) {
	save := x.p
	for x.peek().isAny(",", ";", ".", "-", "and", ":") {
		x.p++
	}
	if tm, ok := x.repeatThenMark(mark); ok {
		g.Times = x.timesSaidToo(tm)
		x.endings(g)
		return
	}
	n := x.repeatPhrase(mark)
	if n == 0 && x.peek().is("keep") && x.at(1).is("repeating") {
		x.p++
	}
	if n == 0 && x.repeatOn() {
		n = 1
	}
	if n > 0 {
		x.p += n
		if x.at(-1).is(mark) && x.phrase("and|always", "repeat|rep|go|work|continue", "[on]") {
			x.accept("round", "on") // "go back to * and repeat to the end"
		}
		tm, ok := x.times()
		if !ok {
			tm, ok = x.inEveryPlace()
		}
		if ok {
			tm = x.timesSaidToo(tm)
		}
		if !ok {
			// inside a list it means once more; at the end it fills the row
			tm = Times{Kind: More, N: Num{N: 1}}
			if x.fillsRow() {
				tm = Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
			}
		}
		if tm.Kind == Exactly && !tm.sure {
			tm.Kind, tm.star = More, true
		}
		g.Times = tm
		x.endings(g)
		return
	}
	if tm, ok := x.timesOfStar(); ok && !closed {
		g.Times = tm
		x.endings(g)
		return
	}
	x.p = save
	if closed {
		comma := x.accept(",")
		if x.phraseAt(0, ".|;", "[now]", "repeat|rep|work|do|crochet", "this|that|these|it|those") > 0 {
			comma = x.accept(".", ";") // "*sc in next, dc in next*. Do that 9 times altogether and sc in the last."
			x.accept("now")
		}
		from := x.p
		again := x.accept("repeat", "rep", "rpt", "repeated", "work", "do", "crochet")
		if again {
			x.phrase("[this|these|the|that|it|those|all]", "[sts|sequence|pattern]")
		}
		if tm, ok := x.times(); ok && (!again || tm.Kind != Fill) {
			tm.star = tm.star || again && !tm.sure && tm.Kind == Exactly // "*sc, inc* repeat 5 times"
			if x.peek().isAny("from", "between") {
				x.p += x.repeatPhrase(mark) // "*sc, inc*, 12 times from * to *"
			}
			tm.shut = tm.Kind == More && x.worked
			g.Times = tm
			x.endings(g)
			return
		}
		if x.p = from; comma {
			x.p = save
		}
		if x.repeatsIt() && x.groupTimes(g) {
			return // "*sc, inc* repeat 6 times"
		}
		// "*sc, inc*" with no verb fills the row
		g.Times = Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
		if x.fillsRow() {
			x.endings(g)
		}
		return
	}
	g.Times = Times{Kind: Once}
}

// repeatThenMark reads "repeat to end from *", "repeat 5 times from *".
func (x *rowReader) repeatThenMark(mark string) (Times, bool) {
	n := x.repeatBefore(mark)
	if n == 0 {
		return Times{}, false
	}
	end := x.p + n
	x.p++
	tm, ok := x.times()
	if !ok {
		return Times{}, false
	}
	if tm.Kind == Exactly && !tm.sure {
		tm.Kind, tm.star = More, true
	}
	x.p = end
	return tm, true
}

// repeatBefore is the length of "repeat to end from *": the mark after the
// number of times; 0 where there is none.
func (x *rowReader) repeatBefore(mark string) int {
	if !x.peek().isAny("rep", "repeat", "rpt") {
		return 0
	}
	for k := 1; k < 12; k++ {
		t := x.at(k)
		if t.is("from") && x.at(k+1).is(mark) {
			if k == 1 {
				return 0
			}
			return k + 2
		}
		if t.kind == tEnd || t.isMark(",.;*(") {
			return 0
		}
	}
	return 0
}

// repeatsIt reports "repeat 6 times" behind a starred group.
func (x *rowReader) repeatsIt() bool {
	k := 0
	for x.at(k).isAny(",", "-", ";", "and") {
		k++
	}
	return x.at(k).isAny("rep", "repeat", "rpt", "repeated") && x.followsTimes(x.p+k+1)
}

// fillsRow reports whether nothing is left to work after a repeat but what
// ends a row.
func (x *rowReader) fillsRow() bool {
	k := 0
	if x.at(k).isMark(",;-") {
		k++
	}
	if x.at(k).isAny("but", "except") {
		k++ // "rep from *, but end last rep with 2 sc in last st"
	}
	t := x.at(k)
	if t.is(".") && t == x.peek() && !x.at(1).glued && x.depth <= 1 && len(x.marks) == 0 && x.sentenceAt(1) && !x.at(1).isAny("work", "then", "now", "make", "in") {
		return true // "repeat from *. You should have 48 loops."
	}
	if end := x.closer(k); t.isMark("([{") && x.at(k+1).kind == tNum && end > 0 && end < x.p+k+6 && end+1 < len(x.ts) && (x.ts[end+1].is(".") || x.ts[end+1].kind == tEnd) {
		return true // "repeat from * (36 sc). Slip st in next sc."
	}
	if k := x.phraseAt(0, "[,|;|-]", "[but]", "working|making|placing|work|make|place|with", "[the|your]", "last|final"); k > 0 && (x.stitchFollows(k) || x.at(k).kind == tNum && x.stitchFollows(k+1)) {
		return true // "rep from *, working the last sc in top of ch-3"
	}
	save := x.p
	x.p += k
	last := x.workingLast()
	x.p = save
	return last || x.roundEnd() || t.isAny("ending", "end", "ends", "finishing", "omitting")
}

// repeatWords open the words that send the reader back to a mark.
var repeatWords = newWordSet("rep repeat rpt repeating repeated reps from work do")

// repeatPhrase is the length of "rep from *", "rep from * to *", "repeat
// between *s"; 0 where none stands here.
func (x *rowReader) repeatPhrase(mark string) int {
	k := 0
	if x.at(k).isAny("and", "then") {
		k++
	}
	if x.at(k).is("go") && x.at(k+1).is("back") && x.at(k+2).is("to") && x.at(k+3).is(mark) {
		return k + 4
	}
	switch { // "and keep going from * to *", "continue from *"
	case x.at(k).isAny("keep", "carry", "continue", "go") && x.at(k+1).isAny("going", "on", "repeating", "working") && x.at(k+2).is("from") && x.at(k+3).is(mark):
		k += 2
	case x.at(k).isAny("continue", "cont", "continuing") && x.at(k+1).is("from") && x.at(k+2).is(mark):
		k++
	}
	if !x.at(k).in(repeatWords) {
		return 0
	}
	if x.at(k).isAny("work", "do", "repeat", "rep") && x.at(k+1).isAny("this", "that", "it", "these", "all") && x.at(k+2).isAny("from", "between") {
		k++
	} else if x.at(k).isAny("work", "do") && !x.at(k+1).isAny("from", "between", mark) {
		return 0
	}
	if !x.at(k).is("from") {
		k++
	}
	if x.at(k).is(".") && x.at(k).glued {
		k++
	}
	for x.at(k).isAny("from", "between", "bet", "the", "sequence", "pattern", "instructions", "directions", "[", "section", "beginning", "at", "stitches", "sts") && !x.at(k).isAny("beginning") {
		if x.at(k).is("[") && !x.at(k+1).is(mark) {
			break
		}
		k++
	}
	quote := x.at(k).isMark("'\"")
	if quote {
		k++
	}
	if !x.at(k).is(mark) {
		if mark == "*" && x.at(k).isAny("asterisk", "star", "asterisks", "stars") {
			return k + 1
		}
		if mark == "*" && x.at(k).is("**") && len(x.marks) == 0 {
			return k + 1 // "rpt **": the stars on either side
		}
		return 0
	}
	k++
	if x.at(k).isMark("'\"") {
		k++
	}
	if x.at(k).isAny("s") && x.at(k).glued {
		k++
	}
	if x.at(k).isMark("]") {
		k++
	}
	if x.at(k).is(mark) && (x.at(k-2).isAny("between", "bet") || x.at(k-2).isAny("rep", "repeat", "rpt") && x.at(k+1).kind == tNum) {
		k++ // "repeat between * * around", "repeat * * 7 times"
	}
	if x.at(k).isAny("to", "-", "and", "through") && x.at(k+1).isAny(mark, "**", "second", "next") {
		k++
		for x.at(k).isAny("second", "next", "the") {
			k++
		}
		if x.at(k).isAny(mark, "**") {
			k++
		}
	}
	return k
}

// repeatOn reports "repeat to end", with no word of where from: inside an open
// star it can only mean that star.
func (x *rowReader) repeatOn() bool {
	if !x.peek().isAny("rep", "repeat", "rpt", "repeating") || !x.at(1).isAny("to", "until", "till", "across", "around", "along") {
		return false
	}
	for k := 2; ; k++ {
		switch t := x.at(k); {
		case t.isAny("from", "*", "**"):
			return false
		case t.kind == tEnd || t.isMark(",;.)]}"):
			return true
		}
	}
}

func (x *rowReader) atRepeatOf(mark string) bool { return x.repeatPhrase(mark) > 0 }

// closesMark reports whether the words here end the group now open. It also
// notes "**" inside a single star: where the last pass may stop.
func (x *rowReader) closesMark(closer string, out []*Step) bool {
	if len(x.marks) == 0 {
		return false
	}
	top := &x.marks[len(x.marks)-1]
	t := x.peek()
	if t.is("**") && top.text == "*" && closer == "*" && !x.openOutside("**") && !x.repeatedFirst("**") {
		top.partial = len(out)
		x.p++
		return false
	}
	if closer != top.text {
		return false
	}
	if x.repeatOn() || len(out) > 0 && x.closesStar(top.text) {
		return true
	}
	for i := len(x.marks) - 1; i >= 0; i-- {
		if x.repeatBefore(x.marks[i].text) > 0 {
			return true
		}
		if x.repeatPhrase(x.marks[i].text) > 0 && !(t.is("from") && i < len(x.marks)-1) {
			if t.is("from") && !x.at(1).is(x.marks[i].text) {
				continue
			}
			return true
		}
	}
	return false
}

// repeatedFirst reports whether the mark that stands here is the one the next repeat goes
// back to: it opens a group within the group, "*sc in next 4, **inc, sc in next; rep from
// ** once more; rep from * to end", and is not where the last pass ends.
func (x *rowReader) repeatedFirst(mark string) bool {
	for k := 1; x.at(k).kind != tEnd; k++ {
		if t := x.at(k); t.isAny("from", "between") && x.at(k+1).isAny("*", "**") {
			return x.at(k+1).is(mark) && x.at(k-1).in(repeatWords)
		}
	}
	return false
}

func (x *rowReader) openOutside(mark string) bool {
	for _, m := range x.marks {
		if m.text == mark {
			return true
		}
	}
	return false
}

// repeat = ( "rep" | "repeat" ) ( "from" mark | "to end" | "last" number "rows" | rows ) [ times ] .
func (x *rowReader) repeat() []*Step {
	if !x.peek().opens(opensRepeat) {
		return nil
	}
	start := x.p
	if x.peek().isAny("then", "and") {
		return nil
	}
	if x.peek().is("from") && !x.at(1).isAny("*", "**") {
		return nil
	}
	if s := x.goesOn(); s != nil {
		return s
	}
	if !x.peek().isAny("rep", "repeat", "rpt", "repeating", "from", "work") {
		return nil
	}
	// a group that was closed already
	for _, mark := range []string{"*", "**", "\u2020", "\u2021", "#", "+", "\u00a7"} {
		old := x.closedUnder(mark)
		n := x.repeatPhrase(mark)
		if n == 0 {
			continue
		}
		if old == nil && !x.openOutside(mark) {
			// "rep from *" with no star: all since the row began
			x.p += n
			tm, ok := x.times()
			if !ok {
				tm = Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
			}
			if tm.Kind == Exactly && !tm.sure {
				tm.Kind, tm.star = More, true
			}
			g := &Step{Op: OpGroup, Times: tm, Text: "rest", Span: x.spanFrom(start)}
			x.endings(g)
			g.Span = x.spanFrom(start)
			return []*Step{g}
		}
		if old == nil {
			return nil
		}
		toPartial := x.at(n-1).is("**") && mark == "*"
		x.p += n
		tm, ok := x.times()
		if !ok {
			tm = Times{Kind: Exactly, N: Num{N: 1}, sure: true}
			if !toPartial && x.fillsRow() && old.Times.Kind == Once {
				tm = Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
			}
		}
		if tm.Kind == More {
			tm.Kind = Exactly
		}
		tm.sure = true
		g := &Step{Op: OpGroup, Body: old.Body, Times: tm, Span: x.spanFrom(start)}
		if toPartial && old.partial > 0 {
			g.Body = old.Body[:old.partial-1]
		}
		x.endings(g)
		g.Span = x.spanFrom(start)
		return []*Step{g}
	}
	if x.peek().isAny("from", "work") {
		return nil
	}
	if isRowWord(x.at(1)) && x.at(2).kind == tNum {
		return nil
	}
	save := x.p
	x.p++
	x.phrase(".")
	atFirst := x.phrase("from", "[the]", "[very]", "beginning|beg|start", "[of|on]", "[the|this]", "[row|rnd|round]", "[on]")
	x.phrase("[the]", "pattern|patt|sequence|this|these|instructions", "[sts|stitches|pattern]")
	if b, ok := x.bound(); ok {
		g := &Step{Op: OpGroup, Times: Times{Kind: Fill, Bound: b}, Text: "rest", Span: x.spanFrom(start)}
		x.endings(g)
		g.Span = x.spanFrom(start)
		return []*Step{g}
	}
	if x.p == save+1 && x.phrase("[bet|between|in|inside|to]", "(", "[to]", ")") || x.phrase("bet|between|in|from", "[the]", "[to]", "brackets|parentheses|parens|parenthesis|[") {
		if old := x.closedUnder("("); old != nil {
			tm, ok := x.times()
			if !ok {
				tm = Times{Kind: Exactly, N: Num{N: 1}}
			}
			return []*Step{{Op: OpGroup, Body: old.Body, Times: tm, Span: x.spanFrom(start)}}
		}
	}
	if tm, ok := x.times(); ok && tm.Kind != Fill {
		// "sc in next, inc; repeat 5 times"
		if tm.Kind == Exactly && !tm.sure {
			tm.Kind, tm.star = More, true
		}
		g := &Step{Op: OpGroup, Times: tm, Text: "rest", Span: x.spanFrom(start)}
		return []*Step{g}
	}
	if (x.end() || x.peek().isMark(".)=-~:") || x.peek().isMark("([{<") && x.at(1).kind == tNum && x.closer(0) > 0 && !x.followsTimes(x.closer(0)+1)) && x.worked && (x.p == save+1 || x.p == save+2 && x.at(-1).is(".") || atFirst) {
		return []*Step{{Op: OpGroup, Times: Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}, Text: "rest", Span: x.spanFrom(start)}}
	}
	x.p = start
	return nil
}

// starTimesAhead reports a star between what is repeated and a number behind which
// nothing is counted: "(5X, A) * 6 (36)", "2 sc, inc * 6". Where no bracket stands
// before it, it must be the only star of the row, or it may open a repeat.
func (x *rowReader) starTimesAhead() bool {
	bracket := x.at(-1).isMark(")]")
	if !bracket && (x.p == 0 || x.at(-1).kind != tWord || x.at(-1).isAny("from", "and", "then", "to")) {
		return false
	}
	end := x.at(2)
	if end.kind != tEnd && !end.head && !end.isMark(",.;([{<=-)") {
		return false
	}
	for i := 0; !bracket && i < len(x.ts); i++ {
		if i != x.p && (x.ts[i].isAny("*", "**") || x.ts[i].isAny("rep", "repeat", "rpt")) {
			return false
		}
	}
	return true
}

// times = [ "x" ] number [ "more" ] "times" | "twice" | "once" | "around" | "across" | "to last" ... | "(" times ")" .
func (x *rowReader) times() (Times, bool) {
	if !x.peek().opens(opensTimes) {
		return Times{}, false
	}
	if tm, ok := x.sidesTold(); ok {
		return tm, true
	}
	if tm, ok := x.timesUntilMade(); ok {
		return tm, true
	}
	start := x.p
	tm := Times{}
	done := func(k TimesKind) (Times, bool) {
		tm.Kind = k
		tm.Span = x.spanFrom(start)
		return tm, true
	}
	x.phrase("do|work|repeat", "this|these|all|it", "[that]")
	x.accept("for", "a", "total")
	x.phrase("[total]", "of")
	x.phrase("[a]", "another|further")
	if x.at(-1).isAny("another", "further") && x.p > start {
		tm.more = true
	}
	if x.peek().isMark("([") && (x.at(2).isAny("times", "x", "time") && x.at(3).isMark(")]") || x.at(1).is("x") && x.at(3).isMark(")]")) {
		x.p++
		inner, ok := x.times()
		if ok && x.accept(")", "]") {
			tm = inner
			tm.Span = x.spanFrom(start)
			return tm, true
		}
		x.p = start
		return tm, false
	}
	t := x.peek()
	kind := Exactly
	switch {
	case t.isAny("x", "*") && x.at(1).kind == tNum && !x.at(1).frac && !(t.is("*") && x.opensRepeat()) && (t.is("x") || (x.at(1).glued || x.starTimesAhead()) && !x.openOutside("*")) && !x.oneXtwo():
		x.p++
		tm.N, _ = x.number()
		x.accept("times")
		tm.sure = true
	case t.kind == tNum && !t.frac:
		k := 1
		if _, ok := x.sizesAhead(1); ok > 0 {
			k += ok
		}
		more := x.at(k).isAny("more", "additional", "further", "other")
		if more {
			k++
		}
		if !more && x.bareTimes(k) {
			tm.N, _ = x.number()
			tm.sure = true
			return done(Exactly)
		}
		if !x.at(k).isAny("times", "time", "x", "xs", "repeats", "reps") || x.at(k).is("x") && x.at(k+1).kind == tNum && !(x.at(k).glued && !x.at(k+1).glued) {
			x.p = start
			return tm, false
		}
		tm.N, _ = x.number()
		if more {
			x.p++
			tm.more = true
		}
		x.p++
	case t.isAny("once", "twice", "thrice"):
		x.p++
		tm.N = Num{N: map[string]int64{"once": 1, "twice": 2, "thrice": 3}[t.text], Span: t.span()}
	case t.isAny("times") && x.at(1).kind == tNum:
		x.p++
		tm.N, _ = x.number()
	default:
		b, ok := x.bound()
		if !ok || b.Kind == NoBound {
			x.p = start
			return tm, false
		}
		tm.Bound = b
		return done(Fill)
	}
	if x.accept("more", "additional") {
		tm.more = true
	}
	x.accept("over")
	if x.phrase("in", "all|total") || x.phrase("total|altogether") || x.phrase("(", "in", "all|total", ")") {
		tm.sure = true
	}
	x.phrase("evenly|equally", "[spaced]", "[around|across]")
	save := x.p
	if x.accept("around", "across") && (x.end() || x.peek().separator() || x.peek().isMark("([)]{")) {
		// "6 times around": the number holds
	} else {
		x.p = save
	}
	if tm.more {
		kind = More
	}
	return done(kind)
}

// timesSaidToo reads how often a repeat is worked that was told how far it goes: "rep from *
// around, 5 times in all", "repeat from * to end (9 more times)". It is the number that can
// be held against the row.
func (x *rowReader) timesSaidToo(tm Times) Times {
	if tm.Kind != Fill {
		return tm
	}
	save := x.p
	x.accept(",", ";", "-", ":")
	bracket := x.accept("(", "[")
	x.phrase("[so|that's|thats|that|this|which]", "[is|makes|making|being|means|for]", "[it]")
	total := x.phrase("[a]", "total", "of")
	told, ok := x.times()
	total = total || ok && x.at(-1).isAny("repeats", "reps", "repetitions") // counted, and so all of them
	if ok && (told.Kind == Exactly || told.Kind == More) && (!bracket || x.accept(")", "]")) && x.endsClause() && !x.peek().isMark("*({[") {
		told.Span = Span{tm.Span.Start, x.at(-1).span().End}
		told.sure = told.sure || total
		return told
	}
	x.p = save
	return tm
}

// inEveryPlace reads how far a repeat goes where it is told by its places:
// "repeat from * in each loop to end", "in every sc across".
func (x *rowReader) inEveryPlace() (Times, bool) {
	start := x.p
	if x.accept("in", "into", "over", "for", "on", "at") && x.phrase("each|every|all", "[of]", "[the]", "[remaining|rem|other|following|next]") {
		if n, ok := x.nounAt(0); ok && !n.ring {
			x.p += n.tokens
			x.bound()
			sp := x.spanFrom(start)
			return Times{Kind: Fill, Span: sp, Bound: Bound{Span: sp, Kind: ToEnd}}, true
		}
	}
	x.p = start
	return Times{}, false
}

// opensRepeat reports whether a star before a number begins what is repeated further on,
// "(corner made), *3 dc, ch 2, 3 dc in next sp; repeat from *".
func (x *rowReader) opensRepeat() bool {
	if !x.stitchFollows(2) && !x.at(2).isAny("ch", "chain") {
		return false
	}
	for k := 3; k < 80 && x.at(k).kind != tEnd; k++ {
		if x.at(k).is("*") {
			return x.at(k-1).isAny("from", "rep", "repeat", "between", "at", "to")
		}
	}
	return false
}

// oneXtwo reports "1 x 2sc": not a repeat of what came before.
func (x *rowReader) oneXtwo() bool {
	_, n := x.stitchAt(2)
	return n > 0 && x.at(2).glued
}

// sizesAhead is the number of tokens a list of sizes takes, without taking it.
func (x *rowReader) sizesAhead(k int) ([]int64, int) {
	save := x.p
	x.p += k
	before := x.p
	list, ok := x.sizeList(0)
	n := x.p - before
	x.p = save
	if !ok {
		return nil, 0
	}
	return list, n
}

// chainWithin reports a chain that is not the last of an ending: a stitch is told
// behind it, or the round is closed behind it. The one that a row turns with is
// none of the ending.
func (x *rowReader) chainWithin() bool {
	if x.at(1).kind != tNum {
		return false
	}
	switch t := x.at(2); {
	case t.isAny(",", "and"):
		return !x.at(3).isAny("turn", "ch", "fasten", "break", "and") && !(x.at(3).is("then") && x.at(4).is("turn"))
	case t.isMark(".;"):
		return x.row.Kind == Round
	}
	return false
}

// endings reads how the last pass differs: "ending last rep at **", "ending
// with sc in last st", "omitting last ch 2".
func (x *rowReader) endings(g *Step) {
	for {
		save := x.p
		for x.peek().isAny(",", ";", ".", "-", "and", "but", "(") {
			x.p++
		}
		start := x.p
		if x.workingLast() || x.phrase("end|ending|ends|finish|finishing|stop|stopping", "[on|the]", "last|final", "rep|repeat|repetition|time|pass|one", "at|with|by|in|on|after") ||
			x.phrase("end|ending|ends|finish|finishing|stop|stopping", "at|with|by|in|after|working|work|on") ||
			x.phrase("on", "[the]", "last|final", "rep|repeat|repetition", "[end|ending|stop|finish]", "[at|with|by]") ||
			x.endsPlainly() {
			for x.peek().isAny("at", "the", "with", "on", "having", "by") {
				x.p++
			}
			if x.peek().isAny("**") || x.peek().isAny("\u2020", "\u2021", "#") && x.at(1).separator() {
				x.p++
				g.stopAt = true
				continue
			}
			if x.peek().isAny("row", "rnd", "round", "a", "rs", "ws") && !x.nounFollows(1) {
				x.p = save
				return
			}
			if x.phrase("correspond|match", "[the|to]", "[beginning|beg|start]") || x.phrase("to", "correspond|match") {
				g.stopAt = g.stopAt || g.partial > 0
				g.ending = &Step{Op: OpEnding, Span: x.spanFrom(start), Text: "as it began"}
				continue
			}
			e := &Step{Op: OpEnding}
			for !x.end() && !x.peek().isMark(";.)") {
				if x.peek().isAny(",", "and") {
					x.p++
					if x.peek().isAny("turn", "join", "ch", "sl", "ss", "fasten", "break") && len(e.Body) > 0 && !(x.peek().is("ch") && (unplaced(e.Body) || x.chainWithin())) {
						x.p--
						break
					}
					continue
				}
				if x.totalAhead(nil) {
					continue
				}
				before := x.p
				made := x.step(nil)
				if x.p == before {
					break
				}
				if n, list := x.listInPlace(e.Body, made, before); n > 0 {
					e.Body, made = e.Body[:len(e.Body)-n], []*Step{list}
				}
				e.Body = append(e.Body, made...)
			}
			if len(e.Body) == 0 {
				x.p = save
				return
			}
			x.insteadOf()
			x.onLastPass()
			x.remember(e.Body)
			e.Span = x.spanFrom(start)
			g.ending = e
			continue
		}
		if e := x.omitsList(g.Body); e != nil {
			e.Span = x.spanFrom(start)
			g.ending = e
			continue
		}
		if e := x.omitsAtEnd(g.Body); e != nil {
			e.Span = x.spanFrom(start)
			g.ending = e
			continue
		}
		if x.phrase("omit|omitting|leaving|eliminate|eliminating|without", "[out|off|the]", "[the]", "last|final") && !x.leavesUnworked(start) {
			e := &Step{Op: OpEnding, Text: "omit", Target: Target{N: Num{N: 1}}}
			if x.peek().kind == tNum {
				e.Target.N, _ = x.number()
			}
			from := x.p
			if s := x.chain(); s == nil {
				x.p = from
				if n, ok := x.nounAt(0); ok {
					x.p += n.tokens
					e.Target.said = true
				} else if s := x.work(); s == nil {
					x.p = save
					return
				}
			}
			x.onLastPass()
			e.Span = x.spanFrom(start)
			g.ending = e
			continue
		}
		if x.phrase("join|joining|joined|slst|connect|connecting", "[the]", "last|final", "ch|chain|loop") {
			// "joining last ch-5 to first sc": it stands for the last stitch
			x.phrase("-")
			if x.peek().kind == tNum {
				x.p++
			}
			x.accept("loop", "sp", "space", "arch", "lp")
			if x.phrase("to|in|into|with|at", "[the]", "[top|base]", "[of]", "[the]", "first|same|starting|beg|beginning|1st") {
				if n, ok := x.nounAt(0); ok {
					x.p += n.tokens
				}
				g.ending = &Step{Op: OpEnding, Span: x.spanFrom(start), Text: "omit", Target: Target{N: Num{N: 1}, said: true}}
				continue
			}
		}
		if x.phrase("working|making|work|placing|taking|putting|bringing|setting", "[the]", "last|final") || x.lastGoes() {
			// "working last dc in top of turning ch": where the last one lands
			for !x.end() && !x.peek().isMark(",;.)([-{") {
				x.p++
			}
			if x.peek().is("-") && x.peek().glued && !(x.longDash(0) && x.totalLike()) {
				for !x.end() && !x.peek().isMark(",;.)([") {
					x.p++
				}
			}
			g.note = x.spanFrom(start)
			continue
		}
		x.p = save
		return
	}
}

// omitsList reads "omitting the last dc and ch 3", "leaving off dc, ch 3 at end of last rep":
// several steps that the group ends with are left out of its last pass. Nothing is taken
// where the group ends with others.
func (x *rowReader) omitsList(body []*Step) *Step {
	save := x.p
	fail := func() *Step { x.p = save; return nil }
	onLast := x.onLastPass()
	x.accept(",")
	if !x.phrase("omit|omitting|leave|leaving|eliminate|eliminating|without|skip|skipping", "[out|off]") && !x.phrase("end|ending", "[the]", "last|final", "rep|repeat|repetition", "without") {
		return fail()
	}
	last := x.phrase("[the]", "last|final")
	x.accept("the")
	bracket := x.accept("(", "[")
	var items []*Step
	for {
		x.phrase("[the]", "[last|final]")
		if s := x.chain(); len(s) == 1 {
			items = append(items, s[0])
		} else if id, n := x.stitchAt(0); n > 0 {
			x.p += n
			items = append(items, &Step{Op: OpWork, Stitch: id})
		} else {
			return fail()
		}
		if bracket && x.accept(")", "]") {
			break
		}
		more := x.p
		if x.accept(",", "and", "&", "then") {
			x.accept("and", "then")
			x.phrase("[the]", "[last|final]")
			_, n := x.stitchAt(0)
			if n == 0 && !x.peek().isAny("ch", "chain") {
				x.p = more
				break
			}
			continue
		}
		break
	}
	if len(items) < 2 || len(items) >= len(body) || !(x.onLastPass() || last || onLast || x.ts[save].isAny("end", "ending")) || !x.endsClause() {
		return fail()
	}
	for i, want := range items {
		switch got := body[len(body)-len(items)+i]; {
		case got.Op != want.Op:
			return fail()
		case got.Op == OpChain && !sameNum(got.N, want.N), got.Op == OpWork && (got.Stitch != want.Stitch || got.N.N > 1 || got.Target.N.N > 1):
			return fail()
		}
	}
	return &Step{Op: OpEnding, Text: "omit", N: Num{N: int64(len(items))}, Target: Target{N: Num{N: 1}}}
}

// omitsAtEnd reads "omitting 3 tr at end of last repeat": so many of the stitches
// that the group ends with are left out of its last pass. Nothing is taken where
// the group ends with others.
func (x *rowReader) omitsAtEnd(body []*Step) *Step {
	save := x.p
	if len(body) == 0 || !x.phrase("omit|omitting", "[out]", "[the]") {
		x.p = save
		return nil
	}
	e := &Step{Op: OpEnding, Text: "omit", Target: Target{N: Num{N: 1}}}
	last := body[len(body)-1]
	from := x.p
	if s := x.chain(); len(s) == 1 {
		if last.Op != OpChain || !sameNum(s[0].N, last.N) {
			x.p = save
			return nil
		}
	} else {
		x.p = from
		if x.peek().kind == tNum && !x.peek().frac {
			e.Target.N, _ = x.number()
		}
		id, n := x.stitchAt(0)
		if n == 0 || len(e.Target.N.Sizes) > 0 || endsWith(body, id) < e.Target.N.N {
			x.p = save
			return nil
		}
		x.p += n
	}
	if !x.phrase("at|from|on|in", "[the]", "[end]", "[of]", "[the]", "last|final", "rep|repeat|repetition") {
		x.p = save
		return nil
	}
	return e
}

// endsWith is how many of one stitch the last step of a group makes.
func endsWith(body []*Step, id stitch.ID) int64 {
	if s := body[len(body)-1]; s.Op == OpWork && s.Stitch == id && s.Legs > 0 {
		return max(s.N.N, 1)
	} else if s.Op == OpWork && s.Stitch == id {
		return mul(max(s.N.N, 1), max(s.Target.N.N, 1))
	}
	return 0
}

// workingLast takes the "working" of "rep from * to end, working 2 tr in last ch":
// it tells how the last pass ends.
func (x *rowReader) workingLast() bool {
	k := x.phraseAt(0, "working|making|having|work|make|with|only|just", "[only|just]")
	if k == 0 || x.at(k).kind != tNum || !x.stitchFollows(k+1) {
		return false
	}
	said := x.at(0).isAny("working", "making", "having") || x.at(k-1).isAny("only", "just")
	for k += 2; k < 14; k++ {
		switch t := x.at(k); {
		case t.isAny("last", "final", "top", "turning"):
			if !x.at(k-1).isAny("in", "into", "the", "of") || !said && !x.lastPassFrom(k+1) {
				return false
			}
			for !x.at(0).isAny("only", "just") && x.at(0).kind != tNum {
				x.p++
			}
			x.accept("only", "just")
			return true
		case t.kind == tEnd, t.isMark(",;."), t.isAny("each", "every", "next"):
			return false
		}
	}
	return false
}

// onLastPass takes "of the last repeat", "at the end of the last repeat": where
// the stitches stand that end a repeat in another manner.
func (x *rowReader) onLastPass() bool {
	save := x.p
	x.accept(",")
	if x.phrase("of|in|on|at|for|to", "[the]", "[end]", "[of]", "[the]", "last|final", "rep|repeat|repetition|time|pass|one") {
		return true
	}
	x.p = save
	return false
}

// lastPassFrom reports whether the clause names the last pass at the token k
// further on or behind it.
func (x *rowReader) lastPassFrom(k int) bool {
	for ; x.at(k).kind != tEnd && !x.at(k).isMark(".;"); k++ {
		if x.at(k).isAny("last", "final") && x.at(k+1).isAny("rep", "repeat", "repetition", "pass") {
			return true
		}
	}
	return false
}

// insteadOf takes "instead of 3", "in place of 3 sc" behind the stitches that
// stand there.
func (x *rowReader) insteadOf() {
	save := x.p
	if !x.phrase("[,]", "instead", "of") && !x.phrase("[,]", "in", "place", "of") && !x.phrase("[,]", "rather", "than") && !x.phrase("[,]", "not") {
		x.p = save
		return
	}
	x.accept("the", "usual")
	if x.peek().kind != tNum {
		x.p = save
		return
	}
	x.p++
	if _, n := x.stitchAt(0); n > 0 {
		x.p += n
	}
}

// unplaced reports whether the last of some steps is a stitch whose place is
// still to come: "dc, ch 2 and dc in last sp".
func unplaced(steps []*Step) bool {
	last := steps[len(steps)-1]
	return last.Op == OpWork && !last.Target.said
}

// endsPlainly takes the "ending" of "ending ch 5", "ending 1 tr in top of tch".
func (x *rowReader) endsPlainly() bool {
	if !x.peek().isAny("ending", "finishing") {
		return false
	}
	t := x.at(1)
	_, n := x.stitchAt(1)
	if n > 0 || t.isAny("ch", "chain") && x.at(2).kind == tNum || t.isAny("sk", "skip", "miss") && (x.at(2).kind == tNum || x.at(2).isAny("last", "next", "the")) || t.kind == tNum && !t.frac && (x.at(2).isAny("ch", "chain") || x.stitchFollows(2)) {
		x.p++
		return true
	}
	return false
}

// leavesUnworked reports "leaving last sc unworked", which is no omission.
func (x *rowReader) leavesUnworked(start int) bool {
	if !x.ts[start].is("leaving") {
		return false
	}
	for k := 0; k < 6; k++ {
		if x.at(k).isAny("unworked", "free") {
			x.p = start
			return true
		}
	}
	return false
}

// ending reads such words where they do not follow a repeat directly.
func (x *rowReader) ending() []*Step {
	if !x.peek().opens(opensEnding) {
		return nil
	}
	start := x.p
	if x.phrase("end|ending|ends|finish|finishing", "[with]", "[the]", "[last]", "[st|stitch|sc|dc|hdc|tr|htr|one]", "in|on|into") {
		// "sc in each st across, ending in top of tch": where the last one lands
		if x.worked && len(x.place()) > 0 {
			return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
		}
		x.p = start
	}
	if x.worked && x.endsPlainly() { // "dc in each tr, ending 1 dc in top of tch"
		return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	if x.phrase("end|ending|ends|finish|finishing", "[the|each]", "[row|rnd|round|last]", "[rep]", "with|by|in") {
		x.accept("a")
		return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	if x.phrase("omit|omitting", "last", "[ch|chain|sc|dc|st]") {
		x.p = start
	}
	return nil
}

// marker reads an "@" used as a mark; it means nothing to the count.
func (x *rowReader) marker() []*Step {
	start := x.p
	x.p++
	return []*Step{{Op: OpNote, Span: x.spanFrom(start)}}
}
