package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Elsewhere writes a walk to a file of the maker's choice, for the time when
// the basket cannot take it.
type Elsewhere struct {
	Offer string                  // a path that is likely to do
	Write func(path string) error // called aside from the screen
}

// elsewhereSheet lies over a walk that is not saved and asks for the file.
type elsewhereSheet struct {
	walk    *Walk
	path    []rune // as typed so far
	note    string
	writing bool
}

// wroteMsg is what came of writing.
type wroteMsg struct {
	sheet *elsewhereSheet
	path  string
	err   error
}

func newElsewhere(w *Walk) *elsewhereSheet {
	return &elsewhereSheet{walk: w, path: []rune(w.cfg.Elsewhere.Offer)}
}

// canElsewhere reports whether a key that is meant to open the sheet may: a
// maker can have made a pedal of it.
func (m *model) canElsewhere(k tea.KeyMsg) bool {
	w, ok := m.page.(*Walk)
	return ok && w.cfg.Elsewhere.Write != nil && !slices.Contains(w.cfg.TapKeys, k.String())
}

// elsewhere opens the sheet, where there is anything to write.
func (m *model) elsewhere() {
	w := m.page.(*Walk)
	if w.broken == nil {
		w.note = w.named(keyElsewhere) + " writes a walk elsewhere while it cannot be saved: this one is."
		return
	}
	m.sheet = newElsewhere(w)
}

// sheetKey gives a key to the sheet.
func (m *model) sheetKey(k tea.KeyMsg) tea.Cmd {
	s := m.sheet
	s.note = ""
	switch {
	case k.Type == tea.KeyCtrlC:
		return tea.Quit
	case key.Matches(k, keyEsc):
		m.sheet = nil
	case k.Type == tea.KeyEnter:
		path := strings.TrimSpace(string(s.path))
		if path == "" || s.writing {
			s.note = "Name a file."
			return nil
		}
		s.writing = true
		write := s.walk.cfg.Elsewhere.Write
		return func() tea.Msg { return wroteMsg{s, path, write(path)} }
	case key.Matches(k, keyErase):
		s.path = s.path[:max(len(s.path)-1, 0)]
	case k.Type == tea.KeyCtrlU:
		s.path = nil
	case k.Type == tea.KeyRunes, k.Type == tea.KeySpace:
		s.path = append(s.path, k.Runes...)
	default:
		s.note = Clean(keyName(k.String())) + " does nothing here."
	}
	return nil
}

// wrote tells what came of writing: on the sheet if it failed, on the walk
// otherwise.
func (m *model) wrote(msg wroteMsg) {
	msg.sheet.writing = false
	if msg.err != nil {
		msg.sheet.note = sentence(msg.err.Error())
		return
	}
	msg.sheet.walk.tell("All of this walk is in " + msg.path + ". The basket still has to take it.")
	if m.sheet == msg.sheet {
		m.sheet = nil
	}
}

func (s *elsewhereSheet) view(t *theme, width, height int) string {
	c := newCanvas(t, width, height)
	m := span{base, strings.Repeat(" ", marginFor(width))}
	inner := max(width-2*len(m.text), 1)
	title := " ✗ NOT SAVED"
	if err := s.walk.broken; err != nil {
		title += ": " + Clean(err.Error())
	}
	title = clip(title, width)
	c.line(span{alarm, title + strings.Repeat(" ", max(width-cells(title), 0))})
	c.blank(1)
	add := func(r role, text string) {
		for _, l := range fold(r, text, min(inner, wordsWide)) {
			c.line(append([]span{m}, l...)...)
		}
	}
	add(base, "Write this walk, from its first stitch to the last, to a file on another disk:")
	c.blank(1)
	line := Clean(string(s.path)) + "_"
	for cells(line) > inner { // the end is where it is written
		line = string([]rune(line)[1:])
	}
	c.line(m, span{strong, line})
	c.blank(1)
	add(quiet, "Enter writes it, Backspace rubs out, Ctrl+U clears, Esc goes back to the row. tallyturn basket import takes it in again.")
	for len(c.lines) < height-1 {
		c.line()
	}
	c.lines = c.lines[:max(height-1, 0)]
	c.line(append([]span{m}, clipSpans([]span{{strong, s.note}}, inner)...)...)
	return c.String()
}
