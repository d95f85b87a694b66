package pattern

import "strings"

// refer = ( "rep" | "as" | "same as" | "work as" ) rows [ "of" piece ] [ times | "until" ... ] .
func (x *rowReader) refer() []*Step {
	if !x.peek().opens(opensRefer) {
		return nil
	}
	start := x.p
	if x.depth > 1 {
		return nil
	}
	if x.row.Refer != nil {
		return x.lengthWanted()
	}
	bracket := x.peek().isMark("[(")
	if bracket {
		x.p++
	}
	if s := x.sameBetween(); s != nil {
		return s
	}
	if s := x.otherEdge(); s != nil {
		return s
	}
	if s := x.numbersAgain(); s != nil {
		return s
	}
	if s := x.onceMore(); s != nil {
		return s
	}
	if s := x.likeThat(); s != nil {
		return s
	}
	if x.p == 0 && x.peek().isAny("mesh", "eyelets", "holes", "pattern", "patt", "shells", "fans") && x.at(1).isAny("as", "like") && (x.at(2).kind == tNum || isRowWord(x.at(2))) {
		x.p++ // "mesh as 11"
	}
	bare := x.p == 0 && (isRowWord(x.peek()) && x.peek().isAny("row", "rows", "rnd", "rnds", "round", "rounds") || x.peek().is("r")) && x.at(1).kind == tNum
	others := x.p == 0 && x.otherRows()
	goesOn := !bare && x.keepsOn()
	lead := bare || goesOn || x.byRepeating() || x.phrase("go", "back", "and", "do|work|repeat|make", "[the]") || x.doRows() ||
		x.phrase("[work|working|continue]", "alternate|alternating|alternately", "[between|working|repeating|work]", "[the]") ||
		x.phrase("exactly|just|much", "as|like", "[for|in]", "[the]") || x.phrase("[the]", "same", "idea|thing|row|round|rnd|way|method|pattern|again", "as|like", "[for|in]", "[the]") || x.phrase("rep|repeat|rpt|repeating|reps|work|working|follow|knit|crochet|do|make|continue", "[.]", "[to]", "[repeat|rep|repeating|work|working]", "[as|in|the|from|same|like]", "[for|the|as|in|same]", "[same|pattern|instructions]", "[as|of]", "[for|in|the]") ||
		x.phrase("[all|both]", "[exactly|just]", "[the]", "same", "as", "[for|the|in]") || x.phrase("[all|both|each]", "[worked|work|made|done]", "[exactly|just]", "as|like|identical", "[for|the|in|to|per|with|before]", "[in]")
	if !lead {
		x.p = start
		return nil
	}
	x.asItWasDone()
	r := &Refer{}
	word := &x.ts[start]
	repeats := word.isAny("rep", "repeat", "rpt", "repeating", "reps") || bracket || x.at(-1).isAny("repeat", "rep", "repeating")
	for i := start; i < x.p; i++ {
		if x.ts[i].isAny("repeating", "doing", "as", "same", "like", "do", "exactly", "just", "back", "alternate", "alternating", "alternately") {
			repeats = true
		}
	}
	repeats = repeats || bare || goesOn || others
	if !x.referRows(r, repeats) {
		x.p = start
		return nil
	}
	if !repeats && !word.isAny("work", "working", "follow", "continue", "do", "make") {
		x.p = start
		return nil
	}
	if x.rowsAsked > 0 {
		r.Rows, x.rowsAsked = Num{N: x.rowsAsked}, 0
	}
	x.referTimes(r)
	if others && r.Times.N == 0 && r.Rows.N == 0 && r.Until.N == 0 && r.UntilRow == 0 && r.UntilSts.N == 0 {
		r.Measure = true
	}
	if bracket {
		if x.accept("]", ")") {
			x.referTimes(r)
		}
	}
	x.referEdits(r)
	if s := x.referShaped(r, start); s != nil {
		return s
	}
	for last, n := r, 0; n < mostThen; last, n = last.Then, n+1 {
		if last.Then = x.referThen(); last.Then == nil {
			break
		}
	}
	return x.refersTo(r, start)
}

// doneVerbs say that what rows are like was done before.
var doneVerbs = newWordSet("did do made make worked work done crocheted given described told written set")

