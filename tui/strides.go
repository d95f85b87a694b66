package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// strideName says how far a tap goes.
func strideName(n int64) string {
	switch n {
	case 1:
		return "a stitch"
	case counter.ByInstruction:
		return "an instruction"
	case counter.ByPass:
		return "a pass of the repeat"
	case counter.ByRow:
		return "the row"
	}
	return count(n, "stitch")
}

// nextStride changes how far a tap goes.
func (w *Walk) nextStride() {
	next := map[int64]int64{1: counter.ByInstruction, counter.ByInstruction: counter.ByPass, counter.ByPass: counter.ByRow}[w.state.Stride()]
	if next == 0 {
		next = 1
	}
	w.setStride(next)
}

// setStride makes a tap so far, and keeps that with the project.
func (w *Walk) setStride(n int64) {
	if !w.do(counter.Event{Kind: counter.SetStride, N: n}) {
		return
	}
	w.note = "A tap is now " + strideName(n) + "."
	if r, _ := w.state.Proof(); (n == counter.ByInstruction || n == counter.ByPass) && (r == nil || r.Trace == nil) {
		w.note += " This row was not worked out, so here it is a stitch."
	}
}

// ownStride makes the number being given the stride.
func (w *Walk) ownStride() {
	n, err := w.entry.number()
	w.enter(walking)
	if err != nil || n < 1 {
		w.note = "A tap is at least a stitch."
		return
	}
	w.setStride(n)
}

// under tells what lies under the next tap, where that is more than a stitch.
func under(s counter.State) string {
	n := s.Reach()
	if s.Stride() == 1 || s.Stride() == counter.ByRow || s.AtRowEnd() || s.Finished() {
		return ""
	}
	parts, more := s.Under(3)
	words := fmt.Sprintf("this tap: %s", count(n, "stitch"))
	for i, p := range parts {
		text := Clean(s.Plan().StepText(p.Step))
		if text == "" {
			continue
		}
		sep := ", "
		if i == 0 {
			sep = ": "
		}
		words += sep + text
	}
	if more > 0 {
		words += fmt.Sprintf(" and %d more", more)
	}
	return words
}

// mostLit is how many instructions under a tap are lit.
const mostLit = 40

// light shows further instructions to be in hand, as all of a long tap is.
func (w wording) light(parts []counter.Part, words []pattern.Word) {
	for i := range w {
		for _, p := range parts {
			if w[i].state == wordToCome && words[i].Step != nil && (holds(words[i].Step, p.Step) || holds(p.Step, words[i].Step)) {
				w[i].state = wordHand
			}
		}
	}
	w.sign()
}
