package chart

import "math"

// A sign is a symbol set in its place: its feet, its head and what is told of
// the place it stands in.
type sign struct {
	symbol
	feet []pt
	head pt
	loop int  // 1 back loop, -1 front loop
	fan  bool // it shares its foot
}

const (
	capHalf   = 0.35 // half the cap of a stem
	barHalf   = 0.25 // half a bar across a stem
	crossHalf = 0.35 // half the arm of a cross
)

// draw puts the sign into a group.
func (g *group) draw(s sign) {
	if len(s.feet) == 0 {
		s.feet = []pt{{s.head.x, s.head.y - s.high}}
	}
	mid := pt{}
	for _, f := range s.feet {
		mid = mid.add(f.mul(1 / float64(len(s.feet))))
	}
	axis := s.head.sub(mid).unit()
	across := axis.right()
	var ink path
	switch s.form {
	case formDot:
		var dot path
		dot.ellipse(mid.to(s.head, 0.55), across, 0.22, 0.15)
		g.put(solid, dot)
	case formCross:
		if len(s.feet) > 1 {
			s.vee(&ink, across)
		} else {
			g.cross(s, &ink, s.feet[0], axis)
		}
	case formStem:
		for _, f := range s.feet {
			g.stem(s, &ink, f)
		}
		ink.lines(s.head.along(across, -capHalf), s.head.along(across, capHalf))
	case formLeaf, formPop:
		g.leaf(s, &ink, mid, axis)
	case formOwn:
		c := s.head.along(axis, -0.4)
		ink.lines(s.feet[0], c.along(axis, -0.4))
		for _, f := range s.feet[1:] {
			ink.lines(f, c.along(axis, -0.4))
		}
		var gem path
		gem.lines(c.along(axis, 0.4), c.along(across, 0.3), c.along(axis, -0.4), c.along(across, -0.3))
		gem.close()
		g.put(open, gem)
	case formAsk:
		ink.lines(mid.to(s.head, 0.4), mid.to(s.head, 0.6))
	}
	if s.loop != 0 {
		for _, f := range s.feet {
			arc(&ink, f.along(axis, 0.02), across, axis, s.loop)
		}
	}
	g.put(stroke, ink)
}

// arc is the mark of a loop under a foot: open upwards for the back loop, and
// downwards for the front one.
func arc(ink *path, foot, across, axis pt, loop int) {
	up := 0.2 * float64(loop)
	a, b := foot.along(across, -0.3).along(axis, up/2), foot.along(across, 0.3).along(axis, up/2)
	ink.move(a)
	ink.curve(a.along(axis, -up*4/3).along(across, 0.1), b.along(axis, -up*4/3).along(across, -0.1), b)
}

// cross is a single crochet: an upright with an arm across it.
func (g *group) cross(s sign, ink *path, foot, axis pt) {
	across := axis.right()
	n := s.head.sub(foot).length()
	low, high := foot.along(axis, math.Min(0.12, n*0.12)), s.head.along(axis, -math.Min(0.12, n*0.12))
	if s.spike {
		low = foot.along(axis, -0.85)
	}
	low = g.footing(s, ink, low, axis)
	ink.lines(low, high)
	c := foot.to(s.head, 0.5)
	if s.fan {
		c = foot.to(s.head, 0.75) // clear of the next one's
	}
	if s.foot || s.tail || s.post != 0 {
		c = foot.to(s.head, 0.6)
	}
	ink.lines(c.along(across, -crossHalf), c.along(across, crossHalf))
	switch {
	case s.wave:
		t := high.along(axis, -0.02)
		a, b := t.along(across, -0.35), t.along(across, 0.35)
		ink.move(a)
		ink.curve(a.along(axis, 0.22).along(across, 0.2), b.along(axis, -0.22).along(across, -0.2), b)
	case s.bead:
		var dot path
		dot.ellipse(c, axis, 0.17, 0.17)
		g.put(solid, dot)
	case s.loop2():
		var o path
		o.ellipse(low.to(high, 0.22).along(across, 0.16), axis, 0.22, 0.14)
		g.put(stroke, o)
	}
}

func (s sign) loop2() bool { return s.symbol.loop }

