package layout

import "math"

// apart is the room between pieces that do not join, as a share of the whole.
const apart = 0.04

// pack sets the pieces that sit on no other side by side, each with those that
// sit on it, in rows from the top left.
func (l *Layout) pack() {
	group := make([]int, len(l.Pieces)) // the piece that each stands on in the end
	boxes := map[int][2]Point{}
	area, widest := 0.0, 0.0
	for i, p := range l.Pieces {
		group[i] = i
		if p.Seat != nil {
			group[i] = group[p.Seat.Host]
			h := l.Pieces[p.Seat.Host]
			p.At, p.Turn = h.Point(p.At), p.Turn+h.Turn
		}
		if len(p.Outline) == 0 {
			continue
		}
		low, high := bounds(p.Placed())
		if box, ok := boxes[group[i]]; ok {
			low = Point{min(low.X, box[0].X), min(low.Y, box[0].Y)}
			high = Point{max(high.X, box[1].X), max(high.Y, box[1].Y)}
		}
		boxes[group[i]] = [2]Point{low, high}
	}
	for _, i := range order(boxes) {
		b := boxes[i]
		area += (b[1].X - b[0].X) * (b[1].Y - b[0].Y)
		widest = max(widest, b[1].X-b[0].X)
	}
	gap := apart*max(widest, math.Sqrt(area)) + 1
	across := max(widest, 2*math.Sqrt(area))
	moved := map[int]Point{}
	x, y, deep := 0.0, 0.0, 0.0
	for _, i := range order(boxes) {
		b := boxes[i]
		w, h := b[1].X-b[0].X, b[1].Y-b[0].Y
		if x > 0 && x+w > across {
			x, y, deep = 0, y-deep-gap, 0
		}
		moved[i] = Point{x - b[0].X, y - b[1].Y}
		x += w + gap
		deep = max(deep, h)
	}
	l.Min, l.Max = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for i, p := range l.Pieces {
		m := moved[group[i]]
		p.At = Point{p.At.X + m.X, p.At.Y + m.Y}
		if len(p.Outline) == 0 {
			continue
		}
		low, high := bounds(p.Placed())
		l.Min = Point{min(low.X, l.Min.X), min(low.Y, l.Min.Y)}
		l.Max = Point{max(high.X, l.Max.X), max(high.Y, l.Max.Y)}
	}
	if l.Min.X > l.Max.X {
		l.Min, l.Max = Point{}, Point{}
	}
}

// order is the groups in the order of the pattern.
func order(boxes map[int][2]Point) []int {
	out := make([]int, 0, len(boxes))
	for i := 0; len(out) < len(boxes); i++ {
		if _, ok := boxes[i]; ok {
			out = append(out, i)
		}
	}
	return out
}
