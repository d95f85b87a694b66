package pattern

import (
	"strings"
	"unicode/utf8"
)

// nameOfPart reads a line that names what is made below it. It gives the line without what
// adorns it, and how many of its tokens are the name.
//
//	name = plain heading | adornment name adornment | words ( "(" | "," | ":" ) how it is made .
func (r *reader) nameOfPart(i int) (line, int, bool) {
	ln := r.lines[i]
	if r.headingLine(i) {
		n, _ := r.headingWords(ln)
		return ln, n, true
	}
	if listed := r.sec != noSection && r.sec != secRows && r.sec != secAssembly && !r.toks[ln.start].blank; listed || i+1 >= len(r.lines) || r.heading.set || r.row != nil && !r.toks[ln.start].blank && !r.endsSentence() {
		return ln, 0, false
	}
	inner := r.unadorned(ln)
	n, ok := r.headingWords(inner)
	if ok = ok && n > 0 && inner != ln; !ok && (r.piece != nil || r.pat.Title != "") {
		n, ok = r.nameAndManner(inner)
	}
	return inner, n, ok && !r.toks[inner.start].in(pictureWords) && r.partBegins(i+1)
}

// pictureWords begin the captions of a page.
var pictureWords = newWordSet("photo photos picture pictures pic pics image images video fig figure advert ad ads")

// unadorned is a line without the marks that stand around a name: "~ Strap ~", "<Strap>",
// "*** Strap ***", "== Strap ==".
func (r *reader) unadorned(ln line) line {
	in := ln
	for in.start < in.end-1 && adorns(&r.toks[in.start]) {
		in.start++
	}
	for in.end > in.start+1 && adorns(&r.toks[in.end-1]) {
		in.end--
	}
	if in.end == ln.end && in.end-in.start <= 3 && r.piece != nil && r.toks[ln.end-1].isMark(".;") {
		in.end-- // "Strap." below the rows of another
	}
	if in.start > ln.start && in.end == ln.end && r.toks[ln.start].isAny("*", "-", "+", "[", "<") {
		return ln // a bullet, or what is repeated
	}
	if (in.start == ln.start || in.end == ln.end) && !r.capital(in.start) {
		return ln
	}
	return in
}

// adorns reports whether a token may stand around a name.
func adorns(t *token) bool {
	if t.kind != tPunct {
		return false
	}
	c, _ := utf8.DecodeRuneInString(t.text)
	return c >= utf8.RuneSelf || strings.Trim(t.text, "*~-=<>[]_|+#^/:") == ""
}

// nameAndManner reads a name with what is told of how it is made: "Beak (orange, worked in
// rows)", "Strap, worked flat", "Fin: in blue". It gives the tokens of the name.
func (r *reader) nameAndManner(ln line) (int, bool) {
	name := 0
	for name < ln.end-ln.start && r.toks[ln.start+name].kind == tWord {
		name++
	}
	if name == 0 || name > 3 || ln.end-ln.start > maxManner || !r.capital(ln.start) || !r.toks[ln.start+name].isMark("(,:") {
		return 0, false
	}
	if k, ok := r.headingWords(line{ln.start, ln.start + name}); !ok || k != name {
		return 0, false
	}
	if last := &r.toks[ln.end-1]; last.kind == tPunct && !last.isMark(")") {
		return 0, false // a sentence
	}
	x := r.scratch(ln.start)
	for k := name; k < ln.end-ln.start; k++ {
		t := x.at(k)
		if id, n := x.stitchAt(k); n > 0 && id != 0 || t.isAny("ch", "chain", "each", "next", "rep", "repeat", "skip") || t.kind == tPunct && !t.isMark("(),:-'&/") {
			return 0, false
		}
	}
	return name, true
}

// maxManner is how many tokens a name takes with how it is made.
const maxManner = 14

// partBegins reports whether a first row or a foundation stands in one of the next lines.
func (r *reader) partBegins(j int) bool {
	for k := j; k < min(j+3, len(r.lines)); k++ {
		ln := r.lines[k]
		if r.toks[ln.start].kind == tEnd {
			return false
		}
		if l, ok := r.labelAt(ln.start); ok && !l.weak {
			return l.numbers.First.N == 1
		}
		if _, ok := r.foundationBefore(ln); ok {
			return true
		}
	}
	return false
}
