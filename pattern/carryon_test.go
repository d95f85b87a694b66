package pattern

import (
	"fmt"
	"strings"
	"testing"
)

// carriedWords tells what is carried in a few words.
func carriedWords(c *Carried) string {
	var b strings.Builder
	for _, r := range c.Rows {
		fmt.Fprintf(&b, "row %d-%d: %d for %d", r.First+1, r.Last+1, r.Now, r.Was)
		if r.Why != "" {
			fmt.Fprintf(&b, "; %s", r.Why)
		}
		b.WriteByte('\n')
	}
	for _, s := range c.Seats {
		fmt.Fprintf(&b, "%s on row %d: %d before, %d after, %+d halves", s.Piece, s.Row, s.Before, s.After, s.Half)
		if s.Why != "" {
			fmt.Fprintf(&b, "; %s", s.Why)
		}
		b.WriteByte('\n')
	}
	if c.Mend != nil {
		fmt.Fprintf(&b, "%+d in row %d\n", c.Mend.By, c.Mend.Row+1)
	}
	return b.String()
}

const strip = `Quay strip

US terms

Strip
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Row 2: Ch 1, turn, sc in each st across. (20)
Rows 3-8: Ch 1, turn, sc in each st across. (20)
Row 9: Ch 1, turn, (sc in next 3 sts, 2 sc in next st) 5 times. (25)
Fasten off.

Point
Row 1: Join yarn in 8th st of Row 9 of Strip, sc in same st and in next 10 sts. (11)
Row 2: Ch 1, turn, sc2tog, sc in next 7 sts, sc2tog. (9)
`

func TestCarryOn(t *testing.T) {
	for _, c := range []struct {
		name, text string
		piece      int
		diffs      []Difference
		want       string
	}{
		{"one short", strip, 0, []Difference{{1, 19}}, "row 3-8: 19 for 20\nrow 9-9: 23 for 25; 1 stitch more is needed here than the row below has (19 stitches); the repeat came out 4 times of 5\n" +
			"Point on row 9: 7 before, 5 after, -2 halves\n+1 in row 3\n"},
		{"one over in the middle of a range", strip, 0, []Difference{{4, 21}}, "row 6-8: 21 for 20\nrow 9-9: 25 for 25; 1 stitch of the row below is left unworked, and the row does not say so\n-1 in row 6\n"},
		{"in the last row", strip, 0, []Difference{{8, 24}}, "Point on row 9: 7 before, 6 after, -1 halves\n"},
		{"and made good", strip, 0, []Difference{{1, 19}, {3, 20}}, "row 3-4: 19 for 20\n"},
		{"a piece that fits no more", strip, 0, []Difference{{8, 17}}, "Point on row 9: 7 before, 0 after, -7 halves; 1 stitch more is needed here than the row below has (17 stitches)\n"},
		{"in the round", "Cap\n\nUS terms\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\nRnd 3: (Sc in next st, inc) around. (18)\nRnds 4-6: Sc in each st around. (18)\n", 0, []Difference{{0, 7}}, "row 2-2: 14 for 12\nrow 3-6: 21 for 18\n-2 in row 2\n"},
		{"a repeat that fits no more", "Cap\n\nUS terms\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\nRnd 3: (Sc in next st, inc) around. (18)\nRnds 4-6: Sc in each st around. (18)\n", 0, []Difference{{1, 11}}, "row 3-3: 16 for 18; the repeat comes out 5 times and stops part way through the next: 1 stitch was left for it; it would fit over 10 or 12\nrow 4-6: 16 for 18\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Read(c.text).Prove(Options{})
			if p.Errors() > 0 {
				t.Fatalf("%+v", p.Findings)
			}
			before := fmt.Sprintf("%+v", p.Summary())
			got := p.CarryOn(c.piece, c.diffs)
			if got == nil {
				t.Fatal("nothing")
			}
			if w := carriedWords(got); w != c.want {
				t.Errorf("got\n%swant\n%s", w, c.want)
			}
			if got.Piece.Len() != p.Pieces[c.piece].Len() {
				t.Errorf("%d rows of %d", got.Piece.Len(), p.Pieces[c.piece].Len())
			}
			if after := fmt.Sprintf("%+v", p.Summary()); after != before {
				t.Errorf("the proof has changed: %s, was %s", after, before)
			}
		})
	}
}

func TestCarryOnThatCannotBe(t *testing.T) {
	p := Read(strip).Prove(Options{})
	for _, c := range []struct {
		piece int
		diffs []Difference
	}{
		{0, nil}, {-1, []Difference{{0, 1}}}, {2, []Difference{{0, 1}}}, {0, []Difference{{-1, 1}}},
		{0, []Difference{{9, 1}}}, {0, []Difference{{1, -1}}}, {0, []Difference{{2, 1}, {1, 1}}},
	} {
		if got := p.CarryOn(c.piece, c.diffs); got != nil {
			t.Errorf("piece %d with %v: %+v", c.piece, c.diffs, got)
		}
	}
	if got := (&Proof{Pieces: []*PieceProof{{}}}).CarryOn(0, []Difference{{0, 1}}); got != nil {
		t.Errorf("a proof made by hand: %+v", got)
	}
}

func TestHost(t *testing.T) {
	p := Read(strip).Prove(Options{})
	if host, row, ok := p.Host(1); !ok || host != 0 || row != 8 {
		t.Errorf("the point sits on row %d of piece %d, %v", row, host, ok)
	}
	for _, piece := range []int{-1, 0, 2} {
		if _, _, ok := p.Host(piece); ok {
			t.Errorf("piece %d sits on something", piece)
		}
	}
}
