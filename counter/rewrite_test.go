package counter_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
)

func changeWords(c counter.Changes) string {
	var out []string
	for _, r := range c.Rows {
		words := fmt.Sprintf("%s %s %d-%d %d>%d", [...]string{"changed", "added", "gone"}[r.Kind], r.Piece, r.First+1, r.Last+1, r.Was, r.Now)
		if r.Made {
			words += " made"
		}
		out = append(out, words)
	}
	return strings.Join(out, "; ")
}

func TestCompare(t *testing.T) {
	edit := func(old, new string) string { return strings.Replace(pairOf, old, new, 1) }
	for _, c := range []struct {
		name, script, text, want string
		made                     bool
	}{
		{"nothing", "finish6 tap3", pairOf, "", false},
		{"no row", "finish6 tap3", edit("US terms", "US terms\n\nYarn: blue"), "", false},
		{"a total mended, not made yet", "finish6 tap3", edit("Rnd 7: (Sc in next 2 sts, sc2tog) 6 times. (18)", "Rnd 7: (Sc in next 2 sts, sc2tog) around. (18)"), "changed  7-7 18>18", false},
		{"the row in hand", "finish6 tap3", edit("Rnd 2: 2 sc in each st", "Rnd 2: (Sc in next st, 2 sc in next st)"), "changed  2-2 12>9 made", true},
		{"a row gone", "finish6 finish12 finish18", edit("Rnds 5-6: Sc in each st around. (24)\nRnd 7:", "Rnd 5: Sc in each st around. (24)\nRnd 6:"), "gone  6-6 24>-1", false},
		{"a row more", "finish6 finish12 finish18", edit("Rnds 5-6: Sc in each st around. (24)\nRnd 7:", "Rnds 5-7: Sc in each st around. (24)\nRnd 8:"), "added  7-7 -1>24", false},
		{"a row more before", "finish6 finish12 finish18", limpetMended + strings.TrimPrefix(pairOf, limpet), "added  3-3 -1>12 made; gone  7-7 18>-1", true},
		{"a piece gone", "", limpet, "gone Ear 1-1 6>-1; gone Ear 2-2 12>-1", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := walk(t, read(pairOf), c.script)
			got, err := s.Compare(c.text)
			if err != nil {
				t.Fatal(err)
			}
			if w := changeWords(got); w != c.want || got.Made != c.made {
				t.Errorf("got  %s, made %v\nwant %s", w, got.Made, c.want)
			}
		})
	}
	if _, err := walk(t, read(pairOf), "").Compare("no rows at all"); !errors.Is(err, counter.ErrNoText) {
		t.Errorf("a text without rows: %v", err)
	}
}

