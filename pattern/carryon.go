package pattern

import "slices"

// Difference is a row that came out with another number of stitches than it
// should: Row counts from 0 among the rows walked of its piece.
type Difference struct {
	Row   int
	Count int64
}

// Carried is a piece worked on from what is really on the hook.
type Carried struct {
	// Piece is the proof of the piece, the rows after the first difference
	// worked from it and without their stated totals, which were written for
	// other numbers.
	Piece *PieceProof
	Rows  []CarriedRow // those that change or do not work any more, in order
	Seats []Seat       // pieces that sit on rows with another number now
	Mend  *Mend        // how to come right again; nil where no way was found
}

// CarriedRow is neighbouring rows that come out otherwise than the pattern has
// it. Rows count from 0 among the rows walked.
type CarriedRow struct {
	First, Last int
	Was, Now    int64  // stitches; -1 where nobody knows
	Why         string // why it does not work any more; "" where it does
}

// Seat is a piece worked onto a row that has another number now.
type Seat struct {
	Piece         string
	Row           int // the number of the host row
	Before, After int64
	Half          int64  // half stitches that it sits further from the row's end than it did or, negative, nearer
	Why           string // why it does not fit there any more; "" where it does
}

// Mend is stitches to add in a row or, negative, to leave out.
type Mend struct {
	Row int // from 0
	By  int64
}

// The most that is tried to come right again.
const carryTries = 8

// CarryOn works a piece, counted from 0, with differences in its rows, in the
// order of the rows. It is nil where the proof was not worked out from a text
// or has no such piece or row. Of rows that follow none is read anew: each is
// taken as the proof took it.
func (p *Proof) CarryOn(piece int, diffs []Difference) *Carried {
	if piece < 0 || piece >= len(p.Pieces) || len(diffs) == 0 || p.Pieces[piece].work == nil {
		return nil
	}
	for i, d := range diffs {
		if d.Row < 0 || d.Row >= p.Pieces[piece].Len() || d.Count < 0 || i > 0 && d.Row <= diffs[i-1].Row {
			return nil
		}
	}
	c, w := p.carry(piece, diffs)
	out := &Carried{Piece: w.proof, Rows: c.changed(p.Pieces[piece], w.proof, diffs)}
	out.Seats = p.seats(piece, w, diffs)
	out.Mend = p.comeRight(piece, diffs, out)
	return out
}

// carrying is what a piece is worked on with.
type carrying struct {
	diffs  []Difference
	said   int            // findings so far
	broken map[int]string // why rows do not work, by place
}

// carry works a piece with differences.
func (p *Proof) carry(piece int, diffs []Difference) (*carrying, *pieceWork) {
	base := p.Pieces[piece]
	c := &carrying{diffs: diffs, broken: make(map[int]string)}
	pr := &prover{pat: p.Pattern, size: p.size, terms: p.Terms, flips: base.work.flips}
	for _, q := range p.Pieces[:piece] {
		pr.pieces = append(pr.pieces, q.work)
	}
	w := pr.newPiece(base.Piece)
	w.turnNamed = base.work.turnNamed
	w.trial = &trial{readings: takenAs(base), carry: c}
	w.workAll()
	return c, w
}

// takenAs is how the rows of a proven piece were read.
func takenAs(p *PieceProof) map[*Row]options {
	m := make(map[*Row]options, len(p.Rows))
	for _, r := range p.Rows {
		m[r.Row] = r.reading
	}
	return m
}

// workAll works the items of a piece one after the other.
func (w *pieceWork) workAll() {
	items := w.pr.sequence(w.piece)
	for i, it := range items {
		next := nextOf(items, i)
		before := *w
		w.workItem(it, next)
		if e, ok := w.onward[it.row]; ok && w.links != nil {
			w.standOn(&before, item{row: e.apply(it.row), from: it.from, to: it.to}, next)
		}
	}
	w.closeHost()
}

// carrying is what the piece is carried on with, nil where it is not.
func (w *pieceWork) carrying() *carrying {
	if w.trial == nil {
		return nil
	}
	return w.trial.carry
}

// asCarried is the total a row is held against: none, once it stands on a
// difference.
func (w *pieceWork) asCarried(total *Total) *Total {
	if c := w.carrying(); c != nil && len(w.rows) > 0 && w.proof.Len() > c.diffs[0].Row {
		return nil
	}
	return total
}

// carryOn takes a row just worked: it notes whether the row works, and puts
// what is really on the hook in the place of what it made.
func (w *pieceWork) carryOn() {
	c := w.carrying()
	if c == nil {
		return
	}
	w.trial.done = false
	row := w.proof.Len() - 1
	if row > c.diffs[0].Row {
		for _, f := range w.pr.out[c.said:] {
			if f.Severity != Note {
				c.broken[row] = f.Message
				break
			}
		}
	}
	c.said = len(w.pr.out)
	for _, d := range c.diffs {
		if d.Row == row && w.below != nil {
			w.hold(d.Count)
		}
	}
}

