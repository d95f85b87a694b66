package pdf

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// drawing is a picture of the sheet, ready to be printed as lines.
type drawing struct {
	width, height float64 // in its own units
	mm            float64 // how many mm one of them is; 0 where it does not say
	marks         []mark
}

// mark is a path, or words, of a drawing.
type mark struct {
	path []move
	text string
	x, y float64
	look
	clip *[4]float64 // x, y, width and height of what is seen of it
}

// move is one step of a path: 'M', 'L', 'C' or 'Z', as SVG has them.
type move struct {
	op byte
	p  [6]float64
}

// look is how something is painted, handed down from what it stands in.
type look struct {
	fill, stroke string // "#rrggbb" or "none"
	fillShade    float64
	strokeShade  float64
	wide, size   float64
	round        bool // the ends of lines
	joined       bool // and their corners are round
	dotted       float64
	evenOdd      bool
	bold         bool
	anchor       string
}

// readDrawing reads what pattern/chart and pattern/layout write. They use a
// small part of SVG; anything beyond it is an error, so that no part of a
// drawing is left out unseen.
func readDrawing(svg string) (*drawing, error) {
	d := &drawing{}
	dec := xml.NewDecoder(strings.NewReader(svg))
	looks := []look{{fill: "#000000", stroke: "none", fillShade: 1, strokeShade: 1, wide: 1, size: 16}}
	clips := []*[4]float64{nil}
	var words *mark
	for {
		t, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return d, nil
		}
		if err != nil {
			return nil, err
		}
		switch t := t.(type) {
		case xml.StartElement:
			l, clip := looks[len(looks)-1], clips[len(clips)-1]
			at, err := l.take(t.Attr)
			if err != nil {
				return nil, err
			}
			m := mark{look: l, clip: clip, x: at["x"], y: at["y"]}
			switch t.Name.Local {
			case "svg":
				if d.width == 0 {
					err = d.frame(t.Attr)
				} else {
					clip = &[4]float64{at["x"], at["y"], at["width"], at["height"]}
				}
			case "g", "title":
			case "rect":
				if attr(t.Attr, "width") == "100%" {
					at["width"], at["height"] = d.width, d.height
				}
				w, h := at["width"], at["height"]
				m.path = []move{{'M', [6]float64{m.x, m.y}}, {'L', [6]float64{m.x + w, m.y}}, {'L', [6]float64{m.x + w, m.y + h}}, {'L', [6]float64{m.x, m.y + h}}, {op: 'Z'}}
				d.marks = append(d.marks, m)
			case "path":
				m.path, err = readPath(attr(t.Attr, "d"))
				d.marks = append(d.marks, m)
			case "text":
				d.marks = append(d.marks, m)
				words = &d.marks[len(d.marks)-1]
			default:
				err = fmt.Errorf("the drawing has a %q in it", t.Name.Local)
			}
			if err != nil {
				return nil, err
			}
			looks, clips = append(looks, l), append(clips, clip)
		case xml.EndElement:
			looks, clips, words = looks[:len(looks)-1], clips[:len(clips)-1], nil
		case xml.CharData:
			if words != nil {
				words.text += string(t)
			}
		}
	}
}

// frame reads how large the drawing is.
func (d *drawing) frame(attrs []xml.Attr) error {
	f := strings.Fields(attr(attrs, "viewBox"))
	if len(f) != 4 {
		return errors.New("the drawing does not say how large it is")
	}
	d.width, _ = strconv.ParseFloat(f[2], 64)
	d.height, _ = strconv.ParseFloat(f[3], 64)
	if !(d.width > 0 && d.height > 0) {
		return errors.New("the drawing is empty")
	}
	if w, ok := strings.CutSuffix(attr(attrs, "width"), "mm"); ok {
		mm, _ := strconv.ParseFloat(w, 64)
		d.mm = mm / d.width
	}
	return nil
}

