package film

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// good is a list of two cuts that nothing is wrong with.
func good() EditList {
	return EditList{Title: "Pennant", Planned: true, Cuts: []Cut{
		{Take: 1, Clip: "A1", To: 10_000, FilmTo: 10_000, Speed: AsFilmed, Row: "Row 1",
			Marks: []Mark{{At: 0, Kind: RowBegun}, {At: 10_000, Kind: RowEnded}}},
		{Take: 1, Clip: "A1", From: 12_000, To: 20_001, FilmFrom: 10_000, FilmTo: 12_000, Speed: 4000, Row: "Row 2"},
	}}
}

func TestCheck(t *testing.T) {
	if err := good().Check(); err != nil {
		t.Fatal(err)
	}
	if err := (EditList{}).Check(); err != nil {
		t.Errorf("no cuts: %v", err)
	}
	for name, spoil := range map[string]func(l *EditList){
		"cut 1: take 0 is not counted":         func(l *EditList) { l.Cuts[0].Take = 0 },
		"cut 1: it begins at 1 ms":             func(l *EditList) { l.Cuts[0].FilmFrom = 1 },
		"cut 2: it begins at 9999 ms":          func(l *EditList) { l.Cuts[1].FilmFrom = 9_999 },
		"cut 2: it goes from 10000 ms":         func(l *EditList) { l.Cuts[1].FilmTo = 10_000 },
		"cut 2: 8001 ms at 4000":               func(l *EditList) { l.Cuts[1].FilmTo = 12_001 },
		"cut 1: its source goes from -1":       func(l *EditList) { l.Cuts[0].From = -1 },
		"cut 2: its source goes from 12000":    func(l *EditList) { l.Cuts[1].To = MaxTime + 1 },
		"cut 2: its speed is 0":                func(l *EditList) { l.Cuts[1].Speed = 0 },
		"cut 1: the clap is -1 ms":             func(l *EditList) { l.Cuts[0].ClapAt = -1 },
		"cut 1: a number is out of bounds":     func(l *EditList) { l.Cuts[0].SayFor = -1 },
		"cut 1: a mark at 10001 ms":            func(l *EditList) { l.Cuts[0].Marks[1].At++ },
		"cut 1: a mark at 0 ms":                func(l *EditList) { m := l.Cuts[0].Marks; m[0], m[1] = m[1], m[0] },
		"cut 1: a mark is of kind 0":           func(l *EditList) { l.Cuts[0].Marks[0].Kind = 0 },
		"cut 1: a mark's text":                 func(l *EditList) { l.Cuts[0].Marks[0].Text = "\xff" },
		`cut 2: "\xff" is not UTF-8`:           func(l *EditList) { l.Cuts[1].Say = "\xff" },
		"the title is not UTF-8":               func(l *EditList) { l.Title = "\xff" },
		"cut 2: take 1 has another clip":       func(l *EditList) { l.Cuts[1].Clip = "A2" },
		"cut 2: a try that was done again is ": func(l *EditList) { l.Cuts[1].Unused = true },
		"100001 cuts are more than 100000":     func(l *EditList) { l.Cuts = make([]Cut, MaxCuts+1) },
	} {
		l := good()
		spoil(&l)
		if err := l.Check(); err == nil || !strings.HasPrefix(err.Error(), name) {
			t.Errorf("got %v, want %s ...", err, name)
		}
	}
}

// Film time and source time lead to one another: as near as the coarser of the
// two can be told to the millisecond.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Cut{Take: 1, Speed: rapid.Int64Range(MinSpeed, 50_000).Draw(t, "speed")}
		c.From = rapid.Int64Range(0, 1_000_000).Draw(t, "from")
		least := c.Speed/AsFilmed + 1 // shorter is nothing on the screen
		c.To = c.From + rapid.Int64Range(least, 800_000).Draw(t, "length")
		c.FilmFrom = rapid.Int64Range(0, 100_000).Draw(t, "film")
		c.FilmTo = c.FilmFrom + FilmLength(c.To-c.From, c.Speed)
		if err := c.check(c.FilmFrom); err != nil {
			t.Fatal(err)
		}
		film := rapid.Int64Range(c.FilmFrom, c.FilmTo).Draw(t, "at")
		source := c.Source(film)
		if source < c.From || source > c.To {
			t.Errorf("%d ms of the film are %d ms of the source", film, source)
		}
		grain := max(1, AsFilmed/c.Speed+1)
		if back := c.Film(source); back < film-grain || back > film+grain {
			t.Errorf("film %d, source %d, film again %d", film, source, back)
		}
		if film < c.FilmTo && c.Source(film+1) < source {
			t.Error("source time runs back while the film runs on")
		}
		if c.Film(c.From) != c.FilmFrom || c.Film(c.To) != c.FilmTo {
			t.Error("the ends of the cut are not the ends of its film")
		}
	})
}
