package pattern

// A round that is worked into the spaces of the one below, told in numbers, goes into
// all of them: a corner too many is a corner of which nobody says what becomes of it.

// loopsUsed are the spaces that a round has been worked into.
type loopsUsed struct {
	size  int32 // chains of each; 0 where none was used
	mixed bool  // spaces of more sizes than one
}

// use notes a space worked into.
func (l *loopsUsed) use(size int32) {
	l.mixed = l.mixed || l.size != 0 && l.size != size
	l.size = size
}

// loopsLeft counts the spaces behind the last place used that are like those that the
// round was worked into, where they are the fewer: it should have gone into those too.
func (w *rowWork) loopsLeft() int64 {
	if w.kind != Round || w.loops.size == 0 || w.loops.mixed || !w.named || w.leave || w.attached || w.elsewhere || w.free || w.skipped > 0 || w.host != nil || w.below == nil || w.below.free || w.back {
		return 0
	}
	all, left := int64(0), int64(0)
	for i := range w.below.runs {
		r := &w.below.runs[i]
		if r.kind != pSpace || r.size != w.loops.size {
			continue
		}
		all += r.n
		switch {
		case i == w.cur.i:
			left += r.n - w.cur.off
		case i > w.cur.i:
			left += r.n
		}
	}
	if 2*left >= all {
		return 0
	}
	return left
}

// inNumbers reports whether a row says how often each of its parts is worked, from its
// beginning on: no "each", no repeat that goes on as far as it fits, nothing skipped, and
// no yarn joined in any of the places, for such a round ends in those before that one.
func inNumbers(steps []*Step) bool {
	for _, s := range steps {
		if s.Times.Kind == Fill || s.Target.Which == Each || s.Op == OpAttach || s.Op == OpSkip || !inNumbers(s.Body) {
			return false
		}
	}
	return true
}
