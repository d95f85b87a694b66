package pattern

import (
	"fmt"
	"slices"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Limits on what is read. Beyond them the reader says so and stops.
const (
	maxPieces = 2000
	maxRows   = 200_000
	maxWords  = 100_000 // of one row
)

// reader lays a text out as headers, pieces and rows.
type reader struct {
	src     *Source
	smooth  string
	toks    []token
	pat     *Pattern
	names   map[string]*Special
	aliases map[string]string // letters that stand for stitches
	conv    conventions
	lex     *stitch.Lexicon
	other   *stitch.Lexicon
	bench   *bench
	scan    rowReader
	scanRow Row
	summary int // the token after a sentence that sums up rows written out under it

	piece   *Piece
	row     *rowDraft   // the row whose words are being gathered
	setup   []token     // words before a row that have no label
	lines   []line      //
	sec     section     // the section that lines belong to
	heading pendingHead // a heading that may be the title or a piece
	rows    int
	drafts  []*rowDraft

	main      stitch.ID // the stitch of the row read last, in mainPiece
	mainPiece *Piece

	only     []bool  // the sizes that the rows that follow are for; nil for all
	skips    *skipTo // rows that a size leaves out
	before   *Row    // the row read before, in mainPiece
	count    int64   // of the stitches of the row read before, where its words alone tell; else 0
	bareTold bool    // that bare numbers are stitches
	lists    bool    // lists of this piece run together under the number behind them

	layersNext bool // the row to come is worked through both layers

	meshesTold [2]bool // whether an open mesh of filet is defined, and a filled one

	letters  map[string]bool // that number rows: "e1", "e2"
	letter   string          // of the row read last
	counted  map[int]bool    // tokens of bare figures that number rows
	totalled map[int]int     // lines that begin with the total of their row: by their first tokens the label
	listed   bool            // those numbers are of a list, and no totals

	numbered   map[int64]bool // rows that lines begin with the labels of
	hasLabel   bool
	unlabelled bool // no row has a label
	said       saidSoFar
	runOn      map[int]bool // tokens in mid-line at which the label of a row begins that no mark shows
	weakOK     bool
	stop       bool
}

type pendingHead struct {
	set   bool
	name  string
	make  int
	span  Span
	line  int
	level uint8
}

// line is the tokens of a line of text.
type line struct{ start, end int }

// rowDraft is a row whose words have been gathered but not read.
type rowDraft struct {
	row        *Row
	setup      []token
	body       []token
	label      label
	piece      *Piece
	unlabelled bool
	after      []Header // prose that follows it
}

// Read turns a written pattern into a tree. It takes any text at all and
// never fails: what it does not understand it keeps, and the proof says so.
func Read(text string) *Pattern { return readAs(text, stitch.Unknown) }

// ReadIn reads a pattern in the terms given, whatever the text says of itself.
func ReadIn(text string, terms stitch.Terms) *Pattern { return readAs(text, terms) }

// readAs reads under given terms, whatever the text says.
func readAs(text string, terms stitch.Terms) *Pattern {
	src := NewSource(text)
	r := &reader{src: src, smooth: smooth(text), pat: &Pattern{Source: src}, names: make(map[string]*Special), bench: newBench()}
	defer r.bench.clear()
	r.toks = columnTotals(text, unmark(text, r.bench.lex(r.smooth)))
	numbersOfLetters(r.toks)
	r.lex, r.other = stitch.LexiconFor(stitch.US), stitch.LexiconFor(stitch.UK)
	r.pat.Terms, r.pat.evidence = termsOf(r.toks)
	if terms != stitch.Unknown {
		r.pat.Terms = terms
	}
	if in := translated(r.toks, r.pat.Terms); len(in) < len(r.toks) {
		r.toks = in
		_, r.pat.evidence = termsOf(r.toks)
	}
	if r.pat.Terms == stitch.UK || r.pat.Terms == stitch.Unknown && r.pat.evidence == stitch.UK {
		r.lex, r.other = r.other, r.lex
	}
	r.cutLines()
	r.pat.blocks = r.inBlocks()
	r.pat.filet = r.inFilet()
	r.pat.usual = r.usualStitch()
	r.pat.bareTimes = r.bareTimes()
	r.findSizes()
	r.conv = newConventions()
	r.translatedLetters()
	r.layout()
	r.readSpecials()
	r.readRows()
	r.claims()
	r.pat.conv = r.conv
	r.pat.aliases = r.aliases
	r.pat.told = r.rowsTold()
	return r.pat
}

// scratch is a row reader over the whole text, to look ahead with.
func (r *reader) scratch(i int) *rowReader {
	x := &r.scan
	if x.pat == nil {
		*x = rowReader{src: r.src, pat: r.pat, row: &r.scanRow}
	}
	x.ts, x.lex, x.other, x.names = r.toks, r.lex, r.other, r.names
	x.restart(i)
	r.scanRow = Row{}
	return x
}

// cutLines finds where the lines of tokens begin. A label that the end of a
// line has cut in two, "17th" and below it "round:", stands on one line.
func (r *reader) cutLines() {
	start := 0
	for i := 1; i < len(r.toks); i++ {
		switch {
		case !r.toks[i].head:
		case r.cutsLabel(start, i):
			r.toks[i].head = false
		default:
			r.lines = append(r.lines, line{start, i})
			start = i
		}
	}
}

// inBlocks reports work from corner to corner, where "3 A" is three blocks of a
// colour and not three stitches.
func (r *reader) inBlocks() bool {
	for i := 0; i+2 < len(r.toks); i++ {
		t := &r.toks[i]
		if t.is("c") && r.toks[i+1].is("2") && r.toks[i+2].is("c") || t.is("corner") && r.toks[i+2].isAny("corner", "to") && (r.toks[i+1].isAny("to", "-")) {
			return true
		}
	}
	return false
}

// cutsLabel reports whether a line that begins at from breaks off within a
// label, which goes on at token i.
func (r *reader) cutsLabel(from, i int) bool {
	t, last := &r.toks[i], &r.toks[i-1]
	if t.blank || i-from < 2 || i+1 >= len(r.toks) || r.toks[i+1].head {
		return false
	}
	switch {
	case r.cutsOrdinals(from, i):
		return true
	case last.kind == tOrd:
		if !isRowWord(t) || t.is("r") || !r.toks[i+1].isMark(":.-=(") {
			return false
		}
		for i -= 2; i > from && (r.toks[i].isAny("and", "to", "-", "&", ",") || r.toks[i].kind == tOrd); i-- {
		}
		last = &r.toks[i]
	case isRowWord(last) && t.kind == tNum:
		if last.glued || !r.toks[i+1].isAny(":", ".", "-", "=", "(", "to") {
			return false
		}
		last = &r.toks[i-2]
	default:
		return false
	}
	return last.isMark(".)];")
}

// cutsOrdinals reports a label of several ordinals that the end of a line has cut
// between them, "5th" and below it "to 9th rnds incl:", "5th to" and "9th rnds:".
func (r *reader) cutsOrdinals(from, i int) bool {
	part := func(k int) bool {
		t := &r.toks[k]
		return t.kind == tOrd || t.isAny("to", "and", "-", "&", ",", "through", "thru")
	}
	a := i
	for a > from && i-a < 8 && part(a-1) {
		a--
	}
	b := i
	for b+1 < len(r.toks) && b-i < 8 && part(b) && (b == i || !r.toks[b].head) {
		b++
	}
	if a == i || b == i || a == from || b+1 >= len(r.toks) || r.toks[a].kind != tOrd || r.toks[b-1].kind != tOrd || !isRowWord(&r.toks[b]) || r.toks[b].is("r") || !r.toks[a-1].isMark(".)];") {
		return false
	}
	return r.toks[b+1].isMark(":.-=(") || r.toks[b+1].isAny("incl", "inclusive")
}

// readRows reads the words gathered for each row.
func (r *reader) readRows() {
	for _, d := range r.drafts {
		r.readDraft(d)
	}
	r.drafts = nil
	pieces := r.pat.Pieces[:0]
	for _, p := range r.pat.Pieces {
		r.settleKind(p)
		if len(p.Rows) > 0 {
			pieces = append(pieces, p)
		} else {
			r.pat.Headers = append(r.pat.Headers, p.Notes...)
		}
	}
	r.pat.Pieces = pieces
}

// settleKind decides whether "R1" means rows or rounds: work that turns is in
// rows, unless its rounds are joined. Rows that are told with no label go round where
// they begin in a ring.
func (r *reader) settleKind(p *Piece) {
	turns, joins, ring := false, false, false
	for _, row := range p.Rows {
		for _, steps := range [][]*Step{row.Setup, row.Steps} {
			for _, s := range steps {
				turns = turns || s.Op == OpTurn
				joins = joins || s.Op == OpJoin
				ring = ring || s.Op == OpRing || s.Target.Which == InRing
			}
		}
	}
	for _, row := range p.Rows {
		switch {
		case row.ambiguous && turns && !joins && !ring:
			row.Kind = FlatRow
		case row.noLabel && r.unlabelled && ring && (joins || !turns):
			row.Kind = Round
		}
	}
}

func (r *reader) readDraft(d *rowDraft) {
	row := d.row
	if len(d.body) > maxWords {
		rest := Span{int(d.body[maxWords].start), int(d.body[len(d.body)-1].end)}
		r.pat.note(Error, CodeTooMuch, rest, "more than %d words in one row: the rest of it is not read", maxWords)
		row.bad = append(row.bad, rest)
		d.body = d.body[:maxWords]
	}
	if len(d.setup) > 0 {
		var tmp Row
		x := r.rowReaderFor(d.setup, &tmp)
		r.unalias(x.ts)
		tmp.Kind = row.Kind
		x.readRow()
		r.tellBare(x)
		row.Setup = chainedOnce(tmp.Steps)
		if !talks(d.setup, row.Setup) {
			row.bad = append(row.bad, tmp.bad...)
		}
		if tmp.Total != nil && row.Total == nil && d.unlabelled {
			row.Total = tmp.Total
		}
	}
	if d.piece != r.mainPiece {
		r.mainPiece, r.main, r.layersNext, r.before, r.lists, r.count = d.piece, stitch.None, false, nil, false, 0
	}
	x := r.rowReaderFor(d.body, row)
	r.unalias(x.ts)
	x.main = r.main // "inc" at the start of a row is worked as the row before it was
	x.above = r.before
	x.afterRows = r.before != nil || len(row.Setup) > 0
	x.ringLoop = r.before == nil && loopNamesRing(d.setup, d.body)
	x.afterShaping = r.before != nil && shapes(r.before.Steps)
	if x.afterShaping && r.before.Total != nil && len(r.before.Total.Parts) == 1 {
		x.totalBefore = r.before.Total.Parts[0].N.N
	}
	x.countBefore = r.count
	called := row.Kind
	if called == FlatRow && r.goesRound(d) {
		row.Kind = Round
	}
	x.readRow()
	row.Kind = called
	inRowOrder(row.Steps)
	r.lists = x.regroup(r.lists) && len(row.bad) == 0 || r.lists
	r.main, r.before = x.main, row
	r.tellBare(x)
	if r.layersNext {
		row.bothLayers, row.folds = true, true
	}
	r.layersNext = nextThroughBoth(d.body)
	r.remarks(row)
	if row.Total == nil && !d.label.total.Empty() {
		lx := r.scratch(d.label.total.Start + 1)
		if parts, ok := lx.parts(d.label.total.End); ok {
			sp := Span{int(r.toks[d.label.total.Start].start), int(r.toks[d.label.total.End].end)}
			row.Total = &Total{Span: sp, Parts: parts, Text: r.src.Slice(sp)}
		}
	}
	r.count = countAfter(row, r.count)
	r.conv.fromSteps(row.Steps)
	r.conv.fromSteps(row.Setup)
}

// chainedOnce drops the chains that words before a label only tell of, once the
// foundation is made: "ch 38 ... the turning ch-4 counts as a tr".
func chainedOnce(steps []*Step) []*Step {
	made := false
	out := steps[:0]
	for _, s := range steps {
		if s.Op == OpChain && s.Counts.Said && made {
			continue
		}
		made = made || s.Op == OpChain && !s.Counts.Said && s.N.N > 4
		out = append(out, s)
	}
	return out
}

// talks reports whether words that stand before a label only talk of the work:
// they make no stitch and say nothing of where it begins. What is not
// understood in them does not touch the row.
func talks(words []token, steps []*Step) bool {
	for _, s := range steps {
		if makesStitches(s) {
			return false
		}
	}
	for i := range words {
		if words[i].isAny("join", "rejoin", "attach", "reattach", "skip", "sk", "miss", "leave", "leaving", "return") && !words[max(i-1, 0)].isAny("i", "we") {
			return false
		}
	}
	return len(words) > 8
}

// remarks says which words of a row were taken as a remark. A row of nothing
// else is not read at all.
func (r *reader) remarks(row *Row) {
	if len(row.remarks) == 0 || len(row.bad) > 0 {
		return
	}
	if row.Refer == nil && !row.changes.deltaSet && !slices.ContainsFunc(row.Steps, worksSomething) {
		row.bad = append(row.bad, row.remarks...)
		return
	}
	for _, sp := range row.remarks {
		r.pat.note(Note, CodeReading, sp, "%q is taken as a remark: it names nothing to work", oneLine(r.src.Slice(sp)))
	}
}

// worksSomething tells an instruction from what only goes before one: turning,
// and the chain to turn with.
func worksSomething(s *Step) bool {
	return s.Op != OpNote && s.Op != OpTurn && !(s.Op == OpChain && s.N.N <= 4)
}

func (p *Pattern) note(sev Severity, code Code, sp Span, format string, args ...any) {
	p.findings = append(p.findings, Finding{Severity: sev, Code: code, Span: sp, Message: fmt.Sprintf(format, args...)})
}

// oneLine is text with its white space and control bytes folded to spaces.
func oneLine(s string) string {
	if isOneLine(s) {
		return s
	}
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r <= ' ' || r == 0x7f || r == 0xa0 }), " ")
}

// isOneLine reports whether text needs no folding, as most does not.
func isOneLine(s string) bool {
	space := true // none may stand at either end, or beside another
	for i := range len(s) {
		c := s[i]
		if c < ' ' || c >= 0x7f || c == ' ' && space {
			return false
		}
		space = c == ' '
	}
	return !space
}
