package spoken

import (
	"html"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"crochet/tallyturn/pattern/stitch"
)

// own says an author's own words: numbers in words, abbreviations in full
// where they are sure, stitches in the terms wanted, and no sign that is not
// spoken. It reads no instruction; it only spells.
type own struct {
	from, to stitch.Terms
	size     int  // which of the sizes is said, from 0
	sizes    int  // how many there are
	prose    bool // words about the work rather than an instruction: "double" may be any double

	bits []bit
	out  []string
	last stitch.ID // the stitch named last
}

// bit is a word, a number or a sign of a text.
type bit struct {
	text  string // as written
	low   string // in lower case
	kind  bitKind
	glued bool // nothing stands between it and the bit before
}

type bitKind uint8

const (
	bitWord bitKind = iota
	bitNumber
	bitSign
)

// cut cuts a text into bits. White space parts them, and control characters
// count as white space.
func cut(text string) []bit {
	var out []bit
	kind, start, glued := bitSign, -1, false
	flush := func(end int) {
		if start >= 0 {
			out = append(out, bit{text[start:end], strings.ToLower(text[start:end]), kind, glued})
			glued = true
		}
		start = -1
	}
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		k := bitSign
		switch {
		case r == utf8.RuneError && n == 1, unicode.IsSpace(r), unicode.IsControl(r), !unicode.IsGraphic(r):
			flush(i)
			glued = false
			i += n
			continue
		case '0' <= r && r <= '9':
			k = bitNumber
		case unicode.IsLetter(r), unicode.IsMark(r), r == '\'', r == '\u2019':
			k = bitWord
		}
		if k != kind || k == bitSign {
			flush(i)
		}
		if start < 0 {
			start, kind = i, k
		}
		i += n
	}
	flush(len(text))
	return out
}

// say puts a text into words.
func (o *own) say(text string) string {
	o.bits, o.out, o.last = cut(html.UnescapeString(text)), nil, stitch.None
	for i := 0; i < len(o.bits); {
		i += o.one(i)
	}
	if len(o.out) > 0 && !o.prose {
		o.out[0] = small1(o.out[0])
	}
	return assemble(articles(o.out))
}

// small1 is a word without the capital that begins a sentence.
func small1(w string) string {
	if len(w) > 1 && 'A' <= w[0] && w[0] <= 'Z' && 'a' <= w[1] && w[1] <= 'z' {
		return strings.ToLower(w[:1]) + w[1:]
	}
	return w
}

func (o *own) at(i int) bit {
	if i < 0 || i >= len(o.bits) {
		return bit{kind: bitSign}
	}
	return o.bits[i]
}

func (o *own) put(words ...string) { o.out = append(o.out, words...) }

// one says what begins at bit i and gives how many bits that was.
func (o *own) one(i int) int {
	switch b := o.at(i); b.kind {
	case bitNumber:
		return o.number(i)
	case bitWord:
		return o.word(i)
	default:
		return o.sign(i, b)
	}
}

// numberAt is the value of a number at bit i and the bits it takes: "1,000"
// is one number.
func (o *own) numberAt(i int) (n int64, bits int, ok bool) {
	if o.at(i).kind != bitNumber {
		return 0, 0, false
	}
	s, bits := o.at(i).text, 1
	for len(s) <= 15 && o.at(i+bits).text == "," && o.at(i+bits).glued && o.at(i+bits+1).kind == bitNumber && o.at(i+bits+1).glued && len(o.at(i+bits+1).text) == 3 {
		s += o.at(i + bits + 1).text
		bits += 2
	}
	v, err := strconv.ParseInt(s, 10, 64)
	return v, bits, err == nil
}

func (o *own) cardinal(n int64) string { return cardinal(n, o.to == stitch.UK) }

var units = map[string][2]string{"mm": {"millimetre", "millimetres"}, "cm": {"centimetre", "centimetres"}, "m": {"metre", "metres"}, "yd": {"yard", "yards"}, "yds": {"yard", "yards"},
	"g": {"gram", "grams"}, "oz": {"ounce", "ounces"}, "\"": {"inch", "inches"}, "\u2033": {"inch", "inches"}, "%": {"per cent", "per cent"}, "\u00b0": {"degree", "degrees"}, "min": {"minute", "minutes"}}