// footing draws what is at the foot of a stem, and gives where the stem begins.
func (g *group) footing(s sign, ink *path, foot, axis pt) pt {
	across := axis.right()
	switch {
	case s.symbol.foot:
		var o path
		o.ellipse(foot.along(axis, 0.12), across, 0.3, 0.13)
		g.put(stroke, o)
		return foot.along(axis, 0.26)
	case s.tail:
		at := foot.along(axis, 0.22)
		ink.lines(at.along(across, -0.16), at.along(across, 0.16))
	case s.post != 0:
		// a hook round the post below: to the right in front, to the left behind
		side := across.mul(float64(s.post) * 0.42)
		end := foot.add(side).along(axis, 0.12)
		ink.move(foot.along(axis, 0.15))
		ink.curve(foot.along(axis, -0.22), foot.add(side).along(axis, -0.22), end)
		return foot.along(axis, 0.15)
	}
	return foot
}

// stem is one leg, with its bars, from a foot to the head.
func (g *group) stem(s sign, ink *path, foot pt) {
	axis := s.head.sub(foot).unit()
	across := axis.right()
	from := g.footing(s, ink, foot, axis)
	ink.lines(from, s.head)
	n := s.head.sub(foot).length()
	// the bars lie close together about the middle, rising to the right
	gap := math.Min(0.36, 0.5*n/float64(s.bars+1))
	for i := range s.bars {
		c := foot.to(s.head, 0.52).along(axis, (float64(s.bars-1)/2-float64(i))*gap)
		d := axis.mul(0.7).add(across).unit()
		ink.lines(c.along(d, -barHalf), c.along(d, barHalf))
	}
	if s.link {
		c := foot.to(s.head, 0.3)
		ink.lines(c, c.along(across, -0.55))
	}
}

// vee is single crochet worked together: legs that meet under a short cap.
func (s sign) vee(ink *path, across pt) {
	for _, f := range s.feet {
		axis := s.head.sub(f).unit()
		ink.lines(f.along(axis, 0.12), s.head)
		if s.symbol.tail {
			c := f.to(s.head, 0.3)
			ink.lines(c.along(across, -0.15), c.along(across, 0.15))
		}
	}
	ink.lines(s.head.along(across, -0.25), s.head.along(across, 0.25))
}

// leaf is several stems joined at the top and, where they stand in one place,
// at the bottom.
func (g *group) leaf(s sign, ink *path, foot, axis pt) {
	across := axis.right()
	if len(s.feet) > 1 {
		t := s
		t.symbol.form = formStem
		for _, f := range s.feet {
			g.stem(t, ink, f)
		}
		ink.lines(s.head.along(across, -capHalf), s.head.along(across, capHalf))
		return
	}
	n := s.head.sub(foot).length()
	head := s.head
	if s.form == formPop {
		head = head.along(axis, -0.3)
		var o path
		o.ellipse(s.head.along(axis, -0.16), across, 0.32, 0.15)
		g.put(open, o)
	}
	half := 0.38
	legs := max(s.legs, 2)
	for i := range legs {
		out := half * (2*float64(i)/float64(legs-1) - 1)
		a := foot.along(axis, n*0.28).along(across, out*4/3)
		b := head.along(axis, -n*0.28).along(across, out*4/3)
		ink.move(foot)
		ink.curve(a, b, head)
		if s.bars > 0 {
			c := foot.to(head, 0.5).along(across, out)
			d := axis.mul(0.7).add(across).unit()
			ink.lines(c.along(d, -0.13), c.along(d, 0.13))
		}
	}
	if s.form == formLeaf {
		ink.lines(head.along(across, -capHalf), head.along(across, capHalf))
	}
}

// chains draws n chains as rings along a line of points that are spaced
// evenly; each ring is at most as long as its share.
func (g *group) chains(way []pt, n int, long float64) {
	if n <= 0 || len(way) < 2 {
		return
	}
	var o path
	for i := range n {
		f := (float64(i) + 0.5) / float64(n) * float64(len(way)-1)
		k := min(int(f), len(way)-2)
		c := way[k].to(way[k+1], f-float64(k))
		o.ellipse(c, way[k+1].sub(way[k]), long/2, math.Min(0.2, long*0.3))
	}
	g.put(stroke, o)
}
