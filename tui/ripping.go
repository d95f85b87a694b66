package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
)

// askUnravel asks how far the copy is to be ripped back.
func (w *Walk) askUnravel(to counter.Place) {
	w.enter(ripping)
	if rows := w.state.Plan().Rows(to.Piece); to.Row >= rows {
		to.Row, to.Stitch = max(rows-1, 0), 0
	}
	w.to = to
	w.entry = entry{offer: to.Stitch}
	if to == w.state.At() {
		w.entry.offer = 0
	}
}

// ripRow goes to a row before or after, and keeps none of it.
func (w *Walk) ripRow(step int) {
	last := min(w.state.Row(), w.state.Plan().Rows(w.to.Piece)-1)
	if row := w.to.Row + step; row < 0 || row > last {
		w.note = "There is no worked row further that way."
		return
	}
	w.to.Row += step
	w.entry = entry{}
	w.still = nil
}

// ripTo is the place that is asked for.
func (w *Walk) ripTo() (counter.Place, error) {
	n, err := w.entry.number()
	to := w.to
	to.Stitch = n
	return to, err
}

func (w *Walk) rip() {
	to, err := w.ripTo()
	if err != nil {
		w.note = sentence(err.Error())
		return
	}
	loss, err := w.state.Losing(to)
	if err != nil {
		w.note = sentence(err.Error())
		return
	}
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Unravel, Piece: to.Piece, Copy: to.Copy, Row: to.Row, N: to.Stitch}) {
		w.note = fmt.Sprintf("%s unravelled. %s brings them back.", count(loss.Stitches, "stitch"), w.named(keyBack))
	}
	w.settle()
}

// unravel asks how far, and shows what that takes.
func (f *frame) unravel(width int, box span) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	w := f.w
	to, err := w.ripTo()
	out = append(out, foldSpans([]span{{strong, fmt.Sprintf("Unravel to row %d, keeping of it ", w.to.Row+1)}, box, {strong, " stitches"}}, width)...)
	if err == nil {
		var loss counter.Loss
		if loss, err = w.state.Losing(to); err == nil {
			words := fmt.Sprintf("This rips %s of %s", count(loss.Stitches, "stitch"), count(int64(loss.Rows), "row"))
			if loss.Millis > 0 {
				words += ", " + clockTime(loss.Millis) + " of work"
			}
			if loss.Counted > 0 {
				words += "; " + count(int64(loss.Counted), "count") + " lost"
			}
			if loss.Markers > 0 {
				words += "; " + count(int64(loss.Markers), "marker") + " taken out"
			}
			add(lead, words+".")
		}
	}
	if err != nil {
		add(lead, sentence(err.Error()))
	}
	add(quiet, "Up and Down choose the row, digits the stitches kept, Enter unravels, Esc stays.")
	return out
}
