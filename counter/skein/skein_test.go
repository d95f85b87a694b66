package skein_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/skein"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/yarn"
)

// pier is ten rows of ten in navy and ten in white, twice.
const pier = `Pier

US terms

Plank (make 2)
With navy, ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Rows 2-10: Ch 1, turn, sc in each st across. (10 sc)
Row 11: Change to white, ch 1, turn, sc in each st across. (10 sc)
Rows 12-20: Ch 1, turn, sc in each st across. (10 sc)
Fasten off.
`

func planOf(text string) *counter.Plan {
	return counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))
}

func rows(n int) (all []counter.Event) {
	for range n {
		all = append(all, counter.Event{Kind: counter.Finish, N: counter.NotCounted})
	}
	return all
}

func weigh(colour string, grams float64) counter.Event {
	return counter.Event{Kind: counter.Weigh, Text: colour, N: int64(math.Round(grams * 1000))}
}

func begun(colour string, grams float64) counter.Event {
	e := weigh(colour, grams)
	e.Row = counter.AtFirst
	return e
}

func newBall(colour string, ball int, grams float64) counter.Event {
	e := weigh(colour, grams)
	e.Copy = ball
	return e
}

func worked(t testing.TB, plan *counter.Plan, events ...any) counter.State {
	t.Helper()
	s := counter.Begin(plan)
	do := func(e counter.Event) {
		next, err := s.Apply(e)
		if err != nil {
			t.Fatalf("%+v: %v", e, err)
		}
		s = next
	}
	for _, x := range events {
		switch x := x.(type) {
		case counter.Event:
			do(x)
		case []counter.Event:
			for _, e := range x {
				do(e)
			}
		}
	}
	return s
}

func account(s counter.State, r yarn.Rate) *skein.Account {
	var b skein.Book
	return b.Of(s, r)
}

var rough = yarn.Rate{MM: yarn.Range{Low: 30, Mid: 40, High: 50}, Grams: yarn.Range{Low: 0.01, Mid: 0.02, High: 0.03}, Rough: true}

// What is worked is counted in every copy, and to the stitch.
func TestStitches(t *testing.T) {
	s := worked(t, planOf(pier), rows(25), counter.Event{Kind: counter.Tap, N: 5})
	a := account(s, yarn.Rate{})
	if len(a.Yarns) != 2 || a.Yarns[0].Name != "navy" || a.Yarns[0].Stitches != 155 || a.Yarns[1].Stitches != 100 || a.Yarns[0].All != 200 || a.InHand != 0 {
		t.Fatalf("%+v", a)
	}
	// Copies taken up out of turn count as well.
	s = worked(t, planOf(pier), rows(3), counter.Event{Kind: counter.Jump, Copy: 1, Row: 12, N: 4})
	if a = account(s, yarn.Rate{}); a.Yarns[0].Stitches != 130 || a.Yarns[1].Stitches != 24 || a.InHand != 1 {
		t.Errorf("%+v", a)
	}
	if y := a.Yarns[0]; y.Basis != skein.Unknown || y.Used != (yarn.Range{}) || y.Left != nil {
		t.Errorf("nothing was weighed, and %+v", y)
	}
}

