package counter_test

import (
	"errors"
	"testing"

	"crochet/tallyturn/counter"
)

func TestTakes(t *testing.T) {
	s := apply(t, counter.Begin(read(limpet)), counter.Event{Kind: counter.Open})
	for _, k := range []counter.Kind{counter.EndTake, counter.Remark, counter.FromHere} {
		if _, err := s.Apply(counter.Event{Kind: k}); !errors.Is(err, counter.ErrNotRolling) {
			t.Errorf("%v without a take: %v", k, err)
		}
	}
	s = apply(t, s, counter.Event{Kind: counter.BeginTake})
	if _, err := s.Apply(counter.Event{Kind: counter.BeginTake}); !errors.Is(err, counter.ErrRolling) {
		t.Errorf("a take in a take: %v", err)
	}
	for _, ends := range []counter.Kind{counter.EndTake, counter.Close, counter.Open} {
		if e := apply(t, s, counter.Event{Kind: ends}); e.Rolling() || e.Takes() != 1 {
			t.Errorf("after %v: %d takes, rolling %v", ends, e.Takes(), e.Rolling())
		}
	}
	for _, bad := range []struct {
		event counter.Event
		err   error
	}{
		{counter.Event{Kind: counter.Camera, Row: 1, Text: "A2"}, counter.ErrNoTake},
		{counter.Event{Kind: counter.Timecode, Row: -1, Text: "01:00:00:00"}, counter.ErrNoTake},
		{counter.Event{Kind: counter.Clap, N: -1}, counter.ErrBadTime},
		{counter.Event{Kind: counter.Clap, N: counter.MaxClapAt + 1}, counter.ErrBadTime},
		{counter.Event{Kind: counter.Choose, Row: 99, Text: "full"}, counter.ErrNoSuchRow},
		{counter.Event{Kind: counter.SpeakAt, N: counter.MaxSpeakAt + 1}, counter.ErrBadRate},
	} {
		if _, err := s.Apply(bad.event); !errors.Is(err, bad.err) {
			t.Errorf("%+v: %v, want %v", bad.event, err, bad.err)
		}
	}
}

// Back takes back what was noted and said of the filming, and never a take.
func TestTakesStay(t *testing.T) {
	s := apply(t, counter.Begin(read(limpet)), counter.Event{Kind: counter.Open})
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 1})
	s = apply(t, s, counter.Event{Kind: counter.BeginTake})
	s = apply(t, s, counter.Event{Kind: counter.Remark, Text: "close-up"})
	s = apply(t, s, counter.Event{Kind: counter.EndTake})
	s = apply(t, s, counter.Event{Kind: counter.Back})
	if e, ok := s.Undone(); !ok || e.Kind != counter.Remark {
		t.Fatalf("took back %+v", e)
	}
	// Though the take is over, the mark goes back to where it was.
	again := apply(t, s, counter.Event{Kind: counter.Redo})
	if k, _ := again.Last(); k != counter.Remark {
		t.Errorf("did %v again", k)
	}
	s = apply(t, s, counter.Event{Kind: counter.Back})
	if s.Takes() != 1 || s.Stitch() != 0 {
		t.Errorf("%d takes, stitch %d", s.Takes(), s.Stitch())
	}
	// A change of the text that is taken back keeps a take begun since.
	s = apply(t, s, counter.Event{Kind: counter.Rewrite, Text: limpetMended})
	s = apply(t, s, counter.Event{Kind: counter.BeginTake})
	s = apply(t, s, counter.Event{Kind: counter.Back})
	if s.Takes() != 2 || !s.Rolling() {
		t.Errorf("%d takes, rolling %v", s.Takes(), s.Rolling())
	}
}

// Every kind there is has a name, and what Back takes back is work.
func TestWork(t *testing.T) {
	base := apply(t, counter.Begin(read(limpet+"\nFinishing\nSew.\n")), counter.Event{Kind: counter.Open})
	base = apply(t, base, counter.Event{Kind: counter.Tap, N: 3})
	base = apply(t, base, counter.Event{Kind: counter.BeginTake})
	for k := counter.Tap; k <= counter.Weigh; k++ {
		e := counter.Event{Kind: k, N: 1, Text: limpetMended}
		if k == counter.Tick {
			e.N = 0
		}
		next, err := base.Apply(e)
		if err != nil || k == counter.Back || k == counter.Redo {
			continue
		}
		last, _ := next.Last()
		if pushed := last == k && next.Dump() != base.Dump(); pushed != k.Work() {
			t.Errorf("%v: Back takes it back %v, Work %v", k, pushed, k.Work())
		}
	}
	if counter.Kind(99).Work() {
		t.Error("a kind that is not known is work")
	}
}

func TestCarrying(t *testing.T) {
	from, to := read(limpet), read(limpetMended)
	where := counter.Carrying(from, to)
	for row, want := range map[int]int{0: 0, 1: 1, 2: 3} { // a round was put in after the second
		if at, ok := where(0, 0, row); !ok || at.Row != want {
			t.Errorf("row %d is row %d, %v; want %d", row, at.Row, ok, want)
		}
	}
	if at, ok := where(0, 0, 99); ok {
		t.Errorf("row 99 is %+v", at)
	}
}
