package tui

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// somewhat is a pattern with everything unkind in it: wide and combining
// letters, escapes, no words, no stitches, a row of a million million.
func somewhat() *book {
	b := newBook()
	p := b.piece("\x1b[41m蟹\u202e e\u0301\u0301\u0301\u0301\u0301\u0301", 3)
	b.row(p, "Rnd \x07 1", 1, 1, pattern.Round, pattern.RightSide, words(
		do("6 ", 6), read("\u200b"), do("\xff\xfe 霧の毛布霧の毛布霧の毛布霧の毛布霧の毛布霧の毛布霧の毛布霧の毛布", 3)))
	b.row(p, "", 2, 2, pattern.FlatRow, pattern.SideUnsaid, nil)
	b.row(p, strings.Repeat("Row ", 80), 3, 1_000_000, pattern.FlatRow, pattern.WrongSide, words(
		do(strings.Repeat("x", 300), 1), read(strings.Repeat(" ", 300)), rep(1_000_000_000, do("\t\n\r", 1000))))
	b.row(p, "Rnd 9", 9, 9, pattern.Round, pattern.RightSide, words(
		rep(3, rep(2, do("a", 1), do("b", 0)), do("c", 2)), do("d", 0)))
	q := b.piece("", 1)
	free := b.row(q, "👩‍🍳 🇨🇭🇨🇭 row", 1, 1, pattern.FlatRow, pattern.RightSide, words(read("ad lib")))
	free.Trace, free.Made, free.Status = nil, -1, pattern.Trusted
	return b
}

var anyKey = rapid.SampledFrom([]string{
	" ", " ", " ", " ", "enter", "backspace", "pgdown", "pgup", "tab", "shift+tab", "left", "right", "up", "down",
	"home", "end", "esc", "0", "1", "5", "9", "s", "p", "c", "e", "r", "a", "h", "u", "m", "n", "l", "t", "j", "j", "n", ".", "g", "x", "f", "?", "x", "v", "v", "k", "k", "i", "d", "y", "z", "w", "+", "-", "ctrl+a", "é", "霧", "f5",
})

// TestRandomWalk presses keys, clicks and resizes at random. Whatever happens,
// the frame fits, says what scripts read, and sends the terminal nothing but
// ink; and the log leads to where the screen stands.
func TestRandomWalk(t *testing.T) {
	books := []func() *book{harbourCrab, somewhat}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(books).Draw(t, "book")()
		look := Look{Colours: Colours(rapid.IntRange(0, 4).Draw(t, "colours")), Dark: rapid.Bool().Draw(t, "dark"), ASCII: rapid.Bool().Draw(t, "ascii")}
		shelf := &shelf{}
		w := NewWalk(WalkConfig{
			ID: "x", Title: "Harbour \x1b[2J crab 霧", State: counter.Begin(counter.NewPlan(b.proof)),
			Journal: shelf, Now: (&pinned{noon}).now, Look: look,
		})
		w.words = func(r *pattern.RowProof) []pattern.Word { return b.words[r] }
		w.refresh()
		m := &model{page: w}
		m.Init()
		m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
		for range rapid.IntRange(1, 60).Draw(t, "steps") {
			switch rapid.IntRange(0, 12).Draw(t, "what") {
			case 0:
				m.Update(tea.WindowSizeMsg{Width: rapid.IntRange(1, 260).Draw(t, "width"), Height: rapid.IntRange(1, 75).Draw(t, "height")})
			case 1:
				m.Update(tea.MouseMsg{X: rapid.IntRange(0, 260).Draw(t, "x"), Y: rapid.IntRange(0, 75).Draw(t, "y"),
					Action: tea.MouseActionPress, Button: tea.MouseButton(rapid.IntRange(0, 6).Draw(t, "button"))})
			case 2:
				m.Update(Safe{Walk: "x", Seq: w.appended})
			case 3:
				m.Update(Safe{Walk: "x", Seq: 0, Err: fmt.Errorf("disk \x1b]0;full\a")})
			case 4:
				m.Update(tickMsg{})
				m.Update(flashMsg{})
			default:
				m.Update(keyOf(anyKey.Draw(t, "key")))
			}
			checkFrame(t, m, w)
		}
		state := counter.Begin(w.state.Plan())
		for _, e := range shelf.events {
			var err error
			if state, err = state.Apply(e); err != nil {
				t.Fatalf("the log holds %+v: %v", e, err)
			}
		}
		if state.At() != w.state.At() {
			t.Fatalf("the log leads to %+v, the screen stands at %+v", state.At(), w.state.At())
		}
	})
}

// checkFrame says what is wrong with a frame.
func checkFrame(t *rapid.T, m *model, w *Walk) {
	frame := m.View()
	lines := strings.Split(frame, "\n")
	if m.broken != nil {
		t.Fatalf("%v\n%s", m.broken, m.broken.Stack)
	}
	if len(lines) != m.height {
		t.Fatalf("%d lines on a screen of %d", len(lines), m.height)
	}
	for i, l := range lines {
		if n := ansi.StringWidth(l); n > m.width {
			t.Fatalf("line %d is %d wide on a screen of %d: %q", i, n, m.width, l)
		}
	}
	plain := ansi.Strip(frame)
	if strings.TrimSpace(plain) == "" {
		t.Fatalf("a blank frame at %dx%d", m.width, m.height)
	}
	for _, r := range plain {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) {
			t.Fatalf("the frame sends %U", r)
		}
	}
	if !onlyInk(frame) {
		t.Fatalf("the frame sends more than ink: %q", frame)
	}
	if w.film.flash || w.film.slate.take > 0 || m.help != nil || w.mode == choosing || m.width < 40 || m.height < 12 {
		return
	}
	for _, s := range []string{w.scene.rowLine(), w.scene.stitchLine()} {
		if !w.scene.finished && !strings.Contains(plain, s) {
			t.Fatalf("the frame at %dx%d does not say %q:\n%s", m.width, m.height, s, plain)
		}
	}
	if w.scene.finished && !strings.Contains(plain, "finished") {
		t.Fatalf("the frame does not say finished:\n%s", plain)
	}
	if w.broken != nil && !strings.Contains(plain, "NOT SAVED") {
		t.Fatalf("the frame does not say NOT SAVED:\n%s", plain)
	}
}

// onlyInk reports whether every escape in a frame is one of colour or weight.
func onlyInk(frame string) bool {
	for i := strings.IndexByte(frame, '\x1b'); i >= 0; i = strings.IndexByte(frame, '\x1b') {
		frame = frame[i+1:]
		end := strings.IndexFunc(frame, func(r rune) bool { return !strings.ContainsRune("[0123456789;", r) })
		if end < 0 || frame[end] != 'm' || frame[0] != '[' {
			return false
		}
	}
	return true
}
