package chart

import (
	"math"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Text draws a piece of a proof, counted from 0, with letters: each row on a
// line, rounds unrolled, read from the number at its edge. A line between two
// rows shows which way stitches lean, where some do: increases spread from
// their stitch, decreases meet.
func Text(proof *pattern.Proof, piece int, o Options) (string, error) {
	f, _, err := layFlat(proof, piece, o)
	if err != nil {
		return "", err
	}
	return f.text(titleOf(proof, piece)), nil
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

// text writes the rows, the first at the bottom.
func (f *figure) text(title string) string {
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
	ls := &letters{of: make(map[textKind]string), taken: map[string]bool{"o": true, "8": true, "^": true, "?": true}}
	var lines []string // the lowest first
	chain, tall, picot := false, false, false
	if len(f.foundations) > 0 && len(f.foundations[0].chain) > 0 {
		var t textLine
		for _, s := range f.foundations[0].chain {
			t.put(col(s.t), "o")
			chain = true
		}
		lines = append(lines, t.String())
	}
	yarn, several := -1, f.severalYarns()
	for n := range f.rows {
		r := &f.rows[n]
		for _, v := range []*level{r.earlier, r.v} {
			if v == nil {
				continue
			}
			if lean := leaning(v, col); lean != "" {
				lines = append(lines, lean)
			}
			var t textLine
			first := math.MaxInt
			last := 0
			for i := range v.made {
				m := &v.made[i]
				c := col(m.head.t)
				switch {
				case m.link.Kind == pattern.LinkSpace:
					chain = true
					continue
				case m.link.Kind == pattern.LinkPicot:
					picot = true
					for !t.free(c) {
						c++
					}
					t.put(c, "^")
				case m.link.Turn:
					tall = true
					t.put(c, "8")
				default:
					t.put(c, ls.at(kindOf(m)))
				}
				first, last = min(first, c), max(last, c)
			}
			for i := range v.made {
				if v.made[i].link.Kind == pattern.LinkSpace {
					spaceText(&t, v, i, col)
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
					chain = true
					mark = strings.Repeat("o", min(r.links.Start, 3))
				}
				if v.dir*side < 0 {
					s := " " + mark + " " + number
					for i, x := range strings.Split(s, "") {
						t.put(last+1+i, x)
					}
				} else if first != math.MaxInt {
					s := number + " " + mark + " "
					for i, x := range strings.Split(s, "") {
						t.put(first-len(s)+i, x)
					}
				}
			}
			line := t.String()
			if several {
				if y := rowYarn(v); y >= 0 && y != yarn {
					line += "   " + clean(f.y.all[y].name)
					yarn = y
				}
			}
			if v == r.v && n > 0 && f.rows[n-1].piece != r.piece {
				line += "   " + nameOf(f.proof, r.piece)
			}
			lines = append(lines, line)
		}
	}
	var b strings.Builder
	b.WriteString((&Chart{Title: title, Terms: f.terms, Both: f.both}).heading() + "\n\n")
	for i := len(lines) - 1; i >= 0; i-- {
		b.WriteString(lines[i] + "\n")
	}
	b.WriteString("\n")
	key := func(letter, words string) { b.WriteString(letter + "  " + words + "\n") }
	if chain {
		key("o", "ch: chain")
	}
	if tall {
		key("8", "chains at the start of a row that are a stitch")
	}
	for _, k := range ls.order {
		key(ls.of[k], f.wordsOf(k))
	}
	if picot {
		key("^", "picot")
	}
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

// spaceText puts the chains of a space between the letters beside it.
func spaceText(t *textLine, v *level, i int, col func(float64) int) {
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
