package chart

import "math"

// pt is a point of the drawing in units of a single crochet; y runs up.
type pt struct{ x, y float64 }

func (p pt) add(q pt) pt              { return pt{p.x + q.x, p.y + q.y} }
func (p pt) sub(q pt) pt              { return pt{p.x - q.x, p.y - q.y} }
func (p pt) mul(f float64) pt         { return pt{p.x * f, p.y * f} }
func (p pt) length() float64          { return math.Hypot(p.x, p.y) }
func (p pt) right() pt                { return pt{p.y, -p.x} } // a quarter turn clockwise
func (p pt) to(q pt, f float64) pt    { return pt{p.x + (q.x-p.x)*f, p.y + (q.y-p.y)*f} }
func (p pt) along(d pt, n float64) pt { return pt{p.x + d.x*n, p.y + d.y*n} }

// unit is the direction of p; up where it has none.
func (p pt) unit() pt {
	n := p.length()
	if n < 1e-9 {
		return pt{0, 1}
	}
	return pt{p.x / n, p.y / n}
}

// box is a rectangle; it is empty while max is less than min.
type box struct{ min, max pt }

func newBox() box {
	inf := math.Inf(1)
	return box{pt{inf, inf}, pt{-inf, -inf}}
}

func (b *box) empty() bool { return b.max.x < b.min.x }

func (b *box) point(p pt) {
	b.min.x, b.min.y = math.Min(b.min.x, p.x), math.Min(b.min.y, p.y)
	b.max.x, b.max.y = math.Max(b.max.x, p.x), math.Max(b.max.y, p.y)
}

func (b *box) join(c box) {
	if !c.empty() {
		b.point(c.min)
		b.point(c.max)
	}
}

func (b box) grown(by float64) box {
	return box{pt{b.min.x - by, b.min.y - by}, pt{b.max.x + by, b.max.y + by}}
}

func (b box) meets(c box) bool {
	return b.min.x < c.max.x && c.min.x < b.max.x && b.min.y < c.max.y && c.min.y < b.max.y
}

// seg is a piece of a path: 'M' and 'L' use the first point, 'C' all three,
// 'Z' none.
type seg struct {
	op byte
	p  [3]pt
}

type path []seg

func (p *path) move(a pt)        { *p = append(*p, seg{op: 'M', p: [3]pt{a}}) }
func (p *path) line(a pt)        { *p = append(*p, seg{op: 'L', p: [3]pt{a}}) }
func (p *path) curve(a, b, c pt) { *p = append(*p, seg{op: 'C', p: [3]pt{a, b, c}}) }
func (p *path) close()           { *p = append(*p, seg{op: 'Z'}) }

func (p *path) lines(pts ...pt) {
	for i, a := range pts {
		if i == 0 {
			p.move(a)
		} else {
			p.line(a)
		}
	}
}

// quarter is how far the handles of a cubic stand off for a quarter circle.
const quarter = 0.5522847498

// ellipse adds a closed ellipse round c with the half axis a along d and the
// half axis b across it.
func (p *path) ellipse(c, d pt, a, b float64) {
	u, v := d.unit().mul(a), d.unit().right().mul(b)
	k := quarter
	at := func(fu, fv float64) pt { return c.add(u.mul(fu)).add(v.mul(fv)) }
	p.move(at(1, 0))
	p.curve(at(1, k), at(k, 1), at(0, 1))
	p.curve(at(-k, 1), at(-1, k), at(-1, 0))
	p.curve(at(-1, -k), at(-k, -1), at(0, -1))
	p.curve(at(k, -1), at(1, -k), at(1, 0))
	p.close()
}

// pieces are small boxes that together hold the path, with the width of its
// line.
func (p path) pieces() (out []box) {
	const step, half = 0.15, 0.06
	var at, start pt
	add := func(ps ...pt) {
		b := newBox()
		for _, q := range ps {
			b.point(q)
		}
		out = append(out, b.grown(half))
	}
	to := func(q pt) {
		n := math.Ceil(math.Max(q.sub(at).length()/step, 1))
		for k := 0.0; k < n; k++ {
			add(at.to(q, k/n), at.to(q, (k+1)/n))
		}
		at = q
	}
	for _, s := range p {
		switch s.op {
		case 'M':
			at, start = s.p[0], s.p[0]
		case 'L':
			to(s.p[0])
		case 'C':
			add(at, s.p[0], s.p[1], s.p[2])
			at = s.p[2]
		case 'Z':
			to(start)
		}
	}
	return out
}

// box is the rectangle round the points of the path and their handles.
func (p path) box() box {
	b := newBox()
	for _, s := range p {
		n := 1
		switch s.op {
		case 'C':
			n = 3
		case 'Z':
			n = 0
		}
		for _, q := range s.p[:n] {
			b.point(q)
		}
	}
	return b
}
