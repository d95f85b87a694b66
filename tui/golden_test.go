package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/counter"
)

var update = flag.Bool("update", false, "write the frames anew")

// press types keys, named as bubbletea names them.
func press(w *Walk, keys ...string) {
	for _, k := range keys {
		w.key(keyOf(k))
		w.saved(Safe{Walk: w.cfg.ID, Seq: w.appended})
	}
}

// keyTypes are the keys that have a name.
var keyTypes = func() map[string]tea.KeyType {
	m := map[string]tea.KeyType{}
	for t := tea.KeyType(-200); t < 200; t++ {
		if name := (tea.KeyMsg{Type: t}).String(); name != "" && t != tea.KeyRunes {
			m[name] = t
		}
	}
	return m
}()

// keyOf is the message of a key.
func keyOf(name string) tea.KeyMsg {
	if name == " " {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	if t, ok := keyTypes[name]; ok {
		return tea.KeyMsg{Type: t}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// times is a key pressed again and again.
func times(key string, n int) []string {
	return strings.Split(strings.TrimSuffix(strings.Repeat(key+"\x00", n), "\x00"), "\x00")
}

// moments are states worth a picture, each reached by keys from the start.
var moments = []struct {
	name string
	keys []string
}{
	{"start", nil},
	{"repeat", append(times(" ", 6+1+12+1+4), "")},
	{"full", times(" ", 6)},
	{"short", append(times(" ", 6), "4", "enter")},
	{"rows", append(times(" ", 7), "r")},
}

// sizes are the windows of the frames.
var sizes = []struct{ width, height int }{{40, 12}, {60, 20}, {80, 24}, {120, 40}, {250, 70}}

func TestFrames(t *testing.T) {
	for _, colours := range []Colours{Plain, NoColour, TwoFiftySix, TrueColour} {
		for _, size := range sizes {
			var b strings.Builder
			for _, m := range moments {
				if colours != Plain && m.name != "repeat" {
					continue // the colours do not depend on the words
				}
				w, _ := walkOf(t, harbourCrab(), Look{Colours: colours, Dark: true}, size.width, size.height)
				for _, k := range m.keys {
					if k != "" {
						press(w, k)
					}
				}
				w.saved(Safe{Walk: w.cfg.ID, Seq: w.appended})
				fmt.Fprintf(&b, "── %s\n%s\n", m.name, visible(w.view()))
			}
			name := fmt.Sprintf("walk-%s-%dx%d.frame", [...]string{"plain", "nocolour", "16", "256", "true"}[colours], size.width, size.height)
			golden(t, name, b.String())
		}
	}
}

func TestFinishedFrame(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain, Dark: true}, 80, 24)
	toTheEnd(t, w)
	golden(t, "finished-80x24.frame", visible(w.view())+"\n")
}

func TestBasketFrame(t *testing.T) {
	var b strings.Builder
	for _, size := range sizes[:3] {
		basket := basketOf(Look{Colours: Plain, Dark: true})
		basket.resize(size.width, size.height)
		basket.key(keyOf("down"))
		fmt.Fprintf(&b, "── %dx%d\n%s\n", size.width, size.height, visible(basket.view()))
	}
	golden(t, "basket.frame", b.String())
}

func TestHelpFrame(t *testing.T) {
	for _, size := range []struct{ width, height int }{{80, 60}, {120, 30}, {40, 12}} {
		name := fmt.Sprintf("help-%dx%d.frame", size.width, size.height)
		golden(t, name, visible((&helpSheet{groups: allKeys()}).view(newTheme(Look{Colours: Plain}), size.width, size.height))+"\n")
	}
}

// visible writes escapes so that a golden can be read and never obeyed.
func visible(frame string) string {
	lines := strings.Split(frame, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(strings.ReplaceAll(l, "\x1b", "␛"), " ")
	}
	return strings.Join(lines, "\n")
}

// golden compares with a file under testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (go test -update writes it anew):\n%s", name, d)
	}
}

// toTheEnd taps until everything is worked, ending by hand the rows that have
// no number.
func toTheEnd(t *testing.T, w *Walk) {
	t.Helper()
	for range 10_000 {
		if w.state.Finished() {
			return
		}
		if _, known := w.state.Expect(); !known && w.state.Stitch() >= 3 && w.mode == walking {
			press(w, "e")
			continue
		}
		press(w, " ")
	}
	t.Fatalf("not finished: %+v", w.state.At())
}

// last is the newest event of a journal.
func (s *shelf) last() counter.Event { return s.events[len(s.events)-1] }