var fractions = map[string]string{"\u00bd": "a half", "\u00bc": "a quarter", "\u00be": "three quarters", "\u2153": "a third", "\u2154": "two thirds", "\u215b": "an eighth"}

// number says a number with what belongs to it: a unit, an ordinal's end,
// "x" for times, the numbers of the other sizes.
func (o *own) number(i int) int {
	v, bits, ok := o.numberAt(i)
	if prev := o.at(i - 1); !ok || o.at(i).glued && prev.kind == bitWord && prev.text == strings.ToUpper(prev.text) && prev.low != "r" && prev.low != "ch" && len(o.at(i).text) > 2 {
		o.put(digits(o.at(i).text)) // "F963", or too long a number
		return 1
	}
	next := o.at(i + bits)
	if next.kind == bitWord && next.glued {
		switch next.low {
		case "st", "nd", "rd", "th", "d":
			o.put(ordinal(v, o.to == stitch.UK))
			return bits + 1
		case "x":
			o.put(times(v, o.to))
			return bits + 1
		}
	}
	if next.low == "x" && next.kind == bitWord || next.text == "\u00d7" {
		if o.at(i+bits+1).kind != bitNumber {
			o.put(times(v, o.to))
			return bits + 1
		}
		o.put(o.cardinal(v), "by")
		return bits + 1
	}
	if n, used := o.sized(i, bits); used > 0 {
		v, bits = n, used
		next = o.at(i + bits)
	}
	if n := o.chainSpace(v, i+bits); n > 0 {
		return bits + n
	}
	said := o.cardinal(v)
	if next.text == "." && next.glued && o.at(i+bits+1).kind == bitNumber && o.at(i+bits+1).glued {
		said += " point " + digits(o.at(i+bits+1).text)
		bits += 2
		next = o.at(i + bits)
		v = 2
	} else if f := fractions[next.text]; f != "" {
		said += " and " + f
		bits++
		next = o.at(i + bits)
		v = 2
	} else if next.text == "/" && next.glued && o.at(i+bits+1).kind == bitNumber {
		if w, used := fraction(v, o.at(i+bits+1).text); used {
			said, v = w, 1
			bits += 2
			next = o.at(i + bits)
		}
	}
	o.put(said)
	if u, ok := units[next.low]; ok && (next.kind == bitWord || next.glued) {
		o.put(plural(v, u[0], u[1]))
		return bits + 1
	}
	if next.low == "in" && o.inches(i+bits) {
		o.put(plural(v, "inch", "inches"))
		return bits + 1
	}
	if to, _, ok := o.numberAt(i + bits + 1); ok && (next.text == "-" || next.text == "\u2013") {
		o.put(map[bool]string{true: "to", false: "dash"}[to > v])
		return bits + 1
	}
	return bits
}

func fraction(v int64, under string) (string, bool) {
	name := map[string]string{"2": "half", "3": "third", "4": "quarter", "8": "eighth"}[under]
	switch {
	case name == "":
		return "", false
	case v == 1 && name == "eighth":
		return "an eighth", true
	case v == 1:
		return "a " + name, true
	}
	return cardinal(v, false) + " " + name + "s", true
}

func plural(n int64, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// times says how often: "once", "twice", "six times".
func times(n int64, t stitch.Terms) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return cardinal(n, t == stitch.UK) + " times"
}

// sized takes the number of the size said out of "28 (32, 36)".
func (o *own) sized(i, bits int) (int64, int) {
	if o.sizes < 2 || o.at(i+bits).text != "(" && o.at(i+bits).text != "[" {
		return 0, 0
	}
	first, _, _ := o.numberAt(i)
	all, k := []int64{first}, i+bits+1
	for o.at(k).kind == bitNumber {
		n, err := strconv.ParseInt(o.at(k).text, 10, 64)
		if err != nil {
			return 0, 0
		}
		all = append(all, n)
		if k++; o.at(k).text != "," && o.at(k).text != ":" && o.at(k).text != ";" {
			break
		}
		k++
	}
	if t := o.at(k).text; t != ")" && t != "]" || len(all) != o.sizes {
		return 0, 0
	}
	return all[min(o.size, len(all)-1)], k + 1 - i
}

