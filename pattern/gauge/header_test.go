package gauge

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

func prove(text string) *pattern.Proof { return pattern.Read(text).Prove(pattern.Options{}) }

func TestStatedInDemos(t *testing.T) {
	want := map[string]string{
		"pennant": "18 sts and 21 rows to 10 cm",
		"buoy":    "22 sts and 24 rows to 10 cm",
		"net":     "6 squares to 10 cm",
		"star":    "6.2 rows to 10 cm",
		"cuff":    "19 sts and 16 rows to 10 cm",
	}
	for _, d := range demo.All() {
		p := prove(d.Text)
		g, err := Stated(p)
		if err != nil || g.String() != want[d.Name] {
			t.Errorf("%s: %q, %v; want %q", d.Name, g.String(), err, want[d.Name])
		}
		if n := Unusual(p.Pattern, g); len(n) > 0 {
			t.Errorf("%s: %q", d.Name, n)
		}
	}
}

const rows = "\nBand\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"

func TestStated(t *testing.T) {
	for _, test := range []struct{ head, want string }{
		{"Gauge: 20 sc = 10 cm\nGauge: 22 rows = 10 cm", "20 sc and 22 rows to 10 cm"},
		{"Gauge\n16 sts = 4 in\n18 rows = 4 in", "16 sts and 18 rows to 4 in"},
		{"Gauge: not important\nTension: 14 sts to 4 in", "14 sts to 4 in"},
	} {
		g, err := Stated(prove("Belt\n\n" + test.head + "\n" + rows))
		if err != nil || g.String() != test.want {
			t.Errorf("%q: %q, %v; want %q", test.head, g.String(), err, test.want)
		}
	}
	if _, err := Stated(prove("Belt\n" + rows)); !errors.Is(err, ErrNotSaid) {
		t.Errorf("without a gauge: %v", err)
	}
	if _, err := Stated(prove("Belt\n\nGauge: not important\n" + rows)); err == nil || errors.Is(err, ErrNotSaid) {
		t.Errorf("with one that is no use: %v", err)
	}
}

func TestStatedYarnAndHook(t *testing.T) {
	for _, test := range []struct {
		head    string
		weights []int
		hook    float64
	}{
		{"Yarn: medium wool, about 20 m\nHook: 3.5 mm", []int{4}, 3.5},
		{"Yarn: double knitting cotton\nHook: H-8", []int{3}, 5},
		{"Yarn: light blue, 20 m\nHook: K", nil, 6.5},
		{"Yarn: DK in red\nYarn: DK in blue\nHook: G", []int{3}, 0},
		{"Yarn: worsted in red\nYarn: bulky in blue", nil, 0},
		{"Yarn: weight 5, 100 g\nHook: US I-9 (5.5 mm)", []int{5}, 5.5},
		{"Yarn: fingering, 100 g", []int{0, 1}, 0},
		{"Materials: #4 yarn, 6 mm hook", []int{4}, 6},
	} {
		p := prove("Belt\n\n" + test.head + "\n" + rows).Pattern
		var got []int
		for _, w := range StatedYarn(p) {
			got = append(got, w.Number)
		}
		if len(got) != len(test.weights) || len(got) > 0 && got[0] != test.weights[0] {
			t.Errorf("%q: weights %v, want %v", test.head, got, test.weights)
		}
		if mm, _ := StatedHook(p); mm != test.hook {
			t.Errorf("%q: hook %v, want %v", test.head, mm, test.hook)
		}
	}
}

