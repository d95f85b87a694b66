package pattern

import "crochet/tallyturn/pattern/stitch"

// shaping is a change of so many stitches at the edges of a row, as garments
// are shaped: "dec 1 st at neck edge every row until 12 sts remain".
type shaping struct {
	n      Num // stitches more, or fewer where negative, in one row
	rows   Num // "on each of next 5 rows"
	until  Num // "until 12 sts remain"
	every  bool
	sparse bool // "every other row": how many rows that is only the maker knows
}

// edgeShaping = shaping .
//
// Where on the edge it goes is the maker's choice, so it changes the count of
// the row and takes no place of its own. What is spread over rows that nobody
// numbers is left to the stated total.
func (x *rowReader) edgeShaping() []*Step {
	if !x.peek().opens(opensChange) {
		return nil
	}
	start := x.p
	sh, ok := x.shaping()
	if !ok {
		x.p = start
		return nil
	}
	s := &Step{Op: OpDelta, N: sh.n, Stitch: x.main, Span: x.spanFrom(start)}
	if sh.sparse {
		s.Op, s.N, s.Text = OpFree, Num{}, x.src.Slice(s.Span)
	}
	if sh.until.N > 0 {
		if x.row.noLabel && !sh.sparse {
			x.row.until = sh.until
		} else {
			x.stateUntil(sh.until)
		}
	}
	return []*Step{s}
}

// stateUntil takes the stitches that are to remain for the total of the row.
func (x *rowReader) stateUntil(n Num) {
	if n.N > 0 && x.row.Total == nil && x.depth == 1 {
		x.row.Total = &Total{Span: n.Span, Text: x.src.Slice(n.Span), Parts: []TotalPart{{N: n, Span: n.Span, Kind: PartStitches}}}
	}
}

// shaping = [ "continue to" ] ( change [ edges ] | edges change ) { rows } .
func (x *rowReader) shaping() (shaping, bool) {
	sh := shaping{}
	x.accept("and", "while", "but")
	lead := x.phrase("continue|cont|continuing|keep|carry|go", "[on]", "[to]", "[on]")
	if lead && (x.phrase("in", "[this|the]", "[same]", "manner|way|fashion|pattern|pat|patt") || x.phrase("as", "established|set|before|above") || x.phrase("like", "this|that") || x.phrase("so")) {
		x.accept(",")
		x.accept("and", "but")
	} else {
		lead = false
	}
	ends, ok := x.edgesNamed(true)
	if ok {
		x.accept(",")
	}
	sign, amount, said := x.change()
	if sign == 0 && lead {
		sign, amount = x.moreOf()
		said = sign != 0
	}
	if sign == 0 {
		return sh, false
	}
	if !ok {
		ends, ok = x.edgesNamed(false)
	}
	more := x.shapedRows(&sh)
	if !ok {
		if ends, ok = x.edgesNamed(true); ok {
			more = x.shapedRows(&sh) || more
		}
	}
	if !ok && !((said || lead) && more && (sh.every || sh.sparse || sh.rows.N > 0)) {
		return sh, false
	}
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{)]}*") && !x.peek().isAny("and", "then", "only", "keeping", "working", "work") {
		return sh, false
	}
	sh.sparse = sh.sparse || ends < 0
	sh.n = amount.times(int64(sign) * int64(max(ends, 1)))
	return sh, true
}

// times is a number of every size so many times over.
func (n Num) times(by int64) Num {
	out := Num{N: n.N * by, Span: n.Span}
	for _, v := range n.Sizes {
		out.Sizes = append(out.Sizes, v*by)
	}
	if by != 1 {
		out.Span = Span{} // it is not what stands there
	}
	return out
}

// change reads "dec 1 st", "increase one sc", "work 1 dec", and says whether
// the number was given.
func (x *rowReader) change() (sign int, n Num, said bool) {
	n = Num{N: 1}
	save := x.p
	x.accept("work", "make", "working", "making")
	counted := false
	if x.peek().kind == tNum && !x.peek().frac && x.at(1).isAny("dec", "decs", "decrease", "decreases", "inc", "incs", "increase", "increases") {
		n, _ = x.number()
		counted = true
	} else {
		x.accept("a", "an")
	}
	switch t := x.peek(); {
	case t.isAny("dec", "decs", "decr", "decrease", "decreases", "decreasing"):
		sign = -1
	case t.isAny("inc", "incs", "incr", "increase", "increases", "increasing"):
		sign = 1
	default:
		x.p = save
		return 0, n, false
	}
	x.p++
	if x.peek().is(".") && x.peek().glued && (x.at(1).kind == tNum || x.at(1).isAny("at", "a", "one")) {
		x.p++
	}
	if counted {
		return sign, n, true
	}
	x.accept("a", "an")
	if x.peek().kind == tNum && !x.peek().frac {
		if _, sized := x.sizedSpace(0); sized {
			x.p = save
			return 0, n, false
		}
		n, _ = x.number()
		said = true
	}
	x.nounDrop()
	return sign, n, said
}

