package pattern

import "crochet/tallyturn/pattern/stitch"

// A maker's list of her own letters is often one line among the notes, "v = 2 in
// 1   A = 2 tog", and says no more of a shaping than how many go where.

// surveyGlosses finds the letters, and the word "tog", that stand for a stitch, an
// increase or a decrease wherever a line says so.
func (r *reader) surveyGlosses() {
	for _, ln := range r.lines {
		for k := ln.start + 1; k+1 < ln.end; k++ {
			t := &r.toks[k-1]
			whole := k-1 == ln.start && r.toks[k].isAny(":", "-")
			short := len(t.text) > 1 && len(t.text) < 5 && r.toks[k].is("=") && t.opening == 0 && !t.is("tog") // "hst = half treble"
			if !r.toks[k].is("=") && !whole || t.kind != tWord || len(t.text) != 1 && !t.is("tog") && !short || k-2 >= ln.start && (r.toks[k-2].kind == tNum || r.toks[k-2].kind == tWord && len(r.toks[k-2].text) == 1) {
				continue // "2tog = ...", or the last letter of "d c = double crochet"
			}
			word := ""
			if !whole && !short {
				word = r.shapingGloss(k+1, ln.end)
			}
			if word == "" && len(t.text) == 1 || short && !r.scratch(k-1).stitchFollows(0) {
				word = r.stitchGloss(k+1, ln.end, whole)
			}
			if word != "" {
				r.addAlias(t.text, word)
			}
		}
	}
	r.plainLetter()
	r.usualLetters()
}

// stitchGloss reads what a letter stands for in a list on one line, "X = sc, V =
// increase; A = decrease": a stitch, or an increase or a decrease, and nothing more. Of
// a line that is no list, "X: single crochet", it must be the whole.
func (r *reader) stitchGloss(from, to int, whole bool) string {
	x := r.scratch(from)
	word, n := "", 1
	if id, k := x.stitchAt(0); k > 0 && stitch.Of(id).Kind == stitch.Basic {
		word, n = r.nameOf(id), k
	} else if id, k := x.lookup(r.other, 0); k > 0 && stitch.Of(id).Kind == stitch.Basic && len(x.peek().text) > 3 {
		word, n = r.nameOf(id), k // in the words of the other side
	} else if t := x.peek(); t.isAny("increase", "inc", "increases") {
		word = "inc"
	} else if t.isAny("chain", "chains") && x.at(1).isMark(",.;") {
		word = "ch" // "ml = chain, ms = single crochet"
	} else if t.isAny("decrease", "dec", "decreases") {
		word = "dec"
	} else {
		return ""
	}
	x.p += n
	if x.accept("st", "stitch"); x.p < to && whole || x.p < to && !x.peek().isMark(".,;)]/|(") && !(x.at(1).is("=") && x.peek().kind == tWord) {
		return ""
	}
	return word
}

// usualLetters takes "X", "V" and "A" for a plain stitch, an increase and a decrease in
// rows that no line explains: the letters are those of the symbols of charts, and stand
// for the words in charts of toys everywhere (common practice, no source). One of them
// alone might be anything.
func (r *reader) usualLetters() {
	if len(r.aliases) > 0 || r.pat.blocks {
		return
	}
	used := map[string]int{}
	first := Span{}
	for i := 1; i+1 < len(r.toks); i++ {
		t, after := &r.toks[i], &r.toks[i+1]
		if t.kind != tWord || !t.isAny("x", "v", "a") || !r.standsAsStitch(i) {
			continue
		}
		if after.is("=") && r.toks[i-1].kind != tNum {
			return
		}
		if used[t.text]++; len(used) == 1 && used[t.text] == 1 {
			first = t.span()
		}
	}
	if used["v"] == 0 || used["x"] == 0 && used["a"] == 0 {
		return
	}
	id := stitch.SC
	if r.pat.usual != stitch.None {
		id = r.pat.usual
	}
	name := r.nameOf(id)
	r.addAlias("x", name)
	r.addAlias("v", "inc")
	r.addAlias("a", "dec")
	r.pat.note(Note, CodeReading, first, "no line says what X, V and A are: they are taken for %s, an increase and a decrease", name)
}

// standsAsStitch reports whether a letter stands where only a stitch could: "6V",
// "(X, 2V)", but no number of times as in "x 6" or "inc x6".
func (r *reader) standsAsStitch(i int) bool {
	t, before, after := &r.toks[i], &r.toks[i-1], &r.toks[i+1]
	ends := after.head || after.kind == tEnd || after.isMark(",)].;=[({*+-") || after.isAny("x", "around")
	switch {
	case before.kind == tNum && !before.frac && !t.head:
		return t.glued && ends && !(t.is("x") && after.isMark("([{"))
	case before.isMark("([{,+*") && !t.head:
		return after.isMark(",)]}+*") && !after.head
	}
	return false
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
