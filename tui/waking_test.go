package tui

import (
	"testing"
	"time"

	"crochet/tallyturn/counter"
)

// A machine that slept is a run that ended and another that began.
func TestWake(t *testing.T) {
	b := harbourCrab()
	clock, journal, woke := noon, &shelf{}, false
	w := NewWalk(WalkConfig{
		ID: "x", State: counter.Begin(counter.NewPlan(b.proof)), Journal: journal, Now: func() time.Time { return clock },
		Woke: func() bool {
			if !woke {
				return false
			}
			woke, clock = false, clock.Add(8*time.Hour)
			return true
		},
	})
	w.open()
	w.tap()
	clock = clock.Add(time.Minute)
	woke = true
	w.tap()
	clock = clock.Add(time.Minute)
	w.tap()
	ms := noon.UnixMilli()
	const minute, sleep = 60_000, 8 * 3_600_000
	want := []counter.Event{
		{Kind: counter.Open, At: ms}, {Kind: counter.Tap, At: ms, N: 1},
		{Kind: counter.Close, At: ms + minute}, {Kind: counter.Open, At: ms + minute + sleep},
		{Kind: counter.Tap, At: ms + minute + sleep, N: 1}, {Kind: counter.Tap, At: ms + 2*minute + sleep, N: 1},
	}
	if len(journal.events) != len(want) {
		t.Fatalf("events %+v", journal.events)
	}
	for i, e := range journal.events {
		if e != want[i] {
			t.Errorf("event %d is %+v, want %+v", i, e, want[i])
		}
	}
	if got := w.state.RowMillis(ms + 2*minute + sleep); got != 2*minute {
		t.Errorf("the row has taken %d ms", got)
	}
}
