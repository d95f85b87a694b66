package pattern

import "testing"

// TestFiletInOneRow works rows of filet over five meshes, told in several manners.
// The meshes were counted by hand.
func TestFiletInOneRow(t *testing.T) {
	const begin = "US terms\nEvery row has 5 squares.\nCh 20.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across. (5 sps)\nRow 2: 1 sp, 1 bl, 3 sps.\nRow 3: "
	provesRows(t, begin, "\n", 2, []toldRow{
		{"2 sps, 1 bl, 2 sps.", 8, 0},
		{"2 sps, 2 bls, 2 sps.", 0, 1},
		{"2 sps, 2 sps.", 0, 1},
		{"1 sp, 1 bl, 3 sps. (5 sqs.)", 8, 0},
		{"1 sp, 1 bl, 3 sps. (6 sqs.)", 0, 1},
		{"All spaces, 5 in the row.", 6, 0},
		{"All spaces, 6 in the row.", 0, 1},
		{"A row of spaces.", 6, 0},
		{"Spaces all across.", 6, 0},
		{"Blocks across.", 16, 0},
	})
}

// TestMeshesLeftAtTheEnds draws filet in by a mesh at each end.
func TestMeshesLeftAtTheEnds(t *testing.T) {
	const begin = "US terms\nCh 26.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across. (7 sps)\nRow 2: 3 sps, 1 bl, 3 sps.\nRow 3: "
	provesRows(t, begin, "\n", 2, []toldRow{
		{"Slip over 1 sp, 2 sps, 1 bl, 2 sps, leave 1 sp.", 8, 0},
		{"Sl st over first mesh, ch 5, work 5 sps, leave last mesh unworked. (5 meshes)", 6, 0},
		{"Skip one sp at each end, 5 sps between.", 6, 0},
		{"Slip over 2 sps, 3 sps, leave 2 sps.", 4, 0},
		{"Slip over 1 sp, 2 sps, 1 bl, 3 sps, leave 1 sp.", 0, 1},
		{"Slip over 2 sps, 2 sps, 1 bl, 2 sps, leave 1 sp.", 0, 1},
		{"Slip over 1 sp, 2 sps, leave 1 sp.", 0, 1},
	})
}

// TestEveryRowSaid holds what every row is said to have against the rows.
func TestEveryRowSaid(t *testing.T) {
	const rows = "Ch 20.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across. (5 sps)\nRow 2: 1 sp, 1 bl, 3 sps.\nRow 3: 2 sps, 1 bl, 2 sps.\nRow 4: 5 sps.\n"
	for said, errs := range map[string]int{
		"Every row measures 5 meshes, blocks and spaces taken together.": 0,
		"There are 5 meshes in every row.":                               0,
		"Each row has 5 sqs.":                                            0,
		"Every row is of 5 squares.":                                     0,
		"Every row measures 6 meshes, blocks and spaces taken together.": 1,
		"There are 6 meshes in every row.":                               1,
		"Each row has 4 sqs.":                                            1,
		"Every row is of 6 squares.":                                     1,
		"Every row takes an evening.":                                    0,
	} {
		if p := Read("US terms\n" + said + "\n\n" + rows).Prove(Options{}); p.Errors() != errs {
			t.Errorf("%s: %d errors, want %d: %v", said, p.Errors(), errs, p.Findings)
		}
	}
}

// TestSumOfAnEdging adds up an edging that no row below tells of.
func TestSumOfAnEdging(t *testing.T) {
	const rows = "US terms\nCh 20.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across. (5 sps)\nRow 2: 1 sp, 1 bl, 3 sps.\n\n"
	for edge, errs := range map[string]int{
		"EDGE--Work 5 sc in each of the 4 corner sps and 2 sc in each of the other 5 meshes along each of the 4 sides (60 sc). Join.": 0,
		"EDGE--Work 5 sc in each of the 4 corner sps and 2 sc in each of the other 5 meshes along each of the 4 sides (64 sc). Join.": 1,
		"EDGE--Work 5 sc in each of the 4 corner sps and 2 sc in each of the other 6 meshes along each of the 4 sides (60 sc). Join.": 1,
		"EDGE--Work 5 sc in each of the 4 corner sps and 2 sc in each mesh along the sides (60 sc). Join.":                            0,
	} {
		if p := Read(rows + edge + "\n").Prove(Options{}); p.Errors() != errs {
			t.Errorf("%s: %d errors, want %d: %v", edge, p.Errors(), errs, p.Findings)
		}
	}
}
