package fit

import (
	"sort"

	"crochet/tallyturn/pattern"
)

// Bounds on the search for the numbers of one size: how many rows may need a
// number of their own, and how many rows are worked in all.
const (
	deepest = 200
	effort  = 60_000
)

// solver finds the numbers under which the rows of a piece come out once the
// first of them is changed.
type solver struct {
	work  *pattern.Rework
	piece int
	size  int

	written *pattern.PieceProof // the piece as it is, without its totals
	rows    []*pattern.Row
	dialled map[*pattern.Row][]dial
	spent   int                  // rows worked when it began
	stood   map[*pattern.Row]int // how often a row stood in the way
	works   []*found             // bases that do

	// accept tells whether a base does, beyond the rows of the piece itself.
	accept func(*found) bool
}

func (f *fitter) solverFor(i int) *solver {
	return &solver{work: f.work, piece: i, spent: f.work.Rows(), stood: make(map[*pattern.Row]int),
		written: f.work.Try(i, nil).Proof, rows: f.proof.Pieces[i].Piece.Rows, dialled: make(map[*pattern.Row][]dial)}
}

// solve works the piece with changes and adds to them what its rows need. It
// is nil where a row does not come out whatever its numbers.
func (s *solver) solve(ch pattern.Changes) (*pattern.Reworked, pattern.Changes) {
	return s.from(ch, s.work.Try(s.piece, ch), make(map[*pattern.Row]bool))
}

func (s *solver) tired() bool { return s.work.Rows()-s.spent > effort }

func (s *solver) from(ch pattern.Changes, out *pattern.Reworked, tuned map[*pattern.Row]bool) (*pattern.Reworked, pattern.Changes) {
	at := s.judge(out)
	if at.row == nil {
		return out, ch
	}
	if tuned[at.row] || len(tuned) >= deepest || s.tired() {
		s.stood[at.row]++
		return nil, nil
	}
	tuned[at.row] = true
	defer delete(tuned, at.row)
	found := false
	for _, d := range dials(at.row, s.size) {
		more, next := s.turn(ch, at, d)
		if next == nil {
			continue
		}
		found = true
		if all := s.likewise(more, at.row, d); all != nil {
			// rows written alike are changed alike, as long as it gets further
			if out := s.work.Try(s.piece, all); s.after(s.judge(out).row, s.judge(next).row) {
				more, next = all, out
			}
		}
		if res, all := s.from(more, next, tuned); res != nil {
			return res, all
		}
	}
	if !found {
		s.stood[at.row]++
	}
	return nil, nil
}

// likewise is changes with those of one row made in later rows that have the
// same numbers; nil where there are none.
func (s *solver) likewise(ch pattern.Changes, row *pattern.Row, d dial) pattern.Changes {
	to := ch[d.spans[0]]
	more := make(pattern.Changes)
	past := false
	for _, r := range s.rows {
		if r == row {
			past = true
			continue
		}
		if !past {
			continue
		}
		if _, ok := s.dialled[r]; !ok {
			s.dialled[r] = dials(r, s.size)
		}
		for _, e := range s.dialled[r] {
			if e.n == d.n && e.takes == d.takes && len(e.spans) == len(d.spans) {
				for _, sp := range e.spans {
					more[sp] = to
				}
				break
			}
		}
	}
	if len(more) == 0 {
		return nil
	}
	return ch.With(more)
}

// after reports whether a row comes after another; nil is after all of them.
func (s *solver) after(a, b *pattern.Row) bool {
	if a == nil || b == nil {
		return a == nil && b != nil
	}
	return a.Span.Start > b.Span.Start
}

// amiss is a row that does not come out as it should: it leaves stitches, or
// there are too few for it.
type amiss struct {
	row   *pattern.Row // nil where nothing is
	left  int64
	short bool
}

// judge finds the first row that is amiss. Besides those that do not come out
// these are rows that left the piece as wide as it was and do not any more, or
// the other way round: they come out, but they are other rows.
func (s *solver) judge(out *pattern.Reworked) amiss {
	rows := out.Proof.Rows
	if out.Stop != nil && len(rows) > 0 {
		rows = rows[:len(rows)-1] // the last is the one that does not come out
	}
	for _, r := range rows {
		was, _ := s.written.At(r.Index)
		if was == nil || r.Index == 0 || was.Status == pattern.Trusted {
			continue
		}
		a, _ := s.written.At(r.Index - 1)
		b, _ := out.Proof.At(r.Index - 1)
		if a.Made < 0 || was.Made < 0 || b.Made < 0 || r.Made < 0 {
			continue
		}
		should, does := sign(was.Made-a.Made), sign(r.Made-b.Made)
		row := s.row(was)
		switch {
		case should == does || row == nil:
		case does < should:
			return amiss{row: row, left: max(1, b.Made-r.Made)}
		default:
			return amiss{row: row, short: true}
		}
	}
	return amiss{out.Stop, out.Left, out.Short}
}

