package tui

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

// TestEveryKeyHasAName: a key that is declared is either one that a maker can
// have otherwise or is known to stay.
func TestEveryKeyHasAName(t *testing.T) {
	for _, g := range allKeys() {
		for _, b := range g.keys {
			fixed := false
			for _, f := range fixedKeys {
				fixed = fixed || f.Help() == b.Help()
			}
			if named := actionOf(b) != ""; named == fixed {
				t.Errorf("%q: named %v, fixed %v", b.Help().Desc, named, fixed)
			}
		}
	}
}

func TestReadKey(t *testing.T) {
	for name, want := range map[string]string{
		"Space": " ", "space": " ", "F5": "f5", "Ctrl+T": "ctrl+t", "Page Down": "pgdown", "X": "x", "x": "x", "é": "é",
		"Enter": "enter", "Esc": "esc", "alt+x": "alt+x", " ": " ",
	} {
		if got, err := ReadKey(name); err != nil || got != want {
			t.Errorf("%q is %q, %v; want %q", name, got, err, want)
		}
	}
	for _, name := range []string{"", "pedal", "ctrl+", "xx", "\x1b", "\n", "f99", "alt+xx"} {
		if got, err := ReadKey(name); err == nil {
			t.Errorf("%q is %q", name, got)
		}
	}
}

// own is a screen with a walk whose keys are others.
func own(t *testing.T, keys map[string][]string) (*model, *Walk) {
	t.Helper()
	km, err := NewKeymap(keys)
	if err != nil {
		t.Fatal(err)
	}
	w, _ := walkOf(t, harbourCrab(), Look{Wants: &Wants{Keys: km}}, 80, 24)
	m := &model{page: w}
	m.size(80, 24)
	return m, w
}

func TestKeysOfHerOwn(t *testing.T) {
	m, w := own(t, map[string][]string{"tap": {"f5", "."}, "hunt": {"z"}, "rows": {"h"}, "leave": {"f10"}})
	type step struct{ key, note, at string }
	for _, s := range []step{
		{"f5", "", "stitch 2 of 6"},
		{".", "", "stitch 3 of 6"},
		{" ", "Space does nothing here. ? shows every key.", "stitch 3 of 6"},
		{"backspace", "", "stitch 2 of 6"},
		{"r", "r does nothing here. ? shows every key.", "stitch 2 of 6"},
	} {
		if cmd := m.keys(keyOf(s.key)); cmd != nil {
			t.Errorf("%s asks for something", s.key)
		}
		if w.note != s.note || w.scene.stitchLine() != s.at {
			t.Errorf("after %s: %q at %s, want %q at %s", s.key, w.note, w.scene.stitchLine(), s.note, s.at)
		}
	}
	if m.keys(keyOf("q")) != nil {
		t.Error("q leaves, and f10 should")
	}
	if cmd := m.keys(keyOf("f10")); cmd == nil {
		t.Error("f10 does not leave")
	}
	m.keys(keyOf("h"))
	if w.mode != choosing {
		t.Errorf("h leads to mode %d, want the rows", w.mode)
	}
	m.keys(keyOf("esc"))
	m.keys(keyOf("z"))
	if w.mode != hunting {
		t.Errorf("z leads to mode %d, want the hunt", w.mode)
	}
	m.keys(keyOf("esc"))
	m.keys(keyOf("?"))
	page := ansi.Strip(m.View())
	for _, want := range []string{"F5 ", "Z ", "tap: one stride on"} {
		if !strings.Contains(strings.ToUpper(page), strings.ToUpper(want)) {
			t.Errorf("the help does not show %q:\n%s", want, page)
		}
	}
	m.keys(keyOf("esc"))
	m.keys(keyOf("n"))
	for _, k := range spelt("zh") {
		m.keys(keyOf(k))
	}
	if w.draft != "zh" {
		t.Errorf("in a note the letters are %q, want zh", w.draft)
	}
}

