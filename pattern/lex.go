package pattern

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is the kind of a token.
type kind uint8

const (
	tEnd   kind = iota
	tWord       // letters, lower case
	tNum        // a number, in figures or words
	tOrd        // 1st, second
	tPunct      // one mark; text is it. "**" is one mark
)

// token is a word of the text. text is lower case and smoothed.
type token struct {
	text       string
	num        int64
	start, end int32
	opening    opening // of a word or a mark; see opens
	id         uint16  // of a word or a mark that stands in a wordSet; 0 for others
	kind       kind
	glued      bool  // no space before it
	word       bool  // a number written in words
	frac       bool  // a number with a decimal part
	head       bool  // the first of its line
	blank      bool  // a blank line stands before it
	bold       bool  // its whole line is set in bold
	heading    uint8 // how many "#" stand before it
	big        bool  // a number too large to hold
}

func (t token) span() Span { return Span{int(t.start), int(t.end)} }

// is reports whether the token is this word or mark.
func (t *token) is(text string) bool { return t.text == text && t.named() }

const maxNumber = 1_000_000_000_000_000 // beyond this a number is only "too large"

// lex cuts smoothed text into tokens. It ends with one tEnd.
func lex(s string) []token { return lexInto(nil, s) }

// lexInto is lex into a list that has been used before.
func lexInto(toks []token, s string) []token {
	if toks = toks[:0]; cap(toks) < len(s)/4 {
		toks = make([]token, 0, len(s)*3/8+8) // written patterns have some 35 in 100 bytes
	}
	glued, head, blank, lines := false, true, true, 0
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case c == '\n':
			i++
			lines++
			glued, head, blank = false, true, lines > 1
			continue
		case c == ' ' || c == gone:
			if c == ' ' {
				glued = false
			}
			i++
			continue
		}
		t := token{start: int32(i), glued: glued, head: head, blank: head && blank}
		switch {
		case isLetter(c) || c >= 0x80 && wordRune(s[i:]):
			i = lexWord(s, i, &t)
		case '0' <= c && c <= '9':
			i = lexNumber(s, i, &t)
		case c == '*' && i+1 < len(s) && s[i+1] == '*':
			t.kind, t.text, t.id = tPunct, "**", vocabulary()["**"].id
			i += 2
		default:
			_, n := utf8.DecodeRuneInString(s[i:])
			t.kind, t.text = tPunct, s[i:i+n]
			if c == '!' && i > 0 && !followedBy(s, i+1, "[=") {
				c, t.text = '.', "." // "30!": a sentence ends with it as with a stop
			}
			if c < utf8.RuneSelf {
				t.opening, t.id = markOpens()[c], markIDs[c]
			} else {
				t.id = vocabulary()[t.text].id
			}
			i += n
		}
		for i < len(s) && s[i] == gone {
			i++ // the rest of a character that was smoothed
		}
		t.end = int32(i)
		glued, head, blank, lines = true, false, false, 0
		toks = joinNumber(append(toks, t))
	}
	return append(toks, token{kind: tEnd, start: int32(len(s)), end: int32(len(s)), head: true, blank: true})
}

// followedBy reports whether one of marks is the next byte of s at i.
func followedBy(s string, i int, marks string) bool {
	return i < len(s) && strings.IndexByte(marks, s[i]) >= 0
}

// wordRune reports whether s starts with a letter of any script.
func wordRune(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r)
}

func lexWord(s string, i int, t *token) int {
	start, dirty := i, false
	for i < len(s) {
		c := s[i]
		if isLetter(c) || c == gone || c >= 0x80 && wordRune(s[i:]) {
			dirty = dirty || c == gone
			if c >= 0x80 {
				_, n := utf8.DecodeRuneInString(s[i:])
				i += n
			} else {
				i++
			}
			continue
		}
		if c == '\'' && i > start && i+1 < len(s) && isLetter(s[i+1]) {
			i++
			continue
		}
		break
	}
	for s[i-1] == gone {
		i--
	}
	if n := i - start; n > 4 && n < 8 && !dirty && (s[i-3:i] == "blo" || s[i-3:i] == "flo") && glues[s[start:i-3]] {
		i -= 3 // "scblo"
	}
	if n := i - start; n > 3 && n < 7 && !dirty && s[i-2:i] == "cl" && glues[s[start:i-2]] {
		i -= 2 // "3trcl"
	}
	t.kind, t.text = tWord, s[start:i]
	if dirty {
		t.text = strings.ReplaceAll(t.text, "\x01", "")
	}
	if t.text == "w" && i < len(s) && s[i] == '/' && (i+1 == len(s) || s[i+1] == ' ' || isLetter(s[i+1])) {
		i++ // "join w/ sl st", "w/o turning"
		if t.text = "with"; i < len(s) && s[i] == 'o' && (i+1 == len(s) || !isLetter(s[i+1])) {
			i++
			t.text = "without"
		}
	}
	if t.text == "f" && strings.HasPrefix(s[i:], "/o") && (i+2 == len(s) || !isLetter(s[i+2])) {
		i += 2
		t.text = "fo" // "F/O leaving a long end"
	}
	if t.text == "w" && (strings.HasPrefix(s[i:], " sl") || strings.HasPrefix(s[i:], " ss")) {
		t.text = "with" // "join w sl st"
	}
	m, ok := vocabulary()[t.text]
	if !ok && !dirty {
		word := leafletWords[t.text]
		if word == "" {
			word = unswapped(t.text)
		}
		if word != "" {
			t.text = word
			m, ok = vocabulary()[word]
		}
	}
	if ok {
		t.num, t.kind, t.opening, t.id = m.num, m.kind, m.opens, m.id
		t.word = m.kind != tWord
	}
	return i
}

