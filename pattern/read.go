package pattern

// Read turns a written pattern into a tree. It takes any text at all.
func Read(text string) *Pattern {
	return &Pattern{Source: NewSource(text)}
}

// Prove works the pattern.
func (p *Pattern) Prove(o Options) *Proof {
	return &Proof{Pattern: p, Size: o.Size}
}

// Words cuts a row's text, with the setup before it, at its instructions, in
// the order they stand. The text is on one line and free of control bytes.
func (p *Proof) Words(r *RowProof) []Word { return nil }
