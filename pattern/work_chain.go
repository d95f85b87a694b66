package pattern

import "crochet/tallyturn/pattern/stitch"

// chain makes chains: the foundation, the turning chain, a space, or a chain
// that is worked back along.
func (w *rowWork) chain(s *Step, rest []*Step) bool {
	n := s.N.At(w.pr.size)
	if w.below == nil && !w.begun && w.ringAhead(rest) && !ringNext(rest) {
		w.below = &fabric{ring: true, magic: true} // a magic ring that is named only later
	}
	if next := nextMaking(rest); w.below == nil && !w.begun && n <= 5 && next != nil && next.Op == OpFree && next.N.At(w.pr.size) > 0 {
		w.below = &fabric{free: true} // "ch 3, 59 dc around the hem": it stands on what they are worked onto
	}
	if w.below == nil && !w.begun {
		w.below = &fabric{chain: true}
		w.below.add(place{kind: pChain}, n)
		w.log.number(w.below, BaseChain, true)
		w.leaf(s, 0)
		return true
	}
	w.ground()
	next := nextMaking(rest)
	if next != nil && next.Target.Which == FromHook && (w.begun || len(w.below.runs) > 0 && !(w.below.chain && w.cur == (cursor{})) || w.below.ring) {
		// a chain worked back along: a thumb, a leaf, an extension
		w.own = append([]run(nil), run{place{kind: pChain}, n})
		w.leaf(s, 0)
		return true
	}
	if w.below.chain && !w.begun && w.cur == (cursor{}) && !w.below.ring && next != nil && next.Target.Which == FromHook {
		if w.below.size() > 0 && n <= 5 && w.below.size() > n {
			w.below.runs = append([]run(nil), w.below.runs...) // other readings start from what there was
			w.below.add(place{kind: pChain}, n)                // "ch 20. Ch 1, ..." one more to turn
		} else {
			w.below = &fabric{chain: true}
			w.below.add(place{kind: pChain}, n)
		}
		w.log.number(w.below, BaseChain, true)
		w.leaf(s, 0)
		return true
	}
	if (!w.begun || w.onlySlips()) && w.chained == 0 && w.pending == 0 && w.nest == 0 {
		w.startChain(s, n, rest)
		return true
	}
	w.pending += n
	w.leaf(s, 0)
	return true
}

// onlySlips reports whether the row has so far only moved along.
func (w *rowWork) onlySlips() bool {
	for i := range w.out.runs {
		if w.out.runs[i].kind != pStitch || w.out.runs[i].stitch != stitch.Slip {
			return false
		}
	}
	return len(w.out.runs) > 0
}

// ringNext reports whether the chain just made is joined into a ring.
func ringNext(rest []*Step) bool {
	for _, s := range rest {
		if s.Op == OpRing || s.Op == OpJoin {
			return true
		}
		if s.Op != OpNote {
			return false
		}
	}
	return false
}

// nextMaking is the next step that works into something.
func nextMaking(rest []*Step) *Step {
	for _, s := range rest {
		switch s.Op {
		case OpWork, OpInto, OpFree, OpEven, OpSkip:
			return s
		case OpGroup, OpAlong:
			return nextMaking(s.Body)
		case OpNote, OpTurn, OpColour, OpStay:
		default:
			return nil
		}
	}
	return nil
}

// nextStitch is the first stitch that the steps make.
func nextStitch(rest []*Step) (stitch.ID, *Step) {
	for _, s := range rest {
		switch s.Op {
		case OpWork, OpFree:
			if s.Stitch == stitch.Slip {
				continue
			}
			if s.Stitch == stitch.Special || stitch.Of(s.Stitch).Kind == stitch.Compound {
				return stitch.DC, s
			}
			return s.Stitch.Base(), s
		case OpInto:
			if id, _ := nextStitch(s.Body); id != stitch.None {
				return id, s
			}
		case OpGroup, OpAlong:
			if id, t := nextStitch(s.Body); id != stitch.None {
				return id, t
			}
		}
	}
	return stitch.None, nil
}

