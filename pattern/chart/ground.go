package chart

import "math"

// ground is the surface that rows lie on. A place on it is (t, r): t runs the
// way of the rows and r away from where the work began.
//
// On flat ground t is measured in units and grows to the right. On round
// ground t grows counter-clockwise, as rounds run for the right-handed, from
// the right end of the middle chain: along its upper side, round its left end,
// along its lower side and round its right end. Round a ring the chain has no
// length, and t is an angle from the top.
type ground struct {
	flat   bool
	length float64 // of the chain in the middle
	closed bool    // the rows close into rounds
	mirror bool    // flat ground seen from its other side: t grows to the left

	ridge   *ridge   // of a ripple: t runs along its slopes, and r away from them
	corners *corners // of a motif with straight sides, measured to their middle
}

// turn is t once round.
func (g ground) turn() float64 { return 2*g.length + 2*math.Pi }

// around is the way once round at r.
func (g ground) around(r float64) float64 {
	n := 2*g.length + 2*math.Pi*r
	if g.corners != nil {
		n *= g.corners.wide(r)
	}
	return n
}

// smallest is the least radius that a way is measured at.
const smallest = 0.3

// way is how far t lies along the row at r.
func (g ground) way(t, r float64) float64 {
	if g.flat {
		return t
	}
	r = math.Max(r, smallest)
	if g.corners != nil {
		return t * r * g.corners.wide(r)
	}
	k := math.Floor(t / g.turn())
	t -= k * g.turn()
	l := g.length
	s := k * g.around(r)
	switch {
	case t < l:
		return s + t
	case t < l+math.Pi:
		return s + l + r*(t-l)
	case t < 2*l+math.Pi:
		return s + math.Pi*r + (t - math.Pi)
	}
	return s + 2*l + math.Pi*r + r*(t-2*l-math.Pi)
}

// at is the t that lies s along the row at r.
func (g ground) at(s, r float64) float64 {
	if g.flat {
		return s
	}
	r = math.Max(r, smallest)
	if g.corners != nil {
		return s / (r * g.corners.wide(r))
	}
	k := math.Floor(s / g.around(r))
	s -= k * g.around(r)
	l := g.length
	t := k * g.turn()
	switch {
	case s < l:
		return t + s
	case s < l+math.Pi*r:
		return t + l + (s-l)/r
	case s < 2*l+math.Pi*r:
		return t + math.Pi + (s - math.Pi*r)
	}
	return t + 2*l + math.Pi + (s-2*l-math.Pi*r)/r
}

// point is where (t, r) is in the picture.
func (g ground) point(t, r float64) pt {
	if g.ridge != nil {
		p := pt{t * g.ridge.cos, r/g.ridge.cos + g.ridge.sin*g.ridge.high(t)}
		if g.mirror {
			p.x = -p.x
		}
		return p
	}
	if g.flat && g.mirror {
		return pt{-t, r}
	}
	if g.flat {
		return pt{t, r}
	}
	if g.corners != nil {
		return g.corners.point(t, r)
	}
	t -= math.Floor(t/g.turn()) * g.turn()
	l := g.length
	switch {
	case t < l:
		return pt{l/2 - t, r}
	case t < l+math.Pi:
		a := math.Pi/2 + (t - l)
		return pt{-l/2 + r*math.Cos(a), r * math.Sin(a)}
	case t < 2*l+math.Pi:
		return pt{-l/2 + (t - l - math.Pi), -r}
	}
	a := -math.Pi/2 + (t - 2*l - math.Pi)
	return pt{l/2 + r*math.Cos(a), r * math.Sin(a)}
}

// outward is the direction in which r grows at t.
func (g ground) outward(t float64) pt {
	return g.point(t, 2).sub(g.point(t, 1)).unit()
}
