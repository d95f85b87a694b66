package cue

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
)

// Footage is every stretch of the list once, as it was filmed.
func TestFootage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		out, err := footage(l, 0)
		if err != nil {
			t.Fatal(err)
		}
		if err := out.Check(); err != nil {
			t.Fatal(err)
		}
		// Each second of a take is in it as often as it should be: once where
		// some cut of the list has it, else never.
		for take := 1; take <= 4; take++ {
			for at := int64(500); at < 300_000; at += 7_000 {
				in := func(l film.EditList) (n int) {
					for _, c := range l.Cuts {
						if c.Take == take && c.From <= at && at < c.To {
							n++
						}
					}
					return n
				}
				if got, want := in(out), min(in(l), 1); got != want {
					t.Errorf("take %d at %d ms is in it %d times, want %d", take, at, got, want)
				}
			}
		}
		for _, c := range out.Cuts {
			if c.Speed != film.AsFilmed {
				t.Errorf("filmed at %d", c.Speed)
			}
		}
	})
}

// The line of a take begins with its clip where the clap's place is noted, or
// else with the clap.
func TestSourceLine(t *testing.T) {
	for take, want := range map[int][2]int64{1: {6_480, 66_730}, 3: {0, 6_000}} {
		l, err := footage(pennant(), take)
		if err != nil {
			t.Fatal(err)
		}
		line, err := sourceLine(l)
		if err != nil || line[0].from != want[0] || line[0].to != want[1] {
			t.Errorf("take %d goes from %d to %d (%v)", take, line[0].from, line[0].to, err)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	spoilt := pennant()
	spoilt.Cuts[1].FilmFrom++
	badCode, elsewhere := pennant(), pennant()
	for i := range badCode.Cuts[:3] {
		badCode.Cuts[i].Start = "at noon"
		elsewhere.Cuts[i].Start = "01:00:00;00"
	}
	at25 := Options{Rate: rate(t, "25")}
	for _, c := range []struct {
		list   film.EditList
		format string
		o      Options
		want   string
	}{
		{pennant(), "edl", Options{}, "edl counts frames and has to be told the rate: one of 23.976, 24,"},
		{pennant(), "otio", Options{}, "otio counts frames"},
		{film.EditList{}, "table", Options{}, "nothing has been filmed yet"},
		{spoilt, "table", Options{}, "cut 2: it begins at 60251 ms"},
		{pennant(), "vtt", Options{Source: true}, "each take has a time of its own: say which of 1, 2, 3"},
		{many(40, false), "srt", Options{Source: true}, "each take has a time of its own: say which of 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, ... 40"},
		{pennant(), "table", Options{Source: true, Take: 9}, "there is no take 9 in it"},
		{pennant(), "table", Options{Take: 1}, "a take is chosen in source time only"},
		{badCode, "edl", at25, `take 1: its starting timecode "at noon" is no timecode; one looks like 01:02:03:04`},
		{badCode, "csv", at25, `take 1: its starting timecode`},
		{elsewhere, "otio", at25, `take 1: its starting timecode "01:00:00;00" is written with dropped numbers, and at 25 none are`},
	} {
		f, err := Named(c.format)
		if err != nil {
			t.Fatal(err)
		}
		out, _, err := Write(c.list, f, c.o)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || out != nil {
			t.Errorf("%s: %v, want %s", c.format, err, c.want)
		}
	}
	if _, err := Named("avi"); err == nil || err.Error() != `there is no format "avi"; there are table, csv, vtt, srt, chapters, ffmetadata, edl, otio` {
		t.Error(err)
	}
	if _, _, err := Write(pennant(), Format{}, Options{}); err == nil {
		t.Error("no format is written")
	}
}
