package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// found is a stitch's name in a text.
type found struct {
	n           int // tokens; 0 for none
	end         int // the token behind it
	id          stitch.ID
	name, there string
	other       bool // it is told in the other terms already
}

// stitchName finds the name of a stitch at token i, and how it is written
// across. Where a text gives both terms, "dc (UK tr)", the second is put back.
func (c *crosser) stitchName(i int, last found) found {
	if c.both && last.n > 0 && i-last.end <= 4 && c.gluedTo(last.end, i) {
		if f := c.longest(c.there, i); f.n > 0 && f.id == last.id && !last.other && f.name != last.name {
			f.there, f.other = f.id.Across(f.name, c.from), true
			return f
		}
	}
	f := c.longest(c.lex, i)
	if f.n == 0 {
		return c.run(i)
	}
	if !c.isStitch(i, f) {
		return found{}
	}
	f.there = f.id.Across(f.name, c.to)
	if strings.HasSuffix(f.there, "t r") && c.toks[i+1].is(".") {
		f.there = strings.ReplaceAll(f.there, " ", "") // "d.c." is "tr.", and never "t.r."
	}
	return f
}

// gluedTo reports whether what stands between two names only sets them beside
// each other: "dc (UK tr)", "sc = dc", "14dc (14tr)".
func (c *crosser) gluedTo(from, to int) bool {
	for k := from; k < to; k++ {
		if t := &c.toks[k]; !t.isAny("(", "[", "=", ":", "/", "-", "is", "uk", "us", "british", "american", "in", "or") && t.kind != tNum {
			return false
		}
	}
	return to > from
}

// longest is the longest name of a lexicon at token i.
func (c *crosser) longest(l *stitch.Lexicon, i int) found {
	var f found
	name := c.toks[i].text
	id, more := l.Find(name)
	if id != stitch.None {
		f = found{n: 1, id: id, name: name}
	}
	for j := i + 1; more && j < len(c.toks) && j < i+9; {
		if u := &c.toks[j]; j+1 < len(c.toks) && (u.is("-") && u.glued || u.is(".") && (len(c.toks[j-1].text) == 1 || u.glued && c.toks[j+1].glued)) {
			j++ // "s. c.", "tr.c.", "half-double"
		}
		if c.toks[j].kind != tWord {
			break
		}
		name += " " + c.toks[j].text
		j++
		if id, more = l.Find(name); id != stitch.None {
			f = found{n: j - i, id: id, name: name}
		}
	}
	f.end = i + f.n
	return f
}

// tails are what is written together with an abbreviation: "sctog", "hdcblo".
var tails = []string{"tog", "inc", "dec", "blo", "flo", "bl", "fl", "sp", "sts", "st"}

// run finds an abbreviation written together with what belongs to it. Only the
// abbreviation is put across.
func (c *crosser) run(i int) found {
	word := c.toks[i].text
	for _, tail := range tails {
		head, ok := strings.CutSuffix(word, tail)
		if !ok || head == "" {
			continue
		}
		switch id, _ := c.lex.Find(head); id {
		case stitch.SC, stitch.HDC, stitch.DC, stitch.TR, stitch.DTR:
			return found{n: 1, end: i + 1, id: id, name: word, there: id.Across(head, c.to) + tail}
		}
	}
	return found{}
}

// ambiguous reports whether a name of stitches is an everyday word too.
func ambiguous(word string) bool {
	switch word {
	case "single", "singles", "double", "doubles", "treble", "trebles", "triple", "plain", "half":
		return true
	}
	return false
}

// notStitches follow "double" where it is none.
const notStitches = "knitting|knit|strand|strands|stranded|yarn|yarns|thread|threads|thick|thickness|sided|layer|layers|check|time|pointed|length|knot|ended|fold|wrap|wool|cotton|clef|hook|hooks|rib|colour|color|piece|size|bed"

// alsoHeld stand before "double" where it is none: "yarn held double".
const alsoHeld = "held|hold|holding|yarn|thread|wool|cotton|used|use|using|strands|folded|fold|worked|twist"

// isStitch reports whether a name at token i is a stitch and no everyday word.
func (c *crosser) isStitch(i int, f found) bool {
	z := c.zones[i]
	if f.n > 1 {
		short := true // "s c", "t r": letters that may be anything
		for k := i; k < i+f.n; k++ {
			short = short && (c.toks[k].kind == tPunct || len(c.toks[k].text) == 1)
		}
		return !short || z == inRow
	}
	if !ambiguous(f.name) {
		return true
	}
	next, prev := c.tok(i+f.n), c.tok(i-1)
	if c.tok(i + f.n).is("-") {
		next = c.tok(i + f.n + 1)
	}
	if after := c.longest(c.lex, i+f.n); after.n > 0 && !next.head && !next.is("crochet") {
		return false // "in next single dc"
	}
	if next.oneOf(notStitches) && !next.head || prev.oneOf(alsoHeld) && z != inRow {
		return false
	}
	switch z {
	case inRow:
		if f.name == "double" && prev.kind != tNum && (next.oneOf("each|every|ea|up") || prev.oneOf("st|sts|stitch|stitches|one") && c.tok(i-2).oneOf("each|every|ea")) {
			return false // "double every 2nd st", "every stitch double": two in each of them
		}
		return true
	case inName:
		return false
	}
	if strings.HasPrefix(f.name, "treble") {
		return true
	}
	placed := prev.kind == tNum || prev.kind == tOrd || prev.oneOf("a|each|every|next|last|same|in|into|of|the|work|works|and|=|:|(")
	return placed && (next.head || next.kind == tEnd || next.kind == tPunct || next.oneOf("in|into|st|sts|stitch|stitches|and|across|around|round|to|for|from|over|on|each|twice|with|is|counts"))
}

