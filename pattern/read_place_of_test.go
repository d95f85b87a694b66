package pattern

import "testing"

// TestPlacesInWords works the last row of short pieces whose places are told in
// the manners of lace and of motifs (common practice, no source); the counts
// were worked by hand.
func TestPlacesInWords(t *testing.T) {
	const (
		square = "US terms\nRnd 1: Ch 4, join to form ring, ch 1, 12 sc in ring, join to first sc. (12)\n"
		fans   = "US terms\nCh 20. Row 1: Sc in 2nd ch from hook and in each ch across. (19)\nRow 2: Ch 1, sc in first sc, *skip 2 sc, 5 dc in next sc, skip 2 sc, sc in next sc; rep from * across. (3 fans, 4 sc)\n"
		loops  = "US terms\nCh 14. Row 1: Sc in 2nd ch from hook and in each ch across. (13)\nRow 2: Ch 1, sc in first sc, *ch 5, skip 3 sc, sc in next sc; rep from * across. (4 sc, 3 loops)\n"
		plain  = "US terms\nCh 12. Row 1: Sc in 2nd ch from hook and in each ch across. (11)\nRow 2: Ch 1, sc in each sc across. (11)\n"
	)
	for _, c := range []struct {
		below, row string
		made       int64
	}{
		{loops, "Row 3: Ch 1, sc in first sc, *ch 3, sc in next free loop, ch 3, sc in next sc; rep from * across.", 7},
		{loops, "Row 3: Ch 1, *in next large loop work 3 sc, ch 3 and 3 sc; repeat from * in every loop to end.", 18},
		{loops, "Row 3: Ch 1, sc in first sc, *5 sc in next loop, sc in next sc; rep from * in each loop across.", 19},
		{fans, "Row 3: Ch 1, sc in 3rd dc of first fan, *ch 5, sc in 3rd dc of next fan; rep from * once more.", 3},
		{fans, "Row 3: Ch 1, sc in first sc, *ch 2, sc in top of center dc of next fan, ch 2, sc in top of next sc; rep from * across.", 7},
		{fans, "Row 3: Ch 1, sc in top of each dc and in top of each sc across.", 19},
		{plain, "Row 3: Ch 1, sc in first sc, *dc in front loop of next sc 2 rows below, skip sc behind dc, sc in next sc; rep from * across.", 11},
		{plain, "Row 3: Ch 1, sc in first sc, *dc in front loop of next sc two rows below, sk next st, sc in next sc; rep from * across.", 11},
		{plain, "Row 3: Ch 1, 2 sc in first sc, sc in next 9 sc, work only 1 sc in last sc instead of 2.", 12},
		{square, "Rnd 2: Ch 1, *sc in next 2 sc, ch 3, sl st in corresponding ch-3 sp of first motif, ch 3, sc in next sc; rep from * around, join to first sc.", 12},
		{square, "Rnd 2: Ch 1, *sc in next 3 sc, ch 2, sl st in ch-3 sp of the previous square, ch 2; rep from * around, join to first sc.", 12},
		{square, "Rnd 2: Ch 1, sc in first sc, *(ch 3, sl st in 3rd ch from hook) - picot made, skip next sc, sc in next sc; rep from * around, ending with skip last sc, join to first sc.", 6},
		{square, "Rnd 2: Ch 3, dc2tog over next 2 sc, *ch 5, dc3tog over next 3 sc; rep from * around, ch 5, join to top of first cluster.", 4},
		{square, "Rnd 2: Ch 1, sc in first sc, *ch 5, skip 2 sc, sc in next sc; rep from *, ending ch 2, dc in first sc. (4 loops)", 4},
		{fans, "Row 3: Ch 3, 2 dc in first sc, *sc in center dc of next fan, 5 dc in next sc; rep from * across, ending last repeat with 3 dc in last sc.", 19},
		{square, "Rnd 2: Ch 1, *3 sc in next sc, sc in next 2 sc; rep from * around, join to first sc. (20)\nRnd 3: Ch 1, sc in each sc around, working 3 sc in centre sc of each corner, join to first sc.", 28},
		{square, "Rnd 2: Ch 1, *3 sc in next sc, sc in next 2 sc; rep from * around, join to first sc. (20)\nRnd 3: Ch 1, sc in each sc around, making 3 sc in each corner sc, join to first sc.", 28},
		{square, "Rnd 2: Ch 1, *3 sc in next sc, sc in next 2 sc; rep from * around, join to first sc. (20)\nRnd 3: Ch 1, sc in each sc around, working (dc, ch 1, dc) in the middle sc of the 3 at each corner, join to first sc. (24, 6 per side)", 24},
		{square, "Rnd 2: Ch 1, *sc in next 2 sc, 3 sc in next sc; rep from * around, join to first sc. (20)\nRnd 3: Ch 1, *sc to next corner centre, (sc, ch 1, sc) in it; rep from * 3 more times, sc to end, join to first sc.", 24},
		{square, "Rnd 2: Ch 1, *sc in next 2 sc, (sc, ch 2, sc) in next sc; rep from * around, join to first sc. (16, 4 on each side)\nRnd 3: Ch 1, *sc in each sc to corner sp, 3 sc in it; rep from * around, sc to end, join to first sc.", 28},
		{plain, "Row 3: Ch 1, sc in first 9 sc, ending with 1 sc in each of last 2 sc.", 11},
		{loops, "Row 3: Ch 1, sc in first sc, *ch 3, sk 1 sc or ch-5 lp, sc in next sc; rep from * 2 more times.", 4},
	} {
		p := Read(c.below + c.row).Prove(Options{})
		rows := p.Pieces[0].Rows
		if last := rows[len(rows)-1]; p.Errors() > 0 || last.Status == Unread || last.Made != c.made {
			t.Errorf("%s\n\tmakes %d (%v), want %d", c.row, last.Made, last.Status, c.made)
			for _, f := range p.Findings {
				t.Logf("\t%s: %s", f.Code, f.Message)
			}
		}
	}
}
