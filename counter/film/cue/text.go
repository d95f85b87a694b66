package cue

import (
	"fmt"
	"strings"
	"unicode"

	"crochet/tallyturn/counter/film"
)

// oneLine makes text from outside one line of text: white space of any kind and
// length becomes one space, control characters become their pictures (a NUL
// is ␀), and characters that turn the direction of what follows are spelt out.
func oneLine(s string) string {
	var b strings.Builder
	space := false
	for _, r := range s {
		if unicode.IsSpace(r) {
			space = true
			continue
		}
		if space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		space = false
		switch {
		case r < ' ':
			b.WriteRune('␀' + r)
		case r == 0x7f:
			b.WriteRune('␡')
		case unicode.IsControl(r), turns(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// turns tells whether a character turns the direction of text that is not its
// own, or is a byte order mark.
func turns(r rune) bool {
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0xfeff
}

// shown is oneLine for a terminal: what has no width of its own is spelt out
// too.
func shown(s string) string {
	s = oneLine(s)
	if !strings.ContainsFunc(s, hidden) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if hidden(r) {
			fmt.Fprintf(&b, "<U+%04X>", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

func hidden(r rune) bool {
	return r > 0x7e && (unicode.In(r, unicode.Cf, unicode.Co) || !unicode.IsGraphic(r))
}

// rowOf is what the row of a cut is called: its piece and its row.
func rowOf(c film.Cut) string {
	piece, row := oneLine(c.Piece), oneLine(c.Row)
	switch {
	case piece == "" && row == "":
		return fmt.Sprintf("Take %d", c.Take)
	case piece == "" || row == "":
		return piece + row
	}
	return piece + ": " + row
}

// nameOf is what a cut is called for a viewer.
func nameOf(c film.Cut) string {
	name := oneLine(c.Title)
	if name == "" {
		name = rowOf(c)
	}
	if c.Unused {
		name += fmt.Sprintf(" (try %d, not used)", c.Again+1)
	}
	return name
}

// markWords are what the kinds of mark are called.
var markWords = [...]string{
	film.RowBegun: "row begun", film.RowEnded: "row ended", film.Instruction: "instruction",
	film.Counted: "counted", film.Slipped: "slip", film.Unravelled: "unravelled",
	film.Again: "again from here", film.OwnWord: "mark",
}

// markText is what a mark says.
func markText(m film.Mark) string {
	word, text := markWords[m.Kind], oneLine(m.Text)
	switch {
	case text == "":
		return word
	case m.Kind == film.OwnWord:
		return text
	}
	return word + ": " + text
}

// seconds is a time in ms as seconds with three places.
func seconds(ms int64) string { return fmt.Sprintf("%d.%03d", ms/1000, ms%1000) }

// clock is a time in ms as hours, minutes, seconds and ms, with a mark before
// the last.
func clock(ms int64, mark byte) string {
	s := ms / 1000
	return fmt.Sprintf("%02d:%02d:%02d%c%03d", s/3600, s/60%60, s%60, mark, ms%1000)
}
