package chart

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// textRow is a line of a chart of letters.
type textRow struct {
	text   string
	number string // of the row; "" for a line between rows
	tail   string // what is said behind it
}

// cutText is the lines of each part of a chart of letters: one part up to the
// width of a tile, and beyond it as many as a drawing would have, from the
// right. In a part each row has its number at the left, for its own may stand in
// another.
func cutText(rows []textRow) [][]string {
	wide, digits := 0, 0
	for _, r := range rows {
		wide, digits = max(wide, utf8.RuneCountInString(r.text)), max(digits, len(r.number))
	}
	n, step := pieces(float64(wide)/perUnit, tileWide)
	if n == 1 {
		var lines []string
		for _, r := range rows {
			lines = append(lines, r.text+r.tail)
		}
		return [][]string{lines}
	}
	columns := int(math.Ceil(step * perUnit))
	var parts [][]string
	for to := wide; len(parts) < n; to -= columns - overlap*perUnit {
		var lines []string
		for _, r := range rows {
			line := []rune(r.text)
			text := strings.TrimRight(string(line[min(max(to-columns, 0), len(line)):min(to, len(line))]), " ")
			if strings.TrimSpace(text) != "" {
				text = strings.TrimRight(fmt.Sprintf("%*s  %s%s", digits, r.number, text, r.tail), " ")
			}
			lines = append(lines, text)
		}
		parts = append(parts, lines)
	}
	return parts
}

// partOf is the heading of a part, counted from 0.
func partOf(i, of int) string { return fmt.Sprintf("Part %d of %d", i+1, of) }

func noPart(n, of int) error {
	return fmt.Errorf("there is no part %d of the chart: it has %d", n, of)
}
