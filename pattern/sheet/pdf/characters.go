package pdf

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/unicode/runenames"
)

// printable is text in characters that the type has. What it lacks is told in
// words, in square brackets, by its name in Unicode: "[crab]". Characters that
// have no names of their own, such as rare ones of Chinese, are told by their
// numbers: "[U+20BB7]".
//
// DejaVu Sans has the letters of Europe and of the Caucasus, Greek, Cyrillic,
// Hebrew, Arabic, and many signs; Droid Sans Fallback those of Chinese, Japanese
// and Korean. Accents that are written behind their letter are joined to it where
// there is such a letter.
func printable(s string) string {
	s = norm.NFC.String(s)
	if plain(s) {
		return s
	}
	var b strings.Builder
	var names []string
	flush := func() {
		if len(names) > 0 {
			b.WriteString("[" + strings.Join(names, ", ") + "]")
			names = nil
		}
	}
	rs := []rune(s)
	for i := 0; i < len(rs); i++ {
		r := rs[i]
		switch {
		case 0xfe00 <= r && r <= 0xfe0f || 0xe0000 <= r && r <= 0xe01ef:
			// how a sign is to look; it is told in words as it is
		case r <= 0xffff && (has(r) || isEastern(r)):
			flush()
			b.WriteRune(r)
		case flagLetter(r) && i+1 < len(rs) && flagLetter(rs[i+1]):
			names = append(names, fmt.Sprintf("flag %c%c", 'A'+r-firstFlag, 'A'+rs[i+1]-firstFlag))
			i++
		default:
			if d := norm.NFKC.String(string(r)); covered(d) { // letters in another dress
				flush()
				b.WriteString(d)
				continue
			}
			names = append(names, name(r))
		}
	}
	flush()
	return b.String()
}

// plain reports whether all is in letters that nobody need look up.
func plain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// firstFlag is A among the letters that flags are spelled in, two for a land.
const firstFlag = 0x1f1e6

func flagLetter(r rune) bool { return firstFlag <= r && r < firstFlag+26 }

// name tells a character in words.
func name(r rune) string {
	s := runenames.Name(r)
	switch {
	case 0x1f3fb <= r && r <= 0x1f3ff:
		// the short names of "emoji modifier fitzpatrick type-1-2" and so on
		return []string{"light", "medium-light", "medium", "medium-dark", "dark"}[r-0x1f3fb] + " skin"
	case s == "" || strings.HasPrefix(s, "<") || unicode.In(r, unicode.Han):
		return fmt.Sprintf("U+%04X", r)
	}
	return strings.TrimPrefix(strings.ToLower(s), "symbol for ") // pictures of control characters
}

// covered reports whether the type has all of a text.
func covered(s string) bool {
	for _, r := range s {
		if r > 0xffff || !has(r) && !isEastern(r) {
			return false
		}
	}
	return true
}