// tallStitch is the tallest stitch near the start of a row: what a long
// turning chain stands for.
func tallStitch(rest []*Step) stitch.ID {
	best := stitch.None
	for i, s := range rest {
		if i > 8 {
			break
		}
		id := stitch.None
		switch s.Op {
		case OpWork:
			id = s.Stitch.Base()
			if stitch.Of(s.Stitch).Kind == stitch.Compound {
				id = stitch.None
			}
		case OpInto, OpGroup, OpAlong:
			id = tallStitch(s.Body)
		}
		if id != stitch.None && id != stitch.Slip && (best == stitch.None || stitch.Of(id).Turn > stitch.Of(best).Turn) {
			best = id
		}
	}
	return best
}

// turnKey is a chain whose value the pattern does not say: its length and the
// stitch it stands before.
type turnKey struct {
	chains     int64
	stitch     stitch.ID
	foundation bool
	named      bool // the row names its first stitch as a place
}

// startChain settles what the chain at the start of a row stands for.
func (w *rowWork) startChain(s *Step, n int64, rest []*Step) {
	w.chained = n
	if w.firstLeg(n, rest) {
		if _, _, ok := w.seekFirst(rest); ok {
			w.take(1)
		}
		w.leaf(s, 0)
		return
	}
	c := w.counts(s, n, rest)
	if c.As == stitch.None {
		w.leaf(s, 0)
		w.log.start(n - c.Space)
		if c.Space > 0 {
			w.make(place{kind: pSpace, size: int32(min(c.Space, 1<<20)), turn: true}, 1)
		}
		return
	}
	switch {
	case w.below.ring && w.cur.i >= 0 && (w.below.magic || w.ringAhead(rest)):
	case w.below.free:
	case w.travelled && w.lastFresh:
		w.take(1)
		w.stands, w.travelled = true, false
	case w.lastSet && !w.lastFresh && (!w.begun || w.onlySlips()):
		w.stands = true // on the place that was travelled to
	default:
		if _, _, ok := w.seekFirst(rest); ok {
			w.take(1)
			w.stands = true
		}
	}
	p := place{stitch: c.As, turn: true, size: int32(min(n, 1<<20))}
	w.make(p, max(c.N, 1))
	w.begun = true
	w.leaf(s, p.worth(max(c.N, 1)))
	w.pending = c.Space
}

// firstLeg reports whether the chain at the start of a round is one leg of its
// first cluster, which goes over one place fewer than those after it: "ch 3,
// dc3tog over next 3 dc, *ch 5, dc4tog over next 4 dc; rep from *".
func (w *rowWork) firstLeg(n int64, rest []*Step) bool {
	if n < 2 || w.kind != Round || w.below.ring || w.below.free || len(rest) < 2 {
		return false
	}
	for len(rest) > 0 && rest[0].Op == OpNote {
		rest = rest[1:]
	}
	if len(rest) == 0 || rest[0].Op != OpWork || rest[0].Legs < 2 || rest[0].Target.Which != Next || rest[0].N.N > 1 {
		return false
	}
	legs := rest[0].Legs
	if s := firstTogether(rest[1:]); s != nil {
		return s.Legs == legs+1
	}
	return false
}

// firstTogether is the first stitch of several legs among the steps.
func firstTogether(steps []*Step) *Step {
	for _, s := range steps {
		if s.Op == OpWork && s.Legs > 1 {
			return s
		}
		if s.Op == OpGroup {
			if t := firstTogether(s.Body); t != nil {
				return t
			}
		}
	}
	return nil
}

