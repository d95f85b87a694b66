package layout

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern/gauge"
)

// inks are the colours of pieces: from a palette that is told apart with any
// colour vision (Okabe and Ito, 2002), darkened or lightened for a white page.
// Letters and names tell them apart without it.
var inks = [...]string{"#0072b2", "#d55e00", "#009e73", "#cc79a7", "#8a6d00", "#56b4e9"}

// SVG is the layout as a drawing to scale: a millimetre of the work is a
// millimetre of the page. Where rows are not too many each has its line; the
// line that two pieces share is drawn thick.
func (l *Layout) SVG(title string) string {
	legend := l.Legend()
	size := max(l.Max.X-l.Min.X, l.Max.Y-l.Min.Y)
	font := max(size/32, 2.2)
	margin := font * 1.5
	width := max(l.Max.X-l.Min.X, longest(legend)*font*0.56, float64(len([]rune(title)))*font*0.72)
	head := font * 3
	foot := font * (float64(len(legend))*1.5 + 3.5)
	w, h := width+2*margin, l.Max.Y-l.Min.Y+head+foot+2*margin

	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="sans-serif" font-size="%s">`+"\n", n(w), n(h), n(w), n(h), n(font))
	fmt.Fprintf(&b, "<title>%s</title>\n", esc(title))
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" fill="#ffffff"/>`+"\n")
	fmt.Fprintf(&b, `<text x="%s" y="%s" font-size="%s" fill="#111111">%s</text>`+"\n", n(margin), n(margin+font), n(font*1.3), esc(title))
	d := drawing{l: l, b: &b, line: size / 400, left: margin, top: margin + head, scale: 1, origin: Point{l.Min.X, l.Max.Y}}
	for i, p := range l.Pieces {
		d.piece(i, p)
	}
	for i, p := range l.Pieces {
		d.label(i, p, font)
	}
	y := margin + head + l.Max.Y - l.Min.Y + font*1.5
	y = d.bar(margin, y, font)
	for _, s := range legend {
		y += font * 1.5
		fmt.Fprintf(&b, `<text x="%s" y="%s" fill="#111111">%s</text>`+"\n", n(margin), n(y), esc(s))
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// drawing writes pieces where they are on the page.
type drawing struct {
	l         *Layout
	b         *strings.Builder
	line      float64
	scale     float64 // mm of the work to one of the page
	left, top float64 // where the origin stands on the page
	origin    Point
}

func (d *drawing) at(q Point) Point {
	return Point{d.left + (q.X-d.origin.X)/d.scale, d.top + (d.origin.Y-q.Y)/d.scale}
}

func (d *drawing) path(points []Point) string {
	if len(points) == 0 {
		return ""
	}
	var b strings.Builder
	for i, q := range points {
		r := d.at(q)
		b.WriteByte("LM"[btoi(i == 0)])
		b.WriteString(n(r.X) + " " + n(r.Y))
	}
	return b.String() + "Z"
}

func btoi(t bool) int {
	if t {
		return 1
	}
	return 0
}

// mostLines is the most rows of a piece that have their lines drawn.
const mostLines = 150

func (d *drawing) piece(i int, p *Piece) {
	if len(p.Outline) == 0 {
		return
	}
	ink := inks[i%len(inks)]
	fmt.Fprintf(d.b, `<path d="%s%s" fill="%s" fill-opacity="0.18" fill-rule="evenodd" stroke="%s" stroke-width="%s" stroke-linejoin="round"/>`+"\n", d.path(p.Placed()), d.path(p.PlacedHole()), ink, ink, n(2*d.line))
	if p.Proof.Len() <= mostLines {
		d.rows(p, ink)
	}
	if s := p.Seat; s != nil {
		host := d.l.Pieces[s.Host]
		a, b := d.at(host.Point(s.A)), d.at(host.Point(s.B))
		fmt.Fprintf(d.b, `<path d="M%s %sL%s %s" stroke="%s" stroke-width="%s" stroke-linecap="round"/>`+"\n", n(a.X), n(a.Y), n(b.X), n(b.Y), ink, n(5*d.line))
	}
}

// rows draws the top of each row but the last.
func (d *drawing) rows(p *Piece, ink string) {
	for _, b := range p.Bands {
		count := b.Row.Count()
		for k := 1; k <= count; k++ {
			at := b.From + (b.To-b.From)*float64(k)/float64(count)
			if b.To == p.Bands[len(p.Bands)-1].To && k == count {
				continue
			}
			switch p.Form {
			case Rows, Tube:
				q, r := d.at(p.Point(Point{b.Left, at})), d.at(p.Point(Point{b.Right, at}))
				fmt.Fprintf(d.b, `<path d="M%s %sL%s %s" stroke="%s" stroke-opacity="0.4" stroke-width="%s"/>`+"\n", n(q.X), n(q.Y), n(r.X), n(r.Y), ink, n(d.line))
			case Disc:
				if p.scaled(at) != nil {
					fmt.Fprintf(d.b, `<path d="%s" fill="none" stroke="%s" stroke-opacity="0.4" stroke-width="%s"/>`+"\n", d.path(p.place(p.scaled(at))), ink, n(d.line))
				}
			}
		}
	}
}

// scaled is the edge of a disc where its rounds reach so far out.
func (p *Piece) scaled(out float64) []Point {
	whole := p.Bands[len(p.Bands)-1].To
	low, high := bounds(p.Outline)
	straight := (high.X - low.X) - (high.Y - low.Y)
	if whole <= 0 || out <= 0 {
		return nil
	}
	points := make([]Point, len(p.Outline))
	for i, q := range p.Outline {
		x := q.X
		if straight > 1e-9 { // an oval: its straight part stays as long
			side := math.Copysign(straight/2, x)
			points[i] = Point{side + (x-side)*out/whole, q.Y * out / whole}
			continue
		}
		points[i] = Point{x * out / whole, q.Y * out / whole}
	}
	return points
}

// label sets the letter of a piece in its middle.
func (d *drawing) label(i int, p *Piece, font float64) {
	if len(p.Outline) == 0 {
		return
	}
	low, high := bounds(p.Placed())
	at := d.at(Point{(low.X + high.X) / 2, (low.Y + high.Y) / 2})
	if p.Seat != nil { // triangles are thin at their top
		at = d.at(p.Point(Point{0, p.Height / 3}))
	}
	f := min(font, (high.X-low.X)/d.scale/1.5, (high.Y-low.Y)/d.scale/1.1)
	fmt.Fprintf(d.b, `<text x="%s" y="%s" font-size="%s" text-anchor="middle" font-weight="bold" fill="#111111">%s</text>`+"\n", n(at.X), n(at.Y+f*0.35), n(f), Letter(i))
}

// bar draws a length to measure by, and gives where it ends.
func (d *drawing) bar(x, y, font float64) float64 {
	if d.l.Nominal {
		return y
	}
	unit, name := 10.0, "cm"
	if d.l.Gauge.Unit == gauge.Inches {
		unit, name = gauge.Inch, "in"
	}
	long := 1.0
	for _, k := range []float64{1, 2, 5, 10, 20, 50, 100} {
		if k*unit <= max(d.l.Max.X-d.l.Min.X, unit)/2 {
			long = k
		}
	}
	fmt.Fprintf(d.b, `<path d="M%s %sv%sh%sv%s" fill="none" stroke="#111111" stroke-width="%s"/>`+"\n", n(x), n(y), n(font*0.5), n(long*unit), n(-font*0.5), n(2*d.line))
	fmt.Fprintf(d.b, `<text x="%s" y="%s" fill="#111111">%s %s</text>`+"\n", n(x+long*unit+font*0.5), n(y+font*0.6), strconv.FormatFloat(long, 'f', -1, 64), name)
	return y + font
}

// n writes a number to the hundredth.
func n(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// esc makes text from outside only text: what XML does not allow is shown as a
// mark.
func esc(s string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r == 0xfffe || r == 0xffff {
			return '\ufffd'
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd")))
}

func longest(lines []string) float64 {
	most := 0
	for _, l := range lines {
		most = max(most, len([]rune(l)))
	}
	return float64(most)
}
