package tui

import (
	"slices"
	"strings"
)

// placed is a button where it stands on the last line. Its key is named beside
// it where there is room, unless the key is the first letter of its name: then
// that letter stands out.
type placed struct {
	index  int // among the choices; -1 for a sign that more stand there
	x      int // its first column
	text   string
	keycap string
	letter bool
	lit    bool
}

// row is a line of buttons from the left of the window.
type row []placed

// buttonRow sets out the buttons of the moment. Where they do not all fit,
// the line begins so that the lit one is seen.
func (w *Walk) buttonRow() row {
	list := w.choices()
	lit := min(w.lit, len(list)-1)
	labels, letter := make([]string, len(list)), make([]bool, len(list))
	caps := make([]string, len(list))
	for i, c := range list {
		labels[i], caps[i] = c.label, w.named(c.key)
		letter[i] = w.cfg.Look.Colours > Plain && caps[i] == strings.ToLower(c.label[:1])
		if letter[i] {
			caps[i] = ""
		}
	}
	leaving := slices.IndexFunc(list, func(c choice) bool { return c.label == "Leave" })
	for _, withKeys := range []bool{true, false} {
		if !withKeys {
			caps = make([]string, len(list))
		}
		// The keys are named where the buttons up to leaving fit with them.
		r, ok := setButtons(labels, caps, lit, 0, w.width)
		if ok || !withKeys || leaving >= 0 && r.shows(leaving) && r.shows(lit) {
			for first := 1; !ok && first <= lit && !r.shows(lit); first++ {
				r, ok = setButtons(labels, caps, lit, first, w.width)
			}
			for i, p := range r {
				r[i].letter = p.index >= 0 && letter[p.index]
			}
			return r
		}
	}
	return nil
}

func (r row) shows(i int) bool {
	for _, p := range r {
		if p.index == i {
			return true
		}
	}
	return false
}

// setButtons sets buttons from the first on until the width is used up; false
// where some are left over.
func setButtons(labels, caps []string, lit, first, width int) (row, bool) {
	x := marginFor(width)
	end := width - x
	var r row
	if first > 0 {
		r = append(r, placed{index: -1, x: x, text: "‹"})
		x += 2
	}
	for i := first; i < len(labels); i++ {
		p := placed{index: i, x: x, text: " " + labels[i] + " ", keycap: caps[i], lit: i == lit}
		if p.lit {
			p.text = "[" + labels[i] + "]"
		}
		if x+p.cells() > end || i < len(labels)-1 && x+p.cells()+2 > end {
			return append(r, placed{index: -1, x: x, text: "›"}), false
		}
		r = append(r, p)
		x += p.cells() + 1
	}
	return r, true
}

func (p placed) cells() int {
	n := cells(p.text)
	if p.keycap != "" {
		n += cells(p.keycap) + 2
	}
	return n
}

func (r row) spans() []span {
	var out []span
	at := 0
	for _, p := range r {
		out = append(out, span{base, strings.Repeat(" ", max(p.x-at, 0))})
		role := button
		if p.lit {
			role = lit
		} else if p.index < 0 {
			role = edge
		}
		if p.letter && !p.lit {
			out = append(out, span{role, p.text[:1]}, span{letter, p.text[1:2]}, span{role, p.text[2:]})
		} else {
			out = append(out, span{role, p.text})
		}
		if p.keycap != "" {
			out = append(out, span{keycap, " " + p.keycap + " "})
		}
		at = p.x + p.cells()
	}
	return out
}

// buttonAt is the choice whose button is under a point of the window, -1
// where there is none.
func buttonAt(r row, x, y, height int) int {
	if y != height-1 {
		return -1
	}
	for _, p := range r {
		if p.index >= 0 && x >= p.x && x < p.x+p.cells() {
			return p.index
		}
	}
	return -1
}
