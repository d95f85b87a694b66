package pattern

import "testing"

// TestExceptions works rows into each stitch but some.
func TestExceptions(t *testing.T) {
	const rows = "US terms\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: Ch 1, turn, "
	for _, c := range []struct {
		row  string
		made int64
	}{
		{"sc in all but the last st.", 19},
		{"sc in each st bar the first and the last 2 sts.", 17},
		{"sc in every stitch apart from the final three.", 17},
		{"sc in each st after the first.", 19},
		{"sc in each st after last inc.", 20}, // where a stitch stands is no exception
	} {
		p := Read(rows + c.row).Prove(Options{})
		if r := p.Pieces[0].Rows[1]; r.Made != c.made || r.Status == Unread {
			t.Errorf("%q is %v and makes %d, not %d", c.row, r.Status, r.Made, c.made)
		}
	}
}