// asItWasDone takes words between "as" and what it points at: "as you did for the base", "as
// given for", "like on the".
func (x *rowReader) asItWasDone() {
	if !x.at(-1).isAny("as", "like", "in", "for", "the") {
		return
	}
	save := x.p
	x.phrase("[you|we|it|they]", "[was|were|is|are|have|had]")
	verb := x.acceptIn(doneVerbs)
	x.accept("for", "on", "in", "with", "to")
	if x.accept("the", "your"); !verb && x.p > save+2 || x.end() {
		x.p = save
	}
}

// refersTo keeps what a row refers to, in the words from a token on.
func (x *rowReader) refersTo(r *Refer, start int) []*Step {
	r.Span = x.spanFrom(start)
	x.row.Refer = r
	x.worked, x.bounded = true, true
	return []*Step{{Op: OpNote, Span: r.Span, Text: x.src.Slice(r.Span), implicit: true}}
}

// referShaped reads what rows repeated are shaped by: "rep last 5 rows,
// increasing 1 st at each end every 5th row until there are 46 sts". Where the
// change is made in each of them it is an edit; else only the maker knows how
// many rows that is, and the stitches that are left are taken as stated.
func (x *rowReader) referShaped(r *Refer, start int) []*Step {
	save := x.p
	x.accept(",", ";")
	x.accept("and", "but")
	sh, ok := x.shaping()
	if !ok {
		sh = shaping{}
		x.p = save
		if _, at := x.edgesNamed(true); !x.shapedRows(&sh) && !at || !sh.sparse && sh.until.N == 0 {
			x.p = save
			return nil
		}
	} else if !sh.sparse && sh.until.N == 0 {
		r.Edits = append(r.Edits, Edit{Span: x.spanFrom(save), Delta: sh.n})
		return nil
	}
	if !sh.sparse {
		r.UntilSts = sh.until
		if ok {
			r.Edits = append(r.Edits, Edit{Span: x.spanFrom(save), Delta: sh.n})
		}
		return nil
	}
	x.stateUntil(sh.until)
	sp := x.spanFrom(start)
	return []*Step{{Op: OpFree, Stitch: x.main, Span: sp, Text: x.src.Slice(sp)}}
}

// byRepeating reads what is made by rows that come again: "Work the second anchor by
// repeating rows 2 to 16".
func (x *rowReader) byRepeating() bool {
	save := x.p
	if x.worked || !x.phrase("work|make|crochet|form", "[the|a|another|your]") {
		x.p = save
		return false
	}
	for k := 0; k < 4; k++ {
		if x.phrase("by", "repeating|rep|working", "[from]", "[the]") && (isRowWord(x.peek()) || x.peek().kind == tOrd) {
			return true
		}
		if t := x.peek(); t.kind != tWord && t.kind != tOrd || t.head || x.nounFollows(0) || x.stitchFollows(0) || isRowWord(t) {
			break
		}
		x.p++
	}
	x.p = save
	return false
}

// numbersAgain = number ( "-" | "to" | "&" ) number "again" [ times ] .
//
// It is how notes whose rows have bare numbers repeat some: "5 to 8 again x 12".
func (x *rowReader) numbersAgain() []*Step {
	if x.p > 0 || x.worked || x.row.Numbers.First.N == 0 || x.peek().kind != tNum || x.peek().frac {
		return nil
	}
	k := 1
	if x.at(k).isAny("-", "to", "&", "and", "+") && x.at(k+1).kind == tNum && x.at(k+1).num > x.peek().num {
		k += 2
	}
	if !x.at(k).is("again") || x.at(k-1).num >= x.row.Numbers.First.N {
		return nil
	}
	r := &Refer{First: int(x.peek().num), Last: int(x.at(k - 1).num)}
	x.p += k + 1
	x.referTimes(r)
	x.referEdits(r)
	return x.refersTo(r, 0)
}

// doRows reads "do" before the rows to do again.
func (x *rowReader) doRows() bool {
	save := x.p
	if x.phrase("do|work|make|crochet|repeat", "[exactly|just]", "[the]", "[same|like]", "[as]") && (isRowWord(x.peek()) || x.peek().kind == tOrd && isRowWord(x.at(1))) {
		return true
	}
	// "work 6 more rows like 2nd"
	x.p = save
	if x.phrase("do|work|make|crochet") && x.peek().kind == tNum && (isRowWord(x.at(1)) || x.at(1).is("more") && isRowWord(x.at(2))) {
		n := x.peek().num
		x.p++
		more := x.accept("more")
		x.p++
		if x.phrase("like|as|same", "[as]", "[for]", "[the]") {
			if x.rowsAsked = n; !more && x.worked && n > 1 && x.peek().is("this") {
				x.rowsAsked-- // "sc across, do 3 rows like this": with the one just told
			}
			return true
		}
	}
	x.p = save
	return false
}

