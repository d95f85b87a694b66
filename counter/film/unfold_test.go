package film_test

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/pattern"
)

const filmedMat = `Mat

Mat
Ch 9.
Row 1: Sc in 2nd ch from hook and in each ch across. (8)
Rows 2-60: Ch 1, turn, (sc in next st, hdc in next st) 4 times. (8)
`

// filmedEvent is one that comes next in a session that is filmed.
func filmedEvent(r *rand.Rand, s counter.State, text *string) counter.Event {
	at := s.At()
	want, _ := s.Expect()
	switch n := r.IntN(100); {
	case s.AtRowEnd() && n < 80:
		return counter.Event{Kind: counter.Finish, N: want - r.Int64N(2)}
	case n < 60:
		return counter.Event{Kind: counter.Tap, N: 1}
	case n < 70:
		return counter.Event{Kind: counter.Back}
	case n < 74:
		return counter.Event{Kind: counter.Redo}
	case n < 84:
		return counter.Event{Kind: []counter.Kind{counter.BeginTake, counter.EndTake, counter.BeginTake, counter.Close, counter.Open}[r.IntN(5)]}
	case n < 88:
		return counter.Event{Kind: counter.FromHere}
	case n < 91:
		return counter.Event{Kind: counter.Remark, Text: "look"}
	case n < 94:
		return counter.Event{Kind: counter.Unravel, Piece: at.Piece, Copy: at.Copy, Row: max(at.Row-r.IntN(3), 0), N: 1}
	case n < 97:
		return counter.Event{Kind: counter.Count, N: at.Stitch + 1}
	case n < 99:
		return counter.Event{Kind: counter.Camera, Row: 0, Text: "A001"}
	}
	*text += "\n"
	return counter.Event{Kind: counter.Rewrite, Text: *text}
}

// TestSessionGoesOn: a session asked for again and again, with anything done,
// taken back and done again in between, is that of the log from its beginning.
func TestSessionGoesOn(t *testing.T) {
	plan := counter.NewPlan(pattern.Read(filmedMat).Prove(pattern.Options{}))
	for seed := range uint64(7) {
		r := rand.New(rand.NewPCG(seed, 2))
		text := filmedMat
		recorder := film.NewRecorder(plan)
		state := counter.Begin(plan)
		var log []counter.Event
		for i := range 400 {
			e := filmedEvent(r, state, &text)
			if i > 150 && i < 200 && seed%3 == 0 {
				e = counter.Event{Kind: counter.Back} // further than is kept ready
			}
			e.At = int64(i+1) * 700
			next, err := state.Apply(e)
			if recorder.Add(e) != (err == nil) {
				t.Fatalf("seed %d: event %d, %+v, is taken by one of the two", seed, i, e)
			}
			if err != nil {
				continue
			}
			state, log = next, append(log, e)
			if r.IntN(4) > 0 {
				continue
			}
			got, want := recorder.Session(), film.Of(plan, log)
			for what, pair := range map[string][2]any{
				"takes": {got.Takes, want.Takes}, "tries": {got.Tries, want.Tries}, "marks": {got.Marks, want.Marks}, "rate": {got.SpeakAt, want.SpeakAt}, "alike": {got.Alike, want.Alike},
			} {
				if d := cmp.Diff(pair[1], pair[0]); d != "" {
					t.Fatalf("seed %d: after event %d, %+v, the %s are other than from the beginning:\n%s", seed, i, e, what, d)
				}
			}
		}
		if len(recorder.Session().Tries) < 3 {
			t.Errorf("seed %d: there is hardly anything in it", seed)
		}
	}
}

// BenchmarkSession is a session after each of the last events of a long day of
// filming, beside one from the beginning.
func BenchmarkSession(b *testing.B) {
	text := "Mat\n\nCh 101.\nRow 1: Sc in 2nd ch from hook and in each ch across. (100)\nRows 2-400: Ch 1, turn, (sc in next st, hdc in next st) 50 times. (100)\n"
	plan := counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))
	var log []counter.Event
	add := func(k counter.Kind, n int64) {
		log = append(log, counter.Event{Kind: k, N: n, At: int64(len(log)+1) * 1000})
	}
	add(counter.BeginTake, 0)
	for range 200 {
		for range 100 {
			add(counter.Tap, 1)
		}
		add(counter.Finish, 100)
	}
	recorder := film.NewRecorder(plan)
	for _, e := range log {
		recorder.Add(e)
	}
	b.Run("goes on", func(b *testing.B) {
		for b.Loop() {
			recorder.Session()
		}
	})
	b.Run("from the beginning", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			fresh := film.NewRecorder(plan)
			for _, e := range log {
				fresh.Add(e)
			}
			b.StartTimer()
			fresh.Session()
		}
	})
}
