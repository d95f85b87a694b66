package chart

import (
	"math"

	"crochet/tallyturn/pattern"
)

// rowPitch is how many lines a row of a ripple lies above the one below it, and
// flight how many stitches stand on one line as it goes up or down: so many that
// a row is seen as a wave and the waves do not run into each other.
const (
	rowPitch = 3
	flight   = 2
)

// ripple writes a piece that goes up and down as its rows lie, each stitch on the
// line that it comes to; nil where it is no ripple, or a screen has no room.
func (f *figure) ripple(ls *letters, s *seen) []string {
	if len(f.rows) == 0 || f.rows[0].l.g.ridge == nil {
		return nil
	}
	l := f.rows[0].l
	g := l.g.ridge
	for i, r := range f.rows {
		if r.l != l || r.earlier != nil || i >= len(g.rows) || g.rows[i] == nil {
			return nil
		}
	}
	side := 1
	if l.g.mirror {
		side = -1
	}
	for each := perUnit; each > 0; each-- {
		w := newWave(g, each)
		c := newCells()
		*s = seen{}
		if g.chain != nil && len(l.chain) > 0 {
			s.chain = true
			for i := range l.chain {
				x, y := w.at(g.chain, float64(i))
				c.put(side*x, -(y - rowPitch), "o")
			}
		}
		for n := range f.rows {
			f.rippleRow(c, w, n, side, ls, s)
		}
		if !c.clash && c.wide() <= mostColumns {
			f.noteYarns("Row")
			return c.lines(2)
		}
	}
	return nil
}

func (f *figure) rippleRow(c *sheetOfCells, w *wave, n, side int, ls *letters, s *seen) {
	r := &f.rows[n]
	at := w.g.rows[n]
	pos := (&ordering{v: r.v}).positions()
	lo, hi := [2]int{math.MaxInt}, [2]int{math.MinInt} // the ends of the row
	for i := range r.v.made {
		m := &r.v.made[i]
		x, y := w.at(at, pos[i])
		x, y = side*x, -(y + n*rowPitch)
		word := ""
		switch {
		case m.link.Kind == pattern.LinkPicot:
			s.picot = true
			c.put(x, y-1, "^")
			continue
		case m.link.Kind == pattern.LinkSpace && m.link.Chains == 1:
			s.chain = true
			word = "o"
		case m.link.Kind == pattern.LinkSpace:
			s.count = m.link.Chains
			word = itoa(m.link.Chains) + "o"
			x -= len(word) / 2
		case m.link.Turn:
			s.tall = true
			word = "8"
		default:
			word = ls.at(kindOf(m))
		}
		c.put(x, y, word)
		if x < lo[0] {
			lo = [2]int{x, y}
		}
		if x > hi[0] {
			hi = [2]int{x, y}
		}
	}
	mark := ""
	if r.links.Start > 0 {
		s.chain = true
		mark = "ooo"[:min(r.links.Start, 3)]
	}
	if r.v.dir*float64(side) < 0 {
		if mark != "" {
			c.put(hi[0]+2, hi[1], mark)
			hi[0] += len(mark) + 1
		}
		c.put(hi[0]+2, hi[1], r.number)
		return
	}
	if mark != "" {
		c.put(lo[0]-1-len(mark), lo[1], mark)
		lo[0] -= len(mark) + 1
	}
	c.put(lo[0]-1-len(r.number), lo[1], r.number)
}

// wave is the line of a ripple on a grid: the cells of its peaks and valleys.
type wave struct {
	g      *ridge
	each   int // columns that a stitch has
	flight int // stitches that stand on one line
	x, y   []int
}

func newWave(g *ridge, each int) *wave {
	w := &wave{g: g, each: each, flight: flight, x: []int{0}, y: []int{0}}
	if g.soft {
		w.flight *= 2
	}
	for k := 1; k < len(g.t); k++ {
		wide := 1.0
		for _, r := range append([][]float64{g.chain}, g.rows...) {
			if r != nil {
				wide = math.Max(wide, r[k]-r[k-1])
			}
		}
		n := int(math.Ceil(wide))
		up := w.above(float64(n))
		if g.peak(k - 1) {
			up = -up
		}
		w.x = append(w.x, w.x[k-1]+n*each)
		w.y = append(w.y, w.y[k-1]+up)
	}
	return w
}

// above is how many lines a stitch stands above the valley that it is d stitches
// from: a valley is one stitch, and a peak those on both sides too.
func (w *wave) above(d float64) int { return int(math.Floor((d+1)/float64(w.flight) + 1e-9)) }

// from is how much higher a stitch stands than the k-th peak or valley, d stitches
// from it.
func (w *wave) from(k int, d float64) int {
	if w.g.peak(k) {
		return -int(math.Floor(d/float64(w.flight) + 1e-9))
	}
	return w.above(d)
}

// at is the cell of a place among the items of a row whose peaks and valleys are
// known.
func (w *wave) at(turns []float64, pos float64) (x, y int) {
	n := len(turns)
	beyond := func(k int) (int, int) {
		d := pos - turns[k]
		return w.x[k] + int(math.Round(d*float64(w.each))), w.y[k] + w.from(k, math.Abs(d))
	}
	switch {
	case pos <= turns[0]:
		return beyond(0)
	case pos >= turns[n-1]:
		return beyond(n - 1)
	}
	k := 1
	for pos > turns[k] {
		k++
	}
	u := (pos - turns[k-1]) / (turns[k] - turns[k-1])
	along := float64(w.x[k]-w.x[k-1]) * u
	x = w.x[k-1] + int(math.Round(along))
	if w.g.peak(k) {
		return x, w.y[k-1] + w.above(along/float64(w.each))
	}
	return x, w.y[k] + w.above(float64(w.x[k]-w.x[k-1])/float64(w.each)-along/float64(w.each))
}

// peak reports whether the k-th turning is a peak.
func (g *ridge) peak(k int) bool {
	switch n := len(g.y); {
	case k > 0:
		return g.y[k] > g.y[k-1]
	case n > 1:
		return g.y[0] > g.y[1]
	}
	return g.up > 0
}
