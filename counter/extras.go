package counter

import (
	"cmp"
	"iter"
	"slices"
	"strings"

	"github.com/benbjohnson/immutable"
)

// extras is what stands beside the work: it goes with the place and moves no
// stitch. Like all of a State it is a value that shares its parts.
type extras struct {
	markers  *markerMap
	notes    *noteMap
	ticked   *tickMap
	adrift   int       // ticks of steps that are not there to be found
	checks   *given    // counts given in the row in hand, the newest first
	hunt     *Hunt     // the one in hand
	carried  *carryMap // by slot: from which rows on other numbers hold
	declined string    // the text of the file that the maker does not want
	scale    *onScale  // what was weighed, the newest first
}

// given is a count of the stitches on the hook, and where the tally stood.
type given struct {
	at, counted int64
	below       *given
}

type (
	markerMap = immutable.SortedMap[markerKey, string]
	noteMap   = immutable.SortedMap[rowKey, string]
	tickMap   = immutable.SortedMap[int, bool]
	carryMap  = immutable.SortedMap[int, *carried]
)

// markerKey names a stitch: the one after the first so many of a row.
type markerKey struct {
	rowKey
	stitch int64
}

type markerOrder struct{}

func (markerOrder) Compare(a, b markerKey) int {
	if c := (rowOrder{}).Compare(a.rowKey, b.rowKey); c != 0 {
		return c
	}
	return cmp.Compare(a.stitch, b.stitch)
}

func noExtras() extras {
	return extras{
		markers: immutable.NewSortedMap[markerKey, string](markerOrder{}),
		notes:   immutable.NewSortedMap[rowKey, string](rowOrder{}),
		ticked:  immutable.NewSortedMap[int, bool](slotOrder{}),
		carried: immutable.NewSortedMap[int, *carried](slotOrder{}),
	}
}

// Marker is a stitch marker: in the stitch after the first Place.Stitch.
type Marker struct {
	Place
	Number int // the number the pattern gives the row
	Text   string
}

// RowNote is what the maker noted on a row.
type RowNote struct {
	Piece, Copy, Row int
	Number           int // the number the pattern gives the row
	Text             string
}

// Markers goes through the markers in the work, in the order of the pattern.
func (s State) Markers() iter.Seq[Marker] {
	return func(yield func(Marker) bool) {
		if s.markers == nil {
			return
		}
		for it := s.markers.Iterator(); !it.Done(); {
			key, text, _ := it.Next()
			if !yield(s.marker(key, text)) {
				return
			}
		}
	}
}

func (s State) marker(key markerKey, text string) Marker {
	m := Marker{Text: text}
	m.Piece, m.Copy = s.plan.inSlot(key.slot)
	m.Row, m.Stitch = key.row, key.stitch
	_, m.Number = s.plan.Row(m.Piece, m.Row)
	return m
}

// MarkersIn gives the markers in a row, from its beginning.
func (s State) MarkersIn(piece, copy, row int) []Marker {
	if !s.planned().has(Place{Piece: piece, Copy: copy, Row: row}) {
		return nil
	}
	var out []Marker
	from := markerKey{rowKey{s.plan.slot(piece, copy), row}, 0}
	it := s.markers.Iterator()
	for it.Seek(from); !it.Done(); {
		key, text, _ := it.Next()
		if key.rowKey != from.rowKey {
			break
		}
		out = append(out, s.marker(key, text))
	}
	return out
}

// MarkerAt is the marker in the stitch after the first at.Stitch of a row.
func (s State) MarkerAt(at Place) (text string, ok bool) {
	if !s.planned().has(at) {
		return "", false
	}
	return s.markers.Get(markerKey{rowKey{s.plan.slot(at.Piece, at.Copy), at.Row}, at.Stitch})
}

// Notes goes through the notes on rows, in the order of the pattern.
func (s State) Notes() iter.Seq[RowNote] {
	return func(yield func(RowNote) bool) {
		if s.notes == nil {
			return
		}
		for it := s.notes.Iterator(); !it.Done(); {
			key, text, _ := it.Next()
			n := RowNote{Row: key.row, Text: text}
			n.Piece, n.Copy = s.plan.inSlot(key.slot)
			_, n.Number = s.plan.Row(n.Piece, n.Row)
			if !yield(n) {
				return
			}
		}
	}
}

// NoteOn is the note on a row, "" where there is none.
func (s State) NoteOn(piece, copy, row int) string {
	if !s.planned().has(Place{Piece: piece, Copy: copy, Row: row}) {
		return ""
	}
	text, _ := s.notes.Get(rowKey{s.plan.slot(piece, copy), row})
	return text
}

// Ticked reports whether step i of the making up, from 0, is done.
func (s State) Ticked(i int) bool {
	if s.ticked == nil {
		return false
	}
	done, _ := s.ticked.Get(i)
	return done
}

