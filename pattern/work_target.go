package pattern

import "crochet/tallyturn/pattern/stitch"

// stitchPlace is the place that a stitch makes.
func stitchPlace(s *Step) place {
	p := place{stitch: s.Stitch, name: s.Name}
	if s.special != nil && s.special.Body == nil {
		p.name = s.special.Names[0]
		if s.Stitch == stitch.Special && s.special.Stitch != stitch.None {
			p.stitch = s.special.Stitch
		}
	}
	return p
}

// work puts stitches into places.
func (w *rowWork) work(s *Step, rest []*Step) bool {
	t := &s.Target
	per := s.N.At(w.pr.size)
	p := stitchPlace(s)
	if stitch.Of(s.Stitch).Kind == stitch.Foundation {
		n := per
		if t.Which == Next && !t.said {
			n = t.N.At(w.pr.size) * per
		}
		w.emit(s, p, n)
		return true
	}
	if s.Stitch == stitch.Slip {
		return w.slip(s, rest)
	}
	if w.below == nil {
		w.below = &fabric{free: true}
		if !t.said || t.Which == InRing {
			w.below = &fabric{ring: true, magic: true}
		}
	}
	if w.own != nil && t.Which != FromHook && w.ownLeft() {
		return w.workOwn(s, rest)
	}
	w.foundationStart(s, t)
	if w.aboutClosing(t) {
		return w.same(&Step{Op: OpWork, Span: s.Span, N: s.N, Stitch: s.Stitch, Target: Target{Which: Same, Of: []Filter{{Kind: Space}}, Span: t.Span}}, p, per)
	}
	switch t.Which {
	case InRing:
		w.ringWork(s, p, per)
		return true
	case Same:
		return w.same(s, p, per)
	case Each:
		return w.eachAs(s, s, rest)
	case First:
		return w.first(s, p, per)
	case Last:
		return w.lastPlaces(s, p, per)
	case Nth:
		return w.nth(s, p, per)
	case FromHook:
		return w.fromHook(s, rest)
	case TurnTop:
		return w.turnTop(s, p, per)
	case Between:
		return w.between(s, p, per)
	case SkippedOne:
		w.skipped = max(0, w.skipped-t.N.At(w.pr.size))
		w.taken += t.N.At(w.pr.size)
		w.emit(s, p, mul(per, max(1, t.N.At(w.pr.size))))
		return true
	case Centre:
		return w.centre(s, p, per)
	case Unworked:
		return w.unworked(s, p, per)
	case RowEnds:
		w.free = true
		w.elsewhere = true
		w.begun = true
		w.leaf(s, 0)
		return true
	}
	if t.Row != nil && !w.rowBelow(t.Row) {
		// worked into another row or piece: it makes its stitches and takes
		// nothing here
		w.elsewhere = true
		w.emit(s, p, mul(per, max(1, t.N.At(w.pr.size))))
		return true
	}
	return w.next(s, p, per)
}

// aboutClosing reports whether the first stitch of a round goes about the tall
// stitch that closed the round below, which is in its last loop: "ch 1, sc
// around the post of dc".
func (w *rowWork) aboutClosing(t *Target) bool {
	return w.kind == Round && !w.begun && w.below.closed != stitch.None && t.Which != Same && t.N.At(w.pr.size) <= 1 && t.Bound.Kind == NoBound &&
		len(t.Of) == 1 && t.Of[0].Kind == OneStitch && t.Of[0].Stitch == w.below.closed && !w.below.has(t.Of[0])
}

// rowBelow reports whether a named row is the one being worked into.
func (w *rowWork) rowBelow(r *RowRef) bool {
	if r.Piece != "" && r.Piece != w.pc.piece.Name {
		return w.host != nil && w.host.piece != nil && w.host.piece.piece.Name == r.Piece
	}
	return r.Number == 0 || r.At(w.pr.size) == w.pc.belowNumber || w.host != nil
}

// besideThis reports whether a place is on another motif that this one is
// joined to as it is worked.
func (w *rowWork) besideThis(r *RowRef) bool {
	return r != nil && r.Piece != "" && w.workedYet() && w.host == nil && !w.rowBelow(r)
}

// ringWork works into the ring, which takes any number.
func (w *rowWork) ringWork(s *Step, p place, per int64) {
	n := per
	if s.Target.N.At(w.pr.size) > 1 {
		n = mul(n, s.Target.N.At(w.pr.size))
	}
	if w.below.ring {
		w.cur = cursor{i: len(w.below.runs)}
	}
	w.named = true
	w.emit(s, p, n)
}