// seekFirst finds the place that the turning chain stands on.
func (w *rowWork) seekFirst(rest []*Step) (int64, bool, bool) {
	w.norm()
	if !w.ended() && w.below.runs[w.cur.i].kind == pSpace {
		if next := nextMaking(rest); next != nil && next.Target.Which == Same {
			return 0, false, true
		}
	}
	return w.seek(nil)
}

func (w *rowWork) ringAhead(rest []*Step) bool {
	for _, s := range rest {
		if s.Target.Which == InRing && (s.Op == OpWork || s.Op == OpInto) {
			return true
		}
		if s.Op == OpGroup && w.ringAhead(s.Body) {
			return true
		}
	}
	return false
}

// counts is what a chain of n at the start of the row counts as: what the
// pattern says, or else what the reading taken for the piece has it.
func (w *rowWork) counts(s *Step, n int64, rest []*Step) Counts {
	id, first := nextStitch(rest)
	if first != nil && first.Op == OpWork && (first.Legs > 0 || first.Stitch == stitch.Cluster || first.gathers) && first.Target.Which == Same {
		return Counts{} // the chain is the first leg of a cluster
	}
	if s.Counts.Said {
		return fillCounts(s.Counts, n, id, rest)
	}
	if c, ok := w.pr.pat.conv.chain[n]; ok && n > 1 {
		return fillCounts(c, n, id, rest)
	}
	if c, ok := w.pr.pat.conv.chain[0]; ok && n > 1 {
		c = fillCounts(c, n, id, rest)
		if h := max(stitch.Of(c.As).Turn, stitch.Of(tallStitch(rest)).Turn); c.As != stitch.None && c.Space == 0 {
			c.Space = max(0, n-int64(h)) // "beginning chains count": a longer one carries a space
		}
		return c
	}
	if n <= 1 {
		return Counts{}
	}
	tall := tallStitch(rest)
	if tall == stitch.None {
		tall = id
	}
	if tall == stitch.None {
		tall = w.mainBelow()
	}
	if id == stitch.None && goesOnEven(rest) {
		switch n { // the stitch of the pattern is not named, but its chain is
		case 2:
			tall = stitch.HDC
		case 3:
			tall = stitch.DC
		case 4:
			tall = stitch.TR
		}
	}
	if tall == stitch.DC && w.pr.pat.filet && (n == 3 || n == 5) {
		return Counts{As: tall, N: 1, Space: n - 3} // the edge of the first mesh, whatever the totals are
	}
	h := int64(stitch.Of(tall).Turn)
	key := turnKey{chains: n, stitch: tall}
	def := false
	switch {
	case h <= 1:
		// a row of sc begun with a long chain: a loop at the edge
		if n >= 3 {
			if n >= 5 || first != nil && first.Target.Which == Next && len(first.Target.Of) > 0 && first.Target.Of[0].Kind == Space && n >= 3 {
				key.stitch = stitch.DC
				if w.pr.counted(key, n >= 5, w.opts) {
					return Counts{As: stitch.DC, N: 1, Space: max(0, n-3)}
				}
			}
			return Counts{Space: n}
		}
		return Counts{}
	case n >= h:
		def = true
	case n == h-1 && h >= 3:
		def = w.joinsChain
	}
	if w.firstNamed(first, h) && n <= h {
		def = w.joinsChain
		key.named = !def // what holds for it need not for rows that name no first stitch
	}
	if w.joinsStitch && n <= h {
		def = false
	}
	sure := false
	switch said, ok := w.pc.said[n]; {
	case w.joinsChain && n >= h:
		def, sure = true, true // the round is joined to the top of it
	case ok:
		def, sure = said, true // an earlier row says, or shows
	case w.pc.turnNamed && n >= h && !w.firstNamed(first, h):
		def, sure = true, true // rows are worked into the top of it
	}
	if sure && !def || !sure && !w.pr.counted(key, def, w.opts) {
		return Counts{}
	}
	c := Counts{As: tall, N: 1}
	if n > h {
		c.Space = n - h
	}
	return c
}

