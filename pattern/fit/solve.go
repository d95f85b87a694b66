package fit

import (
	"sort"

	"crochet/tallyturn/pattern"
)

// Bounds on the search for the numbers of one size: how many rows may need a
// number of their own, and how many rows are worked in all.
const (
	deepest = 60
	effort  = 60_000
)

// solver finds the numbers under which the rows of a piece come out once the
// first of them is changed.
type solver struct {
	work  *pattern.Rework
	piece int
	size  int
	spent int                  // rows worked when it began
	stood map[*pattern.Row]int // how often a row stood in the way
	works []*found             // the bases on which every row came out
}

// solve works the piece with changes and adds to them what its rows need. It
// is nil where a row does not come out whatever its numbers.
func (s *solver) solve(ch pattern.Changes) (*pattern.Reworked, pattern.Changes) {
	return s.from(ch, s.work.Try(s.piece, ch), make(map[*pattern.Row]bool))
}

func (s *solver) tired() bool { return s.work.Rows()-s.spent > effort }

func (s *solver) from(ch pattern.Changes, out *pattern.Reworked, tuned map[*pattern.Row]bool) (*pattern.Reworked, pattern.Changes) {
	if out.Stop == nil {
		return out, ch
	}
	row := out.Stop
	if tuned[row] || len(tuned) >= deepest || s.tired() {
		s.stood[row]++
		return nil, nil
	}
	tuned[row] = true
	defer delete(tuned, row)
	found := false
	for _, d := range dials(row, s.size) {
		more, next := s.turn(ch, out, row, d)
		if next == nil {
			continue
		}
		found = true
		if res, all := s.from(more, next, tuned); res != nil {
			return res, all
		}
	}
	if !found {
		s.stood[row]++
	}
	return nil, nil
}

// dial is a number of a row, or several equal ones, that may grow and shrink
// with the width.
type dial struct {
	spans []pattern.Span
	n     int64
	takes int64 // places that it accounts for
}

// dials lists the numbers of a row that may follow its width, the one that
// accounts for most of it first. There are none where a repeat or a run fills
// the row by itself.
func dials(row *pattern.Row, size int) []dial {
	var plain, times, inner []dial
	add := func(to *[]dial, num pattern.Num, takes int64) {
		n := num.At(size)
		if num.Span.Empty() || n < 1 {
			return
		}
		for i := range *to {
			if (*to)[i].n == n && (*to)[i].takes == takes {
				(*to)[i].spans = append((*to)[i].spans, num.Span)
				return
			}
		}
		*to = append(*to, dial{[]pattern.Span{num.Span}, n, takes})
	}
	fills := false
	for _, s := range row.Steps {
		fills = fills || fillsRow(s)
		switch {
		case s.Op == pattern.OpGroup && (s.Times.Kind == pattern.Exactly || s.Times.Kind == pattern.More):
			per := places(s.Body, size)
			add(&times, s.Times.N, per*passes(s, size))
			for _, b := range s.Body {
				if run(b) && shapes(s.Body, size) {
					add(&inner, b.Target.N, b.Target.N.At(size)*passes(s, size))
				}
			}
		case run(s):
			add(&plain, s.Target.N, s.Target.N.At(size))
		}
	}
	if fills {
		return nil
	}
	for i := range plain {
		plain[i].takes *= int64(len(plain[i].spans))
	}
	out := append(plain, times...)
	sort.SliceStable(out, func(i, j int) bool { return out[i].takes > out[j].takes })
	sort.SliceStable(inner, func(i, j int) bool { return inner[i].takes > inner[j].takes })
	return append(out, inner...)
}

// shapes reports whether steps increase or decrease: then the plain stitches
// among them are a distance, and no part of a texture.
func shapes(steps []*pattern.Step, size int) bool {
	for _, s := range steps {
		if s.Op == pattern.OpWork && (s.Legs > 1 || s.N.At(size) > 1) {
			return true
		}
	}
	return false
}

// run reports whether a step works one stitch into each of so many places.
func run(s *pattern.Step) bool {
	return s.Op == pattern.OpWork && s.Legs == 0 && !s.Target.N.Span.Empty() && s.Target.Row == nil &&
		(s.Target.Which == pattern.Next || s.Target.Which == pattern.First || s.Target.Which == pattern.Last)
}

// fillsRow reports whether a step goes on as far as the row does.
func fillsRow(s *pattern.Step) bool {
	if s.Op == pattern.OpGroup {
		return s.Times.Kind == pattern.Fill
	}
	return s.Target.Which == pattern.Each && s.Target.Bound.Kind != pattern.NoBound || s.Op == pattern.OpEven || s.Op == pattern.OpAlong
}

func passes(s *pattern.Step, size int) int64 {
	if s.Times.Kind == pattern.More {
		return s.Times.N.At(size) + 1
	}
	return s.Times.N.At(size)
}

// places is about how many places steps take: enough to tell which of them
// makes up most of a row.
func places(steps []*pattern.Step, size int) int64 {
	sum := int64(0)
	for _, s := range steps {
		switch s.Op {
		case pattern.OpWork:
			sum += max(1, s.Target.N.At(size)) * int64(max(1, s.Legs))
		case pattern.OpSkip, pattern.OpInto:
			sum += max(1, s.Target.N.At(size))
		case pattern.OpGroup:
			sum += places(s.Body, size) * max(1, passes(s, size))
		}
		sum = min(sum, 1<<40)
	}
	return sum
}

// turn finds how far a dial must be turned for its row to come out. What is
// left of the row falls as it grows, until it is too short.
func (s *solver) turn(ch pattern.Changes, out *pattern.Reworked, row *pattern.Row, d dial) (pattern.Changes, *pattern.Reworked) {
	try := func(by int64) (pattern.Changes, *pattern.Reworked) {
		more := make(pattern.Changes, len(d.spans))
		for _, sp := range d.spans {
			more[sp] = d.n + by
		}
		all := ch.With(more)
		return all, s.work.Try(s.piece, all)
	}
	var lo, hi int64 // too little, too much
	switch {
	case out.Short:
		if d.n <= 1 {
			return nil, nil
		}
		lo, hi = -d.n, 0
	case out.Left > 0:
		hi = out.Left + 1
	default:
		return nil, nil
	}
	for hi-lo > 1 && !s.tired() {
		mid := lo + (hi-lo)/2
		all, next := try(mid)
		switch {
		case next.Stop != row:
			return all, next
		case next.Short:
			hi = mid
		case next.Left > 0:
			lo = mid
		default:
			return nil, nil
		}
	}
	return nil, nil
}
