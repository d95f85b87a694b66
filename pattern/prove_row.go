package pattern

import (
	"fmt"
	"math"

	"crochet/tallyturn/pattern/stitch"
)

// attempt works a row once under a reading.
func (w *pieceWork) attempt(row *Row, below *fabric, opts options) *rowWork {
	rw := &rowWork{pr: w.pr, pc: w, row: row, opts: opts, kind: row.Kind, untraced: w.trial != nil && !w.trial.settled()}
	rw.out.runs = make([]run, 0, 8) // as many as most rows come to
	below = w.folded(row, below)
	w.pr.spend(8)
	if below != nil {
		w.pr.spend(len(below.runs) / 4)
	}
	if below != nil {
		f := *below
		f.slips = w.slipsCount(&f) || opts.has(optSlips)
		rw.below = &f
	}
	rw.back = below != w.below
	rw.log = w.links.newLog(w, rw.below, rw.back)
	if joinsRound(row.Steps) || w.belowJoined && row.Kind == FlatRow && !turnsFirst(row) && !turnIn(w.carry) {
		rw.kind = Round
	}
	rw.beginElsewhere(opts)
	body, tail := splitTail(row.Steps, row.Kind)
	rw.evidence(body)
	for _, s := range body {
		rw.tchApart = rw.tchApart || namesTurn(s)
	}
	if worksParts(body) {
		rw.below = &fabric{free: true} // it goes round several parts: only its own numbers tell
		rw.elsewhere = true
	}
	w.onEarlier(rw, body)
	steps := append(append(append([]*Step(nil), w.leadOf(row, body)...), row.Setup...), body...)
	ok := rw.run(steps)
	if ok && rw.kind == Round && !rw.joined && rw.pending > 0 {
		rw.closing = rw.spanning()
		rw.flush(rw.oneGroup(), "") // a spiral's last space
	}
	if ok && rw.kind == FlatRow && skipsUnderChain(body) {
		rw.flush(rw.oneGroup(), "") // "ch 1, sk 1" at its very end: the turn closes the space
	}
	rw.leave = rw.leave || endsShort(body, tail)
	for _, s := range tail {
		rw.leaf(s, 0)
	}
	if rw.out.tooMany() {
		rw.fail(CodeTooLarge, nil, 0, "the row makes more than %d stitches", int64(maxNumber))
		rw.out = fabric{}
		rw.trace = nil
	}
	if rw.deltaSet {
		rw.applyDelta()
	}
	return rw
}

// skipsUnderChain reports whether the last a row does is to pass places over under chains.
func skipsUnderChain(body []*Step) bool {
	var before, last *Step
	for _, s := range body {
		if s.Op != OpNote && s.Op != OpColour {
			before, last = last, s
		}
	}
	switch {
	case last == nil:
		return false
	case last.Op == OpGroup:
		// words behind a repeat may tell how it ends
		return last == body[len(body)-1] && last.ending == nil && skipsUnderChain(last.Body)
	}
	return last.Op == OpSkip && before != nil && before.Op == OpChain
}

// endsShort reports whether the last work of a row runs to within so many
// stitches of the end, and they are left: "work to within last 3 sts", "sc to
// last 2 sts, turn".
func endsShort(body, tail []*Step) bool {
	turn := false
	for _, s := range tail {
		turn = turn || s.Op == OpTurn
	}
	for i := len(body) - 1; i >= 0; i-- {
		s := body[i]
		turn = turn || s.Op == OpTurn
		if !makesStitches(s) {
			continue
		}
		for _, b := range []Bound{s.Target.Bound, s.Times.Bound} {
			if b.Kind == ToLast && (b.within || turn) {
				return true
			}
		}
		return false
	}
	return false
}

// worksParts reports whether a row goes round parts made elsewhere.
func worksParts(steps []*Step) bool {
	for _, s := range steps {
		if s.Target.Row != nil && s.Target.Row.Piece == "\x00" || worksParts(s.Body) {
			return true
		}
	}
	return false
}

// leadOf is what the row before left to this one: its turning chain. Where
// the row makes its own, that is only said twice.
func (w *pieceWork) leadOf(row *Row, body []*Step) []*Step {
	if len(w.carry) == 0 {
		return nil
	}
	own := false
	for _, s := range append(append([]*Step(nil), row.Setup...), body...) {
		if s.Op == OpChain {
			own = true
		}
		if makesStitches(s) || s.Op == OpChain || s.Op == OpAttach {
			own = own || s.Op == OpAttach
			break
		}
	}
	if !own {
		return w.carry
	}
	var out []*Step
	for _, s := range w.carry {
		if s.Op != OpChain {
			out = append(out, s)
		}
	}
	return out
}

func turnsFirst(row *Row) bool {
	for _, s := range row.Steps {
		if s.Op == OpTurn {
			return true
		}
		if makesStitches(s) {
			return false
		}
	}
	return false
}

func turnIn(steps []*Step) bool {
	for _, s := range steps {
		if s.Op == OpTurn {
			return true
		}
	}
	return false
}

// namesTurn reports whether a step works into the turning chain by name.
func namesTurn(s *Step) bool {
	if (s.Op == OpWork || s.Op == OpInto) && s.Target.Which == TurnTop {
		return true
	}
	for _, b := range s.Body {
		if s.special == nil && namesTurn(b) {
			return true
		}
	}
	return s.ending != nil && len(s.ending.Body) > 0 && namesTurn(s.ending.Body[len(s.ending.Body)-1])
}

