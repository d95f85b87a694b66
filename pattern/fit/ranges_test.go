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