// leafletWords are abbreviations of old leaflets by those in use. Common practice, no source.
var leafletWords = map[string]string{"chn": "ch", "chns": "chs", "stch": "st", "stchs": "sts"}

// swappable are the words of rows that a slip of the keys is seen in: two letters of
// them the wrong way round make no other word.
var swappable = map[string]bool{"turn": true, "each": true, "next": true, "skip": true, "last": true, "first": true, "chain": true, "round": true, "around": true,
	"across": true, "repeat": true, "single": true, "double": true, "treble": true, "crochet": true, "stitch": true, "stitches": true, "increase": true, "decrease": true, "between": true, "join": true}

// unswapped is the word of a row that a word with two letters the wrong way round is
// meant for, "trun", "eahc"; empty for any other.
func unswapped(word string) string {
	if len(word) < 4 || len(word) > 9 || swappable[word] {
		return ""
	}
	var b [9]byte
	n := copy(b[:], word)
	for i := 0; i+1 < n; i++ {
		if b[i] != b[i+1] {
			b[i], b[i+1] = b[i+1], b[i]
			if w := string(b[:n]); swappable[w] {
				return w
			}
			b[i], b[i+1] = b[i+1], b[i]
		}
	}
	return ""
}

// glues are the stitches that print runs together with the loop they go into.
var glues = map[string]bool{"sc": true, "dc": true, "hdc": true, "tr": true, "htr": true, "sl": true, "ss": true, "slst": true}

func lexNumber(s string, i int, t *token) int {
	start := i
	t.kind = tNum
	for i < len(s) && '0' <= s[i] && s[i] <= '9' {
		if t.num < maxNumber {
			t.num = t.num*10 + int64(s[i]-'0')
		} else {
			t.big = true
		}
		i++
	}
	if t.num >= maxNumber {
		t.num, t.big = maxNumber, true
	}
	if i+1 < len(s) && s[i] == '.' && '0' <= s[i+1] && s[i+1] <= '9' {
		i++
		for i < len(s) && '0' <= s[i] && s[i] <= '9' {
			i++
		}
		t.frac = true
	}
	t.text = s[start:i]
	if i+2 <= len(s) && !t.frac && (i+2 == len(s) || !isLetter(s[i+2])) && ordinalSuffix(t.num, s[i:i+2]) {
		t.kind = tOrd
		i += 2
		t.text = s[start:i]
		if t.num == 1 {
			t.text, t.word = "first", true
			t.opening, t.id = vocabulary()[t.text].opens, vocabulary()[t.text].id
		}
	}
	return i
}

func ordinalSuffix(n int64, suffix string) bool {
	if teen := n % 100; teen >= 11 && teen <= 13 {
		return suffix == "th"
	}
	switch n % 10 {
	case 1:
		return suffix == "st"
	case 2:
		return suffix == "nd" || suffix == "rd" && n > 20
	case 3:
		return suffix == "rd"
	}
	return suffix == "th"
}

// joinNumber makes one number of "twenty-four" and "one hundred".
func joinNumber(toks []token) []token {
	n := len(toks)
	t := &toks[n-1]
	if !t.word || n < 2 || t.kind == tOrd && t.num == 1 && !t.glued {
		return toks
	}
	p := n - 2
	if toks[p].is("-") && toks[p].glued && t.glued && p > 0 {
		p--
	}
	prev := &toks[p]
	if prev.kind != tNum || !prev.word {
		return toks
	}
	switch {
	case prev.num >= 20 && prev.num%10 == 0 && prev.num < 100 && t.num >= 1 && t.num <= 9:
		prev.num += t.num
	case t.num == 100 && t.kind == tNum && prev.num < 10:
		prev.num *= 100
	case prev.num >= 100 && prev.num%100 == 0 && t.num < 100:
		prev.num += t.num
	default:
		return toks
	}
	prev.kind, prev.end = t.kind, t.end
	return toks[:p+1]
}

var numberWords = map[string]int64{
	"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50,
	"sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
}

var ordinalWords = map[string]int64{
	"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9,
	"tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16,
	"seventeenth": 17, "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "thirtieth": 30, "fortieth": 40,
}
