package pattern

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// totalOpeners open a total in words.
var totalOpeners = newWordSet("you you'll you'd you're you've we're so at by after on making there total sts count stitch for giving leaving ending st now to work that's thats still leaves always that which this should shd shld having with again once")

// totalAhead takes a stated total if one stands here, or what is told of the count in
// words, and says so.
func (x *rowReader) totalAhead(before []*Step) bool {
	if n := len(before); n > 0 && before[n-1].Op == OpOtherSide && !x.peek().isMark("([{=") {
		return false // "along other side of chain, 10 s c"
	}
	if t := x.peek(); !t.opens(opensTotal) {
		return false
	}
	if x.totalMarked(before) {
		return true
	}
	if x.peek().kind == tPunct {
		return x.toldInBracket(before)
	}
	return x.changeTold(before) || x.countTold(before)
}

// totalMarked takes a total that a mark or the words of a total begin.
//
//	total = ( "(" | "[" | "{" | "<" ) parts ( ")" | "]" | "}" | ">" ) | ( "-" | "=" | ":" | "." ) parts .
func (x *rowReader) totalMarked(before []*Step) bool {
	t := x.peek()
	start := x.p
	switch {
	case t.isMark("([{<"):
		end := x.closer(0)
		if end < 0 || end-x.p > 60 || end == x.p+1 {
			return false
		}
		if x.followsTimes(end+1) && !x.boundIsJoin(end+1) {
			return false
		}
		if x.by(end) {
			return true
		}
		after := &x.ts[end+1]
		if after.isAny("rep", "repeat", "rpt") && x.ts[min(end+2, len(x.ts)-1)].kind == tNum && x.worksWithin(0) {
			return false // "(sc 1, inc) rep 3"
		}
		if !x.worked && after.isAny("rep", "repeat", "rpt") {
			return false // "(1 sc, 2 sc) rep, join"
		}
		if after.isAny("in", "into") || after.isAny("rep", "repeat") && (x.ts[end+2].isAny("to", "around", "across", "until", "twice", "once", "this", "from") || x.ts[end+2].kind == tNum && x.ts[end+3].isAny("times", "more")) {
			return false
		}
		if !x.worked && len(before) == 0 && !x.loose(end) {
			return false
		}
		if isRowWord(after) && !after.is("r") && !after.head || after.is("more") && isRowWord(&x.ts[end+2]) {
			return false // "one (two) more rounds"
		}
		if x.ts[end-1].isAny("made", "worked", "formed") && x.partMade(end) || x.oneMeshIn(end) {
			return false
		}
		if x.at(1).kind == tNum && x.at(1).num == 1 && !x.at(1).frac && x.ts[end-2].isAny("each", "every") && x.ts[end-3].isAny("in", "into", "to", "for", "per") {
			return false // "(one sc in each row)": how they lie
		}
		x.p++
		if x.totalOfRows(start, before) {
			return true
		}
		if x.evenlyGloss(end) {
			x.p = start
			return false
		}
		last := end
		if x.ts[end-1].is(".") {
			last-- // "(10 spaces.)"
		}
		parts, ok := x.parts(last)
		x.againAfter()
		if !ok || x.p < last {
			x.p = start
			return false
		}
		if len(parts) == 1 && parts[0].Kind == PartStitches && parts[0].Name == "" && (x.at(-1).frac) {
			x.p = start
			return false
		}
		x.p = end + 1
		x.setTotal(parts, x.spanFrom(start), before)
		return true
	case t.isMark("-~/|") && x.betweenMarks(before):
		return true
	case t.isMark("-=:.;,/~|>"):
		if !x.worked || x.at(1).kind == tWord && !x.at(1).opens(opensTotal) {
			return false
		}
		return x.bareTotal(before)
	case t.in(totalOpeners):
		return x.wordTotal(before)
	case t.kind == tNum && !t.frac && x.worked && x.depth == 1 && !x.at(-1).separator() && (x.end1() || x.at(1).head && !t.head || x.at(1).is("|") && x.at(2).kind == tEnd):
		// a last column: "inc in each   12"
		start := x.p
		n, _ := x.number()
		x.accept("|")
		x.setTotal([]TotalPart{{N: n, Kind: PartStitches, Span: n.Span}}, x.spanFrom(start), before)
		return true
	case t.kind == tNum && !t.frac && x.worked && x.depth == 1 && x.nounFollows(1) && x.at(1).isAny("st", "sts", "stitches") && x.standsFree() && x.lastWordsAfter(2):
		n, _ := x.number() // "(1 sc, inc) x3 9 sts"
		x.p++
		x.setTotal([]TotalPart{{N: n, Kind: PartStitches, Span: n.Span, Name: x.at(-1).text}}, x.spanFrom(start), before)
		return true
	case t.kind == tNum && !t.frac && x.worked && x.depth == 1 && (x.bounded && x.at(-1).isMark(".;-") || x.at(-1).isMark(",.;-") && x.lastWordsAfter(2)) && x.at(1).isAny("now", "again", "still", "altogether") && (x.at(2).isMark(".!,;") || x.at(2).kind == tEnd):
		n, _ := x.number() // "join. 20 now."
		x.p++
		x.setTotal([]TotalPart{{N: n, Kind: PartStitches, Span: n.Span}}, x.spanFrom(start), before)
		return true
	case t.kind == tNum && !t.frac && x.worked && x.bounded && x.depth == 1 && x.at(-1).isMark(".;-,") && x.countAgain():
		return true
	case t.kind == tNum && !t.frac && (x.worked || x.row.Refer != nil) && x.depth == 1 && x.p > 0 && x.at(-1).isMark(".;-,") && x.countAtRow(before):
		return true
	case t.kind == tNum && t.head && x.worked && x.depth == 1:
		x.p-- // a total on a line of its own
		ok := x.bareTotal(before)
		if !ok {
			x.p = start
		}
		return ok
	case t.kind == tNum && x.worked && x.depth == 1 && x.bounded && !x.worksIn(-1):
		// "...in each st across 24 sc", "... around {no mark} 36 sts"
		if x.p > 0 && !x.at(-1).separator() {
			x.p--
			ok := x.bareTotal(before)
			if !ok {
				x.p = start
			}
			return ok
		}
	}
	return false
}

// partMade reports whether a bracket that ends in "made" tells of a part of the row, "dc
// in next 3 dc (1 block made), ... dc in last 3 dc (1 block made)": another one stands
// before it.
func (x *rowReader) partMade(end int) bool {
	for i := x.p - 1; i > 0; i-- {
		if x.ts[i].isMark(")]") && x.ts[i-1].text == x.ts[end-1].text {
			return true
		}
	}
	return false
}

// oneAt reports by its closing mark a bracket that holds "1" and the name of a thing, no
// stitch: "(1 sp)", "(1 bl.)".
func (x *rowReader) oneAt(end int) bool {
	for end > 3 && x.ts[end-1].is(".") {
		end-- // "(1 bl.)"
	}
	if end < 3 || !x.ts[end-3].isMark("([") || x.ts[end-2].kind != tNum || x.ts[end-2].num != 1 || x.ts[end-1].kind != tWord {
		return false
	}
	return !x.ts[end-1].plainStitch() && !x.ts[end-1].isAny("st", "sts", "stitch", "dec", "inc")
}

// listFollows reports whether a number begins what goes into one place together, "2 dc, ch
// 2 and 2 dc in last corner sp", and not what a row has come to.
func (x *rowReader) listFollows() bool {
	chain := false
	for k := 0; k < 24; {
		switch t := x.at(k); {
		case t.isMark(",") || t.isAny("and", "&", "then"):
			k++
			continue
		case t.isAny("ch", "chain") && x.at(k+1).kind == tNum:
			chain = true
			k += 2
			continue
		case t.kind == tNum && x.at(k+1).isAny("ch", "chain", "chs", "chains"):
			chain = true
			k += 2
			continue
		case t.kind != tNum || t.frac || k == 0 && x.at(k+1).isAny("st", "sts", "stitches"):
			return false
		}
		_, n := x.stitchAt(k + 1)
		if n == 0 {
			return false
		}
		joined := k > 0 && x.at(k-1).isAny("and", "&")
		k += 1 + n
		if x.at(k).is(".") && x.at(k+1).kind == tWord && !x.at(k+1).head {
			k++ // "2 d.c. in corner"
		}
		if chain && (joined && x.at(k).isAny("in", "into") || x.at(k).is("all") && x.at(k+1).isAny("in", "into")) {
			return true
		}
	}
	return false
}

// standsFree reports a number that no word before it claims: it stands behind what a step
// ends with, and not behind one of its own marks.
func (x *rowReader) standsFree() bool {
	p := x.at(-1)
	switch {
	case p.isMark(")]*"):
		return true
	case p.kind == tNum:
		return x.at(-2).isAny("x", "times", "rep", "repeat") || x.at(-2).is("*")
	}
	return p.isAny("st", "sts", "stitch", "stitches", "inc", "dec", "ring", "mr", "mc", "around", "round", "across", "times", "twice", "turn", "end") || p.plainStitch()
}

