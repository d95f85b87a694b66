package gauge

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/stitch"
)

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

func TestLength(t *testing.T) {
	for _, test := range []struct {
		text string
		mm   float64
		unit Unit
	}{
		{"22cm", 220, Centimetres}, {"22 cm", 220, Centimetres}, {"220mm", 220, Centimetres}, {"0.5 m", 500, Centimetres},
		{"10,5 cm", 105, Centimetres}, {"8 1/2 in", 215.9, Inches}, {"8½in", 215.9, Inches}, {"8-1/2 inches", 215.9, Inches},
		{`4"`, 101.6, Inches}, {"4''", 101.6, Inches}, {"½ in", 12.7, Inches}, {"1/4 in", 6.35, Inches}, {"-2cm", -20, Centimetres},
		{"−1 in", -25.4, Inches}, {"+3 cm", 30, Centimetres}, {"four inches", 101.6, Inches}, {"3⅛ in", 79.375, Inches},
	} {
		mm, unit, err := Length(test.text)
		if err != nil || !near(mm, test.mm) || unit != test.unit {
			t.Errorf("%q is %v mm, unit %v, %v; want %v, %v", test.text, mm, unit, err, test.mm, test.unit)
		}
	}
	for text, want := range map[string]string{
		"":            "is not a length",
		"wide":        "is not a length",
		"22":          "has no unit; write 22cm or 22in",
		"22 furlongs": "is not a length in mm, cm, m or inches",
		"22 cm wide":  "is not a length in mm, cm, m or inches",
		"9999999 m":   "longer than a kilometre",
	} {
		if _, _, err := Length(text); err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v; want %q", text, err, want)
		}
	}
	for mm, want := range map[float64]string{221: "22.1 cm", 220: "22 cm", 5: "0.5 cm", 0: "0 cm", -0.1: "0 cm"} {
		if got := Centimetres.Tell(mm); got != want {
			t.Errorf("%v mm is told as %q, want %q", mm, got, want)
		}
	}
	if got := Inches.Tell(215.9); got != "8.5 in" {
		t.Errorf("215.9 mm is told as %q", got)
	}
}

