package counter_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// kinds adds a row made of kinds of stitch.
func kinds(pp *pattern.PieceProof, count int, by ...pattern.KindCount) {
	var n int64
	for _, k := range by {
		n += k.N
	}
	addRows(pp, n, count)
	pp.Rows[len(pp.Rows)-1].ByKind = by
}

func k(name string, n int64) pattern.KindCount { return pattern.KindCount{Name: name, N: n} }

// maker is one whose speed is known: ms a stitch by kind, and how much her
// rows scatter.
type maker struct {
	ms     map[string]float64
	spread float64
	rand   *rand.Rand
}

// takes is how long a row takes her, in ms.
func (m maker) takes(r *pattern.RowProof) int64 {
	var ms float64
	for _, k := range r.ByKind {
		ms += float64(k.N) * m.ms[k.Name]
	}
	// Never below nothing, and longer on a bad day: the logarithm is normal.
	sigma := math.Sqrt(math.Log1p(m.spread * m.spread))
	return int64(ms * math.Exp(m.rand.NormFloat64()*sigma-sigma*sigma/2))
}

// scarf has rows of three kinds, some of them mixed.
func scarf() *pattern.PieceProof {
	pp := piece(1)
	for i := range 40 {
		kinds(pp, 1, k("sc", int64(20+i%7)))
		kinds(pp, 1, k("dc", 24), k("sc", int64(i%5)+2))
		kinds(pp, 1, k("hdc", int64(18+i%9)), k("dc", 4))
	}
	return pp
}

// stitchOn makes rows of a piece as a maker does, and gives the state after so
// many of them and the time that all the others then take.
func stitchOn(t *testing.T, pp *pattern.PieceProof, m maker, rows int) (s counter.State, rest int64) {
	s = counter.Begin(planOf(pp))
	s = apply(t, s, counter.Event{Kind: counter.Open, At: 0})
	at := int64(0)
	for i := range pp.Len() {
		r, _ := pp.At(i)
		ms := m.takes(r)
		if i >= rows {
			rest += ms
			continue
		}
		// Two taps a row, so that nothing counts as idle.
		n := r.Made / 2
		s = apply(t, s, counter.Event{Kind: counter.Tap, At: at + ms/2, N: n}, counter.Event{Kind: counter.Finish, At: at + ms, N: r.Made})
		at += ms
	}
	return s, rest
}

// TestForecastHoldsItsOdds gives makers of many speeds, and looks how often
// the truth lies in the range.
func TestForecastHoldsItsOdds(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	for _, done := range []int{9, 15, 30, 90} {
		for _, spread := range []float64{0.08, 0.25} {
			held, rowHeld, all := 0, 0, 0
			var wide float64
			for range 400 {
				m := maker{rand: random, spread: spread, ms: map[string]float64{
					"sc": 1500 + 3000*random.Float64(), "hdc": 1500 + 4000*random.Float64(), "dc": 2000 + 6000*random.Float64()}}
				s, rest := stitchOn(t, scarf(), m, done)
				pace := s.Pace()
				o := s.Outlook(pace)
				if !o.Project.Known || pace.Rows != done {
					t.Fatalf("after %d rows: %+v", done, o)
				}
				r, _ := s.Proof()
				next := m.takes(r)
				all++
				if o.Project.Low <= rest && rest <= o.Project.High {
					held++
				}
				if o.Row.Low <= next && next <= o.Row.High {
					rowHeld++
				}
				wide += float64(o.Project.High-o.Project.Low) / float64(rest)
			}
			// 400 draws of 0.8 scatter by 0.02: these bounds are three of that.
			for what, n := range map[string]int{"project": held, "row": rowHeld} {
				if share := float64(n) / float64(all); share < 0.74 || share > 0.90 {
					t.Errorf("after %d rows of spread %.2f the %s lies in its range in %.3f of cases", done, spread, what, share)
				}
			}
			if wide /= float64(all); wide > 1.2 {
				t.Errorf("after %d rows of spread %.2f the range is %.2f wide", done, spread, wide)
			}
		}
	}
}

