package tui

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// The frame of the walk, from the top:
//
//	title, piece and copy                              whether it is saved
//	the stitch and the row in block figures            time, pass, count
//	stitch K of N                     row R of T
//	the row as a braid, with its bracket and its ruler
//	the row's label, and its words with the instruction in hand lit
//	what comes next
//	a quiet line
//	buttons
//
// The braid and the words never give way; in a low window the figures do,
// then the gaps, then what comes next.

const (
	widest     = 200 // columns of content; eyes do not travel further
	wordsWide  = 110 // columns of running text
	factsWide  = 24  // columns kept for the facts beside the figures
	leastWide  = 24  // below this, or leastHigh lines, only the place is told
	leastHigh  = 9
	figureFrom = 16 // lines from which there are figures
)

// marginFor is how many columns stay free at either side.
func marginFor(width int) int {
	switch {
	case width < 50:
		return 0
	case width < 70:
		return 1
	case width < 100:
		return 2
	}
	return max(4, (width-widest)/2)
}

// frame is one drawing of a walk.
type frame struct {
	*canvas
	w      *Walk
	sc     *scene
	inner  int // columns of content
	margin span
}

// view is the frame. It only reads.
func (w *Walk) view() string {
	f := w.frame()
	switch {
	case w.film.flash:
		return w.flash()
	case w.film.slate.take > 0:
		return w.slate()
	case w.width < leastWide || w.height < leastHigh:
		f.tiny()
	case w.mode == choosing:
		f.rowList()
	case w.mode == overviewing:
		f.overview()
	case w.mode == weighing:
		f.yarns()
	case w.film.on:
		f.film()
	case w.scene.finished:
		f.finished()
	default:
		s := w.still
		if s == nil || s.of != w.sight() {
			s = w.set()
		}
		f.heading()
		f.lines = append(f.lines, s.above...)
		f.captions(s.scale)
		f.lines = append(f.lines, s.below...)
		f.footer()
	}
	return f.String()
}

// frame is an empty frame.
func (w *Walk) frame() *frame {
	m := marginFor(w.width)
	return &frame{canvas: newCanvas(w.theme, w.width, w.height), w: w, sc: w.scene,
		inner: w.width - 2*m, margin: span{base, strings.Repeat(" ", m)}}
}

func (w *Walk) ink() *theme { return w.theme }

// put adds a line inside the margins.
func (f *frame) put(spans ...span) {
	f.line(append([]span{f.margin}, clipSpans(spans, f.inner)...)...)
}

// ends adds a line with a part at either end, inside the margins.
func (f *frame) ends(left, right []span) {
	f.sides(append([]span{f.margin}, left...), append(right, f.margin))
}

// tiny is for windows too small for a picture: the place, and no more.
func (f *frame) tiny() {
	if f.w.broken != nil {
		f.alarm()
	}
	if f.sc.finished {
		f.put(span{good, "finished"})
		if f.w.mode != walking {
			for _, l := range f.question(f.inner) {
				f.put(l...)
			}
			f.lines = f.lines[:min(len(f.lines), max(f.height-1, 1))]
		}
		f.put(span{quiet, f.w.note})
		return
	}
	if take := f.w.takeLine(); take != "" {
		f.put(span{alarm, take})
	}
	if f.w.mode == choosing {
		row := fold(strong, f.w.spokenRow(f.w.rows.lit), f.inner)
		if room := max(f.height-len(f.lines)-1, 1); len(row) > room {
			row = row[:room]
			row[room-1] = goesOn(row[room-1], f.inner)
		}
		for _, l := range row {
			f.put(l...)
		}
		f.lines = f.lines[:min(len(f.lines), max(f.height-1, 0))]
		f.put(span{quiet, cmp.Or(f.w.note, f.w.named(keyChoose)+" goes there")})
		return
	}
	f.put(span{strong, f.sc.stitchLine()})
	f.put(span{strong, f.sc.rowLine()})
	if room := f.height - len(f.lines) - 1; f.w.mode != walking {
		for _, l := range f.question(f.inner) {
			f.put(l...)
		}
	} else if room > 0 {
		lines, at := f.sc.words.wrap(f.inner)
		for _, l := range scroll(lines, at, room, f.inner) {
			f.put(l...)
		}
	}
	f.lines = f.lines[:min(len(f.lines), max(f.height-1, 0))]
	f.put(span{quiet, f.w.note}, span{quiet, " " + f.w.savedWord()})
}

// heading is the first line: what is being made, and whether it is safe.
func (f *frame) heading() {
	if f.w.broken != nil {
		f.alarm()
		return
	}
	left := []span{{strong, f.sc.title}}
	if p := f.sc.pieceLine(); f.sc.finished {
	} else if p != "" && f.sc.title != "" {
		left = append(left, span{quiet, " · "}, span{base, p})
	} else if p != "" {
		left = []span{{strong, p}}
	}
	if take := f.w.takeLine(); take != "" && !f.w.film.on {
		left = append([]span{{alarm, " " + take + " "}, {base, " "}}, left...)
	}
	state := span{good, "✓ saved"}
	switch {
	case f.w.cfg.Sketch != nil:
		state = span{quiet, "… opening"}
	case f.w.cfg.Journal == nil:
		state = span{lead, "only looking"}
	case f.w.safe < f.w.appended:
		state = span{quiet, "… saving"}
	}
	f.ends(left, []span{state})
}

