package chart

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/stitch"
)

// Places keep their order and distances, and no small move of them comes
// nearer to what was wanted: the sum of squares has one valley only.
func TestSettle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "n")
		want, gap := make([]float64, n), make([]float64, n)
		for i := range want {
			want[i] = rapid.Float64Range(-10, 10).Draw(t, "want")
			gap[i] = rapid.Float64Range(0.1, 2).Draw(t, "gap")
		}
		got := settle(want, gap)
		cost := func(x []float64) (sum float64) {
			for i := range x {
				sum += (x[i] - want[i]) * (x[i] - want[i])
			}
			return sum
		}
		fits := func(x []float64) bool {
			for i := 1; i < n; i++ {
				if x[i]-x[i-1] < gap[i-1]-1e-9 {
					return false
				}
			}
			return true
		}
		if !fits(got) {
			t.Fatalf("%v does not keep %v", got, gap)
		}
		// moves of a stretch by a little, either way
		for from := range n {
			for to := from; to < n; to++ {
				for _, d := range []float64{-1e-3, 1e-3} {
					x := append([]float64(nil), got...)
					for i := from; i <= to; i++ {
						x[i] += d
					}
					if fits(x) && cost(x) < cost(got)-1e-9 {
						t.Fatalf("moving %d to %d by %g is better", from, to, d)
					}
				}
			}
		}
		total := 0.0
		for _, g := range gap {
			total += g
		}
		around := total * rapid.Float64Range(1, 2).Draw(t, "around")
		round := settleRound(want, gap, around)
		if !fits(round) || round[0]+around-round[n-1] < gap[n-1]-1e-9 {
			t.Fatalf("round %g: %v does not keep %v", around, round, gap)
		}
	})
}

// A place on round ground is found again from its way, and ways at one radius
// are as long as the line between the points is, drawn in short pieces.
func TestGround(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := ground{length: rapid.Float64Range(0, 20).Draw(t, "length")}
		r := rapid.Float64Range(0.5, 30).Draw(t, "r")
		at := rapid.Float64Range(-50, 100).Draw(t, "t")
		if back := g.at(g.way(at, r), r); math.Abs(back-at) > 1e-6 {
			t.Fatalf("%g comes back as %g", at, back)
		}
		to := at + rapid.Float64Range(0, 20).Draw(t, "more")
		way, last := 0.0, g.point(at, r)
		for i := 1; i <= 4000; i++ {
			p := g.point(at+(to-at)*float64(i)/4000, r)
			way += p.sub(last).length()
			last = p
		}
		if want := g.way(to, r) - g.way(at, r); math.Abs(way-want) > 1e-3*(1+want) {
			t.Fatalf("from %g to %g at %g it is %g, not %g", at, to, r, way, want)
		}
	})
}

// An arc over a chord is as long as it should be.
func TestBulge(t *testing.T) {
	for _, c := range []struct{ chord, long float64 }{{1, 1.5}, {2, 2.1}, {3, 8}, {1, 4}} {
		half := bulge(c.chord, c.long)
		if got := c.chord / math.Sin(half) * half; math.Abs(got-c.long) > 1e-6 {
			t.Errorf("an arc of %g over %g is %g long", c.long, c.chord, got)
		}
	}
	if bulge(4, 2) != 0 {
		t.Error("chains shorter than their way bulge")
	}
}

// Symbols stand out on every colour that a pattern can name (WCAG 2.2, 1.4.6
// asks 7 to 1 of text), and hatchings and rings on paper (1.4.11: 3 to 1).
func TestContrast(t *testing.T) {
	for name, c := range named() {
		if got := contrast(yarn{colour: c}.ground(), ink); got < 7 {
			t.Errorf("%s: %.2f to 1", name, got)
		}
	}
	if got := contrast(grey, paper); got < 3 {
		t.Errorf("hatchings: %.2f to 1", got)
	}
	// the reference values of the definition of contrast ratio
	if got := contrast(rgb{0, 0, 0}, rgb{255, 255, 255}); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %g to 1", got)
	}
	if got := contrast(rgb{0x77, 0x77, 0x77}, rgb{255, 255, 255}); math.Abs(got-4.48) > 0.01 {
		t.Errorf("#777777 on white: %g to 1", got)
	}
}

// The symbols are those of the trade; testdata/facts/symbols.tsv names the
// source.
func TestSymbols(t *testing.T) {
	f, err := os.Open("../../testdata/facts/symbols.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	families := map[string]form{"dot": formDot, "cross": formCross, "stem": formStem, "leaf": formLeaf, "pop": formPop}
	seen := 0
	for s := bufio.NewScanner(f); s.Scan(); {
		fields := strings.Split(s.Text(), "\t")
		if len(fields) != 4 || fields[0] == "us_abbr" {
			continue
		}
		id, _ := stitch.LexiconFor(stitch.US).Find(fields[0])
		got := symbolOf(id)
		if id == stitch.None || got.form != families[fields[1]] {
			t.Errorf("%s: family %d, want %s", fields[0], got.form, fields[1])
		}
		if n, err := strconv.Atoi(fields[2]); err == nil && n != got.bars {
			t.Errorf("%s: %d bars, want %d", fields[0], got.bars, n)
		}
		if h, err := strconv.ParseFloat(fields[3], 64); err == nil && h != got.high {
			t.Errorf("%s: %g high, want %g", fields[0], got.high, h)
		}
		seen++
	}
	if seen < 15 {
		t.Errorf("only %d symbols were looked at", seen)
	}
	// every stitch of the vocabulary has a symbol, and a letter
	for _, s := range stitch.All() {
		if y := symbolOf(s.ID); y.form == formNone || y.high <= 0 || y.letter == 0 {
			t.Errorf("%s has no symbol", s.USWords)
		}
	}
}

// A stem has a stroke across it for each bar.
func TestBarsAreDrawn(t *testing.T) {
	for id, want := range map[stitch.ID]int{stitch.HDC: 0, stitch.DC: 1, stitch.TR: 2, stitch.DTR: 3, stitch.TRTR: 4} {
		g := group{}
		g.draw(sign{symbol: symbolOf(id), feet: []pt{{0, 0}}, head: pt{0, symbolOf(id).high}})
		slant := 0
		for _, s := range g.shapes {
			for i := 1; i < len(s.path); i++ {
				if a, b := s.path[i-1], s.path[i]; b.op == 'L' {
					d := b.p[0].sub(a.p[0])
					if math.Abs(d.x) > 0.05 && math.Abs(d.y) > 0.05 {
						slant++
					}
				}
			}
		}
		if slant != want {
			t.Errorf("%s has %d slanting strokes, want %d", id.Words(stitch.US), slant, want)
		}
	}
}
