package chart

import (
	"math"

	"crochet/tallyturn/pattern"
)

// shape finds the shape of a piece and gives it to the ground.
func (f *figure) shape(l *layer, rows []pattern.RowLinks) {
	switch {
	case l.g.flat:
		l.tall = squareMesh(rows)
		if l.g.ridge = rippleOf(rows, l.pitch, len(l.chain)); l.g.ridge == nil {
			return
		}
		if at := l.g.ridge.chain; at != nil {
			for i := range l.chain {
				l.chain[i].t = l.g.ridge.at(at, float64(i))
			}
		}
	case l.g.closed && l.g.length == 0:
		l.g.corners = cornersOf(rows)
	}
}

// turnsOf tells where the peaks and valleys, or the corners, of a row are, and
// whether it is the first that has corners.
func (l *layer) turnsOf(row int) (at []float64, begins bool) {
	switch {
	case l.g.ridge != nil && row < len(l.g.ridge.rows):
		return l.g.ridge.rows[row], false
	case l.g.corners != nil && row < len(l.g.corners.rows):
		return l.g.corners.rows[row], row == l.g.corners.first
	}
	return nil, false
}

// shaped gives the stitches of a row places between its peaks and valleys, or
// its corners; it is false for a row that has none.
func (o *ordering) shaped(want []float64) bool {
	at := o.l.turns
	if at == nil || o.earlier != nil {
		return false
	}
	if r := o.l.g.ridge; r != nil {
		pos := o.positions()
		for k, i := range o.idx {
			want[k] = r.at(at, pos[i])
		}
		return true
	}
	c := o.l.g.corners
	mid, all := o.middles()
	step := 2 * math.Pi / float64(c.n)
	marks := make([]float64, c.n)
	for j, p := range at {
		lo, hi := mid[int(p)], mid[min(int(math.Ceil(p)), len(mid)-1)]
		marks[j] = (lo + hi) / 2
	}
	if o.l.begins {
		c.t0 = marks[0] / all * 2 * math.Pi
		if o.below != nil {
			if s, ok := o.standing(at[0]); ok {
				c.t0 = s
			}
		}
		c.r0, c.r1 = o.v.bottom, o.reach
	}
	pos := o.positions()
	for k, i := range o.idx {
		x := mid[int(pos[i])]
		j := c.n - 1 // the corner before
		for j >= 0 && marks[j] > x {
			j--
		}
		from, to := 0.0, 0.0
		switch {
		case j < 0:
			from, to = marks[c.n-1]-all, marks[0]
		case j == c.n-1:
			from, to = marks[j], marks[0]+all
		default:
			from, to = marks[j], marks[j+1]
		}
		t := c.t0 + (float64(j)+(x-from)/(to-from))*step
		want[k] = o.l.g.way(t, o.reach)
		// what it stands in lies beside it, not a turn away
		for b := range o.bases[i] {
			o.bases[i][b].t = o.near(o.bases[i][b].t, t)
		}
	}
	return true
}

// positions gives each thing made its place among the items of the row.
func (o *ordering) positions() []float64 {
	n := 0
	for i := range o.v.made {
		if o.v.made[i].link.Kind != pattern.LinkPicot {
			n++
		}
	}
	out := make([]float64, len(o.v.made))
	at := 0
	for i := range o.v.made {
		p := at
		if o.v.dir < 0 {
			p = n - 1 - at
		}
		if o.v.made[i].link.Kind == pattern.LinkPicot {
			continue
		}
		out[i] = float64(p)
		at++
	}
	return out
}

// roundCorner is the room that chains want more where they turn a corner.
const roundCorner = 0.7

// findCorners notes which things made lie at corners.
func (o *ordering) findCorners() {
	if o.l.g.corners == nil || o.l.turns == nil {
		return
	}
	o.cornerAt = make([]bool, len(o.v.made))
	for i, p := range o.positions() {
		for _, at := range o.l.turns {
			o.cornerAt[i] = o.cornerAt[i] || at == p
		}
	}
}

// middles is how far along the round the middle of each item lies, were they
// all side by side, and how long that is.
func (o *ordering) middles() (mid []float64, all float64) {
	pos := o.positions()
	wide := make([]float64, 0, len(pos))
	for range pos {
		wide = append(wide, 0)
	}
	n := 0
	for i := range o.v.made {
		m := &o.v.made[i]
		switch m.link.Kind {
		case pattern.LinkStitch:
			wide[int(pos[i])] = m.sign.wide()
		case pattern.LinkSpace:
			wide[int(pos[i])] = o.room(i, i+1)
		default:
			continue
		}
		n++
	}
	for _, w := range wide[:n] {
		mid = append(mid, all+w/2)
		all += w
	}
	return mid, all + o.slotWide
}

// longestSide is the way from corner to corner where it is longest.
func (o *ordering) longestSide() float64 {
	mid, all := o.middles()
	at := o.l.turns
	most := 0.0
	for j := range at {
		from, to := mid[int(at[j])], mid[int(at[0])]+all
		if j+1 < len(at) {
			to = mid[int(at[j+1])]
		}
		most = math.Max(most, to-from)
	}
	return most
}

// standing is the t of what the item at p stands in.
func (o *ordering) standing(p float64) (float64, bool) {
	pos := o.positions()
	for i := range o.v.made {
		if math.Abs(pos[i]-p) <= 1 && len(o.bases[i]) == 1 && o.v.made[i].link.Kind == pattern.LinkStitch {
			return o.bases[i][0].t, true
		}
	}
	return 0, false
}

// sides is how much longer the way round n straight sides is than round the
// circle within them.
func sides(n int) float64 { return float64(n) * math.Tan(math.Pi/float64(n)) / math.Pi }
