package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// carry is what follows from the difference that is carried, or would be.
func (w *Walk) carry() *pattern.Carried {
	if w.before == differing {
		if n, err := w.entry.number(); err == nil {
			return w.state.IfCarried(n)
		}
		return nil
	}
	return w.state.Carried()
}

// showFollowing shows what follows from a difference.
func (w *Walk) showFollowing() {
	was, entry := w.mode, w.entry
	w.before = was
	if w.carry() == nil {
		w.note = "No difference is carried that anything would follow from."
		return
	}
	w.enter(following)
	w.before, w.entry = was, entry
	w.still = nil
	w.tellMore()
}

// closeFollowing goes back to where it was asked.
func (w *Walk) closeFollowing() {
	w.enter(w.before)
	w.still = nil
}

// follow tells what follows.
func (f *frame) follow(width int) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	c := f.w.carry()
	if c == nil {
		return nil
	}
	add(strong, "What follows from the difference:")
	if m := c.Mend; m != nil {
		what := "add " + count(m.By, "stitch")
		if m.By < 0 {
			what = "leave out " + count(-m.By, "stitch")
		}
		add(good, fmt.Sprintf("To come right again, %s in row %d.", what, m.Row+1))
	}
	if len(c.Rows) == 0 && len(c.Seats) == 0 {
		add(base, "Every row after it comes out as the pattern has it.")
	}
	for _, r := range c.Rows {
		rows := fmt.Sprintf("row %d", r.First+1)
		if r.Last > r.First {
			rows = fmt.Sprintf("rows %d-%d", r.First+1, r.Last+1)
		}
		words := fmt.Sprintf("%s: %d instead of %d", rows, r.Now, r.Was)
		switch {
		case r.Why != "":
			add(lead, fmt.Sprintf("✗ %s does not work: %s", rows, Clean(r.Why)))
			continue
		case r.Now < 0 || r.Was < 0:
			words = rows + ": nobody knows the number"
		}
		add(base, "✓ "+words)
	}
	for _, s := range c.Seats {
		name := Clean(s.Piece)
		if name == "" {
			name = "the piece on it"
		}
		if s.Why != "" {
			add(lead, fmt.Sprintf("✗ %s on row %d does not fit: %s", name, s.Row, Clean(s.Why)))
			continue
		}
		off := "as far from the middle as before"
		if s.Half != 0 {
			off = fmt.Sprintf("%s off where it was", halfStitches(s.Half))
		}
		add(accent, fmt.Sprintf("%s on row %d: %d before it, %d after; %s", name, s.Row, s.Before, s.After, off))
	}
	return out
}

// halfStitches puts half stitches in words.
func halfStitches(n int64) string {
	n = max(n, -n)
	if n%2 == 0 {
		return count(n/2, "stitch")
	}
	if n == 1 {
		return "half a stitch"
	}
	return fmt.Sprintf("%d and a half stitches", n/2)
}

// carriedNote is what a maker is told once she carries on.
func carriedNote(s counter.State) string {
	c := s.Carried()
	if c == nil {
		return ""
	}
	bad := 0
	for _, r := range c.Rows {
		if r.Why != "" {
			bad += r.Last - r.First + 1
		}
	}
	words := "All rows after it work."
	if bad > 0 {
		words = count(int64(bad), "row") + " after it will not work."
	}
	if m := c.Mend; m != nil && m.By > 0 {
		words += fmt.Sprintf(" Add %d in row %d to come right.", m.By, m.Row+1)
	} else if m != nil {
		words += fmt.Sprintf(" Leave out %d in row %d to come right.", -m.By, m.Row+1)
	}
	return " " + words + " f tells more."
}
