package pattern

import (
	"slices"

	"crochet/tallyturn/pattern/stitch"
)

// into works a list of things into one place, or into each of several.
func (w *rowWork) into(s *Step, rest []*Step) bool {
	if s.special != nil && s.special.seq {
		return w.sequenceOf(s, rest)
	}
	t := &s.Target
	if w.below == nil {
		w.below = &fabric{ring: true, magic: true}
	}
	if w.own != nil && t.Which == Next {
		w.own = nil
	}
	w.foundationInto(s, t)
	times := max(1, s.N.At(w.pr.size))
	one := func() bool { return w.inPlace(s, times) }
	switch t.Which {
	case InRing:
		w.cur = cursor{i: len(w.below.runs)}
		w.named = true
		return one()
	case Same:
		if w.lastFresh || !w.lastSet {
			if w.lastFresh && !w.ended() {
				w.take(1)
			} else if _, _, ok := w.seek(nil); ok {
				w.take(1)
			}
		} else if w.begun && !w.groupOpen() {
			w.openGroup()
			return w.inPlaceFirst(s, times, false)
		}
		return one()
	case FromHook:
		k := t.N.At(w.pr.size)
		if w.own != nil {
			if k > w.own[0].n {
				return w.overrun(s, 1, 1)
			}
			w.own[0].n -= k
			w.log.own(w.own[0].n, 1)
			return one()
		}
		if !w.below.chain {
			return w.fail(CodeNoPlace, s, 0, "this is worked back along a chain, and there is no chain here")
		}
		if k > w.below.size() {
			return w.fail(CodeOverrun, s, 1, "the chain has only %s, and the first goes into the %s", countWords(w.below.size(), "chain", "chains"), ordinal(k))
		}
		id, _ := nextStitch(s.Body)
		w.hookStart(s, k, id, rest)
		w.take(1)
		return one()
	case Centre:
		for {
			if !w.toCentre(s) {
				break
			}
			w.take(1)
			w.named = true
			if !one() {
				return false
			}
			if t.Bound.Kind != ToEnd {
				return true
			}
		}
		if t.Bound.Kind == ToEnd {
			return true
		}
		if w.below.bare {
			w.free, w.begun = true, true
			w.leaf(s, 0)
			return true
		}
		return w.overrun(s, 1, 1)
	case TurnTop, Between, Nth:
		probe := &Step{Op: OpWork, Span: s.Span, Stitch: stitch.SC, N: Num{N: 1}, Target: *t}
		m := len(w.out.runs)
		save := w.out.runs
		saveTrace := w.trace
		lastN := int64(0)
		if m > 0 {
			lastN = save[m-1].n
		}
		pend := w.pending
		logged := w.log.len()
		if !w.work(probe, rest) {
			return false
		}
		w.out.runs = save[:m]
		if m > 0 {
			w.out.runs[m-1].n = lastN
		}
		w.trace = saveTrace
		w.pending = pend
		w.log.unmake(logged)
		return one()
	case First:
		if w.stands && w.taken <= 1 {
			w.openGroup()
			return w.inPlaceFirst(s, times, false)
		}
		if w.taken > 0 && w.begun && w.ended() {
			return one()
		}
	case SkippedOne, Unworked, RowEnds, Anywhere:
		w.elsewhere = w.elsewhere || t.Which != SkippedOne
		return one()
	}
	if w.below.free {
		n := max(1, t.N.At(w.pr.size))
		if t.Which == Each {
			w.free, w.begun = true, true
			w.leaf(s, 0)
			return true
		}
		for ; n > 0; n-- {
			if !one() {
				return false
			}
		}
		return true
	}
	if w.besideStitches(t) {
		w.free = true
		for n := max(1, t.N.At(w.pr.size)); n > 0; n-- {
			if !one() {
				return false
			}
		}
		return true
	}
	if w.below.magic && len(w.below.runs) == 0 {
		w.named = true // "into the loop": the ring is all there is
		return one()
	}
	of := w.resolve(s, t.Of)
	if len(of) > 0 && of[0].Kind == NamedGroup || t.Within != nil && t.Within.Kind == NamedGroup {
		return w.groupTargets(s, times, of)
	}
	n := max(1, t.N.At(w.pr.size))
	switch t.Which {
	case Each:
		if t.Bound.Kind == ToPlace {
			return w.intoTo(s, times, of)
		}
		count, ok := w.eachCount(&Step{Op: OpWork, Span: s.Span, Target: *t}, of, rest)
		if !ok {
			return false
		}
		n = count
	case Next:
		if t.plain && n == 1 && w.onSpace(of) {
			w.openGroup()
			return w.inPlaceFirst(s, times, false)
		}
		w.leaveTravelled(t)
	case Last:
		stepped, ok := w.seekLast(n, of)
		if !ok && w.left(of) == 0 && w.begun {
			return one()
		}
		if ok && stepped > 0 && len(t.Of) == 0 {
			w.passed += stepped
		}
	}
	w.lastFresh = false
	for i := int64(0); i < n; i++ {
		if !w.step(s) {
			return false
		}
		if got := w.takeLegs(s, of, 1, 1); got < 0 {
			if w.slack > 0 {
				w.slack--
			} else {
				return w.overrun(s, n-i, 1)
			}
		}
		if !one() {
			return false
		}
	}
	w.named = len(t.Of) > 0 && t.Of[0].Kind != AnyStitch && t.Of[0].Kind != OneStitch && t.Of[0].Kind != ChainStitch
	return true
}

// foundationInto is foundationStart for things worked into one chain.
func (w *rowWork) foundationInto(s *Step, t *Target) {
	id, _ := nextStitch(s.Body)
	if id == stitch.None {
		return
	}
	w.foundationStart(&Step{Op: OpWork, Span: s.Span, Stitch: id}, t)
}

// intoTo works a group into each place as far as the next of another kind.
func (w *rowWork) intoTo(s *Step, times int64, of []Filter) bool {
	stop := w.resolve(s, s.Target.Bound.Of)
	for !w.ended() {
		w.norm()
		if w.ended() || w.matches(&w.below.runs[w.cur.i].place, stop) {
			break
		}
		if !w.matches(&w.below.runs[w.cur.i].place, of) {
			w.cur.i, w.cur.off = w.cur.i+1, 0
			continue
		}
		w.take(1)
		if !w.inPlace(s, times) {
			return false
		}
	}
	return true
}

