package pattern

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"crochet/tallyturn/pattern/stitch"
)

// sectionAt finds a section heading at the start of a line, and where its
// text begins.
func (r *reader) sectionAt(ln line) (section, int, bool) {
	name, joint := "", 0
	first, best, after := noSection, noSection, 0 // first is the one before a joint: "Tension/gauge:"
	for k := ln.start; k < min(ln.end, ln.start+5); k++ {
		t := &r.toks[k]
		if t.isAny("/", "&", "and", "+") && first == noSection && k > ln.start && k+1 < ln.end {
			if sec, ok := sectionNames[name]; ok {
				first, joint = sec, len(name)+len(t.text)+2
				if !t.isAny("and") {
					name += " " + t.text
					continue
				}
			}
		}
		if t.kind != tWord && !t.word || t.is("-") {
			break
		}
		if name != "" {
			name += " "
		}
		name += t.text
		end := k + 1
		if end < ln.end && r.toks[end].isMark("(") && end+2 < ln.end && r.toks[end+2].is(")") && !r.toks[end+1].isAny("sc", "dc") {
			end += 3 // "Size(s)", "Abbreviations (US)"
		} else if end+3 < ln.end && r.toks[end].isMark("(") && r.toks[end+2].isAny("terms", "terminology", "words") && r.toks[end+3].is(")") {
			end += 4 // "Stitches (US terms)"
		}
		closed := end >= ln.end || r.toks[end].isMark(":") || r.toks[end].is("-") && !r.toks[end].glued || r.toks[end].is("=") || r.toks[end].is(".") && (end+1 >= ln.end || r.toks[end+1].is("-"))
		if !closed {
			continue
		}
		colon := end < ln.end && r.toks[end].is(":")
		sec, ok := sectionNames[name]
		if !ok && k == ln.start && strings.HasPrefix(name, "abbrev") {
			sec, ok = secAbbreviations, true // however short
		}
		if !ok && colon {
			sec, ok = sectionNames[name+":"]
		}
		if !ok && colon && r.toks[ln.start].isAny("joining", "join") && r.sews(line{end, ln.end}) {
			sec, ok = secAssembly, true // "Joining the squares: whip stitch them ..."
		}
		if !ok && first != noSection && len(name) > joint && colon {
			if _, ok = sectionNames[name[joint:]]; ok {
				sec = first
			}
		}
		if ok {
			best, after = sec, min(end+1, ln.end)
			for after < ln.end && r.toks[end].is(".") && r.toks[after].is("-") {
				after++ // "MATERIALS.--1 oz. of wool"
			}
		}
	}
	if best == noSection && ln.end-ln.start <= 5 {
		return r.termsLine(ln)
	}
	return best, after, best != noSection
}

// sews reports whether a line tells of a seam.
func (r *reader) sews(ln line) bool {
	for k := ln.start; k < ln.end; k++ {
		if r.toks[k].isAny("sew", "sewn", "sewing", "whip", "whipstitch", "mattress", "seam", "overcast", "needle") {
			return true
		}
	}
	return false
}

// termsLine reads a line that only says which terms are used.
func (r *reader) termsLine(ln line) (section, int, bool) {
	for k := ln.start; k < ln.end; k++ {
		if r.toks[k].isAny("terms", "terminology") && k > ln.start && r.toks[k-1].isAny("us", "uk", "american", "british", "english") {
			return secTerms, ln.start, true
		}
	}
	if termsAlone(r.toks, ln.start) != stitch.Unknown {
		return secTerms, ln.start, true
	}
	return noSection, 0, false
}

func (r *reader) startSection(sec section, after int, ln line) {
	r.closeRow()
	if sec != secNotes && sec != secYarn && sec != secHook && sec != secGauge && sec != secAbbreviations && sec != secSpecial || r.piece != nil {
		r.flushSetup(len(r.setup) > 0 && r.piece != nil && len(r.piece.Rows) > 0)
	}
	r.sec = sec
	if sec == secTitle {
		r.pat.Title = r.text(after, ln.end)
		r.sec = noSection
		return
	}
	if r.heading.set && r.pat.Title == "" && len(r.pat.Pieces) == 0 {
		r.pat.Title = r.heading.name // a heading before materials is the title
		r.heading.set = false
	}
	if after < ln.end {
		if sec == secRows {
			r.sec = noSection
			r.words(after, ln.end)
			return
		}
		r.header(sec, after, ln.end)
		if sec == secAbbreviations || sec == secSpecial || sec == secNotes {
			r.specialLine(line{after, ln.end})
		}
		if sec == secSize || sec == secYarn || sec == secHook || sec == secTerms || sec == secSkill {
			r.sec = noSection // said on one line
		}
		return
	}
	if sec == secAssembly || sec == secRows {
		r.heading = pendingHead{}
		if sec == secAssembly {
			// rows under "Finishing" are a piece of that name
			r.heading.name = r.text(ln.start, ln.end)
			r.heading.make = 1
			r.heading.span = Span{int(r.toks[ln.start].start), int(r.toks[ln.end-1].end)}
			r.heading.line = r.src.lineAt(r.heading.span.Start)
		}
	}
}

// sectionLine takes a line that stands in a section.
func (r *reader) sectionLine(ln line) {
	if r.sec == secAbbreviations || r.sec == secSpecial || r.sec == secNotes {
		r.specialLine(ln)
	} else if r.sec != secAssembly {
		r.definitionsTold(ln)
	}
	r.header(r.sec, ln.start, ln.end)
}

func (r *reader) header(sec section, from, to int) {
	h := Header{Span: Span{int(r.toks[from].start), int(r.toks[to-1].end)}, Kind: sectionKinds[sec], Text: r.text(from, to)}
	if sec == secAssembly {
		r.pat.Assembly = append(r.pat.Assembly, h)
		return
	}
	r.conv.fromNote(r, r.toks[from:to])
	r.pat.Headers = append(r.pat.Headers, h)
}

// text is the words of tokens as written, on one line.
func (r *reader) text(from, to int) string {
	if to <= from {
		return ""
	}
	return oneLine(r.src.Text[r.toks[from].start:r.toks[to-1].end])
}

