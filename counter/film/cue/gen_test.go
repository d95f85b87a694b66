package cue

import (
	"strings"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
)

// hostile are texts that a format might take for its own.
var hostile = []string{
	"two\nlines\r\nand\rthree", "1\n00:00:00,000 --> 00:00:01,000\nmore", "a --> b", "-->", "NUL \x00 here", `say "hook"`,
	"=1+2", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "key=value; # \\ end\\", "[CHAPTER]", "<b>bold</b> & <i>", `{\an8}up`,
	"{\"a\":1}", "\u202eback", "WEBVTT", "NOTE x", "STYLE", "a,b;c\td", "* LOC: 01:00:00:00 RED X", "M2   AX       050.0", "\u0085\u2028\u2029",
	"../../etc/passwd", "file:///c:/x y.mov", "\ufeffmark", "é ß 針 👩\u200d🎨", strings.Repeat("x", 100), "   ", "&lt;", "\x1b[31mred", "-",
}

var plainWords = strings.Fields(`Row one. Single crochet in the next three stitches, then chain two and turn; repeat
	from the star five times, skip one stitch: twenty-one double crochet, to the end (again) slip`)

func anyText(t *rapid.T, label string) string {
	switch rapid.IntRange(0, 3).Draw(t, label+" kind") {
	case 0:
		return ""
	case 1:
		return rapid.SampledFrom(hostile).Draw(t, label)
	case 2:
		return strings.ToValidUTF8(rapid.StringN(0, 60, -1).Draw(t, label), "?")
	}
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(plainWords), 1, 60).Draw(t, label), " ")
}

// anyList is any list that nothing is wrong with.
func anyList(t *rapid.T) film.EditList {
	l := film.EditList{Title: anyText(t, "title"), Planned: rapid.Bool().Draw(t, "planned")}
	clips := map[int]film.Cut{}
	for range rapid.IntRange(1, 12).Draw(t, "cuts") {
		take := rapid.IntRange(1, 4).Draw(t, "take")
		c, ok := clips[take]
		if !ok {
			c = film.Cut{Take: take, Clip: anyText(t, "clip"), ClapAt: rapid.Int64Range(0, 5_000).Draw(t, "clap"),
				Start: rapid.SampledFrom([]string{"", "01:00:00:00", "23:59:59:23"}).Draw(t, "start")}
			clips[take] = c
		}
		c.Speed = rapid.SampledFrom([]int64{10, 250, 500, 1000, 1000, 1000, 1500, 4000, 20_000}).Draw(t, "speed")
		c.From = rapid.Int64Range(0, 200_000).Draw(t, "from")
		c.To = c.From + rapid.Int64Range(c.Speed/film.AsFilmed+1, 90_000).Draw(t, "length")
		c.FilmFrom = l.Length()
		c.FilmTo = c.FilmFrom + film.FilmLength(c.To-c.From, c.Speed)
		c.Piece = rapid.SampledFrom([]string{"", "Strip", "Coil", hostile[0]}).Draw(t, "piece")
		c.Row = rapid.SampledFrom([]string{"", "Row 1", "Row 2", "Rnds 3-4", hostile[2]}).Draw(t, "row")
		c.Title, c.Say = anyText(t, "title"), anyText(t, "say")
		c.SayFor = rapid.SampledFrom([]int64{0, 1, 900, 12_000, 60_000}).Draw(t, "said")
		c.Unused = !l.Planned && rapid.Bool().Draw(t, "unused")
		at := c.From
		for range rapid.IntRange(0, 3).Draw(t, "marks") {
			at = rapid.Int64Range(at, c.To).Draw(t, "at")
			kind := film.MarkKind(rapid.IntRange(int(film.RowBegun), int(film.OwnWord)).Draw(t, "kind"))
			c.Marks = append(c.Marks, film.Mark{At: at, Kind: kind, Text: anyText(t, "mark")})
		}
		l.Cuts = append(l.Cuts, c)
	}
	if err := l.Check(); err != nil {
		t.Fatalf("the generator is wrong: %v", err)
	}
	return l
}

// anyOptions are options that a list can be written with, in film time or in
// that of one of its takes.
func anyOptions(t *rapid.T, l film.EditList) Options {
	// The generator's starting timecodes exist at all rates.
	var o Options
	var err error
	if o.Rate, err = rateNamed(rapid.SampledFrom(rateNames).Draw(t, "rate")); err != nil {
		t.Fatal(err)
	}
	if o.Source = rapid.Bool().Draw(t, "source"); o.Source {
		o.Take = rapid.SampledFrom(l.Cuts).Draw(t, "take").Take
	}
	return o
}
