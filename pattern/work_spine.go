package pattern

// spine is the name of the place in the middle of a row from which both halves grow.
const spine = "spine"

// spineOf is the space in the middle of a row that both its halves grow from, as shawls
// have it: the only one as long as it is, or else the middle one of all. The row below
// may have one that a stitch takes the place of.
func (w *rowWork) spineOf(size int64) (at cursor, f Filter, ok bool) {
	best, total := int64(0), int64(0)
	for i := range w.below.runs {
		r := &w.below.runs[i]
		if r.kind != pSpace {
			continue
		}
		total += r.n
		if n := int64(r.size); size > 0 && n != size || n < best {
			continue
		} else if ok = n > best && r.n == 1; ok {
			at = cursor{i: i}
		}
		best = int64(r.size)
	}
	if ok {
		return at, Filter{Kind: Space, Size: best}, true
	}
	if total%2 == 0 {
		return at, f, false
	}
	at, _ = w.middle(0, len(w.below.runs), func(r *run) bool { return r.kind == pSpace })
	return at, Filter{Kind: Space}, size == 0 || int64(w.below.runs[at.i].size) == size
}

// toSpine moves to the space in the middle of the row, where it is not passed yet.
func (w *rowWork) toSpine(f Filter) bool {
	at, _, ok := w.spineOf(f.Size)
	if !ok || at.i < w.cur.i || at.i == w.cur.i && at.off < w.cur.off {
		return false
	}
	w.cur = at
	return true
}