// capital reports whether token i begins with a capital letter.
func (r *reader) capital(i int) bool {
	c := r.src.Text[r.toks[i].start]
	if c < utf8.RuneSelf {
		return 'A' <= c && c <= 'Z'
	}
	l, _ := utf8.DecodeRuneInString(r.src.Text[r.toks[i].start:])
	return unicode.IsLetter(l) && !unicode.IsLower(l) // many scripts have no small letters
}

// ornament reports whether a token only adorns a name: a picture, a quotation
// mark.
func ornament(t *token) bool {
	if t.kind != tPunct {
		return false
	}
	c, _ := utf8.DecodeRuneInString(t.text)
	return t.is("\"") || c >= utf8.RuneSelf && unicode.In(c, unicode.So, unicode.Sk, unicode.Po)
}

// beginsWork reports whether a line starts with an instruction.
func (r *reader) beginsWork(ln line) bool {
	x := r.scratch(ln.start)
	t := x.peek()
	switch {
	case t.isAny("*", "**", "(", "["):
		return t.isAny("*", "**") || r.hasStitches(ln)
	case t.isAny("foundation", "base", "starting", "beginning") && x.at(1).isAny("ch", "chain") && x.at(2).kind == tNum, x.leadIn():
		return true
	case t.isAny("ch", "chain", "chs"):
		return x.at(1).kind == tNum && !x.at(2).is("=") && !x.countsSoonBefore(ln.end) || x.at(1).isAny("-", "a", "loosely", ".") && !x.countsSoon(ln.end)
	case t.isAny("magic", "mr", "mc", "adjustable", "fasten", "fo", "break", "join", "turn", "skip", "sk", "miss", "rep", "repeat", "cut", "attach", "rejoin", "fsc", "fhdc", "fdc", "ftr"):
		return !t.isAny("join") || !x.at(1).isAny("the", "pieces", "motifs", "squares", "all", "both") || r.hasStitches(ln)
	case x.phraseAt(0, "in|into", "a", "ring|circle|loop", "of") > 0:
		return r.hasStitches(ln)
	case r.equates(ln):
		return false
	case t.isAny("cast", "commence", "commencing", "with", "using", "in", "over", "work", "make", "beg", "begin", "beginning", "start", "starting", "change", "switch", "now", "working", "for", "leave", "leaving", "finish", "end", "do"):
		return r.hasStitches(ln) || r.joinsYarn(ln) || t.isAny("change", "switch", "leave") && r.piece != nil || t.isAny("do") && x.at(1).is("not") && r.piece != nil
	case t.kind == tNum && len(r.pat.Sizes) > 1 && x.at(1).isMark("(["):
		x.number()
		_, n := x.stitchAt(0)
		return n > 0 || x.peek().isAny("ch", "chain")
	case t.kind == tNum:
		_, n := x.stitchAt(1)
		return n > 0 || x.at(1).isAny("ch", "chain") && !x.countsSoonBefore(ln.end) || x.at(1).isAny("inc", "dec", "mr") || x.phraseAt(1, "in|into", "[a|the]", "mr|mc|magic|ring|loop") > 0
	}
	if _, n := x.stitchAt(0); n > 0 {
		return !x.at(n).isMark("=:-") || !x.at(n).isMark("=:") && x.at(n).glued
	}
	return t.isAny("inc", "dec") && !x.at(1).isMark("=:-")
}

// equates reports a line that says of a word what it stands for: "In this panel
// a space (sp) = 1 dc, ch 2".
func (r *reader) equates(ln line) bool {
	if !r.toks[ln.start].isAny("in", "for", "over", "with", "using") {
		return false
	}
	for k := ln.start + 1; k+1 < min(ln.end, ln.start+10); k++ {
		t := &r.toks[k]
		if t.is("=") {
			_, n := r.scratch(k + 1).stitchAt(0)
			return r.toks[k-1].kind == tWord || r.toks[k-1].isMark(")\"'") && (r.toks[k+1].kind == tNum || n > 0)
		}
		if t.isMark(",.;:*[") || t.kind == tNum {
			return false
		}
	}
	return false
}

// joinsYarn reports a line that joins yarn somewhere: "with RS facing, skip
// next 8 sts of Row 6, join yarn in next st".
func (r *reader) joinsYarn(ln line) bool {
	for k := ln.start; k < ln.end; k++ {
		if t := &r.toks[k]; t.isAny("join", "rejoin", "attach", "reattach") {
			for k++; (k < ln.end || k < ln.end+8 && k < len(r.toks)-1 && !r.toks[k].blank) && !r.toks[k].is("."); k++ {
				if r.toks[k].isAny("in", "into", "to", "at") {
					return true
				}
			}
		}
	}
	return false
}

// fastened reports whether the row so far ends with the yarn cut.
func (r *reader) fastened() bool {
	body := r.row.body
	n := len(body)
	if n > 2 && body[n-1].kind == tNum && body[n-2].isMark("-=") {
		n -= 2 // "fasten off - 30"
	}
	for n > 0 && body[n-1].isMark(".)]") {
		if n--; !body[n].is(".") { // a total
			for n > 0 && !body[n].isMark("([") {
				n--
			}
		}
	}
	return n > 1 && body[n-1].isAny("off", "yarn", "thread") && body[n-2].isAny("fasten", "finish", "cut", "break", "the")
}

// endsClauseSoFar reports whether the row so far could end where it does: no
// comma, and no word that asks for another, stands at its end.
func (r *reader) endsClauseSoFar() bool {
	if r.row == nil || len(r.row.body) == 0 {
		return true
	}
	return !r.row.body[len(r.row.body)-1].isAny(",", ";", "and", "then", "in", "the", "of", "to", "with", "*", "next")
}

// refersAgain reports a line that names rows to repeat, after a row that does
// nothing but repeat some.
func (r *reader) refersAgain(ln line) bool {
	body := r.row.body
	if len(body) > 16 || ln.end-ln.start < 3 || !r.toks[ln.start].isAny("rep", "repeat") || !isRowWord(&r.toks[ln.start+1]) || !r.endsSentence() {
		return false
	}
	for i := 0; i+1 < min(len(body), 6); i++ {
		if body[i].isAny("rep", "repeat", "as", "same") && (i == 0 || isRowWord(&body[i+1])) {
			return true
		}
	}
	return false
}

