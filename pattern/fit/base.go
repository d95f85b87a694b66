package fit

import (
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// base is the number that a piece is begun on: its foundation chain, or its
// foundation stitches.
type base struct {
	span pattern.Span
	n    int64
	ring bool // the chain is closed, and worked round
	name string
}

// baseOf finds what a piece is begun on. It is false where that is no number
// that its width follows from: a magic ring, or another piece.
func baseOf(pc *pattern.PieceProof, size int) (base, bool) {
	if len(pc.Piece.Rows) == 0 {
		return base{}, false
	}
	first := pc.Piece.Rows[0]
	steps := append(append([]*pattern.Step(nil), first.Setup...), first.Steps...)
	for i, s := range steps {
		switch s.Op {
		case pattern.OpChain:
			if s.N.Span.Empty() || pc.Foundation() == 0 {
				return base{}, false
			}
			b := base{span: s.N.Span, n: s.N.At(size), name: "base chain"}
			for _, t := range steps[i+1:] {
				if t.Op == pattern.OpRing || t.Op == pattern.OpJoin {
					b.ring = true
				}
				if t.Op != pattern.OpNote && t.Op != pattern.OpStay {
					break
				}
			}
			return b, true
		case pattern.OpWork:
			if stitch.Of(s.Stitch).Kind != stitch.Foundation {
				return base{}, false
			}
			for _, n := range []pattern.Num{s.N, s.Target.N} {
				if !n.Span.Empty() {
					return base{span: n.Span, n: n.At(size), name: "foundation"}, true
				}
			}
			return base{}, false
		case pattern.OpNote, pattern.OpColour, pattern.OpStay:
		default:
			return base{}, false
		}
	}
	return base{}, false
}

// round reports whether the rows of a piece go round.
func round(p *pattern.PieceProof) bool {
	for _, r := range p.Rows {
		if r.Kind == pattern.Round {
			return true
		}
	}
	return false
}
