package fit

import (
	"math"
	"strings"

	"crochet/tallyturn/pattern"
)

// stretch is a run of rows that may be longer or shorter: one label whose rows
// leave the piece as wide as they found it.
type stretch struct {
	row    *pattern.Row
	label  string
	rows   int64 // as written
	unit   int64 // rows that belong together: those of a repeat
	least  int64
	first  int64   // number of its first row; 0 where it has none
	last   int64   // and of its last
	height float64 // of a unit, in rows of the gauge
	now    int64   // rows in the new size
}

// stretches finds the runs of rows of a piece that can be made longer. Where
// rows after one are bound to a side of the work, it grows by two rows.
func (f *fitter) stretches() []*stretch {
	pc := f.proof.Pieces[f.main]
	var out []*stretch
	for _, row := range pc.Piece.Rows {
		var rows []*pattern.RowProof
		at := -1
		for i, r := range pc.Rows {
			if r.Label == row.Label && r.Line == f.lineOf(row) {
				if at < 0 {
					at = i
				}
				rows = append(rows, r)
			}
		}
		s := f.stretchOf(pc, row, rows, at)
		if s != nil && !workedAgain(pc.Piece, s) {
			out = append(out, s)
		}
	}
	return out
}

// workedAgain reports whether other rows repeat the rows of a stretch among others:
// of "Rows 11-16: repeat Rows 5-10" there would be no whole repeats any more.
func workedAgain(pc *pattern.Piece, s *stretch) bool {
	for _, row := range pc.Rows {
		ref := row.Refer
		if ref == nil || row == s.row || ref.Piece != "" || s.first == 0 {
			continue
		}
		from, to := int64(min(ref.First, ref.Last)), int64(max(ref.First, ref.Last))
		if moved := max(s.first, s.last); from < moved && moved <= to {
			return true // those from here on get higher numbers, and the first of them does not
		}
	}
	return false
}

func (f *fitter) lineOf(row *pattern.Row) int {
	line, _ := f.proof.Pattern.Source.Position(row.Span.Start)
	return line
}

// stretchOf is the stretch under a label; nil where its rows shape the piece,
// or where it is one row.
func (f *fitter) stretchOf(pc *pattern.PieceProof, row *pattern.Row, rows []*pattern.RowProof, at int) *stretch {
	if len(rows) == 0 || len(row.Numbers.List) > 0 || row.Numbers.Every > 0 {
		return nil
	}
	s := &stretch{row: row, label: rows[0].Label, unit: 1, first: row.Numbers.First.At(0), last: row.Numbers.Last.At(0)}
	for _, r := range rows {
		s.rows += int64(r.Count())
	}
	if ref := row.Refer; ref != nil {
		s.unit = referred(ref)
		if s.unit == 0 || ref.Measure || len(ref.Edits) > 0 || ref.UntilSts.N > 0 || ref.UntilRow > 0 || ref.Then != nil {
			return nil
		}
		if s.last <= s.first && ref.Times.Span.Empty() && ref.Rows.Span.Empty() && ref.Until.Span.Empty() {
			return nil // nothing says how often
		}
		if len(row.Steps) > 1 || len(row.Steps) == 1 && row.Steps[0].Op != pattern.OpNote {
			return nil // it has a row of its own besides
		}
	} else if s.last <= s.first || row.Numbers.Last.Span.Empty() {
		return nil
	}
	if s.last > s.first && !f.spansRange(row.Numbers) {
		return nil
	}
	if s.rows%s.unit != 0 || s.rows < s.unit {
		return nil
	}
	s.least = s.unit
	if s.unit == 1 && s.last > s.first {
		s.least = 2
	}
	// every row must be as wide as the one a unit before it
	var made []int64
	for i := max(0, at-int(s.unit)); i < at+len(rows) && i < len(pc.Rows); i++ {
		n, ok := pc.Rows[i].Expect()
		if !ok {
			return nil
		}
		for range min(pc.Rows[i].Count(), 3*int(s.unit)) {
			made = append(made, n)
		}
	}
	if at == 0 {
		return nil
	}
	for i := int(s.unit); i < len(made); i++ {
		if made[i] != made[i-int(s.unit)] {
			return nil
		}
	}
	sum, n := 0.0, 0.0
	for _, r := range rows {
		sum += float64(r.Count()) * f.tape.gauge.Height(r, f.proof.Terms)
		n += float64(r.Count())
	}
	s.height = sum / n * float64(s.unit)
	if s.unit%2 == 1 && f.sided(pc, s) {
		s.unit, s.height, s.least = 2*s.unit, 2*s.height, s.least+(s.rows-s.least)%(2*s.unit)
	}
	s.now = s.rows
	return s
}

// spansRange reports whether a label says "Rows 4-9" rather than "Rows 4 and 5",
// which more rows would make wrong.
func (f *fitter) spansRange(n pattern.Numbering) bool {
	if n.First.Span.End > n.Last.Span.Start {
		return false
	}
	between := strings.ToLower(f.proof.Pattern.Source.Slice(pattern.Span{Start: n.First.Span.End, End: n.Last.Span.Start}))
	return !strings.Contains(between, "and") && !strings.ContainsAny(between, "&,+/")
}

// referred is how many rows one repeat of a reference has.
func referred(r *pattern.Refer) int64 {
	switch {
	case r.LastRows > 0:
		return int64(r.LastRows)
	case len(r.List) > 0:
		return int64(len(r.List))
	case r.Last >= r.First:
		return int64(r.Last - r.First + 1)
	}
	return 0
}

// sided reports whether rows that come after a stretch, or what is worked onto
// them, are bound to a side of the work.
func (f *fitter) sided(pc *pattern.PieceProof, s *stretch) bool {
	if s.row.Kind == pattern.Round {
		return false
	}
	after := false
	for _, r := range pc.Piece.Rows {
		if r == s.row {
			after = true
			continue
		}
		if after && r.Side != pattern.SideUnsaid {
			return true
		}
	}
	return false
}

// grow shares the wish up the fabric out among the stretches, in proportion to
// their height, and gives the rows that all of them come to.
func grow(all []*stretch, more float64) {
	total := 0.0
	for _, s := range all {
		total += s.height * float64(s.rows) / float64(s.unit)
	}
	left := more
	for _, s := range all {
		part := more * (s.height * float64(s.rows) / float64(s.unit)) / total
		units := int64(math.Trunc(part / s.height))
		s.now = max(s.least, s.rows+units*s.unit)
		left -= float64((s.now-s.rows)/s.unit) * s.height
	}
	// what is left over goes a unit at a time to where it brings most
	for range 10_000 {
		var best *stretch
		by, off := int64(0), math.Abs(left)-1e-9
		for _, s := range all {
			for _, d := range []int64{1, -1} {
				if s.now+d*s.unit < s.least {
					continue
				}
				o := math.Abs(left - float64(d)*s.height)
				if o < off {
					best, by, off = s, d, o
				}
			}
		}
		if best == nil {
			return
		}
		best.now += by * best.unit
		left -= float64(by) * best.height
	}
}
