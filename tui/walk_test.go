package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/counter"
)

// plainFrame is a frame's words without ink, for looking into.
func plainFrame(w *Walk) string { return ansi.Strip(w.view()) }

func TestKeysOfTheWalk(t *testing.T) {
	type place struct {
		row    int
		stitch int64
	}
	for _, c := range []struct {
		name  string
		keys  []string
		at    place
		shows []string
	}{
		{"nothing pressed", nil, place{0, 0}, []string{"stitch 1 of 6", "row 1 of 7", "[6 sc in magic ring]", "saved"}},
		{"a tap", []string{" "}, place{0, 1}, []string{"stitch 2 of 6"}},
		{"a pedal", []string{"pgdown", "pgdown"}, place{0, 2}, []string{"stitch 3 of 6"}},
		{"Enter on the lit button", []string{"enter"}, place{0, 1}, nil},
		{"taking back", []string{" ", " ", "backspace"}, place{0, 1}, []string{"stitch 2 of 6"}},
		{"nothing to take back", []string{"backspace"}, place{0, 0}, []string{"There is nothing left to take back."}},
		{"a key that does nothing", []string{"x"}, place{0, 0}, []string{"x does nothing here."}},
		{"an arrow that does nothing", []string{"up"}, place{0, 0}, []string{"up does nothing here."}},
		{"Esc with nothing open", []string{"esc"}, place{0, 0}, []string{"Nothing is open here."}},
		{"the row full", times(" ", 6), place{0, 6}, []string{"stitch 6 of 6", "The row comes to 6. You count [6]"}},
		{"Space takes the count", times(" ", 7), place{1, 0}, []string{"row 2 of 7", "Row 1 is kept: 6."}},
		{"Enter takes the count", append(times(" ", 6), "enter"), place{1, 0}, []string{"row 2 of 7"}},
		{"back from the question", append(times(" ", 6), "backspace"), place{0, 5}, []string{"stitch 6 of 6"}},
		{"another count", append(times(" ", 6), "1", "2"), place{0, 6}, []string{"You count [12]"}},
		{"a digit rubbed out", append(times(" ", 6), "1", "2", "backspace"), place{0, 6}, []string{"You count [1]"}},
		{"all digits rubbed out", append(times(" ", 6), "1", "backspace"), place{0, 6}, []string{"You count [6]"}},
		{"short", append(times(" ", 6), "4", "enter"), place{0, 6},
			[]string{"✗ 2 SHORT ✗ you count 4, the row comes to 6"}},
		{"over", append(times(" ", 6), "9", "enter"), place{0, 6}, []string{"✗ 3 OVER ✗ you count 9, the row comes to 6"}},
		{"a pedal does not carry on", append(times(" ", 6), "9", "enter", "pgdown", " "), place{0, 6},
			[]string{"✗ 3 OVER ✗", "Enter carries on"}},
		{"carry on", append(times(" ", 6), "4", "enter", "enter"), place{1, 0}, []string{"Row 1 is kept: 4."}},
		{"what is carried is told", append(times(" ", 6), "4", "enter", "enter", " "), place{1, 1},
			[]string{"row 1 came out 2 short: 4 for 6"}},
		{"go back to the row", append(times(" ", 6), "4", "enter", "backspace"), place{0, 6}, []string{"Back at the row."}},
		{"and take stitches back", append(times(" ", 6), "4", "enter", "backspace", "backspace"), place{0, 5}, nil},
		{"and be asked again", append(times(" ", 6), "4", "enter", "backspace", " "), place{0, 6}, []string{"You count [6]"}},
		{"digits count again", append(times(" ", 6), "4", "enter", "6"), place{0, 6}, []string{"You count [6]"}},
		{"the end taken back", append(times(" ", 7), "backspace"), place{0, 6}, []string{"The end of row 1 is taken back."}},
		{"Esc puts the question aside", append(times(" ", 6), "esc"), place{0, 6}, []string{"A tap asks for the count again."}},
		{"count now", []string{" ", " ", "c", "5", "enter", "enter"}, place{0, 5}, []string{"The tally was 2; it is now 5"}},
		{"count now agrees", []string{" ", " ", "c", " "}, place{0, 2}, []string{"Your count agrees: 2."}},
		{"count now to the full", []string{" ", "c", "6", "enter", "enter"}, place{0, 6}, []string{"You count [6]"}},
		{"never mind", []string{"c", "5", "esc"}, place{0, 0}, []string{"[6 sc in magic ring]"}},
		{"end the row early", []string{" ", "e", "enter"}, place{1, 0}, nil},
		{"go to a stitch", []string{"4", "enter"}, place{0, 3}, []string{"stitch 4 of 6"}},
		{"a tap after a stray digit is a tap", []string{"4", " "}, place{0, 1}, []string{"the tap counts"}},
		{"go to no stitch", []string{"9", "enter"}, place{0, 0}, []string{"The row has 6 stitches."}},
		{"go to stitch nought", []string{"0", "enter"}, place{0, 0}, []string{"That is not a stitch"}},
		{"a number rubbed out", []string{"4", "backspace"}, place{0, 0}, []string{"[6 sc in magic ring]"}},
		{"a jump taken back", []string{" ", "4", "enter", "backspace"}, place{0, 1}, nil},
		{"a number without end", times("9", 20), place{0, 0}, []string{"No row is that long."}},
		{"by instruction", append(times(" ", 20), "s", " "), place{2, 1}, []string{"a tap is an instruction"}},
		{"by instruction, two stitches", append(times(" ", 20), "s", " ", " "), place{2, 2 + 1}, nil},
		{"by pass", append(append(times(" ", 20), "s", "s"), " "), place{2, 3}, []string{"a tap is a pass"}},
		{"by row", []string{" ", "s", "s", "s", " "}, place{0, 6}, []string{"a tap is the row", "You count"}},
		{"round the strides", []string{"s", "s", "s", "s"}, place{0, 0}, []string{"A tap is now a stitch."}},
		{"pause", []string{" ", "p"}, place{0, 1}, []string{"paused at"}},
		{"pause and on", []string{" ", "p", "p"}, place{0, 1}, []string{"The time goes on."}},
		{"a tap ends the pause", []string{"p", " "}, place{0, 1}, []string{"The time goes on."}},
		{"light a button and press it", []string{" ", " ", "tab", "enter"}, place{0, 1}, nil},
		{"round the buttons", []string{"shift+tab", "tab", "enter"}, place{0, 1}, nil},
		{"go to a row", []string{"r", "down", "down", "enter"}, place{2, 0}, []string{"row 3 of 7", "Backspace goes back"}},
		{"go to a row by number", []string{"r", "5", "enter"}, place{4, 0}, []string{"row 5 of 7", "Rnd 5 (Rnds 5-7)"}},
		{"no such row", []string{"r", "9", "enter"}, place{0, 0}, nil},
		{"the row in hand", []string{" ", " ", "r", "enter"}, place{0, 2}, nil},
		{"another piece", []string{"r", "right", "enter"}, place{0, 0}, []string{"Claw, copy 1 of 2", "row 1 of 4"}},
		{"the last copy", []string{"r", "right", "right", "right", "end", "enter"}, place{3, 0}, []string{"Claw, copy 2 of 2", "row 4 of 4"}},
		{"out of the rows", []string{"r", "down", "esc"}, place{0, 0}, []string{"row 1 of 7"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
			press(w, c.keys...)
			w.saved(Safe{Walk: "crab", Seq: w.appended})
			if got := (place{w.state.Row(), w.state.Stitch()}); got != c.at {
				t.Errorf("at %+v, want %+v", got, c.at)
			}
			frame := plainFrame(w)
			for _, s := range c.shows {
				if !strings.Contains(frame, s) {
					t.Errorf("the frame does not say %q:\n%s", s, frame)
				}
			}
		})
	}
}

