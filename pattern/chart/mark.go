package chart

import (
	"math"

	"crochet/tallyturn/pattern"
)

// foundation draws what the first row is worked into: a chain, or a ring.
func (f *figure) foundation(l *layer, r *pattern.RowLinks) {
	g := &f.lead
	switch {
	case len(l.chain) > 0:
		for i, s := range l.chain {
			at := l.g.point(s.t, s.r)
			along := pt{1, 0}
			if l.g.length > 0 {
				at = pt{-l.g.length/2 + float64(i), 0}
			} else if !l.g.flat {
				along = l.g.outward(s.t).right()
			} else if l.g.ridge != nil {
				along = l.g.point(s.t+0.1, s.r).sub(l.g.point(s.t-0.1, s.r)).unit()
			}
			var o path
			o.ellipse(at, along, chainLong/2, 0.2)
			g.put(stroke, o)
		}
	case r.Ring && r.Chain == 1:
		var o path
		o.ellipse(pt{}, pt{1, 0}, 0.3, 0.16)
		g.put(stroke, o)
	case r.Ring:
		f.rings = append(f.rings, l)
	}
}

// ringOf draws the ring that rounds begin in, once its size is settled.
func (f *figure) ringOf(l *layer, chains int) {
	g := &f.lead
	if chains > 2 && chains <= 60 {
		r := math.Max(l.ring-0.24, 0.3)
		for i := range chains {
			t := (float64(i) + 0.5) / float64(chains) * l.g.turn()
			var o path
			long := math.Min(chainLong, 2*math.Pi*r/float64(chains))
			o.ellipse(l.g.point(t, r), l.g.outward(t).right(), long/2, math.Min(0.2, long*0.3))
			g.put(stroke, o)
		}
		return
	}
	var o path
	o.ellipse(pt{}, pt{1, 0}, l.ring, l.ring)
	g.put(stroke, o)
}

// draw turns the rows laid into shapes.
func (f *figure) draw() {
	for _, l := range f.rings {
		chains := 0
		if len(f.rows) > 0 {
			chains = f.rows[0].links.Chain
		}
		f.ringOf(l, chains)
	}
	several := f.severalYarns()
	for i := range f.rows {
		r := &f.rows[i]
		g := group{title: r.title}
		if r.earlier != nil {
			f.level(&g, r, r.earlier, several)
		}
		f.level(&g, r, r.v, several)
		f.front = append(f.front, g)
	}
	f.clearNumbers()
}

// clearNumbers moves the numbers of rows off the symbols; one for which there
// is no room nearby is left out.
func (f *figure) clearNumbers() {
	var taken []box
	for i := range f.front {
		for _, s := range f.front[i].shapes {
			taken = append(taken, s.path.pieces()...)
		}
	}
	free := func(b box) bool {
		for i := range taken {
			if taken[i].meets(b) {
				return false
			}
		}
		return true
	}
	tries := []pt{{0, 0}, {0.3, 0}, {-0.3, 0}, {0, 0.3}, {0, -0.3}, {0.6, 0}, {-0.6, 0}, {0, 0.6}, {0, -0.6}, {0.6, 0.4}, {-0.6, 0.4}, {0.6, -0.4}, {-0.6, -0.4}, {1, 0}, {-1, 0}, {0.9, 0.5}, {0.9, -0.5}, {-0.9, 0.5}, {-0.9, -0.5}, {0, 0.9}, {0, -0.9}}
	for i := range f.front {
		g := &f.front[i]
		kept := g.labels[:0]
		for _, l := range g.labels {
			if !l.bold {
				kept = append(kept, l)
				continue
			}
			for _, d := range tries {
				m := l
				m.at = l.at.add(d)
				b := m.box()
				// digits are as high as their body and have nothing below
				b.min.y += 0.2 * l.size
				if free(b) {
					kept = append(kept, m)
					taken = append(taken, b)
					break
				}
			}
		}
		g.labels = kept
	}
}

// severalYarns reports whether more than one yarn was used: one alone needs no
// colour.
func (f *figure) severalYarns() bool {
	one := -2
	for _, r := range f.rows {
		for i := range r.v.made {
			y := r.v.made[i].yarn
			if one != -2 && y != one {
				return true
			}
			one = y
		}
	}
	return false
}

