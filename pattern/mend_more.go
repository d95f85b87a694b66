package pattern

// A row that ends with a repeat, and leaves as many stitches as the repeat takes,
// has lost one of its times: nobody shapes a piece by that and does not say so.

// onceMoreLeast is how often a repeat is worked at least for that to be sure: of two
// times, the other half of a row may well be left for another day.
const onceMoreLeast = 3

// onceMore is the hint to work the last repeat of a row once more, where the row leaves
// what that takes and the rows after it come out no worse.
func (w *pieceWork) onceMore(ask *mendAsk) (hint string, ok bool) {
	o := &ask.base
	if o.left < 2 || o.fatal != nil || o.rw.misfitLeft > 0 || o.status == Agrees || ask.row != ask.label {
		return "", false
	}
	s := lastWorked(ask.label.Steps)
	if s == nil || s.Op != OpGroup || s.Times.Kind != Exactly && s.Times.Kind != More || s.Times.N.Span.Empty() {
		return "", false
	}
	n := s.Times.N.At(w.pr.size)
	if n < onceMoreLeast {
		return "", false
	}
	for _, at := range numbersOf(s) {
		if at.role != roleTimes {
			continue
		}
		e := w.numberEdit(ask, at, n+1, 1)
		as, more := w.try(ask, ask.label), w.try(ask, e.apply(ask.label))
		was, _ := as.agreeing()
		if now, _ := more.agreeing(); len(more.rows) > 0 && more.rows[0].clean && now >= was {
			return e.text + ": then none is left", true
		}
	}
	return "", false
}

// lastWorked is the last step of a row that works into the row below; nil where
// there is none.
func lastWorked(steps []*Step) *Step {
	for i := len(steps) - 1; i >= 0; i-- {
		switch steps[i].Op {
		case OpTurn, OpNote, OpColour, OpChain:
		default:
			return steps[i]
		}
	}
	return nil
}
