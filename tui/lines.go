package tui

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/counter/film"
)

// The plain mode: lines in place of frames, for screen readers, braille
// displays and terminals that obey nothing. Keys are the same. After each key
// the lines that say something new are printed, and nothing is ever drawn over.

// teller prints what is new.
type teller struct {
	out  io.Writer
	last []string
}

// tell prints the lines that were not there before.
func (t *teller) tell(lines []string) {
	var b strings.Builder
	for _, l := range lines {
		l = strings.TrimSpace(l)
		if l == "" {
			continue
		}
		old := false
		for _, o := range t.last {
			old = old || o == l
		}
		if !old {
			b.WriteString(l)
			b.WriteString("\r\n") // the terminal is raw
		}
	}
	t.last = t.last[:0]
	for _, l := range lines {
		t.last = append(t.last, strings.TrimSpace(l))
	}
	if b.Len() > 0 {
		_, _ = io.WriteString(t.out, b.String()) // a terminal that is gone shows by other ways
	}
}

// spoken is all that the screen says at the moment, line by line.
func (m *model) spoken() []string {
	var lines []string
	ascii := m.page.ink().look.ASCII
	switch p := m.page.(type) {
	case interface{ spoken() []string }:
		lines = p.spoken()
	default:
		lines = strings.Split(ansi.Strip(m.page.view()), "\n")
	}
	if m.sheet != nil {
		lines = strings.Split(ansi.Strip(m.View()), "\n")
	}
	if m.help != nil {
		lines = []string{"Keys that work here; Esc closes."}
		for _, g := range m.help.groups {
			lines = append(lines, g.heading+":")
			for _, k := range g.keys {
				lines = append(lines, m.help.keymap.name(k)+": "+k.Help().Desc)
			}
		}
		lines = append(lines, m.help.note)
	}
	if m.locked {
		lines = append(lines, fmt.Sprintf("Locked: %s unlocks. %s did nothing.", m.keymap().name(keyLock), count(int64(m.knocks), "key")))
	}
	if m.flash != "" {
		lines = append(lines, m.flash)
	}
	if ascii {
		for i := range lines {
			lines[i] = asciiSigns.Replace(lines[i])
		}
	}
	return lines
}

func plainText(spans []span) string {
	var b strings.Builder
	for _, s := range spans {
		b.WriteString(s.text)
	}
	return b.String()
}

// spoken is a walk in lines: the row when it is another, the place, what is in
// hand, the question, the note.
func (w *Walk) spoken() (lines []string) {
	sc := w.scene
	if w.broken != nil {
		lines = append(lines, fmt.Sprintf("NOT SAVED: %s", Clean(w.broken.Error())))
	}
	f := w.frame()
	f.inner, f.width, f.height = wordsWide, wordsWide, 60
	switch {
	case w.mode == choosing:
		return append(lines, w.spokenRow(w.rows.lit), w.note)
	case sc.finished && w.mode == walking:
		lines = append(lines, "Finished: every row of every piece is worked.")
		for _, l := range f.account() {
			lines = append(lines, plainText(l))
		}
		return append(lines, w.note)
	}
	what := sc.title
	if p := sc.pieceLine(); p != "" {
		what += ", " + p
	}
	lines = append(lines, what)
	if sc.label != "" {
		var words strings.Builder
		for _, x := range sc.words {
			words.WriteString(x.text)
		}
		lines = append(lines, fmt.Sprintf("%s, %s: %s", sc.rowLine(), sc.label, strings.TrimSpace(words.String())))
	}
	if sc.remark != "" {
		lines = append(lines, sc.remark)
	}
	place := append([]string{sc.stitchLine()}, sc.facts...)
	if t := sc.words.text(wordLead); t != "" && w.mode == walking {
		place = append(place, "first "+t)
	}
	if t := sc.words.text(wordHand); t != "" && w.mode == walking {
		place = append(place, t)
	}
	lines = append(lines, strings.Join(place, ", "))
	if w.film.on {
		lines = append(lines, w.spokenFilm()...)
	}
	switch {
	case w.film.on && w.mode == fitting:
		for _, l := range f.fitTable(wordsWide, f.height) {
			lines = append(lines, plainText(l))
		}
	case w.film.on && w.mode == reeling:
		for _, l := range f.takes(wordsWide) {
			lines = append(lines, plainText(l))
		}
	case w.mode != walking:
		for _, l := range f.question(wordsWide) {
			lines = append(lines, plainText(l))
		}
	}
	if sc.behind != "" {
		lines = append(lines, sc.behind)
	}
	if w.restDue {
		lines = append(lines, "Rest your hands a while.")
	}
	return append(lines, w.note)
}