// groupTargets works into whole groups: "shell in next shell".
func (w *rowWork) groupTargets(s *Step, times int64, of []Filter) bool {
	t := &s.Target
	n := max(1, t.N.At(w.pr.size))
	each := t.Which == Each
	if !each && t.Which == Next && n == 1 && w.partAhead(t, of) {
		w.take(1)
		w.named = true
		return w.inPlace(s, times)
	}
	for i := int64(0); each || i < n; i++ {
		start, end, ok := w.groupNamed(of)
		if t.Which == Last && ok {
			for {
				m := w.cur
				w.cur = cursor{end, 0}
				s2, e2, more := w.groupNamed(of)
				if !more {
					w.cur = m
					break
				}
				start, end = s2, e2
			}
		}
		if !ok {
			if each {
				break
			}
			if _, _, ok := w.seek([]Filter{{Kind: Space}}); ok {
				w.take(1)
				if !w.inPlace(s, times) {
					return false
				}
				continue
			}
			return w.overrun(s, n-i, 1)
		}
		before := w.taken
		w.centreOf(start, end)
		w.take(1)
		w.taken = before + 1
		if !w.inPlace(s, times) {
			return false
		}
		if w.cur.i < end {
			w.cur = cursor{end, 0}
		}
		w.named = true
	}
	w.named = true
	return true
}

// groupNamed finds the next group of a name from the cursor on.
func (w *rowWork) groupNamed(of []Filter) (start, end int, ok bool) {
	rs := w.below.runs
	i := w.cur.i
	if i < len(rs) && w.cur.off > 0 && !rs[i].first {
		i++
	}
	name := ""
	if len(of) > 0 && of[0].Kind == NamedGroup && of[0].Name != "group" {
		name = of[0].Name
	}
	for ; i < len(rs); i++ {
		if rs[i].in && (rs[i].first || i == 0 || !rs[i-1].in) && (name == "" || rs[i].name == name) {
			j := i + 1
			for j < len(rs) && rs[j].in && !rs[j].first {
				j++
			}
			if j == len(rs) && i > 0 && w.rotated && rs[0].in && !rs[0].first {
				return 0, 0, false // the beginning of the group the round starts in
			}
			return i, j, true
		}
	}
	return 0, 0, false
}

// centreOf moves to the middle of a group: its space, or its middle stitch.
func (w *rowWork) centreOf(start, end int) {
	for i := start; i < end; i++ {
		if w.below.runs[i].kind == pSpace {
			w.cur = cursor{i, 0}
			return
		}
	}
	total := int64(0)
	for i := start; i < end; i++ {
		total += w.below.runs[i].n
	}
	mid := (total - 1) / 2
	for i := start; i < end; i++ {
		if mid < w.below.runs[i].n {
			w.cur = cursor{i, mid}
			return
		}
		mid -= w.below.runs[i].n
	}
}

// inPlace makes the things of a group in the place just taken.
func (w *rowWork) inPlace(s *Step, times int64) bool { return w.inPlaceFirst(s, times, true) }

func (w *rowWork) inPlaceFirst(s *Step, times int64, first bool) bool {
	name := ""
	if s.special != nil {
		name = s.special.Names[0]
	} else {
		name = s.Name
	}
	outer := w.openNode()
	w.log.into(s)
	ok := true
	f := first
	for i := int64(0); i < times && ok; i++ {
		f = f || s.special != nil && i > 0 // each of "2 V-sts in next sp" is a group
		ok = w.placeBody(s.Body, name, &f)
	}
	w.held = w.pending
	w.closeNode(outer, Trace{Step: s, Times: 1})
	return ok
}

// placeBody makes the things that go into one place.
func (w *rowWork) placeBody(body []*Step, name string, first *bool) bool {
	for i, b := range body {
		if !w.step(b) {
			return false
		}
		switch b.Op {
		case OpWork:
			if b.Stitch == stitch.Slip {
				w.leaf(b, 0)
				continue
			}
			n := b.N.At(w.pr.size)
			if b.Target.Which == Next && (b.Legs == 0 || b.Target.N.At(w.pr.size) > 1) {
				n = mul(n, max(1, b.Target.N.At(w.pr.size)))
			}
			p := stitchPlace(b)
			p.in = true
			if p.name == "" {
				p.name = name
			}
			p.first = *first
			if *first {
				w.flush(false, "")
			}
			*first = false
			w.emit(b, p, n)
		case OpChain:
			if i == 0 && *first && w.beginsWith(b, body[1:], name) {
				*first = false
				continue
			}
			w.pending += b.N.At(w.pr.size)
			w.leaf(b, 0)
		case OpInto:
			inner := *first
			nm := name
			if b.special != nil {
				nm = b.special.Names[0]
			}
			for i := int64(0); i < max(1, b.Target.N.At(w.pr.size)); i++ {
				if !w.placeBody(b.Body, nm, &inner) {
					return false
				}
			}
			*first = inner
		case OpGroup:
			n := int64(1)
			switch b.Times.Kind {
			case Exactly:
				n = b.Times.N.At(w.pr.size)
			case More:
				n = b.Times.N.At(w.pr.size) + 1
			}
			if n > maxSteps {
				return w.fail(CodeTooLarge, b, 0, "%d times in one place is more than can be worked out", n)
			}
			for ; n > 0; n-- {
				if !w.placeBody(b.Body, name, first) {
					return false
				}
			}
		case OpPicot:
			w.make(place{kind: pPicot, in: true, name: name}, 1)
			w.leaf(b, 0)
		default:
			w.leaf(b, 0)
		}
	}
	return true
}

// onSpace reports whether the round has only its first chain, which stands in a
// space that answers, as one comes to it by slip stitches: "sl st to corner, ch 3,
// (dc, ch 2, 2 dc) in corner" is all in that corner.
func (w *rowWork) onSpace(of []Filter) bool {
	return w.stands && w.lastSet && w.last.kind == pSpace && len(of) > 0 && of[0].Kind == Space && !w.workedYet() && w.matches(&w.last, of)
}

// beginsWith makes the first stitch of a round out of the chain that a list in
// one place begins with, where it counts as one: "(ch 3, 2 dc, ch 2, 3 dc) in
// same sp".
func (w *rowWork) beginsWith(b *Step, rest []*Step, name string) bool {
	n := b.N.At(w.pr.size)
	if w.begun || w.chained > 0 || w.pending > 0 || n < 2 || w.nest > 0 {
		return false
	}
	c := w.counts(b, n, rest)
	if c.As == stitch.None {
		return false
	}
	w.chained = n
	p := place{stitch: c.As, turn: true, in: true, first: true, name: name, size: int32(min(n, 1<<20))}
	w.make(p, 1)
	w.begun = true
	w.leaf(b, p.worth(1))
	w.pending = c.Space
	return true
}

// sequenceOf works a special stitch that spreads over several places.
func (w *rowWork) sequenceOf(s *Step, rest []*Step) bool {
	n := max(1, s.Target.N.At(w.pr.size))
	if takes := takesOf(s.special.Body, w.pr.size); s.Target.said && n > 1 && takes > 1 && n%takes == 0 {
		n /= takes // "C4F over next 4 sts"
	}
	fill := s.Target.Which == Each
	for i := int64(0); fill || i < n; i++ {
		if fill && w.left(nil) <= w.needAtEnd(rest, nil) {
			break
		}
		m := w.mark()
		if !w.run(s.special.Body) {
			if fill && i > 0 {
				w.reset(m)
				break
			}
			return false
		}
	}
	return true
}