// evidence reads off where the round is joined what its first chain is worth.
func (rw *rowWork) evidence(steps []*Step) {
	for _, s := range steps {
		if s.Op != OpJoin {
			continue
		}
		switch t := s.Target; {
		case t.Which == TurnTop, t.Which == Nth && len(t.Of) > 0 && t.Of[0].Kind == ChainStitch:
			rw.joinsChain = true
		case t.Which == First && len(t.Of) > 0 && t.Of[0].Kind == OneStitch, t.Which == Next && len(t.Of) > 0 && t.Of[0].Kind == OneStitch:
			rw.joinsStitch = true
		}
	}
}

// slipsCount reports whether the slip stitches of a row are worked into like
// others: where there is nothing else, or where they stand amid stitches.
func (w *pieceWork) slipsCount(f *fabric) bool {
	other := false
	for i := range f.runs {
		if f.runs[i].counts() {
			other = true
		}
	}
	if !other {
		return true
	}
	n := len(f.runs)
	for i := range f.runs {
		if r := &f.runs[i]; r.kind == pStitch && r.stitch == stitch.Slip && i > 0 && i < n-1 {
			return true
		}
	}
	return false
}

// applyDelta makes the increases and decreases whose places are free.
func (rw *rowWork) applyDelta() {
	if !rw.begun && rw.below != nil && rw.below.free {
		rw.free = true // so many more than nobody knows
		return
	}
	if !rw.begun && rw.below != nil {
		e := &Step{Op: OpWork, Stitch: rw.mainBelow(), N: Num{N: 1}, Target: Target{Which: Each, Bound: Bound{Kind: ToEnd}}}
		rw.eachAs(e, e, nil)
		if rw.grownAlike() {
			return
		}
	}
	best := -1
	for i := range rw.out.runs {
		if r := &rw.out.runs[i]; r.counts() && (best < 0 || r.n > rw.out.runs[best].n) {
			best = i
		}
	}
	if best < 0 {
		return
	}
	r := &rw.out.runs[best]
	by := max(-r.n, rw.delta)
	r.n += by
	if by > 0 {
		rw.trace = append(rw.trace, &Trace{Step: rw.deltaStep, Times: 1, Stitches: by})
		return
	}
	for i := len(rw.trace) - 1; i >= 0 && by < 0; i-- {
		rw.trace[i], by = shortened(rw.trace[i], by)
	}
}

// grownAlike makes a row that is told only by how many more stitches it has than the one
// below it like that one: the spaces and the turning chain stand where they stood, and the
// stitches added stand on both sides of what is in the middle. A row without either is any
// row, and one with fewer stitches may have lost them anywhere.
func (rw *rowWork) grownAlike() bool {
	like := rw.below
	if rw.kind == FlatRow {
		like = like.reversed()
	}
	plain := fabric{}
	for _, r := range like.runs {
		plain.add(place{kind: r.kind, stitch: r.stitch, size: r.size, turn: r.turn}, r.n) // no group is told
	}
	first, last, marked := -1, -1, false
	for i := range plain.runs {
		r := &plain.runs[i]
		switch {
		case r.kind == pSpace || r.turn:
			marked = true
		case !r.counts():
			return false
		case first < 0 || r.n > plain.runs[first].n+1: // the turning chain is one of a side
			first, last = i, i
		case r.n+1 >= plain.runs[first].n:
			last = i
		}
	}
	if !marked || first < 0 || rw.delta <= 0 {
		return false
	}
	id, at := int32(0), int64(0)
	if len(rw.out.runs) == 1 {
		id = rw.out.runs[0].id
	}
	rw.out.runs = nil
	for i, r := range plain.runs {
		if i == last {
			r.n += rw.delta - rw.delta/2
		}
		if i == first {
			r.n += rw.delta / 2
		}
		if r.id = 0; r.kind != pSpace {
			r.id = later(id, at)
			at += r.n
		}
		rw.out.add(r.place, r.n)
	}
	rw.trace = append(rw.trace, &Trace{Step: rw.deltaStep, Times: 1, Stitches: rw.delta})
	return true
}

// shortened takes stitches off the end of a trace: as many as it has, of by,
// a negative number. What is left of by comes back.
func shortened(t *Trace, by int64) (*Trace, int64) {
	if t.total() == 0 || by == 0 {
		return t, by
	}
	c := *t
	if t.Kids == nil {
		off := min(t.Stitches, -by)
		c.Stitches -= off
		return &c, by + off
	}
	if t.Times > 1 {
		// the last time through is told apart from those before it
		last := c
		c.Times--
		last.First, last.Times = c.First+c.Times, 1
		end, rest := shortened(&last, by)
		before := &c
		if rest < 0 {
			before, rest = shortened(before, rest)
		}
		return &Trace{Times: 1, Stitches: before.total() + end.total(), Kids: []*Trace{before, end}}, rest
	}
	c.Kids = append([]*Trace(nil), t.Kids...)
	for i := len(c.Kids) - 1; i >= 0 && by < 0; i-- {
		c.Kids[i], by = shortened(c.Kids[i], by)
	}
	c.Stitches = sumTrace(c.Kids)
	return &c, by
}

// leftOver counts the stitches of the row below that were not reached and
// should have been.
func (rw *rowWork) leftOver() int64 {
	if rw.below == nil || rw.below.free || rw.leave || rw.below.magic || rw.attached || rw.host != nil {
		return 0
	}
	if rw.below.ring && rw.named || rw.elsewhere && (rw.taken == 0 || rw.edged) {
		return 0
	}
	if rw.below.chain && len(rw.out.runs) == 0 && rw.taken == 0 {
		return 0 // a row that is nothing but the foundation chain
	}
	n := int64(0)
	off := rw.cur.off
	for i := rw.cur.i; i < len(rw.below.runs); i++ {
		r := &rw.below.runs[i]
		if r.counts() || r.kind == pChain {
			n += r.n - off
		}
		off = 0
	}
	if rw.own != nil {
		n += rw.own[0].n
	}
	if rw.named && rw.own == nil {
		return 0
	}
	if rw.closing > 0 && n <= rw.closing+1 && n <= rw.spanned() {
		return 0
	}
	if rw.kind == Round && rw.behind > 0 && n <= rw.behind && rw.joined {
		return 0 // the round begins so far on, and closes over them
	}
	if rw.slack > 0 && n <= 1 {
		return 0
	}
	return n
}

