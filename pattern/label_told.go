package pattern

// A row may be told in running sentences, with the words of its label part of the
// sentence: "On the next round we make *2 dc in each stitch*", "In the third row, ch 1,
// turn, ...", "Your second row goes like this: ...", "For the fourth you increase ...".

// toldOpeners are the words that a sentence may open with which names a row it works.
var toldOpeners = newWordSet("on in for now then and so after the your our my next")

// toldWork are the verbs behind "we" and "you" that say no more than that stitches are
// worked: the stitches follow them.
var toldWork = newWordSet("work worked make made place placed put crochet crocheted do did go have get")

// toldSteps are the verbs that tell what is worked, and stay with the row.
var toldSteps = newWordSet("ch chain chained turn increase inc decrease dec double skip miss join slip slst")

// toldAt reads such a label at token i, which begins a sentence, or a clause behind
// "and" or "then". The label is of use only where the work follows it.
//
//	told = { lead } [ "on" | "in" | "for" ] [ "the" | "your" ] ( ordinals [ rowword ] | "next" [ rowword ] | rowword number ) verb .
func (r *reader) toldAt(i int) (label, bool) {
	if t := &r.toks[i]; !t.in(toldOpeners) || !t.head && !r.toldMayStart(i) {
		return label{}, false
	}
	x := r.scratch(i)
	l := label{strong: true}
	x.accept("and", "so")
	after := x.phrase("after", "that|this")
	led := x.accept("now", "then", "next") || after
	x.accept(",")
	placed := x.phrase("on|in|for")
	if owned := x.phrase("the|your|our|my"); !placed && !owned && !led {
		return label{}, false
	}
	l.name.Start = x.p
	if !x.toldName(&l, placed) {
		return label{}, false
	}
	l.name.End = x.p
	if !r.toldCounts(&l) || !x.toldVerb(placed) {
		return label{}, false
	}
	l.end = x.p
	return l, true
}

// toldMayStart reports whether token i begins a sentence, or a clause that goes on behind
// a comma with "and on the next round".
func (r *reader) toldMayStart(i int) bool {
	t, p := &r.toks[i], &r.toks[i-1]
	switch {
	case p.isMark(".!?") || p.is(":"):
		return r.capital(i)
	case p.isMark(",;"):
		return t.isAny("and", "then", "now") || p.is(";")
	}
	return t.is("and") && r.toks[i+1].isAny("on", "for") && r.toks[i+2].is("the")
}

// told reports a label that is part of a sentence.
func (l *label) told() bool { return l.name.End > 0 }

// toldName reads which row is told of: "third row", "next round", "round three", "fourth,
// fifth and sixth times round", "one after that".
func (x *rowReader) toldName(l *label, placed bool) bool {
	t := x.peek()
	one := func(n int64, sp Span) {
		l.numbers.First = Num{N: n, Span: sp}
		l.numbers.Last = l.numbers.First
	}
	switch {
	case t.isAny("row", "rnd", "round") && placed && x.at(1).kind == tNum && !x.at(1).frac && !x.at(1).big:
		if isRoundWord(t) {
			l.kind = Round
		}
		one(x.at(1).num, x.at(1).span())
		x.p += 2
		return true
	case t.isAny("row", "rnd", "round", "one") && x.at(1).is("after") && x.at(2).isAny("that", "this"):
		if isRoundWord(t) {
			l.kind = Round
		}
		l.next = true
		l.numbers.Count = Num{N: 1}
		x.p += 3
		return true
	case t.kind == tOrd:
		one(t.num, t.span())
	case t.isAny("next", "following", "last", "final"):
		l.next = true
		l.numbers.Count = Num{N: 1}
	default:
		return false
	}
	x.p++
	for t.kind == tOrd && x.peek().isAny(",", "and", "to", "through") {
		k := 1
		if x.at(k).isAny("and", "the") {
			k++
		}
		if x.at(k).kind != tOrd || x.at(k).num <= l.numbers.Last.N {
			break
		}
		l.numbers.Last = Num{N: x.at(k).num, Span: x.at(k).span()}
		x.p += k + 1
	}
	if x.phrase("time|times", "round|around") {
		l.kind = Round
		return true
	}
	if x.peek().isAny("row", "rnd", "round", "rows", "rnds", "rounds") {
		if isRoundWord(x.peek()) {
			l.kind = Round
		}
		x.p++
		x.phrase("after", "that")
		return true
	}
	return placed && x.peek().is(",") && t.kind == tOrd || x.verbOfMaker()
}