// inches tells "4 in wide" from "2 in next st".
func (o *own) inches(i int) bool {
	b := o.at(i + 1)
	switch b.low {
	case "wide", "long", "across", "high", "deep", "square", "around", "from", "tall", "or":
		return o.prose || b.low != "around"
	}
	return o.prose && b.kind == bitSign
}

// plainWords are names of stitches that are words of every day as well.
var plainWords = map[string]bool{"double": true, "doubles": true, "single": true, "singles": true, "plain": true, "slip": true, "slips": true, "spike": true, "sl": true, "pop": true,
	"triple": true, "ps": true, "pf": true, "pc": true, "pcs": true, "bo": true, "bob": true, "tc": true}

// stitchAt finds the longest name of a stitch at bit i. A name that the terms
// of the pattern do not have is looked for in the other ones.
func (o *own) stitchAt(i int) (id stitch.ID, bits int) {
	if id, bits = o.stitchIn(o.from, i); bits == 0 {
		if id, bits = o.stitchIn(other(o.from), i); bits != 1 || plainWords[o.at(i).low] || len(o.at(i).low) < 3 {
			return stitch.None, 0
		}
	}
	return id, bits
}

func other(t stitch.Terms) stitch.Terms {
	if t == stitch.UK {
		return stitch.US
	}
	return stitch.UK
}

func (o *own) stitchIn(t stitch.Terms, i int) (id stitch.ID, bits int) {
	lex := stitch.LexiconFor(t)
	name := ""
	for k := 0; k < 9; k++ {
		b := o.at(i + k)
		switch {
		case b.kind == bitWord && (k == 0 || !b.glued || o.at(i+k-1).kind == bitSign):
		case (b.text == "-" || b.text == "." && k > 0 && len(o.at(i+k-1).text) <= 2) && b.glued:
			continue
		default:
			return id, bits
		}
		if name != "" {
			name += " "
		}
		name += b.low
		found, more := lex.Find(name)
		if found != stitch.None && found != stitch.Special && !(o.prose && plainWords[name]) {
			id, bits = found, k+1
			if len(name) > 1 && strings.Contains(name, " ") && o.at(i+k+1).text == "." && o.at(i+k+1).glued && o.at(i+k+2).kind == bitWord && o.at(i+k+2).text == o.at(i+k+2).low {
				bits++ // "s. c. in"
			}
		}
		if !more {
			break
		}
	}
	return id, bits
}

// twice passes over a bracket that has the same stitch again in the other
// terms: "2sc (2dc)". It gives how many bits that is.
func (o *own) twice(i int) int {
	k := i + 1
	if o.at(k).kind == bitNumber {
		k++
	}
	id, n := o.stitchIn(other(o.from), k)
	if k += n; n > 0 && id == o.last && (o.at(k).text == ")" || o.at(k).text == "]") {
		return k + 1 - i
	}
	return 0
}

// glossed reports whether a remark is nothing but the stitch that a text ends
// with, in the other terms: "in any dc", "tr".
func (o *own) glossed(text, remark string) bool {
	o.bits = cut(remark)
	id, n := o.stitchIn(other(o.from), 0)
	if n == 0 || n < len(o.bits) {
		return false
	}
	o.bits = cut(text)
	for i := range o.bits {
		if got, n := o.stitchIn(o.from, i); n > 0 && i+n == len(o.bits) {
			return got == id
		}
	}
	return false
}

