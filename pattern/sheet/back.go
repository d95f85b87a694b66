package sheet

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// readBack reads the version as it will be printed and notes where it proves
// otherwise than the pattern.
func (b *builder) readBack(t stitch.Terms, own []*pattern.Proof) {
	d := &Doc{Title: b.title, About: b.about, Says: "Written in " + t.String() + " terms.", Versions: []Version{{t, b.blocks()}}}
	for _, form := range []string{Text(d), Markdown(d)} {
		if b.unlike = unlike(own, pattern.Read(form)); len(b.unlike) > 0 {
			return
		}
	}
}

// Unlike says in which rows a text that was read again proves otherwise than
// the pattern, read in the terms given, from which it was written. Stitches may
// have other names in it.
func Unlike(p *pattern.Pattern, t stitch.Terms, again *pattern.Pattern) []string {
	return unlike(inSizes(p, t), again)
}

// inSizes proves a pattern in each of its sizes.
func inSizes(p *pattern.Pattern, t stitch.Terms) []*pattern.Proof {
	var out []*pattern.Proof
	for _, size := range p.Sizes {
		out = append(out, p.Prove(pattern.Options{Size: size, Terms: t}))
	}
	if out == nil {
		out = append(out, p.Prove(pattern.Options{Terms: t}))
	}
	return out
}

func unlike(own []*pattern.Proof, again *pattern.Pattern) []string {
	for _, a := range own {
		size := ""
		if len(own) > 1 {
			size = a.Size
		}
		if bad := unlikeProofs(a, again.Prove(pattern.Options{Size: size})); len(bad) > 0 {
			if size != "" {
				bad[0] = "size " + size + ": " + bad[0]
			}
			return bad
		}
	}
	return nil
}

func unlikeProofs(a, b *pattern.Proof) []string {
	if len(a.Pieces) != len(b.Pieces) {
		return []string{fmt.Sprintf("it has %s, and reads back with %d", pieces(len(a.Pieces)), len(b.Pieces))}
	}
	var out []string
	for i, p := range a.Pieces {
		q := b.Pieces[i]
		name := p.Piece.Name
		if name != "" {
			name = " of " + name
		}
		if p.Piece.Copies != q.Piece.Copies {
			out = append(out, fmt.Sprintf("%s is made %d times, and %d times as it reads back", p.Piece.Name, p.Piece.Copies, q.Piece.Copies))
		}
		if p.Len() != q.Len() || len(p.Rows) != len(q.Rows) {
			out = append(out, fmt.Sprintf("there are %d rows%s, and %d as it reads back", p.Len(), name, q.Len()))
			continue
		}
		for k, r := range p.Rows {
			s := q.Rows[k]
			if x, y := figures(r), figures(s); x != y {
				out = append(out, fmt.Sprintf("%s%s: %s; as it reads back: %s", r.Label, name, x, y))
			}
		}
	}
	return out
}

func pieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}

// figures are what the proof of a row comes to.
func figures(r *pattern.RowProof) string {
	s := fmt.Sprintf("rows %d-%d take %d, skip %d, leave %d, make %d, %s", r.First, r.Last, r.Taken, r.Skipped, r.Left, r.Made, r.Status)
	var kinds []string
	for _, k := range r.ByKind {
		kinds = append(kinds, fmt.Sprint(k.N))
	}
	if len(kinds) > 1 {
		s += " (" + strings.Join(kinds, " + ") + ")"
	}
	return s
}
