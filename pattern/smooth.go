package pattern

import (
	"strings"
	"sync"
	"unicode/utf8"
)

// gone marks a byte that is no part of the text: the rest of a character that
// was smoothed to a shorter one. It parts nothing: "cro\x01chet" is one word.
const gone = 1

// smooth prepares text for the lexer: lower case, plain quotes and dashes,
// spaces for every kind of space, line ends for tags that end a line. The
// result has the length of the source, so that every offset stays true.
func smooth(text string) string {
	b := []byte(text)
	for i := 0; i < len(b); {
		c := b[i]
		switch {
		case 'A' <= c && c <= 'Z':
			b[i] = c + 'a' - 'A'
			i++
		case c == '&':
			i += entity(b, i)
		case c == '<':
			i += tag(b, i)
		case c == '\\' && i+3 < len(b) && b[i+1] == '*' && b[i+2] == '\\' && b[i+3] == '*':
			b[i], b[i+1], b[i+2] = gone, gone, '*' // two of them are one mark
			i += 4
		case c == '\\' && i+1 < len(b) && markable(b[i+1]):
			b[i] = gone // Markdown writes "\*" for a star that is only a star
			i += 2
		case c == '\t':
			b[i] = '|' // a cell of a table
			i++
		case c == '\x1b' && i+1 < len(b) && b[i+1] == '[':
			i += sequence(b, i)
		case c < ' ' && c != '\n':
			b[i] = ' '
			i++
		case c < utf8.RuneSelf:
			i++
		default:
			r, n := utf8.DecodeRune(b[i:])
			if !decoration(b, i, n, r) {
				plain(b[i:i+n], r)
			}
			i += n
		}
	}
	return string(b)
}

// markable reports whether a byte is a mark that Markdown lets a backslash stand
// before (CommonMark: any of ASCII's punctuation).
func markable(c byte) bool {
	return '!' <= c && c <= '/' || ':' <= c && c <= '@' || '[' <= c && c <= '`' || '{' <= c && c <= '~'
}

// sequence blanks a colour or a movement that a terminal left in the text when
// it was copied, "\x1b[31m", and gives its length.
func sequence(b []byte, i int) int {
	j := i + 2
	for j < len(b) && j < i+16 && b[j] >= ' ' && b[j] <= '?' {
		j++
	}
	if j == len(b) || b[j] < '@' || b[j] > '~' {
		b[i] = ' '
		return 1
	}
	for k := i; k <= j; k++ {
		b[k] = ' '
	}
	return j + 1 - i
}

// keycap is the frame around a figure that makes a picture of it, "1\ufe0f\u20e3".
const keycap = '\u20e3'

// decoration overwrites a picture among the words of rows, as posts have them: at the
// start of a line it lists, as a bullet does, and an arrow leads to a total. Any other is
// left: it may be part of a name.
func decoration(b []byte, i, n int, r rune) bool {
	to := byte('^')
	switch {
	case r == keycap:
		k := i - 1
		for k >= 0 && b[k] == gone {
			k--
		}
		if k < 0 || b[k] < '0' || b[k] > '9' || !startsLine(b, k) || !rowAhead(b[i+n:]) {
			return false
		}
		b[k], to = '^', gone // it numbers the list, not the row
	case r >= '\U0001f446' && r <= '\U0001f449', r == '\u25b6', r == '\u25ba', r == '\u2794', r == '\u279c', r == '\u27a4', r == '\u21e8':
		if !startsLine(b, i) {
			to = '='
		} else if !rowAhead(b[i+n:]) {
			return false
		}
	case r >= '\U0001f300' && r <= '\U0001faff', r >= '\u2600' && r <= '\u27bf' && !kept(r), r >= '\u25a0' && r <= '\u25ff' && !kept(r), r >= '\u2b00' && r <= '\u2bff':
		if !startsLine(b, i) || !rowAhead(b[i+n:]) {
			return false
		}
	default:
		return false
	}
	b[i] = to
	for k := i + 1; k < i+n; k++ {
		b[k] = gone
	}
	return true
}

