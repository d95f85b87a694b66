package cue

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"crochet/tallyturn/counter/film"
)

// What video pages ask of a chapter list in a description: the first chapter at
// 0:00, each at least ten seconds, three at least. The help texts of such pages
// say so. How many are too many, and how long a title may be, is our choice;
// about seventy characters of one are said to be shown.
const (
	ChapterLeast  = 10_000 // ms
	ChaptersLeast = 3
	ChaptersMost  = 50
	TitleMost     = 70 // characters
)

// chapter is a stretch with a name: that of its first and last cut, or a word
// of the maker's own.
type chapter struct {
	from, to    int64 // ms
	first, last film.Cut
	word        string
}

// rows are the chapters that a line of time has by itself: one for each run of
// cuts of one name.
func rows(line []span) []chapter {
	var out []chapter
	for _, s := range line {
		if n := len(out); n > 0 && nameOf(out[n-1].last) == nameOf(s.Cut) {
			out[n-1].to = s.to
			continue
		}
		out = append(out, chapter{from: s.from, to: s.to, first: s.Cut, last: s.Cut})
	}
	return out
}

// words are the rows, parted at the marks with a word of the maker's own too.
func words(line []span) []chapter {
	var out []chapter
	for i, s := range line {
		if i == 0 || nameOf(line[i-1].Cut) != nameOf(s.Cut) {
			out = append(out, chapter{from: s.from, first: s.Cut, last: s.Cut})
		}
		for _, m := range s.Marks {
			if at := s.at(m.At); m.Kind == film.OwnWord && at > out[len(out)-1].from && at < s.to {
				out = append(out, chapter{from: at, first: s.Cut, last: s.Cut, word: markText(m)})
			}
		}
		out[len(out)-1].to = s.to
	}
	return out
}

// joined is chapters of at least least ms each, made of neighbours, those of
// one piece first. What is left at the end goes to the last one.
func joined(all []chapter, least int64) []chapter {
	var out []chapter
	open := false // the last of out is still too short
	for _, c := range all {
		n := len(out)
		if open && n > 1 && out[n-1].last.Piece != c.first.Piece && out[n-2].last.Piece == out[n-1].first.Piece {
			// Rather than begin another piece within it, end the last.
			out[n-2] = with(out[n-2], out[n-1])
			out, n, open = out[:n-1], n-1, false
		}
		if open {
			out[n-1] = with(out[n-1], c)
		} else {
			out = append(out, c)
		}
		last := out[len(out)-1]
		open = last.to-last.from < least
	}
	if n := len(out); open && n > 1 {
		out[n-2] = with(out[n-2], out[n-1])
		out = out[:n-1]
	}
	return out
}

// with is two neighbours as one.
func with(a, b chapter) chapter {
	a.to, a.last = b.to, b.last
	return a
}

// title is what a chapter is called: "Strip: Rows 1-4" where it is rows that
// follow one another.
func (c chapter) title() string {
	first, last := nameOf(c.first), nameOf(c.last)
	switch {
	case c.word != "":
		return c.word
	case first == last:
		return first
	case c.first.Piece == c.last.Piece && first == rowOf(c.first) && last == rowOf(c.last):
		word, from, _, ok := numbered(c.first.Row)
		if w, _, to, too := numbered(c.last.Row); ok && too && w == word && to > from {
			return rowOf(film.Cut{Piece: c.first.Piece, Row: fmt.Sprintf("%ss %d-%d", word, from, to)})
		}
	}
	return first + " to " + last
}

// numbered takes "Row 3" and "Rnds 5-6" apart.
func numbered(row string) (word string, from, to int, ok bool) {
	word, rest, _ := strings.Cut(oneLine(row), " ")
	word = strings.TrimSuffix(word, "s")
	if word != "Row" && word != "Rnd" && word != "Round" {
		return "", 0, 0, false
	}
	a, b, two := strings.Cut(rest, "-")
	from, err := strconv.Atoi(a)
	if to = from; err == nil && two {
		to, err = strconv.Atoi(b)
	}
	return word, from, to, err == nil
}

// chapters are those of a chapter list.
func (j job) chapters() ([]chapter, error) {
	for _, all := range [][]chapter{rows(j.line), words(j.line)} {
		// A list has no gaps: each chapter lasts until the next begins.
		all[0].from = 0
		for i := range len(all) - 1 {
			all[i].to = all[i+1].from
		}
		out := joined(all, ChapterLeast)
		if len(out) > ChaptersMost {
			length := all[len(all)-1].to
			out = joined(all, max(ChapterLeast, (length+ChaptersMost-1)/ChaptersMost))
			j.note("the rows of the film are more than %d chapters: neighbours were joined", ChaptersMost)
		}
		if len(out) >= ChaptersLeast {
			return out, nil
		}
	}
	return nil, fmt.Errorf("a chapter list needs %d chapters of at least %d seconds each, and the rows of %s s make fewer",
		ChaptersLeast, ChapterLeast/1000, seconds(j.line[len(j.line)-1].to))
}

// writeChapters writes a line for each chapter: when it begins, and its title.
func writeChapters(j job) ([]byte, error) {
	chapters, err := j.chapters()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	for _, c := range chapters {
		title := c.title()
		if utf8.RuneCountInString(title) > TitleMost {
			title = string([]rune(title)[:TitleMost-1]) + "…"
		}
		s := c.from / 1000
		if s >= 3600 {
			fmt.Fprintf(&b, "%d:%02d:%02d %s\n", s/3600, s/60%60, s%60, title)
		} else {
			fmt.Fprintf(&b, "%d:%02d %s\n", s/60, s%60, title)
		}
	}
	return b.Bytes(), nil
}

// writeFFMetadata writes every row as a chapter in the format that ffmpeg's
// manual describes under FFMETADATA1.
func writeFFMetadata(j job) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString(";FFMETADATA1\n")
	if title := oneLine(j.list.Title); title != "" {
		fmt.Fprintf(&b, "title=%s\n", ffText(title))
	}
	for _, c := range rows(j.line) {
		fmt.Fprintf(&b, "[CHAPTER]\nTIMEBASE=1/1000\nSTART=%d\nEND=%d\ntitle=%s\n", c.from, c.to, ffText(c.title()))
	}
	return b.Bytes(), nil
}

var ffEscape = strings.NewReplacer(`\`, `\\`, "=", `\=`, ";", `\;`, "#", `\#`)

// ffText is text as a value. A backslash at its end, escaped as it should be,
// makes ffmpeg 5 take the next line for more of it; a space behind it does not.
func ffText(s string) string {
	s = ffEscape.Replace(s)
	if strings.HasSuffix(s, `\`) {
		s += " "
	}
	return s
}
