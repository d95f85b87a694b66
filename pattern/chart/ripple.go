package chart

import (
	"math"

	"crochet/tallyturn/pattern"
)

// ridge is the line along which the rows of a ripple run: up to its peaks and
// down to its valleys.
type ridge struct {
	t        []float64 // of the peaks and valleys
	y        []float64 // how high each lies
	up       float64   // slope before the first, and its opposite after the last
	down     float64
	cos, sin float64
	pitch    float64
	soft     bool // waves with no straight slopes in them, as increases side by side make

	rows  [][]float64 // of each row, where its peaks and valleys are among its items
	chain []float64   // the same of the foundation
}

// turning is a peak or a valley of one row.
type turning struct {
	at, base float64
	extra    float64 // stitches more; less than none for a valley
	edge     bool
	close    bool // it comes straight after the one before
}

const (
	stray    = 1.5 // how far a peak may lie from the one below it, in stitches, and more for one that is broad
	steepest = 1.2 // most that a ripple rises for each unit along
	gentlest = 0.5 // most that waves do that have no straight slopes
)

// turnings finds the peaks and valleys of a row; it is false for a row in which
// they do not take turns.
func (s *sequence) turnings(below int) ([]turning, bool) {
	if !s.known || len(s.items) == 0 {
		return nil, false
	}
	var out []turning
	plain, since := 0, 0 // plain stitches before, and since the last
	add := func(t turning) {
		if n := len(out); n > 0 && since <= 1 {
			last := &out[n-1]
			if (last.extra > 0) != (t.extra > 0) {
				t.close = since == 0
				out = append(out, t)
				since = 0
				return
			}
			since = 0
			w := last.extra / (last.extra + t.extra)
			last.at, last.base = last.at*w+t.at*(1-w), last.base*w+t.base*(1-w)
			last.extra += t.extra
			return
		}
		t.edge = plain == 0 && len(out) == 0
		out = append(out, t)
		since = 0
	}
	far, spaces := -1.0, 0.0 // the last place stood in, and spaces over others since
	for i := 0; i < len(s.items); {
		x := s.items[i]
		if x.space && x.hi-x.lo == 1 && s.high > 1 {
			// chains between two stitches side by side: an increase
			add(turning{at: float64(i), base: (x.lo + x.hi) / 2, extra: 1})
			i++
			continue
		}
		if x.space && !x.one() {
			spaces++
			plain++
			since++
			i++
			continue
		}
		if math.IsNaN(x.lo) || x.lo < far {
			return nil, false
		}
		if over := x.lo - far - 1 - spaces; over > 0.5 && !(s.chain && i == 0) {
			add(turning{at: float64(i) - 0.5, base: (x.lo + far) / 2, extra: -over})
		}
		e := i + 1
		for e < len(s.items) && x.one() && s.items[e].one() && s.items[e].lo == x.lo {
			e++
		}
		n := float64(e - i)
		switch {
		case n > 1:
			add(turning{at: float64(i) + (n-1)/2, base: x.lo, extra: n - 1})
		case x.hi > x.lo:
			add(turning{at: float64(i), base: (x.lo + x.hi) / 2, extra: x.lo - x.hi})
		default:
			plain++
			since++
		}
		far, spaces = x.hi, 0
		i = e
	}
	if over := float64(below) - far - 1 - spaces; over > 0.5 && !s.chain {
		add(turning{at: float64(len(s.items)) - 0.5, base: float64(below-1) - over/2, extra: -over})
	}
	if n := len(out); n > 0 && since == 0 {
		out[n-1].edge = true
	}
	// a piece that grows or shrinks at its edges turns there only where it must
	if n := len(out); n > 1 && out[0].edge && (out[0].extra > 0) == (out[1].extra > 0) {
		out = out[1:]
	}
	if n := len(out); n > 1 && out[n-1].edge && (out[n-1].extra > 0) == (out[n-2].extra > 0) {
		out = out[:n-1]
	}
	for i := range out {
		if i > 0 && (out[i].extra > 0) == (out[i-1].extra > 0) {
			return nil, false
		}
		// one increase beside one decrease is a texture, and no wave
		if i > 0 && out[i].close && (math.Abs(out[i].extra) < 2 || math.Abs(out[i-1].extra) < 2) {
			return nil, false
		}
		if out[i].edge && i == 0 {
			out[i].at, out[i].base = 0, 0
		}
		if out[i].edge && i > 0 {
			out[i].at, out[i].base = float64(len(s.items)-1), float64(below-1)
		}
	}
	return out, true
}

// over finds where in a row that follows the one below the place over b is.
func (s *sequence) over(b float64) float64 {
	best, far := 0.0, math.Inf(1)
	n := 0.0
	for i, x := range s.items {
		d := math.Abs((x.lo+x.hi)/2 - b)
		switch {
		case math.IsNaN(d):
		case d < far-1e-9:
			best, far, n = float64(i), d, 1
		case d < far+1e-9:
			best, n = (best*n+float64(i))/(n+1), n+1
		}
	}
	return best
}

