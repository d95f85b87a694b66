// Command bare is as little as a program with this terminal library can be:
// it shows a few words, and ends at any key. Others are measured beside it.
package main

import (
	"os"

	tea "github.com/charmbracelet/bubbletea"
)

type bare struct{}

func (bare) Init() tea.Cmd { return nil }

func (b bare) Update(m tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := m.(tea.KeyMsg); ok {
		return b, tea.Quit
	}
	return b, nil
}

func (bare) View() string { return "bare\n\nany key ends it" }

func main() {
	if _, err := tea.NewProgram(bare{}, tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(120)).Run(); err != nil {
		os.Exit(1)
	}
}
