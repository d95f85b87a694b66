package pattern

import (
	"fmt"
	"testing"
)

// TestShapedRows works rows that are shaped at their edges, or go on as the
// row below, in the words of garments. The counts were worked by hand.
func TestShapedRows(t *testing.T) {
	start := "Ch 41.\nRow 1: Sc in 2nd ch from hook and in each ch across. (40 sc)\n"
	tests := []struct {
		rows string
		made int64
		stat Status
	}{
		{"Row 2: Dec 1 st at each end of row. 38 sts.", 38, Agrees},
		{"Row 2: Dec 1 st at each end of row. 39 sts.", 38, Differs},
		{"Row 2: Decrease 1 stitch at beginning and end of row - 38 sts rem.", 38, Agrees},
		{"Row 2: Dec 1 sc at neck edge, work in sc across: 39 sts.", 39, Agrees},
		{"Row 2: At neck edge dec 1 st, at armhole edge work even. 39 sts left.", 39, Agrees},
		{"Row 2: Ch 1, inc 2 sts at front edge, pat across. 42 sts", 42, Agrees},
		{"Row 2: Dec 1 st at neck and armhole edges. (38)", 38, Agrees},
		{"Row 2: Inc 1 sc each end. (42 sc)", 42, Agrees},
		{"Rows 2-5: Dec 1 st at each end of every row. 32 sts at end of Row 5.", 32, Agrees},
		{"Rows 2-5: Continue to dec 1 st at neck edge every row until there are 36 sts left.", 36, Agrees},
		{"Rows 2-5: Continue to dec 1 st at neck edge every row until there are 35 sts left.", 36, Differs},
		{"Rows 2-9: Dec 1 st at each end every other row. (32 sts)", 32, Trusted},
		{"Row 2: Sc in each sc.\nDec 1 st at each end of next 3 rows. 34 sts.", 34, Agrees},
		{"Row 2: Sc in each sc.\nDec 1 st at each end of every row until 6 sts remain.", 6, Unstated},
		{"Row 2: Sc in each sc.\nContinue in this manner, decreasing every 4th row, until 30 sts remain.", 30, Trusted},
		{"Row 2: Ch 1, turn, work in pat to last 3 sts, dec, sc in last st. (39)", 39, Agrees},
		{"Row 2: Sl st over 4 sts, ch 1, keeping to pat work to within last 4 sts, turn. 32 sts.", 32, Agrees},
		{"Row 2: Sl st across first 4 sts, ch 1, sc in next st and in each st to within last 4 sts; do not work over remaining sts. (32 sc)", 32, Agrees},
		{"Row 2: Ch 1, turn, work to last 2 sts, dec. (39 sts)", 39, Agrees},
		{"Row 2: Work even in pat. (40)", 40, Agrees},
		{"Row 2: Work 1 row even. (41)", 40, Differs},
		{"Row 2: Continue in established rib. (40)", 40, Agrees},
		{"Row 2: Work even on 40 sc.", 40, Agrees},
		{"Row 2: Work even on 39 sc.", 40, Differs},
		{"Row 2: Ch 1, work across in sc decreasing 4 sts evenly. 36 sc.", 36, Agrees},
		{"Row 2: Work even until piece measures 5 1/2 (6, 6 1/2) ins.", 40, Unstated},
	}
	for _, tt := range tests {
		p := Read(start + tt.rows).Prove(Options{})
		rows := p.Pieces[0].Rows
		last := rows[len(rows)-1]
		if last.Made != tt.made || last.Status != tt.stat {
			t.Errorf("%s\n makes %d, %v; want %d, %v\n%s", tt.rows, last.Made, last.Status, tt.made, tt.stat, someFindings(p))
		}
	}
}

// TestShapingNotCounted leaves rows unread where nobody can tell how many
// stitches the words change.
func TestShapingNotCounted(t *testing.T) {
	for _, row := range []string{"Dec 1 st at the 2 marked seams and 4 darts.", "At neck edge, 3 sts as you like."} {
		p := Read(fmt.Sprintf("Ch 41.\nRow 1: Sc in 2nd ch from hook and in each ch across. (40 sc)\nRow 2: %s (30 sts)", row)).Prove(Options{})
		if r := p.Pieces[0].Rows[1]; r.Status != Unread {
			t.Errorf("%s: %v, %d", row, r.Status, r.Made)
		}
	}
}
