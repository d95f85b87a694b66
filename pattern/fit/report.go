package fit

import (
	"fmt"
	"math"
	"strings"
)

// The headings of what is said.
const (
	keptTitle = "Kept as written"
	lookTitle = "Read again: these numbers are yours to set right"
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
	s := r.Proof.Summary()
	out = append(out, "", fmt.Sprintf("Proven as printed: %s, %d agree, none differs.", countOf(s.Rows, "row"), s.Agrees))
	return out
}

// line tells one measure: what was, what was wished, what it comes to.
func (m Measure) line(way, what string) string {
	s := fmt.Sprintf("%s: %s %s, were %s", way, figure(m.Stitches), what, figure(m.WasStitches))
	if m.MM > 0 {
		s += fmt.Sprintf("; %s, was %s", m.tell(m.MM), m.tell(m.WasMM))
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