// next works into the next N places that answer.
func (w *rowWork) next(s *Step, p place, per int64) bool {
	t := &s.Target
	n := t.N.At(w.pr.size)
	if n == 0 && !t.N.Span.Empty() {
		w.leaf(s, 0)
		return true // "work 0 (1, 1) sc": none in this size
	}
	n = max(n, 1)
	if s.bare && t.said && w.opts.has(optOneEach) {
		per = 1
	}
	if s.bare && !t.said && !s.plainFirst() && w.opts.has(optBareInc) {
		per, n = n, 1
	}
	if w.below.magic && len(w.below.runs) == 0 || w.below.ring && !t.said && !w.begun && w.cur == (cursor{}) && w.below.size() < n {
		w.cur = cursor{i: len(w.below.runs)}
		w.named = true
		w.emit(s, p, mul(per, n))
		return true
	}
	if w.below.free {
		w.emitEach(s, p, per, n) // groups are told apart whatever they stand on
		return true
	}
	if w.besideStitches(t) {
		w.free = true
		w.emitEach(s, p, per, n)
		return true
	}
	of := w.resolve(s, t.Of)
	w.leaveTravelled(t)
	if t.Within != nil && t.Within.Kind == NamedGroup {
		return w.within(s, p, per, of)
	}
	legs := int64(max(s.Legs, 1))
	w.lastFresh = false
	if s.plainFirst() && w.opts.has(optPlainFirst) {
		for n > 0 {
			got := w.takeLegs(s, of, 1, n)
			if got < 0 {
				return w.overrun(s, n, 1)
			}
			w.emitEach(s, p, 1, got)
			n -= got
		}
		n = 1
	}
	for n > 0 {
		got := w.takeLegs(s, of, legs, n)
		if got < 0 {
			if w.slack > 0 {
				w.slack--
				w.emit(s, p, per)
				n--
				continue
			}
			if w.edged && w.kind == Round && t.Bound.Kind == NoBound {
				w.below = &fabric{free: true} // the edges of the piece are not all in the row below
				w.emit(s, p, mul(per, n))
				return true
			}
			return w.overrun(s, n, legs)
		}
		w.emitEach(s, p, per, got)
		n -= got
	}
	w.named = len(t.Of) > 0 && t.Of[0].Kind != AnyStitch && t.Of[0].Kind != OneStitch && t.Of[0].Kind != ChainStitch
	return true
}

// shapes reports whether a step increases or decreases.
func (s *Step) shapes() bool { return s.Op == OpWork && (s.Legs > 1 || s.N.N > 1) }

// plainFirst reports whether a number before a step may be one of plain
// stitches: "(6 dec) 3 times".
func (s *Step) plainFirst() bool { return s.bare && !s.Target.said && s.shapes() }

// usedByNumber reports whether a number of places written out, "in next 5 sts", took the
// last place that was worked: what is told for that place has none.
func (w *rowWork) usedByNumber() bool {
	b := w.by
	return b != nil && b.Op == OpWork && b.Target.Which == Next && b.Target.said && b.Target.N.At(w.pr.size) > 1 && w.slack == 0
}

// turnCounted reports whether the turning chain of the row below stands in it as a stitch.
func (w *rowWork) turnCounted() bool {
	n := len(w.below.runs)
	return n > 0 && (w.below.runs[n-1].turn && w.below.runs[n-1].counts() || w.below.runs[0].turn && w.below.runs[0].counts())
}

// leaveTravelled steps off the place that slip stitches went to, where the
// first stitch is told to go into the next one.
func (w *rowWork) leaveTravelled(t *Target) {
	if w.travelled && w.lastFresh && !t.plain && !w.allFromHere(t) {
		w.cur.off++
		w.norm()
	}
	w.travelled = false
}

// allFromHere reports whether a number of spaces is all that there are with the one
// that slip stitches went to: "sl st into loop, (2 sc, ch 4, 2 sc) in each of the 6
// loops".
func (w *rowWork) allFromHere(t *Target) bool {
	n := t.N.At(w.pr.size)
	return n > 1 && len(t.Of) == 1 && t.Of[0].Kind == Space && !w.ended() && w.matches(&w.below.runs[w.cur.i].place, t.Of) && w.left(t.Of) == n
}

// overrun says that a step needs more places than there are.
func (w *rowWork) overrun(s *Step, n, legs int64) bool {
	need := n * legs
	one, many := w.units(s.Target.Of)
	return w.fail(CodeOverrun, s, need, "%s needed here than the row below has (%s)", countWords(need, one+" more is", many+" more are"), w.offersOf(s.Target.Of))
}

// takeLegs takes places for up to n stitches of so many legs, all from one
// run where it can, and gives for how many stitches; -1 where there are none.
func (w *rowWork) takeLegs(s *Step, of []Filter, legs, n int64) int64 {
	stepped, inGroup, ok := w.seek(of)
	if !ok {
		return -1
	}
	if stepped > 0 && !inGroup && s.Op == OpWork && len(of) == 1 && of[0].Kind == OneStitch && !w.named {
		w.passed += stepped
		w.stepOver(s, stepped)
	}
	if avail := w.runLeft(); avail >= legs {
		k := min(n, avail/legs)
		if legs == 1 && w.below.runs[w.cur.i].kind == pSpace && len(of) > 0 && of[0].Kind == ChainStitch {
			return w.takeChains(n)
		}
		w.take(k * legs)
		return k
	}
	// legs in places of different kinds
	for leg := int64(0); leg < legs; leg++ {
		if _, _, ok := w.seek(of); !ok {
			if leg > 0 {
				return -1
			}
			return -1
		}
		w.take(1)
	}
	return 1
}

