package film_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
)

// drawLog draws any log: what cannot be is passed over by whoever reads it.
func drawLog(t *rapid.T, most int) (log []counter.Event) {
	at := rapid.Int64Range(0, 1000).Draw(t, "begin")
	log = append(log, counter.Event{Kind: counter.Open, At: at})
	kinds := []counter.Kind{counter.Tap, counter.Tap, counter.Tap, counter.Finish, counter.Finish, counter.BeginTake, counter.BeginTake}
	for k := counter.Tap; k <= counter.Weigh; k++ {
		kinds = append(kinds, k)
	}
	for range rapid.IntRange(0, most).Draw(t, "events") {
		at += rapid.OneOf(rapid.Int64Range(0, 30_000), rapid.Int64Range(-1000, 1)).Draw(t, "pass")
		e := counter.Event{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), At: at}
		e.Copy, e.Row, e.N = rapid.IntRange(0, 1).Draw(t, "copy"), rapid.IntRange(0, 5).Draw(t, "row"), rapid.Int64Range(-1, 7).Draw(t, "n")
		switch e.Kind {
		case counter.Tap:
			e = counter.Event{Kind: counter.Tap, At: at, N: rapid.Int64Range(1, 7).Draw(t, "stitches")}
		case counter.Rewrite, counter.Keep:
			e.Text = rapid.SampledFrom([]string{mussel, musselMended}).Draw(t, "text")
		case counter.Camera, counter.Timecode, counter.Remark, counter.Note:
			e.Text = rapid.SampledFrom([]string{"", "A001", "\xff<b>"}).Draw(t, "text")
		case counter.Choose, counter.Alike:
			e.Text = rapid.SampledFrom([]string{"", "full", "slow", "speed", "within", "cut", "out", "?"}).Draw(t, "way")
			e.N = rapid.OneOf(rapid.Int64Range(-1, 12), rapid.Int64Range(0, 20_000), rapid.Int64()).Draw(t, "number")
		}
		log = append(log, e)
	}
	return log
}

// For any log and any plan, the cuts are in order, do not overlap, cover the
// film, and lead back to the footage; so do those of all the footage.
func TestAnyFilm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawLog(t, 60)
		s := film.Of(plan(mussel), log)
		f := s.Fit(lines(rapid.Int64Range(0, 40_000).Draw(t, "one"), rapid.Int64Range(0, 9000).Draw(t, "two"), rapid.Int64Range(0, 9000).Draw(t, "rest")))
		planned, err := f.Film()
		if err != nil && err != film.ErrNothingFilmed {
			t.Fatal(err)
		}
		sound(t, s, planned)
		if planned.Length() != f.Length {
			t.Fatalf("the film is %d ms, and said to be %d", planned.Length(), f.Length)
		}
		var parts int64
		for _, p := range f.Parts {
			parts += p.Film
		}
		if parts != f.Length {
			t.Fatalf("the parts are %d ms of %d", parts, f.Length)
		}
		for _, c := range planned.Cuts {
			if !slices.ContainsFunc(s.Tries, func(x film.Try) bool {
				return x.Take == c.Take && x.From <= c.From && c.To <= x.To && x.Unused == film.Used
			}) {
				t.Fatalf("%+v is of no try that is used", c)
			}
		}
		all, err := f.Footage()
		if err != nil && err != film.ErrNothingFilmed {
			t.Fatal(err)
		}
		sound(t, s, all)
		var length int64
		for _, x := range s.Takes {
			length += x.Length
		}
		if all.Length() != length {
			t.Fatalf("the footage is %d ms, the takes are %d", all.Length(), length)
		}
	})
}

// sound checks an edit list, and each moment of it against the takes.
func sound(t *rapid.T, s *film.Session, l film.EditList) {
	if err := l.Check(); err != nil {
		t.Fatal(err)
	}
	var end int64
	for i, c := range l.Cuts {
		if c.FilmFrom != end || c.FilmTo <= c.FilmFrom || c.From < 0 || c.To > s.Takes[c.Take-1].Length {
			t.Fatalf("cut %d: %+v", i, c)
		}
		end = c.FilmTo
		at := rapid.Int64Range(c.FilmFrom, c.FilmTo).Draw(t, "moment")
		there := c.Source(at)
		step := max(c.Speed/film.AsFilmed, film.AsFilmed/c.Speed, 1) + 1
		if there < c.From || there > c.To || max(c.Film(there)-at, at-c.Film(there)) > step {
			t.Fatalf("%d ms of the film is %d ms of the source, which is %d ms of the film: %+v", at, there, c.Film(there), c)
		}
	}
}

// The tries of a take fill it, in order; and the time of takes is what the
// clock said, whatever was taken back.
func TestTriesFillTakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := film.Of(plan(mussel), drawLog(t, 60))
		at := map[int]int64{}
		for i, x := range s.Tries {
			if x.From != at[x.Take] || x.To <= x.From {
				t.Fatalf("try %d of take %d begins at %d, the one before ends at %d", i, x.Take, x.From, at[x.Take])
			}
			at[x.Take] = x.To
		}
		for _, x := range s.Takes {
			if x.Length != at[x.Number] {
				t.Fatalf("take %d: %d ms of %d", x.Number, at[x.Number], x.Length)
			}
		}
		last := map[int]int64{}
		for _, m := range s.Marks {
			if m.At < last[m.Take] || m.At > s.Takes[m.Take-1].Length {
				t.Fatalf("a mark out of its place: %+v", m)
			}
			last[m.Take] = m.At
		}
	})
}

// What is taken back is as if it had never been, and what is done again as if
// it had never been taken back.
func TestTakenBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var log []counter.Event
		state := counter.Begin(plan(mussel))
		depth := 0
		for _, e := range drawLog(t, 40) {
			if next, err := state.Apply(e); err == nil && e.Kind != counter.Back && e.Kind != counter.Redo {
				state, log = next, append(log, e)
				if e.Kind.Work() {
					depth++
				}
			}
		}
		n := rapid.IntRange(0, depth).Draw(t, "back")
		last := log[len(log)-1].At
		then := slices.Clone(log)
		for range n {
			then = append(then, counter.Event{Kind: counter.Back, At: last})
		}
		for range n {
			then = append(then, counter.Event{Kind: counter.Redo, At: last})
		}
		if d := cmp.Diff(told(film.Of(plan(mussel), log)), told(film.Of(plan(mussel), then))); d != "" {
			t.Fatal(d)
		}
	})
}

// A log that is read on from the middle gives what it gives at once.
func TestRecorderGoesOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawLog(t, 40)
		r := film.NewRecorder(plan(mussel))
		for _, e := range log {
			r.Add(e)
			if rapid.IntRange(0, 5).Draw(t, "look") == 0 {
				r.Session()
			}
		}
		if d := cmp.Diff(told(film.Of(plan(mussel), log)), told(r.Session())); d != "" {
			t.Fatal(d)
		}
	})
}
