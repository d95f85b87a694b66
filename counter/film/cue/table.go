package cue

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/counter/film"
)

// writeTable writes a line for each cut, and below it what is marked in it. The
// clip's own time is its timecode where a rate is given and its beginning was
// noted, or else the time since the clap.
func writeTable(j job) ([]byte, error) {
	head := []string{"film", "", "take", "clip", "source", "", "speed", "row"}
	lines := [][]string{head}
	for _, s := range j.list.Cuts {
		from, to, err := j.sourceTimes(s)
		if err != nil {
			return nil, err
		}
		lines = append(lines, []string{j.filmTime(s.FilmFrom), j.filmTime(s.FilmTo), fmt.Sprint(s.Take),
			shown(s.Clip), from, to, speedOf(s), shown(nameOf(s))})
	}
	var widths []int
	for i := range head {
		w := 0
		for _, l := range lines {
			w = max(w, ansi.StringWidth(l[i]))
		}
		widths = append(widths, w)
	}
	var b bytes.Buffer
	if title := shown(j.list.Title); title != "" {
		fmt.Fprintf(&b, "%s\n\n", title)
	}
	for i, l := range lines {
		var row strings.Builder
		for k, cell := range l {
			pad := strings.Repeat(" ", widths[k]-ansi.StringWidth(cell))
			if k == 2 || k == 6 { // numbers stand to the right
				cell, pad = pad+cell, ""
			}
			row.WriteString(cell + pad + "  ")
		}
		b.WriteString(strings.TrimRight(row.String(), " ") + "\n")
		if i == 0 {
			continue
		}
		c := j.list.Cuts[i-1]
		if say := shown(c.Say); say != "" {
			b.WriteString("    says")
			if c.SayFor > 0 {
				fmt.Fprintf(&b, " for %s s", seconds(c.SayFor))
			}
			fmt.Fprintf(&b, ": %s\n", say)
		}
		for _, m := range c.Marks {
			fmt.Fprintf(&b, "    %s  %s\n", j.filmTime(c.Film(m.At)), shown(markText(m)))
		}
	}
	fmt.Fprintf(&b, "\n%s, %s\n", plural(len(j.list.Cuts), "cut"), j.filmTime(j.list.Length()))
	return b.Bytes(), nil
}

func plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// filmTime is a time of the film: timecode where there is a rate, or to the ms.
func (j job) filmTime(ms int64) string {
	if j.Rate.IsZero() {
		return clock(ms, '.')
	}
	return j.Rate.Format(j.Rate.Frames(ms))
}

// sourceTimes are the ends of a cut in its footage.
func (j job) sourceTimes(c film.Cut) (from, to string, err error) {
	if j.Rate.IsZero() || strings.TrimSpace(c.Start) == "" {
		return clock(c.From, '.'), clock(c.To, '.'), nil
	}
	start, err := startOf(c, j.Rate)
	if err != nil {
		return "", "", err
	}
	code := func(ms int64) string { return j.Rate.Format(start + j.Rate.Frames(c.ClapAt+ms)) }
	return code(c.From), code(c.To), nil
}

// speedOf is a speed as a factor: x4, x0.5, or nothing where it is that of the
// footage.
func speedOf(c film.Cut) string {
	if c.Speed == film.AsFilmed {
		return ""
	}
	return "×" + factor(c.Speed)
}

func factor(thousandths int64) string {
	s := fmt.Sprintf("%d.%03d", thousandths/film.AsFilmed, thousandths%film.AsFilmed)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
