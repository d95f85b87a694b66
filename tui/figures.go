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

// figureCells is how many lines figures take at a scale, and how many columns
// each digit takes with the gap after it.
func figureCells(scale int) (high, wide int) {
	return (pointsHigh*scale + 1) / 2, (pointsWide + 1) * scale
}

// figureWidth is how many columns n takes at a scale, without a gap at the end.
func figureWidth(n int64, scale int) int {
	_, wide := figureCells(scale)
	return len(strconv.FormatInt(n, 10))*wide - scale
}

// drawFigure draws n, which is not negative, at a scale: its lines from the
// top, all of one width.
func drawFigure(n int64, scale int) []string {
	digits := strconv.FormatInt(max(n, 0), 10)
	high, _ := figureCells(scale)
	lines := make([]string, high)
	for y := range lines {
		var b strings.Builder
		for i, d := range []byte(digits) {
			if i > 0 {
				b.WriteString(strings.Repeat(" ", scale))
			}
			points := pointFigures[d-'0']
			for x := range pointsWide {
				// Where the figures are an odd number of half lines high, the
				// free half is above them, so that all stand on one line.
				top := 2*y - pointsHigh*scale%2
				b.WriteString(strings.Repeat(halves(points, x, top, scale), scale))
			}
		}
		lines[y] = b.String()
	}
	return lines
}

// halves is the character for column x of points and for the half lines y and
// y+1 of the drawing.
func halves(points [pointsHigh]string, x, y, scale int) string {
	at := func(y int) bool {
		return y >= 0 && y/scale < pointsHigh && points[y/scale][x] == '#'
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
