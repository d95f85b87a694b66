package pattern

import "testing"

// What "corner" means may be told in a sentence, and the middle of a corner is
// worked by itself, also where the other stitches go into any stitch.
func TestCornerToldInASentence(t *testing.T) {
	p := Read(`PORTHOLE SQUARE

All terms are US. RS is always facing.

Special notes
- Beginning ch 3 counts as a dc; beginning ch 1 and ch 2 never count.
- "Corner" in Rnds 2 and 3 means (3 dc, ch 2, 3 dc) in the ch-2 sp.

Rnd 1: Ch 4, join with sl st to form a ring. Ch 3, 2 dc in ring, *ch 2, 3 dc in ring; rep from * 2 more times, ch 2, join to top of beg ch-3. Fasten off. (12 dc, 4 ch-2 sps)
Rnd 2: Join edging color in any ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, corner in next ch-2 sp; rep from * 2 more times, ch 1, join. (24 dc, 4 ch-1 sps, 4 ch-2 sps)
Rnd 3: Ch 1, sc in same st and in each dc and ch-1 sp around, working 3 sc in each corner sp, join. (40 sc)
Rnd 4: Ch 1, sc in each sc around, working 3 sc in the center sc of each corner, join. Fasten off. (48 sc)
Rnd 5: Join the dark border yarn in any st, ch 2, hdc in each st around, working (hdc, ch 1, hdc) in the center sc of each corner, join. (52 hdc, 4 ch-1 sps)
`).Prove(Options{})
	want := []int64{12, 24, 40, 48, 52}
	rows := p.Pieces[0].Rows
	if len(rows) != len(want) {
		t.Fatalf("%d rows, want %d", len(rows), len(want))
	}
	for i, r := range rows {
		if r.Made != want[i] || r.Status != Agrees {
			t.Errorf("%s: made %d, %v; want %d", r.Row.Label, r.Made, r.Status, want[i])
		}
	}
}
