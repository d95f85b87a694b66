package tui

import (
	"fmt"
	"strings"
	"time"

	"crochet/tallyturn/counter"
)

// paced is the pace that was last worked out, and for which moment.
type paced struct {
	at   counter.Place // without the stitch
	rows int64         // rows done in all
	pace counter.Pace
	any  bool
}

// learn works the pace out anew where a row was ended or taken back.
func (w *Walk) learn() {
	at := w.state.At()
	at.Stitch = 0
	rows, _ := w.state.Rows()
	if p := &w.paced; !p.any || p.at != at || p.rows != rows {
		w.paced = paced{at, rows, w.state.Pace(), true}
	}
}

// outlook is how much longer the row and the rest will take, in a line; ""
// while nobody can know.
func (w *Walk) outlook() string {
	if w.state.Finished() || w.state.Stitch() > 0 {
		return "" // it is told at the beginning of a row
	}
	w.learn()
	o := w.state.Outlook(w.paced.pace)
	var parts []string
	for _, x := range []struct {
		what string
		f    counter.Forecast
	}{{"this row", o.Row}, {"all of it", o.Project}} {
		if x.f.Known && x.f.High > 0 {
			parts = append(parts, x.what+" "+stretchWords(x.f)+" more")
		}
	}
	return strings.Join(parts, " · ")
}

// showPace shows the times.
func (w *Walk) showPace() {
	w.learn()
	w.enter(timing)
}

// stretchWords is a range of time: "40 to 55 s", "12 to 16 min".
func stretchWords(f counter.Forecast) string {
	low, high := time.Duration(f.Low)*time.Millisecond, time.Duration(f.High)*time.Millisecond
	unit, name := time.Second, "s"
	switch {
	case high >= 10*time.Hour:
		unit, name = time.Hour, "h"
	case high >= 2*time.Minute:
		unit, name = time.Minute, "min"
	}
	from, to := int64(low/unit), int64((high+unit-1)/unit)
	if from == to {
		return fmt.Sprintf("%d %s", to, name)
	}
	return fmt.Sprintf("%d to %d %s", from, to, name)
}

// pace tells how fast the maker is, and how long the rest may take.
func (f *frame) pace(width int) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	w := f.w
	p := w.paced.pace
	head := fmt.Sprintf("Your pace, from %s", count(int64(p.Rows), "row"))
	var kinds []string
	for _, k := range p.Kinds {
		if k.PerMinute > 0 {
			kinds = append(kinds, fmt.Sprintf("%.0f %s a minute", k.PerMinute, Clean(k.Name)))
		}
	}
	if len(kinds) > 0 {
		head += ": " + strings.Join(kinds, ", ")
	}
	add(strong, head+".")
	o := w.state.Outlook(p)
	for _, x := range []struct {
		what string
		f    counter.Forecast
	}{{"this row  ", o.Row}, {"this piece", o.Copy}, {"all of it ", o.Project}} {
		words, ink := x.f.Why, quiet
		if x.f.Known {
			words, ink = stretchWords(x.f)+" more", base
		}
		if x.f.Known && x.f.Blind > 0 {
			words += fmt.Sprintf(", without %s of no known number", count(x.f.Blind, "row"))
		}
		out = append(out, []span{{quiet, "  " + x.what + "  "}, {ink, words}})
	}
	add(quiet, "Four times in five the truth lies in the range. Pauses and idle time do not count.")
	return out
}
