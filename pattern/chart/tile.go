package chart

import "math"

// A chart is cut where it is larger than a page can show: more than tileWide
// by tileHigh units, room for sixty single crochet by sixty rows of them or,
// round, twelve rounds of double crochet.
const (
	tileWide = 66.0
	tileHigh = 66.0
	overlap  = 3.0 // what two tiles side by side share
)

// extent is the box round all that was drawn.
func (c *Chart) extent() box {
	b := newBox()
	for i := range c.groups {
		b.join(c.groups[i].box())
	}
	if b.empty() {
		b.point(pt{})
	}
	return b.grown(0.4)
}

// cut decides on the tiles: in reading order, from the right of the lowest
// line where rows begin.
func (c *Chart) cut() {
	b := c.extent()
	w, h := b.max.x-b.min.x, b.max.y-b.min.y
	count := func(n, of float64) int {
		if n <= of*1.1 {
			return 1
		}
		return int(math.Ceil((n - overlap) / (of - overlap)))
	}
	nx, ny := count(w, tileWide), count(h, tileHigh)
	stepX, stepY := w, h
	if nx > 1 {
		stepX = (w-overlap)/float64(nx) + overlap
	}
	if ny > 1 {
		stepY = (h-overlap)/float64(ny) + overlap
	}
	for y := range ny {
		for x := range nx {
			lo := pt{b.max.x - stepX - float64(x)*(stepX-overlap), b.min.y + float64(y)*(stepY-overlap)}
			c.tiles = append(c.tiles, box{lo, pt{lo.x + stepX, lo.y + stepY}})
		}
	}
}

// Tiles is how many parts the chart comes in.
func (c *Chart) Tiles() int { return len(c.tiles) }