// edgeNamed reports the name of what is worked along a finished piece, closed by a
// full stop, as booklets begin a paragraph: "Heading. Along the straight side work ...".
func (r *reader) edgeNamed(ln line, k int) bool {
	t := &r.toks[ln.start]
	return k == ln.start+1 && r.toks[k].is(".") && t.blank && r.piece != nil &&
		t.isAny("heading", "edging", "edge", "border", "beading", "trimming")
}

// closesOpening reports a line that closes a piece laid flat with stitches of
// its own: "Fold flat and sc 6 through both layers. (6)".
func (r *reader) closesOpening(ln line) bool {
	at := ln.start
	if r.toks[at].is("stuff") {
		for at < ln.end-1 && !r.toks[at].isMark(".,") {
			at++ // "Stuff lightly. Flatten and ..."
		}
		at++
	} else if r.toks[at].isAny("don't", "do", "no", "not", "leave", "without") {
		for k := at; k < min(at+8, ln.end-1); k++ {
			if r.toks[k].isMark(".!;") && !r.hasStitches(line{at, k}) {
				at = k + 1 // "Don't stuff! Fold flat, ..."
				break
			}
		}
	}
	if at >= ln.end || !r.toks[at].isAny("fold", "flatten", "pinch", "press", "squash", "squish") || !r.endsClauseSoFar() || !r.hasStitches(ln) {
		return false
	}
	for k := ln.start; k+1 < ln.end; k++ {
		if r.toks[k].is("next") && isRowWord(&r.toks[k+1]) {
			return false
		}
	}
	return true
}

// countsSoonBefore reports a sentence about what a chain counts as, rather
// than one that makes it: no bracket or comma stands before "counts".
func (x *rowReader) countsSoonBefore(end int) bool {
	for i := x.p; i < end && i < x.p+16; i++ {
		if x.ts[i].isAny("(", "[", ",", ";", ".", "turn") {
			return false
		}
		if x.ts[i].isAny("counts", "count", "counted", "considered", "stands", "stand", "represents", "replaces") || x.ts[i].isAny("no", "not", "isn't") && x.ts[min(i+1, len(x.ts)-1)].isAny("st", "stitch", "a") {
			return true
		}
		if x.ts[i].is("=") {
			k := i + 1 - x.p
			if x.at(k).isAny("a", "the") || x.at(k).kind == tNum && x.at(k).num == 1 {
				k++
			}
			_, n := x.stitchAt(k)
			return n > 0 // "Ch 3 always = 1 dc."
		}
	}
	return false
}

func (x *rowReader) countsSoon(end int) bool {
	for i := x.p; i < end; i++ {
		if x.ts[i].isAny("counts", "count") {
			return true
		}
	}
	return false
}

// hasStitches reports whether a line has a word of stitches or chains with a
// number or place beside it.
func (r *reader) hasStitches(ln line) bool {
	x := r.scratch(ln.start)
	for k := 0; k < ln.end-ln.start; k++ {
		t := x.at(k)
		if t.isAny("ch", "chain") && (x.at(k+1).kind == tNum || x.at(k+1).is("of")) || t.isAny("ring", "mr") || t.isAny("magic", "adjustable") && x.at(k+1).isAny("loop", "circle") {
			return true
		}
		if (t.kind == tNum || t.isMark(")]")) && x.at(k+1).isAny("ch", "chain", "chains") {
			return true
		}
		if _, n := x.stitchAt(k); n > 0 && !t.isAny("plain", "single", "double", "treble", "slip", "slips") {
			return true
		}
	}
	return false
}

// definitionLike reports a line that says how a stitch is made: a name that
// print uses for one, a mark, and its making.
func (r *reader) definitionLike(ln line) bool {
	x := r.scratch(ln.start)
	named := groupWord(x, 0) > 0 || x.peek().isAny("picot", "cluster", "popcorn", "bobble", "puff", "beg", "beginning", "group", "cl", "pc", "joint", "star")
	if id, n := x.stitchAt(0); n > 0 && stitch.Of(id).Kind == stitch.Compound {
		named = true
	}
	for x.peek().isMark("^\"'") {
		x.p++ // a bullet, or quotes about the name
	}
	limit := 7
	for k := 1; k < min(limit, ln.end-x.p); k++ {
		t := x.at(k)
		if t.is("(") {
			limit = 10 // "FPdtr (front post double treble crochet):"
		}
		if t.isMark("\"'") && x.at(k+1).isMark("=") {
			continue
		}
		if t.is("=") && x.at(k+1).isMark("([") && r.hasStitches(ln) {
			return true // a name of the author's own for a group
		}
		if t.isMark(":=") || t.is("-") && (!t.glued || !x.at(k+1).isAny("st", "sts", "stitch", "ch")) && k > 0 {
			if !named {
				for j := k; j < ln.end-ln.start; j++ {
					if x.at(j).isAny("yo", "yoh", "yrh", "insert") || x.at(j).is("draw") || x.at(j).is("drop") && x.at(j+1).isAny("loop") {
						return true
					}
				}
				return false
			}
			return k+1 < ln.end-ln.start
		}
		if t.kind == tPunct && !t.isMark("-()") || isRowWord(t) {
			return false
		}
	}
	return false
}

// abbreviated reports a line that names a group of stitches, gives the short form
// of the name and tells of what it is made: "MUSSEL (mu): 3 dc, ch 1, 3 dc all in
// one place".
func (r *reader) abbreviated(ln line) bool {
	k := ln.start
	for k < ln.end && r.toks[k].kind == tWord && k-ln.start < 3 {
		k++
	}
	if k == ln.start || k+4 >= ln.end || !r.toks[k].isMark("([") || r.toks[k+1].kind != tWord {
		return false
	}
	name, short := r.toks[ln.start].text, r.toks[k+1].text
	if name == short || len(short) > 4 || name[:1] != short[:1] || !within(short, r.text(ln.start, k)) {
		return false
	}
	for k += 2; k < ln.end && !r.toks[k].isMark(")]"); k++ {
		if !r.toks[k].isAny("st", "sts", "stitch", "-") {
			return false
		}
	}
	if k+2 >= ln.end || !r.toks[k+1].isMark(":=-") {
		return false
	}
	if _, n := r.scratch(ln.start).stitchAt(0); n > 0 {
		return false // "Treble (tr): yo twice, ..."
	}
	told := false
	for k += 2; k < ln.end; k++ {
		if isRowWord(&r.toks[k]) {
			return false
		}
		told = told || r.toks[k].isAny("same", "one", "all")
	}
	return told && r.hasStitches(ln)
}