// takeChains takes single chains out of a space, "in next 3 ch".
func (w *rowWork) takeChains(n int64) int64 {
	r := &w.below.runs[w.cur.i]
	k := min(n, int64(r.size))
	if int64(r.size) > k && n < int64(r.size) {
		// the rest of the space stays behind; the next stitch passes it
		w.take(1)
		w.taken += k - 1
		return k
	}
	w.take(1)
	w.taken += k - 1
	return k
}

// stepOver warns that stitches were passed in silence.
func (w *rowWork) stepOver(s *Step, n int64) {
	w.warn(CodeStepped, s, "%s passed over to reach the next %s, and no skip is written", countWords(n, "stitch is", "stitches are"), s.Target.Of[0].Stitch.Name(w.pr.terms))
	w.problems[len(w.problems)-1].hint = w.pr.skipHint(n)
}

// resolve finds what a description can mean on this row: where nothing
// answers it, the nearest thing that does.
func (w *rowWork) resolve(s *Step, of []Filter) []Filter {
	if len(of) == 0 {
		if len(w.below.runs) > 0 && !w.below.anyStitch() && w.below.has(Filter{Kind: Space}) {
			return []Filter{{Kind: Space}} // nothing but spaces: "in next st" must be one
		}
		return nil
	}
	out := of
	copied := false
	set := func(i int, f Filter) {
		if !copied {
			out, copied = append([]Filter(nil), of...), true
		}
		out[i] = f
	}
	for i, f := range of {
		if f.Name == spine {
			if _, at, ok := w.spineOf(f.Size); ok {
				set(i, at)
				continue
			}
		}
		if w.below.has(f) || w.below.free {
			continue
		}
		w.pr.spend(len(w.below.runs) / 16)
		if w.below.bare && (f.Kind == Space || f.Kind == NamedGroup || f.Kind == AnyCluster || f.Kind == PicotPlace) {
			w.free = true // what stands among the stitches of that row nobody knows
		}
		switch f.Kind {
		case OneStitch:
			if w.below.anyStitch() {
				set(i, Filter{Kind: AnyStitch})
			}
		case Space:
			switch {
			case f.Name == sideSpace:
				if side, ok := w.sideSpaces(f); ok {
					set(i, side)
				} else if w.below.anyStitch() {
					set(i, Filter{Kind: AnyStitch})
				}
			case f.Name == "gap" && w.openGaps():
			case f.Name == "gap" && w.below.has(Filter{Kind: Space}):
				set(i, Filter{Kind: Space})
			case w.below.chain:
				set(i, Filter{Kind: ChainStitch}) // the loops of a foundation
			case f.Size > 0 && w.below.has(Filter{Kind: Space}):
				set(i, Filter{Kind: Space})
				w.warn(CodeNoPlace, s, "the row below has no ch-%d space; it has %s", f.Size, w.spaceWords())
				w.problems[len(w.problems)-1].hint = "it was worked into those; name them as the row below makes them"
			case f.Size > 0 && w.below.has(Filter{Kind: ChainStitch}):
				set(i, Filter{Kind: ChainStitch})
			case (f.Name == "corner" || f.Name == spine) && w.below.has(Filter{Kind: Space}):
				set(i, Filter{Kind: Space})
			case f.Name == "corner", f.Name == spine:
				set(i, Filter{Kind: AnyStitch})
			case f.Name == "between" && w.openGaps() && w.below.has(f):
			case f.Name == "between" && w.below.has(Filter{Kind: Space}):
				set(i, Filter{Kind: Space})
			default:
				if w.below.ring && f.Name == "loop" {
					return of
				}
				if w.openGaps() {
				} else if f.Name == "gap" {
					set(i, Filter{Kind: AnyStitch}) // as many gaps as stitches
				} else if w.below.anyStitch() {
					set(i, Filter{Kind: AnyStitch})
					if len(of) == 1 {
						w.warn(CodeNoPlace, s, "the row below has no chain spaces; it was worked into its stitches")
					}
				}
			}
		case ChainStitch:
			if w.below.has(Filter{Kind: AnyStitch}) {
				set(i, Filter{Kind: AnyStitch})
			}
		case NamedGroup:
			switch {
			case w.below.has(Filter{Kind: NamedGroup, Name: "group"}):
				set(i, Filter{Kind: NamedGroup, Name: "group"})
			case w.below.has(Filter{Kind: Space}):
				set(i, Filter{Kind: Space})
			default:
				set(i, Filter{Kind: AnyStitch})
			}
		case AnyCluster, PicotPlace:
			set(i, Filter{Kind: AnyStitch})
		}
	}
	return out
}