// moreOf reads "6 more", "2 sts fewer": a change told by how the rows differ.
func (x *rowReader) moreOf() (sign int, n Num) {
	save := x.p
	if t := x.peek(); t.kind == tNum && !t.frac && !t.big {
		n, _ = x.number()
		x.nounDrop()
		switch {
		case x.accept("more", "extra"):
			sign = 1
		case x.accept("fewer", "less"):
			sign = -1
		}
		x.nounDrop()
	}
	if sign == 0 {
		x.p = save
	}
	return sign, n
}

// edgesNamed reads where a change goes: "at each end", "at neck and armhole
// edges", and gives how many places that is; -1 where nobody can tell.
func (x *rowReader) edgesNamed(prep bool) (int, bool) {
	save := x.p
	fail := func() (int, bool) { x.p = save; return 0, false }
	if !x.accept("at", "on", "in", "along") && prep {
		return fail()
	}
	x.accept("the")
	if x.phrase("beg|beginning|start|end", "and|&", "[at]", "[the]", "end|beg|beginning|start") {
		return x.ofRow(2)
	}
	if x.phrase("first", "and|&|+", "last") {
		x.accept("st", "sts", "stitch", "stitches") // "inc 1st + last st"
		return x.ofRow(2)
	}
	if x.accept("each", "ea", "both", "either") {
		x.phrase("[of]", "[the]")
		if x.accept("marker", "markers", "seam", "dart", "raglan") {
			return -1, true
		}
		if !x.edgeWord() {
			return fail()
		}
		if x.phrase("of", "[the|each|every|both|all]", "[center|centre|marked|side]", "marker|markers|seam|st|stitch|center|centre|spine|middle|point|fold") && x.ts[x.p-2].isAny("each", "every", "both", "all") {
			return -1, true
		}
		return x.ofRow(2)
	}
	n := 1
	if x.accept("beg", "beginning", "start", "end") {
		x.accept("edge")
		if x.phrase("and|,", "at", "[the]") && x.edgeWord() {
			n++
		}
		return x.ofRow(n)
	}
	words := 0
	for k := 0; k < 6; k++ {
		t := x.at(k)
		switch {
		case t.isAny("edge", "edges", "end", "ends", "side", "sides"):
			if words == 0 && t.isAny("edge", "edges") {
				return fail()
			}
			x.p += k + 1
			if x.phrase("and|,", "at", "[the]") && x.edgeWord() {
				n++
			}
			return x.ofRow(n)
		case t.isAny("and", "&") && words > 0:
			n++
		case t.kind != tWord || t.isAny("of", "in", "next", "row", "rnd", "round", "ch", "each", "every", "same"):
			return fail()
		default:
			if _, m := x.stitchAt(k); m > 0 {
				return fail()
			}
			words++
		}
	}
	return fail()
}

// edgeWord takes "neck edge", "end", "sides".
func (x *rowReader) edgeWord() bool {
	for k := 0; k < 3; k++ {
		if t := x.at(k); t.isAny("edge", "edges", "end", "ends", "side", "sides") {
			x.p += k + 1
			return true
		} else if t.kind != tWord {
			return false
		}
	}
	return false
}

// ofRow passes over "of the row" behind an edge.
func (x *rowReader) ofRow(n int) (int, bool) {
	x.phrase("of", "[the|this]", "row|rnd|round|work")
	return n, true
}

