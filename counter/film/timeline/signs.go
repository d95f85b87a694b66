package timeline

import (
	"fmt"
	"strings"

	"crochet/tallyturn/counter/film"
)

// sign is what stands for a kind of mark, in letters and in words.
type sign struct {
	letter rune
	words  string
	rank   int // of two in one place the higher is shown
}

var signs = map[film.MarkKind]sign{
	film.Instruction: {'·', "another instruction", 1},
	film.Counted:     {'=', "counted", 2},
	film.OwnWord:     {'▲', "own mark", 4},
	film.Again:       {'◂', "again from here", 3},
	film.Unravelled:  {'~', "unravelled", 5},
	film.Slipped:     {'✗', "slip", 6},
}

// legend tells the signs that there is need of, the most common first.
var legend = []film.MarkKind{film.Slipped, film.Unravelled, film.Again, film.OwnWord, film.Counted, film.Instruction}

// telling puts a mark in words: "12 for 13", "close-up".
func telling(m film.Moment) string {
	s := signs[m.Kind]
	text := Clean(m.Text)
	switch m.Kind {
	case film.Slipped:
		text = "counted " + text
		if m.TakenBack {
			text += ", mended"
		}
		return text
	case film.OwnWord:
		if text == "" {
			return "mark"
		}
		return text
	}
	return strings.TrimSpace(s.words + " " + text)
}

// notable reports whether a mark is told in words besides its sign.
func notable(k film.MarkKind) bool {
	return k == film.Slipped || k == film.Unravelled || k == film.Again || k == film.OwnWord
}

// Clock is a time in minutes and seconds, rounded down: "0:42", "1:02:03".
func Clock(ms int64) string {
	s := max(ms, 0) / 1000
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// summary is how much there is, and how much of it is used.
func summary(s *film.Session) string {
	var all, unused int64
	tries := 0
	for _, t := range s.Tries {
		all += t.Length()
		if t.Unused != film.Used {
			unused += t.Length()
			tries++
		}
	}
	text := plural(len(s.Takes), "take") + ", " + Clock(all) + " of footage"
	if tries > 0 {
		text += "; " + plural(tries, "try") + " not used, " + Clock(unused)
	}
	return text
}

func plural(n int, noun string) string {
	switch {
	case n == 1:
		return "1 " + noun
	case strings.HasSuffix(noun, "y"):
		return fmt.Sprintf("%d %sies", n, strings.TrimSuffix(noun, "y"))
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// labels are what tries are called: with the piece at its first, in every take.
func labels(s *film.Session, tries []film.Try) []string {
	out := make([]string, len(tries))
	for i, t := range tries {
		out[i] = Clean(t.Label)
		if i == 0 || t.Piece != tries[i-1].Piece || t.Copy != tries[i-1].Copy {
			out[i] = Clean(s.Called(t))
		}
	}
	return out
}

// caption is what is noted on a take.
func caption(t film.Take) string {
	text := fmt.Sprintf("take %d · %s", t.Number, Clock(t.Length))
	if t.Camera != "" {
		text += " · " + Clean(t.Camera)
	}
	if t.Timecode != "" {
		text += " · from " + Clean(t.Timecode)
	}
	if t.ClapAt > 0 {
		text += " · clap at " + film.Seconds(t.ClapAt) + " s"
	}
	if t.End != film.Stopped {
		text += " · " + t.End.String()
	}
	return text
}
