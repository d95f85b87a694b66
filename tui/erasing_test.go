package tui

import (
	"errors"
	"strings"
	"testing"
)

func TestErasing(t *testing.T) {
	const all = "Harbour crab|Fog bank ␛[31mblanket 霧の毛布|Lighthouse mitten|Tide pool mandala"
	word := spelt("erase")
	out := []string{"x", "left"}
	for _, c := range []struct {
		name   string
		keys   []string
		erased string
		note   string
	}{
		{"asked twice", append(append(out, "e", "enter"), append(word, "enter")...), "Harbour crab", "Harbour crab is erased for good."},
		{"asked once", append(out, "e", "enter"), "", ""},
		{"kept at the first question", append(out, "e", "esc", "enter"), "", "It is taken out. x puts it back."},
		{"kept at the second", append(append(out, "e", "enter"), "esc", "enter"), "", "It is taken out. x puts it back."},
		{"Enter held down", append(append(out, "e"), times("enter", 5)...), "", "It is taken out. x puts it back."},
		{"the key held down", append(out, times("e", 9)...), "", "e does nothing here. Enter asks once more, Esc keeps it."},
		{"another word", append(append(out, "e", "enter"), append(spelt("eras"), "enter")...), "", "Harbour crab is kept: the word was not typed."},
		{"rubbed out", append(append(out, "e", "enter", "q", "backspace"), append(word, "enter")...), "Harbour crab", ""},
		{"not taken out", []string{"e"}, "", "Only what is taken out can be erased. x takes it out."},
		{"and not to be taken back", append(append(append(out, "e", "enter"), append(word, "enter")...), "backspace"), "Harbour crab", "Nothing was changed in the basket that could be taken back."},
		{"nothing there", []string{"left", "e"}, "", "There is nothing here to do that with."},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, b, _ := drawers(t)
			var erased []string
			b.cfg.Erase = func(it Item) error { erased = append(erased, it.Title); return nil }
			b.cfg.Open = func(Item) (*Walk, error) { return nil, errors.New("opened") }
			typeIn(m, c.keys...)
			if got := strings.Join(erased, "|"); got != c.erased {
				t.Errorf("erased is %q, want %q", got, c.erased)
			}
			if c.note != "" && b.note != c.note {
				t.Errorf("it says %q, want %q", b.note, c.note)
			}
			shown := strings.ReplaceAll(all, c.erased+"|", "")
			b.part = InWork
			typeIn(m, "esc")
			for i := range b.cfg.Items {
				if b.cfg.Items[i].Title == c.erased {
					t.Errorf("%s is still there, of %s", c.erased, shown)
				}
			}
		})
	}
}

// Whatever the size of the window, both questions are read whole, and the word
// that is asked for is in the second.
func TestErasingIsAskedInWords(t *testing.T) {
	for _, size := range sizes {
		m, b, _ := drawers(t)
		b.cfg.Erase = func(Item) error { return nil }
		m.size(size.width, size.height)
		typeIn(m, "x", "left", "e")
		fitsScreen(t, "erasing", m)
		first := strings.Join(strings.Fields(m.View()), " ")
		typeIn(m, "enter")
		m.frame = ""
		fitsScreen(t, "erasing surely", m)
		second := strings.Join(strings.Fields(m.View()), " ")
		if !strings.Contains(first, "Nothing brings it back.") || !strings.Contains(second, "Type erase to erase Harbour crab") || !strings.Contains(second, "press Esc.") {
			t.Errorf("%dx%d: it is asked\n%s\nand\n%s", size.width, size.height, first, second)
		}
	}
}

// What was changed in one basket is taken back in the next, unless it has
// changed again meanwhile.
func TestHistoryGoesOn(t *testing.T) {
	m, b, _ := drawers(t)
	history := &History{}
	b.undo = history
	typeIn(m, "x", "s") // the crab out, the blanket aside
	next := func(change func([]Item)) (*model, *Basket) {
		items := append([]Item(nil), b.cfg.Items...)
		change(items)
		after := NewBasket(BasketConfig{Items: items, Change: b.cfg.Change, Again: b.cfg.Again, History: history, Now: b.cfg.Now})
		m := &model{page: after}
		m.size(80, 24)
		return m, after
	}
	// The blanket was taken up, and so is in work: only the crab is left.
	m, b = next(func(items []Item) { items[1].Part = InWork })
	typeIn(m, "backspace")
	if b.cfg.Items[0].Part != InWork || b.note != "Taken back: where Harbour crab was put." {
		t.Errorf("the crab is in part %v: %q", b.cfg.Items[0].Part, b.note)
	}
	typeIn(m, "backspace")
	if b.note != "Nothing was changed in the basket that could be taken back." {
		t.Errorf("then it says %q", b.note)
	}
}
