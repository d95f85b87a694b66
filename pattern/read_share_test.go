package pattern

import "testing"

// TestShares reads totals that tell, beside all the stitches of a round, how many
// stand on each side of it, and holds the round to the first alone. The rounds
// have 16 stitches and 4 spaces.
func TestShares(t *testing.T) {
	const round = "US terms\nRnd 1: Ch 4, join to form ring, ch 1, 12 sc in ring, join to first sc. (12)\nRnd 2: Ch 1, *sc in next 2 sc, (sc, ch 2, sc) in next sc; rep from * around, join. "
	for _, c := range []struct {
		total string
		right bool
	}{
		{"(16 sc, 4 per side)", true},
		{"[16 sts - 4 on each side]", true},
		{"16 sc, 4 along each side between corners.", true},
		{"16 sc (4 each side)", true},
		{"(4 sc per side, 16 in all, 4 ch-2 sps)", true},
		{"16 sc. 4 ch-2 sps.", true},
		{"16 sc (4 ch-2 corner sps)", true},
		{"(17 sc, 4 per side)", false},
		{"[18 sts - 4 on each side]", false},
		{"16 sc (5 ch-2 sps)", false},
	} {
		p := Read(round + c.total).Prove(Options{})
		r := p.Pieces[0].Rows[1]
		want := Agrees
		if !c.right {
			want = Differs
		}
		if r.Status != want {
			t.Errorf("%s: %v, want %v: %v", c.total, r.Status, want, p.Findings)
		}
	}
}

// TestSharesAgainstTotals holds the number on each side against the total: with
// the corners or without, alike in the rows of a piece. Worked out by hand.
func TestSharesAgainstTotals(t *testing.T) {
	const head = "US terms\nRnd 1: Ch 4, join to form ring, ch 1, 12 sc in ring, join to first sc. (12)\nRnd 2: Ch 1, *sc in next 2 sc, (sc, ch 2, sc) in next sc; rep from * around, join. "
	const next = "\nRnd 3: Ch 1, *sc in next 3 sc, (sc, ch 2, sc) in next ch-2 sp, sc in next sc; rep from * around, join. "
	const octagon = "US terms\nRnd 1: 8 sc in magic ring.\nRnd 2: [sc, ch 1, sc] in each sc. 16 sc.\nRnd 3: sc in each sc, [sc, ch 1, sc] in each ch-1 sp. 32 sc (4 on each of the 8 sides).\n"
	for _, c := range []struct {
		text   string
		errors int
	}{
		{head + "16 sc (4 on each side)", 0},
		{head + "16 sc (2 on each side between corners)", 0},
		{head + "16 sc (5 on each side)", 1},
		{head + "16 sc (6 on every side)", 1},
		{head + "(16 sc, 5 per side)", 1},
		{head + "16 sc (4 on each side)" + next + "24 sc (6 on each side)", 0},
		{head + "16 sc (4 on each side)" + next + "24 sc (7 on each side)", 1},
		{head + "4 sc per side, 16 in all.", 0},
		{head + "5 sc per side, 16 in all.", 1},
		{head + "16 sc in all, 5 per side.", 1},
		{head + "4 on every side.", 0},
		{head + "6 on every side.", 1},
		{head + "Each side has 4 sc.", 0},
		{head + "Each side has 6 sc.", 1},
		{head + "(each side = 6 sc)", 1},
		{head + "5 sc each side, total 16.", 1},
		{head + "After Rnd 2 there are 16 sc, 5 on each side.", 1},
		{octagon + "Rnd 4: the same. 48 sc (6 on each side)", 0},
		{octagon + "Rnd 4: the same. 48 sc (7 on each side)", 1},
		{"Triangle\n\nRnd 1: 9 sc in magic ring. (9 sc, 3 on each side)", 0},
		{"Triangle\n\nRnd 1: 9 sc in magic ring. (9 sc, 4 on each side)", 1},
	} {
		if p := Read(c.text).Prove(Options{}); p.Errors() != c.errors {
			t.Errorf("%d errors, want %d: %v\n%s", p.Errors(), c.errors, p.Findings, c.text)
		}
	}
}
