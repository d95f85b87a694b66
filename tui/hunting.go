package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
)

// hunt begins the search for a slip in the row in hand, of which so many
// stitches are there.
func (w *Walk) hunt(counted int64) {
	if w.state.Finished() {
		w.note = fmt.Sprintf("Every row is worked. %s goes to a row; %s looks for a slip there.", w.named(keyRows), w.named(keyHunt))
		return
	}
	at := w.state.At()
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Seek, Piece: at.Piece, Copy: at.Copy, Row: at.Row, N: counted}) {
		w.seek()
	}
}

// huntCounted begins it with the count just given.
func (w *Walk) huntCounted() {
	if n, err := w.entry.number(); err == nil {
		w.hunt(n)
	}
}

// seek shows the hunt in hand as it stands.
func (w *Walk) seek() {
	h, ok := w.state.Hunt()
	if !ok {
		return
	}
	q, _ := h.Question()
	w.enter(hunting)
	w.entry = entry{offer: q.Expect}
}

func (w *Walk) huntChoices() []choice {
	h, _ := w.state.Hunt()
	leave := choice{"Leave the hunt", keyEsc, act((*Walk).leaveHunt)}
	back := choice{"Take it back", keyErase, act((*Walk).huntBack)}
	if _, more := h.Question(); more {
		return []choice{{fmt.Sprintf("It is %s", w.entry), keyAnswer, act((*Walk).answer)}, back, leave}
	}
	if slip, found := h.Slip(); found {
		to := counter.Place{Piece: slip.Piece, Copy: slip.Copy, Row: slip.Row, Stitch: slip.From}
		return []choice{{"Unravel to there", keyUnravel, act(func(w *Walk) { w.askUnravel(to) })}, leave, back}
	}
	return []choice{leave, back}
}

func (w *Walk) answer() {
	n, err := w.entry.number()
	if err != nil {
		w.note = sentence(err.Error())
		return
	}
	if w.do(counter.Event{Kind: counter.Answer, N: n}) {
		w.seek()
	}
}

// huntBack takes back what was done last, as a rule an answer.
func (w *Walk) huntBack() {
	h, _ := w.state.Hunt()
	w.back()
	if h.Asked() > 0 {
		w.note = "The last answer is taken back."
	}
}

func (w *Walk) leaveHunt() {
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Leave}) {
		w.note = "The hunt is over. " + w.named(keyBack) + " brings it back."
	}
	w.settle()
}

// hunt tells the question, or what was found.
func (f *frame) hunt(width int, box span) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	h, _ := f.w.state.Hunt()
	if q, more := h.Question(); more {
		ask := fmt.Sprintf("Row %d: count from %s to %s. There are ", q.Row+1, Clean(q.From.Words), Clean(q.To.Words))
		lines := fold(strong, ask, max(width-cells(box.text)-1, 1))
		if last := len(lines) - 1; last >= 0 {
			lines[last] = append(lines[last], span{base, " "}, box)
		}
		out = append(out, lines...)
		add(base, fmt.Sprintf("By the pattern %d. Digits give another number, Enter takes it.", q.Expect))
		for _, m := range []string{q.From.Words, q.To.Words} {
			if len(m) > len(markerWords) && m[:len(markerWords)] == markerWords {
				add(quiet, "A stretch ends before the stitch with the marker, and begins with it.")
				break
			}
		}
		left := "It may be anywhere in the row."
		if h.Asked() > 0 {
			left = fmt.Sprintf("Question %d; %s may hold the slip.", h.Asked()+1, count(h.Groups(), "group"))
		}
		add(quiet, left)
		return out
	}
	slip, found := h.Slip()
	if !found {
		add(good, "✓ The count agrees: there is no slip up to here.")
		add(quiet, "Esc goes on.")
		return out
	}
	out = append(out, f.bar(slip.Dev, fmt.Sprintf("row %d, %s", slip.Row+1, Clean(slip.Where)), width)...)
	add(base, Clean(slip.Mend))
	for i, r := range slip.Reasons[:min(len(slip.Reasons), 2)] {
		lead := "It may be "
		if i > 0 {
			lead = "or "
		}
		add(quiet, lead+Clean(r.Words)+".")
	}
	return out
}

// markerWords begin the words of a marker among the landmarks.
const markerWords = "the stitch with the marker"
