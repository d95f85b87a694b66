package layout

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/gauge"
)

var (
	outlines  = regexp.MustCompile(`<path d="M([^"]*)" fill="#[0-9a-f]{6}" fill-opacity`)
	scaleWord = regexp.MustCompile(`(?:full size|scale 1:([0-9.]+))</text>`)
)

// box is the left, upper, right and lower end of a path of straight lines.
func box(t *testing.T, path string) (b [4]float64) {
	b = [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range strings.FieldsFunc(path, func(r rune) bool { return strings.ContainsRune("MLZ", r) }) {
		xs, ys, _ := strings.Cut(p, " ")
		x, err1 := strconv.ParseFloat(xs, 64)
		y, err2 := strconv.ParseFloat(ys, 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%q is no point", p)
		}
		b = [4]float64{min(b[0], x), min(b[1], y), max(b[2], x), max(b[3], y)}
	}
	return b
}

// many is a pattern of so many pieces of different widths.
func many(n, wide int) string {
	var b strings.Builder
	b.WriteString("Row of Buoys\n\nUS terms\nGauge: 20 sc and 20 rows = 10 cm\n\n")
	for i := range n {
		fmt.Fprintf(&b, "Flag %c\nCh %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d sc)\nRows 2-%d: Ch 1, turn, sc in each st across. (%[3]d sc)\nFasten off.\n\n", 'A'+i, wide+1+i, wide+i, 10+i)
	}
	return b.String()
}

// TestPages has each piece on one page, whole and at the scale that the page
// names.
func TestPages(t *testing.T) {
	texts := map[string]string{"many": many(12, 20), "large": many(6, 200), "huge": many(2, 9000)}
	for _, d := range demo.All() {
		texts[d.Name] = d.Text
	}
	pages := map[string]int{"pennant": 1, "buoy": 1, "net": 1, "star": 1, "cuff": 1, "many": 1, "large": 1, "huge": 1}
	for name, text := range texts {
		p := pattern.Read(text).Prove(pattern.Options{})
		g, err := gauge.Stated(p)
		if err != nil {
			t.Fatal(name, err)
		}
		l := Of(p, g)
		all := l.Pages(170, 190)
		if len(all) != pages[name] {
			t.Errorf("%s: %d pages, want %d", name, len(all), pages[name])
		}
		var drawn [][4]float64
		scale := 0.0
		for _, svg := range all {
			m := scaleWord.FindStringSubmatch(svg)
			if m == nil {
				t.Fatalf("%s: no scale", name)
			}
			s := 1.0
			if m[1] != "" {
				s, _ = strconv.ParseFloat(m[1], 64)
			}
			if scale != 0 && s != scale {
				t.Errorf("%s: pages at 1:%g and 1:%g", name, scale, s)
			}
			scale = s
			for _, o := range outlines.FindAllStringSubmatch(svg, -1) {
				b := box(t, o[1])
				if b[0] < 0 || b[1] < 0 || b[2] > 170 || b[3] > 190-pageFoot {
					t.Errorf("%s: a piece at %v is off the page", name, b)
				}
				drawn = append(drawn, b)
			}
		}
		if len(drawn) != len(l.Pieces) {
			t.Fatalf("%s: %d of %d pieces are drawn", name, len(drawn), len(l.Pieces))
		}
		for i, b := range drawn {
			if p := l.Pieces[i]; math.Abs((b[2]-b[0])*scale-p.Width) > 0.02*scale || math.Abs((b[3]-b[1])*scale-p.Height) > 0.02*scale {
				t.Errorf("%s: %s is drawn %g by %g mm at 1:%g, and is %g by %g", name, p.Name(), b[2]-b[0], b[3]-b[1], scale, p.Width, p.Height)
			}
		}
	}
}

// TestPagesApart goes over several pages rather than draw pieces too small.
func TestPagesApart(t *testing.T) {
	p := pattern.Read(many(26, 31)).Prove(pattern.Options{})
	p.Pieces = append(p.Pieces, p.Pieces...)
	p.Pieces = append(p.Pieces, p.Pieces...)
	g, err := gauge.Stated(p)
	if err != nil {
		t.Fatal(err)
	}
	l := Of(p, g)
	all := l.Pages(170, 40)
	if len(all) < 2 {
		t.Errorf("%d pages", len(all))
	}
	n := 0
	for _, svg := range all {
		n += len(outlines.FindAllString(svg, -1))
	}
	if n != len(l.Pieces) {
		t.Errorf("%d of %d pieces are drawn", n, len(l.Pieces))
	}
}
