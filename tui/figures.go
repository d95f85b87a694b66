package tui

import (
	"strconv"
	"strings"
)

// Block figures, to be read from across the table. Each is drawn as seven
// rows of five points; a character cell shows two points, one above the
// other, so that points come out nearly square.
const (
	pointsWide = 5
	pointsHigh = 7
)

var pointFigures = [10][pointsHigh]string{
	{" ### ", "#   #", "#   #", "#   #", "#   #", "#   #", " ### "},
	{"  #  ", " ##  ", "  #  ", "  #  ", "  #  ", "  #  ", " ### "},
	{" ### ", "#   #", "    #", "  ## ", " #   ", "#    ", "#####"},
	{" ### ", "#   #", "    #", "  ## ", "    #", "#   #", " ### "},
	{"   # ", "  ## ", " # # ", "#  # ", "#####", "   # ", "   # "},
	{"#####", "#    ", "#### ", "    #", "    #", "#   #", " ### "},
	{" ### ", "#    ", "#    ", "#### ", "#   #", "#   #", " ### "},
	{"#####", "    #", "   # ", "  #  ", "  #  ", " #   ", " #   "},
	{" ### ", "#   #", "#   #", " ### ", "#   #", "#   #", " ### "},
	{" ### ", "#   #", "#   #", " ####", "    #", "    #", " ### "},
}

// biggest is the largest scale drawn: beyond it figures are no easier to read.
const biggest = 5

// brush draws figures and letters in points. Two points stand one above the
// other in a cell, unless cells are filled whole: a terminal of nothing but
// ASCII has no halves.
type brush struct{ whole bool }

func (l Look) brush() brush { return brush{whole: l.ASCII} }

// cells is how many lines figures take at a scale, and how many columns each
// digit takes with the gap after it.
func (b brush) cells(scale int) (high, wide int) {
	high = (pointsHigh*scale + 1) / 2
	if b.whole {
		high = pointsHigh * b.lines(scale)
	}
	return high, (pointsWide + 1) * scale
}

// lines is how many lines a point takes where cells are filled whole.
func (brush) lines(scale int) int { return (scale + 1) / 2 }

// width is how many columns n takes at a scale, without a gap at the end.
func (b brush) width(n int64, scale int) int {
	_, wide := b.cells(scale)
	return len(strconv.FormatInt(n, 10))*wide - scale
}

// figure draws n, which is not negative, at a scale: its lines from the
// top, all of one width.
func (b brush) figure(n int64, scale int) []string {
	digits := strconv.FormatInt(max(n, 0), 10)
	high, _ := b.cells(scale)
	lines := make([]string, high)
	for y := range lines {
		var line strings.Builder
		for i, d := range []byte(digits) {
			if i > 0 {
				line.WriteString(strings.Repeat(" ", scale))
			}
			b.stroke(&line, pointFigures[d-'0'][:], y, scale)
		}
		lines[y] = line.String()
	}
	return lines
}

// stroke draws line y of a figure or letter.
func (b brush) stroke(line *strings.Builder, points []string, y, scale int) {
	for x := range len(points[0]) {
		cell := " "
		if !b.whole {
			// Where the figures are an odd number of half lines high, the free
			// half is above them, so that all stand on one line.
			cell = halves(points, x, 2*y-len(points)*scale%2, scale)
		} else if points[y/b.lines(scale)][x] == '#' {
			cell = "█"
		}
		line.WriteString(strings.Repeat(cell, scale))
	}
}

// halves is the character for column x of points and for the half lines y and
// y+1 of the drawing.
func halves(points []string, x, y, scale int) string {
	at := func(y int) bool {
		return y >= 0 && y/scale < len(points) && points[y/scale][x] == '#'
	}
	switch top, bottom := at(y), at(y+1); {
	case top && bottom:
		return "█"
	case top:
		return "▀"
	case bottom:
		return "▄"
	}
	return " "
}