// takesOf is how many places the steps of a special stitch take, one after the
// other; 0 where it cannot be told from their words.
func takesOf(steps []*Step, size int) int64 {
	n := int64(0)
	for _, s := range steps {
		t := max(1, s.Target.N.At(size))
		switch {
		case s.Op == OpNote || s.Op == OpChain || s.Op == OpPicot:
		case s.Op == OpSkip && s.Target.Which == Next:
			n += t
		case (s.Op == OpWork || s.Op == OpInto) && s.Target.Which == Next:
			n += t * int64(max(1, s.Legs))
		case (s.Op == OpWork || s.Op == OpInto) && (s.Target.Which == SkippedOne || s.Target.Which == Same):
		default:
			return 0
		}
	}
	return n
}

// pass goes through a group once and notes it in the trace.
func (w *rowWork) pass(s *Step, body []*Step, number int64) bool {
	outer := w.openNode()
	w.nest++
	ok := w.run(body)
	w.nest--
	// a pass that fails is noted too: what it made before stays made, unless
	// the row is taken back to before it
	w.closeNode(outer, Trace{Step: s, Times: 1, First: number, Of: -1})
	return ok
}

// group repeats.
func (w *rowWork) group(s *Step, rest []*Step) bool {
	if len(s.Body) == 0 {
		return true
	}
	start := len(w.trace)
	ok, passes := true, int64(0)
	switch s.Times.Kind {
	case Once:
		return w.run(s.Body)
	case Fill:
		ok, passes = w.fill(s, rest)
		w.idle = w.idle || passes == 0
	default:
		n := s.Times.N.At(w.pr.size)
		if s.Times.Kind == More && !((s.Times.star || s.Times.shut) && w.opts.has(optStarInAll)) || s.Times.Kind == Exactly && s.Times.star && !s.Times.sure && w.opts.has(optStarMore) {
			n++
		}
		ok, passes = w.times(s, n, rest)
	}
	start = min(start, len(w.trace))
	for _, t := range w.trace[start:] {
		if t.Step == s && t.Of == -1 {
			passes = max(passes, t.First+t.Times-1) // with a last one that stops part way
		}
	}
	for i := start; i < len(w.trace); i++ {
		if t := w.trace[i]; t.Step == s && t.Of == -1 {
			t.Of = passes
		}
	}
	return ok
}

// times goes through a group n times.
func (w *rowWork) times(s *Step, n int64, rest []*Step) (bool, int64) {
	body := s.Body
	for i := int64(0); i < n; i++ {
		if i == n-1 && s.stopAt && s.partial > 0 {
			body = s.Body[:s.partial-1]
		}
		if i == n-1 && s.ending != nil {
			return w.lastOf(s, i, rest), n
		}
		m := w.mark()
		if !w.pass(s, body, i+1) {
			problems := append([]problem(nil), w.problems...)
			if w.wraps(s, m, i+1, i == n-1 && !chainsNext(rest)) {
				return true, n
			}
			w.problems = problems // what went wrong is still to be said
			if len(w.problems) > 0 {
				p := &w.problems[len(w.problems)-1]
				if p.code == CodeOverrun && n > 1 {
					p.msg += "; the repeat came out " + countWords(i, "time", "times") + " of " + countOnly(n)
					p.code = CodeOverrun
				}
			}
			return false, n
		}
		if s.stopAt && i == n-2 {
			continue
		}
		w.ground()
		if w.cur == m.cur && w.below.magic && i > maxSteps {
			return w.fail(CodeTooLarge, s, 0, "%d times is more than can be worked out", n), n
		}
		if w.idled(m) && s.ending == nil && !s.stopAt {
			return true, n // all that are to come would do as little
		}
		i += w.hasten(s, m, n-1-i-lastOwn(s))
	}
	return true, n
}

// idled reports whether a pass has taken nothing and made nothing.
func (w *rowWork) idled(m mark) bool {
	return w.ended() && w.cur == m.cur && len(w.out.runs) == m.runs && m.runs > 0 && w.out.runs[m.runs-1].n == m.lastN && w.pending == m.pending && w.taken == m.taken
}

// lastOwn is 1 where the last pass differs and must be worked for itself.
func lastOwn(s *Step) int64 {
	if s.stopAt || s.ending != nil {
		return 1
	}
	return 0
}

// hasten does at once what further passes like the one just made would do,
// where that pass stayed within one run of equal places and made equal
// stitches. It gives how many passes it did.
func (w *rowWork) hasten(s *Step, m mark, most int64) int64 {
	used := w.cur.off - m.cur.off
	if w.log != nil {
		return 0 // which stitch of them stands where is asked
	}
	if most <= 0 || w.cur.i != m.cur.i || used <= 0 || w.ended() || m.runs == 0 || len(w.out.runs) != m.runs || w.pending != m.pending || w.last != m.last && m.lastSet {
		return 0
	}
	k := min(most, w.runLeft()/used-1)
	if k <= 0 {
		return 0
	}
	made := w.out.runs[m.runs-1].n - m.lastN
	w.cur.off += k * used
	w.taken += k * (w.taken - m.taken)
	w.skipped += k * (w.skipped - m.skipped)
	w.passed += k * (w.passed - m.passed)
	w.out.runs[m.runs-1].n = min(w.out.runs[m.runs-1].n+mul(k, made), beyond)
	if n := len(w.trace); n > 0 && w.trace[n-1].Step == s {
		w.trace[n-1].Times += k
	}
	w.lastAt = cursor{w.cur.i, w.cur.off - 1}
	return k
}

// allElsewhere reports whether all that a group works goes into an earlier row
// than the one below.
func (w *rowWork) allElsewhere(body []*Step) bool {
	works := 0
	for _, s := range body {
		switch s.Op {
		case OpWork, OpInto:
			if r := s.Target.Row; r == nil || r.Number == 0 || w.rowBelow(r) {
				return false
			}
			works++
		case OpChain, OpNote, OpPicot:
		default:
			return false
		}
	}
	return works > 0
}