// countAtRow takes "25 on r12", "40 sts at row 9", "96 dc in the last round" for the
// total, where it is the end of the row: so many there are when that row is done.
func (x *rowReader) countAtRow(before []*Step) bool {
	start := x.p
	n, ok := x.number()
	part := TotalPart{N: n, Kind: PartStitches, Span: n.Span}
	if id, k := x.stitchAt(0); k > 0 && id != stitch.Slip {
		x.p += k
		part.Kind, part.ID = PartStitch, id
	}
	x.accept("sts", "st", "stitches")
	if save := x.p; ok && x.phrase("[now]", "in|on", "[the|this]", "[whole]", "rnd|round|row") && (x.end() || x.peek().isMark(".;!([{") || x.peek().head) {
		x.setTotal([]TotalPart{part}, x.spanFrom(start), before) // "30 sc in rnd.", "32 sc now on the round."
		return true
	} else {
		x.p = save
	}
	if save := x.p; ok && x.onLastRow() && (x.end() || x.peek().isMark(".;!([{") || x.peek().head) {
		part.Span = x.spanFrom(start)
		x.setTotal([]TotalPart{part}, x.spanFrom(start), before)
		return true
	} else {
		x.p = save
	}
	if ok && x.accept("on", "at", "after", "by", "in") {
		x.phrase("[the]", "[end]", "[of]", "[the]")
		if x.at(-1).is("in") || part.Kind == PartStitch {
			x.p = start
			return false
		}
		if isRowWord(x.peek()) && x.at(1).kind == tNum && x.at(1).num == x.row.Numbers.Last.N {
			x.p += 2
			if x.end() || x.peek().isMark(".;!([{") || x.peek().head {
				x.setTotal([]TotalPart{{N: n, Kind: PartStitches, Span: n.Span}}, x.spanFrom(start), before)
				return true
			}
		}
	}
	x.p = start
	return false
}

// by takes "(+8)", "(-6 sts)": by how many the round differs from the one below.
// It is held against the row, and against the total where one is stated.
func (x *rowReader) by(end int) bool {
	sign, n := x.at(1), x.at(2)
	if !sign.isMark("+-") || n.kind != tNum || n.frac || n.big || !x.worked || x.depth > 1 {
		return false
	}
	if end != x.p+3 && !(end == x.p+4 && x.at(3).isAny("st", "sts", "stitches", "sc", "dc", "hdc", "inc", "dec")) {
		return false
	}
	if t := x.row.Total; t != nil {
		if t.Span.End != int(x.at(-1).end) {
			return false
		}
		t.Span.End = int(x.ts[end].end)
	}
	x.row.changes = rowChanges{delta: Num{N: n.num, Span: n.span()}, deltaSet: true}
	if sign.is("-") {
		x.row.changes.delta.N = -n.num
	}
	x.p = end + 1
	return true
}

// worksIn reports whether "working 3 sc in each corner" stands k tokens on: that
// is worked, and no total.
func (x *rowReader) worksIn(k int) bool {
	if !x.at(k).isAny("working", "making", "placing", "work") || x.at(k+1).kind != tNum {
		return false
	}
	_, n := x.stitchAt(k + 2)
	return n > 0 && x.at(k+2+n).isAny("in", "into")
}

// longDash reports whether a token is a dash that print sets between a row and
// its total: "Repeat Row 18\u201440 dc" names one row.
func (x *rowReader) longDash(k int) bool {
	t := x.at(k)
	if !t.is("-") {
		return false
	}
	text := x.src.Text[t.start:]
	return strings.HasPrefix(text, "\u2014") || strings.HasPrefix(text, "--")
}

// loose reports whether a bracket before any work may still be a total: only
// where nothing follows it.
func (x *rowReader) loose(end int) bool {
	for i := end + 1; i < len(x.ts); i++ {
		if !x.ts[i].separator() && x.ts[i].kind != tEnd {
			return false
		}
	}
	return len(x.row.Steps) > 0 || x.lastStep != nil
}

// boundIsJoin reports whether what follows a bracket is not a repeat after
// all: "(18 sts), join".
func (x *rowReader) boundIsJoin(i int) bool {
	return x.ts[i].isMark(",") && !x.ts[i+1].isAny("rep", "repeat") && x.ts[i+1].kind != tNum && !x.ts[i+1].isAny("twice", "once", "x")
}

// wordTotal reads "you now have 36 sts", "making 24 sc", "total 18".
func (x *rowReader) wordTotal(before []*Step) bool {
	start := x.p
	if x.phrase("[so]", "at|by|after|on", "[the]", "end", "of", "[the|this]", "row|rnd|round") && x.peek().kind == tNum {
		x.p++ // "at the end of row 6 you will have 94 dc"
		if x.worked && x.peek().isMark(":-=") && x.at(1).kind == tNum {
			x.p++ // "At end of Rnd 10: 140 hdc"
			if parts, ok := x.parts(x.clauseEnd()); ok && parts[0].Kind != PartOther {
				x.setTotal(parts, x.spanFrom(start), before)
				return true
			}
			x.p = start
			return false
		}
	}
	if x.ts[start].is("after") && x.phrase("after", "[working|completing|finishing]") && isRowWord(x.peek()) && x.at(1).kind == tNum && x.at(1).num == x.row.Numbers.Last.N {
		x.p += 2 // "After Rnd 5 there are 76 dc"
		x.accept(",", ":")
	}
	if x.phrase("count|counting", "[in]", "[the|each|every|all]", "ch|chs|chain|chains", "[sts|stitches]", "[as|for]", "[a|1|one]", "st|sts|stitch|stitches") {
		if !x.peek().isAny("and", "so", ",", "you", "there") {
			x.p = start
			return false
		}
	}
	if x.peek().is(",") {
		x.p++
	}
	if x.countNamed(before) {
		return true
	}
	if x.peek().isAny("so", "and") && x.at(1).isAny("you", "you've", "you'll", "there", "that's") {
		x.p++ // "so you've got 12"
	}
	ok := x.phrase("you're|we're", "[now|back|down|up]", "[now|back|down|up]", "[to|at|on]") && x.peek().kind == tNum || x.phrase("you've", "[now]", "[got|made|worked]", "[now]", "[a]", "[total]", "[of]") && x.peek().kind == tNum || x.phrase("you|you'll|it", "[will|should|now|is|are]", "[be]", "[now|back]", "down|up|back", "to") || x.phrase("you'll|you'd", "[now]", "have|end|be|finish|get", "[now|left|up]", "[with]", "[a]", "[total]", "[of]") || x.phrase("[now]", "you", "[will|should|now|ought|still|again]", "[now|to|still]", "have|end|be|finish|get", "[now|left|up]", "[with]", "[a]", "[total]", "[of]") ||
		x.phrase("ends|ending|finishes|finishing|end|finish|down|up|back", "[up]", "at|to", "[a]", "[total]", "[of]") && x.peek().kind == tNum ||
		x.phrase("there", "[will|should]", "[now]", "[be|are|is]", "[now]") ||
		x.phrase("should|shd|shld", "[now]", "be|have|make|get", "[at|up|now]", "[to]", "[a]", "[total]", "[of]") && x.peek().kind == tNum ||
		x.phrase("making|giving|leaving|for", "[you|me|us]", "[a|in]", "[total]", "[of]", "[all]") || x.phrase("[stitch|st|sts]", "total|count", "[of]", "[is|:|=|-]") ||
		x.phrase("sts", ":|=") || x.againTold() || x.phrase("that's|thats|still|leaves|always") || x.phrase("that|which|this", "is|makes|gives|leaves|was|made|gave|left", "[you|me|us]", "[with]") || x.havingAtEnd()
	if u := x.at(1); ok && (u.in(lengthUnits) && !u.is("in") || u.is("-") && x.at(2).in(lengthUnits)) {
		ok = false // "leaving a 6-inch end"
	}
	if ok && x.ts[start].is("leaving") && x.peek().kind == tNum {
		_, n := x.stitchAt(1)
		if n == 0 && x.nounFollows(1) {
			n = 1
		}
		if x.at(1+n).isAny("for", "free", "unworked", "at", "on", "alone", "unused") {
			ok = false // "leaving 22 d.c. for front"
		}
	}
	if !ok || !x.worked && x.row.Refer == nil && !x.ts[start].isAny("total") {
		x.p = start
		return false
	}
	x.accept(":", "=", "-")
	if x.at(-1).isAny("up", "down") {
		x.p = start // "you're up two stitches"
		return false
	}
	if x.peek().kind != tNum || x.pat.filet && x.ts[start].isAny("for", "making", "giving") && (x.at(1).in(blockWords) || x.at(1).in(meshWords)) {
		x.p = start // "2 dc in next sp and dc in dc for 1 block, 6 spaces"
		return false
	}
	if x.totalOfRows(start, before) {
		return true
	}
	end := x.clauseEnd()
	if end-3 > x.p && x.ts[end-1].isAny("size", "sizes") && x.ts[end-3].isAny("in", "for") {
		end -= 3 // "3 sc in every size"
	}
	from := x.p
	parts, ok := x.parts(end)
	if !ok && x.ts[start].isAny("there", "that's", "making", "giving", "you", "you'll") {
		x.p = from // "There are 9 cream stripes.", "making 4 gates in all"
		var own TotalPart
		if own, ok = x.ownPart(end); ok && (x.peek().isMark(".!;(") || x.end() || x.phrase("in", "all|total") || x.phrase("altogether")) {
			parts = []TotalPart{own}
		} else {
			ok = false
		}
	}
	if !ok {
		x.p = start
		return false
	}
	if x.ts[start].isAny("for", "leaving", "to") && (len(parts) == 0 || parts[0].Kind == PartOther) {
		x.p = start
		return false
	}
	x.countingTail()
	x.phrase("in|for", "every|each|all", "size|sizes")
	x.phrase("[in]", "[total|all|altogether]")
	x.phrase("[told|again]")
	x.phrase("[by]", "now|still|again") // "that's 16 now"
	x.phrase("every|each", "time|row|rnd|round")
	x.phrase("on|at|in", "[the|this|your]", "[last|end]", "[of]", "[the]", "[row|rnd|round|hook|of]")
	if isRowWord(x.at(-1)) && x.peek().kind == tNum {
		x.p++
	}
	x.setTotal(parts, x.spanFrom(start), before)
	return true
}