// alarm is the line that says that work is not on disk, in place of the
// heading and over the whole width.
func (f *frame) alarm() {
	text := " ✗ NOT SAVED"
	if n := f.w.appended - f.w.safe; n > 0 {
		text += fmt.Sprintf(", the last %d only in memory", n)
	}
	if f.w.cfg.Elsewhere.Write != nil {
		text += ", " + f.w.named(keyElsewhere) + " writes a file"
	}
	text = clip(text+": "+Clean(f.w.broken.Error()), f.width)
	f.line(span{alarm, text + strings.Repeat(" ", max(f.width-cells(text), 0))})
}

// savedWord tells in a word whether the last tap is on disk.
func (w *Walk) savedWord() string {
	switch {
	case w.broken != nil:
		return "NOT SAVED"
	case w.cfg.Journal == nil:
		return "only looking"
	case w.safe < w.appended:
		return "saving"
	}
	return "saved"
}

// captionLines is how many lines the captions take under figures.
func (f *frame) captionLines() int {
	if f.narrow() {
		return 2
	}
	return 1
}

// captions are the exact words, under figures of a scale or, where that is 0,
// by themselves. Where the numbers are long the row moves to the second line.
func (f *frame) captions(scale int) {
	stitch, row := span{strong, f.sc.stitchLine()}, span{strong, f.sc.rowLine()}
	gap := span{quiet, " · "}
	if scale > 0 {
		gap = span{base, strings.Repeat(" ", max(f.column(scale)-cells(stitch.text), 1))}
	} else {
		stitch.role = accent
	}
	first := []span{stitch, gap, row}
	var second []span
	switch {
	case scale == 0 && f.shortCaptions():
		f.put(first...)
		return
	case scale > 0 && !f.narrow():
		f.ends(first, []span{f.time()})
		return
	case spanCells(first) <= f.inner:
		f.put(first...)
	default:
		f.put(stitch)
		second = append(second, row)
	}
	f.ends(f.factLine(second), []span{f.time()})
}

// shortCaptions reports whether the captions are a line without the facts: in a
// low window, which has no line to spare from a question.
func (f *frame) shortCaptions() bool {
	return f.w.mode != walking && f.height < figureFrom && cells(f.sc.stitchLine()+" · "+f.sc.rowLine()) <= f.inner
}

// factLine puts the facts on one line after what stands there, the most
// needed first and as many as fit beside the time.
func (f *frame) factLine(line []span) []span {
	facts := f.facts()
	room := f.inner - cells(f.time().text) - 1
	for i := len(facts) - 1; i >= 0; i-- {
		next := line
		if len(line) > 0 {
			next = append(next, span{quiet, " · "})
		}
		if next = append(next, facts[i]); spanCells(next) > room && len(line) > 0 {
			break
		}
		line = next
	}
	return line
}

// facts are the short things beside the figures, the most needed last.
func (f *frame) facts() []span {
	var facts []span
	facts = append(facts, span{quiet, "a tap is " + strideName(f.w.state.Stride())})
	if f.sc.known {
		facts = append(facts, span{quiet, fmt.Sprintf("comes to %d", f.sc.total)})
	} else {
		facts = append(facts, span{quiet, "no total stated"})
	}
	for i := len(f.sc.facts) - 1; i >= 0; i-- {
		facts = append(facts, span{accent, f.sc.facts[i]})
	}
	return facts
}

// time is how long the row has taken.
func (f *frame) time() span {
	t := clockTime(f.w.state.RowMillis(f.w.now))
	if f.w.cfg.Sketch != nil {
		t = clockTime(f.w.cfg.Sketch.RowMillis)
	}
	if f.sc.paused {
		return span{alarm, " paused at " + t + " "}
	}
	switch {
	case f.width < 60:
		return span{base, t}
	case f.w.state.Idle(f.w.now):
		return span{quiet, t + " on this row, idle"}
	}
	return span{base, t + " on this row"}
}

// quietLine sets a note. One that is too long for a line takes those above it
// that are empty or tell of the rows to come.
func (f *frame) quietLine(note span) {
	lines := fold(note.role, note.text, f.inner)
	if len(lines) == 0 {
		lines = [][]span{nil}
	}
	free := 0
	for most := min(len(lines)-1, mostNoteLines-1, len(f.lines)); free < most; free++ {
		above := f.lines[len(f.lines)-1-free]
		if f.w.mode != walking && strings.TrimSpace(ansi.Strip(above)) != "" {
			break
		}
	}
	f.lines = f.lines[:len(f.lines)-free]
	if len(lines) > free+1 {
		lines = lines[:free+1]
		lines[free] = goesOn(lines[free], f.inner)
	}
	for _, l := range lines {
		f.put(l...)
	}
}

// mostNoteLines is how many lines a note takes at most.
const mostNoteLines = 3

// footer is the quiet line and the buttons.
func (f *frame) footer() {
	note := span{quiet, f.w.note}
	switch {
	case f.w.note != "":
		note.role = base
	case f.w.restDue:
		note = span{lead, fmt.Sprintf("Rest your hands a while: %s without a break.", count((f.w.now-f.w.busySince)/60_000, "minute"))}
	case f.sc.behind != "":
		note = span{lead, "≠ " + f.sc.behind}
	case f.w.lesson() != "":
		note.text = f.w.lesson()
	case f.sc.under != "":
		note.text = f.sc.under
	case f.sc.outlook != "" && !f.sc.paused:
		note.text = f.sc.outlook
	case f.sc.paused:
		note = span{quiet, "Paused. The next tap lets the time go on."}
	}
	f.quietLine(note)
	f.line(f.w.buttonRow().spans()...)
}