// fill goes through a group as often as it fits.
func (w *rowWork) fill(s *Step, rest []*Step) (bool, int64) {
	w.ground()
	if allAlongEdges(s.Body) {
		if s.sides > 0 {
			return w.times(s, s.sides, rest)
		}
		w.free = true // how many edges there are only the author knows
		return w.pass(s, s.Body, 1), 1
	}
	if w.below.free {
		w.free, w.begun = true, true
		w.leaf(s, 0)
		return true, 1
	}
	if s.ending != nil {
		return w.fillEnding(s, rest)
	}
	if s.stopAt && s.partial > 0 {
		return w.fillPartial(s, s.Body[:s.partial-1], rest)
	}
	if w.allElsewhere(s.Body) {
		w.free, w.elsewhere = true, true // "*bpsc around next sc of Rnd 5, ch 4*": as often as that round has it
		return w.pass(s, s.Body, 1), 1
	}
	of := s.Times.Bound.Of
	if byGroups(of) {
		of = w.resolve(s, of)
	}
	goal := w.goalOf(s, rest, of)
	n := int64(0)
	for {
		if w.reached(goal, of) {
			if n > 1 && w.missesLoop(s, rest) {
				return w.pass(s, s.Body[:len(s.Body)-1], n+1), n + 1
			}
			return true, n
		}
		m := w.mark()
		ok := w.pass(s, s.Body, n+1)
		if !ok && len(w.problems) > 0 && w.problems[len(w.problems)-1].code == CodeTooLarge {
			return false, n
		}
		if !ok || w.beyond(goal, of) {
			w.reset(m)
			if s.byTurns && n > 0 && w.passInPart(s, n+1, goal, of) {
				return true, n + 1
			}
			if k := loopSaidAgain(s.Body, rest); k > 1 && w.kind == Round && n > 0 {
				if w.pass(s, s.Body[1:k], n+1) && w.left(nil) == 0 {
					return true, n + 1
				}
				w.reset(m)
			}
			if w.wraps(s, m, n+1, true) {
				return true, n + 1
			}
			if n > 1 && w.nothingWorth(goal) && w.missesLoop(s, rest) {
				return w.pass(s, s.Body[:len(s.Body)-1], n+1), n + 1
			}
			return w.misfit(s, goal, of, n, rest), n
		}
		n++
		if w.cur == m.cur {
			if w.own == nil {
				return true, n // it takes nothing: once is as often as it fits
			}
		}
		n += w.hasten(s, m, w.roomFor(goal, of, m))
	}
}

// passInPart makes the last pass of what goes by turns, as far as the places go.
func (w *rowWork) passInPart(s *Step, n int64, g goal, of []Filter) bool {
	m := w.mark()
	for k := len(s.Body) - 1; k > 0; k-- {
		if w.pass(s, s.Body[:k], n) && w.reached(g, of) && !w.beyond(g, of) {
			return true
		}
		w.reset(m)
	}
	return false
}

// loopSaidAgain reports that the last loop of a round is told behind the repeat,
// "*ch 2, skip 1 dc, shell in next dc; repeat from * around, ch 2, join": how
// many steps the group has up to its stitch, the chain and what it passes over;
// 0 where it is not so.
func loopSaidAgain(body, rest []*Step) int {
	if len(body) < 3 || body[0].Op != OpChain {
		return 0
	}
	k := passedOver(body)
	for i, r := range rest {
		switch {
		case r.Op == OpNote:
		case r.Op == OpChain && r.N.N == body[0].N.N && i+1 < len(rest) && nextMaking(rest[i+1:]) == nil:
			return k
		default:
			return 0
		}
	}
	return 0
}

// missesLoop reports whether a round of loops lacks its last one for the words:
// "sc in first loop, *ch 6, sc in next loop; repeat from * around, join". There
// are as many loops as stitches, and the join stands for the stitch at the end
// of the last.
func (w *rowWork) missesLoop(s *Step, rest []*Step) bool {
	end := len(s.Body) - 1
	if w.kind != Round || w.nest > 0 || w.opts.has(optNoWrap) || w.pending > 0 || end < 1 {
		return false
	}
	for _, b := range s.Body[:end] { // "ch 2, picot, ch 2"
		if b.Op != OpPicot && (b.Op != OpChain || b.Counts.Said) {
			return false
		}
	}
	if b := s.Body[end]; b.Op != OpWork && b.Op != OpInto || b.Target.Which != Next || b.Target.N.At(w.pr.size) > 1 || b.Stitch == stitch.Slip && b.Op == OpWork {
		return false
	}
	for _, r := range rest {
		if r.Op == OpJoin {
			return r.Target.Which != TurnTop || r.Stitch == stitch.None || r.Stitch == stitch.Slip
		}
		if r.Op != OpNote && r.Op != OpColour {
			return false
		}
	}
	return false
}

// goal is where a filling repeat has to stop.
type goal struct {
	kind BoundKind
	keep int64
	stop []Filter
}

func (w *rowWork) goalOf(s *Step, rest []*Step, of []Filter) goal {
	g := goal{kind: s.Times.Bound.Kind}
	switch g.kind {
	case ToLast:
		g.keep = s.Times.Bound.N.At(w.pr.size)
	case ToPlace:
		g.stop = w.resolve(s, of)
	default:
		g.kind = ToEnd
		g.keep = w.needAll(rest)
	}
	return g
}

// leftAll counts the places left, of a description if there is one.
func (w *rowWork) leftAll(of []Filter) int64 {
	if len(of) > 0 && of[0].Kind == OneStitch {
		of = nil
	}
	return w.left(of)
}

// byGroups reports a bound that counts whole groups, "to last shell".
func byGroups(of []Filter) bool { return len(of) > 0 && of[0].Kind == NamedGroup }

// leftBefore counts what a repeat up to the last of something has before it: whole
// groups, of which the one at the cursor is one while nothing of it was used, or
// else places.
func (w *rowWork) leftBefore(of []Filter) int64 {
	if !byGroups(of) {
		return w.leftWith(of)
	}
	rs := w.below.runs
	w.pr.spend((len(rs) - w.cur.i) / 16)
	n := int64(0)
	for i := w.cur.i; i < len(rs); i++ {
		if r := &rs[i]; r.in && (r.first || i == 0 || !rs[i-1].in) && (i > w.cur.i || w.cur.off == 0) && w.matches(&r.place, of) {
			n++
		}
	}
	return n
}

func (w *rowWork) reached(g goal, of []Filter) bool {
	w.norm()
	switch g.kind {
	case ToPlace:
		return w.ended() || w.matches(&w.below.runs[w.cur.i].place, g.stop)
	case ToLast:
		return w.leftBefore(of) <= g.keep
	}
	if w.own != nil && w.ownLeft() {
		return false
	}
	return w.leftAll(nil) <= g.keep && (g.keep > 0 || w.nothingLeft())
}

// nothingLeft reports whether neither stitches nor spaces are left.
func (w *rowWork) nothingLeft() bool {
	for i := w.cur.i; i < len(w.below.runs); i++ {
		r := &w.below.runs[i]
		if r.turn && w.tchApart {
			continue
		}
		if w.workable(&r.place) {
			return false
		}
		if r.kind == pSpace && !w.onlyStitchesTaken() {
			return false
		}
	}
	return true
}

// onlyStitchesTaken reports that spaces of the row below are being passed by.
func (w *rowWork) onlyStitchesTaken() bool { return !w.named }

// beyond reports whether a pass went past the place to stop at.
func (w *rowWork) beyond(g goal, of []Filter) bool {
	switch g.kind {
	case ToLast:
		return w.leftBefore(of) < g.keep
	case ToPlace:
		return false
	}
	return w.leftAll(nil) < g.keep
}

// roomFor is how many more passes like the last would fit.
func (w *rowWork) roomFor(g goal, of []Filter, m mark) int64 {
	used := w.cur.off - m.cur.off
	if used <= 0 || g.kind == ToPlace || byGroups(of) {
		return 0
	}
	return max(0, (w.leftAll(of)-g.keep)/used)
}

