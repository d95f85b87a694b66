package pattern

import (
	"strconv"

	"crochet/tallyturn/pattern/stitch"
)

func countOnly(n int64) string { return strconv.FormatInt(n, 10) }

// eachAs works s into every place up to its bound; the trace names step.
func (w *rowWork) eachAs(step, s *Step, rest []*Step) bool {
	t := &s.Target
	p := stitchPlace(s)
	per := s.N.At(w.pr.size)
	if w.below.free {
		if per > 1 && w.elsewhere && chainwise(t.Of) {
			w.emit(step, p, per) // "3 sc in the chs", between two legs
			return true
		}
		if n := w.toldAlong(s); n > 0 {
			w.emit(step, p, n)
			return true
		}
		w.free = true
		w.begun = true
		w.leaf(step, 0)
		return true
	}
	if w.below.magic && len(w.below.runs) == 0 {
		w.free = true
		w.leaf(step, 0)
		return true
	}
	of := w.resolve(s, t.Of)
	if t.butFirst && !(w.stands && w.taken <= 1) {
		if _, _, ok := w.seek(of); ok {
			w.cur.off++
			w.skipped++
			w.norm()
		}
	}
	legs := int64(max(s.Legs, 1))
	if t.Bound.Kind == ToPlace {
		return w.eachTo(step, s, p, per, of)
	}
	if t.Within != nil && t.Within.Kind == NamedGroup {
		for {
			m := w.mark()
			if !w.within(s, p, per, of) || w.ended() {
				if len(w.problems) > m.problems {
					w.reset(m)
				}
				break
			}
			if w.cur == m.cur {
				break
			}
		}
		return true
	}
	count, ok := w.eachCount(s, of, rest)
	if !ok {
		return false
	}
	if t.N.At(w.pr.size) > 0 && t.Which == Each && t.N.At(w.pr.size) < count {
		count = t.N.At(w.pr.size)
	}
	if count%legs != 0 {
		w.problems = append(w.problems, problem{code: CodeMisfit, sev: Warning, step: step, over: count % legs,
			msg: countWords(count, "stitch", "stitches") + " cannot be worked together " + countOnly(legs) + " at a time: " + countWords(count%legs, "is", "are") + " left"})
	}
	w.lastFresh = false
	n := count / legs
	for n > 0 {
		if t.Which == Each && w.tchApart && !w.ended() {
			if _, _, ok := w.seek(of); ok && w.below.runs[w.cur.i].turn && w.left(of) == 0 {
				break
			}
		}
		got := w.takeEach(of, legs, n)
		if got <= 0 {
			break
		}
		w.emitEach(step, p, per, got)
		n -= got
	}
	w.named = len(of) > 0 && (of[0].Kind == Space || of[0].Kind == NamedGroup || of[0].Kind == OneStitch || of[0].Kind == AnyCluster || of[0].Kind == PicotPlace)
	return true
}

// toldAlong is how many stitches go along an edge of which nothing is known, where the
// step says it: "61 s c across to next corner"; 0 where it does not. So many would not go
// into one stitch.
func (w *rowWork) toldAlong(s *Step) int64 {
	if n := max(s.N.At(w.pr.size), s.Target.N.At(w.pr.size)); n > maxInOne && len(s.Target.Of) == 0 {
		return n
	}
	return 0
}

// maxInOne is how many stitches are at most told to go into each of many places (common
// practice, no source): a shell of nine is large.
const maxInOne = 12

// takeEach takes places for up to n stitches; chains of a space one by one.
func (w *rowWork) takeEach(of []Filter, legs, n int64) int64 {
	if _, _, ok := w.seek(of); !ok {
		return -1
	}
	if r := &w.below.runs[w.cur.i]; r.kind == pSpace && chainwise(of) {
		k := min(n, int64(r.size))
		w.take(1)
		return k
	}
	if avail := w.runLeft(); avail >= legs {
		k := min(n, avail/legs)
		w.take(k * legs)
		return k
	}
	for leg := int64(0); leg < legs; leg++ {
		if _, _, ok := w.seek(of); !ok {
			return -1
		}
		w.take(1)
	}
	return 1
}

// chainwise reports whether spaces are worked chain by chain.
func chainwise(of []Filter) bool {
	chain, space := false, false
	for _, f := range of {
		chain = chain || f.Kind == ChainStitch
		space = space || f.Kind == Space
	}
	return chain && !space
}

// eachLeft counts what "each" would take from the cursor on.
func (w *rowWork) eachLeft(of []Filter) int64 {
	if !chainwise(of) {
		return w.left(of)
	}
	n := int64(0)
	off := w.cur.off
	for i := w.cur.i; i < len(w.below.runs); i++ {
		r := &w.below.runs[i]
		if w.matches(&r.place, of) {
			k := r.n - off
			if r.kind == pSpace {
				k *= int64(r.size)
			}
			n += k
		}
		off = 0
	}
	return n
}

// eachCount is how many places "each" takes.
func (w *rowWork) eachCount(s *Step, of []Filter, rest []*Step) (int64, bool) {
	t := &s.Target
	total := w.eachLeft(of)
	keep := int64(0)
	switch t.Bound.Kind {
	case ToLast:
		keep = t.Bound.N.At(w.pr.size)
		if w.tchApart && !chainwise(of) {
			total = w.leftWith(of)
		}
		if len(t.Bound.Of) > 0 && t.Bound.Of[0].Kind == Space {
			// "to last ch-2 sp": the stitches before it
			return w.before(of, t.Bound.Of, keep), true
		}
		if len(of) > 0 && of[0].Kind != ChainStitch && of[0].Kind != AnyStitch {
			inKeep := w.lastMatching(of, keep)
			keep = inKeep
		}
	default:
		keep = w.needAtEnd(rest, of)
	}
	if total == 0 && keep == 0 && !w.ended() && len(of) > 0 && of[0].Kind != AnyStitch {
		return 0, true
	}
	if total < keep {
		return 0, w.fail(CodeOverrun, s, keep-total, "the row is to leave %d for what follows, and only %s left", keep, countWords(total, "stitch is", "stitches are"))
	}
	return total - keep, true
}

