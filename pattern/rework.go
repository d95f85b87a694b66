package pattern

import (
	"maps"

	"crochet/tallyturn/pattern/stitch"
)

// Changes are numbers of the text to be written otherwise, by where they
// stand.
type Changes map[Span]int64

// With is the changes with others beside them; of two for one number the
// latter holds.
func (c Changes) With(more Changes) Changes {
	out := maps.Clone(c)
	if out == nil {
		out = make(Changes, len(more))
	}
	maps.Copy(out, more)
	return out
}

// Rework works the pieces of a proven pattern again with some of their numbers
// changed. Every row is read as the proof reads it, and stated totals are left
// out of account: what they come to is part of the answer.
type Rework struct {
	proof *Proof
	base  []map[*Row]tally // by piece: what each label makes as written
	kept  []*pieceWork     // by piece: as settled, or as written
	spent int              // rows worked so far
}

// Reworked is how a piece comes out with its changes.
type Reworked struct {
	Proof *PieceProof // the rows that come out, without their totals
	Sits  *Placing    // where it is worked onto another; nil where it is not

	// Stop is the label of the first row that does not come out, nil where all
	// do. Number is that row's, Left the stitches it leaves or passes over that
	// it should not; Short is set where it runs out of stitches instead.
	Stop   *Row
	Number int
	Left   int64
	Short  bool

	// Totals are the numbers of stated totals as the rows make them now. Untold
	// are those of which nobody can tell, since they count something that
	// cannot be made out.
	Totals Changes
	Untold []Span

	work *pieceWork
}

// Rework makes ready to work the pattern again.
func (p *Proof) Rework() *Rework {
	r := &Rework{proof: p}
	for _, pc := range p.Pieces {
		r.base = append(r.base, nil)
		r.kept = append(r.kept, pc.work)
	}
	return r
}

// Copy is the same once more, to settle pieces in and throw away.
func (r *Rework) Copy() *Rework {
	c := *r
	c.kept = append([]*pieceWork(nil), r.kept...)
	return &c
}

// Rows is how many rows were worked so far: a measure of the effort.
func (r *Rework) Rows() int { return r.spent }

// Keep settles a piece as it was reworked, so that later ones are worked onto
// it in that form.
func (r *Rework) Keep(i int, as *Reworked) { r.kept[i] = as.work }

// Try works the i-th piece of the proof with changes.
func (r *Rework) Try(i int, ch Changes) *Reworked {
	if r.base[i] == nil {
		r.base[i] = make(map[*Row]tally)
		r.base[i] = r.run(i, nil).tallies
	}
	run := r.run(i, ch)
	w, out := run.work, run.out
	out.Proof, out.work = w.proof, w
	w.proof.work = w
	out.Sits = placingOf(w.host)
	out.Totals = make(Changes)
	size := r.proof.size
	for _, row := range r.proof.Pieces[i].Piece.Rows {
		if row.Total == nil {
			continue
		}
		was, ok := r.base[i][row]
		now, ok2 := run.tallies[row]
		if !ok || !ok2 || row.Total.rows {
			// not worked out, or not reached: nobody can tell
			for _, p := range row.Total.Parts {
				if !p.N.Span.Empty() {
					out.Untold = append(out.Untold, p.N.Span)
				}
			}
			continue
		}
		for _, p := range row.Total.Parts {
			if p.N.Span.Empty() {
				continue
			}
			n, ok := follow(w, was, now, p, p.N.At(size))
			if !ok {
				out.Untold = append(out.Untold, p.N.Span)
				continue
			}
			if n != p.N.At(size) {
				out.Totals[p.N.Span] = n
			}
		}
	}
	return out
}

// reworking is one run over the rows of a piece.
type reworking struct {
	work    *pieceWork
	out     *Reworked
	tallies map[*Row]tally // by the label as written: its last row
}

func (r *Rework) run(i int, ch Changes) reworking {
	p := r.proof
	orig := p.Pieces[i]
	pat := *p.Pattern
	pat.Pieces = append([]*Piece(nil), p.Pattern.Pieces...)
	written := make(map[*Row]*Row, len(orig.Piece.Rows)) // a changed row to the one written
	readings := make(map[*Row]options)
	piece := *orig.Piece
	piece.Rows = make([]*Row, len(orig.Piece.Rows))
	settled := make(map[*Row]*RowProof)
	for _, rp := range orig.Rows {
		settled[rp.Row] = rp
	}
	for k, row := range orig.Piece.Rows {
		c := ch.row(row, p.size)
		if rp := settled[row]; rp != nil {
			if rp.reading != 0 {
				readings[c] = rp.reading
			}
			if rp.Status != Trusted && rp.Status != Unread {
				c.Total = nil
			}
		} else {
			c.Total = nil
		}
		piece.Rows[k] = c
		written[c] = row
	}
	var before []*pieceWork
	for k := range pat.Pieces {
		switch {
		case pat.Pieces[k] == orig.Piece:
			pat.Pieces[k] = &piece
		case k < len(r.kept) && r.kept[k] != nil:
			pat.Pieces[k] = r.kept[k].piece
		}
	}
	for _, w := range r.kept[:i] {
		if w != nil {
			before = append(before, w)
		}
	}
	pr := &prover{pat: &pat, size: p.size, terms: p.Terms, quiet: true, flips: orig.work.flips, pieces: before}
	w := pr.newPiece(&piece)
	for _, row := range piece.Rows {
		for _, s := range row.Steps {
			w.turnNamed = w.turnNamed || namesTurn(s)
		}
	}
	out := reworking{work: w, out: &Reworked{}, tallies: make(map[*Row]tally)}
	tr := &trial{readings: readings}
	tr.watch = func(label *Row, number int, o outcome, ok bool) {
		if row := written[label]; row != nil && o.status != Trusted {
			out.tallies[row] = tallyOf(&o.rw.out)
		}
		if !ok {
			out.out.Stop, out.out.Number = written[label], number
			out.out.Left = o.left + o.rw.misfitLeft + o.rw.passed
			out.out.Short = o.fatal != nil || hasCode(o.rw.problems, CodeOverrun)
		}
	}
	w.trial = tr
	items := pr.sequence(&piece)
	for k, it := range items {
		next := 0
		if k+1 < len(items) {
			next = items[k+1].from
		}
		w.workItem(it, next)
		if tr.done && out.out.Stop == nil {
			out.out.Stop, out.out.Number = written[it.row], it.from // it is not to be judged
		}
		if tr.done {
			break
		}
	}
	w.closeHost()
	r.spent += pr.worked + len(piece.Rows)/64 + int(pr.spent/32) + 1
	return out
}