// word says a word, an abbreviation or the name of a stitch.
func (o *own) word(i int) int {
	b := o.at(i)
	if n := o.chain(i); n > 0 {
		return n
	}
	if b.low == "x" && o.at(i+1).kind == bitNumber {
		v, bits, ok := o.numberAt(i + 1)
		if ok {
			o.put(times(v, o.to))
			return 1 + bits
		}
	}
	if b.low == "w" && o.at(i+1).text == "/" && o.at(i+1).glued {
		o.put("with")
		return 2
	}
	if (b.low == "r" || b.low == "rnd" || b.low == "rd") && o.at(i+1).kind == bitNumber {
		o.put("round")
		return 1
	}
	if (b.low == "rep" || b.low == "repeat" || b.low == "reps") && o.at(i+1).low == "from" && (o.at(i+2).text == "*" || o.at(i+2).text == "\u2020") {
		o.put("repeat", "from", "the", "start", "of", "the", "repeat")
		n := 3
		for o.at(i+n).text == "*" {
			n++
		}
		return n
	}
	if id, n := o.stitchAt(i); n > 0 {
		o.last = id
		if k := o.together(i+n, id); k > 0 {
			return n + k
		}
		many := strings.HasSuffix(o.at(i+n-1).low, "s") && !strings.HasSuffix(id.Name(o.from), "s") || o.counted()
		if many {
			o.put(strings.Fields(id.Plural(o.to))...)
		} else {
			o.put(strings.Fields(id.Words(o.to))...)
		}
		if w := o.at(i + n).low; w == "st" || w == "sts" || w == "stitch" || w == "stitches" {
			if strings.HasSuffix(id.Words(o.to), "stitch") {
				n++ // "loop st st" is no more than a loop stitch
			}
		}
		return n
	}
	if id, ok := stitch.Translated(b.low, o.at(i+1).low); ok && !o.prose {
		switch many := strings.HasSuffix(o.at(i+1).low, "s") || o.counted(); {
		case id == stitch.None && many:
			o.put("chains")
		case id == stitch.None:
			o.put("chain")
		case many:
			o.put(strings.Fields(id.Plural(o.to))...)
		default:
			o.put(strings.Fields(id.Words(o.to))...)
		}
		return 2
	}
	if o.to == stitch.UK && (b.low == "skip" || b.low == "sk") {
		o.put("miss")
		return 1
	}
	if o.to != stitch.UK && (b.low == "miss") && !o.prose {
		o.put("skip")
		return 1
	}
	if s, ok := stitch.InFull(b.low); ok && !(o.prose && plainAbbreviation[b.low] && b.text != strings.ToUpper(b.text)) {
		n := 1
		said := s.One
		switch next := o.at(i + 1); {
		case next.text == "(" && next.glued && o.at(i+2).low == "s" && o.at(i+3).text == ")": // st(s)
			n, said = 4, s.Many
		case s.Many != "" && o.counted():
			said = s.Many
		case (b.low == "blo" || b.low == "flo") && next.low == "only":
			n = 2
		case next.text == "." && next.glued && (o.at(i+2).kind == bitWord && o.at(i+2).low == o.at(i+2).text || b.low == "rep" && o.at(i+2).kind == bitNumber):
			n = 2 // the stop of an abbreviation
		}
		o.put(strings.Fields(said)...)
		return n
	}
	switch {
	case (b.low == "row" || b.low == "rows" || b.low == "round" || b.low == "rounds") && o.at(i+1).kind == bitNumber:
		o.put(b.low)
	case len(b.text) == 1 && 'A' <= b.text[0] && b.text[0] <= 'Z' && len(o.out) > 0 && takesColour[strings.ToLower(o.out[len(o.out)-1])] && (b.text != "A" && b.text != "I" || o.at(i+1).kind == bitSign):
		o.put(map[bool]string{true: "colour", false: "color"}[o.to == stitch.UK], b.text)
	default:
		o.put(b.text)
	}
	return 1
}

// takesColour are words before a letter that stands for a colour.
var takesColour = map[string]bool{"with": true, "to": true, "in": true, "using": true, "and": true, "from": true, "of": true}

// plainAbbreviation are abbreviations that are words of every day as well.
var plainAbbreviation = map[string]bool{"dec": true, "col": true, "inc": true, "pat": true, "sm": true, "sh": true, "bet": true, "til": true}

// counted reports whether the last word said is a number over one.
func (o *own) counted() bool {
	if len(o.out) == 0 {
		return false
	}
	switch w := o.out[len(o.out)-1]; w {
	case "one", ",", ".", ";":
		return false
	default:
		return isNumber(w)
	}
}

// isNumber reports a number in words, or a word that ends in one.
func isNumber(w string) bool { return isNumberWord()[w[strings.LastIndexAny(w, " -")+1:]] }

var isNumberWord = sync.OnceValue(func() map[string]bool {
	m := map[string]bool{"hundred": true, "million": true, "thousand": true, "billion": true}
	for _, w := range small {
		m[w] = true
	}
	for _, w := range tens[2:] {
		m[w] = true
	}
	return m
})

// together says "2tog" and "3tog" after the name of a stitch.
func (o *own) together(i int, id stitch.ID) int {
	if o.at(i).text == "-" {
		return 0
	}
	v, bits, ok := o.numberAt(i)
	if !ok || o.at(i+bits).low != "tog" && o.at(i+bits).low != "together" {
		return 0
	}
	o.put(strings.Fields(id.Words(o.to))...)
	o.put(o.cardinal(v), "together")
	return bits + 1
}

