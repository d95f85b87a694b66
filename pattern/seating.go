package pattern

// Sits is where a piece is worked onto another, nil where it is not.
func (p *PieceProof) Sits() *Placing {
	if p.work == nil {
		return nil
	}
	return placingOf(p.work.host)
}

// Foundation is how many chains the first row of a piece is worked into; 0
// where it begins otherwise.
func (p *PieceProof) Foundation() int64 {
	if p.work == nil {
		return 0
	}
	return p.work.foundation
}
