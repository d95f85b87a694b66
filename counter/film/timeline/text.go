package timeline

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/counter/film"
)

// Narrowest is the fewest columns a timeline is drawn in.
const Narrowest = 24

// Text draws what was filmed in lines of at most width columns, or Narrowest.
// Each take has its own scale.
func Text(s *film.Session, width int) []string {
	width = max(width, Narrowest)
	if len(s.Takes) == 0 {
		return []string{"Nothing was filmed yet."}
	}
	lines := []string{cut(summary(s), width)}
	used := map[film.MarkKind]bool{}
	tries, marks := s.Tries, s.Marks
	for _, take := range s.Takes {
		n := 0
		for n < len(tries) && tries[n].Take <= take.Number {
			n++
		}
		k := 0
		for k < len(marks) && marks[k].Take <= take.Number {
			used[marks[k].Kind] = true
			k++
		}
		lines = append(lines, "")
		lines = append(lines, bar(take, tries[:n], labels(s, tries[:n]), marks[:k], width)...)
		tries, marks = tries[n:], marks[k:]
	}
	return append(append(lines, ""), keyTo(s, used, width)...)
}

// bar draws one take.
func bar(take film.Take, tries []film.Try, called []string, marks []film.Moment, width int) []string {
	lines := []string{cut(caption(take), width)}
	const indent = "  "
	wide := width - len(indent)
	if take.Length > 0 {
		at := func(ms int64) int { return int(min(ms*int64(wide-1)/take.Length, int64(wide-1))) }
		over, rule, below := blank(wide), blank(wide), blank(wide)
		for i, t := range tries {
			from, to := at(t.From), at(t.To)
			stroke := '━'
			if t.Unused != film.Used {
				stroke = '╌'
			}
			for x := from; x < to; x++ {
				rule[x] = stroke
			}
			rule[from] = '│'
			if i == 0 || called[i] != tries[i-1].Label || t.Unused != tries[i-1].Unused {
				write(over[from:max(to, from)], called[i])
			}
		}
		rule[wide-1] = '│'
		rank := make([]int, wide)
		for _, m := range marks {
			x := at(m.At)
			if s, ok := signs[m.Kind]; ok && s.rank > rank[x] {
				below[x], rank[x] = s.letter, s.rank
			}
		}
		for _, l := range [][]rune{over, rule, below} {
			if text := strings.TrimRight(string(l), " "); text != "" {
				lines = append(lines, indent+text)
			}
		}
	}
	for _, m := range marks {
		if notable(m.Kind) {
			lines = append(lines, cut(fmt.Sprintf("%s%6s  %c %s", indent, Clock(m.At), signs[m.Kind].letter, telling(m)), width))
		}
	}
	return lines
}

func blank(n int) []rune { return []rune(strings.Repeat(" ", n)) }

// write puts as much of a label as fits into the columns it has, a gap after
// it. Labels of letters that are not one column wide are left out.
func write(into []rune, label string) {
	if len(into) < 3 || ansi.StringWidth(label) != len([]rune(label)) {
		return
	}
	copy(into, []rune(ansi.Truncate(label, len(into)-1, "…")))
}

// keyTo explains the strokes and signs that were used.
func keyTo(s *film.Session, used map[film.MarkKind]bool, width int) []string {
	parts := []string{"━ used"}
	if slices.ContainsFunc(s.Tries, func(t film.Try) bool { return t.Unused != film.Used }) {
		parts = append(parts, "╌ not used")
	}
	for _, k := range legend {
		if used[k] {
			parts = append(parts, string(signs[k].letter)+" "+signs[k].words)
		}
	}
	var lines []string
	line := ""
	for _, p := range parts {
		if line != "" && ansi.StringWidth(line+"   "+p) > width {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += "   "
		}
		line += p
	}
	return append(lines, line)
}

func cut(s string, width int) string { return ansi.Truncate(s, width, "…") }
