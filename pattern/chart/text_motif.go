package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
)

// mostColumns is how wide a chart of letters may be that shows a shape: beyond
// it a terminal would fold its lines.
const mostColumns = 78

// sheetOfCells is letters on a grid of cells, each about twice as high as wide.
type sheetOfCells struct {
	at       map[[2]int]rune
	min, max [2]int
	clash    bool // two letters fell into one cell
}

func newCells() *sheetOfCells {
	return &sheetOfCells{at: make(map[[2]int]rune), min: [2]int{math.MaxInt, math.MaxInt}, max: [2]int{math.MinInt, math.MinInt}}
}

// put writes a word from column x on, in line y.
func (c *sheetOfCells) put(x, y int, word string) {
	for _, r := range word {
		if _, taken := c.at[[2]int{x, y}]; taken {
			c.clash = true
		}
		c.at[[2]int{x, y}] = r
		for i, v := range [2]int{x, y} {
			c.min[i], c.max[i] = min(c.min[i], v), max(c.max[i], v)
		}
		x++
	}
}

// free reports whether a word would stand alone: with nothing beside it.
func (c *sheetOfCells) free(x, y int, word string) bool {
	for i := x - 1; i <= x+len(word); i++ {
		if _, taken := c.at[[2]int{i, y}]; taken {
			return false
		}
	}
	return true
}

// touching is how many stitches have no room between them and the next.
func (c *sheetOfCells) touching() int {
	n := 0
	for k, r := range c.at {
		if next, ok := c.at[[2]int{k[0] + 1, k[1]}]; ok && r != 'o' && next != 'o' {
			n++
		}
	}
	return n
}

func (c *sheetOfCells) wide() int { return c.max[0] - c.min[0] + 1 }

// lines are the lines from the top, moved in by a margin.
func (c *sheetOfCells) lines(margin int) []string {
	var out []string
	for y := c.min[1]; y <= c.max[1]; y++ {
		var t textLine
		for x := c.min[0]; x <= c.max[0]; x++ {
			if r, ok := c.at[[2]int{x, y}]; ok {
				t.put(x-c.min[0]+margin, string(r))
			}
		}
		out = append(out, t.String())
	}
	return out
}

// motif writes a piece with corners as its rounds lie, a ring of letters for
// each; nil where it has no corners or a screen has no room for them.
func (f *figure) motif(ls *letters, s *seen) []string {
	if len(f.rows) == 0 || f.rows[0].l.g.corners == nil {
		return nil
	}
	for _, r := range f.rows {
		if r.earlier != nil || r.l.g.corners == nil || len(r.v.made) == 0 {
			return nil
		}
	}
	some := []int{32} // one letter of so many may touch the next
	if f.rows[0].l.g.corners.n != 4 {
		some = []int{1 << 16, 32} // slanting sides are hard to follow as it is: none, if that can be had
	}
	for _, some := range some {
		for scale := 1.0; ; scale += 0.125 {
			c := newCells()
			*s = seen{}
			f.motifAt(c, scale, ls, s)
			if c.wide() > mostColumns {
				break
			}
			if !c.clash && c.touching()*some <= len(c.at) && f.motifNumbers(c, scale) {
				f.note("Rounds run counter-clockwise from their number.")
				f.noteYarns("Round")
				return c.lines(2)
			}
		}
	}
	return nil
}

// cell is where a point of the picture falls.
func cell(p pt, scale float64) (x, y int) {
	return int(math.Round(p.x * perUnit * scale)), int(math.Round(-p.y * scale))
}

// ringR is how far out the letters of a round stand: half way up its stitches.
func ringR(v *level) float64 {
	top := v.bottom
	for i := range v.made {
		if v.made[i].link.Kind == pattern.LinkStitch {
			top = math.Max(top, v.made[i].head.r)
		}
	}
	return (v.bottom + top) / 2
}

func (f *figure) motifAt(c *sheetOfCells, scale float64, ls *letters, s *seen) {
	for n := range f.rows {
		r := &f.rows[n]
		g, at := r.l.g, ringR(r.v)
		for i := range r.v.made {
			m := &r.v.made[i]
			x, y := cell(g.point(m.head.t, at), scale)
			switch {
			case m.link.Kind == pattern.LinkSpace:
			case m.link.Kind == pattern.LinkPicot:
				s.picot = true
				x, y := cell(g.point(m.head.t, m.head.r+0.5), scale)
				c.put(x, y, "^")
			case m.link.Turn:
				s.tall = true
				c.put(x, y, "8")
			default:
				c.put(x, y, ls.at(kindOf(m)))
			}
		}
	}
	for n := range f.rows { // in the room that is left
		v := f.rows[n].v
		for i := range v.made {
			if v.made[i].link.Kind == pattern.LinkSpace {
				f.motifSpace(c, scale, &f.rows[n], i, s)
			}
		}
	}
}

