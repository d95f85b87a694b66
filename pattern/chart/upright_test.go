package chart

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
)

// The stitches of a first round about a chain stand upright along it, however
// many crowd round its end.
func TestUpright(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chains, end := rapid.IntRange(6, 24).Draw(t, "chains"), rapid.IntRange(3, 6).Draw(t, "end")
		name := rapid.SampledFrom([]string{"sc", "hdc"}).Draw(t, "stitch")
		text := fmt.Sprintf("Ch %d.\nRnd 1: 2 %[2]s in 2nd ch from hook, %[2]s in next %[3]d ch, %[4]d %[2]s in last ch; working on other side of ch, %[2]s in next %[3]d ch, %[2]s in same ch as first st. (%[5]d)\n",
			chains+1, name, chains-2, end, 2*(chains-2)+end+3)
		f, l, err := lay(prove(text), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if l.g.length == 0 {
			t.Fatalf("it does not go round the chain\n%s", text)
		}
		for i, m := range f.rows[0].v.made {
			if len(m.feet) != 1 || m.link.Kind != pattern.LinkStitch {
				continue
			}
			along := i >= 2 && i < chains || i >= chains+end && i < 2*chains+end-2
			foot, head := l.g.point(m.feet[0].t, m.feet[0].r), l.g.point(m.head.t, m.head.r)
			if lean := math.Abs(head.x - foot.x); along && lean > 0.6 {
				t.Fatalf("stitch %d leans by %.2f\n%s", i+1, lean, text)
			}
		}
	})
}

// A slip stitch that joins a round lies at the top of what the round begins
// with, and not adrift between its ends.
func TestJoinLiesByTheStart(t *testing.T) {
	star := "Ch 4, join with sl st in first ch to form ring.\nRnd 1: Ch 3 (counts as dc), 9 dc in ring, join with sl st in top of beg ch-3. (10 dc)\nRnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around, join with sl st in top of beg ch-3. (20 dc)\nRnd 3: Ch 1, sc in same st as join, skip next st, (2 dc, ch 2, 2 dc) in next st, skip next st, *sc in next st, skip next st, (2 dc, ch 2, 2 dc) in next st, skip next st; rep from * 3 more times, join with sl st in first sc. (5 sc, 20 dc, 5 ch-2 sps)\nRnd 4: Ch 1, sc in same st as join, sc in next 2 dc, 3 sc in next ch-2 sp, sc in next 2 dc, *sc in next sc, sc in next 2 dc, 3 sc in next ch-2 sp, sc in next 2 dc; rep from * 3 more times, join with sl st in first sc. (40 sc)\n"
	f, l, err := lay(prove(star), 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range f.rows {
		if len(r.v.join) != 1 {
			t.Fatalf("round %d has %d joins", i+1, len(r.v.join))
		}
		join := l.g.point(r.v.join[0].t, r.v.join[0].r)
		first := l.g.point(r.v.first.t, r.v.first.r)
		near := join.sub(first).length()
		if r.v.start != nil {
			top := l.g.point(r.v.start[1].t, r.v.start[1].r)
			near = math.Min(near, join.sub(top).length())
		}
		if near > 0.7 {
			t.Errorf("round %d is joined %.2f from its start", i+1, near)
		}
	}
}