// Steps is the number of steps of the making up, and how many are ticked.
func (s State) Steps() (ticked, total int) {
	p := s.planned()
	if p.proof == nil || p.proof.Pattern == nil {
		return 0, 0
	}
	if s.ticked != nil {
		ticked = s.ticked.Len()
	}
	return ticked, len(p.proof.Pattern.MakingUp())
}

// Checked is the last count given in the row in hand up to where the tally
// stands: the tally then, and the count.
func (s State) Checked() (at, counted int64, ok bool) {
	for g := s.checks; g != nil; g = g.below {
		if g.at <= s.at.Stitch {
			return g.at, g.counted, true
		}
	}
	return 0, 0, false
}

// Adrift is how many ticks of the making up belong to steps that the pattern
// does not have by now, or that cannot be told. The next tick forgets them: the
// maker has looked.
func (s State) Adrift() int { return s.adrift }

// step is which step of the making up a Tick speaks of, from 0; -1 where that
// cannot be told.
func (s *State) step(e Event) int {
	steps, lines := s.plan.proof.Pattern.MakingUp(), s.plan.proof.Pattern.Assembly
	here := e.N >= 0 && e.N < int64(len(steps))
	switch {
	case e.Text != "" && here && steps[e.N] == e.Text:
		return int(e.N)
	case e.Text != "":
		return slices.Index(steps, e.Text)
	case here && e.N < int64(len(lines)) && strings.HasSuffix(lines[e.N].Text, steps[e.N]):
		return int(e.N)
	}
	return -1 // once the lines of the file were the steps, and this one was not
}

// beside does what an event says to the extras, and notes what they were.
func (s *State) beside(e Event) {
	was := s.extras
	at := Place{e.Piece, e.Copy, e.Row, e.N}
	switch e.Kind {
	case Mark:
		s.markers = s.markers.Set(s.markerKey(at), e.Text)
	case Unmark:
		s.markers = s.markers.Delete(s.markerKey(at))
	case Note:
		key := s.markerKey(at).rowKey
		if e.Text == "" {
			s.notes = s.notes.Delete(key)
		} else {
			s.notes = s.notes.Set(key, e.Text)
		}
	case Check:
		s.checks = &given{s.at.Stitch, e.N, s.checks}
	case Tick:
		switch i := s.step(e); {
		case i < 0:
			s.adrift++
		case s.Ticked(i):
			s.ticked, s.adrift = s.ticked.Delete(i), 0
		default:
			s.ticked, s.adrift = s.ticked.Set(i, true), 0
		}
	case Keep:
		s.declined = e.Text
	case Weigh:
		s.scale = &onScale{Weighing{e.Text, e.N, e.Copy, e.Row == AtFirst, s.Standing(), nil}, s.scale}
	case Seek:
		h, _ := s.seek(e)
		s.hunt = &h
	case Answer:
		h := s.hunt.answer(e.N)
		s.hunt = &h
	case Leave:
		s.hunt = nil
	}
	s.push(step{kind: e.Kind, extra: &was, event: &e})
}

func (s *State) markerKey(at Place) markerKey {
	return markerKey{rowKey{s.plan.slot(at.Piece, at.Copy), at.Row}, at.Stitch}
}

// checkBeside says whether an event of the extras can be.
func (s *State) checkBeside(e Event) error {
	at := Place{e.Piece, e.Copy, e.Row, e.N}
	switch e.Kind {
	case Mark, Unmark, Note:
		if !s.plan.has(at) {
			return ErrNoSuchRow
		}
		if e.Kind == Note {
			return nil
		}
		if err := checkCount(e.N); err != nil {
			return err
		}
		_, there := s.MarkerAt(at)
		switch {
		case there && e.Kind == Mark:
			return ErrMarker
		case !there && e.Kind == Unmark:
			return ErrNoMarker
		}
	case Check:
		if s.Finished() {
			return ErrAllWorked
		}
		return checkCount(e.N)
	case Tick:
		// One whose step is not there is kept all the same: what was taken back
		// after it in a log must find it.
		if _, steps := s.Steps(); steps == 0 || e.Text == "" && (e.N < 0 || e.N >= int64(max(steps, len(s.plan.proof.Pattern.Assembly)))) {
			return ErrNoStep
		}
	case Weigh:
		return s.checkWeigh(e)
	case Seek:
		_, err := s.seek(e)
		return err
	case Answer, Leave:
		if s.hunt == nil || e.Kind == Answer && s.hunt.over() {
			return ErrNoHunt
		}
		if e.Kind == Answer {
			return checkCount(e.N)
		}
	}
	return nil
}

// Hunt is the hunt in hand; false where there is none.
func (s State) Hunt() (Hunt, bool) {
	if s.hunt == nil {
		return Hunt{}, false
	}
	return *s.hunt, true
}