// spaceWords lists the sizes of the spaces of the row below.
func (w *rowWork) spaceWords() string {
	var sizes []int64
	for _, r := range w.below.runs {
		if r.kind != pSpace {
			continue
		}
		seen := false
		for _, s := range sizes {
			seen = seen || s == int64(r.size)
		}
		if !seen && len(sizes) < 4 {
			sizes = append(sizes, int64(r.size))
		}
	}
	out := ""
	for i, s := range sizes {
		if i > 0 {
			out += " and "
		}
		out += "ch-" + itoa(s)
	}
	return out + " spaces"
}

// same works again where the last stitch went.
func (w *rowWork) same(s *Step, p place, per int64) bool {
	if w.below.ring && !w.lastSet && !w.begun && s.Target.plain {
		w.ringWork(s, p, per) // "join to a ring, 8 sc in it"
		return true
	}
	if !w.lastSet && w.kind == Round && len(s.Target.Of) > 0 && s.Target.Of[0].Kind == Space {
		// "in same loop" at the start: the loop that the round was closed with
		for i := len(w.below.runs) - 1; i >= 0; i-- {
			if w.below.runs[i].kind == pSpace {
				w.rotate(cursor{i, 0})
				w.take(1)
				w.travelled = false
				w.emit(s, p, per)
				return true
			}
		}
	}
	if w.lastFresh || !w.lastSet {
		if !w.ended() && w.lastFresh {
			w.take(1)
		} else if _, _, ok := w.seek(nil); ok {
			w.take(1)
		}
	} else if w.begun && !w.groupOpen() && per+1 >= 2 && stitch.Of(s.Stitch).Turn >= 2 {
		w.openGroup()
	}
	n := per
	if s.Legs > 0 {
		// "dc2tog in same st": a cluster there
		n = 1
		if s.Target.N.At(w.pr.size) > 1 {
			n = s.Target.N.At(w.pr.size)
		}
		if s.N.At(w.pr.size) > 1 {
			n = s.N.At(w.pr.size)
		}
	} else if s.Target.N.At(w.pr.size) > 1 {
		n = mul(n, s.Target.N.At(w.pr.size))
	}
	p.in = w.groupOpen()
	w.emit(s, p, n)
	return true
}

// groupOpen reports whether the last stitch made is part of a group.
func (w *rowWork) groupOpen() bool {
	k := len(w.out.runs)
	return k > 0 && w.out.runs[k-1].in
}

// openGroup makes the last stitch the first of a group.
func (w *rowWork) openGroup() {
	k := len(w.out.runs)
	if k == 0 || w.out.runs[k-1].kind != pStitch {
		return
	}
	r := w.out.runs[k-1]
	if r.n > 1 {
		w.out.runs[k-1].n--
		r.n = 1
		r.first, r.in = true, true
		w.out.runs = append(w.out.runs, r)
		return
	}
	w.out.runs[k-1].first, w.out.runs[k-1].in = true, true
}

// first works into the first place of the row.
func (w *rowWork) first(s *Step, p place, per int64) bool {
	n := max(1, s.Target.N.At(w.pr.size))
	of := w.resolve(s, s.Target.Of)
	if s.Legs > 0 {
		c := *s
		c.Target.N = Num{N: max(1, n/int64(s.Legs))}
		c.Target.Which = Next
		return w.next(&c, p, per)
	}
	if w.stands && n == 1 && w.taken <= 1 {
		if len(of) > 0 && of[0].Kind == Space {
			return w.next(s, p, per)
		}
		if stitch.Of(s.Stitch).Turn >= 2 && !w.groupOpen() {
			w.openGroup()
			p.in = true
		}
		w.emit(s, p, per)
		return true
	}
	if (w.taken > 0 || w.below.ring) && w.begun && n == 1 && (w.ended() || w.left(of) == 0) {
		if w.below.free {
			w.emitEach(s, p, per, 1) // the first of another edge
			return true
		}
		// back into the first place: the end of a round
		w.emit(s, p, per)
		return true
	}
	return w.next(s, p, per)
}

