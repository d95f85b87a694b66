package counter

import (
	"slices"
	"sync"

	"github.com/benbjohnson/immutable"

	"crochet/tallyturn/pattern"
)

// A Rewrite goes on with another text of the pattern. What happened so far is
// carried over row by row: places, times, counts, markers and notes go where
// their rows are by now. Taking it back brings the state back as it was, but
// for the time spent since.

// otherPlans are plans of other texts.
type otherPlans struct {
	sync.Mutex
	known []*Plan
}

// rewriting is what it takes to take a Rewrite back.
type rewriting struct {
	was  State   // before, with its time laid down
	rows *rowMap // after
	way  translation
}

func (s *State) checkRewrite(e Event) error {
	if s.plan.other(e.Text) == nil {
		return ErrNoText
	}
	return nil
}

// Declined is the text of the file that the maker chose to stay without.
func (s State) Declined() string { return s.declined }

func (s *State) rewrite(e Event) {
	s.layDown()
	was := *s
	to := s.plan.other(e.Text)
	t := translation{from: s.plan, to: to, rows: match(s.plan, to)}
	s.plan = to
	s.extras = t.extras(was.extras)
	s.rows = immutable.NewSortedMap[rowKey, kept](rowOrder{})
	for it := was.rows.Iterator(); !it.Done(); {
		key, k, _ := it.Next()
		if now, ok := t.key(key); ok {
			s.rows = s.rows.Set(now, k)
		}
	}
	s.places = immutable.NewSortedMap[int, Place](slotOrder{})
	for it := was.places.Iterator(); !it.Done(); {
		slot, at, _ := it.Next()
		if slot == was.rowKey().slot {
			continue
		}
		if at, ok := t.place(at); ok {
			s.places = s.places.Set(to.slot(at.Piece, at.Copy), at)
		}
	}
	at, ok := t.place(was.at)
	if !ok { // the piece is gone: the first that is not worked
		at = Place{}
		at.Piece, at.Copy = to.inSlot(0)
		s.at = at
		if left, ok := s.places.Get(0); ok {
			at = left
		}
	}
	s.at = at
	if s.Finished() { // rows were added elsewhere, or there are others to make
		for slot := range to.slots {
			if left := s.left(slot); left.Row < to.pieces[left.Piece].rows {
				s.places = s.places.Set(to.slot(at.Piece, at.Copy), at)
				s.at = left
				break
			}
		}
	}
	s.others = extent{}
	for it := s.places.Iterator(); !it.Done(); {
		slot, at, _ := it.Next()
		if slot != s.rowKey().slot {
			s.others = s.others.plus(to.upTo(at))
		}
	}
	s.mismatch, s.anyMismatch = rowKey{}, false
	if was.anyMismatch {
		s.mismatch, s.anyMismatch = t.key(was.mismatch)
	}
	s.takeUp()
	if was.scale != nil {
		now := s.Standing()
		s.scale = &onScale{Weighing{Where: was.Standing(), Now: &now}, was.scale}
	}
	s.push(step{kind: Rewrite, event: &e, rewritten: &rewriting{was, s.rows, t}})
}

// unwrite takes a Rewrite back. The step is off the past already.
func (s *State) unwrite(r *rewriting) {
	s.layDown()
	now, was := *s, r.was
	*s = was
	s.clock, s.reel, s.spent = now.clock, now.reel, now.spent
	s.undone, s.stride = now.undone, now.stride
	for it := now.rows.Iterator(); !it.Done(); {
		key, k, _ := it.Next()
		before, _ := r.rows.Get(key)
		old, known := r.way.before(key)
		if spent := k.millis - before.millis; spent != 0 && known {
			o, _ := s.rows.Get(old)
			o.millis += spent
			s.rows = s.rows.Set(old, o)
		}
	}
	s.takeUp()
}

// translation leads from one plan to another.
type translation struct {
	from, to *Plan
	rows     *matching
}

// before is where a row was.
func (t *translation) before(k rowKey) (rowKey, bool) {
	piece, copy := t.to.inSlot(k.slot)
	was := t.rows.from[piece]
	if was < 0 || copy >= t.from.pieces[was].copies {
		return rowKey{}, false
	}
	r := &t.rows.rows[was]
	row := -1
	switch {
	case k.row < r.head:
		row = k.row
	case k.row >= r.others-r.tail:
		row = k.row - r.others + r.rows
	default:
		if i := slices.Index(r.middle, k.row); i >= 0 {
			row = r.head + i
		}
	}
	return rowKey{t.from.slot(was, copy), row}, row >= 0
}

