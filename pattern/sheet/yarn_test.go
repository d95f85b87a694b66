package sheet

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
	"crochet/tallyturn/pattern/yarn"
)

const pennon = `Harbour Flag

Yarn: medium cotton, 50 g = 100 m
Gauge: 20 sc and 22 rows to 10 cm
Gauge swatch: 20 sc x 22 rows used 20 m

US terms

Flag
With navy, ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2-23: Ch 1, turn, sc in each st across. (20 sc)
Fasten off.
`

// TestYarn has the amounts that pattern/yarn works out, told apart from what the
// author states, whose words stay.
func TestYarn(t *testing.T) {
	proof, doc := sheetOf(pennon, Options{Yarn: true, Terms: []stitch.Terms{stitch.US, stitch.UK}})
	rate, err := yarn.StatedRate(proof)
	if err != nil {
		t.Fatal(err)
	}
	ball, _ := yarn.StatedBall(proof.Pattern)
	a := yarn.Of(proof).Amounts(rate, ball, yarn.Margin)[0]
	got := Text(doc)
	for _, want := range []string{
		"Yarn: medium cotton, 50 g = 100 m\n", "Yarn, worked out\n",
		"- navy: " + a.MM.Times(0.001).String() + " m, " + a.Grams.String() + " g, so have 1 ball of 50 g\n",
		"by what one swatch took", "own amounts stand",
	} {
		if !strings.Contains(strings.ReplaceAll(got, "\n", " "), strings.ReplaceAll(want, "\n", " ")) {
			t.Errorf("%q is not on it:\n%s", want, got)
		}
	}
	if n := strings.Count(got, "worked out"); n != 1 {
		t.Errorf("it is told %d times", n)
	}
	// 23 rows are about what the swatch of 22 took, one row and two ends more.
	if m := a.MM.Mid / 1000; m < 20 || m > 23 {
		t.Errorf("%.1f m for 23 rows, where a swatch of 22 took 20 m", m)
	}
	_, plain := sheetOf(pennon, Options{})
	if strings.Contains(Text(plain), "worked out") {
		t.Error("amounts that nobody asked for")
	}
}

// TestYarnReadsBack has the amounts on every sheet that they can be worked out
// for: it proves the same with them.
func TestYarnReadsBack(t *testing.T) {
	n := 0
	for _, m := range allSheets() {
		if len(m.doc.Unlike) > 0 {
			continue
		}
		if _, err := yarn.StatedRate(m.proof); err != nil {
			continue
		}
		n++
		_, doc := sheetOf(m.text, Options{Yarn: true, Terms: []stitch.Terms{m.terms}})
		if len(doc.Unlike) > 0 {
			t.Errorf("%s in %s terms: %v", m.name, m.terms, doc.Unlike)
		}
		if bad := Unlike(m.proof.Pattern, m.proof.Terms, pattern.Read(pageText(parsePage(t, HTML(doc))))); m.terms == m.proof.Terms && len(bad) > 0 {
			t.Errorf("%s from its page: %v", m.name, bad)
		}
	}
	if n < 15 {
		t.Errorf("only %d sheets tell their yarn", n)
	}
}
