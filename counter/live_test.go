package counter_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
)

func TestStrides(t *testing.T) {
	s := walk(t, read(limpet), "finish6 finish12 finish18") // round 4: (2, 2) 6 times
	for _, c := range []struct {
		stride, tapped, reach int64
		under                 string
	}{
		{1, 0, 1, "sc in next 2 sts:1"},
		{5, 0, 5, "sc in next 2 sts:2 2 sc in next st:2 sc in next 2 sts:1"},
		{counter.ByInstruction, 1, 1, "sc in next 2 sts:1"},
		{counter.ByPass, 1, 3, "sc in next 2 sts:1 2 sc in next st:2"},
		{counter.ByRow, 20, 4, "sc in next 2 sts:2 2 sc in next st:2"},
		{7, 20, 4, "sc in next 2 sts:2 2 sc in next st:2"},
	} {
		s := apply(t, s, counter.Event{Kind: counter.SetStride, N: c.stride})
		if c.tapped > 0 {
			s = apply(t, s, counter.Event{Kind: counter.Tap, N: c.tapped})
		}
		parts, more := s.Under(9)
		var words []string
		for _, p := range parts {
			words = append(words, s.Plan().StepText(p.Step)+":"+string(rune('0'+p.Stitches)))
		}
		if s.Stride() != c.stride || s.Reach() != c.reach || strings.Join(words, " ") != c.under || more != 0 {
			t.Errorf("stride %d after %d: reach %d, under %q and %d more", c.stride, c.tapped, s.Reach(), words, more)
		}
	}
	for _, n := range []int64{0, -4} {
		if _, err := s.Apply(counter.Event{Kind: counter.SetStride, N: n}); !errors.Is(err, counter.ErrBadCount) {
			t.Errorf("stride %d: %v", n, err)
		}
	}
	// Where the row was not worked out a tap is a stitch, and the row by its total.
	s = walk(t, urchin(), "jump:1,0,1,0")
	for stride, want := range map[int64]int64{counter.ByInstruction: 1, counter.ByPass: 1, counter.ByRow: 1, 3: 3} {
		if got := apply(t, s, counter.Event{Kind: counter.SetStride, N: stride}).Reach(); got != want {
			t.Errorf("stride %d of an unknown row reaches %d, want %d", stride, got, want)
		}
	}
}

func TestDifferences(t *testing.T) {
	flat := read("Quay\n\nUS terms\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n" +
		"Row 2: Ch 3 (counts as dc), turn, skip first st, dc in next 8 sts, dc in top of tch. (10)\n" +
		"Row 3: Ch 1, turn, (sc in next 3 sts, sc2tog) twice. (8)\n")
	for _, c := range []struct {
		plan        *counter.Plan
		script      string
		at, counted int64
		want        string
	}{
		{read(limpet), "finish6 finish12 finish18 tap24", 24, 23, "1 short: a missed increase in “2 sc in next st” would do it; so would a place passed over in “sc in next 2 sts”"},
		{read(limpet), "finish6 finish12 finish18 tap24", 24, 21, "3 short: 3 missed increases in “2 sc in next st” would do it; so would 3 places passed over in “sc in next 2 sts”"},
		{read(limpet), "finish6 finish12 finish18 tap24", 24, 25, "1 over: a stitch too many in “sc in next 2 sts” would do it; so would an increase too many, as “2 sc in next st”"},
		{read(limpet), "finish6 finish12 finish17 tap4", 4, 3, "1 short: the round below, which came out 1 short, would do it; so would a missed increase in “2 sc in next st”, or a place passed over in “sc in next 2 sts”"},
		{flat, "finish10 tap10", 10, 9, "1 short: nothing worked into the top of the turning chain would do it; so would the turning chain not counted, which counts as a stitch here, or a place passed over in “dc in next 8 sts”"},
		{flat, "tap10", 10, 9, "1 short: a skipped last stitch would do it; so would a place passed over in “in each ch across”"},
		{flat, "finish10 finish10 tap8", 8, 9, "1 over: a missed decrease in “sc2tog” would do it; so would the turning chain counted or worked into, which is no stitch, or a stitch too many in “sc in next 3 sts”"},
		{flat, "finish10 finish10 tap8", 8, 8, "0 over"},
		{urchin(), "jump:1,0,1,4", 4, 3, "1 short"},
	} {
		if got := walk(t, c.plan, c.script).Difference(c.at, c.counted); got != c.want {
			t.Errorf("%s, %d for %d:\n got %s\nwant %s", c.script, c.counted, c.at, got, c.want)
		}
	}
}