// TestHerKeyWins: a key that the maker gave to one thing is taken from another,
// which the help shows without a key. Only two keys of hers clash, or one that
// has to stay what it is.
func TestHerKeyWins(t *testing.T) {
	km, err := NewKeymap(map[string][]string{"rows": {"h"}, "note": {"$"}})
	if err != nil {
		t.Fatal(err)
	}
	if c := km.Clash(); c != "" {
		t.Errorf("clash: %s", c)
	}
	if got := km.Keyless(); !slices.Equal(got, []string{"hunt"}) {
		t.Errorf("without a key are %v, want hunt", got)
	}
	m, w := own(t, map[string][]string{"rows": {"h"}})
	m.keys(keyOf("h"))
	if w.mode != choosing {
		t.Errorf("h does not show the rows: mode %d", w.mode)
	}
	m.keys(keyOf("esc"))
	m.Update(keyOf("?"))
	if page := ansi.Strip(m.View()); !strings.Contains(page, "–          hunt for a slip") {
		t.Errorf("the help does not show that hunt has no key:\n%s", page)
	}
	for _, c := range []struct {
		keys map[string][]string
		want string
	}{
		{map[string][]string{"rows": {"x"}, "hunt": {"x"}}, "two things"},
		{map[string][]string{"rows": {"5"}}, "needed there"},
		{map[string][]string{"rows": {"?"}}, `no key left for "help"`},
		{map[string][]string{"rows": {"q"}}, ""}, // Ctrl+C leaves still
	} {
		km, err := NewKeymap(c.keys)
		if err != nil {
			t.Fatal(err)
		}
		if got := km.Clash(); (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("%v: clash %q, want %q", c.keys, got, c.want)
		}
	}
}

// A pedal of her own takes the count at the end of a row, as Space does; in a
// note it is a letter.
func TestPedalOfHerOwn(t *testing.T) {
	m, w := own(t, map[string][]string{"tap": {"x", "f5"}})
	for range 5 {
		m.keys(keyOf("f5"))
	}
	m.keys(keyOf("x"))
	if w.mode != asking {
		t.Fatalf("six taps lead to mode %d", w.mode)
	}
	m.keys(keyOf("x"))
	if w.mode != walking || w.state.Row() != 1 {
		t.Errorf("the pedal does not take the count: mode %d, row %d, %q", w.mode, w.state.Row()+1, w.note)
	}
	for range 12 {
		m.keys(keyOf("f5"))
	}
	for _, k := range []string{"4", "enter"} {
		m.keys(keyOf(k))
	}
	if m.keys(keyOf("x")); w.mode != differing {
		t.Errorf("the pedal answers a count that differs: mode %d", w.mode)
	}
	for _, k := range []string{"backspace", "n", "x"} {
		m.keys(keyOf(k))
	}
	if w.draft != "x" {
		t.Errorf("in a note the letters are %q, want x", w.draft)
	}
}

func TestHelpShowsWhatWorksHere(t *testing.T) {
	m, w := own(t, nil)
	help := func() string {
		m.Update(keyOf("?"))
		defer func() { m.Update(keyOf("esc")) }()
		return ansi.Strip(m.View())
	}
	if page := help(); !strings.Contains(page, "tap: one stride on") || strings.Contains(page, "make it again") {
		t.Errorf("the help of a row:\n%s", page)
	}
	press(w, append(times(" ", 6), "5", "enter")...)
	if page := help(); !strings.Contains(page, "carry on with your count") || strings.Contains(page, "tap: one stride on") {
		t.Errorf("the help of a difference:\n%s", page)
	}
	m.page = basketOf(Look{})
	m.size(80, 24)
	if page := help(); !strings.Contains(page, "make it again") || strings.Contains(page, "tap: one stride on") {
		t.Errorf("the help of the basket:\n%s", page)
	}
}

func TestLock(t *testing.T) {
	m, w := own(t, nil)
	m.Update(keyOf(" "))
	m.Update(keyOf("ctrl+l"))
	before := w.state.At()
	for _, k := range []string{" ", "backspace", "enter", "q", "ctrl+c", "7", "ctrl+z", "?"} {
		if _, cmd := m.Update(keyOf(k)); cmd != nil {
			t.Errorf("locked, %s asks for something", k)
		}
	}
	m.Update(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonLeft, X: 40, Y: 5})
	if w.state.At() != before || w.mode != walking || m.help != nil {
		t.Errorf("locked, the walk moved to %+v", w.state.At())
	}
	if page := ansi.Strip(m.View()); !strings.Contains(page, "LOCKED · Ctrl+L unlocks · 9 keys did nothing") {
		t.Errorf("it does not say that it is locked:\n%s", page)
	}
	m.Update(keyOf("ctrl+l"))
	m.Update(keyOf(" "))
	if page := ansi.Strip(m.View()); strings.Contains(page, "LOCKED") || !strings.Contains(page, "stitch 3 of 6") {
		t.Errorf("unlocked:\n%s", page)
	}
}

