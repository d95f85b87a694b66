package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/stitch"
)

// options is how the words of a row are read where they can be read in two
// ways. The zero value is the usual reading.
type options uint32

const (
	optStarInAll   options = 1 << iota // "rep from * 5 times": five in all
	optBareInc                         // "2 sc" in a list: two in one place
	optOneEach                         // "2 sc in next 2 sts": one in each
	optLooseNames                      // "in each sc" means any stitch
	optSkipUnder                       // the stitch skipped first is the one under the turning chain
	optChainsCount                     // "each st" takes chain spaces too
	optFlipTurn                        // the chain at the start counts where it usually does not, or the other way about
	optSlips                           // slip stitches of the row below are worked like others
	optNoSkip                          // the foundation is worked from its first chain
	optStarMore                        // a number that was to be in all is meant as so many more
	optPlainFirst                      // "(6 dec) 3 times": six plain ones and a decrease
	optNoWrap                          // the last place of a round is not under the first stitch
	optFromSpace                       // the round begins in a space of the one below
	optPastSpace                       // or behind one
)

func (o options) has(b options) bool { return o&b != 0 }

// maxSteps bounds the work spent on one row.
const maxSteps = 400_000

func (w *rowWork) fail(code Code, s *Step, over int64, format string, args ...any) bool {
	w.problems = append(w.problems, problem{code: code, sev: Error, step: s, over: over, fatal: true, msg: fmt.Sprintf(format, args...)})
	return false
}

func (w *rowWork) warn(code Code, s *Step, format string, args ...any) {
	w.problems = append(w.problems, problem{code: code, sev: Warning, step: s, msg: fmt.Sprintf(format, args...)})
}

// run works a list of steps. It is false where the row runs out of places.
func (w *rowWork) run(steps []*Step) bool {
	for i, s := range steps {
		if !w.step(s) {
			return false
		}
		if !w.exec(s, steps[i+1:]) {
			return false
		}
	}
	return true
}

// ground gives a row that has nothing below it a fabric whose places nobody
// knows, for steps that cannot begin one of their own.
func (w *rowWork) ground() {
	if w.below == nil {
		w.below = &fabric{free: true}
	}
}

// flush turns chains made since the last stitch into a space.
func (w *rowWork) flush(in bool, name string) {
	if w.pending > 0 {
		w.make(place{kind: pSpace, size: int32(min(w.pending, 1<<30)), in: in, name: name}, 1)
		w.pending, w.held = 0, 0
	}
}

// spanning are the chains made since the last stitch that lie over the row below.
func (w *rowWork) spanning() int64 { return max(0, w.pending-w.held) }

// emit makes n stitches.
func (w *rowWork) emit(s *Step, p place, n int64) {
	if n <= 0 {
		return
	}
	w.flush(p.in && !p.first, p.name)
	w.log.work(s, p, n, w.inRing())
	if p.first {
		w.out.add(p, 1)
		p.first = false
		w.out.add(p, n-1)
	} else {
		w.out.add(p, n)
	}
	w.begun, w.by = true, s
	if w.nest > 0 {
		w.by = nil
	}
	c := n
	if !p.counts() {
		c = 0
	}
	w.leaf(s, c)
}

// emitEach makes per stitches in each of n places. Several tall ones in one
// place, or three of any kind, are a group that later rows may go by.
func (w *rowWork) emitEach(s *Step, p place, per, n int64) {
	w.log.each(n, per)
	group := per >= 3 || per >= 2 && stitch.Of(s.Stitch).Turn >= 3
	if !group || int64(len(w.out.runs))+n > maxGroups {
		w.emit(s, p, mul(per, n))
		return
	}
	p.in = true
	for ; n > 0; n-- {
		w.flush(false, "") // what stands between two groups is part of neither
		p.first = true
		w.emit(s, p, per)
	}
}

// maxGroups is how many groups of one row are told apart: five in each stitch,
// row after row, are soon more than anybody makes.
const maxGroups = 20_000

