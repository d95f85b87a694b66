package main

import (
	"encoding/binary"
	"hash/fnv"
	"slices"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// A walk of a million taps takes seconds to be gone through. So with the list
// of the basket is kept where each walk was left: the few events that lead to
// its place in one go. The first frame is drawn from them, and the keys wait
// until the log itself was gone through, which alone says where the maker is.

// placesKept is for how many walks that is done, the last left first.
const placesKept = 64

// leftAt is where a walk was left.
type leftAt struct {
	id        string // of the project
	events    uint64 // in its log
	path      string // of the pattern's file
	size      string
	text      uint64 // sumOfText of the pattern
	title     string // the heading
	rowMillis int64  // of the row in hand
	lead      []counter.Event
}

func sumOfText(text string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(text))
	return h.Sum64()
}

// mostLead is how many events a place is kept as, at most.
const mostLead = 100

// placeOf tells where a walk is left; false where a few events cannot lead
// there.
func placeOf(p store.Project, title string, events uint64, state counter.State) (leftAt, bool) {
	at := state.At()
	var lead []counter.Event
	for m := range state.Mismatches() { // on which the numbers of later rows rest
		if m.Piece == at.Piece && m.Copy == at.Copy {
			lead = append(lead, counter.Event{Kind: counter.Jump, Piece: m.Piece, Copy: m.Copy, Row: m.Row}, counter.Event{Kind: counter.Carry, N: m.Counted})
		}
		if len(lead) > mostLead {
			return leftAt{id: p.ID}, false
		}
	}
	lead = append(lead, counter.Event{Kind: counter.Jump, Piece: at.Piece, Copy: at.Copy, Row: at.Row, N: at.Stitch})
	if n := state.Stride(); n != 1 {
		lead = append(lead, counter.Event{Kind: counter.SetStride, N: n})
	}
	if note := state.NoteOn(at.Piece, at.Copy, at.Row); note != "" {
		lead = append(lead, counter.Event{Kind: counter.Note, Piece: at.Piece, Copy: at.Copy, Row: at.Row, Text: note})
	}
	for _, m := range state.MarkersIn(at.Piece, at.Copy, at.Row) {
		lead = append(lead, counter.Event{Kind: counter.Mark, Piece: at.Piece, Copy: at.Copy, Row: at.Row, N: m.Stitch, Text: m.Text})
	}
	if state.Paused() {
		lead = append(lead, counter.Event{Kind: counter.Pause})
	}
	left := leftAt{
		id: p.ID, events: events, path: p.Path, size: p.Size, text: sumOfText(state.Plan().Text()),
		title: title, rowMillis: state.RowMillis(state.LastEvent()), lead: lead,
	}
	reached, refused := counter.Replay(state.Plan(), lead)
	return left, len(refused) == 0 && looksAlike(reached, state)
}

// looksAlike reports whether the frames of two states show the same row in
// hand.
func looksAlike(a, b counter.State) bool {
	at := a.At()
	aWant, aKnown := a.Expect()
	bWant, bKnown := b.Expect()
	_, aHunts := a.Hunt()
	_, bHunts := b.Hunt()
	return at == b.At() && a.Finished() == b.Finished() && aWant == bWant && aKnown == bKnown && a.Stride() == b.Stride() &&
		a.Paused() == b.Paused() && aHunts == bHunts && a.Rolling() == b.Rolling() &&
		a.NoteOn(at.Piece, at.Copy, at.Row) == b.NoteOn(at.Piece, at.Copy, at.Row) &&
		slices.Equal(a.MarkersIn(at.Piece, at.Copy, at.Row), b.MarkersIn(at.Piece, at.Copy, at.Row))
}

// left notes where a walk was left, for keepSketch.
func (s *shelf) left(at leftAt, known bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.places = slices.DeleteFunc(s.places, func(l leftAt) bool { return l.id == at.id })
	if known {
		s.places = slices.Insert(s.places, 0, at)
	}
}

// placeSketch is the walk of a pattern as it was left, or nil where nothing is
// known of it.
func (s *shelf) placeSketch(o origin, proof *pattern.Proof) tui.Page {
	if o.anew {
		return nil
	}
	sum := sumOfText(o.text)
	i := slices.IndexFunc(s.places, func(l leftAt) bool {
		return l.path == o.path && l.text == sum && (o.size == "" || l.size == proof.Size)
	})
	if i < 0 {
		return nil
	}
	left := s.places[i]
	if left.size != proof.Size {
		proof = proof.Pattern.Prove(pattern.Options{Size: left.size})
	}
	state, refused := counter.Replay(counter.NewPlan(proof), left.lead)
	if len(refused) > 0 {
		return nil
	}
	return tui.NewWalk(tui.WalkConfig{
		ID: left.id, Title: left.title, State: state, Begun: state.Plan(), Now: s.now, Look: s.look, TapKeys: s.tapKeys,
		Sketch: &tui.Sketch{RowMillis: left.rowMillis},
	})
}

// placesNow are the walks whose places are still what a start would come to.
func (s *shelf) placesNow() []leftAt {
	s.mu.Lock()
	places := slices.Clone(s.places)
	s.mu.Unlock()
	all, err := s.recent()
	if err != nil {
		return nil
	}
	var good []leftAt
	for _, l := range places {
		i := slices.IndexFunc(all, func(p store.Project) bool { return p.ID == l.id })
		if i >= 0 && all[i].Events == l.events && all[i].Shelf != store.TakenOut && s.foremost(l, all) && len(good) < placesKept {
			good = append(good, l)
		}
	}
	return good
}

// foremost reports whether a walk is the one that is taken up by its file or,
// as a demo is, by its text. All are the projects, the last touched first.
func (s *shelf) foremost(l leftAt, all []store.Project) bool {
	if l.path != "" {
		i := slices.IndexFunc(all, func(p store.Project) bool { return p.Path == l.path && p.Shelf != store.TakenOut })
		return i >= 0 && all[i].ID == l.id
	}
	p, err := s.kept().Project(l.id)
	if err != nil || sumOfText(p.Text) != l.text {
		return false
	}
	found, err := s.kept().Find("", p.Text)
	return err == nil && found.ID == l.id
}

func (l leftAt) append(b []byte) []byte {
	var one []byte
	for _, text := range []string{l.id, l.path, l.size, l.title} {
		one = appendText(one, text)
	}
	for _, n := range []uint64{l.events, l.text} {
		one = binary.AppendUvarint(one, n)
	}
	one = binary.AppendVarint(one, l.rowMillis)
	for _, e := range l.lead {
		event, err := e.MarshalBinary()
		if err != nil {
			return b // it is left out
		}
		one = appendText(one, string(event))
	}
	return appendText(b, string(one))
}

// place reads what leftAt.append wrote.
func (r *sketchReader) place() (l leftAt) {
	one := sketchReader{b: r.text()}
	for _, to := range []*string{&l.id, &l.path, &l.size, &l.title} {
		*to = string(one.text())
	}
	l.events, l.text = one.uvarint(), one.uvarint()
	l.rowMillis = one.varint()
	for len(one.b) > 0 {
		var e counter.Event
		if text := one.text(); e.UnmarshalBinary(text) != nil {
			one.odd = true
			break
		}
		l.lead = append(l.lead, e)
	}
	r.odd = r.odd || one.odd
	return l
}
