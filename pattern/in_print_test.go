package pattern

import (
	"testing"

	"crochet/tallyturn/pattern/stitch"
)

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

// TestRoundBack names a raised stitch worked round the back of a stem for what
// it is, and keeps what chains count as behind an abbreviation's full stop.
func TestRoundBack(t *testing.T) {
	p := Read("UK terms\n\nMake 10 ch., join with ss.\n1st rnd: 4 ch. (= 1 d.tr.), 9 tr. into ring, ss to top of 4 ch.\n2nd rnd: * 1 raised tr round front of next st, 1 raised tr round back of next st; rep from * to end.\n")
	rows := p.Pieces[0].Rows
	if c := rows[0].Steps[0].Counts; !c.Said || c.As != stitch.TR {
		t.Errorf("the chains count as %+v", c)
	}
	body := rows[1].Steps[0].Body
	if len(body) != 2 || body[0].Stitch != stitch.FPDC || body[1].Stitch != stitch.BPDC {
		t.Errorf("round the stems: %+v", body)
	}
}
