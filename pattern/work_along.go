package pattern

// along works to the bound of the last of its steps, each place with the
// step whose description it answers: "sc in each sc and 3 sc in each ch-2 sp".
func (w *rowWork) along(s *Step, rest []*Step) bool {
	if w.below == nil || w.below.free || w.below.magic && len(w.below.runs) == 0 {
		w.free, w.begun = true, true
		w.leaf(s, 0)
		return true
	}
	w.foundationStart(s.Body[0], &s.Body[0].Target)
	of := make([][]Filter, len(s.Body))
	for i, b := range s.Body {
		of[i] = w.resolve(b, b.Target.Of)
	}
	keep := w.needAtEnd(rest, nil)
	var stop []Filter
	switch b := s.Target.Bound; b.Kind {
	case ToLast:
		keep = b.N.At(w.pr.size)
	case ToPlace:
		stop = w.resolve(s, b.Of)
	}
	w.lastFresh = false
	corner := w.cornerStep(s.Body)
	if groups := w.below.groups(); corner != nil && (groups == 0 || w.below.edged && groups != 4) {
		w.free, w.begun = true, true // where the corners lie only the author knows
		w.leaf(s, 0)
		return true
	}
	var parts corners
	sides, met, turned := sided(s.Body), int64(0), int64(0)
	if sides {
		parts = cornersOf(w.below)
	}
	for !w.ended() {
		w.norm()
		if w.ended() {
			break
		}
		r := &w.below.runs[w.cur.i]
		if corner != nil {
			before := w.toCorner(corner)
			if before == 0 {
				if !w.alongTake(corner, 1) {
					return false
				}
				continue
			}
			if before > 0 {
				w.take(before)
				w.emitEach(s.Body[0], stitchPlace(s.Body[0]), max(1, s.Body[0].N.At(w.pr.size)), before)
				continue
			}
		}
		if stop != nil && w.matches(&r.place, stop) || r.turn && w.tchApart {
			break
		}
		b := chooseStep(w, s.Body, of, corner, &r.place)
		if sides && (r.kind == pSpace || r.kind == pGap) {
			at := parts.at(w.below, w.cur.i)
			if c := sideStep(s.Body, at); c.Target.Of[0].Size == 0 || w.matches(&r.place, c.Target.Of) {
				b = c
			}
			if at {
				turned += w.runLeft()
			} else {
				met += w.runLeft()
			}
		}
		if b == nil {
			w.cur.i, w.cur.off = w.cur.i+1, 0
			continue
		}
		if b.Op == OpInto && len(b.Target.Of) > 0 && b.Target.Of[0].Kind == NamedGroup && r.in {
			if !w.alongGroup(b) {
				return false
			}
			continue
		}
		n := w.runLeft()
		if w.workable(&r.place) {
			if n = min(n, w.left(nil)-keep); n <= 0 {
				break
			}
		}
		if !w.alongTake(b, n) {
			return false
		}
	}
	if sides {
		w.named = true
		return w.sidesTold(s.Body, turned, met)
	}
	return true
}

// alongGroup works one step into the middle of the group at the cursor, and leaves
// the rest of it: "V-st in each V-st and shell in each shell across".
func (w *rowWork) alongGroup(b *Step) bool {
	if !w.step(b) {
		return false
	}
	start, end := w.groupAt(w.cur.i)
	before := w.taken
	w.centreOf(start, end)
	w.take(1)
	w.taken = before + 1
	if !w.inPlace(b, max(1, b.N.At(w.pr.size))) {
		return false
	}
	if w.cur.i < end {
		w.cur = cursor{end, 0}
	}
	w.named = true
	return true
}

// cornerStep is the step of a list that goes into the middle of each corner.
func (w *rowWork) cornerStep(body []*Step) *Step {
	for _, b := range body {
		if b.Target.Which == Centre || len(b.Target.Of) > 0 && b.Target.Of[0].Name == "corner" && !w.below.has(Filter{Kind: Space}) {
			return b
		}
	}
	return nil
}

// toCorner is how many places of the run at the cursor come before the middle
// of the group it belongs to; -1 where that is not in this run, or is passed.
func (w *rowWork) toCorner(s *Step) int64 {
	rs := w.below.runs
	i := w.cur.i
	if !rs[i].in {
		return -1
	}
	start, end := w.groupAt(i)
	mid, of := w.middle(start, end, func(r *run) bool { return r.isStitch() })
	if of < 3 || mid.i != i || mid.off < w.cur.off {
		return -1
	}
	return mid.off - w.cur.off
}

// chooseStep gives the step for a place: the one that names it most exactly, and of two
// that name it alike the first. The step for the middles of the corners goes nowhere else.
func chooseStep(w *rowWork, body []*Step, of [][]Filter, corner *Step, p *place) *Step {
	var found *Step
	best := -1
	for i, b := range body {
		if b == corner && corner.Target.Which == Centre || !w.matches(p, of[i]) {
			continue
		}
		if e := exactness(of[i]); e > best {
			found, best = b, e
		}
	}
	return found
}

// exactness ranks how a step names its places: any stitch, any space (a corner is told
// from the other spaces by what is said of those), or places of one kind and size.
func exactness(of []Filter) int {
	switch {
	case len(of) == 0 || of[0].Kind == AnyStitch:
		return 0
	case of[0].Kind == Space && of[0].Size == 0:
		return 1
	}
	return 2
}

// alongTake works one step into n places at the cursor.
func (w *rowWork) alongTake(b *Step, n int64) bool {
	per := max(1, b.N.At(w.pr.size))
	if b.Op == OpWork {
		if r := w.below.runs[w.cur.i]; r.kind == pSpace && chainwise(b.Target.Of) {
			per *= int64(r.size)
		}
		w.take(n)
		w.emitEach(b, stitchPlace(b), per, n)
		return true
	}
	for ; n > 0; n-- {
		if !w.step(b) {
			return false
		}
		w.take(1)
		if !w.inPlace(b, per) {
			return false
		}
	}
	return true
}
