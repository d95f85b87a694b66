package tui

import (
	"fmt"
	"runtime/debug"

	tea "github.com/charmbracelet/bubbletea"
)

// Breakdown is the error of a screen that came upon a mistake of its own. The
// terminal is put back, and what was tapped is on its way to the disk.
type Breakdown struct {
	Reason any
	Stack  []byte // where it happened, for a report
}

func (b *Breakdown) Error() string { return fmt.Sprintf("the screen broke down: %v", b.Reason) }

// breakdown ends the screen in good order where it would panic: with the
// terminal put back and everything tapped kept. It is deferred.
func (m *model) breakdown(cmd *tea.Cmd) {
	r := recover()
	if r == nil {
		return
	}
	if m.broken == nil {
		m.broken = &Breakdown{Reason: r, Stack: debug.Stack()}
	}
	if cmd != nil {
		*cmd = tea.Quit
	}
}

// close closes the page, whatever state it is in.
func (m *model) close() (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the end of the walk is not kept: %v", r)
		}
	}()
	return m.page.close()
}
