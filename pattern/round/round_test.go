package round

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/even"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// fabricOf is a fabric of stitches so many mm wide and high.
func fabricOf(t testing.TB, id stitch.ID, width, height float64) Fabric {
	t.Helper()
	g, err := gauge.Read(stitch.US, fmt.Sprintf("%g %s and %g rows = 1000 mm", 1000/width, id.Name(stitch.US), 1000/height))
	if err != nil {
		t.Fatal(err)
	}
	f, err := Of(g, stitch.None, stitch.US)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func shapeOf(t testing.TB, text string, g gauge.Gauge) *Shape {
	t.Helper()
	p := pattern.Read(text).Prove(pattern.Options{})
	s, err := ShapeOf(p.Pieces[0], g, p.Terms)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestAnySizeComesOutAsAsked(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		width := rapid.Float64Range(1.5, 15).Draw(r, "width")
		height := width * rapid.Float64Range(0.75, 2.2).Draw(r, "ratio")
		f := fabricOf(t, rapid.SampledFrom([]stitch.ID{stitch.SC, stitch.HDC, stitch.DC}).Draw(r, "stitch"), width, height)
		f.Exact = rapid.Bool().Draw(r, "exact")
		f.Joined = f.Joined || rapid.Bool().Draw(r, "joined")
		rounds := rapid.Float64Range(2, 25).Draw(r, "rounds")
		want := 2 * rounds * f.Height

		p, err := f.Circle(want)
		if err != nil {
			r.Fatal(err)
		}
		s := shapeOf(t, p.Text(), f.Gauge)
		if math.Abs(p.Across-want) > f.Height+1e-6 || math.Abs(2*s.High-p.Across) > 1e-6*want {
			r.Fatalf("asked for %v mm, planned %v, comes out %v", want, p.Across, 2*s.High)
		}
		if last := s.Rows[len(s.Rows)-1]; last.Lies != Flat {
			r.Fatalf("a flat circle %s:\n%s\n%s", last.Lies, p.Text(), s.Text())
		}
		apart(r, p)

		if p, err = f.Ball(want); err != nil {
			if strings.Contains(err.Error(), "too small") && rounds < 4 {
				return
			}
			r.Fatal(err)
		}
		s = shapeOf(t, p.Text(), f.Gauge)
		if math.Abs(p.Across-want) > float64(f.Increases())*f.Width/math.Pi || math.Abs(s.Widest-p.Across) > 2*f.Height {
			r.Fatalf("asked for a ball of %v mm, planned %v, comes out %v\n%s%s", want, p.Across, s.Widest, p.Text(), s.Text())
		}

		long := want + rapid.Float64Range(3, 30).Draw(r, "long")*f.Width
		if p, err = f.Oval(long, want); err != nil {
			if strings.Contains(err.Error(), "as good as round") {
				return
			}
			r.Fatal(err)
		}
		if s = shapeOf(t, p.Text(), f.Gauge); math.Abs(s.Straight+2*s.High-p.Along) > 1e-6*long || math.Abs(p.Along-long) > f.Width+f.Height || math.Abs(p.Across-want) > f.Height+1e-6 {
			r.Fatalf("asked for %v by %v mm, planned %v by %v, comes out %v by %v", long, want, p.Along, p.Across, s.Straight+2*s.High, 2*s.High)
		}
	})
}

// apart wants the increases of each round away from those of the round before:
// by a quarter of the way between two of them or more, wherever runs are long
// enough for that.
func apart(r *rapid.T, p *Plan) {
	proof := pattern.Read(p.Text()).Prove(pattern.Options{})
	var before []float64
	for i := range p.Counts {
		row, _ := proof.Pieces[0].At(i)
		at := increases(row)
		if i > 5 && !p.Fabric.Exact && len(at) > 0 {
			for _, a := range at {
				for _, b := range before {
					d := math.Abs(a - b)
					if d = min(d, 1-d); d*float64(len(at)) < 0.25 {
						r.Fatalf("rounds %d and %d have increases one above the other:\n%s", i, i+1, p.Text())
					}
				}
			}
		}
		before = at
	}
}

