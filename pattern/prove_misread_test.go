package pattern

import (
	"fmt"
	"strings"
	"testing"
)

// TestMisread: rows that are out by far, so that no one number mends them, are no
// errors of the author's; where they are most of a piece they count as not
// read.
func TestMisread(t *testing.T) {
	piece := func(wrong, right int) string {
		var b strings.Builder
		b.WriteString("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n")
		for n := 2; n < 2+wrong+right; n++ {
			row := "sc in next 20 sc. (20 sc)"
			if n < 2+wrong {
				row = fmt.Sprintf("sk next %d sc, 3 dc in next %d sc, sk next %d sc. (17 sc)", 30+n, 31+3*n, 40+n)
			}
			fmt.Fprintf(&b, "Row %d: Ch 1, turn, %s\n", n, row)
		}
		return b.String()
	}
	tests := []struct {
		wrong, right int
		errors       int
		unread       bool
	}{{1, 4, 0, false}, {3, 0, 0, false}, {4, 1, 0, true}, {4, 6, 0, false}}
	for _, tt := range tests {
		p := Read(piece(tt.wrong, tt.right)).Prove(Options{})
		errors, unread := errorsIn(p.Findings), 0
		for _, r := range p.Pieces[0].Rows {
			if r.Status == Unread {
				unread++
			}
		}
		if errors != tt.errors || (unread > 0) != tt.unread {
			t.Errorf("%d wrong rows and %d right ones: %d errors, %d rows unread", tt.wrong, tt.right, errors, unread)
		}
	}
	slips := strings.ReplaceAll(piece(0, 5), "next 20 sc", "next 22 sc")
	if n := errorsIn(Read(slips).Prove(Options{}).Findings); n == 0 {
		t.Errorf("five rows with one number too large each have no error:\n%s", slips)
	}
}
