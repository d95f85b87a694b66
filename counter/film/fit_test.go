package film_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/pattern/spoken"
)

// lines is a script in which each row of the mussel is said in so many ms; the
// last three are said at once.
func lines(one, two, rest int64) *spoken.Script {
	return &spoken.Script{Title: "Mussel", Rate: 120, Parts: []spoken.Part{
		{Piece: -1, Lines: []spoken.Line{{Piece: -1, First: -1, Last: -1, Text: "Hello.", Milliseconds: 700}}},
		{Piece: 0, Title: "Shell", Lines: []spoken.Line{
			{Piece: 0, First: 0, Last: 0, Text: "one", Milliseconds: one},
			{Piece: 0, First: 1, Last: 1, Text: "two", Milliseconds: two},
			{Piece: 0, First: 2, Last: 4, Text: "rest", Milliseconds: rest},
		}},
	}}
}

// filmed has ten seconds of row 1, twenty of row 2 with five that are done
// again, ten of each row up to 5, and thirty of the first of the other copy.
const filmed = `open 0 roll 10 tap4 finish4 25 again 35 tap6 finish6 45 tap6 finish6 55 tap6 finish6 65 tap6 finish6 95 finish4 cut`

func fitted(f *film.Fit) string {
	var b strings.Builder
	for _, r := range f.Rows {
		fmt.Fprintf(&b, "%s%s footage %s speech %s film %s (%v) %v", r.Title, strings.Repeat(r.Label, 1-min(len(r.Title), 1)),
			film.Seconds(r.Footage), film.Seconds(r.Speech), film.Seconds(r.Film), r.Done, r)
		if r.Like != "" {
			b.WriteString(", like " + r.Like)
		}
		if r.With != "" {
			b.WriteString(", said with " + r.With)
		}
		for _, m := range r.Mends {
			fmt.Fprintf(&b, "; %v", m)
		}
		b.WriteByte('\n')
	}
	for _, p := range f.Parts {
		fmt.Fprintf(&b, "%s %s\n", p.Title, film.Seconds(p.Film))
	}
	fmt.Fprintf(&b, "%s s; beside %s, unfilmed %d rows %s\n", film.Seconds(f.Length), film.Seconds(f.Beside), f.UnfilmedRows, film.Seconds(f.Unfilmed))
	return b.String()
}