// chainsShown is how many chains of a space are written one by one.
const chainsShown = 4

// motifSpace writes the chains of a space, or their number where they have no
// room.
func (f *figure) motifSpace(c *sheetOfCells, scale float64, r *laidRow, i int, s *seen) {
	m, g, at := &r.v.made[i], r.l.g, ringR(r.v)
	k := m.link.Chains
	from, to := besideSpace(r.v, i, g.turn())
	var where [][2]int
	for j := range min(k, chainsShown+1) {
		x, y := cell(g.point(from+(to-from)*float64(j+1)/float64(k+1), at), scale)
		at := [2]int{x, y}
		if _, taken := c.at[at]; !taken && !slices.Contains(where, at) {
			where = append(where, at)
		}
	}
	if len(where) == k {
		s.chain = true
		for _, w := range where {
			c.put(w[0], w[1], "o")
		}
		return
	}
	s.count = k
	x, y := cell(g.point((from+to)/2, at), scale)
	c.put(x-len(itoa(k))/2, y, itoa(k)+"o")
}

// besideSpace are the places of the stitches on both sides of a space, going the way
// of the round.
func besideSpace(v *level, i int, turn float64) (from, to float64) {
	n := len(v.made)
	find := func(by int) float64 {
		for k := 1; k < n; k++ {
			if m := &v.made[((i+by*k)%n+n)%n]; m.link.Kind == pattern.LinkStitch {
				return m.head.t
			}
		}
		return v.made[i].head.t
	}
	from, to = find(-int(v.dir)), find(int(v.dir))
	to -= math.Floor((to-from)/turn) * turn
	return from, to
}

// motifNumbers puts the number of each round by its beginning, apart from the
// letters; it is false where one has no room.
func (f *figure) motifNumbers(c *sheetOfCells, scale float64) bool {
	for n := range f.rows {
		r := &f.rows[n]
		g, at := r.l.g, ringR(r.v)
		x, y := cell(g.point(r.v.first.t, at), scale)
		inX, inY := cell(g.outward(r.v.first.t).mul(-1), 1)
		w := len(r.number)
		done := false
		for _, d := range [][2]int{{cmp.Compare(inX, 0) * 2, cmp.Compare(inY, 0)}, {0, cmp.Compare(inY, 0)}, {-w / 2, cmp.Compare(inY, 0)}, {2, 0}, {-1 - w, 0}, {3, 0}, {-2 - w, 0}, {0, -cmp.Compare(inY, 0)}, {2, cmp.Compare(inY, 0)}, {-1 - w, cmp.Compare(inY, 0)}} {
			if c.free(x+d[0], y+d[1], r.number) {
				c.put(x+d[0], y+d[1], r.number)
				done = true
				break
			}
		}
		if !done {
			return false
		}
	}
	return true
}

// The marks of corners, peaks and valleys where rows are written in lines.
const (
	cornerMark = "▲"
	peakMark   = "▲"
	valleyMark = "▼"
)

// shapeMarks is a line over the last row that says where it is not straight; ""
// where it is.
func (f *figure) shapeMarks(g ground, col func(float64) int, s *seen) string {
	n := len(f.rows) - 1
	switch {
	case n < 0:
	case g.corners != nil && n < len(g.corners.rows) && g.corners.rows[n] != nil:
		s.corner = true
		return marksOver(f.rows[n].v, g.corners.rows[n], func(int) string { return cornerMark }, col)
	case g.ridge != nil && n < len(g.ridge.rows) && g.ridge.rows[n] != nil:
		s.peak = true
		return marksOver(f.rows[n].v, g.ridge.rows[n], func(k int) string {
			if g.ridge.peak(k) {
				return peakMark
			}
			return valleyMark
		}, col)
	}
	return ""
}

// marksOver is a line of marks at places among the items of a row.
func marksOver(v *level, at []float64, mark func(int) string, col func(float64) int) string {
	pos := (&ordering{v: v}).positions()
	var t textLine
	for k, p := range at {
		sum, n := 0.0, 0.0
		for i := range v.made {
			if v.made[i].link.Kind != pattern.LinkPicot && math.Abs(pos[i]-p) <= 0.5 {
				sum += v.made[i].head.t
				n++
			}
		}
		if n > 0 {
			t.put(col(sum/n), mark(k))
		}
	}
	return strings.TrimRight(t.String(), " ")
}
