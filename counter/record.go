package counter

import (
	"cmp"
	"iter"

	"github.com/benbjohnson/immutable"
)

// Record is what is kept of a row of one copy of a piece.
type Record struct {
	Piece, Copy, Row int   // from 0
	Number           int   // the number the pattern gives the row
	Finished         bool  // the maker has ended the row
	Tapped           int64 // stitches tapped when she did
	Counted          int64 // her own count then, or NotCounted
	Expected         int64 // what it should have, or -1 where nobody knows
	Millis           int64 // active time spent on it
	Unravelled       int64 // active time, in ms, spent on stitches of it since unravelled
	Torn             int   // how often it, or a part of it, was unravelled
}

// Mismatch is a finished row whose stitches are not what they should be.
type Mismatch struct {
	Piece, Copy, Row int   // from 0
	Number           int   // the number the pattern gives the row
	Expected         int64 // stitches it should have
	Counted          int64 // stitches it has
	// Tapped says that Counted is the taps: the maker did not count, but
	// tapped more stitches than the row should have.
	Tapped bool
}

// Mismatch is the difference a finished row came out with, if it did. Fewer
// taps than stitches are no difference where the maker did not count: not
// everybody taps every stitch.
func (r Record) Mismatch() (Mismatch, bool) {
	if !r.Finished || r.Expected < 0 {
		return Mismatch{}, false
	}
	m := Mismatch{Piece: r.Piece, Copy: r.Copy, Row: r.Row, Number: r.Number,
		Expected: r.Expected, Counted: r.Counted}
	if r.Counted == NotCounted {
		m.Counted, m.Tapped = max(r.Tapped, r.Expected), true
	}
	if m.Counted == m.Expected {
		return Mismatch{}, false
	}
	return m, true
}

// rowKey names a row of a copy of a piece.
type rowKey struct{ slot, row int }

// outcome is how a row was ended.
type outcome struct {
	finished        bool
	tapped, counted int64
}

// kept is what is stored of a row.
type kept struct {
	outcome
	millis     int64
	unravelled int64
	torn       int
}

// rowMap and placeMap share structure between a state and the next.
type (
	rowMap   = immutable.SortedMap[rowKey, kept]
	placeMap = immutable.SortedMap[int, Place]
)

type rowOrder struct{}

func (rowOrder) Compare(a, b rowKey) int {
	if c := cmp.Compare(a.slot, b.slot); c != 0 {
		return c
	}
	return cmp.Compare(a.row, b.row)
}

type slotOrder struct{}

func (slotOrder) Compare(a, b int) int { return cmp.Compare(a, b) }

// Record is what is kept of a row; all of it zero but the numbers and NotCounted
// where the maker has not been there, and false where there is no such row.
func (s State) Record(piece, copy, row int) (Record, bool) {
	if !s.planned().has(Place{Piece: piece, Copy: copy, Row: row}) {
		return Record{}, false
	}
	key := rowKey{s.plan.slot(piece, copy), row}
	k, _ := s.rows.Get(key)
	if key == s.rowKey() {
		k.millis = s.millis
	}
	return s.record(key, k), true
}

// Records goes through the rows that have been finished, have taken time or were unravelled,
// the row in hand among them, in the order of the pattern.
func (s State) Records() iter.Seq[Record] {
	return func(yield func(Record) bool) {
		if s.rows == nil {
			return
		}
		// The row in hand keeps its time apart until it is left.
		rows, here := s.rows, s.rowKey()
		if k, _ := rows.Get(here); k.millis != s.millis {
			k.millis = s.millis
			rows = rows.Set(here, k)
		}
		for it := rows.Iterator(); !it.Done(); {
			key, k, _ := it.Next()
			if (k.finished || k.millis > 0 || k.torn > 0) && !yield(s.record(key, k)) {
				return
			}
		}
	}
}

// Mismatch is the last difference found, if the row still has one.
func (s State) Mismatch() (Mismatch, bool) {
	if !s.anyMismatch {
		return Mismatch{}, false
	}
	k, _ := s.rows.Get(s.mismatch)
	return s.record(s.mismatch, k).Mismatch()
}

// Mismatches goes through all rows that came out different, in the order of
// the pattern.
func (s State) Mismatches() iter.Seq[Mismatch] {
	return func(yield func(Mismatch) bool) {
		for r := range s.Records() {
			if m, ok := r.Mismatch(); ok && !yield(m) {
				return
			}
		}
	}
}

func (s State) record(key rowKey, k kept) Record {
	r := Record{Row: key.row, Finished: k.finished, Tapped: k.tapped,
		Counted: NotCounted, Expected: -1, Millis: k.millis, Unravelled: k.unravelled, Torn: k.torn}
	r.Piece, r.Copy = s.plan.inSlot(key.slot)
	_, r.Number = s.plan.Row(r.Piece, key.row)
	if n, ok := expect(s.rowProof(key)); ok {
		r.Expected = n
	}
	if k.finished {
		r.Counted = k.counted
	}
	return r
}
