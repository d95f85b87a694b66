package pattern

import "testing"

// TestLinesOfPrint reads rows that a page cut into lines behind an abbreviation
// with a full stop, stars that Markdown escaped, and both sides' names where one
// side knows both, as it reads them whole.
func TestLinesOfPrint(t *testing.T) {
	for _, c := range [][2]string{
		{"UK terms\n\nCh 24.\n1st row: 1 tr. into 4th ch. from hook, * 1 tr. into next ch.; rep. from * to end, turn.\n", "UK terms\n\nCh 24.\n1st row: 1 tr.\ninto 4th ch. from hook, * 1 tr.\ninto next ch.; rep. from * to end, turn.\n"},
		{"US terms\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, **sc in next st, *sc in next st; rep from * twice; rep from ** across.\n", "US terms\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, \\*\\*sc in next st, \\*sc in next st; rep from \\* twice; rep from \\*\\* across.\n"},
		{"UK terms\n\nRnd 1: 12 dc in magic ring.\nRnd 2: *1htr in next 3sts, 3htr in next, rep all round, ss.\n", "UK terms, (US) after each stitch\n\nRnd 1: 12 dc in magic ring.\nRnd 2: *1htr (1hdc) in next 3sts, 3htr (3hdc) in next, rep all round, ss.\n"},
	} {
		if bad := unlike(Read(c[0]).Prove(Options{}), Read(c[1]).Prove(Options{})); len(bad) > 0 {
			t.Errorf("%q: %v", c[1], bad)
		}
	}
}