// spanned is how many places the last loop of a round may close over: as many as the
// widest skip of the row, for each loop of a round goes over the same. Where places are
// found by name nobody can tell.
func (rw *rowWork) spanned() int64 {
	if rw.passed > 0 || rw.behind > 0 {
		return math.MaxInt64
	}
	return widestSkip(rw.row.Steps, rw.pr.size)
}

// widestSkip is the largest number of places that one of the steps skips.
func widestSkip(steps []*Step, size int) int64 {
	n := int64(0)
	for _, s := range steps {
		if s.Op == OpSkip {
			n = max(n, s.Target.N.At(size), 1)
		}
		n = max(n, widestSkip(s.Body, size))
	}
	return n
}

// rawLeft counts the stitches after the last place used, whatever closes over
// them.
func (rw *rowWork) rawLeft() int64 {
	if rw.named || rw.leave || rw.ended() {
		return 0
	}
	return rw.below.stitches(rw.cur.i, rw.cur.off, false)
}

// outcome is how a row came out under a reading.
type outcome struct {
	rw      *rowWork
	made    int64
	status  Status
	way     string // how the total was counted, where not the usual way
	cmp     comparison
	left    int64
	fatal   *problem
	trouble int // 0 where nothing is amiss
}

// judge compares what a row made with what it states.
func (w *pieceWork) judge(rw *rowWork, total *Total) outcome {
	o := outcome{rw: rw, made: countOf(&rw.out)}
	if !rw.free {
		o.left = rw.leftOver()
	}
	for i := range rw.problems {
		if rw.problems[i].fatal {
			o.fatal = &rw.problems[i]
		}
	}
	switch {
	case rw.free:
		o.status = Trusted
		o.made = -1
	case total != nil && w.missesGroups(rw, total):
		o.status = Differs
	case total == nil || !checkable(total) && !w.otherAgrees(rw, total):
		o.status = Unstated
	case !checkable(total):
		o.status = Agrees
	default:
		o.cmp = w.compare(rw, total)
		o.way = o.cmp.way
		if o.cmp.made >= 0 {
			o.made = o.cmp.made
		}
		if o.cmp.agrees {
			o.status = Agrees
		} else {
			o.status = Differs
		}
	}
	if o.fatal != nil {
		o.trouble += 1000
	}
	if o.status == Differs {
		o.trouble += 500
	}
	if rw.closing > 0 && rw.below != nil && o.left == 0 && rw.rawLeft() > 0 {
		o.trouble += 3 // stitches under the last loop, with no word of them
	}
	if rw.misfitLeft > 0 || o.left > 0 {
		o.trouble += 20
	}
	if rw.passed > 0 {
		o.trouble += 5
	}
	for i := range rw.problems {
		if !rw.problems[i].fatal && rw.problems[i].sev >= Warning {
			o.trouble += 10
		}
	}
	if o.way != "" {
		o.trouble += 2
	}
	return o
}

// anyShapes reports whether steps name an increase or a decrease.
func anyShapes(steps []*Step) bool {
	for _, s := range steps {
		if s.shapes() || s.special == nil && anyShapes(s.Body) {
			return true
		}
	}
	return false
}

// readings lists the readings worth trying for a row, from what its words
// leave open.
func readings(row *Row, below *fabric) []options {
	var bits options
	shaped := anyShapes(row.Steps) // who writes "inc" means no increase by "4 sc"
	var scan func(steps []*Step, depth int)
	scan = func(steps []*Step, depth int) {
		for i, s := range steps {
			if s.Times.Kind == More && (s.Times.star && !s.Times.more || s.Times.shut && firstTold(steps[:i], s)) {
				bits |= optStarInAll
			}
			if s.Op == OpGroup && s.Times.Kind == Exactly && s.Times.star && !s.Times.sure && depth == 0 {
				bits |= optStarMore
			}
			switch {
			case s.plainFirst():
				bits |= optPlainFirst
			case s.bare && !s.Target.said && !shaped:
				bits |= optBareInc
			}
			if s.bare && s.Target.said {
				bits |= optOneEach
			}
			if s.Op == OpSkip && s.Target.Which == Next && (s.Target.N.N == 1 || s.Target.N.N == 2 && s.Target.plain && depth == 0) {
				bits |= optSkipUnder
			}
			if (s.Op == OpWork || s.Op == OpInto) && s.Target.said && len(s.Target.Of) > 0 && s.Target.Of[0].Kind == OneStitch {
				bits |= optLooseNames
			}
			if s.Op == OpChain && s.N.N >= 2 && !s.Counts.Said {
				bits |= optFlipTurn
			}
			if len(s.Body) > 0 && s.special == nil {
				scan(s.Body, depth+1)
			}
		}
	}
	scan(row.Setup, 0)
	scan(row.Steps, 0)
	if below != nil {
		if below.chain {
			bits |= optNoSkip
		}
		if below.has(Filter{Kind: Space}) {
			bits |= optChainsCount
		}
		for i := range below.runs {
			if below.runs[i].stitch == stitch.Slip {
				bits |= optSlips
			}
		}
	}
	var single []options
	for b := options(1); b < optNoWrap; b <<= 1 {
		if bits.has(b) && b != optFlipTurn {
			single = append(single, b)
		}
	}
	out := append([]options(nil), single...)
	for i := range single {
		for j := i + 1; j < len(single); j++ {
			out = append(out, single[i]|single[j])
		}
	}
	return out
}

