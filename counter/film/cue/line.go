package cue

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"crochet/tallyturn/counter/film"
)

// span is a cut on a line of time, in ms. Spans are in order and do not
// overlap.
type span struct {
	from, to int64
	film.Cut
}

// at is where on the line a moment of the cut's source is.
func (s span) at(source int64) int64 { return s.from + s.Film(source) - s.FilmFrom }

func filmLine(l film.EditList) []span {
	line := make([]span, len(l.Cuts))
	for i, c := range l.Cuts {
		line[i] = span{c.FilmFrom, c.FilmTo, c}
	}
	return line
}

// sourceLine is the line of the one take that a list of footage has.
func sourceLine(l film.EditList) ([]span, error) {
	var takes []string
	line := make([]span, len(l.Cuts))
	for i, c := range l.Cuts {
		if i == 0 || c.Take != l.Cuts[i-1].Take {
			takes = append(takes, strconv.Itoa(c.Take))
		}
		line[i] = span{c.ClapAt + c.From, c.ClapAt + c.To, c}
	}
	if len(takes) > 1 {
		return nil, fmt.Errorf("each take has a time of its own: say which of %s", shortened(takes, 12))
	}
	return line, nil
}

// shortened puts commas between at most n words.
func shortened(words []string, n int) string {
	if len(words) <= n {
		return strings.Join(words, ", ")
	}
	return strings.Join(words[:n-1], ", ") + ", ... " + words[len(words)-1]
}

// footage is the stretches of a list as they were filmed, take by take, or of
// one take only. What is in more than one cut is there once.
func footage(l film.EditList, take int) (film.EditList, error) {
	cuts := slices.Clone(l.Cuts)
	slices.SortStableFunc(cuts, func(a, b film.Cut) int {
		return cmp.Or(cmp.Compare(a.Take, b.Take), cmp.Compare(a.From, b.From))
	})
	out := film.EditList{Title: l.Title, Planned: l.Planned}
	var end int64
	for _, c := range cuts {
		if take != 0 && c.Take != take {
			continue
		}
		if n := len(out.Cuts); n > 0 && out.Cuts[n-1].Take == c.Take {
			c.From = max(c.From, out.Cuts[n-1].To)
		}
		if c.From >= c.To {
			continue
		}
		c.Speed, c.FilmFrom, c.FilmTo = film.AsFilmed, end, end+c.To-c.From
		c.Marks = slices.DeleteFunc(slices.Clone(c.Marks), func(m film.Mark) bool { return m.At < c.From })
		if end = c.FilmTo; end > film.MaxTime {
			return out, errors.New("the footage is longer than a day: choose one take")
		}
		out.Cuts = append(out.Cuts, c)
	}
	if take != 0 && len(out.Cuts) == 0 {
		return out, fmt.Errorf("there is no take %d in it", take)
	}
	return out, nil
}
