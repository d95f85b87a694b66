package gauge

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// token is a number, a word in lower case, or a mark.
type token struct {
	isNum bool
	num   float64
	word  string
}

func (t token) is(words ...string) bool {
	for _, w := range words {
		if !t.isNum && t.word == w {
			return true
		}
	}
	return false
}

// vulgar are the fractions that have a character of their own.
var vulgar = map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75, '⅓': 1.0 / 3, '⅔': 2.0 / 3, '⅛': 0.125, '⅜': 0.375, '⅝': 0.625, '⅞': 0.875}

// spelled are the numbers that gauges have in words.
var spelled = map[string]float64{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12}

// scanLimit bounds how much of a text is looked at, in bytes: a gauge takes a
// line.
const scanLimit = 2000

// scan cuts a text into tokens.
//
//	number = digits [ "." digits ] [ [ "-" ] fraction ] | fraction | digits "," digit .
func scan(s string) []token {
	if len(s) > scanLimit {
		s = s[:scanLimit]
	}
	var out []token
	for len(s) > 0 {
		c, n := utf8.DecodeRuneInString(s)
		switch {
		case unicode.IsSpace(c):
		case c >= '0' && c <= '9' || vulgar[c] > 0:
			var t token
			t, n = number(s)
			if th := ordinal(s[n:]); th > 0 && (t.num == 1 || !strings.HasPrefix(s[n:], "st")) {
				t, n = token{word: s[:n+th]}, n+th // "1st 2 rounds"; "21st" may be 21 stitches
			}
			out = append(out, t)
		case unicode.IsLetter(c):
			n = wordEnd(s)
			w := strings.ToLower(strings.ReplaceAll(strings.Trim(s[:n], ".'’"), "'", ""))
			if f, ok := spelled[w]; ok {
				out = append(out, token{isNum: true, num: f})
			} else {
				out = append(out, token{word: w})
			}
		case c == '"' || c == '″' || c == '”':
			out = append(out, token{word: `"`})
		case strings.HasPrefix(s, "''"):
			out = append(out, token{word: `"`})
			n = 2
		case c == '×':
			out = append(out, token{word: "x"})
		case c == '–' || c == '—' || c == '−':
			out = append(out, token{word: "-"})
		default:
			out = append(out, token{word: string(c)})
		}
		s = s[n:]
	}
	return out
}

// wordEnd is where the word at the start of s ends: letters, with full stops
// and apostrophes between them ("d.c", "isn't").
func wordEnd(s string) int {
	end := 0
	for i, c := range s {
		if unicode.IsLetter(c) {
			end = i + utf8.RuneLen(c)
		} else if c != '.' && c != '\'' && c != '’' || end < i {
			break
		}
	}
	return max(end, 1)
}

// number reads the number at the start of s and its length there.
func number(s string) (token, int) {
	i := digits(s)
	v, _ := strconv.ParseFloat(s[:i], 64)
	if i > 0 && i+1 < len(s) && s[i] == '.' && digits(s[i+1:]) > 0 {
		k := i + 1 + digits(s[i+1:])
		v, _ = strconv.ParseFloat(s[:k], 64)
		return token{isNum: true, num: v}, k
	}
	// 4,5 is four and a half; 20,21 and 4,5,6 are lists
	if i > 0 && i+1 < len(s) && s[i] == ',' && digits(s[i+1:]) == 1 && !strings.HasPrefix(s[i+2:], ",") {
		v, _ = strconv.ParseFloat(s[:i]+"."+s[i+1:i+2], 64)
		return token{isNum: true, num: v}, i + 2
	}
	if f, n := fraction(s[i:]); n > 0 && i > 0 {
		return token{isNum: true, num: v + f}, i + n
	}
	if i > 0 && strings.HasPrefix(s[i:], "/") { // 1/2
		if k := digits(s[i+1:]); k > 0 {
			if d, _ := strconv.ParseFloat(s[i+1:i+1+k], 64); isPart(v, d) {
				return token{isNum: true, num: v / d}, i + 1 + k
			}
		}
	}
	if i == 0 {
		c, n := utf8.DecodeRuneInString(s)
		return token{isNum: true, num: vulgar[c]}, n
	}
	return token{isNum: true, num: v}, i
}

// fraction reads what makes a mixed number of the digits before it: "½",
// " 1/2", "-1/2".
func fraction(s string) (float64, int) {
	c, n := utf8.DecodeRuneInString(s)
	if vulgar[c] > 0 {
		return vulgar[c], n
	}
	if c != ' ' && c != '-' {
		return 0, 0
	}
	if d, m := utf8.DecodeRuneInString(s[n:]); vulgar[d] > 0 {
		return vulgar[d], n + m
	}
	a := digits(s[n:])
	if a == 0 || n+a >= len(s) || s[n+a] != '/' {
		return 0, 0
	}
	b := digits(s[n+a+1:])
	if b == 0 {
		return 0, 0
	}
	over, _ := strconv.ParseFloat(s[n:n+a], 64)
	under, _ := strconv.ParseFloat(s[n+a+1:n+a+1+b], 64)
	if !isPart(over, under) {
		return 0, 0
	}
	return over / under, n + a + 1 + b
}

// isPart reports whether over/under is a fraction of print, rather than two
// counts parted by a stroke: halves, thirds, quarters, eighths, tenths,
// sixteenths.
func isPart(over, under float64) bool {
	switch under {
	case 2, 3, 4, 8, 10, 16:
		return over > 0 && over < under
	}
	return false
}

// ordinal is the length of the ending that makes the number before it an
// ordinal, 0 where there is none.
func ordinal(s string) int {
	for _, end := range []string{"st", "nd", "rd", "th"} {
		if len(s) >= 2 && strings.EqualFold(s[:2], end) {
			if c, _ := utf8.DecodeRuneInString(s[2:]); !unicode.IsLetter(c) {
				return 2
			}
		}
	}
	return 0
}

func digits(s string) int {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}
