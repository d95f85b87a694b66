package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
)

// rowList is the rows of a copy of a piece, to look over and to go to.
type rowList struct {
	piece, copy int
	lit         int    // the row, from 0
	typed       string // a row number being typed
}

func (w *Walk) showRows() {
	at := w.state.At()
	w.enter(choosing)
	w.rows = rowList{piece: at.Piece, copy: at.Copy}
	w.light(at.Row)
}

// light lights a row of the list, the nearest there is.
func (w *Walk) light(row int) {
	w.rows.lit = max(min(row, w.state.Plan().Rows(w.rows.piece)-1), 0)
}

// turnTo shows the copy or piece before or after.
func (w *Walk) turnTo(step int) {
	plan := w.state.Plan()
	piece, copy := w.rows.piece, w.rows.copy+step
	for copy < 0 || copy >= plan.Copies(piece) {
		piece += step
		if piece < 0 || piece >= plan.Pieces() {
			w.note = "There is no further piece."
			return
		}
		copy = 0
		if step < 0 {
			copy = plan.Copies(piece) - 1
		}
	}
	w.rows = rowList{piece: piece, copy: copy}
	if at, ok := w.state.PlaceOf(piece, copy); ok {
		w.light(at.Row)
	}
}

func (w *Walk) rowsKey(k tea.KeyMsg) tea.Cmd {
	r := &w.rows
	typed := ""
	page := max(w.height-5, 1)
	switch {
	case key.Matches(k, keyUp):
		w.light(r.lit - 1)
	case key.Matches(k, keyDown):
		w.light(r.lit + 1)
	case key.Matches(k, keyPageUp):
		w.light(r.lit - page)
	case key.Matches(k, keyPageDn):
		w.light(r.lit + page)
	case key.Matches(k, keyTop):
		w.light(0)
	case key.Matches(k, keyBottom):
		w.light(w.state.Plan().Rows(r.piece) - 1)
	case key.Matches(k, keyPrevPc):
		w.turnTo(-1)
	case key.Matches(k, keyNextPc):
		w.turnTo(+1)
	case key.Matches(k, keyNumber):
		e := entry{digits: r.typed}
		if e.add(k.String()) {
			if n, err := e.number(); err == nil && n >= 1 && n <= int64(w.state.Plan().Rows(r.piece)) {
				typed = e.digits
				w.light(int(n) - 1)
				break
			}
		}
		w.note = "The piece has " + count(int64(w.state.Plan().Rows(r.piece)), "row") + "."
	case key.Matches(k, keyChoose):
		w.chooseRow()
	case key.Matches(k, keyEsc), key.Matches(k, keyRows):
		w.dismiss()
	default:
		w.idle(k.String())
	}
	w.rows.typed = typed
	return nil
}

// chooseRow goes to the lit row: to its beginning, or for the row in hand back
// to it as it is.
func (w *Walk) chooseRow() {
	to := counter.Place{Piece: w.rows.piece, Copy: w.rows.copy, Row: w.rows.lit}
	if at := w.state.At(); at.Piece == to.Piece && at.Copy == to.Copy && at.Row == to.Row {
		w.dismiss()
		return
	}
	if at, ok := w.state.PlaceOf(to.Piece, to.Copy); ok && at.Row == to.Row {
		to = at // where that copy was left
	}
	w.jump(to)
}

func (w *Walk) rowsMouse(m tea.MouseMsg) tea.Cmd {
	switch m.Button {
	case tea.MouseButtonWheelUp:
		w.light(w.rows.lit - 3)
	case tea.MouseButtonWheelDown:
		w.light(w.rows.lit + 3)
	case tea.MouseButtonLeft:
		top, first, n := w.rowWindow()
		if i := m.Y - top; i >= 0 && i < n {
			if row := first + i; row == w.rows.lit {
				w.chooseRow()
			} else {
				w.light(row)
			}
			return nil
		}
		w.note = "Click a row to light it, and again to go there."
	default:
		w.idle("that button of the mouse")
	}
	return nil
}

