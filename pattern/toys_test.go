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
		{six + "R2: inc (12)\nR3: sc, inc (18)\nR4: 2 sc, inc (24)", 24, Agrees},
		{six + "R2: inc (12)\nR3: sc, inc (18)\nR4: 2 sc, inc (25)", 24, Differs},
		{twelve + "R3: 6x(sc, inc)\nR4: 6(2 sc, inc)\nR5: 6 (3 sc, inc)", 30, Unstated},
		// letters that stand for stitches
		{"1: 6X\n2: 6V\n3: (X, V)*6\n4: (2X, V)*6\n5-9: 24X\n10: (2X, A)*6", 18, Unstated},
		{"rd1 6x (6)\nrd2 6v (12)\nrd3 (x, v) x6 (18)\nrd4 6a, 6x, stuff a little (12)", 12, Agrees},
		{"Letters: (X = sc, V = increase, A = decrease)\nR1. MR 6.\nR2. (1, V) x3. 9\nR3. (1, A) x3. 6", 6, Agrees},
		{"X: single crochet\nV: increase\nR1: 6X\nR2: 6V (12)", 12, Agrees},
		// every so many stitches
		{twelve + "R3: increase in every other st. 18 sts", 18, Agrees},
		{twelve + "R3: double every 2nd st = 18 sts\nR4: double every 3rd stitch = 24\nR5: each 4th st doubled = 30", 30, Agrees},
		{six + "R2: double each st = 12", 12, Agrees},
		{six + "R2: double every st", 12, Unstated},
		{twelve + "R3: 2 sc in every other st (18)", 18, Agrees},
		{twelve + "R3: 2 sc in every other st (17)", 18, Differs},
		{twelve + "R3: sc around, inc in every 3rd st (16)", 16, Agrees},
		{twelve + "R3: inc every 3 sts (16)\nR4: inc after every 3 sts (20)\nR5: 1 inc every 4 sts (25)", 25, Agrees},
		{twelve + "R3: inc every 3 sts (17)", 16, Differs},
		{twelve + "R3: dec every 3rd st (8)", 8, Agrees},
		{twelve + "R3: 1 dec after every 2 sts (9)", 9, Agrees},
		{twelve + "R3: dec every 5 sts (11)", 11, Unread},
		{"R1: 6 sc in a slip ring (6)\nR2: 2 sc in each (12)", 12, Agrees},
		{"R1: into a thread loop, 7 sc (7)", 7, Agrees},
		{"R1: yarn ring: 8 sc = 8", 8, Agrees},
		// colours before their stitches
		{twelve + "R3: A 5 sc, B 2 sc, A 5 sc (12)", 12, Agrees},
		{twelve + "R3: A 5 sc, B 2 sc, A 4 sc (12)", 11, Differs},
		{twelve + "R3: sand 5 sc, dark blue (sc, inc) x 2, sand 3 sc (14)", 14, Agrees},
		{twelve + "R3: in coral sc 5, in white: 3 sc, in coral sc 4 (12)", 12, Agrees},
		{twelve + "R3: coral: 5 sc, white: dec, coral: 5 sc (11)", 11, Agrees},
		{twelve + "R3: white 12 sc\nR4: MC 3 sc, CC 6 sc, MC 3 sc", 12, Unstated},
	} {
		p := Read(tt.rows).Prove(Options{})
		rows := p.Pieces[0].Rows
		last := rows[len(rows)-1]
		if last.Made != tt.made || last.Status != tt.stat {
			t.Errorf("%s\n makes %d, %v; want %d, %v\n%s", tt.rows, last.Made, last.Status, tt.made, tt.stat, someFindings(p))
		}
	}
}
