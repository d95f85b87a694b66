package pattern

// afterFoundation are the words that may follow a chain that is a foundation, up to the
// end of its line: how it is made, and how it is closed to a ring.
var afterFoundation = newWordSet("ch chs chain chains sts st stitches loosely join joined close closed with using sl ss slst slip stitch into to in onto at form forming make making a an it up ring circle loop round first 1st last the and then turn taking being care careful carefully sure that is not don't do without twist twisting twisted straight flat yarn your measure about approximately long")

// foundationBefore finds the chain of a line that is the foundation of the rows
// that begin under it: "BACK: Starting at lower edge, ch 54." and then "Row 1".
// What stands under it shows what it is, whatever words lead up to the chain
// and whatever section of notes was the last. The first row may stand behind it on the
// same line: "Begin at the nose. Make 4 ch. 1st row: ...". It gives the token at which
// the chain begins.
func (r *reader) foundationBefore(ln line) (int, bool) {
	if r.row != nil && !r.toks[ln.start].blank {
		return 0, false
	}
	end, ok := r.firstRowFrom(ln)
	if !ok || end-ln.start > 40 {
		return 0, false
	}
	sentence := ln.start
	for k := ln.start; k < end; k++ {
		t := &r.toks[k]
		if k > ln.start && r.toks[k-1].isMark(".!") && r.capital(k) {
			sentence = k
		}
		if t.isAny("=", "counts", "count", "gauge", "tension", "picot", "loop", "turning") || isRowWord(t) {
			return 0, false // what leads up to it is said of the work, or names a stitch
		}
		x := r.scratch(k)
		if _, n := x.stitchAt(0); n > 0 {
			return 0, false
		}
		n := 0
		switch {
		case t.isAny("ch", "chain", "chaining", "fch"):
			for n = 1; x.at(n).isMark(".:-(") || x.at(n).isAny("of", "loosely", "a"); n++ {
			}
			if x.at(n).kind != tNum || x.at(n+1).is("-") && x.at(n+1).glued {
				continue
			}
			x.p += n
		case t.kind == tNum && (x.at(1).isAny("ch", "chain", "chains", "chs") || x.at(1).isMark("([") && len(r.pat.Sizes) > 1):
		default:
			continue
		}
		num, ok := x.number()
		if !ok || num.N < 2 || num.N < 8 && (r.sec == secSpecial || r.sec == secAbbreviations || r.sec == secNotes) && k > ln.start && !r.chainSentence(sentence, ln.end) {
			continue // "V: ch 3" among the special stitches
		}
		for x.p < end && (x.peek().isMark(".,;()-:!") || x.peek().in(afterFoundation) || x.peek().kind == tNum && x.at(1).in(lengthUnits) || x.peek().in(lengthUnits)) {
			x.p++
		}
		return k, x.p >= end
	}
	return 0, false
}

// firstRowFrom finds the label of the first row on a line, or right under it.
func (r *reader) firstRowFrom(ln line) (int, bool) {
	for k := ln.start + 2; k < min(ln.end, ln.start+40); k++ {
		if r.mayLabel(k) && r.firstRowAt(k) {
			return k, true
		}
	}
	return ln.end, r.firstRowAt(ln.end)
}

// talkBefore reports whether what has been gathered before such a line is no work:
// nothing, or sentences that read as none, "Tr worked between sc will pop toward
// you.", "Mine began with 38 chains.". Those are kept as notes.
func (r *reader) talkBefore(i int) bool {
	if len(r.setup) == 0 {
		return true
	}
	if r.row != nil || !r.toks[r.lines[i].start].blank && !r.setup[len(r.setup)-1].isMark(".!)]}") {
		return false
	}
	r.scanRow = Row{noLabel: true}
	r.rowReaderFor(r.setup, &r.scanRow).readRow()
	if len(r.scanRow.bad) == 0 {
		return false
	}
	begun := r.tokenAt(int(r.setup[0].start))
	first := i
	for first > 0 && r.lines[first-1].end > begun {
		first--
	}
	r.setup = nil
	for _, ln := range r.lines[first:i] {
		r.prose(line{max(begun, ln.start), ln.end})
	}
	return true
}

// firstRowAt reports whether the line at a token begins the first row of a
// piece, with a label that can be nothing else.
func (r *reader) firstRowAt(i int) bool {
	if i >= len(r.toks) || r.toks[i].kind == tEnd {
		return false
	}
	l, ok := r.labelAt(i)
	first := l.numbers.First.N == 1 || l.numbers.First.N == 0 && r.toks[i].isAny("foundation", "base", "setup")
	return ok && (l.strong && !l.weak || isRowWord(&r.toks[i])) && first && l.end < len(r.toks)
}

// foundationLine takes such a line: the name in front of it is a heading, and
// words that lead up to the chain and are no part of the work are kept as a
// note.
func (r *reader) foundationLine(ln line, at int) {
	r.closeRow()
	r.sec = noSection
	name, body, ok := r.runIn(ln)
	if ok {
		if !setupNames[name] {
			r.flushSetup(true)
			r.newHeading(line{ln.start, body - 1})
		}
		r.wordsAfter(body, ln.end)
		return
	}
	for k := at - 1; k > ln.start; k-- {
		if r.toks[k-1].isMark(".:!)") && r.chainSentence(k, ln.end) {
			at = k // "Collar for a Pilot. Starting at neck edge, ch 65."
			break
		}
	}
	if at > ln.start && (r.aside(ln.start, at) || !r.beginsWork(ln) && !r.foundation(ln) && r.scratch(ln.start).chain() == nil) {
		r.prose(line{ln.start, at})
		r.words(at, ln.end)
		return
	}
	r.words(ln.start, ln.end)
}

// aside reports whether words that lead up to a chain tell of more than the
// yarn it is made with: of the hook, or of where the work begins.
func (r *reader) aside(from, to int) bool {
	if r.toks[from].is("in") || r.scratch(from).chain() != nil {
		return r.toks[from].is("in")
	}
	if r.toks[to-1].separator() {
		return false // "Using the #3 hook; ch 25."
	}
	if r.toks[from].isAny("commence", "begin", "start", "starting", "beginning", "commencing") {
		return true // "Commence at crown with 3 ch., join in a ring."
	}
	for i := from; i < to; i++ {
		if r.toks[i].kind == tNum || r.toks[i].isAny("hook", "edge", "loosely") {
			return true
		}
	}
	return false
}
