package layout

import (
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// rows draws a piece row over row. Each row lies where its stitches stand in
// the row below, and where that is not known over its middle.
func (p *Piece) rows(g gauge.Gauge, terms stitch.Terms, links []pattern.RowLinks) {
	widths := gauge.Widths(p.Proof)
	y, known := 0.0, false
	var left, right []Point
	for i, r := range p.Proof.Rows {
		w := widths[i] / g.Stitches.PerMM
		if widths[i] < 0 {
			p.Unsure = true
			if i > 0 {
				w = p.Bands[i-1].Right - p.Bands[i-1].Left
			} else {
				w = firstKnown(widths) / g.Stitches.PerMM
			}
		} else {
			known = true
		}
		h := g.Height(r, terms) / g.Rows.PerMM
		b := Band{Row: r, From: y, To: y + h*float64(r.Count())}
		p.lie(&b, i, w, linksOf(links, r.Index), linksOf(links, r.Index-1))
		p.Bands = append(p.Bands, b)
		if i == 0 {
			left, right = append(left, Point{b.Left, 0}), append(right, Point{b.Right, 0})
		}
		for _, at := range []float64{y + h, b.To} {
			if k := len(left) - 1; left[k] != (Point{b.Left, at}) {
				left, right = append(left, Point{b.Left, at}), append(right, Point{b.Right, at})
			}
		}
		y = b.To
		p.Slack = max(p.Slack, g.Stitches.Slack(max(widths[i], 0)))
	}
	if !known {
		p.Form = Unsized
		p.Bands = nil
		return
	}
	// its own 0, 0 is the middle of its base
	mid := (left[0].X + right[0].X) / 2
	for i := range left {
		left[i].X -= mid
		right[i].X -= mid
	}
	for i := range p.Bands {
		p.Bands[i].Left, p.Bands[i].Right, p.Bands[i].starts = p.Bands[i].Left-mid, p.Bands[i].Right-mid, p.Bands[i].starts-mid
	}
	p.Outline = append(p.Outline, left...)
	for i := len(right) - 1; i >= 0; i-- {
		p.Outline = append(p.Outline, right[i])
	}
	low, high := bounds(p.Outline)
	p.Width, p.Height = high.X-low.X, high.Y-low.Y
}

func firstKnown(widths []float64) float64 {
	for _, w := range widths {
		if w >= 0 {
			return w
		}
	}
	return 0
}

// linksOf is what the row with an index makes; nil where that is not known.
func linksOf(links []pattern.RowLinks, row int) *pattern.RowLinks {
	for i := range links {
		if l := &links[i]; l.First <= row && row <= l.Last {
			if l.Known {
				return l
			}
			return nil
		}
	}
	return nil
}

// lie finds where the ends of a row are.
func (p *Piece) lie(b *Band, i int, width float64, now, below *pattern.RowLinks) {
	if i == 0 {
		b.dir = -1
		if b.Row.Side == pattern.WrongSide {
			b.dir = 1 // drawn from the right side
		}
		b.put(-b.dir*width/2, width)
		return
	}
	under := &p.Bands[i-1]
	turned := now == nil || now.Turned
	b.dir = under.dir
	if turned && under.Row.Count()%2 == 0 {
		b.dir = -b.dir // several rows alike turn among themselves
	}
	if turned {
		b.dir = -b.dir
	}
	middle := (under.Left + under.Right) / 2
	start := middle - b.dir*width/2
	if now != nil && below != nil {
		if off, ok := drift(now, below, width, under); ok {
			start = off(b.dir)
		}
	}
	b.put(start, width)
}

// put sets a row's first stitch and ends.
func (b *Band) put(start, width float64) {
	b.starts = start
	end := start + b.dir*width
	b.Left, b.Right = min(start, end), max(start, end)
}

// drift gives where a row begins if its stitches are to stand, in the mean,
// over those that they are worked into.
func drift(now, below *pattern.RowLinks, width float64, under *Band) (start func(dir float64) float64, ok bool) {
	at, whole := places(now.Made)
	base, all := places(below.Made)
	if whole == 0 || all == 0 {
		return nil, false
	}
	own, there, n := 0.0, 0.0, 0.0
	for k, l := range now.Made {
		for _, s := range l.Bases {
			if s.Kind != pattern.BaseRow || s.At >= len(base) || s.At < 0 {
				continue
			}
			own += at[k] / whole * width
			there += under.starts + under.dir*base[s.At]/all*(under.Right-under.Left)
			n++
		}
	}
	if n == 0 {
		return nil, false
	}
	return func(dir float64) float64 { return there/n - dir*own/n }, true
}

// places is how far along its row the middle of each place lies, in stitches,
// and how long the row is.
func places(made []pattern.Link) (at []float64, whole float64) {
	at = make([]float64, len(made))
	for i, l := range made {
		w := 1.0
		switch l.Kind {
		case pattern.LinkSpace:
			w = float64(l.Chains)
		case pattern.LinkPicot:
			w = 0
		}
		if l.Kind == pattern.LinkStitch && l.Stitch == stitch.Slip {
			w = 0
		}
		at[i] = whole + w/2
		whole += w
	}
	return at, whole
}
