package fit

import (
	"math"

	"crochet/tallyturn/pattern"
)

// Bounds on the search for a base: how many are tried, and how far from the
// measure one may lie and still be called within reach. Nothing is that is off
// by more than half of the measure itself.
const (
	tries      = 400
	refusals   = 24 // how many are proven in full and found wanting
	neighbours = 64 // how far a choice beside the nearest is looked for
	reachShare = 0.1
	reachLeast = 12 // stitches, or a repeat of the commonest kinds
)

// found is a base on which every row comes out.
type found struct {
	n       int64
	changes pattern.Changes
	out     *pattern.Reworked
	measure float64
	as      *fitter // the fitting with it, once it is accepted
}

func (f *found) off(target float64) float64 { return math.Abs(f.measure - target) }

// nearest finds the base whose piece comes nearest to a measure. A larger base
// makes a larger piece, so the search goes outward from where the measure
// should lie until nothing nearer can come. Of two equally near the larger is
// taken. It is nil where nothing works, which the base as written always does.
func (s *solver) nearest(b base, target float64, measure func(*pattern.PieceProof) float64) *found {
	m0 := measure(s.work.Try(s.piece, nil).Proof)
	slope := m0 / float64(b.n)
	if slope <= 0 {
		return nil
	}
	// the next larger base that works shows how much a chain brings, and how
	// many belong together
	step := int64(1)
	for d := int64(1); d <= neighbours; d++ {
		if out, _ := s.solve(pattern.Changes{b.span: b.n + d}); out != nil {
			if m := measure(out.Proof); m > m0 {
				slope, step = (m-m0)/float64(d), d
			}
			break
		}
	}
	guess := max(1, b.n+step*int64(math.Round((target-m0)/(slope*float64(step)))))
	var best *found
	refused := 0
	try := func(n int64) {
		if n < 1 || n > 2*most {
			return
		}
		out, ch := s.solve(pattern.Changes{b.span: n})
		if out == nil {
			return
		}
		f := &found{n: n, changes: ch, out: out, measure: measure(out.Proof)}
		if n != b.n {
			if sl := (f.measure - m0) / float64(n-b.n); sl > 0 {
				slope = sl
			}
		}
		nearer := best == nil || f.off(target) < best.off(target) || f.off(target) == best.off(target) && f.n > best.n
		if nearer && refused < refusals {
			if s.accept(f) {
				best = f
				s.works = append(s.works, f)
			} else {
				refused++
			}
		}
	}
	done := make(map[int64]bool)
	for round := 0; round < 4; round++ {
		was := guess
		for d := int64(0); d <= tries/2 && !s.tired(); d++ {
			// nothing further out can be nearer
			if best != nil && float64(d-1)*slope > best.off(target)+math.Abs(float64(guess-best.n)*slope-(target-best.measure)) {
				break
			}
			for _, n := range []int64{guess + d, guess - d} {
				if !done[n] {
					done[n] = true
					try(n)
				}
			}
		}
		if best == nil {
			break
		}
		guess = max(1, best.n+int64(math.Round((target-best.measure)/slope)))
		if guess == was {
			break
		}
	}
	return best
}

// beyond finds the next base on the other side of the measure from the best:
// what the maker could have instead. It is nil where none is near.
func (s *solver) beyond(b base, best *found, target float64, measure func(*pattern.PieceProof) float64) *found {
	by := int64(1)
	if best.measure > target {
		by = -1
	}
	for d := int64(1); d <= neighbours && !s.tired(); d++ {
		n := best.n + by*d
		if n < 1 {
			return nil
		}
		out, ch := s.solve(pattern.Changes{b.span: n})
		if out == nil {
			continue
		}
		f := &found{n: n, changes: ch, out: out, measure: measure(out.Proof)}
		if f.measure != best.measure && (f.measure > target) != (best.measure > target) && s.accept(f) {
			return f
		}
	}
	return nil
}