// A row that was not worked out shows its words as they are, and is walked by
// its stated total or, where there is none, freely.
func TestRowsNotWorkedOut(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	press(w, "r", "right", "3", "enter")
	frame := plainFrame(w)
	for _, s := range []string{"stitch 1 of 6", "flombulate in each st across", "some words were not understood"} {
		if !strings.Contains(frame, s) {
			t.Errorf("the frame does not say %q:\n%s", s, frame)
		}
	}
	press(w, times(" ", 7)...)
	frame = plainFrame(w)
	for _, s := range []string{"stitch 1 ", "row 4 of 4", "Edging", "no total stated", "With A, sc evenly"} {
		if !strings.Contains(frame, s) {
			t.Errorf("the frame does not say %q:\n%s", s, frame)
		}
	}
	press(w, append(times(" ", 30), "e")...)
	if frame = plainFrame(w); !strings.Contains(frame, "30 tapped. You count [30]") {
		t.Errorf("the free row is not ended by hand:\n%s", frame)
	}
	press(w, " ")
	if got := w.state.At(); got != (counter.Place{Piece: 1, Copy: 1}) {
		t.Errorf("after the last row of the claw at %+v, want at the second claw", got)
	}
}

func TestFinished(t *testing.T) {
	w, shelf := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	press(w, append(times(" ", 6), "4", "enter", "enter")...)
	toTheEnd(t, w)
	frame := plainFrame(w)
	for _, s := range []string{"finished", "Body  7 rows  1 differ", "row 1: 4 counted for 6, 2 short", "Claw  2 copies of 4 rows  every row agrees"} {
		if !strings.Contains(frame, s) {
			t.Errorf("the frame does not say %q:\n%s", s, frame)
		}
	}
	n := len(shelf.events)
	press(w, " ")
	if frame = plainFrame(w); len(shelf.events) != n || !strings.Contains(frame, "Every row is worked") {
		t.Errorf("a tap after the end: %d events more\n%s", len(shelf.events)-n, frame)
	}
	press(w, "backspace")
	if w.state.Finished() {
		t.Error("the end cannot be taken back")
	}
}