// referRows reads which rows are meant.
func (x *rowReader) referRows(r *Refer, repeats bool) bool {
	x.accept("for", "the", "in")
	if t := x.peek(); t.kind == tWord && isRowWord(x.at(1)) && x.at(2).kind == tNum && !x.timesBehind(2) && len(x.row.Label) > len(t.text) && strings.EqualFold(x.row.Label[:len(t.text)], t.text) {
		x.p++ // "Repeat Brim Round 3", in one of the Brim Rounds
	}
	switch {
	case x.phrase("last|previous|prev|above|preceding|prior", "row|rnd|round"):
		r.LastRows = 1
		return true
	case repeats && x.peek().in(rowKinds) && x.rowKindAt(1) > 0:
		r.Named = x.peek().text
		x.p += 1 + x.rowKindAt(1)
		return true
	case x.phrase("last|previous|prev|above|preceding|these|those|the|prior|same", "[last|previous|above|same]"):
		if x.peek().kind == tNum && isRowWord(x.at(1)) {
			r.LastRows = int(x.peek().num)
			x.p += 2
			return true
		}
		if isRowWord(x.peek()) && x.peek().isAny("rows", "rnds", "rounds") {
			x.p++
			r.LastRows = 2
			return true
		}
		return false
	case x.peek().isAny("this", "it", "them") && repeats:
		x.p++
		if x.peek().isAny("row", "rnd", "round") {
			x.p++
		}
		r.LastRows = 1
		if x.at(-1).is("them") {
			r.LastRows = 2
		}
		return true
	case x.peek().is("#") && x.at(1).kind == tNum, isRowWord(x.peek()) && !x.peek().is("r") || x.peek().is("r") && (x.at(1).kind == tNum || x.at(1).is(".") && x.at(2).kind == tNum):
		if !x.rowNumbers(r) {
			return false
		}
	case repeats && !x.worked && x.peek().kind == tOrd && x.at(-1).is("the") && (x.at(1).kind == tEnd || x.at(1).is(".")):
		r.First, r.Last = int(x.peek().num), int(x.peek().num) // "Like the 3d."
		x.p++
		return true
	case repeats && !x.worked && x.peek().kind == tNum && !x.peek().frac && x.at(-1).isAny("as", "like") && (x.at(1).head || x.at(1).kind == tEnd || x.at(1).isMark(".,;-(=)")):
		x.p-- // "23-24. as 2", where rows have bare numbers
		if !x.rowNumbers(r) {
			return false
		}
		if x.depth == 1 {
			x.accept(")") // "as 12)", as the row is labelled
		}
	case repeats && !x.worked && x.bareRows():
		x.p-- // "rep 2 + 3"
		if !x.rowNumbers(r) {
			return false
		}
	case x.peek().kind == tOrd:
		if !x.ordinalRows(r) {
			return false
		}
	case x.peek().kind == tNum && isRowWord(x.at(1)) && repeats:
		// "repeat 2 rows": the last two
		r.LastRows = int(x.peek().num)
		x.p += 2
	case repeats && x.peek().kind == tNum && x.at(1).is("-") && isRowWord(x.at(2)):
		// "carry on with that 2-row repeat"
		r.LastRows = int(x.peek().num)
		x.p += 3
		x.accept("repeat", "rep", "pattern", "patt", "sequence")
	case repeats && x.row.Numbers.First.N > 0 && x.row.Numbers.List == nil && (x.at(-1).isAny("for", "as", "the", "like", "on", "your") || x.at(-1).in(doneVerbs)):
		name := x.pieceName() // "Rnds 1-5: as for head"
		x.phrase("was|were|is|are", "[worked|made|done]")
		if name == "" || !x.end() && !x.peek().separator() && !x.peek().isMark("([{") {
			return false
		}
		r.Piece = name
		r.First, r.Last = int(x.row.Numbers.First.N), int(x.row.Numbers.Last.N)
		return true
	default:
		return false
	}
	save := x.p
	if x.accept("of", "from", "for", "on") {
		x.accept("the")
		if name := x.pieceName(); name != "" {
			r.Piece = name
		} else {
			x.p = save
		}
	}
	return true
}

