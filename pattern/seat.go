package pattern

// Host is the row that a piece is worked onto: the piece it belongs to, and its
// place among the rows walked of that, each from 0. It is false for a piece
// that begins by itself, and where the proof was not worked out from a text.
func (p *Proof) Host(piece int) (host, row int, ok bool) {
	if piece < 0 || piece >= len(p.Pieces) || p.Pieces[piece].work == nil || p.Pieces[piece].work.host == nil {
		return 0, 0, false
	}
	use := p.Pieces[piece].work.host
	for i, q := range p.Pieces {
		if i == piece || q.work != use.piece {
			continue
		}
		for _, r := range q.Rows {
			if r.First <= use.number && use.number <= r.Last {
				return i, r.Index + use.number - r.First, true
			}
		}
	}
	return 0, 0, false
}
