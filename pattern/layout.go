package pattern

import (
	"sort"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// unmark removes the marks of Markdown and of bulleted lists, so that what
// they stand around can be read as plain text.
func unmark(src string, toks []token) []token {
	toks = abbreviationStops(src, toks)
	out := toks[:0]
	for i := 0; i < len(toks); {
		// one line at a time
		j := i + 1
		for j < len(toks) && !toks[j].head {
			j++
		}
		if !(i > 0 && toks[i-1].isAny("from", "to", "between", "at", "the", "last", "and", "first")) && bullet(toks[i:j], toks[j:]) {
			toks[i+1].head, toks[i+1].blank = toks[i].head, toks[i].blank
			i++
		}
		out = unmarkLine(src, out, toks[i:j], toks[j:])
		i = j
	}
	return out
}

// abbreviations are words that print ends with a full stop which ends no
// sentence: "1 tr. into next 3-ch. sp."
var abbreviations = map[string]bool{
	"tr": true, "dc": true, "htr": true, "dtr": true, "sc": true, "hdc": true, "ch": true, "chs": true, "sp": true, "sps": true, "st": true, "sts": true,
	"rep": true, "beg": true, "foll": true, "tog": true, "rem": true, "approx": true, "lp": true, "lps": true, "ss": true, "cl": true, "patt": true,
	"rnd": true, "rnds": true, "d": true, "s": true, "c": true, "h": true, "t": true, "trs": true, "dcs": true, "sl": true, "incl": true, "cont": true, "bet": true, "prev": true, "alt": true, "yd": true, "yds": true, "col": true, "ttr": true, "trtr": true, "dbl": true, "no": true, "p": true, "gr": true, "blk": true, "blks": true,
}

// abbreviationStops drops the full stops of abbreviations: those with more of
// the same sentence behind them.
func abbreviationStops(src string, toks []token) []token {
	out := toks[:0]
	for i := range toks {
		if t := &toks[i]; i > 0 && i+1 < len(toks) && t.is(".") && t.glued && toks[i-1].kind == tWord && abbreviations[toks[i-1].text] {
			next := &toks[i+1]
			if next.kind == tEnd {
				out = append(out, toks[i])
				continue
			}
			if next.isMark("([") && i+2 < len(toks) && !next.head {
				if (lowerAt(src, toks[i+2].start) || toks[i+2].is("=")) && toks[i+2].glued {
					continue
				}
			}
			if next.kind == tPunct && !next.isMark("*([") && next.kind != tEnd {
				continue
			}
			if isRowWord(next) && i+3 < len(toks) && toks[i+2].kind == tNum && toks[i+3].is(":") {
				out = append(out, toks[i])
				continue // "on the 14 sts. rd 1: sc in each"
			}
			if lowerAt(src, next.start) && (!next.head || !next.blank && next.kind == tWord && !isRowWord(next)) {
				continue // a wrapped line goes on in small letters
			}
			if next.kind == tNum && !next.head && i+2 < len(toks) && toks[i+2].isAny("tog", "together") {
				continue // "tr.2 tog."
			}
			if next.kind == tNum && !next.head && toks[i-1].isAny("ch", "rnd", "rnds", "rep", "sl", "no") && (len(out) < 2 || toks[i-1].is("ch") && out[len(out)-2].isAny("of", "and") && next.num <= 8 && i+2 < len(toks) && toks[i+2].kind != tWord || toks[i-1].head || out[len(out)-2].kind == tPunct || !toks[i-1].is("ch")) {
				continue
			}
		}
		if len(out) > 0 && out[len(out)-1].kind == tNum && ordinalD(toks[i:]) {
			o := &out[len(out)-1] // "2d row", "3d st", as old booklets have it
			o.kind, o.end = tOrd, toks[i].end
			continue
		}
		out = append(out, toks[i])
	}
	return out
}

// ordinalD reports the "d" of "2d row", "3d st" and "2d, 3d and 4th" behind its number; that
// of "3d c" begins a stitch.
func ordinalD(toks []token) bool {
	if !toks[0].is("d") || !toks[0].glued || len(toks) < 2 {
		return false
	}
	next := &toks[1]
	if next.is(",") && len(toks) > 4 {
		if toks[2].isAny("and", "&") {
			toks = toks[1:]
		}
		return toks[2].kind == tOrd || toks[2].kind == tNum && toks[3].is("d") && toks[3].glued
	}
	return isRowWord(next) || next.kind == tWord && !next.glued && !next.is("c")
}

// lowerAt reports whether a small letter stands at an offset of the source.
func lowerAt(src string, i int32) bool {
	return int(i) < len(src) && 'a' <= src[i] && src[i] <= 'z'
}

func unmarkLine(src string, out, l, rest []token) []token {
	blank, head := l[0].blank, l[0].head
	k := 0
	hashes := 0
	for k < len(l)-1 {
		t := &l[k]
		switch {
		case t.is("^"), t.is(">"), t.is("|"), t.is("~") && !l[k+1].glued:
		case t.is("#") && hashes == 0 && l[k+1].kind == tNum && l[k+1].glued:
			goto marks // "#3": a row's number
		case t.is("#"):
			hashes++
		case t.isMark("-+") && !l[k+1].glued && (l[k+1].kind != tNum):
		case t.is("*") && !l[k+1].glued && isRowWord(&l[k+1]) && k+3 < len(l) && l[k+2].kind == tNum && l[k+3].isMark(":.-)"):
		case t.is("*") && !l[k+1].glued && !('a' <= src[l[k+1].start] && src[l[k+1].start] <= 'z') && (isRowWord(&l[k+1]) || l[k+1].is("**") || l[k+1].kind == tOrd || l[k+1].isAny("fasten", "ch")):
		case t.is("[") && l[k+1].isAny("]", "x") && (l[k+1].is("]") || l[min(k+2, len(l)-1)].is("]")): // a check box
			k++
			if l[k].is("x") {
				k++
			}
		default:
			goto marks
		}
		k++
	}
marks:
	l = l[k:]
	if len(l) > 0 {
		l[0].head, l[0].blank = head, blank
		l[0].heading = uint8(min(hashes, 9))
	}
	l = slanted(starred(src, l), rest)
	if n := len(l); n > 3 && l[0].is("*") && l[n-1].is("*") && l[1].glued == l[n-1].glued && plainWords(l[1:n-1]) {
		l[1].head, l[1].blank, l[1].heading = l[0].head, l[0].blank, l[0].heading
		l = l[1 : n-1] // "*Skill level: easy*", "* print this page *": a line in italics, or set off
	}
	// bold: "**Row 1:** ..." ; but "** ... rep from **" is a repeat
	for i := 0; i < len(l); i++ {
		if l[i].kind != tPunct {
			out = append(out, l[i])
			continue
		}
		if l[i].is("_") && (i == 0 || !l[i].glued || i+1 == len(l) || !l[i+1].glued || l[i+1].is("_")) {
			continue
		}
		if l[i].is("`") {
			continue
		}
		if l[i].is("**") && (i == 0 || boldOpens(l, i)) {
			if j := boldCloses(l, i); j > 0 {
				l[i].text, l[j].text = "\x00", "\x00"
				l[i].id, l[j].id = 0, 0
				if i+1 < len(l) && i == 0 {
					l[i+1].head, l[i+1].blank, l[i+1].heading = l[0].head, l[0].blank, l[0].heading
					if j == len(l)-1 && l[0].heading == 0 {
						l[i+1].bold = true
					}
				}
			}
		}
		if l[i].text == "\x00" {
			continue
		}
		out = append(out, l[i])
	}
	return out
}

// starred takes the stars off a name in capitals that stands between them, as
// makers set off a part: "***SHELL***", "*** CLAW *** (2x)".
func starred(src string, l []token) []token {
	stars := func(k int) int {
		n := 0
		for k+n < len(l) && l[k+n].isAny("*", "**") {
			n++
		}
		return n
	}
	a := stars(0)
	if a == 0 || len(l) > 16 || a >= len(l) || int(l[a-1].end-l[0].start) < 2 {
		return l
	}
	k := a
	for k < len(l) && l[k].kind == tWord {
		k++
	}
	b := stars(k)
	if k == a || b == 0 || l[k+b-1].end-l[k].start != l[a-1].end-l[0].start || k+b < len(l) && !l[k+b].isMark("([") {
		return l
	}
	for _, c := range src[l[a].start:l[k-1].end] {
		if 'a' <= c && c <= 'z' {
			return l
		}
	}
	l[a].head, l[a].blank, l[a].heading, l[a].bold = l[0].head, l[0].blank, l[0].heading, true
	return append(l[a:k:k], l[k+b:]...)
}

// bullet reports a line that a star only lists: no other star stands in it or
// in the line below, and none sends the reader back to it.
func bullet(l, rest []token) bool {
	if len(l) < 3 || !l[0].is("*") || l[1].glued || l[1].kind == tPunct || l[1].opening&opensStitch != 0 || l[1].isAny("to", "until", "across", "around", "once", "twice") {
		return false
	}
	for i := 1; i < len(l); i++ {
		if l[i].isMark("*;") || l[i].isAny("rep", "repeat", "next", "each", "**") {
			return false
		}
	}
	for i := range rest {
		if i > 0 && rest[i].head || rest[i].kind == tEnd {
			break
		}
		if rest[i].isAny("*", "**") && i > 0 || rest[i].isAny("rep", "repeat") {
			return false
		}
	}
	return true
}

// plainWords reports words with no work in them, so that stars around them
// are no repeat.
func plainWords(l []token) bool {
	for i := range l {
		if l[i].is("*") || l[i].isAny("sc", "dc", "hdc", "htr", "tr", "trc", "dtr", "single", "double", "treble", "half", "sl", "slst", "slip", "ss", "st", "sts", "next", "each", "shell", "picot", "ch", "chain", "inc", "dec", "rep", "repeat", "sk", "skip", "miss", "turn", "join") {
			return false
		}
	}
	return true
}

func boldOpens(l []token, i int) bool {
	return i+1 < len(l) && l[i+1].glued && !l[i].glued
}

// boldCloses finds the "**" that ends bold text begun at i, or -1.
func boldCloses(l []token, i int) int {
	if i+1 >= len(l) || !l[i+1].glued || l[i+1].kind == tPunct && !l[i+1].isMark("([#") {
		return -1
	}
	for j := i + 1; j < len(l); j++ {
		if l[j].is("**") {
			if l[j-1].isAny("from", "at", "to", "between", "rep", "repeat", "and") || !l[j].glued {
				return -1
			}
			return j
		}
	}
	return -1
}

// layout goes through the lines and gives each its part.
func (r *reader) layout() {
	r.surveyGlosses()
	r.surveyElsewhere()
	r.surveyLetters()
	r.surveyCounted()
	r.surveyTotals()
	r.surveyLabels()
	r.surveyRunOn()
	r.surveySentences()
	end := r.pageEnd()
	for i := range end {
		if r.stop {
			break
		}
		r.line(i)
	}
	if end < len(r.lines) && !r.stop {
		ln := r.lines[end]
		sp := Span{int(r.toks[ln.start].start), int(r.toks[ln.end-1].end)}
		r.pat.note(Note, CodeReading, sp, "from %q on the words are those of the page, and are not read", oneLine(r.src.Slice(sp)))
		r.pat.Page = Span{sp.Start, len(r.src.Text)}
	}
	r.flushSetup(true)
	r.closeRow()
	if r.heading.set {
		r.settleHeading(false)
	}
}

// surveyLabels finds whether the pattern labels its rows in words, since a
// bare "4." is only a label where nothing better is.
func (r *reader) surveyLabels() {
	weak, strong := 0, 0
	list := int64(0) // how far a numbered list of work has gone
	longest := int64(0)
	for _, ln := range r.lines {
		if l, ok := r.labelAt(r.labelStart(ln)); ok {
			if r.letterLabel(&r.toks[ln.start], &r.toks[ln.start+1]) {
				continue // one part has letters: others may have bare numbers
			}
			if l.weak {
				if !l.inOrder {
					weak++
				}
				if (l.numbers.First.N == 1 || l.numbers.First.N == list+1) && (l.inOrder && list > 0 || r.beginsWork(line{l.end, ln.end})) {
					list = l.numbers.Last.N
					longest = max(longest, list)
				}
			} else {
				strong++
				r.number(&l.numbers)
			}
		}
	}
	r.hasLabel = strong > 0
	r.weakOK = (weak >= 2 || len(r.counted) > 0) && strong == 0 || longest >= 4 && longest > int64(strong)
}

// maxTold is the highest number of a row that a sentence may tell of.
const maxTold = 999

// number keeps which rows have labels at the heads of lines.
func (r *reader) number(n *Numbering) {
	if r.numbered == nil {
		r.numbered = map[int64]bool{}
	}
	for v := n.First.N; v <= min(n.Last.N, maxTold); v++ {
		r.numbered[v] = true
	}
}

// line gives one line its part.
func (r *reader) line(i int) {
	ln := r.lines[i]
	t := &r.toks[ln.start]
	if t.kind == tEnd || r.pageNumber(ln) || r.pageWay(ln) {
		return
	}
	if r.only != nil && t.blank && !r.allSizesSaid() {
		r.only = nil
	}
	if len(r.pat.Sizes) > 1 && (len(r.pat.Pieces) > 0 || len(r.setup) > 0) && r.sizedLine(ln.start, ln.end) {
		return
	}
	if l, ok := r.labelAt(ln.start); ok && r.isLabel(l, ln.start) {
		r.startRow(l, ln.start, ln.end)
		return
	}
	if l, ok := r.toldAt(ln.start); ok && r.sec == noSection {
		r.startRow(l, ln.start, ln.end)
		return
	}
	if r.totalledRow(ln) {
		return
	}
	if k := r.runsOn(ln); k > 0 {
		r.prose(line{ln.start, k})
		l, _ := r.runOnLabel(k)
		r.startRow(l, k, ln.end)
		return
	}
	if r.sentenceLine(ln) {
		return
	}
	if l, k := r.colourBefore(ln); k > 0 {
		r.closeRow()
		from := k
		for from > ln.start && r.toks[from-1].kind == tWord {
			from-- // a name with no mark behind it stays with the label
		}
		if from > ln.start {
			r.prose(line{ln.start, from})
		}
		r.startNamedRow(l, from, k, ln.end)
		return
	}
	if t.kind == tPunct && ln.end-ln.start >= 1 && r.rule(ln) || r.onward(i) {
		return
	}
	if r.summarised(i) {
		r.closeRow()
		r.prose(ln)
		return
	}
	if sec, after, ok := r.sectionAt(ln); ok && !r.midRow(i) {
		r.startSection(sec, after, ln)
		return
	}
	if r.chainAnew(ln) {
		r.closeRow()
		r.words(ln.start, ln.end)
		return
	}
	if k, ok := r.foundationBefore(ln); ok && r.talkBefore(i) {
		r.foundationLine(ln, k)
		return
	}
	if r.row == nil && len(r.pat.Pieces) == 0 && len(r.setup) == 0 && r.gaugeLine(ln) {
		r.header(secGauge, ln.start, ln.end)
		return
	}
	if r.row == nil && len(r.setup) == 0 && r.legend(ln) != stitch.None && !r.foundation(ln) {
		r.prose(ln)
		return
	}
	if r.row == nil && len(r.setup) == 0 && (r.everyRow(ln) || r.bulleted(ln) || r.meshLine(ln)) {
		r.prose(ln)
		return
	}
	if r.letterLine(ln) {
		r.header(secSpecial, ln.start, ln.end)
		r.specialLine(ln)
		return
	}
	if r.glossLine(ln) {
		r.header(secSpecial, ln.start, ln.end)
		r.specialLine(ln)
		return
	}
	if t.heading > 0 {
		r.closeRow()
		r.flushSetup(true)
		r.sec = noSection
		r.newHeading(ln)
		return
	}
	if name, n, ok := r.nameOfPart(i); ok {
		r.closeRow()
		r.flushSetup(true)
		r.sec = noSection
		r.headingNamed(name, n)
		return
	}
	if sentence := r.endsSentence(); r.row != nil && !t.blank && (sentence || r.endsClauseSoFar()) {
		if name, body, ok := r.runIn(ln); ok && !setupNames[name] && (sentence || r.labelled(body)) {
			r.closeRow()
			if !r.goesOnAs(name, body) {
				r.newHeading(line{ln.start, body - 1})
			}
			r.wordsAfter(body, ln.end)
			return
		}
	}
	if r.row != nil && (r.fastened() && r.joinsYarn(ln) || r.leadsEarlier(ln) || r.refersAgain(ln) || r.closesOpening(ln) || r.endsSentence() && r.rowOfItsOwn(ln.start, r.row.body) || r.endsPart() && r.edgingAlone(ln.start, r.row.body)) {
		r.closeRow() // it begins the next row
		r.words(ln.start, ln.end)
		return
	}
	if r.row != nil && (!t.blank || r.continues(ln)) {
		r.gather(ln.start, ln.end)
		return
	}
	if t.blank && r.sec != noSection && r.sec != secAssembly {
		// "BODY: With Gray, ch 4. Rnd 1: 8 sc in ring.": a paragraph of rows
		// ends a section of notes, whatever it begins with
		if _, k := r.labelWithin(ln, 80); k > 0 || r.pieceUnderNotes(i) {
			r.sec = noSection
		}
	}
	if r.sec != secAssembly && r.row == nil && len(r.pat.Pieces) == 0 && len(r.setup) == 0 && (r.definitionLike(ln) || r.abbreviated(ln)) {
		// "SHELL (sh): 2 dc, ch 1, 2 dc in same place", below the materials as well
		r.header(secSpecial, ln.start, ln.end)
		r.specialLine(ln)
		return
	}
	if r.sec != noSection && r.sec != secRows && !(t.blank && r.beginsWork(ln) && r.sec != secAssembly && !r.definedHere(ln)) && !(r.sec != secAssembly && r.foundation(ln)) {
		r.sectionLine(ln)
		return
	}
	if name, body, ok := r.runIn(ln); ok {
		r.closeRow()
		r.flushSetup(true)
		r.sec = noSection
		if !setupNames[name] && !r.goesOnAs(name, body) {
			r.newHeading(line{ln.start, body - 1})
		}
		r.wordsAfter(body, ln.end)
		return
	}
	if r.alone(ln) {
		r.prose(ln)
		return
	}
	if r.beginsWork(ln) || len(r.setup) > 0 && !t.blank || r.piece != nil && r.rowOfItsOwn(ln.start, nil) {
		r.closeRow()
		r.words(ln.start, ln.end)
		return
	}
	if k := r.swatchChain(ln); k > 0 {
		r.prose(line{ln.start, k})
		r.words(k, ln.end)
		return
	}
	if k := r.workBehindTalk(i, 40); k > 0 && r.sec == noSection {
		r.prose(line{ln.start, k})
		r.wordsAfter(k, ln.end)
		return
	}
	if k := r.edgingBehindTalk(ln); k > 0 {
		r.prose(line{ln.start, k})
		r.words(k, ln.end)
		return
	}
	r.prose(ln)
}

// swatchChain finds the foundation at the end of "Multiple of 6 plus 1. For a
// swatch of 25 sts, chain 26."; 0 where there is none.
func (r *reader) swatchChain(ln line) int {
	k := ln.end
	for k > ln.start && r.toks[k-1].is(".") {
		k--
	}
	k -= 2
	if k <= ln.start {
		return 0
	}
	a, b := &r.toks[k], &r.toks[k+1]
	switch {
	case a.isAny("ch", "chain") && b.kind == tNum:
		if !r.toks[k-1].isMark(",:.;") && (b.num < 8 || r.toks[k-1].isMark("+-") || r.toks[k-1].isAny("of", "plus", "extra", "turning", "and", "a", "each")) {
			return 0
		}
	case a.kind == tNum && b.isAny("ch", "chain", "chains"):
		if a.num < 8 || !r.toks[k-1].isAny("with", "begin", "start", "make", "commence", "work") && !r.toks[k-1].isMark(":,") {
			return 0 // "multiple of 6 ch", "plus 10 ch"
		}
	default:
		return 0
	}
	for i := ln.start; i < k; i++ {
		if r.toks[i].isAny("multiple", "multiples", "swatch", "sample") {
			return k
		}
	}
	return 0
}

// labelWithin finds where the rows begin in a line that begins with a remark:
// "Edging, back to Sand. R11. ch 1, sc in each st around." The token is 0 where
// none does among so many words.
func (r *reader) labelWithin(ln line, words int) (label, int) {
	for k := ln.start + 1; k < min(ln.end, ln.start+words); k++ {
		if !r.toks[k-1].isMark(".:!") && !r.afterDash(k) {
			continue
		}
		if l, ok := r.toldAt(k); ok {
			return l, k
		}
		if l, ok := r.labelAt(k); ok && l.strong && !l.weak && !r.gaugeLike(l.end) && (r.beginsStep(line{l.end, ln.end}) || l.numbers.First.N == 1 && r.hasStitches(line{l.end, min(ln.end, l.end+14)})) {
			return l, k
		}
	}
	return label{}, 0
}

// workBehindTalk finds where the work begins on line i that opens with a name or a
// remark, as booklets print a paragraph: "Insertion No. 3. Ch 30. 1st row: ...". That is
// the sentence that makes the chain, where there is one, or else the first label.
func (r *reader) workBehindTalk(i, words int) int {
	ln := r.lines[i]
	_, labelled := r.labelWithin(ln, words)
	end := labelled
	if end == 0 {
		if end = min(ln.end, ln.start+words); !r.firstRowTold(ln) && !(i+1 < len(r.lines) && r.toks[r.lines[i+1].start].kind != tEnd && r.labelled(r.lines[i+1].start)) {
			return 0
		}
	}
	for k := ln.start + 1; k < end && r.row == nil && len(r.setup) == 0; k++ {
		if r.toks[k-1].isMark(".:!)") && r.chainSentence(k, ln.end) {
			return k
		}
	}
	return labelled
}

// chainSentence reports a sentence at a token that makes the chain of a foundation.
func (r *reader) chainSentence(k, end int) bool {
	x := r.scratch(k)
	if x.peek().kind != tNum && !r.capital(k) {
		return false
	}
	x.yarnFirst() // "Starting at neck edge, ch 74", "With white make 20 ch."
	x.phrase("make|commence|begin|start|work", "[with|by]", "[a]", "[foundation]")
	x.phrase("in|into", "a", "ring|circle|loop", "of")
	if x.peek().isAny("ch", "chain") {
		x.p++
		x.phrase("[of]")
		if x.peek().kind != tNum || x.peek().num < 2 {
			return false
		}
		x.number()
	} else if x.peek().kind == tNum && x.peek().num > 1 && x.at(1).isAny("ch", "chain", "chains") {
		x.p += 2
	} else {
		return false
	}
	x.phrase("[st|sts|stitches|ch|chs|loosely]")
	return x.p < end && (x.peek().isMark(".,;:(") || x.peek().isAny("and", "join", "to", "for", "in", "turn", "with", "loosely", "joined"))
}

// firstRowTold reports a line that names the work on it the first row behind it: "ch 20,
// ... This is the 1st row."
func (r *reader) firstRowTold(ln line) bool {
	for k := ln.start + 3; k+1 < ln.end; k++ {
		if t := &r.toks[k]; t.kind == tOrd && t.num == 1 && isRowWord(&r.toks[k+1]) {
			for j := k - 1; j > max(k-4, ln.start); j-- {
				if r.toks[j].isAny("is", "forms", "makes", "completes", "for") {
					return true
				}
			}
		}
	}
	return false
}

// beginsStep reports whether the words of a line begin with work, a stitch or
// a chain.
func (r *reader) beginsStep(ln line) bool {
	if ln.start >= ln.end {
		return false
	}
	x := r.scratch(ln.start)
	if _, n := x.stitchAt(0); n > 0 {
		return true
	}
	return r.beginsWork(ln) || r.toks[ln.start].kind == tNum && r.hasStitches(ln)
}

// pageNumber reports a line that numbers a page of print, "Page 2 of 5": it
// stands between the words and belongs to none of them.
func (r *reader) pageNumber(ln line) bool {
	l := r.toks[ln.start:ln.end]
	return len(l) == 4 && l[0].is("page") && l[1].kind == tNum && l[2].is("of") && l[3].kind == tNum
}

// isLabel rules out what only looks like a label: the end of a sentence that
// names a row, or a number in a list of materials.
func (r *reader) isLabel(l label, start int) bool {
	if l.inOrder && !r.countsOn(l) && !(l.numbers.First.N == 1 && r.beginsStep(line{l.end, r.lineEnd(start)})) {
		return false
	}
	if l.weak {
		return (r.weakOK || r.countsOn(l) || r.counted[start]) && (r.sec == noSection || r.sec == secRows || r.sec == secTerms)
	}
	if r.sec == secGauge && !r.toks[start].blank && !l.strong {
		return false
	}
	if (r.sec == secGauge || (r.toks[l.end-1].is("=") || r.toks[l.end].is("=")) && r.row == nil) && r.gaugeLike(l.end) {
		return false // "Rnds 1 and 2 = 1 1/2 inches across"
	}
	if l.strong && r.toks[l.end-1].isMark(":=") {
		return true
	}
	// "…rep" at the end of one line, "Row 2." at the start of the next
	if start > 0 && len(r.setup) > 0 && r.toks[start-1].isAny("of", "from", "in", "to", "on") && !r.toks[start].blank {
		return false // "Join coral in any back loop of" and below it "Round 22."
	}
	if start > 0 && r.row != nil {
		p := &r.toks[start-1]
		if p.isAny("same", "each", "every", "next") && r.countsOn(l) {
			return true // "r6-8 same", "r2 - 1 sc in each", and the row that follows below it
		}
		if p.isAny("rep", "repeat", "of", "as", "and", "from", "to", "in", "work", "last", "see", "like", "on", "at", "than", "through", "until", "till", "for", "each", "with", "next", "same") && !r.toks[start].blank {
			return false
		}
		if p.is(",") && !r.toks[start].blank && !l.strong {
			return false
		}
	}
	if r.sec != noSection && r.sec != secRows && !l.strong && !r.toks[start].blank {
		return isRowWord(&r.toks[start]) && l.numbers.First.N == 1 && r.beginsStep(line{l.end, r.lineEnd(start)})
	}
	return true
}

// lineEnd is the token after the line that token i stands on.
func (r *reader) lineEnd(i int) int {
	for i++; i < len(r.toks) && !r.toks[i].head; i++ {
	}
	return i
}

// countsOn reports a bare number that goes on from the row before it.
func (r *reader) countsOn(l label) bool {
	if r.row == nil {
		return false
	}
	last := r.row.label.numbers.Last.N
	return last > 0 && l.numbers.First.N == last+1 && !r.row.label.next
}

// gaugeLike reports "Rnds 1-3 = 3 inches" in other words.
func (r *reader) gaugeLike(i int) bool {
	for k := i; k < min(i+8, len(r.toks)) && !r.toks[k].head; k++ {
		if r.toks[k].isAny("in", "inch", "inches", "cm", "mm", "\"") && k > i && r.toks[k-1].kind == tNum {
			return true
		}
	}
	return false
}

// rule passes over lines that only divide: "---", "***", "===".
func (r *reader) rule(ln line) bool {
	for k := ln.start; k < ln.end; k++ {
		if !r.toks[k].isAny("-", "=", "*", "**", "_", "~", "^", "|", "#", "+", ":", ".") {
			return false
		}
	}
	if ln.end-ln.start < 3 && !r.toks[ln.start].isAny("**", "-", "=") {
		return r.row == nil
	}
	r.closeRow()
	return true
}

// midRow reports whether a line goes on with the sentence before it.
func (r *reader) midRow(i int) bool {
	ln := r.lines[i]
	if r.row == nil || r.toks[ln.start].blank || ln.start == 0 {
		return false
	}
	p := &r.toks[ln.start-1]
	return p.is(",") || p.isAny("and", "in", "the", "of", "to", "from", "rep", "each", "next") || !r.capital(ln.start) && !p.isMark(".)]")
}

// startRow begins a row at its label.
func (r *reader) startRow(l label, start, end int) { r.startNamedRow(l, start, start, end) }

// startNamedRow begins a row at its label, with words in front of it from a token
// on that stay with the label.
func (r *reader) startNamedRow(l label, from, start, end int) {
	r.closeRow()
	r.sec = noSection
	r.said.count = 0
	if r.heading.set {
		r.flushSetup(false)
		if r.heading.set { // no row of its own came before the label
			r.settleHeading(true)
		}
	}
	if r.rows++; r.rows > maxRows {
		if !r.stop {
			r.pat.note(Error, "too-much", r.toks[start].span(), "more than %d rows: the rest is not read", maxRows)
		}
		r.stop = true
		return
	}
	if len(r.setup) > 0 && r.worksStitches(r.setup) {
		r.flushSetup(false)
	}
	r.letterPiece(start)
	if r.beginsAnew(&l, start, end) {
		r.addPiece(&Piece{Copies: 1, Line: r.src.lineAt(int(r.toks[start].start))})
	}
	p := r.currentPiece(start)
	d := &rowDraft{label: l, piece: p, row: &Row{Kind: l.kind, Side: l.side, Numbers: l.numbers}}
	d.row.ambiguous = r.toks[start].is("r") || r.letterLabel(&r.toks[start], &r.toks[start+1])
	d.row.labelSpan = Span{int(r.toks[from].start), int(r.toks[l.end-1].end)}
	d.row.Span = d.row.labelSpan
	d.row.Label = tidyLabel(r.src.Slice(d.row.labelSpan))
	if l.told() {
		d.row.Label = r.text(l.name.Start, l.name.End)
	}
	d.row.only = r.onlyFor(&l, start)
	d.row.starts = r.startsOn(r.lastWorked(), from)
	d.setup, r.setup = r.setup, nil
	r.row = d
	if only, after, ok := r.sizesOnly(l.end, end); ok {
		d.row.only = only
		r.pat.onlyWords = append(r.pat.onlyWords, Span{int(r.toks[l.end].start), int(r.toks[after-1].end)})
		d.row.Span.End = int(r.toks[after-1].end)
		r.gather(after, end)
		return
	}
	r.gather(l.end, end)
}

// tidyLabel is a label on one line without the mark that ends it.
func tidyLabel(s string) string {
	s = oneLine(strings.Trim(s, "*_"))
	if !strings.Contains(s, "(") {
		s = strings.ReplaceAll(s, ")", "") // "r6) - r8)"
	}
	return strings.TrimRight(strings.TrimSpace(strings.TrimRight(s, ":.-=*_ \u2013\u2014")), " ")
}

// labelInLine gives the label of a row that begins at token i of a line that ends at to,
// behind other words.
func (r *reader) labelInLine(i, to int) (label, bool) {
	if r.runOn[i] {
		l, ok := r.runOnLabel(i)
		return l, ok && l.end <= to
	}
	if r.mayLabel(i) {
		if l, ok := r.labelAt(i); ok && l.strong && !l.weak && l.end <= to && r.labelFits(l, i) {
			return l, true
		}
	}
	l, ok := r.toldAt(i)
	return l, ok && l.end <= to
}

// gather adds words to the row being read, and begins another where a label
// stands in mid-line.
func (r *reader) gather(from, to int) {
	for i := from + 1; i < to; i++ {
		if l, ok := r.labelInLine(i, to); ok {
			r.row.body = r.extend(r.row.body, from, i)
			r.row.row.Span.End = int(r.toks[i-1].end)
			r.startRow(l, i, to)
			return
		}
		if r.sizedWords(i, to) {
			r.row.body = r.extend(r.row.body, from, i)
			r.row.row.Span.End = int(r.toks[i-1].end)
			r.sizedLine(i, to)
			return
		}
		if i > from+1 && r.startsAfresh(i, to) {
			r.row.body = r.extend(r.row.body, from, i)
			r.row.row.Span.End = int(r.toks[i-1].end)
			r.closeRow()
			r.words(i, to)
			return
		}
		if r.unlabelled && i > from+1 && r.startsSentenceRow(i, r.extend(r.row.body, from, i)) {
			r.row.body = r.extend(r.row.body, from, i)
			r.row.row.Span.End = int(r.toks[i-1].end)
			r.closeRow()
			r.words(i, to)
			return
		}
		if i > from+1 && r.startsAlone(i, r.extend(r.row.body, from, i)) {
			r.row.body = r.extend(r.row.body, from, i)
			r.row.row.Span.End = int(r.toks[i-1].end)
			r.closeRow()
			r.words(i, to)
			return
		}
	}
	if to > from {
		r.row.body = r.extend(r.row.body, from, to)
		r.row.row.Span.End = int(r.toks[to-1].end)
	}
}

// startsAfresh reports a sentence amid a line that begins work anew: yarn joined
// after it was fastened off, or an opening closed after the row's total or after
// the stuffing.
func (r *reader) startsAfresh(i, to int) bool {
	t, p := &r.toks[i], &r.toks[i-1]
	if !p.isMark(".!") || !r.capital(i) {
		return false
	}
	end := i
	for end < to && !r.toks[end].isMark(".;") {
		end++
	}
	several := r.row != nil && r.row.row.Numbers.Last.At(0) > r.row.row.Numbers.First.At(0) // what joins the yarn in each of them is in each
	switch {
	case several && t.isAny("join", "rejoin", "attach", "with", "using"):
	case t.isAny("join", "rejoin", "attach"):
		return i > 2 && r.toks[i-2].is("off") && r.toks[i-3].isAny("fasten", "finish") && r.joinsYarn(line{i, end})
	case t.isAny("with", "using", "miss", "skip", "return", "now") && r.toks[i-2].is("off") && i > 2 && r.toks[i-3].isAny("fasten", "finish"):
		for k := i; k < end; k++ {
			if r.toks[k].isAny("join", "rejoin", "attach") {
				return r.joinsYarn(line{i, end})
			}
		}
	case t.isAny("pinch", "flatten", "fold", "squash", "press"):
		return r.closesOpening(line{i, end})
	}
	return false
}

// extend adds tokens of the text to words gathered. Those that stand together
// in the text are not copied.
func (r *reader) extend(words []token, from, to int) []token {
	n := len(words)
	switch {
	case n == 0:
		return r.toks[from:to:to]
	case from >= n && &words[n-1] == &r.toks[from-1]:
		return r.toks[from-n : to : to]
	}
	return append(words, r.toks[from:to]...)
}

// mayLabel reports whether a label could begin at token i of a line, behind
// other words.
func (r *reader) mayLabel(i int) bool {
	t := &r.toks[i]
	if i > 0 && r.toks[i-1].is(",") {
		return t.isAny("row", "rnd", "round", "r") && r.toks[i+1].kind == tNum && (r.toks[i+1].num == 1 || r.row != nil && r.toks[i+1].num == r.row.label.numbers.Last.N+1) && r.toks[min(i+2, len(r.toks)-1)].is(":") // "Ch 21, Row 1: ..."
	}
	return i > 0 && (r.toks[i-1].isMark(".)]};:") || r.afterDash(i)) && (isRowWord(t) || t.kind == tOrd || t.isAny("next", "last", "final", "foundation", "set", "setup", "border", "edging"))
}

// afterDash reports a label behind a name and a dash, "Shape Neck - Row 1:".
func (r *reader) afterDash(i int) bool {
	if i < 2 || !r.toks[i-1].is("-") {
		return false
	}
	typed := i > 3 && r.toks[i-2].is("-") && r.toks[i-1].glued // "Shape Top--Rnd 25:"
	// Two typed dashes at the end of a line are one hyphen in what is copied from print.
	copied := r.toks[i-1].glued && r.toks[i].glued && isRowWord(&r.toks[i]) && r.toks[i-2].kind == tWord && r.capital(i-2)
	if !typed && !copied && r.toks[i-1].glued && !strings.HasPrefix(r.src.Text[r.toks[i-1].start:], "\u2014") {
		return false
	}
	if typed && !r.toks[i-3].is(".") {
		return r.toks[i-3].kind == tWord && !isRowWord(&r.toks[i-3]) && r.capital(i)
	}
	t, name := &r.toks[i], &r.toks[i-2]
	if i > 2 && name.is(".") && t.kind == tOrd { // "Shape armholes.—1st row.—"
		name = &r.toks[i-3]
	}
	return name.kind == tWord && !isRowWord(name) && (r.capital(i) || t.kind == tOrd && name != &r.toks[i-2])
}

// labelFits keeps "rep Row 2. Row 3: ..." and drops "rep from Row 2: ...".
func (r *reader) labelFits(l label, i int) bool {
	t := &r.toks[i]
	if t.isAny("last", "next", "final", "border", "edging") {
		return r.toks[l.end-1].isMark(":-") || r.toks[l.end-1].is("=")
	}
	if t.kind == tOrd || isRowWord(t) {
		c := r.src.Text[t.start]
		last := r.toks[l.end-1]
		if last.is(".") && !('A' <= c && c <= 'Z') && t.kind != tOrd {
			return false
		}
		return true
	}
	return r.toks[l.end-1].isMark(":-")
}

// words adds words that stand before any label.
func (r *reader) words(from, to int) {
	if len(r.setup) > 0 && r.piece != nil && from < to && r.setup[len(r.setup)-1].isMark(".)]") && r.rowOfItsOwn(from, r.setup) {
		r.flushSetup(false)
	}
	for i := from + 1; i < to; i++ {
		if l, ok := r.labelInLine(i, to); ok {
			r.setup = r.extend(r.setup, from, i)
			r.startRow(l, i, to)
			return
		}
		if r.unlabelled && i > from+1 && r.startsSentenceRow(i, r.extend(r.setup, from, i)) {
			r.setup = r.extend(r.setup, from, i)
			r.flushSetup(false)
			r.words(i, to)
			return
		}
		if i > from+1 && r.piece != nil && r.startsAlone(i, r.toks[from:i]) {
			r.setup = r.extend(r.setup, from, i)
			r.flushSetup(false)
			r.words(i, to)
			return
		}
	}
	if to > from {
		r.setup = r.extend(r.setup, from, to)
	}
}

// wordsAfter adds what stands behind a name on its line: a label, or words.
func (r *reader) wordsAfter(from, to int) {
	if from < to && (r.mayLabel(from) || from > 0 && r.toks[from-1].isMark("-,")) {
		if l, ok := r.labelAt(from); ok && l.strong && !l.weak && l.end <= to {
			r.startRow(l, from, to)
			return
		}
	}
	if l, ok := r.toldAt(from); ok && l.end <= to {
		r.startRow(l, from, to)
		return
	}
	r.words(from, to)
}

// closeRow ends the row being gathered.
func (r *reader) closeRow() {
	if r.row == nil {
		return
	}
	d := r.row
	r.row = nil
	d.piece.Rows = append(d.piece.Rows, d.row)
	r.drafts = append(r.drafts, d)
}

// tokenAt is the first token that begins at an offset of the text or behind it.
func (r *reader) tokenAt(offset int) int {
	return sort.Search(len(r.toks), func(i int) bool { return int(r.toks[i].start) >= offset })
}

// flushSetup makes a row of gathered words that stand before no label, when
// they work any stitches; otherwise they stay to begin the next row.
func (r *reader) flushSetup(ends bool) {
	if len(r.setup) == 0 {
		return
	}
	if !r.worksStitches(r.setup) && !(r.heading.set && r.slipsBack(r.setup)) {
		if ends {
			if n := len(r.drafts); n > 0 && r.piece != nil && len(r.piece.Rows) > 0 {
				// "Fasten off." on a line of its own belongs to the last row
				d := r.drafts[n-1]
				if r.otherSideTold(r.setup) {
					sp := Span{int(r.setup[0].start), int(r.setup[len(r.setup)-1].end)}
					h := Header{Span: sp, Kind: HeaderNote, Text: oneLine(r.src.Slice(sp))}
					r.piece.Notes, d.after, r.setup = append(r.piece.Notes, h), append(d.after, h), nil
					return
				}
				d.body = append(d.body, r.setup...)
				d.row.Span.End = int(r.setup[len(r.setup)-1].end)
			}
			r.setup = nil
		}
		return
	}
	setup := r.setup
	r.setup = nil
	if r.heading.set {
		r.settleHeading(true)
	}
	first := r.tokenAt(int(setup[0].start))
	p := r.currentPiece(first)
	d := &rowDraft{piece: p, unlabelled: true, row: &Row{noLabel: true, only: r.only}}
	d.row.Numbers.Count = Num{N: 1}
	if x := r.rowReaderFor(setup, &r.scanRow); len(p.Rows) > 0 {
		if n, _, ok := x.evenRows(); ok {
			d.row.Numbers.Count = n
			d.row.Kind = p.Rows[len(p.Rows)-1].Kind
		} else if n, ok := x.edgeRows(); ok {
			d.row.Numbers.Count = n
			d.row.Kind = p.Rows[len(p.Rows)-1].Kind
		} else if _, n, ok := x.edging(); ok {
			d.row.Numbers.Count = n
		}
	}
	d.row.Span = Span{int(setup[0].start), int(setup[len(setup)-1].end)}
	d.row.labelSpan = Span{d.row.Span.Start, d.row.Span.Start}
	d.body = setup
	d.row.starts = r.startsOn(r.lastWorked(), first)
	r.rows++
	p.Rows = append(p.Rows, d.row)
	r.drafts = append(r.drafts, d)
}

// slipsBack reports a cord under a name of its own, "Tail: 25 ch, 24 sl st": a
// chain and slip stitches along it, which are no end of the piece before.
func (r *reader) slipsBack(toks []token) bool {
	r.scanRow = Row{noLabel: true}
	row := &r.scanRow
	r.rowReaderFor(toks, row).readRow()
	long := int64(0)
	for _, s := range row.Steps {
		switch {
		case s.Op == OpChain && s.N.N > 5:
			long = s.N.N
		case s.Op == OpWork && s.Stitch == stitch.Slip && long > 0:
			if s.Target.Which == FromHook || s.Target.Which == Each || s.Target.N.N > 3 || s.N.N > 3 {
				return true
			}
		}
	}
	return false
}

// otherSideTold reports words that only send back to the side told before: "Skip
// centre hdc. Join yarn to next hdc and work second side to correspond."
func (r *reader) otherSideTold(words []token) bool {
	for i := range words {
		if i > 0 && words[i].isAny("correspond", "match") && words[i-1].is("to") {
			return true
		}
	}
	return false
}

// worksStitches reports whether words make any stitch beyond joining.
func (r *reader) worksStitches(toks []token) bool {
	r.scanRow = Row{noLabel: true}
	row := &r.scanRow
	if x := r.rowReaderFor(toks, row); r.piece != nil && len(r.piece.Rows) > 0 {
		if _, ok := x.edgeRows(); ok {
			return true
		}
		if r.rowReaderFor(toks, row).changesUntil() {
			return true
		}
	}
	x := r.rowReaderFor(toks, row)
	x.readRow()
	for _, s := range row.Steps {
		if s.Op == OpWork && s.Stitch == 1 {
			continue
		}
		if makesStitches(s) && s.Op != OpDelta {
			return true
		}
	}
	return row.Refer != nil
}

// currentPiece is the piece that a row at token i belongs to.
func (r *reader) currentPiece(i int) *Piece {
	if r.heading.set {
		r.settleHeading(true)
	}
	if r.piece == nil {
		line := r.src.lineAt(int(r.toks[i].start))
		r.addPiece(&Piece{Copies: 1, Line: line})
	}
	return r.piece
}

func (r *reader) addPiece(p *Piece) {
	if len(r.pat.Pieces) >= maxPieces {
		if len(r.pat.Pieces) == maxPieces && !r.stop {
			r.pat.note(Error, "too-much", p.Span, "more than %d pieces: the rest is not read", maxPieces)
		}
		r.stop = true
	}
	r.piece = p
	r.pat.Pieces = append(r.pat.Pieces, p)
}
