package chart

import (
	"math"
	"strings"
	"sync"
	"unicode"

	"crochet/tallyturn/pattern"
)

// rgb is a colour, 0 to 255 each.
type rgb struct{ r, g, b uint8 }

// named are colours by the words that patterns use. Those of the W3C's list of
// colour keywords (CSS Color Module Level 4, section 6.1) have its values; the
// rest, from "cream" on, are our own idea of them.
var named = sync.OnceValue(func() map[string]rgb {
	return map[string]rgb{
		"black": {0, 0, 0}, "silver": {192, 192, 192}, "gray": {128, 128, 128}, "grey": {128, 128, 128},
		"white": {255, 255, 255}, "maroon": {128, 0, 0}, "red": {255, 0, 0}, "purple": {128, 0, 128},
		"fuchsia": {255, 0, 255}, "green": {0, 128, 0}, "lime": {0, 255, 0}, "olive": {128, 128, 0},
		"yellow": {255, 255, 0}, "navy": {0, 0, 128}, "blue": {0, 0, 255}, "teal": {0, 128, 128},
		"aqua": {0, 255, 255}, "orange": {255, 165, 0}, "beige": {245, 245, 220}, "brown": {165, 42, 42},
		"chocolate": {210, 105, 30}, "coral": {255, 127, 80}, "crimson": {220, 20, 60}, "cyan": {0, 255, 255},
		"gold": {255, 215, 0}, "indigo": {75, 0, 130}, "ivory": {255, 255, 240}, "khaki": {240, 230, 140},
		"lavender": {230, 230, 250}, "linen": {250, 240, 230}, "magenta": {255, 0, 255}, "orchid": {218, 112, 214},
		"peru": {205, 133, 63}, "pink": {255, 192, 203}, "plum": {221, 160, 221}, "salmon": {250, 128, 114},
		"sienna": {160, 82, 45}, "tan": {210, 180, 140}, "tomato": {255, 99, 71}, "turquoise": {64, 224, 208},
		"violet": {238, 130, 238}, "wheat": {245, 222, 179}, "seagreen": {46, 139, 87}, "skyblue": {135, 206, 235},
		"steelblue": {70, 130, 180}, "slate": {112, 128, 144}, "midnightblue": {25, 25, 112}, "royalblue": {65, 105, 225},
		"darkgreen": {0, 100, 0}, "darkblue": {0, 0, 139}, "lightblue": {173, 216, 230}, "lightgreen": {144, 238, 144},

		"cream": {255, 250, 225}, "sand": {222, 203, 164}, "rust": {165, 70, 35}, "mustard": {205, 160, 40},
		"charcoal": {65, 65, 70}, "burgundy": {115, 15, 40}, "peach": {255, 210, 175}, "mint": {170, 225, 195},
		"lilac": {200, 165, 215}, "rose": {225, 130, 150}, "aubergine": {85, 40, 85}, "denim": {70, 95, 140},
		"oatmeal": {225, 210, 185}, "natural": {240, 232, 212}, "ecru": {235, 222, 195}, "hemp": {170, 145, 110},
		"ochre": {200, 130, 45}, "scarlet": {215, 30, 25}, "bronze": {175, 125, 60}, "copper": {185, 110, 60},
	}
})

// spare are the colours of yarns whose name says nothing, in turn.
var spare = []rgb{{90, 150, 200}, {230, 160, 60}, {110, 170, 110}, {200, 110, 150}, {140, 120, 200}, {160, 160, 160}}

// yarn is one yarn of the pattern.
type yarn struct {
	name   string // as the pattern has it
	colour rgb
}

// yarns keeps the yarn in hand while rows are laid.
type yarns struct {
	all     []yarn
	now     int               // -1 where the pattern has not said
	letters map[string]string // the colour that a letter stands for
}

func newYarns(p *pattern.Pattern) *yarns {
	y := &yarns{now: -1, letters: make(map[string]string)}
	for _, h := range p.Headers {
		if h.Kind == pattern.HeaderYarn || h.Kind == pattern.HeaderMaterials {
			y.readLetters(h.Text)
		}
	}
	return y
}

// readLetters finds "red (A)", "A: red" and "A slate" in a line about yarn.
func (y *yarns) readLetters(line string) {
	for _, part := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ';' || r == '.' }) {
		words := split(part)
		from := 0
		for i, w := range words {
			if i > 0 && w == "and" {
				y.readLetter(words[from:i])
				from = i + 1
			}
		}
		y.readLetter(words[from:])
	}
}

