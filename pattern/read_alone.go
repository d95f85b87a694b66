package pattern

import "crochet/tallyturn/pattern/stitch"

// evenRows reads a sentence that is so many rows by itself: "Work 20 rows
// without shaping", "Continue straight for 8 rounds", "Work 3 rows d.c.". It
// gives how many, and the stitch where one is named.
func (x *rowReader) evenRows() (Num, stitch.ID, bool) {
	start := x.p
	fail := func() (Num, stitch.ID, bool) { x.p = start; return Num{}, stitch.None, false }
	if n, ok := x.moreRounds(); ok {
		return n, stitch.None, true
	}
	led := x.ledOn()
	if !x.phrase("work|continue|cont|crochet|knit", "[on|to]", "[working|work]") && !led {
		return fail()
	}
	even := false
	if led {
		x.phrase("do|make|have|get|go", "[on|round]")
		even = x.phrase("leave|keep", "it", "at|like", "that|this")
	}
	even = x.plainly() || even
	x.phrase("for|on", "[another|a]", "[further]")
	x.accept("a", "another")
	x.accept("further")
	if t := x.peek(); t.kind != tNum || t.frac || t.big || t.num < 1 {
		return fail()
	}
	n, _ := x.number()
	x.accept("more", "further", "other", "plain", "straight", "even")
	even = x.at(-1).isAny("plain", "straight", "even") || even
	if !x.peek().isAny("row", "rows", "rnd", "rnds", "round", "rounds") {
		return fail()
	}
	x.p++
	x.accept("more", "further")
	even = x.plainly() || even
	if even = x.nothingElse() || even; led && !even && x.phrase("of", "[the]") && x.peek().kind == tNum && !x.peek().frac {
		x.p++ // "then 3 rounds of 24"
		x.accept("sts", "stitches", "again")
		even = true
	}
	x.accept("in", "of")
	id, k := x.stitchAt(0)
	if k > 0 && id != stitch.Slip {
		x.p += k
		even = true
	} else {
		id = stitch.None
	}
	even = x.plainly() || even
	if even && x.phrase("as", "[for|on|in]", "[the]") && x.pieceName() == "" {
		if n, ok := x.rowName(); !ok && n.N == 0 {
			return fail()
		}
	}
	if led && even && !x.end() && x.phrase("for", "the|a") && x.peek().kind == tWord {
		x.p++ // "for the sides"
	}
	if save := x.p; even && x.phrase("[,]", "[so]", "ending|finishing", "with|on|after", "[a|the]") {
		if _, ok := x.rowName(); !ok { // "so ending with a 6th row"
			x.p = save
		}
	}
	if !even || !x.end() && !x.peek().isMark(".;,(") {
		return fail()
	}
	return n, id, true
}

// moreRounds reads "2 more rnds of 6", "3 more rounds even".
func (x *rowReader) moreRounds() (Num, bool) {
	start := x.p
	t := x.peek()
	if t.kind != tNum || t.frac || t.big || t.num < 1 || t.num > 500 {
		return Num{}, false
	}
	n, _ := x.number()
	more := x.accept("more", "further")
	plain := x.accept("plain", "even", "straight")
	if !x.phrase("rnd|rnds|round|rounds|row|rows") {
		x.p = start
		return Num{}, false
	}
	said := x.plainly() || plain || more && (x.phrase("of", "[the]", "same") || x.phrase("the|like", "[the]", "same|that|this"))
	if more && x.peek().is("of") && x.at(1).kind == tNum && (x.at(2).kind == tEnd || x.at(2).head || x.at(2).isMark(".;")) {
		x.p++
		said = true
	} else if !said || !x.end() && !x.peek().isMark(".;,(") && !x.peek().head {
		x.p = start
		return Num{}, false
	}
	return n, true
}

// ledOnWords open such words, and the rows behind them.
var ledOnWords = newWordSet("then now after next finally leave we i you")

// ledOn takes the words that lead on to rows, "then", "after that I", "Now you", "leave it
// at that".
func (x *rowReader) ledOn() bool {
	start := x.p
	x.accept("and")
	led := x.phrase("after", "that|this|those|which") || x.phrase("then|now|next|finally|lastly", "[just]")
	x.accept(",")
	maker := x.phrase("you|we|i", "[now|then|just|simply|also|only]", "do|work|make|crochet|have|go|get|continue|keep|leave")
	if maker {
		x.p--
	}
	if led || maker || x.phraseAt(0, "leave|keep", "it", "at|like", "that|this") > 0 {
		return true
	}
	x.p = start
	return false
}

// nothingElse takes the words that say that nothing happens in rows, "with nothing
// special", "of nothing", "of just sc".
func (x *rowReader) nothingElse() bool {
	return x.phrase("with|of|doing|just", "nothing", "[special|else|new|more|in]", "[them]") || x.phrase("straight", "up|on|down")
}

// plainly takes "even", "straight", "without shaping".
func (x *rowReader) plainly() bool {
	return x.phrase("even|straight|plain|evenly", "[up|on]") || x.inPattern() || x.phrase("without|with", "[any|no|further]", "[more|further]", "shaping|increasing|increases|decreasing|decreases|change", "[and|or|nor]", "[increasing|increases|decreasing|decreases]")
}

// inPattern takes "in patt", "in the pattern as set".
func (x *rowReader) inPattern() bool {
	if !x.phrase("in|of", "[the]", "pattern|patt|pat", "[st|stitch]") {
		return false
	}
	x.phrase("as", "established|set|before")
	return true
}

