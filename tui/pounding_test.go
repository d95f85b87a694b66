package tui

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// pounding is how many keys are pressed in each of the screens, 100,000 in
// all; every lookAt-th frame is looked at, and every drawAt-th drawn by a
// terminal emulator.
const (
	pounding = 20_000
	lookAt   = 10
	drawAt   = 400
)

// everyKey is all that a keyboard sends here: each key that is declared, and
// some that are not.
var everyKey = func() (all []string) {
	for _, g := range allKeys() {
		for _, b := range g.keys {
			all = append(all, b.Keys()...)
		}
	}
	return append(all, " ", " ", " ", "enter", "é", "霧", "f7", "alt+x", "ctrl+a", "~", "\x00")
}()

// TestPounding presses every key in every screen, at every size, a hundred
// thousand times. Whatever happens, the frame is as large as the screen and
// not blank, a terminal shows it as it is, and the log is whole.
func TestPounding(t *testing.T) {
	notice := func(look Look) Page {
		return NewNotice(NoticeConfig{Title: "About your basket", Look: look,
			Lines: []string{strings.Repeat("霧の毛布 and some words. ", 40), "short"},
			Next:  func() (Page, error) { return basketOf(look), nil }})
	}
	basket := func(look Look) Page {
		b := basketOf(look)
		b.cfg.Open = func(Item) (*Walk, error) { return nil, fmt.Errorf("it cannot be opened") }
		b.cfg.Begin = func(f string) (*Walk, error) { return nil, fmt.Errorf("there is no file %s", f) }
		b.cfg.Change = func(it Item) (Item, error) { return it, nil }
		n := 4
		b.cfg.Again = func(it Item) (Item, error) { n++; it.ID = fmt.Sprint(n); return it, nil }
		return b
	}
	for i, start := range []struct {
		name string
		page func(Look, *shelf) Page
	}{
		{"a written pattern", func(l Look, s *shelf) Page { return poundedWalk(pattern.Read(limpet), l, s, "") }},
		{"a changed pattern", func(l Look, s *shelf) Page {
			return poundedWalk(pattern.Read(limpet), l, s, strings.Replace(limpet, "Rnds 5-6:", "Rnds 5-7:", 1))
		}},
		{"pieces on pieces", func(l Look, s *shelf) Page { return poundedWalk(pattern.Read(demoText(t, "pennant")), l, s, "") }},
		{"the basket", func(l Look, _ *shelf) Page { return basket(l) }},
		{"a notice", func(l Look, _ *shelf) Page { return notice(l) }},
	} {
		r := rand.New(rand.NewPCG(uint64(i), 1938))
		looks := []Look{{Colours: TrueColour, Dark: true}, {Colours: Sixteen}, {Colours: Plain, ASCII: true}}
		s := &shelf{}
		m := &model{page: start.page(looks[i%3], s)}
		first := m.page
		m.Init()
		m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
		for n := range pounding {
			k := everyKey[r.IntN(len(everyKey))]
			switch what := r.IntN(100); {
			case what < 3:
				m.Update(tea.WindowSizeMsg{Width: 1 + r.IntN(250), Height: 1 + r.IntN(70)})
			case what < 6:
				m.Update(tea.WindowSizeMsg{Width: 40 + r.IntN(100), Height: 12 + r.IntN(30)})
			case what < 9:
				m.Update(tea.MouseMsg{X: r.IntN(250), Y: r.IntN(70), Action: tea.MouseActionPress, Button: tea.MouseButton(r.IntN(7))})
			case what < 12:
				m.Update(tickMsg{})
			case m.page == first && what < 45 && i < 3:
				m.Update(keyOf(" ")) // or it would never come far
			default:
				_, cmd := m.Update(keyOf(k))
				settleNow(m, cmd, k)
			}
			if m.broken != nil {
				t.Fatalf("%s, key %d, %q: %v", start.name, n, k, m.broken)
			}
			if m.locked && r.IntN(20) == 0 {
				m.Update(keyOf("ctrl+l"))
			}
			if n%lookAt == 0 {
				fitsScreen(t, start.name, m)
			}
			if n%drawAt == 0 {
				drawn(t, start.name, m)
			}
		}
		w, ok := first.(*Walk)
		if !ok {
			continue
		}
		if len(s.events) < pounding/10 {
			t.Errorf("%s: only %d things happened", start.name, len(s.events))
		}
		again, refused := counter.Replay(counter.NewPlan(w.cfg.State.Plan().Proof()), s.events)
		if refused != nil || again.At() != w.state.At() {
			t.Errorf("%s: the log leads to %+v, the screen stands at %+v; refused %v", start.name, again.At(), w.state.At(), refused)
		}
	}
}

// settleNow carries out what a key asks for, but for leaving and for what takes
// its time.
func settleNow(m *model, cmd tea.Cmd, k string) {
	if _, ok := m.page.(*Basket); !ok || cmd == nil || k == "q" || k == "Q" || strings.HasPrefix(k, "ctrl+") {
		return
	}
	for range 100 {
		if cmd == nil {
			return
		}
		msg := cmd()
		if _, ok := msg.(tea.BatchMsg); ok || msg == nil {
			return
		}
		_, cmd = m.Update(msg)
	}
}

func poundedWalk(p *pattern.Pattern, look Look, s *shelf, changed string) *Walk {
	look.Wants = &Wants{Signals: [Signals]Signal{Flash, Flash, Flash, Flash, Flash}, Rest: 1}
	return NewWalk(WalkConfig{ID: "x", Title: "Limpet \x1b[2J 霧 e\u0301", Journal: s, Changed: changed,
		State: counter.Begin(counter.NewPlan(p.Prove(pattern.Options{}))), Now: (&pinned{noon}).now, Look: look})
}

// fitsScreen wants a frame to be as high as the screen, no wider, and not blank.
func fitsScreen(t *testing.T, name string, m *model) {
	t.Helper()
	frame := m.View()
	lines := strings.Split(frame, "\n")
	if len(lines) != m.height {
		t.Fatalf("%s: %d lines on a screen of %d", name, len(lines), m.height)
	}
	blank := true
	for i, l := range lines {
		if n := ansi.StringWidth(l); n > m.width {
			t.Fatalf("%s: line %d is %d wide on a screen of %d: %q", name, i, n, m.width, l)
		}
	}
	for _, r := range ansi.Strip(frame) {
		blank = blank && (r == ' ' || r == '\n')
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) {
			t.Fatalf("%s: the frame sends %U", name, r)
		}
	}
	if blank {
		t.Fatalf("%s: a blank frame at %dx%d", name, m.width, m.height)
	}
	if !onlyInk(frame) {
		t.Fatalf("%s: the frame sends more than ink: %q", name, frame)
	}
}

// drawn has a terminal show the frame, and wants each line where it belongs.
func drawn(t *testing.T, name string, m *model) {
	t.Helper()
	if m.width < 2 {
		return
	}
	frame := m.View()
	e := vt.NewEmulator(m.width, m.height)
	if _, err := e.Write([]byte(strings.ReplaceAll(frame, "\n", "\r\n"))); err != nil {
		t.Fatal(err)
	}
	for y, l := range strings.Split(ansi.Strip(frame), "\n") {
		got := ""
		for x := 0; x < m.width; {
			c := e.CellAt(x, y)
			if c == nil || c.Width == 0 {
				got += " "
				x++
				continue
			}
			got += c.Content
			x += c.Width
		}
		if strings.TrimRight(got, " ") != strings.TrimRight(l, " ") {
			t.Fatalf("%s: at %dx%d line %d is shown as %q, and is %q", name, m.width, m.height, y, got, l)
		}
	}
}