// shapedRows reads on which rows a change is made: "every row", "of next 4
// rows", "every other row 5 times", "until 6 sts remain".
func (x *rowReader) shapedRows(sh *shaping) bool {
	start := x.p
	for {
		save := x.p
		x.accept(",")
		switch {
		case x.phrase("[of|on|in]", "[the]", "next|following|foll", "and|&", "every|each"):
			sh.sparse = true
			for k := 0; k < 3 && !isRowWord(x.peek()) && !x.end(); k++ {
				x.p++
			}
			x.p++
			continue
		case x.phrase("[of|on|in]", "[the]", "every|each", "[following|foll]", "other|alternate|alt", "row|rows|rnd|rnds|round|rounds"):
			sh.sparse = true
			continue
		case x.phrase("[of|on|in]", "[the]", "every|each|ea", "[following|foll]", "row|rnd|round") || x.phrase("each|every|ea", "time"):
			sh.every = true
			continue
		case x.phrase("[of|on|in|over|for]", "[each|all]", "[of]", "[the]", "next|following|foll"):
			switch {
			case x.peek().kind == tNum:
				sh.rows, _ = x.number()
			case isRowWord(x.peek()):
				sh.rows = Num{N: 1}
			}
			x.accept("alternate", "alt")
			if sh.rows.N > 0 && isRowWord(x.peek()) {
				sh.sparse = sh.sparse || x.at(-1).isAny("alternate", "alt")
				x.p++
				continue
			}
			sh.rows = Num{}
		case x.phrase("[on|in|of|over]", "this|the", "row|rnd|round"), x.phrase("in", "[this|the]", "[same]", "manner|way"), x.phrase("as", "before|established|set"):
			continue
		case x.phrase("[of|on|in]", "[the]", "every|each") && (x.peek().kind == tOrd || x.peek().kind == tNum):
			x.p++
			x.accept("following", "foll")
			if isRowWord(x.peek()) {
				x.p++
				sh.sparse = true
				continue
			}
		case x.p == save && x.timesOver(sh):
			continue
		case x.phrase("until|till|to", "[only]", "[there|you]", "[are|have]", "[only]"):
			if x.peek().kind == tNum && !x.peek().frac {
				n, _ := x.number()
				if x.nounFollows(0) && !isRowWord(x.peek()) || sh.every && (x.end() || x.peek().isMark(".;")) {
					x.nounDrop()
					x.phrase("[are]", "left|remain|remaining|rem|remains|unworked|altogether")
					x.phrase("in", "all|total")
					x.phrase("on|for", "[the|each]", "[row|rnd|neck|shoulder|side|top]")
					sh.until = n
					continue
				}
			}
			x.p = save
			if x.p > start && x.measured() {
				sh.sparse = true
				continue
			}
		}
		x.p = save
		return x.p > start
	}
}

// timesOver takes "4 times" behind the rows of a change.
func (x *rowReader) timesOver(sh *shaping) bool {
	if !sh.every && !sh.sparse {
		return false
	}
	save := x.p
	tm, ok := x.times()
	if !ok || tm.Kind != Exactly && tm.Kind != More {
		x.p = save
		return false
	}
	if sh.every && sh.rows.N == 0 && tm.Kind == Exactly {
		sh.rows = tm.N
	}
	return true
}

// measured takes "until piece measures 5 1/2 (6, 6 1/2) ins", to its end.
func (x *rowReader) measured() bool {
	save := x.p
	if !x.phrase("until|till|to|for") {
		return false
	}
	for k := 0; k < 24; k++ {
		t := x.at(k)
		if t.isMark(".;") && !t.glued || t.kind == tEnd || t.is("*") {
			break
		}
		if t.isAny("measure", "measures", "measuring", "long", "length", "cm", "inches", "inch", "ins", "same", "desired", "reaches", "reach", "fits", "matches", "wide", "deep") {
			x.p += k
			x.toMeasureEnd()
			for x.peek().isMark("(,") && (x.at(1).kind == tNum || x.at(-1).kind == tNum) {
				if end := x.closer(0); x.peek().is("(") && end > 0 {
					x.p = end + 1
				} else {
					x.p++
				}
				x.toClauseEnd()
			}
			x.endingRow()
			return true
		}
		if t.isAny("sts", "st", "stitches", "remain") {
			break
		}
	}
	x.p = save
	return false
}

// edgeRows reads a sentence of shaping that is so many rows by itself, "Dec 1
// st at each end of next 3 rows".
func (x *rowReader) edgeRows() (Num, bool) {
	sh, ok := x.shaping()
	switch {
	case !ok:
		return Num{}, false
	case sh.rows.N > 0 && !sh.sparse:
		return sh.rows, true
	case sh.sparse || sh.until.N > 0:
		return Num{N: 1}, true
	}
	return Num{}, false
}

