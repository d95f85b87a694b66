package report

import (
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/tui"
)

// place is a span in lines and columns, both from 1.
type place struct {
	line, column int
	endLine      int
	endColumn    int // one past the last character, on line; its end where the span goes on
}

func locate(src *pattern.Source, sp pattern.Span) place {
	sp.End = max(sp.End, sp.Start)
	line, column := src.Position(sp.Start)
	endLine, endColumn := src.Position(sp.End)
	if endLine > line {
		endColumn = max(column, utf8.RuneCountInString(src.Line(line))+1)
		if _, c := src.Position(sp.End); c == 1 {
			endLine-- // the span ends with the line end before
		}
	}
	return place{line, column, endLine, endColumn}
}

// excerpt is a line of source made visible and cut to a width around the
// words meant, with the line of carets that stands under it.
type excerpt struct{ text, carets string }

const ellipsis = "…"

// cells is how many columns of a terminal a text takes up, once it is shown.
func cells(text string) int { return ansi.StringWidth(tui.Clean(text)) }

// cut makes the excerpt of the line that the place begins on.
func cut(src *pattern.Source, at place, width int) excerpt {
	line := src.Line(at.line)
	start := byteColumn(line, at.column)
	end := max(start, byteColumn(line, at.endColumn))
	before, words, after := line[:start], line[start:end], line[end:]

	// The words come first, then as much before them as makes them clear,
	// then what still fits after them.
	words, cutWords := headWithin(words, width*3/4)
	room := width - cells(words)
	if cutWords {
		after = ""
		room -= cells(ellipsis)
	}
	share := room * 2 / 3
	if fits(after, room-share) {
		share = room - cells(after)
	}
	before, cutBefore := tailWithin(before, share)
	if !cutBefore {
		before = strings.TrimLeft(before, " \t")
	}
	left := tui.Clean(before)
	if cutBefore {
		left = ellipsis + left
	}
	after, cutAfter := headWithin(after, room-cells(left))

	var e excerpt
	e.text = left + tui.Clean(words) + tui.Clean(after)
	if cutWords || cutAfter {
		e.text += ellipsis
	}
	e.carets = strings.Repeat(" ", cells(left)) + strings.Repeat("^", max(1, cells(words)))
	return e
}

// headWithin is as much of the beginning of text as fits, and whether that
// leaves something out.
func headWithin(text string, width int) (string, bool) {
	if fits(text, width) {
		return text, false
	}
	end := sort.Search(len(text), func(n int) bool {
		return !fits(text[:atRune(text, n+1)], width-len(" "))
	})
	end = atRune(text, end)
	return text[:end], true
}

// tailWithin is as much of the end of text as fits, and whether that leaves
// something out.
func tailWithin(text string, width int) (string, bool) {
	if fits(text, width) {
		return text, false
	}
	left := sort.Search(len(text), func(n int) bool {
		return !fits(text[atRune(text, len(text)-n-1):], width-len(" "))
	})
	start := len(text) - left
	for start < len(text) && !utf8.RuneStart(text[start]) {
		start++
	}
	return text[start:], true
}

// atRune is the offset n, moved back to where a character begins.
func atRune(text string, n int) int {
	for n > 0 && n < len(text) && !utf8.RuneStart(text[n]) {
		n--
	}
	return n
}

// fits bounds the bytes as well as the columns, since marks that take up no
// column could otherwise be piled up without end.
func fits(text string, width int) bool {
	const bytesPerCell = 16
	return len(text) <= max(width, 0)*bytesPerCell && cells(text) <= width
}

// byteColumn is the byte offset in line of a column counted in characters
// from 1.
func byteColumn(line string, column int) int {
	offset := 0
	for ; column > 1 && offset < len(line); column-- {
		_, n := utf8.DecodeRuneInString(line[offset:])
		offset += n
	}
	return offset
}
