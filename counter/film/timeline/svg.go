package timeline

import (
	"encoding/xml"
	"fmt"
	"strings"

	"crochet/tallyturn/counter/film"
)

// The measures of the picture, in pixels.
const (
	pageWide  = 960
	pageEdge  = 24
	barWide   = pageWide - 2*pageEdge
	barHigh   = 34
	flagHigh  = 16
	leastWide = 3  // of a take
	letter    = 66 // the width of a letter of 12 px in tenths, near enough
)

// SVG draws what was filmed as a picture that stands by itself. All takes have
// one scale. The title is the pattern's.
func SVG(s *film.Session, title string) string {
	d := drawing{}
	var longest int64 = 1
	for _, t := range s.Takes {
		longest = max(longest, t.Length)
	}
	y := pageEdge + 18
	d.text(pageEdge, y, "title", Clean(title))
	y += 22
	words := "Nothing was filmed yet."
	if len(s.Takes) > 0 {
		words = summary(s)
	}
	d.text(pageEdge, y, "quiet", words)
	y += 12
	tries, marks := s.Tries, s.Marks
	for _, take := range s.Takes {
		n, k := 0, 0
		for n < len(tries) && tries[n].Take <= take.Number {
			n++
		}
		for k < len(marks) && marks[k].Take <= take.Number {
			k++
		}
		y = d.take(y, take, tries[:n], labels(s, tries[:n]), marks[:k], longest)
		tries, marks = tries[n:], marks[k:]
	}
	y = d.legend(y + 34)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %[1]d %[2]d" role="img">`+"\n", pageWide, y)
	fmt.Fprintf(&b, "<title>%s</title>\n", escape(Clean(title)+": "+words))
	b.WriteString(style)
	fmt.Fprintf(&b, `<rect class="page" width="%d" height="%d"/>`+"\n", pageWide, y)
	b.WriteString(d.String())
	b.WriteString("</svg>\n")
	return b.String()
}

// style is the ink. Contrast with the page is above 4.5 to 1 for all text.
const style = `<style>
text { font: 12px sans-serif; fill: #1d2b36 }
.title { font-size: 18px; font-weight: bold }
.flag, .on-unused { paint-order: stroke; stroke: #fdfbf6; stroke-width: 4px; stroke-linejoin: round }
.quiet { fill: #4d5c68 }
.page { fill: #fdfbf6 }
.used { fill: #bcd9d6; stroke: #2c5f63 }
.unused { fill: url(#unused); stroke: #6b6259; stroke-dasharray: 4 3 }
.line { stroke: #1d2b36; stroke-width: 1.5; fill: none }
.fine { stroke: #4d5c68; fill: none }
.slip { stroke: #a3271a; stroke-width: 2.5; fill: none }
</style>
<defs><pattern id="unused" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" height="7" fill="#fdfbf6"/><rect width="2" height="7" fill="#c9c0b2"/></pattern></defs>
`

type drawing struct{ strings.Builder }

func (d *drawing) text(x, y int, class, words string) {
	fmt.Fprintf(d, `<text x="%d" y="%d" class="%s">%s</text>`+"\n", x, y, class, escape(words))
}

// take draws one take and gives where it ends.
func (d *drawing) take(y int, take film.Take, tries []film.Try, called []string, marks []film.Moment, longest int64) int {
	wide := max(int(take.Length*barWide/longest), leastWide)
	at := func(ms int64) int { return pageEdge + int(ms*int64(wide)/max(take.Length, 1)) }
	y += 30
	d.text(pageEdge, y, "", caption(take))
	y += 10
	for i, t := range tries {
		class := "used"
		if t.Unused != film.Used {
			class = "unused"
		}
		from, to := at(t.From), at(t.To)
		fmt.Fprintf(d, `<rect class="%s" x="%d" y="%d" width="%d" height="%d"><title>%s</title></rect>`+"\n", class, from, y, max(to-from, 1), barHigh,
			escape(fmt.Sprintf("%s, %s to %s, %v", Clean(t.Label), Clock(t.From), Clock(t.To), t.Unused)))
		if label := fitting(called[i], to-from-8); label != "" {
			d.text(from+5, y+21, "on-"+class, label)
		}
	}
	y += barHigh
	// Marks hang below the bar; words that would run into one another go a
	// line lower.
	var free [3]int
	deepest := 0
	for _, m := range marks {
		if _, ok := signs[m.Kind]; !ok {
			continue
		}
		x := at(m.At)
		if !notable(m.Kind) {
			fmt.Fprintf(d, `<path class="fine" d="M%d %dv4"/>`+"\n", x, y)
			continue
		}
		words := fmt.Sprintf("%s %s", Clock(m.At), telling(m))
		line := 0
		for line < len(free)-1 && free[line] > x {
			line++
		}
		long := len([]rune(words))*letter/10 + 26
		deepest = max(deepest, line+1)
		base := y + 14 + line*flagHigh
		left := min(x, pageWide-pageEdge-long)
		fmt.Fprintf(d, `<path class="line" d="M%d %dV%d"/>`+"\n", x, y, base-6)
		if free[line] <= left {
			d.sign(m.Kind, left+6, base-2)
			d.text(left+14, base+2, "flag", words)
			free[line] = left + long
		} else {
			d.sign(m.Kind, x, base-2) // its words have no room
		}
	}
	return y + deepest*flagHigh
}

// sign draws what stands for a mark.
func (d *drawing) sign(k film.MarkKind, x, y int) {
	switch k {
	case film.Slipped:
		fmt.Fprintf(d, `<path class="slip" d="M%d %dl8 8m0 -8l-8 8"/>`+"\n", x-4, y-4)
	case film.Unravelled:
		fmt.Fprintf(d, `<path class="line" d="M%d %dq2 -6 4 0t4 0"/>`+"\n", x-4, y)
	case film.Again:
		fmt.Fprintf(d, `<path class="line" d="M%d %dl-6 4l6 4z"/>`+"\n", x+3, y-4)
	case film.OwnWord:
		fmt.Fprintf(d, `<path class="line" d="M%d %dl4 7h-8z"/>`+"\n", x, y-4)
	}
}

// legend explains it and gives where the picture ends.
func (d *drawing) legend(y int) int {
	x := pageEdge
	for _, box := range []string{"used", "unused"} {
		fmt.Fprintf(d, `<rect class="%s" x="%d" y="%d" width="22" height="12"/>`+"\n", box, x, y-10)
		words := strings.Replace(box, "unused", "not used", 1)
		d.text(x+28, y, "quiet", words)
		x += 28 + len(words)*letter/10 + 22
	}
	for _, k := range legend[:4] {
		d.sign(k, x+5, y-4)
		d.text(x+16, y, "quiet", signs[k].words)
		x += 16 + len(signs[k].words)*letter/10 + 22
	}
	return y + pageEdge
}

// fitting is a label that fits so many pixels, or as much of it as does.
func fitting(label string, wide int) string {
	r := []rune(label)
	n := wide * 10 / letter
	switch {
	case n >= len(r):
		return label
	case n < 3:
		return ""
	}
	return string(r[:n-1]) + "…"
}

func escape(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil { // a Builder gives none
		return ""
	}
	return b.String()
}
