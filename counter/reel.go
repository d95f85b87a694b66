package counter

// Takes are numbered here and no more: what is on them is worked out from the
// log by package film.

// MaxSpeakAt is the most words a minute that anybody is taken to speak.
const MaxSpeakAt = 1000

// MaxClapAt is the latest that the clap can be seen, in ms after the first
// frame of a file: a day, the most that a timecode can count.
const MaxClapAt = 24 * 60 * 60 * 1000

// reel counts the takes.
type reel struct {
	takes   int
	rolling bool
}

// after is the reel once an event has come.
func (r reel) after(k Kind) reel {
	switch k {
	case BeginTake:
		return reel{r.takes + 1, true}
	case EndTake, Open, Close:
		r.rolling = false
	}
	return r
}

// Takes is how many takes were begun.
func (s State) Takes() int { return s.reel.takes }

// Rolling reports whether a take is on.
func (s State) Rolling() bool { return s.reel.rolling }

// checkFilm says whether an event of the filming can be.
func (s *State) checkFilm(e Event) error {
	switch e.Kind {
	case BeginTake:
		if s.reel.rolling {
			return ErrRolling
		}
	case EndTake, Remark, FromHere:
		if !s.reel.rolling {
			return ErrNotRolling
		}
		if e.Kind == FromHere && s.Finished() {
			return ErrAllWorked
		}
	case Camera, Timecode, Clap:
		if e.Row < 0 || e.Row >= s.reel.takes {
			return ErrNoTake
		}
		if e.Kind == Clap && (e.N < 0 || e.N > MaxClapAt) {
			return ErrBadTime
		}
	case Choose:
		if !s.plan.has(Place{Piece: e.Piece, Copy: e.Copy, Row: e.Row}) {
			return ErrNoSuchRow
		}
	case SpeakAt:
		if e.N < 0 || e.N > MaxSpeakAt {
			return ErrBadRate
		}
	}
	return nil
}

// Carrying tells where rows of one plan are in a plan of another text, as a
// Rewrite carries them over; false where a row is there no more.
func Carrying(from, to *Plan) func(piece, copy, row int) (Place, bool) {
	t := translation{from: from, to: to, rows: match(from, to)}
	return func(piece, copy, row int) (Place, bool) {
		if !from.has(Place{Piece: piece, Copy: copy, Row: row}) {
			return Place{}, false
		}
		key, ok := t.key(rowKey{from.slot(piece, copy), row})
		if !ok {
			return Place{}, false
		}
		at := Place{Row: key.row}
		at.Piece, at.Copy = to.inSlot(key.slot)
		return at, true
	}
}
