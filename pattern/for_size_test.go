package pattern

import "testing"

// TestRowsForSomeSizes proves rows that only some sizes work, told in the ways
// that garments tell it, in each size.
func TestRowsForSomeSizes(t *testing.T) {
	start := "Sizes: S (M, L)\nCh 11 (16, 21).\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 (15, 20) sc\n"
	tests := []struct {
		rows string
		made [3]int64 // by the last row of each size
	}{
		{"Row 2: For sizes M and L only: Ch 1, turn, 2 sc in first st, sc across. (16, 21)\nRow 3: Ch 1, turn, sc in each st.", [3]int64{10, 16, 21}},
		{"M and L only\nRow 2: Ch 1, turn, 2 sc in first st, sc in each st across.\nAll sizes\nRow 3: Ch 1, turn, sc in each st across. 10 (16, 21) sc", [3]int64{10, 16, 21}},
		{"Largest size only\nRow 2: Ch 1, turn, sc2tog, sc in each st across.\n\nRow 3: Ch 1, turn, sc in each st across. 10 (15, 19) sc", [3]int64{10, 15, 19}},
		{"For size S only, skip to Row 4.\nRow 2: Ch 1, turn, 2 sc in first st, sc across.\nRow 3: Ch 1, turn, 2 sc in first st, sc across.\nRow 4: Ch 1, turn, sc in each st across. 10 (17, 22) sc", [3]int64{10, 17, 22}},
		{"Row 2 (size Small only): Ch 1, turn, sc in each st to last 2 sts, sc2tog. 9 sts\nRow 3: Ch 1, turn, sc in each st across.", [3]int64{9, 15, 20}},
		{"2nd and 3rd sizes only: Row 2: Ch 1, turn, sc in each st to last st, 2 sc in last st.\nRow 3: Ch 1, turn, sc in each st across. 10 (16, 21) sc", [3]int64{10, 16, 21}},
		{"Row 2: Ch 1, turn, sc in each st across. Sizes M and L only: work 3 more rows even.", [3]int64{10, 15, 20}},
	}
	for _, tt := range tests {
		for size, made := range tt.made {
			p := Read(start + tt.rows)
			proof := p.Prove(Options{Size: p.Sizes[size]})
			rows := proof.Pieces[0].Rows
			if last := rows[len(rows)-1]; last.Made != made || last.Status == Differs {
				t.Errorf("%s\nin size %d the last row makes %d, %v; want %d\n%s", tt.rows, size, last.Made, last.Status, made, someFindings(proof))
			}
		}
	}
}

// TestNotForSomeSizes leaves alone what only looks like it.
func TestNotForSomeSizes(t *testing.T) {
	text := "Sizes: S (M, L)\nCh 11 (16, 21).\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 (15, 20) sc\nFor the small pocket see below.\nRow 2: Ch 1, turn, sc in each st. 10 (15, 20) sc\n"
	for size, made := range []int64{10, 15, 20} {
		if rows := Read(text).Prove(Options{Size: []string{"S", "M", "L"}[size]}).Pieces[0].Rows; rows[len(rows)-1].Made != made {
			t.Errorf("size %d: %d", size, rows[len(rows)-1].Made)
		}
	}
}