func (w *rowWork) exec(s *Step, rest []*Step) bool {
	switch s.Op {
	case OpWork:
		if s.isMesh() {
			w.ground()
			return w.filet(s)
		}
		if s.isBlock() {
			w.ground()
			return w.blocks(s)
		}
		if w.closesWith(s, rest) {
			w.join(s, rest)
			w.out.closed = s.Stitch
			return true
		}
		w.restCount(s, rest)
		return w.work(s, rest)
	case OpInto:
		return w.into(s, rest)
	case OpGroup:
		return w.group(s, rest)
	case OpAlong:
		return w.along(s, rest)
	case OpChain:
		return w.chain(s, rest)
	case OpSkip:
		w.leaf(s, 0)
		if s.Name == meshEnd {
			return w.skipMeshes(s)
		}
		if w.skipsAtHook(s, rest) {
			return true
		}
		ok := w.skip(s)
		if w.below == nil {
			return ok // nothing is known of what is skipped
		}
		w.norm()
		w.hopped = w.cur
		return ok
	case OpPicot:
		w.make(place{kind: pPicot, size: int32(min(s.N.At(w.pr.size), 1<<20))}, 1)
		w.leaf(s, 0)
	case OpJoin:
		w.join(s, rest)
	case OpRing:
		w.ring(s)
	case OpLeave:
		w.leave = true
		w.leaves(s, rest)
		w.leaf(s, 0)
	case OpAttach:
		return w.attach(s)
	case OpDelta:
		if every := s.Target.N.At(w.pr.size); every > 0 {
			w.delta += s.N.At(w.pr.size) * (w.taken / every)
		} else {
			w.delta += s.N.At(w.pr.size)
		}
		w.deltaSet, w.deltaStep = true, s
		w.leaf(s, 0)
	case OpOtherSide:
		w.otherSide(s)
	case OpFree:
		w.edge(s)
	case OpEven:
		w.ground()
		e := *s
		e.Op, e.N = OpWork, Num{N: 1}
		if e.Stitch == stitch.None {
			e.Stitch = w.mainBelow()
		}
		e.Target = Target{Which: Each, N: s.Target.N, Bound: s.Target.Bound}
		if e.Target.Bound.Kind == NoBound {
			e.Target.Bound.Kind = ToEnd
		}
		if n := s.Target.N.At(w.pr.size); n > 0 && w.below != nil && !w.below.free && w.left(nil) < n {
			return w.fail(CodeOverrun, s, n-w.left(nil), "%s more are needed here than the row below has (%s)", countWords(n-w.left(nil), "stitch", "stitches"), countWords(w.below.stitches(0, 0, false), "stitch", "stitches"))
		}
		return w.eachAs(s, &e, rest)
	case OpTurn:
		w.turn(s, rest)
	default:
		w.leaf(s, 0)
	}
	return true
}

// turn works the rest of the row back over what it has made so far.
func (w *rowWork) turn(s *Step, rest []*Step) {
	w.leaf(s, 0)
	if !w.workedYet() {
		return
	}
	more := false
	for _, r := range rest {
		more = more || makesStitches(r)
	}
	if !more {
		return
	}
	done := w.out
	w.below, w.out = (&done).reversed(), fabric{}
	w.log.turn(w.below)
	w.cur, w.lastSet, w.begun, w.taken, w.skipped, w.leave = cursor{}, false, false, 0, 0, false
	w.trace = zeroed(w.trace)
	w.tangled = w.tangled || w.nest > 0
}

// workedYet reports whether anything but a turning chain has been made.
func (w *rowWork) workedYet() bool {
	for i := range w.out.runs {
		if !w.out.runs[i].turn {
			return true
		}
	}
	return false
}

// mainBelow is the stitch that most of the row below is made of.
func (w *rowWork) mainBelow() stitch.ID {
	var best stitch.ID
	var most int64
	var n [64]int64
	for i := range w.below.runs {
		r := &w.below.runs[i]
		if r.counts() && int(r.stitch) < len(n) {
			if n[r.stitch] += r.n; n[r.stitch] > most {
				most, best = n[r.stitch], r.stitch
			}
		}
	}
	if best == stitch.None {
		return stitch.SC
	}
	return best
}

func (w *rowWork) ring(s *Step) {
	w.leaf(s, 0)
	if w.begun {
		return
	}
	if s.N.At(w.pr.size) > 0 && w.below != nil && len(w.below.runs) > 0 && w.below.chain {
		w.below.ring, w.below.chain = true, false
		return
	}
	w.below = &fabric{ring: true, magic: true}
	w.cur = cursor{}
}

// join closes a round: chains not yet closed by a stitch become its last
// space.
func (w *rowWork) join(s *Step, rest []*Step) {
	w.leaf(s, 0)
	if !w.begun {
		return
	}
	w.joined = true
	if s.Stitch != stitch.None && s.Stitch != stitch.Slip {
		w.pending += int64(stitch.Of(s.Stitch).Turn) // a tall stitch stands for chains
	}
	w.closing = w.spanning()
	w.flush(w.oneGroup(), "")
}