// rowWindow is the line on which the list begins, its first row, and how many
// rows it shows.
func (w *Walk) rowWindow() (top, first, n int) {
	top = 2
	room := max(w.height-top-2, 1)
	rows := w.state.Plan().Rows(w.rows.piece)
	first = max(min(w.rows.lit-room/2, rows-room), 0)
	return top, first, min(room, rows-first)
}

// rowList draws the list.
func (f *frame) rowList() {
	w := f.w
	plan, r := w.state.Plan(), w.rows
	f.heading()
	f.ends([]span{{strong, placeName(plan, counter.Place{Piece: r.piece, Copy: r.copy})}},
		[]span{{quiet, count(int64(plan.Rows(r.piece)), "row")}})
	_, first, n := w.rowWindow()
	for i := first; i < first+n; i++ {
		f.put(f.rowEntry(i)...)
	}
	lit := f.litRow(f.height - 3 - len(f.lines))
	for len(f.lines) < f.height-2-len(lit) {
		f.blank(1)
	}
	for _, l := range lit {
		f.put(l...)
	}
	f.lines = f.lines[:max(f.height-2, 0)]
	f.put(span{base, w.note})
	hint := "Enter goes there · Left, Right other pieces · Esc closes"
	if f.width < 60 {
		hint = "Enter goes there · Esc closes"
	}
	f.put(span{quiet, hint})
}

// litRow is the lit row in full, as large as it fits n lines under the list.
func (f *frame) litRow(n int) [][]span {
	proof, number := f.w.state.Plan().Row(f.w.rows.piece, f.w.rows.lit)
	if proof == nil {
		return nil
	}
	words := plainWords(ofOne(f.w.words(proof), proof, number))
	label := []span{{strong, rowLabel(proof, number)}}
	lines := f.brush().largest(figure2, words, 2, f.inner, n-1)
	if lines == nil {
		lines = fold(base, words, f.wordWidth())
	}
	if len(lines) == 0 || len(lines)+1 > n {
		return nil
	}
	return append([][]span{label}, lines...)
}

// rowEntry is one row of the list: where the maker is with it, its label and
// number, what was counted and how long it took, its words.
func (f *frame) rowEntry(i int) []span {
	w, r := f.w, f.w.rows
	proof, number := w.state.Plan().Row(r.piece, i)
	rec, _ := w.state.Record(r.piece, r.copy, i)
	at, _ := w.state.PlaceOf(r.piece, r.copy)
	sign, ink := "  ", base
	m, differs := rec.Mismatch()
	switch {
	case differs:
		sign, ink = "≠ ", lead
	case i == at.Row:
		sign, ink = "▸ ", strong
	case rec.Finished:
		sign, ink = "✓ ", done
	}
	count := "    –"
	if rec.Expected >= 0 {
		count = fmt.Sprintf("%5d", rec.Expected)
	}
	if differs {
		count += fmt.Sprintf(" (%d counted, %s)", m.Counted, overOrShort(m.Counted-m.Expected))
	}
	took := ""
	if rec.Millis > 0 {
		took = clockTime(rec.Millis)
	}
	wide := 18 // columns for the label
	if f.width < 60 {
		wide = 12
	}
	label := clip(rowLabel(proof, number), wide)
	open, shut := " ", " "
	if i == r.lit {
		open, shut, ink = "[", "]", hand
	}
	head := fmt.Sprintf("%s%s%4d %s%s%s", open, sign, i+1, label, strings.Repeat(" ", wide-cells(label)), count)
	var torn span // time that went into stitches that are no more
	if rec.Unravelled > 0 {
		torn = span{accent, clockTime(rec.Unravelled) + " unravelled "}
	}
	return []span{{ink, head + shut}, {quiet, fmt.Sprintf(" %7s ", took)}, torn, {quiet, plainWords(ofOne(w.words(proof), proof, number))}}
}
