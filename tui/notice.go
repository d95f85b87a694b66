package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// NoticeConfig is what a notice needs.
type NoticeConfig struct {
	Title string
	Lines []string // each a paragraph
	Look  Look
	// Next gives the page that comes after; called aside from the screen.
	Next func() (Page, error)
}

// Notice is a page to be read before going on: what has happened to the
// basket. Make one with NewNotice.
type Notice struct {
	cfg           NoticeConfig
	theme         *theme
	top           int
	note          string
	width, height int
}

// NewNotice makes a notice.
func NewNotice(cfg NoticeConfig) *Notice {
	n := &Notice{cfg: cfg, theme: newTheme(cfg.Look)}
	n.cfg.Title = Clean(cfg.Title)
	n.cfg.Lines = nil
	for _, l := range cfg.Lines {
		n.cfg.Lines = append(n.cfg.Lines, Clean(l))
	}
	return n
}

func (n *Notice) open() tea.Cmd            { return tea.SetWindowTitle("tallyturn") }
func (n *Notice) close() error             { return nil }
func (n *Notice) resize(width, height int) { n.width, n.height = width, height }
func (n *Notice) tick()                    {}
func (n *Notice) draw()                    {}
func (n *Notice) ink() *theme              { return n.theme }
func (n *Notice) fail(err error)           { n.note = sentence(err.Error()) }

func (n *Notice) tell(note string) {
	if note != "" {
		n.note = Clean(note)
	}
}

func (n *Notice) idle(name string) {
	n.note = fmt.Sprintf("%s does nothing here. Enter goes on.", Clean(keyName(name)))
}

func (n *Notice) key(k tea.KeyMsg) tea.Cmd {
	n.note = ""
	switch {
	case key.Matches(k, keyUp):
		n.scroll(-1)
	case key.Matches(k, keyDown):
		n.scroll(1)
	case key.Matches(k, keyPageUp):
		n.scroll(-n.room())
	case key.Matches(k, keyPageDn):
		n.scroll(n.room())
	case key.Matches(k, keyChoose):
		return n.goOn()
	default:
		n.idle(k.String())
	}
	return nil
}

func (n *Notice) goOn() tea.Cmd {
	next := n.cfg.Next
	return func() tea.Msg {
		p, err := next()
		return turnMsg{page: p, err: err}
	}
}

func (n *Notice) mouse(m tea.MouseMsg) tea.Cmd {
	switch {
	case m.Action != tea.MouseActionPress:
	case m.Button == tea.MouseButtonWheelUp:
		n.scroll(-1)
	case m.Button == tea.MouseButtonWheelDown:
		n.scroll(1)
	case m.Button == tea.MouseButtonLeft:
		return n.goOn()
	}
	return nil
}

// room is how many lines of text are shown.
func (n *Notice) room() int { return max(n.height-4, 1) }

func (n *Notice) scroll(by int) {
	n.top = max(min(n.top+by, len(n.text())-n.room()), 0)
}

// text is the paragraphs, folded.
func (n *Notice) text() (lines [][]span) {
	for _, l := range n.cfg.Lines {
		lines = append(lines, fold(base, l, min(n.width-2*marginFor(n.width), wordsWide))...)
	}
	return lines
}

func (n *Notice) view() string {
	c := newCanvas(n.theme, n.width, n.height)
	m := span{base, strings.Repeat(" ", marginFor(n.width))}
	title := " ! " + n.cfg.Title
	c.line(span{alarm, title + strings.Repeat(" ", max(n.width-cells(title), 0))})
	c.blank(1)
	text := n.text()
	for i := n.top; i < min(n.top+n.room(), len(text)); i++ {
		c.line(append([]span{m}, text[i]...)...)
	}
	for len(c.lines) < n.height-1 {
		c.line()
	}
	c.lines = c.lines[:max(n.height-1, 0)]
	note := span{strong, "Enter goes on · q leaves"}
	switch {
	case n.note != "":
		note = span{base, n.note}
	case n.top+n.room() < len(text):
		note.text = "Down shows more · " + note.text
	}
	c.line(m, note)
	return c.String()
}