// needAll is how many stitches the steps after a repeat use.
func (w *rowWork) needAll(rest []*Step) int64 {
	n := int64(0)
	for _, s := range rest {
		switch s.Op {
		case OpWork, OpInto:
			if s.Op == OpWork && s.Stitch == stitch.Slip && w.kind == Round {
				continue
			}
			f := filters(s.Target)[0]
			switch s.Target.Which {
			case Next, Last:
				if s.Target.Row != nil || f.Kind == Space || f.Kind == PicotPlace || f.Kind == NamedGroup {
					continue
				}
				n += max(1, s.Target.N.At(w.pr.size)) * int64(max(1, s.Legs))
				if s.Target.Which == Last && s.Legs > 0 {
					n -= max(1, s.Target.N.At(w.pr.size)) * int64(max(1, s.Legs))
					n += max(s.Target.N.At(w.pr.size), int64(s.Legs))
				}
			case First:
				continue
			case Each:
				return n
			case TurnTop:
				if !w.tchApart && w.below.hasTurn() {
					n++
				}
			}
		case OpSkip:
			if f := filters(s.Target)[0]; f.Kind != Space {
				n += max(1, s.Target.N.At(w.pr.size))
			}
		case OpLeave:
			n += s.Target.N.At(w.pr.size)
		case OpGroup:
			k := int64(1)
			switch s.Times.Kind {
			case Exactly:
				k = s.Times.N.At(w.pr.size)
			case More:
				k = s.Times.N.At(w.pr.size) + 1
			case Fill:
				return n
			}
			n += mul(k, w.needAll(s.Body))
		case OpOtherSide, OpTurn, OpAttach:
			return n
		}
	}
	return n
}

func (f *fabric) hasTurn() bool {
	for i := range f.runs {
		if f.runs[i].turn {
			return true
		}
	}
	return false
}

// chainsNext reports whether the next thing worked is a chain: then a loop stands
// before the join already, "repeat from * 15 times more, 5 ch, sl st to first dc".
func chainsNext(rest []*Step) bool {
	for _, s := range rest {
		if s.Op != OpNote && s.Op != OpColour {
			return s.Op == OpChain
		}
	}
	return false
}

// wraps accepts the last pass of a round whose last stitch would fall on the
// first stitch of the round: the join takes its place.
func (w *rowWork) wraps(s *Step, m mark, number int64, last bool) bool {
	if !last || w.opts.has(optNoWrap) || w.kind != Round {
		return false
	}
	w.reset(m)
	outer := w.openNode()
	for i, b := range s.Body {
		before := w.mark()
		if w.exec(b, s.Body[i+1:]) {
			continue
		}
		// all places used, chains or a skip just made, and only this left
		tail := s.Body[i:]
		makes := 0
		for _, r := range tail {
			if makesStitches(r) {
				makes++
			}
		}
		lastBelow := w.left(nil) == 0
		w.reset(before)
		lastBelow = lastBelow && w.left(nil) == 0
		if makes == 1 && lastBelow && (i > 0) && (b.Op == OpWork || b.Op == OpInto) && w.spanning() > 0 && w.spacesLeft() == 0 {
			w.closeNode(outer, Trace{Step: s, Times: 1, First: number, Of: -1})
			return true
		}
		break
	}
	w.trace = outer
	w.reset(m)
	return false
}

func (w *rowWork) spacesLeft() int64 {
	if !w.named {
		return 0
	}
	return w.left([]Filter{{Kind: Space}})
}

// misfit says that a repeat does not come out, and leaves the row where the
// whole passes end; what follows may still use what is left.
func (w *rowWork) misfit(s *Step, g goal, of []Filter, passes int64, rest []*Step) bool {
	left := w.leftAll(of) - g.keep
	if g.kind == ToLast {
		left = w.leftBefore(of) - g.keep
	}
	if left <= 0 || w.nothingWorth(g) || g.kind == ToEnd && w.travelledOver(s.Body, left) || w.restOfGroup(rest) && g.kind == ToEnd || w.named && g.kind == ToEnd && byName(s.Body) {
		return true
	}
	// a last pass that stops part way, exactly at the end
	if g.kind == ToEnd || g.kind == ToLast {
		m := w.mark()
		outer := w.openNode()
		for i, b := range s.Body[:len(s.Body)-1] {
			before := w.mark()
			if !w.exec(b, s.Body[i+1:]) || w.beyond(g, of) {
				w.reset(before)
				break
			}
			if w.leftAll(of) == g.keep && makesStitches(b) {
				w.closeNode(outer, Trace{Step: s, Times: 1, First: passes + 1, Of: -1})
				p := problem{code: CodeMisfit, sev: Warning, step: s, over: left,
					msg: "the repeat comes out " + countWords(passes, "time", "times") + " and stops part way through the next: " + countWords(left, "stitch was", "stitches were") + " left for it" + w.fitsHint(s, left)}
				w.problems = append(w.problems[:m.problems], p)
				return true
			}
		}
		w.trace = outer
		w.reset(m)
	}
	w.problems = append(w.problems, problem{code: CodeMisfit, sev: Warning, step: s, over: left,
		msg: "the repeat comes out " + countWords(passes, "time", "times") + " and " + countWords(left, "stitch is", "stitches are") + " left" + w.fitsHint(s, left)})
	w.misfitLeft = left
	return true
}

// travelledOver reports whether the places left at the end of a round are those that slip
// stitches went over to the space it begins in, where its groups go into spaces: the first
// group stands over them, "sl st to ch-1 sp, ch 4, dc in same sp, sc in next sc, *V-st in
// next V-st, sc in next sc; rep from * around".
func (w *rowWork) travelledOver(body []*Step, left int64) bool {
	return w.kind == Round && left <= w.behind && slices.ContainsFunc(body, intoNamed)
}

// fitsHint says what number of places would fit.
func (w *rowWork) fitsHint(s *Step, left int64) string {
	n := w.below.stitches(0, 0, false)
	per := w.needAll(s.Body)
	if per <= 1 || left >= per {
		return ""
	}
	return "; it would fit over " + countOnly(n-left) + " or " + countOnly(n-left+per)
}

// fillPartial fills with a group whose last pass stops at "**".
func (w *rowWork) fillPartial(s *Step, short []*Step, rest []*Step) (bool, int64) {
	g := w.goalOf(s, rest, s.Times.Bound.Of)
	n := int64(0)
	for {
		m := w.mark()
		if !w.pass(s, short, n+1) {
			w.reset(m)
			return w.misfit(s, g, nil, n, rest), n
		}
		if w.reached(g, nil) || w.nothingWorth(g) {
			return true, n + 1
		}
		w.reset(m)
		if !w.pass(s, s.Body, n+1) {
			w.reset(m)
			return w.misfit(s, g, nil, n, rest), n
		}
		n++
		if w.cur == m.cur {
			return true, n
		}
	}
}