// rippleOf finds the ridge of a piece in rows, nil for one without.
func rippleOf(rows []pattern.RowLinks, pitch float64, chain int) *ridge {
	for i := range rows {
		if rows[i].Round {
			return nil
		}
	}
	seqs := sequences(rows, -1)
	g := &ridge{rows: make([][]float64, len(rows)), pitch: pitch}
	first, peaks := -1, 0
	var like []turning
	drift, height := 0.0, 0.0
	for i := range seqs {
		s := &seqs[i]
		below := chain
		if i > 0 {
			below = len(seqs[i-1].items)
		}
		ts, ok := s.turnings(below)
		if !ok && first < 0 {
			return nil
		}
		if first >= 0 {
			height += s.high
		}
		switch {
		case !ok || first >= 0 && g.rows[i-1] == nil:
			continue
		case len(ts) == 0 && first < 0:
			continue
		case len(ts) == 0:
			for k, p := range g.rows[i-1] {
				switch {
				case like[k].edge && k == 0:
					p = 0
				case like[k].edge:
					p = float64(len(s.items) - 1)
				default:
					p = s.over(p)
				}
				g.rows[i] = append(g.rows[i], p)
			}
			continue
		case first < 0:
			first, like, height = i, ts, s.high
		default:
			same := len(ts) == len(like)
			for k := range ts {
				same = same && (ts[k].extra > 0) == (like[k].extra > 0) && ts[k].edge == like[k].edge &&
					(ts[k].edge || math.Abs(ts[k].base-g.rows[i-1][k]) <= stray+math.Abs(ts[k].extra)/3)
			}
			if !same {
				continue
			}
		}
		peaks++
		inner, sum := 0.0, 0.0
		for _, t := range ts {
			g.soft = g.soft || t.close
			g.rows[i] = append(g.rows[i], t.at)
			if !t.edge {
				inner++
				sum += math.Abs(t.extra) / 2
			}
		}
		if inner == 0 {
			return nil
		}
		drift += sum / inner
	}
	in := 0
	for _, r := range g.rows[max(first, 0):] {
		if r != nil {
			in++
		}
	}
	if peaks < 2 || in*2 < len(rows)-first || peaks*4 < len(rows)-first {
		return nil
	}
	g.before(seqs, first, like, chain)
	g.lay(like, drift*pitch/height)
	return g
}

// before finds where the peaks and valleys are in the rows under the first that
// has any.
func (g *ridge) before(seqs []sequence, first int, like []turning, chain int) {
	at := make([]float64, len(like))
	for k, t := range like {
		at[k] = t.base
	}
	for i := first - 1; i >= 0; i-- {
		g.rows[i] = at
		items := seqs[i].items
		next := make([]float64, len(at))
		for k, p := range at {
			lo, hi := items[int(math.Floor(p))], items[int(math.Ceil(p))]
			next[k] = (lo.lo + lo.hi + hi.lo + hi.hi) / 4
		}
		at = next
	}
	for k, t := range like {
		switch {
		case t.edge && k == 0:
			at[k] = 0
		case t.edge:
			at[k] = float64(chain - 1)
		}
	}
	for _, p := range at {
		if math.IsNaN(p) {
			return
		}
	}
	g.chain = at
}

// lay gives the peaks and valleys their places: as far apart as the fullest row
// needs.
func (g *ridge) lay(like []turning, slope float64) {
	slope = math.Min(slope, steepest)
	if g.soft {
		slope = math.Min(slope, gentlest)
	}
	g.cos = 1 / math.Sqrt(1+slope*slope)
	g.sin = slope * g.cos
	way := func(k int) float64 { // after the k-th
		if like[k].extra > 0 {
			return -1
		}
		return 1
	}
	g.t = append(g.t, like[0].at*g.pitch)
	g.y = append(g.y, 0)
	for k := 1; k < len(like); k++ {
		wide := 1.0
		for _, r := range append(g.rows, g.chain) {
			if r != nil {
				wide = math.Max(wide, r[k]-r[k-1])
			}
		}
		long := (wide + 2*(g.loose()-1)) * g.pitch
		if g.soft {
			long = wide * g.loose() * g.pitch
		}
		g.t = append(g.t, g.t[k-1]+long)
		g.y = append(g.y, g.y[k-1]+way(k-1)*long)
	}
	if !like[0].edge {
		g.up = -way(0)
	}
	if !like[len(like)-1].edge {
		g.down = way(len(like) - 1)
	}
}

// loose is how much farther apart stitches stand next to a peak or a valley:
// there they are side by side, and elsewhere one is higher than the next.
func (g *ridge) loose() float64 { return 1 / g.cos }

// at is the t of a place among the items of a row whose turnings are known.
func (g *ridge) at(turns []float64, pos float64) float64 {
	n := len(turns)
	switch {
	case pos <= turns[0]:
		return g.t[0] + (pos-turns[0])*g.pitch
	case pos >= turns[n-1]:
		return g.t[n-1] + (pos-turns[n-1])*g.pitch
	}
	k := 1
	for pos > turns[k] {
		k++
	}
	long, wide, x := g.t[k]-g.t[k-1], turns[k]-turns[k-1], pos-turns[k-1]
	end := g.loose() * g.pitch // of the first stitch and the last
	switch {
	case wide <= 2 || long <= 2*end || g.soft:
		return g.t[k-1] + long*x/wide
	case x <= 1:
		return g.t[k-1] + end*x
	case x >= wide-1:
		return g.t[k] - end*(wide-x)
	}
	return g.t[k-1] + end + (long-2*end)*(x-1)/(wide-2)
}

// high is how high the ridge lies at t, for each unit of its steepness.
func (g *ridge) high(t float64) float64 {
	n := len(g.t)
	switch {
	case t <= g.t[0]:
		return g.y[0] + (t-g.t[0])*g.up
	case t >= g.t[n-1]:
		return g.y[n-1] + (t-g.t[n-1])*g.down
	}
	k := 1
	for t > g.t[k] {
		k++
	}
	u := (t - g.t[k-1]) / (g.t[k] - g.t[k-1])
	if g.soft {
		u *= u * (3 - 2*u)
	}
	return g.y[k-1] + (g.y[k]-g.y[k-1])*u
}