// The basis of each answer, from the least sure to the surest.
func TestBasis(t *testing.T) {
	swatch := rough
	swatch.Rough, swatch.N = false, 2
	for _, c := range []struct {
		name   string
		rate   yarn.Rate
		events []any
		want   [2]skein.Basis
	}{
		{"nothing", yarn.Rate{}, nil, [2]skein.Basis{}},
		{"one weighing", yarn.Rate{}, []any{rows(3), weigh("navy", 40)}, [2]skein.Basis{}},
		{"the gauge", rough, []any{rows(3), weigh("navy", 40)}, [2]skein.Basis{skein.RoughModel, skein.RoughModel}},
		{"a swatch", swatch, []any{rows(3), weigh("navy", 40)}, [2]skein.Basis{skein.BySwatch, skein.BySwatch}},
		{"two weighings", swatch, []any{rows(3), weigh("navy", 40), rows(3), weigh("navy", 37)}, [2]skein.Basis{skein.ByScale, skein.ByOthers}},
		{"the first weight", rough, []any{rows(3), weigh("navy", 40), begun("navy", 43)}, [2]skein.Basis{skein.ByScale, skein.ByOthers}},
		{"another ball between", rough, []any{rows(3), weigh("navy", 40), rows(3), newBall("navy", 1, 37)}, [2]skein.Basis{skein.RoughModel, skein.RoughModel}},
	} {
		a := account(worked(t, planOf(pier), c.events...), c.rate)
		if got := [2]skein.Basis{a.Yarns[0].Basis, a.Yarns[1].Basis}; got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// By hand: ten rows of navy of 10 stitches took 10 g, a gram a row but for the
// base chain and an end; ten more are to come.
func TestWillItLast(t *testing.T) {
	for _, c := range []struct {
		grams float64 // left after the tenth row
		want  yarn.Verdict
	}{{30, yarn.LastsEasily}, {13, yarn.Lasts}, {10, yarn.MayNotLast}, {8, yarn.DoesNotLast}} {
		s := worked(t, planOf(pier), begun("navy", c.grams+10), rows(10), weigh("navy", c.grams))
		y := account(s, rough).Yarns[0]
		if y.Basis != skein.ByScale || y.Left == nil || y.Left.Verdict != c.want {
			t.Errorf("%v g: %+v, %+v", c.grams, y, y.Left)
			continue
		}
		if math.Abs(y.Used.Mid-10) > 1e-9 || y.Rest.Mid < 10 || y.Rest.Mid > 11.5 || math.Abs(y.Left.Over.Mid-(c.grams-y.Rest.Mid)) > 1e-9 {
			t.Errorf("%v g: used %v, the rest takes %+v, over %+v", c.grams, y.Used, y.Rest, y.Left.Over)
		}
		// Worked on, it says the same: what is gone by now is known to be.
		on := worked(t, planOf(pier), begun("navy", c.grams+10), rows(10), weigh("navy", c.grams), rows(14), counter.Event{Kind: counter.Tap, N: 3})
		if z := account(on, rough).Yarns[0]; z.Left.Verdict != c.want || math.Abs(z.Left.Over.Mid-y.Left.Over.Mid) > 1e-9 || !(z.Left.Now.Mid < c.grams) {
			t.Errorf("%v g, some rows on: %+v", c.grams, z.Left)
		}
	}
}

// Ripping puts the yarn back on the ball, and changes nothing of whether it
// lasts.
func TestRipped(t *testing.T) {
	before := worked(t, planOf(pier), begun("navy", 30), rows(8), weigh("navy", 22))
	was := account(before, rough).Yarns[0]
	after := worked(t, planOf(pier), begun("navy", 30), rows(8), weigh("navy", 22), counter.Event{Kind: counter.Unravel, Row: 4})
	now := account(after, rough).Yarns[0]
	if !(now.Left.Now.Mid > 25 && now.Left.Now.Mid < 27) || now.Stitches != 40 || math.Abs(now.Left.Over.Mid-was.Left.Over.Mid) > 1e-9 || !(now.Used.Mid > 3 && now.Used.Mid < 5.5) {
		t.Errorf("ripped: %+v, %+v", now, now.Left)
	}
}

// A pattern that is changed on the way leaves the rate as it was: what was
// worked was worked. What the rest takes is by the new text.
func TestAnotherText(t *testing.T) {
	shorter := `Pier

US terms

Plank
With navy, ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Rows 2-10: Ch 1, turn, sc in each st across. (10 sc)
Row 11: Change to white, ch 1, turn, sc in each st across. (10 sc)
Rows 12-20: Ch 1, turn, sc in each st across. (10 sc)
Fasten off.
`
	rewrite := counter.Event{Kind: counter.Rewrite, Text: shorter}
	one := account(worked(t, planOf(pier), begun("navy", 30), rows(5), rewrite, rows(5), weigh("navy", 20)), rough).Yarns[0]
	two := account(worked(t, planOf(pier), begun("navy", 30), rows(10), weigh("navy", 20)), rough).Yarns[0]
	if one.Basis != skein.ByScale || math.Abs(one.Used.Mid-two.Used.Mid) > 1e-9 || one.Rest.Mid > 0.5 || one.Left.Verdict != yarn.LastsEasily || two.Rest.Mid < 10 {
		t.Errorf("with the shorter text %+v, %+v; with the longer %+v", one, one.Left, two)
	}
	// A row that is put in after a weighing does not count as worked then.
	longer := shorter + "\nTrim\nWith white, ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n"
	three := account(worked(t, planOf(shorter), begun("white", 30), rows(20), weigh("white", 20), counter.Event{Kind: counter.Rewrite, Text: longer}), rough).Yarns[1]
	if three.Stitches != 100 || three.All != 104 || math.Abs(three.Used.Mid-10) > 1e-9 || three.Rest.Mid <= 0 {
		t.Errorf("with a trim: %+v", three)
	}
}

// In a pattern of one yarn a weighing by any name is of that.
func TestOneYarn(t *testing.T) {
	plain := "Buoy\n\nUS terms\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRows 2-10: Ch 1, turn, sc in each st across. (10 sc)\n"
	a := account(worked(t, planOf(plain), rows(3), weigh("kelp", 40)), rough)
	if a.Yarns[0].Left == nil {
		t.Error("it is not told")
	}
	if a = account(worked(t, planOf(pier), rows(3), weigh("kelp", 40)), rough); a.Yarns[0].Left != nil || a.Yarns[1].Left != nil {
		t.Error("a yarn that is not in the pattern is told as another")
	}
	if a = account(counter.Begin(nil), rough); len(a.Yarns) != 1 || a.Yarns[0].Stitches != 0 {
		t.Errorf("without a pattern: %+v", a)
	}
}

// A text that was changed for a shorter one, and back, may leave less to come
// than was ripped since the ball was weighed: what is left over is a range in
// order all the same, and no less than there is.
func TestLessThanNothingToCome(t *testing.T) {
	const short = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across. (10 sc)\n"
	rewrite := func(text string) counter.Event { return counter.Event{Kind: counter.Rewrite, Text: text} }
	tap := func(n int64) counter.Event { return counter.Event{Kind: counter.Tap, N: n} }
	s := counter.Begin(planOf(pier))
	for _, e := range []counter.Event{
		{Kind: counter.Unravel}, {Kind: counter.Jump}, tap(1), tap(1), tap(1), tap(1), {Kind: counter.Jump}, tap(1), tap(1),
		weigh("navy", 0), {Kind: counter.Finish}, rewrite(short), tap(3), {Kind: counter.Unravel, N: 1}, rewrite(pier), tap(1), {Kind: counter.Finish}, rewrite(short),
	} {
		if next, err := s.Apply(e); err == nil {
			s = next
		}
	}
	l := account(s, rough).Yarns[0].Left
	if l == nil || !l.Known || l.Over.Low > l.Over.Mid || l.Over.Mid > l.Over.High || l.Over.Low < l.Grams {
		t.Errorf("left over: %+v", l)
	}
}

// Whatever is done, the account of the log alone is the same, what is used and
// what the rest takes are no less than nothing, and ranges are in order.
func TestAnyAccount(t *testing.T) {
	inOrder := func(r yarn.Range) bool { return r.Low <= r.Mid+1e-9 && r.Mid <= r.High+1e-9 }
	rapid.Check(t, func(t *rapid.T) {
		plan := planOf(pier)
		s := counter.Begin(plan)
		var log []counter.Event
		for range rapid.IntRange(0, 40).Draw(t, "events") {
			e := counter.Event{Kind: rapid.SampledFrom([]counter.Kind{counter.Tap, counter.Finish, counter.Finish, counter.Finish, counter.Back, counter.Redo, counter.Jump, counter.Unravel, counter.Weigh, counter.Weigh, counter.Rewrite}).Draw(t, "kind")}
			switch e.Kind {
			case counter.Tap:
				e.N = rapid.Int64Range(1, 12).Draw(t, "n")
			case counter.Jump, counter.Unravel:
				e.Copy, e.Row, e.N = rapid.IntRange(0, 1).Draw(t, "copy"), rapid.IntRange(0, 19).Draw(t, "row"), rapid.Int64Range(0, 9).Draw(t, "n")
			case counter.Weigh:
				e.Copy, e.Row = rapid.IntRange(0, 2).Draw(t, "ball"), rapid.IntRange(0, 1).Draw(t, "which")
				e.N, e.Text = rapid.Int64Range(0, 60).Draw(t, "g")*1000, rapid.SampledFrom([]string{"navy", "white", "kelp"}).Draw(t, "colour")
			case counter.Rewrite:
				e.Text = rapid.SampledFrom([]string{pier, "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across. (10 sc)\n"}).Draw(t, "text")
			}
			next, err := s.Apply(e)
			if err != nil {
				continue
			}
			s, log = next, append(log, e)
			a := account(s, rough)
			if a.InHand < 0 || a.InHand >= len(a.Yarns) {
				t.Fatalf("colour %d of %d is in hand", a.InHand, len(a.Yarns))
			}
			for _, y := range a.Yarns {
				if y.Stitches < 0 || y.Stitches > y.All || y.Used.Low < 0 || y.Rest.Low < 0 || !inOrder(y.Used) || !inOrder(y.Rest) || y.Basis == skein.Unknown {
					t.Fatalf("%+v", y)
				}
				if l := y.Left; l != nil && !(inOrder(l.Now) && inOrder(l.Over) && inOrder(l.Since) && l.Now.Low >= 0) {
					t.Fatalf("%+v", *l)
				}
			}
		}
		again, _ := counter.Replay(planOf(pier), log)
		if d := cmp.Diff(account(s, rough), account(again, rough)); d != "" {
			t.Fatal(d)
		}
	})
}
