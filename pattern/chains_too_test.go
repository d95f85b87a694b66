package pattern

import "testing"

// A round whose total counts its chains has them worked as stitches in the next,
// and one whose total counts something else has not.
func TestChainsOfATotal(t *testing.T) {
	for _, c := range []struct {
		name, row string
		next      int64
	}{
		{"chains", "(Sc in next 2 sc, ch 2) 4 times, join. (16)", 16},
		{"chains and slip stitches", "(Sc in next sc, sl st in next sc, ch 2) 4 times, join. (16)", 16},
		{"picots", "(Sc in next sc, picot, sc in next sc, picot, ch 3) 4 times, join. (16)", 8},
		{"spaces", "(Sc in next 2 sc, ch 2) 4 times, join. (12)", 8},
	} {
		p := Read("Coaster\n\nRnd 1: 8 sc in magic ring. (8 sc)\nRnd 2: " + c.row + "\nRnd 3: Sc in each st around, join.\n").Prove(Options{})
		rows := p.Pieces[0].Rows
		if len(rows) != 3 || rows[1].Status != Agrees || rows[2].Made != c.next || p.Errors() > 0 {
			t.Errorf("%s: %v; the round after it makes %d, want %d", c.name, p.Findings, rows[len(rows)-1].Made, c.next)
		}
	}
}