// firstTold reports whether the first pass of a group stands before it in other
// words, as a chain stands for a stitch: "ch 3, 2 dc in ring, ch 2, *3 dc in
// ring, ch 2* 3 times more".
func firstTold(before []*Step, group *Step) bool {
	works := 0
	for _, s := range before {
		if makesStitches(s) {
			works++
		}
	}
	body := 0
	for _, s := range group.Body {
		if makesStitches(s) {
			body++
		}
	}
	return works > 0 && works == body
}

// workRow proves one row: under the usual reading, and where that leaves
// something amiss under the others that its words allow.
func (w *pieceWork) workRow(row, label *Row, below *fabric, total *Total, number int) *RowProof {
	pr := w.pr
	rp := w.newProof(row, label, number, number)
	if below == nil && w.carry == nil && row.Refer == nil {
		below = w.continued(row)
	}
	below, told := w.startedOn(row, label, below, total)
	if told {
		w.below, w.guess, rp.on = below, nil, onTold
	}
	below, guessed := w.guessed(row, label, below, total)
	switch {
	case len(row.bad) == 0 && (label == row || len(label.bad) == 0), w.comesOutWithout(row, label, below, total):
	case w.slipBeside(row, label, below, total):
		w.lookPast(row, row.bad)
	default:
		w.unread(rp, row, label, below, total)
		if w.trial != nil {
			w.trial.stop()
		}
		return rp
	}
	if total == nil {
		total = w.ownTotal(label)
	}
	if total == nil && label.changes.deltaSet && below != nil && !below.free {
		total = deltaTotal(label, countOf(below), pr.size)
	}
	carry, host := w.carry, w.host
	rp.Lead = w.leadOf(row, row.Steps)
	try := func(o options) outcome {
		w.carry, w.host = carry, host
		return w.judge(w.attempt(row, below, o), total)
	}
	chosen := w.usual(row)
	best := try(chosen)
	if best.trouble >= 2 && !w.trial.settled() {
		for _, o := range w.readings(row, below) {
			if best.fatal != nil && best.fatal.code == CodeTooLarge {
				break
			}
			if t := try(o); t.trouble < best.trouble && !(o.has(optBareInc|optPlainFirst) && t.left > 0 && t.status == Unstated && best.fatal != nil) && !(best.status == Differs && best.trouble == 500 && t.trouble >= 3) && (t.trouble < 5 || t.trouble+400 < best.trouble || best.trouble-t.trouble >= 10 && t.status != Differs && t.fatal == nil) {
				best, chosen = t, o
			}
			if best.trouble < 2 {
				break
			}
		}
	}
	if each := chainsToo(row); w.counted && each != nil {
		// its chains are stitches to the author, and are worked as such
		w.carry, w.host = carry, host
		if t := w.judge(w.attempt(each, below, 0), total); t.trouble <= best.trouble {
			best, chosen = t, 0
		}
	}
	if other := w.other; other != nil && best.trouble >= 20 {
		// the row before stated another number than it makes: this one may
		// have been written for the number stated
		mine := w.below
		w.below = other
		if t := func() outcome { below = w.orient(row); return try(w.usual(row)) }(); t.trouble < best.trouble {
			best, chosen = t, w.usual(row)
		} else {
			w.below = mine
			below = w.orient(row)
		}
	}
	if best.trouble >= 500 && !w.trial.settled() && beginsAnywhere(row, below, total) {
		for _, o := range []options{optFromSpace, optPastSpace} {
			if t := try(o); t.trouble < 2 && t.status == Agrees {
				best, chosen = t, o
				break
			}
		}
	}
	if bad := w.suspects(row, label, best); len(bad) > 0 {
		w.carry, w.host, w.other, w.counted = carry, host, nil, false
		doubted := *row
		doubted.bad = bad
		w.unread(rp, &doubted, label, below, total)
		if w.trial != nil {
			w.trial.stop()
		}
		return rp
	}
	if sp, amiss := w.readAmiss(row, label, best); amiss {
		w.carry, w.host, w.other, w.counted = carry, host, nil, false
		doubted := *row
		doubted.bad = []Span{sp}
		w.unread(rp, &doubted, label, below, total)
		if w.trial != nil {
			w.trial.stop()
		}
		return rp
	}
	w.other, w.counted = nil, false
	w.host = host
	if best.rw.host != nil {
		w.host = best.rw.host
		best.rw.host.to = best.rw.position(best.rw.cur)
	}
	w.carry = nil
	w.report(rp, row, label, best, chosen, total)
	rp.reading = chosen
	if w.trial != nil {
		w.trial.note(label, number, best, chosen)
	}
	w.finish(rp, row, best, below, total)
	if best.status == Trusted && row == label {
		if msg := w.noMultiple(row, total); msg != "" {
			pr.say(Error, CodeTotal, total.Span, msg, "")
			rp.Status = Differs
		}
	}
	w.noteOwn(rp, best, total)
	if best.left > 0 || best.rw.leave {
		w.leaves(best.rw)
	}
	w.links.row(rp, best.rw)
	switch {
	case guessed:
		w.onGuessed(rp, label, total)
	case pr.asks[label] && !w.below.free:
		w.leaveGuess()
	}
	return rp
}

