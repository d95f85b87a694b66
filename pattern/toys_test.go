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
		// labels
		{"rnd1- 6sc in mr (6)\nrnd2- inc in each (12)\nrnd3- 1sc, inc x6 (18)\nrnd4-6 sc around\nrnd7- 1sc, dec x6 (12)", 12, Agrees},
		{"R1-6 sc in MR\nR2-6 inc\nR3-12 sc", 12, Unstated},
		{"1 row: 6 sc in ring.\n2 row: 6 increases (12).\n3-5 rows: without changes (12).\n6 row: 6 decreases (6).", 6, Agrees},
		{"Rnd 1 is just 6 sc in a magic ring.\nRnd 2 is inc all round (12)\nRnd 3 goes sc, inc all round. (18)\nRnds 4-6 are plain sc. (18)", 18, Agrees},
		{"Rnd 1: 6 sc in MR\nFor round 2, inc in each st. (12)\nIn Rnd 3 work sc around. (12)", 12, Agrees},
		{"[R1] 6 sc in MR (6)\n[R2] inc around (12)\n[R3] sc around (12)", 12, Agrees},
		{"R 1 ch 2, 4 sc in the 2nd ch (4)\nR 2 sc round (4)\nR 3 inc round (8)", 8, Agrees},
		{"\U0001f538 R1 – 6sc in MR [6]\n\U0001f538 R2 – inc × 6 [12]\n\U0001f538 R3 – sc around [12]", 12, Agrees},
		{"1\ufe0f\u20e3 Row 1: ch 2, 3 sc in 2nd ch from hook \U0001f449 3\n2\ufe0f\u20e3 Row 2: ch 1, turn, 2 sc in each \U0001f449 6", 6, Agrees},
		{"\u2610 Rnd 1 - 6 sc in MR (6)\n\u2610 Rnd 2 - 2 sc in each (12)", 12, Agrees},
		{"\u2605 rnd 1: 6 sc in MR (6)\n\u2605 rnd 2: 2 sc in each (12)", 12, Agrees},
		{"Rnd / Sts / What\n1 / 6 / 6 sc in ring\n2 / 12 / +6 (2 sc in each)\n3 / 18 / +6 (1 sc, inc) x6\n4 / 18 / no change\n5 / 12 / -6 (1 sc, dec) x6", 12, Agrees},
		{"Rnd / Sts / What\n1 / 6 / 6 sc in ring\n2 / 12 / +6 (2 sc in each)\n3 / 18 / +6 (1 sc, inc) x6\n4 / 19 / no change", 18, Differs},
		// the other side of a chain, a chain worked along, the end of a list
		{"Ch 8.\nRnd 1: begin in the 2nd ch from hook: 6 sc, 4 sc in the last ch, go further on the other side of the chain: 5 sc, 3 sc in the last one (18)", 18, Agrees},
		{"Ch 8.\nRnd 1: sc in 2nd ch from hook and in next 5 ch, 4 sc in last ch; turn the work upside down and do 5 sc along the other side, 3 sc in the last ch (18)", 18, Agrees},
		{"Ch 8.\nRnd 1: sc in 2nd ch from hook and in next 5 ch, 4 sc in last ch, sc in next 5 ch along other side of ch, 3 sc in last ch (18)", 18, Agrees},
		{twelve + "R3: 3 sc, ch 5, skip 5 sts, 4 sc\nR4: 3 sc, 5 sc along the chain, 4 sc (12)", 12, Agrees},
		{twelve + "R3: 3 sc, ch 5, skip 5 sts, 4 sc\nR4: 3 sc, 5 sc across the ch, 4 sc (12)", 12, Agrees},
		{"R1: 6 sc in MR, turn (6)\nR2: ch 1, 1 sc, 2 sc in next, to the end, turn. 9 sts.", 9, Agrees},
		{"hst = half treble (UK)\nR1: 6 dc in ring\nR2: 2 hst in each stitch [12]", 12, Agrees},
		// totals
		{"r1 4 sc in mr 4 sts\nr2 (1 sc, inc) x2 6 sts\nr3 (1 sc,inc)x3 9 sts, stuff", 9, Agrees},
		{"r1 4 sc in mr 4 sts\nr2 (1 sc, inc) x2 7 sts", 6, Differs},
		{six + "R2: inc in each st, 12 now.\nR3: *sc, inc* around, 18 now.", 18, Agrees},
		{"Ch 10.\nR1: sc in 2nd ch from hook and across: 9\nR2: ch 1, turn, sc2tog, sc in 5, sc2tog: 7", 7, Agrees},
		{"Ch 10.\nR1: sc in 2nd ch from hook and across: 9\nR2: ch 1, turn, sc2tog, sc in 5, sc2tog: 8", 7, Differs},
		{"Rd. 1 – 6 sc in MR: 6.\nRd. 2 – 6 inc: 12.\nRd. 3 – 1 sc, inc: 18.\nRd. 4 to Rd. 6 – 18 sc.", 18, Unstated},
		{"Ch 15.\nRow 1: sc in 2nd ch and in each ch (14).\nRows 2-4: ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog (12, 10, 8).", 8, Agrees},
		{"Ch 15.\nRow 1: sc in 2nd ch and in each ch (14).\nRows 2-4: ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog (12, 10, 9).", 8, Differs},
		{"Rnd 9: 16 sc\nRnd 10: dec until only 8 sts remain (8).\nRnd 11: 8 sc", 8, Unstated},
		{"Ch 22.\nRow 1: dc in 4th ch from hook and in each ch (20)\nRow 2: ch 3, dc in next 19 dc. That was 20.", 20, Agrees},
		{"Ch 22.\nRow 1: dc in 4th ch from hook and in each ch (20)\nRow 2: ch 3, dc in next 19 dc, giving me twenty-one.", 20, Differs},
		{"Row 1 ch 2, 3 sc in the 2nd ch from hook, 3 sts\nRow 2 ch 1, turn, 2 sc in first, sc, 2 sc in last, 5 sts", 5, Agrees},
		{twelve + "R3: One sc in next sc, two in the next, all the way round; that makes 18.\nR4: into the back loops only, 18 sc", 18, Unstated},
		{twelve + "R3: One sc in next sc, two in the next, all the way round; that makes 19.", 18, Differs},
		// spellings
		{"Rnd I: 6 sc in ring (6)\nRnd II: 2 sc in each (12)\nRnds III, IV & V: sc in each sc\nRnd VI: 12 sc", 12, Unstated},
		{"Ch 12\nRow 1: sc in 2nd ch from hook and in each ch (11)\nNxt row: ch 1, trun, sc in eahc st (11)\nNxt 2 rows: turning ch 1, turn, sc to end (11)", 11, Agrees},
		{"Ch 12\nRow 1: sc in 2nd ch from hook and in each ch (11)\nRows 2→5: turning chain 1, sc 11", 11, Unstated},
		{"Round 1: ring, 1 ch, 7 sc\nRound 2: 2 sc in each (14)", 14, Agrees},
		{six + "R2: (sc 1, inc) rep 3\nR3: (sc 2, inc) rep 3 (12)", 12, Agrees},
		{"ch 4 join w sl st\nrnd 1 ch 3 (counts as dc) 11 dc in ring join. 12 dc", 12, Agrees},
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
