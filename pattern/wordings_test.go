package pattern

import (
	"strings"
	"testing"
)

// TestWordings reads one thing in the words of several authors. The counts of the
// last rows were worked by hand.
func TestWordings(t *testing.T) {
	const (
		flat  = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: 2 sc in first sc, sc in each sc to last sc, 2 sc in last sc. (22 sc)\n"
		round = "UK terms.\nMake 4 ch., join into ring with s.s.\nRound 1: 3 ch., 11 tr. into ring, s.s. to top of 3 ch. (12 tr.).\n"
		toy   = "a = 2 tog, v = 2 in 1\nrd 1. 6x in ring\nrd 2. 6v\n"
	)
	for _, tt := range []struct {
		rows string
		made int64
		stat Status
	}{
		{flat + "Rows 3-5: Rep. Row 2, having 28 sc at end of Row 5.", 28, Agrees},
		{flat + "Rows 3-5: Rep Row 2. 28 sc after Row 5.", 28, Agrees},
		{flat + "Rows 3-5: Rep Row 2. 29 sc after Row 5.", 28, Differs},
		{flat + "Row 3: Rep Row 2 – 24 sc", 24, Agrees},
		{flat + "Row 3: Rep Row 2 - 25 sts", 24, Differs},
		{flat + "Rows 3-5: Rep Row 2.\nRow 6: * Sc in next 5 sts, crochet the next 2 sts together, from * repeat 3 times more. (24)", 24, Agrees},
		{flat + "Rows 3-5: Rep Row 2.\nRow 6: * 5 sc, 2 stitches together, repeat from * to the end. (24)", 24, Agrees},
		{toy + "rd 3. crochet 6 times 2 sts together", 6, Unstated},
		{"ABBREVIATIONS: ch = chain; dc = double crochet (US single crochet); htr = half treble.\nMake 21 ch.\n1st row: 1 htr into 3rd ch from hook (missed 2 ch count as 1 htr), 1 htr into each ch to end, turn. 20 htr.", 20, Agrees},
		{flat + "Rows 3-5: Rep. Row 2, having 30 sc at end of Row 5.", 28, Differs},
		{"Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch across. (21 sc)\nRow 2: Ch 1, turn, sc in first sc, *ch 1, skip 1 sc, sc in next sc; rep from *, working the last sc in the last sc. (11 sc, 10 ch-1 sps)", 11, Agrees},
		{"Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch across. (21 sc)\nRow 2: Ch 1, turn, sc in first sc, *ch 1, skip 1 sc, sc in next sc; rep from *, working the last sc in the last sc. (12 sc, 10 ch-1 sps)", 11, Differs},
		{flat + "Rows 3-5: Repeat Row 2, with 28 sts on last row.", 28, Agrees},
		{flat + "Rows 3-5: Repeat Row 2, having now 28 sts at the end of the last row.", 28, Agrees},
		{flat + "Row 3: Sc in each sc, ch 1 and turn at end of each row. (22)", 22, Agrees},
		{flat + "Row 3: Sc in each sc, ch 1 and turn at the end of this and all following rows. (22)", 22, Agrees},
		{flat + "Rows 3 and 4: All like the 2nd row. (26)", 26, Agrees},
		{flat + "Rows 3-6: Rep Row 2 for 4 rows. (30)", 30, Agrees},
		{"Join every round with a ss in the first stitch. 3ch counts as a tr. UK terms.\nRnd 1: 3ch, 11tr in a magic ring. (12)", 12, Agrees},
		{"Begin each round with 3ch, which counts as a tr. UK terms.\nRnd 1: 3ch, 11tr in a magic ring. (12)", 12, Agrees},
		{"UK terms.\n3ch at the start of a round = 1tr.\nRnd 1: 3ch, 11tr in a magic ring. (12)", 12, Agrees},
		{"UK terms.\n3ch at the start of a round = 1tr.\nRnd 1: 3ch, 10tr in a magic ring. (12)", 11, Differs},
		{flat + "Rows 3 and 4: Both like Row 2. (26)", 26, Agrees},
		{flat + "Rows 3 and 4: All worked as Row 2. (26)", 26, Agrees},
		{flat + "Row 3: Sc in each sc until 3 remain, work 2 together, sc in last sc. (21)", 21, Agrees},
		{flat + "Row 3: Draw up a lp in each of first 2 sc, yo & thru all 3 lps on hook, sc in each sc across. (21)", 21, Agrees},
		{flat + "Row 3: Draw up a loop in each of next 2 sc, yo and thro all loops, sc in each sc across. (21)", 21, Agrees},
		{"Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30)\nRow 2: *Sc in next 4 sts, **2 sc in next st, sc in next st; repeat from ** twice more; repeat from * to end.", 39, Unstated},
		{"Ch 40.\nRow 1: Sc in 2nd ch from hook and in each ch across. (39)\nRow 2: *Sc in next 3 sts, ** hdc in next 2 sts, 2 sc in next st **, rep from ** to ** once, sc in next 4 sts; rep from * twice more. (45)", 45, Agrees},
		{flat + "Row 3: Sc in each sc across. (22)\nRows 4-7: alternate Rows 2 and 3. (26)", 26, Agrees},
		{flat + "Row 3: Sc in each sc across. (22)\nRows 4-7: work alternately Row 2 and Row 3 until you've done 4 more rows. (26)", 26, Agrees},
		{flat + "Rows 3-5: Now just go back and forth without any increases. (22)", 22, Agrees},
		{flat + "Rows 3-5: work three rows of sc without shaping. (22)", 22, Agrees},
		{flat + "Rows 3-5: continue on these 22 sts without shaping.", 22, Agrees},
		{flat + "Rows 3-5: continue on these 24 sts without shaping.", 22, Differs},
		{flat + "Rows 3-5: no increase, no decrease (22)", 22, Agrees},
		{flat + "Row 3: Sc in each sc.\nRows 4-6: work 3 more rows in the same way. (22)", 22, Agrees},
		{"Ch 22 and join with a slip stitch without twisting.\nRnd 1: Sc in each ch around. (22)", 22, Agrees},
		{"Ch 22, making sure the chain is not twisted, join with sl st.\nRnd 1: Sc in each ch around. (22)", 22, Agrees},
		{"Ch 22; join with sl st (do not twist).\nRnd 1: Sc in each ch around. (22)", 22, Agrees},
		{flat + "Row 3: *Sc in next 10 sc, 2 sc in next sc; do this from the star twice in all. 22 + 2 = 24", 24, Agrees},
		{flat + "Row 3: *Sc in next 10 sc, 2 sc in next sc; rep from * once more. (22 + 2 = 24 sts)", 24, Agrees},
		{flat + "Row 3: *Sc in next 10 sc, 2 sc in next sc; rep from * once more. (22 + 3 = 25 sts)", 24, Differs},
		{flat + "Row 3: Sc in next 9 sc, turn. Work this side on these 9 sc only.", 9, Agrees},
		{flat + "Row 3: Sc in next 9 sc, turn. Complete first shoulder on these 8 sts.", 9, Differs},
		{flat + "Row 3: Dc2tog over first 2 sc (1 st decreased), dc in each sc to end. (21)", 21, Agrees},
		{flat + "Row 3: Sc2tog (1 sc decreased), sc in each sc to last 2 sc, sc2tog. (20)", 20, Agrees},
		{flat + "Row 3: Sc2tog, sc in each sc to last 2 sc, sc2tog (2 sc decreased).", 20, Agrees},
		{flat + "Row 3: Sc2tog, sc in each sc to last 2 sc, sc2tog (3 sc decreased).", 20, Differs},
		{flat + "Row 3: Sc in each sc across. Count your stitches: 22 of them.", 22, Agrees},
		{flat + "Row 3: Sc in each sc across. Count the sts - 23 in all.", 22, Differs},
		{flat + "Row 3: Sc in next 8 sc, ch 6, sk 6 sc, sc in next 8 sc. Count the chains as stitches and you still have 22.", 16, Agrees},
		{flat + "Row 3: Sc in next 8 sc, ch 6, sk 6 sc, sc in next 8 sc. Counting each ch as a st, you have 23.", 16, Differs},
		{toy + "rd 3. (x, v) 6 = 18", 18, Agrees},
		{toy + "rd 3. (x, v) 6 = 18\nrd 4. (2x, v) 6", 24, Unstated},
		{toy + "rd 3. (x, v) 6 = 18\nrd 4. (7x, a) 2 = 16", 16, Agrees},
		{toy + "rd 3. (x, v) x6 = 18\nrd 4. 16x, a", 17, Unstated},
		{toy + "rd 3. (x, v) x6 (18)\nrd 4. 18x", 18, Unstated},
		{toy + "rd 3. (x, v)  18", 18, Agrees},
		{toy + "rd 3. (x, v)  18\nrd 4-6. sc, 18", 18, Agrees},
		{toy + "rd 3. (x, v)  18\nrd 4-6. sc, 19", 18, Differs},
		{toy + "rd 3. (x, v)  18\nrd 4. hdc, 18. stuff", 18, Agrees},
		{round + "Round 2: 3 ch., 1 tr. in same place, 2 tr. in each tr. to end, s.s. to 3 ch. (24 tr.).", 24, Agrees},
		{round + "Round 2: 3 ch., 1 tr. in same place, 2 tr. in each tr. to end, join to the 3-ch. (24 tr.).", 24, Agrees},
		{round + "Round 2: 3 ch., 1 tr. in same place, 2 tr. in each tr. to end, s.s. into the first 3 ch. and fasten off.", 24, Unstated},
	} {
		p := Read(tt.rows).Prove(Options{})
		rows := p.Pieces[0].Rows
		last := rows[len(rows)-1]
		if last.Made != tt.made || last.Status != tt.stat {
			t.Errorf("%s\n makes %d, %v; want %d, %v\n%s", tt.rows, last.Made, last.Status, tt.made, tt.stat, someFindings(p))
		}
	}
}

