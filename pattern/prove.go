package pattern

import (
	"fmt"
	"sort"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// maxWorked bounds how many rows are worked one by one; rows that only repeat
// what was worked before are not counted.
const maxWorked = 20_000

// prover works a whole pattern in one size.
type prover struct {
	pat    *Pattern
	size   int
	terms  stitch.Terms
	out    []Finding
	pieces []*pieceWork
	flips  map[turnKey]bool // chains read against the usual way
	asked  []turnKey        // chains whose value nobody says
	worked int
	quiet  bool
	past   map[*Row]bool // rows that come out without words not understood
	asks   map[*Row]bool // of these, those behind which words not understood may ask for work

	stars          map[options]starCount // how the author repeats; see star_way.go
	barred, forced options

	given  map[*Row]edit // rows that those after them are worked on as mended
	plain  bool          // a number is only tried: nothing is mended on the way
	slips  int           // pieces that one wrong number was looked for in
	doubts int           // errors that a small slip was looked for to explain

	spent, kept int64 // see budget.go
	traces      tracer
	saidMuch    bool
	index       *numbered
	mended      int // rows worked in search of mends
	mendedOn    int // mends from which rows were worked on
}

// say keeps a finding.
func (pr *prover) say(sev Severity, code Code, sp Span, msg, hint string) {
	if pr.quiet {
		return
	}
	pr.out = append(pr.out, Finding{Severity: sev, Code: code, Span: sp, Message: msg, Hint: hint})
}

// counted decides whether a chain that the pattern says nothing of counts as
// a stitch, and notes that it had to.
func (pr *prover) counted(k turnKey, def bool, o options) bool {
	seen := false
	for _, a := range pr.asked {
		seen = seen || a == k
	}
	if !seen {
		pr.asked = append(pr.asked, k)
	}
	if pr.flips[k] {
		def = !def
	}
	if o.has(optFlipTurn) {
		def = !def
	}
	return def
}

// Prove works the pattern stitch by stitch.
func (p *Pattern) Prove(o Options) *Proof {
	if o.Terms != stitch.Unknown && o.Terms != p.Terms && o.Terms != p.evidence {
		// the words must be read again under the other terms
		terms := o.Terms
		o.Terms = stitch.Unknown
		return readAs(p.Source.Text, terms).Prove(o)
	}
	proof := p.prove(o, -1)
	if o.Others {
		p.otherSizes(proof, o)
	}
	return proof
}

// prove works one size: that of the options or, where it is not below 0, that
// with the index given.
func (p *Pattern) prove(o Options, size int) *Proof {
	pr := &prover{pat: p, terms: p.Terms, flips: make(map[turnKey]bool)}
	if pr.terms == stitch.Unknown {
		pr.terms = p.evidence
	}
	if pr.terms == stitch.Unknown {
		pr.terms = stitch.US
	}
	pr.out = append(pr.out, p.findings...)
	proof := &Proof{Pattern: p, Terms: pr.terms}
	if size < 0 {
		proof.Size = pr.chooseSize(o.Size)
	} else {
		pr.size, proof.Size = size, p.Sizes[size]
	}
	proof.size = pr.size
	pr.checkTerms()
	pr.undefined()
	for _, pc := range p.Pieces {
		pr.provePiece(pc)
	}
	pr.overlaps()
	pr.checkClaims()
	for _, w := range pr.pieces {
		w.proof.work = w
		proof.Pieces = append(proof.Pieces, w.proof)
	}
	sort.SliceStable(pr.out, func(i, j int) bool { return pr.out[i].Span.Start < pr.out[j].Span.Start })
	proof.Findings = dedupe(pr.out)
	return proof
}

// dedupe keeps one finding of those that say the same of the same words: a row
// that others repeat is amiss in all of them, and is mended once.
func dedupe(fs []Finding) []Finding {
	out := fs[:0]
	for _, f := range fs {
		again := false
		for i := len(out) - 1; i >= 0 && out[i].Span.Start == f.Span.Start && !again; i-- {
			o := &out[i]
			again = *o == f || !f.Span.Empty() && o.Span == f.Span && o.Code == f.Code && o.Severity == f.Severity
		}
		if !again {
			out = append(out, f)
		}
	}
	return out
}

func (pr *prover) chooseSize(name string) string {
	p := pr.pat
	if name == "" {
		if len(p.Sizes) > 0 {
			return p.Sizes[0]
		}
		return ""
	}
	for i, s := range p.Sizes {
		if strings.EqualFold(s, name) || strings.EqualFold(strings.Fields(s + " ")[0], name) {
			pr.size = i
			return s
		}
	}
	have := "it is written in one size"
	if len(p.Sizes) > 0 {
		have = "it has " + strings.Join(p.Sizes, ", ")
	}
	pr.say(Error, CodeSize, Span{}, fmt.Sprintf("the pattern has no size %q; %s", name, have), "")
	if len(p.Sizes) > 0 {
		return p.Sizes[0]
	}
	return ""
}

// checkTerms says which terms were taken where the pattern does not, and
// where it mixes them.
func (pr *prover) checkTerms() {
	p := pr.pat
	if p.Terms == stitch.Unknown && p.evidence == stitch.UK {
		pr.say(Note, CodeTerms, Span{}, "read in UK terms, as its words show; say so in the pattern (\"UK terms\")", "")
	}
}

// pieceWork is a piece while it is worked.
type pieceWork struct {
	pr          *prover
	piece       *Piece
	proof       *PieceProof
	rows        []workedRow
	below       *fabric    // as the row just worked left it, in the order made
	after       *pieceWork // the piece that it goes on from, in place of a foundation
	meshWidth   int64      // see meshesUsual; 0 before it was asked for
	belowNumber int
	belowJoined bool
	calledRows  bool // rounds are called rows: one of them was joined, and those behind it go on round though nobody says so
	belowTurned bool // "turn" was said at its end
	carry       []*Step
	foundation  int64 // chains of the foundation
	hook        int64 // the chain that the first row began in
	host        *hostUse
	uses        []*hostUse // what other pieces are worked onto this one
	stated      int64      // the total the row just worked states; -1 none
	madeLast    int64
	turnNamed   bool           // some row works into the top of a turning chain
	said        map[int64]bool // chains that earlier rows say, or show, to count or not
	counted     bool           // the total of the row below counts its chains as stitches
	other       *fabric        // what the row would have left had its stated total been right
	otherMade   int64
	guess       *fabric // what a row that was not understood may have left; below is free then
	mends       *mending
	flips       map[turnKey]bool
	trial       *trial
	links       *linking      // nil where nobody asks for links
	told        map[*Row]bool // rows whose words not understood were told of
	own         []ownUnit     // what rows state in units of the author's own

	wrong  map[*Row]bool // rows with an error where they are written
	onward map[*Row]edit // wrong rows, and how they are mended for those after them

	explained map[int]bool // errors, by their place among findings, that a small slip explains
	slipTold  bool         // one number explains all that is amiss, and is told
}

// workedRow is what a worked row left for later.
type workedRow struct {
	number int
	fabric *fabric
	row    *Row

	// rest is the row as the one that stopped short on it saw it, from the
	// side it was worked from; nil where none did. Its first places, worked of
	// them, are used.
	rest   *fabric
	back   bool // rest runs back over the row, from its last place on
	worked int64
}

// hostUse is a stretch of a row of one piece that another is worked onto.
type hostUse struct {
	piece    *pieceWork
	by       *pieceWork
	number   int
	from, to int64 // stitches of the row, from 0, half open
	of       int64
	span     Span
}

// provePiece works a piece under the usual reading and, where that leaves
// anything amiss, under the others that its unsaid chains allow.
func (pr *prover) provePiece(p *Piece) {
	found := len(pr.out)
	pr.asked = pr.asked[:0]
	pr.flips = make(map[turnKey]bool)
	kept := pr.kept
	best := pr.workPiece(p)
	score, bestKept := scoreOf(pr.out[found:]), pr.kept
	if score == 0 || len(pr.asked) == 0 {
		pr.endPiece(p, pr.settleStars(p, best, found, kept), found, kept)
		return
	}
	bestOut := append([]Finding(nil), pr.out[found:]...)
	asked := append([]turnKey(nil), pr.asked...)
	if len(asked) > 4 {
		asked = asked[:4]
	}
	var bestFlips map[turnKey]bool
	worked := pr.worked
	for bits := 1; bits < 1<<len(asked) && score > 0; bits++ {
		if pr.worked-worked > 4*maxWorked || pr.spent > maxSpent/8 {
			break
		}
		pr.flips = make(map[turnKey]bool)
		for i, k := range asked {
			if bits&(1<<i) != 0 {
				pr.flips[k] = true
			}
		}
		pr.out, pr.kept = pr.out[:found], kept
		w := pr.workPiece(p)
		if s := scoreOf(pr.out[found:]); s < score {
			score, best, bestFlips, bestKept = s, w, pr.flips, pr.kept
			bestOut = append(bestOut[:0:0], pr.out[found:]...)
		}
	}
	pr.out = append(pr.out[:found], bestOut...)
	pr.flips, pr.kept = bestFlips, bestKept
	best = pr.settleStars(p, best, found, kept)
	for _, k := range asked {
		if bestFlips[k] {
			pr.out = append(pr.out, pr.flipNote(p, best, k))
		}
	}
	best.flips = bestFlips
	pr.endPiece(p, best, found, kept)
}

// endPiece looks at what is amiss in a piece whose reading is settled, and keeps
// the piece for those after it.
func (pr *prover) endPiece(p *Piece, w *pieceWork, found int, kept int64) {
	pr.mendPiece(w)
	w = pr.oneSlip(p, w, found, kept)
	pr.misread(w, found)
	pr.firstAmiss(w, found)
	pr.doubt(p, w, found)
	pr.ownUnits(w, found)
	pr.barred, pr.forced = 0, 0
	pr.pieces = append(pr.pieces, w)
	pr.register(w)
}

// register gives the use that a piece makes of another to that other.
func (pr *prover) register(w *pieceWork) {
	if w.host != nil && w.host.piece != nil {
		w.host.piece.uses = append(w.host.piece.uses, w.host)
	}
}

// flipNote says that a chain was read against the usual way, since the totals
// show that it is meant so. It stands on the first row where it matters.
func (pr *prover) flipNote(p *Piece, w *pieceWork, k turnKey) Finding {
	sp := p.Span
	for _, r := range p.Rows {
		if k.foundation && hasHook(r.Steps) || !k.foundation && hasChain(append(append([]*Step(nil), r.Setup...), r.Steps...), k.chains, pr.size) {
			sp = r.labelSpan
			break
		}
	}
	name := k.stitch.Name(pr.terms)
	what := fmt.Sprintf("the ch %d at the start of a row", k.chains)
	if k.foundation {
		what = fmt.Sprintf("the %s skipped at the hook", countWords(k.chains, "chain", "chains"))
	}
	counts := "does not count as a stitch"
	if pr.readsAsCounted(w, k) {
		counts = "counts as one " + name
	}
	return Finding{Severity: Note, Code: CodeReading, Span: sp, Message: "the pattern does not say whether " + what + " counts; under its totals it " + counts}
}

// readsAsCounted reports how the chain was taken in the end: that of the foundation
// in the first row, and a turning chain in the rows after it.
func (pr *prover) readsAsCounted(w *pieceWork, k turnKey) bool {
	for i, r := range w.rows {
		if i > 0 && k.foundation {
			break
		}
		if i == 0 && !k.foundation && hasHook(r.row.Steps) {
			continue
		}
		for _, ru := range r.fabric.runs {
			if ru.turn && ru.kind == pStitch && int64(ru.size) == k.chains && ru.stitch == k.stitch {
				return true
			}
		}
	}
	return false
}

func hasHook(steps []*Step) bool {
	for _, s := range steps {
		if s.Target.Which == FromHook || hasHook(s.Body) {
			return true
		}
	}
	return false
}

func hasChain(steps []*Step, n int64, size int) bool {
	for _, s := range steps {
		if s.Op == OpChain && s.N.At(size) == n {
			return true
		}
	}
	return false
}

// scoreOf weighs findings: the fewer errors the better, then warnings.
func scoreOf(fs []Finding) int {
	n := 0
	for _, f := range fs {
		switch f.Severity {
		case Error:
			n += 1000
		case Warning:
			n += 10
		}
	}
	return n
}

// overlaps says where pieces worked onto one row use a stitch twice, and
// where they sit.
func (pr *prover) overlaps() {
	for _, w := range pr.pieces {
		sort.SliceStable(w.uses, func(i, j int) bool {
			if w.uses[i].number != w.uses[j].number {
				return w.uses[i].number < w.uses[j].number
			}
			return w.uses[i].from < w.uses[j].from
		})
		var last *hostUse // the one that reaches furthest along the row
		for _, u := range w.uses {
			p := placingOf(u)
			if p == nil {
				continue
			}
			pr.say(Note, CodePlaced, u.span, p.String(), "")
			if last != nil && last.number == u.number && last.to > u.from {
				pr.overlap(w, last, u)
			}
			if last == nil || last.number != u.number || u.to > last.to {
				last = u
			}
		}
	}
}

// overlap says that a piece uses stitches of a row that another has used. One
// stitch may be shared, at a corner, where the row says so.
func (pr *prover) overlap(w *pieceWork, a, b *hostUse) {
	n := min(a.to, b.to) - b.from
	sev := Warning
	if n == 1 && len(b.by.piece.Rows) > 0 && saysShared(pr.pat.Source.Slice(b.by.piece.Rows[0].Span)) {
		sev = Note
	}
	row := pr.rowName(w, b.number)
	msg := fmt.Sprintf("%s of %s are already worked into by %s", countWords(n, "stitch", "stitches"), row, pieceLabel(a.by))
	if n == 1 {
		msg = fmt.Sprintf("stitch %d of %s is already worked into by %s", b.from+1, row, pieceLabel(a.by))
	}
	hint := ""
	if a.to < b.of {
		hint = fmt.Sprintf("the first stitch free after %s is the %s", pieceLabel(a.by), ordinal(a.to+1))
	}
	pr.say(sev, CodeOverlap, b.span, msg, hint)
}

func saysShared(row string) bool {
	row = strings.ToLower(row)
	return strings.Contains(row, "share") || strings.Contains(row, "sharing") || strings.Contains(row, "same st as") || strings.Contains(row, "same place as") || strings.Contains(row, "same stitch as")
}

func pieceLabel(w *pieceWork) string {
	if w.piece.Name == "" {
		return "the piece before"
	}
	return w.piece.Name
}

func (pr *prover) rowName(w *pieceWork, n int) string {
	name := fmt.Sprintf("Row %d", n)
	if w.piece.Name != "" {
		name += " of " + w.piece.Name
	}
	return name
}

// onOneLine folds the white space of a piece of source.
func onOneLine(s string) string { return oneLine(s) }