// lastPlaces works into the last N places of the row.
func (w *rowWork) lastPlaces(s *Step, p place, per int64) bool {
	n := max(1, s.Target.N.At(w.pr.size))
	if w.below.free {
		w.emitEach(s, p, per, n)
		return true
	}
	of := w.resolve(s, s.Target.Of)
	if s.Target.here && s.Legs == 0 && w.partAhead(&s.Target, of) {
		return w.within(s, p, per, of)
	}
	legs := int64(max(s.Legs, 1))
	if s.Legs > 0 {
		n = max(n, legs)
	}
	if len(of) > 0 && of[0].Kind == AnyStitch {
		of = nil
	}
	stepped, ok := w.seekLast(n, of)
	if !ok && len(of) > 0 && of[0].Kind == OneStitch {
		of = nil
		stepped, ok = w.seekLast(n, nil)
	}
	if !ok {
		if w.left(of) == 0 && w.begun && n == 1 && s.Legs == 0 {
			// more into the place that was worked last, unless a number of
			// places written out has used it up
			if w.usedByNumber() {
				return w.overrun(s, n, 1)
			}
			w.slack = max(0, w.slack-1)
			w.reached0 += beyond
			w.emit(s, p, per)
			return true
		}
		return w.overrun(s, n, 1)
	}
	if stepped > 0 && (!w.named || len(s.Target.Of) == 0 && !w.below.gapped()) {
		w.passed += stepped
	}
	made := n / legs
	w.lastFresh = false
	for left := n; left > 0; {
		if _, _, ok := w.seek(of); !ok {
			break
		}
		k := min(left, w.runLeft())
		w.take(k)
		left -= k
	}
	w.named = len(of) > 0 && of[0].Kind != OneStitch && of[0].Kind != ChainStitch
	w.emitEach(s, p, per, made)
	return true
}

// nth works into the N-th place of the row.
func (w *rowWork) nth(s *Step, p place, per int64) bool {
	n := s.Target.N.At(w.pr.size)
	of := w.resolve(s, s.Target.Of)
	if s.Target.Within != nil && s.Target.Within.Kind == NamedGroup {
		return w.within(s, p, per, of)
	}
	if in := s.Target.Within; in != nil && in.Kind == Space && w.below.has(Filter{Kind: Space}) {
		c := *s // a chain of the next loop: the loop is what it takes
		c.Target = Target{Which: Next, N: Num{N: 1}, Of: []Filter{*in}, said: true, Span: s.Target.Span}
		return w.next(&c, p, per)
	}
	if w.below.chain && !w.begun {
		return w.fromHook(s, nil) // "in 2nd ch", the hook understood
	}
	if w.below.free {
		w.emitEach(s, p, per, 1)
		return true
	}
	if w.cur == (cursor{}) || !w.begun || w.stands && w.taken <= 1 {
		if !w.absolute(n, of) {
			return w.fail(CodeOverrun, s, n, "there is no %s stitch in the row below: it has %s", ordinal(n), w.offers())
		}
	} else {
		for k := int64(1); k < n; k++ {
			if _, _, ok := w.seek(of); !ok {
				return w.overrun(s, 1, 1)
			}
			w.cur.off++
			w.skipped++
			w.norm()
		}
	}
	if w.ended() {
		return w.overrun(s, 1, 1)
	}
	w.take(int64(max(1, s.Legs)))
	w.named = len(of) > 0 && of[0].Kind == Space
	w.emit(s, p, per)
	return true
}

// turnTop works into the top of the turning chain of the row below, or into
// a chain of the next loop: "in 3rd ch of ch-5".
func (w *rowWork) turnTop(s *Step, p place, per int64) bool {
	if w.below.free {
		w.emitEach(s, p, per, 1)
		return true
	}
	c := w.cur
	for i := c.i; i < len(w.below.runs); i++ {
		if r := &w.below.runs[i]; r.turn {
			if of := s.Target.Within; of == nil || of.Size == 0 || int64(r.size) == of.Size || !w.below.has(*of) {
				between := int64(0)
				for j := c.i; j < i; j++ {
					if w.below.runs[j].counts() && !w.below.runs[j].in {
						between += w.below.runs[j].n
					}
				}
				if j := c.i; j < i && w.below.runs[j].counts() && !w.below.runs[j].in {
					between -= c.off
				}
				if between > 0 && !w.named {
					w.passed += between
				}
				w.cur = cursor{i, w.below.runs[i].n - 1}
				w.take(1)
				w.emit(s, p, per)
				return true
			}
		}
	}
	if of := s.Target.Within; of != nil {
		if _, _, ok := w.seek([]Filter{*of}); ok {
			w.take(1)
			w.named = true
			w.emit(s, p, per)
			return true
		}
	}
	// the turning chain does not count as the pattern is read: yet it is
	// worked into, which says that it does
	if _, _, ok := w.seek(nil); ok && w.left(nil) >= 1 {
		if w.left(nil) > 1 {
			w.passed += w.left(nil) - 1
			w.seekLast(1, nil)
		}
		w.take(1)
		w.emit(s, p, per)
		return true
	}
	if w.turnCounted() && w.usedByNumber() {
		return w.overrun(s, 1, 1)
	}
	w.warn(CodeNoPlace, s, "the turning chain of the row below does not count as a stitch, and is worked into")
	w.problems[len(w.problems)-1].hint = "if it counts, say so where it is made: \"(counts as a st)\""
	w.emit(s, p, per)
	return true
}