// lastMatching counts how many of the last n stitches answer.
func (w *rowWork) lastMatching(of []Filter, n int64) int64 {
	got := int64(0)
	for i := len(w.below.runs) - 1; i >= w.cur.i && n > 0; i-- {
		r := &w.below.runs[i]
		if !w.workable(&r.place) {
			continue
		}
		k := min(n, r.n)
		if w.matches(&r.place, of) {
			got += k
		}
		n -= k
	}
	return got
}

// before counts the places that answer ahead of the last n of another kind.
func (w *rowWork) before(of, stop []Filter, n int64) int64 {
	end := len(w.below.runs)
	for i := end - 1; i >= w.cur.i && n > 0; i-- {
		if w.matches(&w.below.runs[i].place, stop) {
			n -= w.below.runs[i].n
			end = i
		}
	}
	got := int64(0)
	off := w.cur.off
	for i := w.cur.i; i < end; i++ {
		if w.matches(&w.below.runs[i].place, of) {
			got += w.below.runs[i].n - off
		}
		off = 0
	}
	return got
}

// eachTo works as far as the next place of a kind.
func (w *rowWork) eachTo(step, s *Step, p place, per int64, of []Filter) bool {
	stop := w.resolve(s, s.Target.Bound.Of)
	if len(stop) > 0 && stop[0].Kind == AnyStitch {
		stop = nil
	}
	n := int64(0)
	centre := cursor{i: -1}
	if s.Target.Bound.centre {
		at := w.cur
		if w.toCentre(&Step{Op: OpWork, Target: Target{Which: Centre, Of: s.Target.Bound.Of}}) {
			centre = w.cur
		}
		if w.cur, stop = at, nil; centre.i < 0 && w.below.bare {
			w.free, w.begun = true, true
			w.leaf(step, 0)
			return true
		} else if centre.i < 0 {
			return w.overrun(s, 1, 1)
		}
	}
	for !w.ended() {
		w.norm()
		if w.ended() || w.cur == centre {
			break
		}
		r := &w.below.runs[w.cur.i]
		if stop != nil && w.matches(&r.place, stop) {
			break
		}
		if !w.matches(&r.place, of) {
			w.cur.i, w.cur.off = w.cur.i+1, 0
			continue
		}
		k := w.runLeft()
		if w.cur.i == centre.i {
			k = centre.off - w.cur.off
		}
		w.take(k)
		w.emitEach(step, p, per, k)
		n += k
	}
	if n == 0 {
		w.leaf(step, 0)
	}
	return true
}

// needAtEnd is how many places the steps that follow name at the end of the
// row: "2 sc in last st", "dc in top of turning ch".
func (w *rowWork) needAtEnd(rest []*Step, of []Filter) int64 {
	n := int64(0)
	for _, s := range rest {
		switch s.Op {
		case OpWork, OpInto:
			switch s.Target.Which {
			case Last:
				if len(of) > 0 && of[0].Kind == OneStitch && len(s.Target.Of) > 0 && s.Target.Of[0].Kind != AnyStitch && s.Target.Of[0] != of[0] {
					continue
				}
				if len(of) > 0 && (of[0].Kind == Space || of[0].Kind == NamedGroup) && (len(s.Target.Of) == 0 || s.Target.Of[0].Kind != of[0].Kind) {
					continue
				}
				n += max(s.Target.N.At(w.pr.size), int64(s.Legs))
			case Next:
				if s.Op == OpWork && s.Stitch == stitch.Slip {
					continue
				}
				if s.Target.N.At(w.pr.size) > 0 {
					n += w.takesOf(s, of)
				}
			}
		case OpGroup:
			if s.Times.Kind == Exactly || s.Times.Kind == Once {
				k := int64(1)
				if s.Times.Kind == Exactly {
					k = s.Times.N.At(w.pr.size)
				}
				n += mul(k, w.needAtEnd(s.Body, of))
			}
		case OpLeave:
			if len(of) == 0 || of[0].Kind == OneStitch || of[0].Kind == AnyStitch {
				n += s.Target.N.At(w.pr.size)
			}
		case OpTurn:
			return n
		case OpOtherSide:
			return n
		case OpSkip:
			if s.Target.Which == Last || s.Target.Which == Next && len(s.Target.Of) == 0 {
				n += s.Target.N.At(w.pr.size)
			}
		}
	}
	return n
}

// takesOf is how many places of a description a step uses.
func (w *rowWork) takesOf(s *Step, of []Filter) int64 {
	f := filters(s.Target)[0]
	if s.Target.Row != nil || s.Target.Which != Next {
		return 0
	}
	n := max(1, s.Target.N.At(w.pr.size)) * int64(max(1, s.Legs))
	if len(of) == 0 || of[0].Kind == AnyStitch || of[0].Kind == OneStitch || of[0].Kind == ChainStitch {
		if f.Kind == Space || f.Kind == PicotPlace {
			return 0
		}
		return n
	}
	if f.Kind != of[0].Kind {
		return 0
	}
	return n
}
