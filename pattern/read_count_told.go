package pattern

import "slices"

// Authors tell the count of a row in a clause of their own, in ever other words: "so
// you're at 18 now", "which brings you up to 24", "doubling your stitches to 40", "and 6
// are left". What they have in common is that no word of them works anything, and that
// there is one number of stitches.

// countTalkWords are the words of such a clause.
const countTalkWords = "us u if sure certain that'll it'll there'll they'll strong them there there's you you'll you'd you've you're your yours we we'll we've we're our i my it it's that that's thats which this these those they them will would should ought shall must can could now be been being am is are was were have has had having got get gets getting so and but then again once more-or-less still just exactly only even up down back at to with by for a an the total totals of in all altogether overall count counts counted counting number stitch stitches st sts row rnd round rd hook needle giving gives give given become becomes becoming making makes make made leaving leaves leave left ending ends end ended finish finishes finishing finished result results resulting bring brings bringing brought take takes taking took come comes coming came arrive arrives arriving reach reaches reaching land lands landing keep keeps keeping stay stays staying stand stands standing remain remains remaining unchanged same as before double doubles doubling doubled triple triples tripling tripled halve halves halving halved grow grows growing grown shrink shrinks shrinking increase increases increasing increased decrease decreases decreasing decreased reduce reduces reducing reduced drop drops dropping dropped raise raises raising go goes going gone here time final finally point stage means meaning meant check should've see find last tally thus hence therefore yes right means always from on throughout onward onwards everytime every until far again"

var countTalk = newWordSet(countTalkWords)

// countVerbs are those of them that tell of a number that there is one of stitches.
var countVerbs = newWordSet("that'll it'll there'll be is are was were you're you've we're we've it's that's thats there's have has had having got get gets getting gives giving give makes making make made leaves leaving leave left ends ending end ended finish finishes finishing finished results resulting result bring brings bringing brought take takes taking come comes coming arrive arrives arriving reach reaches reaching land lands landing keep keeps keeping stay stays staying remain remains remaining total totals count counts counted counting doubling doubles doubled tripling triples tripled halving halves halved growing grows grow shrinking shrinks shrink increasing decreasing reducing reduces dropping drops raising going goes up down altogether means meaning tally")

// countVerbsAfter are the verbs that may stand behind the number alone: "and 6 are left".
var countVerbsAfter = newWordSet("are is left remain remains remaining total altogether overall strong")

// countChanges tell what becomes of the number.
var countChanges = newWordSet("increasing increases decreasing decreases dropping drops reducing reduces growing grows shrinking shrinks raising adding adds")

// countHints may stand alone beside a bare number, behind a row that is whole: "so 12",
// "20 now", "still 23".
var countHints = newWordSet("always far every so now again still then only finally altogether overall here yes")

// maxCountTalk is how many words may stand before the number.
const maxCountTalk = 14

// countTold = talk number [ noun ] talk .
func (x *rowReader) countTold(before []*Step) bool {
	told := x.row.Refer != nil && len(before) == 0 // of the rows that are repeated
	if !x.worked && !told || x.depth > 1 || x.p == 0 || told && !x.peek().isAny("you", "you'll", "you'd", "there", "there'll", "always", "it", "still") {
		return false
	}
	if x.otherCount() {
		return false
	}
	if prev := x.at(-1); !x.bounded && !prev.separator() && !prev.isMark("!?)]}") && !prev.isAny("and", "so", "which", "then") && !x.peek().isAny("so", "thats", "that's", "which") {
		return false
	}
	start, k, verb, hint := x.p, 0, false, false
	fail := func() bool { x.p = start; return false }
	x.withTheChain()
	for ; x.at(k).kind != tNum; k++ {
		t := x.at(k)
		if k > maxCountTalk || !t.in(countTalk) && !(k > 0 && (t.is(",") && x.at(k+1).in(countTalk) || t.kind == tOrd && isRowWord(x.at(k+1)))) {
			return fail()
		}
		verb, hint = verb || t.in(countVerbs), hint || t.in(countHints)
	}
	if x.at(k).frac || k > 0 && x.at(k-1).isAny("row", "rnd", "round", "rd", "by", "make", "hook", "needle", "last", "these", "those", "first") || x.at(0).is("make") && !x.at(1).isAny("sure", "certain") || x.at(0).isAny("increase", "decrease", "leave", "keep", "end", "finish", "drop", "reduce", "take", "bring", "give", "work") {
		return fail() // an instruction
	}
	if x.peek().in(countChanges) && !x.at(k-1).isAny("to", "with", "of", "at") {
		return fail() // "increasing 2 sts": by so many, and not to so many
	}
	if k == 0 { // "10 are left", "20 of them"
		j := 1
		if _, n := x.stitchAt(1); n > 0 {
			j += n
		} else if n, ok := x.nounAt(1); ok {
			j += n.tokens
		}
		if !x.at(j).in(countTalk) || x.at(j).is(",") {
			return fail()
		}
	}
	x.p += k
	from := x.p
	parts, ok := x.parts(x.clauseEnd())
	if !ok {
		x.p = from // "10 are left"
		var p *TotalPart
		if p, ok = x.countPart(); ok {
			parts = []TotalPart{*p}
		}
	}
	if !ok || slices.ContainsFunc(parts, func(p TotalPart) bool { return p.Kind == PartOther && !p.share || p.Kind == PartChain }) || parts[0].share {
		return fail()
	}
	for x.p-from < 2*maxCountTalk && x.peek().in(countTalk) && !x.stitchFollows(0) && !(x.peek().head && x.rowCapital()) {
		t := x.peek()
		if t.isAny("hook", "needle") && parts[0].Kind == PartSpace || t.is("each") || t.is("every") && x.at(1).kind == tNum || t.is("by") && !x.at(1).isAny("the", "my", "your", "now", "here", "this") {
			return fail() // loops on the hook
		}
		verb, hint = verb || t.in(countVerbsAfter), hint || t.in(countHints)
		x.p++
	}
	named := parts[0].Kind != PartStitches
	if !verb && !(hint && !named && (x.bounded || x.ts[from-1].is("so") && x.lastWords() || parts[0].Name != "" && x.lastWords())) || named && !verb && !x.bounded {
		return fail()
	}
	if x.at(-1).isAny("and", "but", "then", "with", "for", "so") && x.p > from+1 {
		x.p--
	}
	if t := x.peek(); t.kind != tEnd && !t.separator() && !t.isMark("?([{)]}") && !t.head || !(x.totalEnds() || t.isMark("?)]}")) {
		return fail()
	}
	x.setTotal(parts, x.spanFrom(start), before)
	return true
}

