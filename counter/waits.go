package counter

// Waits is the row that a copy of a piece is worked onto, where that row is not
// made yet: its piece, copy and row. Pieces may be made in any order but that.
func (s State) Waits(piece, copy int) (Place, bool) {
	p := s.planned()
	if p.proof == nil {
		return Place{}, false
	}
	host, row, ok := p.proof.Host(piece)
	if !ok || p.Copies(host) == 0 {
		return Place{}, false
	}
	// The copies of a piece and those of what it sits on go together.
	at := Place{Piece: host, Copy: min(max(copy, 0), p.Copies(host)-1), Row: row}
	if left, ok := s.PlaceOf(host, at.Copy); !ok || left.Row > row {
		return Place{}, false
	}
	if r, ok := s.Record(host, at.Copy, row); ok && r.Finished {
		return Place{}, false // she has jumped back in it
	}
	return at, true
}