// continued is what a row without a foundation of its own goes on from: the
// piece before it, where its words show that they go on.
func (w *pieceWork) continued(row *Row) *fabric {
	pr := w.pr
	if w.foundation > 0 || startsAfresh(row) {
		return nil
	}
	if len(pr.pieces) == 0 {
		if row.Numbers.First.At(pr.size) > 1 || worksOnUnseen(row) {
			return &fabric{free: true} // an excerpt: what comes before is not here
		}
		return nil
	}
	prev := pr.pieces[len(pr.pieces)-1]
	if prev.below == nil || w.piece.apart {
		return &fabric{free: true}
	}
	if pr.ended(prev) {
		return &fabric{free: true}
	}
	w.foundation, w.hook = prev.foundation, prev.hook
	w.after, w.belowNumber = prev, prev.belowNumber
	w.belowJoined, w.belowTurned = prev.belowJoined, prev.belowTurned
	w.below = prev.below
	w.carry = prev.carry
	return w.orient(row)
}

// ended reports whether a piece was fastened off.
func (pr *prover) ended(w *pieceWork) bool {
	if len(w.piece.Rows) == 0 {
		return false
	}
	last := w.piece.Rows[len(w.piece.Rows)-1]
	for _, s := range last.Steps {
		if s.Op == OpFasten {
			return true
		}
	}
	return false
}

// startsAfresh reports whether a row makes its own beginning.
func startsAfresh(row *Row) bool {
	steps := append(append([]*Step(nil), row.Setup...), row.Steps...)
	for i, s := range steps {
		switch s.Op {
		case OpRing, OpAttach:
			return true
		case OpChain:
			if i < len(row.Setup) {
				return true
			}
			next := nextMaking(steps[i+1:])
			if next != nil && next.Target.Which == FromHook || i+1 < len(steps) && steps[i+1].Op == OpRing {
				return true
			}
			if next != nil && s.N.N > 5 && next.Target.Which == Nth && next.Target.N.N <= 4 && next.Target.Row == nil && next.Target.Within == nil && len(next.Target.Of) == 1 && next.Target.Of[0].Kind == ChainStitch {
				return true // "ch 9, sl st in 2nd ch": the hook understood
			}
			if i+1 < len(steps) && s.N.N > 5 && steps[i+1].Op == OpSkip && len(steps[i+1].Target.Of) > 0 && steps[i+1].Target.Of[0].Kind == ChainStitch {
				return true // "ch 16, start in 2nd ch from hook, ..."
			}
		case OpWork, OpInto:
			return s.Target.Which == InRing || stitch.Of(s.Stitch).Kind == stitch.Foundation || s.Target.Which == FromHook
		case OpGroup:
			return len(s.Body) > 0 && s.Body[0].Target.Which == InRing
		case OpFree:
			return false
		case OpSkip:
			return s.Target.Row != nil
		}
	}
	return false
}

// worksOnUnseen reports a row that begins with a turning chain and goes on in stitches
// which this chain does not have, "ch 1, sc in each sc across": what it is worked on
// stands elsewhere, or before the first words.
func worksOnUnseen(row *Row) bool {
	for i, s := range row.Steps {
		switch s.Op {
		case OpNote, OpTurn, OpColour, OpStay:
			continue
		case OpChain:
			next, chain := nextMaking(row.Steps[i+1:]), s.N.N
			if i+1 < len(row.Steps) && row.Steps[i+1].Op == OpTurn {
				chain = 0 // a chain that is turned with is no foundation
			}
			return s.N.N <= 3 && len(row.Setup) == 0 && next != nil && onStitches(next, chain)
		}
		return false
	}
	return false
}

// onStitches reports whether a step goes into stitches: ones it names, each one, or
// more of them than the chain has that stands before it.
func onStitches(s *Step, chain int64) bool {
	t := &s.Target
	if s.Op == OpInto || len(t.Of) > 0 && (t.Of[0].Kind == ChainStitch || t.Of[0].Kind == Space) || t.Row != nil {
		return false
	}
	switch t.Which {
	case Each:
		return true
	case Next, First:
		return (t.said || chain <= 1) && t.N.N > chain || len(t.Of) > 0 && t.Of[0].Kind == OneStitch
	}
	return false
}

func deltaTotal(row *Row, below int64, size int) *Total {
	n := row.changes.delta
	return &Total{Span: row.labelSpan, Text: "", Parts: []TotalPart{{N: Num{N: below + n.At(size)}, Kind: PartStitches}}, delta: true}
}

// unread keeps a row whose words were not all understood.
func (w *pieceWork) unread(rp *RowProof, row, label *Row, below *fabric, total *Total) {
	rp.Status = Unread
	bad := row.bad
	if label != row {
		bad = append(append([]Span(nil), label.bad...), row.bad...)
	}
	for i, sp := range bad {
		if i == 0 {
			hint := ""
			if n, ok := w.wholeTotal(total); ok {
				hint = "its stated total of " + itoa(n) + " is taken for the next row"
			}
			w.pr.say(Warning, CodeUnread, sp, fmt.Sprintf("%s is not proven: %q is not understood", rp.Label, oneLine(w.pr.pat.Source.Slice(sp))), hint)
		} else {
			w.pr.say(Note, CodeUnread, sp, fmt.Sprintf("%q is not understood", oneLine(w.pr.pat.Source.Slice(sp))), "")
		}
	}
	if below != nil {
		rp.Available = below.stitches(0, 0, false)
	}
	w.belowJoined, w.belowTurned = joinsRound(row.Steps) || w.belowJoined && row.Kind == FlatRow && w.calledRows && !turnIn(row.Steps), false
	_, tail := splitTail(row.Steps, row.Kind)
	w.carry = tail
	main := stitch.SC
	if id, _ := nextStitch(row.Steps); id != stitch.None {
		main = id
	}
	if n, ok := w.wholeTotal(total); ok {
		rp.Stated, rp.Made = w.statedTotal(total), n
		w.below = uniform(n, main)
		w.madeLast = n
		return
	}
	w.below = &fabric{free: true}
	if n := w.meshesStated(total); n > 0 {
		w.below = uniform(3*n+1, stitch.DC)
		return
	}
	if label == row {
		w.guessLeft(row, below)
	}
}

