package pattern

// folded is what a row finds that is worked through both layers of a piece
// laid flat: a place for every two.
func (w *pieceWork) folded(row *Row, below *fabric) *fabric {
	if !row.bothLayers && !row.folds || below == nil || below.free || below.chain || below.ring {
		return below
	}
	n := below.stitches(0, 0, true)
	half := (n + 1) / 2
	stated, ok := w.totalOf(row.Total)
	switch {
	case ok && (stated == half || stated == n/2):
	case row.bothLayers && (ok && stated < half || !ok && row.folds):
	default:
		return below // a fold in passing, or two pieces held together, each with its own places
	}
	f := *below
	f.runs = nil
	for _, r := range below.runs {
		if half == 0 {
			break
		}
		if r.isStitch() || r.kind == pChain {
			r.n = min(r.n, half)
			half -= r.n
		}
		f.runs = append(f.runs, r)
	}
	return &f
}