// againTold takes "again", "once more" in front of a count that stays as it was.
func (x *rowReader) againTold() bool {
	start := x.p
	if x.phrase("[once]", "again|more") && x.at(-1).isAny("again", "more") && (x.at(-1).is("again") || x.p-start == 2) && x.peek().kind == tNum && !x.peek().frac && !x.at(1).isAny("times", "x") {
		return true
	}
	x.p = start
	return false
}

// countAgain takes "36 sc again" behind a row that has come to its end.
func (x *rowReader) countAgain() bool {
	start := x.p
	n, _ := x.number()
	p := TotalPart{N: n, Kind: PartStitches, Span: n.Span}
	if !x.pieceUnit(&p) || p.Kind == PartOther {
		x.p = start
		return false
	}
	unit := x.p
	if x.againAfter(); x.p == unit {
		x.p = start
		return false
	}
	p.Span = x.spanFrom(start)
	x.setTotal([]TotalPart{p}, p.Span, nil)
	return true
}

// againAfter takes a word behind a count that says it is as it was, or what it is now.
func (x *rowReader) againAfter() {
	if x.peek().isAny("again", "still", "now") && (x.end1() || x.at(1).separator() || x.at(1).isMark(")]}>!")) {
		x.p++
	}
}

// maxTotal is how many words a total may have at most.
const maxTotal = 200

// clauseEnd is the index where the words of a bare total may end at most.
func (x *rowReader) clauseEnd() int {
	i := x.p
	for i < len(x.ts)-1 && i < x.p+maxTotal && !x.ts[i].isMark(".)]}") {
		if x.ts[i].isMark("([{") {
			if len(x.pat.Sizes) < 2 || i == 0 || x.ts[i-1].kind != tNum || x.ts[i+1].kind != tNum {
				break
			}
			for i < len(x.ts)-1 && !x.ts[i].isMark(")]}") {
				i++
			}
		}
		i++
	}
	return min(i, len(x.ts)-1)
}

// bareTotal reads a total that no bracket marks: after a dash, an equals
// sign, a full stop.
func (x *rowReader) bareTotal(before []*Step) bool {
	start := x.p
	if x.depth > 1 {
		return false
	}
	mark := x.peek().text
	if x.peek().kind == tNum {
		mark = ""
	}
	if x.peek().kind == tPunct {
		x.p++
		for x.peek().isMark("-=:>~|/") {
			mark = x.peek().text
			x.p++
		}
	} else {
		x.p++ // the word before a number on a line of its own
		mark = "."
	}
	if x.passSum() {
		mark = "="
	}
	if x.peek().isAny("total", "count", "there", "you", "sts", "stitches", "now", "always", "should", "shd", "shld") || x.peek().is("back") && x.at(1).is("to") && x.at(2).kind == tNum {
		if x.wordTotal(before) {
			return true
		}
		x.p = start
		return false
	}
	if x.peek().kind != tNum || x.peek().frac {
		x.p = start
		return false
	}
	if x.eachRowsShare(0) > 0 {
		x.p = start
		return false
	}
	if x.totalOfRows(start, before) {
		return true
	}
	if x.at(2).kind == tNum && x.at(4).kind == tNum && x.at(1).is(",") && x.at(3).is(",") {
		x.p = start // "3, 2, 4": stitches in a row
		return false
	}
	if (mark == ";" || mark == "," || mark == ".") && x.listFollows() {
		x.p = start
		return false
	}
	parts, ok := x.parts(x.clauseEnd())
	if !ok || len(parts) == 0 || parts[0].Kind == PartOther && !(mark != "," && (x.lastWords() || onlyShares(parts) && x.bounded)) && !(parts[0].share && !onlyShares(parts)) {
		x.p = start
		return false
	}
	if t := x.peek(); mark == "," && t.head && (t.in(prepositions) || t.isAny("evenly", "down", "up", "along", "across", "around", "round")) {
		x.p = start
		return false // "10 sc" at the end of a line, and "evenly down the side" on the next
	}
	if mark != "=" && onlyShares(parts) && x.at(-1).isAny("corner", "corners", "point", "points") && parts[0].N.N <= maxInCorner {
		x.p = start
		return false // "sc around, 3 sc at each corner": stitches to work
	}
	if !x.countingTail() {
		x.countedFor()
	}
	x.againAfter()
	if !x.totalEnds() && !(x.peek().is("each") && x.end1()) {
		x.p = start
		return false
	}
	inMeshes := slices.ContainsFunc(parts, func(p TotalPart) bool { return p.ofBlocks() })
	if l := x.lastStep; mark == "," && !(x.bounded && l != nil && !l.isMesh() && len(parts) == 1) && (inMeshes || l != nil && l.isMesh() && parts[0].Name != "") {
		x.p = start // "1 block, 5 spaces, 2 blocks": meshes in a row
		return false
	}
	bare := parts[0].Name == ""
	if bare && x.ts[start].isAny("and", "&", "to", "or") && start > 0 && x.ts[start-1].kind == tNum {
		x.p = start
		return false // "for Rounds 6 and 7."
	}
	generic := parts[0].Kind == PartStitches && !bare
	certain := mark == "=" || mark == "-" || mark == "~" || mark == "|" || mark == "/" || mark == ">" || generic && mark != "," || x.bounded || mark == "." || mark == ":" || mark == ";"
	if x.at(-1).isAny("total", "altogether", "all") || x.peek().is("in") && x.at(1).isAny("total", "all") && (x.at(2).kind == tEnd || x.at(2).separator() || x.at(2).head) {
		certain, bare = true, false
	}
	if bare && mark != "=" && mark != "-" && mark != "~" && mark != "|" && mark != "/" && mark != ">" && !(x.bounded && (mark == ":" || mark == "." || mark == ";")) {
		certain = false
	}
	if x.peek().is("each") && x.at(1).kind == tEnd {
		x.p++ // "18 each": in each of the rounds
	}
	if bare && (mark == "." || mark == ";" || mark == ":") && x.depth == 1 && x.lastWords() {
		certain = true // "..., turn. 12", "sc2tog, sc in 5, sc2tog: 7"
	}
	if f := flowOf(before, x.countBefore); parts[0].eachRow {
		certain = true // "12 each time"
	} else if mark == "," && generic && !x.peek().isMark("([{") && x.lastWords() && x.at(-1).isAny("st", "sts", "stitches") && !f.unknown && f.makes == parts[0].N.N && f.makes > 1 && len(parts) == 1 {
		certain = true // "3 sc in 2nd ch from hook, 3 sts"
	} else if mark == "," && bare && x.lastWords() && (comesTo(before, parts[0].N.N) || comesAround(before, x.countBefore, parts[0].N.N) || parts[0].N.N > 1 && (x.bounded || x.loneStitch(before))) {
		certain = true // "inc x 6, 12", "sc, 21"
	} else if mark == "," && !generic && !certain {
		certain = x.bounded || len(parts) == 1 && x.end() && sumsTo(before, parts[0]) || len(parts) == 1 && x.lastWords() && x.nearerAsTotal(before, f, parts[0])
	}
	for _, p := range parts[1:] {
		certain = certain || p.Kind == PartSpace
	}
	if parts[0].Kind == PartChain {
		certain = false
	}
	if !certain {
		x.p = start
		return false
	}
	x.phrase("in", "total|all")
	x.accept("altogether", "total", "made")
	x.phrase("[left|remain|remaining|rem]")
	x.onNamedRow()
	x.setTotal(parts, x.spanFrom(start), before)
	return true
}

