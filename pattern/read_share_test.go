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
