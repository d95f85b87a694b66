package tui

import (
	"fmt"
	"math"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/layout"
)

// The overview is every piece laid flat, to the scale of its gauge, each where
// it is joined to others: rows that are worked are filled, the row in hand is
// lit, rows to come are dotted. A cell has two by four dots, so that the dots
// are as wide apart as they are high.

// overviewing is the mode in which the overview lies over the row.
const overviewing mode = 100

var keyOverview = bind("o", "overview: all pieces to scale, with what is worked", "o", "O")

// survey is the layout that was worked out last.
type survey struct {
	proof  *pattern.Proof
	layout *layout.Layout
}

// showOverview shows all pieces.
func (w *Walk) showOverview() {
	proof := w.state.Plan().Proof()
	if proof == nil {
		w.note = "There are no pieces to look at."
		return
	}
	if w.survey.proof != proof {
		g, _ := gauge.Stated(proof) // without one the proportions are right all the same
		w.survey = survey{proof, layout.Of(proof, g)}
	}
	w.enter(overviewing)
}

// patchState is how far a patch of a piece is.
type patchState uint8

const (
	patchNone patchState = iota
	patchCome
	patchDone
	patchHand
)

// copyShown is where the copy of a piece is that the overview shows: the one in
// hand, or else the one that is furthest without being done, or one that is.
// Made is how many copies are worked to their end.
func copyShown(s counter.State, piece int) (at counter.Place, made int) {
	plan := s.Plan()
	best := -1
	for c := range min(plan.Copies(piece), 1000) {
		p, ok := s.PlaceOf(piece, c)
		if !ok {
			break
		}
		whole := p.Row >= plan.Rows(piece)
		if whole {
			made++
		}
		if s.Piece() == piece && s.Copy() == c {
			at, best = p, math.MaxInt
		} else if !whole && p.Row > best {
			at, best = p, p.Row
		}
	}
	if best < 0 && made > 0 {
		at.Row = plan.Rows(piece)
	}
	return at, made
}

// surveyed finds how far the work is at points of the layout.
type surveyed struct {
	layout *layout.Layout
	places []counter.Place // by piece
	hand   int             // the piece in hand; -1 for none
}

func (w *Walk) surveyed() surveyed {
	v := surveyed{layout: w.survey.layout, hand: -1}
	for i := range v.layout.Pieces {
		at, _ := copyShown(w.state, i)
		v.places = append(v.places, at)
	}
	if !w.state.Finished() {
		v.hand = w.state.Piece()
	}
	return v
}

// patch is what lies at a point.
type patch struct {
	state      patchState
	piece, row int
}

// at is what lies at a point, in mm: of several pieces the one that is furthest.
func (v surveyed) at(x, y float64) patch {
	best := patch{}
	for i, p := range v.layout.Pieces {
		if len(p.Outline) == 0 {
			continue
		}
		sin, cos := math.Sincos(-p.Turn)
		dx, dy := x-p.At.X, y-p.At.Y
		own := layout.Point{X: dx*cos - dy*sin, Y: dx*sin + dy*cos}
		if !within(p.Outline, own) || within(p.Hole, own) {
			continue
		}
		high := own.Y
		if p.Form == layout.Disc {
			high = math.Hypot(own.X, own.Y)
		}
		now := patch{patchCome, i, rowOf(p, high)}
		switch {
		case now.row < v.places[i].Row:
			now.state = patchDone
		case now.row == v.places[i].Row && i == v.hand:
			now.state = patchHand
		}
		if now.state > best.state {
			best = now
		}
	}
	return best
}

// rowOf is the row of a piece at a height, or a radius. Rounds that are seen from
// the side do not tell theirs: they lie along a half circle, evenly.
func rowOf(p *layout.Piece, high float64) int {
	n := len(p.Bands)
	if n > 0 && p.Bands[n-1].To > p.Bands[0].From {
		return rowAt(p.Bands, high)
	}
	rows := p.Proof.Len()
	low, top := math.Inf(1), math.Inf(-1)
	for _, q := range p.Outline {
		low, top = min(low, q.Y), max(top, q.Y)
	}
	share := min(max((high-low)/(top-low), 0), 1)
	if p.Form == layout.Ball {
		share = math.Acos(1-2*share) / math.Pi
	}
	return min(int(share*float64(rows)), rows-1)
}

// rowAt is the row of bands at a height over its base, or a radius.
func rowAt(bands []layout.Band, high float64) int {
	for _, b := range bands {
		if high < b.To {
			n := b.Row.Count()
			share := (high - b.From) / (b.To - b.From)
			return b.Row.Index + min(max(int(share*float64(n)), 0), n-1)
		}
	}
	if len(bands) == 0 {
		return 0
	}
	last := bands[len(bands)-1].Row
	return last.Index + last.Count() - 1
}

