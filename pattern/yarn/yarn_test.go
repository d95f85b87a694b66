package yarn

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

func usageOf(text string) *Usage {
	return Of(pattern.Read(text).Prove(pattern.Options{}))
}

// Source: two home measurements on makers' pages. One worked strips of one row
// 5 inches long: 53 in of yarn in single, 78.5 in half double, 102 in double
// crochet, and 25.5 in for 5 in of chain. The other weighed 400 stitches: 19 g
// in single, 28 g in half double crochet.
func TestUnitsAgainstMeasurements(t *testing.T) {
	for _, test := range []struct {
		what      string
		got, want float64
	}{
		{"hdc, by length", Unit(stitch.HDC), 78.5 / 53},
		{"hdc, by weight", Unit(stitch.HDC), 28.0 / 19},
		{"dc, by length", Unit(stitch.DC), 102.0 / 53},
		{"chain, by length", chainUnit, 25.5 / 53},
	} {
		if math.Abs(test.got/test.want-1) > 0.01 {
			t.Errorf("%s takes %.2f of a single crochet, measured %.2f", test.what, test.got, test.want)
		}
	}
	// a stitch of every kind takes something, and a taller plain one takes more
	before := 0.0
	for _, id := range []stitch.ID{stitch.Slip, stitch.SC, stitch.HDC, stitch.DC, stitch.TR, stitch.DTR, stitch.TRTR} {
		if u := Unit(id); u <= before {
			t.Errorf("%s takes %v, no more than a shorter one", id.Name(stitch.US), u)
		} else {
			before = u
		}
	}
	for _, s := range stitch.All() {
		if u := Unit(s.ID); !(u > 0.4 && u < 12) {
			t.Errorf("%s takes %v", s.US, u)
		}
	}
}

// Source: the same strips: 53 in of yarn in 5 in of single crochet is 10.6
// widths of it a stitch; and 19 g in 400 stitches 0.3125 in wide, at 1.2 yards to
// the gram, 6.6 widths.
func TestEstimateSpansTheMeasurements(t *testing.T) {
	g, err := gauge.Read(stitch.US, "14 sc = 4 in")
	if err != nil {
		t.Fatal(err)
	}
	r, err := Estimated(g)
	if err != nil {
		t.Fatal(err)
	}
	w := 4 * gauge.Inch / 14
	for _, widths := range []float64{53.0 / 5, 19.0 / 400 * 1.2 * 36 / 0.3125} {
		if mm := widths * w; mm < r.MM.Low*0.99 || mm > r.MM.High*1.01 {
			t.Errorf("%.1f mm a stitch was measured, estimated %v", mm, r.MM)
		}
	}
}

func TestSums(t *testing.T) {
	u := usageOf("Yarn: wool in red (A) and white (B)\nUS terms\n\nFlag (make 2)\nWith A, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, with B, sc in each st across. (10 sc)\nRow 3: Ch 3 (counts as dc), turn, skip first st, dc in each st across. (10 dc)\nFasten off, leaving a long tail.\n")
	if len(u.Colours) != 2 || u.Colours[0] != "red (A)" || u.Colours[1] != "white (B)" {
		t.Fatalf("%q", u.Colours)
	}
	s := u.Sums()
	if want := 2 * (11*chainUnit + 10); math.Abs(s[0].Units-want) > 2*chainUnit+1e-9 || s[0].Stitches != 20 || s[0].Tails != 4 || s[0].Long != 0 {
		t.Errorf("A: %+v, want %v units", s[0], want)
	}
	if s[1].Stitches != 40 || s[1].Tails != 2 || s[1].Long != 2 {
		t.Errorf("B: %+v", s[1])
	}
}

// What is used up to each row grows to the whole.
func TestUptoGrowsToTheWhole(t *testing.T) {
	for _, d := range demo.All() {
		u := usageOf(d.Text)
		all := total(u.Sums())
		before := 0.0
		for i, p := range u.Pieces {
			for copy := range max(p.Proof.Piece.Copies, 1) {
				for row := range p.Proof.Len() {
					for _, share := range []float64{0, 0.5, 1} {
						now := total(u.Upto(i, copy, row, share))
						if now < before-1e-9 {
							t.Fatalf("%s: %v after %v at row %d", d.Name, now, before, row)
						}
						before = now
					}
				}
			}
		}
		if all <= 0 || math.Abs(before/all-1) > 1e-9 {
			t.Errorf("%s: %v at the end, %v in all", d.Name, before, all)
		}
	}
}

func total(sums []Sum) float64 {
	n := 0.0
	for _, s := range sums {
		n += s.Units
	}
	return n
}

// Twice as many rows alike take twice as much, and a million of them are no
// more work than two.
func TestLongRanges(t *testing.T) {
	text := func(last string) string {
		return "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRows 2-" + last + ": Ch 1, turn, sc in each st across. (10 sc)\n"
	}
	a, b := total(usageOf(text("101")).Sums()), total(usageOf(text("201")).Sums())
	if math.Abs(b-a-100*(10+chainUnit)) > 1e-6 {
		t.Errorf("100 rows more take %v", b-a)
	}
	if u := usageOf(text("900000")); total(u.Sums()) < 9e6 {
		t.Errorf("%v", u.Sums())
	}
	usageOf("Ch 900000000.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n").Sums()
}