// increases is where in a round its increases are, from 0 to 1.
func increases(row *pattern.RowProof) []float64 {
	var out []float64
	for done := int64(0); done < row.Made; {
		h := row.Here(done)
		if h.Step.N.At(0) == 2 && h.Of == 2 {
			out = append(out, float64(done+1)/float64(row.Made))
		}
		done = h.InstructionEnd
	}
	return out
}

// facts are the lines of a table of figures.
func facts(t *testing.T, name string) [][]string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "facts", name))
	if err != nil {
		t.Fatal(err)
	}
	var out [][]string
	for line := range strings.Lines(string(data)) {
		if !strings.HasPrefix(line, "#") && !strings.HasPrefix(line, "case\t") {
			out = append(out, strings.Split(strings.TrimSpace(line), "\t"))
		}
	}
	if len(out) < 10 {
		t.Fatalf("%s has only %d lines", name, len(out))
	}
	return out
}

func numbers(s string) []int64 {
	var out []int64
	for _, f := range strings.Fields(s) {
		n, _ := strconv.ParseInt(f, 10, 64)
		out = append(out, n)
	}
	return out
}

// written is rounds of the counts given, without corners.
func written(t *testing.T, counts []int64, name string) string {
	t.Helper()
	text := fmt.Sprintf("Rnd 1: %d %s in magic ring. (%d)\n", counts[0], name, counts[0])
	for i := 1; i < len(counts); i++ {
		words := name + " in each st around"
		if counts[i] != counts[i-1] {
			s, err := even.Of(counts[i-1], counts[i], even.Joined)
			if err != nil {
				t.Fatal(err)
			}
			words = strings.Replace(s.Words(stitch.SC, stitch.US), "sc", name, -1)
		}
		text += fmt.Sprintf("Rnd %d: %s. (%d)\n", i+1, words, counts[i])
	}
	return text
}

