package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Write gives a pattern in one house style: a row to a line, labels as
// "Row 2:" and "Rnds 4-9:", repeats as "*...; rep from * 5 more times", the
// total in brackets at the end and behind it what is done once the row is
// worked, piece headings as "## Fin (make 2)".
//
// What reads back otherwise than it was read is written as it stands: rows
// that were not understood, steps with words that the tree does not keep.
// What stands between the rows (materials, notes, assembly) is copied on lines
// of its own. The result proves the same as p, and writing it again changes
// nothing.
func Write(p *Pattern) string {
	text, _ := WriteOut(p)
	return text
}

// WriteOut is Write, and tells which rows it left as they stand. They are those of
// [Pattern.Labelled].
func WriteOut(p *Pattern) (text string, left []*Row) {
	p = p.Labelled()
	w := newWriter(p)
	for _, g := range w.regions() {
		if g.end <= w.at {
			continue
		}
		g.start = max(g.start, w.at)
		w.between(w.at, g.start)
		w.at = g.end
		if g.row == nil {
			w.heading(g.piece)
			continue
		}
		w.row(g.row)
	}
	w.between(w.at, len(p.Source.Text))
	return w.out.String(), w.left
}

// writer puts a pattern into its written form.
type writer struct {
	p      *Pattern
	terms  stitch.Terms
	smooth string
	back   *reader // reads what was written back
	names  map[*Special]string
	out    strings.Builder
	at     int     // how far the source is written
	lead   string  // words before a row on its own line
	blank  bool    // a blank line stands before what comes next
	round  bool    // the row being written goes round
	steps  []*Step // those of the row being written
	left   []*Row  // rows that are written as they stand
}

func newWriter(p *Pattern) *writer {
	w := &writer{p: p, terms: p.Terms, smooth: smooth(p.Source.Text), names: make(map[*Special]string)}
	if w.terms == stitch.Unknown {
		w.terms = p.evidence
	}
	w.back = &reader{pat: &Pattern{Terms: p.Terms, Sizes: p.Sizes, Pieces: p.Pieces, evidence: p.evidence}, names: make(map[string]*Special), weakOK: true}
	w.back.lex, w.back.other = stitch.LexiconFor(stitch.US), stitch.LexiconFor(stitch.UK)
	if w.terms == stitch.UK {
		w.back.lex, w.back.other = w.back.other, w.back.lex
	}
	for _, s := range p.Specials {
		w.back.name(s)
		w.names[s] = s.Names[0]
	}
	return w
}

// region is a stretch of the source that is written anew.
type region struct {
	start, end int
	row        *Row
	piece      *Piece
}

// regions are the rows and piece headings in the order of the source.
func (w *writer) regions() []region {
	var out []region
	for _, pc := range w.p.Pieces {
		if !pc.Span.Empty() {
			out = append(out, region{pc.Span.Start, pc.Span.End, nil, pc})
		}
		for _, r := range pc.Rows {
			start := r.Span.Start
			if len(r.Setup) > 0 {
				start = min(start, r.Setup[0].Span.Start)
			}
			out = append(out, region{start, r.Span.End, r, nil})
		}
	}
	return out
}

// between copies what stands between two regions, a line to a line.
func (w *writer) between(from, to int) {
	whole := from == 0 // the first fragment is a whole line
	for from < to {
		end := strings.IndexByte(w.smooth[from:to], '\n')
		last := end < 0
		if last {
			end = to - from
		}
		line := strings.TrimSpace(tidy(w.p.Source.Text[from : from+end]))
		worded := hasWord(w.smooth[from : from+end])
		switch {
		case last && to < len(w.p.Source.Text):
			if worded {
				w.lead = line + " "
			}
		case line == "" && !whole:
		case line == "":
			w.blank = true
		case whole || worded:
			w.line(line)
		}
		whole = true
		from += end + 1
	}
}

// hasWord reports whether smoothed text holds more than marks.
func hasWord(s string) bool {
	for i := 0; i < len(s); i++ {
		if isLetter(s[i]) || '0' <= s[i] && s[i] <= '9' || s[i] >= 0x80 {
			return true
		}
	}
	return false
}

// line puts one line out.
func (w *writer) line(s string) {
	if w.blank && w.out.Len() > 0 {
		w.out.WriteByte('\n')
	}
	w.blank = false
	w.out.WriteString(w.lead)
	w.lead = ""
	w.out.WriteString(s)
	w.out.WriteByte('\n')
}

func (w *writer) heading(p *Piece) {
	s := "## " + tidy(p.Name)
	if p.Copies > 1 {
		s += " (make " + itoa(int64(p.Copies)) + ")"
	}
	if w.lead != "" {
		w.line("")
	}
	w.blank = true
	w.line(s)
}

