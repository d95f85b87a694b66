package spoken

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// pieceTeller says the rows of a piece in the order they are worked.
type pieceTeller struct {
	*teller
	piece int
	pc    *pattern.PieceProof
	notes map[int][]string // lines of the author's, by the row proof they follow
	lines []Line
}

// saidRow is where the words of a row were said.
type saidRow struct {
	piece, number int
	kind          pattern.RowKind
}

// piece says a piece row by row.
func (t *teller) piece(i int, pc *pattern.PieceProof) Part {
	x := &pieceTeller{teller: t, piece: i, pc: pc, notes: make(map[int][]string)}
	x.gatherNotes()
	for k := 0; k < len(pc.Rows); {
		k += x.rows(k)
	}
	if n := pc.Piece.Copies; n > 1 && len(x.lines) > 0 {
		x.lines[0].Text = "Make " + t.number(int64(n)) + " of these. " + x.lines[0].Text
	}
	return Part{Piece: i, Title: pc.Piece.Name, Lines: x.lines}
}

// gatherNotes puts each line of the author's that stands between the rows
// behind the row it follows.
func (x *pieceTeller) gatherNotes() {
	for _, h := range x.pc.Piece.Notes {
		line, _ := x.proof.Pattern.Source.Position(h.Span.Start)
		after := 0
		for i, r := range x.pc.Rows {
			if r.Line < line {
				after = i
			}
		}
		x.notes[after] = append(x.notes[after], h.Text)
	}
}

// rows says the k-th row proof, and those after it that are said with it. It
// gives how many that was.
func (x *pieceTeller) rows(k int) int {
	r := x.pc.Rows[k]
	if x.opts.EveryRow && r.Count() <= MostRowsInFull {
		for j := range r.Count() {
			one := *r
			one.First, one.Last, one.Index = r.First+j, r.First+j, r.Index+j
			x.full(k, &one, j == 0, j == r.Count()-1)
		}
		return 1
	}
	if !x.opts.EveryRow {
		if n := x.repeated(k); n > 0 {
			return n
		}
	}
	x.full(k, r, true, true)
	return 1
}

// full says a row in full. First and last tell whether it is the first and the
// last of the rows of its label.
func (x *pieceTeller) full(k int, r *pattern.RowProof, first, last bool) {
	row := x.rowLabelled(r)
	first = first && (k == 0 || x.pc.Rows[k-1].Label != r.Label || x.pc.Rows[k-1].Line != r.Line)
	last = last && (k+1 == len(x.pc.Rows) || x.pc.Rows[k+1].Label != r.Label || x.pc.Rows[k+1].Line != r.Line)
	text := ""
	if first && row != nil {
		text = x.ofRow(r).sentences(row.Setup)
	}
	text += " " + x.opens(r) + " " + x.row(r, x.before(k, r), last, x.leadsOf(k))
	if last {
		text += " " + x.closes(r, row)
	}
	x.line(k, r, r.Index+r.Count()-1, text, last)
	if _, ok := x.said[r.Row]; !ok {
		x.said[r.Row] = saidRow{x.piece, r.First, r.Kind}
	}
}

// leadsOf are the steps of a row that are said with the row after: "ch 1,
// turn" at its end.
func (x *pieceTeller) leadsOf(k int) []*pattern.Step {
	leads := lead(x.pc.Rows[k])
	if k+1 < len(x.pc.Rows) {
		leads = append(slices.Clone(leads), lead(x.pc.Rows[k+1])...)
	}
	return leads
}

// lead is what the row before left to this one, but for remarks in front of
// it: they are of the stitches before them.
func lead(r *pattern.RowProof) []*pattern.Step {
	for i, s := range r.Lead {
		if s.Op != pattern.OpNote {
			return r.Lead[i:]
		}
	}
	return nil
}

// opens names a row, or several that are alike.
func (x *pieceTeller) opens(r *pattern.RowProof) string {
	label := sentence(x.label(r.Kind, r.First, r.Last))
	switch r.Count() {
	case 1:
		return label
	case 2:
		return strings.TrimSuffix(label, ".") + " are the same."
	}
	return strings.TrimSuffix(label, ".") + " are all the same."
}

// closes says what stands behind a reference to other rows: "Rep Row 2.
// Fasten off."
func (x *pieceTeller) closes(r *pattern.RowProof, row *pattern.Row) string {
	if row == nil || row == r.Row || row.Refer == nil {
		return ""
	}
	for i, s := range row.Steps {
		if s.Unsaid() && s.Op == pattern.OpNote {
			return x.ofRow(r).sentences(row.Steps[i+1:])
		}
	}
	return ""
}

// rowLabelled is the row of the pattern whose label a row proof has.
func (x *pieceTeller) rowLabelled(r *pattern.RowProof) *pattern.Row {
	for _, row := range x.pc.Piece.Rows {
		if row.Label != r.Label {
			continue
		}
		if line, _ := x.proof.Pattern.Source.Position(row.Span.Start); line == r.Line {
			return row
		}
	}
	return nil
}

