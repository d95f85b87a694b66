package tui

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
)

// mark puts a marker into the stitch in hand, or takes it out.
func (w *Walk) mark() {
	if w.state.Finished() {
		w.note = "Every row is worked: there is no stitch in hand to mark."
		return
	}
	at := w.state.At()
	if n, known := w.state.Expect(); known && n > 0 {
		at.Stitch = min(at.Stitch, n-1) // the last stitch of a full row
	}
	kind, done := counter.Mark, "has a marker"
	if _, there := w.state.MarkerAt(at); there {
		kind, done = counter.Unmark, "has no marker any more"
	}
	if w.do(counter.Event{Kind: kind, Piece: at.Piece, Copy: at.Copy, Row: at.Row, N: at.Stitch}) {
		w.note = fmt.Sprintf("Stitch %d %s. %s lists them.", at.Stitch+1, done, w.named(keyList))
	}
}

// mostNote is how many characters a note may have.
const mostNote = 500

// writeNote opens the note on the row in hand.
func (w *Walk) writeNote() {
	at := w.state.At()
	if w.state.Finished() {
		w.note = fmt.Sprintf("Every row is worked. %s goes to a row; %s notes something there.", w.named(keyRows), w.named(keyNote))
		return
	}
	w.enter(noting)
	w.draft = w.state.NoteOn(at.Piece, at.Copy, at.Row)
}

// typing reports whether keys are letters at the moment.
func (w *Walk) typing() bool { return w.mode == noting || w.filmTyping() }

// noteKey takes a key while a note is written.
func (w *Walk) noteKey(k tea.KeyMsg) {
	w.still = nil
	switch {
	case key.Matches(k, keyKeepNote):
		w.keepNote()
	case key.Matches(k, keyDrop):
		w.dismiss()
		w.note = "The note is as it was."
	case key.Matches(k, keyErase):
		_, n := utf8.DecodeLastRuneInString(w.draft)
		w.draft = w.draft[:len(w.draft)-n]
	case k.Type == tea.KeyRunes || k.Type == tea.KeySpace:
		text := strings.Join(strings.Fields(" "+string(k.Runes)+" "), " ")
		if k.Type == tea.KeySpace || !k.Paste {
			text = string(k.Runes)
		}
		if utf8.RuneCountInString(w.draft)+utf8.RuneCountInString(text) > mostNote {
			w.note = fmt.Sprintf("A note has room for %d letters.", mostNote)
			return
		}
		w.draft += text
	default:
		w.note = keyName(Clean(k.String())) + " does nothing in a note. Enter keeps it, Esc leaves it."
	}
}

func (w *Walk) keepNote() {
	at, text := w.state.At(), strings.TrimSpace(w.draft)
	w.enter(walking)
	if text == w.state.NoteOn(at.Piece, at.Copy, at.Row) {
		w.note = "The note is as it was."
		return
	}
	if w.do(counter.Event{Kind: counter.Note, Piece: at.Piece, Copy: at.Copy, Row: at.Row, Text: text}) {
		w.note = "The note is kept with the row. " + w.named(keyList) + " lists them."
		if text == "" {
			w.note = "The row has no note any more."
		}
	}
	w.settle()
}

// listed is a thing in the list of markers, notes and differences.
type listed struct {
	at    counter.Place
	words string
	out   counter.Kind // the event that takes it out; 0 where it is to stay
}

// list gathers what can be listed.
func (w *Walk) list() (out []listed) {
	plan := w.state.Plan()
	where := func(piece, copy, row int) string {
		words := fmt.Sprintf("row %d", row+1)
		if plan.Pieces() > 1 || plan.Copies(piece) > 1 {
			words = placeName(plan, counter.Place{Piece: piece, Copy: copy}) + ", " + words
		}
		return words
	}
	for m := range w.state.Markers() {
		words := fmt.Sprintf("marker  %s, stitch %d", where(m.Piece, m.Copy, m.Row), m.Stitch+1)
		if m.Text != "" {
			words += ": " + Clean(m.Text)
		}
		out = append(out, listed{m.Place, words, counter.Unmark})
	}
	for n := range w.state.Notes() {
		out = append(out, listed{counter.Place{Piece: n.Piece, Copy: n.Copy, Row: n.Row},
			"note    " + where(n.Piece, n.Copy, n.Row) + ": " + Clean(n.Text), counter.Note})
	}
	for m := range w.state.Mismatches() {
		out = append(out, listed{counter.Place{Piece: m.Piece, Copy: m.Copy, Row: m.Row},
			fmt.Sprintf("differs %s: %d for %d, %s", where(m.Piece, m.Copy, m.Row), m.Counted, m.Expected, overOrShort(m.Counted-m.Expected)), 0})
	}
	return out
}

func (w *Walk) showList() {
	if len(w.list()) == 0 {
		w.note = fmt.Sprintf("No markers, notes or differences yet. %s marks the stitch in hand, %s notes something on the row.", w.named(keyMark), w.named(keyNote))
		return
	}
	w.enter(listing)
	w.pick = 0
	w.still = nil
}

func (w *Walk) pickListed(step int) {
	n := len(w.list())
	w.pick = max(min(w.pick+step, n-1), 0)
	w.still = nil
}

func (w *Walk) goToListed() {
	if all := w.list(); w.pick < len(all) {
		to := all[w.pick].at
		if to == w.state.At() {
			w.dismiss()
			w.note = "You are there."
			return
		}
		w.jump(to)
	}
}

// takeOut takes a marker or a note away.
func (w *Walk) takeOut() {
	all := w.list()
	if w.pick >= len(all) {
		return
	}
	x := all[w.pick]
	if x.out == 0 {
		w.note = "A difference goes when its row is counted again or unravelled."
		return
	}
	if w.do(counter.Event{Kind: x.out, Piece: x.at.Piece, Copy: x.at.Copy, Row: x.at.Row, N: x.at.Stitch}) {
		w.note = "It is taken out. " + w.named(keyBack) + " in the row brings it back."
	}
	w.pickListed(0)
	if len(w.list()) == 0 {
		w.dismiss()
	}
}

// list shows what there is, the lit one in view.
func (f *frame) list(width int) (out [][]span) {
	all := f.w.list()
	out = append(out, []span{{strong, "Markers, notes and differences"}})
	const shown = 6
	first := max(min(f.w.pick-shown/2, len(all)-shown), 0)
	for i := first; i < min(first+shown, len(all)); i++ {
		text, ink := "  "+all[i].words, base
		if i == f.w.pick {
			text, ink = handOpen+all[i].words+handClose, hand
		}
		out = append(out, []span{{ink, clip(text, width)}})
	}
	if n := len(all) - shown; n > 0 {
		out = append(out, []span{{quiet, fmt.Sprintf("%d of %d", f.w.pick+1, len(all))}})
	}
	return out
}

// markerFact names the markers of the row in hand.
func markerFact(s counter.State) string {
	at := s.At()
	var where []string
	for _, m := range s.MarkersIn(at.Piece, at.Copy, at.Row) {
		where = append(where, fmt.Sprint(m.Stitch+1))
	}
	if len(where) == 0 {
		return ""
	}
	if len(where) > 4 {
		where = append(where[:4], "…")
	}
	return "marker in " + strings.Join(where, ", ")
}