// goesOnEven reports a row that goes on in a pattern whose stitch it does not
// name: "ch 3, work in pat across".
func goesOnEven(rest []*Step) bool {
	for _, s := range rest {
		switch {
		case s.Op == OpEven:
			return s.Stitch == stitch.None
		case makesStitches(s) && s.Op != OpDelta:
			return false
		}
	}
	return false
}

// firstNamed reports whether the first stitch is told to go into the first
// place: then the chain before it hardly counts, or it would be an increase.
func (w *rowWork) firstNamed(s *Step, h int64) bool {
	if s == nil {
		return false
	}
	return s.Target.Which == First && s.N.N <= 1 && !s.Target.foot || s.Target.Which == Same && w.kind == Round && s.N.N <= 1 && s.Op == OpWork && !w.lastSet && h < 3
}

// fillCounts completes "counts as a stitch" with the stitch and the space.
func fillCounts(c Counts, n int64, id stitch.ID, rest []*Step) Counts {
	if c.As == stitch.None {
		return Counts{}
	}
	c.N = max(c.N, 1)
	if c.As == stitch.Special {
		c.As = tallStitch(rest)
		if c.As == stitch.None {
			c.As = id
		}
		if c.As == stitch.None {
			c.As = stitch.DC
		}
	}
	if h := int64(stitch.Of(c.As).Turn); c.Space == restOfChain {
		c.Space = max(0, n-h) // "the first chain stands for a dc and the space beside it"
	}
	return c
}

// foundationStart handles a row worked into a bare foundation chain with no
// word of which chain is first: print then means the usual one.
func (w *rowWork) foundationStart(s *Step, t *Target) {
	if !w.below.chain || w.begun || w.cur != (cursor{}) || t.Which == FromHook || t.Which == Nth || w.lastSet {
		return
	}
	if w.opts.has(optNoSkip) || w.chained > 0 {
		return
	}
	k := int64(stitch.Of(s.Stitch).FirstChain)
	if k == 0 {
		k = 2
	}
	w.hookStart(s, k, s.Stitch, nil)
}

// fromHook works into the k-th chain from the hook.
func (w *rowWork) fromHook(s *Step, rest []*Step) bool {
	k := max(1, s.Target.N.At(w.pr.size))
	per := s.N.At(w.pr.size)
	p := stitchPlace(s)
	if w.own != nil {
		return w.ownHook(s, k, p, per)
	}
	if !w.below.chain || w.begun && w.cur != (cursor{}) {
		if w.below.free {
			w.emit(s, p, per)
			return true
		}
		if w.below.ring && len(w.below.runs) > 0 && !w.begun {
			w.below.chain = true
		} else if !w.below.has(Filter{Kind: ChainStitch}) {
			return w.fail(CodeNoPlace, s, 0, "this is worked back along a chain, and there is no chain here")
		}
	}
	if k > w.below.size() {
		return w.fail(CodeOverrun, s, 1, "the chain has only %s, and the first stitch goes into the %s", countWords(w.below.size(), "chain", "chains"), ordinal(k))
	}
	w.hookStart(s, k, s.Stitch, rest)
	w.take(int64(max(1, s.Legs)))
	if w.begun && per >= 2 && !w.groupOpen() && stitch.Of(s.Stitch).Turn >= 3 {
		w.openGroup() // with the chain that stands beside them
		p.in = true
	}
	if p.in {
		w.emit(s, p, per)
		return true
	}
	w.emitEach(s, p, per, 1)
	return true
}

