package pattern

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Span is a half-open range of byte offsets in the source text.
type Span struct{ Start, End int }

// Len is the number of bytes in the span.
func (s Span) Len() int { return s.End - s.Start }

// Empty reports whether the span covers nothing.
func (s Span) Empty() bool { return s.End <= s.Start }

// Contains reports whether t lies wholly inside s.
func (s Span) Contains(t Span) bool { return s.Start <= t.Start && t.End <= s.End }

// cover is the smallest span that holds both.
func cover(a, b Span) Span {
	if a.Empty() {
		return b
	}
	if b.Empty() {
		return a
	}
	return Span{min(a.Start, b.Start), max(a.End, b.End)}
}

// Source is a pattern's text together with where its lines begin.
type Source struct {
	Text  string
	lines []int        // byte offset of the start of each line
	marks []columnMark // in long lines alone, in the order of the text
}

// columnMark is how many characters of its line stand before a byte offset.
type columnMark struct{ offset, before int }

// longLine is how many bytes of a line are counted sooner than looked up.
const longLine = 1024

// NewSource indexes the lines of text.
func NewSource(text string) *Source {
	s := &Source{Text: text, lines: make([]int, 1, 1+strings.Count(text, "\n"))}
	for start := 0; ; {
		n := strings.IndexByte(text[start:], '\n')
		if n < 0 {
			s.markLine(start, len(text))
			return s
		}
		s.markLine(start, start+n)
		start += n + 1
		s.lines = append(s.lines, start)
	}
}

// markLine notes the columns of a long line here and there: with every finding
// counted from the start of a line of 10 MB, the time of them all would grow
// as its square.
func (s *Source) markLine(start, end int) {
	if end-start <= longLine {
		return
	}
	before, next := 0, start+longLine
	for i := range s.Text[start:end] {
		if start+i >= next {
			s.marks = append(s.marks, columnMark{start + i, before})
			next += longLine
		}
		before++
	}
}

// Position gives the line and the column of a byte offset, both from 1. The
// column counts characters (code points), not bytes.
func (s *Source) Position(offset int) (line, column int) {
	offset = max(0, min(offset, len(s.Text)))
	line = s.lineAt(offset)
	from := columnMark{offset: s.lines[line-1]}
	if m := sort.Search(len(s.marks), func(i int) bool { return s.marks[i].offset > offset }); m > 0 && s.marks[m-1].offset > from.offset {
		from = s.marks[m-1]
	}
	return line, from.before + utf8.RuneCountInString(s.Text[from.offset:offset]) + 1
}

// lineAt is the line of a byte offset, from 1.
func (s *Source) lineAt(offset int) int {
	return sort.Search(len(s.lines), func(i int) bool { return s.lines[i] > offset })
}

// Line is the text of a line, counted from 1, without its line end.
func (s *Source) Line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	start, end := s.lines[n-1], len(s.Text)
	if n < len(s.lines) {
		end = s.lines[n] - 1
	}
	if end > start && s.Text[end-1] == '\r' {
		end--
	}
	return s.Text[start:end]
}

// Lines is the number of lines.
func (s *Source) Lines() int { return len(s.lines) }

// Slice is the text of a span.
func (s *Source) Slice(sp Span) string { return s.Text[sp.Start:sp.End] }
