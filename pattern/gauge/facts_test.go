package gauge

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// facts reads a table of figures: fields parted by tabs, the first line the
// names of the columns; lines that begin with # name the source.
func facts(t *testing.T, name string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "facts", name))
	if err != nil {
		t.Fatal(err)
	}
	var head []string
	var out []map[string]string
	for line := range strings.Lines(string(text)) {
		line = strings.TrimRight(line, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		fields := strings.Split(line, "\t")
		if head == nil {
			head = fields
			continue
		}
		f := make(map[string]string)
		for i, h := range head {
			f[h] = fields[i]
		}
		out = append(out, f)
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return out
}

func has(list []float64, n float64) bool {
	for _, m := range list {
		if m == n {
			return true
		}
	}
	return false
}

// Source: Craft Yarn Council hook list and makers' charts, as in
// testdata/facts/hooks.tsv.
func TestHooksAgainstTheList(t *testing.T) {
	for _, f := range facts(t, "hooks.tsv") {
		mm, err := strconv.ParseFloat(f["mm"], 64)
		if err != nil {
			t.Fatal(err)
		}
		name, _, _ := strings.Cut(f["us"], " (")
		switch {
		case f["type"] == "regular":
			h, ok := OfMM(mm)
			if !ok {
				t.Errorf("no hook of %v mm", mm)
				continue
			}
			if name == "-" {
				name = ""
			}
			if h.US != name {
				t.Errorf("%v mm is %q, want %q", mm, h.US, name)
			}
			if uk, _, _ := strings.Cut(f["uk_old"], " ("); uk != "-" && h.UK != uk {
				t.Errorf("%v mm is UK %q, want %q", mm, h.UK, uk)
			}
			if name != "" && !has(Named(name), mm) {
				t.Errorf("%q is %v mm, want %v among them", name, Named(name), mm)
			}
		case strings.HasPrefix(f["type"], "steel (US"):
			if got := SteelNumbered(name); !has(got, mm) {
				t.Errorf("steel %s is %v mm, want %v among them", name, got, mm)
			}
		}
	}
}

func TestNamed(t *testing.T) {
	for _, test := range []struct {
		name string
		want []float64
	}{
		{"H", []float64{5}}, {"h-8", []float64{5}}, {"H/8", []float64{5}}, {"8", []float64{5}}, {"US H-8", []float64{5}}, {"size H", []float64{5}},
		{"7", []float64{4.5}}, {"K", []float64{6.5}}, {"K-10½", []float64{6.5}}, {"K-10.5", []float64{6.5}}, {"10 1/2", []float64{6.5}},
		{"G", []float64{4, 4.25}}, {"G-6", []float64{4}}, {"Q", []float64{15, 15.75, 16}}, {"M", []float64{9}}, {"N", []float64{9, 10}},
		{"Z", nil}, {"", nil}, {"H-9", nil}, {"-", nil},
	} {
		got := Named(test.name)
		if len(got) != len(test.want) {
			t.Errorf("%q is %v, want %v", test.name, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("%q is %v, want %v", test.name, got, test.want)
			}
		}
	}
	if got := SteelNumbered("7"); len(got) != 2 || got[0] != 1.5 || got[1] != 1.65 {
		t.Errorf("steel 7 is %v, want 1.5 and 1.65", got)
	}
	for mm, want := range map[float64]float64{4.1: 4, 5.1: 5, 100: 30, 0: 2, 3.6: 3.5, 13.5: 15} {
		if got := Nearest(mm).MM; got != want {
			t.Errorf("nearest to %v is %v, want %v", mm, got, want)
		}
	}
	if _, ok := OfMM(4.4); ok {
		t.Error("there is no hook of 4.4 mm")
	}
}

var figures = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?`)

// inRange reads "32-42 dc", "15 and larger", "6 or fewer", "2401+".
func inRange(t *testing.T, s string) Range {
	t.Helper()
	n := figures.FindAllString(s, -1)
	if len(n) == 0 {
		return Range{}
	}
	v := make([]float64, len(n))
	for i := range n {
		v[i], _ = strconv.ParseFloat(n[i], 64)
	}
	switch {
	case strings.Contains(s, "fewer") || strings.Contains(s, "less"):
		return Range{0, v[0]}
	case len(v) == 1:
		return Range{v[0], 0}
	}
	return Range{v[0], v[len(v)-1]}
}

// Source: Craft Yarn Council, Standard Yarn Weight System, and Spin Off
// magazine's sheet, as in testdata/facts/yarnweights.tsv.
func TestWeightsAgainstTheSystem(t *testing.T) {
	rows := facts(t, "yarnweights.tsv")
	if len(rows) != len(Weights()) {
		t.Fatalf("%d weights, want %d", len(Weights()), len(rows))
	}
	for i, f := range rows {
		w, ok := Numbered(i)
		if !ok || strconv.Itoa(w.Number) != f["weight"] || w.Name != f["name"] {
			t.Errorf("weight %d is %d %q, want %s %q", i, w.Number, w.Name, f["weight"], f["name"])
		}
		for _, r := range []struct {
			column string
			got    Range
		}{
			{"sc_gauge_4in_current", w.Stitches}, {"hook_mm_current", w.Hook}, {"wpi", w.Wraps}, {"yards_per_lb", w.Yards},
		} {
			if want := inRange(t, f[r.column]); r.got != want {
				t.Errorf("%s, %s: %v, want %v", w.Name, r.column, r.got, want)
			}
		}
		for _, s := range strings.Split(f["yarn_types"], ", ") {
			found := false
			for _, c := range Called(s) {
				found = found || c.Number == i
			}
			if !found {
				t.Errorf("%q does not find %s", s, w.Name)
			}
		}
		if len(Called(f["name"])) == 0 {
			t.Errorf("%q is not known", f["name"])
		}
		// the names of the hooks agree with their sizes
		if i > 0 && i < 7 {
			lo, hi, _ := strings.Cut(f["hook_us_current"], " to ")
			if !has(Named(lo), w.Hook.Least) || !has(Named(hi), w.Hook.Most) {
				t.Errorf("%s: hooks %s to %s are %v to %v, want %v", w.Name, lo, hi, Named(lo), Named(hi), w.Hook)
			}
		}
	}
	if _, ok := Numbered(8); ok {
		t.Error("there is no weight 8")
	}
	if _, ok := Numbered(-1); ok {
		t.Error("there is no weight -1")
	}
}

func TestForGauge(t *testing.T) {
	for stitches, want := range map[float64][]int{13: {3, 4}, 16: {2, 3}, 9: {5, 6}, 5: {7}, 20.5: nil, 25: {1}} {
		var got []int
		for _, w := range ForGauge(stitches) {
			got = append(got, w.Number)
		}
		if len(got) != len(want) {
			t.Errorf("%v stitches: weights %v, want %v", stitches, got, want)
			continue
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%v stitches: weights %v, want %v", stitches, got, want)
			}
		}
	}
}