// copy is where a copy of a piece is.
func (t *translation) copy(slot int) (piece, now int, ok bool) {
	piece, copy := t.from.inSlot(slot)
	to := t.rows.to[piece]
	if to < 0 || t.to.pieces[to].rows == 0 || copy >= t.to.pieces[to].copies {
		return 0, 0, false
	}
	return piece, t.to.slot(to, copy), true
}

func (t *translation) key(k rowKey) (rowKey, bool) {
	if k.slot < 0 {
		return rowKey{}, false
	}
	piece, slot, ok := t.copy(k.slot)
	if !ok {
		return rowKey{}, false
	}
	row := t.rows.row(piece, k.row)
	return rowKey{slot, row}, row >= 0
}

// place is where a place is: in its row or, where that is gone, at the
// beginning of what follows it.
func (t *translation) place(at Place) (Place, bool) {
	if t.from.slots == 0 {
		return Place{}, false
	}
	piece, slot, ok := t.copy(t.from.slot(at.Piece, at.Copy))
	if !ok {
		return Place{}, false
	}
	var now Place
	now.Piece, now.Copy = t.to.inSlot(slot)
	if row := t.rows.row(piece, at.Row); at.Row < t.from.pieces[piece].rows && row >= 0 {
		now.Row, now.Stitch = row, at.Stitch
		if n := t.to.expected(now.Piece, row); n >= 0 && !t.rows.same(piece, at.Row) {
			now.Stitch = min(now.Stitch, n)
		}
		return now, true
	}
	// After the last row before it that is still there.
	for row := min(at.Row, t.from.pieces[piece].rows) - 1; row >= 0; row-- {
		if n := t.rows.row(piece, row); n >= 0 {
			now.Row = n + 1
			break
		}
	}
	return now, true
}

func (t *translation) extras(was extras) extras {
	now := noExtras()
	for it := was.markers.Iterator(); !it.Done(); {
		key, text, _ := it.Next()
		if k, ok := t.key(key.rowKey); ok {
			now.markers = now.markers.Set(markerKey{k, key.stitch}, text)
		}
	}
	for it := was.notes.Iterator(); !it.Done(); {
		key, text, _ := it.Next()
		if k, ok := t.key(key); ok {
			now.notes = now.notes.Set(k, text)
		}
	}
	for it := was.carried.Iterator(); !it.Done(); {
		slot, c, _ := it.Next()
		piece, to, ok := t.copy(slot)
		if !ok {
			continue
		}
		var diffs []pattern.Difference
		for _, d := range c.diffs {
			if row := t.rows.row(piece, d.Row); row >= 0 {
				diffs = append(diffs, pattern.Difference{Row: row, Count: d.Count})
			}
		}
		toPiece, _ := t.to.inSlot(to)
		if c := t.to.carryOn(toPiece, diffs); c != nil {
			now.carried = now.carried.Set(to, c)
		}
	}
	// A step of the making up is the same if its words are.
	now.adrift = was.adrift
	if t.from.proof != nil && t.from.proof.Pattern != nil {
		steps := t.to.proof.Pattern.MakingUp()
		for i, step := range t.from.proof.Pattern.MakingUp() {
			if done, _ := was.ticked.Get(i); !done {
				continue
			}
			same := false
			for j := range steps {
				if steps[j] == step {
					now.ticked, same = now.ticked.Set(j, true), true
				}
			}
			if !same {
				now.adrift++
			}
		}
	}
	return now
}

// NotesFor gives the notes on rows as events for another making of the same
// pattern, each where its row is in the plan of that.
func (s State) NotesFor(other *Plan) []Event {
	if s.planned().slots == 0 || other.slots == 0 {
		return nil
	}
	t := translation{from: s.plan, to: other, rows: match(s.plan, other)}
	var out []Event
	for it := s.notes.Iterator(); !it.Done(); {
		key, text, _ := it.Next()
		if now, ok := t.key(key); ok {
			e := Event{Kind: Note, Row: now.row, Text: text}
			e.Piece, e.Copy = other.inSlot(now.slot)
			out = append(out, e)
		}
	}
	return out
}
