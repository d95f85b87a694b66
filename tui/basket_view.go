package tui

import (
	"fmt"
	"strings"
	"time"
)

// barWide is how many columns the bar of a thing's progress takes at most.
const barWide = 30

func (b *Basket) view() string {
	c := newCanvas(b.theme, b.width, b.height)
	m := span{base, strings.Repeat(" ", marginFor(b.width))}
	inner := b.width - 2*len(m.text)
	held := "nothing in it yet"
	if n := b.begun(); n > 0 {
		held = fmt.Sprintf("%d in progress", n)
	}
	if b.unsaved != nil {
		text := clip(" ✗ NOT SAVED: "+Clean(b.unsaved.Error()), b.width)
		c.line(span{alarm, text + strings.Repeat(" ", max(b.width-cells(text), 0))})
	} else {
		c.sides([]span{m, {strong, "tallyturn"}, {quiet, " · the basket"}}, []span{{quiet, held}, m})
	}
	c.blank(basketTop - 1)
	first, n := b.window()
	for i := first; i < first+n; i++ {
		for _, l := range b.item(i, inner) {
			c.line(append([]span{m}, clipSpans(l, inner)...)...)
		}
		c.blank(b.pace() - itemText)
	}
	for len(c.lines) < b.height-1 {
		c.line()
	}
	c.lines = c.lines[:max(b.height-1, 0)]
	note := span{quiet, "Enter takes the lit one up · ? keys · q leaves"}
	switch {
	case b.broken:
		note = span{alarm, "✗ " + b.note}
	case b.note != "":
		note = span{base, b.note}
	case b.opening:
		note = span{quiet, "Opening…"}
	}
	c.line(append([]span{m}, clipSpans([]span{note}, inner)...)...)
	return c.String()
}

// begun counts the things that are in progress.
func (b *Basket) begun() int {
	n := 0
	for _, it := range b.cfg.Items {
		if !it.Demo {
			n++
		}
	}
	return n
}

// item is the two lines of one thing.
func (b *Basket) item(i, width int) [itemText][]span {
	it := b.cfg.Items[i]
	number := fmt.Sprintf("%3d ", i+1)
	title, ink := " "+it.Title+" ", base
	if i == b.lit {
		title, ink = "["+it.Title+"]", hand
	}
	when := b.when(it)
	title = clip(title, max(width-len(number)-len(when)-2, 4))
	gap := max(width-len(number)-cells(title)-len(when), 1)
	bar := min(barWide, max(width-len(number)-30, 4))
	var full int
	if it.Total > 0 {
		full = int(float64(bar) * (float64(it.Done) / float64(it.Total)))
	}
	full = min(max(full, 0), bar)
	return [itemText][]span{
		{{keycap, number}, {ink, title}, {base, strings.Repeat(" ", gap)}, {quiet, when}},
		{{base, "     "}, {figure2, strings.Repeat("━", full)}, {edge, strings.Repeat("╌", bar-full)},
			{quiet, "  " + b.far(it)}},
	}
}

// far is how far a thing is.
func (b *Basket) far(it Item) string {
	if it.Total > 0 && it.Done >= it.Total {
		return "finished, " + count(it.Total, "stitch")
	}
	return fmt.Sprintf("%d of %s", it.Done, count(it.Total, "stitch"))
}

// when tells how long ago a thing was last worked on.
func (b *Basket) when(it Item) string {
	if it.Demo {
		return "to try"
	}
	if it.Touched.IsZero() {
		return "not begun"
	}
	switch ago := b.cfg.Now().Sub(it.Touched); {
	case ago < time.Minute:
		return "just now"
	case ago < time.Hour:
		return fmt.Sprintf("%d min ago", int(ago.Minutes()))
	case ago < 24*time.Hour:
		return fmt.Sprintf("%d h ago", int(ago.Hours()))
	}
	return it.Touched.Format("2 Jan 2006")
}
