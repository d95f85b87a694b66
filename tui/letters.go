package tui

import "strings"

// Block letters, drawn as the block figures are: five points wide and seven
// high, two points one above the other in a character. A few signs are
// narrower.
var pointLetters = map[rune][pointsHigh]string{
	'A': {" ### ", "#   #", "#   #", "#####", "#   #", "#   #", "#   #"},
	'B': {"#### ", "#   #", "#   #", "#### ", "#   #", "#   #", "#### "},
	'C': {" ### ", "#   #", "#    ", "#    ", "#    ", "#   #", " ### "},
	'D': {"#### ", "#   #", "#   #", "#   #", "#   #", "#   #", "#### "},
	'E': {"#####", "#    ", "#    ", "#### ", "#    ", "#    ", "#####"},
	'F': {"#####", "#    ", "#    ", "#### ", "#    ", "#    ", "#    "},
	'G': {" ### ", "#   #", "#    ", "#  ##", "#   #", "#   #", " ### "},
	'H': {"#   #", "#   #", "#   #", "#####", "#   #", "#   #", "#   #"},
	'I': {"###", " # ", " # ", " # ", " # ", " # ", "###"},
	'J': {"  ###", "   # ", "   # ", "   # ", "   # ", "#  # ", " ##  "},
	'K': {"#   #", "#  # ", "# #  ", "##   ", "# #  ", "#  # ", "#   #"},
	'L': {"#    ", "#    ", "#    ", "#    ", "#    ", "#    ", "#####"},
	'M': {"#   #", "## ##", "# # #", "# # #", "#   #", "#   #", "#   #"},
	'N': {"#   #", "##  #", "# # #", "#  ##", "#   #", "#   #", "#   #"},
	'O': {" ### ", "#   #", "#   #", "#   #", "#   #", "#   #", " ### "},
	'P': {"#### ", "#   #", "#   #", "#### ", "#    ", "#    ", "#    "},
	'Q': {" ### ", "#   #", "#   #", "#   #", "# # #", "#  # ", " ## #"},
	'R': {"#### ", "#   #", "#   #", "#### ", "# #  ", "#  # ", "#   #"},
	'S': {" ####", "#    ", "#    ", " ### ", "    #", "    #", "#### "},
	'T': {"#####", "  #  ", "  #  ", "  #  ", "  #  ", "  #  ", "  #  "},
	'U': {"#   #", "#   #", "#   #", "#   #", "#   #", "#   #", " ### "},
	'V': {"#   #", "#   #", "#   #", "#   #", "#   #", " # # ", "  #  "},
	'W': {"#   #", "#   #", "#   #", "# # #", "# # #", "## ##", "#   #"},
	'X': {"#   #", "#   #", " # # ", "  #  ", " # # ", "#   #", "#   #"},
	'Y': {"#   #", "#   #", " # # ", "  #  ", "  #  ", "  #  ", "  #  "},
	'Z': {"#####", "    #", "   # ", "  #  ", " #   ", "#    ", "#####"},
	' ': {"   ", "   ", "   ", "   ", "   ", "   ", "   "},
	':': {" ", " ", "#", " ", "#", " ", " "},
	'.': {" ", " ", " ", " ", " ", " ", "#"},
	',': {"  ", "  ", "  ", "  ", "  ", " #", "# "},
	';': {"  ", "  ", " #", "  ", "  ", " #", "# "},
	'’': {"#", "#", " ", " ", " ", " ", " "},
	'-': {"    ", "    ", "    ", "####", "    ", "    ", "    "},
	'–': {"    ", "    ", "    ", "####", "    ", "    ", "    "},
	'(': {" #", "# ", "# ", "# ", "# ", "# ", " #"},
	')': {"# ", " #", " #", " #", " #", " #", "# "},
	'?': {" ### ", "#   #", "    #", "  ## ", "  #  ", "     ", "  #  "},
	'!': {"#", "#", "#", "#", "#", " ", "#"},
	'“': {"# #", "# #", "   ", "   ", "   ", "   ", "   "},
	'”': {"# #", "# #", "   ", "   ", "   ", "   ", "   "},
	'/': {"    #", "    #", "   # ", "  #  ", " #   ", "#    ", "#    "},
}

// block is a letter in points; false for one that cannot be drawn.
func block(r rune) ([pointsHigh]string, bool) {
	switch {
	case r >= '0' && r <= '9':
		return pointFigures[r-'0'], true
	case r >= 'a' && r <= 'z':
		r += 'A' - 'a'
	case r == '\'':
		r = '’'
	case r == '"':
		r = '”'
	}
	b, ok := pointLetters[r]
	return b, ok
}

// blockWidth is how many columns text takes in block letters at a scale,
// without a gap at its end; false where some of it cannot be drawn so.
func blockWidth(text string, scale int) (int, bool) {
	n := 0
	for _, r := range text {
		b, ok := block(r)
		if !ok {
			return 0, false
		}
		n += (len(b[0]) + 1) * scale
	}
	return max(n-scale, 0), true
}

// drawBlock draws text that can be drawn: its lines from the top, all of one
// width.
func drawBlock(text string, scale int) []string {
	high, _ := figureCells(scale)
	lines := make([]string, high)
	for y := range lines {
		var b strings.Builder
		first := true
		for _, r := range text {
			points, ok := block(r)
			if !ok {
				continue
			}
			if !first {
				b.WriteString(strings.Repeat(" ", scale))
			}
			first = false
			top := 2*y - pointsHigh*scale%2
			for x := range len(points[0]) {
				b.WriteString(strings.Repeat(halves(points, x, top, scale), scale))
			}
		}
		lines[y] = b.String()
	}
	return lines
}