// nearerAsTotal reports whether a number of one kind behind a repeat is rather what the row
// comes to than more work: "(sc in next 5, 2 sc in next) 4 times, 28 sc", where the row
// below has no such number left.
func (x *rowReader) nearerAsTotal(before []*Step, f flow, p TotalPart) bool {
	n := p.N.N
	if f.unknown || f.makes < 2 || p.Kind != PartStitch || len(p.N.Sizes) > 0 || x.countBefore == 0 || !slices.ContainsFunc(before, func(s *Step) bool { return s.Op == OpGroup && s.Times.Kind == Exactly }) {
		return false
	}
	over := f.takes + n - x.countBefore // as work
	return over > max(f.makes-n, n-f.makes)
}

// countedFor passes over what the things counted are for, to the end of the clause:
// "14 holes for ribbon", "6 loops for the cord".
func (x *rowReader) countedFor() {
	start := x.p
	if !x.accept("for") || x.at(-2).kind == tNum {
		x.p = start
		return
	}
	for k := 0; k < 5; k++ {
		switch t := x.peek(); {
		case k > 0 && (t.kind == tEnd || t.separator()):
			return
		case t.kind != tWord || t.in(rowWords) || t.isAny("each", "every", "next", "times", "rep", "repeat", "turn", "ch", "size", "sizes") || x.stitchFollows(0):
			x.p = start
			return
		}
		x.p++
	}
	x.p = start
}

// lastWords reports whether nothing more is worked after a number: the row is
// done, or only the yarn is seen to.
func (x *rowReader) lastWords() bool { return x.lastWordsAfter(0) }

// lastWordsAfter is lastWords from the token k further on, past a total.
func (x *rowReader) lastWordsAfter(k int) bool {
	for ; ; k++ {
		switch t := x.at(k); {
		case t.kind == tEnd:
			return true
		case t.head && x.at(k-1).kind == tNum:
			return true
		case t.isMark("([{"):
			return x.at(k+1).kind == tNum
		case t.kind == tNum && (x.at(k+1).kind == tEnd || x.at(k-1).isMark("=-.")):
			return true
		case t.kind == tNum || t.kind == tOrd:
			return false
		case t.isAny("left", "remain", "remaining") && x.at(k-1).kind == tNum:
		case t.isAny("off") && t.head:
			return true
		case t.isAny("fasten", "fo", "f", "finish", "stuff", "cut", "break", "turn", "join"):
			return true
		case !t.separator():
			return false
		}
	}
}

// comesTo reports whether plain steps make just so many stitches.
func comesTo(steps []*Step, want int64) bool {
	if len(steps) > 60 {
		return false // nobody adds up so many, and it would be done at every comma
	}
	n, ok := plainSum(steps)
	return ok && n == want && n > 1
}

// comesAround reports whether plain steps that shape, worked over and over all along so many
// stitches, come to a total: "1 sc, 2 in the next, 18" over 12.
func comesAround(steps []*Step, below, total int64) bool {
	if len(steps) > 6 || below == 0 {
		return false
	}
	f := flowOf(steps, 0)
	return !f.unknown && f.takes > 0 && f.takes != f.makes && below > f.takes && below%f.takes == 0 && mul(f.makes, below/f.takes) == total
}

// loneStitch reports whether one stitch without a number is all that a row has said,
// "8-14 - sc, 21": it goes all the way along, and the number behind it is what there is.
func (x *rowReader) loneStitch(steps []*Step) bool {
	var s *Step
	for _, b := range steps {
		if b.Op != OpNote && s != nil {
			return false
		}
		if b.Op != OpNote {
			s = b
		}
	}
	return s != nil && x.afterRows && s.Op == OpWork && !s.Target.said && s.Target.Which == Next && s.Target.N.Span.Empty() && s.Target.N.N == 1 && s.N.Span.Empty() && s.N.N == 1 && s.Legs == 0 && stitch.Of(s.Stitch).Kind == stitch.Basic && s.Stitch != stitch.Slip
}

// plainSum adds up what steps make that say how many they are.
func plainSum(steps []*Step) (int64, bool) {
	sum := int64(0)
	for _, s := range steps {
		switch {
		case s.Op == OpTurn || s.Op == OpNote || s.Op == OpSkip || s.Op == OpColour || s.Op == OpRing || s.Op == OpStay:
		case s.Op == OpChain && sum == 0 && s.N.N <= 4:
		case s.Op == OpWork && (s.Target.Which == Next || s.Target.Which == InRing || s.Target.Which == Last || s.Target.Which == First) && s.Legs == 0:
			sum += mul(s.N.N, max(s.Target.N.N, 1))
		case s.Op == OpWork && s.Target.Which == Next && s.Legs > 0:
			sum += max(s.Target.N.N, 1)
		case s.Op == OpGroup && (s.Times.Kind == Exactly || s.Times.Kind == Once):
			n, ok := plainSum(s.Body)
			if !ok {
				return 0, false
			}
			if s.Times.Kind == Exactly {
				n = mul(n, s.Times.N.N)
			}
			sum += n
		default:
			return 0, false
		}
		if sum > maxNumber {
			return 0, false
		}
	}
	return sum, true
}

// sumsTo reports whether a row of plain numbers comes to just what its last
// words say again: "dc in next 20 sc, 20 dc".
func sumsTo(steps []*Step, p TotalPart) bool {
	sum := int64(0)
	for _, s := range steps {
		switch {
		case s.Op == OpTurn || s.Op == OpNote || s.Op == OpSkip:
		case s.Op == OpChain && sum == 0 && s.N.N <= 4:
		case s.Op == OpWork && s.Stitch == p.ID && s.Target.Which == Next && s.Target.said && s.Legs == 0 && s.N.N == 1:
			sum += s.Target.N.N
		default:
			return false
		}
	}
	return sum > 1 && sum == p.N.N
}

// closingWords tell what is done with a part whose stitches have been counted:
// "= 6, pull the hole together".
var closingWords = newWordSet("pull close finish sew cinch tie fill hide end off secure tighten gather thread press fold flatten attach embroider pin")

// totalEnds reports whether what follows could not go on with an instruction
// begun by the number just read.
func (x *rowReader) totalEnds() bool {
	t := x.peek()
	if t.kind == tEnd || t.separator() || t.isMark("([{)]}") {
		// "..., 6 sc, ch 2" goes on working
		for k := 0; ; k++ {
			t := x.at(k)
			switch {
			case t.kind == tEnd:
				return true
			case t.separator():
			case t.isAny("join", "turn", "ch", "chain", "fasten", "sl", "ss", "slip", "do", "don't", "fo", "break", "cut", "now", "and", "you", "place", "pm", "mark", "change", "with", "weave", "stuff", "leave", "repeat", "rep", "this", "these", "continue", "note", "move", "remove", "switch", "(", "[", "counting", "not", "start", "begin", "make", "turning", "insert", "add"), t.in(closingWords):
				return true
			case x.turnChainAt(k), x.shareAhead(k), t.is("excluding"), t.is("without") && x.at(k+1).isAny("counting", "including"):
				return true // "104 dc, that's 26 per side"
			case t.kind == tNum && !t.frac && k > 0 && x.at(k-1).is(".") && x.spacesCounted(k):
				return true // "48 dc. 4 ch-2 sps."
			case k > 0 && x.at(k-1).is(",") && x.idleTo(k, x.rowEnd(k)):
				return true // "56 sts, a little tighter"
			default:
				return t.head || t.isAny("the") || k > 0 && x.at(k-1).isMark(".!") && x.sentenceAt(k)
			}
		}
	}
	return t.isAny("altogether", "overall") || t.isAny("after", "by") && isRowWord(x.at(1)) && x.at(2).kind == tNum || t.isAny("join", "turn", "made", "total", "in", "on", "at", "around", "each", "now", "not", "ch", "and", "per", "fasten", "left", "remain", "remaining", "rem", "counting") && !t.isAny("in") && !(t.isAny("around", "on", "at", "each") && !x.at(1).isAny("hook", "end", "this", "row", "rnd", "round") && !(x.at(1).is("the") && x.at(2).isAny("hook", "end", "row", "rnd", "round"))) || t.isAny("in") && (x.at(1).isAny("total", "all") || x.ownRowAhead()) || t.head && !x.roundSomething()
}

// roundSomething reports whether "around the second leg" is where stitches go: no
// total ends before it, even at the end of a line.
func (x *rowReader) roundSomething() bool {
	return x.peek().isAny("around", "round", "along") && x.at(1).isAny("the", "each", "next", "both") && !x.at(2).isAny("hook", "end", "row", "rnd", "round")
}