// row writes a row: what comes before it without a label on a line of its
// own, and then its label, its steps and its total.
func (w *writer) row(r *Row) {
	w.round = r.Kind == Round
	if len(r.Setup) > 0 {
		w.line(w.setup(r))
	}
	if r.noLabel {
		w.line(w.body(r, ""))
		return
	}
	w.line(w.body(r, w.label(r)+": "))
}

// setup writes the steps that stand before a row's label.
func (w *writer) setup(r *Row) string {
	if text, ok := w.sentence(r.Setup); ok {
		got := &Row{Kind: r.Kind}
		w.readBack(text, got)
		if len(got.bad) == 0 && sameSteps(got.Steps, r.Setup) {
			return text
		}
	}
	return w.lines(r.Setup[0].Span.Start, r.labelSpan.Start)
}

// body writes a row's steps and total behind its label. Where that would not
// read back the same, the row is written as it stands.
func (w *writer) body(r *Row, label string) string {
	w.steps = r.Steps
	total, ok := w.total(r.Total)
	change, told := r.changes.written()
	if total += change; ok && told && len(r.bad) == 0 && !w.loses(r) {
		// what is said once the row is done stands behind its total
		n := len(r.Steps)
		for n > 0 && w.isAfter(r.Steps[n-1]) {
			n--
		}
		for _, n := range []int{max(n, min(1, len(r.Steps))), len(r.Steps)} {
			text, ok := w.sentence(r.Steps[:n])
			if !ok || n == 0 {
				continue
			}
			text = label + strings.TrimSpace(text+total)
			if n == len(r.Steps) && w.readsBack(text, r) {
				return text
			}
			if n < len(r.Steps) {
				after := w.afterwards(r.Steps[n:], r.Steps[n-1].Span.End)
				if w.readsBack(text+strings.ReplaceAll(after, "\n", " "), r) { // it reads back from one line
					return text + after
				}
			}
		}
	}
	w.left = append(w.left, r)
	from := r.labelSpan.End
	if r.noLabel {
		from = r.Span.Start
	}
	text := w.lines(from, r.Span.End)
	if star := w.slant(r, from); star >= 0 {
		text = w.lines(from, star) + " " + w.lines(star+1, r.Total.Span.End)
		if next := r.Total.Span.End + 1; next < r.Span.End {
			text += " " + w.lines(next, r.Span.End)
		}
	}
	if strings.HasSuffix(w.p.Source.Text[:r.Span.Start], "**") {
		text = strings.TrimSpace(strings.TrimPrefix(text, "**")) // a label in bold
	}
	if label != "" && !w.sameLabel(label+text, r) {
		// a label that reads otherwise stands as it was
		return w.lines(r.labelSpan.Start, r.Span.End)
	}
	return label + text
}

// slant is where the stars of a total in italics begin, if they are of the words
// written, or -1: without them the words read the same.
func (w *writer) slant(r *Row, from int) int {
	if r.Total == nil || r.Total.Span.End > r.Span.End || r.Total.Span.Start <= from {
		return -1
	}
	return r.Total.Slanted(w.p.Source)
}

// Slanted is where the star stands that begins a total in Markdown's italics, "*(64
// sts)*", before it or within its words; -1 where none does. The other stands right
// behind it.
func (t *Total) Slanted(src *Source) int {
	behind := src.Text[t.Span.End:]
	if at := t.Span.Start - 1; at >= 0 && strings.HasPrefix(behind, "*") && !strings.HasPrefix(behind, "**") {
		if i := strings.IndexByte(src.Text[at:t.Span.End], '*'); i >= 0 {
			return at + i
		}
	}
	return -1
}

// joining are words that may be lost between two steps: they tell nothing.
var joining = newWordSet("and with work working then now make making put the a again next please also of")

// loses reports whether a row has words that are in none of its steps, though they
// tell what to do: "sc evenly around, working 3 sc in each corner". What comes out
// without them would be proven, and they would be gone from what is written.
func (w *writer) loses(r *Row) bool {
	from := r.labelSpan.End
	if r.noLabel {
		from = r.Span.Start
	}
	for _, t := range lex(w.smooth[from:r.Span.End]) {
		if t.kind == tEnd || t.kind == tPunct || t.in(joining) {
			continue
		}
		word := Span{from + int(t.start), from + int(t.end)}
		within := func(s Span) bool { return s.Start <= word.Start && word.End <= s.End }
		told := r.Total != nil && within(r.Total.Span) || r.Refer != nil && within(r.Refer.Span)
		for _, s := range r.Steps {
			told = told || within(s.Span) || within(s.note) || within(s.Counts.Span)
		}
		if !told {
			return true
		}
	}
	return false
}

