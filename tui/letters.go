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
	'*': {"     ", "# # #", " ### ", "#####", " ### ", "# # #", "     "},
	'&': {" ##  ", "#  # ", " ##  ", " ##  ", "#  ##", "#  # ", " ## #"},
	'+': {"     ", "  #  ", "  #  ", "#####", "  #  ", "  #  ", "     "},
	'%': {"##  #", "##  #", "   # ", "  #  ", " #   ", "#  ##", "#  ##"},
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

// textWidth is how many columns text takes in block letters at a scale,
// without a gap at its end; false where some of it cannot be drawn so.
func (brush) textWidth(text string, scale int) (int, bool) {
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

// text draws text that can be drawn: its lines from the top, all of one
// width.
func (b brush) text(text string, scale int) []string {
	high, _ := b.cells(scale)
	lines := make([]string, high)
	for y := range lines {
		var line strings.Builder
		first := true
		for _, r := range text {
			points, ok := block(r)
			if !ok {
				continue
			}
			if !first {
				line.WriteString(strings.Repeat(" ", scale))
			}
			first = false
			b.stroke(&line, points, y, scale)
		}
		lines[y] = line.String()
	}
	return lines
}

// largest sets text as large as fits n lines of a width, in block letters; nil
// where none fit.
func (b brush) largest(ink role, text string, most, width, n int) (out [][]span) {
	for scale := most; scale > 0; scale-- {
		lines, ok := b.fit(text, scale, width, n)
		if !ok {
			continue
		}
		for _, l := range lines {
			out = append(out, []span{{ink, l}})
		}
		return out
	}
	return nil
}

// fit sets text in block letters; false where it does not fit.
func (b brush) fit(text string, scale, width, high int) ([]string, bool) {
	each, _ := b.cells(scale)
	var rows []string
	line := ""
	for _, word := range strings.Fields(text) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		n, ok := b.textWidth(next, scale)
		if !ok {
			return nil, false
		}
		if n > width {
			if n, _ := b.textWidth(word, scale); n > width || line == "" {
				return nil, false
			}
			rows, next = append(rows, line), word
		}
		line = next
	}
	if line != "" {
		rows = append(rows, line)
	}
	if len(rows)*(each+1)-1 > high {
		return nil, false
	}
	var out []string
	for i, r := range rows {
		if i > 0 {
			out = append(out, "")
		}
		out = append(out, b.text(r, scale)...)
	}
	return out, true
}
