package tui

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
)

// slip is what is noted on a take: the slip of paper that goes with the card
// of the camera.
type slip struct {
	take   int       // from 0
	field  int       // the one being typed
	fields [3]string // the camera's file, its timecode, when the clap is seen
	were   [3]string
}

var slipNames = [3]string{"the camera's file", "its first timecode", "the clap, in seconds"}

// mostSlip is how many characters each may have.
const mostSlip = 120

// noteCamera opens the notes on the take that is on, or the last.
func (w *Walk) noteCamera() {
	if w.state.Takes() == 0 {
		w.note = w.notFilmed()
		return
	}
	w.enter(slipping)
	w.slipOf(w.state.Takes() - 1)
}

// slipOf takes up the notes on a take.
func (w *Walk) slipOf(take int) {
	t := w.session().Takes[take]
	clap := ""
	if t.ClapAt > 0 {
		clap = strings.TrimRight(strings.TrimRight(fmt.Sprintf("%d.%03d", t.ClapAt/1000, t.ClapAt%1000), "0"), ".")
	}
	s := slip{take: take, fields: [3]string{t.Camera, t.Timecode, clap}}
	s.were = s.fields
	w.film.slip = s
}

// slipKey takes a key while the notes on a take are written.
func (w *Walk) slipKey(k tea.KeyMsg) {
	s := &w.film.slip
	switch {
	case key.Matches(k, keyKeepNote):
		w.keepSlip()
	case key.Matches(k, keyDrop):
		w.dismiss()
		w.note = "What is noted on the take is as it was."
	case key.Matches(k, keyNextField):
		s.field = (s.field + 1) % len(s.fields)
	case key.Matches(k, keyPrevField):
		s.field = (s.field + len(s.fields) - 1) % len(s.fields)
	case key.Matches(k, keyPageUp), key.Matches(k, keyPageDn):
		step := 1
		if key.Matches(k, keyPageUp) {
			step = -1
		}
		to := s.take + step
		if to < 0 || to >= w.state.Takes() {
			w.note = "There is no further take that way."
			return
		}
		if w.writeSlip() {
			field := s.field
			w.slipOf(to)
			w.film.slip.field = field
		}
	default:
		if !typeInto(&s.fields[s.field], k, mostSlip) {
			w.note = keyName(Clean(k.String())) + " does nothing here. Enter keeps it, Tab goes to the next line."
		}
	}
}

func (w *Walk) keepSlip() {
	if !w.writeSlip() {
		return
	}
	w.enter(walking)
	w.settle()
}

// writeSlip keeps what is noted; false where something cannot be.
func (w *Walk) writeSlip() bool {
	s := w.film.slip
	for i := range s.fields {
		s.fields[i] = strings.TrimSpace(s.fields[i])
	}
	clap, err := clapMillis(s.fields[2])
	switch {
	case s.fields[1] != "" && !timecode().MatchString(s.fields[1]):
		w.note = "A timecode is hours, minutes, seconds and frames: 01:00:00:00."
		w.film.slip.field = 1
		return false
	case err != nil:
		w.note = "The clap is seen so many seconds after the file begins: 4.2."
		w.film.slip.field = 2
		return false
	}
	if s.fields == s.were {
		w.note = "What is noted on the take is as it was."
		return true
	}
	kept := true
	for i, e := range []counter.Event{
		{Kind: counter.Camera, Row: s.take, Text: s.fields[0]},
		{Kind: counter.Timecode, Row: s.take, Text: s.fields[1]},
		{Kind: counter.Clap, Row: s.take, N: clap},
	} {
		if s.fields[i] != s.were[i] {
			kept = w.do(e) && kept
		}
	}
	if kept {
		w.note = fmt.Sprintf("It is kept with take %d.", s.take+1)
	}
	return true
}

// timecode is what one looks like; whether it can be depends on the rate.
var timecode = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d\d:[0-5]\d:[0-5]\d[:;]\d\d$`) })

// clapMillis reads seconds with a fraction: "4.2".
func clapMillis(text string) (int64, error) {
	if text == "" {
		return 0, nil
	}
	s, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || !(s >= 0 && s <= film.MaxTime/1000) {
		return 0, counter.ErrBadTime
	}
	return int64(s*1000 + 0.5), nil
}

// slip draws what is noted on a take.
func (f *frame) slip(width int) (out [][]span) {
	s := f.w.film.slip
	out = append(out, []span{{strong, fmt.Sprintf("Take %d of %d", s.take+1, f.w.state.Takes())}})
	for i, name := range slipNames {
		text, ink := Clean(s.fields[i]), base
		if i == s.field {
			text, ink = handOpen+text+handClose, hand
		}
		out = append(out, []span{{quiet, fmt.Sprintf("%-21s ", name)}, {ink, clip(text, max(width-22, 8))}})
	}
	return append(out, fold(quiet, "Enter keeps it, Tab goes to the next line, Page Up and Page Down to another take. The clap is counted from the file's beginning.", width)...)
}