// verbOfMaker reports that what follows is what the maker does, and no noun: "you put",
// "I have", "we work".
func (x *rowReader) verbOfMaker() bool {
	return x.peek().isAny("you", "we", "i", "u") && (x.at(1).in(toldWork) || x.at(1).in(toldSteps) || x.at(1).isAny("just", "only", "then", "again", "simply", "now"))
}

// toldVerb takes what leads from the name of the row to its work, "we make", "goes like
// this:", and reports whether work follows. Placed says that the row was named as the
// place where it is worked, "On the next round".
func (x *rowReader) toldVerb(placed bool) bool {
	said := placed && x.accept(",", ":", "-")
	switch {
	case x.phrase("it|there", "is|are"):
		said = true
	case x.phrase("we|you|i|u", "[now|just|then|again|also|will|have|only|simply]", "[to]"):
		said = true
		if x.peek().in(toldWork) {
			x.p++
		}
		x.accept("on")
	case placed:
		if x.peek().in(toldWork) && (x.stepFollows(1) || x.at(1).is("[")) {
			x.p++
			said = true
		}
		said = said || x.peek().in(toldSteps) || x.peek().isMark("(*[")
	case x.phrase("is|are|goes|reads|has|gets|runs", "[just|simply|only|all|nothing]", "[but|worked|like|as]", "[this|so|follows]", "[:|,]"):
		said = true
	default:
		said = x.accept(":", "-", ",")
	}
	return said && x.stepFollows(0)
}

// stepFollows reports work at the token k on.
func (x *rowReader) stepFollows(k int) bool {
	t := x.at(k)
	return x.workFollows(k) || t.in(toldSteps) || t.isMark("(*[") && x.stepSoon(k) || t.isAny("mr", "magic", "plain", "even", "just") || t.in(everyWords) && (x.at(k+1).kind == tOrd || x.at(k+1).isAny("st", "stitch", "other")) || t.isAny("an", "a") && x.at(k+1).isAny("increase", "decrease", "plain")
}

// stepSoon reports work within a bracket or a repeat.
func (x *rowReader) stepSoon(k int) bool {
	for n := k + 1; n < k+5; n++ {
		if x.workFollows(n) {
			return true
		}
	}
	return false
}

// toldCounts reports whether a row that is told of can come here: it counts on from the
// row before it, and no line of the page is labelled with its number, since what is told
// of that one is a remark. Where no word for a row stands behind its number, it must be
// the very next one.
func (r *reader) toldCounts(l *label) bool {
	called := false
	for k := l.name.Start; k < l.name.End; k++ {
		called = called || isRowWord(&r.toks[k]) || r.toks[k].is("around")
	}
	if !called && r.row != nil {
		l.kind = r.row.row.Kind
	}
	if l.next {
		return len(r.numbered) == 0 || r.row != nil && r.row.label.told() || len(r.drafts) == 0 && r.row == nil && !r.numbered[1] && !r.numbered[2]
	}
	n := l.numbers.First.N
	switch {
	case n > maxTold || r.numbered[n]:
		return false
	case !called && r.row == nil:
		return false
	case r.row == nil:
		return n == 1 || len(r.setup) > 0
	case r.row.label.numbers.Last.N == 0:
		return n > 1
	}
	return r.countsOn(*l)
}
