package film

import (
	"strconv"
	"strings"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// makingUp is what stands for a row while no row is in hand.
const makingUp = "Making up"

// labelOf is what the pattern calls a row: its label, or its number where the
// label speaks of several.
func labelOf(plan *counter.Plan, at place) string {
	if at == other {
		return makingUp
	}
	r, number := plan.Row(at.piece, at.row)
	if r == nil {
		return "Row " + strconv.Itoa(at.row+1)
	}
	if label := strings.TrimSpace(clean(r.Label)); r.Count() == 1 && label != "" {
		return label
	}
	if r.Kind == pattern.Round {
		return "Rnd " + strconv.Itoa(number)
	}
	return "Row " + strconv.Itoa(number)
}

// pieceOf is the name of a piece; "" where it has none.
func pieceOf(plan *counter.Plan, piece int) string {
	if proof := plan.Proof(); proof != nil && piece >= 0 && piece < len(proof.Pieces) && proof.Pieces[piece].Piece != nil {
		return clean(proof.Pieces[piece].Piece.Name)
	}
	return ""
}

// titleOf is what a viewer would call a row, where that is more than its piece
// and its label.
func titleOf(plan *counter.Plan, at place) string {
	if at == other || plan.Copies(at.piece) < 2 {
		return ""
	}
	name := pieceOf(plan, at.piece)
	if name == "" {
		name = "Piece " + strconv.Itoa(at.piece+1)
	}
	return name + " " + strconv.Itoa(at.copy+1) + ", " + labelOf(plan, at)
}