// Gauges as print has them, in the words of many hands.
func TestRead(t *testing.T) {
	const in = Inch
	for _, test := range []struct {
		text           string
		terms          stitch.Terms
		stitches, rows float64 // per mm
		kind           Kind
		stitch         stitch.ID
		unit           Unit
	}{
		{"20 sc and 22 rows = 10 cm", stitch.US, 0.2, 0.22, ByStitch, stitch.SC, Centimetres},
		{"18 sts and 21 rows to 10 cm in single crochet", stitch.US, 0.18, 0.21, ByStitch, stitch.SC, Centimetres},
		{"22 sts and 24 rnds to 10 cm in single crochet, tight enough that no stuffing shows", stitch.US, 0.22, 0.24, ByStitch, stitch.SC, Centimetres},
		{"19 sts and 16 rows to 10 cm in half double crochet", stitch.US, 0.19, 0.16, ByStitch, stitch.HDC, Centimetres},
		{"14 sts and 16 rows = 4 inches in hdc", stitch.US, 14 / (4 * in), 16 / (4 * in), ByStitch, stitch.HDC, Inches},
		{`16 sts x 20 rows = 4" x 4"`, stitch.US, 16 / (4 * in), 20 / (4 * in), ByStitch, stitch.None, Inches},
		{"16 sts and 20 rows = 4 in x 5 in", stitch.US, 16 / (4 * in), 4 / in, ByStitch, stitch.None, Inches},
		{"16 sts and 20 rows = 4 x 4 in.", stitch.US, 16 / (4 * in), 20 / (4 * in), ByStitch, stitch.None, Inches},
		{"10 x 10 cm = 20 sts x 22 rows", stitch.US, 0.2, 0.22, ByStitch, stitch.None, Centimetres},
		{"4 in / 10 cm = 15 sc and 18 rows", stitch.US, 15 / (4 * in), 18 / (4 * in), ByStitch, stitch.SC, Inches},
		{"15 sc = 10 cm (4 in)", stitch.US, 0.15, 0, ByStitch, stitch.SC, Centimetres},
		{"20 sts = 10 cm; 11 rows = 5 cm", stitch.US, 0.2, 0.22, ByStitch, stitch.None, Centimetres},
		{"7 d c make 1 inch.", stitch.US, 7 / in, 0, ByStitch, stitch.DC, Inches},
		{"9 tr. to the inch.", stitch.UK, 9 / in, 0, ByStitch, stitch.DC, Inches},
		{"6 tr and 3 rows to 1 in.", stitch.UK, 6 / in, 3 / in, ByStitch, stitch.DC, Inches},
		{"6 htr = 1 in.", stitch.UK, 6 / in, 0, ByStitch, stitch.HDC, Inches},
		{"14 htr to 10 cm", stitch.UK, 0.14, 0, ByStitch, stitch.HDC, Centimetres},
		{"5 sps. to 1 in.", stitch.US, 5 / in, 0, BySpace, stitch.None, Inches},
		{"6 squares to 10 cm across, before washing", stitch.UK, 0.06, 0, BySpace, stitch.None, Centimetres},
		{"4 shells = 10 cm", stitch.US, 0.04, 0, ByGroup, stitch.None, Centimetres},
		{"3.5 sc per inch", stitch.US, 3.5 / in, 0, ByStitch, stitch.SC, Inches},
		{"4 1/2 sts to 1 1/2 inches", stitch.US, 3 / in, 0, ByStitch, stitch.None, Inches},
		{"4½ sts = 1 in", stitch.US, 4.5 / in, 0, ByStitch, stitch.None, Inches},
		{"Rows 1-4 = 2 in", stitch.US, 0, 2 / in, ByStitch, stitch.None, Inches},
		{"Rnds 1 and 2 measure 6.5 cm across", stitch.US, 0, 4 / 65.0, ByStitch, stitch.None, Centimetres},
		{"1st 2 rounds measure 3 ins. across", stitch.UK, 0, 4 / (3 * in), ByStitch, stitch.None, Inches},
		{"eight stitches to two inches", stitch.US, 4 / in, 0, ByStitch, stitch.None, Inches},
		{"10,5 sts = 5 cm", stitch.US, 0.21, 0, ByStitch, stitch.None, Centimetres},
		{"1 sc = 5 mm", stitch.US, 0.2, 0, ByStitch, stitch.SC, Centimetres},
	} {
		g, err := Read(test.terms, test.text)
		if err != nil {
			t.Errorf("%q: %v", test.text, err)
			continue
		}
		if !near(g.Stitches.PerMM, test.stitches) || !near(g.Rows.PerMM, test.rows) || g.Kind != test.kind || g.Stitch != test.stitch || g.Unit != test.unit {
			t.Errorf("%q: %+v; want %+v", test.text, g, test)
		}
	}
}

// A swatch counted at several places gives their mean and sample standard
// deviation. The figures are the worked example of NIST/SEMATECH e-Handbook's
// formula for s, reckoned by hand: 20, 21, 19 has the mean 20 and s = 1; 22, 24
// the mean 23 and s = sqrt 2.
func TestSwatch(t *testing.T) {
	for _, texts := range [][]string{
		{"20, 21, 19 sc and 22, 24 rows = 10 cm"},
		{"20/21/19 sc & 22 and 24 rows = 10 cm"},
		{"20 sc and 22 rows = 10 cm", "21 sc and 24 rows = 10 cm", "19 sc = 10 cm"},
		{"20 sc = 10 cm; 21 sc = 10 cm; 9.5 sc = 5 cm; 22 rows = 10 cm; 24 rows = 10 cm"},
	} {
		g, err := Read(stitch.US, texts...)
		if err != nil {
			t.Errorf("%q: %v", texts, err)
			continue
		}
		if !near(g.Stitches.PerMM, 0.2) || !near(g.Stitches.Spread, 0.01) || g.Stitches.Places != 3 {
			t.Errorf("%q: stitches %+v", texts, g.Stitches)
		}
		if !near(g.Rows.PerMM, 0.23) || !near(g.Rows.Spread, math.Sqrt2/100) || g.Rows.Places != 2 {
			t.Errorf("%q: rows %+v", texts, g.Rows)
		}
		// 44 sts are 220 mm, and 5 % of that either way
		if !near(g.Stitches.Length(44), 220) || !near(g.Stitches.Slack(44), 11) || !near(g.Stitches.In(220), 44) {
			t.Errorf("%q: 44 sts are %v ± %v mm", texts, g.Stitches.Length(44), g.Stitches.Slack(44))
		}
	}
	g, _ := Read(stitch.US, "20, 21, 19 sc and 22 rows = 10 cm")
	if got, want := g.String(), "20 (±1) sc and 22 rows to 10 cm"; got != want {
		t.Errorf("told as %q, want %q", got, want)
	}
	g, _ = Read(stitch.US, "14 to 16 sts = 4 in")
	if got, want := g.String(), "15 (±1.4) sts to 4 in"; got != want {
		t.Errorf("told as %q, want %q", got, want)
	}
}

