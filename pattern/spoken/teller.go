package spoken

import (
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// teller says one proof.
type teller struct {
	proof    *pattern.Proof
	opts     Options
	from, to stitch.Terms
	size     int
}

func newTeller(proof *pattern.Proof, o Options) *teller {
	t := &teller{proof: proof, opts: o, from: proof.Terms, to: o.Terms}
	if t.to == stitch.Unknown {
		t.to = t.from
	}
	for i, name := range proof.Pattern.Sizes {
		if strings.EqualFold(name, proof.Size) {
			t.size = i
		}
	}
	return t
}

// own says words of the author's that belong to an instruction.
func (t *teller) own(text string) string {
	o := own{from: t.from, to: t.to, size: t.size, sizes: len(t.proof.Pattern.Sizes)}
	return o.say(text)
}

// prose says words of the author's about the work.
func (t *teller) prose(text string) string {
	o := own{from: t.from, to: t.to, size: t.size, sizes: len(t.proof.Pattern.Sizes), prose: true}
	return sentence(capitals(o.say(text)))
}

func (t *teller) number(n int64) string { return cardinal(n, t.to == stitch.UK) }

// opening is what the author says before the work begins.
func (t *teller) opening() Part {
	p := Part{Piece: -1, Title: t.proof.Pattern.Title}
	var notes []pattern.Header
	for _, h := range t.proof.Pattern.Headers {
		if h.Kind == pattern.HeaderNote {
			notes = append(notes, h)
		}
	}
	p.Lines = t.paragraphs(notes)
	return p
}

// closing is the making up.
func (t *teller) closing() Part {
	return Part{Piece: -1, Title: "Making up", Lines: t.paragraphs(t.proof.Pattern.Assembly)}
}

// paragraphs says lines that are of no row, those of one paragraph together.
func (t *teller) paragraphs(lines []pattern.Header) []Line {
	var out []Line
	source := t.proof.Pattern.Source
	for i := 0; i < len(lines); {
		text, last := lines[i].Text, lines[i].Span.End
		for i++; i < len(lines) && lines[i].Span.Start >= last && strings.Count(source.Slice(pattern.Span{Start: last, End: lines[i].Span.Start}), "\n") == 1; i++ {
			text += " " + lines[i].Text
			last = lines[i].Span.End
		}
		out = append(out, Line{First: -1, Last: -1, Text: t.prose(text)})
	}
	return out
}

// piece says a piece row by row.
func (t *teller) piece(i int, pc *pattern.PieceProof) Part {
	p := Part{Piece: i, Title: pc.Piece.Name}
	for k, r := range pc.Rows {
		if n := r.Count(); t.opts.EveryRow && n > 1 && n <= MostRowsInFull {
			for j := range n {
				one := *r
				one.First, one.Last, one.Index = r.First+j, r.First+j, r.Index+j
				p.Lines = append(p.Lines, t.line(i, pc, k, &one, j == n-1))
			}
			continue
		}
		p.Lines = append(p.Lines, t.line(i, pc, k, r, true))
	}
	return p
}

// line says a row with the notes that stand by it, or behind the last of
// several alike.
func (t *teller) line(piece int, pc *pattern.PieceProof, k int, r *pattern.RowProof, last bool) Line {
	text := t.row(r)
	if last {
		for _, n := range t.notesAfter(pc, k) {
			text += " " + t.prose(n)
		}
	}
	for _, n := range t.opts.Notes {
		if n.Piece == piece && r.Index <= n.Row && n.Row < r.Index+r.Count() {
			text += " " + t.prose(n.Text)
		}
	}
	return Line{First: r.Index, Last: r.Index + r.Count() - 1, Label: r.Label, Text: strings.TrimSpace(text)}
}

// notesAfter are the author's lines that stand between a row and the next.
func (t *teller) notesAfter(pc *pattern.PieceProof, k int) []string {
	var out []string
	for _, h := range pc.Piece.Notes {
		line, _ := t.proof.Pattern.Source.Position(h.Span.Start)
		after := 0
		for i, r := range pc.Rows {
			if r.Line < line {
				after = i
			}
		}
		if after == k {
			out = append(out, h.Text)
		}
	}
	return out
}

// row says one row, or several alike.
func (t *teller) row(r *pattern.RowProof) string {
	var words strings.Builder
	for _, w := range t.proof.Words(r) {
		words.WriteString(w.Text)
	}
	return strings.TrimSpace(sentence(t.label(r)) + " " + sentence(capitals(t.own(words.String()))) + " " + t.total(r))
}

// label says which rows these are.
func (t *teller) label(r *pattern.RowProof) string {
	one, many := "row ", "rows "
	if r.Kind == pattern.Round {
		one, many = "round ", "rounds "
	}
	if r.Count() == 1 {
		return one + t.number(int64(r.First))
	}
	to := " through "
	if t.to == stitch.UK || r.Count() == 2 {
		to = map[bool]string{true: " and ", false: " to "}[r.Count() == 2]
	}
	return many + t.number(int64(r.First)) + to + t.number(int64(r.Last))
}

// total says what the row comes to.
func (t *teller) total(r *pattern.RowProof) string {
	n, ok := r.Expect()
	if !ok || n <= 0 {
		return ""
	}
	return "That gives you " + t.number(n) + plural(n, " stitch.", " stitches.")
}