// line keeps what is said of row proof k, up to a row walked.
func (x *pieceTeller) line(k int, r *pattern.RowProof, last int, text string, ends bool) {
	said := []string{strings.Join(strings.Fields(text), " ")}
	if ends {
		for _, n := range x.notes[k] {
			said = append(said, x.prose(n))
		}
	}
	for _, n := range x.opts.Notes {
		if n.Piece == x.piece && r.Index <= n.Row && n.Row <= last {
			said = append(said, x.prose(n.Text))
		}
	}
	x.lines = append(x.lines, Line{First: r.Index, Last: last, Label: x.proof.LabelOf(r), Text: strings.TrimSpace(strings.Join(said, " "))})
}

// repeated says rows whose words were said before: "rows three through six are
// the same as row two". It gives how many row proofs that is; 0 where their
// words are new.
func (x *pieceTeller) repeated(k int) int {
	r := x.pc.Rows[k]
	if _, ok := x.said[r.Row]; !ok || r.Status == pattern.Unread {
		return 0
	}
	n := 1
	for k+n < len(x.pc.Rows) {
		next := x.pc.Rows[k+n]
		if _, ok := x.said[next.Row]; !ok || next.Label != r.Label || next.Line != r.Line {
			break
		}
		n++
	}
	block := 1 // rows that come round again and again
	for block < n && x.pc.Rows[k+block].Row != r.Row {
		block++
	}
	for i := range n {
		if x.pc.Rows[k+i].Row != x.pc.Rows[k+i%block].Row || block > 1 && x.pc.Rows[k+i].Count() > 1 {
			n, block = 1, 1
			break
		}
	}
	last := x.pc.Rows[k+n-1]
	label := x.label(r.Kind, r.First, last.Last)
	row := x.rowLabelled(r)
	text := x.ofRow(r).sentences(setupOf(row)) + " "
	switch count := last.Last - r.First + 1; {
	case block == 1 && count == 1:
		text += sentence(label + " is the same as " + x.where(r.Row))
	case block == 1:
		text += sentence(label + " are the same as " + x.where(r.Row))
	default:
		said := "for " + label + ", repeat " + x.those(k, block)
		if count%block == 0 && count > block {
			said += ", " + times(int64(count/block), x.to) + " in all"
		}
		text += sentence(said)
	}
	for i := range n {
		for _, note := range x.notes[k+i] {
			if i < n-1 {
				x.notes[k+n-1] = append(x.notes[k+n-1], note)
			}
		}
	}
	y := x.ofRow(last)
	if n > 1 && r.Made != last.Made {
		text += " By the end of " + x.label(last.Kind, last.Last, last.Last) + small1(strings.TrimPrefix(y.total(0), "That gives")) // "... you have"
		text = strings.Replace(text, " you ", ", you have ", 1)
	} else {
		text += " " + y.total(x.before(k, r))
	}
	text += " " + x.closes(last, row)
	x.line(k+n-1, &pattern.RowProof{Index: r.Index, Label: r.Label}, last.Index+last.Count()-1, text, true)
	return n
}

func setupOf(row *pattern.Row) []*pattern.Step {
	if row == nil {
		return nil
	}
	return row.Setup
}

// those names the rows of a block whose words were said before.
func (x *pieceTeller) those(k, block int) string {
	first, together := x.said[x.pc.Rows[k].Row], true
	var rows []string
	for i := range block {
		row := x.pc.Rows[k+i].Row
		at := x.said[row]
		together = together && at.piece == first.piece && at.number == first.number+i && at.kind == first.kind
		rows = append(rows, x.where(row))
	}
	if together {
		return x.label(first.kind, first.number, first.number+block-1) + x.of(first.piece)
	}
	return series(rows)
}

// where names a row whose words were said before.
func (x *pieceTeller) where(row *pattern.Row) string {
	at := x.said[row]
	return x.label(at.kind, at.number, at.number) + x.of(at.piece)
}

// of names the piece of a row, with a space before it; "" for the piece said.
func (x *pieceTeller) of(piece int) string {
	if piece == x.piece {
		return ""
	}
	if name := x.proof.Pieces[piece].Piece.Name; name != "" {
		return " of " + x.title(name)
	}
	return " of the piece before"
}

// before is what the row before came to; 0 where that is not known, or the row
// does not go on from it.
func (x *pieceTeller) before(k int, r *pattern.RowProof) int64 {
	switch {
	case r.Index > x.pc.Rows[k].Index:
		k++ // one of several alike
	case k == 0:
		return 0
	}
	if n, ok := x.pc.Rows[k-1].Expect(); ok && n == r.Available {
		return n
	}
	return 0
}

// label says which rows these are: "rows two through fourteen".
func (t *teller) label(kind pattern.RowKind, first, last int) string {
	one, many := "row ", "rows "
	if kind == pattern.Round {
		one, many = "round ", "rounds "
	}
	switch {
	case first == last:
		return one + t.number(int64(first))
	case first+1 == last:
		return many + t.number(int64(first)) + " and " + t.number(int64(last))
	case t.to == stitch.UK:
		return many + t.number(int64(first)) + " to " + t.number(int64(last))
	}
	return many + t.number(int64(first)) + " through " + t.number(int64(last))
}
