package counter_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
)

func apply(t testing.TB, s counter.State, events ...counter.Event) counter.State {
	t.Helper()
	for i, e := range events {
		next, err := s.Apply(e)
		if err != nil {
			t.Fatalf("event %d, %+v: %v", i, e, err)
		}
		s = next
	}
	return s
}

// script reads events written as words: "tap", "tap3", "back", "finish",
// "finish12", "count4", "pause", "resume", "open", "close",
// "jump:piece,copy,row,stitch"; "+90s" lets time pass.
func script(t testing.TB, text string) []counter.Event {
	t.Helper()
	at := int64(1_700_000_000_000)
	var events []counter.Event
	for word := range strings.FieldsSeq(text) {
		e := counter.Event{At: at}
		name := strings.TrimRight(word, "0123456789")
		number, numberErr := strconv.ParseInt(word[len(name):], 10, 64)
		switch {
		case word[0] == '+' || word[0] == '-':
			s, err := strconv.ParseInt(strings.TrimSuffix(word, "s"), 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			at += s * 1000
			continue
		case strings.HasPrefix(word, "jump:"):
			e.Kind = counter.Jump
			if _, err := fmt.Sscanf(word, "jump:%d,%d,%d,%d", &e.Piece, &e.Copy, &e.Row, &e.N); err != nil {
				t.Fatal(err)
			}
		case name == "tap":
			e.Kind, e.N = counter.Tap, 1
		case name == "finish":
			e.Kind, e.N = counter.Finish, counter.NotCounted
		default:
			kinds := []counter.Kind{counter.Back, counter.Count, counter.Pause, counter.Resume, counter.Open, counter.Close}
			i := slices.IndexFunc(kinds, func(k counter.Kind) bool { return k.String() == name })
			if i < 0 {
				t.Fatalf("no such word: %s", word)
			}
			e.Kind = kinds[i]
		}
		if numberErr == nil && e.Kind != counter.Jump {
			e.N = number
		}
		events = append(events, e)
	}
	return events
}

func walk(t testing.TB, plan *counter.Plan, text string) counter.State {
	t.Helper()
	return apply(t, counter.Begin(plan), script(t, text)...)
}

func TestPlace(t *testing.T) {
	tests := []struct {
		script string
		want   counter.Place
		full   bool
		extra  int64
	}{
		{"", counter.Place{}, false, 0},
		{"tap tap3", counter.Place{Stitch: 4}, false, 0},
		{"tap6", counter.Place{Stitch: 6}, true, 0},
		{"tap6 tap tap", counter.Place{Stitch: 8}, true, 2},
		{"tap6 tap back", counter.Place{Stitch: 6}, true, 0},
		{"tap6 finish", counter.Place{Row: 1}, false, 0},
		{"tap2 finish", counter.Place{Row: 1}, false, 0},
		{"tap4 count5", counter.Place{Stitch: 5}, false, 0},
		{"tap4 count2 back", counter.Place{Stitch: 4}, false, 0},
		{"tap4 count4 back back", counter.Place{}, false, 0},
		// Back takes back a stride whole, and one of several alike.
		{"tap3 tap3 back", counter.Place{Stitch: 3}, false, 0},
		{"tap3 tap2 back back", counter.Place{}, false, 0},
		{"tap6 finish back", counter.Place{Stitch: 6}, true, 0},
		{"tap6 finish tap2 tap2 back back back back", counter.Place{}, false, 0},
		{"tap6 finish jump:1,1,0,3 back", counter.Place{Row: 1}, false, 0},
		{"tap pause resume open close back", counter.Place{}, false, 0},
		// From piece to piece, from copy to copy.
		{"finish finish finish", counter.Place{Piece: 1}, false, 0},
		{"finish finish finish finish finish", counter.Place{Piece: 1, Copy: 1}, false, 0},
		{"jump:1,0,1,0 tap tap", counter.Place{Piece: 1, Row: 1, Stitch: 2}, false, 0},
		{"jump:1,0,1,0 tap finish", counter.Place{Piece: 1, Copy: 1}, false, 0},
		{"jump:1,0,1,0 tap finish back", counter.Place{Piece: 1, Row: 1, Stitch: 1}, false, 0},
		// A copy is found again where it was left.
		{"tap6 finish tap5 jump:1,1,0,0 finish finish", counter.Place{Row: 1, Stitch: 5}, false, 0},
		{"jump:1,0,0,2 jump:0,0,2,0 finish", counter.Place{Piece: 1, Stitch: 2}, false, 0},
		// Copies that are worked to the end are passed over.
		{"jump:1,0,1,0 finish jump:0,0,2,0 finish", counter.Place{Piece: 1, Copy: 1}, false, 0},
		{"jump:1,1,1,0 finish finish finish finish finish finish", counter.Place{Piece: 1, Row: 2}, false, 0},
	}
	for _, test := range tests {
		s := walk(t, urchin(), test.script)
		if s.At() != test.want {
			t.Errorf("%s: at %+v, want %+v", test.script, s.At(), test.want)
		}
		if s.AtRowEnd() != test.full || s.Extra() != test.extra {
			t.Errorf("%s: row end %v, extra %d; want %v, %d", test.script, s.AtRowEnd(), s.Extra(), test.full, test.extra)
		}
	}
}

func TestFinished(t *testing.T) {
	s := walk(t, urchin(), "tap finish finish finish finish finish finish finish")
	if !s.Finished() || s.AtRowEnd() {
		t.Errorf("finished %v, at row end %v", s.Finished(), s.AtRowEnd())
	}
	if done, total := s.Stitches(); done != 44 || total != 44 {
		t.Errorf("%d of %d stitches", done, total)
	}
	if done, total := s.Rows(); done != 7 || total != 7 {
		t.Errorf("%d of %d rows", done, total)
	}
	for _, k := range []counter.Kind{counter.Tap, counter.Count, counter.Finish} {
		if _, err := s.Apply(counter.Event{Kind: k, N: 1}); !errors.Is(err, counter.ErrAllWorked) {
			t.Errorf("%v: %v", k, err)
		}
	}
	s = apply(t, s, script(t, "back")...)
	if want := (counter.Place{Piece: 1, Copy: 1, Row: 1}); s.At() != want || s.Finished() {
		t.Errorf("back to %+v", s.At())
	}
}

func TestHere(t *testing.T) {
	s := walk(t, urchin(), "tap3")
	h := s.Here()
	if h.Step == nil || h.Nth != 2 || len(h.Passes) != 1 || h.Passes[0].N != 2 || h.Passes[0].Of != 3 {
		t.Errorf("%+v", h)
	}
	if left, ok := s.Left(); left != 3 || !ok {
		t.Errorf("left %d, %v", left, ok)
	}
	if h := walk(t, urchin(), "tap7").Here(); h.Step != nil {
		t.Errorf("an instruction past the end: %+v", h)
	}
	s = walk(t, urchin(), "jump:1,0,1,0 tap9")
	if _, ok := s.Expect(); ok || s.AtRowEnd() || s.Extra() != 0 || s.Here().Step != nil {
		t.Error("something is known of an unknown row")
	}
}

func TestMismatch(t *testing.T) {
	tests := []struct {
		script string
		want   string // expected/counted of all rows that differ; the last marked by *
	}{
		{"tap6 finish6", ""},
		{"tap6 finish", ""},
		{"finish", ""},
		{"tap4 finish", ""},
		{"tap6 finish7", "*6/7"},
		{"finish5 finish13", "6/5 *12/13"},
		{"finish5 finish12", "*6/5"},
		{"finish5 finish13 back", "*6/5"},
		{"finish5 back", ""},
		{"tap8 finish", "*6/8t"},
		{"tap8 finish6", ""},
		// Put right, and put right no longer.
		{"finish5 jump:0,0,0,0 finish6", ""},
		{"finish5 jump:0,0,0,0 finish6 back", "*6/5"},
		{"jump:1,0,1,0 tap3 finish99", ""},
	}
	for _, test := range tests {
		s := walk(t, urchin(), test.script)
		last, ok := s.Mismatch()
		var got []string
		for m := range s.Mismatches() {
			word := fmt.Sprintf("%d/%d", m.Expected, m.Counted)
			if m.Tapped {
				word += "t"
			}
			if ok && m == last {
				word = "*" + word
			}
			got = append(got, word)
		}
		if strings.Join(got, " ") != test.want {
			t.Errorf("%s: %v, want %q", test.script, got, test.want)
		}
	}
}

func TestActiveTime(t *testing.T) {
	tests := []struct {
		script string
		want   string // seconds of the rows that have any
	}{
		{"open +10s tap +20s tap", "1:30"},
		{"open +10s tap +20s finish6 +5s tap", "1:30 2:5"},
		{"+10s tap +20s tap", "1:20"}, // time runs from the first event
		{"open +10s pause +100s resume +5s tap", "1:15"},
		{"open +10s pause +100s tap +5s tap", "1:15"},
		{"open +10s tap pause +100s back +10s tap", "1:10"},
		{"open +10s close +50s open +7s tap", "1:17"},
		{"open +10s tap +50s open +7s tap", "1:17"}, // the program was killed
		{"open +300s tap +301s tap +1s tap", "1:301"},
		{"open +10s tap -3600s tap +5s tap", "1:15"},
		// Whoever taps by the row keeps the time of a long one.
		{"open jump:0,0,2,0 +270s finish", "3:270"},
		{"open jump:0,0,2,0 +271s finish", "3:271"},
		{"open jump:0,0,2,0 +301s finish", ""},
		{"open tap +450s tap30", "1:450"},
		{"open tap +451s tap30", ""},
		{"open tap +14400s tap100000", "1:14400"},
		{"open tap +14401s tap100000", ""},
		// Time stays where it was spent, whatever is taken back.
		{"open +10s finish +20s tap back +1s back +5s tap", "1:15 2:21"},
		{"open +10s finish +20s back +5s finish +1s tap", "1:15 2:21"},
		{"open +10s jump:1,1,0,0 +20s jump:0,0,0,0 +5s jump:1,1,0,0 +1s tap", "1:15 1:21"},
		{"open jump:1,0,1,0 finish jump:1,1,1,0 finish finish finish finish +60s back", ""},
	}
	for _, test := range tests {
		s := walk(t, urchin(), test.script)
		var got []string
		var sum int64
		for r := range s.Records() {
			sum += r.Millis
			if r.Millis > 0 {
				got = append(got, fmt.Sprintf("%d:%d", r.Number, r.Millis/1000))
			}
		}
		if strings.Join(got, " ") != test.want {
			t.Errorf("%s: %v, want %s", test.script, got, test.want)
		}
		if s.Millis(s.LastEvent()) != sum {
			t.Errorf("%s: %d ms in all, rows have %d", test.script, s.Millis(s.LastEvent()), sum)
		}
	}
}

func TestLiveTime(t *testing.T) {
	s := walk(t, urchin(), "open +10s tap")
	now := s.LastEvent()
	for _, test := range []struct {
		after, want int64
		idle        bool
	}{
		{0, 10_000, false},
		{1, 10_001, false},
		{-5000, 10_000, false},
		{counter.IdleLimit, 10_000 + counter.IdleLimit, false},
		{counter.IdleLimit + 1, 10_000, true},
		{math.MaxInt64 - now, 10_000, true},
		{math.MinInt64, 10_000, false},
	} {
		if got := s.RowMillis(now + test.after); got != test.want {
			t.Errorf("after %d ms: %d, want %d", test.after, got, test.want)
		}
		if got := s.Idle(now + test.after); got != test.idle {
			t.Errorf("after %d ms: idle %v", test.after, got)
		}
	}
	if got := walk(t, urchin(), "open +10s pause").RowMillis(now + 5000); got != 10_000 {
		t.Errorf("paused: %d ms", got)
	}
}

func TestRefused(t *testing.T) {
	start := walk(t, urchin(), "open tap")
	tests := []struct {
		event counter.Event
		want  error
	}{
		{counter.Event{Kind: counter.Tap}, counter.ErrBadCount},
		{counter.Event{Kind: counter.Tap, N: -1}, counter.ErrBadCount},
		{counter.Event{Kind: counter.Tap, N: counter.MaxStitches}, counter.ErrTooMany},
		{counter.Event{Kind: counter.Tap, N: math.MaxInt64}, counter.ErrTooMany},
		{counter.Event{Kind: counter.Count, N: -1}, counter.ErrBadCount},
		{counter.Event{Kind: counter.Count, N: math.MaxInt64}, counter.ErrTooMany},
		{counter.Event{Kind: counter.Finish, N: -2}, counter.ErrBadCount},
		{counter.Event{Kind: counter.Finish, N: math.MinInt64}, counter.ErrBadCount},
		{counter.Event{Kind: counter.Jump, Piece: 2}, counter.ErrNoSuchRow},
		{counter.Event{Kind: counter.Jump, Piece: 1, Copy: 2}, counter.ErrNoSuchRow},
		{counter.Event{Kind: counter.Jump, Row: 3}, counter.ErrNoSuchRow},
		{counter.Event{Kind: counter.Jump, Row: -1}, counter.ErrNoSuchRow},
		{counter.Event{Kind: counter.Jump, N: -1}, counter.ErrBadCount},
		{counter.Event{Kind: 0}, counter.ErrUnknownKind},
		{counter.Event{Kind: 200}, counter.ErrUnknownKind},
	}
	for _, test := range tests {
		test.event.At = start.LastEvent() + 1000
		s, err := start.Apply(test.event)
		if !errors.Is(err, test.want) {
			t.Errorf("%+v: %v, want %v", test.event, err, test.want)
		}
		if s != start {
			t.Errorf("%+v: refused, but changed the state", test.event)
		}
	}
	s := apply(t, start, counter.Event{Kind: counter.Back})
	if _, err := s.Apply(counter.Event{Kind: counter.Back}); !errors.Is(err, counter.ErrNothingBack) {
		t.Errorf("back at the beginning: %v", err)
	}
}

func TestLast(t *testing.T) {
	for text, want := range map[string]string{
		"open pause":          "kind 0 0",
		"tap tap3":            "tap 3",
		"tap tap3 back":       "tap 1",
		"tap finish":          "finish 0",
		"tap finish pause":    "finish 0",
		"finish jump:0,0,0,0": "jump 0",
		"count3":              "count 0",
	} {
		kind, n := walk(t, urchin(), text).Last()
		if got := fmt.Sprint(kind, " ", n); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}
