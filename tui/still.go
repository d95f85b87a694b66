package tui

import "strings"

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
	film          bool
}

func (w *Walk) sight() sight {
	return sight{w.scene, w.width, w.height, w.mode, w.entry, w.film.on}
}

// draw sets the still picture anew where it has changed.
func (w *Walk) draw() {
	if w.still == nil || w.still.of != w.sight() {
		w.still = w.set()
	}
}

// leastWords is how many lines are kept for the words of the row and what
// comes next, with the gaps, beside the large drawing of the row.
const leastWords = 7

// set draws the still picture.
func (w *Walk) set() *still {
	s := &still{of: w.sight()}
	if w.width < leastWide || w.height < leastHigh || w.mode == choosing || w.mode == overviewing || w.mode == weighing || w.film.on || w.scene.finished {
		return s // nothing of these stands still for long
	}
	f := w.frame()
	s.scale = f.scale()
	braid, spare := f.fitting(&s.scale)
	// Of what is left over, large words have a place that is the same all through
	// a row, and then come gaps.
	place := f.largeLines(spare - 1)
	large := f.large(place)
	if place > 0 {
		spare -= place + 1
		if f.speaksLarge() {
			above := (place - len(large)) / 2 // in the middle of their place
			large = append(make([][]span, above, place+1), large...)
			large = append(large, make([][]span, place+1-len(large))...)
		}
	}
	gap := min(max(spare/3, 0), max(f.height/15, 1))

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
	for _, l := range large {
		f.put(l...)
	}
	f.below(max(f.height-3-len(s.above)-f.captionsUnder(s.scale)-len(f.lines), 0), gap)
	s.below = f.lines
	return s
}

// fitting is the drawing of the row, and how many lines are left over beside
// it and the words. A question is read whole before anything is drawn: for one
// that is long the drawing gives way, and then the figures.
func (f *frame) fitting(scale *int) (braid [][]span, spare int) {
	need := f.wanted()
	room := func() int {
		high := 0
		if *scale > 0 {
			high, _ = f.brush().cells(*scale)
		}
		return f.height - 3 - high - f.captionsUnder(*scale) // without heading and footer
	}
	least := leastWords
	if f.w.mode != walking {
		least = max(least, need)
	}
	if braid = f.weave(room() - least); braid == nil {
		braid = strip{f.sc.done, f.sc.total, f.sc.known, f.sc.from, f.sc.upto}.draw(f.inner, max(f.height/14, 1))
	}
	if f.w.mode != walking {
		if need > room()-len(braid) {
			braid = nil
		}
		for *scale > 0 && need > room() {
			*scale--
		}
	}
	return braid, room() - len(braid) - need
}

// wanted is how many lines the words take with their heading and the next row.
// A question takes as many as the row it is asked of, so that little moves
// when it is.
func (f *frame) wanted() int {
	width := f.wordWidth()
	mode := f.w.mode
	n := 0
	if lines, _ := f.sc.words.wrap(width); f.sc.label != "" {
		n = min(1+max(len(lines), 1)+len(f.sc.notes)+f.nextLines(width), leastWords)
	}
	if mode != walking {
		if f.inner >= besidePicture { // the outline of the piece may stand beside it
			width = min(width, f.inner-f.inner/3-4)
		}
		n = max(n, 1+len(f.question(width)))
	}
	return n
}

// wordWidth is how many columns running text takes.
func (f *frame) wordWidth() int { return min(f.inner, wordsWide) }

func (f *frame) brush() brush { return f.w.cfg.Look.brush() }

// captionsUnder is how many lines the captions take.
func (f *frame) captionsUnder(scale int) int {
	switch {
	case scale == 0 && f.shortCaptions():
		return 1
	case scale == 0:
		return 2
	}
	return f.captionLines()
}

