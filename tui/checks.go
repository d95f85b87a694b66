package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
)

// correct takes the count given in mid-row: one that agrees is kept, one that
// does not is shown.
func (w *Walk) correct() {
	n, err := w.entry.number()
	if err != nil {
		w.note = sentence(err.Error())
		return
	}
	if n != w.state.Stitch() {
		w.enter(checking)
		return
	}
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Check, N: n}) {
		w.note = fmt.Sprintf("Your count agrees: %d.", n)
	}
	w.settle()
}

// trustCount puts the tally at her count.
func (w *Walk) trustCount() {
	n, err := w.entry.number()
	had := w.state.Stitch()
	w.enter(walking)
	if err == nil && w.do(counter.Event{Kind: counter.Count, N: n}) {
		w.note = fmt.Sprintf("The tally was %d; it is now %d by your own count.", had, n)
	}
	w.settle()
}

// keepCheck keeps the count and leaves the tally where it is.
func (w *Walk) keepCheck() {
	n, err := w.entry.number()
	w.enter(walking)
	if err == nil && w.do(counter.Event{Kind: counter.Check, N: n}) {
		w.note = fmt.Sprintf("Kept: %d counted where the tally is %d. %s finds the slip.", n, w.state.Stitch(), w.named(keyHunt))
	}
	w.settle()
}

// countAgain goes back to the count.
func (w *Walk) countAgain() {
	w.enter(counting)
	w.entry = entry{offer: w.state.Stitch()}
}
