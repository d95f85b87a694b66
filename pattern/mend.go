package pattern

import (
	"fmt"
	"maps"
	"sort"
)

// A mend is worked out, not guessed: small changes to the row's own words are
// tried on a copy, the row is proven again and the rows that follow it too,
// and the change under which most of them agree is the hint.

// Bounds on the search, so that a pattern full of slips is still proven at
// once: attempts for one row, rows worked for one pattern, rows looked at
// after the one that is amiss, and instructions of a row worth trying.
const (
	mendTries = 90
	mendRows  = 4000
	mendAhead = 4
	mendSteps = 4000
)

// mending is what has to be kept while a piece is worked to mend it later.
type mending struct {
	items []item
	at    int
	start pieceWork // the piece as it was before items[at]
	asks  []mendAsk
}

// mendAsk is a finding that waits for its hint.
type mendAsk struct {
	finding    int // its place among the prover's findings
	at         int // the item its row is part of
	start      pieceWork
	row, label *Row
	number     int
	base       outcome
	total      *Total
	plain      string // the hint where no mend is found

	searched bool
	found    []proposal // the best first
}

// begin keeps the state before an item.
func (m *mending) begin(w *pieceWork, at int) {
	m.at, m.start = at, *w
	m.start.said = maps.Clone(w.said)
}

// mend asks for a hint for the finding about to be said, and gives the one to
// go with it until then.
func (w *pieceWork) mend(rp *RowProof, row, label *Row, o outcome, total *Total, plain string) string {
	if plain == "" && o.status == Differs && !total.delta && o.fatal == nil && o.made > 0 && len(total.Parts) == 1 {
		plain = "if the row is right, its total is " + itoa(o.made)
		if p := total.Parts[0]; p.per > 0 && o.made%p.per == 0 {
			plain = fmt.Sprintf("if the row is right, it has %d %s of %d", o.made/p.per, p.Name, p.per)
		}
	}
	if m := w.mends; m != nil && !w.pr.quiet && o.rw.steps <= mendSteps {
		m.asks = append(m.asks, mendAsk{finding: len(w.pr.out), at: m.at, start: m.start, row: row, label: label,
			number: rp.First, base: o, total: total, plain: plain})
	}
	return plain
}

// mendPiece finds the hints that a piece just worked has asked for. Nothing
// is said meanwhile, and the prover is left as it was.
func (pr *prover) mendPiece(w *pieceWork) {
	if w.mends == nil || len(w.mends.asks) == 0 {
		return
	}
	quiet, asked, worked := pr.quiet, pr.asked, pr.worked
	pr.quiet = true
	for i := range w.mends.asks {
		ask := &w.mends.asks[i]
		if pr.mended >= mendRows {
			break
		}
		hint, proven := w.search(ask)
		w.weigh(ask)
		if more, ok := w.onceMore(ask); ok && !proven {
			hint, proven = more, true
		}
		if f := &pr.out[ask.finding]; hint != "" {
			f.Hint = hint
			if proven && f.Severity == Warning {
				f.Severity = Error // a number is wrong, and which is known
			}
		}
	}
	pr.quiet, pr.asked, pr.worked = quiet, asked, worked
	w.mends = nil
}

// trial watches the rows that are worked under an edit.
type trial struct {
	label  *Row // the edited row
	number int
	base   bool // nothing is edited: the row itself need not come out
	seen   bool
	done   bool
	rows   []trialRow // the row itself, then those after it

	readings map[*Row]options // how the rows are read, where that is settled
	carry    *carrying        // what the piece is worked on with, beside that

	watch func(label *Row, number int, o outcome, ok bool) // told of each row
}

// settled reports whether rows are to be read as they were before.
func (t *trial) settled() bool { return t != nil && t.readings != nil }

// reading is how a row is to be read first.
func (t *trial) reading(row *Row) options {
	if t == nil {
		return 0
	}
	return t.readings[row]
}

// trialRow is how a row came out in a trial.
type trialRow struct {
	clean   bool
	status  Status
	made    int64
	left    int64
	fatal   bool
	trouble int
	odd     bool // only under an unusual reading
}

