package pattern

// How rows that are repeated differ from those they repeat, in numbers: so many plain
// stitches more between the increases, other loops, seven at the start for four.

// EditPlace is where in a row another number of plain stitches stands.
type EditPlace uint8

// The places an edit can name.
const (
	EditBetween EditPlace = iota // between the increases or decreases, or wherever the number it replaces stands
	EditStart
	EditMiddle
	EditEnd
)

// mostEdits is how many changes one reference tells at the most.
const mostEdits = 4

// referEdits reads "making ch 6 instead of ch 4", "having 5 chs in each loop",
// "with 7 sc at the start instead of 4", "with B", "reversing shaping".
func (x *rowReader) referEdits(r *Refer) {
	for range mostEdits {
		save := x.p
		x.accept(",", ";")
		start := x.p
		if e, ok := x.runEdit(); ok {
			e.Span = x.spanFrom(start)
			r.Edits = append(r.Edits, e)
			continue
		}
		x.p = save
		break
	}
	save := x.p
	x.accept(",", "but", "only")
	x.accept("but", "and")
	start := x.p
	if x.phrase("making|working|having|using|make|work|with", "[a|an]") {
		if x.ts[start].isAny("with", "using") && x.peek().isAny("a", "b", "c", "d", "e", "mc", "cc", "color", "colour", "yarn") || x.ts[start].isAny("with") && !x.clauseCounts() {
			x.toClauseEnd()
			return
		}
		if e, ok := x.chainEdit(); ok {
			e.Span = x.spanFrom(start)
			r.Edits = append(r.Edits, e)
			return
		}
		x.p = start
	}
	if x.phrase("reversing", "[the]", "shaping|shapings") || x.phrase("in", "reverse") {
		return
	}
	x.p = save
}

// editLeads go before the number of plain stitches that a row has instead.
var editLeads = newWordSet("but only except now this time with having work make making do doing crochet there are is that you always have just and put use using adding add then so working")

// runEdit reads another number of plain stitches.
//
//	runEdit = { lead } [ place ] [ "always" ] number [ "more" | "fewer" ] stitch [ "more" ] [ place ] [ "instead of" number ] [ "each time" | "again" ] .
func (x *rowReader) runEdit() (e Edit, ok bool) {
	save := x.p
	fail := func() (Edit, bool) { x.p = save; return Edit{}, false }
	placed := false
	for x.peek().in(editLeads) || x.phraseAt(0, "each|every", "time|row|rnd|round") > 0 && x.at(2).in(editLeads) {
		x.p++
		x.accept("time", "row", "rnd", "round")
	}
	if x.phrase("begin|beginning|start|starting", "[off]", "with") {
		e.At, placed = EditStart, true
	}
	if !placed && x.editPlace(&e) {
		placed = true
		for x.peek().in(editLeads) {
			x.p++
		}
	}
	n := x.peek()
	if n.kind != tNum || n.frac || n.big || n.num < 1 {
		return fail()
	}
	x.p++
	more := x.moreOrFewer()
	x.accept("plain")
	if _, k := x.stitchAt(0); k > 0 {
		x.p += k
	} else if !x.accept("st", "sts", "stitch", "stitches") && !(more != 0 || placed) {
		return fail()
	}
	if more == 0 {
		more = x.moreOrFewer() // "1 sc more between increases"
	}
	if !placed {
		placed = x.editPlace(&e)
	}
	if x.phrase("instead|rather", "of|than") || x.phrase("in", "place", "of") || more == 0 && x.phrase("[and]", "not") {
		was := x.peek()
		if was.kind != tNum || was.frac || was.big || more != 0 {
			return fail()
		}
		x.p++
		if _, k := x.stitchAt(0); k > 0 {
			x.p += k
		} else {
			x.accept("st", "sts", "stitch", "stitches")
		}
		e.Was = was.num
	}
	if !placed {
		placed = x.editPlace(&e)
	}
	again := x.phrase("[again]", "[on|in|at|for]", "each|every", "[new|following]", "time|row|rnd|round") || x.phrase("in", "each|every", "[pattern]", "repeat|section|rep|pattern") || x.accept("again", "throughout")
	if e.More, e.Between = more*n.num, 0; more == 0 {
		e.Between = n.num
	}
	if !placed && e.Was == 0 && !(more != 0 && again) {
		return fail()
	}
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{=<") && !x.peek().isAny("and", "until", "for", "but") && !x.peek().head {
		return fail()
	}
	return e, true
}