// oneGroup reports whether all that the round has made stands in one place, as what is
// worked into a ring does: its last space is then like the others.
func (w *rowWork) oneGroup() bool {
	for i := range w.out.runs {
		if r := &w.out.runs[i]; !r.in || r.first != (i == 0) {
			return false
		}
	}
	return len(w.out.runs) > 1
}

// closesWith reports whether a stitch at the end of a round stands for the rest
// of its last loop: "ch 2, dc in first sc", where the other loops are of five
// chains. It closes the round, and the next begins in that loop.
func (w *rowWork) closesWith(s *Step, rest []*Step) bool {
	tall := int64(stitch.Of(s.Stitch).Turn)
	if w.kind != Round || !w.begun || w.pending == 0 || tall < 2 || s.Legs > 0 || s.N.At(w.pr.size) != 1 || s.Target.Row != nil {
		return false
	}
	if s.Target.Which != First && s.Target.Which != TurnTop || s.Target.N.At(w.pr.size) > 1 || nextMaking(rest) != nil {
		return false
	}
	loop, made := int64(0), false
	for i := range w.out.runs {
		r := &w.out.runs[i]
		if r.kind == pSpace {
			loop = max(loop, int64(r.size))
		}
		made = made || r.kind == pStitch && len(s.Target.Of) == 1 && r.stitch == s.Target.Of[0].Stitch
	}
	return w.pending < loop && loop <= w.pending+tall+1 && (made || s.Target.Which == TurnTop || len(s.Target.Of) == 0)
}

// attach joins yarn at a place, which may be on another row.
func (w *rowWork) attach(s *Step) bool {
	if s.Target.Row != nil && (s.Target.Row.Piece == "\x00" || s.Target.Row.Piece == besideThis) {
		w.elsewhere = true
		if s.Stitch != stitch.None {
			w.emit(s, place{stitch: s.Stitch}, 1)
		} else {
			w.leaf(s, 0)
		}
		return true
	}
	if s.Target.Row != nil && w.host == nil && (s.Target.Row.Piece != "" || s.Target.Row.Number > 0) && !w.begun {
		w.pc.toHost(w, s.Target.Row, s)
	} else if w.goesOnBeside(s) {
		w.pc.toRest(w, s)
	}
	t := s.Target
	if w.below == nil {
		w.below = &fabric{free: true}
	}
	n := t.N.At(w.pr.size)
	switch t.Which {
	case First, Nth:
		if t.Which == First {
			n = 1
		}
		if len(w.below.runs) == 0 {
			w.elsewhere = true // "along the other side of the foundation, join in first ch"
		} else if !w.below.free && !w.absolute(n, t.Of) {
			return w.fail(CodeOverrun, s, 0, "there is no %s stitch to join in: the row has %s", ordinal(n), w.offers())
		}
	case Last:
		w.seekLast(max(n, 1), t.Of)
	case Next, Anywhere:
		if len(t.Of) > 0 {
			if _, _, ok := w.seek(t.Of); !ok {
				w.seek([]Filter{{Kind: Space}})
			}
			if w.kind == Round && !w.begun && w.host == nil && !w.ended() && w.below.runs[w.cur.i].kind == pSpace && w.cur != (cursor{}) {
				w.rotate(w.cur) // the round begins in that corner, and comes back to it
				w.travelled = false
			}
		} else {
			w.norm()
			if !w.ended() && !w.workable(&w.below.runs[w.cur.i].place) {
				w.seek(nil)
			}
		}
	}
	if !w.ended() {
		r := &w.below.runs[w.cur.i]
		w.last, w.lastSet, w.lastFresh, w.lastAt = r.place, true, true, w.cur
	}
	w.attached = w.attached || w.host != nil
	if w.host != nil && w.host.from < 0 {
		w.host.from = w.position(w.cur)
	}
	if s.Stitch != stitch.None {
		if !w.ended() {
			w.take(1)
		}
		w.emit(s, place{stitch: s.Stitch}, 1)
		return true
	}
	w.leaf(s, 0)
	return true
}

// position is the number of a place in the fabric below, from 0, stitches
// only.
func (w *rowWork) position(c cursor) int64 {
	n := int64(0)
	for i := 0; i < c.i && i < len(w.below.runs); i++ {
		if w.below.runs[i].isStitch() || w.below.runs[i].kind == pChain {
			n += w.below.runs[i].n
		}
	}
	return n + c.off
}

