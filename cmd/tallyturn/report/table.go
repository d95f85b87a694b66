package report

import "strings"

// cell is a field of the table: its text, already visible, and its colour.
type cell struct {
	text string
	ink  ink
}

// column says how the fields of a column stand.
type column struct {
	head  string
	right bool // numbers stand to the right
	limit int  // longest field, in cells of the terminal; 0 for any
}

// table lays fields out in columns two blanks apart. Columns in which no row
// has anything are left out.
func (o Options) table(columns []column, rows [][]cell) []string {
	widths := make([]int, len(columns))
	for _, row := range rows {
		for i := range row {
			if l := columns[i].limit; l > 0 {
				if head, cut := headWithin(row[i].text, l); cut {
					row[i].text = head + ellipsis
				}
			}
			widths[i] = max(widths[i], cells(row[i].text))
		}
	}
	head := make([]cell, len(columns))
	for i, c := range columns {
		if widths[i] > 0 {
			widths[i] = max(widths[i], cells(c.head))
		}
		head[i] = cell{c.head, faint}
	}
	lines := make([]string, 0, len(rows)+1)
	for _, row := range append([][]cell{head}, rows...) {
		var b strings.Builder
		gap := 2 // blanks owed before the next text, so that no line ends in any
		for i, f := range row {
			if widths[i] == 0 {
				continue
			}
			pad := widths[i] - cells(f.text)
			if columns[i].right {
				gap += pad
			}
			if f.text != "" {
				b.WriteString(strings.Repeat(" ", gap))
				b.WriteString(o.paint(f.ink, f.text))
				gap = 0
			}
			if !columns[i].right {
				gap += pad
			}
			gap += 2
		}
		lines = append(lines, b.String())
	}
	return lines
}