// moreOrFewer takes the word that says a number is of stitches added or left out.
func (x *rowReader) moreOrFewer() int64 {
	switch {
	case x.accept("more", "extra", "additional"):
		return 1
	case x.accept("fewer", "less"):
		return -1
	}
	return 0
}

// editPlace takes where the plain stitches stand: "between the increases", "before each
// decrease", "at the start", "in the middle".
func (x *rowReader) editPlace(e *Edit) bool {
	save := x.p
	const shaping = "inc|incs|increase|increases|increasings|dec|decs|decrease|decreases|decreasings|2tog|corner|corners|v"
	if x.phrase("[in]", "between|betw|bet|before|after", "[each|the|every|all]", "[of]", "[the|those]", "[double]", shaping) || x.phrase("before|after", "[each|the|every]") && x.togFollows() {
		return true
	}
	if x.p = save; x.phrase("at|in", "[the]", "start|beginning|beg|begin|front") {
		e.At = EditStart
	} else if x.phrase("in|at|across", "[the]", "middle|center|centre") {
		e.At = EditMiddle
	} else if x.phrase("at", "[the]", "end|finish") {
		e.At = EditEnd
	} else {
		x.p = save
		return false
	}
	x.phrase("of", "[the|each|every]", "row|rnd|round")
	return true
}

// togFollows takes a decrease by its name, "sc2tog".
func (x *rowReader) togFollows() bool {
	_, n := x.stitchAt(0)
	if n == 0 || !x.peek().opens(opensStitch) {
		return false
	}
	save := x.p
	x.p += n
	s := Step{}
	if x.together(&s) && s.Legs > 1 {
		return true
	}
	x.p = save
	return false
}

// clauseCounts reports whether a number stands in the clause ahead.
func (x *rowReader) clauseCounts() bool {
	for k := 0; x.at(k).kind != tEnd && !x.at(k).isMark(",;.([{"); k++ {
		if x.at(k).kind == tNum {
			return true
		}
	}
	return false
}

// chainEdit reads "ch 6 (instead of ch 4)", "ch 6 in place of ch 4",
// "5 chs in each loop", "6 ch loops".
func (x *rowReader) chainEdit() (Edit, bool) {
	e := Edit{}
	if sp, ok := x.sizedSpace(0); ok {
		e.To = x.peek().num
		x.p += sp.tokens
	} else if x.peek().kind == tNum && x.at(1).isAny("ch", "chs", "chain", "chains") {
		e.To = x.peek().num
		x.p += 2
	} else if x.peek().isAny("ch", "chain") {
		x.p++
		x.accept("-")
		if x.peek().kind != tNum {
			return e, false
		}
		e.To = x.peek().num
		x.p++
		x.accept("sp", "sps", "loops", "lps", "loop", "for", "each")
	} else {
		return e, false
	}
	x.accept("(", ",")
	if x.phrase("instead", "of") || x.phrase("in", "place", "of") || x.phrase("rather", "than") {
		x.accept("ch", "chain")
		x.accept("-")
		if x.peek().kind == tNum {
			e.From = x.peek().num
			x.p++
		}
		x.accept("ch", "chs")
		x.accept(")")
		return e, true
	}
	if x.phrase("in|for|to", "[each|every|all]", "[the]", "loop|loops|lp|lps|sp|sps|space") || x.peek().separator() || x.end() {
		return e, true
	}
	return e, false
}

// sameBetween reads a row that only says what is other than in the one before
// it: "With 3 sc between decreases", "Continue in this manner, having 1 more sc between
// incs on each rnd".
func (x *rowReader) sameBetween() []*Step {
	if x.p > 0 || !x.afterRows || x.worked {
		return nil
	}
	start := x.p
	c := rowsChange{}
	for x.changeLead(&c) || x.changeManner(&c) || x.changeRows(&c) || x.phrase("[the]", "same|now", "[idea|thing|row|round|rnd]", "[again]") || x.changeWords(&c) && c.n == 0 {
		x.accept(",")
	}
	r := &Refer{LastRows: 1}
	x.referEdits(r)
	if len(r.Edits) == 0 || r.Edits[0].Between == 0 && r.Edits[0].More == 0 {
		x.p = start
		return nil
	}
	x.referTimes(r)
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{=<") || r.Measure {
		x.p = start
		return nil
	}
	return x.refersTo(r, start)
}
