package pattern

import "maps"

// Where a row is wrong by one number, the rows after it were most likely
// written for the row as it should be: their groups lie otherwise than on the
// row as it stands, and a total that is set right does not tell how. So where
// a row soon after a wrong one is amiss as well, the wrong one is mended in
// silence and the rows between are worked anew, from what it then leaves. If
// none of them has an error that way, it stays so: one slip, one finding.

// Bounds on that: how many rows on an error is still laid to the row before,
// how many mends of that row are tried, and how often in a pattern.
const (
	onAhead  = 4
	onMends  = 4
	onTries  = 24
	onWorked = 400 // rows
)

// slipped is a wrong row, and how things stood when it was worked.
type slipped struct {
	at   int // the item
	ask  int // the mend it waits for
	asks int // how many mends were asked for by then, and so on
	out  int
	rows int
}

// errorsIn counts errors.
func errorsIn(fs []Finding) int {
	n := 0
	for i := range fs {
		if fs[i].Severity == Error {
			n++
		}
	}
	return n
}

// slip takes down that the item just worked has an error, or a warning, if its
// mend can be looked for.
func (w *pieceWork) slip(at, asksBefore int, sev Severity) *slipped {
	m := w.mends
	for i := asksBefore; i < len(m.asks); i++ {
		ask := &m.asks[i]
		if ask.at == at && w.pr.out[ask.finding].Severity == sev && ask.row == ask.label {
			return &slipped{at: at, ask: i, asks: len(m.asks), out: len(w.pr.out), rows: len(w.proof.Rows)}
		}
	}
	return nil
}

// mendOn works the items after a wrong row anew, up to the one just worked, as
// they are when that row is mended. It reports whether they come out.
func (w *pieceWork) mendOn(s *slipped, upTo int) bool {
	pr, m := w.pr, w.mends
	if pr.exhausted() || w.links != nil || pr.mended >= mendRows/2 {
		return false
	}
	ask := m.asks[s.ask] // a copy: the list is cut off and grows again
	saved := *w
	out, asks, rows := pr.out, m.asks, w.proof.Rows
	kept, worked, spent := pr.kept, pr.worked, pr.spent
	tries := 0
	for _, p := range w.proposals(&m.asks[s.ask]) {
		if p.edit.kind == editTotal {
			continue
		}
		if tries++; tries > onMends || pr.mendedOn >= onTries || pr.worked-worked > onWorked {
			break
		}
		pr.mendedOn++
		c := w.mendedRow(&ask, p.edit)
		c.mends, c.piece, c.proof = m, saved.piece, saved.proof
		pr.out, m.asks, c.proof.Rows = out[:s.out:s.out], asks[:s.asks:s.asks], rows[:s.rows:s.rows]
		for i := s.at + 1; i <= upTo; i++ {
			m.begin(c, i)
			c.workItem(m.items[i], nextOf(m.items, i))
		}
		if errorsIn(pr.out[s.out:]) == 0 {
			*w = *c
			w.onward = maps.Clone(w.onward)
			if w.onward == nil {
				w.onward = make(map[*Row]edit)
			}
			w.onward[ask.label] = p.edit
			return true
		}
	}
	*w = saved
	pr.out, m.asks, w.proof.Rows = out, asks, rows
	pr.kept, pr.worked, pr.spent = kept, worked, spent
	return false
}

// mendedRow is the piece after the item of an ask, with the edit made in it.
func (w *pieceWork) mendedRow(ask *mendAsk, e edit) *pieceWork {
	it := w.mends.items[ask.at]
	if it.row == ask.label {
		it.row = e.apply(ask.label)
	}
	c := w.reworked(&ask.start, it, nextOf(w.mends.items, ask.at))
	return &c
}

// standOn leaves a piece as a row would that is mended, for the rows after it
// to be worked into; what is said of the row itself stays.
func (w *pieceWork) standOn(before *pieceWork, mended item, next int) {
	c := w.reworked(before, mended, next)
	c.mends, c.links, c.trial, c.proof = w.mends, w.links, w.trial, w.proof
	*w = c
}

// onGiven works on from a row whose mend is known.
func (w *pieceWork) onGiven(it item, e edit, next int) {
	start, row := w.mends.start, it.row
	it.row = e.apply(row)
	w.standOn(&start, it, next)
	w.onward = maps.Clone(w.onward)
	if w.onward == nil {
		w.onward = make(map[*Row]edit)
	}
	w.onward[row] = e
}

// reworked is the piece after an item that is worked in silence, from how the
// piece stood before it.
func (w *pieceWork) reworked(before *pieceWork, it item, next int) pieceWork {
	quiet, asked, kept := w.pr.quiet, w.pr.asked, w.pr.kept
	w.pr.quiet = true
	c := *before
	c.said = maps.Clone(before.said)
	c.mends, c.links, c.trial, c.proof = nil, nil, nil, &PieceProof{Piece: w.piece}
	c.rows = c.rows[:len(c.rows):len(c.rows)]
	c.uses = c.uses[:len(c.uses):len(c.uses)]
	c.workItem(it, next)
	w.pr.quiet, w.pr.asked, w.pr.kept = quiet, asked, kept
	return c
}

// nextOf is the number of the row after an item, 0 where there is none.
func nextOf(items []item, i int) int {
	if i+1 < len(items) {
		return items[i+1].from
	}
	return 0
}