func TestCheck(t *testing.T) {
	s := walk(t, urchin(), "tap4")
	s = apply(t, s, counter.Event{Kind: counter.Check, N: 3})
	at, n, ok := s.Checked()
	if s.Stitch() != 4 || at != 4 || n != 3 || !ok {
		t.Errorf("at %d; %d counted for %d, %v", s.Stitch(), n, at, ok)
	}
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 1})
	if at, _, _ := s.Checked(); at != 4 {
		t.Errorf("the check is of %d", at)
	}
	s = apply(t, s, counter.Event{Kind: counter.Finish, N: 6})
	if _, _, ok := s.Checked(); ok {
		t.Error("the check holds in the next row")
	}
	s = apply(t, s, script(t, "back back back")...)
	if _, _, ok := s.Checked(); ok {
		t.Error("the check is not taken back")
	}
}

func TestUnravel(t *testing.T) {
	// Three rows of a minute, two minutes and three, and four stitches of the
	// second copy of the spines.
	s := walk(t, urchin(), "open tap6 +60s finish6 tap12 +120s finish tap18 +180s finish17")
	s = apply(t, s, counter.Event{Kind: counter.Mark, Row: 1, N: 3}, counter.Event{Kind: counter.Mark, Row: 2, N: 3, Text: "side"})
	loss, err := s.Losing(counter.Place{Row: 1, Stitch: 4})
	if want := (counter.Loss{Rows: 2, Stitches: 8 + 17, Counted: 1, Markers: 1, Millis: 80_000 + 180_000}); err != nil || loss != want {
		t.Errorf("losing %+v, %v; want %+v", loss, err, want)
	}
	before := s
	s = apply(t, s, counter.Event{Kind: counter.Unravel, Row: 1, N: 4})
	if at := s.At(); at != (counter.Place{Row: 1, Stitch: 4}) {
		t.Errorf("at %+v", at)
	}
	for row, want := range []counter.Record{
		{Row: 0, Number: 1, Finished: true, Tapped: 6, Counted: 6, Expected: 6, Millis: 60_000},
		{Row: 1, Number: 2, Counted: counter.NotCounted, Expected: 12, Millis: 40_000, Unravelled: 80_000, Torn: 1},
		{Row: 2, Number: 3, Counted: counter.NotCounted, Expected: 18, Unravelled: 180_000, Torn: 1},
	} {
		if r, _ := s.Record(0, 0, row); r != want {
			t.Errorf("row %d: %+v, want %+v", row, r, want)
		}
	}
	if s.Millis(s.LastEvent()) != 360_000 {
		t.Errorf("%d ms spent", s.Millis(s.LastEvent()))
	}
	if markers := slices.Collect(s.Markers()); len(markers) != 1 || markers[0].Stitch != 3 || markers[0].Row != 1 {
		t.Errorf("markers %+v", markers)
	}
	if _, differs := s.Mismatch(); differs {
		t.Error("the row that is gone differs still")
	}
	// It is worked again for a minute; then all of it is taken back.
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 2, At: s.LastEvent() + 60_000}, counter.Event{Kind: counter.Back, At: s.LastEvent() + 60_000}, counter.Event{Kind: counter.Back, At: s.LastEvent() + 60_000})
	if s.At() != before.At() || s.Millis(s.LastEvent()) != 420_000 {
		t.Errorf("taken back: at %+v after %d ms", s.At(), s.Millis(s.LastEvent()))
	}
	if r, _ := s.Record(0, 0, 1); !r.Finished || r.Millis != 180_000 || r.Unravelled != 0 || r.Torn != 0 {
		t.Errorf("taken back: %+v", r)
	}
	if r, _ := s.Record(0, 0, 2); r.Counted != 17 || r.Millis != 180_000 {
		t.Errorf("taken back: %+v", r)
	}
	if m, _ := s.Mismatch(); m.Row != 2 {
		t.Errorf("the difference is in row %d", m.Row)
	}
	// And it is done again.
	s = apply(t, s, counter.Event{Kind: counter.Redo, At: s.LastEvent()})
	if at := s.At(); at != (counter.Place{Row: 1, Stitch: 4}) {
		t.Errorf("done again: at %+v", at)
	}
}