// level draws one row.
func (f *figure) level(g *group, r *laidRow, v *level, several bool) {
	gr := r.l.g
	if several {
		f.ground(r, v)
	}
	for i := range v.made {
		m := &v.made[i]
		switch m.link.Kind {
		case pattern.LinkSpace:
			f.used.chain = true
			if m.link.Chains > mostChains {
				var o path
				o.lines(m.way...)
				g.put(stroke, o)
				mid := m.way[len(m.way)/2]
				g.labels = append(g.labels, label{at: mid.along(gr.outward(m.head.t), 0.3), text: itoa(m.link.Chains) + " ch", size: 0.6})
				continue
			}
			long := wayLong(m.way) / float64(max(m.link.Chains, 1))
			g.chains(m.way, m.link.Chains, math.Min(chainLong, long))
		case pattern.LinkPicot:
			f.used.picot = true
			f.picot(g, gr, m)
		default:
			f.stitch(g, gr, v, i)
		}
	}
	f.start(g, r, v)
}

// mostChains is how many chains of a space are drawn one by one.
const mostChains = 40

func wayLong(way []pt) float64 {
	n := 0.0
	for i := 1; i < len(way); i++ {
		n += way[i].sub(way[i-1]).length()
	}
	return n
}

// stitch draws one stitch.
func (f *figure) stitch(g *group, gr ground, v *level, i int) {
	m := &v.made[i]
	head := gr.point(m.head.t, m.head.r)
	var feet []pt
	for _, s := range m.feet {
		feet = append(feet, gr.point(s.t, s.r))
	}
	if m.link.Turn {
		f.used.chain = true
		n := ownChains(v.made, i)
		foot := feet[0]
		g.chains([]pt{foot, head}, n, math.Min(chainLong, 0.95*head.sub(foot).length()/float64(n)))
		return
	}
	s := sign{symbol: m.sign, feet: feet, head: head, fan: m.fan}
	switch m.link.Loop {
	case pattern.BackLoop:
		s.loop = 1
	case pattern.FrontLoop:
		s.loop = -1
	}
	f.used.add(m)
	g.draw(s)
	if m.sign.form == formOwn {
		if n := f.used.special(m.link.Name); n > 0 {
			axis := gr.outward(m.head.t)
			if len(feet) > 0 {
				axis = head.sub(feet[0]).unit()
			}
			g.labels = append(g.labels, label{at: head.along(axis, -0.4).add(pt{0, -0.17}), text: itoa(n), size: 0.45})
		}
	}
	f.leader(g, gr, m)
}

// leader joins a stitch to a place far below it, on a row of another piece
// that has rows over it already, with a dotted line.
func (f *figure) leader(g *group, gr ground, m *made) {
	var p path
	for _, l := range m.lead {
		// between the columns of stitches that lie over it
		from, to := l[0], l[1]
		side := gr.at(gr.way(from.t, to.r)+0.5, to.r)
		p.lines(gr.point(from.t, from.r), gr.point(side, from.r+0.4), gr.point(side, to.r-0.5), gr.point(to.t, to.r))
	}
	g.put(dotted, p)
}

// triangle is the mark of an end of yarn, pointing along d.
func triangle(c, d pt) (p path) {
	p.lines(c.along(d, 0.25), c.along(d, -0.2).along(d.right(), 0.22), c.along(d, -0.2).along(d.right(), -0.22))
	p.close()
	return p
}

// picot draws chains in a ring, closed on the head of a stitch.
func (f *figure) picot(g *group, gr ground, m *made) {
	n := m.link.Chains
	if n < 2 {
		n = 3
	}
	n = min(n, 12)
	out := gr.outward(m.head.t)
	r := picotRadius(n)
	foot := gr.point(m.head.t, m.head.r)
	c := foot.along(out, r+0.22)
	var o, dot path
	for i := range n {
		a := math.Pi * 2 * (float64(i) + 0.5) / float64(n)
		// from the foot round to the foot again
		d := out.mul(-math.Cos(a)).add(out.right().mul(math.Sin(a)))
		long := math.Min(0.5, 2*r*math.Sin(math.Pi/float64(n))*1.05)
		o.ellipse(c.along(d, r), d.right(), long/2, 0.12)
	}
	g.put(stroke, o)
	dot.ellipse(foot.along(out, 0.16), out, 0.12, 0.12)
	g.put(solid, dot)
	f.used.dot = true
}

