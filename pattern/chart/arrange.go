package chart

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// margin is what is left free round an image and between what stands on it.
const margin = 1.0

// arrange puts charts one below the other: of each its title, its parts and
// its legend.
func arrange(charts []*Chart) (pages []page, size pt) {
	y := margin
	wide := 20.0
	for _, c := range charts {
		for i, t := range c.tiles {
			if c.tile > 0 && i != c.tile-1 {
				continue
			}
			wide = max(wide, t.max.x-t.min.x)
		}
	}
	wide = min(max(wide, 20), tileWide*1.2)
	put := func(g group, yarns []yarn) {
		b := g.box().grown(0.1)
		pages = append(pages, page{at: pt{margin + b.min.x, y}, window: b, groups: []group{g}, yarns: yarns})
		y += b.max.y - b.min.y + 0.6
		wide = max(wide, b.max.x)
	}
	for i, c := range charts {
		if i > 0 {
			y += 1.5
		}
		put(group{labels: []label{{text: c.heading(), size: 1, align: -1, bold: true}}}, nil)
		for k, t := range c.tiles {
			if c.tile > 0 && k != c.tile-1 {
				continue
			}
			if len(c.tiles) > 1 {
				put(group{labels: []label{{text: partOf(k, len(c.tiles)), size: 0.8, align: -1}}}, nil)
			}
			pages = append(pages, page{at: pt{margin, y}, window: t, groups: c.groups, yarns: c.yarns, clip: len(c.tiles) > 1})
			y += t.max.y - t.min.y + 0.6
		}
		if len(c.key) > 0 {
			put(drawLegend(c.key, c.notes, 0, 0, wide), c.yarns)
		}
	}
	return pages, pt{wide + 2*margin, y + margin}
}

// heading is the title of a chart and the terms of its legend.
func (c *Chart) heading() string {
	t := c.Title
	for i, g := range c.guests {
		switch {
		case i == 0:
			t += " with "
		case i == len(c.guests)-1:
			t += " and "
		default:
			t += ", "
		}
		t += g
	}
	in := "(" + c.Terms.String() + " terms)"
	if c.Both {
		in = "(" + c.Terms.String() + " and " + other(c.Terms).String() + " terms)"
	}
	if !strings.HasSuffix(strings.ToLower(t), strings.ToLower(in)) {
		t += " " + in
	}
	return t
}

// Reading tells how the chart is read.
func (c *Chart) Reading() string {
	switch {
	case c.flat:
		return "Drawn as seen from the right side. Read every row from its number: those numbered on the right from right to left, those on the left from left to right."
	case c.turns:
		return "Drawn as seen from the right side. Start in the middle and read every round from its number: against the clock, and with it where the wrong side faces you."
	}
	return "Drawn as seen from the right side. Start in the middle and read every round from its number, against the clock."
}

// other are the terms of the other side of the Atlantic.
func other(t stitch.Terms) stitch.Terms {
	if t == stitch.UK {
		return stitch.US
	}
	return stitch.UK
}

// across is a stitch's name in the other terms, in brackets behind a space; ""
// where the legend is in one, or where they call it alike.
func (f *figure) across(id stitch.ID, legs int) string {
	if !f.both {
		return ""
	}
	t := other(f.terms)
	name := id.Name(t)
	if name == "" || name == id.Name(f.terms) {
		return ""
	}
	if legs > 1 {
		name += itoa(legs) + "tog"
	}
	return " (" + t.String() + " " + name + ")"
}
