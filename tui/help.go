package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// helpSheet lies over a page and tells every key.
type helpSheet struct {
	groups []keyGroup
	keymap *Keymap
	top    int // the first line shown
	note   string
}

// newHelp is the keys of the page in front.
func (m *model) newHelp() *helpSheet { return &helpSheet{groups: m.here(), keymap: m.keymap()} }

// keymap is the maker's keys.
func (m *model) keymap() *Keymap { return m.page.ink().look.keymap() }

// lines sets the keys out in a window, in the order they are declared: in two
// columns where they fit the window so, and one would not.
func (h *helpSheet) lines(width, height int) [][]span {
	one := h.set(h.groups, width)
	half := (width - columnGap) / 2
	if len(one) <= height || half < leastColumn {
		return one
	}
	for n := range h.groups {
		left, right := h.set(h.groups[:n], half), h.set(h.groups[n:], half)
		if len(left) <= height && len(right) <= height {
			return beside(left, right, half)
		}
	}
	return one
}

const (
	columnGap   = 4
	leastColumn = 44 // columns in which a key and what it does can be read
)

// beside sets two columns beside each other.
func beside(left, right [][]span, width int) [][]span {
	out := make([][]span, max(len(left), len(right)))
	for i := range out {
		if i < len(left) {
			out[i] = left[i]
		}
		if i < len(right) {
			pad := span{base, strings.Repeat(" ", width-spanCells(out[i])+columnGap)}
			out[i] = append(append(out[i], pad), right[i]...)
		}
	}
	return out
}

// set sets groups of keys out in a column.
func (h *helpSheet) set(groups []keyGroup, width int) [][]span {
	names := 0
	for _, g := range h.groups {
		for _, k := range g.keys {
			names = max(names, cells(h.keymap.name(k)))
		}
	}
	var out [][]span
	for i, g := range groups {
		if i > 0 {
			out = append(out, nil)
		}
		out = append(out, []span{{strong, g.heading}})
		for _, k := range g.keys {
			name := h.keymap.name(k)
			name += strings.Repeat(" ", names-cells(name)+2)
			for j, line := range fold(base, k.Help().Desc, max(width-len(name)-2, 8)) {
				if j > 0 {
					name = strings.Repeat(" ", len(name))
				}
				out = append(out, append([]span{{keycap, "  " + name}}, line...))
			}
		}
	}
	return out
}

func (h *helpSheet) view(t *theme, width, height int) string {
	c := newCanvas(t, width, height)
	margin := span{base, strings.Repeat(" ", marginFor(width))}
	room := max(height-2, 1)
	lines := h.lines(width-2*len(margin.text), room)
	top := min(h.top, max(len(lines)-room, 0))
	c.sides([]span{margin, {strong, "Keys"}, {quiet, " · those that work here"}}, []span{{quiet, "Esc closes"}, margin})
	for _, l := range lines[top:min(top+room, len(lines))] {
		c.line(append([]span{margin}, l...)...)
	}
	for len(c.lines) < height-1 {
		c.line()
	}
	foot := h.note
	if foot == "" && top+room < len(lines) {
		foot = "Down shows more"
	}
	c.line(margin, span{quiet, foot})
	return c.String()
}

// scroll moves the sheet by n lines.
func (m *model) scrollHelp(n int) {
	room := max(m.height-2, 1)
	last := max(len(m.help.lines(m.width-2*marginFor(m.width), room))-room, 0)
	m.help.top = min(max(m.help.top+n, 0), last)
}

func (m *model) helpKey(k tea.KeyMsg) {
	m.help.note = ""
	page := max(m.height-3, 1)
	switch {
	case key.Matches(k, keyEsc), key.Matches(k, keyHelp), key.Matches(k, keyPress):
		m.help = nil
	case key.Matches(k, keyUp):
		m.scrollHelp(-1)
	case key.Matches(k, keyDown):
		m.scrollHelp(1)
	case key.Matches(k, keyPageUp):
		m.scrollHelp(-page)
	case key.Matches(k, keyPageDn):
		m.scrollHelp(page)
	case key.Matches(k, keyTop):
		m.scrollHelp(-1 << 20)
	case key.Matches(k, keyBottom):
		m.scrollHelp(1 << 20)
	default:
		m.help.idle(k.String())
	}
}

func (h *helpSheet) idle(name string) {
	h.note = keyName(Clean(name)) + " does nothing here. Esc closes the keys."
}

func (m *model) helpMouse(e tea.MouseMsg) tea.Cmd {
	if e.Action != tea.MouseActionPress {
		return nil
	}
	switch e.Button {
	case tea.MouseButtonWheelUp:
		m.scrollHelp(-3)
	case tea.MouseButtonWheelDown:
		m.scrollHelp(3)
	default:
		m.help = nil
	}
	return nil
}
