package chart

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"

	"crochet/tallyturn/pattern"
)

// SVG draws a piece of a proof, counted from 0, as an SVG image that stands
// alone: with a ground of its own, without scripts, styles or references.
func SVG(proof *pattern.Proof, piece int, o Options) ([]byte, error) {
	c, err := Draw(proof, piece, o)
	if err != nil {
		return nil, err
	}
	return c.SVG(), nil
}

// dots is how many units of the image's own one unit of the drawing takes.
const dots = 20.0

// SVG is the chart as an SVG image.
func (c *Chart) SVG() []byte { return Join(c) }

// Join writes several charts into one SVG image, one below the other.
func Join(charts ...*Chart) []byte {
	pages, size := arrange(charts)
	var b bytes.Buffer
	w, h := num(size.x*dots), num(size.y*dots)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" role="img" font-family="DejaVu Sans, Verdana, sans-serif">`+"\n", w, h, w, h)
	fmt.Fprintf(&b, "<title>%s</title>\n", escape(docTitle(charts)))
	fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="%s"/>`+"\n", w, h, paper)
	for i := range pages {
		pages[i].svg(&b)
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func docTitle(charts []*Chart) string {
	if len(charts) == 0 {
		return "Chart"
	}
	t := "Chart of " + charts[0].Title
	for _, c := range charts[1:] {
		t += ", " + c.Title
	}
	return t
}

// page is a window on a drawing, put somewhere on the image.
type page struct {
	at     pt  // its upper left corner on the image, y running down
	window box // what it shows of the drawing
	groups []group
	yarns  []yarn
	clip   bool
}

// x and y are a point of the drawing on the image.
func (p *page) place(q pt) (x, y float64) {
	return (p.at.x + q.x - p.window.min.x) * dots, (p.at.y + p.window.max.y - q.y) * dots
}

func (p *page) svg(b *bytes.Buffer) {
	if p.clip {
		// an image within the image shows no more than its window, and needs
		// no name that another image on the same page could have too
		x, y := p.place(pt{p.window.min.x, p.window.max.y})
		w, h := num((p.window.max.x-p.window.min.x)*dots), num((p.window.max.y-p.window.min.y)*dots)
		fmt.Fprintf(b, `<svg x="%s" y="%s" width="%s" height="%s" viewBox="%[1]s %[2]s %[3]s %[4]s" overflow="hidden">`+"\n", num(x), num(y), w, h)
	}
	fmt.Fprintf(b, `<g fill="none" stroke="%s" stroke-width="2.2" stroke-linecap="round" stroke-linejoin="round">`+"\n", ink)
	for i := range p.groups {
		p.group(b, &p.groups[i])
	}
	b.WriteString("</g>\n")
	if p.clip {
		b.WriteString("</svg>\n")
	}
}

// group writes a group, all that is painted alike as one path.
func (p *page) group(b *bytes.Buffer, g *group) {
	var body bytes.Buffer
	for _, pt := range paints {
		yarns := map[int]bool{}
		for _, s := range g.shapes {
			if s.paint != pt || pt == tint && yarns[s.yarn] {
				continue
			}
			yarns[s.yarn] = true
			d := p.pathOf(g, pt, s.yarn)
			if d == "" {
				break
			}
			fmt.Fprintf(&body, `<path%s d="%s"/>`+"\n", p.look(pt, s.yarn), d)
			if pt != tint {
				break
			}
		}
	}
	for _, l := range g.labels {
		if p.clip && !p.window.meets(l.box()) {
			continue
		}
		x, y := p.place(l.at)
		fmt.Fprintf(&body, `<text x="%s" y="%s" font-size="%s"%s%s fill="%s" stroke="none">%s</text>`+"\n", num(x), num(y), num(l.size*dots),
			[]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[l.align+1], map[bool]string{true: ` font-weight="bold"`}[l.bold], ink, escape(l.text))
	}
	if body.Len() == 0 {
		return
	}
	b.WriteString("<g>")
	if g.title != "" {
		fmt.Fprintf(b, "<title>%s</title>", escape(g.title))
	}
	b.WriteString("\n")
	b.Write(body.Bytes())
	b.WriteString("</g>\n")
}

// look is how a paint is written.
func (p *page) look(k paint, yarn int) string {
	wide := fmt.Sprintf(` stroke-width="%s"`, num(k.lineWide()))
	switch k {
	case tint:
		return fmt.Sprintf(` fill="%s" stroke="%[1]s"`, p.yarns[yarn].ground()) + wide
	case hatch, spot:
		return fmt.Sprintf(` stroke="%s"`, grey) + wide
	case dotted:
		return fmt.Sprintf(` stroke="%s" stroke-dasharray="0 4"`, grey) + wide
	case fine:
		return wide
	case open:
		return fmt.Sprintf(` fill="%s"`, paper)
	case solid:
		return fmt.Sprintf(` fill="%s" stroke="none"`, ink)
	}
	return ""
}

func (c rgb) String() string { return fmt.Sprintf("#%02x%02x%02x", c.r, c.g, c.b) }

// pathOf joins the paths of a paint that show in the window.
func (p *page) pathOf(g *group, k paint, yarn int) string {
	var b []byte
	for _, s := range g.shapes {
		if s.paint != k || k == tint && s.yarn != yarn || p.clip && !p.window.meets(s.path.box().grown(0.1)) {
			continue
		}
		for _, e := range s.path {
			b = append(b, e.op)
			n := map[byte]int{'M': 1, 'L': 1, 'C': 3}[e.op]
			for i := range n {
				x, y := p.place(e.p[i])
				if i > 0 {
					b = append(b, ' ')
				}
				b = append(b, num(x)...)
				b = append(b, ' ')
				b = append(b, num(y)...)
			}
		}
	}
	return string(b)
}

// num writes a length of the image with one decimal at most.
func num(f float64) string {
	s := strconv.FormatFloat(f, 'f', 1, 64)
	if n := len(s); s[n-1] == '0' {
		s = s[:n-2]
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func escape(s string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(clean(s)))
	return b.String()
}
