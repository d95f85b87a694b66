package pattern

// Bounds on the search for the multiple of a foundation chain: rows worked
// for a pattern, and the largest multiple looked for.
const (
	impliedRows = 40_000
	maxMultiple = 64
	farChain    = 300
	maxChain    = 1 << 30
)

// tester works one piece on other foundation chains.
type tester struct {
	proof   *Proof
	piece   *PieceProof
	earlier []*pieceWork
	budget  *int
	known   map[int64]bool

	rows     []*Row // without their totals, which hold for one chain only
	readings map[*Row]options
	chain    edit // the foundation
}

// multiple finds the chains that the piece comes out on. It tries them: the
// next longer one that does gives the multiple, and halving the shorter ones
// gives the least.
func (t *tester) multiple() *Multiple {
	n, ok := t.prepare()
	if !ok || n > maxChain || !t.works(n) {
		return nil
	}
	m := &Multiple{Chains: n, Least: n}
	for k := int64(1); k <= maxMultiple && m.Of == 0; k++ {
		if t.works(n + k) {
			m.Of = k
		}
	}
	if m.Of == 0 {
		if n <= 4 {
			return nil // a centre, not a width
		}
		for k := int64(1); k <= maxMultiple && n-k > 0; k++ {
			if t.works(n - k) {
				return nil // shorter ones would do: there is more to it than is known
			}
		}
		return t.spent(m)
	}
	m.Plus = n % m.Of
	// the least: halve the chains of the same remainder
	lo, hi := int64(-1), n/m.Of // hi works
	for hi-lo > 1 {
		mid := lo + (hi-lo)/2
		if c := mid*m.Of + m.Plus; c > 0 && t.works(c) {
			hi = mid
		} else {
			lo = mid
		}
	}
	m.Least = hi*m.Of + m.Plus
	if !t.holds(m) {
		return nil
	}
	return t.spent(m)
}

// spent drops an answer that was cut short.
func (t *tester) spent(m *Multiple) *Multiple {
	if *t.budget <= 0 {
		return nil
	}
	return m
}

// holds tries the answer where it is likeliest to be wrong: at its lower end,
// around the chain written, and far out.
func (t *tester) holds(m *Multiple) bool {
	far := max(farChain, m.Chains+4*m.Of)
	for _, from := range []int64{m.Least, m.Chains - m.Of, far - 2*m.Of} {
		for c := max(from, m.Least); c <= from+m.Of; c++ {
			if t.works(c) != (c%m.Of == m.Plus) {
				return false
			}
		}
	}
	return true
}

// prepare finds the foundation, and readies the rows to be worked again.
func (t *tester) prepare() (int64, bool) {
	w := t.piece.work
	if len(w.piece.Rows) == 0 {
		return 0, false
	}
	n, ok := t.foundation(w.piece.Rows[0])
	if !ok {
		return 0, false
	}
	copies := make(map[*Row]*Row, len(w.piece.Rows))
	for _, r := range w.piece.Rows {
		c := *r
		c.Total = nil
		copies[r] = &c
		t.rows = append(t.rows, &c)
	}
	t.readings = make(map[*Row]options)
	for _, rp := range t.piece.Rows {
		if rp.Status == Trusted || rp.Status == Unread {
			return 0, false // its count is the author's, for her own chain
		}
		if c := copies[rp.Row]; c != nil && rp.reading != 0 {
			t.readings[c] = rp.reading
		}
	}
	t.known = make(map[int64]bool)
	return n, true
}

// foundation finds the first chain of the piece and its length.
func (t *tester) foundation(first *Row) (int64, bool) {
	for _, steps := range [][]*Step{first.Setup, first.Steps} {
		for i, s := range steps {
			switch s.Op {
			case OpChain:
				if s.N.Span.Empty() || i+1 < len(steps) && (steps[i+1].Op == OpRing || steps[i+1].Op == OpJoin) {
					return 0, false // a ring takes any number
				}
				t.chain = edit{kind: editNumber, span: s.N.Span, size: t.proof.size}
				return s.N.At(t.proof.size), t.piece.work.foundation > 0 && t.piece.work.after == nil
			case OpNote, OpColour, OpStay:
			default:
				return 0, false
			}
		}
	}
	return 0, false
}

// works reports whether every row of the piece comes out on a chain of n.
func (t *tester) works(n int64) bool {
	if ok, known := t.known[n]; known {
		return ok
	}
	if *t.budget <= 0 {
		return false
	}
	w := t.piece.work
	pr := &prover{pat: t.proof.Pattern, size: t.proof.size, terms: t.proof.Terms, quiet: true, flips: w.flips, pieces: t.earlier}
	e := t.chain
	e.to = n
	piece := *w.piece
	piece.Rows = append([]*Row(nil), t.rows...)
	first := e.apply(t.rows[0])
	piece.Rows[0] = first
	tr := &trial{readings: t.readings}
	if o := t.readings[t.rows[0]]; o != 0 {
		tr.readings = make(map[*Row]options, len(t.readings))
		for r, o := range t.readings {
			tr.readings[r] = o
		}
		tr.readings[first] = o
	}
	c := pr.newPiece(&piece)
	c.trial = tr
	items := pr.sequence(&piece)
	for i, it := range items {
		next := 0
		if i+1 < len(items) {
			next = items[i+1].from
		}
		if c.workItem(it, next); tr.done {
			break
		}
	}
	*t.budget -= pr.worked + len(piece.Rows)/64 + int(pr.spent/512)
	ok := !tr.done && len(tr.rows) > 0
	t.known[n] = ok
	return ok
}
