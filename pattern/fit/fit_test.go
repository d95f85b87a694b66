package fit

import (
	"errors"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
)

// What a designer would write, worked out by hand, row by row.
func TestRowsFollow(t *testing.T) {
	for _, test := range []struct {
		name, text string
		wish       Wish
		want       []string
	}{
		{"an oval grows along its sides", `
Ch 11.
Rnd 1: Sc in 2nd ch from hook, sc in next 8 ch, 3 sc in last ch; working along opposite side of ch, sc in next 8 ch, 2 sc in last ch. (22 sc)
Rnd 2: 2 sc in first st, sc in next 8 sts, 2 sc in each of next 3 sts, sc in next 8 sts, 2 sc in each of last 2 sts. (28 sc)`,
			Wish{Stitches: 50},
			[]string{"Ch 22.", "sc in next 19 ch, 3 sc in last ch; working along opposite side of ch, sc in next 19 ch", "(44 sc)", "2 sc in each of next 3 sts, sc in next 19 sts", "(50 sc)"}},
		{"a slot keeps its width and its place", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc in first 6 sts, ch 8, skip next 8 sts, sc in last 6 sts. (12 sc)
Row 3: Ch 1, turn, sc in next 6 sts, 8 sc in ch-8 sp, sc in last 6 sts. (20 sc)`,
			Wish{Stitches: 30},
			[]string{"Ch 31.", "sc in first 11 sts, ch 8, skip next 8 sts, sc in last 11 sts. (22 sc)", "sc in next 11 sts, 8 sc in ch-8 sp, sc in last 11 sts. (30 sc)"}},
		{"a motif in colour keeps its width in the middle", `
With A, ch 21.
Row 1: With A, sc in 2nd ch from hook and in each ch across.
Row 2: Ch 1, turn, with A sc in next 4 sts, with B sc in next 12 sts, with A sc in last 4 sts.`,
			Wish{Stitches: 30},
			[]string{"With A, ch 31.", "with A sc in next 9 sts, with B sc in next 12 sts, with A sc in last 9 sts"}},
		{"a ripple keeps its waves and has more of them", `
Ch 27.
Row 1: Dc in 4th ch from hook (skipped ch = 1 dc) and in every remaining ch. (25 dc)
Row 2: Ch 3 (= 1 dc), turn, dc in st at base of ch, *dc in next 4 sts, dc3tog, dc in next 4 sts**, 3 dc in next st; rep from * once more, ending at **, 2 dc in last st. (25 dc)`,
			Wish{Stitches: 50},
			[]string{"Ch 51.", "(49 dc)", "rep from * 3 times more"}},
		{"decreases keep their number where the distance can change", `
Ch 29.
Row 1: Sc in 2nd ch from hook and in each ch across. (28 sc)
Row 2: Ch 1, turn, (sc in next 5 sts, sc2tog) 4 times. (24 sc)`,
			Wish{Stitches: 32},
			[]string{"Ch 33.", "(sc in next 6 sts, sc2tog) 4 times. (28 sc)"}},
		{"a texture is repeated, not stretched", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, (sc in next 2 sts, hdc in next 2 sts) 5 times. (10 sc, 10 hdc)`,
			Wish{Stitches: 30},
			[]string{"Ch 33.", "(sc in next 2 sts, hdc in next 2 sts) 8 times. (16 sc, 16 hdc)"}},
		{"a body under a heading of its own goes on from its foundation", `
Cowl
Foundation: 90 fdc, join to first fdc to form a circle.
Round 1: Ch 1, sc in first st, ch 1, sk 1, *sc, ch 1, sk 1; rep from * around, join with sl st in first sc. (45 sc, 45 ch-1 sps)
Round 2: Ch 1, sc in each sc and ch-1 sp around, join. (90 sc)`,
			Wish{Stitches: 120},
			[]string{"Foundation: 120 fdc", "(60 sc, 60 ch-1 sps)", "(120 sc)"}},
		{"a band along the whole edge goes with it", `
Strip
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Fasten off.

Edging
Row 1: Join yarn in 1st st of Row 1 of Strip, sc in same st and in each st across. (20 sc)
Row 2: Ch 1, turn, (ch 3, skip next 2 sts, sc in next 2 sts) 5 times. (10 sc, 5 ch-3 sps)`,
			Wish{Stitches: 33},
			[]string{"Ch 33.", "each st across. (32 sc)", "8 times. (16 sc, 8 ch-3 sps)"}},
		{"a hat grows higher by its plain rounds, and its flaps go along", `
Crown
Rnd 1: 8 sc in magic ring. (8)
Rnd 2: (Inc) 8 times. (16)
Rnds 3-10: Sc in each st around. (16)
Fasten off.

Flap
Row 1: Join yarn in 3rd st of Rnd 10 of Crown, sc in same st and in next 4 sts. (5)
Rows 2-4: Ch 1, turn, sc in each st across. (5)`,
			Wish{Rows: 15},
			[]string{"Rnds 3-15:", "Join yarn in 3rd st of Rnd 15 of Crown", "Rows 2-4:"}},
		{"one time more in the singular", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, *sc in next 5 sts, hdc in next 5 sts; rep from * 1 time more. (10 sc, 10 hdc)`,
			Wish{Stitches: 40},
			[]string{"rep from * 3 times more."}},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := pattern.Read(test.text).Prove(pattern.Options{})
			if p.Errors() > 0 {
				t.Fatal(p.Findings)
			}
			res, err := To(p, testGauge(t), test.wish)
			if err != nil {
				t.Fatal(err)
			}
			for _, want := range test.want {
				if !strings.Contains(res.Text, want) {
					t.Errorf("there is no %q in\n%s", want, res.Text)
				}
			}
		})
	}
}

// What is worked onto a piece limits how narrow it may become, and is said to.
func TestPiecesLimit(t *testing.T) {
	p := pattern.Read(`
Strip
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

Flag
Row 1: Join yarn in 6th st of Row 1 of Strip, sc in same st and in next 9 sts. (10 sc)`).Prove(pattern.Options{})
	if res, err := To(p, testGauge(t), Wish{Stitches: 10}); err != nil || !strings.Contains(res.Text, "Ch 11.") || !strings.Contains(res.Text, "in 1st st") {
		t.Errorf("%v", err)
	}
	_, err := To(p, testGauge(t), Wish{Stitches: 5})
	var far *NotWithinReach
	if !errors.As(err, &far) || !strings.Contains(far.Why, "needs 10 stitches") {
		t.Errorf("%v: %+v", err, far)
	}
}

// TestNoNumberBelowNothing: the stitches skipped between two shoulders cannot
// be fewer than none, however narrow the wish.
func TestNoNumberBelowNothing(t *testing.T) {
	for _, w := range allWritten(t) {
		if w.name != "190-gull-vest-shoulders.case" {
			continue
		}
		for n := int64(16); n < 30; n++ {
			res, err := To(w.proof, testGauge(t), Wish{Stitches: n})
			if err == nil && strings.Contains(res.Text, "next -") {
				t.Errorf("%d stitches: %s", n, res.Text)
			}
		}
		return
	}
	t.Fatal("the vest is not there")
}