// note takes down a row just worked.
func (t *trial) note(label *Row, number int, o outcome, chosen options) {
	if !t.seen && !t.settled() {
		if label != t.label || number != t.number {
			return
		}
		t.seen = true
	}
	r := trialRow{status: o.status, made: o.made, left: o.left + o.rw.misfitLeft, fatal: o.fatal != nil, trouble: o.trouble, odd: chosen != 0}
	r.clean = !r.fatal && o.status != Differs && r.left == 0 && o.rw.toLast == 0 && !hasCode(o.rw.problems, CodeMisfit) && !hasCode(o.rw.problems, CodeOverrun)
	t.rows = append(t.rows, r)
	if t.settled() {
		t.done = !r.clean || o.rw.idle || t.carry == nil && (o.rw.passed > 0 || warns(o.rw.problems))
		if t.watch != nil {
			t.watch(label, number, o, !t.done)
		}
		return
	}
	t.done = !r.clean && !t.base && len(t.rows) == 1 || len(t.rows) > mendAhead
}

// warns reports whether one of the problems of a row is a warning.
func warns(ps []problem) bool {
	for i := range ps {
		if ps[i].sev == Warning {
			return true
		}
	}
	return false
}

// stop ends a trial at a row that cannot be judged.
func (t *trial) stop() { t.done = true }

// agreeing counts the rows after the one mended that come out, and those of
// them that follow it without a break.
func (t *trial) agreeing() (all, unbroken int) {
	broken := false
	for _, r := range t.rows[min(1, len(t.rows)):] {
		if !r.clean {
			broken = true
			continue
		}
		all++
		if !broken {
			unbroken++
		}
	}
	return all, unbroken
}

// stated reports whether any of the rows states a total.
func (t *trial) stated() bool {
	for _, r := range t.rows {
		if r.status == Agrees || r.status == Differs {
			return true
		}
	}
	return false
}

// proves reports whether the row comes out, and some stated total bears it
// out: its own, or one of a row after it.
func (t *trial) proves() bool {
	if len(t.rows) == 0 || !t.rows[0].clean {
		return false
	}
	for _, r := range t.rows {
		if r.clean && r.status == Agrees {
			return true
		}
	}
	return false
}

// try works the row of an ask and those after it with an edited label.
func (w *pieceWork) try(ask *mendAsk, label *Row) *trial {
	pr := w.pr
	t := &trial{label: label, number: ask.number, base: label == ask.label}
	piece := *w.piece
	piece.Rows = make([]*Row, len(w.piece.Rows))
	for i, r := range w.piece.Rows {
		if r == ask.label {
			r = label
		}
		piece.Rows[i] = r
	}
	c := ask.start
	c.mends, c.trial = nil, t
	c.said = maps.Clone(c.said)
	c.piece, c.proof = &piece, &PieceProof{Piece: &piece}
	c.rows = c.rows[:len(c.rows):len(c.rows)]
	c.uses = c.uses[:len(c.uses):len(c.uses)]
	items := w.mends.items
	before, spent, kept := pr.worked, pr.spent, pr.kept
	for i := ask.at; i < len(items) && !t.done; i++ {
		it, next := items[i], 0
		if it.row == ask.label {
			it.row = label
		}
		if i+1 < len(items) {
			next = items[i+1].from
		}
		c.workItem(it, next)
	}
	pr.mended += pr.worked - before + len(piece.Rows)/256 + int(pr.spent-spent)/512
	pr.spent, pr.kept = spent, kept
	return t
}

// proposal is an edit that lets its row come out.
type proposal struct {
	edit  edit
	trial *trial
	all   int
}

// search tries edits and says the best of them. It is proven where the row
// states a total, agrees with it under the edit, and then uses all of the row
// below: that is no row that leaves stitches on purpose.
func (w *pieceWork) search(ask *mendAsk) (hint string, proven bool) {
	if as := w.try(ask, ask.label); !as.stated() {
		return w.leftWords(ask), false
	}
	found := w.proposals(ask)
	if len(found) == 0 {
		return "", false
	}
	best := &found[0]
	if best.edit.kind == editTotal {
		return w.sayTotal(ask, best), false
	}
	return w.sayWords(ask, best), best.trial.rows[0].status == Agrees && !best.trial.rows[0].odd
}