// rowOfItsOwn reports whether a sentence that begins at token i, between the
// rows that have labels, makes rows of its own: so many rows worked even, or
// rows repeated after a row that repeats some already.
func (r *reader) rowOfItsOwn(i int, body []token) bool {
	t := &r.toks[i]
	switch {
	case r.edgingAlone(i, body):
		return true
	case r.changesAlone(i):
		return true
	case t.kind == tNum && t.head:
		_, _, ok := r.scratch(i).evenRows()
		return ok
	case t.in(ledOnWords) && (t.head || r.capital(i) || r.unlabelled || r.toks[max(i-1, 0)].is(";")):
		_, _, ok := r.scratch(i).evenRows()
		return ok
	case t.isAny("work", "continue", "cont", "crochet"):
		if _, _, ok := r.scratch(i).evenRows(); ok {
			return true
		}
		if _, ok := r.scratch(i).edgeRows(); ok {
			return true
		}
		return r.worksAgain(i) && (t.head || repeatsRows(body))
	case t.is("do"):
		return r.worksAgain(i) && (t.head || repeatsRows(body))
	case t.isAny("dec", "decr", "decrease", "inc", "incr", "increase", "keep", "at"):
		if _, ok := r.scratch(i).edgeRows(); ok {
			return true
		}
		return t.is("keep") && r.scratch(i).keepsOn() && (t.head && !t.blank || repeatsRows(body))
	case t.isAny("carry", "go", "and", "so", "just"):
		return r.scratch(i).keepsOn() && (t.head && (!t.blank || r.untilTold(i)) || repeatsRows(body))
	case t.isAny("all", "every", "each", "the"):
		return t.head && r.scratch(i).otherRows()
	case t.isAny("rep", "repeat"):
		return r.namesRows(i+1) && (t.head && !t.blank || repeatsRows(body))
	}
	return false
}

// untilTold reports whether the sentence at token i says how long to go on.
func (r *reader) untilTold(i int) bool {
	for k := i; k < min(i+maxUntilWords, len(r.toks)) && !r.toks[k].isMark(".;"); k++ {
		if r.toks[k].isAny("until", "till", "til") {
			return true
		}
	}
	return false
}

// maxUntilWords is how far such a sentence is looked through: a page may have no stop.
const maxUntilWords = 40

// worksAgain reports rows to repeat where no word says "repeat", "Work Rows 6-10 eleven
// more times", "Continue working 2nd and 3rd rows until ...": how often stands behind them.
func (r *reader) worksAgain(i int) bool {
	i++
	for i < len(r.toks)-1 && r.toks[i].isAny("working", "in", "with", "through", "back") {
		i++
	}
	if !r.namesRows(i) {
		return false
	}
	for k := i + 1; k < min(i+10, len(r.toks)) && !r.toks[k].isMark(".;"); k++ {
		if r.toks[k].isAny("more", "again", "times", "until", "till", "twice", "once", "alternately") {
			return true
		}
	}
	return false
}

// namesRows reports whether rows are named at token i: "2nd and 3rd rows",
// "Rows 4-6", "the last 2 rows", "dec row".
func (r *reader) namesRows(i int) bool {
	x := r.scratch(i)
	x.accept(".")
	x.accept("the", "these", "from")
	switch t := x.peek(); {
	case isRowWord(t):
		return x.at(1).kind == tNum
	case t.in(rowKinds):
		return x.rowKindAt(1) == 1 // "Rep Dec row 2 times more"
	case t.isAny("last", "previous"):
		return isRowWord(x.at(1)) || x.at(1).kind == tNum && isRowWord(x.at(2))
	case t.kind == tOrd:
		for k := 1; k < 6; k++ {
			if isRowWord(x.at(k)) {
				return true
			}
			if x.at(k).kind != tOrd && !x.at(k).isAny("and", "&", "to", "-", ",", "the", "through") {
				return false
			}
		}
	}
	return false
}

// repeatsRows reports whether a row names rows to be worked again.
func repeatsRows(body []token) bool {
	for i := range body {
		t := &body[i]
		if i > 0 && !body[i-1].isMark(".)]") || !t.isAny("rep", "repeat", "as", "same", "work", "like") {
			continue
		}
		for k := i + 1; k < min(i+6, len(body)); k++ {
			if isRowWord(&body[k]) {
				return true
			}
			if n := &body[k]; n.kind != tOrd && n.kind != tNum && !n.isAny("as", "for", "the", "in", "of", ".", "last", "and", "to", "-", "like") {
				break
			}
		}
	}
	return false
}

// changesAlone reports rows that go on changing until there are so many stitches, in a
// sentence of their own: "Keep decreasing one st at each end until 12 are left."
func (r *reader) changesAlone(i int) bool {
	if !r.toks[i].isAny("continue", "cont", "keep", "carry", "go") || !r.toks[i].head && !r.capital(i) {
		return false
	}
	return r.scratch(i).changesUntil()
}

// startsAlone is rowOfItsOwn for a token in mid-line.
func (r *reader) startsAlone(i int, body []token) bool {
	t := &r.toks[i]
	if (t.in(edgingVerbs) || t.isAny("with", "using")) && (r.toks[i-1].isMark(".)]") && r.capital(i) || r.toks[i-1].is(";")) && r.edgingAlone(i, body) {
		return true
	}
	return r.toks[i-1].isMark(".)];!") && t.in(ledOnWords) && r.rowOfItsOwn(i, body) || r.toks[i-1].isMark(".)]") && t.isAny("work", "continue", "cont", "rep", "repeat", "dec", "decr", "decrease", "inc", "incr", "increase", "keep", "carry", "go", "at") && r.capital(i) && r.rowOfItsOwn(i, body)
}