func TestFit(t *testing.T) {
	for _, test := range []struct {
		name, script   string
		one, two, rest int64
		want           string
	}{
		{"by itself", filmed, 9000, 14_000, 2000, `
Shell 1, Row 1 footage 10.0 speech 9.0 film 10.0 (in full) fits
Shell 1, Row 2 footage 10.0 speech 14.0 film 10.0 (in full) over by 4.0 s; slow it to 14.0 s; trim about 8 words
Shell 1, Row 3 footage 10.0 speech 2.0 film 10.0 (in full) spare 8.0 s; speed it up ×5: 2.0 s; cut to the end of the row: 2.0 s
Shell 1, Row 4 footage 10.0 speech 0.0 film 5.0 (sped up to 6.0 s) no words, like Shell 1, Row 3, said with Shell 1, Row 3
Shell 1, Row 5 footage 10.0 speech 0.0 film 5.0 (sped up to 6.0 s) no words, like Shell 1, Row 3, said with Shell 1, Row 3
Shell 2, Row 1 footage 30.0 speech 0.0 film 6.0 (sped up to 6.0 s) no words, like Shell 1, Row 1, said with Shell 1, Row 1
Shell 46.0
46.0 s; beside 0.7, unfilmed 0 rows 0.0
`},
		{"chosen", filmed + " choose:0,0,0,speed,3 choose:0,0,1,slow,0 choose:0,0,2,cut,0 choose:0,0,3,out,0 alike:cut,4500 choose:0,1,0,full,0",
			9000, 14_000, 2000, `
Shell 1, Row 1 footage 10.0 speech 9.0 film 3.3 (×3) over by 5.7 s; in full; trim about 12 words
Shell 1, Row 2 footage 10.0 speech 14.0 film 14.0 (slowed to the words) fits
Shell 1, Row 3 footage 10.0 speech 2.0 film 2.0 (cut to the words) fits
Shell 1, Row 4 footage 10.0 speech 0.0 film 0.0 (left out) no words, like Shell 1, Row 3, said with Shell 1, Row 3
Shell 1, Row 5 footage 10.0 speech 0.0 film 4.5 (cut to 4.5 s) no words, like Shell 1, Row 3, said with Shell 1, Row 3
Shell 2, Row 1 footage 30.0 speech 0.0 film 30.0 (in full) no words, like Shell 1, Row 1, said with Shell 1, Row 1
Shell 53.8
53.8 s; beside 0.7, unfilmed 0 rows 0.0
`},
		{"little is filmed", "open 0 roll 10 cut 11 choose:0,0,0,full,0 back", 9000, 14_000, 2000, `
Shell 1, Row 1 footage 10.0 speech 9.0 film 10.0 (in full) fits
Shell 10.0
10.0 s; beside 0.7, unfilmed 4 rows 16.0
`},
		{"a word that is not known", "open 0 roll 10 cut choose:0,0,0,sideways,7", 9000, 1, 1, `
Shell 1, Row 1 footage 10.0 speech 9.0 film 10.0 (in full) fits
Shell 10.0
10.0 s; beside 0.7, unfilmed 4 rows 0.0
`},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := film.Of(plan(mussel), logOf(t, test.script))
			if got := fitted(s.Fit(lines(test.one, test.two, test.rest))); "\n"+got != test.want {
				t.Errorf("got\n%s", got)
			}
		})
	}
}

func TestSeconds(t *testing.T) {
	for ms, want := range map[int64]string{0: "0.0", 49: "0.0", 50: "0.1", 7449: "7.4", 7450: "7.5", 60_000: "60.0", -1234: "−1.2"} {
		if got := film.Seconds(ms); got != want {
			t.Errorf("%d ms: %s, want %s", ms, got, want)
		}
	}
}

// What a mend promises is what choosing it gives.
func TestMendsKeepTheirWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		script := lines(rapid.Int64Range(1, 60_000).Draw(t, "one"), 1, 1)
		length := rapid.Int64Range(1, 200_000).Draw(t, "filmed")
		log := []counter.Event{{Kind: counter.Open}, {Kind: counter.BeginTake}, {Kind: counter.EndTake, At: length}}
		was := film.Of(plan(mussel), log).Fit(script).Rows[0]
		for _, m := range was.Mends {
			if m.Trim > 0 {
				continue
			}
			e, _ := was.Choose(m.Choice)
			now := film.Of(plan(mussel), append(log[:3:3], e)).Fit(script).Rows[0]
			if now.Film != m.Film || now.Verdict == film.TooLong && was.Verdict == film.TooShort {
				t.Fatalf("%v of %d ms for %d ms: came to %d, %v", m, length, was.Speech, now.Film, now)
			}
			if m.Choice.Way == film.Slow && now.Film < now.Speech && now.Footage*100 > now.Speech {
				t.Fatalf("slowed to %d for %d", now.Film, now.Speech)
			}
		}
	})
}

func TestNoFilm(t *testing.T) {
	f := film.Of(plan(mussel), nil).Fit(lines(1, 1, 1))
	if _, err := f.Film(); !errors.Is(err, film.ErrNothingFilmed) {
		t.Error(err)
	}
	var script strings.Builder
	script.WriteString("open")
	for i := range 3 {
		fmt.Fprintf(&script, " %d roll %d cut", 50_000*i, 50_000*i+40_000)
	}
	f = film.Of(plan(mussel), logOf(t, script.String())).Fit(lines(1, 1, 1))
	if _, err := f.Film(); !errors.Is(err, film.ErrTooLong) {
		t.Error(err)
	}
}
