package pattern

// inPassOrder makes the places of the repeats among steps the next ones where they are counted
// afresh in each pass: "*sc in the first st, 2 sc in the second; repeat from *", "3 sc, 2 sc in
// the 4th". Places of the row itself cannot come again.
func inPassOrder(steps []*Step) {
	for _, g := range steps {
		if g.Op != OpGroup {
			continue
		}
		if g.Times.Kind != Once && g.special == nil && countedInOrder(g.Body) {
			for i, s := range g.Body {
				if s.Target.Which == First || s.Target.Which == Nth {
					g.Body[i] = intoNext(s)
				}
			}
		}
		inPassOrder(g.Body)
	}
}

// intoNext is the step worked into the place that comes next.
func intoNext(s *Step) *Step {
	next := *s
	if next.Target.Which == Nth {
		next.Target.N = Num{N: 1, Span: s.Target.N.Span}
	}
	next.Target.Which = Next
	return &next
}

// inRowOrder does the same for places that a row counts from its first on, with nothing
// between them: "sc in the first st, 2 sc in the 2nd". Behind chains the number says how far
// on a place is: "dc in first st, ch 1, dc in 2nd st".
func inRowOrder(steps []*Step) {
	i := 0
	for i < len(steps) && (steps[i].Op == OpChain || leadsOnly(steps[i])) {
		i++
	}
	if i == len(steps) || steps[i].Target.Which != First {
		return
	}
	place := max(steps[i].Target.N.N, 1)
	for i++; i < len(steps); i++ {
		s := steps[i]
		if place++; s.Op != OpWork || s.Target.Which != Nth || s.Target.N.N != place || s.Target.Within != nil || s.Target.Row != nil {
			return
		}
		steps[i] = intoNext(s)
	}
}

// countedInOrder reports whether steps name the places they take one after the other by their
// number or from the first on, up to the second at least.
func countedInOrder(steps []*Step) bool {
	place, first, named := int64(0), false, false
	for _, s := range steps {
		t := &s.Target
		switch {
		case s.Op == OpNote, s.Op == OpChain, s.Op == OpPicot, s.Op == OpColour, t.Which == Same:
			continue
		case s.Op != OpWork && s.Op != OpInto && s.Op != OpSkip, t.Row != nil, t.Within != nil, t.Bound.Kind != NoBound, len(t.N.Sizes) > 0, !stitchesOnly(t.Of):
			return false
		}
		place++
		switch t.Which {
		case First:
			if place != 1 {
				return false
			}
			place, first = max(t.N.N, 1), true
		case Nth:
			if t.N.N != place {
				return false
			}
			named = named || place > 1
		case Next:
			place += max(t.N.N, 1)*max(int64(s.Legs), 1) - 1
			named = named || first
		default:
			return false
		}
	}
	return named
}