// largeLines is how many lines are kept for large words where there are n: for
// one or two lines of them, small or large, and none where an instruction of
// the row does not fit them or nobody knows which is in hand.
func (f *frame) largeLines(n int) int {
	// In the middle of two lines of air, as long as there is room for any. Little
	// ones leave the gaps around the drawing, which are worth more.
	const air, gaps = 2, 3
	tiny, small, high := f.brush().letterLines(little), f.brush().letterLines(1), f.brush().letterLines(2)
	lines := 0
	for _, c := range []struct{ letters, air int }{
		{2*high + 1, air}, {2*small + 1, air}, {high, air}, {2*tiny + 1, gaps}, {small, 0}, {tiny, gaps},
	} {
		if c.letters+c.air <= n {
			lines = max(lines, c.letters)
		}
	}
	all := f.sc.words.instructions()
	if len(all) == 0 || f.sc.words.written() {
		return 0
	}
	need, least := 0, 2
	for _, text := range all {
		scale, rows, ok := f.brush().scaleFor(text, 2, f.inner, lines)
		if lines == 0 || !ok {
			return 0
		}
		need, least = max(need, len(rows)*(f.brush().letterLines(scale)+1)-1), min(least, scale)
	}
	if least == little && need+gaps > n {
		return 0
	}
	return need
}

// speaksLarge reports whether there are large words while this is being asked.
func (f *frame) speaksLarge() bool {
	return f.w.mode == walking || f.w.mode == asking || f.w.mode == differing
}

// large is what is in hand in block letters, to be read without bending over:
// the instruction, with what is to be done before it, or how a count differs.
// It is nil where that does not fit n lines.
func (f *frame) large(n int) [][]span {
	text := ""
	switch f.w.mode {
	case walking:
		text = f.sc.words.inHand()
		if out := f.brush().largest(figure, text, 2, f.inner, n); out != nil {
			return out
		}
		// What comes first is more than there is room for: its beginning, and
		// the words below have the rest.
		for words := strings.Fields(text); len(words) > 2; {
			words = words[:len(words)-1]
			if out := f.brush().largest(figure, strings.Join(words, " ")+" ...", 1, f.inner, n); out != nil {
				return out
			}
		}
		return nil
	case asking:
		text = "count " + f.w.entry.String() + "?"
	case differing:
		if n, err := f.w.entry.number(); err == nil {
			text = overOrShort(n - f.sc.total)
		}
	}
	if text == "" {
		return nil
	}
	return f.brush().largest(figure, text, 2, f.inner, n)
}

// besidePicture is how many columns there are where the outline of the piece may
// stand beside the words.
const besidePicture = 90

// below sets the words, what comes next and, where there is room, the outline
// of the piece in exactly n lines.
func (f *frame) below(n, gap int) {
	width := f.wordWidth()
	var picture [][]span
	aside := 0
	if n >= silhouetteLeast+1 && f.inner >= besidePicture {
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
	lines := scroll(text.lines, text.at, max(min(len(text.lines), want), 1), width)
	left = append(left, lines...)
	room -= len(lines)
	if room-gap >= f.nextLines(width) {
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
	if f.sc.own != "" {
		notes = append(notes, fold(lead, "your note: "+f.sc.own, width)...)
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
		high, _ := f.brush().cells(s)
		wide := f.column(s) + max(f.brush().width(int64(f.sc.row), max(s-1, 1)), cells(f.sc.rowLine())) + aside
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
	return max(f.brush().width(f.sc.number(), scale), cells(f.sc.stitchLine())) + 4*scale
}

// figures sets the stitch and the row in block figures, the facts at their
// right.
func (f *frame) figures(scale int) {
	stitch, row := f.brush().figure(f.sc.number(), scale), f.brush().figure(int64(f.sc.row), max(scale-1, 1))
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

// label names the row as the pattern does.
func (f *frame) label(width int) []span {
	line := []span{{strong, f.sc.label}}
	if f.sc.side != "" && !strings.Contains(f.sc.label, "RS") && !strings.Contains(f.sc.label, "WS") {
		line = append(line, span{quiet, " · "}, span{base, f.sc.side})
	}
	if f.sc.remark != "" {
		line = append(line, span{accent, "   ! " + f.sc.remark})
	}
	return clipSpans(line, width)
}

// nextLines is how many lines the next row takes.
func (f *frame) nextLines(width int) int {
	if len(f.sc.next) == 0 {
		return 0
	}
	row := f.sc.next[0]
	return len(fold(quiet, row.label+": "+row.words, width-len(nextHead)))
}

// nextHead stands before the next row.
const nextHead = "next  "

// coming tells the next rows in at most n lines.
func (f *frame) coming(width, n int) (out [][]span) {
	for i, row := range f.sc.next {
		head := nextHead
		if i > 0 {
			head = "then  "
		}
		lines := fold(quiet, row.label+": "+row.words, width-len(head))
		if i == 0 && len(lines) > n && n > 0 {
			lines = append(lines[:n-1:n-1], goesOn(lines[n-1], width-len(head)))
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
