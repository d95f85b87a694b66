package pattern

// Sits is where a piece is worked onto another, nil where it is not.
func (p *PieceProof) Sits() *Placing {
	if p.work == nil {
		return nil
	}
	return placingOf(p.work.host)
}
