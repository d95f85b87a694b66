package tui

import (
	"errors"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// hostile is text that would take over a terminal, or break its lines.
var hostile = []string{
	"\x1b]0;owned\a\x1b[2J\x1b[1;1H\x9b31m\x1bP+q\x1b\\",
	"\u202eesrever\u2066\u200b\u200d\ufeff\u2028\u2029\u0085",
	"\x00\x01\xff\xfe\xc0\x80\xed\xa0\x80",
	"👩‍👩‍👧‍👦🇨🇭﷽𒐫ｗｉｄｅ" + strings.Repeat("\u0301", 50),
	"\r\n\t\v\f\b\x7f",
}

// FuzzFrame takes bytes the whole way: read as a pattern, proven, walked with
// keys, and drawn. Whatever they are, a frame has its lines and its columns,
// and sends the terminal nothing but text and ink.
func FuzzFrame(f *testing.F) {
	const sound = "Title: Quay %s mat\nUS terms\nNotes: %s\n\nBody %s\nCh 7. %s\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc) %s\nRow 2: Ch 1, turn, %s, sc in each st across. (6 sc)\nFasten off.\n\nAssembly\nSew %s to it.\n"
	for _, h := range hostile {
		f.Add([]byte(strings.ReplaceAll(sound, "%s", h)), "   r?n"+h, uint8(80), uint8(24))
		f.Add([]byte(h), "e5\r\r", uint8(40), uint8(12))
	}
	f.Fuzz(func(t *testing.T, data []byte, keys string, width, height uint8) {
		if len(data) > 1<<14 || len(keys) > 100 {
			return // what is wrong in much text is wrong in little
		}
		text := string(data)
		proof := pattern.Read(text).Prove(pattern.Options{})
		look := Look{Colours: Colours(len(keys)) % 5, ASCII: len(data)%2 == 1}
		journal := &shelf{}
		w := NewWalk(WalkConfig{
			ID: "x", Title: text, State: counter.Begin(counter.NewPlan(proof)), Journal: journal,
			Now: (&pinned{noon}).now, Look: look, Changed: keys,
			Elsewhere: Elsewhere{Offer: keys, Write: func(string) error { return errors.New(text) }},
		})
		b := NewBasket(BasketConfig{
			Items: []Item{{ID: "x", Title: text, Done: 1, Total: 3, Touched: noon}, {Title: keys, Demo: true}},
			Now:   func() time.Time { return noon }, Look: look, Unsaved: func() error { return errors.New(keys) },
		})
		n := NewNotice(NoticeConfig{Title: text, Lines: []string{keys, text}, Look: look})
		for _, p := range []page{w, b, n} {
			m := &model{page: p}
			m.Init()
			m.Update(tea.WindowSizeMsg{Width: int(width) + 1, Height: int(height%70) + 1})
			fits(t, m)
			for _, r := range keys {
				m.Update(keyOf(string(r)))
				fits(t, m)
			}
			m.Update(Safe{Walk: "x", Err: errors.New(text)})
			fits(t, m)
			m.Update(turnMsg{err: errors.New(text)})
			fits(t, m)
			m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("w")})
			fits(t, m)
			m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keys), Paste: true})
			fits(t, m)
			if m.broken != nil {
				t.Fatalf("%v\n%s", m.broken, m.broken.Stack)
			}
		}
	})
}

// fits says what is wrong with the frame of any page.
func fits(t *testing.T, m *model) {
	t.Helper()
	frame := m.View()
	if m.broken != nil {
		t.Fatalf("%v\n%s", m.broken, m.broken.Stack)
	}
	lines := strings.Split(frame, "\n")
	if len(lines) != m.height {
		t.Fatalf("%d lines on a screen of %d", len(lines), m.height)
	}
	for i, l := range lines {
		if n := ansi.StringWidth(l); n > m.width {
			t.Fatalf("line %d is %d wide on a screen of %d: %q", i, n, m.width, l)
		}
	}
	for _, r := range ansi.Strip(frame) {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) {
			t.Fatalf("the frame sends %U", r)
		}
	}
	if !utf8.ValidString(frame) {
		t.Fatalf("the frame is no text: %q", frame)
	}
	if !onlyInk(frame) {
		t.Fatalf("the frame sends more than ink: %q", frame)
	}
}