// within reports whether a point lies in an outline.
func within(outline []layout.Point, q layout.Point) bool {
	in := false
	for i, j := 0, len(outline)-1; i < len(outline); j, i = i, i+1 {
		a, b := outline[i], outline[j]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < (b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// brailleDots are the bits of a cell's dots, by line and column.
var brailleDots = [4][2]rune{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

// mesh is the layout as dots, two by four of them to a cell.
type mesh struct {
	wide, high int
	dots       []patch
}

func (m *mesh) at(x, y int) patch {
	if x < 0 || y < 0 || x >= m.wide || y >= m.high {
		return patch{}
	}
	return m.dots[y*m.wide+x]
}

// inked reports whether a dot is drawn. What is worked is filled, with a line
// left free between rows; what is to come has its outline, and its rows as
// dotted lines.
func (m *mesh) inked(x, y int) bool {
	d := m.at(x, y)
	if d.state == patchNone || d.state == patchHand {
		return d.state == patchHand
	}
	same := func(e patch) bool { return e.state != patchNone && e.piece == d.piece }
	seam, along := false, 0 // the next row begins beside it, and this one is not thin
	for _, way := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
		e, back := m.at(x+way[0], y+way[1]), m.at(x-2*way[0], y-2*way[1])
		if !same(e) {
			return true
		}
		if e.row == d.row+1 && same(back) && back.row == d.row {
			seam, along = true, x*way[1]+y*way[0]
		}
	}
	if d.state == patchDone {
		return !seam
	}
	thin := m.at(x-1, y).row != d.row && m.at(x+1, y).row != d.row || m.at(x, y-1).row != d.row && m.at(x, y+1).row != d.row
	return seam && along%2 == 0 || thin && (x+y)%4 == 0 && x%2 == 0
}

// draw draws the layout at most so large, and with names writes into each piece
// what it is called, where there is room.
func (v surveyed) draw(columns, lines int, ascii bool, names []string) [][]span {
	l := v.layout
	w, h := l.Max.X-l.Min.X, l.Max.Y-l.Min.Y
	if !(w > 0) || !(h > 0) || columns < 4 || lines < 2 {
		return nil
	}
	dot := max(w/float64(2*columns), h/float64(4*lines)) // mm from dot to dot
	columns = min(columns, int(math.Ceil(w/dot/2-1e-9)))
	lines = min(lines, int(math.Ceil(h/dot/4-1e-9)))
	m := &mesh{wide: 2 * columns, high: 4 * lines}
	for y := range m.high {
		for x := range m.wide {
			m.dots = append(m.dots, v.at(l.Min.X+(float64(x)+0.5)*dot, l.Max.Y-(float64(y)+0.5)*dot))
		}
	}
	bright := m.bright()
	cellsOf := make([]cellLine, lines)
	for y := range lines {
		line := newCellLine(columns)
		for x := range columns {
			var cell rune
			most, lit, seen := patchNone, 0, 0
			for j := range 4 {
				for i := range 2 {
					d := m.at(2*x+i, 4*y+j)
					most = max(most, d.state)
					if d.state != patchNone {
						seen++
					}
					if d.state == patchHand {
						lit++
					}
					if m.inked(2*x+i, 4*y+j) {
						cell |= brailleDots[j][i]
					}
				}
			}
			switch {
			case seen == 0:
				continue
			case ascii:
				cell = [...]rune{patchCome: '.', patchDone: '+', patchHand: '#'}[most]
			case lit >= bright:
				cell = '█'
			case cell == 0:
				continue
			default:
				cell += 0x2800
			}
			line.put(x, cell, [...]role{patchCome: edge, patchDone: markDone, patchHand: accent}[most])
		}
		cellsOf[y] = line
	}
	for i, name := range names {
		m.name(cellsOf, i, name)
	}
	out := make([][]span, lines)
	for y := range cellsOf {
		out[y] = cellsOf[y].spans()
	}
	return out
}

// bright is how many dots of the row in hand make a cell of it a block, so that
// it stands out without colour: half a cell, or fewer where none has as many.
func (m *mesh) bright() int {
	most := 1
	for y := 0; y < m.high; y += 4 {
		for x := 0; x < m.wide; x += 2 {
			n := 0
			for k := range 8 {
				if m.at(x+k%2, y+k/2).state == patchHand {
					n++
				}
			}
			most = max(most, n)
		}
	}
	return min(most, 4)
}

// name writes the name of a piece into it, on the line nearest its middle that
// has room for it.
func (m *mesh) name(lines []cellLine, piece int, name string) {
	need := cells(name) + 4 // air beside it, and an edge
	if name == "" || need != len([]rune(name))+4 {
		return
	}
	top, low := len(lines), -1
	type place struct{ y, x int }
	var places []place
	for y := range lines {
		in := func(x int) bool {
			for j := range 4 {
				for i := range 2 {
					if d := m.at(2*x+i, 4*y+j); d.state == patchNone || d.piece != piece {
						return false
					}
				}
			}
			return true
		}
		best, from := 0, 0
		for x := 0; x < m.wide/2; {
			e := x
			for e < m.wide/2 && in(e) {
				e++
			}
			if e > x {
				top, low = min(top, y), max(low, y)
			}
			if e-x > best {
				best, from = e-x, x
			}
			x = max(e, x+1)
		}
		if best >= need {
			places = append(places, place{y, from + (best-need)/2 + 1})
		}
	}
	if len(places) == 0 || low-top < 2 { // the name would hide it
		return
	}
	best := places[0]
	for _, p := range places {
		if math.Abs(float64(2*p.y-top-low)) < math.Abs(float64(2*best.y-top-low)) {
			best = p
		}
	}
	lines[best.y].put(best.x, ' ', base)
	x := best.x + 1
	for _, r := range name {
		lines[best.y].put(x, r, strong)
		x++
	}
	lines[best.y].put(x, ' ', base)
}

// legend says of each piece how far it is.
func (f *frame) legend() (out [][]span) {
	w := f.w
	plan := w.state.Plan()
	for i := range plan.Pieces() {
		if plan.Rows(i) == 0 {
			continue
		}
		at, made := copyShown(w.state, i)
		name := pieceName(plan, i)
		if name == "" {
			name = "the piece"
		}
		sign, ink := "  ", base
		words := fmt.Sprintf("%d of %s", min(at.Row, plan.Rows(i)), count(int64(plan.Rows(i)), "row"))
		switch {
		case i == w.state.Piece() && !w.state.Finished():
			sign, ink = "▸ ", strong
			words = f.sc.rowLine() + " · " + f.sc.stitchLine()
		case made > 0 && made == plan.Copies(i):
			sign, ink, words = doneSign+" ", done, "worked"
		}
		if n := plan.Copies(i); n > 1 {
			words += fmt.Sprintf(", %d of %d made", made, n)
		}
		// The count is what is looked for, so a name gives way to it.
		name = clip(name, max(f.inner-cells(sign)-cells("  "+words), cells("a…")))
		out = append(out, []span{{ink, sign + name}, {quiet, "  " + words}})
	}
	return out
}

// overview is the frame of it.
func (f *frame) overview() {
	f.heading()
	legend := f.legend()
	hand := 0
	for i, l := range legend {
		if len(l) > 0 && strings.HasPrefix(l[0].text, "▸") {
			hand = i
		}
	}
	room := f.height - 3
	most := max(min(len(legend), room/3), 1)
	legend = scroll(legend, hand, most, f.inner)
	room -= len(legend)
	var names []string
	for i := range f.w.survey.layout.Pieces {
		names = append(names, pieceName(f.w.state.Plan(), i))
	}
	air := 1
	if room > 12 {
		air = 3
	}
	picture := f.w.surveyed().draw(f.inner, max(room-air, 1), f.theme.look.ASCII, names)
	wide := 0
	for _, l := range picture {
		wide = max(wide, spanCells(l))
	}
	indent := span{base, strings.Repeat(" ", max((f.inner-wide)/2, 0))}
	f.blank(max((room-len(picture))/2, 0))
	for _, l := range picture {
		f.put(append([]span{indent}, l...)...)
	}
	for len(f.lines) < f.height-2-len(legend) {
		f.blank(1)
	}
	f.lines = f.lines[:max(min(len(f.lines), f.height-2-len(legend)), 0)]
	for _, l := range legend {
		f.put(l...)
	}
	scale := "to the scale of the gauge"
	if f.w.survey.layout.Nominal {
		scale = "no gauge is stated: the proportions are those of single crochet"
	}
	note := span{quiet, scale}
	if f.w.note != "" {
		note = span{base, f.w.note}
	}
	f.put(note)
	f.line(f.w.buttonRow().spans()...)
}

// overviewKeys are the keys of the overview.
func overviewKeys() []key.Binding { return []key.Binding{keyCloseOverview, keyEsc} }

var keyCloseOverview = bind("Enter", "close the overview", "enter", "ctrl+j", " ", "o")
