package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/stitch"
)

// skipHint is how a maker would be told to pass stitches over.
func (pr *prover) skipHint(n int64) string {
	word := "skip"
	if pr.terms == stitch.UK {
		word = "miss"
	}
	if n == 1 {
		return fmt.Sprintf("if that is meant, write \"%s next st\" before it", word)
	}
	return fmt.Sprintf("if that is meant, write \"%s next %d sts\" before it", word, n)
}

// rowsThere says which rows a piece has that another was to be worked onto.
func (pr *prover) rowsThere(w *pieceWork, ref *RowRef) string {
	name, last := "", 0
	for _, q := range pr.pieces {
		if ref.Piece == "" || q.piece.Name == ref.Piece {
			for _, r := range q.rows {
				if name, last = q.piece.Name, max(last, r.number); ref.Piece == "" {
					name = ""
				}
			}
		}
	}
	switch {
	case last == 0:
		return ""
	case name == "":
		return fmt.Sprintf("the rows before it go as far as Row %d", last)
	}
	return fmt.Sprintf("%s has Rows 1 to %d", name, last)
}