// idleTo reports whether the words from the k-th on, up to a token and to the end of the
// row, work nothing and hold no number: what is said behind a comma of a row that has been
// counted, "20 sc, pm", "56 sts, a little tighter".
func (x *rowReader) idleTo(k, end int) bool {
	if end-x.p-k > maxIdle || x.p+k >= end || !x.ts[end].is(".") && x.ts[end].kind != tEnd || x.ts[end].is(".") && x.ts[end+1].kind != tEnd {
		return false
	}
	for ; x.p+k < end; k++ {
		t := x.at(k)
		if t.kind != tWord && !t.isMark(",!'") || t.in(idleNever) || x.stitchFollows(k) {
			return false
		}
	}
	return true
}

// rowEnd is the full stop at the end of the row, or its end, if it is near the k-th token.
func (x *rowReader) rowEnd(k int) int {
	i := x.p + k
	for i < len(x.ts)-1 && i < x.p+k+maxIdle+1 && !x.ts[i].is(".") {
		i++
	}
	return min(i, len(x.ts)-1)
}

// maxIdle is how many such words there may be.
const maxIdle = 12

// idleNever are words that work, or count.
var idleNever = newWordSet("ch chs chain chains sc dc hdc tr htr dtr sl ss slst st sts stitch stitches inc incs dec decs increase decrease skip sk miss rep repeat each every times twice once more less fewer in into to sp sps space spaces shell shells cluster picot tog together around across remaining left")

// sentenceAt reports whether a sentence of words begins k tokens on: a capital,
// and no stitch.
func (x *rowReader) sentenceAt(k int) bool {
	t := x.at(k)
	if t.kind != tWord {
		return false
	}
	c := x.src.Text[t.start]
	_, n := x.stitchAt(k)
	return 'A' <= c && c <= 'Z' && n == 0
}

// spacesCounted reports whether the number k tokens on counts spaces, and nothing
// follows: "4 ch-2 sps."
func (x *rowReader) spacesCounted(k int) bool {
	n, ok := x.nounAt(k + 1)
	return ok && n.filter.Kind == Space && n.chain == 0 && (x.at(k+1+n.tokens).kind == tEnd || x.at(k+1+n.tokens).is("."))
}

// totalLeads lead up to the number of a total.
var totalLeads = newWordSet("a = total about approx so now making be sts : rem with")

// parts = part { ( "," | "+" | "and" | "&" | ";" | "/" ) part } .
func (x *rowReader) parts(end int) ([]TotalPart, bool) {
	var out []TotalPart
	x.phrase("[you]", "[should|now|will]", "[now]", "have") // inside brackets
	x.totalFor(end)
	x.phrase("[total|st|stitch|sts]", "[of|count|total]", "[:|=|-]")
	x.acceptIn(totalLeads)
	x.passSum()
	sum := false
	for x.p < end {
		part, ok := x.part(end)
		if !ok && len(out) > 0 {
			part, ok = x.ownPart(end)
		}
		if !ok {
			return nil, false
		}
		if sum && (part.Kind == PartStitches || part.Kind == PartStitch) {
			out = slices.DeleteFunc(out, func(p TotalPart) bool { return p.Kind == PartStitches || p.Kind == PartStitch || p.Kind == PartChain }) // "12 + 6 = 18", "60 sc + 20 ch = 80"
		}
		if n := len(out); n > 0 && part.Kind == PartStitch && out[n-1].Kind == PartStitch && out[n-1].ID == part.ID && part.N.Sizes == nil && x.togBefore() {
			// "8 dc2tog, 5 dc": both are dc to the fabric
			out[n-1].N.N += part.N.N
			out[n-1].Span = cover(out[n-1].Span, part.Span)
		} else {
			out = append(out, part)
		}
		if n := x.inAllAhead(); n > 0 && (x.at(n).isAny(",", "and", "-", "(") && x.at(n+1).kind == tNum || len(out) > 1 && x.p+n >= end) {
			x.p += n // "84 sc total, 12 ch-3 sps", "24 dc per side, 96 in all"
		}
		save := x.p
		if t := x.peek(); t.is("-") && !t.glued && x.at(1).kind == tNum && !x.at(2).separator() && x.p < end {
			x.p++ // "30 tr - 10 groups"
		}
		sum = len(out) > 1 && x.accept("=") // not of one: "1 sc = 24 sc" ends the work and tells what it comes to
		x.accept(",", ";", "+", "/", "|", "&", ":")
		x.accept("and", "&", "plus", "with")
		if part.share && x.phraseAt(0, "[for|making|giving]", "[a]", "total|=", "[of]", "[:]") > 0 {
			x.phrase("[for|making|giving]", "[a]", "total|=", "[of]", "[:]") // "24 dc each side, total 96"
		}
		if x.peek().is("then") && x.at(1).kind == tNum {
			x.p++ // "24, then 18, then 12"
		}
		if x.peek().is("or") && x.at(1).kind == tNum && (x.at(2).in(blockWords) || x.at(2).in(meshWords) && x.pat.filet) {
			x.p++ // "58 dc, or 19 bls": the same in other words
		}
		if x.p >= end || x.turnChainAt(0) {
			if x.p != end {
				x.p = save
			}
			break
		}
		if x.p == save && x.peek().kind == tNum && x.p+1 < end && x.at(1).isAny("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps", "hole", "holes") {
			continue // "11 dc 10 sp"
		}
		if x.p == save {
			if !x.totalTail(end) {
				return nil, false
			}
			break
		}
		if x.peek().kind != tNum {
			x.p = save
			tail := x.p
			if !x.totalTail(end) {
				if x.peek().is(",") && (x.at(1).in(closingWords) || x.idleTo(1, end)) {
					break
				}
				return nil, false
			}
			if last := &out[len(out)-1]; last.Kind == PartSpace && x.halfAtEnds(tail) {
				last.ends = 2
			}
			if x.peek().isAny(",", "-", "=") && x.at(1).kind == tNum && x.p+1 < end && !x.at(-1).isAny(",", "-", "=") {
				if last := &out[len(out)-1]; last.Kind == PartNamed && !x.peek().is("=") {
					last.ends = 2 // what stands at the ends may be like one of them
				}
				x.p++
				continue
			}
			break
		}
	}
	out = mergeMeshes(out)
	settleFigures(out)
	return out, len(out) > 0
}

// inAllAhead is the length of words that say of the number before them that it is of all:
// "in all", "total", "altogether".
func (x *rowReader) inAllAhead() int {
	if x.peek().isAny("total", "altogether") {
		return 1
	}
	return max(0, x.phraseAt(0, "in", "all|total"))
}

// passSum passes over how a total comes about, "12 + 6 = 18 stitches", to what it is.
func (x *rowReader) passSum() bool {
	k := 1
	for x.at(k-1).kind == tNum && x.at(k).isAny("+", "-", "x", "times") && x.at(k+1).kind == tNum {
		k += 2
	}
	if k == 1 || !x.at(k).is("=") || x.at(k+1).kind != tNum {
		return false
	}
	x.p += k + 1
	return true
}

// mergeMeshes adds up meshes that are told in the order they stand: "7 sps, 1 bl,
// 7 sps".
func mergeMeshes(parts []TotalPart) []TotalPart {
	blocks, spaces := 0, 0
	for i := range parts {
		switch p := &parts[i]; {
		case p.ofBlocks():
			blocks++
		case p.Kind == PartSpace && p.N.Sizes == nil:
			spaces++
		default:
			return parts
		}
	}
	if blocks == 0 || spaces == 0 || blocks+spaces < 3 {
		return parts
	}
	var out []TotalPart
	for _, p := range parts {
		same := func(q TotalPart) bool { return q.Kind == p.Kind && q.Size == p.Size }
		if i := slices.IndexFunc(out, same); i >= 0 && p.N.Sizes == nil {
			out[i].N.N += p.N.N
			continue
		}
		out = append(out, p)
	}
	return out
}

// settleFigures leaves what rows look like uncounted where the stitches are
// counted beside it: "(5 petals, 40 sts)".
func settleFigures(parts []TotalPart) {
	counted, pairs := false, int64(0)
	for _, p := range parts {
		if p.word == "pairs" {
			pairs = p.N.N
		}
		counted = counted || p.Kind == PartStitches || p.Kind == PartStitch
	}
	for i := range parts {
		p := &parts[i]
		if len(parts) > 1 && p.Kind == PartNamed && p.word == "half" {
			p.Kind = PartOther // one of them may be a chain and what stands beside it
		}
		if counted && pairs > 0 && p.Kind == PartNamed && sameName(p.Name, "cluster") {
			p.ends = pairs // a pair is a group like them
		}
		if counted && p.Kind == PartNamed && p.Name == "group" && figureNames[strings.ToLower(p.word)] {
			p.Kind = PartOther
		}
	}
}

