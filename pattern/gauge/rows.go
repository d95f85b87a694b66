package gauge

import (
	"strconv"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Widths is how many stitches wide each row of a piece lies, as in its Rows:
// the stitches, and the chains of its spaces. Where the piece does not spread
// from a ring, chains count only as far as the row below is wide enough for
// them: loops of chain arch rather than spread. It is -1 where nobody knows how
// many stitches the row has. One width is taken for all kinds of stitch (common
// practice, no source).
func Widths(p *pattern.PieceProof) []float64 {
	out := make([]float64, len(p.Rows))
	below := -1.0 // not bounded
	if len(p.Rows) > 0 && !inRing(p.Rows[0].Row.Steps) && p.Rows[0].Available > 0 {
		below = float64(p.Rows[0].Available)
	}
	for i, r := range p.Rows {
		made, known := r.Expect()
		if !known || made < 0 {
			out[i] = -1
			continue
		}
		w := float64(made)
		chains := spaceChains(r)
		if below < 0 {
			out[i] = w + chains
			continue
		}
		out[i] = max(w, min(w+chains, below))
		below = out[i]
	}
	return out
}

// inRing reports whether steps begin by working into a ring.
func inRing(steps []*pattern.Step) bool {
	for _, s := range steps {
		switch {
		case s.Op == pattern.OpRing || s.Target.Which == pattern.InRing:
			return true
		case s.Op == pattern.OpGroup:
			return inRing(s.Body)
		case s.Op == pattern.OpWork || s.Op == pattern.OpInto:
			return false
		}
	}
	return false
}

// spaceChains is how many chains the spaces of a row have in all.
func spaceChains(r *pattern.RowProof) float64 {
	sum := 0.0
	for _, k := range r.ByKind {
		if n, ok := spaceOf(k.Name); ok {
			sum += float64(n) * float64(k.N)
		}
	}
	return sum
}

func spaceOf(kind string) (chains int, ok bool) {
	rest, ok := strings.CutPrefix(kind, "ch-")
	if !ok {
		return 0, false
	}
	digits, _, _ := strings.Cut(rest, " ")
	n, err := strconv.Atoi(digits)
	return n, err == nil
}

// Spaces is how many chain spaces a row has.
func Spaces(r *pattern.RowProof) int64 {
	var sum int64
	for _, k := range r.ByKind {
		if _, ok := spaceOf(k.Name); ok {
			sum += k.N
		}
	}
	return sum
}

// Tall is how many rows of single crochet high a stitch stands, by its turning
// chain: 1 for a single crochet, 1.5 for a half double, 2 for a double, 2.5 for
// a treble. Published flat circles come to the same within a fifth
// (testdata/facts/circles.tsv).
func Tall(id stitch.ID) float64 { return (float64(stitch.Of(id).Turn) + 1) / 2 }

// Height is how high one row stands, counted in rows of the gauge: 1 where the
// gauge does not say in which stitch it was worked, and otherwise by the mean
// height of the row's own stitches against that. Terms are the proof's.
func (g Gauge) Height(r *pattern.RowProof, terms stitch.Terms) float64 {
	if g.Stitch == stitch.None || g.Stitch == stitch.Slip {
		return 1
	}
	lex := stitch.LexiconFor(terms)
	sum, n := 0.0, 0.0
	for _, k := range r.ByKind {
		id, _ := lex.Find(k.Name)
		if id == stitch.None || id == stitch.Special {
			continue
		}
		sum += Tall(id) * float64(k.N)
		n += float64(k.N)
	}
	if n == 0 {
		return 1
	}
	return sum / n / Tall(g.Stitch)
}