// rowKinds tell by what they do which row is meant: "dec row", "eyelet round".
var rowKinds = newWordSet("dec decrease decreasing inc increase increasing buttonhole eyelet shell picot mesh bobble")

// rowKindAt is the length of the word for a row behind what kind of row it is, "dec.
// row", which may be shortened with a stop; 0 where none stands k tokens on.
func (x *rowReader) rowKindAt(k int) int {
	n := 1
	if x.at(k).is(".") {
		k, n = k+1, 2
	}
	if !isRowWord(x.at(k)) || x.at(k).is("r") || x.at(k+1).kind == tNum && !x.timesBehind(k+1) {
		return 0
	}
	return n
}

// timesBehind reports whether the number k tokens on, with those of further sizes,
// says how often: "Rep Dec row 2 (3, 4) times more".
func (x *rowReader) timesBehind(k int) bool {
	_, n := x.sizesAhead(k + 1)
	return x.at(k+1+n).isAny("times", "more", "time")
}

// bareRows reports numbers that can only be those of rows, "rep 2 + 3", "repeat
// 4-6": two of them right behind the word, and nothing that they could count.
func (x *rowReader) bareRows() bool {
	if !x.at(-1).isAny("rep", "repeat", "rpt", "as", "like") || x.row.Numbers.First.N == 0 {
		return false
	}
	a, b := x.peek(), x.at(2)
	if a.kind != tNum || a.frac || b.kind != tNum || b.frac || b.num <= a.num || b.num >= x.row.Numbers.First.N || !x.at(1).isAny("+", "&", "and", "-", "to") {
		return false
	}
	end := x.at(3)
	return end.kind == tEnd || end.head || end.isMark(".,;(")
}

// rowNumbers = "row" number [ ( "-" | "to" | "and" ) number ] .
func (x *rowReader) rowNumbers(r *Refer) bool {
	if !x.peek().is("#") {
		x.p++
	}
	x.phrase(".")
	x.accept("#")
	n := x.peek()
	if n.kind != tNum || n.frac {
		return false
	}
	num, _ := x.number()
	r.First, r.Last = int(num.N), int(num.N)
	sized := num.Sizes
	if sized != nil {
		r.Sizes = [2][]int64{sized, sized}
	}
	for {
		k := 0
		to := false
		switch {
		case x.longDash(k) && x.totalBehind(k):
			return x.listed(r)
		case x.at(k).isAny("-", "to", "through", "thru"):
			to = true
			k++
			for x.at(k).is("-") {
				k++
			}
		case x.at(k).isAny("and", "&", ",", "+"):
			k++
			if x.at(k).isAny("and", "&") {
				k++
			}
		default:
			return x.listed(r)
		}
		if isRowWord(x.at(k)) {
			k++
		}
		if to && x.at(k-1).is("-") && x.at(k).kind == tNum && (k > 1 || !x.at(k-1).glued || int(x.at(k).num) <= r.Last) && !x.pluralLabel() {
			return x.listed(r) // "Repeat Row 27--19 sts."
		}
		if to && k == 1 && !x.ts[x.p].glued && !x.at(1).glued && x.totalBehind(0) && !x.ts[max(0, x.p-2)].isAny("rows", "rnds", "rounds", "rds") {
			return x.listed(r) // "rep R3 - 11 sc"
		}
		if m := x.at(k); m.kind != tNum || m.frac || (x.at(k+1).isAny("times", "more", "time") || isRowWord(x.at(k+1)) && x.at(k-1).is(",")) && !to || int(m.num) <= r.Last && !to && !x.inTurn(k+1) {
			return x.listed(r)
		}
		// "Rows 2, 3 sc": the number belongs to what follows
		if _, sn := x.stitchAt(k + 1); (sn > 0 || x.at(k+1).isAny("st", "sts", "stitch", "stitches")) && !to {
			return x.listed(r)
		}
		m := int(x.at(k).num)
		x.p += k
		num, _ := x.number()
		if (num.Sizes != nil || sized != nil) && (num.Sizes == nil || sized == nil || r.List != nil || !to && num.N != int64(r.First)+1) {
			return false // rows that differ in how many they are
		}
		if num.Sizes != nil {
			r.Sizes[1] = num.Sizes
		}
		if to {
			r.Last = m
		} else {
			if len(r.List) == 0 {
				r.List = append(r.List, r.First)
			}
			r.List = append(r.List, m)
			r.Last = m
		}
	}
}

