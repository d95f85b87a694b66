package pattern

import (
	"strings"
	"testing"
)

// TestComesOutWithout: words that nobody could list are looked past where the
// count shows that they ask for no work, and only there.
func TestComesOutWithout(t *testing.T) {
	const start = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
	tests := []struct {
		name, row string
		want      Status
	}{
		{"a sentence beside a full row", "Row 2: Ch 1, turn, sc in next 20 sc. Let the gull between each stitch rest.", Unstated},
		{"a clause beside a full row and its total", "Row 2: Ch 1, turn, sc in next 20 sc, gull over each 3rd. (20 sc)", Agrees},
		{"a clause beside a full row, nothing stated", "Row 2: Ch 1, turn, gull over each stitch, sc in next 20 sc", Unread},
		{"stitches in the sentence", "Row 2: Ch 1, turn, sc in next 20 sc. Gull 3 in each.\nRow 3: Ch 1, turn, sc in each sc across.", Unread},
		{"talk with a number behind the work", "Row 2: Ch 1, turn, sc in next 20 sc - the gull 14 times as wide by now", Unstated},
		{"talk with a number before the work", "Row 2: Ch 1, turn, the gull 14 times as wide by now, sc in next 20 sc", Unread},
		{"stitches counted behind the last row", "Row 2: Ch 1, turn, sc in next 20 sc. Gull shut with 6 sc through all of it.", Unstated},
		{"stitches counted behind another row", "Row 2: Ch 1, turn, sc in next 20 sc. Gull shut with 6 sc through all of it.\nRow 3: Ch 1, turn, sc in each sc across.", Unread},
		{"the total is another", "Row 2: Ch 1, turn, sc in next 20 sc, gull in each 3rd. (26 sc)", Unread},
		{"the row is not full", "Row 2: Ch 1, turn, sc in next 17 sc, gull in next 3. (17 sc)", Unread},
		{"nothing is worked", "Row 2: Gull each stitch.", Unread},
	}
	for _, tt := range tests {
		p := Read(start + tt.row + "\n").Prove(Options{})
		rows := p.Pieces[0].Rows
		got := rows[1]
		if got.Status != tt.want {
			t.Errorf("%s: %s is %v, want %v", tt.name, tt.row, got.Status, tt.want)
		}
		told := 0
		for _, f := range p.Findings {
			if f.Code == CodeReading && strings.Contains(f.Message, "comes out without it") {
				told++
			}
		}
		if want := tt.want != Unread; (told == 1) != want {
			t.Errorf("%s: told %d times that words are looked past", tt.name, told)
		}
	}
}

// TestSkipsOverNothing: a row that skips what nobody has told of is not proven, and
// no more than that.
func TestSkipsOverNothing(t *testing.T) {
	p := Read("Row 1: Miss 2 ch, gull in each ch as far as the rope.\n").Prove(Options{})
	if rows := p.Pieces[0].Rows; len(rows) != 1 || rows[0].Status != Unread {
		t.Errorf("a row that skips over nothing: %+v", rows)
	}
}
