package chart

import (
	"math"
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Text draws a piece of a proof, counted from 0, with letters: each row on a
// line, rounds unrolled, read from the number at its edge. A line between two
// rows shows which way stitches lean, where some do: increases spread from
// their stitch, decreases meet.
//
// A ripple goes up and down in it, and a motif with corners is written round
// about, as far as either fits a screen; where it does not, its peaks and valleys
// or its corners are marked. Beyond some sixty stitches of width it comes in
// parts, as a drawing does.
func Text(proof *pattern.Proof, piece int, o Options) (string, error) {
	f, l, err := lay(proof, piece, o)
	if err != nil {
		return "", err
	}
	title := titleOf(proof, piece)
	for _, shaped := range []func(*letters, *seen) []string{f.motif, f.ripple} {
		ls, s := newLetters(), &seen{}
		if lines := shaped(ls, s); lines != nil {
			if o.Tile > 1 || o.Tile < 0 {
				return "", noPart(o.Tile, 1)
			}
			return f.page(title, lines, ls, s), nil
		}
	}
	shape := l.g
	if f, _, err = layFlat(proof, piece, o); err != nil {
		return "", err
	}
	return f.text(title, shape, o.Tile)
}

// seen is what stands in a chart of letters beside the stitches.
type seen struct {
	chain, tall, picot, corner, peak bool
	count                            int // chains that are told by their number
}

// textKind is a stitch as a chart of letters tells it apart.
type textKind struct {
	kind
	loop pattern.Loop
	name string
}

// letters gives each kind a letter of its own.
type letters struct {
	of    map[textKind]string
	order []textKind
	taken map[string]bool
}

const spareLetters = "ABCDEGHIJKMNPQRUVXYZabcdegijkmnpqrsuvwyz"

func (l *letters) at(k textKind) string {
	if s, ok := l.of[k]; ok {
		return s
	}
	want := string(symbolOf(k.id).letter)
	switch {
	case k.legs > 1 && !k.place:
		want = "Λ"
	case k.legs > 1:
		want = "A"
	case k.loop != pattern.BothLoops, k.id == stitch.Special:
		want = ""
	}
	if want == "" || l.taken[want] {
		for _, r := range spareLetters {
			if want = string(r); !l.taken[want] {
				break
			}
		}
	}
	l.taken[want] = true
	l.of[k] = want
	l.order = append(l.order, k)
	return want
}

func kindOf(m *made) textKind {
	k := textKind{kind: kind{id: m.link.Stitch}, loop: m.link.Loop}
	if s := m.link.Step; s != nil && s.Legs > 1 && stitch.Of(k.id).Kind != stitch.Compound {
		k.legs, k.place = s.Legs, len(m.link.Bases) == 1
	}
	if k.id == stitch.Special {
		k.name = m.link.Name
	}
	return k
}

// perUnit is how many columns a unit takes.
const perUnit = 2

// textLine is a line of letters that grows as it is written to.
type textLine struct{ cells []string }

func (t *textLine) put(col int, s string) {
	for len(t.cells) <= col {
		t.cells = append(t.cells, " ")
	}
	if col >= 0 {
		t.cells[col] = s
	}
}

func (t *textLine) free(col int) bool { return col >= len(t.cells) || col >= 0 && t.cells[col] == " " }

func (t *textLine) String() string { return strings.TrimRight(strings.Join(t.cells, ""), " ") }

func newLetters() *letters {
	return &letters{of: make(map[textKind]string), taken: map[string]bool{"o": true, "8": true, "^": true, "?": true}}
}

// text writes the rows, the first at the bottom. Shape is the ground that they
// would lie on were they not straight; tile is the part that is asked for, 0 for all.
func (f *figure) text(title string, shape ground, tile int) (string, error) {
	side := 1.0
	if len(f.rows) > 0 && f.rows[0].l.g.mirror {
		side = -1
	}
	lo := math.Inf(1)
	for _, r := range f.rows {
		for i := range r.v.made {
			lo = math.Min(lo, side*r.v.made[i].head.t)
		}
	}
	for _, l := range f.foundations {
		for _, s := range l.chain {
			lo = math.Min(lo, side*s.t)
		}
	}
	digits := 1
	for _, r := range f.rows {
		digits = max(digits, len(r.number))
	}
	left := digits + 4
	col := func(t float64) int { return left + int(math.Round((side*t-lo)*perUnit)) }
	ls, s := newLetters(), &seen{}
	var lines []textRow // the lowest first
	if len(f.foundations) > 0 && len(f.foundations[0].chain) > 0 {
		var t textLine
		for _, at := range f.foundations[0].chain {
			t.put(col(at.t), "o")
			s.chain = true
		}
		lines = append(lines, textRow{text: t.String()})
	}
	yarn, several := -1, f.severalYarns()
	for n := range f.rows {
		r := &f.rows[n]
		for _, v := range []*level{r.earlier, r.v} {
			if v == nil {
				continue
			}
			if lean := leaning(v, col); lean != "" {
				lines = append(lines, textRow{text: lean})
			}
			var t textLine
			first := math.MaxInt
			last := 0
			for i := range v.made {
				m := &v.made[i]
				c := col(m.head.t)
				switch {
				case m.link.Kind == pattern.LinkSpace:
					continue
				case m.link.Kind == pattern.LinkPicot:
					s.picot = true
					for !t.free(c) {
						c++
					}
					t.put(c, "^")
				case m.link.Turn:
					s.tall = true
					t.put(c, "8")
				default:
					t.put(c, ls.at(kindOf(m)))
				}
				first, last = min(first, c), max(last, c)
			}
			for i := range v.made {
				if v.made[i].link.Kind == pattern.LinkSpace {
					spaceText(&t, v, i, col, s)
				}
			}
			for i, c := range t.cells {
				if c != " " {
					first = min(first, i)
					break
				}
			}
			last = max(last, len(strings.TrimRight(strings.Join(t.cells, ""), " "))*0+len(t.cells)-1)
			if v == r.v {
				number := r.number
				mark := ""
				if r.links.Start > 0 {
					s.chain = true
					mark = strings.Repeat("o", min(r.links.Start, 3))
				}
				if v.dir*side < 0 {
					words := " " + mark + " " + number
					for i, x := range strings.Split(words, "") {
						t.put(last+1+i, x)
					}
				} else if first != math.MaxInt {
					words := number + " " + mark + " "
					for i, x := range strings.Split(words, "") {
						t.put(first-len(words)+i, x)
					}
				}
			}
			line := textRow{text: t.String(), number: r.number}
			if several {
				if y := rowYarn(v); y >= 0 && y != yarn {
					line.tail += "   " + clean(f.y.all[y].name)
					yarn = y
				}
			}
			if v == r.v && n > 0 && f.rows[n-1].piece != r.piece {
				line.tail += "   " + nameOf(f.proof, r.piece)
			}
			lines = append(lines, line)
		}
	}
	if marks := f.shapeMarks(shape, col, s); marks != "" {
		lines = append(lines, textRow{text: marks})
	}
	slices.Reverse(lines)
	parts := cutText(lines)
	if tile < 0 || tile > len(parts) {
		return "", noPart(tile, len(parts))
	}
	var out []string
	for i, part := range parts {
		if tile > 0 && i != tile-1 {
			continue
		}
		if len(parts) > 1 {
			if len(out) > 0 {
				out = append(out, "")
			}
			out = append(out, partOf(i, len(parts)), "")
		}
		out = append(out, part...)
	}
	if len(parts) > 1 {
		f.note("The chart is cut into parts, from the right; each shares three stitches with the next, and the number of a row stands at the left of each.")
	}
	return f.page(title, out, ls, s), nil
}

// page is a chart of letters with its title and its legend.
func (f *figure) page(title string, lines []string, ls *letters, s *seen) string {
	var b strings.Builder
	b.WriteString((&Chart{Title: title, Terms: f.terms, Both: f.both}).heading() + "\n\n")
	for _, l := range lines {
		b.WriteString(l + "\n")
	}
	b.WriteString("\n")
	key := func(has bool, letter, words string) {
		if has {
			b.WriteString(letter + "  " + words + "\n")
		}
	}
	key(s.chain, "o", "ch: chain")
	key(s.count > 0, itoa(s.count)+"o", itoa(s.count)+" chains, and so on")
	key(s.tall, "8", "chains at the start of a row that are a stitch")
	for _, k := range ls.order {
		key(true, ls.of[k], f.wordsOf(k))
	}
	key(s.picot, "^", "picot")
	key(s.corner, cornerMark, "corner of the last round: it is no circle")
	key(s.peak, peakMark+valleyMark, "peak and valley of the rows: they are not straight")
	for _, n := range f.notes {
		for _, l := range wrap(n, 76) {
			b.WriteString(l + "\n")
		}
	}
	return b.String()
}

// wordsOf is a kind of stitch in the legend's terms.
func (f *figure) wordsOf(k textKind) string {
	name, words := k.id.Name(f.terms), k.id.Words(f.terms)
	switch {
	case k.id == stitch.None:
		return "a stitch of a row that is not worked out"
	case k.id == stitch.Special:
		words, name = clean(k.name), ""
	case k.legs > 1 && k.place:
		words = itoa(k.legs) + " " + name + " worked together in one place"
		name += itoa(k.legs) + "tog"
	case k.legs > 1:
		name += itoa(k.legs) + "tog"
		words += " " + itoa(k.legs) + " stitches together"
	}
	if k.id != stitch.None && k.id != stitch.Special {
		words += f.across(k.id, k.legs)
	}
	switch k.loop {
	case pattern.BackLoop:
		words += ", in the back loop only"
	case pattern.FrontLoop:
		words += ", in the front loop only"
	}
	if name != "" && name != words {
		return name + ": " + words
	}
	return words
}

// rowYarn is the yarn that a row begins with.
func rowYarn(v *level) int {
	for i := range v.made {
		return v.made[i].yarn
	}
	return -1
}

// noteYarns says which yarn the rows begin with, where they stand on no line of
// their own to say it on.
func (f *figure) noteYarns(word string) {
	if !f.severalYarns() {
		return
	}
	var parts []string
	for i := 0; i < len(f.rows); {
		y, k := rowYarn(f.rows[i].v), i+1
		for k < len(f.rows) && rowYarn(f.rows[k].v) == y {
			k++
		}
		label := f.rows[i].number
		if k > i+1 {
			label += "-" + f.rows[k-1].number
		}
		if y >= 0 {
			parts = append(parts, label+" "+clean(f.y.all[y].name))
		}
		i = k
	}
	f.note(word + "s begin with: " + strings.Join(parts, ", ") + ".")
}

// spaceText puts the chains of a space between the letters beside it.
func spaceText(t *textLine, v *level, i int, col func(float64) int, seen *seen) {
	m := &v.made[i]
	c := col(m.head.t)
	from, to := c, c
	for from > 0 && t.free(from-1) && c-from < m.link.Chains*perUnit {
		from--
	}
	for t.free(to+1) && to-c < m.link.Chains*perUnit {
		to++
	}
	n := m.link.Chains
	room := to - from + 1
	if !t.free(c) {
		return
	}
	if n <= room {
		seen.chain = true
		step := 1
		if n*2-1 <= room-2 {
			step = 2
		}
		at := c - (n-1)*step/2
		for k := range n {
			t.put(max(at, from)+k*step, "o")
		}
		return
	}
	seen.count = n
	s := itoa(n) + "o"
	at := max(c-len(s)/2, from)
	for k, r := range s {
		if t.free(at + k) {
			t.put(at+k, string(r))
		}
	}
}

// leaning is a line of strokes between a row and the one below; "" where all
// stand upright.
func leaning(v *level, col func(float64) int) string {
	var t textLine
	any := false
	for i := range v.made {
		m := &v.made[i]
		if m.link.Kind != pattern.LinkStitch {
			continue
		}
		h := col(m.head.t)
		for _, s := range m.feet {
			d := h - col(s.t)
			mid := h - d/2
			mark := "|"
			switch {
			case d > 0:
				mark = "/"
			case d < 0:
				mark = "\\"
			}
			if d > 1 || d < -1 || len(m.feet) > 1 {
				any = true
			}
			if d == 1 || d == -1 {
				mark, mid = "|", h
				if len(m.feet) > 1 {
					mark = map[bool]string{true: "/", false: "\\"}[d > 0]
					mid = h - d
				}
			}
			t.put(mid, mark)
		}
	}
	if !any {
		return ""
	}
	return t.String()
}
