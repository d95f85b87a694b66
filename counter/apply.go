package counter

import "fmt"

// Apply is the state after an event. Where the event cannot be, it gives the
// state unchanged and one of the errors of this package. Its cost does not
// depend on how much has happened before.
func (s State) Apply(e Event) (State, error) {
	if s.plan == nil {
		s = Begin(nil)
	}
	next := s
	if err := next.take(e); err != nil {
		return s, err
	}
	return next, nil
}

// take checks an event, spends the time until it on the row in hand, and does
// what it says, in that order.
func (s *State) take(e Event) error {
	stitches, err := s.check(e)
	if err != nil {
		return err
	}
	// Before an Open the program was not there, even if it never said Close.
	if !s.Finished() && e.Kind != Open {
		ms := s.clock.since(e.At, stitches)
		s.millis += ms
		s.spent += ms
	}
	s.clock = s.clock.after(e)
	s.reel = s.reel.after(e.Kind)
	switch e.Kind {
	case Back:
		s.back()
	case Redo:
		again := s.again()
		again.At = e.At
		s.do(again)
	case SetStride:
		s.stride = e.N
	case Pause, Resume, Open, Close, BeginTake, EndTake:
	default:
		s.undone = nil
		s.do(e)
	}
	return nil
}

// do does the work that an event speaks of and that Back can take back.
func (s *State) do(e Event) {
	switch e.Kind {
	case Tap:
		s.push(step{kind: Tap, n: e.N, times: 1})
		s.at.Stitch += e.N
	case Count:
		s.correct(e)
	case Finish, Carry:
		s.finish(e)
	case Jump:
		s.jump(e)
	case Unravel:
		s.unravel(e)
	case Rewrite:
		s.rewrite(e)
	default:
		s.beside(e)
	}
}

// check says whether an event can be, and how many stitches it covers.
func (s *State) check(e Event) (stitches int64, err error) {
	switch e.Kind {
	case Tap, Count, Finish, Carry:
		if s.Finished() {
			return 0, ErrAllWorked
		}
	}
	switch e.Kind {
	case Tap:
		if e.N < 1 {
			return 0, ErrBadCount
		}
		if e.N > MaxStitches-s.at.Stitch {
			return 0, ErrTooMany
		}
		return e.N, nil
	case Count:
		return e.N - s.at.Stitch, checkCount(e.N)
	case Carry:
		if e.N == NotCounted {
			return 0, ErrBadCount
		}
		return e.N - s.at.Stitch, checkCount(e.N)
	case Finish:
		if e.N == NotCounted {
			stitches, _ = s.Left()
			return stitches, nil
		}
		return e.N - s.at.Stitch, checkCount(e.N)
	case Jump:
		if !s.plan.has(Place{e.Piece, e.Copy, e.Row, 0}) {
			return 0, ErrNoSuchRow
		}
		return 0, checkCount(e.N)
	case Back:
		if s.top.kind == 0 {
			return 0, ErrNothingBack
		}
		return 0, nil
	case Redo:
		if s.undone == nil {
			return 0, ErrNothingAgain
		}
		if k := s.undone.event.Kind; k == Remark || k == FromHere {
			return 0, nil // it goes back to where it was, the take may be over by now
		}
		_, err := s.check(s.undone.event)
		return 0, err
	case Unravel:
		return 0, s.checkUnravel(e)
	case SetStride:
		return 0, checkStride(e.N)
	case Rewrite:
		return 0, s.checkRewrite(e)
	case Mark, Unmark, Note, Check, Seek, Answer, Leave, Tick, Keep, Weigh:
		return 0, s.checkBeside(e)
	case BeginTake, EndTake, Remark, FromHere, Camera, Timecode, Clap, Choose, Alike, SpeakAt:
		return 0, s.checkFilm(e)
	case Pause, Resume, Open, Close:
		return 0, nil
	}
	return 0, fmt.Errorf("%w (%v)", ErrUnknownKind, e.Kind)
}

func checkCount(n int64) error {
	if n < 0 {
		return ErrBadCount
	}
	if n > MaxStitches {
		return ErrTooMany
	}
	return nil
}

