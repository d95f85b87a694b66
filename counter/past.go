package counter

// The past is what can be taken back: a chain of steps that all the states
// after them share. Taps of equal length in a row are one link, so it grows
// with the rows worked rather than with the taps.

// step is something done, with what it takes to undo it.
type step struct {
	kind  Kind
	n     int64 // Tap: stitches of one; Count: the stitch before
	times int64 // Tap: how many there were
	moved *move // Finish, Jump
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