// togBefore reports whether one of the two parts just read counts stitches
// worked together.
func (x *rowReader) togBefore() bool {
	for i := x.p - 1; i > max(0, x.p-9); i-- {
		if t := &x.ts[i]; t.is("tog") || len(t.text) > 3 && t.text[len(t.text)-3:] == "tog" {
			return true
		}
	}
	return false
}

// totalFor passes over what a total is said to be of: "(Swatch: 27 dc)",
// "(for the sample: 40 sts)".
func (x *rowReader) totalFor(end int) {
	for k := 0; k < 5 && x.p+k < end; k++ {
		t := x.at(k)
		if t.is(":") {
			if k > 0 && x.at(k+1).kind == tNum {
				x.p += k + 1
			}
			return
		}
		if _, n := x.stitchAt(k); t.kind != tWord || n > 0 || t.isAny("ch", "rep", "repeat", "row", "rnd", "round", "each", "every", "from", "skip", "inc", "dec") {
			return
		}
	}
}

// totalTail passes over words after the numbers that change nothing.
func (x *rowReader) totalTail(end int) bool {
	save := x.p
	x.accept(",", ";", "-")
	if x.at(-1).is(",") && x.lastWords() && !x.end() {
		x.p = save
		return true // "12, fasten off"
	}
	if x.tailWords(end) {
		return true
	}
	if from := x.p; from == save+1 {
		var c Counts
		if x.readCounts(&c) && x.p >= end {
			return true // "18 hdc; the ch-2 isn't one"
		}
		x.p = from
	}
	if from := x.p; x.p <= save+1 {
		if x.p = save; x.countingTail() && (x.p <= end || x.ts[end].is(".") || x.ts[end].kind == tEnd) {
			return true
		}
		x.p = from
	}
	if k := x.phraseAt(0, "[and|but]", "not|never|instead", "[of|the]"); k > 0 && x.at(k).kind == tNum {
		x.p += k + 1 // "17 sc, not 20!"
		x.nounDrop()
		return x.p >= end
	}
	if x.phrase("i", "[.]", "e", "[.]") || x.phrase("so", "far") || x.phrase("by", "now") || x.peek().isAny("total", "in", "at", "not", "made", "each", "per", "on", "around", "counting", "including", "now", "all", "every", "to", "altogether", "across", "rem", "remain", "remaining", "left", "increased", "inc", "dec", "decreased", "for", "worked", "completed", "complete", "excluding", "if", "st", "after", "x", "and", "join", "turn") {
		if x.peek().isAny("in", "to") && !x.at(1).isAny("total", "all", "each", "every", "rnd", "round", "row", "this", "a", "the", "ring") && x.at(-1).kind != tNum {
			x.p = save
			return false
		}
		if x.phraseAt(0, "in|on|at|after|for", "each|every|all", "[of]", "[these|the]", "row|rnd|round|rows|rnds|rounds") <= 0 && x.peek().isAny("in") && x.at(1).isAny("each", "every", "the", "next", "ring") || x.peek().isAny("x", "each", "around", "across") && x.at(1).kind == tNum {
			x.p = save
			return false
		}
		if x.ts[end].kind == tPunct && x.ts[end].isMark(")]}>") {
			x.p = end
		}
		return true
	}
	x.p = save
	return x.p >= end || x.ts[end].isMark(".([") && x.peek().separator() || x.peek().head
}

// tailWords takes words behind the numbers that count no more than one thing, to
// the end of the total: "6 shells with a sc on each side", "5 whole shells, a
// half shell each end".
func (x *rowReader) tailWords(end int) bool {
	start := x.p
	if x.onLastRow() || x.whenMade(end) {
		return x.p >= end
	}
	x.accept("and", "with", "plus", "+", "&")
	if !x.peek().isAny("a", "one", "half") {
		if !x.phrase("all", "told") && !x.phrase("respectively") && !x.phrase("in", "turn|order") && !x.phrase("in", "that|this", "order") && !x.phrase("row|rnd|round|one", "by|after", "[the]", "row|rnd|round|one|other") {
			x.p = start
			return false
		}
		return x.p >= end
	}
	place := false
	for x.p < end {
		t := x.peek()
		if place && t.isAny(",", "-", "=") && x.at(1).kind == tNum && !x.at(1).frac {
			return true // "39 clusters with a pair of trebles at each end, 121 tr": the count itself is next
		}
		if t.kind != tWord && !t.is("one") && !t.is("half") || t.head && t.blank || t.isAny("in", "into", "next", "ch", "chain", "skip", "sk", "miss", "turn", "join", "rep", "repeat", "then", "work", "from", "to") {
			x.p = start
			return false
		}
		place = place || t.isAny("side", "sides", "end", "ends", "between", "corner", "edge")
		x.p++
	}
	if !place {
		x.p = start
	}
	return place
}

// onLastRow takes "on the last row" behind the count of several rows: so many the last of
// them has.
func (x *rowReader) onLastRow() bool {
	return (x.row.Refer != nil || x.rowsToTell() > 1) && x.phrase("[now|left]", "on|in|at|after|for", "[the]", "[end]", "[of]", "[the]", "last|final", "row|rnd|round|one")
}

// whenWords are the words of when a count is reached: "when you've finished", "once all of
// these rounds are worked".
var whenWords = newWordSet("you you've you're we have i finish finished finishing complete completed done end reach reached get got to the of at on row rnd round rows rounds rnds all these last final is are has been worked made through it this that time")

// whenMade takes when a count is reached, to the end of the total: "when you finish Row 10",
// "once Row 21 is done", "by the time you get to the end of Rnd 9". A row named has to be the
// last that is told.
func (x *rowReader) whenMade(end int) bool {
	start := x.p
	if !x.phrase("when|once|after") && !x.phrase("by", "the", "time") && !x.phrase("as", "soon", "as") {
		return false
	}
	for from := x.p; x.p < end && (x.peek().in(whenWords) || x.peek().kind == tNum && isRowWord(x.at(-1))); x.p++ {
		if t := x.peek(); t.kind == tNum && t.num != x.row.Numbers.Last.N || x.p > from+12 {
			break
		}
	}
	if x.p >= end {
		return true
	}
	x.p = start
	return false
}

// afterNumber may follow a number that counts stitches, where they are not named.
var afterNumber = newWordSet("+ & and ) ] } > total in at i each per made altogether left rem remain")

// spaceShapes are what chain spaces of one size are called where they shape the work: "6 ch-3
// points", "4 ch-2 corners".
var spaceShapes = newWordSet("corner corners point points tip tips peak peaks arch arches bridge bridges holes windows eyelets gaps bars spokes")

// chainShape reads the size of chains and what they are called, which a number before them
// counts: "ch-3 points", "ch 5 peaks". At the end of the total a size alone will do. It gives
// the word, or nil, and how many tokens that takes; 0 where it is something else.
func (x *rowReader) chainShape(end int) (size int64, shape *token, n int) {
	if !x.peek().isAny("ch", "chain") {
		return 0, nil, 0
	}
	k := 1
	dash := x.at(k).is("-")
	if dash {
		k++
	}
	t := x.at(k)
	if t.kind != tNum || t.frac {
		return 0, nil, 0
	}
	if k++; x.at(k).is("-") && (x.at(k+1).in(spaceShapes) || figureNames[x.at(k+1).text]) {
		k++
	}
	switch w := x.at(k); {
	case w.in(spaceShapes), figureNames[w.text]:
		return t.num, w, k + 1
	case dash && x.p+k >= end:
		return t.num, nil, k
	}
	return 0, nil, 0
}

