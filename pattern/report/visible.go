package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Visible makes text fit for a terminal: control characters become their
// pictures, characters that reorder or hide text become their code point in
// angle brackets, and so do bytes that are no character at all. Everything
// else, and so all ordinary writing, stays as it is.
func Visible(text string) string {
	if strings.IndexFunc(text, unseen) < 0 && utf8.ValidString(text) {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, "<%02X>", text[i])
		case r < 0x20:
			b.WriteRune(0x2400 + r)
		case r == 0x7f:
			b.WriteRune('\u2421')
		case unseen(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteString(text[i : i+n])
		}
		i += n
	}
	return b.String()
}

// unseen reports whether r would act on the terminal or on its neighbours
// instead of being seen. The joiner stays: emoji are built with it.
func unseen(r rune) bool {
	const joiner = '\u200d'
	switch {
	case r < 0x20, r >= 0x7f && r < 0xa0:
		return true
	case r == '\u2028', r == '\u2029':
		return true
	case r == joiner:
		return false
	}
	return r > 0xff && unicode.Is(unicode.Cf, r)
}
