package fit

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// A mat of pairs: what grows becomes a range, what stays two rows stays as the
// author wrote it.
const paired = `Mat
US terms

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2 and 3: Ch 1, turn, sc in each st across. (20 sc)
Row 4: Ch 1, turn, sc2tog, sc in each st across to last 2 sts, sc2tog. (18 sc)
Rows 5 & 6: Ch 1, turn, sc in each st across. (18 sc)
Row 7: Ch 1, turn, sc2tog, sc in each st across to last 2 sts, sc2tog. (16 sc)
Rows 8 and 9: Rep Rows 6 and 7. (16, 14 sc)
Fasten off.
`

func TestPairs(t *testing.T) {
	proof := pattern.Read(strings.Replace(paired, "Rows 8 and 9: Rep Rows 6 and 7. (16, 14 sc)\n", "", 1)).Prove(pattern.Options{})
	if proof.Errors() > 0 {
		t.Fatal(proof.Findings)
	}
	for _, c := range []struct {
		rows       int64
		has, hasNo []string
	}{
		{15, []string{"Rows 2-7: ", "Row 8: ", "Rows 9-14: ", "Row 15: "}, []string{"and 3", "&"}},
		{7, []string{"Rows 2 and 3: ", "Rows 5 & 6: "}, []string{"2-3"}},
		{9, []string{"Row 9: "}, nil},
	} {
		res, err := To(proof, gauge.Gauge{}, Wish{Rows: c.rows})
		if err != nil {
			t.Errorf("%d rows: %v", c.rows, err)
			continue
		}
		for _, want := range c.has {
			if !strings.Contains(res.Text, want) {
				t.Errorf("%d rows do not have %q:\n%s", c.rows, want, res.Text)
			}
		}
		for _, no := range c.hasNo {
			if strings.Contains(res.Text, no) {
				t.Errorf("%d rows have %q:\n%s", c.rows, no, res.Text)
			}
		}
		if n := res.Proof.Pieces[0].Len(); int64(n) != c.rows {
			t.Errorf("%d rows, want %d", n, c.rows)
		}
	}
	// Only wider, every word stays; where nothing repeats it is as it was.
	res, err := To(proof, gauge.Gauge{}, Wish{Stitches: 40})
	if err != nil || !strings.Contains(res.Text, "Rows 2 and 3:") || !strings.Contains(res.Text, "Rows 5 & 6:") {
		t.Errorf("wider: %v\n%s", err, res.Text)
	}
	g, err := gauge.Read(stitch.US, "20 sc and 20 rows = 10 cm")
	if err != nil {
		t.Fatal(err)
	}
	all, err := ToSizes(proof, g, []Size{{"S", Wish{Wide: 100, Tall: 35}}, {"L", Wish{Wide: 150, Tall: 40}}})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(all.Text, "(") || all.Proofs[0].Pieces[0].Len() != 7 || all.Proofs[1].Pieces[0].Len() != 8 {
		t.Errorf("two sizes:\n%s", all.Text)
	}
	if n := strings.Count(all.Text, " and 3:") + strings.Count(all.Text, " & 6"); n != 1 { // one of the two grew
		t.Errorf("%d pairs stayed:\n%s", n, all.Text)
	}
}