// kept reports a picture that is written for a mark of the trade.
func kept(r rune) bool {
	var b [utf8.UTFMax]byte
	n := utf8.EncodeRune(b[:], r)
	plain(b[:n], r)
	return b[0] < utf8.RuneSelf
}

// maxMarks is how many bytes of marks are looked over before a row.
const maxMarks = 80

// rowAhead reports whether text begins with what a row is labelled with, "Row", "R3",
// "12.".
func rowAhead(b []byte) bool {
	b = b[:min(len(b), maxMarks)]
	for len(b) > 0 && (b[0] == ' ' || b[0] == gone || b[0] >= utf8.RuneSelf) {
		b = b[1:] // other pictures, and what selects their form
	}
	if len(b) > 0 && (b[0] == 'r' || b[0] == 'R') {
		for b = b[1:]; len(b) > 0 && strings.IndexByte("owundsOWUNDS.", b[0]) >= 0; b = b[1:] {
		}
		for len(b) > 0 && b[0] == ' ' {
			b = b[1:]
		}
	}
	return len(b) > 0 && '0' <= b[0] && b[0] <= '9'
}

// startsLine reports whether nothing but space and bullets stands before b[i] on its line.
func startsLine(b []byte, i int) bool {
	for k := i - 1; k >= 0 && b[k] != '\n'; k-- {
		if b[k] != ' ' && b[k] != gone && b[k] != '^' && b[k] != '|' || i-k > maxMarks {
			return false
		}
	}
	return true
}

// plain overwrites the bytes of a character with its plain form.
func plain(b []byte, r rune) {
	var to byte
	switch r {
	case '\u00a0', '\u2000', '\u2001', '\u2002', '\u2003', '\u2004', '\u2005', '\u2006', '\u2007', '\u2008', '\u2009', '\u200a', '\u202f', '\u205f', '\u3000', '\ufeff', '\u2028', '\u2029', '\u0085':
		to = ' '
	case '\u00ad', '\u200b', '\u200c', '\u200d', '\u2060', '\u202a', '\u202b', '\u202c', '\u202d', '\u202e', '\u2066', '\u2067', '\u2068', '\u2069':
		to = gone
	case '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2015', '\u2212', '\u2043', '\ufe58', '\uff0d':
		to = '-'
	case '\u2018', '\u2019', '\u201a', '\u2032', '\u00b4':
		to = '\''
	case '\u201c', '\u201d', '\u201e', '\u2033':
		to = '"'
	case '\u00d7', '\u2715', '\u2716', '\u00a4', '\u0445', '\u0425':
		to = 'x'
	case '\u2217', '\u2731', '\u2605', '\u2606', '\u204e', '\u066d', '\u2055':
		to = '*'
	case '\uff0a':
		to = '*'
	case '\u2026':
		to = '.'
	case '\u00b7', '\u2022', '\u25cf', '\u25aa', '\u25e6', '\u2023', '\u25ab', '\u25cb', '\u2219':
		to = '^' // a bullet; only ever at the start of a line
	case '\u2192', '\u21d2', '\u27a1':
		to = '='
	// Cyrillic letters that look like Latin ones, as pasted from other keyboards.
	case '\u0441', '\u0421':
		to = 'c'
	case '\u0435', '\u0415':
		to = 'e'
	case '\u0430', '\u0410':
		to = 'a'
	case '\u043e', '\u041e':
		to = 'o'
	case '\u0440', '\u0420':
		to = 'p'
	case '\ufe0e', '\ufe0f':
		to = gone
	default:
		if '\uff01' <= r && r <= '\uff5e' {
			to = byte(r - '\uff01' + '!')
			if 'A' <= to && to <= 'Z' {
				to += 'a' - 'A'
			}
			break
		}
		return
	}
	b[0] = to
	for i := 1; i < len(b); i++ {
		b[i] = gone
	}
}

