package pattern

// firstAmiss makes an error of the first warning in a piece that is one of
// count: a repeat that does not come out, stitches passed over that nobody
// skips. All before it came out to the stitch, so that it is no reading gone
// astray that they show, and nothing can be meant by them but that a number is
// wrong. Where something was amiss before, in words or in number, they stay
// warnings: they may only follow from it.
func (pr *prover) firstAmiss(w *pieceWork, found int) {
	first := -1
	for i := found; i < len(pr.out); i++ {
		f := &pr.out[i]
		if f.Severity == Note && f.Code != CodeTrusted && f.Code != CodeUnread && f.Code != CodeMeasure {
			continue
		}
		if first < 0 || f.Span.Start < pr.out[first].Span.Start {
			first = i
		}
	}
	if first < 0 || pr.out[first].Severity != Warning {
		return
	}
	for i := range pr.out {
		// what was taken for a stitch that is nowhere defined is a guess
		if o := &pr.out[i]; o.Code == CodeUndefined && w.piece.Rows[0].Span.Start <= o.Span.Start && o.Span.Start <= pr.out[first].Span.Start {
			return
		}
	}
	switch f := &pr.out[first]; f.Code {
	case CodeMisfit, CodeStepped:
		for _, r := range w.proof.Rows {
			if r.Row.Span.Contains(f.Span) && r.Status == Agrees {
				return // it has the number that it states
			}
		}
		f.Severity = Error
		for _, r := range w.proof.Rows {
			if r.Row.Span.Contains(f.Span) && r.Status == Unstated {
				r.Status = Differs
			}
		}
	}
}
