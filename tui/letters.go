package tui

import (
	"strings"
	"sync"
)

// Block letters, drawn as the block figures are: five points wide and seven
// high, two points one above the other in a character. A few signs are
// narrower.
var pointLetters = sync.OnceValue(func() map[rune]*[pointsHigh]string {
	return map[rune]*[pointsHigh]string{
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
})

// little is the scale of the little letters, which are three points wide and
// five high. They are for words that have no room for others.
const little = 0

// pointsLittle is how high the little letters are.
const pointsLittle = 5

var littleLetters = map[rune]*[pointsLittle]string{
	'0': {"###", "# #", "# #", "# #", "###"},
	'1': {"## ", " # ", " # ", " # ", "###"},
	'2': {"###", "  #", "###", "#  ", "###"},
	'3': {"###", "  #", " ##", "  #", "###"},
	'4': {"# #", "# #", "###", "  #", "  #"},
	'5': {"###", "#  ", "###", "  #", "###"},
	'6': {"###", "#  ", "###", "# #", "###"},
	'7': {"###", "  #", "  #", " # ", " # "},
	'8': {"###", "# #", "###", "# #", "###"},
	'9': {"###", "# #", "###", "  #", "###"},
	'A': {" # ", "# #", "###", "# #", "# #"},
	'B': {"## ", "# #", "## ", "# #", "## "},
	'C': {" ##", "#  ", "#  ", "#  ", " ##"},
	'D': {"## ", "# #", "# #", "# #", "## "},
	'E': {"###", "#  ", "## ", "#  ", "###"},
	'F': {"###", "#  ", "## ", "#  ", "#  "},
	'G': {" ###", "#   ", "# ##", "#  #", " ###"},
	'H': {"# #", "# #", "###", "# #", "# #"},
	'I': {"###", " # ", " # ", " # ", "###"},
	'J': {"  #", "  #", "  #", "# #", " # "},
	'K': {"#  #", "# # ", "##  ", "# # ", "#  #"},
	'L': {"#  ", "#  ", "#  ", "#  ", "###"},
	'M': {"#   #", "## ##", "# # #", "#   #", "#   #"},
	'N': {"#  #", "## #", "# ##", "#  #", "#  #"},
	'O': {" # ", "# #", "# #", "# #", " # "},
	'P': {"## ", "# #", "## ", "#  ", "#  "},
	'Q': {" ## ", "#  #", "#  #", "# # ", " # #"},
	'R': {"### ", "#  #", "### ", "# # ", "#  #"},
	'S': {" ##", "#  ", " # ", "  #", "## "},
	'T': {"###", " # ", " # ", " # ", " # "},
	'U': {"# #", "# #", "# #", "# #", "###"},
	'V': {"# #", "# #", "# #", "# #", " # "},
	'W': {"#   #", "#   #", "# # #", "## ##", "#   #"},
	'X': {"# #", "# #", " # ", "# #", "# #"},
	'Y': {"# #", "# #", " # ", " # ", " # "},
	'Z': {"###", "  #", " # ", "#  ", "###"},
	' ': {"  ", "  ", "  ", "  ", "  "},
	':': {" ", "#", " ", "#", " "},
	'.': {" ", " ", " ", " ", "#"},
	',': {"  ", "  ", "  ", " #", "# "},
	';': {"  ", " #", "  ", " #", "# "},
	'’': {"#", "#", " ", " ", " "},
	'-': {"   ", "   ", "###", "   ", "   "},
	'–': {"   ", "   ", "###", "   ", "   "},
	'(': {" #", "# ", "# ", "# ", " #"},
	')': {"# ", " #", " #", " #", "# "},
	'?': {"## ", "  #", " # ", "   ", " # "},
	'!': {"#", "#", "#", " ", "#"},
	'“': {"# #", "# #", "   ", "   ", "   "},
	'”': {"# #", "# #", "   ", "   ", "   "},
	'*': {"   ", "# #", " # ", "# #", "   "},
	'&': {" #  ", "# # ", " #  ", "# ##", " ###"},
	'+': {"   ", " # ", "###", " # ", "   "},
	'%': {"# #", "  #", " # ", "#  ", "# #"},
	'/': {"  #", "  #", " # ", "#  ", "#  "},
}

// block is a letter in points at a scale; false for one that cannot be drawn.
func block(r rune, scale int) ([]string, bool) {
	switch {
	case r >= 'a' && r <= 'z':
		r += 'A' - 'a'
	case r == '\'':
		r = '’'
	case r == '"':
		r = '”'
	}
	if scale == little {
		if b := littleLetters[r]; b != nil {
			return b[:], true
		}
		return nil, false
	}
	if r >= '0' && r <= '9' {
		return pointFigures[r-'0'][:], true
	}
	if b := pointLetters()[r]; b != nil {
		return b[:], true
	}
	return nil, false
}

// letterLines is how many lines letters take at a scale.
func (b brush) letterLines(scale int) int {
	high, _ := b.cells(scale)
	if scale == little {
		high = (pointsLittle + 1) / 2
		if b.whole {
			high = pointsLittle
		}
	}
	return high
}

// textWidth is how many columns text takes in block letters at a scale,
// without a gap at its end; false where some of it cannot be drawn so.
func (brush) textWidth(text string, scale int) (int, bool) {
	n, each := 0, max(scale, 1)
	for _, r := range text {
		b, ok := block(r, scale)
		if !ok {
			return 0, false
		}
		n += (len(b[0]) + 1) * each
	}
	return max(n-each, 0), true
}

// text draws text that can be drawn: its lines from the top, all of one
// width.
func (b brush) text(text string, scale int) []string {
	lines, each := make([]string, b.letterLines(scale)), max(scale, 1)
	for y := range lines {
		var line strings.Builder
		first := true
		for _, r := range text {
			points, ok := block(r, scale)
			if !ok {
				continue
			}
			if !first {
				line.WriteString(strings.Repeat(" ", each))
			}
			first = false
			b.stroke(&line, points, y, each)
		}
		lines[y] = line.String()
	}
	return lines
}

// largest sets text as large as fits n lines of a width, in block letters; nil
// where none fit.
func (b brush) largest(ink role, text string, most, width, n int) (out [][]span) {
	if scale, rows, ok := b.scaleFor(text, most, width, n); ok {
		return b.set(ink, rows, scale)
	}
	return nil
}

// scaleFor is the largest scale at which text fits n lines of a width, and its
// rows; false where it fits at none.
func (b brush) scaleFor(text string, most, width, n int) (scale int, rows []string, ok bool) {
	for scale = most; scale >= little; scale-- {
		if rows, ok = b.fit(text, scale, width, n); ok {
			return scale, rows, true
		}
	}
	return 0, nil, false
}

// set draws rows of text with a free line between them.
func (b brush) set(ink role, rows []string, scale int) (out [][]span) {
	for i, r := range rows {
		if i > 0 {
			out = append(out, []span{{ink, ""}})
		}
		for _, l := range b.text(r, scale) {
			out = append(out, []span{{ink, l}})
		}
	}
	return out
}

// fit breaks text into rows of block letters; false where they do not fit so
// many lines.
func (b brush) fit(text string, scale, width, high int) (rows []string, ok bool) {
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
	return rows, len(rows)*(b.letterLines(scale)+1)-1 <= high
}
