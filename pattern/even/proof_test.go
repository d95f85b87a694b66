package even_test

import (
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/even"
	"crochet/tallyturn/pattern/stitch"
)

func TestEverySpreadProves(t *testing.T) {
	ids := []stitch.ID{stitch.SC, stitch.HDC, stitch.DC, stitch.TR, stitch.FPDC}
	rapid.Check(t, func(t *rapid.T) {
		over := rapid.Int64Range(1, 120).Draw(t, "over")
		into := rapid.Int64Range(1, 120).Draw(t, "into")
		s, err := even.Of(over, into, even.Ends(rapid.IntRange(0, 2).Draw(t, "ends")))
		if err != nil {
			t.Skip(err)
		}
		id := rapid.SampledFrom(ids).Draw(t, "stitch")
		terms := rapid.SampledFrom([]stitch.Terms{stitch.US, stitch.UK}).Draw(t, "terms")
		proof := pattern.Read(s.Trial(id, terms)).Prove(pattern.Options{})
		if sum := proof.Summary(); sum.Rows != 2 || sum.Agrees != 2 || len(proof.Findings) > 0 {
			t.Fatalf("%+v: %v\n%s", sum, proof.Findings, s.Trial(id, terms))
		}
		row := proof.Pieces[0].Rows[1]
		if row.Available != s.Over || row.Taken != s.Over || row.Left != 0 || row.Made != s.Into {
			t.Fatalf("%d of %d taken, %d made, want all of %d and %d\n%s", row.Taken, row.Available, row.Made, s.Over, s.Into, s.Trial(id, terms))
		}
	})
}