// restOfGroup reports whether all that is left is the rest of a group whose
// middle was worked by name, but for the places that the words behind the repeat
// take: "9 dc in sp of next shell; rep from * around, ending with sc in last sc".
func (w *rowWork) restOfGroup(rest []*Step) bool {
	if !w.named {
		return false
	}
	keep := int64(0)
	for _, s := range rest {
		if s.Op == OpWork && s.Target.Which == Last && s.Legs == 0 {
			keep += max(1, s.Target.N.At(w.pr.size))
		}
	}
	i := w.cur.i
	for i < len(w.below.runs) && w.below.runs[i].in && !w.below.runs[i].first {
		i++
	}
	return i == len(w.below.runs) || keep > 0 && i > w.cur.i && w.below.stitches(i, 0, false) == keep
}

// byName reports whether a group finds all its places by name, so that the
// stitches between them are nobody's business.
func byName(body []*Step) bool {
	named := false
	for _, s := range body {
		switch s.Op {
		case OpWork, OpInto, OpSkip:
			switch {
			case intoNamed(s):
				named = true
			case s.Target.Which == Same:
			default:
				return false
			}
		case OpGroup:
			if !byName(s.Body) {
				return false
			}
			named = true
		}
	}
	return named
}

// intoNamed reports whether a step is worked into a space, a group or a cluster, which is
// found by its name.
func intoNamed(s *Step) bool {
	f := filters(s.Target)[0]
	return s.Target.Which == Centre || f.Kind == NamedGroup || f.Kind == Space || f.Kind == AnyCluster || f.Kind == PicotPlace || s.Target.Within != nil
}

// nothingWorth reports whether the places left are only ones that a repeat by
// spaces passes over.
func (w *rowWork) nothingWorth(g goal) bool {
	return w.named && g.kind == ToEnd && w.left([]Filter{{Kind: Space}}) == 0 && w.below.has(Filter{Kind: Space})
}

// lastOf works the last of n passes with the ending told behind their number. It
// is how that pass ends, or what is worked once all of them are done, "rep from *
// 7 times more; end with sc in last sc": the way that uses up the row is meant.
func (w *rowWork) lastOf(s *Step, i int64, rest []*Step) bool {
	m := w.mark()
	usedUp := func(ok bool) bool {
		return ok && len(w.problems) == m.problems && w.passed == m.passed && w.leftAfter(rest) == 0
	}
	ok := w.lastPass(s, i)
	if s.ending.Text != "" || usedUp(ok) || w.below.free || w.free {
		return ok
	}
	w.reset(m)
	if usedUp(w.pass(s, s.Body, i+1) && w.run(s.ending.Body)) {
		return true
	}
	w.reset(m)
	return w.lastPass(s, i)
}

// lastPass works the last of n passes where it ends otherwise.
func (w *rowWork) lastPass(s *Step, i int64) bool {
	m := w.mark()
	e := s.ending
	if e.Text == "omit" {
		return w.pass(s, omitted(s.Body, e), i+1)
	}
	if e.Text == "as it began" {
		return w.pass(s, s.Body, i+1)
	}
	for cut := len(s.Body) - 1; cut >= 0; cut-- {
		if w.pass(s, append(append([]*Step(nil), s.Body[:cut]...), e.Body...), i+1) {
			return true
		}
		w.reset(m)
	}
	return w.pass(s, s.Body, i+1)
}

// fillEnding fills with a group whose end is told apart. The words may name
// what comes after the last whole pass, or how the last pass ends, or what
// it ends with anyway: the way that uses up the row is the one meant.
func (w *rowWork) fillEnding(s *Step, rest []*Step) (bool, int64) {
	e := s.ending
	plain := *s
	plain.ending = nil
	m := w.mark()
	if e.Text == "omit" {
		return w.fillShort(s, omitted(s.Body, e), rest)
	}
	type try func() (bool, int64)
	behind := int64(0) // places that may be left
	after := func() (bool, int64) {
		ok, n := w.fill(&plain, append(append([]*Step(nil), e.Body...), rest...))
		first := e.Body[0]
		used := first.Target.Which == Last && w.left(w.resolve(first, first.Target.Of)) == 0 || first.Target.Which == TurnTop && first.Target.Within == nil && w.left(nil) == 0 && !w.turnAhead()
		if ok && used && !w.below.free && first.Stitch != stitch.Slip {
			return false, n // its place is used: the last pass must end otherwise
		}
		return ok && len(w.problems) == m.problems && w.run(e.Body), n
	}
	asIs := func() (bool, int64) {
		ok, n := w.fill(&plain, rest)
		return ok && len(w.problems) == m.problems, n
	}
	last := func(body []*Step) try { // the last pass
		return func() (bool, int64) {
			n := int64(0)
			for {
				before := w.mark()
				w.reached0 = 0
				if w.pass(s, body, n+1) && w.leftAfter(rest) <= behind && w.passed == m.passed && w.reached0 <= behind {
					return true, n + 1
				}
				w.reset(before)
				if !w.pass(s, s.Body, n+1) || w.cur == before.cur {
					return false, n
				}
				n++
			}
		}
	}
	instead := func(c int) try { // the last pass, from its c-th step on
		return last(append(append([]*Step(nil), s.Body[:c]...), e.Body...))
	}
	var tries []try
	if of := groupAgain(s.Body, e.Body); of != nil {
		upTo := plain
		upTo.Times.Bound = Bound{Kind: ToLast, N: Num{N: 1}, Of: []Filter{*of}}
		tries = append(tries, func() (bool, int64) {
			ok, n := w.fill(&upTo, rest)
			return ok && len(w.problems) == m.problems && w.run(e.Body), n
		})
	}
	if w.kind == Round && closesLoop(s.Body, e.Body) {
		tries = append(tries, func() (bool, int64) { return w.closeLoop(s) })
	}
	if need := spacesTaken(e.Body); need > 0 && saysAgain(s.Body, e.Body) {
		tries = append(tries, func() (bool, int64) { return w.endsAsBegun(s, need) })
	}
	if placesLast(s.Body, e.Body) {
		tries = append(tries, instead(len(s.Body)-1))
	}
	if k := beginsAlike(s.Body, e.Body); k > 0 {
		tries = append(tries, last(append(append([]*Step(nil), s.Body[:k]...), e.Body[1:]...)))
	}
	if len(e.Body) > 0 {
		tries = append(tries, after)
	}
	if len(e.Body) == 0 || endsAlike(s.Body, e.Body) {
		tries = append(tries, asIs)
	}
	for cut := len(s.Body) - 1; cut >= 0 && len(e.Body) > 0; cut-- {
		if e.Body[0].Op == OpWork && e.Body[0].Target.Which == Last && makesAlike(s.Body[cut], e.Body[0]) {
			tries = append(tries, instead(cut)) // "9 tr in next loop, ...; ending with 9 tr in last loop": the same, at the last one
		}
	}
	for cut := len(s.Body) - 1; cut >= 0 && len(e.Body) > 0; cut-- {
		if e.Body[0].Op == OpChain && endsInChain(s.Body[:cut]) {
			if cut > 0 && len(e.Body) == 1 && closesInChain(s.Body[cut-1], e.Body[0]) {
				tries = append(tries, last(s.Body[:cut])) // the last chain of the loops is named
			}
			continue // nobody writes one chain in two
		}
		tries = append(tries, instead(cut))
	}
	for {
		for _, t := range tries {
			w.misfitLeft, w.reached0 = 0, 0
			ok, n := t()
			if ok && w.leftAfter(rest) <= behind && w.misfitLeft == 0 && w.passed == m.passed && w.reached0 <= behind {
				return true, n
			}
			w.reset(m)
		}
		if behind == w.behind {
			break
		}
		behind = w.behind // what slip stitches passed at the start may stay under the last loop
	}
	w.misfitLeft = 0
	ok, n := w.fill(&plain, append(append([]*Step(nil), e.Body...), rest...))
	return ok && w.run(e.Body), n
}

