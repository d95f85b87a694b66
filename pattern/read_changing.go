package pattern

// rowsChange is what rows are told by that say only how each differs from the one
// before it: "four more rounds in the same way, each with 6 more sts, until you have 42".
type rowsChange struct {
	sign   int64 // 1 for more stitches, -1 for fewer; 0 where the rows before have to show it
	n      int64 // stitches that one row changes by; 0 where it is not said
	perRow bool  // n is of the whole row, wherever the change lies
	places int64 // ends of the row that each have it: "1 st at each end"
	evenly bool
	goesOn bool // as the rows before do
	every  bool // in every row
	rows   int64
	until  Num
}

// rowsChanging reads rows that are told by how each differs from the one before.
//
//	rowsChanging = { lead | number "more" rows | manner | change | "each with" number "more" | edges | "every row" | "until" number } .
//
// Where the increases lie is for the maker to see in the rows before; that they are so
// many is proven.
func (x *rowReader) rowsChanging() []*Step {
	if x.worked || !x.afterRows || x.depth > 1 || x.row.Refer != nil || !x.peek().opens(opensChange) {
		return nil
	}
	start := x.p
	c, ok := x.rowsChange()
	if !ok || x.rowsToTell() < 2 && !(x.row.noLabel && c.until.N > 0) {
		x.p = start
		return nil
	}
	s := &Step{Op: OpDelta, Stitch: x.main, Span: x.spanFrom(start), evenly: c.evenly, goesOn: c.n == 0, N: Num{N: c.sign}}
	if c.n > 0 {
		if !c.perRow {
			c.n *= max(c.places, 1)
		}
		s.N.N *= c.n
	}
	if x.row.noLabel {
		x.row.until = c.until
	} else {
		x.stateUntil(c.until)
	}
	x.bounded = true
	return []*Step{s}
}

// rowsChange reads the words of rowsChanging to the end of their sentence.
func (x *rowReader) rowsChange() (rowsChange, bool) {
	c := rowsChange{}
	for {
		save := x.p
		if save > 0 {
			x.accept(",", ";")
			x.accept("and", "but", "so", "with", "by")
		}
		if x.end() || !(x.changeLead(&c) || x.changeRows(&c) || x.changeManner(&c) || x.changeUntil(&c) || x.changeThan(&c) || x.changeWords(&c) || x.changePlace(&c) || x.changeEvery(&c) || x.changeBetween(&c)) {
			x.p = save
			break
		}
	}
	if !x.end() && !x.peek().isMark(".;:!=-([{<,") && !x.peek().head || x.peek().is(",") && x.at(1).in(editLeads) {
		return c, false
	}
	switch {
	case c.sign == 0:
		return c, c.goesOn && c.until.N > 0
	case c.n == 0:
		return c, c.goesOn || c.until.N > 0
	}
	return c, c.goesOn || c.every || c.until.N > 0
}

// changesUntil reports rows that change until there are so many stitches, which need no
// label to be counted.
func (x *rowReader) changesUntil() bool {
	c, ok := x.rowsChange()
	return ok && c.until.N > 0 && c.sign != 0
}

// changeLead takes "continue to", "keep on", "carry on with".
func (x *rowReader) changeLead(c *rowsChange) bool {
	save := x.p
	x.accept("now", "then", "just", "simply")
	if !x.phrase("continue|cont|continuing|keep|keeping|carry|carrying|go|proceed|repeat|rep", "[on]", "[going|to|with|working]", "[working|work|making]") || x.ts[save].isAny("repeat", "rep") && !x.peek().isAny("in", "this", "like") {
		x.p = save
		return false
	}
	c.goesOn = true
	return true
}

// changeRows takes "four more rounds", "work 6 rows", "over the next 4 rows".
func (x *rowReader) changeRows(c *rowsChange) bool {
	save := x.p
	x.phrase("work|do|make|crochet|for|over|on|in", "[each|all]", "[of]", "[the]", "[next|following|foll|another]")
	if t := x.peek(); t.kind == tNum && !t.frac && !t.big {
		n := t.num
		x.p++
		x.accept("more", "further", "other", "additional", "such")
		if x.phrase("rows|rounds|rnds|rds", "[more]") {
			c.rows = n
			return true
		}
	}
	x.p = save
	return false
}