var entities = sync.OnceValue(func() map[string]rune {
	return map[string]rune{
		"nbsp": ' ', "amp": '&', "lt": '<', "gt": '>', "quot": '"', "apos": '\'', "times": 'x',
		"ndash": '-', "mdash": '-', "minus": '-', "rsquo": '\'', "lsquo": '\'', "ldquo": '"', "rdquo": '"',
		"hellip": '.', "bull": '^', "middot": '^', "ensp": ' ', "emsp": ' ', "thinsp": ' ', "shy": gone,
		"ast": '*', "lpar": '(', "rpar": ')', "lsqb": '[', "rsqb": ']', "comma": ',', "period": '.', "colon": ':',
		"rarr": '=', "prime": '\'', "zwj": gone, "zwnj": gone,
	}
})

// entity replaces an HTML entity that starts at b[i] and says how far to go on.
func entity(b []byte, i int) int {
	end := i + 1
	for end < len(b) && end-i < 12 && b[end] != ';' && b[end] > ' ' {
		end++
	}
	if end >= len(b) || b[end] != ';' {
		return 1
	}
	name := strings.ToLower(string(b[i+1 : end]))
	r, ok := entities()[name]
	if !ok {
		if r, ok = numericEntity(name); !ok {
			return 1
		}
	}
	for j := i; j <= end; j++ {
		b[j] = gone
	}
	switch {
	case r < utf8.RuneSelf:
		b[i] = byte(r)
		if r < ' ' && r != gone {
			b[i] = ' '
		}
	case utf8.RuneLen(r) <= end+1-i:
		n := utf8.EncodeRune(b[i:], r)
		plain(b[i:i+n], r)
	}
	return end + 1 - i
}

func numericEntity(name string) (rune, bool) {
	if len(name) < 2 || name[0] != '#' {
		return 0, false
	}
	base, digits := 10, name[1:]
	if digits[0] == 'x' {
		base, digits = 16, digits[1:]
	}
	n := 0
	for _, c := range []byte(digits) {
		d := 99
		switch {
		case '0' <= c && c <= '9':
			d = int(c - '0')
		case 'a' <= c && c <= 'f':
			d = int(c-'a') + 10
		}
		if d >= base || n > utf8.MaxRune {
			return 0, false
		}
		n = n*base + d
	}
	if digits == "" || n > utf8.MaxRune || n == 0 {
		return 0, false
	}
	return rune(n), true
}

// lineTags end a line; the others are only removed.
var lineTags = map[string]bool{
	"br": true, "p": true, "div": true, "li": true, "ul": true, "ol": true, "tr": true, "table": true,
	"h1": true, "h2": true, "h3": true, "h4": true, "h5": true, "h6": true,
	"b": false, "i": false, "em": false, "strong": false, "span": false, "u": false, "td": false, "th": false,
	"tbody": false, "thead": false, "a": false, "font": false, "small": false, "sup": false, "sub": false, "code": false,
}

// tag blanks an HTML tag that starts at b[i] and says how far to go on. A '<'
// that opens no tag we know is left: "<36>" is a total.
func tag(b []byte, i int) int {
	j := i + 1
	if j < len(b) && b[j] == '/' {
		j++
	}
	start := j
	for j < len(b) && (isLetter(b[j]) || '0' <= b[j] && b[j] <= '9') && j-start < 8 {
		j++
	}
	newline, known := lineTags[strings.ToLower(string(b[start:j]))]
	if !known {
		return 1
	}
	end := j
	for end < len(b) && end-i < 400 && b[end] != '>' && b[end] != '\n' && b[end] != '<' {
		end++
	}
	if end >= len(b) || b[end] != '>' {
		return 1
	}
	for k := i; k <= end; k++ {
		b[k] = ' '
	}
	if newline {
		b[i] = '\n'
	}
	return end + 1 - i
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }
