package fit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
	"crochet/tallyturn/pattern/yarn"
)

// By hand: rows of single crochet take a unit a stitch, and of chains, which take
// 0.48 of that (measured; see package yarn), one a stitch, one for the turn of
// each row; besides, two ends of 15 cm.
func TestYarnOfSizes(t *testing.T) {
	proof := pattern.Read("Mat\nUS terms\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRows 2-22: Ch 1, turn, sc in each st across. (20 sc)\nFasten off.\n").Prove(pattern.Options{})
	g, err := gauge.Read(stitch.US, "20 sc and 22 rows = 10 cm")
	if err != nil {
		t.Fatal(err)
	}
	all, err := ToSizes(proof, g, []Size{{"S", Wish{Wide: 100}}, {"M", Wish{Wide: 150}}, {"L", Wish{Wide: 300, Tall: 400}}})
	if err != nil {
		t.Fatal(err)
	}
	rate := yarn.Rate{MM: yarn.Range{Low: 30, Mid: 40, High: 50}, N: 1}
	all.NeedsYarn(rate, yarn.Ball{MM: 125_000, Grams: 50})
	for i, r := range all.Results {
		sts, rows := r.Across.Stitches, float64(all.Proofs[i].Pieces[0].Len())
		units := sts*rows + 0.48*(sts+rows)
		need := all.yarn[i].all
		if math.Abs(need.MM.Mid-(units*40+300)) > 1 || math.Abs(need.MM.High-(units*50+300)) > 1 || math.Abs(need.Grams.Mid-(units*40+300)*50/125_000) > 0.01 {
			t.Errorf("%s, %v by %v: %+v, want %v units", all.Sizes[i].Name, sts, rows, need, units)
		}
		if want := math.Ceil((units*50 + 300) * 1.1 / 125_000); need.Balls != want {
			t.Errorf("%s takes %v balls, want %v", all.Sizes[i].Name, need.Balls, want)
		}
	}
	told := strings.Join(all.Lines(), "\n")
	for _, want := range []string{"metres", "grams", "balls", rate.Basis()} {
		if strings.Count(told, want) != 1 {
			t.Errorf("%q is not said once:\n%s", want, told)
		}
	}
}

// Without a rate nothing is said of yarn, and of several colours each is told.
func TestYarnOfColours(t *testing.T) {
	var b strings.Builder
	b.WriteString("Flag\nUS terms\n\nWith navy, ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n")
	for i, c := range []string{"white", "kelp", "navy"} {
		fmt.Fprintf(&b, "Row %d: Change to %s, ch 1, turn, sc in each st across. (20 sc)\n", i+2, c)
	}
	proof := pattern.Read(b.String()).Prove(pattern.Options{})
	all, err := ToSizes(proof, gauge.Gauge{}, []Size{{"S", Wish{Stitches: 20}}, {"L", Wish{Stitches: 60}}})
	if err != nil {
		t.Fatal(err)
	}
	if told := strings.Join(all.Lines(), "\n"); strings.Contains(told, "Yarn") || strings.Contains(told, "metres") {
		t.Errorf("yarn is told without a rate:\n%s", told)
	}
	all.NeedsYarn(yarn.Rate{Grams: yarn.Range{Low: 0.01, Mid: 0.02, High: 0.03}, N: 2}, yarn.Ball{})
	told := strings.Join(all.Lines(), "\n")
	for _, c := range []string{"navy", "white", "kelp"} {
		if strings.Count(told, c) != 2 {
			t.Errorf("%s is not told in both sizes:\n%s", c, told)
		}
	}
	small, large := all.yarn[0], all.yarn[1]
	if sum := small.colours[0].Grams.Mid + small.colours[1].Grams.Mid + small.colours[2].Grams.Mid; math.Abs(sum-small.all.Grams.Mid) > 1e-9 || !(large.all.Grams.Mid > 2*small.all.Grams.Mid) {
		t.Errorf("small %+v, large %+v", small, large)
	}
}
