package cue

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
)

var chapterLine = regexp.MustCompile(`^(?:(\d+):)?(\d{1,2}):(\d{2}) (\S.*)$`)

// readChapters reads a chapter list as the help texts of video pages have it:
// the first at 0:00, in rising order, each at least ten seconds long, at least
// three of them. Times are in seconds.
func readChapters(list string, length int64) (at []int64, titles []string, err error) {
	for _, line := range strings.Split(strings.TrimSuffix(list, "\n"), "\n") {
		m := chapterLine.FindStringSubmatch(line)
		if m == nil {
			return nil, nil, fmt.Errorf("%q is no chapter", line)
		}
		var now int64
		for _, part := range m[1:4] {
			n, _ := strconv.Atoi(part) // hours may be missing
			now = now*60 + int64(n)
		}
		if len(at) > 0 && now < at[len(at)-1]+10 || len(at) == 0 && line[:5] != "0:00 " {
			return nil, nil, fmt.Errorf("%q comes after %v", line, at)
		}
		at, titles = append(at, now), append(titles, m[4])
	}
	if len(at) < 3 || length/1000-at[len(at)-1] < 9 {
		return nil, nil, fmt.Errorf("chapters begin at %v of %d ms", at, length)
	}
	return at, titles, nil
}

// Of any list: its chapters are a list that a video page takes, or it is said
// why there are none.
func TestAnyChapters(t *testing.T) {
	list, _ := Named("chapters")
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		o := anyOptions(t, l)
		out, _, err := Write(l, list, o)
		length := l.Length()
		if o.Source {
			used, err := footage(l, o.Take)
			if err != nil {
				t.Fatal(err)
			}
			length = used.Cuts[0].ClapAt + used.Cuts[len(used.Cuts)-1].To
		}
		if err != nil {
			if !strings.HasPrefix(err.Error(), "a chapter list needs 3 chapters of at least 10 seconds each") {
				t.Fatal(err)
			}
			return
		}
		at, titles, err := readChapters(string(out), length)
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		if len(at) > ChaptersMost {
			t.Errorf("%d chapters", len(at))
		}
		for _, title := range titles {
			if utf8.RuneCountInString(title) > TitleMost {
				t.Errorf("%q is a long title", title)
			}
		}
	})
}

// Chapters of FFMETADATA cover the film from 0 to its end without a gap.
func TestFFMetadataCoversTheFilm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		var end int64
		for _, c := range rows(filmLine(l)) {
			if c.from != end || c.to <= c.from {
				t.Errorf("a chapter from %d to %d after %d", c.from, c.to, end)
			}
			end = c.to
		}
		if end != l.Length() {
			t.Errorf("the chapters end at %d of %d", end, l.Length())
		}
	})
}

// filmOf is a film of rows of so many seconds; "|" begins the next piece.
func filmOf(rows string) film.EditList {
	var l film.EditList
	pieces := []string{"Strip", "Coil", "Tassel"}
	row := 1
	for _, f := range strings.Fields(rows) {
		if f == "|" {
			pieces, row = pieces[1:], 1
			continue
		}
		var s int64
		fmt.Sscan(f, &s)
		c := film.Cut{Take: 1, From: l.Length(), To: l.Length() + 1000*s, Speed: film.AsFilmed, Piece: pieces[0], Row: fmt.Sprint("Row ", row)}
		c.FilmFrom, c.FilmTo = c.From, c.To
		l.Cuts = append(l.Cuts, c)
		row++
	}
	return l
}

func TestChaptersJoin(t *testing.T) {
	for _, c := range []struct{ rows, want string }{
		{"10 20 30", "0:00 Strip: Row 1 / 0:10 Strip: Row 2 / 0:30 Strip: Row 3"},
		{"4 4 4 20 30", "0:00 Strip: Rows 1-3 / 0:12 Strip: Row 4 / 0:32 Strip: Row 5"},
		{"20 30 20 4", "0:00 Strip: Row 1 / 0:20 Strip: Row 2 / 0:50 Strip: Rows 3-4"},
		{"20 20 4 | 20", "0:00 Strip: Row 1 / 0:20 Strip: Rows 2-3 / 0:44 Coil: Row 1"},
		{"4 | 9 | 20 20 20", "0:00 Strip: Row 1 to Coil: Row 1 / 0:13 Tassel: Row 1 / 0:33 Tassel: Row 2 / 0:53 Tassel: Row 3"},
		{"20 | 4 | 20 20", "0:00 Strip: Row 1 / 0:20 Coil: Row 1 to Tassel: Row 1 / 0:44 Tassel: Row 2"},
		{"3599 3600 20", "0:00 Strip: Row 1 / 59:59 Strip: Row 2 / 1:59:59 Strip: Row 3"},
		{"9 9 9", "a chapter list needs 3 chapters of at least 10 seconds each, and the rows of 27.000 s make fewer"},
		{"100", "a chapter list needs 3 chapters of at least 10 seconds each, and the rows of 100.000 s make fewer"},
	} {
		list, _ := Named("chapters")
		out, _, err := Write(filmOf(c.rows), list, Options{})
		got := strings.ReplaceAll(strings.TrimSpace(string(out)), "\n", " / ")
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.rows, got, c.want)
		}
	}
}

// Two rows alone are parted at the maker's own marks.
func TestChaptersAtMarks(t *testing.T) {
	l := filmOf("60 30")
	l.Cuts[0].Marks = []film.Mark{{At: 15_000, Kind: film.Instruction, Text: "dc"}, {At: 20_000, Kind: film.OwnWord, Text: "close-up"},
		{At: 25_000, Kind: film.OwnWord, Text: "too soon after it"}, {At: 60_000, Kind: film.OwnWord, Text: "at the end"}}
	l.Cuts[1].Marks = []film.Mark{{At: 85_000, Kind: film.OwnWord, Text: "too late"}}
	want := "0:00 Strip: Row 1\n0:20 close-up\n1:00 Strip: Row 2\n"
	if got := string(written(t, l, "chapters", Options{})); got != want {
		t.Errorf("got\n%s", got)
	}
}

func TestChaptersTooMany(t *testing.T) {
	list, _ := Named("chapters")
	out, notes, err := Write(filmOf(strings.Repeat("15 ", 200)), list, Options{})
	if err != nil || len(notes) != 1 {
		t.Fatalf("%v, %v", notes, err)
	}
	at, titles, err := readChapters(string(out), 3_000_000)
	if err != nil || len(at) != ChaptersMost || titles[0] != "Strip: Rows 1-4" || titles[49] != "Strip: Rows 197-200" {
		t.Errorf("%v, %v, %v", at, titles, err)
	}
}
