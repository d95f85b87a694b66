package layout

import (
	"math"

	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/round"
	"crochet/tallyturn/pattern/stitch"
)

// rounds draws a piece worked in rounds. It is false where nothing is known of
// its rounds.
func (p *Piece) rounds(g gauge.Gauge, terms stitch.Terms) bool {
	s, err := round.ShapeOf(p.Proof, g, terms)
	if err != nil || len(s.Rows) == 0 {
		return false
	}
	p.Unsure = len(s.Rows) < len(p.Proof.Rows)
	last := s.Rows[len(s.Rows)-1]
	switch {
	case last.Lies == round.Upright:
		p.tube(s)
	case last.Lies != round.Cups:
		p.disc(s)
		if last.Lies == round.Ruffles {
			p.Note = "ruffles"
		}
	case s.Closes():
		p.Form, p.Note = Ball, "from the side"
		p.Outline = circle(s.Widest/2, Point{0, s.Widest / 2})
		p.Width, p.Height = s.Widest, s.Widest
	default:
		p.upright(s)
	}
	p.Slack = g.Stitches.Slack(p.Width * g.Stitches.PerMM)
	return true
}

// tube lays rounds flat that stand up, cut open where they begin.
func (p *Piece) tube(s *round.Shape) {
	p.Form, p.Note = Tube, "a tube, cut open"
	y := 0.0
	var left, right []Point
	before := s.Rows[0].Edge
	for i, r := range s.Rows {
		to := y + s.Heights[i]*float64(r.Proof.Count())
		p.Bands = append(p.Bands, Band{Row: r.Proof, From: y, To: to, Left: -r.Edge / 2, Right: r.Edge / 2, starts: r.Edge / 2, dir: -1})
		if i == 0 {
			left, right = append(left, Point{-before / 2, 0}), append(right, Point{before / 2, 0})
		}
		for _, at := range []float64{y + s.Heights[i], to} {
			left, right = append(left, Point{-r.Edge / 2, at}), append(right, Point{r.Edge / 2, at})
		}
		y = to
		p.Width = max(p.Width, r.Edge)
	}
	p.Outline = append(p.Outline, left...)
	for i := len(right) - 1; i >= 0; i-- {
		p.Outline = append(p.Outline, right[i])
	}
	p.Height = y
}

// disc draws rounds that lie flat.
func (p *Piece) disc(s *round.Shape) {
	p.Form = Disc
	hole := 0.0
	if s.Straight == 0 {
		hole = s.Start / s.Flatness()
	}
	r := hole
	for i, row := range s.Rows {
		to := r + s.Heights[i]*float64(row.Proof.Count())
		p.Bands = append(p.Bands, Band{Row: row.Proof, From: r, To: to, dir: 1})
		r = to
	}
	switch {
	case s.Straight > 0:
		p.Outline = stadium(r, s.Straight)
	case s.Corners > 0:
		p.Outline = polygon(s.Corners, r)
	default:
		p.Outline = circle(r, Point{})
	}
	if hole > 0 {
		p.Hole = circle(hole, Point{})
	}
	low, high := bounds(p.Outline)
	p.Width, p.Height = high.X-low.X, high.Y-low.Y
}

// upright draws rounds that cup from the side, as they stand with their last
// round up.
func (p *Piece) upright(s *round.Shape) {
	p.Form, p.Note = Upright, "from the side"
	var left, right []Point
	if s.Straight == 0 && s.Start > 0 {
		left, right = append(left, Point{-s.Start / s.Flatness(), 0}), append(right, Point{s.Start / s.Flatness(), 0})
	}
	for _, q := range s.Profile {
		left, right = append(left, Point{-q.Out, q.Up}), append(right, Point{q.Out, q.Up})
	}
	p.Outline = append(p.Outline, left...)
	for i := len(right) - 1; i >= 0; i-- {
		p.Outline = append(p.Outline, right[i])
	}
	low, high := bounds(p.Outline)
	p.Width, p.Height = high.X-low.X, high.Y-low.Y
}

// corners of a circle that is drawn as a polygon.
const facets = 72

func circle(r float64, at Point) []Point {
	out := make([]Point, facets)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / facets)
		out[i] = Point{at.X + r*cos, at.Y + r*sin}
	}
	return out
}

// stadium is an oval: two half circles with a straight part between them.
func stadium(r, straight float64) []Point {
	var out []Point
	for i := 0; i <= facets/2; i++ {
		sin, cos := math.Sincos(2*math.Pi*float64(i)/facets - math.Pi/2)
		out = append(out, Point{straight/2 + r*cos, r * sin})
	}
	for i := 0; i <= facets/2; i++ {
		sin, cos := math.Sincos(2*math.Pi*float64(i)/facets + math.Pi/2)
		out = append(out, Point{-straight/2 + r*cos, r * sin})
	}
	return out
}

// polygon has its corners so that one side lies along the bottom; r is how far
// its sides are from its middle.
func polygon(corners int, r float64) []Point {
	out := make([]Point, corners)
	far := r / math.Cos(math.Pi/float64(corners))
	for i := range out {
		sin, cos := math.Sincos(2*math.Pi*(float64(i)+0.5)/float64(corners) - math.Pi/2)
		out[i] = Point{far * cos, far * sin}
	}
	return out
}