// turnAhead reports whether a turning chain that the row names apart is still to be worked.
func (w *rowWork) turnAhead() bool {
	last := len(w.below.runs) - 1
	return w.tchApart && last >= w.cur.i && w.below.runs[last].turn && !(last == w.cur.i && w.cur.off >= w.below.runs[last].n)
}

// between works into the gap before the next place.
func (w *rowWork) between(s *Step, p place, per int64) bool {
	n := max(1, s.Target.N.At(w.pr.size))
	if len(s.Target.Of) > 0 && s.Target.Of[0].Kind == NamedGroup || n == 1 {
		w.openGaps()
		if _, _, ok := w.seek([]Filter{{Kind: Space}}); ok {
			w.take(1)
			w.named = true
			w.emitEach(s, p, per, 1)
			return true
		}
	}
	if n == 2 && w.cur.off+w.cur2() > 0 && !w.ended() {
		w.cur.off++
		w.norm()
	}
	w.named = true
	w.emitEach(s, p, per, 1)
	return true
}

func (w *rowWork) cur2() int64 { return int64(w.cur.i) + 1 }

// openGaps makes places of the gaps between the groups of the row below, once.
func (w *rowWork) openGaps() bool {
	g := w.below.withGaps()
	if n := len(g.runs); w.kind == Round && n > len(w.below.runs) && g.runs[0].first && g.runs[n-1].in {
		g.runs = append(g.runs, run{place{kind: pGap}, 1}) // where the round closes
	}
	if len(g.runs) == len(w.below.runs) {
		return w.below.has(Filter{Kind: Space})
	}
	at := 0
	for i := 0; i < w.cur.i && at < len(g.runs); at++ {
		if g.runs[at].kind != pGap {
			i++
		}
	}
	w.below, w.cur.i = g, at
	return true
}

// besideStitches reports a space of a row of which only the number of stitches is known,
// in a row that is told in numbers: it stands between stitches, and is none of them.
func (w *rowWork) besideStitches(t *Target) bool {
	return w.below.bare && t.Which == Next && len(t.Of) == 1 && t.Of[0].Kind == Space && t.Of[0].Name == "" && t.Within == nil && !w.below.has(t.Of[0]) && !anyFill(w.row.Steps)
}

// anyFill reports whether steps are worked as often as there is room.
func anyFill(steps []*Step) bool {
	for _, s := range steps {
		if s.Op == OpGroup && s.Times.Kind == Fill || s.Target.Which == Each || s.Op == OpGroup && anyFill(s.Body) {
			return true
		}
	}
	return false
}

// centre works into the middle of the next group.
func (w *rowWork) centre(s *Step, p place, per int64) bool {
	if !w.toCentre(s) {
		if w.below.bare {
			w.free, w.begun = true, true
			w.leaf(s, 0)
			return true
		}
		return w.overrun(s, 1, 1)
	}
	n := max(1, s.Target.N.At(w.pr.size))
	w.take(min(1, w.runLeft()))
	w.named = true
	w.emitEach(s, p, mul(per, n), 1)
	if s.Target.Bound.Kind == ToEnd {
		for w.toCentre(s) {
			w.take(1)
			w.emitEach(s, p, mul(per, n), 1)
		}
	}
	return true
}

// toCentre moves to the middle of the next group of places.
func (w *rowWork) toCentre(s *Step) bool {
	w.norm()
	if w.below.free {
		return false
	}
	if w.cur == w.hopped && w.atMiddle() {
		return true // "skip 2 sts, dc in centre tr": so far and no farther
	}
	if named := s.Target.Of; len(named) == 1 && named[0].Kind == Space && w.nest == 0 && s.Target.Bound.Kind == NoBound && s.Target.Within == nil && w.kind == FlatRow {
		if w.toSpine(named[0]) {
			return true
		}
		if named[0].Name == spine {
			return w.toMiddle(nil)
		}
	}
	at := w.cur
	if s.Target.first {
		w.cur = cursor{} // the first stitch of it may have been used
	} else if w.midway() {
		w.cur.off = 0 // its first stitches were met on the way to its centre
		for !w.below.runs[w.cur.i].first && w.cur.i > 0 {
			w.cur.i--
		}
	}
	start, end, ok := w.nextGroup(s.Target.Of)
	w.cur = at
	if !ok {
		return w.toMiddle(s.Target.Of)
	}
	if rs := w.below.runs; w.rotated && end == len(rs) && start > 0 && rs[0].in && !rs[0].first {
		return false // the beginning of the group the round starts in
	}
	// a space in the middle of a group is its centre
	want := Filter{Kind: AnyStitch}
	if len(s.Target.Of) > 0 && s.Target.Of[0].Kind == Space {
		want = Filter{Kind: Space}
	}
	mid, of := w.middle(start, end, func(r *run) bool { return want.match(&r.place) })
	if of == 0 {
		return false
	}
	w.cur = mid
	return true
}