// spokenRow is a row of the list in words: which it is, what it comes to, how far
// the maker is with it, and what it says.
func (w *Walk) spokenRow(i int) string {
	r := w.rows
	proof, number := w.state.Plan().Row(r.piece, i)
	rec, _ := w.state.Record(r.piece, r.copy, i)
	at, _ := w.state.PlaceOf(r.piece, r.copy)
	parts := []string{fmt.Sprintf("%d of %d", i+1, w.state.Plan().Rows(r.piece)), rowLabel(proof, number)}
	if rec.Expected >= 0 {
		parts = append(parts, count(rec.Expected, "stitch"))
	}
	switch m, differs := rec.Mismatch(); {
	case differs:
		parts = append(parts, fmt.Sprintf("%d counted, %s", m.Counted, overOrShort(m.Counted-m.Expected)))
	case i == at.Row:
		parts = append(parts, "in hand")
	case rec.Finished:
		parts = append(parts, "worked")
	}
	if rec.Millis > 0 {
		parts = append(parts, clockTime(rec.Millis))
	}
	if rec.Unravelled > 0 {
		parts = append(parts, clockTime(rec.Unravelled)+" unravelled")
	}
	return strings.Join(parts, ", ") + ": " + plainWords(ofOne(w.words(proof), proof, number))
}

// spokenFilm is what the film screen says besides: the take, the words to say,
// and whether they fit what is filmed of the row. The take's seconds are left
// out, for every second would be a line.
func (w *Walk) spokenFilm() (lines []string) {
	n := w.state.Takes()
	switch {
	case w.state.Rolling():
		lines = append(lines, fmt.Sprintf("Film: take %d is on.", n))
	case n > 0:
		lines = append(lines, fmt.Sprintf("Film: no take is on, %d so far.", n))
	default:
		lines = append(lines, "Film: no take is on.")
	}
	if w.scene.finished {
		return lines
	}
	said := w.said()
	if said.Text == "" {
		return append(lines, "Nothing is said of this row.")
	}
	lines = append(lines, "To say: "+Clean(said.Text))
	fits := "words " + film.Seconds(said.Milliseconds) + " s"
	if w.rowFilmed() >= said.Milliseconds {
		fits += ", enough of the row is filmed"
	} else {
		fits += ", not enough of the row is filmed yet"
	}
	return append(lines, fits)
}

// spoken is a basket in lines: the part, the lit thing, what is typed.
func (b *Basket) spoken() (lines []string) {
	if b.unsaved != nil {
		lines = append(lines, "NOT SAVED: "+Clean(b.unsaved.Error()))
	}
	lines = append(lines, fmt.Sprintf("The basket, %s: %d", strings.ToLower(partNames[b.part]), len(b.shown)))
	switch it := b.item(); {
	case it == nil:
		lines = append(lines, b.empty())
	default:
		lines = append(lines, fmt.Sprintf("%d: %s, %s, %s", b.lit+1, it.Title, b.far(*it, 80), b.when(*it)))
	}
	if q := b.field.question(); q != "" {
		lines = append(lines, q)
	}
	if b.typing() {
		lines = append(lines, plainText(b.field.asks(wordsWide)))
	}
	return append(lines, b.note)
}

func (n *Notice) spoken() []string {
	return append(append([]string{n.cfg.Title}, n.cfg.Lines...), n.note, "Enter goes on.")
}
