package tui

import (
	"fmt"
	"strings"
)

// question is what is being asked, where the row's words stand otherwise.
func (f *frame) question(width int) [][]span {
	box := span{hand, handOpen + f.w.entry.String() + handClose}
	var out [][]span
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	switch f.w.mode {
	case asking:
		if f.sc.known {
			out = append(out, []span{{strong, fmt.Sprintf("The row comes to %d. You count ", f.sc.total)}, box})
		} else {
			out = append(out, []span{{strong, fmt.Sprintf("%d tapped. You count ", f.sc.done)}, box})
		}
		add(base, "Space takes it, digits give another, Backspace goes back.")
		if f.sc.closing != "" {
			add(accent, "To close the row: "+f.sc.closing)
		}
		for _, n := range f.sc.ending {
			add(accent, "After it: "+n)
		}
	case differing:
		n, _ := f.w.entry.number()
		flag := fmt.Sprintf(" ✗ %s ✗  you count %d, the row comes to %d ",
			strings.ToUpper(overOrShort(n-f.sc.total)), n, f.sc.total)
		bar := fold(alarm, flag, width-2)
		if f.height >= 20 { // room to be seen from afar
			bar = append(append([][]span{nil}, bar...), nil)
		}
		for _, l := range bar {
			rest := strings.Repeat(" ", max(width-1-spanCells(l), 0))
			out = append(out, append(append([]span{{alarm, " "}}, l...), span{alarm, rest}))
		}
		add(base, "Enter carries on with yours, Backspace goes back, digits count again.")
	case counting:
		out = append(out, []span{{strong, fmt.Sprintf("The tally is %d. On the hook are ", f.sc.done)}, box})
		add(base, "Space takes it, digits give another, Esc closes this.")
	case going:
		out = append(out, []span{{strong, "Go to stitch "}, box})
		add(base, "Enter goes there, Esc stays.")
	}
	return out
}
