package chart

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// mostPixels is how large an image of dots is made.
const mostPixels = 25_000_000

// PNG writes several charts into one PNG image, one below the other, with so
// many pixels to a unit: 32 is about as sharp as a screen of 150 dots to the inch needs. It refuses an
// image of more than 25 million pixels.
func PNG(perUnit float64, charts ...*Chart) ([]byte, error) {
	pages, size := arrange(charts)
	if size.x*perUnit*size.y*perUnit > mostPixels {
		return nil, fmt.Errorf("the picture would be %.0f by %.0f dots, which is too large; draw it in parts, or as SVG", size.x*perUnit, size.y*perUnit)
	}
	c, err := newCanvas(int(math.Ceil(size.x*perUnit)), int(math.Ceil(size.y*perUnit)), perUnit)
	if err != nil {
		return nil, err
	}
	for i := range pages {
		c.page(&pages[i])
	}
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(&b, c.img); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// canvas is an image of dots that is painted on.
type canvas struct {
	img   *image.RGBA
	scale float64 // dots of the image to a unit of the drawing
	clip  image.Rectangle
	faces [2]*opentype.Font
	sized map[sizedFace]font.Face
}

type sizedFace struct {
	bold bool
	size float64
}

func newCanvas(w, h int, scale float64) (*canvas, error) {
	c := &canvas{img: image.NewRGBA(image.Rect(0, 0, w, h)), scale: scale, sized: make(map[sizedFace]font.Face)}
	c.clip = c.img.Bounds()
	draw.Draw(c.img, c.clip, image.NewUniform(paper.rgba()), image.Point{}, draw.Src)
	for i, ttf := range [][]byte{goregular.TTF, gobold.TTF} {
		f, err := opentype.Parse(ttf)
		if err != nil {
			return nil, err
		}
		c.faces[i] = f
	}
	return c, nil
}

func (c rgb) rgba() color.RGBA { return color.RGBA{c.r, c.g, c.b, 255} }

func (c *canvas) page(p *page) {
	c.clip = c.img.Bounds()
	if p.clip {
		x, y := p.place(pt{p.window.min.x, p.window.max.y})
		f := c.scale / dots
		c.clip = c.clip.Intersect(image.Rect(int(x*f), int(y*f), int(x*f+(p.window.max.x-p.window.min.x)*c.scale), int(y*f+(p.window.max.y-p.window.min.y)*c.scale)))
	}
	for i := range p.groups {
		g := &p.groups[i]
		for _, k := range paints {
			for _, s := range g.shapes {
				if s.paint == k && (!p.clip || p.window.meets(s.path.box().grown(0.1))) {
					c.shape(p, s)
				}
			}
		}
		for _, l := range g.labels {
			if !p.clip || p.window.meets(l.box()) {
				c.label(p, l)
			}
		}
	}
}

// lineWide is how wide the strokes of a paint are, in the dots of SVG.
func (k paint) lineWide() float64 {
	switch k {
	case tint:
		return 0.6
	case hatch:
		return 0.7
	case spot:
		return 1.8
	case dotted:
		return 1.2
	case fine:
		return 1
	case solid:
		return 0
	}
	return 2.2
}

func (c *canvas) shape(p *page, s shape) {
	line, fill := ink, ink
	switch s.paint {
	case hatch, spot, dotted:
		line = grey
	case tint:
		fill = p.yarns[s.yarn].ground()
		line = fill
	case open:
		fill = paper
	}
	pieces := c.flatten(p, s.path)
	if s.paint == tint || s.paint == open || s.paint == solid {
		c.paint(pieces, fill, func(r *vector.Rasterizer, off image.Point) {
			for _, way := range pieces {
				for i, q := range way {
					x, y := float32(q.x)-float32(off.X), float32(q.y)-float32(off.Y)
					if i == 0 {
						r.MoveTo(x, y)
					} else {
						r.LineTo(x, y)
					}
				}
				r.ClosePath()
			}
		})
	}
	half := s.paint.lineWide() / 2 * c.scale / dots
	if half == 0 {
		return
	}
	if s.paint == dotted {
		pieces = spaced(pieces, 4*c.scale/dots)
	}
	c.paint(pieces, line, func(r *vector.Rasterizer, off image.Point) {
		o := pt{float64(off.X), float64(off.Y)}
		for _, way := range pieces {
			for i := 1; i < len(way); i++ {
				capsule(r, way[i-1].sub(o), way[i].sub(o), half)
			}
		}
	})
}

// flatten gives the paths of a shape as points of the image.
func (c *canvas) flatten(p *page, d path) (out [][]pt) {
	at := func(q pt) pt {
		x, y := p.place(q)
		return pt{x * c.scale / dots, y * c.scale / dots}
	}
	for _, s := range d {
		n := len(out) - 1
		switch s.op {
		case 'M':
			out = append(out, []pt{at(s.p[0])})
		case 'L':
			out[n] = append(out[n], at(s.p[0]))
		case 'C':
			a := out[n][len(out[n])-1]
			b, cc, e := at(s.p[0]), at(s.p[1]), at(s.p[2])
			const steps = 10
			for k := 1; k <= steps; k++ {
				u := float64(k) / steps
				q, r, t := a.to(b, u), b.to(cc, u), cc.to(e, u)
				out[n] = append(out[n], q.to(r, u).to(r.to(t, u), u))
			}
		case 'Z':
			out[n] = append(out[n], out[n][0])
		}
	}
	return out
}

// spaced is dots along lines.
func spaced(ways [][]pt, gap float64) (out [][]pt) {
	for _, way := range ways {
		for i := 1; i < len(way); i++ {
			d := way[i].sub(way[i-1])
			for n := 0.0; n < d.length(); n += gap {
				q := way[i-1].along(d.unit(), n)
				out = append(out, []pt{q, q})
			}
		}
	}
	return out
}

// paint fills what build describes; it looks only at the part of the image
// that the points lie in.
func (c *canvas) paint(ways [][]pt, in rgb, build func(*vector.Rasterizer, image.Point)) {
	b := newBox()
	for _, w := range ways {
		for _, q := range w {
			b.point(q)
		}
	}
	if b.empty() {
		return
	}
	pad := 3 + 2*c.scale/dots
	r := image.Rect(int(b.min.x-pad), int(b.min.y-pad), int(b.max.x+pad)+1, int(b.max.y+pad)+1)
	see := r.Intersect(c.clip)
	if see.Empty() {
		return
	}
	ras := vector.NewRasterizer(r.Dx(), r.Dy())
	build(ras, r.Min)
	mask := image.NewAlpha(image.Rect(0, 0, r.Dx(), r.Dy()))
	ras.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	draw.DrawMask(c.img, see, image.NewUniform(in.rgba()), image.Point{}, mask, see.Min.Sub(r.Min), draw.Over)
}

// capsule is a line with round ends.
func capsule(r *vector.Rasterizer, a, b pt, half float64) {
	d := b.sub(a).unit()
	from := math.Atan2(d.y, d.x) + math.Pi/2
	const steps = 8
	for i := 0; i <= 2*steps+1; i++ {
		end, turn := a, float64(i)
		if i > steps {
			end, turn = b, float64(i-1)
		}
		ang := from + turn*math.Pi/steps
		x, y := float32(end.x+half*math.Cos(ang)), float32(end.y+half*math.Sin(ang))
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
}

func (c *canvas) label(p *page, l label) {
	key := sizedFace{l.bold, l.size}
	face := c.sized[key]
	if face == nil {
		n := 0
		if l.bold {
			n = 1
		}
		var err error
		face, err = opentype.NewFace(c.faces[n], &opentype.FaceOptions{Size: l.size * c.scale, DPI: 72})
		if err != nil {
			return // a size of nothing
		}
		c.sized[key] = face
	}
	x, y := p.place(l.at)
	d := font.Drawer{Dst: clipped{c.img, c.clip}, Src: image.NewUniform(ink.rgba()), Face: face}
	w := float64(d.MeasureString(l.text)) / 64
	x = x*c.scale/dots - w*float64(l.align+1)/2
	d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(y * c.scale / dots * 64)}
	d.DrawString(l.text)
}

// clipped is an image that is painted on within a rectangle only.
type clipped struct {
	*image.RGBA
	within image.Rectangle
}

func (c clipped) Bounds() image.Rectangle { return c.within }