// beginsAlike reports an ending that says the chain of the group again and then
// closes the round, "*ch 5, skip 3 dc, sc in next dc; rep from *, ending with ch
// 5, sl st in first sc": how many steps the group has up to its stitch, which
// are the chain and what it passes over.
func beginsAlike(body, end []*Step) int {
	if len(body) < 3 || body[0].Op != OpChain || end[0].Op != OpChain || body[0].N.N != end[0].N.N || nextMaking(end[1:]) != nil {
		return 0
	}
	k := passedOver(body)
	if k == 1 || k == len(body) {
		return 0
	}
	return k
}

// passedOver is how many of the steps of a loop come before its stitch: its
// chain, and what it passes over.
func passedOver(loop []*Step) int {
	k := 1
	for k < len(loop) && loop[k].Op == OpSkip {
		k++
	}
	return k
}

// saysAgain reports an ending that begins as the repeat does, and so is all of the
// last pass: "*(ch 4, sc in next loop) twice, ch 4, dc in next 3 dc; rep from *,
// ending with (ch 4, sc in next loop) twice, ch 4".
func saysAgain(body, end []*Step) bool {
	if len(body) <= len(end) || len(end) == 0 {
		return false
	}
	for i := range min(len(end), 2) {
		a, b := body[i], end[i]
		if a.Op == OpGroup && b.Op == OpGroup && a.Times.Kind == b.Times.Kind && a.Times.N.N == b.Times.N.N && len(a.Body) == len(b.Body) {
			for k := range a.Body {
				if !makesAlike(a.Body[k], b.Body[k]) {
					return false
				}
			}
			return true
		}
		if !makesAlike(a, b) {
			return false
		}
	}
	return len(end) > 1
}

// makesAlike reports whether two steps make the same, though at other places.
func makesAlike(a, b *Step) bool {
	if a.Op != b.Op {
		return false
	}
	switch a.Op {
	case OpChain:
		return a.N.N == b.N.N
	case OpWork:
		return a.Stitch == b.Stitch && a.N.N == b.N.N && a.Target.N.N == b.Target.N.N && filters(a.Target)[0].Kind == filters(b.Target)[0].Kind
	case OpSkip:
		return a.Target.N.N == b.Target.N.N
	}
	return false
}

// groupAgain gives the group of the row below whose stitch an ending names as the
// repeat begins with it, "*sc in 3rd dc of next shell, 5 dc in next sc; rep from *,
// ending with sc in 3rd dc of last shell, 3 dc in last sc": whole passes go up to
// the last such group, and none of what lies between is passed over. It is nil for
// other endings.
func groupAgain(body, end []*Step) *Filter {
	if len(body) < 2 || len(end) == 0 || body[0].Op != OpWork || !makesAlike(body[0], end[0]) {
		return nil
	}
	a, b := body[0].Target.Within, end[0].Target.Within
	if a == nil || b == nil || a.Kind != NamedGroup || b.Kind != NamedGroup || a.Name != b.Name || body[0].Target.Which != end[0].Target.Which {
		return nil
	}
	return b
}

// closesInChain reports a group whose last chain is as long as another.
func closesInChain(g, ch *Step) bool {
	return g.Op == OpGroup && len(g.Body) > 0 && makesAlike(g.Body[len(g.Body)-1], ch)
}

// spacesTaken is how many spaces steps are worked into.
func spacesTaken(steps []*Step) int64 {
	n := int64(0)
	for _, s := range steps {
		switch {
		case s.Op == OpGroup && s.Times.Kind == Exactly:
			n += mul(s.Times.N.N, spacesTaken(s.Body))
		case (s.Op == OpWork || s.Op == OpInto) && filters(s.Target)[0].Kind == Space && (s.Target.Which == Next || s.Target.Which == Last):
			n += max(1, s.Target.N.N)
		}
	}
	return n
}

// endsAsBegun fills with a group until its ending, which takes so many spaces, uses
// up those that are left.
func (w *rowWork) endsAsBegun(s *Step, need int64) (bool, int64) {
	space := []Filter{{Kind: Space}}
	for n := int64(0); ; n++ {
		before := w.mark()
		left := w.left(space)
		if left == need && w.pass(s, s.ending.Body, n+1) {
			return true, n + 1
		}
		w.reset(before)
		if left < need || !w.pass(s, s.Body, n+1) || w.cur == before.cur {
			return false, n
		}
	}
}

// endsInChain reports whether the last thing that steps make is a chain.
func endsInChain(body []*Step) bool {
	for i := len(body) - 1; i >= 0; i-- {
		switch body[i].Op {
		case OpSkip, OpNote:
		case OpGroup:
			return endsInChain(body[i].Body)
		default:
			return body[i].Op == OpChain
		}
	}
	return false
}

// fillShort fills with a group whose last pass lacks its last stitches. What is
// passed over before them is left out too where nothing is there to pass.
func (w *rowWork) fillShort(s *Step, short, rest []*Step) (bool, int64) {
	m := w.mark()
	ok, n := w.fillPartial(s, short, rest)
	if k := len(short); k > 1 && short[k-1].Op == OpSkip && (!ok || w.misfitLeft != 0 || len(w.problems) > m.problems) {
		w.reset(m)
		w.misfitLeft = 0
		return w.fillPartial(s, short[:k-1], rest)
	}
	return ok, n
}

// omitted is a group without its last chain, the last k of its stitches, or several steps.
func omitted(body []*Step, e *Step) []*Step {
	n, k := len(body), e.Target.N.N
	if steps := int(e.N.N); steps > 1 && steps < n {
		return body[:n-steps]
	}
	if n == 0 {
		return nil
	}
	last := body[n-1]
	if last.Op == OpWork && last.Target.Which == Next && last.Target.N.N > k && last.N.N <= 1 && last.Legs == 0 && len(last.Target.N.Sizes) == 0 {
		c := *last
		c.Target.N.N -= k
		return append(append([]*Step(nil), body[:n-1]...), &c)
	}
	return body[:n-1]
}