// hookStart skips the chains before the k-th, and makes of them the stitch
// that they stand for.
func (w *rowWork) hookStart(s *Step, k int64, id stitch.ID, rest []*Step) {
	w.cur = cursor{0, max(0, k-1)}
	w.norm()
	w.pc.hook = k
	if w.below.chain {
		w.pc.foundation = w.below.size()
	}
	w.lastSet = true
	if id == stitch.Slip || id == stitch.None || k <= 1 {
		return
	}
	base := id.Base()
	if id == stitch.Special || stitch.Of(id).Kind == stitch.Compound {
		base = stitch.DC
	}
	c := w.skippedCounts(s, k, base, rest)
	if c.As == stitch.None {
		w.log.start(k - 1)
		return
	}
	p := place{stitch: c.As, turn: true, size: int32(min(k-1, 1<<20))}
	w.make(p, max(c.N, 1))
	w.begun = true
	w.stands = false
	w.leaf(s, p.worth(max(c.N, 1)))
	w.pending = c.Space
}

// skipsAtHook begins a row along a bare chain by the chains it says to skip: "miss 3 ch,
// 1 tr in each ch" is "1 tr in 4th ch from hook", and what the skipped chains stand for is
// settled in the same way. It reports whether they stand for a stitch; else they are
// skipped as any are.
func (w *rowWork) skipsAtHook(s *Step, rest []*Step) bool {
	n := s.Target.N.At(w.pr.size)
	if w.below == nil || !w.below.chain || w.below.ring || w.begun || w.cur != (cursor{}) || s.Counts.Said || s.Target.Which != Next && s.Target.Which != First || n < 2 || n >= w.below.size() {
		return false
	}
	first, after := firstWorked(rest)
	if first == nil || first.Stitch == stitch.Special || stitch.Of(first.Stitch.Base()).Turn < 2 {
		return false
	}
	c := w.skippedCounts(first, n+1, first.Stitch.Base(), after)
	if c.As == stitch.None {
		return false
	}
	w.lastSet = true
	w.pc.hook, w.pc.foundation = n+1, w.below.size()
	w.cur.off += n
	w.skipped += n
	w.norm()
	p := place{stitch: c.As, turn: true, size: int32(min(n, 1<<20))}
	w.make(p, max(c.N, 1))
	w.begun = true
	w.stands = false
	w.leaf(s, p.worth(max(c.N, 1)))
	w.pending = c.Space
	return true
}

// firstWorked is the first stitch of a row that goes into the row below, if the row
// begins with one, and what follows it.
func firstWorked(steps []*Step) (first *Step, after []*Step) {
	for i, s := range steps {
		switch s.Op {
		case OpNote, OpColour:
		case OpWork:
			if s.Target.Which == Next || s.Target.Which == Each || s.Target.Which == First {
				return s, steps[i+1:]
			}
			return nil, nil
		case OpGroup:
			return firstWorked(s.Body)
		default:
			return nil, nil
		}
	}
	return nil, nil
}

// skippedCounts is what the chains skipped at the hook stand for.
func (w *rowWork) skippedCounts(s *Step, k int64, base stitch.ID, rest []*Step) Counts {
	if c := s.Counts; c.Said {
		if h := int64(stitch.Of(base).Turn); c.As == base && c.N > 1 && c.N*h > k-1 {
			c.N-- // "hdc in 3rd ch from hook (counts as 2 hdc)": the one worked is among them
		}
		return fillCounts(c, k-1, base, []*Step{s})
	}
	if c, ok := w.pr.pat.conv.chain[k-1]; ok && k > 2 {
		return fillCounts(c, k-1, base, []*Step{s})
	}
	if c, ok := w.pr.pat.conv.chain[0]; ok && k > 2 && c.As == stitch.None {
		return Counts{}
	}
	st := stitch.Of(base)
	h := int64(st.Turn)
	if h <= 1 {
		// sc in a far chain: the loop before it is a space
		if k >= 6 && s.Op == OpWork {
			return Counts{}
		}
		return Counts{}
	}
	def := k-1 >= h
	if k-1 == h-1 && h >= 3 {
		def = false // dc in the 3rd
	}
	key := turnKey{chains: k - 1, stitch: base, foundation: true}
	if !w.hookMesh(s, k-1-h, rest) && !w.pr.counted(key, def, w.opts) {
		return Counts{}
	}
	c := Counts{As: base, N: 1}
	// "dc in 8th ch, *ch 2, skip 2 ch, dc": five chains beyond the three are
	// two for the space and two skipped under it, and one under the first dc
	extra := k - 1 - h
	if extra >= 2 && s.Op == OpWork {
		if m, sk, ok := meshAhead(rest, w.pr.size); ok && m+sk == extra {
			c.Space = m
		} else if extra%2 == 0 && !ok {
			c.Space = extra / 2
		} else if ok && extra > m {
			c.Space = extra - sk
		}
	}
	return c
}