// Against gonum's statistics: mean, spread, and Student's t.
func TestMeasuredAgainstStatistics(t *testing.T) {
	for free := 1; free < 60; free++ {
		want := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(free)}.Quantile(0.95)
		if got := student(free); math.Abs(got/want-1) > 0.002 {
			t.Errorf("t of %d is %v, want %v", free, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(10, 60), 2, 12).Draw(t, "swatches")
		var s []Swatch
		for _, v := range x {
			s = append(s, Swatch{Stitch: stitch.SC, Units: 100, MM: 100 * v})
		}
		r := Measured(s).MM
		mean, sd := stat.MeanStdDev(x, nil)
		n := float64(len(x))
		high := mean + distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 1}.Quantile(0.95)*sd*math.Sqrt(1+1/n)
		if math.Abs(r.Mid-mean) > 1e-9*mean || math.Abs(r.High-high) > 0.002*high {
			t.Fatalf("%+v, want %v up to %v", r, mean, high)
		}
	})
}

// Nine pieces of ten take what the range of a few swatches says.
func TestRangeHoldsAsOftenAsItSays(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	in, trials := 0, 4000
	for range trials {
		var s []Swatch
		for range 4 {
			s = append(s, Swatch{Units: 1, MM: 30 + 2*rnd.NormFloat64()})
		}
		r := Measured(s).MM
		if next := 30 + 2*rnd.NormFloat64(); r.Low <= next && next <= r.High {
			in++
		}
	}
	if share := float64(in) / float64(trials); share < 0.88 || share > 0.92 {
		t.Errorf("the range holds %v of the time", share)
	}
}

func TestReadSwatch(t *testing.T) {
	for text, want := range map[string]Swatch{
		"400 sc weigh 6.1 g":                   {stitch.SC, 400, 0, 6.1},
		"400 half double crochet weighed 1 oz": {stitch.HDC, 592, 0, 28.349523125},
		"100 sc used 2 yd":                     {stitch.SC, 100, 1828.8, 0},
		"20 sc x 22 rows used 8.2 m":           {stitch.SC, 440 + 42*chainUnit, 8200, 0},
		" 20  SC X 22 rows took 8,2 metres":    {stitch.SC, 440 + 42*chainUnit, 8200, 0},
		"10 dc by 5 rows = 320 cm":             {stitch.DC, 96 + 25*chainUnit, 3200, 0},
	} {
		got, err := ReadSwatch(text, stitch.US)
		if err != nil || got.Stitch != want.Stitch || math.Abs(got.Units-want.Units) > 1e-9 || math.Abs(got.MM-want.MM) > 1e-6 || got.Grams != want.Grams {
			t.Errorf("%q: %+v, %v, want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "sc", "20 kelp used 3 m", "20 sc used", "20 sc used 0 m", "0 sc used 3 m", "-3 sc used 2 m", "20 sc used 3 kg", "20 sc x 0 rows used 0 g", "99999999999999999999999 sc used 3 m", "20 sc used 1e9 m"} {
		if s, err := ReadSwatch(text, stitch.US); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %+v, %v", text, s, err)
		}
	}
}

func TestReadBall(t *testing.T) {
	for text, want := range map[string]Ball{
		"50 g = 125 m": {125000, 50}, "100g": {0, 100}, "200 m": {200000, 0}, "3.5 oz, 200 yd": {182880, 3.5 * gramsPerOunce}, "50g/125m": {125000, 50},
	} {
		got, err := ReadBall(text)
		if err != nil || math.Abs(got.MM-want.MM) > 1e-6 || math.Abs(got.Grams-want.Grams) > 1e-9 {
			t.Errorf("%q: %+v, %v, want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "big", "0 g", "50"} {
		if b, err := ReadBall(text); err == nil {
			t.Errorf("%q: %+v", text, b)
		}
	}
}

func TestBalls(t *testing.T) {
	u := usageOf("Ch 101.\nRow 1: Sc in 2nd ch from hook and in each ch across. (100 sc)\nRows 2-100: Ch 1, turn, sc in each st across. (100 sc)\n")
	r := Rate{MM: Range{20, 20, 20}, N: 1}
	units := total(u.Sums())
	for _, test := range []struct{ ballMM, margin, want float64 }{
		{(20*units + 300) / 2, 0, 2}, {(20*units + 300) / 2, 0.1, 3}, {1e6, 0.1, 1},
	} {
		if a := u.Amounts(r, Ball{MM: test.ballMM}, test.margin); a[0].Balls != test.want {
			t.Errorf("balls of %v m: %v, want %v", test.ballMM/1000, a[0].Balls, test.want)
		}
	}
}

func TestLasts(t *testing.T) {
	u := usageOf("Ch 101.\nRow 1: Sc in 2nd ch from hook and in each ch across. (100 sc)\nRows 2-100: Ch 1, turn, sc in each st across. (100 sc)\n")
	r := Rate{Grams: Range{0.009, 0.01, 0.011}, N: 1}
	need := r.Weight(u.Left(0, 0, 50)[0]) // 50 rows of 100, and an end
	if math.Abs(need.Mid-50.24-0.01*TailMM/guessedMM) > 1e-6 {
		t.Errorf("the rest takes %v", need)
	}
	for grams, want := range map[float64]string{40: "It does not last", 50: "It may not last", 58: "It lasts", 62: "It lasts easily"} {
		if got := Told("red", need, grams); !strings.HasSuffix(got, want+".") {
			t.Errorf("%v g: %s", grams, got)
		}
	}
}
