package pattern

import (
	"fmt"
	"strings"
	"testing"
)

const threeSizes = `Harbour Cuff

Sizes: S (M, L)
Finished size: 15 (17, 19) cm around
Gauge: 19 sts and 16 rows to 10 cm

Cuff
Ch 29 (33, 37).
Row 1: Sc in 2nd ch from hook and in each ch across. (28 (32, 36) sc)
Rows 2-5 (7, 9): Ch 1, turn, sc in each st across. (28 (32, 36) sc)
Row 6 (8, 10): Ch 1, turn, (sc in next 5 (6, 7) sts, sc2tog) 4 times. (24 (28, 32) sc)

Tab
Row 1: Join yarn in 8th (10th, 12th) st of Row 6 (8, 10) of Cuff, sc in same st and in next 5 sts. (6 sc)
`

func TestOneSize(t *testing.T) {
	const medium = `Harbour Cuff

Finished size: 17 cm around
Gauge: 19 sts and 16 rows to 10 cm

Cuff
Ch 33.
Row 1: Sc in 2nd ch from hook and in each ch across. (32 sc)
Rows 2-7: Ch 1, turn, sc in each st across. (32 sc)
Row 8: Ch 1, turn, (sc in next 6 sts, sc2tog) 4 times. (28 sc)

Tab
Row 1: Join yarn in 10th st of Row 8 of Cuff, sc in same st and in next 5 sts. (6 sc)
`
	if got := Read(threeSizes).OneSize(1); got != medium {
		t.Errorf("got\n%s", got)
	}
}

// Each size by itself proves as it does among the others, over all the
// patterns in several sizes there are.
func TestOneSizeProvesTheSame(t *testing.T) {
	n := 0
	texts := []string{threeSizes}
	for _, w := range allWritten(t) {
		texts = append(texts, w.text)
	}
	for _, text := range texts {
		p := Read(text)
		for i, name := range p.Sizes {
			if len(p.Sizes) < 2 {
				continue
			}
			n++
			one := Read(p.OneSize(i))
			if len(one.Sizes) > 1 {
				t.Errorf("size %s still has sizes %v:\n%s", name, one.Sizes, one.Source.Text)
				continue
			}
			a, b := sizeFigures(p.Prove(Options{Size: name})), sizeFigures(one.Prove(Options{}))
			if a != b {
				t.Errorf("size %s:\n%s\namong the others:\n%sby itself:\n%s", name, one.Source.Text, a, b)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d sizes", n)
	}
}

func sizeFigures(p *Proof) string {
	var b strings.Builder
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			fmt.Fprintln(&b, r.First, r.Last, r.Available, r.Made, r.Status)
		}
	}
	return b.String()
}