// report says what is to be said of a row.
func (w *pieceWork) report(rp *RowProof, row, label *Row, o outcome, chosen options, total *Total) {
	pr := w.pr
	sp := label.labelSpan
	if sp.Empty() {
		sp = Span{label.Span.Start, min(label.Span.End, label.Span.Start+40)}
	}
	totalSpan := sp
	if total != nil && !total.delta {
		totalSpan = total.Span
	}
	told, meshes, amiss := w.meshesAmiss(row, o)
	switch {
	case amiss:
		code := CodeOverrun
		if told < meshes {
			code = CodeLeft
		}
		pr.say(Error, code, sp, meshesDiffer(told, meshes), w.mend(rp, row, label, o, total, ""))
	case o.fatal != nil:
		at := sp
		if o.fatal.step != nil && row == label {
			at = o.fatal.step.Span
		}
		pr.say(Error, o.fatal.code, at, o.fatal.msg, w.mend(rp, row, label, o, total, o.fatal.hint))
	case o.status == Differs:
		msg := fmt.Sprintf("the row makes %s, and states %s", w.madeWords(o), onOneLine(w.statedWords(total)))
		if o.rw.misfitLeft > 0 || o.left > 0 {
			for _, p := range o.rw.problems {
				if p.code == CodeMisfit {
					msg += "; " + p.msg
				}
			}
			if o.left > 0 && o.rw.misfitLeft == 0 {
				msg += fmt.Sprintf("; %s left unworked", countWords(o.left, "stitch is", "stitches are"))
			}
		}
		code := CodeTotal
		if o.rw.misfitLeft > 0 {
			code = CodeMisfit
		}
		pr.say(Error, code, totalSpan, msg, w.mend(rp, row, label, o, total, ""))
	default:
		said := false
		for _, p := range o.rw.problems {
			at := sp
			if p.step != nil && row == label {
				at = p.step.Span
			}
			if p.code == CodeMisfit {
				said = true
			}
			hint := p.hint
			if p.code == CodeMisfit {
				hint = w.mend(rp, row, label, o, total, hint)
			}
			pr.say(p.sev, p.code, at, p.msg, hint)
		}
		if o.left > 0 && !said && o.status == Agrees && turnsShort(row.Steps) && !(o.rw.below != nil && o.rw.below.chain) {
			pr.say(Note, CodeLeft, sp, countWords(o.left, "stitch of the row below is", "stitches of the row below are")+" left unworked: the row turns before them", "")
		} else if o.left > 0 && !said {
			plain := "if that is meant, write \"leave remaining sts unworked\""
			pr.say(w.leftSeverity(row, label, rp.First, o, total), CodeLeft, sp, countWords(o.left, "stitch of the row below is", "stitches of the row below are")+" left unworked, and the row does not say so", w.mend(rp, row, label, o, total, plain))
		}
		if n := o.rw.loopsLeft(); n > 0 && o.left == 0 && !said && inNumbers(row.Steps) {
			name := fmt.Sprintf("ch-%d space", o.rw.loops.size)
			pr.say(Error, CodeLeft, sp, countWords(n, name+" of the round below is", name+"s of the round below are")+" left unworked, and the round does not say so", w.mend(rp, row, label, o, total, "if that is meant, write \"leave remaining spaces unworked\""))
		}
		if o.rw.passed > 0 && !hasCode(o.rw.problems, CodeStepped) {
			sev := Warning
			if o.rw.toLast > 0 {
				sev = Error // so many were counted out, and then the last: one of the numbers is wrong
			}
			plain := pr.skipHint(o.rw.passed)
			pr.say(sev, CodeStepped, sp, fmt.Sprintf("%s passed over to reach the one named, and no skip is written", countWords(o.rw.passed, "stitch is", "stitches are")), w.mend(rp, row, label, o, total, plain))
		}
	}
	if chosen != 0 && o.fatal == nil && o.status != Differs {
		pr.say(Note, CodeReading, sp, readingWords(chosen), "")
	}
	if o.way != "" {
		pr.say(Note, CodeCounting, totalSpan, o.way, "")
	}
	if o.rw.deltaSet && o.fatal == nil {
		pr.say(Note, CodeEvenly, sp, "where the increases or decreases go is the maker's choice; only their number is proven", w.spreadHint(o.rw))
	}
	if o.status == Trusted {
		pr.say(Note, CodeTrusted, sp, "only the author knows how many stitches this comes to; "+w.trustWords(total), "")
	}
}

// leftSeverity grades stitches left unworked in silence. A round closes over
// all of the one below it, so that a few of them are a number gone wrong; a row may turn
// short of its end, and where a total agrees in a round that begins the numbers
// anew it may be the reading. Nobody leaves a chain or two of the foundation; and
// a row that turns short does so before a number of stitches that is told.
func (w *pieceWork) leftSeverity(row, label *Row, number int, o outcome, total *Total) Severity {
	if n := len(w.proof.Rows); n > 0 && row.Kind == Round && 2*o.left <= o.rw.taken && countsOut(row.Steps) {
		before := w.proof.Rows[n-1]
		if before.Kind == Round && (before.Last < number || total == nil) {
			return Error
		}
	}
	if row == label && row.reachesTop && row.Kind == FlatRow && o.status != Agrees {
		return Error
	}
	few := o.left <= 2 && 4*o.left <= o.rw.taken && !turnsShort(row.Steps)
	if b := o.rw.below; b != nil && b.chain {
		few = o.left <= doubtBy && o.left < o.rw.taken
	}
	if few && row == label && !hasCode(o.rw.problems, CodeRest) {
		return Error
	}
	return Warning
}

