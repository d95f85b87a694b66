package counter_test

import (
	"fmt"
	"testing"
	"time"

	"crochet/tallyturn/counter"
)

// longLog is a log of n events: taps of one stitch over rows of thirty, each
// row counted, with a slip taken back in most.
func longLog(n int) (*counter.Plan, []counter.Event) {
	pp := piece(1)
	addRows(pp, 30, n/30+1)
	log := make([]counter.Event, 0, n)
	at := int64(1_700_000_000_000)
	for i := range n {
		at += 2000
		e := counter.Event{Kind: counter.Tap, At: at, N: 1}
		switch i % 33 {
		case 20:
			e = counter.Event{Kind: counter.Back, At: at}
		case 32:
			e = counter.Event{Kind: counter.Finish, At: at, N: 30}
		}
		log = append(log, e)
	}
	return planOf(pp), log
}

// BenchmarkApply gives the cost of an event at the end of a log of a thousand
// and of a million; the ratio of the two is given with the second.
func BenchmarkApply(b *testing.B) {
	var short float64
	for _, n := range []int{1_000, 1_000_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			plan, log := longLog(n)
			const tail = 990
			s, refused := counter.Replay(plan, log[:n-tail])
			if refused != nil {
				b.Fatal(refused)
			}
			last := log[n-tail:]
			b.ReportAllocs()
			var spent time.Duration
			var done int
			for b.Loop() {
				now := s
				begin := time.Now()
				for i := range last {
					now, _ = now.Apply(last[i])
				}
				spent += time.Since(begin)
				done += len(last)
			}
			each := float64(spent.Nanoseconds()) / float64(done)
			b.ReportMetric(each, "ns/event")
			if n == 1_000 {
				short = each
			} else if short > 0 {
				b.ReportMetric(each/short, "times-short")
			}
		})
	}
}

// BenchmarkApplyLive gives the cost of the rarer events, each applied and taken
// back, at the end of a log of a thousand and of a million.
func BenchmarkApplyLive(b *testing.B) {
	for _, e := range []counter.Event{
		{Kind: counter.Redo}, {Kind: counter.Mark, N: 5}, {Kind: counter.Note, Text: "loose"}, {Kind: counter.Check, N: 4},
		{Kind: counter.Unravel}, {Kind: counter.Seek, N: 4}, {Kind: counter.SetStride, N: 3}, {Kind: counter.Carry, N: 29},
	} {
		for _, n := range []int{1_000, 1_000_000} {
			b.Run(fmt.Sprintf("%v/%d", e.Kind, n), func(b *testing.B) {
				plan, log := longLog(n)
				s, _ := counter.Replay(plan, log)
				at := s.LastEvent()
				e := e
				switch e.Kind {
				case counter.Mark, counter.Note, counter.Seek:
					e.Row = s.Row()
				case counter.Unravel:
					e.Row = s.Row() - 3
				case counter.Redo:
					s = apply(b, s, counter.Event{Kind: counter.Back, At: at})
				}
				if s.Stitch() == 0 {
					s = apply(b, s, counter.Event{Kind: counter.Tap, N: 5, At: at})
					if e.Kind == counter.Redo {
						s = apply(b, s, counter.Event{Kind: counter.Back, At: at})
					}
				}
				e.At = at
				b.ReportAllocs()
				for b.Loop() {
					next, err := s.Apply(e)
					if err != nil {
						b.Fatal(err)
					}
					if e.Kind != counter.SetStride {
						next.Apply(counter.Event{Kind: counter.Back, At: at})
					}
				}
			})
		}
	}
}

// BenchmarkReplay rebuilds the state from a log of a million taps.
func BenchmarkReplay(b *testing.B) {
	plan, log := longLog(1_000_000)
	b.ReportAllocs()
	for b.Loop() {
		counter.Replay(plan, log)
	}
}

// BenchmarkDecode reads a million encoded events.
func BenchmarkDecode(b *testing.B) {
	_, log := longLog(1_000_000)
	var data []byte
	var ends []int
	for _, e := range log {
		data, _ = e.AppendBinary(data)
		ends = append(ends, len(data))
	}
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		start := 0
		for _, end := range ends {
			var e counter.Event
			if err := e.UnmarshalBinary(data[start:end]); err != nil {
				b.Fatal(err)
			}
			start = end
		}
	}
}