// within reports whether the letters of a short form come in this order in a name.
func within(short, name string) bool {
	name = strings.ToLower(name)
	for _, c := range short {
		_, rest, ok := strings.Cut(name, string(c))
		if !ok {
			return false
		}
		name = rest
	}
	return true
}

// everyRow reports a line on what is done in all rows alike: "Every round: 1 ch
// first (doesn't count), slip stitch to the first dc at the end."
func (r *reader) everyRow(ln line) bool {
	if t := &r.toks[ln.start]; t.isAny("ch", "chain") && ln.end-ln.start > 5 && r.toks[ln.start+1].kind == tNum {
		// "ch3 up each rnd, NOT counted."
		for k := ln.start + 2; k < ln.start+6; k++ {
			if r.toks[k].isAny("each", "every", "all") && isRowWord(&r.toks[k+1]) && (r.says(ln, "not") || r.says(ln, "counts") || r.says(ln, "counted")) {
				return true
			}
			if r.toks[k].kind != tWord || r.toks[k].isAny("turn", "sc", "dc") {
				break
			}
		}
	}
	if r.allRowsTold(ln) {
		return true
	}
	return ln.end-ln.start > 3 && r.toks[ln.start].isAny("every", "each", "all") && isRowWord(&r.toks[ln.start+1]) && r.toks[ln.start+2].isMark(":=-") || r.someRows(ln)
}

// someRows reports a line above the work on what is done in some rows: "A row that
// starts with a block starts with ch 3", "Rows beginning with OM begin with ch 5", "If
// a row ends with a space, work the dc in the 3rd ch".
func (r *reader) someRows(ln line) bool {
	if len(r.pat.Pieces) > 0 || ln.end-ln.start < 6 {
		return false
	}
	x := r.scratch(ln.start)
	if !x.phrase("[if|when|where|whenever]", "[a|the|any|every|each|all]", "row|rows|round|rounds", "[that|which]", "start|starts|starting|begin|begins|beginning|end|ends|ending", "[with|in|on]") {
		return false
	}
	x.accept("a", "an", "the")
	return x.peek().kind == tWord && !isRowWord(x.peek())
}

// bulleted reports an item of a list of notes above the work, which begins no
// piece: "• where I give a count it includes the ch-1 spaces".
func (r *reader) bulleted(ln line) bool {
	t := &r.toks[ln.start]
	if len(r.pat.Pieces) > 0 || ln.end-ln.start < 4 {
		return false
	}
	rest := ln
	if t.isMark("^") {
		rest.start++
	} else if before := strings.TrimRight(r.src.Text[:t.start], " \t"); !strings.HasSuffix(before, "•") && !strings.HasSuffix(before, "·") && !strings.HasSuffix(before, "▪") {
		return false
	}
	if _, ok := r.labelAt(rest.start); ok || r.foundation(rest) {
		return false
	}
	return !r.hasStitches(rest) || !r.beginsWork(rest) || r.says(rest, "=")
}

// says reports whether a line holds a word or mark.
func (r *reader) says(ln line, word string) bool {
	for k := ln.start; k < ln.end; k++ {
		if r.toks[k].is(word) {
			return true
		}
	}
	return false
}

// letterLine reports a line above the work that says what a letter stands for:
// "X: single crochet", "W: 3X in one st", "* V = (dc, ch 1, dc) in the same place".
func (r *reader) letterLine(ln line) bool {
	if r.row != nil || len(r.pat.Pieces) > 0 || len(r.setup) > 0 {
		return false
	}
	k := ln.start
	for k < ln.end && (r.toks[k].isMark("^*") || r.toks[k].is("-") && k == ln.start) {
		k++ // a bullet
	}
	if n := k + 1; n < ln.end && r.toks[k].kind == tWord && (r.toks[n].is("=") || r.toks[n].kind == tWord && n+1 < ln.end && r.toks[n+1].is("=")) && ln.end-k < 24 && r.hasStitches(ln) && (r.says(line{k, ln.end}, "same") || r.says(line{k, ln.end}, "one")) {
		return true // "* fan = 5 dc in the same place"
	}
	if k+2 >= ln.end || ln.end-k > 20 || r.toks[k].kind != tWord || len(r.toks[k].text) != 1 || !r.toks[k+1].isMark("=:") || r.toks[k].isAny("a", "b", "c", "d", "r") && r.toks[k+1].is(":") && r.toks[k+2].kind == tNum {
		return false
	}
	x := r.scratch(k + 2)
	_, n := x.stitchAt(0)
	return n > 0 && k+2+n >= ln.end || x.peek().isAny("increase", "inc", "decrease", "dec") && k+3 >= ln.end ||
		r.says(line{k + 2, ln.end}, "one") || r.says(line{k + 2, ln.end}, "same")
}

// glossedWords are the short words that lists of abbreviations explain.
var glossedWords = newWordSet("ch st sts mr mc sc dc hdc tr htr dtr sl ss slst inc dec invdec sp rep rnd rs ws blo flo bl fl fo yo yoh yrh tog sk tch beg lp fpdc bpdc")