// totalBehind reports whether a dash parts a total off: a number follows, with
// those of further sizes, and what it counts.
func (x *rowReader) totalBehind(k int) bool {
	for x.at(k).is("-") {
		k++
	}
	if x.at(k).kind != tNum || x.at(k).frac {
		return false
	}
	_, n := x.sizesAhead(k + 1)
	k += 1 + n
	return x.stitchFollows(k) || x.nounFollows(k)
}

func (x *rowReader) listed(r *Refer) bool {
	if n := len(r.List); n > 0 {
		run := true
		for i := 1; i < n; i++ {
			run = run && r.List[i] == r.List[i-1]+1
		}
		if run {
			r.List = nil
		}
	}
	if x.inTurn(0) {
		x.p += 2
	}
	x.phrase("[,]", "inclusive|incl|alternately")
	return true
}

// inTurn reports "in turn" behind rows, which names them in the order in which
// they come: "Rows 3 and 2 in turn".
func (x *rowReader) inTurn(k int) bool {
	after := x.at(k + 2)
	return x.at(k).is("in") && x.at(k+1).is("turn") && (after.kind == tEnd || after.separator())
}

// ordinalRows = "2nd row" | "2nd and 3rd rows" | "4th to 6th rnds" .
func (x *rowReader) ordinalRows(r *Refer) bool {
	save := x.p
	r.First = int(x.peek().num)
	r.Last = r.First
	x.p++
	if isRowWord(x.peek()) {
		x.p++
	}
	for x.peek().isAny("and", "&", "to", "-", ",", "through") && x.at(1).kind == tOrd || x.at(2).kind == tOrd && (x.at(1).is("the") && x.peek().isAny("and", "to") || x.at(1).isAny("and", "&") && x.peek().is(",")) {
		to := x.peek().isAny("to", "-", "through")
		x.p++
		x.accept("and", "&")
		x.accept("the")
		m := int(x.peek().num)
		x.p++
		if !to {
			if len(r.List) == 0 {
				r.List = append(r.List, r.First)
			}
			r.List = append(r.List, m)
		}
		r.Last = m
		if isRowWord(x.peek()) {
			x.p++
		}
	}
	if !isRowWord(x.at(-1)) && !(x.ts[max(save-1, 0)].isAny("the", "as", "for", "like") && (x.end() || x.peek().separator() || x.peek().isMark("([{"))) {
		x.p = save
		return false // "as the sixth" needs no word for it
	}
	return x.listed(r)
}

// leftOut takes what of the repeated rows is not done again and makes no stitch:
// "omitting the change at Rnd 4", "without the colour changes".
func (x *rowReader) leftOut() bool {
	start := x.p
	if x.phrase("omitting|omit|without|ignoring|leaving", "[out]", "[the]", "[color|colour|yarn]", "change|changes|stripes|eyes|join|joining") {
		x.phrase("in|at|on|of|after", "[the]")
		x.rowName()
		return true
	}
	// "omitting the last ch 5", "without the turning ch at the end": nothing follows to stand on it
	if x.phrase("omitting|omit|without|leaving", "[out|off]", "[the]") {
		last := x.phrase("last|final|turning")
		if ch := x.chain(); len(ch) == 1 && last || x.phrase("ch|chain|tch") && last {
			x.phrase("[turning|ch]", "on|of|at|in|from", "[the]", "[end]", "[of]", "[the]", "[last|final]", "[row|rnd|round|repeat|rep|time]")
			x.phrase("and|,", "[the]", "turn|turning")
			if x.endsClause() {
				return true
			}
		}
	}
	x.p = start
	return false
}

// untilNumber reads the number behind "until", of rows or of stitches, for each
// of the sizes; nothing is taken where it counts something else.
func (x *rowReader) untilNumber() (Num, bool) {
	start := x.p
	if x.peek().kind == tNum && !x.peek().frac {
		if n, ok := x.number(); ok && (isRowWord(x.peek()) || x.nounFollows(0)) {
			n.Span = Span{}
			return n, true
		}
	}
	x.p = start
	return Num{}, false
}

