package pattern

import "testing"

// TestMeshesWithoutTheirChain works rows of filet that tell of their meshes and
// leave the turning chain unsaid. The meshes were counted by hand.
func TestMeshesWithoutTheirChain(t *testing.T) {
	const begin = "US terms\nCh 20.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across. (5 sps)\nRow 2: "
	provesRows(t, begin, "", 1, []toldRow{
		{"1 sp, 3 bl, 1 sp. (5 meshes)", 12, 0},
		{"5 bl. (5 meshes)", 16, 0},
		{"2 sps, 1 bl, 2 sps.", 8, 0},
		{"1 sp, 2 bl, 1 sp. (5 meshes)", 9, 1},
		{"2 sps, 2 bl, 2 sps.", 0, 1},
		{"Beg sp, a block over next sp, 2 sps, end with 1 block. (2 blocks and 3 spaces)", 10, 0},
		{"Ch 5, dc in next dc, work a block over second sp, then 1 space over the next sp, a block, 1 sp. (2 blks, 3 sps)", 10, 0},
		{"Beg sp, a block over next sp, 2 sps, end with 1 block. (3 blocks and 2 spaces)", 10, 1},
		{"Beg sp, a block over next sp, 3 sps, end with 1 block.", 10, 1},
	})
}

// toldRow is a row as it is told, how many stitches it makes, and how many errors
// there are where it is wrong.
type toldRow struct {
	row  string
	made int64
	errs int
}

// provesRows puts each row between the same words, and proves it as the row at a place.
func provesRows(t *testing.T, before, after string, at int, rows []toldRow) {
	t.Helper()
	for _, c := range rows {
		p := Read(before + c.row + after).Prove(Options{})
		r := p.Pieces[0].Rows[at]
		if p.Errors() != c.errs || c.errs == 0 && r.Made != c.made {
			t.Errorf("%s: %d errors, makes %d; want %d and %d: %v", c.row, p.Errors(), r.Made, c.errs, c.made, p.Findings)
		}
	}
}