// hookMesh reports whether the chains beyond a stitch's height are just those of
// the meshes that follow, "dc in 8th ch, *ch 2, skip 2 ch, dc in next ch*": then
// they are the first of the meshes, and leave nothing to be settled by totals.
func (w *rowWork) hookMesh(s *Step, extra int64, rest []*Step) bool {
	if extra < 2 || s.Op != OpWork {
		return false
	}
	made, skipped, ok := meshAhead(rest, w.pr.size)
	return ok && skipped > 0 && made+skipped == extra
}

// meshAhead finds the chains made and skipped by the repeat that follows.
func meshAhead(rest []*Step, size int) (made, skipped int64, ok bool) {
	for _, s := range rest {
		switch s.Op {
		case OpGroup:
			return meshAhead(s.Body, size)
		case OpChain:
			if made == 0 {
				made = s.N.At(size)
			}
		case OpSkip:
			return made, s.Target.N.At(size), made > 0
		case OpNote, OpColour:
		default:
			if s.Name != "" && s.Op == OpWork {
				return 2, 2, true // open mesh
			}
			return made, 0, made > 0
		}
	}
	return made, 0, made > 0
}

// ownLeft reports whether the chain made in this row has places left.
func (w *rowWork) ownLeft() bool { return len(w.own) > 0 && w.own[0].n > 0 }

// ownHook starts back along a chain made in this row.
func (w *rowWork) ownHook(s *Step, k int64, p place, per int64) bool {
	if k > w.own[0].n {
		return w.fail(CodeOverrun, s, 1, "the chain has only %s, and the first stitch goes into the %s", countWords(w.own[0].n, "chain", "chains"), ordinal(k))
	}
	w.own[0].n -= k
	w.log.own(w.own[0].n, 1)
	c := Counts{}
	if base := s.Stitch.Base(); base != stitch.Slip {
		c = w.skippedCounts(s, k, base, nil)
	}
	if c.As != stitch.None && !w.begun {
		top := place{stitch: c.As, turn: true}
		w.make(top, 1)
		w.leaf(s, top.worth(1))
	}
	w.last, w.lastSet = place{kind: pChain}, true
	w.emit(s, p, per)
	return true
}

// workOwn works along a chain made in this row; when it is used up the rest
// goes into the row below again.
func (w *rowWork) workOwn(s *Step, rest []*Step) bool {
	t := s.Target
	per := s.N.At(w.pr.size)
	p := stitchPlace(s)
	have := w.own[0].n
	legs := int64(max(s.Legs, 1))
	n := int64(0)
	chains := len(t.Of) > 0 && (t.Of[0].Kind == ChainStitch || t.Of[0].Kind == AnyStitch)
	switch t.Which {
	case Next:
		n = max(1, t.N.At(w.pr.size))
	case Each:
		n = have / legs
		if t.Bound.Kind == ToLast {
			n = max(0, have-t.Bound.N.At(w.pr.size)) / legs
		} else if keep := w.needAtEnd(rest, t.Of); keep < have && chains {
			n = (have - keep) / legs
		}
		if !chains && t.Which == Each && t.Bound.Kind != NoBound {
			// "sc in each st across" takes the chain and the row below
			w.own[0].n = 0
			w.log.own(0, have)
			w.emit(s, p, mul(per, have))
			return w.eachAs(s, s, rest)
		}
	case Last:
		n = max(1, t.N.At(w.pr.size))
	default:
		w.own = nil
		return w.work(s, rest)
	}
	k := min(n, have/legs)
	w.own[0].n -= k * legs
	w.log.own(w.own[0].n, k*legs)
	w.emit(s, p, mul(per, k))
	if w.own[0].n <= 0 {
		w.own = nil
	}
	if k < n {
		if w.below.size() == 0 {
			return w.overrun(s, n-k, legs)
		}
		c := *s
		c.Target.N = Num{N: n - k}
		if chains {
			c.Target.Of = nil
		}
		if c.Target.Which == Each {
			return true
		}
		w.own = nil
		return w.work(&c, rest)
	}
	return true
}

