package counter

// Unravelling rips a copy of a piece back to a stitch. The records of the rows
// that go lose their counts; the time spent on them is kept apart, since it
// was spent. The cost is that of the rows that go, whatever the log is long.

// loss is what an Unravel took from the record of a row.
type loss struct {
	key     rowKey
	outcome outcome // before
	millis  int64
	torn    int // 1 where stitches of it go, and not only time
}

// Loss is what an Unravel would take.
type Loss struct {
	Rows     int   // rows begun, that in hand among them, of which something goes
	Stitches int64 // stitches ripped out
	Counted  int   // rows of them that the maker has counted
	Markers  int   // markers that fall out
	Millis   int64 // active time that went into them
}

// Losing tells what an Unravel to a place would take. Its errors are those of
// the event.
func (s State) Losing(to Place) (Loss, error) {
	e := Event{Kind: Unravel, Piece: to.Piece, Copy: to.Copy, Row: to.Row, N: to.Stitch}
	if s.plan == nil {
		s = Begin(nil)
	}
	if err := s.checkUnravel(e); err != nil {
		return Loss{}, err
	}
	s.layDown()
	var l Loss
	for _, x := range s.losses(to) {
		l.Rows += x.torn
		l.Millis += x.millis
		if x.outcome.finished && x.outcome.counted != NotCounted {
			l.Counted++
		}
		n := s.made(x.key)
		if x.key.row == to.Row {
			n -= to.Stitch
		}
		l.Stitches = add(l.Stitches, max(n, 0))
	}
	for range s.loosened(to) {
		l.Markers++
	}
	return l, nil
}

func (s *State) checkUnravel(e Event) error {
	to := Place{e.Piece, e.Copy, e.Row, e.N}
	if !s.plan.has(to) {
		return ErrNoSuchRow
	}
	if err := checkCount(e.N); err != nil {
		return err
	}
	slot := s.plan.slot(to.Piece, to.Copy)
	if at := s.left(slot); at.Row > to.Row || at.Row == to.Row && at.Stitch > to.Stitch {
		return nil
	}
	// A jump back leaves rows that are worked beyond the place.
	it := s.rows.Iterator()
	for it.Seek(rowKey{slot, to.Row}); !it.Done(); {
		key, k, _ := it.Next()
		if key.slot != slot {
			break
		}
		if k.finished && (key.row > to.Row || s.made(key) > to.Stitch) {
			return nil
		}
	}
	return ErrNothingThere
}

// losses are the rows that an Unravel to a place touches, with what it takes
// of each. The time of the row in hand must be laid down.
func (s *State) losses(to Place) []loss {
	slot := s.plan.slot(to.Piece, to.Copy)
	left := s.left(slot)
	var out []loss
	hand := false // the row where the copy was left is among them
	it := s.rows.Iterator()
	for it.Seek(rowKey{slot, to.Row}); !it.Done(); {
		key, k, _ := it.Next()
		if key.slot != slot {
			break
		}
		begun := key.row == left.Row && left.Stitch > 0
		if !k.finished && k.millis == 0 && !begun {
			continue
		}
		x := loss{key: key, outcome: k.outcome, millis: k.millis}
		made := s.made(key)
		if begun || k.finished {
			x.torn = 1
		}
		if key.row == to.Row {
			if made <= to.Stitch {
				x.torn = 0
			}
			if made <= to.Stitch && to.Stitch > 0 {
				x.millis = 0
			} else if made > 0 {
				x.millis = int64(float64(k.millis) * float64(made-to.Stitch) / float64(made))
			}
		}
		hand = hand || key.row == left.Row
		out = append(out, x)
	}
	if at := (rowKey{slot, left.Row}); !hand && left.Stitch > 0 && (left.Row > to.Row || left.Row == to.Row && left.Stitch > to.Stitch) && left.Row < s.plan.pieces[to.Piece].rows {
		out = append(out, loss{key: at, torn: 1}) // begun in no time
	}
	return out
}

// made is how many stitches a row has, as far as is known.
func (s *State) made(key rowKey) int64 {
	piece, copy := s.plan.inSlot(key.slot)
	k, _ := s.rows.Get(key)
	switch at := s.left(key.slot); {
	case at.Piece == piece && at.Copy == copy && at.Row == key.row:
		return at.Stitch
	case !k.finished:
		return 0
	case k.counted != NotCounted:
		return k.counted
	}
	if n, ok := expect(s.rowProof(key)); ok {
		return max(n, k.tapped)
	}
	return k.tapped
}

// loosened are the markers that an Unravel to a place takes out.
func (s *State) loosened(to Place) (out []markerKey) {
	from := s.markerKey(to)
	it := s.markers.Iterator()
	for it.Seek(from); !it.Done(); {
		key, _, _ := it.Next()
		if key.slot != from.slot {
			break
		}
		out = append(out, key)
	}
	return out
}

func (s *State) unravel(e Event) {
	to := Place{e.Piece, e.Copy, e.Row, e.N}
	was := s.extras
	for _, key := range s.loosened(to) {
		s.markers = s.markers.Delete(key)
	}
	s.loseCarried(s.plan.slot(to.Piece, to.Copy), to.Row)
	s.leaveRow()
	s.layDown()
	m := &move{from: s.at, lost: s.losses(to)}
	m.there = s.move(s.at, to)
	for _, x := range m.lost {
		k, _ := s.rows.Get(x.key)
		k.outcome = outcome{}
		k.millis -= x.millis
		k.unravelled += x.millis
		k.torn += x.torn
		s.rows = s.rows.Set(x.key, k)
	}
	s.takeUp()
	s.push(step{kind: Unravel, moved: m, extra: &was, event: &e})
}

// ravel gives back what an Unravel took. Time spent since stays.
func (s *State) ravel(lost []loss) {
	s.layDown()
	for _, x := range lost {
		k, _ := s.rows.Get(x.key)
		k.outcome = x.outcome
		k.millis += x.millis
		k.unravelled -= x.millis
		k.torn -= x.torn
		s.rows = s.rows.Set(x.key, k)
	}
	s.takeUp()
}

// leaveRow drops what holds only for the row in hand.
func (s *State) leaveRow() { s.checks, s.hunt = nil, nil }
