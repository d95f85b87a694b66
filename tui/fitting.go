package tui

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter/film"
)

// fitChoices are the buttons of the fit.
func (w *Walk) fitChoices() []choice {
	list := []choice{{"Close", keyCloseFit, act((*Walk).dismiss)}}
	if m, ok := w.offered(); ok {
		list = append([]choice{{capital(m.String()), keyMend, act((*Walk).takeMend)}}, list...)
	}
	choose := func(label string, k key.Binding, c film.Choice) choice {
		return choice{label, k, act(func(w *Walk) { w.choose(c) })}
	}
	return append(list,
		choose("Full", keyFull, film.Choice{Way: film.Full}),
		choose("Slow", keySlow, film.Choice{Way: film.Slow}),
		choose("Within", keyWithin, film.Choice{Way: film.Within}),
		choose("Cut", keyShorten, film.Choice{Way: film.Shorten}),
		choose("Out", keyLeaveOut, film.Choice{Way: film.Out}),
		choose("Usual", keyUsual, film.Choice{}),
		choice{"Alike", keyAlike, act((*Walk).nextAlike)},
		choice{"Longer", keyLonger, act(func(w *Walk) { w.stretchAlike(1000) })},
		choice{"Shorter", keyShorter, act(func(w *Walk) { w.stretchAlike(-1000) })})
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// fitKey does what a key says to the fit.
func (w *Walk) fitKey(k tea.KeyMsg) bool {
	switch {
	case key.Matches(k, keyUp):
		w.pickFit(-1)
	case key.Matches(k, keyDown):
		w.pickFit(+1)
	case key.Matches(k, keyFaster):
		w.choose(film.Choice{Way: film.Speed, N: int64(k.String()[0] - '0')})
	case key.Matches(k, keyBack):
		w.backInFit()
	case key.Matches(k, keyLight), key.Matches(k, keyLightB), key.Matches(k, keyPress), key.Matches(k, keyEsc):
		return false
	default:
		for _, c := range w.fitChoices() {
			if key.Matches(k, c.key) {
				c.press(w)
				return true
			}
		}
		w.idle(k.String())
	}
	return true
}

// backInFit takes a choice back, and nothing else.
func (w *Walk) backInFit() {
	kind, _ := w.state.Last()
	if !kind.OfFilm() {
		w.note = "No choice is left to be taken back here."
		return
	}
	w.back()
	w.enterFit()
}

func (w *Walk) enterFit() {
	pick := w.film.pick
	if len(w.fit().Rows) == 0 {
		return
	}
	w.enter(fitting)
	w.film.pick = pick
	w.pickFit(0)
}

func (w *Walk) pickFit(step int) {
	w.film.pick = max(min(w.film.pick+step, len(w.fit().Rows)-1), 0)
}

// picked is the lit row.
func (w *Walk) picked() film.RowFit { return w.fit().Rows[w.film.pick] }

// offered is the first mend of the lit row that is a choice.
func (w *Walk) offered() (film.Mend, bool) {
	for _, m := range w.picked().Mends {
		if m.Choice.Way != film.AsUsual {
			return m, true
		}
	}
	return film.Mend{}, false
}

func (w *Walk) takeMend() {
	if m, ok := w.offered(); ok {
		w.choose(m.Choice)
	}
}

// choose keeps what is to be done with the lit row.
func (w *Walk) choose(c film.Choice) {
	e, ok := w.picked().Choose(c)
	if !ok {
		w.note = "What is no row is shown in full."
		return
	}
	if w.picked().Chosen == c {
		w.note = "It is so already."
		return
	}
	w.do(e)
}

// alikeWays is the order in which a changes them.
var alikeWays = []film.Way{film.Within, film.Shorten, film.Full, film.Out}

func (w *Walk) nextAlike() {
	c := w.session().Alike
	n := cmp.Or(c.N, film.Usual.N)
	for i, way := range alikeWays {
		if way == c.Way {
			c.Way = alikeWays[(i+1)%len(alikeWays)]
			break
		}
	}
	c.N = n
	w.do(c.ForAlike())
}

// stretchAlike makes rows alike longer or shorter, by ms.
func (w *Walk) stretchAlike(ms int64) {
	c := w.session().Alike
	if c.Way != film.Within && c.Way != film.Shorten {
		w.note = "Rows alike are " + c.String() + ": " + w.named(keyAlike) + " changes that."
		return
	}
	if c.N+ms < 1000 {
		w.note = "A second is the least."
		return
	}
	c.N += ms
	w.do(c.ForAlike())
}

// fitTable is the fit of every row, the lit one in view, in at most high lines.
func (f *frame) fitTable(width, high int) (out [][]span) {
	fit := f.w.fit()
	head := "film " + clockTime(fit.Length)
	for _, p := range fit.Parts {
		if p.Piece >= 0 && len(fit.Parts) > 1 {
			head += " · " + Clean(p.Title) + " " + clockTime(p.Film)
		}
	}
	out = append(out, []span{{strong, clip(head, width)}})
	if high > 6 {
		out = append(out, []span{{quiet, clip("rows alike: "+f.w.session().Alike.String(), width)}})
	}
	name := 0
	for _, r := range fit.Rows {
		name = max(name, cells(Clean(f.w.fitName(r))))
	}
	name = min(name, max(width/3, 8))
	wide := width >= 70
	if wide {
		out = append(out, []span{{quiet, fmt.Sprintf("  %-*s %7s %7s %7s", name, "", "footage", "words", "film")}})
	}
	room := max(high-len(out)-2, 1)
	first := max(min(f.w.film.pick-room/2, len(fit.Rows)-room), 0)
	for i := first; i < min(first+room, len(fit.Rows)); i++ {
		r := fit.Rows[i]
		out = append(out, f.fitLine(r, i == f.w.film.pick, name, width, wide))
	}
	r := fit.Rows[f.w.film.pick]
	words := r.String()
	if r.Verdict == film.NoWords && r.With != "" {
		words = "said with " + r.With
	}
	for i, m := range r.Mends {
		words += []string{": ", " or "}[min(i, 1)] + m.String()
	}
	if r.Like != "" {
		words += "; made as " + r.Like
	}
	out = append(out, fold(accent, Clean(words), width)...)
	return out
}

// fitName is what a row is called in the fit.
func (w *Walk) fitName(r film.RowFit) string {
	if r.Title != "" {
		return r.Title
	}
	if r.Piece >= 0 && w.state.Plan().Pieces() > 1 {
		if n := pieceName(w.state.Plan(), r.Piece); n != "" {
			return r.Label + ", " + n
		}
	}
	return r.Label
}

// fitLine is a row of the table. What is wrong is told by a sign.
func (f *frame) fitLine(r film.RowFit, picked bool, name, width int, wide bool) []span {
	sign, ink := "  ", base
	switch r.Verdict {
	case film.Fits:
		sign, ink = "✓ ", good
	case film.TooLong:
		sign, ink = "✗ ", lead
	case film.TooShort:
		sign = "· "
	}
	label := clip(Clean(f.w.fitName(r)), name)
	label += strings.Repeat(" ", max(name-cells(label), 0))
	words := ""
	if r.Speech > 0 {
		words = film.Seconds(r.Speech)
	}
	text := fmt.Sprintf("%s %7s %7s", label, words, film.Seconds(r.Film))
	if wide {
		text = fmt.Sprintf("%s %7s %7s %7s  %s", label, film.Seconds(r.Footage), words, film.Seconds(r.Film), r.Done)
		if said := fmt.Sprintf("%*s%s", max(21-cells(r.Done.String()), 1), "", r); cells(text)+cells(said)+2 <= width {
			text += said
		}
	}
	if picked {
		return clipSpans([]span{{ink, sign}, {hand, text}}, width)
	}
	return clipSpans([]span{{ink, sign}, {base, text}}, width)
}