// absolute moves to the n-th place of the row that answers.
func (w *rowWork) absolute(n int64, of []Filter) bool {
	left := n - 1
	for i := range w.below.runs {
		r := &w.below.runs[i]
		if !w.matches(&r.place, of) {
			continue
		}
		if left < r.n {
			w.cur = cursor{i, left}
			return true
		}
		left -= r.n
	}
	return false
}

// seekLast moves to the last n places that answer and gives how many stitches
// were stepped over.
func (w *rowWork) seekLast(n int64, of []Filter) (stepped int64, ok bool) {
	total := w.left(of)
	if total < n {
		return 0, false
	}
	w.reached0 += total - n
	skip := total - n
	for skip > 0 {
		if _, _, ok := w.seek(of); !ok {
			return stepped, false
		}
		k := min(skip, w.runLeft())
		w.cur.off += k
		skip -= k
		stepped += k
		w.norm()
	}
	w.seek(of)
	return stepped, true
}

// offers says what the row below has.
func (w *rowWork) offers() string { return w.offersOf(nil) }

// offersOf says how many places of a description the row below has, all told.
func (w *rowWork) offersOf(of []Filter) string {
	one, many := w.units(of)
	if len(of) > 0 && of[0].Kind == Space {
		n := int64(0)
		for i := range w.below.runs {
			if r := &w.below.runs[i]; r.kind == pSpace || r.kind == pGap {
				n += r.n
			}
		}
		return countWords(n, one, many)
	}
	return countWords(w.below.stitches(0, 0, false), one, many)
}

// units is what places of a description are called.
func (w *rowWork) units(of []Filter) (one, many string) {
	switch {
	case len(of) > 0 && of[0].Kind == Space:
		return "space", "spaces"
	case w.below.chain:
		return "chain", "chains"
	}
	return "stitch", "stitches"
}

func countWords(n int64, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func ordinal(n int64) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, suffix)
}

