package tui

import (
	"errors"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

func basketOf(look Look) *Basket {
	return NewBasket(BasketConfig{
		Look: look,
		Now:  func() time.Time { return noon },
		Items: []Item{
			{ID: "1", Title: "Harbour crab", Name: "Harbour crab", Done: 40, Total: 210, Touched: noon.Add(-3 * time.Hour), Millis: 754_000, Low: 2_900_000, High: 4_000_000},
			{ID: "2", Title: "Fog bank \x1b[31mblanket 霧の毛布", Done: 12040, Total: 24100, Touched: noon.Add(-50 * time.Hour), Millis: 40_000_000},
			{ID: "3", Title: "Lighthouse mitten", Done: 300, Total: 300, Touched: noon.Add(-20 * time.Second)},
			{ID: "4", Title: "Tide pool mandala", Total: 900, Demo: true},
		},
	})
}

func TestBasketChooses(t *testing.T) {
	for _, c := range []struct {
		name string
		keys []string
		want string // the thing opened
	}{
		{"the first", []string{"enter"}, "1"},
		{"by arrows", []string{"down", "down", "up", "enter"}, "2"},
		{"not past the end", []string{"end", "down", "down", "enter"}, "4"},
		{"not past the beginning", []string{"up", "enter"}, "1"},
		{"by number", []string{"3", "enter"}, "3"},
		{"a number there is not", []string{"2", "7", "enter"}, "2"},
		{"by Space", []string{"down", " "}, "2"},
	} {
		b := basketOf(Look{})
		b.resize(80, 24)
		var opened string
		b.cfg.Open = func(it Item) (*Walk, error) { opened = it.ID; return nil, nil }
		for _, k := range c.keys {
			if cmd := b.key(keyOf(k)); cmd != nil {
				cmd()
			}
		}
		if opened != c.want {
			t.Errorf("%s: opened %q, want %q", c.name, opened, c.want)
		}
	}
}

func TestBasketClick(t *testing.T) {
	b := basketOf(Look{})
	b.resize(80, 24)
	for i, want := range []string{"1", "2", "3", "4"} {
		var opened string
		b.cfg.Open = func(it Item) (*Walk, error) { opened = it.ID; return nil, nil }
		b.opening = false
		y := -1
		for n, l := range strings.Split(b.view(), "\n") {
			if strings.Contains(l, b.cfg.Items[i].Title) {
				y = n
			}
		}
		cmd := b.mouse(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonLeft, X: 10, Y: y})
		if cmd == nil {
			t.Fatalf("a click on line %d opens nothing", y)
		}
		cmd()
		if opened != want {
			t.Errorf("a click on line %d opened %q, want %q", y, opened, want)
		}
	}
}

func TestBasketSaysWhatWentWrong(t *testing.T) {
	b := basketOf(Look{})
	b.resize(80, 24)
	b.cfg.Open = func(Item) (*Walk, error) { return nil, errors.New("another window has it\x1b[2J") }
	m := &model{page: b, width: 80, height: 24}
	m.Update(m.key(keyOf("enter"))())
	if v := b.view(); !strings.Contains(v, "✗ Another window has it␛[2J.") {
		t.Errorf("the frame does not say so:\n%s", v)
	}
	if cmd := b.key(keyOf("enter")); cmd == nil {
		t.Error("it cannot be tried again")
	}
}

// Where rows are to come whose stitches nobody knows, what is done is at most a
// share of all, and the basket says so.
func TestBasketAtMost(t *testing.T) {
	it := Item{ID: "1", Title: "Kelp bag", Done: 50, Total: 200, Unknown: 2, Millis: 60_000}
	for _, c := range []struct {
		width int
		look  Look
		want  []string
	}{
		{250, Look{}, []string{"≤25%", "50 of 200+ stitches", "1:00 so far", "and 2 rows unknown"}},
		{80, Look{}, []string{"≤25%", "50 of 200+ · 1:00 so far · and 2 rows unknown"}},
		{40, Look{}, []string{"≤25%", "50 of 200+"}},
		{80, Look{ASCII: true}, []string{"<25%"}},
	} {
		c.look.Colours = Plain
		b := NewBasket(BasketConfig{Look: c.look, Now: func() time.Time { return noon }, Items: []Item{it}})
		b.resize(c.width, 12)
		frame := b.view()
		for _, want := range c.want {
			if !strings.Contains(frame, want) {
				t.Errorf("at %d columns it does not say %q:\n%s", c.width, want, frame)
			}
		}
	}
	it.Unknown = 0
	if got := it.share(); got != "25%" {
		t.Errorf("where all rows are known it is %q", got)
	}
}

// A note that is longer than a line is told whole, in the smallest window too.
func TestBasketLongNote(t *testing.T) {
	const why = "the basket is open in another window; this one takes over when that is closed."
	for _, size := range sizes {
		b := NewBasket(BasketConfig{
			Look: Look{Colours: Plain}, Now: func() time.Time { return noon }, LookOnly: why,
			Items: []Item{{ID: "1", Title: "Kelp bag", Total: 9}, {ID: "2", Title: "Whelk", Total: 9}, {ID: "3", Title: "Limpet", Total: 9}, {ID: "4", Title: "Buoy", Total: 9}},
		})
		b.resize(size.width, size.height)
		frame := b.view()
		if seen := strings.Join(strings.Fields(frame), " "); !strings.Contains(seen, "Only looking: "+why) {
			t.Errorf("%dx%d: the note is cut:\n%s", size.width, size.height, frame)
		}
		if n := strings.Count(frame, "\n") + 1; n != size.height {
			t.Errorf("%dx%d: %d lines", size.width, size.height, n)
		}
	}
}

// The name of a file that cannot be begun stays, to be put right; what is said of
// it stands above.
func TestBasketBeginAgain(t *testing.T) {
	for _, size := range sizes[:3] {
		b := basketOf(Look{Colours: Plain})
		b.resize(size.width, size.height)
		b.cfg.Change = func(it Item) (Item, error) { return it, nil }
		b.cfg.Again = b.cfg.Change
		var named []string
		b.cfg.Begin = func(file string) (*Walk, error) {
			named = append(named, file)
			return nil, errors.New(file + ": there is no such file")
		}
		m := &model{page: b, width: size.width, height: size.height}
		type1 := func(keys ...string) {
			for _, k := range keys {
				if _, cmd := m.Update(keyOf(k)); cmd != nil {
					m.Update(cmd())
				}
			}
		}
		type1("n", "w", "h", "e", "l", "x", "enter")
		frame := b.view()
		if !b.typing() || !strings.Contains(frame, "✗ Whelx: there is no such file.") || !strings.Contains(frame, "[whelx]") {
			t.Errorf("%dx%d: what was typed is gone:\n%s", size.width, size.height, frame)
		}
		type1("f5")
		if frame = b.view(); !strings.Contains(frame, "does nothing here") || !strings.Contains(frame, "[whelx]") {
			t.Errorf("%dx%d: a key that does nothing is not told:\n%s", size.width, size.height, frame)
		}
		type1("backspace", "k", "enter", "esc", "n")
		if got := strings.Join(named, " "); got != "whelx whelk" || b.field.text != "" {
			t.Errorf("%dx%d: it began %q, and %q is typed then", size.width, size.height, got, b.field.text)
		}
	}
}
