package counter_test

import (
	"math"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// unknown is the stitches of a row nobody knows the number of.
const unknown = -1

// piece is a piece of so many copies whose rows have so many stitches.
func piece(copies int, rows ...int64) *pattern.PieceProof {
	pp := &pattern.PieceProof{Piece: &pattern.Piece{Copies: copies}}
	for _, n := range rows {
		addRows(pp, n, 1)
	}
	return pp
}

// addRows adds count rows alike, folded into one proof.
func addRows(pp *pattern.PieceProof, stitches int64, count int) {
	i := pp.Len()
	r := &pattern.RowProof{First: i + 1, Last: i + count, Index: i, Made: stitches, Status: pattern.Unstated}
	if stitches >= 0 {
		// Worked as pairs, so that every stitch has a pass and an instruction.
		pair := &pattern.Step{Op: pattern.OpGroup}
		sc := &pattern.Step{Op: pattern.OpWork}
		r.Trace = &pattern.Trace{Times: 1, Stitches: stitches, Kids: []*pattern.Trace{
			{Step: pair, Times: stitches / 2, First: 1, Of: stitches / 2, Stitches: 2,
				Kids: []*pattern.Trace{{Step: sc, Times: 1, Stitches: 2}}},
			{Step: sc, Times: 1, Stitches: stitches % 2},
		}}
	} else {
		r.Status = pattern.Trusted
	}
	pp.Rows = append(pp.Rows, r)
}

func planOf(pieces ...*pattern.PieceProof) *counter.Plan {
	return counter.NewPlan(&pattern.Proof{Pieces: pieces})
}

// urchin is a body of three rows, 6 12 18, and two spines of 4 and an
// unknown row.
func urchin() *counter.Plan { return planOf(piece(1, 6, 12, 18), piece(2, 4, unknown)) }

func TestPlan(t *testing.T) {
	p := urchin()
	if p.Pieces() != 2 || p.Copies(0) != 1 || p.Copies(1) != 2 || p.Rows(0) != 3 || p.Rows(1) != 2 {
		t.Errorf("pieces %d, copies %d %d, rows %d %d", p.Pieces(), p.Copies(0), p.Copies(1), p.Rows(0), p.Rows(1))
	}
	if p.Copies(-1) != 0 || p.Copies(2) != 0 || p.Rows(-1) != 0 || p.Rows(2) != 0 {
		t.Error("pieces that are not there have copies or rows")
	}
	if r, n := p.Row(0, 2); r == nil || r.Made != 18 || n != 3 {
		t.Errorf("last row of the body: %v, number %d", r, n)
	}
	for _, at := range [][2]int{{-1, 0}, {0, -1}, {0, 3}, {2, 0}} {
		if r, _ := p.Row(at[0], at[1]); r != nil {
			t.Errorf("row %v is there", at)
		}
	}
}

func TestProgressOfVastPlans(t *testing.T) {
	vast := piece(math.MaxInt, math.MaxInt64, 1)
	s := counter.Begin(planOf(vast, vast))
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 5}, counter.Event{Kind: counter.Jump, Piece: 1, Copy: counter.MaxCopies - 1, Row: 1})
	done, total := s.Stitches()
	if done < 0 || done > total || total <= 0 {
		t.Errorf("%d of %d stitches", done, total)
	}
	if _, total := s.Rows(); total != 4*counter.MaxCopies {
		t.Errorf("%d rows", total)
	}
}

func TestNothingToWalk(t *testing.T) {
	for name, s := range map[string]counter.State{
		"zero":    {},
		"nil":     counter.Begin(nil),
		"no rows": counter.Begin(planOf(piece(3))),
	} {
		if !s.Finished() || s.AtRowEnd() || s.Extra() != 0 || s.RowMillis(5) != 0 || s.Here().Step != nil {
			t.Errorf("%s: has something", name)
		}
		if _, err := s.Apply(counter.Event{Kind: counter.Tap, N: 1}); err != counter.ErrAllWorked {
			t.Errorf("%s: tap: %v", name, err)
		}
		for _, k := range []counter.Kind{counter.Open, counter.Pause, counter.Resume, counter.Close} {
			next, err := s.Apply(counter.Event{Kind: k, At: 1})
			if err != nil {
				t.Errorf("%s: %v: %v", name, k, err)
			}
			s = next
		}
		for range s.Records() {
			t.Errorf("%s: has a record", name)
		}
		for range s.Markers() {
			t.Errorf("%s: has a marker", name)
		}
		for range s.Notes() {
			t.Errorf("%s: has a note", name)
		}
		_, hunts := s.Hunt()
		_, undone := s.Undone()
		_, _, checked := s.Checked()
		parts, _ := s.Under(3)
		if hunts || undone || checked || parts != nil || s.Carried() != nil || s.IfCarried(3) != nil || s.CouldBe(3, 2) != nil ||
			s.NoteOn(0, 0, 0) != "" || s.MarkersIn(0, 0, 0) != nil || s.Ticked(0) || s.NotesFor(s.Plan()) != nil || s.Reach() != 1 {
			t.Errorf("%s: has something beside the work", name)
		}
		if _, err := s.Losing(counter.Place{}); err != counter.ErrNoSuchRow {
			t.Errorf("%s: losing: %v", name, err)
		}
		if o := s.Outlook(s.Pace()); o.Project.Known {
			t.Errorf("%s: outlook %+v", name, o)
		}
		if c, err := s.Compare(limpet); err != nil || c.Made {
			t.Errorf("%s: compared %+v, %v", name, c, err)
		}
		if _, ok := s.Next(); ok {
			t.Errorf("%s: goes on", name)
		}
	}
	// Pieces without rows lie between, before and behind those with.
	s := counter.Begin(planOf(piece(2), piece(1, 1), piece(1), piece(1, 1), piece(1)))
	if s.Piece() != 1 {
		t.Errorf("begins in piece %d", s.Piece())
	}
	s = apply(t, s, counter.Event{Kind: counter.Finish, N: counter.NotCounted})
	if s.Piece() != 3 || s.Finished() {
		t.Errorf("goes on in piece %d", s.Piece())
	}
	if at, ok := s.PlaceOf(2, 0); !ok || at != (counter.Place{Piece: 2}) {
		t.Errorf("piece without rows: %v %v", at, ok)
	}
}
