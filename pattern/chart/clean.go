package chart

import (
	"strings"
	"unicode"
)

// clean is text from outside on one line, with characters that cannot be seen
// shown by their pictures, and those that no picture has by U+FFFD. What it
// gives can be written in XML once it is escaped.
func clean(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	out := strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029' || r == '\u00a0':
			return ' '
		case r < 0x20:
			return 0x2400 + r
		case r == 0x7f:
			return 0x2421
		case r == ' ' || unicode.IsPrint(r):
			return r
		}
		return '\uFFFD'
	}, s)
	out = strings.Join(strings.Fields(out), " ")
	if n := []rune(out); len(n) > longest {
		out = string(n[:longest-1]) + "…"
	}
	return out
}

// longest is how many characters of a name are drawn.
const longest = 80

func splitSpaces(s string) []string { return strings.Fields(s) }