// turnsShort reports whether a row ends with a number of stitches and then turns,
// as shaping does: "1 tr in each of next 35 dc, turn".
func turnsShort(steps []*Step) bool {
	turn := false
	for i := len(steps) - 1; i >= 0; i-- {
		switch s := steps[i]; {
		case s.Op == OpTurn:
			turn = true
		case s.Op == OpNote, s.Op == OpChain, s.Op == OpColour:
		default:
			return turn && s.Op == OpWork && s.Target.Which == Next && s.Target.said && s.Target.N.N > 1
		}
	}
	return false
}

// countsOut reports whether a row is told in numbers from its first stitch to
// its last.
func countsOut(steps []*Step) bool {
	for _, s := range steps {
		switch {
		case s.Op == OpGroup && s.Times.Kind == Fill, (s.Op == OpWork || s.Op == OpInto) && (s.Target.Which != Next || s.Target.Row != nil || s.Stitch == stitch.Slip), s.Op == OpFree, s.Op == OpTurn, s.Op == OpLeave, s.Op == OpAttach, s.Op == OpAlong:
			return false
		case s.Op == OpGroup && !countsOut(s.Body):
			return false
		}
	}
	return true
}

func (w *pieceWork) trustWords(total *Total) string {
	if total == nil {
		return "no total is stated"
	}
	return "the stated total is taken"
}

func hasCode(ps []problem, c Code) bool {
	for _, p := range ps {
		if p.code == c {
			return true
		}
	}
	return false
}

func readingWords(o options) string {
	switch {
	case o.has(optStarInAll):
		return "the number of repeats is read as all of them, not as so many more: only so the row comes out"
	case o.has(optStarMore):
		return "the number of repeats is read as so many more after the first: only so the row comes out"
	case o.has(optPlainFirst):
		return "a number before the one increase or decrease of a list is read as so many plain stitches before it: only so the row comes out"
	case o.has(optBareInc):
		return "a number before a stitch in the list is read as so many in one stitch (an increase): only so the row comes out"
	case o.has(optOneEach):
		return "a number of stitches in as many places is read as one in each: only so the row comes out"
	case o.has(optLooseNames):
		return "the stitch named for the row below is read as any stitch: only so the row comes out"
	case o.has(optSkipUnder):
		return "the stitch skipped first is the one under the turning chain"
	case o.has(optChainsCount):
		return "chain spaces of the row below are worked as stitches: only so the row comes out"
	case o.has(optSlips):
		return "slip stitches of the row below are worked into: only so the row comes out"
	case o.has(optFromSpace):
		return "the round is read as begun in a space of the one below: only so it comes out"
	case o.has(optPastSpace):
		return "the round is read as begun behind a space of the one below: only so it comes out"
	case o.has(optNoSkip):
		return "the foundation is worked from its first chain: only so the row comes out"
	}
	return "read the way under which the row comes out"
}

// finish records the row and makes ready for the next.
func (w *pieceWork) finish(rp *RowProof, row *Row, o outcome, below *fabric, total *Total) {
	rw := o.rw
	w.learn(rw, row)
	w.learnFirst(rw, row, o)
	rp.Status, rp.Made = o.status, o.made
	if o.fatal != nil && o.status != Agrees {
		rp.Status = Differs
	}
	if below != nil && !below.chain || rw.host != nil {
		rp.Available = rw.below.stitches(0, 0, false)
	} else if rw.below != nil {
		rp.Available = rw.below.stitches(0, 0, false)
	}
	rp.Taken, rp.Skipped, rp.Left = rw.taken, rw.skipped, o.left
	if rw.misfitLeft > 0 {
		rp.Left = max(rp.Left, rw.misfitLeft)
	}
	rp.ByKind = kindsOf(&rw.out, w.pr.terms)
	if total != nil && !total.delta {
		rp.Stated = w.statedTotal(total)
	}
	if !rw.tangled {
		rp.Trace = &Trace{Times: 1, Kids: orLeaf(rw.trace), Stitches: sumTrace(rw.trace)}
		w.pr.kept += rp.Trace.size(maxKept)
	}
	out := rw.out
	w.foundation = max(w.foundation, w.chainsOf(rw))
	w.calledRows = row.Kind == FlatRow && (w.calledRows || rw.joined)
	w.belowJoined = rw.joined || w.belowJoined && w.calledRows && rw.kind == Round && !turnIn(row.Steps)
	_, tail := splitTail(row.Steps, row.Kind)
	w.carry = tail
	w.belowTurned = false
	for _, s := range tail {
		if s.Op == OpTurn {
			w.belowTurned = true
		}
	}
	if n := len(row.Steps); n > 0 && row.Steps[n-1].Op == OpTurn && len(tail) == 0 {
		w.belowTurned = true
	}
	stated, hasTotal := w.totalOf(total)
	switch {
	case o.status == Trusted:
		if hasTotal {
			rp.Made = stated
			w.below = uniform(stated, mainOf(&out))
			w.madeLast = stated
		} else if n := w.meshesStated(total); n > 0 {
			w.below = uniform(3*n+1, stitch.DC)
		} else {
			w.below = &fabric{free: true}
		}
		rp.Trace = nil
		return
	case rp.Status == Differs && hasTotal && o.fatal != nil && o.fatal.code != CodeTooLarge && o.made <= 0:
		w.below = uniform(stated, mainOf(&out))
		w.madeLast = stated
		return
	}
	if !hasChainOnly(&out, row) {
		w.below = &out
	} else if rw.below != nil && rw.below.chain {
		w.below = rw.below
	}
	if told, meshes, amiss := w.meshesAmiss(row, o); amiss {
		rp.Status = Differs
		if told == w.meshesUsual() {
			meshes = told // it is the row before that was wrong
		}
		w.below, w.other, w.counted, w.madeLast = uniform(3*meshes+1, stitch.DC), nil, false, 3*meshes+1
		return
	}
	w.other = nil
	w.counted = rp.Status == Agrees && o.cmp.chains && rw.kind == Round
	if rp.Status == Differs && hasTotal && stated > 0 {
		w.other = adjusted(&out, stated-o.made)
		w.otherMade = stated
	}
	if o.fatal != nil && hasTotal && rp.Status == Differs {
		w.below, w.other = uniform(stated, mainOf(&out)), nil
	}
	w.madeLast = o.made
}