func TestUnravelThatCannotBe(t *testing.T) {
	s := walk(t, urchin(), "tap6 finish6 tap3")
	for _, c := range []struct {
		event counter.Event
		err   error
	}{
		{counter.Event{Row: 1, N: 3}, counter.ErrNothingThere},
		{counter.Event{Row: 2}, counter.ErrNothingThere},
		{counter.Event{Row: 3}, counter.ErrNoSuchRow},
		{counter.Event{Row: 0, N: -1}, counter.ErrBadCount},
		{counter.Event{Piece: 1}, counter.ErrNothingThere},
	} {
		c.event.Kind = counter.Unravel
		if _, err := s.Apply(c.event); !errors.Is(err, c.err) {
			t.Errorf("%+v: %v, want %v", c.event, err, c.err)
		}
	}
}

func TestRedo(t *testing.T) {
	s := walk(t, urchin(), "tap tap3 finish5 tap back back back back")
	if s.At() != (counter.Place{}) {
		t.Fatalf("at %+v", s.At())
	}
	s = apply(t, s, counter.Event{Kind: counter.Redo}, counter.Event{Kind: counter.Redo}, counter.Event{Kind: counter.Redo})
	if r, _ := s.Record(0, 0, 0); r.Counted != 5 || r.Tapped != 4 || s.At() != (counter.Place{Row: 1}) {
		t.Errorf("at %+v, %+v", s.At(), r)
	}
	// What is done anew takes the place of what was taken back; a pause does not.
	s = apply(t, s, counter.Event{Kind: counter.Pause})
	if e, ok := s.Undone(); !ok || e.Kind != counter.Tap {
		t.Errorf("undone %+v, %v", e, ok)
	}
	s = apply(t, s, counter.Event{Kind: counter.Mark, Row: 1, N: 0})
	if _, err := s.Apply(counter.Event{Kind: counter.Redo}); !errors.Is(err, counter.ErrNothingAgain) {
		t.Errorf("redo: %v", err)
	}
}

func TestMarkersAndNotes(t *testing.T) {
	s := walk(t, urchin(), "")
	mark := counter.Event{Kind: counter.Mark, Piece: 1, Copy: 1, Row: 0, N: 2, Text: "eye"}
	s = apply(t, s, mark)
	if _, err := s.Apply(mark); !errors.Is(err, counter.ErrMarker) {
		t.Errorf("a second marker: %v", err)
	}
	if got := s.MarkersIn(1, 1, 0); len(got) != 1 || got[0].Text != "eye" || got[0].Number != 1 {
		t.Errorf("markers %+v", got)
	}
	mark.Kind = counter.Unmark
	s = apply(t, s, mark)
	if _, err := s.Apply(mark); !errors.Is(err, counter.ErrNoMarker) {
		t.Errorf("taking it out twice: %v", err)
	}
	s = apply(t, s, counter.Event{Kind: counter.Back})
	if _, ok := s.MarkerAt(counter.Place{Piece: 1, Copy: 1, Stitch: 2}); !ok {
		t.Error("the marker is not back")
	}
	note := counter.Event{Kind: counter.Note, Row: 2, Text: "hook 3 is tight"}
	s = apply(t, s, note, counter.Event{Kind: counter.Note, Piece: 1, Text: "other"})
	if s.NoteOn(0, 0, 2) != note.Text || len(slices.Collect(s.Notes())) != 2 {
		t.Error("the note is not kept")
	}
	note.Text = ""
	s = apply(t, s, note)
	if s.NoteOn(0, 0, 2) != "" || len(slices.Collect(s.Notes())) != 1 {
		t.Error("the note is not taken away")
	}
}

