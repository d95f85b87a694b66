package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crochet/tallyturn/pattern/gauge"
)

// scales are those that a drawing is printed to: so many mm of the work to one
// on the page.
var scales = [...]float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 250, 300, 400, 500, 750, 1000}

// Lengths on a printed page, in mm.
const (
	pageGap  = 6.0
	pageFoot = 12.0 // the scale stands there
	pageEdge = 1.0
	pageType = 3.6
)

// tooSmall is how much smaller than it could be a piece may be drawn for the
// sake of having all of them on one page.
const tooSmall = 3

// Pages is the layout for pages of paper, an SVG drawing for each, at most so
// many mm wide and high. All have one scale, a round one, with a length to
// measure by. Pieces that join stay together; nothing is cut in two. There are
// none where there is nothing to draw.
func (l *Layout) Pages(width, height float64) []string {
	groups := l.groups()
	if len(groups) == 0 {
		return nil
	}
	inWidth, inHeight := width-2*pageEdge, height-pageFoot-2*pageEdge
	most := 0.0
	for _, g := range groups {
		most = max(most, (g.high.X-g.low.X)/inWidth, (g.high.Y-g.low.Y)/inHeight)
	}
	one := most
	for _, s := range from(most) {
		if one = s; shelve(groups, s, inWidth, inHeight) == 1 {
			break
		}
	}
	scale := one
	if alone := from(most)[0]; one > tooSmall*alone {
		for _, s := range from(most) {
			// the fewest pages on which they are not too small
			if s <= tooSmall*alone {
				scale = s
			}
		}
	}
	pages := shelve(groups, scale, inWidth, inHeight)
	out := make([]string, pages)
	for k := range out {
		out[k] = l.page(groups, k, scale, width)
	}
	return out
}

// from are the scales from one on at which so much fits.
func from(least float64) []float64 {
	for i, s := range scales {
		if s >= least {
			return scales[i:]
		}
	}
	return []float64{math.Ceil(least/1000) * 1000}
}

// group is pieces that join, drawn as one.
type group struct {
	pieces    []int
	low, high Point // in the layout
	page      int
	at        Point // its upper left corner on the page, Y running down
}

func (l *Layout) groups() []*group {
	of := make([]*group, len(l.Pieces))
	var out []*group
	for i, p := range l.Pieces {
		if p.Seat != nil {
			of[i] = of[p.Seat.Host]
		}
		if of[i] == nil {
			of[i] = &group{low: Point{math.Inf(1), math.Inf(1)}, high: Point{math.Inf(-1), math.Inf(-1)}}
			out = append(out, of[i])
		}
		if len(p.Outline) == 0 {
			continue
		}
		g := of[i]
		low, high := bounds(p.Placed())
		g.pieces = append(g.pieces, i)
		g.low = Point{min(g.low.X, low.X), min(g.low.Y, low.Y)}
		g.high = Point{max(g.high.X, high.X), max(g.high.Y, high.Y)}
	}
	return slices.DeleteFunc(out, func(g *group) bool { return len(g.pieces) == 0 })
}

// shelve sets groups side by side on pages, and gives how many they take.
func shelve(groups []*group, scale, width, height float64) int {
	page, x, y, deep := 0, 0.0, 0.0, 0.0
	for _, g := range groups {
		w, h := (g.high.X-g.low.X)/scale, (g.high.Y-g.low.Y)/scale
		if x > 0 && x+w > width+1e-6 {
			x, y, deep = 0, y+deep+pageGap, 0
		}
		if y > 0 && y+h > height+1e-6 {
			page, x, y, deep = page+1, 0, 0, 0
		}
		g.page, g.at = page, Point{x, y}
		x += w + pageGap
		deep = max(deep, h)
	}
	return page + 1
}

// page draws one page.
func (l *Layout) page(groups []*group, page int, scale, width float64) string {
	deep := 0.0
	for _, g := range groups {
		if g.page == page {
			deep = max(deep, g.at.Y+(g.high.Y-g.low.Y)/scale)
		}
	}
	h := deep + pageFoot + 2*pageEdge
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="sans-serif" font-size="%s">`+"\n", n(width), n(h), n(width), n(h), n(pageType))
	b.WriteString(`<rect width="100%" height="100%" fill="#ffffff"/>` + "\n")
	for _, g := range groups {
		if g.page != page {
			continue
		}
		d := drawing{l: l, b: &b, line: 0.15, scale: scale, left: pageEdge + g.at.X, top: pageEdge + g.at.Y, origin: Point{g.low.X, g.high.Y}}
		for _, i := range g.pieces {
			d.piece(i, l.Pieces[i])
		}
		for _, i := range g.pieces {
			d.label(i, l.Pieces[i], pageType)
		}
	}
	if !l.Nominal {
		d := drawing{l: l, b: &b, line: 0.15}
		l.bar(&d, deep+pageEdge+5, scale, width)
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// bar draws a length to measure by and names the scale.
func (l *Layout) bar(d *drawing, y, scale, width float64) {
	unit, name := 10.0, "cm"
	if l.Gauge.Unit == gauge.Inches {
		unit, name = gauge.Inch, "in"
	}
	long := 1.0
	for _, k := range []float64{1, 2, 5, 10, 20, 50, 100} {
		if k*unit/scale <= width/3 {
			long = k
		}
	}
	said := "full size"
	if scale != 1 {
		said = "scale 1:" + n(scale)
	}
	length := long * unit / scale
	fmt.Fprintf(d.b, `<path d="M%s %sv%sh%sv%s" fill="none" stroke="#111111" stroke-width="0.3"/>`+"\n", n(pageEdge), n(y), n(pageType*0.5), n(length), n(-pageType*0.5))
	fmt.Fprintf(d.b, `<text x="%s" y="%s" fill="#111111">%s %s, %s</text>`+"\n", n(pageEdge+length+2), n(y+pageType*0.6), n(long), name, said)
}