// readLetter reads words that tell of one yarn.
func (y *yarns) readLetter(words []string) {
	at := -1
	for i, w := range words {
		if isLetter(w) && at < 0 {
			at = i
		}
	}
	if at < 0 || y.letters[words[at]] != "" {
		return
	}
	// a colour that is known, the nearest to the letter; else what little
	// else is said
	best := -1
	for i, w := range words {
		if _, ok := named()[strings.ToLower(w)]; ok && i != at && (best < 0 || abs(i-at) < abs(best-at)) {
			best = i
		}
	}
	switch {
	case best >= 0:
		y.letters[words[at]] = colourAround(words, best)
	case at == 0 && (len(words) == 2 || len(words) == 3):
		y.letters[words[at]] = strings.ToLower(strings.Join(words[1:], " "))
	}
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// colourAround is the name of a colour with the word before it that belongs to
// it: "sea green", "dark red".
func colourAround(words []string, i int) string {
	name := strings.ToLower(words[i])
	if i > 0 {
		before := strings.ToLower(words[i-1])
		if _, ok := named()[before+name]; ok {
			return before + " " + name
		}
		switch before {
		case "dark", "light", "pale", "deep", "bright", "off", "sea", "sky", "hemp", "soft":
			return before + " " + name
		}
	}
	return name
}

// isLetter reports whether a word is a yarn's letter: A to H, MC, CC1.
func isLetter(w string) bool {
	if len(w) == 1 {
		return w[0] >= 'A' && w[0] <= 'H'
	}
	return strings.HasPrefix(w, "MC") || strings.HasPrefix(w, "CC") && len(w) <= 3
}

// split parts a line into words of letters and digits.
func split(line string) []string {
	return strings.FieldsFunc(line, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// at is the yarn that a link is made with.
func (y *yarns) at(l *pattern.Link) int {
	if y == nil {
		return -1
	}
	for _, s := range l.Marks {
		y.change(s)
	}
	return y.now
}

// change takes up another yarn, where a step says so.
func (y *yarns) change(s *pattern.Step) {
	if s.Op != pattern.OpColour && s.Op != pattern.OpAttach {
		return
	}
	words := split(s.Text)
	name := ""
	for i, w := range words {
		if _, ok := named()[strings.ToLower(w)]; ok {
			name = colourAround(words, i)
			break
		}
		if isLetter(w) {
			name = w
			if c := y.letters[w]; c != "" {
				name = c + " (" + w + ")"
			}
			break
		}
	}
	if name == "" {
		if s.Op == pattern.OpAttach {
			return // a place to join, not a yarn
		}
		for _, w := range words {
			switch strings.ToLower(w) {
			case "with", "change", "to", "using", "in", "switch", "colour", "color", "yarn", "join", "and", "the", "new":
				continue
			}
			name = w
			break
		}
		if name == "" {
			return
		}
	}
	for i := range y.all {
		if y.all[i].name == name {
			y.now = i
			return
		}
	}
	y.now = len(y.all)
	y.all = append(y.all, yarn{name, y.colourOf(name)})
}

// colourOf is the colour that a name stands for.
func (y *yarns) colourOf(name string) rgb {
	words := split(strings.ToLower(name))
	best, ok := rgb{}, false
	for i, w := range words {
		if i > 0 {
			if c, two := named()[words[i-1]+w]; two {
				return c
			}
		}
		if c, one := named()[w]; one && !ok {
			best, ok = c, true
		}
	}
	if !ok {
		return spare[len(y.all)%len(spare)]
	}
	for _, w := range words {
		switch w {
		case "dark", "deep":
			best = rgb{best.r / 2, best.g / 2, best.b / 2}
		case "light", "pale", "soft":
			best = blend(best, rgb{255, 255, 255}, 0.5)
		}
	}
	return best
}

func blend(a, b rgb, f float64) rgb {
	mix := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + (float64(y)-float64(x))*f)) }
	return rgb{mix(a.r, b.r), mix(a.g, b.g), mix(a.b, b.b)}
}