// The counted number goes into the log as it was given.
func TestJournal(t *testing.T) {
	w, shelf := walkOf(t, harbourCrab(), Look{}, 80, 24)
	press(w, append(times(" ", 6), "7", "enter", "enter")...)
	if e := shelf.last(); e.Kind != counter.Carry || e.N != 7 {
		t.Errorf("the last event is %+v, want the row carried on with 7", e)
	}
	if err := w.close(); err != nil {
		t.Fatal(err)
	}
	if err := w.close(); err != nil {
		t.Fatal(err)
	}
	state := counter.Begin(w.state.Plan())
	var kinds []string
	for _, e := range shelf.events {
		var err error
		if state, err = state.Apply(e); err != nil {
			t.Fatalf("%+v: %v", e, err)
		}
		kinds = append(kinds, e.Kind.String())
	}
	if want := "open tap tap tap tap tap tap carrying on close"; strings.Join(kinds, " ") != want {
		t.Errorf("the log is %v, want %s", kinds, want)
	}
	if state.At() != w.state.At() {
		t.Errorf("the log leads to %+v, the screen stands at %+v", state.At(), w.state.At())
	}
}

func TestSavedOrNot(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	shows := func(want string) {
		t.Helper()
		if f := plainFrame(w); !strings.Contains(f, want) {
			t.Errorf("the frame does not say %q:\n%s", want, f)
		}
	}
	shows("… saving") // the opening
	w.saved(Safe{Walk: "crab", Seq: 1})
	shows("✓ saved")
	w.key(keyOf(" "))
	w.key(keyOf(" "))
	w.saved(Safe{Walk: "crab", Seq: 2})
	shows("… saving")
	w.saved(Safe{Walk: "another", Seq: 9})
	shows("… saving")
	w.saved(Safe{Walk: "crab", Seq: 2, Err: errors.New("no space left on device\x1b[0m")})
	shows("✗ NOT SAVED, the last 1 only in memory: no space left on device␛[0m")
	w.resize(40, 12)
	shows("✗ NOT SAVED")
	w.resize(10, 4)
	shows("✗ NOT")
	w.saved(Safe{Walk: "crab", Seq: 3})
	w.resize(80, 24)
	shows("✓ saved")
}

