package counter_test

import (
	"errors"
	"slices"
	"testing"

	"crochet/tallyturn/counter"
)

func TestWeighing(t *testing.T) {
	s := walk(t, read(pairOf), "tap3")
	first := counter.Event{Kind: counter.Weigh, N: 50_000, Text: "navy", Row: counter.AtFirst}
	s = apply(t, s, first, counter.Event{Kind: counter.Weigh, N: 48_200, Text: "navy"})
	s = apply(t, s, counter.Event{Kind: counter.Jump, Piece: 1, Copy: 1, Row: 1, N: 4}, counter.Event{Kind: counter.Weigh, N: 40_000, Copy: 1, Text: "navy"})
	all := s.Weighings()
	if len(all) != 3 || !all[0].AtFirst || all[1].AtFirst || all[1].Milligrams != 48_200 || all[2].Ball != 1 || all[2].Colour != "navy" {
		t.Fatalf("weighed %+v", all)
	}
	want := []counter.Place{{Stitch: 3}, {Piece: 1, Copy: 1, Row: 1, Stitch: 4}}
	if got := slices.Collect(all[1].Where.Places()); !slices.Equal(got, want[:1]) {
		t.Errorf("at the second the work stood at %+v", got)
	}
	if got := slices.Collect(all[2].Where.Places()); !slices.Equal(got, want) {
		t.Errorf("at the third the work stood at %+v", got)
	}
	// What comes after does not change where it was; ripping leaves it be.
	s = apply(t, s, counter.Event{Kind: counter.Unravel, Piece: 1, Copy: 1}, counter.Event{Kind: counter.Tap, N: 6})
	if got := slices.Collect(s.Weighings()[2].Where.Places()); !slices.Equal(got, want) {
		t.Errorf("by then the third stood at %+v", got)
	}
	// It is taken back as anything is, and done again where the hook is then.
	s = apply(t, s, script(t, "back back back")...)
	if n := len(s.Weighings()); n != 2 {
		t.Errorf("%d weighings after taking one back", n)
	}
	s = apply(t, s, counter.Event{Kind: counter.Redo})
	if n := len(s.Weighings()); n != 3 {
		t.Errorf("%d weighings after doing it again", n)
	}
}

func TestWeighingThatCannotBe(t *testing.T) {
	s := walk(t, read(pairOf), "tap3")
	for _, c := range []struct {
		event counter.Event
		want  error
	}{
		{counter.Event{N: -1}, counter.ErrBadWeight},
		{counter.Event{N: counter.MaxMilligrams + 1}, counter.ErrBadWeight},
		{counter.Event{N: 1, Row: 2}, counter.ErrBadWeight},
		{counter.Event{N: 1, Row: -1}, counter.ErrBadWeight},
		{counter.Event{N: 1, Copy: 1, Row: counter.AtFirst}, counter.ErrBadWeight},
		{counter.Event{N: 1, Copy: -1}, counter.ErrNoBall},
		{counter.Event{N: 1, Copy: 1}, counter.ErrNoBall},
		{counter.Event{N: 0}, nil},
		{counter.Event{N: counter.MaxMilligrams}, nil},
	} {
		c.event.Kind = counter.Weigh
		if _, err := s.Apply(c.event); !errors.Is(err, c.want) {
			t.Errorf("%+v: %v, want %v", c.event, err, c.want)
		}
	}
	s = apply(t, s, counter.Event{Kind: counter.Weigh, N: 1}, counter.Event{Kind: counter.Weigh, Copy: 1, N: 1})
	if _, err := s.Apply(counter.Event{Kind: counter.Weigh, Copy: 3, N: 1}); !errors.Is(err, counter.ErrNoBall) {
		t.Errorf("the fourth ball after the second: %v", err)
	}
	// Once everything is worked the rest is still weighed.
	s = apply(t, counter.Begin(read("Limpet\n\nUS terms\n\nRnd 1: 6 sc in magic ring. (6)\n")), script(t, "finish")...)
	s = apply(t, s, counter.Event{Kind: counter.Weigh, N: 2000})
	if got := slices.Collect(s.Weighings()[0].Where.Places()); !slices.Equal(got, []counter.Place{{Row: 1}}) {
		t.Errorf("at the end the work stood at %+v", got)
	}
}

// A change of the pattern stands among the weighings, with where the work
// stood in either text; without weighings there is nothing to tell apart.
func TestWeighingAndAnotherText(t *testing.T) {
	s := walk(t, read(limpet), "finish finish finish")
	rewrite := counter.Event{Kind: counter.Rewrite, Text: limpetMended}
	if n := len(apply(t, s, rewrite).Weighings()); n != 0 {
		t.Errorf("%d weighings", n)
	}
	s = apply(t, s, counter.Event{Kind: counter.Weigh, N: 9000}, rewrite, counter.Event{Kind: counter.Weigh, N: 8000})
	all := s.Weighings()
	if len(all) != 3 || all[0].Now != nil || all[1].Now == nil || all[2].Now != nil {
		t.Fatalf("weighed %+v", all)
	}
	if was, now := all[1].Where, *all[1].Now; was.At().Row != 3 || now.At().Row != 4 || was.Plan() == now.Plan() || now.Plan() != s.Plan() || all[2].Where.Plan() != s.Plan() {
		t.Errorf("from %+v to %+v", was.At(), now.At())
	}
	s = apply(t, s, script(t, "back back")...)
	if all := s.Weighings(); len(all) != 1 || all[0].Milligrams != 9000 || s.Plan().Text() == limpetMended {
		t.Errorf("taken back: %+v", all)
	}
}
