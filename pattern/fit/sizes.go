package fit

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/yarn"
)

// Size is one of several sizes wished for.
type Size struct {
	Name string
	Wish Wish
}

// Several is a pattern in several sizes.
type Several struct {
	Text    string           // the pattern, its numbers as "45 (53, 61)"
	Sizes   []Size           // in the order wished for
	Results []*Result        // each size by itself
	Proofs  []*pattern.Proof // of Text, read back in each size

	yarn  []yarnNeed // of each size; nil where it was not asked for
	basis string     // what it rests on
	ball  yarn.Ball
}

// maxSizes bounds how many sizes one pattern is written in.
const maxSizes = 12

// ToSizes fits a proven pattern to several wishes at once, and writes one
// pattern for all of them. Each size is proven by reading that pattern back. Its
// errors name the size that cannot be had.
func ToSizes(proof *pattern.Proof, g gauge.Gauge, sizes []Size) (*Several, error) {
	if len(sizes) > maxSizes {
		return nil, fmt.Errorf("%d sizes are more than the %d that fit into one line", len(sizes), maxSizes)
	}
	var pairs []pair
	if slices.ContainsFunc(sizes, func(s Size) bool { return s.Wish.higher() }) {
		proof, pairs = pairsAsRanges(proof)
	}
	out := &Several{Sizes: sizes}
	var sets []pattern.Changes
	for _, s := range sizes {
		f, err := begin(proof, g, s.Wish)
		if err == nil {
			f.pairs = pairs
			err = f.fit()
		}
		if err != nil {
			return nil, &OfSize{s.Name, err}
		}
		sets = append(sets, f.changes)
		out.Results = append(out.Results, f.res)
	}
	names := make([]string, len(sizes))
	for i, s := range sizes {
		names[i] = s.Name
	}
	out.Text = proof.Pattern.Source.Write(sets...)
	if len(sizes) > 1 {
		out.Text = withSizes(proof.Pattern, out.Text, names)
	}
	out.Text = asRanges(asPairs(out.Text, pairs))
	p := pattern.Read(out.Text)
	if len(sizes) > 1 && !slices.Equal(p.Sizes, names) {
		return nil, fmt.Errorf("the names of the sizes do not read back as they are written (%s); plain words such as S, M, L do", strings.Join(names, ", "))
	}
	for i, s := range sizes {
		name := s.Name
		if len(sizes) == 1 {
			name = ""
		}
		now := p.Prove(pattern.Options{Size: name, Terms: proof.Terms})
		err := same(proof, now)
		if err == nil {
			err = alike(out.Results[i].Proof, now)
		}
		if err != nil {
			return nil, &OfSize{s.Name, err}
		}
		out.Proofs = append(out.Proofs, now)
	}
	return out, nil
}

// OfSize is an error of one of several sizes.
type OfSize struct {
	Name string
	Err  error
}

func (e *OfSize) Error() string { return "size " + e.Name + ": " + e.Err.Error() }
func (e *OfSize) Unwrap() error { return e.Err }

// alike holds the proof of one size of several against that of the size by
// itself: row for row they must make the same.
func alike(alone, among *pattern.Proof) error {
	for i, p := range alone.Pieces {
		q := among.Pieces[i]
		if p.Len() != q.Len() {
			return fmt.Errorf("%s reads back as %d rows, not %d: the numbers of its rows cannot be told size by size", pieceName(q), q.Len(), p.Len())
		}
		for k := 0; k < len(p.Rows); k++ {
			a := p.Rows[k]
			b, _ := q.At(a.Index)
			if b == nil || a.Made != b.Made || a.Available != b.Available {
				return errors.New("the pattern in several sizes does not read back as each of them by itself")
			}
		}
		a, b := placing(p), placing(q)
		if a != b {
			return fmt.Errorf("%s does not come to sit where it should", pieceName(q))
		}
	}
	return nil
}

// placing tells where on another piece a piece begins: what its first row
// finds.
func placing(p *pattern.PieceProof) string {
	if s := p.Sits(); s != nil {
		return fmt.Sprint(s.Row, s.From, s.To, s.Of)
	}
	return ""
}

