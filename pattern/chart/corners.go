package chart

import (
	"math"

	"crochet/tallyturn/pattern"
)

// corners are those of a motif that is worked from its middle.
type corners struct {
	n     int
	first int         // the row that makes them
	rows  [][]float64 // of each row, where they are among its items; nil for those before

	t0     float64 // of the first of them
	r0, r1 float64 // a circle up to r0, and straight sides from r1 on
}

// run is what stands in one place: its items, in the order in which they come
// as the round goes on past its end.
type run struct{ at []int }

// runOn finds what stands in a place.
func (s *sequence) runOn(base float64) run {
	var out run
	n := len(s.items)
	on := func(i int) bool { x := s.items[(i+n)%n]; return x.one() && x.lo == base }
	from := -1
	for i := range n {
		if on(i) && !on(i-1) {
			from = i
			break
		}
	}
	for i := from; from >= 0 && on(i) && len(out.at) < n; i++ {
		out.at = append(out.at, i)
	}
	return out
}

// corner is where the corner of a run lies: at its space, or in its middle.
func (s *sequence) corner(r run) float64 {
	n := len(s.items)
	mid := float64(r.at[0]+r.at[len(r.at)-1]) / 2
	best, far := mid, math.Inf(1)
	for _, i := range r.at {
		if d := math.Abs(float64(i) - mid); s.items[i%n].space && d < far {
			best, far = float64(i), d
		}
	}
	return math.Mod(best, float64(n))
}

// grows reports whether a run turns a corner.
func (s *sequence) grows(r run, few bool) bool {
	n := len(s.items)
	for k, i := range r.at {
		if s.items[i%n].space && k > 0 && k+1 < len(r.at) {
			return true
		}
	}
	return few && len(r.at) >= 3
}

// made finds the corners that a row may begin.
func (s *sequence) made() []float64 {
	var out []float64
	n := len(s.items)
	if n == 0 || !s.known {
		return nil
	}
	ring := true
	long := 0
	for _, x := range s.items {
		ring = ring && (x.ring || x.space)
		if x.space {
			long = max(long, x.chains)
		}
	}
	if ring {
		for i, x := range s.items {
			if x.space && x.chains == long {
				out = append(out, float64(i))
			}
		}
		return out
	}
	seen := make(map[float64]bool)
	for _, few := range []bool{false, true} {
		out = nil
		clear(seen)
		for _, x := range s.items {
			if !x.one() || seen[x.lo] {
				continue
			}
			seen[x.lo] = true
			if r := s.runOn(x.lo); s.grows(r, few) {
				out = append(out, s.corner(r))
			}
		}
		if len(out) > 0 && (!few || len(out) <= 4) {
			return sorted(out)
		}
	}
	return s.cornerSpaces(long)
}

// cornerSpaces are the longest spaces of a row, where on both sides of each there
// is an increase: "2 tr in next st, ch 2, 2 tr in next st".
func (s *sequence) cornerSpaces(long int) []float64 {
	n := len(s.items)
	twice := func(i, by int) bool {
		a, b := s.items[((i+by)%n+n)%n], s.items[((i+2*by)%n+n)%n]
		return !a.space && !b.space && a.one() && b.one() && a.lo == b.lo
	}
	var out []float64
	for i, x := range s.items {
		if x.space && x.chains == long && long > 1 {
			if !twice(i, -1) || !twice(i, 1) {
				return nil
			}
			out = append(out, float64(i))
		}
	}
	return out
}

// sorted is a few numbers in order.
func sorted(x []float64) []float64 {
	for i := range x {
		for k := i; k > 0 && x[k] < x[k-1]; k-- {
			x[k], x[k-1] = x[k-1], x[k]
		}
	}
	return x
}

// even reports whether corners lie about as far from each other all round.
func even(at []float64, n int) bool {
	lo, hi := math.Inf(1), 0.0
	for i := range at {
		d := at[(i+1)%len(at)] - at[i]
		if i == len(at)-1 {
			d += float64(n)
		}
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	return hi-lo <= math.Max(2, 0.35*hi)
}

// cornersOf finds the corners of a piece in rounds, nil for one without.
func cornersOf(rows []pattern.RowLinks) *corners {
	for i := range rows {
		if !rows[i].Round {
			return nil
		}
	}
	seqs := sequences(rows, 1)
	for first := range seqs {
		at := seqs[first].made()
		switch len(at) {
		case 3, 4, 5, 6:
		default:
			continue
		}
		if !even(at, len(seqs[first].items)) {
			continue
		}
		c := &corners{n: len(at), first: first, rows: make([][]float64, len(rows)), r0: math.Inf(1), r1: math.Inf(1)}
		c.rows[first] = at
		grown := 0
		for i := first + 1; i < len(seqs) && at != nil; i++ {
			s := &seqs[i]
			var next []float64
			grow := s.known
			for _, p := range at {
				r := run{}
				if s.known {
					r = s.runOn(p)
				}
				if len(r.at) == 0 {
					next = nil
					break
				}
				grow = grow && s.grows(r, c.n <= 4 || seqs[i-1].items[int(p)].space)
				next = append(next, s.corner(r))
			}
			if next == nil || len(next) != c.n {
				break
			}
			at = sorted(next)
			if i == first+1 && (!grow || !even(at, len(s.items))) {
				break
			}
			grown++
			c.rows[i] = at
		}
		if grown > 0 {
			return c
		}
	}
	return nil
}

// wide is how much longer the way round the sides is than round a circle.
func (c *corners) wide(r float64) float64 {
	n := float64(c.n)
	return 1 + (n*math.Tan(math.Pi/n)/math.Pi-1)*c.straight(r)
}

// straight is how far a round is from a circle: 0, up to the sides: 1.
func (c *corners) straight(r float64) float64 {
	if c == nil || r <= c.r0 || math.IsInf(c.r1, 1) {
		return 0
	}
	if r >= c.r1 {
		return 1
	}
	return (r - c.r0) / (c.r1 - c.r0)
}

// lean is the angle in the picture of the first corner: a side lies below.
func (c *corners) lean() float64 {
	step := 2 * math.Pi / float64(c.n)
	zero := -math.Pi/2 + step/2
	want := math.Pi/2 + c.t0
	return zero + math.Round((want-zero)/step)*step
}

// point is where t is at r.
func (c *corners) point(t, r float64) pt {
	step := 2 * math.Pi / float64(c.n)
	a := c.lean() + t - c.t0
	circle := pt{r * math.Cos(a), r * math.Sin(a)}
	f := c.straight(r)
	if f == 0 {
		return circle
	}
	u := (t - c.t0) / step
	k := math.Floor(u)
	out := r / math.Cos(step/2)
	b := c.lean() + k*step
	from, to := pt{out * math.Cos(b), out * math.Sin(b)}, pt{out * math.Cos(b+step), out * math.Sin(b+step)}
	return circle.to(from.to(to, u-k), f)
}