func TestTick(t *testing.T) {
	plan := read(limpet + "\nFinishing\nSew the cap shut.\nSecure every end.\n")
	s := counter.Begin(plan)
	if _, steps := s.Steps(); steps == 0 {
		t.Fatal("no steps")
	}
	s = apply(t, s, counter.Event{Kind: counter.Tick})
	if ticked, _ := s.Steps(); ticked != 1 || !s.Ticked(0) {
		t.Errorf("%d ticked", ticked)
	}
	s = apply(t, s, counter.Event{Kind: counter.Tick})
	if s.Ticked(0) {
		t.Error("the tick is not taken away")
	}
	_, steps := s.Steps()
	if _, err := s.Apply(counter.Event{Kind: counter.Tick, N: int64(steps)}); !errors.Is(err, counter.ErrNoStep) {
		t.Errorf("a step too far: %v", err)
	}
}

// A tick belongs to the words of its step, wherever they stand by now. One whose
// step cannot be told, as in logs that knew the lines of the file for steps, is
// not given to another; it is counted, and taking back what follows goes right.
func TestTickByWords(t *testing.T) {
	const sewn, ends = "Sew the cap shut.", "Secure every end."
	tick := func(n int64, text string) counter.Event { return counter.Event{Kind: counter.Tick, N: n, Text: text} }
	for _, c := range []struct {
		name, makingUp string
		tick           counter.Event
		ticked, adrift int // the step, or -1
	}{
		{"as it was", sewn + "\n" + ends, tick(1, ends), 1, 0},
		{"a step before it", "Stuff it. " + sewn + "\n" + ends, tick(1, ends), 2, 0},
		{"written otherwise", sewn + "\nWeave in ends.", tick(1, ends), -1, 1},
		{"twice the same", ends + " " + sewn + " " + ends, tick(2, ends), 2, 0},
		{"without words", sewn + "\n" + ends, tick(1, ""), 1, 0},
		{"without words, lines that are no steps", "Sew the cap\nshut. " + ends, tick(0, ""), -1, 1},
		{"without words, more lines than steps", "Sew the\ncap\nshut.", tick(2, ""), -1, 1},
	} {
		s := counter.Begin(read(limpet + "\nFinishing\n" + c.makingUp + "\n"))
		before := apply(t, s, counter.Event{Kind: counter.Tap, N: 3})
		after := apply(t, before, c.tick)
		_, steps := after.Steps()
		for i := range steps {
			if after.Ticked(i) != (i == c.ticked) {
				t.Errorf("%s: step %d ticked: %v", c.name, i, after.Ticked(i))
			}
		}
		if after.Adrift() != c.adrift {
			t.Errorf("%s: %d adrift", c.name, after.Adrift())
		}
		if back := apply(t, after, counter.Event{Kind: counter.Back}); back.Stitch() != 3 || back.Adrift() != 0 || back.Ticked(max(c.ticked, 0)) {
			t.Errorf("%s: taken back, it stands at %d with %d adrift", c.name, back.Stitch(), back.Adrift())
		}
		if again := apply(t, after, counter.Event{Kind: counter.Tick, Text: firstStep(after)}); again.Adrift() != 0 {
			t.Errorf("%s: %d adrift once she has ticked", c.name, again.Adrift())
		}
	}
	// Going on with another text, the tick of a step that is gone is counted.
	s := counter.Begin(read(limpet + "\nFinishing\n" + sewn + "\n" + ends + "\n"))
	s = apply(t, s, tick(0, sewn), tick(1, ends), counter.Event{Kind: counter.Rewrite, Text: limpet + "\nFinishing\nStuff it. " + sewn + "\n"})
	if !s.Ticked(1) || s.Ticked(0) || s.Adrift() != 1 {
		t.Errorf("in another text: %v %v, %d adrift", s.Ticked(0), s.Ticked(1), s.Adrift())
	}
}

