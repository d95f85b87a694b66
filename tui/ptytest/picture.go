package ptytest

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"strings"
)

// The size of a cell in a picture, in px.
const (
	cellWide = 9
	cellHigh = 18
)

// bold is the bit of a cell's attributes that says so (SGR 1).
const bold = 1

// Picture is the screen as an SVG: each run of cells of one look is a rectangle
// and a text stretched to the grid; half blocks and the dots of Braille are drawn, so
// that no font can set them apart. The same screen gives the same bytes.
func (t *Terminal) Picture() string { return t.picture("#dcd8cd", "#10181f") }

// LightPicture is Picture for a terminal whose ground is light.
func (t *Terminal) LightPicture() string { return t.picture("#23282d", "#fcf7ee") }

// picture draws cells of no colour of their own in ink on ground.
func (t *Terminal) picture(ink, ground string) string {
	t.mu.Lock()
	defer t.mu.Unlock()
	w, h := t.screen.Width(), t.screen.Height()
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" font-family="'DejaVu Sans Mono','Menlo','Consolas',monospace" font-size="15" xml:space="preserve">`+"\n",
		w*cellWide, h*cellHigh, w*cellWide, h*cellHigh)
	for y := range h {
		for x := 0; x < w; {
			from, text := x, ""
			first := t.screen.CellAt(x, y)
			for x < w {
				c := t.screen.CellAt(x, y)
				if c == nil || first == nil || !c.Style.Equal(&first.Style) {
					break
				}
				if c.Width == 0 || c.Content == "" {
					text += " "
					x++
					continue
				}
				text += c.Content
				x += c.Width
			}
			if x == from {
				x++
				continue
			}
			look := run{x: from * cellWide, y: y * cellHigh, cells: x - from, text: text,
				fg: hex(first.Style.Fg, ink), bg: hex(first.Style.Bg, ground), bold: first.Style.Attrs&bold != 0}
			look.draw(&b)
		}
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// run is some cells of one look.
type run struct {
	x, y, cells int
	text        string
	fg, bg      string
	bold        bool
}

func (r run) draw(b *strings.Builder) {
	fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", r.x, r.y, r.cells*cellWide, cellHigh, r.bg)
	if strings.TrimSpace(r.text) == "" {
		return
	}
	var letters strings.Builder
	var dots strings.Builder
	x := r.x
	blocks := true
	for _, c := range r.text {
		top, high := 0, 0
		switch c {
		case '█':
			high = cellHigh
		case '▀':
			high = cellHigh / 2
		case '▄':
			top, high = cellHigh/2, cellHigh/2
		}
		if high > 0 {
			fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", x, r.y+top, cellWide, high, r.fg)
			c = ' '
		}
		if c > 0x2800 && c <= 0x28ff {
			brailleDots(&dots, c, x, r.y)
			c = ' '
		}
		blocks = blocks && c == ' '
		letters.WriteRune(c)
		x += cellWide
	}
	if dots.Len() > 0 {
		fmt.Fprintf(b, `<path fill="%s" d="%s"/>`+"\n", r.fg, dots.String())
	}
	if blocks {
		return
	}
	weight := ""
	if r.bold {
		weight = ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" textLength="%d" fill="%s"%s>`, r.x, r.y+cellHigh-4, r.cells*cellWide, r.fg, weight)
	_ = xml.EscapeText(b, []byte(letters.String())) // a builder takes everything
	b.WriteString("</text>\n")
}

// brailleDots draws the dots of a cell.
func brailleDots(b *strings.Builder, c rune, x, y int) {
	for i, bit := range [8]rune{0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80} { // from left to right, line by line
		if (c-0x2800)&bit != 0 {
			fmt.Fprintf(b, "M%d %dh2v2h-2z", x+1+4*(i%2), y+2+4*(i/2))
		}
	}
}

func hex(c color.Color, otherwise string) string {
	if c == nil {
		return otherwise
	}
	r, g, bl, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, bl>>8)
}