// hold puts so many stitches on the hook.
func (w *pieceWork) hold(n int64) {
	f := adjusted(w.below, n-countOf(w.below))
	if countOf(f) != n {
		f = uniform(n, mainOf(w.below))
	}
	w.below, w.other, w.madeLast = f, nil, n
	w.rows[len(w.rows)-1].fabric = f
}

// differsWithin reports whether one of the next n rows has a difference, so
// that they cannot be taken for each other.
func (w *pieceWork) differsWithin(n int) bool {
	c := w.carrying()
	if c == nil {
		return false
	}
	next := w.proof.Len()
	for _, d := range c.diffs {
		if d.Row >= next-1 && d.Row < next+n {
			return true
		}
	}
	return false
}

// changed compares the rows after the first difference with what they were.
func (c *carrying) changed(was, now *PieceProof, diffs []Difference) (out []CarriedRow) {
	for _, r := range now.Rows {
		for i := max(r.Index, diffs[0].Row+1); i < r.Index+r.Count(); {
			b, _ := was.At(i)
			if b == nil {
				break
			}
			end := min(r.Index+r.Count(), b.Index+b.Count()) - 1
			x := CarriedRow{First: i, Last: end, Was: -1, Now: -1, Why: c.broken[r.Index]}
			if x.Why == "" {
				x.Why = c.broken[i]
			}
			if n, ok := b.Expect(); ok {
				x.Was = n
			}
			if n, ok := r.Expect(); ok {
				x.Now = n
			}
			if x.Now != x.Was || x.Why != "" {
				if n := len(out); n > 0 && out[n-1].Last == i-1 && out[n-1].Was == x.Was && out[n-1].Now == x.Now && out[n-1].Why == x.Why {
					out[n-1].Last = end
				} else {
					out = append(out, x)
				}
			}
			i = end + 1
		}
	}
	return out
}

// seats works the pieces that follow, and tells which sit otherwise on the
// rows of the carried one.
func (p *Proof) seats(piece int, host *pieceWork, diffs []Difference) (out []Seat) {
	pr := host.pr
	pr.pieces = append(pr.pieces, host)
	for _, q := range p.Pieces[piece+1:] {
		if q.work == nil {
			return out
		}
		pr.flips = q.work.flips
		w := pr.newPiece(q.Piece)
		w.turnNamed = q.work.turnNamed
		w.trial = &trial{readings: takenAs(q), carry: &carrying{diffs: []Difference{{Row: q.Len()}}, broken: make(map[int]string)}}
		said := len(pr.out)
		w.workAll()
		pr.pieces = append(pr.pieces, w)
		u, was := w.host, q.work.host
		if u == nil || was == nil || u.piece != host || u.of == was.of || u.from < 0 || was.from < 0 {
			continue
		}
		s := Seat{Piece: q.Piece.Name, Row: u.number, Before: u.from, After: u.of - u.to}
		s.Half = (s.After - s.Before) - ((was.of - was.to) - was.from)
		for _, f := range pr.out[said:] {
			if f.Severity != Note && !slices.ContainsFunc(p.Findings, func(g Finding) bool { return g.Code == f.Code && g.Message == f.Message }) {
				s.Why = f.Message
				break
			}
		}
		out = append(out, s)
	}
	return out
}

// comeRight looks for the first row after the differences in which a few
// stitches more or fewer bring every row after it to what the pattern has.
func (p *Proof) comeRight(piece int, diffs []Difference, c *Carried) *Mend {
	base := p.Pieces[piece]
	last := diffs[len(diffs)-1].Row
	for tries, row := 0, last+1; row < base.Len() && tries < carryTries; row++ {
		was, _ := base.At(row)
		now, _ := c.Piece.At(row)
		if now == nil {
			return nil
		}
		want, ok := was.Expect()
		have, known := now.Expect()
		if !ok || !known {
			return nil
		}
		if want == have {
			return nil // it has come right by itself
		}
		if broken(c.Rows, row) {
			continue
		}
		tries++
		trial := append(append([]Difference(nil), diffs...), Difference{row, want})
		t, w := p.carry(piece, trial)
		good := true
		for _, x := range t.changed(base, w.proof, trial) {
			good = good && (x.Last <= row && x.Why == "" || x.First > row && x.Was == x.Now && x.Why == "")
		}
		if good {
			return &Mend{Row: row, By: want - have}
		}
	}
	return nil
}

func broken(rows []CarriedRow, row int) bool {
	for _, r := range rows {
		if row >= r.First && row <= r.Last && r.Why != "" {
			return true
		}
	}
	return false
}
