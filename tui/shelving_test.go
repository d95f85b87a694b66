package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// drawers is a basket that keeps its changes in memory, on a screen.
func drawers(t *testing.T) (*model, *Basket, *[]Item) {
	t.Helper()
	b := basketOf(Look{})
	var kept []Item
	b.cfg.Change = func(it Item) (Item, error) {
		kept = append(kept, it)
		if it.Name != "" {
			it.Title = it.Name
		}
		return it, nil
	}
	b.cfg.Again = func(it Item) (Item, error) {
		it.ID, it.Name, it.Title, it.Done = "5", it.Name+", no. 2", it.Name+", no. 2", 0
		return it, nil
	}
	m := &model{page: b, width: 80, height: 24}
	m.size(80, 24)
	return m, b, &kept
}

// typeIn types keys and carries out what they ask for.
func typeIn(m *model, keys ...string) {
	for _, k := range keys {
		carryOut(m, m.keys(keyOf(k)))
	}
}

func carryOut(m *model, cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	if msg := cmd(); msg != nil {
		_, next := m.Update(msg)
		carryOut(m, next)
	}
}

// spelt gives the keys of a text.
func spelt(text string) (keys []string) {
	for _, r := range text {
		keys = append(keys, string(r))
	}
	return keys
}

func titles(b *Basket) (all []string) {
	for _, i := range b.shown {
		all = append(all, b.cfg.Items[i].Title)
	}
	return all
}

func TestBasketChanges(t *testing.T) {
	for _, c := range []struct {
		name  string
		keys  []string
		shown string // what the part in front holds then
		note  string
	}{
		{"set aside", []string{"s"}, "Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "Harbour crab is set aside. Backspace takes that back."},
		{"seen there", []string{"s", "tab"}, "Harbour crab", ""},
		{"and back", []string{"s", "tab", "s", "left"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", ""},
		{"finished", []string{"end", "up", "f", "tab", "tab"}, "Lighthouse mitten", ""},
		{"taken out", []string{"x", "left"}, "Harbour crab", ""},
		{"taken out and back", []string{"x", "x", "backspace", "backspace"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "Taken back: where Harbour crab was put."},
		{"no more to take back", []string{"backspace"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "Nothing was changed in the basket that could be taken back."},
		{"taken out does not open", []string{"x", "left", "enter"}, "Harbour crab", "It is taken out. x puts it back."},
		{"renamed", append(append([]string{"r"}, times("backspace", 4)...), append(spelt("gull q"), "enter")...), "Harbour gull q|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "It has its new name."},
		{"renamed and back", append(append([]string{"r"}, spelt("!")...), "enter", "backspace"), "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "Taken back: the new name of Harbour crab."},
		{"not renamed", []string{"r", "x", "esc"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", ""},
		{"made again", []string{"m"}, "Harbour crab, no. 2|Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "It can be made again: Enter begins it."},
		{"made again and back", []string{"m", "backspace"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "Taken back: the new Harbour crab."},
		{"a demo", []string{"end", "x"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", "It is only offered to try. Enter begins it."},
		{"found", []string{"/", "m", "i", "t"}, "Lighthouse mitten", ""},
		{"found by two words", append([]string{"/"}, spelt("B 霧")...), "Fog bank ␛[31mblanket 霧の毛布", ""},
		{"rubbed out", []string{"/", "m", "i", "t", "backspace", "backspace", "backspace"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", ""},
		{"looked for and left", []string{"/", "m", "i", "t", "esc"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", ""},
		{"found nothing", []string{"/", "z", "z", "enter"}, "", "Nothing is called that. Esc shows everything again."},
		{"beginning nothing", []string{"n"}, "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala", ""},
	} {
		m, b, _ := drawers(t)
		typeIn(m, c.keys...)
		if got := strings.Join(titles(b), "|"); got != c.shown {
			t.Errorf("%s: shown are %q, want %q", c.name, got, c.shown)
		}
		if b.note != c.note && c.note != "" {
			t.Errorf("%s: the note is %q, want %q", c.name, b.note, c.note)
		}
	}
}

func TestBasketKeepsItsChanges(t *testing.T) {
	m, b, kept := drawers(t)
	typeIn(m, "s")
	if len(*kept) != 1 || (*kept)[0].ID != "1" || (*kept)[0].Part != SetAside {
		t.Fatalf("kept %+v, want thing 1 set aside", *kept)
	}
	first := m.keys(keyOf("s")) // not yet at the disk
	if cmd := m.keys(keyOf("s")); cmd != nil {
		t.Error("a second change is begun before the first is kept")
	}
	b.cfg.Items[1].Name = "Fog bank"
	carryOut(m, first)
	if len(*kept) != 3 || b.in(SetAside) != 3 {
		t.Errorf("%d changes were kept and %d things set aside, want 3", len(*kept), b.in(SetAside))
	}
	typeIn(m, "backspace", "backspace")
	b.cfg.Change = func(it Item) (Item, error) { return it, errors.New("the disk is full") }
	typeIn(m, "x")
	if !b.broken || b.note != "The disk is full." || len(b.undo.changes) != 1 {
		t.Errorf("after a change that could not be kept: %q, %d to take back", b.note, len(b.undo.changes))
	}
	if got := titles(b)[0]; !strings.HasPrefix(got, "Fog bank") {
		t.Errorf("the first is %q; it was not kept, and must stay", got)
	}
	b.cfg.LookOnly = "another window has it."
	typeIn(m, "x")
	if b.note != "Only looking: another window has it." {
		t.Errorf("looking only, the note is %q", b.note)
	}
}

func TestBasketBegins(t *testing.T) {
	m, b, _ := drawers(t)
	var file string
	b.cfg.Begin = func(f string) (*Walk, error) { file = f; return nil, errors.New("there is no such file") }
	typeIn(m, append(append([]string{"n"}, spelt("~/net q.txt")...), "enter")...)
	if file != "~/net q.txt" || b.note != "There is no such file." {
		t.Errorf("begun %q, note %q", file, b.note)
	}
}