// chain says "ch 3", "ch-3 sp", "ch3sp" and "ch-3".
func (o *own) chain(i int) int {
	b := o.at(i)
	if b.low != "ch" && b.low != "chain" && b.low != "chs" {
		return 0
	}
	k := 1
	dash := o.at(i+k).text == "-" && o.at(i+k).glued
	if dash {
		k++
	}
	if w := o.at(i + k).low; dash && (w == "sp" || w == "sps" || w == "space" || w == "spaces") || w == "sp" || w == "sps" {
		o.put("chain", map[bool]string{true: "spaces", false: "space"}[strings.HasSuffix(w, "s")])
		return k + 1
	}
	v, bits, ok := o.numberAt(i + k)
	if !ok {
		return 0
	}
	if n, used := o.sized(i+k, bits); used > 0 {
		v, bits = n, used
	}
	k += bits
	w := o.at(i + k)
	if w.text == "-" && w.glued {
		w = o.at(i + k + 1)
	}
	switch w.low {
	case "sp", "space", "sps", "spaces", "lp", "loop", "lps", "loops":
		if w.text != o.at(i+k).text {
			k++
		}
		noun := "space"
		if strings.HasPrefix(w.low, "l") {
			noun = "loop"
		}
		if strings.HasSuffix(w.low, "s") || o.counted() {
			noun += "s"
		}
		o.put("chain-"+o.cardinal(v), noun)
		return k + 1
	}
	if n := len(o.out); n > 0 && o.out[n-1] == "of" {
		o.put("the", "chain-"+o.cardinal(v)) // "3rd ch of ch-5"
	} else {
		o.put("chain", o.cardinal(v))
	}
	return k
}

// chainSpace says "3-ch sp" and "1ch loop", where v is the number before it. It
// gives how many bits follow the number.
func (o *own) chainSpace(v int64, i int) int {
	k := i
	if o.at(k).text == "-" && o.at(k).glued {
		k++
	}
	if o.at(k).low != "ch" && o.at(k).low != "chain" || !o.at(k).glued {
		return 0
	}
	if k++; o.at(k).text == "." || o.at(k).text == "-" {
		k++
	}
	noun := map[string]string{"sp": "space", "sps": "spaces", "space": "space", "spaces": "spaces", "lp": "loop", "lps": "loops", "loop": "loop", "loops": "loops"}[o.at(k).low]
	if noun == "" {
		return 0
	}
	o.put("chain-"+o.cardinal(v), noun)
	return k + 1 - i
}

// sign says a sign, or passes over it where it is not spoken.
func (o *own) sign(i int, b bit) int {
	if f := fractions[b.text]; f != "" {
		o.put(f)
		return 1
	}
	if b.text == "(" || b.text == "[" {
		if n := o.twice(i); n > 0 {
			return n
		}
	}
	if b.text == "(" {
		switch o.at(i + 1).low {
		case "is", "counts", "does":
			o.put(",", "which")
			return 1
		case "=":
			o.put(",", "which", "counts", "as")
			return 2
		}
	}
	switch b.text {
	case ".":
		next := o.at(i + 1)
		switch {
		case next.kind == bitWord && next.text == next.low && !o.prose: // the stop of an abbreviation
		case next.text == "," || next.text == ";" || next.text == ")":
		default:
			o.put(".")
		}
	case ",", ";", ":", "!", "?":
		o.put(b.text)
	case "(", ")", "[", "]", "{", "}", "\u2014", "\u2013":
		o.put(",")
	case "-":
		if b.glued && o.at(i+1).glued && len(o.out) > 0 && o.at(i-1).kind == bitWord && o.at(i+1).kind == bitWord {
			o.put("-")
		} else if !b.glued {
			o.put(",")
		}
	case "#":
		if o.at(i+1).kind == bitNumber {
			o.put("number")
		}
	case "/":
		if o.at(i-1).kind != bitSign && o.at(i+1).kind != bitSign {
			o.put("or")
		}
	case "&":
		o.put("and")
	case "+":
		o.put("plus")
	case "=":
		o.put("equals")
	case "%":
		o.put("per cent")
	case "\u2026":
		o.put(",")
	}
	return 1
}