// lastPlaced takes where the last stitches of a repeated row go: "with last 2 sc
// in top of ch-3". The row below decides that anyway.
func (x *rowReader) lastPlaced() bool {
	start := x.p
	if x.phrase("with|working|having|ending|placing|making", "[with]", "[the]", "last") {
		if x.peek().kind == tNum {
			x.p++
		}
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
			x.phrase("of|on", "[the]")
			x.rowName()
			if x.peek().isAny("in", "into", "on") && len(x.place()) > 0 {
				return true
			}
		}
	}
	x.p = start
	return false
}

// referTimes reads "3 more times", "alternately until there are 12 rows".
func (x *rowReader) referTimes(r *Refer) {
	for {
		save := x.p
		x.accept(",", "and", "-")
		if x.phrase("again|over", "[again|over]", "[and]", "[again]") {
			continue
		}
		x.phrase("alternately|alternating|alternately,|consecutively|over", "[and]", "[over]")
		x.phrase("inclusive|incl")
		if x.phrase("for", "[the]", "pattern|patt", "[stitch|st]") {
			continue
		}
		if x.endsOnRow(r) || x.endingEdit(r) || x.timesShared(r) || x.inShade() || x.coloursVaried() {
			continue
		}
		if x.fewerEach(r) || x.lastPlaced() || x.leftOut() || x.phrase("in|into|on|over", "[the]", "sc|dc|hdc|htr|tr|st|sts|stitches", "of", "[the]", "last|previous|preceding", "row|rnd|round") {
			continue
		}
		if x.phrase("[in]", "[the|this|same]", "color|colour|stripe|striping", "sequence|pattern|patt|repeat|order|changes") {
			if n := r.Last - r.First; r.List == nil && r.First == 1 && 0 < n && n < 100 {
				// the colours of Rows 1-6 come again, worked as the last of
				// them: the first one stands on the foundation
				for range n + 1 {
					r.List = append(r.List, r.Last)
				}
			}
			continue
		}
		start := x.p
		x.phrase("a", "total", "of")
		total := x.p > start
		if x.phrase("another|further", "[a|set|lot]", "[of]") || x.phrase("a", "further") {
			if tm, ok := x.times(); ok && tm.Kind == Exactly {
				r.Times, r.More = tm.N, true // "another 10 times"
				continue
			}
			x.p = start
		}
		if tm, ok := x.times(); ok && tm.Kind != Fill {
			r.Times = tm.N
			r.More = tm.Kind == More
			if total {
				r.More = false
			}
			continue
		}
		x.p = start
		if (r.Times.N > 0 || r.Rows.N > 0) && x.phrase("or", "until|till|til|for|to") {
			x.toClauseEnd()
			continue
		}
		x.accept("for", "work", "another")
		if x.peek().kind == tNum && x.at(1).isAny("more", "additional") && isRowWord(x.at(2)) || x.peek().kind == tNum && isRowWord(x.at(1)) && x.p > start {
			// "for 5 more rows": that many rows
			r.Rows = Num{N: x.peek().num}
			x.p++
			x.accept("more", "additional")
			x.p++
			continue
		}
		x.p = start
		if x.phrase("until|till|til|to", "[you|piece|there|work|you've]", "[have|are|is|there|reach]", "[are|done|worked|made|completed]", "[a]", "[total]", "[of]") {
			if x.peek().kind == tNum && x.at(1).isAny("more", "further") && isRowWord(x.at(2)) {
				r.Rows = Num{N: x.peek().num} // "until you've done 8 more rows"
				x.p += 3
				continue
			}
			if isRowWord(x.peek()) && x.at(1).kind == tNum {
				r.UntilRow = x.at(1).num
				x.p += 2
				x.phrase("is|has", "[been]", "worked|complete|completed|done")
				continue
			}
			if n, ok := x.untilNumber(); ok {
				if isRowWord(x.peek()) {
					r.Until = n
					x.p++
					x.phrase("[have|are]", "[been]", "worked|complete|completed|done|made|finished", "[in]", "[all|total]")
					x.phrase("in", "all|total")
					continue
				}
				if x.nounFollows(0) {
					// "until 6 sts remain", "until you have 40 sts"
					r.UntilSts = n
					x.untilStated(n, start)
					x.nounDrop()
					x.phrase("[are|is]", "remain|left|remaining|rem")
					x.onNamedRow()
					continue
				}
			}
			r.Measure = true
			x.toMeasureEnd()
			x.endingRow()
			continue
		}
		x.p = start
		if x.phrase("for|to", "[the]", "desired|required|wanted", "length|size|width|height") || x.phrase("over", "and", "over") || x.phrase("[for]", "as", "long|often", "as") || x.phrase("to|for", "[the]", "length|size", "desired|required|wanted|needed") || x.phrase("to", "[the]", "end") || x.phrase("as", "many", "times", "as") || x.phrase("throughout") {
			r.Measure = true
			x.toClauseEnd()
			x.endingRow()
			continue
		}
		if x.phrase("and|&", "over", "[again]") || x.measured() || x.lengthOf() {
			r.Measure = true
			continue
		}
		x.p = save
		return
	}
}

