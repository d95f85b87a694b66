package pattern

import "testing"

// TestBeadInAPlace wants a bead that is worked in a place to take it.
func TestBeadInAPlace(t *testing.T) {
	const text = "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\nRow 2: Ch 1, turn, sc in first 2 sts, *bead in next, sc in next 3; rep from * once more, sc in last st. (9 sc, 2 beads)\n"
	p := Read(text).Prove(Options{})
	if r := p.Pieces[0].Rows[1]; r.Made != 11 || r.Taken != 11 {
		t.Errorf("the row takes %d and makes %d, want 11 and 11", r.Taken, r.Made)
	}
}
