package fit

import (
	"errors"
	"fmt"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// tape measures pieces at a gauge.
type tape struct {
	gauge gauge.Gauge
	terms stitch.Terms
}

// stitchesWide is how many stitches wide the widest row of a piece lies; 0
// where nobody knows.
func stitchesWide(p *pattern.PieceProof) float64 {
	most := 0.0
	for _, w := range gauge.Widths(p) {
		most = max(most, w)
	}
	return most
}

// across is how long the widest row of a piece lies, in mm.
func (t tape) across(p *pattern.PieceProof) float64 {
	if t.gauge.Kind == gauge.BySpace {
		most := int64(0)
		for _, r := range p.Rows {
			most = max(most, gauge.Spaces(r))
		}
		return t.gauge.Stitches.Length(float64(most))
	}
	return t.gauge.Stitches.Length(stitchesWide(p))
}

// up is how high a piece stands, in mm.
func (t tape) up(p *pattern.PieceProof) float64 {
	sum := 0.0
	for _, r := range p.Rows {
		sum += float64(r.Count()) * t.gauge.Height(r, t.terms)
	}
	return t.gauge.Rows.Length(sum)
}

// needs says in one line what a gauge lacks to measure a wish by.
func (t tape) needs(w Wish, p *pattern.PieceProof) error {
	if _, ok := w.across(); ok {
		switch {
		case !t.gauge.Stitches.Known():
			return errors.New(`the gauge does not tell the stitches; give it as --gauge "20 sc and 22 rows = 10 cm"`)
		case t.gauge.Kind == gauge.ByGroup:
			return fmt.Errorf(`the gauge counts %s, and a width needs stitches; give it as --gauge "20 sc and 22 rows = 10 cm"`, t.gauge.Named)
		case t.across(p) == 0:
			return fmt.Errorf("the gauge counts %s, and there are none in %s", t.gauge.Named, pieceName(p))
		}
	}
	if w.Tall > 0 && !t.gauge.Rows.Known() {
		return errors.New(`the gauge does not tell the rows; give it as --gauge "20 sc and 22 rows = 10 cm"`)
	}
	return nil
}

// pieceName names a piece in a sentence.
func pieceName(p *pattern.PieceProof) string {
	if p.Piece.Name == "" {
		return fmt.Sprintf("the piece of line %d", p.Piece.Line)
	}
	return p.Piece.Name
}