// follow finds what a part of a total counts, and how many there are now.
func follow(w *pieceWork, was, now tally, p TotalPart, n int64) (int64, bool) {
	a, b := counted(w, was, p), counted(w, now, p)
	for k := range a {
		if a[k] == n {
			return b[k], true
		}
	}
	return 0, false
}

// counted lists what a part of a total may count, the likeliest first.
func counted(w *pieceWork, t tally, p TotalPart) []int64 {
	compounds := int64(0)
	for id, v := range t.byID {
		if isCompound(id) {
			compounds += v
		}
	}
	var out []int64
	switch p.Kind {
	case PartStitch:
		out = append(out, t.byID[p.ID], w.family(t, p.ID))
	case PartSpace:
		if p.Size > 0 {
			out = append(out, t.bySize[p.Size])
		}
		return append(out, t.spaces, t.groups-1, t.groups)
	case PartChain:
		return append(out, t.chains, t.spaces)
	case PartNamed:
		return append(out, t.byID[p.ID], w.named(t, p), compounds, t.groups, t.stitches)
	case PartOther:
		if p.per > 0 && p.ID != stitch.None {
			out = append(out, w.family(t, p.ID)/p.per)
		}
		return append(out, t.groups, t.spaces, compounds, t.picots)
	}
	return append(out, t.stitches, t.stitches+t.slips, t.outside, t.stitches+t.chains, t.stitches+t.spaces, t.stitches+t.picots, t.stitches+t.slips+t.chains)
}

// row is a row with the numbers changed that stand in it. It is always a copy.
func (c Changes) row(r *Row, size int) *Row {
	out := *r
	any := false
	for sp := range c {
		any = any || r.Span.Contains(sp) || r.setupSpan().Contains(sp)
	}
	if !any {
		return &out
	}
	out.Setup, out.Steps = c.steps(r.Setup, size), c.steps(r.Steps, size)
	for _, n := range []*Num{&out.Numbers.First, &out.Numbers.Last, &out.Numbers.Count} {
		c.num(n, size)
	}
	if r.Refer != nil {
		out.Refer = c.refer(r.Refer, size)
	}
	return &out
}

// refer is a reference with its numbers changed, and those behind it.
func (c Changes) refer(r *Refer, size int) *Refer {
	ref := *r
	for _, n := range []*Num{&ref.Times, &ref.Rows, &ref.Until} {
		c.num(n, size)
	}
	if r.Then != nil {
		ref.Then = c.refer(r.Then, size)
	}
	return &ref
}

// setupSpan is where the foundation of a row stands.
func (r *Row) setupSpan() Span {
	sp := Span{}
	for _, s := range r.Setup {
		sp = cover(sp, s.Span)
	}
	return sp
}

func (c Changes) num(n *Num, size int) {
	if to, ok := c[n.Span]; ok && !n.Span.Empty() {
		*n = n.with(to, size)
	}
}

// first changes "the 1st st of Row 9", which is a word and no number to the
// reader, into another stitch of the row.
func (c Changes) first(t *Target) {
	for sp, to := range c {
		if t.Span.Contains(sp) && !sp.Empty() && to > 1 && sp != t.N.Span && t.Row != nil && !t.Row.Span.Contains(sp) {
			t.Which, t.N = Nth, Num{N: to, Span: sp}
		}
	}
}

func (c Changes) steps(steps []*Step, size int) []*Step {
	if steps == nil {
		return nil
	}
	out := make([]*Step, len(steps))
	for i, s := range steps {
		d := *s
		if s.special == nil {
			d.Body = c.steps(s.Body, size)
		}
		if s.ending != nil {
			end := *s.ending
			end.Body = c.steps(s.ending.Body, size)
			d.ending = &end
		}
		for _, n := range []*Num{&d.N, &d.Target.N, &d.Target.Bound.N, &d.Target.told, &d.Times.N, &d.Times.Bound.N} {
			c.num(n, size)
		}
		if d.Target.Row != nil && d.Target.Which == First {
			c.first(&d.Target)
		}
		out[i] = &d
	}
	return out
}
