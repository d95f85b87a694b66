package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// span is a piece of text and what it is for. The text is clean.
type span struct {
	role role
	text string
}

// cells is how many columns clean text takes.
func cells(s string) int {
	n := 0
	for _, r := range s {
		// Letters and drawing characters that are one column wide and join
		// with nothing; anything else is measured with care.
		switch {
		case r >= ' ' && r < 0x7f, r >= 0xa1 && r < 0x300 && r != 0xad && r != 0xa9 && r != 0xae, r >= 0x2500 && r < 0x25a0:
			n++
		default:
			return ansi.StringWidth(s)
		}
	}
	return n
}

// clip cuts clean text to at most w columns, and says by a sign that it was cut.
func clip(s string, w int) string {
	if cells(s) <= w {
		return s
	}
	if w <= 0 {
		return ""
	}
	return ansi.Truncate(s, w, "…")
}

// spanCells is how many columns a line of spans takes.
func spanCells(line []span) int {
	n := 0
	for _, s := range line {
		n += cells(s.text)
	}
	return n
}

// canvas collects the lines of a frame. However much is put into it, it gives
// back exactly height lines, none of them wider than width.
type canvas struct {
	theme         *theme
	width, height int
	lines         []string
}

func newCanvas(t *theme, width, height int) *canvas {
	return &canvas{theme: t, width: width, height: height, lines: make([]string, 0, height)}
}

// line adds a line; what does not fit is cut.
func (c *canvas) line(spans ...span) {
	c.lines = append(c.lines, c.theme.line(c.width, spans))
}

// blank adds n empty lines.
func (c *canvas) blank(n int) {
	for range n {
		c.line()
	}
}

// sides adds a line with one part at the left and one at the right; where
// they do not both fit the left one gives way.
func (c *canvas) sides(left, right []span) {
	room := c.width - spanCells(right)
	left = clipSpans(left, max(room-1, 0))
	line := append(left, span{base, strings.Repeat(" ", max(room-spanCells(left), 0))})
	c.line(append(line, right...)...)
}

// String is the frame.
func (c *canvas) String() string {
	for len(c.lines) < c.height {
		c.line()
	}
	return strings.Join(c.lines[:c.height], "\n")
}

// line inks spans into at most width columns. Where the ground is painted the
// line is filled to its end.
func (t *theme) line(width int, spans []span) string {
	var b strings.Builder
	used, size := 0, 0
	for _, s := range spans {
		k := &t.inks[s.role]
		size += len(k.on) + len(s.text) + len(k.off)
	}
	b.Grow(size)
	for _, s := range spans {
		if s.text == "" {
			continue
		}
		text := s.text
		n := cells(text)
		if used+n > width {
			text = clip(text, width-used)
			n = cells(text)
		}
		if n == 0 {
			continue
		}
		used += n
		if t.look.ASCII {
			text = asciiSigns.Replace(text)
		}
		k := t.inks[s.role]
		b.WriteString(k.on)
		b.WriteString(text)
		b.WriteString(k.off)
	}
	if t.paint && used < width {
		k := t.inks[base]
		b.WriteString(k.on)
		b.WriteString(strings.Repeat(" ", width-used))
		b.WriteString(k.off)
	}
	return b.String()
}

// clipSpans cuts a line of spans to w columns. It does not change its argument.
func clipSpans(line []span, w int) []span {
	out := make([]span, 0, len(line)+2)
	for _, s := range line {
		n := cells(s.text)
		if n > w {
			if s.text = clip(s.text, w); s.text != "" {
				out = append(out, s)
			}
			break
		}
		w -= n
		out = append(out, s)
	}
	return out
}

// goesOn is a line of which more follows than there is room for: one sign says
// so, after a whole word where there is one.
func goesOn(line []span, w int) []span {
	out := make([]span, 0, len(line)+1)
	w -= cells(" …")
	for _, s := range line {
		n := cells(s.text)
		if n <= w {
			w -= n
			out = append(out, s)
			continue
		}
		text := prefix(s.text, w)
		if i := strings.LastIndexByte(text, ' '); s.text[len(text)] != ' ' && (i >= 0 || len(out) > 0) {
			text = text[:max(i, 0)]
		}
		if s.text = text; text != "" {
			out = append(out, s)
		}
		break
	}
	for n := len(out); n > 0 && strings.TrimRight(out[n-1].text, " ") == ""; n = len(out) {
		out = out[:n-1]
	}
	if n := len(out); n > 0 {
		out[n-1].text = strings.TrimRight(out[n-1].text, " ")
	}
	return append(out, span{quiet, " …"})
}

// prefix is as many whole characters of clean text as fit w columns.
func prefix(s string, w int) string {
	if cells(s) <= w {
		return s
	}
	if w <= 0 {
		return ""
	}
	return ansi.Truncate(s, w, "")
}
