package cue

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timecode"
)

var update = flag.Bool("update", false, "write the goldens anew")

// pennant is a film of three takes: a row in full, rows sped up, a row slowed
// down, and a piece more.
func pennant() film.EditList {
	first := film.Cut{Take: 1, Clip: "A001_C0003.MP4", Start: "10:00:00:00", ClapAt: 2_480}
	second := film.Cut{Take: 2, Clip: "A001_C0004.MP4", Start: "10:21:40:12", ClapAt: 1_920}
	third := film.Cut{Take: 3}
	l := film.EditList{Title: "Harbour Pennant", Planned: true}
	add := func(c film.Cut, from, to, speed int64, piece, row, say string, said int64, marks ...film.Mark) {
		c.From, c.To, c.Speed, c.Piece, c.Row, c.Say, c.SayFor, c.Marks = from, to, speed, piece, row, say, said, marks
		c.FilmFrom = l.Length()
		c.FilmTo = c.FilmFrom + film.FilmLength(to-from, speed)
		l.Cuts = append(l.Cuts, c)
	}
	add(first, 4_000, 64_250, film.AsFilmed, "Strip", "Row 1",
		"Row one. Single crochet in the second chain from the hook, and in each chain across. Twenty stitches.", 8_400,
		film.Mark{At: 4_000, Kind: film.RowBegun, Text: "Strip: Row 1"},
		film.Mark{At: 31_500, Kind: film.OwnWord, Text: "close-up"},
		film.Mark{At: 64_250, Kind: film.RowEnded, Text: "20"})
	add(first, 70_000, 88_000, film.AsFilmed, "Strip", "Row 2",
		"Row two. Chain one and turn. Single crochet in each of the next two stitches, then half double crochet in each of the next two stitches; do this five times in all.", 12_900,
		film.Mark{At: 82_040, Kind: film.Slipped, Text: "1 short"})
	add(first, 88_000, 148_000, 4_000, "Strip", "Row 2", "", 0)
	add(second, 500, 9_500, film.AsFilmed, "Strip", "Row 3", "Row three. Chain one, turn, and single crochet across.", 0)
	add(second, 9_500, 69_500, 20_000, "Strip", "Row 3", "", 0)
	add(third, 0, 6_000, 500, "Coil", "Row 1",
		"Now the coil. Chain twenty-one loosely.", 0, film.Mark{At: 3_000, Kind: film.Instruction, Text: "ch 21"})
	return l
}

func rate(t testing.TB, name string) timecode.Rate {
	t.Helper()
	r, err := timecode.ParseRate(name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// written is a list in a format, where nothing is wrong.
func written(t testing.TB, l film.EditList, format string, o Options) []byte {
	t.Helper()
	f, err := Named(format)
	if err != nil {
		t.Fatal(err)
	}
	out, _, err := Write(l, f, o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestGoldens(t *testing.T) {
	at25, drop := Options{Rate: rate(t, "25")}, Options{Rate: rate(t, "29.97df")}
	source := Options{Rate: rate(t, "25"), Source: true, Take: 1}
	semicolons := pennant()
	for i := range semicolons.Cuts {
		if s := &semicolons.Cuts[i].Start; *s != "" {
			*s = (*s)[:8] + ";" + (*s)[9:]
		}
	}
	for _, g := range []struct {
		file, format string
		list         film.EditList
		o            Options
	}{
		{"film.txt", "table", pennant(), Options{}},
		{"film-25.txt", "table", pennant(), at25},
		{"film.csv", "csv", pennant(), at25},
		{"film.vtt", "vtt", pennant(), Options{}},
		{"film.srt", "srt", pennant(), Options{}},
		{"film.chapters", "chapters", pennant(), Options{}},
		{"film.ffmetadata", "ffmetadata", pennant(), Options{}},
		{"film-25.edl", "edl", pennant(), at25},
		{"film-29.97df.edl", "edl", semicolons, drop},
		{"film-25.otio", "otio", pennant(), at25},
		{"film-29.97df.otio", "otio", semicolons, drop},
		{"source.txt", "table", pennant(), Options{Source: true}},
		{"source.csv", "csv", pennant(), Options{Source: true}},
		{"take1.vtt", "vtt", pennant(), source},
		{"take1.srt", "srt", pennant(), source},
		{"take1.ffmetadata", "ffmetadata", pennant(), source},
		{"source.edl", "edl", pennant(), Options{Rate: rate(t, "25"), Source: true}},
		{"take1.otio", "otio", pennant(), source},
	} {
		got := written(t, g.list, g.format, g.o)
		if !bytes.Equal(got, written(t, g.list, g.format, g.o)) {
			t.Errorf("%s: written twice it is not the same", g.file)
		}
		path := filepath.Join("testdata", g.file)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(string(want), string(got)); d != "" {
			t.Errorf("%s (-want +got):\n%s", g.file, d)
		}
	}
}