func (c *crosser) tok(i int) *token {
	if i < 0 || i >= len(c.toks) {
		return &c.toks[len(c.toks)-1]
	}
	return &c.toks[i]
}

// claim finds a word that says which terms the text is in, at token i.
func (c *crosser) claim(i int) (string, bool) {
	t := &c.toks[i]
	word := ""
	switch {
	case t.isAny("us", "usa"):
		word = "uk"
	case t.is("uk"):
		word = "us"
	case t.is("american"):
		word = "british"
	case t.isAny("british", "english"):
		word = "american"
	default:
		return "", false
	}
	if t.is("us") && c.p.Source.Text[t.start:t.end] == "us" && !c.tok(i+1).isAny("terms", "terminology", "crochet", "abbreviations") {
		return "", false // "tell us"
	}
	if first := c.firstOfLine(i); termsAlone(c.toks, first) != stitch.Unknown || c.toks[first].start == c.toks[0].start && c.endsName(i) {
		return word, true // "UK" on a line of its own, "Harbour Mesh (UK)" at the top
	}
	for k := i - 3; k <= i+3; k++ {
		if k < 0 || k >= len(c.toks) || k == i {
			continue
		}
		if k > i && c.stopBetween(i, k) || k < i && c.stopBetween(k, i) {
			continue
		}
		if c.toks[k].isAny("terms", "terminology", "abbreviations", "notation", "term", "names", "name") {
			return word, true
		}
	}
	// "(UK tr)", "UK: tr", "US crochet"
	for k := i + 1; k < min(i+3, len(c.toks)); k++ {
		if c.toks[k].kind == tPunct {
			continue
		}
		if c.toks[k].kind != tWord {
			break
		}
		if f := c.longest(c.there, k); c.both && f.n > 0 {
			return word, true
		}
		return word, c.toks[k].is("crochet") && !c.tok(k+1).isAny("hook", "hooks")
	}
	return "", false
}

// firstOfLine is the token that begins the line of token i.
func (c *crosser) firstOfLine(i int) int {
	for i > 0 && !c.toks[i].head {
		i--
	}
	return i
}

// endsName reports whether token i ends a line and is set off from what stands
// before it, in brackets or by a dash.
func (c *crosser) endsName(i int) bool {
	next := c.tok(i + 1)
	if next.is(")") {
		next = c.tok(i + 2)
	}
	return c.tok(i-1).isMark("(-") && (next.head || next.kind == tEnd)
}

// stopBetween reports whether a sentence or a line ends between two tokens.
func (c *crosser) stopBetween(from, to int) bool {
	for k := from; k < to; k++ {
		if c.toks[k].isMark(".;") || k > from && c.toks[k].head {
			return true
		}
	}
	return c.toks[to].head
}

// crossing finds a word that names no stitch and differs between the terms.
func (c *crosser) crossing(i int) (int, string) {
	t := &c.toks[i]
	if u := c.tok(i + 1); t.is("yarn") && u.isAny("over", "round") {
		if c.to == stitch.US && c.tok(i+2).is("hook") {
			if w, ok := stitch.Crossing("yarn "+u.text+" hook", c.to); ok {
				return 3, w
			}
		}
		if c.to == stitch.UK && u.is("over") && !c.tok(i+2).isAny("hook", "the") {
			w, _ := stitch.Crossing("yarn over", c.to)
			return 2, w
		}
		return 0, ""
	}
	word, ok := stitch.Crossing(t.text, c.to)
	if !ok {
		return 0, ""
	}
	z, next, prev := c.zones[i], c.tok(i+1), c.tok(i-1)
	if other := c.tok(i + 2); next.oneOf("/|or|&|and") && other.text == word {
		return 0, "" // "Tension/gauge": it is in both terms already
	}
	if other := c.tok(i - 2); prev.oneOf("/|or|&|and") && other.text == word {
		return 0, ""
	}
	switch t.text {
	case "miss", "missing", "missed", "misses":
		if z != inRow && !next.oneOf("next|first|last|each|one|a|the|st|sts|ch|chs|sp|sps|stitch|stitches|chain|chains|and|over|two|:|=") && next.kind != tNum {
			return 0, ""
		}
	case "tension", "tensions":
		if prev.oneOf("even|loose|tight|firm|same|under|good|steady|the yarn|keep") {
			return 0, ""
		}
	}
	if z == inName && !t.head {
		return 0, ""
	}
	return 1, word
}