func TestRewrite(t *testing.T) {
	s := walk(t, read(pairOf), "open tap6 +60s finish6 tap12 +90s finish12 tap18 +30s finish18 tap2")
	s = apply(t, s,
		counter.Event{Kind: counter.Mark, At: s.LastEvent(), Row: 3, N: 1}, counter.Event{Kind: counter.Note, At: s.LastEvent(), Row: 2, Text: "loose"},
		counter.Event{Kind: counter.Jump, At: s.LastEvent(), Piece: 1, Copy: 1, Row: 1, N: 3}, counter.Event{Kind: counter.Jump, At: s.LastEvent(), Row: 3, N: 2})
	// A round is put in before the third.
	to := limpetMended + strings.TrimPrefix(pairOf, limpet)
	s = apply(t, s, counter.Event{Kind: counter.Rewrite, At: s.LastEvent(), Text: to})
	if s.Plan().Text() != to || s.At() != (counter.Place{Row: 4, Stitch: 2}) {
		t.Errorf("at %+v", s.At())
	}
	for row, want := range map[int]int64{0: 60_000, 1: 90_000, 2: 0, 3: 30_000} {
		if r, _ := s.Record(0, 0, row); r.Millis != want || r.Finished != (row != 2) {
			t.Errorf("row %d: %+v", row+1, r)
		}
	}
	if m := slices.Collect(s.Markers()); len(m) != 1 || m[0].Row != 4 || s.NoteOn(0, 0, 3) != "loose" {
		t.Errorf("markers %+v", m)
	}
	if at, _ := s.PlaceOf(1, 1); at != (counter.Place{Piece: 1, Copy: 1, Row: 1, Stitch: 3}) {
		t.Errorf("the ear is at %+v", at)
	}
	if done, total := s.Stitches(); done != 6+12+12+18+2+6+3 || total != 6+12+12+18+24+24+24+2*18 {
		t.Errorf("%d of %d stitches", done, total)
	}
	// Work goes on; then all of that is taken back, and the time stays.
	at := s.LastEvent()
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 1, At: at + 20_000}, counter.Event{Kind: counter.Back, At: at + 20_000}, counter.Event{Kind: counter.Back, At: at + 20_000})
	if r, _ := s.Record(0, 0, 3); r.Millis != 20_000 || s.At() != (counter.Place{Row: 3, Stitch: 2}) {
		t.Errorf("taken back: %+v at %+v", r, s.At())
	}
	s = apply(t, s, counter.Event{Kind: counter.Redo, At: at + 20_000})
	if s.Plan().Text() != to {
		t.Error("not done again")
	}
}

// The place goes where its row is, and where that is gone to what follows.
func TestRewrittenPlace(t *testing.T) {
	for _, c := range []struct {
		name, script, text string
		want               counter.Place
	}{
		{"the row in hand is gone", "finish6 finish12 tap5", "Limpet\n\nUS terms\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n", counter.Place{Row: 2}},
		{"it is shorter now", "finish6 tap11", "Limpet\n\nUS terms\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Sc in each st around. (6)\nRnd 3: Sc in each st around. (6)\n", counter.Place{Row: 1, Stitch: 6}},
		{"all was worked, and there is more", "finish finish finish finish finish finish finish", limpet + "Rnd 8: Sc in each st around. (18)\n", counter.Place{Row: 7}},
		{"another piece is to be made", "finish finish finish finish finish finish finish", pairOf, counter.Place{Piece: 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := walk(t, read(limpet), c.script)
			s = apply(t, s, counter.Event{Kind: counter.Rewrite, Text: c.text})
			if s.At() != c.want {
				t.Errorf("at %+v, want %+v", s.At(), c.want)
			}
		})
	}
	// The piece in hand is gone altogether.
	s := walk(t, read(pairOf), "jump:1,1,1,3")
	s = apply(t, s, counter.Event{Kind: counter.Rewrite, Text: limpet})
	if s.At() != (counter.Place{}) {
		t.Errorf("at %+v", s.At())
	}
	if _, err := s.Apply(counter.Event{Kind: counter.Rewrite, Text: "nothing"}); !errors.Is(err, counter.ErrNoText) {
		t.Errorf("a text without rows: %v", err)
	}
	s = apply(t, s, counter.Event{Kind: counter.Keep, Text: "another"})
	if s.Declined() != "another" || s.Plan().Text() != limpet {
		t.Error("the text so far is not kept")
	}
}

func TestNotesForTheNextMaking(t *testing.T) {
	s := walk(t, read(pairOf), "")
	s = apply(t, s, counter.Event{Kind: counter.Note, Row: 2, Text: "loose"}, counter.Event{Kind: counter.Note, Piece: 1, Copy: 1, Row: 1, Text: "eye"})
	got := s.NotesFor(read(limpetMended))
	if want := []counter.Event{{Kind: counter.Note, Row: 3, Text: "loose"}}; !slices.Equal(got, want) {
		t.Errorf("%+v", got)
	}
	if again := s.NotesFor(read(pairOf)); len(again) != 2 || again[1].Copy != 1 {
		t.Errorf("%+v", again)
	}
}