// glossLine reports a line of a list of abbreviations that no heading
// announces: "MR - magic ring", "inc = 2 sc in one stitch". The short word
// alone stands before the mark, and no number behind it, but for a shaping.
func (r *reader) glossLine(ln line) bool {
	if r.row != nil || len(r.pat.Pieces) > 0 || len(r.setup) > 0 || ln.end-ln.start < 3 || ln.end-ln.start > 16 {
		return false
	}
	k := ln.start
	for k < ln.end && (r.toks[k].isMark("^*") || ornament(&r.toks[k]) || r.toks[k].is("-") && k == ln.start) {
		k++ // a bullet
	}
	shaping := k < ln.end && r.toks[k].isAny("inc", "dec", "invdec")
	if k >= ln.end || !r.toks[k].in(glossedWords) {
		return false
	}
	if k++; k < ln.end && r.toks[k].isAny("st", "stitch", "off") {
		k++
	}
	if k+1 >= ln.end || !(r.toks[k].isMark("=:") || r.toks[k].is("-") && !r.toks[k].glued) {
		return false
	}
	return r.toks[k+1].kind == tWord || shaping && r.toks[k+1].kind == tNum
}

// definedHere reports a line that defines a stitch in the section for it, though
// it begins with the stitch's name as work does: "FPdc (front post double
// crochet): yarn over, insert hook ...".
func (r *reader) definedHere(ln line) bool {
	return (r.sec == secAbbreviations || r.sec == secSpecial) && r.definitionLike(ln)
}

// foundation reports whether a line is the foundation of a piece: it ends
// even a section of notes.
func (r *reader) foundation(ln line) bool {
	x := r.scratch(ln.start)
	x.phrase("foundation|base|start|beginning|begin|starting", "[ch|chain|row]", ":")
	x.phrase("with|using", "[color|colour|yarn]", "[a|b|c|mc|cc]", "[,]")
	told := x.phrase("commence|begin|start|make|work", "[with|by]", "[a]", "[chaining]")
	_, sized := x.sizesAhead(1) // "Commence with 58 (64, 70) ch."
	if told && x.peek().kind == tNum && x.peek().num > 7 && x.at(1+sized).isAny("ch", "chain", "chains") && (x.at(2+sized).isMark(".,") || x.at(2+sized).head || x.at(2+sized).kind == tEnd) {
		return true // "Commence with 56 ch.", whatever was told above it
	}
	if x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chains") && !x.at(2).isAny("sp", "loop", "=", "-") && !x.countsSoon(ln.end) {
		return r.sec != secAbbreviations && r.sec != secSpecial && r.sec != secNotes
	}
	if x.peek().isAny("ch", "chain") && x.at(1).kind == tNum {
		for i := x.p; i < ln.end; i++ {
			if r.toks[i].isAny("counts", "count", "counted", "=", "equals", "throughout") {
				return false
			}
		}
		return x.at(1).num >= 2 && !x.at(2).isAny("sp", "space", "loop", "-") && (r.sec != secAbbreviations && r.sec != secSpecial || x.at(1).num > 7)
	}
	return false
}

// continues reports whether a line after a blank one still belongs to the row.
func (r *reader) continues(ln line) bool {
	t := &r.toks[ln.start]
	if end := r.lineEnd(ln.start); end+1 < len(r.toks) && !r.toks[end].blank && !r.beginsWork(ln) && r.foundation(line{end, r.lineEnd(end)}) {
		return false // "foot - flat", and "ch 9" below it
	}
	if t.isAny("fasten", "fo", "break", "cut", "finish") && !r.toks[min(ln.start+1, ln.end)].isMark(":-") {
		return t.isAny("fasten", "fo") || r.toks[ln.start+1].isAny("off", "yarn", "thread", "the")
	}
	if t.kind == tPunct && t.isMark("*([") && !r.endsSentence() {
		return true
	}
	if c := r.src.Text[r.row.row.labelSpan.Start:]; t.blank && c != "" && 'a' <= c[0] && c[0] <= 'z' && !r.row.row.labelSpan.Empty() && len(r.row.body) > 0 && !r.row.body[len(r.row.body)-1].separator() {
		return false // who types no capitals and no full stops parts things by a blank line
	}
	return !r.capital(ln.start) && t.kind == tWord && !r.endsSentence()
}

// endsSentence reports whether the row so far ends with a full stop or total.
func (r *reader) endsSentence() bool {
	if r.row == nil || len(r.row.body) == 0 {
		return true
	}
	return r.row.body[len(r.row.body)-1].isMark(".!)]}")
}

// headingLine reports whether a line is the name of a piece (or the title):
// a few words alone on a line, in capitals or with a capital, that are no
// instruction, with something to make below them.
func (r *reader) headingLine(i int) bool {
	ln := r.lines[i]
	t := &r.toks[ln.start]
	n := ln.end - ln.start
	word := ln.start
	for word < ln.end-1 && ornament(&r.toks[word]) {
		word++
	}
	if name, _, ok := r.nameSetOff(ln); ok {
		word = name.start
	}
	if f := &r.toks[word]; n > 14 || f.kind != tWord && f.kind != tOrd && !f.word || !(r.capital(word) || t.bold || t.blank && i+1 < len(r.lines) && r.plainHeading(i)) {
		return false
	}
	if r.row != nil && !t.blank && !r.endsSentence() && !t.bold {
		return false
	}
	head, ok := r.headingWords(ln)
	if !ok || head == 0 {
		return false
	}
	if r.sec != noSection && r.sec != secRows && !t.blank && !t.bold {
		return r.row == nil && i+1 < len(r.lines) && (r.inCapitals(ln.start, ln.end) && r.leadsToFoundation(r.lines[i+1]) || r.headsRowOne(i))
	}
	// something follows
	if i+1 >= len(r.lines) {
		return false
	}
	next := r.lines[i+1]
	if r.toks[next.start].kind == tEnd {
		return false
	}
	if l, ok := r.labelAt(next.start); ok && (!l.weak || r.weakOK) {
		return true
	}
	if r.beginsWork(next) {
		return true
	}
	if _, _, ok := r.sectionAt(next); ok {
		return true
	}
	if _, _, ok := r.runIn(next); ok {
		return true
	}
	if r.toks[next.start].blank {
		return t.blank && len(r.pat.Pieces) == 0 && r.row == nil || r.followedByWork(i+1)
	}
	return r.row == nil && (t.blank || ln.start == 0) && len(r.pat.Pieces) == 0 || r.followedByWork(i+1)
}

