package pdf

import (
	"sync"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// face is a font whose outlines are known.
type face struct {
	font *sfnt.Font
	em   fixed.Int26_6
}

// faces are the type of the sheet, plain and bold. Both come with the program
// and are read in a test, so they can be read.
var faces = sync.OnceValue(func() (out [2]face) {
	for i, ttf := range [][]byte{dejavusans.TTF, dejavusansbold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic(err)
		}
		out[i] = face{f, fixed.Int26_6(f.UnitsPerEm()) << 6}
	}
	return out
})

// has reports whether the type, plain and bold, has a character.
func has(r rune) bool {
	var b sfnt.Buffer
	for _, f := range faces() {
		if i, err := f.font.GlyphIndex(&b, r); err != nil || i == 0 {
			return false
		}
	}
	return true
}

// letters turns the words of a mark into its path.
func (m *mark) letters() {
	text := visual(printable(m.text))
	f := faces()[0]
	if m.bold {
		f = faces()[1]
	}
	var b sfnt.Buffer
	unit := m.size / float64(f.em)
	type glyph struct {
		id sfnt.GlyphIndex
		x  float64
	}
	var glyphs []glyph
	wide := 0.0
	for _, r := range text {
		id, err := f.font.GlyphIndex(&b, r)
		if err != nil {
			continue
		}
		adv, err := f.font.GlyphAdvance(&b, id, f.em, 0)
		if err != nil {
			continue
		}
		glyphs = append(glyphs, glyph{id, wide})
		wide += float64(adv) * unit
	}
	x := m.x
	switch m.anchor {
	case "middle":
		x -= wide / 2
	case "end":
		x -= wide
	}
	m.path = nil
	for _, g := range glyphs {
		segments, err := f.font.LoadGlyph(&b, g.id, f.em, nil)
		if err != nil {
			continue
		}
		at := func(p fixed.Point26_6) (float64, float64) {
			return x + g.x + float64(p.X)*unit, m.y + float64(p.Y)*unit
		}
		var lx, ly float64
		for i, s := range segments {
			px, py := at(s.Args[0])
			switch s.Op {
			case sfnt.SegmentOpMoveTo:
				if i > 0 {
					m.path = append(m.path, move{op: 'Z'})
				}
				m.path = append(m.path, move{'M', [6]float64{px, py}})
			case sfnt.SegmentOpLineTo:
				m.path = append(m.path, move{'L', [6]float64{px, py}})
			case sfnt.SegmentOpQuadTo:
				qx, qy := at(s.Args[1])
				m.path = append(m.path, move{'C', [6]float64{lx + (px-lx)*2/3, ly + (py-ly)*2/3, qx + (px-qx)*2/3, qy + (py-qy)*2/3, qx, qy}})
				px, py = qx, qy
			case sfnt.SegmentOpCubeTo:
				qx, qy := at(s.Args[1])
				rx, ry := at(s.Args[2])
				m.path = append(m.path, move{'C', [6]float64{px, py, qx, qy, rx, ry}})
				px, py = rx, ry
			}
			lx, ly = px, py
		}
		if len(segments) > 0 {
			m.path = append(m.path, move{op: 'Z'})
		}
	}
	m.stroke = "none"
}