// changeManner takes "in the same way", "like this", "as before", "at this rate".
func (x *rowReader) changeManner(c *rowsChange) bool {
	save := x.p
	x.accept("just", "exactly", "much", "right") // "just like that"
	ok := x.phrase("in|at|after|following", "[exactly|much|just]", "this|that|the|a|same|similar", "[same|similar|established]", "manner|way|fashion|pattern|patt|rate|order|sequence") ||
		x.phrase("like|as", "this|that|before|above|established|set|so") || x.phrase("as", "you|we", "[have|are|were|did|began]", "[been|begun|done|doing|started|going]") ||
		x.phrase("the", "same", "way") || x.phrase("similarly|likewise") || x.phrase("[the]", "same", "[thing]", "again")
	if !ok || x.stitchFollows(0) {
		x.p = save
		return false
	}
	c.goesOn = true
	return true
}

// changeWord is what a word says of the number of stitches: 1 for more, -1 for fewer.
func changeWord(t *token) int64 {
	switch {
	case t.isAny("inc", "incs", "incr", "increase", "increases", "increasing", "add", "adding", "gain", "gaining", "gains", "grow", "growing", "grows"):
		return 1
	case t.isAny("dec", "decs", "decr", "decrease", "decreases", "decreasing", "lose", "loses", "losing", "drop", "dropping", "drops", "reduce", "reducing", "shrinks"):
		return -1
	}
	return 0
}

// changeWords takes "increasing 6 sts", "dec 1", "the increases", "the decrease of Row 5".
func (x *rowReader) changeWords(c *rowsChange) bool {
	save := x.p
	again := x.phrase("rep|repeat|repeating|make|making|work|working|do|doing")
	x.accept("the", "these", "those", "same")
	x.accept("same")
	sign := changeWord(x.peek())
	if sign == 0 || c.sign != 0 {
		x.p = save
		return false
	}
	x.p++
	x.phrase(".")
	x.accept("by", "a", "an")
	if t := x.peek(); t.kind == tNum && !t.frac && !t.big {
		c.n = t.num
		x.p++
		x.nounDrop()
		x.accept("more")
	} else if x.peek().kind == tOrd || x.stitchFollows(0) && !x.nounFollows(0) {
		x.p = save
		return false
	}
	if from := x.p; x.accept("of", "from", "as", "in") {
		x.accept("in", "for")
		x.accept("the")
		if _, ok := x.rowName(); ok && again {
			c.goesOn = true
		} else {
			x.p = from
		}
	}
	c.sign = sign
	return true
}

// changeThan takes "each with 6 more sts than the one before", "2 more dc on each row".
func (x *rowReader) changeThan(c *rowsChange) bool {
	save := x.p
	x.phrase("so|thus", "[that]")
	each := x.phrase("each|every", "[one|row|round|rnd|time]", "[of]", "[them|these]")
	x.phrase("there|you|it|they", "[will]", "[is|are|be|has|have|get|gets|gain|lose]")
	sign := changeWord(x.peek())
	if sign != 0 && !each {
		x.p = save
		return false
	}
	if sign != 0 {
		x.p++
		x.accept("by")
	} else {
		x.accept("with", "having", "has", "have", "gets", "of", "containing", "working", "gives")
	}
	t := x.peek()
	if t.kind != tNum || t.frac || t.big || c.n > 0 {
		x.p = save
		return false
	}
	x.p++
	extra := x.accept("extra", "additional")
	x.nounDrop()
	switch {
	case sign != 0:
	case extra:
		sign = 1 // "with 2 extra dc each row"
	case x.accept("more", "extra", "additional", "bigger", "larger", "wider", "longer"):
		sign = 1
	case x.accept("fewer", "less", "smaller", "narrower", "shorter"):
		sign = -1
	default:
		x.p = save
		return false
	}
	x.nounDrop()
	behind := x.p
	if placed := (rowsChange{sign: sign, n: t.num}); !each && c.goesOn && x.changePlace(&placed) && x.changeEvery(&placed) {
		c.sign, c.n, c.every, c.perRow, c.places = sign, t.num, true, placed.perRow, placed.places // "3 more dc on each side in every row"
		return true
	}
	x.p = behind
	if x.phrase("than", "[in|on|for]", "[the]", "[one|row|round|rnd|last|previous|preceding]", "[one|row|round|rnd]", "[before|last|previous|below|it|preceding]") || x.phrase("each|every|per|on|in|at", "[each|every]", "[row|round|rnd|time|one]") {
		each = true
	}
	if !each || x.peek().isAny("between", "betw", "before", "after", "in", "at") {
		x.p = save
		return false
	}
	c.sign, c.n, c.every, c.perRow = sign, t.num, true, true
	return true
}