// edgeGloss takes "about 13 sts down the side" and "8 sc across the instep"
// behind stitches along an edge whose number is not given: it tells how they
// fall, and the total of them stands behind.
func (x *rowReader) edgeGloss() []*Step {
	if !x.alongEdge || !x.peek().opens(opensEven) && x.peek().kind != tNum {
		return nil
	}
	start := x.p
	x.accept("and", "with", "working", "making")
	about := x.accept("about", "approximately", "approx", "roughly", "around")
	if x.peek().kind != tNum || x.peek().frac {
		x.p = start
		return nil
	}
	x.number()
	x.nounDrop()
	x.accept("back", "evenly")
	if !x.peek().isAny("down", "up", "along", "across", "over", "on", "around") && !about || x.peek().isAny("around", "across") && x.at(1).separator() {
		x.p = start
		return nil
	}
	for !x.end() && !x.peek().isMark(",;.:)]([{=") && !(x.peek().is("-") && !x.peek().glued) && !(x.peek().is("and") && x.at(1).kind == tNum) {
		x.p++
	}
	return x.noteFrom(start)
}

// meanwhile reads "at the same time, on Rnd 20, dec 1 st at each side": a
// change that other rows of the range do not make, whose total only the author
// has.
func (x *rowReader) meanwhile(start int) []*Step {
	save := x.p
	changes := false
	for !x.end() && !x.peek().isMark(".([{;") {
		changes = changes || x.peek().isAny("dec", "inc", "decrease", "increase", "decreasing", "increasing", "shape")
		x.p++
	}
	if !changes || x.p == save {
		x.p = save
		return nil
	}
	sp := x.spanFrom(start)
	return []*Step{{Op: OpFree, Stitch: x.main, Span: sp, Text: x.src.Slice(sp)}}
}

// evenWork reads work that goes on as the row below in so many words: "keeping
// to pat work to within last 3 sts", "pat across", "work even on 28 sts",
// "continue in established rib".
//
//	evenWork = [ keeping ] verb { "even" | manner | extent } .
func (x *rowReader) evenWork() []*Step {
	if !x.peek().opens(opensEven) {
		return nil
	}
	start := x.p
	kept := x.keepsPattern()
	if kept {
		x.accept(",")
	}
	verb := x.p
	pat := x.isPattern(0)
	if !pat && !x.peek().isAny("work", "continue", "cont", "working", "continuing", "crochet") {
		if kept && (x.end() || x.at(-1).separator() || x.peek().separator()) {
			return x.noteFrom(start)
		}
		x.p = start
		return nil
	}
	x.p++
	if x.accept("on", "to") && x.at(-1).is("to") && !x.peek().isAny("work", "working") {
		x.p-- // "work to last 2 sts"
	}
	x.accept("work", "working")
	s := &Step{Op: OpEven}
	manner, even, extent := pat, kept, false
	rows, on := Num{}, Num{}
loop:
	for !extent {
		save := x.p
		switch {
		case x.accept("even", "straight"), x.phrase("without|with", "[any|no|further]", "[more|further]", "shaping|increasing|increases|decreasing|decreases|change"):
			even = true
			continue
		case x.accept("in"):
			x.accept("the", "this", "your")
			x.accept("established", "est", "same", "set")
			if id, n := x.stitchAt(0); n > 0 && id != stitch.Slip && !x.isPattern(n) {
				x.p += n
				s.Stitch = id
				manner = true
				x.accept("pattern", "patt", "pat")
				continue
			}
			if x.isPattern(0) || x.peek().isAny("rib", "ribbing", "stitch", "st", "rows", "rnds") && x.isPattern(1) {
				x.p++
				x.accept("pattern", "patt", "pat", "pats", "patts", "patterns")
				manner = true
				continue
			}
			if x.accept("rib", "ribbing") {
				manner = true
				continue
			}
		case x.phrase("as", "established|set|before|usual|est"):
			manner = true
			continue
		case rows.N == 0 && x.peek().kind == tNum && !x.peek().frac:
			rows, _ = x.number()
			x.accept("more", "further")
			if isRowWord(x.peek()) && !x.peek().is("r") {
				x.p++
				continue
			}
			if pat && x.p == verb+2 { // "pat 12"
				s.Target.N = rows
				rows = Num{}
				x.nounDrop()
				extent = true
				continue
			}
			rows = Num{}
		case x.phrase("on", "[the|these|all|rem|remaining]", "[rem|remaining]") && x.peek().kind == tNum:
			on, _ = x.number()
			if x.nounFollows(0) {
				x.nounDrop()
				x.accept("rem", "remaining", "left", "only")
				extent = true
				continue
			}
			on = Num{}
		case x.phrase("over|across", "[the]", "next|first|rem|remaining") && x.peek().kind == tNum:
			s.Target.N, _ = x.number()
			x.nounDrop()
			extent = true
			continue
		case s.Target.Bound.Kind == NoBound && (manner || even || x.at(-1).isAny("work")):
			if b, ok := x.bound(); ok && b.Kind != NoBound && !x.evenlySaid(save) {
				s.Target.Bound = b
				extent = b.Kind != ToEnd || s.Target.Bound.Kind != NoBound && (manner || even)
				continue
			}
		}
		x.p = save
		break loop
	}
	switch {
	case !manner && !even && !(extent && s.Target.Bound.Kind == ToLast):
		x.p = start
		return nil
	case x.evenlySaid(verb):
		x.p = start
		return nil
	}
	ends := x.end() || x.peek().separator() || x.peek().isMark("([{)]}*") || x.peek().isAny("and", "then", "turn", "dec", "inc", "leaving", "leave", "decreasing", "increasing", "while", "but")
	measured := x.measured() || x.measuredRows()
	if !ends && !measured {
		x.p = start
		return nil
	}
	s.Span = x.spanFrom(start)
	s.Text = x.src.Slice(s.Span)
	if !x.worked && !extent && !measured && on.N == 0 && rows.N == 0 && x.eachToldNext() {
		s.Op = OpNote // "continue as set, 1 tr in every tr and 3 dc in every sp": the words behind say how
		return []*Step{s}
	}
	if x.worked && x.bounded && s.Target.Bound.Kind != ToLast && s.Target.N.N == 0 {
		s.Op = OpNote // it tells how to go on
		return []*Step{s}
	}
	if on.N > 0 && x.row.Total == nil && x.depth == 1 {
		x.row.Total = &Total{Span: on.Span, Text: x.src.Slice(on.Span), Parts: []TotalPart{{N: on, Span: on.Span, Kind: PartStitches}}}
	}
	return []*Step{s}
}