const striped = `Buoy band

Ch 7.
Row 1: (Sc in next ch, ch 1, sk next ch) 3 times. (3 sc)
Row 2: Ch 1, turn, sc in first st, change to red, sc in each of next 2 sts. (3 sc)
`

// TestSignals walks through rows and counts the bells, as they are wanted.
func TestSignals(t *testing.T) {
	for _, c := range []struct {
		name  string
		o     Occasion
		keys  []string
		rings int
	}{
		{"the ends of two rows", RowEnd, append(append(times(" ", 6), "enter"), times(" ", 12)...), 2},
		{"none for taking back", RowEnd, append(times(" ", 5), "backspace"), 0},
		{"a count that differs", Mismatch, append(times(" ", 6), "5", "enter"), 1},
		{"the passes of a repeat", RepeatEnd, append(append(append(append(times(" ", 6), "enter"), times(" ", 12)...), "enter"), times(" ", 6)...), 8},
	} {
		var out bytes.Buffer
		wants := &Wants{}
		w, _ := walkOf(t, harbourCrab(), Look{Wants: wants}, 80, 24)
		m := &model{page: w, out: &out}
		m.size(80, 24)
		wants.Signals[c.o] = Bell
		for _, k := range c.keys {
			if _, cmd := m.Update(keyOf(k)); cmd != nil {
				cmd()
			}
			if m.flash != "" {
				t.Errorf("%s: a flash is not wanted", c.name)
			}
		}
		if got := strings.Count(out.String(), "\a"); got != c.rings || out.Len() != c.rings {
			t.Errorf("%s: %d bells, want %d", c.name, got, c.rings)
		}
		wants.Signals[c.o] = Flash
		w, _ = walkOf(t, harbourCrab(), Look{Wants: wants}, 80, 24)
		m.page = w
		m.size(80, 24)
		for _, k := range c.keys {
			m.Update(keyOf(k))
		}
		flashed := func() bool { return strings.Contains(ansi.Strip(m.View()), occasionWords[c.o]) }
		if flashed() != (c.rings > 0) || m.flashes != c.rings {
			t.Errorf("%s: flashed %v, %d times; want %d", c.name, flashed(), m.flashes, c.rings)
		}
		if m.Update(flashOverMsg{m.flashes}); flashed() {
			t.Errorf("%s: the flash stays", c.name)
		}
	}
}

func TestColourChange(t *testing.T) {
	w, _ := walkText(t, striped, 80, 24)
	for range 20 {
		w.occasions = nil
		if w.mode == asking {
			press(w, "enter")
			continue
		}
		row, stitch := w.state.Row(), w.state.Stitch()
		press(w, " ")
		changes := false
		for _, o := range w.occasions {
			changes = changes || o == ColourChange
		}
		if want := row == 1 && stitch == 0; changes != want && !w.state.Finished() {
			t.Errorf("row %d, after stitch %d: a change of colour %v, want %v", row+1, stitch+1, changes, want)
		}
		if w.state.Finished() {
			return
		}
	}
}

func TestRestReminder(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Wants: &Wants{Rest: 30 * time.Minute}}, 80, 24)
	clock := &pinned{noon}
	w.cfg.Now = clock.now
	says := func() bool { return strings.Contains(ansi.Strip(w.view()), "Rest your hands") }
	for range 9 {
		clock.at = clock.at.Add(4 * time.Minute)
		press(w, " ", "backspace")
		w.note = ""
	}
	if !says() {
		t.Errorf("after 32 minutes of work nothing reminds:\n%s", w.view())
	}
	clock.at = clock.at.Add(6 * time.Minute)
	w.tick()
	if says() {
		t.Error("the hands have lain for six minutes, and it still reminds")
	}
	press(w, " ")
	w.note = ""
	if says() {
		t.Error("after a rest it reminds at once")
	}
}
