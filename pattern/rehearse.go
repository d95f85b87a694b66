package pattern

import "slices"

// rehearsal works a piece over again only to see how it comes out. What is told and
// spent meanwhile is put back at its end.
type rehearsal struct {
	pr     *prover
	found  int // the findings before it stand
	before prover
}

// rehearse begins a rehearsal whose findings come behind so many.
func (pr *prover) rehearse(found int) *rehearsal {
	r := &rehearsal{pr: pr, found: found, before: *pr}
	pr.plain = true
	return r
}

// work works a piece, as if nothing had been tried before, and gives what there is to say of it.
func (r *rehearsal) work(p *Piece) []Finding {
	pr, was := r.pr, &r.before
	pr.out, pr.kept, pr.spent = was.out[:r.found:r.found], was.kept, was.spent
	pr.workPiece(p)
	return pr.out[r.found:]
}

func (r *rehearsal) end() {
	pr, was := r.pr, &r.before
	pr.out, pr.kept, pr.quiet, pr.plain = was.out, was.kept, was.quiet, false
	pr.asked, pr.worked, pr.spent = was.asked, was.worked, was.spent
	pr.stars, pr.past, pr.asks = was.stars, was.past, was.asks
}

// with is a piece with another row in place of one of its own.
func (p *Piece) with(i int, row *Row) *Piece {
	q := *p
	q.Rows = slices.Clone(p.Rows)
	q.Rows[i] = row
	return &q
}

// rowAt is which of the rows of a piece stands at a place of the text, or last before it.
func (p *Piece) rowAt(at int) int {
	found := 0
	for i, r := range p.Rows {
		if r.Span.Start <= at {
			found = i
		}
	}
	return found
}