// withSizes puts the line that names the sizes in front of the materials, or
// of the first piece where none are named.
func withSizes(p *pattern.Pattern, text string, names []string) string {
	line := 0
	for _, h := range p.Headers {
		switch h.Kind {
		case pattern.HeaderYarn, pattern.HeaderHook, pattern.HeaderGauge, pattern.HeaderSize, pattern.HeaderMaterials, pattern.HeaderSkill:
			n, _ := p.Source.Position(h.Span.Start)
			if line == 0 || n < line {
				line = n
			}
		}
	}
	sizes := "Sizes: " + names[0] + " (" + strings.Join(names[1:], ", ") + ")\n"
	if line == 0 || !strings.Contains(p.Source.Line(line), ":") {
		sizes += "\n"
	}
	if line == 0 {
		line = p.Pieces[0].Line
		if sp := p.Pieces[0].Span; !sp.Empty() {
			line, _ = p.Source.Position(sp.Start)
		}
		if first := p.Pieces[0].Rows[0]; len(first.Setup) > 0 {
			n, _ := p.Source.Position(first.Setup[0].Span.Start)
			line = min(line, n)
		}
	}
	if strings.Contains(text, "\r\n") {
		sizes = strings.ReplaceAll(sizes, "\n", "\r\n")
	}
	at := 0
	for ; line > 1 && at < len(text); line-- {
		i := strings.IndexByte(text[at:], '\n')
		if i < 0 {
			break
		}
		at += i + 1
	}
	return text[:at] + sizes + text[at:]
}

// Lines is what there is to say about the sizes, without the pattern itself.
func (s *Several) Lines() []string {
	first := s.Results[0]
	rows := [][]string{append([]string{"", "base", "stitches", "across", "wished", "off", "rows", "up", "wished", "off"}, yarnHead...)}
	for i, r := range s.Results {
		row := []string{s.Sizes[i].Name, r.Base}
		row = append(row, r.Across.cells()...)
		row = append(row, r.Up.cells()...)
		var need yarn.Amount
		if i < len(s.yarn) {
			need = s.yarn[i].all
		}
		rows = append(rows, append(row, yarnCells(need)...))
	}
	out := append([]string{first.Piece}, table(rows)...)
	out = append(out, s.yarnLines()...)
	list := func(title string, of func(*Result) []string) {
		var lines []string
		for _, r := range s.Results {
			for _, l := range of(r) {
				if !slices.Contains(lines, l) {
					lines = append(lines, l)
				}
			}
		}
		if len(lines) > 0 {
			out = append(out, "", title)
			for _, l := range lines {
				out = append(out, "  "+l)
			}
		}
	}
	list(keptTitle, func(r *Result) []string { return r.Kept })
	list(gaugeTitle, func(r *Result) []string { return r.Notes })
	list(lookTitle, func(r *Result) []string { return r.Look })
	out = append(out, "")
	for i, p := range s.Proofs {
		out = append(out, fmt.Sprintf("%s proven as printed: %s.", s.Sizes[i].Name, outcome(p)))
	}
	return out
}

// cells are the columns of one measure: the count, the length, what was wished
// and how far off that is.
func (m Measure) cells() []string {
	out := []string{figure(m.Stitches), "", m.wish(), ""}
	if m.MM > 0 {
		out[1] = m.Unit.Tell(m.MM)
		if m.Asked {
			out[3] = "0 mm"
			if off := int(roundMM(m.Off())); off != 0 {
				out[3] = fmt.Sprintf("%+d mm", off)
			}
		}
	}
	return out
}

// table sets rows of words under one another, leaving out columns that are
// empty but for their heading.
func table(rows [][]string) []string {
	out := make([]string, len(rows))
	for c := range rows[0] {
		width, any := 0, c == 0
		for i, r := range rows {
			width = max(width, len([]rune(r[c])))
			any = any || i > 0 && r[c] != ""
		}
		if !any {
			continue
		}
		for i, r := range rows {
			pad := strings.Repeat(" ", width-len([]rune(r[c])))
			if c == 0 {
				out[i] += "  " + r[c] + pad
			} else {
				out[i] += "  " + pad + r[c]
			}
		}
	}
	for i := range out {
		out[i] = strings.TrimRight(out[i], " ")
	}
	return out
}
