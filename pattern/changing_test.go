package pattern

import (
	"slices"
	"testing"
)

// TestRowsChanging reads rows that only say how each differs from the one before it, and
// rows repeated with other numbers, in the words of several authors. The counts were
// worked by hand.
func TestRowsChanging(t *testing.T) {
	const (
		ball = "Rnd 1: 7 sc in magic ring. (7)\nRnd 2: 2 sc in each st. (14)\nRnd 3: *sc in next st, 2 sc in next; rep from * around. (21)\n"
		bell = "Ch 40, join.\nRnd 1: sc in each ch around (40).\nRnd 2: *sc in next 6 sts, sc2tog; rep from * around (35).\n"
		sail = "Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch across. (24)\nRow 2: Ch 1, turn, sc2tog, sc in next 20 sts, sc2tog. (22)\n"
	)
	for _, tt := range []struct {
		rows string
		made []int64
		sure bool // there is no error
	}{
		{ball + "Rnds 4-6: Continue in this way, increasing 7 sts each rnd (28, 35, 42 sts).", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-6: Continue in this way, increasing 7 sts each rnd (28, 36, 42 sts).", []int64{28, 35, 42}, false},
		{ball + "Rnds 4-6: Three more rounds, each with 7 more sts than the one before: 28, 35, 42.", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-6: Continue increasing in this manner until there are 42 sc.", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-7: Continue increasing in this manner until there are 42 sc.", []int64{28, 35, 42, 49}, false},
		{ball + "Rnds 4-6: 3 more rounds, adding 7 sts to each. 42", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-6: Same again, each round 7 sts bigger than the last (28, 35, 42).", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-6: continue with the increases as set, so each round grows by 7 (42 at the end).", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-5: carry on increasing by 7 each time until you've got 35 sts.", []int64{28, 35}, true},
		{ball + "Continue to increase 7 sts every round until there are 42 sts.", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-6: Keep increasing 7 sc in each rnd, always having 1 more sc between increases. 42 sc in Rnd 6.", []int64{28, 35, 42}, true},
		{ball + "Rnds 4-6: Keep increasing 7 sc in each rnd, always having 1 more sc between increases. 49 sc in Rnd 6.", []int64{28, 35, 42}, false},
		{ball + "4th to 6th Rnds: Continue in this manner, having 1 sc more between the increases in each rnd, until there are 42 sc in the 6th Rnd.", []int64{28, 35, 42}, true},
		{ball + "4th to 6th Rnds: Continue in this manner, having 1 sc more between the increases in each rnd, until there are 43 sc in the 6th Rnd.", []int64{28, 35, 42}, false},
		{ball + "Rnds 4-6: increase 7 sts in every rnd, working one more sc between the increases each time, until there are 42 sts on Rnd 6.", []int64{28, 35, 42}, true},
		{bell + "Rnds 3-6: keep decreasing 5 sts evenly every round until 15 sts remain.", []int64{30, 25, 20, 15}, true},
		{bell + "Rnds 3-6: keep decreasing 6 sts evenly every round until 15 sts remain.", []int64{29, 23, 17, 11}, false},
		{bell + "Rnds 3-5: decrease in the same way each round: 30, 25, 20 sts", []int64{30, 25, 20}, true},
		{sail + "Rows 3-6: Keep on losing one stitch at the start of each row (21, 20, 19, 18)", []int64{21, 20, 19, 18}, true},
		{sail + "Rows 3-6: Keep decreasing 1 at each end of every row until 14 remain.", []int64{20, 18, 16, 14}, true},
		{sail + "Rows 3-6: Keep decreasing 1 at each end of every row until 12 remain.", []int64{20, 18, 16, 14}, false},
		{sail + "Rows 3-5: Decrease 1 stitch in the same place on every following row until 19 are left.", []int64{21, 20, 19}, true},
		{sail + "Rows 3-5: Repeat the decrease of Row 2 in each row. (20, 18, 16 sts)", []int64{20, 18, 16}, true},
		{sail + "Keep decreasing one stitch at each end until you have 16 left.", []int64{20, 18, 16}, true},

		{ball + "Rnd 4: As Rnd 3 but with 2 sc before each increase instead of 1. (28)", []int64{28}, true},
		{ball + "Rnd 4: As Rnd 3 but with 3 sc before each increase instead of 1. (28)", []int64{27}, false},
		{ball + "Rnd 4: Repeat Rnd 3 with one more sc before each increase (28).", []int64{28}, true},
		{ball + "Rnd 4: as Rnd 3, but between the increases always 2 sc instead of 1 (28)", []int64{28}, true},
		{ball + "Rnd 4: Same idea as Rnd 3, now with 2 sc between the increases. You should count 28.", []int64{28}, true},
		{ball + "Rnds 4-5: Rep Rnd 3, adding 1 more sc between incs on every rnd. (35)", []int64{28, 35}, true},
		{ball + "Rnds 4-5: Continue in this manner, having 1 more sc between incs on each rnd (35 sc).", []int64{28, 35}, true},
		{ball + "Rep the last rnd twice, working one more sc between the increases each time = 28 sc, then 35 sc.", []int64{28, 35}, true},
		{ball + "Rnd 4: sc around. (21)\nRnds 5-8: repeat the last two rnds twice, each time with one more sc before the inc. 28, 28, 35, 35 sts", []int64{21, 28, 28, 35, 35}, true},
		{bell + "Rnds 3-4: As Rnd 2, with one sc fewer between the decreases each time. (30, 25)", []int64{30, 25}, true},
		{bell + "Rnds 3-4: Repeat Rnd 2, but with 1 st less between the decreases on each round (25)", []int64{30, 25}, true},
		{sail + "Row 3: As Row 2, but with 18 sc in the middle (20).", []int64{20}, true},
		{sail + "Row 3: As Row 2, but with 17 sc in the middle (20).", []int64{20}, false},
		{sail + "Rows 3-5: As Row 2 but with 2 fewer sc in the middle each time, decreasing 2 sts in each row (16 sts).", []int64{20, 18, 16}, true},
		{"Ch 17.\nRow 1: Sc in 2nd ch from hook and each ch to end. 16\nRow 2: Ch 1, turn, sc in first 4 sts, *2 sc in next, sc in next 3; rep from * to end. 19\nRow 3: As Row 2, but with 7 sc at the start instead of 4. 22", []int64{22}, true},
		{"Ch 17.\nRow 1: Sc in 2nd ch from hook and each ch to end. 16\nRow 2: Ch 1, turn, sc in first 4 sts, *2 sc in next, sc in next 3; rep from * to end. 19\nRow 3: As Row 2, but begin with 7 sc. 22", []int64{22}, true},
	} {
		p := Read(tt.rows).Prove(Options{})
		var made []int64
		for _, rp := range p.Pieces[0].Rows {
			for range rp.Count() {
				made = append(made, rp.Made)
			}
			if rp.Status == Unread || rp.Status == Trusted {
				t.Errorf("%s is %v\n%s", rp.Label, rp.Status, tt.rows)
			}
		}
		sure := !slices.ContainsFunc(p.Findings, func(f Finding) bool { return f.Severity == Error })
		if got := made[len(made)-min(len(made), len(tt.made)):]; !slices.Equal(got, tt.made) && tt.sure || sure != tt.sure {
			t.Errorf("made %v, no error %v, want %v, %v\n%s", got, sure, tt.made, tt.sure, tt.rows)
		}
	}
}
