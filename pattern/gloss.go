package pattern

import "crochet/tallyturn/pattern/stitch"

// A maker's list of her own letters is often one line among the notes, "v = 2 in
// 1   A = 2 tog", and says no more of a shaping than how many go where.

// surveyGlosses finds the letters, and the word "tog", that stand for an
// increase or a decrease wherever a line says so.
func (r *reader) surveyGlosses() {
	for _, ln := range r.lines {
		for k := ln.start + 1; k+1 < ln.end; k++ {
			t := &r.toks[k-1]
			if !r.toks[k].is("=") || t.kind != tWord || len(t.text) != 1 && !t.is("tog") || k-2 >= ln.start && r.toks[k-2].kind == tNum {
				continue
			}
			if word := r.shapingGloss(k+1, ln.end); word != "" {
				r.addAlias(t.text, word)
			}
		}
	}
	r.plainLetter()
}

// plainLetter takes "x" for the plain stitch of notes that say what "v" and "a" are
// and leave it out, as everyone who writes so knows: "5. 4x, 4v, 8x".
func (r *reader) plainLetter() {
	if r.aliases["x"] != "" || r.aliases["v"] != "inc" && r.aliases["a"] != "dec" {
		return
	}
	used, first := 0, Span{}
	for i := 1; i+1 < len(r.toks); i++ {
		t, before, after := &r.toks[i], &r.toks[i-1], &r.toks[i+1]
		if !t.is("x") || after.kind == tNum && !after.head {
			continue
		}
		if after.is("=") && before.kind != tNum {
			return // it is told what it stands for
		}
		if before.kind == tNum && !before.frac && t.glued && !after.isMark("([*") || before.isMark("([,") && after.isMark(",)]") {
			if used++; used == 1 {
				first = t.span()
			}
		}
	}
	if used < 2 {
		return
	}
	id := stitch.SC
	if r.pat.usual != stitch.None {
		id = r.pat.usual
	}
	name := r.nameOf(id)
	r.addAlias("x", name)
	r.pat.note(Note, CodeReading, first, "no line says what x is: it is taken for %s", name)
}

// shapingGloss reads "2 in 1", "2 dc in same st", "2 tog", "dc2tog", "over 2":
// an increase or a decrease of one. It is empty for anything else.
//
//	gloss = "2" [ stitch ] "in" ( "1" | "one" | "same" | "a" | "st" | ... ) [ "st" ] | "2" [ stitch ] "tog" | [ stitch ] "2" "tog" | "over" "2" .
func (r *reader) shapingGloss(from, to int) string {
	x := r.scratch(from)
	word := ""
	name := func() {
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
		} else if t := x.peek(); t.kind == tWord && len(t.text) == 1 {
			x.p++ // "2X in one st"
		}
	}
	two := func() bool {
		t := x.peek()
		if t.kind != tNum || t.frac || t.num != 2 {
			return false
		}
		x.p++
		return true
	}
	if !x.peek().is("over") {
		name()
	}
	switch {
	case x.phrase("over") && two():
		word = "dec"
	case two():
		name()
		switch {
		case x.phrase("tog|together|tg|togeth"):
			word = "dec"
		case x.phrase("in|into", "[the]") && (x.peek().kind == tNum && x.peek().num == 1 || x.peek().isAny("same", "a", "an", "st", "stitch", "each", "ea")):
			x.p++
			word = "inc"
		default:
			return ""
		}
	default:
		return ""
	}
	x.phrase("[same]", "st|sts|stitch|stitches|loop|loops|place|chain")
	if x.p < to && !x.peek().isMark(".,;)]/|") && !(x.at(1).is("=") && x.peek().kind == tWord) {
		return ""
	}
	return word
}

// addAlias keeps a short word that stands for one we know.
func (r *reader) addAlias(name, word string) {
	if r.aliases == nil {
		r.aliases = make(map[string]string)
	}
	r.aliases[name] = word
}
