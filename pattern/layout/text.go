package layout

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Letter is what a piece is called in the drawing: A to Z, a to z, and then *.
func Letter(i int) string {
	switch {
	case i < 26:
		return string(rune('A' + i))
	case i < 52:
		return string(rune('a' + i - 26))
	}
	return "*"
}

// both marks where two pieces lie over one another.
const both = "#"

// cellAspect is how much higher than wide a letter stands on a usual terminal.
const cellAspect = 2

// Draw draws the layout in letters, one for each piece, at most so many columns
// wide and lines high; the scale is said below. A # is where two pieces lie over
// one another. It is nil where there is nothing to draw.
func (l *Layout) Draw(columns, lines int) []string {
	w, h := l.Max.X-l.Min.X, l.Max.Y-l.Min.Y
	if w <= 0 || h <= 0 || columns < 4 || lines < 2 {
		return nil
	}
	cell := l.cell(columns, lines)
	columns = min(columns, int(math.Ceil(w/cell-1e-9)))
	lines = min(lines, int(math.Ceil(h/cell/cellAspect-1e-9)))
	grid := make([][]int, lines) // 0 for none, 1 + the piece, -1 for two
	for y := range grid {
		grid[y] = make([]int, columns)
	}
	for i, p := range l.Pieces {
		if len(p.Outline) == 0 {
			continue
		}
		outline, hole := p.Placed(), p.PlacedHole()
		low, high := bounds(outline)
		covered := false
		x0, x1 := span(low.X-l.Min.X, high.X-l.Min.X, cell, columns)
		y0, y1 := span(l.Max.Y-high.Y, l.Max.Y-low.Y, cell*cellAspect, lines)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				at := Point{l.Min.X + (float64(x)+0.5)*cell, l.Max.Y - (float64(y)+0.5)*cell*cellAspect}
				if inside(outline, at) && !inside(hole, at) {
					put(grid, x, y, i, l.standsOn(i))
					covered = true
				}
			}
		}
		if !covered { // too small for the scale: it is there all the same
			put(grid, (x0+x1)/2, (y0+y1)/2, i, l.standsOn(i))
		}
	}
	out := make([]string, lines)
	for y := range grid {
		var b strings.Builder
		for _, v := range grid[y] {
			switch v {
			case 0:
				b.WriteByte(' ')
			case -1:
				b.WriteString(both)
			default:
				b.WriteString(Letter(v - 1))
			}
		}
		out[y] = strings.TrimRight(b.String(), " ")
	}
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}

// cell is how many mm a letter is wide.
func (l *Layout) cell(columns, lines int) float64 {
	return max((l.Max.X-l.Min.X)/float64(columns), (l.Max.Y-l.Min.Y)/float64(lines)/cellAspect)
}

// standsOn is the piece that another sits on; -1 for none.
func (l *Layout) standsOn(i int) int {
	if s := l.Pieces[i].Seat; s != nil {
		return s.Host
	}
	return -1
}

// put marks a cell. The piece that another stands on may show through it where
// they meet; two others over one another are told.
func put(grid [][]int, x, y, piece, host int) {
	switch old := grid[y][x]; {
	case old == 0, old == host+1:
		grid[y][x] = piece + 1
	case old != piece+1:
		grid[y][x] = -1
	}
}

// span is the cells that a stretch touches, first and last.
func span(from, to, cell float64, n int) (first, last int) {
	return min(max(int(from/cell), 0), n-1), min(max(int(to/cell), 0), n-1)
}

// inside reports whether a point lies in a polygon, by how often a ray from it
// crosses the sides.
func inside(polygon []Point, at Point) bool {
	in := false
	for i, j := 0, len(polygon)-1; i < len(polygon); j, i = i, i+1 {
		a, b := polygon[i], polygon[j]
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < (b.X-a.X)*(at.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// Text is the drawing in letters with what each piece is and how large it comes
// out.
func (l *Layout) Text(columns, lines int) string {
	var b strings.Builder
	for _, line := range l.Draw(columns, lines) {
		b.WriteString(strings.TrimRight("  "+line, " ") + "\n")
	}
	if b.Len() > 0 {
		b.WriteByte('\n')
		if cell := l.cell(columns, lines); !l.Nominal {
			fmt.Fprintf(&b, "A letter is %s mm wide and %s mm high.\n\n", tenth(cell), tenth(cell*cellAspect))
		}
	}
	for _, line := range l.Legend() {
		fmt.Fprintf(&b, "%s\n", line)
	}
	return b.String()
}

func tenth(v float64) string {
	return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
}