// Source: flat circles, squares and balls in print and on makers' pages,
// testdata/facts/circles.tsv; each at the textbook ratio of height to width: 1
// for single crochet, 1.5 half double, 2 double, 2.5 treble, 3 double treble.
func TestPublishedRounds(t *testing.T) {
	ratio := map[string]float64{"sc": 1, "hdc": 1.5, "dc": 2, "tr": 2.5, "dtr": 3}
	ids := map[string]stitch.ID{"sc": stitch.SC, "hdc": stitch.HDC, "dc": stitch.DC, "tr": stitch.TR, "dtr": stitch.DTR}
	// counts that print gives and the rule, at the textbook ratio, does not
	off := map[string]Lies{"7 14 21 28 35 42": Ruffles, "8 16 24 32 40 48 sc": Ruffles, "8 16 24 32 40 48 hdc": Cups, "10 20 30 40 50 dc": Cups, "18 36 54 72": Ruffles}
	seen := 0
	for _, f := range facts(t, "circles.tsv") {
		counts := numbers(f[2])
		switch f[0] {
		case "flat circle":
			seen++
			fab := fabricOf(t, ids[f[1]], 5, 5*ratio[f[1]])
			s := shapeOf(t, written(t, counts, f[1]), fab.Gauge)
			want := Flat
			for key, l := range off {
				if key == f[2] || key == f[2]+" "+f[1] {
					want = l
				}
			}
			if got := s.Rows[len(s.Rows)-1].Lies; got != want {
				t.Errorf("%s %s: %s, want %s\n%s", f[1], f[2], got, want, s.Text())
			}
			if p, err := fab.Circle(2 * float64(len(counts)) * fab.Height); err != nil || strings.HasPrefix(f[3], "source and geometry") && !slices.Equal(p.Counts, counts) {
				t.Errorf("%s: planned %v, %v, want %v", f[1], p, err, counts)
			}
		case "ball":
			seen++
			fab := fabricOf(t, stitch.SC, 5, 5)
			p, err := fab.Ball(36 * 5 / math.Pi)
			if err != nil || !slices.Equal(p.Counts, counts) {
				t.Errorf("planned %v, %v, want %v", p.Counts, err, counts)
			}
			s := shapeOf(t, written(t, counts, "sc"), fab.Gauge)
			if !strings.HasPrefix(s.Summary(), "It closes like a ball: 5.7 cm across") {
				t.Error(s.Summary())
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d were looked at", seen)
	}
}

// Source: H. Henderson and D. Taimina, Crocheting the hyperbolic plane, 2001,
// and makers' pages, testdata/facts/mathematics.tsv: what doubles each round
// ruffles.
func TestHyperbolicRoundsRuffle(t *testing.T) {
	for _, f := range facts(t, "mathematics.tsv") {
		if f[0] != "doubling rounds" {
			continue
		}
		s := shapeOf(t, written(t, numbers(f[2]), "sc"), fabricOf(t, stitch.SC, 5, 5).Gauge)
		if last := s.Rows[len(s.Rows)-1]; last.Lies != Ruffles || last.Edge < 5*last.Flat {
			t.Error(s.Text())
		}
		return
	}
	t.Error("the table has no doubling rounds")
}

// Archimedes: the surface of a ball is that of the cylinder about it, pi times
// the square of what it is across.
func TestExactBallHasTheSurfaceOfABall(t *testing.T) {
	for _, across := range []float64{60, 100, 200} {
		f := fabricOf(t, stitch.SC, 5, 4.5)
		f.Exact = true
		p, err := f.Ball(across)
		if err != nil {
			t.Fatal(err)
		}
		sum := int64(0)
		for _, c := range p.Counts {
			sum += c
		}
		if got, want := float64(sum)*f.Width*f.Height, math.Pi*across*across; math.Abs(got/want-1) > 0.02 {
			t.Errorf("a ball of %v mm has %.0f mm2 of fabric, and a surface of %.0f", across, got, want)
		}
		s := shapeOf(t, p.Text(), f.Gauge)
		if math.Abs(s.Hollow/across-1) > 0.08 || math.Abs(s.Widest/across-1) > 0.03 {
			t.Errorf("a ball of %v mm comes out %v wide and %v high", across, s.Widest, s.Hollow)
		}
	}
}

// The counts that come nearest to a circle's, round(2 x pi x k) for stitches as
// high as they are wide (geometry).
func TestExactCircle(t *testing.T) {
	f := fabricOf(t, stitch.SC, 5, 5)
	f.Exact = true
	p, err := f.Circle(120)
	if want := []int64{6, 13, 19, 25, 31, 38, 44, 50, 57, 63, 69, 75}; err != nil || !slices.Equal(p.Counts, want) {
		t.Errorf("%v, %v, want %v", p.Counts, err, want)
	}
}

// Source: an oval rug on 40 chains in a booklet, testdata/facts/circles.tsv.
func TestPublishedOval(t *testing.T) {
	f := fabricOf(t, stitch.SC, 5, 5)
	p, err := f.Oval(38*5+20, 20)
	if err != nil || !strings.Contains(p.Text(), "Ch 40.") || p.Counts[0] != 80 || p.Counts[1] != 86 {
		t.Errorf("%v: %s", err, p.Text())
	}
	usual := "Ch 40.\nRnd 1: Sc in 2nd ch from hook, sc in next 37 ch, 3 sc in last ch; working along opposite side of ch, sc in next 37 ch, 2 sc in last ch. (80 sc)\nRnd 2: 2 sc in next st, sc in next 37 sts, 2 sc in each of next 3 sts, sc in next 37 sts, 2 sc in each of last 2 sts. (86 sc)\n"
	if s := shapeOf(t, usual, f.Gauge); !strings.HasPrefix(s.Summary(), "It lies flat, 21 cm by 2 cm") {
		t.Error(s.Text())
	}
}

func TestShapes(t *testing.T) {
	f := fabricOf(t, stitch.SC, 5, 5)
	for _, test := range []struct{ text, want string }{
		{"Ch 40, join with sl st to form ring.\nRnd 1: Ch 1, sc in each ch around. (40)\nRnds 2-20: Sc in each st around. (40)\n",
			"It stands up as a tube, 6.4 cm across and 10 cm high."},
		{"Rnd 1: 8 sc in magic ring. (8)\nRnd 2: (Sc in next st, 3 sc in next st) 4 times. (16)\nRnd 3: Sc in next 2 sts, (3 sc in next st, sc in next 3 sts) 3 times, 3 sc in next st, sc in next st. (24)\nRnd 4: Sc in next 3 sts, (3 sc in next st, sc in next 5 sts) 3 times, 3 sc in next st, sc in next 2 sts. (32)\n",
			"It lies flat, a square of 4 cm."},
		{"Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\nRnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\nRnds 4-12: Sc in each st around. (18)\n",
			"It lies flat as far as Rnd 3, 3 cm across. Then it cups: its edge is 9 cm, 76 % shorter than the 37.7 cm of a flat piece of its rounds. It is 2.9 cm across at its opening, and stands about 4.4 cm high."},
		{"Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\nRnd 3: 2 sc in each st around. (24)\n",
			"It lies flat as far as Rnd 2, 2 cm across. Then it ruffles: its edge is 12 cm, 27 % longer than the 9.4 cm of a flat piece of its rounds, which is 3 cm across."},
		{"Ch 6, join with sl st in first ch to form ring.\nRnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)\n",
			"It lies flat, a ring 1.9 cm across with a hole of 0.9 cm."},
		{"Rnd 1: 12 sc in magic ring. (12)\nRnd 2: Sc evenly around.\nRnd 3: Sc in each st around.\n",
			"What comes after Rnd 1 is not worked out."},
	} {
		if got := shapeOf(t, test.text, f.Gauge).Summary(); !strings.Contains(got, test.want) {
			t.Errorf("%s\n%q\nwant %q", test.text, got, test.want)
		}
	}
	granny := "Ch 4, join with sl st in first ch to form ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join with sl st in top of beg ch-3. (12 dc)\n" +
		"Rnd 2: Sl st to next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 2 more times, ch 1, join with sl st in top of beg ch-3. (24 dc)\n" +
		"Rnd 3: Sl st to next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *ch 1, 3 dc in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 2 more times, ch 1, 3 dc in next ch-1 sp, ch 1, join with sl st in top of beg ch-3. (36 dc)\n"
	if got := shapeOf(t, granny, f.Gauge).Summary(); !strings.HasPrefix(got, "It lies flat, a square of 6 cm") {
		t.Error(got)
	}
}

func TestImpossible(t *testing.T) {
	f := fabricOf(t, stitch.SC, 5, 4.5)
	plans := map[string]func(mm float64) error{
		"circle": func(mm float64) error { _, err := f.Circle(mm); return err },
		"ball":   func(mm float64) error { _, err := f.Ball(mm); return err },
		"oval":   func(mm float64) error { _, err := f.Oval(mm, mm); return err },
	}
	for name, plan := range plans {
		for _, mm := range []float64{0, -5, 3, 1e6, math.Inf(1), math.NaN()} {
			if err := plan(mm); err == nil || strings.Contains(err.Error(), "\n") || strings.Contains(err.Error(), "proven") {
				t.Errorf("%s of %v mm: %v", name, mm, err)
			}
		}
	}
	g, _ := gauge.Read(stitch.US, "5 squares = 4 in")
	if _, err := Of(g, stitch.None, stitch.US); err == nil {
		t.Error("a gauge in squares was taken")
	}
	for _, id := range []stitch.ID{stitch.Slip, stitch.FSC, stitch.Bobble} {
		if _, err := Of(f.Gauge, id, stitch.US); err == nil {
			t.Errorf("rounds of %s were taken", id.Name(stitch.US))
		}
	}
}
