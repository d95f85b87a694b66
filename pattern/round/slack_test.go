package round

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// Against gonum's numeric derivatives: to first order a size is off by its
// derivative by the gauge times the spread of that (the propagation of JCGM
// 100:2008, for one quantity).
func TestSlackAgainstDerivatives(t *testing.T) {
	const six = "US terms\n\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\nRnd 3: (Sc in next st, 2 sc in next st) 6 times. (18 sc)\nRnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24 sc)\nRnds 5-9: Sc in each st around. (24 sc)\n"
	proof := pattern.Read(six).Prove(pattern.Options{})
	rapid.Check(t, func(t *rapid.T) {
		g := gauge.Gauge{
			Stitches: gauge.Count{PerMM: rapid.Float64Range(0.15, 0.3).Draw(t, "sts"), Places: 3}, Kind: gauge.ByStitch, Stitch: stitch.SC,
		}
		g.Rows = gauge.Count{PerMM: g.Stitches.PerMM * rapid.Float64Range(0.95, 1.2).Draw(t, "rows"), Places: 3}
		g.Stitches.Spread = g.Stitches.PerMM * rapid.Float64Range(0, 0.1).Draw(t, "spread")
		g.Rows.Spread = g.Rows.PerMM * rapid.Float64Range(0, 0.1).Draw(t, "spread up")
		shape := func(g gauge.Gauge) *Shape {
			s, err := ShapeOf(proof.Pieces[0], g, stitch.US)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		along, up := Fabric{Gauge: g}.slack()
		high := fd.Derivative(func(perMM float64) float64 {
			h := g
			h.Rows.PerMM = perMM
			return 2 * shape(h).High
		}, g.Rows.PerMM, &fd.Settings{Step: 1e-5})
		if got, want := 2*shape(g).High*up, math.Abs(high)*g.Rows.Spread; math.Abs(got-want) > 1e-3*want+1e-9 {
			t.Fatalf("flat: off by %v, want %v", got, want)
		}
		wide := fd.Derivative(func(perMM float64) float64 {
			h := g
			h.Stitches.PerMM = perMM
			f, err := Of(h, stitch.None, stitch.US)
			if err != nil {
				t.Fatal(err)
			}
			return 24 * f.Width / math.Pi
		}, g.Stitches.PerMM, &fd.Settings{Step: 1e-5})
		if got, want := 24/g.Stitches.PerMM/math.Pi*along, math.Abs(wide)*g.Stitches.Spread; math.Abs(got-want) > 1e-3*want+1e-9 {
			t.Fatalf("round: off by %v, want %v", got, want)
		}
	})
}

// A swatch of one place says nothing of it, and one of several does, in the
// pattern of each shape and of what rounds come to.
func TestGiveOrTake(t *testing.T) {
	one, err := gauge.Read(stitch.US, "20 sc and 20 rows = 10 cm")
	if err != nil {
		t.Fatal(err)
	}
	several, err := gauge.Read(stitch.US, "20 sc and 20 rows = 10 cm", "18 sc and 19 rows = 10 cm", "22 sc and 21 rows = 10 cm")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		of   func(Fabric) (*Plan, error)
		want string // at 10 % along a round and 5 % up
	}{
		{"circle", func(f Fabric) (*Plan, error) { return f.Circle(100) }, "Give or take 5 mm, as the swatch differs."},
		{"ball", func(f Fabric) (*Plan, error) { return f.Ball(100) }, "Give or take 9.5 mm, as the swatch differs."}, // 60 stitches of 5 mm, over pi
		{"oval", func(f Fabric) (*Plan, error) { return f.Oval(200, 100) }, "Give or take 15 mm, as the swatch differs."},
	} {
		for _, g := range []gauge.Gauge{one, several} {
			f, err := Of(g, stitch.None, stitch.US)
			if err != nil {
				t.Fatal(err)
			}
			p, err := c.of(f)
			if err != nil {
				t.Fatal(err)
			}
			if told := p.Text(); strings.Contains(told, c.want) != (g.Stitches.Spread > 0) || strings.Contains(told, "Give or take") != (g.Stitches.Spread > 0) {
				t.Errorf("%s at %s:\n%s", c.name, g, told)
			}
			s, err := ShapeOf(pattern.Read(p.Text()).Prove(pattern.Options{}).Pieces[0], g, stitch.US)
			if err != nil {
				t.Fatal(err)
			}
			if told := s.Summary(); strings.Contains(told, "Give or take") != (g.Stitches.Spread > 0) {
				t.Errorf("%s comes at %s to: %s", c.name, g, told)
			}
		}
	}
}
