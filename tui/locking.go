package tui

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// unlock takes a key while the keys are locked: only one does anything.
func (m *model) unlock(k tea.KeyMsg) {
	if slices.Contains(m.keymap().effective(keyLock), k.String()) {
		m.locked = false
		m.page.tell("The keys are unlocked.")
		return
	}
	m.knocks += max(len(k.Runes), 1)
}

// over lays what is not the page's own over its frame: a flash over the first
// line, the lock over the last.
func (m *model) over(frame string) string {
	if m.flash == "" && !m.locked {
		return frame
	}
	t := m.page.ink()
	lines := strings.Split(frame, "\n")
	bar := func(text string) string {
		text = clip(text, m.width)
		return t.line(m.width, []span{{alarm, text + strings.Repeat(" ", max(m.width-cells(text), 0))}})
	}
	if m.flash != "" {
		lines[0] = bar(" ▸ " + m.flash)
	}
	if m.locked {
		text := " LOCKED · " + m.keymap().name(keyLock) + " unlocks"
		if did := " · " + count(int64(m.knocks), "key") + " did nothing"; m.knocks > 0 && cells(text+did) <= m.width {
			text += did
		} else if m.knocks > 0 {
			text += fmt.Sprintf(" · %d ignored", m.knocks)
		}
		lines[len(lines)-1] = bar(text)
	}
	return strings.Join(lines, "\n")
}
