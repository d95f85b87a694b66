package pattern

// thenBlock is rows that are told behind a repeat, and how many times they are worked.
type thenBlock struct {
	rows  []*Row
	count int // of rows in all
}

// thenRows finds the rows that a reference has worked behind its own.
func (w *pieceWork) thenRows(row *Row, it item) []thenBlock {
	var out []thenBlock
	for r := row.Refer.Then; r != nil; r = r.Then {
		rows := w.referred(row, r, it)
		if len(rows) == 0 {
			continue // it is told what is missing
		}
		times := max(1, int(min(r.Times.At(w.pr.size), maxWorked)))
		out = append(out, thenBlock{rows, times * len(rows)})
	}
	return out
}

// rowsOf is how many rows they are.
func rowsOf(blocks []thenBlock) int {
	n := 0
	for _, b := range blocks {
		n += b.count
	}
	return n
}

// repeatThen works them; a total is that of the last.
func (w *pieceWork) repeatThen(blocks []thenBlock, from int, label *Row, total *Total) {
	for i, b := range blocks {
		t := total.last()
		if i < len(blocks)-1 {
			t = nil
		}
		w.repeatRows(b.rows, from, b.count, label, t)
		from += b.count
	}
}

// rowsRepeated is how many rows "Rep Rows 2 and 3 four times more" comes to by
// its words alone, where so many stand before it; 0 where they do not say. What
// has no number behind it counts on from there.
func (pr *prover) rowsRepeated(row *Row, before int) int {
	r := row.Refer
	if r == nil {
		return 0
	}
	n := 0
	switch {
	case r.Rows.N > 0:
		n = capped(r.Rows.At(pr.size))
	case r.Until.N > 0:
		return capped(r.Until.At(pr.size)) - before
	case r.UntilRow > 0:
		return capped(r.UntilRow) - before
	case r.UntilSts.N == 0:
		n = r.allLen(pr.size)
	}
	for then := r.Then; then != nil; then = then.Then {
		n += then.allLen(pr.size)
	}
	return n + ownRows(stepsMake(row.Steps))
}

// maxCounted is how many times a repeat is counted at the most.
const maxCounted = 1_000_000

// capped is a number of rows or of times, or the most that are counted.
func capped(n int64) int { return int(min(n, maxCounted)) }

// blockLen is how many rows a reference names.
func (r *Refer) blockLen(size int) int {
	switch r := r.sized(size); {
	case r.LastRows > 0:
		return r.LastRows
	case r.List != nil:
		return len(r.List)
	case r.First == 0:
		return 1
	default:
		return max(r.Last-r.First, r.First-r.Last) + 1
	}
}