// endsAlike reports whether an ending only says again how the group ends.
func endsAlike(body, end []*Step) bool {
	last := func(ss []*Step) *Step {
		for i := len(ss) - 1; i >= 0; i-- {
			if makesStitches(ss[i]) {
				return ss[i]
			}
		}
		return nil
	}
	a, b := last(body), last(end)
	if x, y := skips(body), skips(end); b == nil && x > 1 && y > 1 && x != y {
		return false // "*ch 5, skip 4, sc in next; rep from *, ending with ch 5, skip last 3"
	}
	if a != nil && b != nil && a.Op == OpInto && b.Op == OpInto && a.special != b.special {
		return false // shells, and half a shell to end with
	}
	if a != nil && b != nil && a.Op == OpInto && b.Op == OpWork && len(a.Body) > 0 {
		return madeWithin(a.Body, b.Stitch) == max(b.N.N, 1) // "shell in next sc; rep from *, ending with 3 dc in last sc"
	}
	return a == nil || b == nil || a.Op != OpWork || b.Op != OpWork || a.Stitch == b.Stitch && a.N.N == b.N.N
}

// madeWithin is how many of one stitch the steps of a group in one place make, or -1 where
// they make others too.
func madeWithin(body []*Step, id stitch.ID) int64 {
	n := int64(0)
	for _, s := range body {
		switch {
		case s.Op == OpWork && s.Stitch == id:
			n += max(s.N.N, 1)
		case s.Op != OpNote:
			return -1
		}
	}
	return n
}

// skips is how many places the last skip among some steps passes over, or 0.
func skips(steps []*Step) int64 {
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i].Op == OpSkip {
			return steps[i].Target.N.N
		}
	}
	return 0
}

// closesLoop reports whether an ending makes the last loop of a round in
// another way than the others, so that the next round begins in its middle:
// "*ch 7, skip 3, sc in next; rep from * around, ending with ch 3, tr in first
// st".
func closesLoop(body, end []*Step) bool {
	if len(body) < 2 || len(end) != 2 {
		return false
	}
	a, b, tall := body[0], end[0], end[1]
	return a.Op == OpChain && b.Op == OpChain && b.N.N < a.N.N && tall.Op == OpWork && tall.Stitch != stitch.Slip &&
		(tall.Target.Which == Same || tall.Target.Which == First || tall.Target.Which == TurnTop)
}

// closeLoop fills a round with a group whose last pass is only such an ending.
// It closes over what the last pass would have passed over and stood in.
func (w *rowWork) closeLoop(s *Step) (bool, int64) {
	n, each := int64(0), int64(0) // passes, and the places one of them uses
	if next := nextMaking(s.Body[1:]); next != nil && len(next.Target.Of) == 1 && next.Target.Of[0].Kind == Space {
		// into loops: the round closes once all of them are used
		for w.left(w.resolve(next, next.Target.Of)) > 0 {
			at := w.cur
			if !w.pass(s, s.Body, n+1) || w.cur == at {
				return false, n
			}
			n++
		}
		return w.run(s.ending.Body), n + 1
	}
	for {
		left := w.leftOver()
		if n > 0 && left <= each && (each > 1 || left == 0) { // with nothing to pass over, every place is used
			w.skipped += left
			w.cur = cursor{i: len(w.below.runs)}
			return left >= each-1 && w.run(s.ending.Body), n + 1
		}
		at := w.cur
		if !w.pass(s, s.Body, n+1) || w.cur == at {
			return false, n
		}
		n++
		each = left - w.leftOver()
	}
}

// placesLast reports whether an ending only says where the last stitch of the
// group goes in the last pass: "*ch 2, dc in next dc; rep from *, ending with
// dc in top of turning ch".
func placesLast(body, end []*Step) bool {
	if len(body) < 2 || len(end) != 1 {
		return false
	}
	a, b := body[len(body)-1], end[0]
	return a.Op == OpWork && b.Op == OpWork && a.Stitch == b.Stitch && a.N.N == b.N.N && a.Legs == b.Legs &&
		a.Target.Which == Next && a.Target.N.N <= 1 && (b.Target.Which == TurnTop || b.Target.Which == Nth)
}

// leftAfter is how many places would be left over once the steps after are
// worked.
func (w *rowWork) leftAfter(rest []*Step) int64 {
	return max(0, w.leftOver()-w.needAll(rest))
}

// filet works meshes named in words: "3 open meshes, 2 solid meshes".
func (w *rowWork) filet(s *Step) bool {
	n := max(1, s.Target.N.At(w.pr.size))
	solid := s.Name == "solid mesh"
	if w.below.free {
		return w.freeMeshes(s, n, solid)
	}
	if s.Target.Which == Each {
		have, ok := meshesIn(w.below)
		if !ok {
			return w.fail(CodeNoPlace, s, 0, "the row is to be all meshes, and how many there are does not show in the row below")
		}
		n = have
	}
	if !w.begun && w.chained == 0 && w.nest == 0 && !w.meshBegun && !w.below.chain && w.kind == FlatRow {
		// a row told in meshes alone: the chain it turns with is understood, and
		// stands for the first tall stitch, or for that and the first space
		if _, _, ok := w.seek(nil); ok {
			w.take(1)
			w.make(place{stitch: stitch.DC, turn: true}, 1)
			w.begun, w.stands = true, true
			w.leaf(s, 1)
			if !solid {
				w.chained = 5
				w.pending = 2
			}
		}
	}
	if w.meshes >= 0 {
		w.meshes += n
	}
	if w.nest > 0 {
		w.meshes = -1 // a pass that is tried and taken back would count twice
	}
	for i := int64(0); i < n; i++ {
		if !w.step(s) {
			return false
		}
		w.norm()
		opening := i == 0 && w.chained >= 5 && w.pending > 0 && !w.meshBegun && !solid
		if i == 0 && !w.meshBegun {
			w.meshBegun = true
		}
		if w.below.chain {
			if w.left(nil) < 3 {
				return w.overrun(s, n-i, 3)
			}
			if !solid {
				w.cur.off += 2
				w.norm()
				w.pending = 2
				w.take(1)
				w.emit(s, place{stitch: stitch.DC}, 1)
			} else {
				w.take(3)
				w.emit(s, place{stitch: stitch.DC}, 3)
			}
			continue
		}
		if w.ended() {
			return w.overrun(s, n-i, 1)
		}
		if !solid && !opening {
			w.pending = 2
		}
		if w.below.runs[w.cur.i].kind == pSpace {
			w.take(1)
		} else {
			for k := 0; k < 2; k++ {
				w.norm()
				if w.ended() || w.below.runs[w.cur.i].kind == pSpace {
					return w.overrun(s, n-i, 1)
				}
				if solid {
					w.take(1)
				} else {
					w.cur.off++
					w.norm()
				}
			}
		}
		w.norm()
		if w.ended() {
			return w.overrun(s, n-i, 1)
		}
		w.take(1)
		made := int64(1)
		if solid {
			made = 3
		}
		w.emit(s, place{stitch: stitch.DC}, made)
	}
	return true
}