func attr(attrs []xml.Attr, name string) string {
	for _, a := range attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// take takes over what an element says of its look, and gives its numbers.
func (l *look) take(attrs []xml.Attr) (map[string]float64, error) {
	at := map[string]float64{}
	l.evenOdd, l.anchor = false, ""
	for _, a := range attrs {
		v, err := strconv.ParseFloat(strings.TrimSuffix(a.Value, "mm"), 64)
		number := err == nil
		switch a.Name.Local {
		case "fill":
			l.fill = a.Value
		case "stroke":
			l.stroke = a.Value
		case "fill-opacity":
			l.fillShade = v
		case "stroke-opacity":
			l.strokeShade = v
		case "stroke-width":
			l.wide = v
		case "font-size":
			l.size = v
		case "font-weight":
			l.bold = a.Value == "bold"
			number = true
		case "text-anchor":
			l.anchor = a.Value
			number = true
		case "stroke-linecap":
			l.round, number = a.Value == "round", true
		case "stroke-linejoin":
			l.joined, number = a.Value == "round", true
		case "fill-rule":
			l.evenOdd, number = a.Value == "evenodd", true
		case "stroke-dasharray":
			f := strings.Fields(a.Value)
			if l.dotted, err = strconv.ParseFloat(f[len(f)-1], 64); len(f) != 2 || f[0] != "0" || err != nil {
				return nil, fmt.Errorf("the drawing has lines of %q in it", a.Value)
			}
			number = true
		case "x", "y", "width", "height":
			at[a.Name.Local] = v
			number = number || a.Value == "100%"
		case "xmlns", "viewBox", "role", "font-family", "overflow", "d", "data-piece":
			number = true
		default:
			return nil, fmt.Errorf("the drawing has %s=%q in it", a.Name.Local, a.Value)
		}
		if a.Name.Local == "fill" || a.Name.Local == "stroke" {
			if _, ok := colour(a.Value); !ok && a.Value != "none" {
				return nil, fmt.Errorf("the drawing has the colour %q in it", a.Value)
			}
		} else if !number {
			return nil, fmt.Errorf("the drawing has %s=%q in it", a.Name.Local, a.Value)
		}
	}
	return at, nil
}

// readPath reads the steps of a path.
func readPath(d string) ([]move, error) {
	var out []move
	var x, y float64
	for i := 0; i < len(d); {
		op := d[i]
		end := i + 1
		for end < len(d) && (d[end] < 'A' || d[end] > 'z') {
			end++
		}
		var v []float64
		for _, f := range strings.FieldsFunc(d[i+1:end], func(r rune) bool { return r == ' ' || r == ',' }) {
			n, err := strconv.ParseFloat(f, 64)
			if err != nil {
				return nil, fmt.Errorf("the drawing has a path with %q in it", f)
			}
			v = append(v, n)
		}
		i = end
		m, want := move{op: op}, map[byte]int{'M': 2, 'L': 2, 'C': 6, 'Z': 0, 'h': 1, 'v': 1}
		n, ok := want[op]
		if !ok || len(v) != n {
			return nil, fmt.Errorf("the drawing has a path with %q in it", d[max(0, end-20):end])
		}
		switch op {
		case 'h':
			m = move{'L', [6]float64{x + v[0], y}}
		case 'v':
			m = move{'L', [6]float64{x, y + v[0]}}
		default:
			copy(m.p[:], v)
		}
		switch m.op {
		case 'M', 'L':
			x, y = m.p[0], m.p[1]
		case 'C':
			x, y = m.p[4], m.p[5]
		}
		out = append(out, m)
	}
	return out, nil
}

func colour(s string) (rgb [3]int, ok bool) {
	if len(s) != 7 || s[0] != '#' {
		return rgb, false
	}
	v, err := strconv.ParseUint(s[1:], 16, 32)
	return [3]int{int(v >> 16), int(v >> 8 & 255), int(v & 255)}, err == nil
}

// draw prints a drawing with its upper left corner at x, y, so many mm to one
// of its units. Its words become lines too: they are part of the picture, and
// not of the text that a reader copies.
func (w *printer) draw(d *drawing, x0, y0, k float64) {
	f := w.f
	for i := range d.marks {
		m := &d.marks[i]
		if i == 0 && m.fill == "#ffffff" {
			continue // the paper
		}
		if m.text != "" {
			m.letters()
		}
		if len(m.path) == 0 {
			continue
		}
		filled, lined := m.fill != "none", m.stroke != "none" && m.wide > 0
		if !filled && !lined {
			continue
		}
		if m.clip != nil {
			f.ClipRect(x0+m.clip[0]*k, y0+m.clip[1]*k, m.clip[2]*k, m.clip[3]*k, false)
		}
		if filled {
			c, _ := colour(m.fill)
			f.SetFillColor(c[0], c[1], c[2])
			f.SetAlpha(m.fillShade, "Normal")
			w.path(m.path, x0, y0, k)
			f.DrawPath(map[bool]string{false: "F", true: "F*"}[m.evenOdd])
		}
		if lined {
			c, _ := colour(m.stroke)
			f.SetDrawColor(c[0], c[1], c[2])
			f.SetAlpha(m.strokeShade, "Normal")
			f.SetLineWidth(m.wide * k)
			f.SetLineCapStyle(map[bool]string{false: "butt", true: "round"}[m.round])
			f.SetLineJoinStyle(map[bool]string{false: "miter", true: "round"}[m.joined])
			if m.dotted > 0 {
				f.SetDashPattern([]float64{0, m.dotted * k}, 0)
			}
			w.path(m.path, x0, y0, k)
			f.DrawPath("D")
			if m.dotted > 0 {
				f.SetDashPattern(nil, 0)
			}
		}
		if m.clip != nil {
			f.ClipEnd()
		}
	}
	f.SetAlpha(1, "Normal")
	f.SetDrawColor(0, 0, 0)
	f.SetFillColor(0, 0, 0)
	f.SetLineCapStyle("butt")
	f.SetLineJoinStyle("miter")
}

func (w *printer) path(path []move, x, y, k float64) {
	for _, s := range path {
		p := s.p
		switch s.op {
		case 'M':
			w.f.MoveTo(x+p[0]*k, y+p[1]*k)
		case 'L':
			w.f.LineTo(x+p[0]*k, y+p[1]*k)
		case 'C':
			w.f.CurveBezierCubicTo(x+p[0]*k, y+p[1]*k, x+p[2]*k, y+p[3]*k, x+p[4]*k, y+p[5]*k)
		case 'Z':
			w.f.ClosePath()
		}
	}
}