func TestOnlyLooking(t *testing.T) {
	w := NewWalk(WalkConfig{
		Title: "Crab", State: counter.Begin(counter.NewPlan(harbourCrab().proof)),
		LookOnly: "another window has it open.", Now: (&pinned{noon}).now,
	})
	w.resize(80, 24)
	w.open()
	press(w, " ", "r", "3", "enter")
	if at := w.state.At(); at != (counter.Place{}) {
		t.Errorf("the place moved to %+v", at)
	}
	frame := plainFrame(w)
	for _, s := range []string{"only looking", "Only looking: another window has it open."} {
		if !strings.Contains(frame, s) {
			t.Errorf("the frame does not say %q:\n%s", s, frame)
		}
	}
	if err := w.close(); err != nil {
		t.Error(err)
	}
}

// Any key can be made a pedal.
func TestTapKeys(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	w.cfg.TapKeys = []string{"f5", "x"}
	press(w, "f5", "x", "f6")
	if got := w.state.Stitch(); got != 2 {
		t.Errorf("%d stitches, want 2", got)
	}
	press(w, "f5", "f5", "f5", "f5", "f5")
	if got := w.state.Row(); got != 1 {
		t.Errorf("the pedal does not take the count: row %d", got+1)
	}
}

// A note that is being written is kept when the program is told to go.
func TestNoteAtTheEnd(t *testing.T) {
	w, shelf := walkOf(t, harbourCrab(), Look{Colours: Plain}, 100, 30)
	press(w, "n", "x", "y")
	if err := w.close(); err != nil {
		t.Fatal(err)
	}
	if got := w.state.NoteOn(0, 0, 0); got != "xy" || shelf.last().Kind != counter.Close {
		t.Errorf("the note is %q, the last event %v", got, shelf.last().Kind)
	}
}

// Whatever a key of the walk does, a button does too.
func TestEveryKeyHasAButton(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain}, 100, 30)
	w.cfg.Basket = func() (*Basket, error) { return nil, nil }
	named := map[string]bool{}
	for _, c := range w.choices() {
		named[c.key.Help().Key] = true
	}
	for _, k := range allKeys()[0].keys {
		if name := k.Help().Key; !named[name] && name != keyGoTo.Help().Key && name != keyTick.Help().Key {
			t.Errorf("%s has no button", name)
		}
	}
	for range w.choices() {
		press(w, "tab")
		if row := w.buttonRow(); !row.shows(w.lit) {
			t.Errorf("the lit button %d is not to be seen", w.lit)
		}
	}
}

// A click is a tap; a click on a button presses it.
func TestMouse(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	click := func(x, y int) {
		w.mouse(tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
		w.mouse(tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionRelease, Button: tea.MouseButtonLeft})
	}
	on := func(label string) (x, y int) {
		t.Helper()
		lines := strings.Split(plainFrame(w), "\n")
		last := lines[len(lines)-1]
		i := strings.Index(last, label)
		if i < 0 {
			t.Fatalf("no button %q in %q", label, last)
		}
		return ansi.StringWidth(last[:i]) + 1, len(lines) - 1
	}
	click(40, 10)
	click(0, 0)
	if got := w.state.Stitch(); got != 2 {
		t.Fatalf("two clicks give %d stitches", got)
	}
	click(on("Back"))
	if got := w.state.Stitch(); got != 1 {
		t.Errorf("the button takes back to %d", got)
	}
	click(on("Pause"))
	if !w.state.Paused() {
		t.Error("the button does not pause")
	}
	w.mouse(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonRight})
	if f := plainFrame(w); !strings.Contains(f, "does nothing here") {
		t.Errorf("another button of the mouse is passed over in silence:\n%s", f)
	}
	press(w, "c", "6", "enter", "enter", "5", "enter")
	if w.mode != differing {
		t.Fatalf("mode %d", w.mode)
	}
	click(40, 10)
	if w.mode != differing {
		t.Error("a stray click carries a difference on")
	}
	click(on("Carry on with 5"))
	if got := w.state.Row(); got != 1 {
		t.Errorf("the button leads to row %d", got+1)
	}
}

