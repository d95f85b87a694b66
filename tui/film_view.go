package tui

import (
	"fmt"
	"strings"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timeline"
)

// The film screen, from the top:
//
//	title, piece and copy                              whether it is saved
//	the take that is on and how long              the place in the row
//	the words to say, as large as they go
//	a bar for the words, and one for the row so far
//	the row's own words, with the instruction in hand lit, or a question
//	a quiet line
//	buttons

// film sets out the film screen.
func (f *frame) film() {
	f.filmed()
	f.footer()
}

// filmed is the film screen without its foot.
func (f *frame) filmed() {
	f.heading()
	f.takeState()
	if f.w.mode == fitting || f.w.mode == reeling {
		room := max(f.height-len(f.lines)-2, 1)
		var lines [][]span
		if f.w.mode == fitting {
			lines = f.fitTable(f.inner, room)
		} else {
			lines = f.from(f.takes(f.inner))
		}
		f.fill(lines, room)
		return
	}
	var below [][]span
	switch {
	case f.w.mode != walking:
		below = f.question(min(f.inner, wordsWide))
	case !f.sc.finished:
		most := max(f.height/8, 1)
		lines, at := f.sc.words.wrap(min(f.inner, wordsWide))
		below = scroll(lines, at, min(most, len(lines)), f.inner)
	}
	bars := f.bars()
	room := f.height - len(f.lines) - len(bars) - 2
	below = below[:min(len(below), max(room-1, 1))]
	room -= len(below)
	if room > 4 { // air
		f.blank(1)
		room--
	}
	said := f.prompt(max(room-1, 0))
	f.fill(said, max(room, 0))
	f.fill(bars, len(bars))
	f.fill(below, len(below))
	f.fill(nil, f.height-2-len(f.lines))
}

// fill puts lines and then blanks until there are n.
func (f *frame) fill(lines [][]span, n int) {
	for i := range n {
		if i < len(lines) {
			f.put(lines[i]...)
			continue
		}
		f.line()
	}
}

// takeState is the line that tells whether the camera runs.
func (f *frame) takeState() {
	state := span{quiet, "○ no take is on"}
	if n := f.w.state.Takes(); n > 0 {
		state.text += fmt.Sprintf(", %d so far", n)
	}
	if take := f.w.takeLine(); take != "" {
		state = span{alarm, " " + take + " "}
	}
	if f.sc.finished {
		f.ends([]span{state}, []span{{accent, "finished"}})
		return
	}
	row, stitch := f.sc.rowLine(), f.sc.stitchLine()
	for _, place := range []string{f.sc.label + " · " + row + " · " + stitch, row + " · " + stitch} {
		if cells(place)+cells(state.text)+1 <= f.inner {
			f.ends([]span{state}, []span{{accent, place}})
			return
		}
	}
	f.put(state)
	if place := row + " · " + stitch; cells(place) <= f.inner {
		f.put(span{accent, place})
		return
	}
	f.put(span{accent, stitch})
	f.put(span{accent, row})
}

// bars set the seconds of the words beside those of the row so far.
func (f *frame) bars() [][]span {
	words, row := f.w.said().Milliseconds, f.w.rowFilmed()
	if f.sc.finished || f.height < 10 {
		return nil
	}
	line := func(name string, ms int64, ink role, stroke, rest string) []span {
		ms = max(ms, 0)
		head := fmt.Sprintf("%-7s%6s s ", name, film.Seconds(ms))
		room := int64(max(min(f.inner, wordsWide)-cells(head)-12, 4))
		n := min(ms*room/max(words, row, 1), room)
		return []span{{quiet, head}, {ink, strings.Repeat(stroke, int(n))}, {edge, strings.Repeat(rest, int(room-n))}}
	}
	said := line("words", words, figure2, "█", " ")
	if f.w.mode == reading {
		said = line("read", f.w.now-f.w.film.since, figure2, "█", " ")
	}
	filmed := line("filmed", row, figure, "━", "╌")
	switch {
	case words == 0:
	case row < words:
		filmed = append(filmed, span{base, " " + film.Seconds(words-row) + " to go"})
	default:
		filmed = append(filmed, span{good, " ✓ enough"})
	}
	return [][]span{clipSpans(said, f.inner), clipSpans(filmed, f.inner)}
}

// filmQuestion is what is asked in the film screen's modes.
func (f *frame) filmQuestion(width int, _ span) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	switch f.w.mode {
	case remarking:
		at := int64(0)
		if take, on := f.w.session().Rolling(); on {
			at = take.Since(f.w.film.wordAt)
		}
		out = append(out, []span{{strong, fmt.Sprintf("A mark at %s:", clockTime(at))}})
		out = append(out, fold(hand, handOpen+Clean(f.w.film.word)+handClose, width)...)
		add(quiet, "Enter sets it, Esc leaves it. It needs no word.")
	case reading:
		out = append(out, []span{{strong, "Read the words aloud. "}, {hand, handOpen + clockTime(f.w.now-f.w.film.since) + handClose}})
		add(quiet, "Space when you have read them, Esc leaves it.")
	case slipping:
		return f.slip(width)
	}
	return out
}

// takes are the takes, drawn.
func (f *frame) takes(width int) (out [][]span) {
	for _, l := range timeline.Text(f.w.session(), width) {
		out = append(out, []span{{base, Clean(l)}})
	}
	return out
}