// TestRowsOfRanges works rows again that stand under a label with others, which is
// itself told by other rows.
func TestRowsOfRanges(t *testing.T) {
	const net = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: Ch 1, turn, sc in each sc. (20 sc)\nRow 3: Ch 1, turn, 2 sc in first sc, sc in each sc across. (21 sc)\nRow 4: Ch 1, turn, sc2tog, sc in each sc across. (20 sc)\n"
	for again, want := range map[string][]int64{
		"Rows 5-7: Rep Rows 2-4.\nRow 8: Rep Row 6.\n":                                   {20, 21, 20, 21},
		"Rows 5-7: Rep Rows 2-4.\nRows 8-10: Rep Rows 5-7.\n":                            {20, 21, 20, 20, 21, 20},
		"Rows 5-10: Rep Rows 2-4 twice.\nRow 11: Rep Row 9.\n":                           {20, 21, 20, 20, 21, 20, 21},
		"Rows 5-8: Rep Rows 2-4 once, then Row 3 once.\nRow 9: Rep Row 8.\n":             {20, 21, 20, 21, 22},
		"Rows 5, 7 and 9: Rep Row 3.\nRows 6, 8 and 10: Rep Row 4.\nRow 11: As Row 9.\n": nil,
	} {
		p := Read(net + again).Prove(Options{})
		var made []int64
		for _, r := range p.Pieces[0].Rows[4:] {
			for range r.Count() {
				made = append(made, r.Made)
			}
		}
		if want == nil {
			if n := made[len(made)-1]; n != 21 {
				t.Errorf("%s makes %d last, want 21", again, n)
			}
			continue
		}
		if len(made) != len(want) {
			t.Errorf("%s makes %v, want %v", strings.TrimSpace(again), made, want)
			continue
		}
		for i := range want {
			if made[i] != want[i] {
				t.Errorf("%s makes %v, want %v", strings.TrimSpace(again), made, want)
				break
			}
		}
	}
}
