package tui

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// stackedMarks is how many combining marks one letter may carry. Every script
// manages with fewer; more is text meant to run into its neighbours.
const stackedMarks = 4

// Clean makes text from outside fit for the screen: one line, nothing in it
// that a terminal would obey, nothing that hides or turns its neighbours.
// What cannot be shown as itself is shown as a visible mark, so that the
// maker sees that something stands there:
//
//   - control characters as their pictures, ␛ for escape, ␊ for a line end;
//   - bytes that are not UTF-8 as <0xFF>;
//   - direction, zero-width and other format characters, and characters that
//     have no agreed shape, as <U+202E>.
//
// Spaces of every kind become the plain space. Variation selectors are
// dropped: they only choose between two looks of the character before them,
// and terminals do not agree on the width of either. Clean(Clean(s)) is
// Clean(s).
func Clean(s string) string {
	if plain(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s) + 16)
	marks := stackedMarks // none may come before the first letter
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, "<0x%02X>", s[i])
			marks = stackedMarks
		case r < ' ':
			b.WriteRune('␀' + r)
			marks = stackedMarks
		case r == 0x7f:
			b.WriteRune('␡')
			marks = stackedMarks
		case unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
			marks = stackedMarks
		case unicode.Is(unicode.Variation_Selector, r):
		case unseen(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
			marks = stackedMarks
		case unicode.IsMark(r):
			if marks++; marks > stackedMarks {
				fmt.Fprintf(&b, "<U+%04X>", r)
				marks = stackedMarks
			} else {
				b.WriteRune(r)
			}
		default:
			b.WriteRune(r)
			marks = 0
		}
		i += n
	}
	return b.String()
}

// plain reports whether s is printable ASCII, which needs no cleaning.
func plain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] >= 0x7f {
			return false
		}
	}
	return true
}

// unseen reports whether r leaves no trace of its own on the screen, or one
// that differs from terminal to terminal: format characters, line and
// paragraph separators, private and unassigned ones, and the letters and
// marks that are blank by definition.
func unseen(r rune) bool {
	switch r {
	case 0x034F, // combining grapheme joiner
		0x115F, 0x1160, 0x3164, 0xFFA0, // Hangul fillers
		0x17B4, 0x17B5, // Khmer inherent vowels
		0x2800: // the blank Braille cell
		return true
	}
	return !unicode.IsGraphic(r)
}
