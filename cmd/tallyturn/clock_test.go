package main

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// Whatever is done to the clock on the wall, in a run and between runs, the
// times of a log never run backwards, and a row has taken the time that was
// spent on it: none that the machine slept, none that a clock was set by.
func TestTimesOfRows(t *testing.T) {
	text := "Quay mat\n\nCh 100001.\nRow 1: Sc in 2nd ch from hook and in each ch across. (100000 sc)\n"
	plan := counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))
	rapid.Check(t, func(t *rapid.T) {
		wall, count := time.Date(2026, 10, 25, 0, 59, 0, 0, time.UTC), time.Duration(0)
		var log []counter.Event
		spent := time.Duration(0)
		for range rapid.IntRange(1, 4).Draw(t, "runs") {
			c := &runClock{
				wall:  func() time.Time { return wall },
				count: func() time.Duration { return count },
				since: count, began: wall,
			}
			state, _ := counter.Replay(plan, log)
			c.NotBefore(state.LastEvent())
			note := func(k counter.Kind) {
				e := counter.Event{Kind: k, At: c.Now().UnixMilli()}
				if k == counter.Tap {
					e.N = 1
				}
				log = append(log, e)
			}
			note(counter.Open)
			for range rapid.IntRange(0, 10).Draw(t, "taps") {
				work := time.Duration(rapid.IntRange(0, counter.IdleLimit).Draw(t, "work")) * time.Millisecond
				wall, count, spent = wall.Add(work), count+work, spent+work
				// The machine sleeps, or the clock is set, by less than can be
				// noticed or by much; the counting clock does not.
				wall = wall.Add(time.Duration(rapid.SampledFrom([]int64{
					0, 0, 0, 1, -1, 60, -60, 3600, -3600, 86400 * 365, -86400 * 365,
				}).Draw(t, "leap")) * time.Second)
				before := c.Now().UnixMilli()
				if c.Woke() { // as a walk does before each event
					log = append(log, counter.Event{Kind: counter.Close, At: before})
					note(counter.Open)
				}
				note(counter.Tap)
			}
			note(counter.Close)
			wall = wall.Add(time.Duration(rapid.Int64Range(-1e6, 1e6).Draw(t, "away")) * time.Second)
			count += time.Hour
		}
		for i := 1; i < len(log); i++ {
			if log[i].At < log[i-1].At {
				t.Fatalf("event %d is at %d, the one before at %d", i, log[i].At, log[i-1].At)
			}
		}
		state, refused := counter.Replay(plan, log)
		if got := time.Duration(state.RowMillis(state.LastEvent())) * time.Millisecond; got != spent || len(refused) > 0 {
			t.Fatalf("the row has taken %v of %v, %v refused", got, spent, refused)
		}
	})
}
