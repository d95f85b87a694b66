package tui

import (
	"fmt"
	"strings"
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
	widest     = 160 // columns of content; eyes do not travel further
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
	case w.width < leastWide || w.height < leastHigh:
		f.tiny()
	case w.mode == choosing:
		f.rowList()
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

// still is the part of the frame that stands still between taps, inked: what
// is above the captions, which hold the time, and what is below them.
type still struct {
	of           sight
	scale        int
	above, below []string
}

// sight is all that a still picture depends on.
type sight struct {
	scene         *scene
	width, height int
	mode          mode
	entry         entry
	stride        stride
}

func (w *Walk) sight() sight {
	return sight{w.scene, w.width, w.height, w.mode, w.entry, w.stride}
}

// draw sets the still picture anew where it has changed.
func (w *Walk) draw() {
	if w.still == nil || w.still.of != w.sight() {
		w.still = w.set()
	}
}

// set draws the still picture.
func (w *Walk) set() *still {
	s := &still{of: w.sight()}
	if w.width < leastWide || w.height < leastHigh || w.mode == choosing || w.scene.finished {
		return s // nothing of these stands still for long
	}
	f := w.frame()
	s.scale = f.scale()
	braid := strip{f.sc.done, f.sc.total, f.sc.known, f.sc.from, f.sc.upto}.draw(f.inner, max(f.height/14, 1))

	high, captions := 0, 2
	if s.scale > 0 {
		high, _ = figureCells(s.scale)
		captions = f.captionLines()
	}
	used := 1 + high + captions + len(braid) + 2 // with heading and footer
	// The gaps take what is left beside that which must be there.
	gap := min(max((f.height-used-5)/3, 0), max(f.height/15, 1))

	f.blank(gap)
	if s.scale > 0 {
		f.figures(s.scale)
	}
	s.above = f.lines
	f.lines = nil
	f.blank(gap)
	for _, l := range braid {
		f.put(l...)
	}
	f.blank(gap)
	f.below(max(f.height-3-len(s.above)-captions-len(f.lines), 0), gap)
	s.below = f.lines
	return s
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
		f.put(span{quiet, f.w.note})
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
		for _, l := range scroll(lines, at, room) {
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
	state := span{good, "✓ saved"}
	switch {
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
	text := " ✗ NOT SAVED: " + Clean(f.w.broken.Error())
	text = clip(text, f.width)
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

// below sets the words, what comes next and, where there is room, the outline
// of the piece in exactly n lines.
func (f *frame) below(n, gap int) {
	width := min(f.inner, wordsWide)
	var picture [][]span
	aside := 0
	if n >= silhouetteLeast+1 && f.inner >= 90 {
		aside = f.inner / 3
		picture = silhouette(f.w.state, aside, n-1)
		width = min(width, f.inner-aside-4)
	}
	left := [][]span{f.label(width)}
	text := f.text(width)
	room := n - 1
	want := room - 1 // a line is kept for what comes next, but not from a question
	if f.w.mode != walking {
		want = room
	}
	lines := scroll(text.lines, text.at, max(min(len(text.lines), want), 1))
	left = append(left, lines...)
	room -= len(lines)
	if room > gap+1 {
		left = append(left, make([][]span, gap)...)
		room -= gap
	}
	left = append(left, f.coming(width, room)...)
	for y := range n {
		var line []span
		if y < len(left) {
			line = left[y]
		}
		if y < len(picture) {
			line = clipSpans(line, f.inner-aside)
			line = append(line, span{base, strings.Repeat(" ", max(f.inner-aside-spanCells(line), 0))})
			line = append(line, picture[y]...)
		}
		f.put(line...)
	}
}

// text is the row's words, or the question that is being asked.
type text struct {
	lines [][]span
	at    int
}

func (f *frame) text(width int) text {
	if f.w.mode != walking {
		return text{f.question(width), 0}
	}
	lines, at := f.sc.words.wrap(width)
	if len(lines) == 0 {
		lines = [][]span{{{quiet, "This row has no words of its own."}}}
	}
	// What the pattern says before the row is to be done before its first stitch.
	var notes [][]span
	for _, n := range f.sc.notes {
		ink := lead
		if f.sc.done > 0 {
			ink, n = done, doneSign+n
		}
		notes = append(notes, fold(ink, n, width)...)
	}
	if f.sc.done > 0 {
		at += len(notes)
	}
	return text{append(notes, lines...), at}
}

// scale is how large the figures are drawn: 0 where there is no room for any.
func (f *frame) scale() int {
	if f.height < figureFrom {
		return 0
	}
	aside := factsWide
	if f.narrow() {
		aside = 0
	}
	for s := min(biggest, f.inner/12); s > 0; s-- {
		high, _ := figureCells(s)
		wide := f.column(s) + max(figureWidth(int64(f.sc.row), max(s-1, 1)), cells(f.sc.rowLine())) + aside
		if high <= f.height/3 && high+16 <= f.height+1 && wide <= f.inner {
			return s
		}
	}
	return 0
}

// narrow windows have the facts under the figures.
func (f *frame) narrow() bool { return f.inner < 56 }

// column is how many columns the stitch takes before the row begins.
func (f *frame) column(scale int) int {
	return max(figureWidth(f.sc.number(), scale), cells(f.sc.stitchLine())) + 4*scale
}

// figures sets the stitch and the row in block figures, the facts at their
// right.
func (f *frame) figures(scale int) {
	stitch, row := drawFigure(f.sc.number(), scale), drawFigure(int64(f.sc.row), max(scale-1, 1))
	wide := f.column(scale)
	var facts []span
	if !f.narrow() {
		facts = f.facts()
	}
	for y, line := range stitch {
		left := []span{{figure, line}, {base, strings.Repeat(" ", wide-cells(line))}}
		if i := y - (len(stitch) - len(row)); i >= 0 {
			left = append(left, span{figure2, row[i]})
		}
		var right []span
		if i := y - max(len(stitch)-len(facts), 0); i >= 0 && i < len(facts) {
			right = []span{facts[i]}
		}
		f.ends(left, right)
	}
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

// factLine puts the facts on one line after what stands there, the most
// needed first.
func (f *frame) factLine(line []span) []span {
	facts := f.facts()
	for i := len(facts) - 1; i >= 0; i-- {
		if len(line) > 0 {
			line = append(line, span{quiet, " · "})
		}
		line = append(line, facts[i])
	}
	return line
}

// facts are the short things beside the figures, the most needed last.
func (f *frame) facts() []span {
	var facts []span
	facts = append(facts, span{quiet, "a tap is " + strideNames[f.w.stride]})
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
	if f.sc.paused {
		return span{alarm, " paused at " + t + " "}
	}
	if f.width < 60 {
		return span{base, t}
	}
	return span{base, t + " on this row"}
}

// label names the row as the pattern does.
func (f *frame) label(width int) []span {
	line := []span{{strong, f.sc.label}}
	if f.sc.side != "" && !strings.Contains(f.sc.label, "(") {
		line = append(line, span{quiet, " · "}, span{base, f.sc.side})
	}
	if f.sc.remark != "" {
		line = append(line, span{accent, "   ! " + f.sc.remark})
	}
	return clipSpans(line, width)
}

// coming tells the next rows in at most n lines.
func (f *frame) coming(width, n int) (out [][]span) {
	for i, row := range f.sc.next {
		head := "next  "
		if i > 0 {
			head = "then  "
		}
		lines := fold(quiet, row.label+": "+row.words, width-len(head))
		if i == 0 && len(lines) > n && n > 0 {
			last := clipSpans(lines[n-1], width-len(head)-2)
			lines = append(lines[:n-1:n-1], append(last, span{quiet, " …"}))
		}
		if len(lines) > n-len(out) {
			return out
		}
		for j, l := range lines {
			if j > 0 {
				head = "      "
			}
			out = append(out, append([]span{{figure2, head}}, l...))
		}
	}
	return out
}

// footer is the quiet line and the buttons.
func (f *frame) footer() {
	note := span{quiet, f.w.note}
	switch {
	case f.w.note != "":
		note.role = base
	case f.sc.behind != "":
		note = span{lead, "≠ " + f.sc.behind}
	case f.sc.paused:
		note = span{quiet, "Paused. The next tap lets the time go on."}
	}
	f.put(note)
	f.line(f.w.buttonRow().spans()...)
}
