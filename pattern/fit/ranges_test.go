package fit

import (
	"testing"

	"crochet/tallyturn/pattern"
)

func TestAsRanges(t *testing.T) {
	for in, want := range map[string]string{
		"Rows 12 (14)-13 (16): Ch 1":                "Rows 12-13 (14-16): Ch 1",
		"Rnds 12 (14, 15) to 13 (16, 18): Ch 1":     "Rnds 12 to 13 (14 to 16, 15 to 18): Ch 1",
		"Rows 2-11 (13): Ch 1":                      "Rows 2-11 (13): Ch 1",
		"Rows 2 (3)-9: Ch 1":                        "Rows 2-9 (3-9): Ch 1",
		"Row 14 (17): Sc in next 3 (4) - 5 (6) sts": "Row 14 (17): Sc in next 3 (4) - 5 (6) sts",
	} {
		if got := asRanges(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

// TestRangesReadBack proves the rows of each size of a range told size by size.
func TestRangesReadBack(t *testing.T) {
	text := "Cuff\n\nSizes: S (M, L)\n\nCuff\nCh 11 (13, 15).\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 (12, 14) sc)\n" +
		asRanges("Rows 2-9 (10, 13): Ch 1, turn, sc in each st across. (10 (12, 14) sc)\nRows 10 (11, 14)-15 (17, 21): Ch 1, turn, sc in each st across. (10 (12, 14) sc)\n")
	p := pattern.Read(text)
	for size, rows := range map[string]int{"S": 15, "M": 17, "L": 21} {
		proof := p.Prove(pattern.Options{Size: size})
		if got := proof.Pieces[0].Len(); got != rows || len(proof.Findings) > 0 {
			t.Errorf("size %s: %d rows, want %d; %v\n%s", size, got, rows, proof.Findings, text)
		}
	}
}

// Rows that others repeat among theirs stay as many as they are: the last repeat
// grows, by whole repeats.
func TestRepeatsOfRepeatsGrowLast(t *testing.T) {
	head := "Pontoon\n\nUS terms. The ch 1 never counts.\n\nCh 22.\nRow 1: sc in the 2nd ch from hook and in each ch along. (21 sts)\n" +
		"Row 2: ch 1 and turn. hdc in each st. (21 sts)\nRows 3, 4: sc in each st. (21 sts)\nRows 5-7: repeat rows 2-4.\nRows 8-10: repeat rows 2-4.\n"
	res, err := To(pattern.Read(head+"Rows 11-16: repeat rows 5-10.\n").Prove(pattern.Options{}), testGauge(t), Wish{Rows: 36})
	if err != nil {
		t.Fatal(err)
	}
	if want := head + "Rows 11-34: repeat rows 5-10.\n"; res.Text != want {
		t.Errorf("got\n%s\nwant\n%s", res.Text, want)
	}
}
