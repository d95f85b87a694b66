package yarn

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
)

func TestStretches(t *testing.T) {
	for _, c := range []struct {
		name     string
		readings []Reading
		want     []Stretch
	}{
		{"none", nil, nil},
		{"one", []Reading{{0, 0, 50}}, nil},
		{"two", []Reading{{0, 0, 50}, {100, 0, 46}}, []Stretch{{100, 4}}},
		{"near one another", []Reading{{0, 0, 50}, {20, 0, 49}, {100, 0, 46}}, []Stretch{{100, 4}}},
		{"the scale wavers", []Reading{{0, 0, 50}, {5, 0, 51}, {100, 0, 46}}, []Stretch{{100, 4}}},
		{"weighed again at the same place", []Reading{{100, 0, 50}, {100, 0, 46}, {200, 0, 42}}, []Stretch{{100, 8}}},
		{"another ball", []Reading{{0, 0, 50}, {100, 0, 46}, {100, 1, 50}, {200, 1, 46}}, []Stretch{{100, 4}, {100, 4}}},
		{"another ball, unsaid", []Reading{{0, 0, 50}, {100, 0, 46}, {150, 0, 90}, {250, 0, 86}}, []Stretch{{100, 4}, {100, 4}}},
		{"ripped", []Reading{{0, 0, 50}, {200, 0, 42}, {100, 0, 46}, {200, 0, 41}}, []Stretch{{200, 8}, {100, 5}}},
	} {
		if got := Stretches(c.readings, Step(c.readings)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if s := Step([]Reading{{0, 0, 50}, {9, 0, 49.5}}); s != fineStep {
		t.Errorf("a fine scale has steps of %v", s)
	}
	// What a fine scale shows is enough where it is not on a kitchen's.
	if got := Stretches([]Reading{{0, 0, 5.5}, {20, 0, 5.1}}, fineStep); len(got) != 1 {
		t.Errorf("%v", got)
	}
}

// Against gonum: the rate is a regression through the origin with weights of
// 1/units, and the range that of its residuals by Student's t. With the roots of
// units divided out it is an ordinary regression, whose residuals gonum sums.
func TestOwnRateAgainstStatistics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(enoughStretches, 12).Draw(t, "stretches")
		all := make([]Stretch, n)
		x, y, weight := make([]float64, n), make([]float64, n), make([]float64, n)
		sum := 0.0
		for i := range all {
			x[i] = rapid.Float64Range(20, 900).Draw(t, "units")
			y[i] = x[i] * rapid.Float64Range(0.02, 0.06).Draw(t, "rate")
			all[i], weight[i] = Stretch{x[i], y[i]}, 1/x[i]
			sum += x[i]
		}
		rest := rapid.Float64Range(1, 5000).Draw(t, "rest")
		_, slope := stat.LinearRegression(x, y, weight, true)
		got := FromStretches(all, 0).Takes(rest)
		if math.Abs(got.Mid-slope*rest) > 1e-9*got.Mid {
			t.Fatalf("%v units take %v, want %v", rest, got.Mid, slope*rest)
		}
		var residual []float64
		for i := range x {
			residual = append(residual, (y[i]-slope*x[i])/math.Sqrt(x[i]))
		}
		variance := stat.MomentAbout(2, residual, 0, nil) * float64(n) / float64(n-1)
		off := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - 1)}.Quantile(0.95) * math.Sqrt(variance*(rest+rest*rest/sum))
		if math.Abs(got.High-got.Mid-off) > 0.002*off+1e-9 {
			t.Fatalf("%+v: %v above the middle, want %v", got, got.High-got.Mid, off)
		}
	})
}

// Nine rests of ten take what the range says, where the yarn in a stitch varies
// by itself and the scale is a fine one.
func TestOwnRangeHoldsAsOftenAsItSays(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	in, trials := 0, 4000
	took := func(units float64) float64 { return 0.03*units + 0.02*math.Sqrt(units)*rnd.NormFloat64() }
	for range trials {
		var all []Stretch
		for range 5 {
			units := 50 + 300*rnd.Float64()
			all = append(all, Stretch{units, took(units)})
		}
		if r := FromStretches(all, 0).Takes(700); r.Low <= 0 {
			t.Fatal(r)
		} else if next := took(700); r.Low <= next && next <= r.High {
			in++
		}
	}
	if share := float64(in) / float64(trials); share < 0.88 || share > 0.92 {
		t.Errorf("the range holds %v of the time", share)
	}
}