// row is the row of the pattern as written whose words are worked.
func (s *solver) row(r *pattern.RowProof) *pattern.Row {
	for _, row := range s.rows {
		if row.Span == r.Row.Span {
			return row
		}
	}
	return nil
}

func sign(n int64) int {
	switch {
	case n < 0:
		return -1
	case n > 0:
		return 1
	}
	return 0
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
	byTakes := func(d []dial) {
		sort.SliceStable(d, func(i, j int) bool { return d[i].takes > d[j].takes })
	}
	byTakes(plain)
	byTakes(times)
	byTakes(inner)
	if len(times) > 0 && (len(plain) == 0 || times[0].takes >= plain[0].takes) {
		return append(times[:1:1], inner...)
	}
	if len(plain) == 0 {
		return nil
	}
	out := plain[:1:1]
	if e := edges(row, plain); e > 0 {
		// in a motif of colours what is even at both ends is the ground
		if coloured(row) {
			return []dial{plain[e], plain[0]}
		}
		out = append(out, plain[e])
	}
	return out
}

// edges finds the dial that is the plain stitches at both ends of a row; 0
// where there is none, or where it is the first anyway.
func edges(row *pattern.Row, plain []dial) int {
	var ends []pattern.Span
	for _, s := range row.Steps {
		if run(s) {
			ends = append(ends, s.Target.N.Span)
		}
	}
	for i, d := range plain {
		if len(d.spans) == 2 && d.spans[0] == ends[0] && d.spans[1] == ends[len(ends)-1] {
			return i
		}
	}
	return 0
}

func coloured(row *pattern.Row) bool {
	n := 0
	for _, s := range row.Steps {
		if s.Op == pattern.OpColour {
			n++
		}
	}
	return n > 1
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
	return s.Op == pattern.OpWork && s.Legs == 0 && s.N.N <= 1 && !s.Target.N.Span.Empty() && s.Target.Row == nil &&
		(s.Target.Which == pattern.Next || s.Target.Which == pattern.First || s.Target.Which == pattern.Last ||
			s.Target.Which == pattern.Each && s.Target.Bound.Kind == pattern.NoBound)
}

// fillsRow reports whether a step goes on as far as the row does.
func fillsRow(s *pattern.Step) bool {
	if s.Op == pattern.OpGroup {
		return s.Times.Kind == pattern.Fill
	}
	if s.Op == pattern.OpWork || s.Op == pattern.OpInto || s.Op == pattern.OpSkip {
		return s.Target.Which == pattern.Each && s.Target.Bound.Kind != pattern.NoBound
	}
	return s.Op == pattern.OpEven || s.Op == pattern.OpAlong
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
func (s *solver) turn(ch pattern.Changes, at amiss, d dial) (pattern.Changes, *pattern.Reworked) {
	try := func(by int64) (pattern.Changes, *pattern.Reworked, amiss) {
		more := make(pattern.Changes, len(d.spans))
		for _, sp := range d.spans {
			more[sp] = d.n + by
		}
		all := ch.With(more)
		out := s.work.Try(s.piece, all)
		return all, out, s.judge(out)
	}
	var lo, hi int64 // too little, too much
	switch {
	case at.short:
		if d.n <= 1 {
			return nil, nil
		}
		lo, hi = -d.n, 0
	case at.left > 0:
		// what is left may be counted otherwise than the dial
		for hi = at.left + 1; ; hi *= 2 {
			all, out, now := try(hi)
			if now.row != at.row {
				return all, out
			}
			if now.short {
				break
			}
			if now.left == 0 || hi > 2*most || s.tired() {
				return nil, nil
			}
			lo = hi
		}
	default:
		return nil, nil
	}
	for hi-lo > 1 && !s.tired() {
		mid := lo + (hi-lo)/2
		all, out, now := try(mid)
		switch {
		case now.row != at.row:
			return all, out
		case now.short:
			hi = mid
		case now.left > 0:
			lo = mid
		default:
			return nil, nil
		}
	}
	return nil, nil
}