// plain part = number [ "x" ] [ unit ] .
func (x *rowReader) plainPart(end int) (TotalPart, bool) {
	start := x.p
	if x.peek().kind != tNum || x.peek().frac {
		return TotalPart{}, false
	}
	n, _ := x.number()
	p := TotalPart{N: n, Kind: PartStitches}
	defer func() { p.Span = x.spanFrom(start) }()
	x.accept("x")
	if x.peek().is("-") && x.at(1).isAny("ch", "chain") {
		// "4-ch loops"
		x.p = start
		return TotalPart{}, false
	}
	x.accept("more", "total", "new", "rem", "remaining", "whole", "altogether")
	if x.p >= end || x.peek().head && !x.inBracket(end) && !x.unitWraps() {
		p.Span = x.spanFrom(start)
		return p, true
	}
	if size, shape, n := x.chainShape(end); n > 0 {
		if p.Kind, p.Size, p.Name = PartSpace, size, "ch sp"; shape != nil && !shape.in(spaceShapes) {
			p = TotalPart{N: p.N, Kind: PartOther, Name: shape.text, word: shape.text} // made of more than the chains
		}
		x.p += n
		p.Span = x.spanFrom(start)
		return p, true
	}
	t := x.peek()
	if sp, ok := x.sizedSpace(0); ok && t.kind == tNum {
		x.p += sp.tokens
		p.Kind, p.Size, p.Name = PartSpace, sp.filter.Size, "ch sp"
		p.Span = x.spanFrom(start)
		return p, true
	}
	if t.separator() || t.in(afterNumber) || x.eachRowAhead(0) > 0 {
		p.Span = x.spanFrom(start)
		return p, true
	}
	if t.is("across") && (x.p+1 >= end || x.at(1).separator()) {
		x.p++ // "sc thru both, 12 across"
		p.Span = x.spanFrom(start)
		return p, true
	}
	if x.groupsOf(&p) {
		p.Span = x.spanFrom(start)
		return p, true
	}
	if t.isAny("groups", "clusters", "sets") && x.at(1).is("of") {
		if id, k := x.stitchAt(2); k > 0 && id != stitch.None && !x.at(2+k).isAny("in", "each") {
			x.p += 2 + k // "4 groups of dc"
			p.Kind, p.ID, p.Name = PartOther, id, "groups"
			p.Span = x.spanFrom(start)
			return p, true
		}
	}
	if t.isAny("pairs", "pair") && x.at(1).is("of") {
		if id, k := x.stitchAt(2); k > 0 && id != stitch.None {
			x.p += 2 + k // "16 pairs of tr"
			p.Kind, p.ID, p.Name, p.per = PartOther, id, "pairs", 2
			p.Span = x.spanFrom(start)
			return p, true
		}
	}
	if x.pieceUnit(&p) {
		p.Span = x.spanFrom(start)
		return p, true
	}
	like := ""
	if t.isAny("half", "large", "small", "big", "little", "complete", "full", "tiny") && x.at(1).kind == tWord && strings.HasSuffix(x.at(1).text, "s") {
		like = t.text + " " // "2 half shells", "22 large shells"
		x.p++
		t = x.peek()
	}
	if t.kind == tWord && len(t.text) > 3 && (strings.HasSuffix(t.text, "s") || n.N == 1) && !t.isAny("times", "sides", "rows", "inches", "repeats") && (x.p+1 >= end || x.at(1).separator() || x.at(1).isAny(")", "]", "}", "+", "and", "&")) {
		x.p++
		p.Kind, p.Name = PartOther, like+t.text // something of the author's own
		p.Span = x.spanFrom(start)
		return p, true
	}
	x.p = start
	return TotalPart{}, false
}

// inBracket reports whether the words of a total end at a closing bracket:
// then the end of a line does not end them.
func (x *rowReader) inBracket(end int) bool {
	if x.ts[end].is(".") {
		end++
	}
	return end < len(x.ts) && x.ts[end].isAny(")", "]", "}", ">")
}

// unitWraps reports whether what a number counts stands alone at the head of
// the next line: "34" and below it "sts."
func (x *rowReader) unitWraps() bool {
	if x.peek().blank {
		return false
	}
	n, ok := x.nounAt(0)
	if !ok {
		return false
	}
	after := x.at(n.tokens)
	if after.is(".") || after.kind == tEnd || after.head {
		return true
	}
	// "30" and below it "sc on rnd.", "sts in all."
	k := x.phraseAt(n.tokens, "on|in|around|left|remaining|altogether", "[the|this|your]", "[rnd|round|row|rd|all|total|hook]")
	return k > 0 && (x.at(n.tokens+k).is(".") || x.at(n.tokens+k).kind == tEnd)
}

// ownPart reads a further part that counts something in the author's own
// words: "12 dc and 4 ch-2 corners", "30 sc, 5 shell points".
func (x *rowReader) ownPart(end int) (TotalPart, bool) {
	start := x.p
	if x.peek().kind != tNum || x.peek().frac {
		return TotalPart{}, false
	}
	n, _ := x.number()
	p := TotalPart{N: n, Kind: PartOther}
	from := x.p
	if x.phrase("of", "them|these|which", "[are]") && x.p < end {
		named := p // "18 sts, 6 of them bobbles"
		if x.pieceUnit(&named) && named.Kind == PartNamed && (x.p >= end || x.peek().isAny(",", ";", "and", "&")) {
			named.Span = x.spanFrom(start)
			return named, true
		}
	}
	x.p = from
	for x.p < end && x.p-from < 5 && !x.peek().isAny(",", ";", "+", "and", "&", "plus", "with") {
		t := x.peek()
		if t.isAny("in", "into", "to", "around", "each", "times", "x", "(", "[", "*", "rep", "repeat") {
			break
		}
		x.p++
	}
	ofThem := x.ts[from].is("of") && x.ts[from+1].isAny("them", "these", "which")
	if last := x.at(-1); x.p == from || last.kind != tWord || !strings.HasSuffix(last.text, "s") && !ofThem || x.p < end && !x.peek().isAny(",", ";", "+", "and", "&", "plus", "with") && x.phraseAt(0, "in", "all|total") < 0 {
		x.p = start
		return TotalPart{}, false
	}
	p.Span = x.spanFrom(start)
	p.Name = x.src.Slice(Span{p.N.Span.End, p.Span.End})
	return p, true
}

// pieceUnit reads what a number of a total counts.
func (x *rowReader) pieceUnit(p *TotalPart) bool {
	t := x.peek()
	p.Name, p.word = t.text, t.text
	switch {
	case (x.pat.meshes != nil || x.pat.filet) && t.isAny("square", "squares", "sq", "sqs"):
		x.p++
		p.Kind, p.word = PartSpace, "meshes"
		return true
	case t.isAny("picot", "picots"):
		x.p++
		p.Kind = PartNamed
		return true
	case t.is("ps"):
		x.p++
		p.Kind, p.Name = PartNamed, "picot"
		return true
	case t.in(blockWords):
		x.p++
		p.Kind, p.Name = PartNamed, "group"
		return true
	case t.in(bareVs):
		x.p += max(groupWord(x, 0), 1)
		p.Kind, p.Name = PartNamed, "v st"
		return true
	}
	if sp, n := x.specialAt(0); n > 0 {
		x.p += n
		x.accept("st", "sts", "stitches")
		p.Kind, p.Name = PartNamed, sp.Names[0]
		return true
	}
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
		switch {
		case n.filter.Kind == AnyStitch && !n.turn && !n.ring && !n.edge:
			p.Kind = PartStitches
			x.phrase("(", "[not]", "counting", ")")
		case n.filter.Kind == OneStitch && t.isAny("inc", "incs", "increase", "increases"):
			p.Kind, p.Name = PartOther, t.text // each is two stitches, or three
		case n.filter.Kind == OneStitch:
			p.Kind, p.ID = PartStitch, n.filter.Stitch
			x.accept("sts", "stitches")
		case n.filter.Kind == Space:
			p.Kind, p.Size = PartSpace, n.filter.Size
			if n.chain > 0 && x.spaceAfter(0) == 0 {
				p.Size = n.chain
			}
		case n.filter.Kind == ChainStitch:
			p.Kind = PartChain
		case n.filter.Kind == AnyCluster, n.filter.Kind == NamedGroup, n.filter.Kind == PicotPlace:
			p.Kind, p.ID = PartNamed, n.filter.Stitch
			if n.filter.Name != "" {
				p.Name = n.filter.Name
			}
		default:
			return false
		}
		x.accept("tog")
		if t.isAny("corner", "corners") && (p.Kind == PartStitches || p.Kind == PartStitch || n.filter.Name == "corner") {
			p.Kind, p.word = PartOther, cornerWord // a corner is made of anything
		}
		return true
	}
	if t.isAny("petals", "points", "ripples", "ridges", "tiles", "clusters", "patterns", "repeats", "reps", "corners", "motifs", "squares", "rows", "rnds", "sides", "blocks", "leaves", "rays", "scallops", "waves", "peaks", "crosses", "pairs", "puffs", "increases", "decreases", "inc", "dec", "more", "fewer", "less", "fins", "bumps", "pattern", "times", "sections", "pineapples", "wedges", "ribs", "arms", "per", "knots", "stars", "legs", "tips") {
		if t.is("times") {
			return false
		}
		x.p++
		p.Kind = PartOther
		return true
	}
	return false
}

// cornerWord is the word of a part that counts corners, or the stitches in them.
const cornerWord = "corners"

// notMade say of a number that it counts what is not in the row.
var notMade = newWordSet("unworked dropped unmade skipped missed")

// partlyWords say of a number that it is a part of the row, or what it changes by.
var partlyWords = newWordSet("increased decreased inc'd dec'd per added fewer dropped less")

