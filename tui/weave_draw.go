package tui

import (
	"fmt"
	"slices"
	"strconv"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// cellLine is a line of single cells, each with its ink.
type cellLine struct {
	runes []rune
	inks  []role
}

func newCellLine(width int) cellLine {
	l := cellLine{make([]rune, width), make([]role, width)}
	for i := range l.runes {
		l.runes[i] = ' '
	}
	return l
}

func (l cellLine) put(x int, r rune, ink role) {
	if x >= 0 && x < len(l.runes) && r != 0 {
		l.runes[x], l.inks[x] = r, ink
	}
}

// text puts a text where nothing stands yet; false where something does.
func (l cellLine) text(x int, s string, ink role) bool {
	rs := []rune(s)
	if x < 0 || x+len(rs) > len(l.runes) {
		return false
	}
	for i := max(x-1, 0); i < min(x+len(rs)+1, len(l.runes)); i++ {
		if l.runes[i] != ' ' {
			return false
		}
	}
	for i, r := range rs {
		l.put(x+i, r, ink)
	}
	return true
}

func (l cellLine) spans() (out []span) {
	for i := 0; i < len(l.runes); {
		j := i
		for j < len(l.runes) && (l.inks[j] == l.inks[i] || l.runes[j] == ' ' && l.inks[i] != markHand && l.inks[j] != markHand) {
			j++
		}
		out = append(out, span{l.inks[i], string(l.runes[i:j])})
		i = j
	}
	return out
}

// woven is how a weave lies in a window.
type woven struct {
	*weave
	pitch int // columns from one place to the next
	first int // columns to the left of the window
	width int // columns of the window
	done  int64
	upto  int64 // the instruction in hand makes the stitches to here
	start int64 // the first stitch of the pass in hand
}

const (
	widestPitch = 5
	smallPitch  = 2
	wovenLines  = 7 // bracket, cap, stem, joins, the row below, ruler, colours
)

// lay sets a weave into a window around the stitch in hand, so that the row
// moves on by a stitch where it does not fit.
func (w *weave) lay(width int, done, upto int64) woven {
	room := max(width-2*edges, 1)
	v := woven{weave: w, width: room, done: done, upto: upto}
	v.pitch = min(max(room/max(w.places, 1), smallPitch), widestPitch)
	v.scroll()
	return v
}

// scroll puts the stitch in hand into the window.
func (v *woven) scroll() {
	v.first = 0
	if all := v.places * v.pitch; all > v.width {
		at := all
		if t := v.at(v.done); t != nil {
			at = v.column(t.x)
		}
		v.first = max(min(at-v.width*3/5, all-v.width), 0)
	}
}

// at is the stitch of a number.
func (w *weave) at(nth int64) *thread {
	i := slices.IndexFunc(w.threads, func(t thread) bool { return t.nth == nth })
	if i < 0 {
		return nil
	}
	return &w.threads[i]
}

// column is where the middle of something is, from the left of the window.
func (v woven) column(x float64) int { return int(x*float64(v.pitch)) - v.first }

// draw gives the lines of the weave.
func (v woven) draw(tall bool, here pattern.Here, from int64) [][]span {
	line := func() cellLine { return newCellLine(v.width) }
	bracket, caps, stems, joins, capsBelow, below, ruler, colours := line(), line(), line(), line(), line(), line(), line(), line()
	coloured := false
	for _, t := range v.threads {
		x, ink, named := v.place(t, bracket, colours)
		coloured = coloured || named
		caps.put(x, t.sign.cap, ink)
		stems.put(x, t.sign.stem, ink)
	}
	v.brackets(bracket, here, from)
	v.join(joins)
	for _, t := range v.below {
		x := v.column(t.x)
		below.put(x, t.sign.stem, t.yarn)
		capsBelow.put(x, t.sign.cap, t.yarn)
	}
	v.rule(ruler)

	lines := []cellLine{bracket, caps, stems, joins}
	if tall {
		lines = append(lines, capsBelow)
	}
	lines = append(lines, below, ruler)
	if coloured {
		lines = append(lines, colours)
	}
	return v.framed(lines, 2)
}

// place is where a stitch stands and its ink. Its colour is named on one line
// where it changes, and the one in hand is marked on another.
func (v woven) place(t thread, bracket, colours cellLine) (x int, ink role, named bool) {
	x, ink = v.column(t.x), v.ink(t)
	named = t.named != "" && colours.text(x, Clean(t.named), ink)
	if t.nth == v.done {
		bracket.put(x, '▼', markNear)
		ink = markHand
	}
	return x, ink, named
}

// framed puts the edges to the lines: one of them tells where the row goes on.
func (v woven) framed(lines []cellLine, tells int) (out [][]span) {
	for i, l := range lines {
		left, right := "  ", ""
		if i == tells && v.first > 0 {
			left = "‹ "
		}
		if i == tells && v.first+v.width < v.places*v.pitch {
			right = " ›"
		}
		out = append(out, append(append([]span{{edge, left}}, l.spans()...), span{edge, right}))
	}
	return out
}

// ink says by its colour, beside where it stands, how far a stitch is.
func (v woven) ink(t thread) role {
	nth := t.nth
	if nth < 0 { // a space is as far as the stitch after it
		nth = v.done
		for _, o := range v.threads {
			if o.nth >= 0 && o.x > t.x {
				nth = o.nth
				break
			}
		}
		if nth <= v.done {
			return t.yarn
		}
	}
	switch {
	case nth < v.done:
		return t.yarn
	case nth < v.upto:
		return markNear
	}
	return markCome
}

// brackets sets a bracket over each pass of the innermost repeat in hand, with
// the number of the pass, or else over the instruction.
func (v woven) brackets(l cellLine, here pattern.Here, from int64) {
	set := func(from, upto int64, label string) {
		a, b := v.at(from), v.at(upto-1)
		if a == nil || b == nil || upto-from < 2 {
			return
		}
		x, y := v.column(a.x), v.column(b.x)
		for i := x; i <= y; i++ {
			if i >= 0 && i < len(l.runes) && l.runes[i] == ' ' {
				r := '─'
				if i == x {
					r = '╭'
				} else if i == y {
					r = '╮'
				}
				l.put(i, r, markNear)
			}
		}
		rs := []rune(" " + label + " ")
		at := (x + y - len(rs) + 1) / 2
		if label == "" || at <= x || at+len(rs) > y {
			return
		}
		for i := range rs {
			if c := at + i; c < 0 || c >= len(l.runes) || l.runes[c] == '▼' {
				return
			}
		}
		for i, r := range rs {
			l.put(at+i, r, markNear)
		}
	}
	if n := len(here.Passes); n > 0 && here.PassEnd > v.done {
		set(v.start, here.PassEnd, fmt.Sprintf("%d of %d", here.Passes[n-1].N, here.Passes[n-1].Of))
		return
	}
	set(from, v.upto, "")
}

// join draws what the stitches worked, and the one in hand, stand in: from a
// stitch down to its place, or a bridge where several meet.
func (v woven) join(l cellLine) {
	type knot struct{ up, down []int }
	var knots []knot
	last := map[int]int{} // place to its knot
	for _, t := range v.threads {
		if t.nth < 0 || t.nth > v.done || len(t.feet) == 0 {
			continue
		}
		k := -1
		for _, f := range t.feet {
			if i, ok := last[f]; ok {
				k = i
			}
		}
		if k < 0 {
			k = len(knots)
			knots = append(knots, knot{})
		}
		knots[k].up = append(knots[k].up, v.column(t.x))
		for _, f := range t.feet {
			if _, ok := last[f]; !ok {
				last[f] = k
				knots[k].down = append(knots[k].down, v.column(v.below[f].x))
			}
		}
	}
	for _, k := range knots {
		lo := min(slices.Min(k.up), slices.Min(k.down))
		hi := max(slices.Max(k.up), slices.Max(k.down))
		for x := lo; x <= hi; x++ {
			up, down := slices.Contains(k.up, x), slices.Contains(k.down, x)
			l.put(x, bridge(up, down, x > lo, x < hi), edge)
		}
	}
}

// bridge is the line that goes to the sides named.
func bridge(up, down, left, right bool) rune {
	n := 0
	for i, on := range []bool{up, down, left, right} {
		if on {
			n |= 1 << i
		}
	}
	return []rune("  ││ ╯╮┤ ╰╭├─┴┬┼")[n]
}

// rule sets numbers under the stitches: every ten, and the last.
func (v woven) rule(l cellLine) {
	if t := v.at(v.total - 1); t != nil {
		s := strconv.FormatInt(v.total, 10)
		l.text(v.column(t.x)-len(s)+1, s, edge)
	}
	for _, t := range v.threads {
		n := t.nth + 1
		if n <= 0 || n == v.total {
			continue
		}
		x := v.column(t.x)
		if n%rulerStep == 0 {
			s := strconv.FormatInt(n, 10)
			l.text(x-len(s)+1, s, edge)
		} else if n%5 == 0 {
			l.text(x, "'", edge)
		}
	}
}

// startOfPass finds the first stitch of the innermost pass in hand.
func startOfPass(s counter.State) int64 {
	row, _ := s.Proof()
	done := s.Stitch()
	if row == nil {
		return done
	}
	now := row.Here(done)
	n := len(now.Passes)
	for back := done; back > 0 && done-back < mostWoven; back-- {
		h := row.Here(back - 1)
		if len(h.Passes) < n || !slices.EqualFunc(h.Passes[:n], now.Passes, func(a, b pattern.Pass) bool { return a.N == b.N && a.Of == b.Of }) {
			return back
		}
		if back == 1 {
			return 0
		}
	}
	return done
}

// weave is the row in hand over the row below, in as many lines as it needs;
// nil where it cannot be drawn, or not in so many.
func (f *frame) weave(most int) [][]span {
	sc := f.sc
	if most < wovenLines-1 || !sc.known || sc.finished || f.inner < 30 {
		return nil
	}
	w := f.w.weaver.of(f.w.state)
	if w == nil {
		return nil
	}
	here := f.w.state.Here()
	from := sc.from
	if most >= largeWovenTall+leastBeside {
		if v, ok := w.layLarge(f.inner, sc.done, sc.upto); ok {
			v.start = startOfPass(f.w.state)
			return v.drawLarge(here, from)
		}
	}
	v := w.lay(f.inner, sc.done, sc.upto)
	v.start = startOfPass(f.w.state)
	lines := v.draw(most > wovenLines, here, from)
	if len(lines) > most {
		return nil
	}
	return lines
}