// midway reports whether the stitch just made went into a group whose middle is
// still to come: the next centre is that of this group.
func (w *rowWork) midway() bool {
	rs := w.below.runs
	if w.pending > 0 || !w.begun || w.ended() || !rs[w.cur.i].in || rs[w.cur.i].first && w.cur.off == 0 {
		return false
	}
	start, end := w.groupAt(w.cur.i)
	mid, of := w.middle(start, end, func(r *run) bool { return r.isStitch() })
	return of >= 3 && rs[start].first && (mid.i > w.cur.i || mid.i == w.cur.i && mid.off >= w.cur.off)
}

// atMiddle reports whether the stitch that comes next is the middle of its group.
func (w *rowWork) atMiddle() bool {
	if w.ended() || w.cur == (cursor{}) {
		return false
	}
	if w.kind == FlatRow && w.below.runs[w.cur.i].turn && w.left(nil) == 1 && w.cur.i > 0 && w.below.runs[w.cur.i-1].in {
		return true // of the half of a group that ends the row, which a chain began
	}
	if !w.below.runs[w.cur.i].in {
		return false
	}
	start, end := w.groupAt(w.cur.i)
	mid, of := w.middle(start, end, func(r *run) bool { return r.isStitch() })
	return of >= 3 && of%2 == 1 && mid == w.cur
}

// groupAt is where the group begins and ends that the run at i is in.
func (w *rowWork) groupAt(i int) (start, end int) {
	rs := w.below.runs
	for start = i; start > 0 && !rs[start].first && rs[start-1].in; start-- {
	}
	for end = i + 1; end < len(rs) && rs[end].in && !rs[end].first; end++ {
	}
	return start, end
}

// middle finds the middle one of the places meant among the runs from start to
// end, and how many of them there are.
func (w *rowWork) middle(start, end int, meant func(*run) bool) (at cursor, of int64) {
	for i := start; i < end; i++ {
		if r := &w.below.runs[i]; meant(r) {
			of += r.n
		}
	}
	left := (of - 1) / 2
	for i := start; i < end; i++ {
		r := &w.below.runs[i]
		if !meant(r) {
			continue
		}
		if left < r.n {
			return cursor{i, left}, of
		}
		left -= r.n
	}
	return cursor{}, of
}

// toMiddle moves to the stitch, or the space, in the middle of the whole row,
// where it has one that answers and is not yet passed.
func (w *rowWork) toMiddle(of []Filter) bool {
	space := len(of) > 0 && of[0].Kind == Space
	mid, total := w.middle(0, len(w.below.runs), func(r *run) bool {
		if space {
			return r.kind == pSpace
		}
		return r.counts() || r.kind == pChain
	})
	if total%2 == 0 || mid.i < w.cur.i || mid.i == w.cur.i && mid.off < w.cur.off || len(of) > 0 && !w.matches(&w.below.runs[mid.i].place, of) {
		return false
	}
	w.cur = mid
	return true
}

// nextGroup finds the runs of the next group: things worked into one place,
// or else neighbours between spaces.
func (w *rowWork) nextGroup(of []Filter) (start, end int, ok bool) {
	rs := w.below.runs
	grouped := w.below.has(Filter{Kind: NamedGroup, Name: "group"})
	i := w.cur.i
	if w.cur.off > 0 || i < len(rs) && rs[i].in && !rs[i].first {
		// finish the group the last stitch went into
		for i < len(rs) && (i == w.cur.i || rs[i].in && !rs[i].first) {
			if !rs[i].in && i == w.cur.i && rs[i].kind != pSpace {
				i++
				break
			}
			i++
		}
	}
	for i < len(rs) {
		if grouped {
			if rs[i].in {
				j := i + 1
				for j < len(rs) && rs[j].in && !rs[j].first {
					j++
				}
				return i, j, true
			}
			i++
			continue
		}
		if rs[i].kind == pStitch && (len(of) == 0 || of[0].Kind != OneStitch || of[0].match(&rs[i].place)) {
			j := i + 1
			for j < len(rs) && rs[j].kind == pStitch && (rs[j].stitch.Base() == rs[i].stitch.Base() || len(of) == 0) {
				j++
			}
			if j == len(rs) && i > 0 && w.rotated && rs[0].kind == pStitch {
				return 0, 0, false // the beginning of the group the round starts in
			}
			return i, j, true
		}
		i++
	}
	return 0, 0, false
}

