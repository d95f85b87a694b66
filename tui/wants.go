package tui

import (
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// Wants is how a maker wants the screens: her keys, what she wants to be told
// by a bell or a flash, and when to rest. A nil Wants is as it comes.
type Wants struct {
	Keys    *Keymap
	Signals [Signals]Signal
	Rest    time.Duration // of work without a break; 0 for no reminder
}

// Signal is how something is told to somebody who does not look.
type Signal uint8

// A signal may be both.
const (
	Bell  Signal = 1 << iota // the terminal's own
	Flash                    // the first line says it for a moment
)

// Occasion is something that can be told by a signal.
type Occasion uint8

// The occasions.
const (
	RowEnd       Occasion = iota // the row is full
	RepeatEnd                    // a pass of a repeat is done
	ColourChange                 // the next stitch is of another colour
	Mismatch                     // a count is not what it should be
	RestTime                     // it is time to rest the hands

	Signals // how many there are
)

var occasionWords = [Signals]string{"END OF THE ROW", "END OF THE REPEAT", "CHANGE THE COLOUR", "THE COUNT DIFFERS", "REST YOUR HANDS"}

// flashTime is how long a flash stands: long enough to be seen from the corner
// of an eye, too short to be in the way.
const flashTime = 700 * time.Millisecond

// keymap is the keys of a look.
func (l Look) keymap() *Keymap {
	if l.Wants == nil {
		return nil
	}
	return l.Wants.Keys
}

// named is what the maker reads of a key.
func (w *Walk) named(b key.Binding) string { return w.cfg.Look.keymap().name(b) }

func (b *Basket) named(k key.Binding) string { return b.cfg.Look.keymap().name(k) }

// occasion keeps that something is to be told.
func (w *Walk) occasion(o Occasion) { w.occasions = append(w.occasions, o) }

// lookFor finds what a tap has led to.
func (w *Walk) lookFor(before, after counter.State) {
	if before.At().Row != after.At().Row || before.At().Piece != after.At().Piece || before.At().Copy != after.At().Copy {
		return
	}
	here := after.Here()
	if passEnded(before.Here(), here) {
		w.occasion(RepeatEnd)
	}
	if after.AtRowEnd() && !before.AtRowEnd() {
		w.occasion(RowEnd)
	}
	for _, s := range here.Lead {
		if s.Op == pattern.OpColour {
			w.occasion(ColourChange)
			break
		}
	}
}

// passEnded reports whether a pass of a repeat ended between two stitches.
func passEnded(before, after pattern.Here) bool {
	n := len(before.Passes)
	if n == 0 {
		return false
	}
	if len(after.Passes) < n {
		return true
	}
	for i, p := range before.Passes {
		if after.Passes[i].N != p.N {
			return true
		}
	}
	return false
}

// restBreak is how long the hands must lie for a rest to count.
const restBreak = 5 * time.Minute

// mindRest sees whether it is time to rest the hands.
func (w *Walk) mindRest() {
	limit := time.Duration(0)
	if w.cfg.Look.Wants != nil {
		limit = w.cfg.Look.Wants.Rest
	}
	if limit <= 0 || w.busySince == 0 {
		return
	}
	due := time.Duration(w.now-w.busySince)*time.Millisecond >= limit && !w.state.Paused()
	if due && !w.restDue {
		w.occasion(RestTime)
	}
	w.restDue = due
}

// busy notes that the hands work, since when without a break.
func (w *Walk) busy(now int64) {
	if w.busySince == 0 || time.Duration(now-w.busyLast)*time.Millisecond >= restBreak {
		w.busySince, w.restDue = now, false
	}
	w.busyLast = now
}

// flashOverMsg ends a flash.
type flashOverMsg struct{ n int }

// signal tells what there is to tell, as the maker wants it.
func (m *model) signal() tea.Cmd {
	w, ok := m.page.(*Walk)
	if !ok || len(w.occasions) == 0 {
		return nil
	}
	occasions := w.occasions
	w.occasions = nil
	wants := w.cfg.Look.Wants
	if wants == nil {
		return nil
	}
	var cmds []tea.Cmd
	rung := false
	for _, o := range occasions {
		s := wants.Signals[o]
		if s&Bell != 0 && !rung && m.out != nil {
			rung = true
			out := m.out
			cmds = append(cmds, func() tea.Msg { _, _ = out.Write([]byte{'\a'}); return nil })
		}
		if s&Flash != 0 {
			m.flash = occasionWords[o]
			m.flashes++
			n := m.flashes
			cmds = append(cmds, tea.Tick(flashTime, func(time.Time) tea.Msg { return flashOverMsg{n} }))
		}
	}
	return tea.Batch(cmds...)
}