// countedBefore takes what there was before the row, "you had 36 sts", "there were 40
// before", which is no total of it.
func (x *rowReader) countedBefore() bool {
	start := x.p
	if (x.phrase("you|we|i", "had|started|began", "[with|at|from]", "[out]", "[with]") || x.phrase("there", "were")) && x.peek().kind == tNum && !x.peek().frac {
		x.number()
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
		} else if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
		}
		x.accept("before", "so", "until", "originally")
		x.accept("far", "now", "then")
		if x.peek().separator() || x.end() || x.peek().isAny("so", "and", "which") {
			return true
		}
	}
	x.p = start
	return false
}

// withTheChain passes over what is counted in, where it leads up to a count: "With the
// first 3 ch that's 26 dc".
func (x *rowReader) withTheChain() {
	start := x.p
	if x.phrase("with|counting|including", "the|your|that", "[first|turning|beginning|starting|beg|skipped|missed|initial]", "[first]") {
		if x.peek().kind == tNum {
			x.p++
		}
		if x.phrase("ch|chs|chain|chains|tch", "[as|-]") {
			if x.peek().kind == tNum && x.peek().glued {
				x.p++
			}
			x.accept(",")
			return
		}
	}
	x.p = start
}

// otherCount reports a sentence of what a wrong count tells, "If you get 13, you missed
// the last one": no work follows in it.
func (x *rowReader) otherCount() bool {
	k := x.phraseAt(0, "if", "you|you've|yours|your|it|the|there", "[count|total|stitch|number|should]", "[only|still|don't|do|happen|accidentally]", "[not]", "get|got|have|count|counted|end|find|ended|is|comes|are|reach", "[up|only|to|out]", "[with|to|at]")
	if k < 0 || x.at(k).kind != tNum {
		return false
	}
	for k++; ; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(".!?;)") {
			return true
		}
		if k > 30 || t.isAny("skip", "sk", "rep", "repeat", "inc", "dec", "ch", "work", "add", "increase", "decrease") || t.kind == tNum && x.stitchFollows(k+1) {
			return false
		}
	}
}

// toldInBracket takes a count, or a change of it, that stands in a bracket in such words:
// "(that's 10)", "(10 now)", "(up 2)".
func (x *rowReader) toldInBracket(before []*Step) bool {
	if !x.peek().isMark("([{") || !x.worked || x.depth > 1 {
		return false
	}
	end := x.closer(0)
	if end < 0 || end-x.p > maxCountTalk || x.followsTimes(end+1) {
		return false
	}
	start, was, changes := x.p, x.row.Total, x.row.changes
	bounded := x.bounded
	x.bounded = true
	defer func() { x.bounded = bounded }()
	if total, delta, _ := x.countsFirst(); x.p == end+1 && delta.set {
		if x.row.changes = (rowChanges{delta: delta.n, deltaSet: true}); total != nil {
			x.setTotal([]TotalPart{*total}, x.spanFrom(start), before)
		}
		return true
	}
	x.p = start + 1
	if x.countedBefore() {
		x.accept(",", ";") // "(you had 63, so it's 72 now)"
	}
	if (x.changeTold(before) || x.countTold(before)) && x.p == end {
		x.p++
		return true
	}
	x.p, x.row.Total, x.row.changes = start, was, changes
	return false
}