// within works into a place that is part of a group: "in ch-2 sp of next
// shell", "in 3rd dc of next shell".
func (w *rowWork) within(s *Step, p place, per int64, of []Filter) bool {
	start, end, ok := w.nextGroup(nil)
	if s.Target.first && w.taken <= 1 && w.below.runs != nil && w.midGroup(of) {
		// "in ch-1 sp of first V", of which the turning chain stands on the first stitch
		start, end = w.groupAt(w.cur.i)
		ok = true
	}
	if here := w.lastFresh && w.lastSet && !w.begun && s.Target.plain && !w.ended(); here && w.cur == w.lastAt && w.below.runs[w.cur.i].kind == pSpace && w.matches(&w.last, of) {
		w.take(1) // slip stitches have gone there
		w.lastFresh, w.named = false, true
		w.emitEach(s, p, per, 1)
		return true
	}
	if w.partAhead(&s.Target, of) {
		w.lastFresh = false
		_, end := w.groupAt(w.cur.i)
		return w.partOfGroup(s, p, per, end, of)
	}
	if !ok {
		if _, _, found := w.seek(of); !found {
			return w.overrun(s, 1, 1)
		}
		w.take(1)
		w.named = true
		w.emitEach(s, p, per, 1)
		return true
	}
	n := max(1, s.Target.N.At(w.pr.size))
	nth := n
	if s.Target.Which != Nth {
		nth = 1
	}
	for i := start; i < end; i++ {
		r := &w.below.runs[i]
		if !w.matches(&r.place, of) {
			continue
		}
		if nth <= r.n {
			w.cur = cursor{i, nth - 1}
			return w.partOfGroup(s, p, per, end, of)
		}
		nth -= r.n
	}
	if w.rotated && end == len(w.below.runs) {
		return w.overrun(s, 1, 1) // the beginning of the group the round starts in
	}
	w.cur = cursor{start, 0}
	w.take(1)
	w.named = true
	w.emitEach(s, p, per, 1)
	return true
}

// partOfGroup works into as many places of a group as are told, from the one at the
// cursor on and up to the run at end.
func (w *rowWork) partOfGroup(s *Step, p place, per int64, end int, of []Filter) bool {
	left := int64(1)
	if s.Target.Which != Nth {
		left = max(1, s.Target.N.At(w.pr.size))
	}
	made := int64(0)
	for {
		k := min(left, w.runLeft())
		w.take(k)
		made, left = made+k, left-k
		for w.norm(); left > 0 && w.cur.i < end && !w.matches(&w.below.runs[w.cur.i].place, of); {
			w.cur = cursor{i: w.cur.i + 1}
		}
		if left == 0 || w.cur.i >= end || w.ended() {
			break
		}
	}
	w.named = true
	w.emitEach(s, p, per, made)
	return true
}

// partAhead goes to the place that is part of the group the last stitch went into,
// "of shell", "of same shell", and reports whether that has one ahead: where it has
// none, or its first N places are meant, the next group is.
func (w *rowWork) partAhead(t *Target, of []Filter) bool {
	if w.norm(); !t.here || w.ended() || w.cur == (cursor{}) || t.Which == First {
		return false
	}
	start, end := w.groupAt(w.cur.i)
	if !w.below.runs[w.cur.i].in || start == w.cur.i && w.cur.off == 0 {
		return false
	}
	n := max(1, t.N.At(w.pr.size))
	nth := int64(1)
	switch t.Which {
	case Nth:
		nth = n
	case Last:
		nth = 1 - n
		for i := start; i < end; i++ {
			if w.matches(&w.below.runs[i].place, of) {
				nth += w.below.runs[i].n
			}
		}
	case Next:
		start = w.cur.i
		nth += w.cur.off
		if !w.matches(&w.below.runs[start].place, of) {
			nth = 1
		}
	}
	for i := start; i < end && nth > 0; i++ {
		r := &w.below.runs[i]
		if !w.matches(&r.place, of) {
			continue
		}
		if nth <= r.n {
			at := cursor{i, nth - 1}
			if at.i < w.cur.i || at.i == w.cur.i && at.off < w.cur.off {
				return false
			}
			w.cur = at
			return true
		}
		nth -= r.n
	}
	return false
}

// midGroup reports whether a place that is meant lies still ahead in the group that
// the last stitch went into.
func (w *rowWork) midGroup(of []Filter) bool {
	if w.norm(); w.ended() || w.cur == (cursor{}) || !w.below.runs[w.cur.i].in || w.below.runs[w.cur.i].first && w.cur.off == 0 {
		return false
	}
	_, end := w.groupAt(w.cur.i)
	for i := w.cur.i; i < end; i++ {
		if w.matches(&w.below.runs[i].place, of) {
			return w.below.runs[i].kind == pSpace
		}
	}
	return false
}

// unworked works into places that an earlier row left.
func (w *rowWork) unworked(s *Step, p place, per int64) bool {
	n := s.Target.N.At(w.pr.size)
	places := w.pc.unworkedOf(s.Target.Row)
	if n == 0 {
		n = places
	}
	if places >= 0 && n > places && places > 0 {
		w.warn(CodeOverrun, s, "%s to be worked there, and only %s left unworked", countWords(n, "stitch is", "stitches are"), countWords(places, "was", "were"))
	}
	w.elsewhere = true
	w.taken += max(n, 0) // how many an earlier row left may not be known
	w.emit(s, p, mul(per, max(n, 1)))
	return true
}

func itoa(n int64) string { return countOnly(n) }
