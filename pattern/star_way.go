package pattern

// "Repeat from * 5 times" is five in all to some authors and five more to
// others, but an author writes one way through a pattern. So where rows of it
// show which way is hers, the other is not taken for a row that comes out only
// so: more likely the number is wrong.

// starWays are the readings of a number behind stars.
const starWays = optStarInAll | optStarMore

// starCount is how many rows come out under the usual reading of such a number,
// and how many under the other.
type starCount struct{ usual, other int }

// countStars takes down which way the rows of a piece were read.
func (w *pieceWork) countStars(to map[options]starCount) {
	seen := make(map[*Row]bool, len(w.proof.Rows))
	for _, r := range w.proof.Rows {
		if seen[r.Row] || r.Status != Agrees && (r.Status != Unstated || r.Left > 0) {
			continue
		}
		seen[r.Row] = true
		ways := r.Row.starWays()
		for _, bit := range [...]options{optStarInAll, optStarMore} {
			if !ways.has(bit) {
				continue
			}
			c := to[bit]
			if r.reading.has(bit) {
				c.other++
			} else {
				c.usual++
			}
			to[bit] = c
		}
	}
}

// starWays are the readings that the repeats of a row leave open.
func (r *Row) starWays() options {
	var bits options
	for _, o := range readings(r, nil) {
		bits |= o & starWays
	}
	return bits
}

// settleStars works a piece anew where one or two rows of it were read against
// the way that the others, and the pieces before, show.
func (pr *prover) settleStars(p *Piece, w *pieceWork, found int, kept int64) *pieceWork {
	all := make(map[options]starCount, 2)
	for bit, c := range pr.stars {
		all[bit] = c
	}
	w.countStars(all)
	for _, bit := range [...]options{optStarInAll, optStarMore} {
		switch c := all[bit]; {
		case c.other > 0 && c.usual >= c.other:
			pr.barred |= bit
		case c.usual > 0 && c.other >= 2*c.usual && c.other > 2:
			pr.forced |= bit
		}
	}
	if pr.barred|pr.forced == 0 {
		pr.stars = all
		return w
	}
	pr.out, pr.kept = pr.out[:found], kept
	w = pr.workPiece(p)
	if pr.stars == nil {
		pr.stars = make(map[options]starCount)
	}
	w.countStars(pr.stars)
	return w
}

// usual is how a row is read first.
func (w *pieceWork) usual(row *Row) options {
	o := w.trial.reading(row)
	if w.pr.forced != 0 && !w.trial.settled() {
		o |= w.pr.forced & row.starWays()
	}
	return o
}

// readings are those worth trying for a row, but for what is known not to be
// the author's way.
func (w *pieceWork) readings(row *Row, below *fabric) []options {
	out := readings(row, below)
	if w.pr.barred|w.pr.forced == 0 {
		return out
	}
	kept := out[:0]
	for _, o := range out {
		if o&w.pr.barred == 0 && o&w.pr.forced == 0 {
			kept = append(kept, o|w.pr.forced&row.starWays())
		}
	}
	return kept
}
