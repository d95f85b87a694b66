package cue

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// csvHead are the columns. Those that end in _ms are whole numbers; the times
// beside them are the same for the eye, as timecode where there is a rate.
var csvHead = []string{"cut", "take", "clip", "clip_start", "clap_at_ms", "source_from_ms", "source_to_ms",
	"source_from", "source_to", "film_from_ms", "film_to_ms", "film_from", "film_to", "speed",
	"piece", "row", "title", "try", "used", "says", "says_ms", "marks"}

// writeCSV writes the cuts as RFC 4180 has it, for a spreadsheet.
func writeCSV(j job) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.Write(csvHead); err != nil {
		return nil, err
	}
	n := func(v int64) string { return strconv.FormatInt(v, 10) }
	for i, c := range j.list.Cuts {
		from, to, err := j.sourceTimes(c)
		if err != nil {
			return nil, err
		}
		var marks []string
		for _, m := range c.Marks {
			marks = append(marks, fmt.Sprintf("%s %s", j.filmTime(c.Film(m.At)), markText(m)))
		}
		used := "yes"
		if c.Unused {
			used = "no"
		}
		if err := w.Write([]string{strconv.Itoa(i + 1), strconv.Itoa(c.Take), cell(c.Clip), cell(c.Start), n(c.ClapAt),
			n(c.From), n(c.To), from, to, n(c.FilmFrom), n(c.FilmTo), j.filmTime(c.FilmFrom), j.filmTime(c.FilmTo),
			factor(c.Speed), cell(c.Piece), cell(c.Row), cell(nameOf(c)), strconv.Itoa(c.Again + 1), used,
			cell(c.Say), n(c.SayFor), cell(strings.Join(marks, "; "))}); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

// cell is text that no spreadsheet takes for a formula: where it begins as one,
// an apostrophe is put before it, as is the usual advice (OWASP, "CSV
// injection", which names = + - @, and their full-width forms).
func cell(s string) string {
	s = oneLine(s)
	if strings.IndexAny(s, "=+-@＝＋－＠") == 0 {
		return "'" + s
	}
	return s
}
