package pattern

// corners tells the spaces of a round that lie at its corners from those of its sides.
// A corner is made in one place, "(3 dc, ch 2, 3 dc) in sp", and its space is as long
// as any that is so made; only where none is are the longest spaces the corners.
type corners struct {
	size        int32
	grouped     bool
	first, last int // the outermost spaces of the round: the corner it begins with may not be all in one place
}

// cornersOf finds the corners of a round.
func cornersOf(f *fabric) corners {
	c := corners{first: -1, last: -1}
	for i := range f.runs {
		r := &f.runs[i]
		if r.kind != pSpace {
			continue
		}
		if c.last = i; c.first < 0 {
			c.first = i
		}
		switch {
		case r.in && !c.grouped:
			c.grouped, c.size = true, r.size
		case r.in == c.grouped:
			c.size = max(c.size, r.size)
		}
	}
	return c
}

// at reports whether the i-th run of the round is the space of a corner.
func (c corners) at(f *fabric, i int) bool {
	r := &f.runs[i]
	return r.kind == pSpace && r.size == c.size && (r.in || !c.grouped || i == c.first || i == c.last)
}

// sideSpaces is the description of the spaces of the sides: those between groups, or
// the gaps where nothing but gaps lies between them, or else the shorter ones.
func (w *rowWork) sideSpaces(f Filter) (Filter, bool) {
	c := cornersOf(w.below)
	short, other := int32(0), false
	for i := range w.below.runs {
		r := &w.below.runs[i]
		if r.kind != pSpace || c.at(w.below, i) {
			continue
		}
		other = true
		if !r.in {
			return Filter{Kind: Space, Size: f.Size, Name: "between"}, true
		}
		short = r.size
	}
	switch {
	case w.below.gapped(), w.openGaps() && w.below.gapped():
		return Filter{Kind: Space, Name: "between"}, true
	case other:
		return Filter{Kind: Space, Size: int64(short)}, true
	}
	return Filter{Kind: Space}, w.below.has(Filter{Kind: Space})
}

// sided reports whether steps go into the corners and into the sides of a round.
func sided(body []*Step) bool {
	corner, side := false, false
	for _, b := range body {
		corner, side = corner || namesCorners(b), side || namesSides(b)
	}
	return corner && side
}

// sidesTold holds the number of corners that a round says it has, and that of the spaces
// of each side, or of all of them, against those that it has met.
func (w *rowWork) sidesTold(body []*Step, corners, spaces int64) bool {
	c, s := sideStep(body, true), sideStep(body, false)
	if n := c.Target.told.At(w.pr.size); n > 0 && n != corners {
		return w.fail(CodeMisfit, c, 0, "the round below has %s, and not %d", countWords(corners, "corner", "corners"), n)
	}
	n := s.Target.told.At(w.pr.size)
	switch {
	case n == 0 || corners == 0 || spaces == n*corners || spaces == n:
		return true
	case spaces%corners != 0:
		return w.fail(CodeMisfit, s, 0, "%s lie between %s: that is not %d on each side", countWords(spaces, "space", "spaces"), countWords(corners, "corner", "corners"), n)
	}
	return w.fail(CodeMisfit, s, 0, "each side of the round below has %s, and not %d", countWords(spaces/corners, "space", "spaces"), n)
}

// sideStep is the step of a list that goes into the corners, or the one that goes into
// what lies between them.
func sideStep(body []*Step, corner bool) *Step {
	for _, b := range body {
		if corner && namesCorners(b) || !corner && namesSides(b) {
			return b
		}
	}
	return nil
}
