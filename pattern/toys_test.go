package pattern

import "testing"

// TestToys reads one thing in the words of several makers of toys. The counts of the
// last rows were worked by hand.
func TestToys(t *testing.T) {
	const six, twelve = "R1: 6 sc in MR\n", "R1: 6 sc in MR\nR2: inc * 6\n"
	for _, tt := range []struct {
		rows string
		made int64
		stat Status
	}{
		// a list repeated by the number behind it
		{six + "R2: inc * 6 (12)", 12, Agrees},
		{twelve + "R3: inc, 1 sc * 6", 18, Unstated},
		{twelve + "R3: sc, inc x 6\nR4: 2 sc, inc x 6\nR5: 24 sc", 24, Unstated},
		{twelve + "R3: inc, sc in next st, 6 times\nR4: inc, sc in next 2 sts - 6 times", 24, Unstated},
		{twelve + "R3: 1 sc, inc * 6 (18)\nR4: 1 sc, dec * 6 (13)", 12, Differs},
		{twelve + "R3: 3 sc, inc * 6, 3 sc", 18, Unstated},
		{twelve + "R3: 6 sc, inc * 6", 18, Unstated},
		{six + "R2: inc * 6 (12)\nR3: dec * 6. Stuff. (6)", 6, Agrees},
	} {
		p := Read(tt.rows).Prove(Options{})
		rows := p.Pieces[0].Rows
		last := rows[len(rows)-1]
		if last.Made != tt.made || last.Status != tt.stat {
			t.Errorf("%s\n makes %d, %v; want %d, %v\n%s", tt.rows, last.Made, last.Status, tt.made, tt.stat, someFindings(p))
		}
	}
}