// firstStep is the first step of the making up.
func firstStep(s counter.State) string { return s.Plan().Proof().Pattern.MakingUp()[0] }

// anyEvent draws an event of any kind that may be.
func anyEvent(t *rapid.T, at int64) counter.Event {
	e := counter.Event{At: at, Kind: counter.Kind(rapid.IntRange(1, int(counter.Weigh)).Draw(t, "kind"))}
	e.Piece, e.Copy = rapid.IntRange(0, 1).Draw(t, "piece"), rapid.IntRange(0, 1).Draw(t, "copy")
	e.Row = rapid.IntRange(0, 6).Draw(t, "row")
	e.N = rapid.Int64Range(-3, 30).Draw(t, "n")
	if rapid.IntRange(0, 3).Draw(t, "tap") == 0 {
		e = counter.Event{At: at, Kind: counter.Tap, N: rapid.Int64Range(1, 9).Draw(t, "stitches")}
	}
	switch e.Kind {
	case counter.Mark, counter.Note:
		e.Text = rapid.SampledFrom([]string{"", "eye", "\x1b[2J"}).Draw(t, "text")
	case counter.Weigh:
		e.Row = rapid.IntRange(counter.OnTheScale, counter.AtFirst).Draw(t, "which")
	case counter.Rewrite, counter.Keep:
		e.Text = rapid.SampledFrom([]string{"", limpet, limpetMended, pairOf}).Draw(t, "text")
	}
	return e
}

const limpetMended = `Limpet

US terms

Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: Sc in each st around. (12)
Rnd 4: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 5: Change to B, (sc in next 2 sts, 2 sc in next st) 6 times. (24)
Rnds 6-7: Sc in each st around. (24)
`

const pairOf = limpet + `
Ear (make 2)
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)

Finishing
Sew the ears on.
`

// Whatever happens, the log alone rebuilds the state to the last byte, through
// the bytes it is kept as; Back and Redo are each other's undoing.
func TestReplayOfEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom([]string{limpet, pairOf}).Draw(t, "pattern")
		s := counter.Begin(read(text))
		var log []counter.Event
		at := int64(1000)
		for range rapid.IntRange(0, 50).Draw(t, "events") {
			at += rapid.Int64Range(0, 90_000).Draw(t, "pass")
			e := anyEvent(t, at)
			next, err := s.Apply(e)
			if err != nil {
				if got := s.Dump(); got != next.Dump() {
					t.Fatalf("refused, and changed\n%s", got)
				}
				continue
			}
			s = next
			b, _ := e.MarshalBinary()
			var kept counter.Event
			if err := kept.UnmarshalBinary(b); err != nil {
				t.Fatal(err)
			}
			log = append(log, kept)
		}
		again, refused := counter.Replay(read(text), log)
		if got := again.Dump(); got != s.Dump() || refused != nil {
			t.Fatalf("replayed\n%slive\n%srefused %v", got, s.Dump(), refused)
		}
		// All is taken back, and all of it done again, in no time.
		work := s.WorkDump()
		n := 0
		for {
			next, err := s.Apply(counter.Event{Kind: counter.Back, At: s.LastEvent()})
			if err != nil {
				break
			}
			s, n = next, n+1
		}
		if s.At() != (counter.Place{}) {
			t.Fatalf("all taken back, and at %+v", s.At())
		}
		for range n {
			next, err := s.Apply(counter.Event{Kind: counter.Redo, At: s.LastEvent()})
			if err != nil {
				t.Fatalf("redo: %v", err)
			}
			s = next
		}
		if got := s.WorkDump(); got != work {
			t.Fatalf("taken back and done again\n%swas\n%s", got, work)
		}
	})
}