// leadsTo are the words after which print leaves the article out.
var leadsTo = map[string]bool{"in": true, "into": true, "to": true, "of": true, "from": true, "on": true, "onto": true, "over": true, "under": true, "around": true, "round": true, "through": true,
	"skip": true, "miss": true, "between": true, "at": true, "across": true, "with": true, "behind": true, "along": true, "leaving": true, "leave": true, "after": true, "before": true, "until": true}

var wantsThe = map[string]bool{"next": true, "last": true, "same": true, "top": true, "hook": true, "ring": true, "beginning": true, "back": true, "front": true, "end": true, "remaining": true, "previous": true,
	"following": true, "centre": true, "center": true, "middle": true, "turning": true, "corner": true, "opposite": true}

// bareNoun are nouns that print puts after a preposition with no article.
var bareNoun = map[string]bool{"space": true, "stitch": true, "chain": true, "loop": true, "base": true, "rest": true, "foundation": true, "skipped": true, "shell": true, "mesh": true, "group": true, "edge": true}

func isOrdinal(w string) bool { return ordinals()[w[strings.LastIndexAny(w, " -")+1:]] }

var ordinals = sync.OnceValue(func() map[string]bool {
	m := make(map[string]bool)
	for n := range int64(100) {
		m[ordinal(n, false)] = true
	}
	return m
})

// articles puts in the articles that print leaves out: "in next stitch" is
// said "in the next stitch".
func articles(words []string) []string {
	out := make([]string, 0, len(words)+8)
	for i, w := range words {
		low, before, after := strings.ToLower(w), "", ""
		if i > 0 {
			before = strings.ToLower(words[i-1])
		}
		if i+1 < len(words) {
			after = strings.ToLower(words[i+1])
		}
		switch {
		case (low == "right" || low == "wrong") && after == "side":
			if leadsTo[before] || before == "and" || before == "," {
				out = append(out, "the")
			}
		case low == "last" && before == "working":
			out = append(out, "the")
		case low == "magic" && (before == "in" || before == "into" || before == "make"), (low == "tail" || low == "long") && (before == "leave" || before == "leaving"):
			out = append(out, "a")
		case isNumber(low) && low != "one" && before == "of" && (after == "chains" || after == "chain"):
			out = append(out, "the") // "3rd of 5 ch"
		case bareNoun[low] && (before == "in" || before == "into" || before == "of" || before == "at" || before == "along") && !(low == "chain" && isNumber(after)):
			out = append(out, "the")
		case low == "marker" && (before == "place" || before == "remove" || before == "move"):
			out = append(out, map[bool]string{true: "a", false: "the"}[before == "place"])
		case low == "other" && after == "side" && leadsTo[before]:
			out = append(out, "the")
		case (low == "front" || low == "back") && after == "post" || low == "top" && before == "on":
		case (low == "yarn" || low == "new") && (before == "join" || before == "attach" || before == "rejoin"):
			out = append(out, "the")
		case before == "with" && low == "slip" && after == "stitch":
			out = append(out, "a")
		case after == "week" || after == "week's" || after == "time" || after == "year":
		case leadsTo[before] && (wantsThe[low] || isOrdinal(low)) && !(low == "second" && before == "a"):
			out = append(out, "the")
		}
		out = append(out, w)
	}
	return out
}

// assemble joins words and signs into running text.
func assemble(words []string) string {
	var b strings.Builder
	pending := ""
	join := false
	for _, w := range words {
		switch w {
		case "":
			continue
		case ",", ";", ":", ".", "!", "?":
			if b.Len() > 0 && strength(w) > strength(pending) {
				pending = w
			}
			join = false
			continue
		case "-":
			join = true
			continue
		}
		switch {
		case b.Len() == 0:
		case pending != "":
			b.WriteString(pending + " ")
		case join:
			b.WriteByte('-')
		default:
			b.WriteByte(' ')
		}
		pending, join = "", false
		b.WriteString(w)
	}
	if pending == "." || pending == "!" || pending == "?" {
		b.WriteString(pending)
	}
	return b.String()
}

// strength orders signs by the pause they make; "" makes none.
func strength(sign string) int {
	if sign == "" {
		return 0
	}
	return 1 + strings.Index(",;:.!?", sign)
}
