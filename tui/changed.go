package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
)

// changedFile is what the file of the pattern says by now.
type changedFile struct {
	text    string
	changes counter.Changes
	unread  error // why it cannot be gone on with
}

// fileChanged asks what is to become of a file that has changed. Where no row
// of it has, there is nothing to ask.
func (w *Walk) fileChanged() {
	text := w.cfg.Changed
	if text == "" || w.cfg.Journal == nil {
		return
	}
	c, err := w.state.Compare(text)
	w.file = &changedFile{text, c, err}
	if err == nil && len(c.Rows) == 0 {
		if w.do(counter.Event{Kind: counter.Rewrite, Text: text}) {
			w.note = "The file has changed, but none of its rows. The walk goes on with it."
		}
		w.file = nil
		return
	}
	w.enter(rewriting)
	w.tellMore()
}

func (w *Walk) rewriteChoices() []choice {
	keep := choice{"Stay with the old", keyStay, act((*Walk).stay)}
	later := choice{"Ask next time", keyEsc, act((*Walk).dismiss)}
	if w.file.unread != nil {
		return []choice{keep, later}
	}
	return []choice{{"Go on with the new", keyMove, act((*Walk).move)}, keep, later}
}

// move goes on with what the file says.
func (w *Walk) move() {
	text := w.file.text
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Rewrite, Text: text}) {
		w.note = "The walk goes on with the new text. " + w.named(keyBack) + " brings the old one back."
	}
	w.settle()
}

// stay goes on with the text so far.
func (w *Walk) stay() {
	text := w.file.text
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Keep, Text: text}) {
		w.note = "The walk stays with the text it was begun with."
	}
	w.settle()
}

// rewrite tells what has changed.
func (f *frame) rewrite(width int) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	file := f.w.file
	if file.unread != nil {
		add(strong, "The file of this pattern has changed.")
		add(lead, sentence(file.unread.Error()))
		return out
	}
	rows := int64(0)
	for _, r := range file.changes.Rows {
		rows += int64(r.Last - r.First + 1)
	}
	add(strong, fmt.Sprintf("The file of this pattern has changed: %s.", count(rows, "row")))
	if file.changes.Made {
		add(lead, "✗ Rows that are made already are among them.")
	} else {
		add(good, "✓ No row that is made already is among them.")
	}
	plan := f.w.state.Plan()
	for _, r := range file.changes.Rows {
		where := fmt.Sprintf("row %d", r.First+1)
		if r.Last > r.First {
			where = fmt.Sprintf("rows %d-%d", r.First+1, r.Last+1)
		}
		if name := Clean(r.Piece); name != "" && plan.Pieces() > 1 {
			where = name + ", " + where
		}
		words, ink := where, base
		switch r.Kind {
		case counter.RowAdded:
			words += fmt.Sprintf(" is new (%s)", number(r.Now))
		case counter.RowGone:
			words += fmt.Sprintf(" is gone (%s)", number(r.Was))
		case counter.RowChanged:
			words += fmt.Sprintf(" says something else (%s", number(r.Was))
			if r.Now != r.Was {
				words += ", now " + number(r.Now)
			}
			words += ")"
		}
		if r.Made {
			words, ink = "made: "+words, lead
		}
		out = append(out, clipSpans([]span{{ink, words}, {quiet, " " + Clean(r.Words)}}, width))
	}
	return out
}

// number is a number of stitches that may not be known.
func number(n int64) string {
	if n < 0 {
		return "?"
	}
	return fmt.Sprint(n)
}