// learn keeps what a row says, or shows by where it is joined, of the chain it
// begins with, for later rows that begin alike and say nothing.
func (w *pieceWork) learn(rw *rowWork, row *Row) {
	if rw.chained < 2 {
		return
	}
	if _, known := w.said[rw.chained]; known {
		return
	}
	for _, s := range append(append([]*Step(nil), row.Setup...), row.Steps...) {
		if s.Op == OpChain && s.N.At(w.pr.size) == rw.chained {
			if s.Counts.Said {
				w.said[rw.chained] = s.Counts.As != stitch.None
			}
			break
		}
		if makesStitches(s) {
			break
		}
	}
	if _, known := w.said[rw.chained]; !known && rw.joinsChain {
		w.said[rw.chained] = true
	}
}

// learnFirst learns from "ch 2, hdc in first st and in each st across" that the
// chain counts for nothing: where the stated total proves it, or where it
// would be an increase in hdc that nobody speaks of.
func (w *pieceWork) learnFirst(rw *rowWork, row *Row, o outcome) {
	if _, known := w.said[rw.chained]; known || rw.chained < 2 || o.fatal != nil || o.left > 0 || o.status != Agrees && o.status != Unstated {
		return
	}
	_, first := nextStitch(row.Steps)
	if first == nil || first.Target.Which != First || first.N.At(w.pr.size) > 1 {
		return
	}
	for i := range rw.out.runs {
		if r := &rw.out.runs[i]; r.turn && r.kind == pStitch {
			return
		}
	}
	if o.status == Agrees || stitch.Of(first.Stitch).Turn == 2 {
		w.said[rw.chained] = false
	}
}

// hasChainOnly reports a row that made nothing to work into but a chain: a
// foundation that the author numbers as a row.
func hasChainOnly(out *fabric, row *Row) bool { return len(out.runs) == 0 }

// chainsOf is the length of the foundation that a row was worked into.
func (w *pieceWork) chainsOf(rw *rowWork) int64 {
	if rw.below != nil && (rw.below.chain || rw.below.ring) && rw.slack == 0 {
		return rw.below.size()
	}
	return w.foundation
}

func mainOf(f *fabric) stitch.ID {
	best, most := stitch.SC, int64(0)
	for i := range f.runs {
		if r := &f.runs[i]; r.counts() && r.n > most {
			best, most = r.stitch, r.n
		}
	}
	return best
}

// adjusted is a fabric with so many stitches more or fewer, as the total
// stated would have it.
func adjusted(f *fabric, by int64) *fabric {
	g := &fabric{ring: f.ring, slips: f.slips}
	g.runs = append(g.runs, f.runs...)
	best := -1
	for i := range g.runs {
		if r := &g.runs[i]; r.counts() && (best < 0 || r.n > g.runs[best].n) {
			best = i
		}
	}
	if best < 0 {
		g.add(place{stitch: stitch.SC}, by)
		return g
	}
	g.runs[best].n = max(0, g.runs[best].n+by)
	return g
}

// chainsToo is a row that works the same into every stitch, "sc in each st
// around", with each chain as a stitch; nil where it is another.
func chainsToo(row *Row) *Row {
	at := -1
	for i, s := range row.Steps {
		switch {
		case !makesStitches(s):
		case at >= 0 || !eachStep(s) || s.Op != OpWork || len(s.Target.Of) > 0 && s.Target.Of[0].Kind != AnyStitch:
			return nil
		default:
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	s := row.Steps[at]
	stitches, chains := *s, *s
	stitches.Target.Of, chains.Target.Of = []Filter{{Kind: AnyStitch}}, []Filter{{Kind: ChainStitch}}
	stitches.Target.Bound = Bound{}
	r := *row
	r.Steps = append([]*Step(nil), row.Steps...)
	r.Steps[at] = &Step{Op: OpAlong, Body: []*Step{&stitches, &chains}, Target: Target{Which: Each, Bound: s.Target.Bound, said: true}, Span: s.Span}
	return &r
}

// kindsOf counts the stitches of a fabric by kind, in the order first made.
func kindsOf(f *fabric, t stitch.Terms) []KindCount {
	var out []KindCount
	add := func(name string, n int64) {
		for i := range out {
			if out[i].Name == name {
				out[i].N += n
				return
			}
		}
		out = append(out, KindCount{name, n})
	}
	for i := range f.runs {
		r := &f.runs[i]
		switch {
		case r.counts() && r.stitch == stitch.Special:
			add(r.name, r.n)
		case r.kind == pStitch && r.stitch != stitch.None:
			if name := r.stitch.Name(t); name != "" {
				add(name, r.n)
			}
		case r.kind == pSpace:
			add("ch-"+itoa(int64(r.size))+" sp", r.n)
		case r.kind == pPicot:
			add("picot", r.n)
		}
	}
	return out
}