// Source: Craft Yarn Council, Standard Yarn Weight System, as in
// testdata/facts/yarnweights.tsv: what the table itself gives is never unusual
// with the hooks that it names, and twice or half as much is.
func TestUnusualAgainstTheSystem(t *testing.T) {
	for i, f := range facts(t, "yarnweights.tsv") {
		if i == 0 || i == 7 {
			continue // lace is measured in double crochet; jumbo has no upper end
		}
		sts, hooks := inRange(t, f["sc_gauge_4in_current"]), inRange(t, f["hook_mm_current"])
		for _, hook := range []float64{hooks.Least, hooks.Most} {
			p := prove("Belt\n\nYarn: weight " + f["weight"] + "\nHook: " + figure(hook) + " mm\n" + rows).Pattern
			for n, want := range map[float64]bool{sts.Least: false, sts.Most: false, 2 * sts.Most: true, sts.Least / 2: true} {
				g, err := Read(stitch.US, strconv.FormatFloat(n, 'f', -1, 64)+" sc = 4 in")
				if err != nil {
					t.Fatal(err)
				}
				if notes := Unusual(p, g); (len(notes) > 0) != want {
					t.Errorf("%s, hook %v, %v sc: %q", f["name"], hook, n, notes)
				}
			}
			if notes := Unusual(prove("Belt\n\nYarn: weight "+f["weight"]+"\nHook: "+figure(3*hooks.Most)+" mm\n"+rows).Pattern, Gauge{}); len(notes) != 1 || !strings.Contains(notes[0], f["name"]) {
				t.Errorf("%s with a hook of %v mm: %q", f["name"], 3*hooks.Most, notes)
			}
		}
	}
}

// Source: testdata/facts/circles.tsv, the stitches that published flat circles
// begin with. Each round adds its height to the radius, so a flat one adds
// 2 pi times the height in stitches: the published numbers tell the heights.
func TestTallAgainstFlatCircles(t *testing.T) {
	lex := stitch.LexiconFor(stitch.US)
	seen := make(map[stitch.ID]bool)
	for _, f := range facts(t, "circles.tsv") {
		id, _ := lex.Find(f["stitch"])
		if f["case"] != "flat circle" || seen[id] || strings.Contains(f["basis"], "no source") {
			continue // the first of each is the usual one
		}
		seen[id] = true
		first, _, _ := strings.Cut(f["counts"], " ")
		n, err := strconv.ParseFloat(first, 64)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := Tall(id), n/(2*math.Pi); got < want*0.8 || got > want*1.2 {
			t.Errorf("%s stands %v rows; %v of them make a flat circle at %v", f["stitch"], got, n, want)
		}
	}
	if !seen[stitch.SC] || !seen[stitch.HDC] || !seen[stitch.DC] {
		t.Errorf("too few stitches were looked at: %v", seen)
	}
}

func TestWidthsAndHeights(t *testing.T) {
	for _, test := range []struct {
		name, text string
		widths     []float64
	}{
		{"plain", "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across, 2 sc in last st.", []float64{10, 11}},
		{"mesh", "Ch 23.\nRow 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. (7 dc, 6 ch-2 sps)", []float64{19}},
		{"loops", "Ch 14.\nRow 1: Sc in 2nd ch from hook and in each ch across. (13 sc)\nRow 2: Ch 1, turn, sc in first st, *ch 5, sk 3 sts, sc in next st; rep from * across. (4 sc, 3 ch-5 sps)", []float64{13, 13}},
		{"ring", "Ch 6, join with sl st in first ch to form ring.\nRnd 1: Ch 1, (sc in ring, ch 3) 6 times, join with sl st in first sc. (6 sc, 6 ch-3 sps)", []float64{24}},
	} {
		p := prove(test.text)
		got := Widths(p.Pieces[0])
		if len(got) != len(test.widths) {
			t.Errorf("%s: %v", test.name, got)
			continue
		}
		for i := range got {
			if got[i] != test.widths[i] {
				t.Errorf("%s: %v, want %v", test.name, got, test.widths)
			}
		}
	}
	p := prove("Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\nRow 2: Ch 3 (does not count as a st), turn, dc in each st across. (11 dc)")
	sc, _ := Read(stitch.US, "20 sc and 20 rows = 10 cm")
	dc, _ := Read(stitch.US, "20 dc and 10 rows = 10 cm")
	plain, _ := Read(stitch.US, "20 sts and 20 rows = 10 cm")
	for _, test := range []struct {
		g    Gauge
		want [2]float64
	}{{sc, [2]float64{1, 2}}, {dc, [2]float64{0.5, 1}}, {plain, [2]float64{1, 1}}} {
		for i, r := range p.Pieces[0].Rows {
			if got := test.g.Height(r, p.Terms); got != test.want[i] {
				t.Errorf("%v: row %d is %v rows high, want %v", test.g, i+1, got, test.want[i])
			}
		}
	}
}