// otherSide goes on along the loops left on the other side of the foundation.
func (w *rowWork) otherSide(s *Step) {
	w.leaf(s, 0)
	n := w.pc.foundation
	if n == 0 {
		w.below = &fabric{free: true}
		w.cur = cursor{}
		w.elsewhere = true
		return
	}
	k := max(w.pc.hook, 1)
	f := &fabric{chain: true}
	places := n - k
	if places < 0 {
		places = 0
	}
	f.add(place{kind: pChain}, places)
	w.log.number(f, BaseOther, false)
	w.below = f
	w.cur = cursor{}
	w.slack = k // chains skipped at the start may be worked too
	w.elsewhere = true
	w.lastSet = true
}

// slip works slip stitches: at the start of a round they only travel; in flat
// work, or amid other stitches, they are stitches in their own right.
func (w *rowWork) slip(s *Step, rest []*Step) bool {
	w.ground()
	t := &s.Target
	n := max(1, t.N.At(w.pr.size))
	if t.Which == Same || t.Which == TurnTop || t.Which == InRing || w.besideThis(t.Row) {
		w.leaf(s, 0)
		return true
	}
	if w.own != nil && t.Which == FromHook && !backAlong(rest) && t.N.At(w.pr.size) < w.own[0].n {
		// a picot part way along a loop: the chains before it are part of the loop
		w.make(place{kind: pPicot, size: int32(min(t.N.At(w.pr.size), 1<<20))}, 1)
		w.pending += w.own[0].n - t.N.At(w.pr.size)
		w.own = nil
		w.leaf(s, 0)
		return true
	}
	if w.own != nil && t.Which == FromHook {
		return w.ownHook(s, t.N.At(w.pr.size), place{stitch: stitch.Slip}, 1)
	}
	if t.Which == FromHook || w.below.chain && t.Which == Nth {
		k := t.N.At(w.pr.size)
		if k > w.below.size() || !w.below.chain {
			w.leaf(s, 0)
			return true
		}
		w.hookStart(s, k, stitch.Slip, nil)
		w.take(1)
		w.emit(s, place{stitch: stitch.Slip}, 1)
		return true
	}
	travel := w.kind == Round && !w.begun && w.nest == 0 && t.Which != Each && w.travels(rest)
	of := t.Of
	if len(of) > 0 {
		of = w.resolve(s, of)
	}
	switch t.Which {
	case First:
		if w.taken > 0 {
			w.leaf(s, 0) // back into the first stitch: it closes the round
			return true
		}
	case Centre:
		if w.toCentre(s) && travel {
			w.rotate(w.cur)
		}
		w.leaf(s, 0)
		return true
	case Last:
		w.seekLast(n, of)
	case Each:
		if w.below.free {
			w.free, w.begun = true, true
			w.leaf(s, 0)
			return true
		}
		if t.Bound.Kind == ToPlace {
			stop := w.resolve(s, t.Bound.Of)
			if len(stop) > 0 {
				w.seek(stop)
				if travel || !w.begun && w.kind == Round {
					w.rotate(w.cur)
				}
				w.leaf(s, 0)
				return true
			}
		}
		count, ok := w.eachCount(s, of, rest)
		if !ok {
			return false
		}
		n = count
	}
	if w.kind == Round && w.begun && w.named && !t.said && n == 1 && w.nest == 0 && nextMaking(rest) == nil {
		w.join(s, rest) // "(2 sc, ch 4, 2 sc) in each of the 6 loops, ss."
		return true
	}
	if w.travelled && w.lastFresh || travel && t.Which == Next && !t.plain && w.cur == (cursor{}) && len(w.below.runs) > 0 && w.below.runs[0].kind == pStitch {
		w.cur.off++ // on from where the last slip stitch went, or the round was joined
		w.norm()
	}
	w.lastFresh = false
	for n > 0 {
		if _, _, ok := w.seek(of); !ok {
			if w.begun && w.kind == Round {
				w.leaf(s, 0) // it closes the round
				return true
			}
			if w.below.free || w.slack > 0 {
				w.emit(s, place{stitch: stitch.Slip}, n)
				return true
			}
			if w.begun && !t.said && n == 1 && nextMaking(rest) == nil {
				w.leaf(s, 0) // "plain. ss, off": it only ends the work
				return true
			}
			return w.overrun(s, n, 1)
		}
		k := min(n, w.runLeft())
		if r := &w.below.runs[w.cur.i]; r.kind == pSpace && r.size > 1 && n > 1 && len(of) > 0 && of[0].Kind == ChainStitch {
			// "over 3 tr and 2 ch": a stitch in each chain of the space
			k = min(max(1, n/int64(r.size)), w.runLeft())
			n -= k * int64(r.size-1)
		}
		w.take(k)
		if !travel {
			w.emit(s, place{stitch: stitch.Slip}, k)
		}
		n -= k
	}
	if travel {
		w.log.travel()
		w.leaf(s, 0)
		w.taken = 0
		w.rotate(w.lastAt)
	}
	w.named = len(of) > 0 && of[0].Kind != ChainStitch && of[0].Kind != OneStitch
	return true
}