// skip passes over places.
func (w *rowWork) skip(s *Step) bool {
	t := s.Target
	n := t.N.At(w.pr.size)
	if t.Row != nil && w.host == nil && !w.begun {
		w.pc.toHost(w, t.Row, s)
	} else if w.goesOnBeside(s) {
		w.pc.toRest(w, s)
	}
	if w.below == nil || namesSlips(s) && !w.below.free && !w.below.has(t.Of[0]) {
		return true // slip stitches that join are no places of the row
	}
	switch t.Which {
	case Each, Last:
		if left := w.left(t.Of); left == 0 {
			w.reached0 += beyond // there is none to skip
		} else if t.Which == Last {
			w.reached0 += max(0, left-max(1, n))
		}
		if left := w.left(t.Of); t.Which == Last && n > 1 && w.below != nil && !w.below.free {
			if left < n {
				return w.fail(CodeOverrun, s, n-left, "%s needed here than the row below has left (%s)", countWords(n-left, "stitch more is", "stitches more are"), countWords(left, "stitch", "stitches"))
			}
			w.passed += left - n // so many were counted out
			w.toLast += left - n
		}
		w.skipped += w.left(t.Of)
		if t.Which == Each {
			w.cur = cursor{i: len(w.below.runs)}
		} else {
			w.leave = true
		}
		return true
	case First:
		if w.stands && w.taken <= 1 && (len(t.Of) == 0 || t.Of[0].Kind != Space) {
			if n = max(n, 1) - 1; n == 0 {
				w.underTold = true
				return true // the stitch under the turning chain
			}
		}
	case RowEnds:
		w.elsewhere, w.free, w.begun = true, true, true
		return true
	case TurnTop:
		return true
	}
	if w.stands && w.taken == 1 && w.skipped == 0 && n == 1 && !w.underTold && !w.workedYet() && len(t.Of) < 2 && (len(t.Of) == 0 || t.Of[0].Kind != Space) {
		// "3 ch, turn, miss 1 tr": usually the one under the chain, unless the
		// chain carries a space
		if under := t.plain && w.pending == 0 && t.Which == Next; under != w.opts.has(optSkipUnder) {
			w.underTold = true // a second skip is one
			return true
		}
	}
	if n == 2 && w.stands && w.taken == 1 && w.skipped == 0 && !w.underTold && w.pending > 0 && t.plain && t.Which == Next && len(t.Of) < 2 && (len(t.Of) == 0 || t.Of[0].Kind != Space) && w.opts.has(optSkipUnder) {
		n = 1 // "4 ch, miss 2 d.c.": the one under the chain and the one under its space
	}
	if w.below.chain && w.cur == (cursor{}) && !w.begun && n >= 1 {
		w.lastSet = true // an instruction where to begin: nothing is skipped besides
		w.pc.hook, w.pc.foundation = n+1, w.below.size()
		defer func() {
			if !w.ended() && !w.begun {
				w.last, w.lastFresh, w.lastAt = w.below.runs[w.cur.i].place, true, w.cur
			}
		}()
		if c := s.Counts; c.Said && c.As != stitch.None {
			c = fillCounts(c, n, stitch.DC, nil)
			w.cur.off += n
			w.skipped += n
			w.norm()
			p := place{stitch: c.As, turn: true, size: int32(min(n, 1<<20))}
			w.make(p, 1)
			w.begun = true
			w.leaf(s, p.worth(1))
			return true
		}
	}
	if w.ownLeft() && t.Which == Next && len(t.Of) > 0 && (t.Of[0].Kind == ChainStitch || t.Of[0].Kind == AnyStitch && n <= w.own[0].n) {
		// of the chain that is worked back along, and then of the row below
		k := min(n, w.own[0].n)
		if w.own[0].n, n = w.own[0].n-k, n-k; w.own[0].n == 0 {
			w.own = nil
		}
		if w.skipped += k; n == 0 {
			return true
		}
	}
	w.named = false
	w.lastFresh = false
	if w.norm(); t.orSpace && !w.ended() && w.below.runs[w.cur.i].kind == pSpace {
		w.cur.off++
		w.norm()
		return true
	}
	for all := n; n > 0; {
		stepped, inGroup, ok := w.seek(t.Of)
		if stepped > 0 && !inGroup && n < all && len(t.Of) == 1 && t.Of[0].Kind == OneStitch && !w.below.free {
			// "skip 3 dc" where two dc stand before the next sc: that one is passed as well
			w.passed += stepped
			w.stepOver(s, stepped)
		}
		if !ok {
			if len(t.Of) > 0 && w.left(nil) > 0 {
				if _, _, ok = w.seek(nil); !ok {
					return true
				}
			} else if w.slack > 0 || w.below.free {
				return true
			} else {
				return w.fail(CodeOverrun, s, n, "%s to skip here, and the row below is used up (it has %s)", countWords(n, "stitch", "stitches"), w.offers())
			}
		}
		if w.tchApart && w.below.runs[w.cur.i].turn {
			w.reached0 += beyond // it is worked into by its name
		}
		k := min(n, w.runLeft())
		if r := &w.below.runs[w.cur.i]; r.kind == pSpace && r.size > 1 && len(t.Of) > 0 && t.Of[0].Kind == ChainStitch {
			// "ch 2, sk 2 ch": the chains of a space are passed with it
			k = min(max(1, n/int64(r.size)), w.runLeft())
			n -= k * int64(r.size-1)
		}
		w.cur.off += k
		if w.below.runs[w.cur.i].counts() || w.below.runs[w.cur.i].kind == pChain {
			w.skipped += k
		}
		n -= k
		w.norm()
	}
	return true
}

// edge works along row ends or an edge: only the author knows how many.
func (w *rowWork) edge(s *Step) {
	n := s.N.At(w.pr.size)
	if n == 0 {
		w.free = true
		w.leaf(s, 0)
		w.begun = true
		w.elsewhere = true
		w.below = &fabric{free: true} // past the first edge nobody knows where it lies
		return
	}
	w.elsewhere, w.edged = true, true
	w.out.edged = true
	p := place{stitch: s.Stitch}
	switch plain := n - s.sides*s.corner; {
	case s.inCorner:
		w.emitEach(s, p, n, 1)
	case s.sides > 0 && s.corner > 0 && plain > 0:
		for k := range s.sides { // as evenly as they come out
			w.emit(s, p, plain*(k+1)/s.sides-plain*k/s.sides)
			w.emitEach(s, p, s.corner, 1)
		}
	default:
		w.emit(s, p, n)
	}
	if w.below != nil && w.kind == Round && w.ended() && w.taken > 0 {
		w.below = &fabric{free: true} // round the corner lies an edge that no row below tells of
	}
}
