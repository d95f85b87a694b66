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
		t := total
		if i < len(blocks)-1 {
			t = nil
		}
		w.repeatRows(b.rows, from, b.count, label, t)
		from += b.count
	}
}
