package fit

import (
	"fmt"
	"math"
	"strings"

	"crochet/tallyturn/pattern"
)

// The headings of what is said.
const (
	keptTitle  = "Kept as written"
	gaugeTitle = "About the gauge"
	lookTitle  = "Read again: these numbers are yours to set right"
)

// Lines is what there is to say about the result, without the pattern itself.
func (r *Result) Lines() []string {
	var out []string
	out = append(out, r.Piece)
	if r.Across.Asked {
		out = append(out, "  "+r.Across.line("across", "stitches"))
	}
	if r.Up.Asked {
		out = append(out, "  "+r.Up.line("up", "rows"))
	}
	if len(r.Moved) == 0 {
		out = append(out, "  nothing changes: as it is written it is the nearest that works")
	}
	if r.Choice != "" {
		out = append(out, "  or "+r.Choice)
	}
	width := 0
	for _, m := range r.Moved {
		width = max(width, len([]rune(m.What)))
	}
	for _, m := range r.Moved {
		out = append(out, fmt.Sprintf("  %s%s  %s, now %s", m.What, strings.Repeat(" ", width-len([]rune(m.What))), m.Was, m.Now))
	}
	list := func(title string, lines []string) {
		if len(lines) > 0 {
			out = append(out, "", title)
			for _, l := range lines {
				out = append(out, "  "+l)
			}
		}
	}
	list(keptTitle, r.Kept)
	list(lookTitle, r.Look)
	list(gaugeTitle, r.Notes)
	return append(out, "", "Proven as printed: "+outcome(r.Proof)+".")
}

// outcome sums up a proof in which nothing differs: "16 rows, 12 agree, 4 state
// no total".
func outcome(p *pattern.Proof) string {
	s := p.Summary()
	out := countOf(s.Rows, "row")
	for _, c := range []struct {
		n    int
		one  string
		many string
	}{{s.Agrees, "agrees", "agree"}, {s.Unstated, "states no total", "state no total"}, {s.Trusted, "taken on trust", "taken on trust"}, {s.Unread, "not understood", "not understood"}} {
		switch {
		case c.n == 1:
			out += ", 1 " + c.one
		case c.n > 1:
			out += fmt.Sprintf(", %d %s", c.n, c.many)
		}
	}
	return out
}

// line tells one measure: what was, what was wished, what it comes to.
func (m Measure) line(way, what string) string {
	s := fmt.Sprintf("%s: %s %s, were %s", way, figure(m.Stitches), what, figure(m.WasStitches))
	if m.MM > 0 {
		s += fmt.Sprintf("; %s, was %s", m.tell(m.MM), m.tell(m.WasMM))
	}
	if m.Slack >= 1 {
		s += fmt.Sprintf(" (give or take %.0f mm, as the swatch differs)", m.Slack)
	}
	switch {
	case m.WishMM > 0:
		off := int(math.Round(m.Off()))
		if off == 0 {
			return s + "; as wished"
		}
		return s + fmt.Sprintf("; %d mm %s the %s wished", max(off, -off), moreOrLess(off), m.tell(m.WishMM))
	case m.WishN > 0:
		off := m.Stitches - float64(m.WishN)
		if off == 0 {
			return s + "; as wished"
		}
		return s + fmt.Sprintf("; %s %s the %d wished", figure(math.Abs(off)), moreOrLess(int(math.Copysign(1, off))), m.WishN)
	}
	return s
}

// wish is what was asked for, in words.
func (m Measure) wish() string {
	switch {
	case m.WishMM > 0:
		return m.tell(m.WishMM)
	case m.WishN > 0:
		return fmt.Sprint(m.WishN)
	}
	return ""
}

func roundMM(mm float64) float64 {
	if r := math.Round(mm); r != 0 {
		return r
	}
	return 0
}

func (m Measure) tell(mm float64) string { return m.Unit.Tell(mm) }

func moreOrLess(n int) string {
	if n < 0 {
		return "under"
	}
	return "over"
}

func figure(n float64) string { return fmt.Sprint(math.Round(n*10) / 10) }