func TestFewStretches(t *testing.T) {
	if o := FromStretches(nil, 1); o.Known() || o.Takes(50) != (Range{}) {
		t.Errorf("no stretches take %v", o.Takes(50))
	}
	one := FromStretches([]Stretch{{100, 4}}, 0).Takes(200)
	if math.Abs(one.Low-7.2) > 1e-9 || math.Abs(one.Mid-8) > 1e-9 || math.Abs(one.High-8.8) > 1e-9 {
		t.Errorf("one stretch: %+v", one)
	}
	// Two that differ by more than a tenth reach as far as they do.
	two := FromStretches([]Stretch{{100, 3}, {100, 5}}, 0).Takes(200)
	if math.Abs(two.Low-6) > 1e-9 || math.Abs(two.High-10) > 1e-9 {
		t.Errorf("two stretches: %+v", two)
	}
	// However alike they are, it is never closer than the scale can tell.
	alike := FromStretches([]Stretch{{100, 4}, {100, 4}, {100, 4}, {100, 4}}, 1).Takes(400)
	if math.Abs(alike.Low-15) > 1e-9 || math.Abs(alike.High-17) > 1e-9 {
		t.Errorf("stretches alike: %+v", alike)
	}
	if r := one; Judge(r, 7) != DoesNotLast || Judge(r, 8) != MayNotLast || Judge(r, 9) != Lasts || Judge(r, 9.7) != LastsEasily {
		t.Error("judged amiss")
	}
}

func TestColourAt(t *testing.T) {
	u := usageOf("Yarn: wool in red (A) and white (B)\nUS terms\n\nFlag (make 2)\nWith A, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in next 4 sts, change to B, sc in next 6 sts. (10 sc)\nRow 3: Ch 1, turn, sc in each st across. (10 sc)\n")
	for _, c := range []struct {
		row    int
		stitch int64
		want   int
	}{{0, 0, 0}, {0, 10, 0}, {1, 0, 0}, {1, 3, 0}, {1, 4, 1}, {1, 10, 1}, {2, 0, 1}, {3, 0, 1}} {
		if got := u.ColourAt(0, c.row, c.stitch); got != c.want {
			t.Errorf("row %d after %d: %s", c.row+1, c.stitch, u.Colours[got])
		}
	}
	// A copy added is a share of the sums.
	one, all := make([]Sum, 2), u.Sums()
	u.AddCopy(one, 0, 3, 0)
	u.AddCopy(one, 9, 3, 0)
	if one[0].Stitches*2 != all[0].Stitches || math.Abs(one[1].Units*2-all[1].Units) > 1e-9 || one[0].Tails*2 != all[0].Tails {
		t.Errorf("one copy %+v, all %+v", one, all)
	}
}

func TestStated(t *testing.T) {
	prove := func(head string) *pattern.Proof {
		return pattern.Read("Leaf\n\n" + head + "\nUS terms\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n").Prove(pattern.Options{})
	}
	for head, want := range map[string]struct {
		rough     bool
		n         int
		mm, grams float64
	}{
		"Gauge: 20 sc = 10 cm\n":                                                                   {true, 0, 42, 0},
		"Gauge: 20 sc = 10 cm\nYarn: cotton, 50 g = 125 m\n":                                       {true, 0, 42, 42 * 50.0 / 125_000},
		"Gauge: 20 sc = 10 cm\nGauge swatch: 400 sc weigh 6.1 g.\n":                                {false, 1, 0, 6.1 / 400},
		"Gauge swatch: 400 sc weigh 6.1 g\nGauge swatch: 100 sc weigh 1.5 g\nYarn: 50 g = 125 m\n": {false, 2, (6.1/400 + 0.015) / 2 * 2500, (6.1/400 + 0.015) / 2},
	} {
		r, err := StatedRate(prove(head))
		if err != nil || r.Rough != want.rough || r.N != want.n || math.Abs(r.MM.Mid-want.mm) > 1e-6 || math.Abs(r.Grams.Mid-want.grams) > 1e-9 {
			t.Errorf("%q: %+v, %v; want %+v", head, r, err, want)
		}
	}
	if _, err := StatedRate(prove("Yarn: cotton\n")); err == nil || strings.Contains(err.Error(), "\n") {
		t.Errorf("without a gauge: %v", err)
	}
	if _, ok := StatedBall(prove("Yarn: 50 g = 125 m\nMaterials: white, 100 g = 200 m\n").Pattern); ok {
		t.Error("two balls are told as one")
	}
}
