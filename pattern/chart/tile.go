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
	nx, stepX := pieces(w, tileWide)
	ny, stepY := pieces(h, tileHigh)
	for y := range ny {
		for x := range nx {
			lo := pt{b.max.x - stepX - float64(x)*(stepX-overlap), b.min.y + float64(y)*(stepY-overlap)}
			c.tiles = append(c.tiles, box{lo, pt{lo.x + stepX, lo.y + stepY}})
		}
	}
}

// pieces is how many parts of at most a length something comes in, with what
// they share, and how long each is.
func pieces(length, most float64) (n int, each float64) {
	if length <= most*1.1 {
		return 1, length
	}
	n = int(math.Ceil((length - overlap) / (most - overlap)))
	return n, (length-overlap)/float64(n) + overlap
}

// Tiles is how many parts the chart comes in.
func (c *Chart) Tiles() int { return len(c.tiles) }
