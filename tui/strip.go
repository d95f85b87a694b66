package tui

import (
	"strconv"
	"strings"
)

// strip is the row in hand drawn as a braid: a V, as a stitch looks from
// above, for each stitch worked, a dash for each one to come. A bracket over
// it spans what the instruction in hand makes, a ruler under it counts.
//
//	         ╭─▼──╮
//	╲╱╲╱╲╱╲╱╲╱╲╱╶╴╶╴╶╴╶╴╶╴
//	        5         10
//
// Only what the window shows is ever drawn, so a row may be as long as it likes.
type strip struct {
	done       int64 // stitches worked
	total      int64 // stitches in the row
	known      bool  // whether total is known
	from, upto int64 // the instruction in hand makes stitches from+1 to upto
}

const (
	rulerStep = 10
	tallest   = 4 // lines of the largest mark
	edges     = 2 // columns kept at either end for "‹ " and " ›"
)

// braid is how the marks are set: how many columns from one to the next, how
// many lines each is high, and which stitches fit.
type braid struct {
	pitch, tall int
	first, last int64 // stitches first+1 to last are drawn
}

// set finds the largest marks at which the row fits the width, no higher than
// tall; a row that does not fit runs behind a window.
func (s strip) set(width, tall int) braid {
	room := width - 2*edges
	b := braid{pitch: 2, tall: 1}
	if width < 60 {
		b.pitch = 1
	}
	if s.known && s.total > 0 && s.total <= int64(room/b.pitch) {
		b.pitch = min(room/int(s.total), 2*min(max(tall, 2), tallest))
		b.tall = max(min(b.pitch/2, tall), 1)
	}
	b.first, b.last = s.window(int64(room / b.pitch))
	return b
}

// window is the stitches to show, first+1 to last, when n fit. It moves by
// whole steps of the ruler so that the picture stands still between them.
func (s strip) window(n int64) (first, last int64) {
	if s.known && s.total <= n {
		return 0, s.total
	}
	first = (s.done - n*3/5) / rulerStep * rulerStep
	if s.known {
		first = min(first, (s.total-n+rulerStep-1)/rulerStep*rulerStep)
	}
	first = max(first, 0)
	last = first + n
	if s.known {
		last = min(last, s.total)
	}
	return first, last
}

// draw gives the lines of the strip: the bracket, the marks, the ruler.
func (s strip) draw(width, tall int) [][]span {
	b := s.set(width, tall)
	left, right := "  ", ""
	if b.first > 0 {
		left = "‹ "
	}
	if s.known && b.last < s.total {
		right = " ›"
	}
	lines := [][]span{{{base, "  "}, {markNear, s.bracket(b)}}}
	for y := range b.tall {
		line := append([]span{{edge, left}}, s.marks(b, y)...)
		lines = append(lines, append(line, span{edge, right}))
	}
	return append(lines, []span{{base, "  "}, {edge, s.ruler(b)}})
}

// inset is the blank columns before a mark; mark is how wide it is.
func (b braid) inset() int { return (b.pitch - b.mark()) / 2 }
func (b braid) mark() int  { return min(b.pitch, 2*b.tall) }

// sign is line y of a mark, without the blanks around it.
func (b braid) sign(y int, worked bool) string {
	switch {
	case b.pitch == 1 && worked:
		return "v"
	case b.pitch == 1:
		return "-"
	case worked:
		side := strings.Repeat(" ", y)
		return side + "╲" + strings.Repeat(" ", 2*(b.tall-1-y)) + "╱" + side
	case y == b.tall-1:
		return "╶" + strings.Repeat("─", b.mark()-2) + "╴"
	}
	return strings.Repeat(" ", b.mark())
}

func (s strip) marks(b braid, y int) []span {
	before := strings.Repeat(" ", b.inset())
	after := strings.Repeat(" ", b.pitch-b.mark()-b.inset())
	run := func(r role, from, upto int64, worked bool) span {
		n := min(upto, b.last) - max(from, b.first)
		return span{r, strings.Repeat(before+b.sign(y, worked)+after, int(max(n, 0)))}
	}
	line := []span{run(markDone, b.first, s.done, true)}
	if s.done < b.last {
		line = append(line, span{base, before}, span{markHand, b.sign(y, true)}, span{base, after})
	}
	if s.known {
		line = append(line,
			run(markNear, s.done+1, s.upto, false),
			run(markCome, max(s.upto, s.done+1), s.total, false))
	}
	return line
}

// column is the left column of a stitch's mark.
func (b braid) column(stitch int64) int { return int(stitch-b.first)*b.pitch + b.inset() }

// bracket is the line over the marks.
func (s strip) bracket(b braid) string {
	if s.done < b.first || s.done >= b.last {
		return ""
	}
	line := []rune(strings.Repeat(" ", int(b.last-b.first)*b.pitch))
	if from, upto := max(s.from, b.first), min(s.upto, b.last); upto-from > 1 && s.from <= s.done {
		l, r := b.column(from), b.column(upto-1)+b.mark()-1
		for i := l; i <= r; i++ {
			line[i] = '─'
		}
		if s.from >= b.first {
			line[l] = '╭'
		}
		if s.upto <= b.last {
			line[r] = '╮'
		}
	}
	at := b.column(s.done) + (b.mark()-1)/2
	line[at] = '▼'
	if b.mark() > 1 {
		line[at+1] = '▼'
	}
	return string(line)
}

// ruler is the line under the marks: a number every ten stitches, a tick
// every five, and the end of the row.
func (s strip) ruler(b braid) string {
	line := []byte(strings.Repeat(" ", int(b.last-b.first)*b.pitch))
	put := func(stitch int64, text string) {
		end := b.column(stitch-1) + b.mark() // under the right edge of its mark
		start := end - len(text)
		if start >= 0 && strings.TrimSpace(string(line[max(start-1, 0):min(end+1, len(line))])) == "" {
			copy(line[start:end], text)
		}
	}
	if s.known && b.last == s.total && b.last > b.first {
		put(b.last, strconv.FormatInt(b.last, 10))
	}
	last := b.last
	if !s.known {
		last = min(last, s.done) // nobody knows of more
	}
	for n := (b.first/rulerStep + 1) * rulerStep; n <= last; n += rulerStep {
		put(n, strconv.FormatInt(n, 10))
	}
	for n := (b.first/5 + 1) * 5; n <= last; n += 5 {
		if n%rulerStep != 0 {
			put(n, "'")
		}
	}
	return string(line)
}
