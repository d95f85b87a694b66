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

// The faces of the sheet.
const (
	roman = iota
	bold
	theEast
)

// faceOf is the type of the sheet. All come with the program and are read in a
// test, so they can be read. That of the East is only unpacked for the use of
// it.
var faceOf = [3]func() face{
	roman:   sync.OnceValue(func() face { return parse(dejavusans.TTF) }),
	bold:    sync.OnceValue(func() face { return parse(dejavusansbold.TTF) }),
	theEast: sync.OnceValue(func() face { return parse(eastern()) }),
}

func parse(ttf []byte) face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err)
	}
	return face{f, fixed.Int26_6(f.UnitsPerEm()) << 6}
}

// has reports whether the type, plain and bold, has a character.
func has(r rune) bool {
	var b sfnt.Buffer
	for _, f := range faceOf[:theEast] {
		if i, err := f().font.GlyphIndex(&b, r); err != nil || i == 0 {
			return false
		}
	}
	return true
}

// letters turns the words of a mark into its path.
func (m *mark) letters() {
	text := visual(printable(m.text))
	own := faceOf[roman]
	if m.bold {
		own = faceOf[bold]
	}
	var b sfnt.Buffer
	type glyph struct {
		face
		id   sfnt.GlyphIndex
		x    float64
		unit float64
	}
	var glyphs []glyph
	wide := 0.0
	for _, r := range text {
		f := own()
		if isEastern(r) {
			f = faceOf[theEast]()
		}
		unit := m.size / float64(f.em)
		id, err := f.font.GlyphIndex(&b, r)
		if err != nil {
			continue
		}
		adv, err := f.font.GlyphAdvance(&b, id, f.em, 0)
		if err != nil {
			continue
		}
		glyphs = append(glyphs, glyph{f, id, wide, unit})
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
		segments, err := g.font.LoadGlyph(&b, g.id, g.em, nil)
		if err != nil {
			continue
		}
		at := func(p fixed.Point26_6) (float64, float64) {
			return x + g.x + float64(p.X)*g.unit, m.y + float64(p.Y)*g.unit
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
