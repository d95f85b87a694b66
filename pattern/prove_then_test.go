package pattern

import (
	"fmt"
	"strings"
	"testing"
)

// TestRowsCountOn has rows without a number counted on from those that are
// worked again before them.
func TestRowsCountOn(t *testing.T) {
	const band = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\nRow 2: Ch 1, turn, sc in each st across.\nRow 3: Ch 1, turn, dc in each st across.\n%sNext row: Ch 1, turn, sc in each st across. (12)\n"
	for told, want := range map[string]int{
		"Rep Rows 2 and 3 four times more.\n":                      12,
		"Rep Rows 2 and 3 four times more, then Row 2 once.\n":     13,
		"Rep Rows 2-3 twice, then rep Row 2 twice, then Row 3.\n":  11,
		"Repeat last 2 rows until there are 9 rows.\n":             10,
		"Rep last row for 5 more rows.\n":                          9,
		"Carry on repeating Rows 2 and 3 until you have 9 rows.\n": 10,
		"Keep repeating rows 2-3 until you run out of yarn.\n":     6,
		"Rep Rows 2 and 3 until piece measures 20 cm.\n":           6,
		"": 4,
	} {
		p := Read(fmt.Sprintf(band, told)).Prove(Options{})
		rows := p.Pieces[0].Rows
		last := rows[len(rows)-1]
		if last.First != want || p.Errors() > 0 || last.Status != Agrees {
			t.Errorf("%s: the next row is row %d, %v, want %d and that it agrees; %v", strings.TrimSpace(told), last.First, last.Status, want, p.Findings)
		}
	}
}