// headsRowOne reports a word or two right under a paragraph of notes and right above the first
// row of a piece: "Base". The last thing of a list of materials stands there as well.
func (r *reader) headsRowOne(i int) bool {
	ln, next := r.lines[i], r.lines[i+1]
	if k, ok := r.headingWords(ln); !ok || k > 3 || r.sec == secMaterials || r.sec == secYarn || r.sec == secHook || r.toks[next.start].blank || !r.toks[ln.start-1].isMark(".!?)") {
		return false
	}
	l, ok := r.labelAt(next.start)
	return ok && !l.weak && l.numbers.First.N == 1
}

// leadsToFoundation reports the line of a foundation right under a name.
func (r *reader) leadsToFoundation(ln line) bool {
	if r.toks[ln.start].kind == tEnd || r.toks[ln.start].blank {
		return false
	}
	_, ok := r.foundationBefore(ln)
	return ok
}

// plainHeading reports a name in small letters alone on a line, right above
// the work.
func (r *reader) plainHeading(i int) bool {
	ln := r.lines[i]
	if ln.end-ln.start > 5 {
		return false
	}
	for k := ln.start; k < ln.end; k++ {
		if k > ln.start && r.makeAt(k, ln.end) > 0 {
			break // "fins x2"
		}
		if r.toks[k].kind != tWord {
			return false
		}
	}
	next := r.lines[i+1]
	if r.toks[next.start].blank {
		return false
	}
	if l, ok := r.labelAt(next.start); ok && !l.weak {
		return true
	}
	return r.beginsWork(next)
}

// followedByWork reports whether the next few lines begin to make something.
func (r *reader) followedByWork(j int) bool {
	for k := j; k < min(j+4, len(r.lines)); k++ {
		if l, ok := r.labelAt(r.lines[k].start); ok && !l.weak {
			return true
		}
		if r.beginsWork(r.lines[k]) {
			return true
		}
	}
	return false
}

// rowTalk are words that a heading has none of.
var rowTalk = newWordSet("turn skip sk rep repeat st sts each ch sp next fasten join rnd row rows rnds round work weave sew stuff change leave continue across around with")

// headingWords reads the words of a heading, with "make N" behind them, and
// gives how many tokens the name takes. It is false where the line is no
// heading.
func (r *reader) headingWords(ln line) (int, bool) {
	if _, after, ok := r.nameSetOff(ln); ok {
		return after - ln.start, true
	}
	x := r.scratch(ln.start)
	makes := func(i int) bool {
		n := r.makeAt(i, ln.end)
		x = r.scratch(ln.start) // there is one, and it was moved
		return n > 0
	}
	k, inside, bracket, open := 0, 0, 0, 0
	if t := x.peek(); t.isAny("begin", "start", "chain") && (x.at(1).isAny("at", "with", "by", "from", "in") || x.at(1).kind == tNum) {
		return 0, false // "Begin at the point: ch 4", "Chain 24"
	}
	if x.peek().isAny("make", "commence", "using") && r.hasStitches(ln) {
		return 0, false // "Make a chain of 20"
	}
	for ln.start+k < ln.end {
		t := x.at(k)
		if t.isMark("([:-,") && (makes(ln.start+k) || t.is(":")) || t.isAny("x", "make") && makes(ln.start+k) {
			break
		}
		switch {
		case t.isMark("&'/#+"), ornament(t):
		case t.is("-") && k > 0 && ln.start+k+1 < ln.end:
		case t.is("("):
			if end := x.closer(k); end > 0 {
				inside += end - x.p - k + 1
				bracket, open = end-x.p, k
			}
		case t.is(")"):
		case t.isMark(",!?") && k < bracket: // "COLLAR (cream, worked flat)", "HAT (optional!)"
		case t.kind == tPunct:
			return 0, false
		case t.kind == tNum && !t.word:
			if k == 0 || ln.start+k+1 < ln.end && !x.at(k+1).isMark("(:-") {
				return 0, false
			}
		case t.in(rowTalk):
			if !(t.isAny("round", "next", "turn", "row", "with", "around") && k > 0) {
				return 0, false
			}
		}
		if id, n := x.stitchAt(k); n > 0 && id != 0 && (t.isAny("sc", "dc", "hdc", "tr", "htr", "dtr", "slst", "ss", "inc", "dec") || x.at(k+1).is("in")) {
			return 0, false
		}
		k++
	}
	if k == 0 || k-min(inside, 6) > 7 {
		return 0, false
	}
	rest := ln.start + k
	if m := r.makeAt(rest, ln.end); m > 0 {
		if k < bracket && open > 0 {
			return open, true // "LEAF (green, make 2)"
		}
		return k, true
	}
	if rest < ln.end && r.toks[rest].is(":") {
		rest++
		if rest < ln.end && r.makeAt(rest, ln.end) > 0 {
			return k, true
		}
	}
	return k, rest >= ln.end
}

// makeAt reads "(make 2)", "- make 5", "x3", "(6x)" to the end of the line and
// gives the number; 0 where it is something else.
func (r *reader) makeAt(i, end int) int {
	if after, n := r.copiesBracketed(i); n > 0 {
		for after < end && r.toks[after].isMark(":.") {
			after++
		}
		if after >= end {
			return int(n)
		}
	}
	x := r.scratch(i)
	x.accept("(", "[", "-", ",", ":")
	x.accept("(", "[")
	n := int64(0)
	x.accept("please", "crochet", "you")
	switch {
	case x.accept("make", "makes", "work", "need"):
		x.accept("a", "total", "of")
		switch {
		case x.peek().kind == tNum:
			n = x.peek().num
			x.p++
		case x.accept("twice", "both"):
			n = 2
		case x.peek().isAny("as"):
			n = 1
		}
	case x.peek().isAny("x") && x.at(1).kind == tNum:
		n = x.at(1).num
		x.p += 2
	case x.peek().kind == tNum && x.at(1).isAny("x") || x.peek().kind == tNum && x.at(1).isAny("pieces", "pcs", "times", "needed", "details", "parts", "items"):
		n = x.peek().num
		x.p += 2
	}
	if n < 1 || n > 10000 {
		return 0
	}
	for x.p < end && !x.peek().isMark(")]:") {
		if x.peek().kind == tNum || x.peek().isAny("ch", "chain", "chains", "sts", "sc", "dc") {
			return 0
		}
		x.p++ // "in each colour"
	}
	x.accept(")", "]")
	x.accept(":", ".")
	if x.peek().isAny("-", ",", "in") && end-x.p <= 5 && x.wordsOnly(1, end-x.p) {
		return int(n) // "CLAW (make 2) - orange"
	}
	if x.p < end {
		return 0
	}
	return int(n)
}

