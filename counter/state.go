package counter

import (
	"github.com/benbjohnson/immutable"

	"crochet/tallyturn/pattern"
)

// State is where the maker is and what happened on the way. It is a value;
// what its methods give out is only for looking at. The zero State stands in
// an empty plan.
type State struct {
	plan *Plan
	at   Place

	top    step    // the newest thing done
	below  *past   // what was done before it
	undone *undone // what was taken back of late, the newest first

	extras
	stride int64 // as a SetStride has it; 0 is a stitch

	clock  clock
	reel   reel
	millis int64 // active time on the row in hand
	spent  int64 // active time in all

	rows   *rowMap   // what is kept of rows, but for the time of the one in hand
	places *placeMap // where copies were left, by slot; of the one in hand, not to be used
	others extent    // worked in copies other than the one in hand

	mismatch    rowKey // the last one
	anyMismatch bool
}

var nothing = NewPlan(nil)

// Begin stands before the first stitch of a plan.
func Begin(plan *Plan) State {
	if plan == nil {
		plan = nothing
	}
	s := State{
		plan:   plan,
		extras: noExtras(),
		rows:   immutable.NewSortedMap[rowKey, kept](rowOrder{}),
		places: immutable.NewSortedMap[int, Place](slotOrder{}),
	}
	if plan.slots > 0 {
		s.at.Piece, s.at.Copy = plan.inSlot(0)
	}
	return s
}

func (s State) planned() *Plan {
	if s.plan == nil {
		return nothing
	}
	return s.plan
}

// rowKey is the row in hand; no row of the plan once all is worked.
func (s State) rowKey() rowKey {
	if s.planned().slots == 0 {
		return rowKey{-1, 0}
	}
	return rowKey{s.plan.slot(s.at.Piece, s.at.Copy), s.at.Row}
}

// Plan is what is walked.
func (s State) Plan() *Plan { return s.planned() }

// At is where the maker is.
func (s State) At() Place { return s.at }

// Piece, Copy and Row say where the maker is, each from 0. Row is the number
// of rows of the piece once everything is worked.
func (s State) Piece() int { return s.at.Piece }
func (s State) Copy() int  { return s.at.Copy }
func (s State) Row() int   { return s.at.Row }

// Stitch is how many stitches of the row are done.
func (s State) Stitch() int64 { return s.at.Stitch }

// Paused reports whether the time stands still because the maker said so.
func (s State) Paused() bool { return s.clock.paused }

// Running reports whether a run of the program is on: an Open without its
// Close.
func (s State) Running() bool { return s.clock.open }

// LastEvent is the time of the last event, in ms since the Unix epoch; 0
// before the first.
func (s State) LastEvent() int64 { return s.clock.last }

// Finished reports whether every row of every copy is worked.
func (s State) Finished() bool {
	p := s.planned()
	return p.slots == 0 || s.at.Row >= p.pieces[s.at.Piece].rows
}

// Proof is the proof of the row in hand and the number the pattern gives the
// row; nil once everything is worked.
func (s State) Proof() (row *pattern.RowProof, number int) {
	return s.RowOf(s.at.Piece, s.at.Copy, s.at.Row)
}

// RowOf is the proof of a row of a copy and the number the pattern gives it;
// nil where there is no such row. It is that of the plan unless the copy is
// carried on with a difference.
func (s State) RowOf(piece, copy, row int) (proof *pattern.RowProof, number int) {
	proof, number = s.planned().Row(piece, row)
	if proof == nil || copy < 0 || copy >= s.plan.Copies(piece) {
		return nil, 0
	}
	return s.rowProof(rowKey{s.plan.slot(piece, copy), row}), number
}

// Here is the next stitch: which instruction makes it, and in which pass of
// which repeat. Its Step is nil at the end of the row, past it, and where the
// row was not worked out.
func (s State) Here() pattern.Here {
	r, _ := s.Proof()
	if r == nil {
		return pattern.Here{}
	}
	return r.Here(s.at.Stitch)
}

// Expect is the number of stitches the row in hand should have; false where
// nobody knows.
func (s State) Expect() (int64, bool) {
	r, _ := s.Proof()
	return expect(r)
}