// changePlace takes where the change lies: "evenly", "at each end", "in the same place".
func (x *rowReader) changePlace(c *rowsChange) bool {
	save := x.p
	if c.sign == 0 {
		return false
	}
	if x.phrase("[spaced]", "evenly|equally", "[spaced|around|across]", "[around|across]") {
		c.evenly = true
		return true
	}
	if x.phrase("in|at|on", "[exactly]", "the|these", "same|corresponding|usual", "[same]", "place|places|point|points|spot|spots|position|positions|stitch|stitches|end|side|edge|ends|sides|edges") {
		c.goesOn = c.goesOn || c.n > 0
		return true
	}
	if x.phrase("[at|on|in|along]", "[the]", "two|both|either", "[the]", "ends|sides|edges|end|side|edge") {
		if c.places = 2; c.n > 2 {
			c.perRow = true // "6 sts per round at the two ends"
		}
		x.ofRow(0)
		return true
	}
	if x.phrase("at|in|on", "[the]", "center|centre|middle|point|tip", "[of]", "[the|each|every]", "[row|round|rnd|st|stitch|one]") {
		c.goesOn = c.goesOn || c.n > 0
		return true
	}
	if ends, ok := x.edgesNamed(true); ok && ends > 0 {
		c.places = int64(ends)
		return true
	}
	x.p = save
	return false
}

// changeEvery takes "every row", "per round", "on every following row", "each time".
func (x *rowReader) changeEvery(c *rowsChange) bool {
	save := x.p
	if x.phrase("to|in|on|at", "each|every", "[one|of]", "[these|them]") && (x.end() || x.peek().separator()) {
		c.every, c.perRow = true, true // "3 more rounds, adding 6 sts to each"
		return true
	}
	x.p = save
	if x.phrase("per|a", "row|round|rnd") {
		c.every, c.perRow = true, true
		return true
	}
	if x.phrase("[of|on|in|at|for]", "[the]", "each|every|ea", "[following|foll|subsequent|new|one|single|of]", "[these|the|them]", "[next]", "row|rows|round|rounds|rnd|rnds|time") {
		c.every = true
		return true
	}
	x.p = save
	return false
}

// changeBetween takes where the stitches go that one row has more: "always having 1 more sc
// between the increases". How many those are is said already.
func (x *rowReader) changeBetween(c *rowsChange) bool {
	if c.n == 0 {
		return false
	}
	save := x.p
	if e, ok := x.runEdit(); ok && e.More != 0 && e.At == EditBetween {
		c.goesOn = true
		return true
	}
	x.p = save
	return false
}

// changeUntil takes "until you have 42 sts", "until there are 48", "down to 6 sts".
func (x *rowReader) changeUntil(c *rowsChange) bool {
	save := x.p
	if !x.phrase("until|till|til|to|down|up", "[to]", "[only|just]", "[you|there|we|it|they|you've|we've|there's|the]", "[row|round]", "[have|are|has|is|get|reach|come|remain|left|got|had|having|count]", "[got]", "[down|up|back]", "[to]", "[only|just|a|the]", "[total]", "[of]") {
		return false
	}
	t := x.peek()
	if t.kind != tNum || t.frac || c.until.N > 0 {
		x.p = save
		return false
	}
	n, ok := x.number()
	noun := ok && x.nounFollows(0) && !isRowWord(x.peek())
	if noun {
		x.nounDrop()
	}
	left := x.phrase("[are|is]", "left|remain|remains|remaining|rem|altogether|total") || x.phrase("in", "all|total")
	if !noun && !left && !x.end() && !x.peek().separator() && !x.peek().isMark("([{") {
		x.p = save
		return false
	}
	x.onNamedRow()
	c.until = n
	return true
}