// newHeading keeps a heading until what follows shows what it names.
func (r *reader) newHeading(ln line) {
	n, _ := r.headingWords(ln)
	r.headingNamed(ln, n)
}

// headingNamed is newHeading for a line whose name takes so many tokens; 0 where it is all of
// the line but the marks at its end.
func (r *reader) headingNamed(ln line, n int) {
	r.only, r.skips = nil, nil
	if r.heading.set {
		r.settleHeading(false)
	}
	end := ln.start + n
	if n == 0 {
		end = ln.end
		for end > ln.start+1 && r.toks[end-1].isMark(":-#.") {
			end--
		}
	}
	h := pendingHead{set: true, make: 1, name: strings.Trim(r.text(ln.start, end), "*_# ")}
	if name, _, ok := r.nameSetOff(ln); ok {
		h.name = r.text(name.start, name.end)
	}
	for i := end; i < ln.end; i++ {
		if m := r.makeAt(i, ln.end); m > 0 {
			h.make = m
			break
		}
	}
	h.span = Span{int(r.toks[ln.start].start), int(r.toks[ln.end-1].end)}
	h.line = r.src.lineAt(h.span.Start)
	h.level = r.toks[ln.start].heading
	r.heading = h
}

// settleHeading makes a piece of the heading, or the title where nothing is
// made under it.
func (r *reader) settleHeading(work bool) {
	h := r.heading
	r.heading = pendingHead{}
	if !work {
		if r.pat.Title == "" && len(r.pat.Pieces) == 0 {
			r.pat.Title = h.name
		} else {
			r.pat.Headers = append(r.pat.Headers, Header{Span: h.span, Kind: HeaderNote, Text: h.name})
		}
		return
	}
	r.addPiece(&Piece{Span: h.span, Name: h.name, Copies: max(1, h.make), Line: h.line})
}

// named reports whether the piece that rows are added to has a name.
func (r *reader) named(name string) bool {
	return !r.heading.set && r.piece != nil && strings.EqualFold(r.piece.Name, name)
}

// goesOnAs reports a row of the piece at hand that says its name again: "Border,
// Rnd 2: ..." below "Border, Rnd 1: ...".
func (r *reader) goesOnAs(name string, at int) bool {
	l, ok := r.labelAt(at)
	return ok && l.numbers.First.N > 1 && r.named(name)
}

// firstLabel reports the label of a first row at a token, "1st row:".
func (r *reader) firstLabel(at int) bool {
	l, ok := r.labelAt(at)
	return ok && l.strong && !l.weak && l.numbers.First.N == 1
}

// labelled reports a label that a colon closes at a token.
func (r *reader) labelled(at int) bool {
	l, ok := r.labelAt(at)
	return ok && l.strong && !l.weak && r.toks[l.end-1].is(":")
}

// runIn reads a heading that runs into its work: "Palm: Using the hook make a
// chain of 25 sts."
func (r *reader) runIn(ln line) (name string, body int, ok bool) {
	if !r.capital(ln.start) {
		return "", 0, false
	}
	for k := ln.start; k < min(ln.end, ln.start+9); k++ {
		t := &r.toks[k]
		if t.is(".") && k > ln.start && k+3 < ln.end && r.toks[k+1].is(".") && r.toks[k+2].is(".") {
			// "RIGHT MITTEN . . . Cuff: Starting at narrow edge, ch 16."
			if _, inner, ok := r.runIn(line{k + 3, ln.end}); ok && inner <= ln.start+9 {
				return strings.ToLower(r.text(ln.start, inner-1)), inner, true
			}
			if _, ok := r.headingWords(line{ln.start, k}); ok && (r.beginsWork(line{k + 3, ln.end}) || r.firstLabel(k+3)) {
				return strings.ToLower(r.text(ln.start, k)), k + 3, true
			}
			return "", 0, false
		}
		if t.is("-") && k > ln.start && k+1 < ln.end {
			// "Edging—Row 1: Ch 1, sc ..."
			if l, isLabel := r.labelAt(k + 1); isLabel && l.strong && !l.weak {
				if r.toks[ln.start].isAny("shape", "shaping") {
					return "", 0, false // it goes on
				}
				name = strings.ToLower(r.text(ln.start, k))
				_, ok := r.headingWords(line{ln.start, k})
				return name, k + 1, ok && r.names[name] == nil
			}
		}
		if t.is(",") && k > ln.start && k+1 < ln.end {
			// "Border, Rnd 1: Ch 1, turn; 3 sc in first sc ..."
			l, isLabel := r.labelAt(k + 1)
			if !isLabel || !l.strong || l.weak || isRowWord(&r.toks[ln.start]) {
				return "", 0, false
			}
			name = strings.ToLower(r.text(ln.start, k))
			_, ok := r.headingWords(line{ln.start, k})
			return name, k + 1, ok && r.names[name] == nil && (l.numbers.First.N == 1 || r.named(name))
		}
		if t.isMark("([") && k > ln.start {
			if name, body, ok := r.copiesRunIn(ln, k); ok {
				return name, body, true
			}
		}
		edge := r.edgeNamed(ln, k)
		named := edge || t.is(".") && (r.inCapitals(ln.start, k) || k <= ln.start+3 && k+1 < ln.end && r.firstLabel(k+1))
		if t.is(":") || t.is("-") && !t.glued && k > ln.start || named {
			if k+1 >= ln.end || k == ln.start {
				return "", 0, false
			}
			name = strings.ToLower(r.text(ln.start, k))
			nameEnd := k
			for named && k+2 < ln.end && r.toks[k+1].is("-") {
				k++ // "THE PEAK.--Commence with 20 ch."
			}
			if r.row == nil && r.toks[ln.start].isAny("colour", "color", "yarn", "with") && r.hasStitches(line{k + 1, ln.end}) {
				return "begin", k + 1, true // "Colour A: make 5 ch ..."
			}
			if _, isSection := sectionNames[name]; isSection {
				return "", 0, false
			}
			if t.is("-") && !setupNames[name] {
				return "", 0, false
			}
			if !setupNames[name] {
				if _, ok := r.headingWords(line{ln.start, nameEnd}); !ok {
					return "", 0, false
				}
			}
			if r.names[name] != nil || r.sec == secAbbreviations || r.sec == secSpecial || r.sec == secNotes {
				return "", 0, false
			}
			rest := line{k + 1, ln.end}
			if l, isLabel := r.labelAt(k + 1); isLabel && l.strong {
				return name, k + 1, true
			}
			if setupNames[name] && k > ln.start && r.toks[k-1].isAny("ch", "chain") && r.toks[k+1].kind == tNum && (k+2 >= ln.end || r.toks[k+2].isAny(".", ",", "(", "sts", "stitches")) {
				if k == ln.start+2 {
					return name, ln.start, true // "Foundation chain: 52."
				}
				return name, k - 1, true
			}
			if r.beginsWork(rest) || (edge || setupNames[name]) && r.hasStitches(rest) {
				return name, k + 1, true
			}
			return "", 0, false
		}
		if t.isMark(".;*") {
			return "", 0, false
		}
	}
	return "", 0, false
}