// figureNames are words for what a row comes to look like, which may be made
// of anything.
var figureNames = map[string]bool{"petal": true, "petals": true, "scallop": true, "scallops": true, "section": true, "sections": true, "point": true, "points": true, "tip": true, "tips": true, "peak": true, "peaks": true, "leaf": true, "leaves": true, "spike": true, "spikes": true, "star": true, "stars": true, "spoke": true, "spokes": true, "ray": true, "rays": true, "arm": true, "arms": true, "pair": true, "pairs": true, "block": true, "blocks": true, "blk": true, "blks": true}

// setTotal keeps a total; a later one stands in its place.
func (x *rowReader) setTotal(parts []TotalPart, sp Span, before []*Step) {
	t := &Total{Span: sp, Parts: parts, Text: x.src.Slice(sp), after: len(before), depth: x.depth}
	for i := range parts {
		if n := len(x.row.shares); parts[i].share && x.depth <= 1 && (n == 0 || x.row.shares[n-1].Span != parts[i].Span) {
			x.row.shares = append(x.row.shares, parts[i])
		}
	}
	// "(12 more)", "(4 sts increased)", "(6 per side)": not a total of the row
	from := min(x.p, len(x.ts))
	for from > 0 && int(x.ts[from-1].start) >= sp.Start {
		from--
	}
	if len(parts) > 0 {
		parts[0].noChains = x.leavesChainsOut(from, sp.End)
	}
	for i := from; i < len(x.ts) && int(x.ts[i].start) < sp.End; i++ {
		w := &x.ts[i]
		if w.kind != tWord || inShare(parts, w) && !onlyShares(parts) {
			continue
		}
		if w.in(notMade) {
			t = nil
			break
		}
		if w.in(partlyWords) || w.isAny("more") && !w.isAny("times") ||
			w.isAny("each") && x.tokenAfter(i).isAny("side", "edge", "end", "corner", "petal", "section") && !countsAfter(parts, w) && !x.besides(parts, i) || w.isAny("to", "on", "between") && x.tokenAfter(i).isAny("a", "each") && !countsAfter(parts, w) || w.isAny("made", "worked") && x.depth > 1 {
			if w.isAny("more", "increased", "decreased", "fewer", "added", "less", "dropped") && len(parts) == 1 && x.row.Total == nil && x.depth == 1 && parts[0].Kind != PartOther {
				n := parts[0].N
				if w.isAny("decreased", "fewer", "less", "dropped") {
					n.N = -n.N
				}
				if x.rowsToTell() == 1 || !inAllOf(x.ts[i:min(len(x.ts), i+5)]) {
					x.row.changes = rowChanges{delta: n, deltaSet: true}
				}
			}
			t = nil
			break
		}
	}
	if t == nil || x.depth > 1 || onlyShares(parts) && parts[0].halves {
		return
	}
	if was := x.row.Total; was != nil && checkable(was) {
		if !checkable(t) || onlySlips(t) && !onlySlips(was) {
			return // "(18) [5 rounds]", "sl st through both layers, 9 sl sts in all": it counts something else
		}
		if x.saysMore(was, t) {
			return
		}
	}
	x.row.Total = t
}

// inAllOf reports whether a change is told of all rows of a range: "6 sts increased in
// all".
func inAllOf(words []token) bool {
	for i := range words {
		if w := &words[i]; w.isMark(")]}") {
			break
		} else if w.isAny("all", "total", "altogether", "overall") {
			return true
		}
	}
	return false
}

// halfAtEnds reports whether the words from a token on tell of a half loop at both
// ends of the row, "and a half loop at either end": they are spaces too.
func (x *rowReader) halfAtEnds(from int) bool {
	half := false
	for i := from; i < x.p && i+1 < len(x.ts); i++ {
		half = half || x.ts[i].is("half")
		if half && x.ts[i].isAny("each", "either", "both") && x.ts[i+1].isAny("end", "ends", "side", "sides") {
			return true
		}
	}
	return false
}

// besides reports whether the words before a token tell of one thing more at the
// ends of the row, which the numbers before it leave out: "5 fans and a half fan at
// each edge".
func (x *rowReader) besides(parts []TotalPart, i int) bool {
	if parts[0].Kind != PartNamed || !x.tokenAfter(i).isAny("edge", "end") {
		return false
	}
	for k := i - 1; k > 1 && int(x.ts[k].start) >= parts[len(parts)-1].Span.End; k-- {
		if x.ts[k].isAny("a", "one", "half") && x.ts[k-1].isAny("+", "&", "and", "with", "plus") {
			return true
		}
	}
	return false
}

// countsAfter reports whether the stitches are counted behind a word that tells of a
// part of them: "39 clusters with a pair of trebles at each end, 121 tr".
func countsAfter(parts []TotalPart, w *token) bool {
	last := &parts[len(parts)-1]
	return len(parts) > 1 && parts[0].Kind != PartStitches && parts[0].Kind != PartStitch && (last.Kind == PartStitches || last.Kind == PartStitch) && last.Span.Start > int(w.start)
}

// saysMore adds a total to the one right before it where the two count other
// things: "43 dc (14 blocks)", "48 dc. 4 corner sps."
func (x *rowReader) saysMore(was, more *Total) bool {
	between := x.src.Text[was.Span.End:max(was.Span.End, more.Span.Start)]
	if strings.Trim(between, " .,;:-=([\n") != "" {
		return false
	}
	for _, a := range was.Parts {
		for _, b := range more.Parts {
			if a.Kind == b.Kind || a.Kind != PartStitch && a.Kind != PartStitches || b.Kind == PartStitch || b.Kind == PartStitches || b.Kind == PartChain {
				return false
			}
		}
	}
	was.Parts = append(was.Parts, more.Parts...)
	was.Span = cover(was.Span, more.Span)
	was.Text = x.src.Slice(was.Span)
	settleFigures(was.Parts)
	return true
}

func (x *rowReader) tokenAfter(i int) *token {
	if i+1 < len(x.ts) {
		return &x.ts[i+1]
	}
	return &x.ts[len(x.ts)-1]
}

// settleTotal drops a number that turned out to stand amid the work: a gloss
// on one instruction, not the total of the row.
func (x *rowReader) settleTotal() {
	x.settleChange()
	t := x.row.Total
	if t == nil || t.first {
		return
	}
	for _, s := range x.row.Steps {
		if s.Span.Start < t.Span.Start {
			continue
		}
		if makesStitches(s) {
			if s.Op == OpWork && s.Stitch == stitch.Slip {
				continue
			}
			x.row.Total = nil
			return
		}
	}
}

// settleChange leaves a change in number that is told amid the work to the step
// before it, where it is just what that one step changes: "dc2tog over first 2 dc (1
// dc decreased), dc in each dc to end". It is not what the whole row changes then.
func (x *rowReader) settleChange() {
	c := &x.row.changes
	if !c.deltaSet || c.delta.N == 0 || len(c.delta.Sizes) > 0 || c.delta.Span.Empty() {
		return
	}
	var last *Step
	for _, s := range x.row.Steps {
		if s.Op == OpNote {
			continue
		}
		if s.Span.Start < c.delta.Span.Start {
			last = s
			continue
		}
		if makesStitches(s) && s.Op != OpDelta && last != nil && last.Op == OpWork && last.Target.Which != Each && last.N.N-int64(max(last.Legs, 1)) == c.delta.N {
			*c = rowChanges{}
		}
		return
	}
}

func makesStitches(s *Step) bool {
	switch s.Op {
	case OpWork, OpInto, OpFree, OpEven, OpDelta, OpAlong:
		return true
	case OpGroup:
		for _, b := range s.Body {
			if makesStitches(b) {
				return true
			}
		}
	}
	return false
}

// turnChainAt reports k tokens on the chain to turn with, "1 ch., turn", which ends a total told in a
// sentence: "24 d.c. in all, 1 ch., turn".
func (x *rowReader) turnChainAt(k int) bool {
	if x.at(k).kind != tNum || !x.at(k+1).isAny("ch", "chs", "chain", "chains") {
		return false
	}
	k += 2
	for x.at(k).isMark(".,;") || x.at(k).isAny("and", "to", "then") {
		k++
	}
	return x.at(k).isAny("turn", "turning")
}

// ownRowAhead reports words for the last row of the label, "in Round 10", before a stop.
func (x *rowReader) ownRowAhead() bool {
	save := x.p
	defer func() { x.p = save }()
	return x.onNamedRow() && (x.end() || x.peek().separator() || x.peek().isMark(")]}"))
}

// onNamedRow takes the row that has so many stitches: "(80 sc) at end of Row 56", "17 sc
// on the 5th row"; with "in" only the last row of the label, "70 sc in Round 10".
func (x *rowReader) onNamedRow() bool {
	save := x.p
	in := x.peek().is("in")
	if x.phrase("in|at|on|after|by", "[the]", "[end]", "[of]", "[the|this]") {
		if n, ok := x.rowName(); ok && (!in || n.N == max(x.row.Numbers.First.N, x.row.Numbers.Last.N)) {
			return true
		}
	}
	x.p = save
	return false
}