// start draws what stands beside the first stitch of a row: its number, the
// chains that are no stitch, the slip stitch that closes it.
func (f *figure) start(g *group, r *laidRow, v *level) {
	gr := r.l.g
	if len(v.start) == 2 {
		f.used.chain = true
		foot, head := gr.point(v.start[0].t, v.start[0].r), gr.point(v.start[1].t, v.start[1].r)
		n := r.links.Start
		g.chains([]pt{foot, head}, n, math.Min(chainLong, 0.95*head.sub(foot).length()/float64(n)))
	}
	for _, s := range v.join {
		var dot path
		out := gr.outward(s.t)
		dot.ellipse(gr.point(s.t, s.r).along(out, -0.1), out.right(), 0.22, 0.15)
		g.put(solid, dot)
		f.used.dot = true
	}
	for _, s := range v.attach {
		f.used.attach = true
		g.put(open, triangle(gr.point(s.t, s.r), gr.outward(s.t)))
	}
	for _, s := range v.fasten {
		f.used.fasten = true
		g.put(solid, triangle(gr.point(s.t, s.r), gr.outward(s.t).mul(-1)))
	}
	if v == r.v && len(v.made) > 0 {
		at := gr.point(v.number.t, v.number.r)
		size := 0.62
		g.labels = append(g.labels, label{at: at.add(pt{0, -0.22}), text: r.number, size: size, align: v.align, bold: true})
	}
}

// ground paints the yarn behind the stitches: each stitch has the stretch from
// half way to the one before to half way to the one after it.
func (f *figure) ground(r *laidRow, v *level) {
	gr := r.l.g
	g := group{}
	n := len(v.made)
	if n == 0 {
		return
	}
	order := make([]int, 0, n)
	for i := range n {
		k := i
		if v.dir < 0 {
			k = n - 1 - i
		}
		if v.made[k].link.Kind != pattern.LinkPicot {
			order = append(order, k)
		}
	}
	foot := func(k int) stand {
		m := &v.made[order[k]]
		s := stand{}
		for _, q := range m.feet {
			s.t += q.t / float64(len(m.feet))
			s.r += q.r / float64(len(m.feet))
		}
		if m.link.Kind == pattern.LinkSpace {
			s = stand{m.head.t, v.bottom}
		}
		return s
	}
	head := func(k int) stand {
		m := &v.made[order[k]]
		return m.head
	}
	turn := 0.0
	if gr.closed {
		turn = gr.turn()
	}
	// edge is between the k-th and the one before it
	edge := func(k int, of func(int) stand) stand {
		switch {
		case k > 0 && k < len(order):
			a, b := of(k-1), of(k)
			return stand{(a.t + b.t) / 2, (a.r + b.r) / 2}
		case turn > 0 && k == 0:
			a, b := of(len(order)-1), of(0)
			return stand{(a.t - turn + b.t) / 2, (a.r + b.r) / 2}
		case turn > 0:
			a, b := of(len(order)-1), of(0)
			return stand{(a.t + b.t + turn) / 2, (a.r + b.r) / 2}
		case k == 0:
			a := of(0)
			return stand{gr.at(gr.way(a.t, v.top)-0.5, v.top), a.r}
		}
		a := of(len(order) - 1)
		return stand{gr.at(gr.way(a.t, v.top)+0.5, v.top), a.r}
	}
	for k := range order {
		m := &v.made[order[k]]
		if m.yarn < 0 {
			continue
		}
		a, b, c, d := edge(k, foot), edge(k, head), edge(k+1, head), edge(k+1, foot)
		h := head(k)
		outline := []pt{gr.point(a.t, a.r), gr.point(b.t, b.r), gr.point(h.t, math.Max(h.r, math.Max(b.r, c.r))), gr.point(c.t, c.r), gr.point(d.t, d.r)}
		var p path
		p.lines(outline...)
		p.close()
		g.shapes = append(g.shapes, shape{paint: tint, yarn: m.yarn, path: p})
		g.hatching(m.yarn, outline)
		f.used.yarn(m.yarn)
	}
	f.behind = append(f.behind, g)
}