func TestReadErrors(t *testing.T) {
	for _, test := range []struct {
		texts []string
		want  string
	}{
		{[]string{""}, "is not a gauge"},
		{[]string{"loose"}, "is not a gauge"},
		{[]string{"20 sc"}, "names no length"},
		{[]string{"10 cm"}, "counts no stitches"},
		{[]string{"0 sc = 10 cm"}, "has a 0 in it"},
		{[]string{"20 sc = 0 cm"}, "has a 0 in it"},
		{[]string{"2000 sc = 1 mm"}, "which no yarn gives"},
		{[]string{"1 row = 1 m"}, "which no yarn gives"},
		{[]string{"20 sc = 10 cm", "12 dc = 10 cm"}, "given in sc and in dc"},
		{[]string{"20 sts = 10 cm", "6 squares = 10 cm"}, "counts sts and squares"},
		{[]string{"About 200 g of any soft yarn"}, "is not a gauge"},
	} {
		_, err := Read(stitch.US, test.texts...)
		if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v; want %q", test.texts, err, test.want)
		}
	}
}

// Inches and centimetres come to the same fabric, and what is told reads back.
func TestUnitsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 60).Draw(t, "stitches")
		r := rapid.IntRange(2, 60).Draw(t, "rows")
		s := strings.NewReplacer("N", itoa(n), "R", itoa(r))
		metric, err := Read(stitch.US, s.Replace("N sts and R rows = 101.6 mm"))
		if err != nil {
			t.Fatal(err)
		}
		inches, err := Read(stitch.US, s.Replace("N sts, R rows = 4 in"))
		if err != nil {
			t.Fatal(err)
		}
		if !near(metric.Stitches.PerMM, inches.Stitches.PerMM) || !near(metric.Rows.PerMM, inches.Rows.PerMM) {
			t.Errorf("%v and %v", metric, inches)
		}
		again, err := Read(stitch.US, inches.String())
		if err != nil || !near(again.Stitches.PerMM, inches.Stitches.PerMM) || !near(again.Rows.PerMM, inches.Rows.PerMM) {
			t.Errorf("%q reads back as %v, %v", inches, again, err)
		}
	})
}

func itoa(n int) string { return figure(float64(n)) }

// Whatever the words, a gauge that is read can be reckoned with.
func FuzzRead(f *testing.F) {
	f.Add("20 sc and 22 rows = 10 cm")
	f.Add("4½ sts to 1-1/2 in; 20, 21,5 d.c = 4\" x 4\"")
	f.Add("Rnds 1 and 2 measure 6.5 cm across")
	f.Fuzz(func(t *testing.T, text string) {
		g, err := Read(stitch.US, text)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("%q: an error of several lines", text)
			}
			return
		}
		for _, c := range []Count{g.Stitches, g.Rows} {
			if c.PerMM < 0 || math.IsNaN(c.PerMM) || math.IsInf(c.PerMM, 0) || math.IsNaN(c.Spread) || c.Known() && c.Places == 0 {
				t.Errorf("%q: %+v", text, c)
			}
		}
		if !g.Stitches.Known() && !g.Rows.Known() {
			t.Errorf("%q: a gauge of nothing", text)
		}
		mm, _, err := Length(text)
		if err == nil && math.Abs(mm) > maxLength {
			t.Errorf("%q: %v mm", text, mm)
		}
	})
}