// pieceUnderNotes reports whether a line under notes begins a piece: a heading
// that runs into its foundation, set in capitals or with a first row below it.
func (r *reader) pieceUnderNotes(i int) bool {
	ln := r.lines[i]
	sec := r.sec
	r.sec = noSection
	_, body, ok := r.runIn(ln)
	r.sec = sec
	if !ok {
		return false
	}
	if body > ln.start && r.inCapitals(ln.start, body-1) && r.foundation(line{body, ln.end}) {
		return true
	}
	if i+1 >= len(r.lines) {
		return false
	}
	if l, ok := r.labelAt(r.lines[i+1].start); !ok || !l.strong || l.numbers.First.N > 1 {
		return false
	}
	for k := body; k+1 < ln.end; k++ {
		if t := &r.toks[k]; t.isAny("ch", "chain") && r.toks[k+1].kind == tNum && (k == body || r.toks[k-1].isMark(",:")) {
			return true
		}
	}
	return false
}

// inCapitals reports whether words are set in capitals, as print sets a name
// that runs into its work: "THE PEAK. Work in rows."
func (r *reader) inCapitals(from, to int) bool {
	letters := 0
	for _, c := range r.text(from, to) {
		if 'a' <= c && c <= 'z' {
			return false
		}
		if 'A' <= c && c <= 'Z' {
			letters++
		}
	}
	return letters >= 4
}

// prose takes a line that is none of these: a note.
func (r *reader) prose(ln line) {
	if r.alone(ln) {
		text := r.src.Slice(Span{int(r.toks[ln.start].start), int(r.toks[ln.end-1].end)})
		r.pat.Title = strings.TrimFunc(strings.ReplaceAll(text, "*", ""), func(c rune) bool { return strings.ContainsRune("_#~-=\t ", c) })
		return
	}
	h := Header{Span: Span{int(r.toks[ln.start].start), int(r.toks[ln.end-1].end)}, Kind: HeaderNote, Text: r.text(ln.start, ln.end)}
	r.conv.fromNote(r, r.toks[ln.start:ln.end])
	if len(r.pat.Pieces) == 0 || r.heading.set && len(r.pat.Pieces) == 0 {
		r.specialLine(ln)
	}
	if r.row != nil {
		r.closeRow()
	}
	if r.heading.set && r.pat.Title == "" && len(r.pat.Pieces) == 0 && r.heading.level < 2 && !r.workSoon(ln) {
		r.pat.Title = r.heading.name // a line about it stands between the title and the work
		r.heading.set = false
	}
	if r.piece != nil && !r.heading.set {
		r.piece.Notes = append(r.piece.Notes, h)
		if d := r.lastDraft(); d != nil && d.piece == r.piece {
			d.after = append(d.after, h)
		}
		return
	}
	r.pat.Headers = append(r.pat.Headers, h)
}

// longTitle is how many letters a title has at most that nothing else shows to
// be one.
const longTitle = 60

// alone reports whether a line is the title for standing alone at the top: in
// small letters, in brackets, behind a sign, or with any sign in it.
func (r *reader) alone(ln line) bool {
	if r.pat.Title != "" || r.heading.set || r.sec != noSection || r.row != nil || len(r.pat.Pieces) > 0 || len(r.pat.Headers) > 0 || len(r.setup) > 0 || ln.start != 0 {
		return false
	}
	next, last := &r.toks[ln.end], &r.toks[ln.end-1]
	apart := next.blank || termsAlone(r.toks, ln.end) != stitch.Unknown
	if called := r.src.Text[last.start] == '!'; next.kind == tEnd || !apart || last.isMark(".,:;?") && !called || int(last.end-r.toks[0].start) > longTitle {
		return false
	}
	named, counted, words := false, false, make([]token, 0, ln.end-ln.start)
	for k := ln.start; k < ln.end; k++ {
		t := &r.toks[k]
		if t.in(rowTalk) || t.isAny("=", "us", "uk", "american", "british", "usa", "make") {
			return false
		}
		named, counted = named || t.kind == tWord, counted || t.kind == tNum && k > ln.start
		if !t.is("*") {
			words = append(words, *t)
		}
	}
	return named && (plainWords(words) || !counted && !r.beginsWork(ln))
}

// workSoon reports whether the line after ln begins to make something, so
// that the heading above is a piece with a remark under it.
func (r *reader) workSoon(ln line) bool {
	for i := range r.lines {
		if r.lines[i].start >= ln.end {
			return !r.toks[r.lines[i].start].blank && r.followedByWork(i)
		}
	}
	return false
}

func (r *reader) lastDraft() *rowDraft {
	if n := len(r.drafts); n > 0 {
		return r.drafts[n-1]
	}
	return nil
}