// lines is a stretch of the source with its lines tidied. Where they end may
// matter to how they are read.
func (w *writer) lines(from, to int) string {
	var out []string
	for from < to {
		end := strings.IndexByte(w.smooth[from:to], '\n')
		if end < 0 {
			end = to - from
		}
		if s := strings.TrimSpace(tidy(w.p.Source.Text[from : from+end])); s != "" {
			out = append(out, s)
		}
		from += end + 1
	}
	return strings.Join(out, "\n")
}

// label is a row's label in the house style. Words that ride in it (a colour,
// a side) keep it as the author has it.
func (w *writer) label(r *Row) string {
	if s := plainLabel(r); s != "" {
		return s
	}
	return strings.TrimRight(strings.TrimSpace(r.Label), ":.-= ")
}

// plainLabel is a label in the house style, or "" where words ride in it.
func plainLabel(r *Row) string {
	n := r.Numbers
	one, many := "Row ", "Rows "
	if r.Kind == Round {
		one, many = "Rnd ", "Rnds "
	}
	s := ""
	switch {
	case n.First.N == 0 && len(n.First.Sizes) == 0 || n.Every > 0:
		return ""
	case len(n.List) > 0:
		s = many
		for i, k := range n.List {
			switch {
			case i == 0:
			case i == len(n.List)-1:
				s += " and "
			default:
				s += ", "
			}
			s += itoa(int64(k))
		}
	case sameNum(n.First, n.Last):
		s = one + number(n.First)
	case len(n.First.Sizes) > 1 && len(n.Last.Sizes) == len(n.First.Sizes):
		var rest []string
		for i, from := range n.First.Sizes[1:] {
			rest = append(rest, itoa(from)+"-"+itoa(n.Last.Sizes[i+1]))
		}
		s = many + itoa(n.First.Sizes[0]) + "-" + itoa(n.Last.Sizes[0]) + " (" + strings.Join(rest, ", ") + ")"
	default:
		s = many + number(n.First) + "-" + number(n.Last)
	}
	switch r.Side {
	case RightSide:
		s += " (RS)"
	case WrongSide:
		s += " (WS)"
	}
	for i, t := range lex(smooth(r.Label)) {
		if i == 0 && t.kind == tWord && len(t.text) == 1 && !t.is("r") {
			return "" // "s1": its letter tells the part
		}
		if t.kind == tWord && !isRowWord(&t) && !t.isAny("rs", "ws", "right", "wrong", "side", "to", "and", "through", "s", "incl", "inclusive") {
			return ""
		}
	}
	return s
}

// written is by how many a row differs from the one below it, behind its total: " (+6)".
// It is false where that is told for each size.
func (c rowChanges) written() (string, bool) {
	switch {
	case !c.deltaSet:
		return "", true
	case len(c.delta.Sizes) > 0:
		return "", false
	case c.delta.N < 0:
		return " (-" + itoa(-c.delta.N) + ")", true
	}
	return " (+" + itoa(c.delta.N) + ")", true
}

// same reports whether two rows are said to differ by as many.
func (c rowChanges) same(d rowChanges) bool {
	return c.deltaSet == d.deltaSet && sameNum(c.delta, d.delta)
}

// readsBack reports whether a written row reads as the row it was written
// from.
func (w *writer) readsBack(text string, r *Row) bool {
	got, ok := w.readRow(text, r)
	return ok && len(got.bad) == 0 && got.changes.same(r.changes) && sameLabels(got, r) && sameSteps(got.Steps, r.Steps) && sameTotal(got.Total, r.Total) && sameRefer(got.Refer, r.Refer)
}

func (w *writer) sameLabel(text string, r *Row) bool {
	got, ok := w.readRow(text, r)
	return ok && sameLabels(got, r)
}

// readRow reads a written row. It is false where the row would be cut in two.
func (w *writer) readRow(text string, r *Row) (*Row, bool) {
	got := &Row{Kind: r.Kind}
	if r.noLabel {
		return got, w.readBack(text, got)
	}
	back := w.back
	back.src = &Source{Text: text}
	back.toks = unmark(text, lex(smooth(text)))
	l, ok := back.labelAt(0)
	if !ok {
		return got, false
	}
	got.Kind, got.Side, got.Numbers = l.kind, l.side, l.numbers
	return got, l.total.Empty() && w.readFrom(l.end, got)
}

func (w *writer) readBack(text string, row *Row) bool {
	back := w.back
	back.src = &Source{Text: text}
	back.toks = unmark(text, lex(smooth(text)))
	return w.readFrom(0, row)
}

func (w *writer) readFrom(i int, row *Row) bool {
	back := w.back
	body := back.toks[i : len(back.toks)-1]
	for k := range body {
		if k > 0 && back.mayLabel(i+k) {
			if l, ok := back.labelAt(i + k); ok && l.strong && !l.weak && back.labelFits(l, i+k) {
				return false
			}
		}
		if body[k].head && i+k > 0 {
			return false
		}
	}
	x := back.rowReaderFor(body, row)
	x.readRow()
	return true
}