// Keys that were read at one go are keys all the same.
func TestKeysTogether(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	m := &model{page: w, width: 80, height: 24}
	press(w, times(" ", 6)...)
	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("12")})
	if got := w.entry.String(); got != "12" {
		t.Errorf("typing 12 gives %q", got)
	}
	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("99"), Paste: true})
	if got := w.entry.String(); got != "12" {
		t.Errorf("pasting 99 gives %q", got)
	}
	if f := plainFrame(w); !strings.Contains(f, "pasted text does nothing here") {
		t.Errorf("pasted text is passed over in silence:\n%s", f)
	}
}

func TestHelpLiesOverAll(t *testing.T) {
	w, shelf := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 40, 12)
	m := &model{page: w, width: 40, height: 12}
	n := len(shelf.events)
	m.Update(keyOf("?"))
	for range 3 {
		m.Update(keyOf("pgdown"))
	}
	seen := m.View()
	for _, k := range []string{"end", "home", "up", "down", "x"} {
		m.Update(keyOf(k))
		seen += m.View()
	}
	if !strings.Contains(seen, "x does nothing here") {
		t.Errorf("a stray key is passed over in silence:\n%s", seen)
	}
	m.Update(keyOf("esc"))
	if m.help != nil || len(shelf.events) != n {
		t.Errorf("the help is still open, or wrote %d events", len(shelf.events)-n)
	}
	var all strings.Builder
	for _, l := range (&helpSheet{groups: allKeys()}).lines(80, 100) {
		for _, s := range l {
			all.WriteString(s.text)
		}
	}
	for _, g := range allKeys() {
		for _, k := range g.keys {
			if !strings.Contains(all.String(), k.Help().Key) {
				t.Errorf("the help does not tell of %q", k.Help().Key)
			}
		}
	}
}

func TestBackToTheBasket(t *testing.T) {
	w, shelf := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	released := 0
	w.cfg.Release = func(counter.State) error { released++; return nil }
	w.cfg.Basket = func() (*Basket, error) { return basketOf(Look{}), nil }
	m := &model{page: w, width: 80, height: 24}
	m.Update(m.key(keyOf("b"))())
	if _, ok := m.page.(*Basket); !ok {
		t.Fatalf("in front is a %T", m.page)
	}
	if released != 1 || shelf.last().Kind != counter.Close {
		t.Errorf("released %d times, the last event is %v", released, shelf.last().Kind)
	}
}

func TestBasketThatCannotBeHad(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	w.cfg.Release = func(counter.State) error { return errors.New("the disk is full") }
	w.cfg.Basket = func() (*Basket, error) { return basketOf(Look{}), nil }
	m := &model{page: w, width: 80, height: 24}
	m.Update(m.key(keyOf("b"))())
	if f := plainFrame(w); !strings.Contains(f, "✗ NOT SAVED") || !strings.Contains(f, "the disk is full") {
		t.Errorf("the frame does not say so:\n%s", f)
	}
	press(w, " ")
	if w.state.Stitch() != 0 {
		t.Error("a tap counts that nobody keeps")
	}
}

// The account of the end can be longer than the window; nothing of it is out
// of reach.
func TestEndScrolls(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain}, 40, 12)
	for !w.state.Finished() {
		n, known := w.state.Expect()
		if !known {
			n = 3
		}
		w.enter(walking)
		w.finish(n + 1)
	}
	seen := plainFrame(w)
	if !strings.Contains(seen, "Up and Down show the rest") {
		t.Errorf("the frame does not say that there is more:\n%s", seen)
	}
	for range 30 {
		press(w, "down")
		seen += plainFrame(w)
	}
	for _, s := range []string{"row 7: 25 counted for 24", "row 2 of copy 2: 7 counted for 6"} {
		if !strings.Contains(seen, s) {
			t.Errorf("%q is never seen", s)
		}
	}
	for range 30 {
		press(w, "up")
	}
	if f := plainFrame(w); !strings.Contains(f, "15 rows") {
		t.Errorf("not back at the top:\n%s", f)
	}
}
