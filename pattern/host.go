package pattern

import "fmt"

// toHost sets a row to work on a row of another piece, or an earlier row of
// its own: "join yarn in 7th st of Row 9 of Body".
func (w *pieceWork) toHost(rw *rowWork, ref *RowRef, s *Step) {
	pr := w.pr
	ref = ref.sized(pr.size)
	if ref.After != "" {
		w.afterPiece(rw, ref, s)
		return
	}
	host, row := pr.findRow(w, ref)
	if row == nil {
		if ref.Number > 0 {
			name := fmt.Sprintf("Row %d", ref.Number)
			if ref.Piece != "" {
				name += " of " + ref.Piece
			}
			pr.say(Warning, CodeNoRow, ref.Span, "there is no "+name+" to work onto", pr.rowsThere(w, ref))
		}
		rw.below = &fabric{free: true}
		return
	}
	w.onto(rw, host, row, s, ref.Span)
}

// onto sets a row to work on another: from where a part beside it left off, or
// from its start.
func (w *pieceWork) onto(rw *rowWork, host *pieceWork, row *workedRow, s *Step, span Span) {
	f := *row.fabric
	rw.back = false
	goesOn := row.rest != nil && s.Target.Which == Next
	if goesOn {
		f, rw.back = *row.rest, row.back
	}
	f.slips = w.slipsCount(&f)
	rw.log.host(&f, host, row.number, rw.back)
	rw.below, rw.cur = &f, cursor{}
	rw.attached = true
	rw.host = &hostUse{piece: host, by: w, number: row.number, from: -1, of: f.stitches(0, 0, true), span: span}
	if goesOn {
		rw.goTo(row.worked)
	}
}

// toRest sets a row to go on where the last part that stopped short of a row
// left off, though its words do not name the row: "skip next 16 sts, join yarn
// in next st".
func (w *pieceWork) toRest(rw *rowWork, s *Step) {
	if rw.rejoins(s) {
		for j := len(w.rows) - 1; j >= 0; j-- {
			if r := &w.rows[j]; r.rest != nil && r.worked < r.rest.stitches(0, 0, true) {
				w.onto(rw, w, r, s, s.Span)
				return
			}
		}
	}
	for i := len(w.pr.pieces) - 1; i >= 0; i-- {
		q := w.pr.pieces[i]
		for j := len(q.rows) - 1; j >= 0; j-- {
			if r := &q.rows[j]; r.rest != nil && r.worked < r.rest.stitches(0, 0, true) {
				w.toHost(rw, &RowRef{Span: s.Span, Number: r.number, Piece: q.piece.Name}, s)
				return
			}
		}
	}
}

// goesOnBeside reports whether a step that begins a row may mean such a part.
func (rw *rowWork) goesOnBeside(s *Step) bool {
	return rw.below != nil && (rw.below.free || rw.rejoins(s)) && rw.host == nil && !rw.begun && s.Target.Row == nil && s.Target.Which == Next && s.Target.said
}

// rejoins reports a row that passes over stitches and joins the yarn again before
// it works any, after one that stopped short: it is the other side of the neck.
func (rw *rowWork) rejoins(s *Step) bool {
	if s.Op != OpSkip || rw.pc == nil || !rw.row.noLabel || rw.below == nil || rw.below.chain {
		return false
	}
	for _, r := range rw.row.Steps {
		switch {
		case r.Op == OpAttach:
			return true
		case makesStitches(r):
			return false
		}
	}
	return false
}

// leaves keeps where a row stopped short on the row below, for the part that
// goes on beside it: a second shoulder, the other half of a heel.
func (w *pieceWork) leaves(rw *rowWork) {
	if rw.below == nil || rw.below.free {
		return
	}
	rows, number := w.rows, w.belowNumber
	switch {
	case rw.host != nil && w.pr.quiet:
		return // only tried
	case rw.host != nil:
		rows, number = rw.host.piece.rows, rw.host.number
	case len(rows) == 0 && w.after != nil:
		rows = w.after.rows
	}
	for i := len(rows) - 1; i >= 0; i-- {
		if rows[i].number == number {
			rows[i].rest, rows[i].worked, rows[i].back = rw.below, rw.position(rw.cur), rw.back
			return
		}
	}
}