func TestPaceByKind(t *testing.T) {
	m := maker{rand: rand.New(rand.NewPCG(1, 2)), spread: 0.01, ms: map[string]float64{"sc": 2000, "hdc": 3000, "dc": 6000}}
	s, _ := stitchOn(t, scarf(), m, 60)
	got := map[string]float64{}
	for _, k := range s.Pace().Kinds {
		got[k.Name] = k.PerMinute
	}
	for name, want := range map[string]float64{"sc": 30, "hdc": 20, "dc": 10} {
		if math.Abs(got[name]/want-1) > 0.03 {
			t.Errorf("%.1f %s a minute, want %.0f", got[name], name, want)
		}
	}
}

func TestNotEnoughRowsYet(t *testing.T) {
	m := maker{rand: rand.New(rand.NewPCG(1, 2)), spread: 0.1, ms: map[string]float64{"sc": 2000, "tr": 9000}}
	pp := piece(1)
	kinds(pp, 10, k("sc", 20))
	kinds(pp, 2, k("tr", 20))
	for rows, want := range map[int]string{0: "not enough rows yet", 3: "not enough rows yet", 4: "not enough rows of tr yet", 9: "not enough rows of tr yet"} {
		s, _ := stitchOn(t, pp, m, rows)
		o := s.Outlook(s.Pace())
		if o.Project.Known || o.Project.Why != want {
			t.Errorf("after %d rows: %+v", rows, o.Project)
		}
		if o.Row.Known != (rows >= 4) {
			t.Errorf("after %d rows the row: %+v", rows, o.Row)
		}
	}
	// A row that nobody knows the number of is not in the forecast, and said so.
	pp = piece(1)
	kinds(pp, 6, k("sc", 20))
	addRows(pp, unknown, 1)
	s, _ := stitchOn(t, pp, m, 5)
	if o := s.Outlook(s.Pace()); !o.Project.Known || o.Project.Blind != 1 {
		t.Errorf("with an unknown row: %+v", o.Project)
	}
}

// Copies that were begun, left and not begun all count with what they lack.
func TestOutlookOverCopies(t *testing.T) {
	pp := piece(3)
	kinds(pp, 8, k("sc", 30))
	m := maker{rand: rand.New(rand.NewPCG(3, 4)), spread: 0, ms: map[string]float64{"sc": 1000}}
	s, _ := stitchOn(t, pp, m, 6)
	s = apply(t, s, counter.Event{Kind: counter.Jump, At: s.LastEvent(), Copy: 1, Row: 4, N: 15})
	o := s.Outlook(s.Pace())
	for what, c := range map[string]struct {
		f    counter.Forecast
		want int64
	}{
		"row": {o.Row, 15_000}, "copy": {o.Copy, 15_000 + 3*30_000}, "project": {o.Project, 15_000 + 3*30_000 + 2*30_000 + 8*30_000},
	} {
		if c.f.Low > c.want+50 || c.f.High < c.want-50 {
			t.Errorf("%s: %+v, want %d", what, c.f, c.want)
		}
	}
}

func TestPaceIsTheSameEachTime(t *testing.T) {
	m := maker{rand: rand.New(rand.NewPCG(5, 6)), spread: 0.2, ms: map[string]float64{"sc": 2000, "hdc": 3000, "dc": 6000}}
	s, _ := stitchOn(t, scarf(), m, 50)
	first := fmt.Sprintf("%+v", s.Outlook(s.Pace()))
	for range 5 {
		if again := fmt.Sprintf("%+v", s.Outlook(s.Pace())); again != first {
			t.Fatalf("%s\nand then\n%s", first, again)
		}
	}
	if strings.Contains(first, "NaN") {
		t.Error(first)
	}
}