func (s *State) finish(e Event) {
	key := s.rowKey()
	k, _ := s.rows.Get(key)
	m := &move{from: s.at, outcome: k.outcome, mismatch: s.mismatch, any: s.anyMismatch}
	was := s.extras
	k.outcome, k.millis = outcome{true, s.at.Stitch, e.N}, s.millis
	s.rows = s.rows.Set(key, k)
	if _, differs := s.record(key, k).Mismatch(); differs {
		s.mismatch, s.anyMismatch = key, true
	}
	s.leaveRow()
	s.carry(key, e)
	end := Place{s.at.Piece, s.at.Copy, s.at.Row + 1, 0}
	to, more := s.Next()
	if !more {
		to = end
	}
	m.there = s.move(end, to)
	s.push(step{kind: e.Kind, moved: m, extra: changed(was, s.extras), event: &e})
}

// correct puts the place where a count in mid-row has it.
func (s *State) correct(e Event) {
	was := s.extras
	s.push(step{kind: Count, n: s.at.Stitch, extra: &was, event: &e})
	s.at.Stitch = e.N
	s.checks = &given{e.N, e.N, s.checks} // where her count puts her, it agrees
}

func (s *State) jump(e Event) {
	was := s.extras
	m := &move{from: s.at}
	s.leaveRow()
	m.there = s.move(s.at, Place{e.Piece, e.Copy, e.Row, e.N})
	s.push(step{kind: Jump, moved: m, extra: changed(was, s.extras), event: &e})
}

// changed is what the extras were, nil where they are so still.
func changed(was, is extras) *extras {
	if was == is {
		return nil
	}
	return &was
}

// move leaves the copy in hand at one place and goes on at another. It gives
// the place where the copy gone to had been left, if it is another one.
func (s *State) move(leave, to Place) (there Place) {
	s.layDown()
	from, slot := s.plan.slot(leave.Piece, leave.Copy), s.plan.slot(to.Piece, to.Copy)
	if from != slot {
		there = s.left(slot)
		s.places = s.places.Set(from, leave)
		s.others = s.others.plus(s.plan.upTo(leave)).minus(s.plan.upTo(there))
	}
	s.at = to
	s.takeUp()
	return there
}

// back undoes the newest step.
func (s *State) back() {
	st := s.top
	s.pop()
	s.took(st)
	if st.kind == Rewrite {
		s.unwrite(st.rewritten)
		return
	}
	switch st.kind {
	case Tap:
		s.at.Stitch -= st.n
	case Count:
		s.at.Stitch = st.n
	case Finish, Carry, Jump, Unravel:
		s.unmove(st.moved)
	}
	if st.extra != nil {
		s.extras = *st.extra
	}
	switch st.kind {
	case Unravel:
		s.ravel(st.moved.lost)
	case Finish, Carry:
		key := s.rowKey()
		k, _ := s.rows.Get(key)
		k.outcome = st.moved.outcome
		s.rows = s.rows.Set(key, k)
		s.mismatch, s.anyMismatch = st.moved.mismatch, st.moved.any
	}
}

// unmove goes back to where a move came from, and puts the copy it went to
// back where it had been.
func (s *State) unmove(m *move) {
	s.layDown()
	from, slot := s.plan.slot(m.from.Piece, m.from.Copy), s.plan.slot(s.at.Piece, s.at.Copy)
	if from != slot {
		left, _ := s.places.Get(from)
		s.others = s.others.plus(s.plan.upTo(m.there)).minus(s.plan.upTo(left))
		s.places = s.places.Set(slot, m.there)
	}
	s.at = m.from
	s.takeUp()
}

// layDown writes the time of the row in hand to its record; takeUp reads it.
func (s *State) layDown() {
	key := s.rowKey()
	if k, _ := s.rows.Get(key); !s.Finished() && k.millis != s.millis {
		k.millis = s.millis
		s.rows = s.rows.Set(key, k)
	}
}

func (s *State) takeUp() {
	k, _ := s.rows.Get(s.rowKey())
	s.millis = k.millis
}

// plus and minus may run over and back again: the sums come out right.
func (e extent) plus(f extent) extent {
	return extent{e.rows + f.rows, e.stitches + f.stitches, e.unknown + f.unknown}
}

func (e extent) minus(f extent) extent {
	return extent{e.rows - f.rows, e.stitches - f.stitches, e.unknown - f.unknown}
}
