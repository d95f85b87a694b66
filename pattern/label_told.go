package pattern

// A row may be told in running sentences, with the words of its label part of the
// sentence: "On the next round we make *2 dc in each stitch*", "In the third row, ch 1,
// turn, ...", "Your second row goes like this: ...".

// toldWork are the verbs behind "we" and "you" that say no more than that stitches are
// worked: the stitches follow them.
var toldWork = newWordSet("work worked make made place placed put crochet crocheted do did go")

// toldSteps are the verbs that tell what is worked, and stay with the row.
var toldSteps = newWordSet("ch chain chained turn increase inc decrease dec double skip miss join slip slst")

// toldAt reads such a label at token i, which begins a sentence. The label is of use only
// where the work follows it.
func (r *reader) toldAt(i int) (label, bool) {
	t := &r.toks[i]
	if !t.isAny("on", "in", "for", "now", "then", "and", "the", "your", "our", "my") || !t.head && !(r.toks[i-1].isMark(".!") && r.capital(i)) {
		return label{}, false
	}
	x := r.scratch(i)
	l := label{strong: true}
	x.accept("and")
	x.accept("now", "then")
	placed := x.phrase("on|in|for")
	owned := x.phrase("the|your|our|my")
	if !placed && !owned {
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

// told reports a label that is part of a sentence.
func (l *label) told() bool { return l.name.End > 0 }

// toldName reads which row is told of: "third row", "next round", "round three".
func (x *rowReader) toldName(l *label, placed bool) bool {
	t := x.peek()
	one := func(n int64, sp Span) {
		l.numbers.First = Num{N: n, Span: sp}
		l.numbers.Last = l.numbers.First
	}
	switch {
	case placed && t.isAny("row", "rnd", "round") && x.at(1).kind == tNum && !x.at(1).frac && !x.at(1).big:
		if isRoundWord(t) {
			l.kind = Round
		}
		one(x.at(1).num, x.at(1).span())
		x.p += 2
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
	if !x.peek().isAny("row", "rnd", "round") {
		return false
	}
	if isRoundWord(x.peek()) {
		l.kind = Round
	}
	x.p++
	return true
}

// toldVerb takes what leads from the name of the row to its work, "we make", "goes like
// this:", and reports whether work follows. Placed says that the row was named as the
// place where it is worked, "On the next round".
func (x *rowReader) toldVerb(placed bool) bool {
	said := false
	switch {
	case placed:
		said = x.accept(",", ":", "-")
		if x.phrase("it|there", "is|are") {
			said = true
		} else if x.phrase("we|you|i", "[now|just|then|again|also|will|have|only]", "[to]") {
			said = true
			if x.peek().in(toldWork) {
				x.p++
			}
		} else if x.peek().in(toldWork) && (x.stepFollows(1) || x.at(1).is("[")) {
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
	return x.workFollows(k) || t.in(toldSteps) || t.isMark("(*[") && x.stepSoon(k) || t.isAny("mr", "magic", "plain", "even")
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
// of that one is a remark.
func (r *reader) toldCounts(l *label) bool {
	if l.next {
		return len(r.numbered) == 0 || r.row != nil && r.row.label.told()
	}
	n := l.numbers.First.N
	switch {
	case n > maxTold || r.numbered[n]:
		return false
	case r.row == nil:
		return n == 1 || len(r.setup) > 0
	case r.row.label.numbers.Last.N == 0:
		return n > 1
	}
	return r.countsOn(*l)
}