// afterPiece goes on along a row beside another piece that sits on it: "skip
// 4 sts from first fin".
func (w *pieceWork) afterPiece(rw *rowWork, ref *RowRef, s *Step) {
	pr := w.pr
	for i := len(pr.pieces) - 1; i >= 0; i-- {
		q := pr.pieces[i]
		if q.piece.Name != ref.After || q.host == nil {
			continue
		}
		u := q.host
		if row := u.piece.worked(u.number); row != nil {
			f := *row.fabric
			f.slips = w.slipsCount(&f)
			rw.log.host(&f, u.piece, u.number, false)
			rw.below, rw.cur = &f, cursor{}
			rw.attached = true
			rw.host = &hostUse{piece: u.piece, by: w, number: u.number, from: -1, of: u.of, span: ref.Span}
			rw.goTo(u.to)
			return
		}
	}
	rw.below = &fabric{free: true}
}

// goTo moves to the stitch with a number, from 0.
func (rw *rowWork) goTo(n int64) {
	rw.cur = cursor{}
	for i := range rw.below.runs {
		r := &rw.below.runs[i]
		if !r.isStitch() && r.kind != pChain {
			continue
		}
		if n < r.n {
			rw.cur = cursor{i, n}
			return
		}
		n -= r.n
	}
	rw.cur = cursor{i: len(rw.below.runs)}
}

// worked finds the row of a piece that has a number, the last of them; 0 is the
// last row of all. Rows that go on alike are kept as the first and the last of
// them: one between is as they are.
func (w *pieceWork) worked(n int) *workedRow {
	for i := len(w.rows) - 1; i >= 0; i-- {
		r := &w.rows[i]
		if r.number == n || n == 0 {
			return r
		}
		if i > 0 {
			b := &w.rows[i-1]
			if b.number < n && n < r.number && b.row == r.row && b.fabric == r.fabric {
				between := *r
				between.number, between.rest = n, nil
				return &between
			}
		}
	}
	return nil
}

// findRow finds a row that a place names: in the piece named, in this piece,
// or in the nearest piece before it that has such a row.
func (pr *prover) findRow(w *pieceWork, ref *RowRef) (*pieceWork, *workedRow) {
	ref = ref.sized(pr.size)
	last := (*pieceWork).worked
	if ref.Piece != "" && ref.Piece != w.piece.Name {
		for i := len(pr.pieces) - 1; i >= 0; i-- {
			if q := pr.pieces[i]; q.piece.Name == ref.Piece {
				return q, last(q, ref.Number)
			}
		}
		return nil, nil
	}
	if r := last(w, ref.Number); r != nil && ref.Number > 0 {
		return w, r
	}
	// a piece that itself sits on another is passed by for its host
	for i := len(pr.pieces) - 1; i >= 0; i-- {
		q := pr.pieces[i]
		if r := last(q, ref.Number); r != nil {
			if q.host != nil && q.host.piece != nil {
				if hr := last(q.host.piece, ref.Number); hr != nil && ref.Number <= q.host.number {
					return q.host.piece, hr
				}
			}
			return q, r
		}
	}
	return nil, nil
}

// unworkedOf counts the places that a row has left, or -1 where that is not
// known.
func (w *pieceWork) unworkedOf(ref *RowRef) int64 {
	if ref == nil || ref.Number == 0 {
		return -1
	}
	_, row := w.pr.findRow(w, ref)
	if row == nil || row.rest == nil {
		return -1
	}
	return row.rest.stitches(0, 0, true) - row.worked
}

// closeHost settles how far along its host a piece reaches.
func (w *pieceWork) closeHost() {
	if w.host != nil && w.host.to < w.host.from {
		w.host.to = w.host.from
	}
}
