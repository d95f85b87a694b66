package layout

import (
	"math"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// Point is a point of the plane, in mm.
type Point struct{ X, Y float64 }

// Form is how a piece is drawn.
type Form uint8

// The forms of a piece.
const (
	Rows    Form = iota // row over row
	Disc                // rounds that lie flat, or ruffle: a circle, an oval, a square
	Tube                // rounds that stand up: cut open along their beginning, and laid flat
	Upright             // rounds that cup: seen from the side
	Ball                // rounds that close: seen from the side
	Unsized             // nobody knows how many stitches its rows have
)

// Band is a row, or several alike, in its piece.
type Band struct {
	Row    *pattern.RowProof
	From   float64 // where it begins: its height over the base or, of a disc, its radius
	To     float64 // where it ends
	Left   float64 // its ends at To; of a disc 0
	Right  float64
	starts float64 // x of its first stitch, and which way it runs
	dir    float64
}

// Piece is a piece laid flat.
type Piece struct {
	Proof   *pattern.PieceProof
	Form    Form
	Outline []Point // in its own coordinates: the middle of its base, or of its rounds, is 0, 0
	Hole    []Point // of a ring; else nil
	Bands   []Band  // as the rows of the proof
	Width   float64 // mm
	Height  float64
	Slack   float64 // by how much the width may be off, as far as the places of the swatch differ
	Unsure  bool    // some of its rows have no known number of stitches
	Note    string  // how it lies, where that is not flat

	Seat *Seat   // where it sits on another piece; nil where it does not, or cannot be shown
	At   Point   // where its own 0, 0 is in the layout
	Turn float64 // by which angle it is turned, in radians, anticlockwise
}

// Layout is all pieces, placed.
type Layout struct {
	Pieces   []*Piece // as in the proof
	Gauge    gauge.Gauge
	Nominal  bool // there is no gauge: only the proportions mean anything
	Squared  bool // the gauge lacks stitches or rows, which were taken to be as wide as high
	Min, Max Point
}

// unsizedMM is how wide and high a stitch is drawn where there is no gauge.
const unsizedMM = 5

// Of lays out a proven pattern. A gauge of nothing gives a drawing of the right
// proportions for single crochet, and no sizes.
func Of(p *pattern.Proof, g gauge.Gauge) *Layout {
	l := &Layout{Gauge: g}
	g = l.whole(p, g)
	links := make([][]pattern.RowLinks, len(p.Pieces))
	for i, pc := range p.Pieces {
		links[i] = p.Links(i, mostPlaces)
		l.Pieces = append(l.Pieces, pieceOf(pc, g, p.Terms, links[i]))
	}
	for i := range l.Pieces {
		l.seat(i, links)
	}
	l.pack()
	return l
}

// whole gives a gauge the stitches or rows that it lacks.
func (l *Layout) whole(p *pattern.Proof, g gauge.Gauge) gauge.Gauge {
	first, kinds := firstRow(p)
	if g.Stitches.Known() && g.Kind == gauge.BySpace && first != nil && gauge.Spaces(first) > 0 {
		// squares of a mesh are as high as they are wide
		squares := g.Stitches
		across := gauge.Widths(&pattern.PieceProof{Rows: []*pattern.RowProof{first}})[0]
		g.Kind, g.Stitches.PerMM = gauge.ByStitch, squares.PerMM*across/float64(gauge.Spaces(first))
		g.Stitches.Spread *= across / float64(gauge.Spaces(first))
		if !g.Rows.Known() {
			g.Rows, g.Stitch = squares, kinds
		}
	}
	tall := 1.0
	switch stitches, rows := g.Stitches.Known() && g.Kind == gauge.ByStitch, g.Rows.Known(); {
	case !stitches && !rows:
		l.Nominal = true
		g = gauge.Gauge{Stitch: stitch.SC}
		g.Stitches.PerMM, g.Rows.PerMM = 1.0/unsizedMM, 1.0/unsizedMM
	case !stitches:
		l.Squared = true
		if g.Stitch == stitch.None {
			g.Stitch = kinds
		}
		if g.Stitch != stitch.None {
			tall = gauge.Tall(g.Stitch)
		}
		g.Kind, g.Stitches = gauge.ByStitch, g.Rows
		g.Stitches.PerMM *= tall
	case !rows:
		l.Squared = true
		if g.Stitch == stitch.None {
			g.Stitch = kinds
		}
		if g.Stitch != stitch.None {
			tall = gauge.Tall(g.Stitch)
		}
		g.Rows = g.Stitches
		g.Rows.PerMM /= tall
	}
	return g
}

// firstRow is the first row with spaces, or else the first whose stitches are
// known, and the stitch that it has most of.
func firstRow(p *pattern.Proof) (*pattern.RowProof, stitch.ID) {
	var first *pattern.RowProof
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			if n, known := r.Expect(); !known || n < 1 || first != nil && gauge.Spaces(r) == 0 {
				continue
			}
			if first = r; gauge.Spaces(r) > 0 {
				return r, mostOf(r, p.Terms)
			}
		}
	}
	if first == nil {
		return nil, stitch.None
	}
	return first, mostOf(first, p.Terms)
}

func mostOf(r *pattern.RowProof, terms stitch.Terms) stitch.ID {
	lex := stitch.LexiconFor(terms)
	best, most := stitch.None, int64(0)
	for _, k := range r.ByKind {
		if id, _ := lex.Find(k.Name); id != stitch.None && k.N > most {
			best, most = id, k.N
		}
	}
	if best != stitch.None && gauge.Tall(best) < 1 {
		return stitch.None
	}
	return best
}

// mostPlaces is the longest row whose stitches are followed one by one; the
// rows of longer ones are drawn one above the other's middle.
const mostPlaces = 5000

func pieceOf(pc *pattern.PieceProof, g gauge.Gauge, terms stitch.Terms, links []pattern.RowLinks) *Piece {
	p := &Piece{Proof: pc}
	if len(pc.Rows) > 0 && pc.Rows[0].Kind == pattern.Round && p.rounds(g, terms) {
		return p
	}
	p.rows(g, terms, links)
	return p
}

// Placed is the outline of a piece where it is in the layout.
func (p *Piece) Placed() []Point { return p.place(p.Outline) }

// PlacedHole is the hole of a ring where it is in the layout.
func (p *Piece) PlacedHole() []Point { return p.place(p.Hole) }

func (p *Piece) place(own []Point) []Point {
	out := make([]Point, len(own))
	for i, q := range own {
		out[i] = p.Point(q)
	}
	return out
}

// Point is a point of the piece where it is in the layout.
func (p *Piece) Point(q Point) Point {
	sin, cos := math.Sincos(p.Turn)
	return Point{p.At.X + q.X*cos - q.Y*sin, p.At.Y + q.X*sin + q.Y*cos}
}

// bounds is the smallest upright box about points.
func bounds(points []Point) (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, q := range points {
		low = Point{min(low.X, q.X), min(low.Y, q.Y)}
		high = Point{max(high.X, q.X), max(high.Y, q.Y)}
	}
	return low, high
}