// luminance is the relative luminance of WCAG 2.2.
func (c rgb) luminance() float64 {
	lin := func(v uint8) float64 {
		f := float64(v) / 255
		if f <= 0.04045 {
			return f / 12.92
		}
		return math.Pow((f+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.r) + 0.7152*lin(c.g) + 0.0722*lin(c.b)
}

// contrast is the contrast ratio of WCAG 2.2, from 1 to 21.
func contrast(a, b rgb) float64 {
	x, y := a.luminance(), b.luminance()
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

// ink is what symbols are drawn in, paper what they are drawn on, and grey
// what hatchings and rings are.
var (
	ink   = rgb{0x1b, 0x1b, 0x1b}
	paper = rgb{255, 255, 255}
	grey  = rgb{0x76, 0x76, 0x76}
)

// least is the contrast that symbols keep from the colour behind them: that of
// WCAG 2.2 for small print (1.4.6), more than its 3 to 1 for drawings.
const least = 7

// ground is the yarn's colour, paled until symbols stand out on it.
func (y yarn) ground() rgb {
	c := y.colour
	for f := 0.15; contrast(c, ink) < least && f < 1; f += 0.05 {
		c = blend(y.colour, paper, f)
	}
	return c
}

// hatching puts the lines or dots of the n-th yarn over an outline. The first
// has none.
func (g *group) hatching(n int, outline []pt) {
	if n <= 0 || len(outline) < 3 {
		return
	}
	kind := (n - 1) % 7
	gap := 0.42 / (1 + 0.5*float64((n-1)/7))
	switch kind {
	case 0:
		g.rule(outline, pt{1, 1}, gap)
	case 1:
		g.dots(outline, gap)
	case 2:
		g.rule(outline, pt{1, -1}, gap)
	case 3:
		g.rule(outline, pt{1, 0}, gap)
	case 4:
		g.rule(outline, pt{0, 1}, gap)
	case 5:
		g.rule(outline, pt{1, 1}, gap*1.4)
		g.rule(outline, pt{1, -1}, gap*1.4)
	case 6:
		g.dots(outline, gap*0.6)
	}
}

// rule draws parallel lines inside an outline, on a lattice that is the same
// for all outlines, so that they meet from one to the next.
func (g *group) rule(outline []pt, dir pt, gap float64) {
	d := dir.unit()
	n := d.right()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		v := p.x*n.x + p.y*n.y
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	if (hi-lo)/gap > 2000 {
		return
	}
	var ink path
	for k := math.Ceil(lo / gap); k*gap < hi; k++ {
		for _, s := range crossings(outline, n, d, k*gap) {
			ink.lines(s[0], s[1])
		}
	}
	g.put(hatch, ink)
}

// crossings are the stretches of the line p·n = v that lie inside an outline.
func crossings(outline []pt, n, d pt, v float64) [][2]pt {
	var at []float64
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		fa, fb := a.x*n.x+a.y*n.y-v, b.x*n.x+b.y*n.y-v
		if (fa < 0) == (fb < 0) {
			continue
		}
		p := a.to(b, fa/(fa-fb))
		at = append(at, p.x*d.x+p.y*d.y)
	}
	for i := 1; i < len(at); i++ {
		for j := i; j > 0 && at[j] < at[j-1]; j-- {
			at[j], at[j-1] = at[j-1], at[j]
		}
	}
	var out [][2]pt
	for i := 0; i+1 < len(at); i += 2 {
		if at[i+1]-at[i] > 0.02 {
			out = append(out, [2]pt{n.mul(v).along(d, at[i]), n.mul(v).along(d, at[i+1])})
		}
	}
	return out
}

// dots puts dots inside an outline.
func (g *group) dots(outline []pt, gap float64) {
	b := newBox()
	for _, p := range outline {
		b.point(p)
	}
	if (b.max.x-b.min.x)*(b.max.y-b.min.y)/gap/gap > 4000 {
		return
	}
	var ink path
	for ky := math.Ceil(b.min.y / gap); ky*gap < b.max.y; ky++ {
		for _, s := range crossings(outline, pt{0, 1}, pt{1, 0}, ky*gap) {
			off := 0.0
			if int(ky)%2 != 0 {
				off = gap / 2
			}
			for kx := math.Ceil((s[0].x - off) / gap); kx*gap+off < s[1].x; kx++ {
				p := pt{kx*gap + off, ky * gap}
				ink.lines(p, p)
			}
		}
	}
	g.put(spot, ink)
}
