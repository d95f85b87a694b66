package chart

// paint says how a path is put on the picture.
type paint uint8

const (
	stroke paint = iota // a line of the usual width
	fine                // a thin line
	dotted              // a thin dotted line
	solid               // filled with ink
	open                // filled with the ground and outlined
	tint                // filled with a yarn's colour
	hatch               // the lines of a yarn's hatching
	spot                // the dots of a yarn's hatching
)

// paints are the paints in the order in which they are put on.
var paints = []paint{tint, hatch, spot, dotted, fine, stroke, open, solid}

// shape is a path with its paint.
type shape struct {
	paint paint
	yarn  int // tint: which yarn
	path  path
}

// label is words in the picture.
type label struct {
	at    pt
	text  string
	size  float64 // height of its letters' body, in units
	align int     // -1 begins at the point, 0 is centred on it, 1 ends there
	bold  bool
}

// group is what belongs together: a row, or the legend.
type group struct {
	title  string // said to those who cannot see it
	shapes []shape
	labels []label
}

func (g *group) put(p paint, d path) {
	if len(d) > 0 {
		g.shapes = append(g.shapes, shape{paint: p, path: d})
	}
}

// letter is about how wide a letter is, for its size: enough to keep words
// apart, whatever face they are set in.
const letter = 0.58

func (l label) box() box {
	n := 0.0
	for _, r := range l.text {
		if r >= 0x1100 {
			n += 1 / letter // wide letters are about as wide as high
		} else {
			n++
		}
	}
	w := n * letter * l.size
	x := l.at.x
	switch l.align {
	case 0:
		x -= w / 2
	case 1:
		x -= w
	}
	return box{pt{x, l.at.y - 0.25*l.size}, pt{x + w, l.at.y + 0.8*l.size}}
}

func (g *group) box() box {
	b := newBox()
	for _, s := range g.shapes {
		b.join(s.path.box())
	}
	for _, l := range g.labels {
		b.join(l.box())
	}
	return b
}
