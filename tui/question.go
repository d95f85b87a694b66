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
			out = append(out, foldSpans([]span{{strong, fmt.Sprintf("The row comes to %d. You count ", f.sc.total)}, box}, width)...)
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
		out = append(out, f.bar(n-f.sc.total, fmt.Sprintf("you count %d, the row comes to %d", n, f.sc.total), width)...)
		if len(f.w.state.CouldBe(f.sc.total, n)) > 0 {
			add(base, Clean(f.w.state.Difference(f.sc.total, n))+".")
		}
		hint := "Enter carries on with yours, %s finds the slip, %s goes back, digits count again."
		if width < 50 {
			hint = "Enter carries on, %s finds the slip, %s goes back."
		}
		add(base, fmt.Sprintf(hint, f.w.named(keyHunt), f.w.named(keyReturn)))
	case counting:
		out = append(out, foldSpans([]span{{strong, fmt.Sprintf("The tally is %d. On the hook are ", f.sc.done)}, box}, width)...)
		add(base, "Space takes it, digits give another, Esc closes this.")
	case going:
		out = append(out, []span{{strong, "Go to stitch "}, box})
		add(base, fmt.Sprintf("Enter goes there, Esc stays, %s makes it the stride.", f.w.named(keyStride)))
	default:
		return f.liveQuestion(width)
	}
	return out
}

// bar tells of a difference so that it is seen from afar.
func (f *frame) bar(difference int64, words string, width int) (out [][]span) {
	flag := fmt.Sprintf(" ✗ %s ✗  %s ", strings.ToUpper(overOrShort(difference)), words)
	bar := fold(alarm, flag, width-2)
	if f.height >= 20 {
		bar = append(append([][]span{nil}, bar...), nil)
	}
	for _, l := range bar {
		rest := strings.Repeat(" ", max(width-1-spanCells(l), 0))
		out = append(out, append(append([]span{{alarm, " "}}, l...), span{alarm, rest}))
	}
	return out
}
