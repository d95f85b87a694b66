package pattern

import "crochet/tallyturn/pattern/stitch"

// settleLoneChange reads a row that says only how often it increases or decreases,
// "Round 3. Increase 6. Total 18.", "Rnd 8: 21 sc (dec 7)": the rest of the row is worked
// plain, and where the changes lie is for the maker to choose. Where so many fill the row
// by themselves, "Rnd 2: inc 6 (12)", they are worked as they stand. Common practice in
// patterns for toys, no source.
func (x *rowReader) settleLoneChange() {
	if !x.afterRows || x.row.Refer != nil {
		return
	}
	only := loneStep(x.row.Steps)
	if only == nil {
		return
	}
	times, sign := changesOf(only)
	if times.N < 1 || times.Span.Empty() || len(times.Sizes) > 0 || !x.saysChange(only) {
		return
	}
	takes, makes := times.N, 2*times.N
	if sign < 0 {
		takes, makes = makes, takes
	}
	if x.countBefore == takes || x.turns() && x.countBefore == takes+1 {
		return // as it stands: the changes fill the row, beside a turning chain that may count
	}
	round := x.row.Kind == Round
	if t := x.row.Total; t != nil {
		if len(t.Parts) != 1 || len(t.Parts[0].N.Sizes) > 0 {
			return
		}
		n := t.Parts[0].N.N
		if n == makes || !(x.countBefore > 0 && n == x.countBefore+int64(sign)*times.N) && !(round && n > makes) {
			return
		}
	} else if !round || x.countBefore < takes {
		return
	}
	times.N *= int64(sign)
	*only = Step{Op: OpDelta, N: times, Stitch: only.Stitch, Span: only.Span, evenly: true}
}

// turns reports whether a chain begins the row.
func (x *rowReader) turns() bool {
	for _, s := range x.row.Steps {
		if s.Op == OpChain {
			return true
		}
	}
	return false
}

// loneStep is the one step of a row that makes stitches, where it is at the top of it and
// nothing else is worked.
func loneStep(steps []*Step) *Step {
	var only *Step
	for _, s := range steps {
		switch {
		case leadsOnly(s) || s.Op == OpFasten || s.Op == OpJoin || s.Op == OpChain && only == nil && s.N.N <= 4:
		case only != nil:
			return nil
		default:
			only = s
		}
	}
	return only
}

// changesOf is how many increases, or decreases, of one stitch a step is, and which.
func changesOf(s *Step) (times Num, sign int) {
	switch {
	case s.Op == OpGroup && s.Times.Kind == Exactly && s.special == nil && s.ending == nil && len(s.Body) == 1:
		if n, sign := changesOf(s.Body[0]); n.N == 1 {
			return s.Times.N, sign
		}
	case s.Op != OpWork || s.special != nil || s.Target.Which != Next || len(s.Target.Of) > 0 || s.Target.Row != nil || stitch.Of(s.Stitch).Kind != stitch.Basic:
	case s.Legs == 2 && s.N.N <= 1:
		return s.Target.N, -1
	case s.Legs == 0 && s.N.N == 2 && len(s.N.Sizes) == 0:
		return s.Target.N, 1
	}
	return Num{}, 0
}

// saysChange reports whether a step is written as an increase or a decrease, and not as
// two stitches in one.
func (x *rowReader) saysChange(s *Step) bool {
	for i := range x.ts {
		if t := &x.ts[i]; int(t.start) >= s.Span.Start && int(t.end) <= s.Span.End && (t.in(changeUp) || t.in(changeDown) || t.isAny("inc", "incs", "dec", "decs")) {
			return true
		}
	}
	return false
}
