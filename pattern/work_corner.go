package pattern

import "crochet/tallyturn/pattern/stitch"

// blocks works blocks from corner to corner. Each stands on the three chains of a
// block below, or at an end, and a row has at most one more than the row before it.
func (w *rowWork) blocks(s *Step) bool {
	have, known := cornersIn(w.below)
	n := max(1, s.Target.N.At(w.pr.size))
	if s.Target.Which == Each {
		if n = have + s.grows; !known || s.grows == 0 || n < 1 {
			w.free, w.begun = true, true
			w.leaf(s, 0)
			return true
		}
	}
	if w.blocked == 0 && w.below != nil && !w.below.free {
		w.cur = cursor{i: len(w.below.runs)} // all that is below is met
		w.taken = have
	}
	w.blocked += n
	if n > maxGroups {
		return w.fail(CodeTooLarge, s, 0, "the row makes more than %d blocks", int64(maxGroups))
	}
	if known && have > 0 && w.blocked > have+1 && w.nest == 0 {
		return w.fail(CodeOverrun, s, w.blocked-have-1, "the row before it has %s, and a row from corner to corner has one more at most", countWords(have, "block", "blocks"))
	}
	for range n {
		w.pending = 3
		w.emit(s, place{stitch: stitch.DC}, 3)
	}
	w.begun = true
	return true
}

// cornersIn is how many blocks a row from corner to corner is made of: each has a
// space of three chains, but for the first of all, which only its chain begins.
func cornersIn(f *fabric) (int64, bool) {
	if f == nil || f.free || f.chain || f.ring || f.magic {
		return 0, false
	}
	blocks, stitches := int64(0), int64(0)
	for i := range f.runs {
		switch r := &f.runs[i]; {
		case r.kind == pSpace && r.size == 3:
			blocks += r.n
		case r.counts():
			stitches += r.n
		default:
			return 0, false
		}
	}
	if blocks == 0 && (stitches == 3 || stitches == 4) {
		return 1, true
	}
	return blocks, blocks > 0 && stitches == 3*blocks
}
