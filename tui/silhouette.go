package tui

import (
	"fmt"
	"strings"

	"crochet/tallyturn/counter"
)

// A piece is drawn as its outline, a line for each row from the bottom up, as
// long as the row has stitches. Rows that are worked are drawn through, the
// row in hand stands out, rows to come are dashed. Where a piece has more
// rows than there are lines, a line stands for several of them, and shows the
// one in their middle.

const (
	silhouetteLeast = 6 // lines below which there is nothing to see
	silhouetteApart = 2 // lines from one row to the next, where there is room
)

// silhouette draws the piece in hand in a box; its lines from the top, each
// exactly width columns.
func silhouette(s counter.State, width, height int) [][]span {
	at, plan := s.At(), s.Plan()
	rows := plan.Rows(at.Piece)
	if rows == 0 || height < 1 || width < 8 {
		return nil
	}
	lines := min(rows, height)
	long := make([]int64, lines) // from the bottom
	var longest, last int64 = 1, 1
	hand := 0
	for i := range long {
		from, upto := i*rows/lines, (i+1)*rows/lines
		row := (from + upto) / 2
		if at.Row >= from && at.Row < upto {
			row, hand = at.Row, i
		}
		proof, _ := plan.Row(at.Piece, row)
		if n, ok := proof.Expect(); ok && n > 0 {
			last = n
		}
		long[i] = last // a row of no known number is drawn like the one below
		longest = max(longest, last)
	}
	number := fmt.Sprintf(" ◂ %d", at.Row+1)
	room := width - 2*cells(number) // the number at the right, the same at the left
	apart := min(max(height/rows, 1), silhouetteApart)
	var out [][]span
	for i := lines - 1; i >= 0; i-- {
		// Even or odd as the width is, so that both sides run alike.
		n := max(int(float64(room)*(float64(long[i])/float64(longest)))/2*2, 2) - width%2
		bar, ink, beside := "━", markDone, ""
		switch {
		case i > hand:
			bar, ink = "╌", edge
		case i == hand:
			bar, ink, beside = "█", accent, number
		}
		line := []span{{base, strings.Repeat(" ", (width-n)/2)}, {ink, strings.Repeat(bar, n) + beside}}
		out = append(out, append(line, span{base, strings.Repeat(" ", max(width-spanCells(line), 0))}))
		if i > 0 {
			out = append(out, make([][]span, apart-1)...)
		}
	}
	return out
}