// untilStated takes the stitches that rows of a label are repeated until for the total of
// the last of them; they stand behind a token.
func (x *rowReader) untilStated(n Num, from int) {
	if x.row.Numbers.Last.N <= x.row.Numbers.First.N {
		return
	}
	for from < x.p && x.ts[from].kind != tNum {
		from++
	}
	n.Span = x.ts[from].span()
	x.stateUntil(n)
}

// fewerEach takes "one st less each row", "so there are 2 more dc on each row": what the
// rows that are repeated change by themselves. They are held to it where they are one.
func (x *rowReader) fewerEach(r *Refer) bool {
	save := x.p
	x.accept(",")
	x.phrase("with|having|making|working")
	c := rowsChange{}
	if !x.changeThan(&c) {
		c.n = 0
		x.p = save
		if !x.phrase("so|thus", "[that]", "[you|it|there|each]", "[row|round|rnd]") || !x.changeWords(&c) || !x.changeEvery(&c) {
			x.p = save
			return false
		}
	}
	if c.n > 0 && r.blockLen(0) == 1 && !x.row.changes.deltaSet {
		x.row.changes = rowChanges{delta: Num{N: c.n * c.sign}, deltaSet: true}
	}
	return true
}

// toMeasureEnd goes to the end of a length, with those of the further sizes:
// "until it measures 14 (16, 18) cm from the crown".
func (x *rowReader) toMeasureEnd() {
	x.toClauseEnd()
	if !x.peek().isMark("([") || x.at(-1).kind != tNum {
		return
	}
	if end := x.closer(0); end > 0 && x.ts[end+1].isAny("cm", "mm", "m", "in", "ins", "inch", "inches", "\"", "from", "or") {
		x.p = end + 1
		x.toClauseEnd()
	}
}

// endingRow takes "ending on a Row 4", "end with a WS row" after rows that are
// measured: which of them is the last the maker knows.
func (x *rowReader) endingRow() {
	x.madeMine()
	save := x.p
	if x.peek().is(".") && x.at(1).isAny(",", ";") {
		x.p++ // "13 ins., ending with a 4th row"
	}
	x.accept(",", ";")
	x.phrase("and", "[then]")
	if x.phrase("ending|end|finishing|finish|stop|stopping", "[off]", "[on|with|after|by]", "[working|completing|having]", "[worked|completed]", "[a|an|the]", "[last|complete|full]", "[ws|rs|wrong|right|odd|even]", "[side]", "[numbered]") && (x.peek().kind != tOrd || func() bool { x.p++; return true }()) && x.accept("row", "rnd", "round", "repeat", "rep") {
		if x.peek().kind == tNum {
			x.p++
			x.phrase("of", "[the]", "pattern|patt|repeat|rep")
		}
		return
	}
	x.p = save
}

// endsOnRow reads "ending with a Row 2" behind rows whose label says how many
// they are: which of them is the last, to be held against that.
func (x *rowReader) endsOnRow(r *Refer) bool {
	save := x.p
	if r.Times.N > 0 || r.Rows.N > 0 || x.row.Numbers.Last.N <= x.row.Numbers.First.N || !x.phrase("[and]", "[then]", "ending|end|finishing|finish", "on|with|after|by", "[working]", "[a|an|the]") {
		x.p = save
		return false
	}
	t := x.peek()
	switch {
	case t.kind == tOrd && isRowWord(x.at(1)) && x.at(2).kind != tNum:
		r.EndRow = t.num
	case isRowWord(t) && x.at(1).kind == tNum && !x.at(1).frac:
		r.EndRow = x.at(1).num
	default:
		x.p = save
		return false
	}
	x.p += 2
	return true
}