// backAlong reports whether the next stitch goes into the chain just made.
func backAlong(rest []*Step) bool {
	n := nextMaking(rest)
	return n != nil && n.Op == OpWork && (len(n.Target.Of) == 0 || n.Target.Of[0].Kind == ChainStitch)
}

// travels reports whether slip stitches at the start only move along: a chain
// or another place for the first stitch comes after them.
func (w *rowWork) travels(rest []*Step) bool {
	for _, s := range rest {
		switch s.Op {
		case OpChain, OpInto, OpAttach:
			return true
		case OpWork:
			if s.Stitch == stitch.Slip {
				continue
			}
			return true
		case OpNote, OpColour:
		case OpGroup:
			return true
		default:
			return false
		}
	}
	return false
}

// rotate makes the round begin at a place: what was travelled over comes at
// its end. The cursor is left just after that place.
func (w *rowWork) rotate(c cursor) {
	rs := w.below.runs
	if c.i >= len(rs) {
		return
	}
	f := *w.below
	f.runs = nil
	if r := rs[c.i]; r.n > c.off {
		r.n -= c.off
		r.id = later(r.id, c.off)
		f.runs = append(f.runs, r)
	}
	f.runs = append(f.runs, rs[c.i+1:]...)
	f.runs = append(f.runs, rs[:c.i]...)
	if c.off > 0 {
		r := rs[c.i]
		r.n = c.off
		f.runs = append(f.runs, r)
	}
	w.behind += w.below.stitches(0, 0, false) - w.below.stitches(c.i, c.off, false)
	w.below, w.rotated = &f, c.i > 0 || c.off > 0
	w.cur = cursor{}
	w.lastAt = cursor{}
	w.last, w.lastSet, w.lastFresh, w.travelled = f.runs[0].place, true, true, true
}
