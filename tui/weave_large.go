package tui

import "crochet/tallyturn/pattern"

// In a very large window a stitch of the weave is three columns wide and four
// lines high, to be told from across the room.
const (
	largeSignWide  = 3
	largeSignHigh  = 4
	largeWovenTall = 2*largeSignHigh + 4 // bracket, joins, ruler, colours
	leastPitch     = largeSignWide + 1
	largestPitch   = 8

	// leastBeside is how many lines must be left over beside it: two rows of
	// the largest letters with what stands around them matter more.
	leastBeside = 17
)

// largeSigns are the signs, from the top.
var largeSigns = map[sign][largeSignHigh]string{
	{stem: '+'}: {"   ", " │ ", "─┼─", " │ "},
	{'┬', '│'}:  {"─┬─", " │ ", " │ ", " │ "},
	{'┬', '┼'}:  {"─┬─", " │ ", "─┼─", " │ "},
	{'┬', '╪'}:  {"─┬─", "─┼─", "─┼─", " │ "},
	{'┬', '◊'}:  {"─┬─", "╱│╲", "╲│╱", " │ "},
	{stem: 'o'}: {"   ", "   ", "╭─╮", "╰─╯"},
	{stem: 'O'}: {"   ", "╭─╮", "│ │", "╰─╯"},
	{stem: '•'}: {"   ", "   ", "   ", " ● "},
	{stem: '∙'}: {"   ", "   ", "   ", " ∙ "},
}

// layLarge sets a weave into a window in large signs; false where the row has
// no room for them, unless it is too long to be seen whole in any.
func (w *weave) layLarge(width int, done, upto int64) (woven, bool) {
	v := w.lay(width, done, upto)
	room := v.width / max(w.places, 1)
	if room < leastPitch && w.places*smallPitch <= v.width {
		return woven{}, false
	}
	v.pitch = min(max(room, leastPitch), largestPitch)
	v.scroll()
	return v, true
}

// drawLarge gives the lines of the weave in large signs.
func (v woven) drawLarge(here pattern.Here, from int64) [][]span {
	line := func() cellLine { return newCellLine(v.width) }
	bracket, joins, ruler, colours := line(), line(), line(), line()
	var row, below [largeSignHigh]cellLine
	for y := range largeSignHigh {
		row[y], below[y] = line(), line()
	}
	coloured := false
	for _, t := range v.threads {
		x, ink, named := v.place(t, bracket, colours)
		coloured = coloured || named
		t.sign.putLarge(row[:], x, ink)
	}
	v.brackets(bracket, here, from)
	v.join(joins)
	for _, t := range v.below {
		t.sign.putLarge(below[:], v.column(t.x), t.yarn)
	}
	// What stands in a stitch goes down to it.
	for _, t := range v.threads {
		if t.nth < 0 || t.nth > v.done {
			continue
		}
		for _, f := range t.feet {
			x := v.column(v.below[f].x)
			for y := 0; y < largeSignHigh && x >= 0 && x < v.width && below[y].runes[x] == ' '; y++ {
				if top := v.below[f].sign.top(); y < top {
					below[y].put(x, '│', edge)
				}
			}
		}
	}
	v.rule(ruler)
	lines := append([]cellLine{bracket}, row[:]...)
	lines = append(append(append(lines, joins), below[:]...), ruler)
	if coloured {
		lines = append(lines, colours)
	}
	return v.framed(lines, 2)
}

// putLarge draws a sign with its middle in a column.
func (s sign) putLarge(lines []cellLine, x int, ink role) {
	for y, row := range largeSigns[s] {
		at := x - largeSignWide/2
		for _, r := range row {
			if r != ' ' || ink == markHand { // the one in hand is lit all over
				lines[y].put(at, r, ink)
			}
			at++
		}
	}
}

// top is the first line of a large sign that holds anything.
func (s sign) top() (y int) {
	for y < largeSignHigh && largeSigns[s][y] == "   " {
		y++
	}
	return y
}