// proposals are the edits under which the row comes out, the best first.
func (w *pieceWork) proposals(ask *mendAsk) []proposal {
	if ask.searched {
		return ask.found
	}
	ask.searched = true
	quiet, asked, worked := w.pr.quiet, w.pr.asked, w.pr.worked
	w.pr.quiet = true
	defer func() { w.pr.quiet, w.pr.asked, w.pr.worked = quiet, asked, worked }()
	// Where no total is stated near by, nothing can bear an edit out; and where
	// the row is only a little amiss, those after it must be no worse for it.
	as := w.try(ask, ask.label)
	if !as.stated() {
		return nil
	}
	least := 0
	if ask.base.status != Differs && ask.base.fatal == nil {
		least, _ = as.agreeing()
	}
	var found []proposal
	tries := 0
	test := func(e edit) *trial {
		if tries++; tries > mendTries || w.pr.mended >= mendRows {
			return nil
		}
		t := w.try(ask, e.apply(ask.label))
		if all, _ := t.agreeing(); all >= least && t.proves() {
			found = append(found, proposal{e, t, all})
		}
		return t
	}
	if e, ok := w.totalEdit(ask); ok {
		test(e)
	}
	if ask.row == ask.label {
		w.numberEdits(ask, test)
		for _, e := range w.stepEdits(ask) {
			test(e)
		}
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].better(&found[j]) })
	ask.found = found
	return found
}

// leftWords is the hint for a row without a total that leaves a stitch or two:
// that may be meant, or a number may be out by as many.
func (w *pieceWork) leftWords(ask *mendAsk) string {
	if ask.base.left == 0 || ask.base.left > 2 || ask.base.fatal != nil || ask.base.rw.misfitLeft > 0 || ask.row != ask.label {
		return ""
	}
	var best *edit
	w.numberEdits(ask, func(e edit) *trial {
		if w.pr.mended >= mendRows {
			return nil
		}
		t := w.try(ask, e.apply(ask.label))
		if len(t.rows) > 0 && t.rows[0].clean && !t.rows[0].odd && e.cost <= 2 && (best == nil || e.cost < best.cost) {
			best = &e
		}
		return t
	})
	if best == nil {
		return ""
	}
	return ask.plain + "; if not, " + best.text + ": then none is left"
}

// better orders proposals: first the one under which most of the rows that
// follow come out; where that is the same, the rows that follow do not mind,
// and it is the total that is changed; then the smallest change.
func (p *proposal) better(q *proposal) bool {
	if p.all != q.all {
		return p.all > q.all
	}
	if a, b := p.edit.kind == editTotal, q.edit.kind == editTotal; a != b {
		return a
	}
	if a, b := p.cost(), q.cost(); a != b {
		return a < b
	}
	return p.edit.span.Start < q.edit.span.Start
}

func (p *proposal) cost() int {
	c := p.edit.cost
	if p.trial.rows[0].odd {
		c += 4
	}
	for _, r := range p.trial.rows {
		if r.trouble >= 5 {
			c++
		}
	}
	return c
}

// sayTotal is the hint to change the total.
func (w *pieceWork) sayTotal(ask *mendAsk, p *proposal) string {
	hint := "the total should read " + p.edit.text
	with := "it"
	if len(ask.total.Parts) == 1 {
		with = itoa(p.trial.rows[0].made)
	}
	switch _, n := p.trial.agreeing(); {
	case n == 1:
		hint += ": the next row agrees with " + with
	case n > 1:
		hint += fmt.Sprintf(": the next %d rows agree with %s", n, with)
	case len(p.trial.rows) > 1:
		hint += ", if the row is right; the next row is then amiss"
	}
	return hint
}

// sayWords is the hint to change a number or a stitch of the row.
func (w *pieceWork) sayWords(ask *mendAsk, p *proposal) string {
	r := p.trial.rows[0]
	what := itoa(r.made) + " agrees here"
	if r.status != Agrees {
		what = "the row comes out at " + itoa(r.made)
	}
	switch _, n := p.trial.agreeing(); {
	case n == 1 && r.status == Agrees && p.trial.rows[1].made == r.made:
		what += " and in the next row"
	case n == 1:
		what += ", and the next row comes out too"
	case n > 1:
		what += fmt.Sprintf(", and the next %d rows come out too", n)
	case r.status == Agrees:
		what = itoa(r.made) + " agrees"
	}
	return p.edit.text + ": then " + what
}