// Left is how many stitches the row still lacks, 0 once it is full; false
// where nobody knows.
func (s State) Left() (int64, bool) {
	n, ok := s.Expect()
	return max(0, n-s.at.Stitch), ok
}

// AtRowEnd reports whether the row has all the stitches it should have. It is
// never so where nobody knows how many that is.
func (s State) AtRowEnd() bool {
	n, ok := s.Expect()
	return ok && s.at.Stitch >= n
}

// Extra is how many stitches more than it should have the row has.
func (s State) Extra() int64 {
	n, ok := s.Expect()
	if !ok {
		return 0
	}
	return max(0, s.at.Stitch-n)
}

// Next is where Finish leads: the next row of the copy or, after its last,
// the next copy that is not worked to its end, where it was left. It is false
// when that is the end of all.
func (s State) Next() (Place, bool) {
	if s.Finished() {
		return Place{}, false
	}
	to := Place{s.at.Piece, s.at.Copy, s.at.Row + 1, 0}
	if to.Row < s.plan.pieces[to.Piece].rows {
		return to, true
	}
	here := s.plan.slot(to.Piece, to.Copy)
	for i := 1; i < s.plan.slots; i++ {
		at := s.left((here + i) % s.plan.slots)
		if at.Row < s.plan.pieces[at.Piece].rows {
			return at, true
		}
	}
	return Place{}, false
}

// PlaceOf is where a copy of a piece was left, its beginning where it has not
// been taken up, Row being the number of its rows where it is worked to its
// end. It is false where there is no such copy.
func (s State) PlaceOf(piece, copy int) (Place, bool) {
	p := s.planned()
	if copy < 0 || copy >= p.Copies(piece) {
		return Place{}, false
	}
	if p.pieces[piece].rows == 0 {
		return Place{Piece: piece, Copy: copy}, true
	}
	return s.left(p.slot(piece, copy)), true
}

// left is PlaceOf by slot.
func (s State) left(slot int) Place {
	piece, copy := s.plan.inSlot(slot)
	if piece == s.at.Piece && copy == s.at.Copy {
		return s.at
	}
	if at, ok := s.places.Get(slot); ok {
		return at
	}
	return Place{Piece: piece, Copy: copy}
}

// RowMillis is the active time spent on the row in hand until now, in ms. As
// long as the maker is idle it stands still.
func (s State) RowMillis(now int64) int64 { return s.millis + s.running(now) }

// Millis is the active time spent on the whole project until now, in ms.
func (s State) Millis(now int64) int64 { return s.spent + s.running(now) }

func (s State) running(now int64) int64 {
	if s.Finished() {
		return 0
	}
	return s.clock.since(now, 0)
}

// Idle reports whether nothing has happened for longer than IdleLimit: the
// time since the last event will not count, unless the next one covers
// stitches enough to fill it.
func (s State) Idle(now int64) bool {
	return s.clock.open && !s.clock.paused && now > s.clock.last &&
		uint64(now)-uint64(s.clock.last) > IdleLimit
}

// Stitches is how far the project is: the stitches before the places of all
// copies, of all there are. Rows whose number nobody knows have none, and
// stitches past the number of a row are not counted.
func (s State) Stitches() (done, total int64) {
	return s.progress(func(e extent) int64 { return e.stitches })
}

// Rows is how many rows lie before the places of all copies, of all there are.
func (s State) Rows() (done, total int64) {
	return s.progress(func(e extent) int64 { return e.rows })
}

// Unknown is how many of the rows that Rows tells of have a number of stitches
// that nobody knows.
func (s State) Unknown() (done, total int64) {
	return s.progress(func(e extent) int64 { return e.unknown })
}

func (s State) progress(of func(extent) int64) (done, total int64) {
	p := s.planned()
	if p.slots == 0 {
		return 0, 0
	}
	done, total = of(s.others)+of(p.upTo(s.at)), of(p.sum)
	// Sums past the greatest number run over: no more than a bar can show.
	return min(max(done, 0), total), total
}

// Last is what Back would take back, and its stitches where it is a Tap; the
// Kind is 0 when there is nothing left.
func (s State) Last() (kind Kind, stitches int64) {
	if s.top.kind == Tap {
		return Tap, s.top.n
	}
	return s.top.kind, 0
}
