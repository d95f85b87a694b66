package fit

import (
	"sort"
	"strings"

	"crochet/tallyturn/pattern"
)

// outOfReach says which rows stand in the way of a wish, and which sizes work.
func (f *fitter) outOfReach(s *solver, target float64, byTape bool, first error) error {
	tell := func(measure float64) string {
		if byTape {
			return f.tape.gauge.Unit.Tell(measure)
		}
		return countOf(int(measure), "stitch")
	}
	e := &NotWithinReach{Wish: tell(target)}
	if first != nil {
		e.Why = first.Error()
	}
	type stood struct {
		row *pattern.Row
		n   int
	}
	var all []stood
	for row, n := range s.stood {
		all = append(all, stood{row, n})
	}
	sort.Slice(all, func(i, j int) bool {
		if all[i].n != all[j].n {
			return all[i].n > all[j].n
		}
		return all[i].row.Span.Start < all[j].row.Span.Start
	})
	for _, x := range all[:min(len(all), 3)] {
		e.Rows = append(e.Rows, x.row.Label)
	}
	m0 := measureOf(f, byTape)(f.proof.Pieces[f.main])
	below, above := -1.0, -1.0
	for _, m := range append(measures(s.works), m0) {
		if m <= target && m > below {
			below = m
		}
		if m > target && (above < 0 || m < above) {
			above = m
		}
	}
	for _, m := range []float64{below, above} {
		if m >= 0 {
			e.Nearest = append(e.Nearest, tell(m))
		}
	}
	return e
}

func measures(works []*found) []float64 {
	out := make([]float64, len(works))
	for i, w := range works {
		out[i] = w.measure
	}
	return out
}

func measureOf(f *fitter, byTape bool) func(*pattern.PieceProof) float64 {
	if byTape {
		return f.tape.across
	}
	return stitchesWide
}

// Lines says it in full: the wish, the rows in the way, and what does work.
func (e *NotWithinReach) Lines() []string {
	out := []string{e.Error()}
	if e.Why != "" {
		out = append(out, "  in the way: "+e.Why)
	} else if len(e.Rows) > 0 {
		out = append(out, "  in the way: "+strings.Join(e.Rows, ", "))
	}
	if len(e.Nearest) > 0 {
		out = append(out, "  what does work: "+strings.Join(e.Nearest, " or "))
	}
	return out
}