// eachToldNext reports whether stitches into each place of the row are told right behind
// words for how the row goes: ", 1 tr in each tr", ": sc in every st".
func (x *rowReader) eachToldNext() bool {
	k := 0
	for x.at(k).isMark(",;:-.") || x.at(k).isAny("and", "with", "working", "work", "making", "by", "so") {
		k++
	}
	if k == 0 {
		return false
	}
	if t := x.at(k); t.kind == tNum && !t.frac || t.isAny("a", "one") {
		k++
	}
	_, n := x.stitchAt(k)
	return n > 0 && x.phraseAt(k+n, "in|into", "each|every|all") > 0
}

// measuredRows takes "until there are 24 rows from beg", "for 4 inches".
func (x *rowReader) measuredRows() bool {
	save := x.p
	if x.phrase("until|till|for", "[there|you]", "[are|have]", "[a]", "[total]", "[of]") && x.peek().kind == tNum {
		x.number()
		if isRowWord(x.peek()) || x.peek().isAny("in", "ins", "inches", "inch", "cm") {
			x.p++
			x.phrase("from", "[the]", "beg|beginning|start")
			x.endingRow()
			return true
		}
	}
	x.p = save
	return false
}

// isPattern reports whether a word stands for the pattern that is worked.
func (x *rowReader) isPattern(k int) bool {
	return x.at(k).isAny("pat", "patt", "pattern", "pats", "patts")
}

// keepsPattern takes "keeping to pat", "keeping continuity of pattern".
func (x *rowReader) keepsPattern() bool {
	save := x.p
	if x.phrase("keeping|keep|maintaining|maintain|following", "[to|in|the|continuity]", "[the|of|in]", "[the]", "[continuity|established|stitch|st]", "[of]", "[the]") && x.isPattern(0) {
		x.p++
		x.accept("correct", "established")
		x.phrase("as", "established|set|before")
		return true
	}
	x.p = save
	return false
}
