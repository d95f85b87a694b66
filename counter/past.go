package counter

// The past is what can be taken back: a chain of steps that all the states
// after them share. Taps of equal length in a row are one link, so it grows
// with the rows worked rather than with the taps.

// step is something done, with what it takes to undo it.
type step struct {
	kind      Kind
	n         int64      // Tap: stitches of one; Count: the stitch before
	times     int64      // Tap: how many there were
	moved     *move      // Finish, Jump, Unravel
	extra     *extras    // what stood beside the work before, where it changed
	event     *Event     // what to do again; nil for a Tap
	rewritten *rewriting // Rewrite
}

// undone is an event that was taken back, or a run of equal taps, and what was
// taken back before it. It is never changed.
type undone struct {
	event Event // its time is of no use
	times int64
	below *undone
}

// past is a step and those before it. It is never changed.
type past struct {
	step
	below *past
}

// move is what a Finish or a Jump changed.
type move struct {
	from     Place
	there    Place   // where the copy gone to had been left, if it is another
	outcome  outcome // Finish: of the row, before
	mismatch rowKey  // Finish: the last one, before
	any      bool    // and whether there was one
	lost     []loss  // Unravel: the rows that it touched
}

// push notes a step.
func (s *State) push(st step) {
	if st.kind == Tap && s.top.kind == Tap && s.top.n == st.n {
		s.top.times++
		return
	}
	if s.top.kind != 0 {
		s.below = &past{s.top, s.below}
	}
	s.top = st
}

// pop drops the newest step, of a run of taps the last.
func (s *State) pop() {
	if s.top.kind == Tap && s.top.times > 1 {
		s.top.times--
		return
	}
	s.top = step{}
	if s.below != nil {
		s.top, s.below = s.below.step, s.below.below
	}
}

// took notes what a Back has taken back.
func (s *State) took(st step) {
	if st.kind != Tap {
		s.undone = &undone{*st.event, 1, s.undone}
		return
	}
	if u := s.undone; u != nil && u.event.Kind == Tap && u.event.N == st.n {
		s.undone = &undone{u.event, u.times + 1, u.below}
		return
	}
	s.undone = &undone{Event{Kind: Tap, N: st.n}, 1, s.undone}
}

// again is the event to do again; it is taken off what was taken back.
func (s *State) again() Event {
	u := s.undone
	if u.times > 1 {
		s.undone = &undone{u.event, u.times - 1, u.below}
	} else {
		s.undone = u.below
	}
	return u.event
}

// Undone is what a Redo would do again; false where nothing was taken back.
func (s State) Undone() (Event, bool) {
	if s.undone == nil {
		return Event{}, false
	}
	return s.undone.event, true
}
