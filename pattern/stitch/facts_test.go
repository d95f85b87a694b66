package stitch

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// fact is a line of a table of figures, by column.
type fact map[string]string

// facts reads a table of figures: lines of fields parted by tabs, the first
// the names of the columns; a line that begins with # names the source.
func facts(t *testing.T, name string) []fact {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "facts", name))
	if err != nil {
		t.Fatal(err)
	}
	var head []string
	var out []fact
	for line := range strings.Lines(string(text)) {
		line = strings.TrimRight(line, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		fields := strings.Split(line, "\t")
		if head == nil {
			head = fields
			continue
		}
		f := make(fact)
		for i, h := range head {
			f[h] = fields[i]
		}
		out = append(out, f)
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return out
}

// elsewhere are entries of the list that are no stitch of the table: groups
// and old names that patterns define for themselves, and ways to begin.
var elsewhere = map[string]bool{
	"csdc": true, "stdg sc": true, // ways to begin a round
	"sh": true, "fan": true, "V-st": true, "W-st": true, "X-st": true, "Cr dc": true, "Y-st": true, // groups
	"beg CL": true, "picot / p": true, "star st": true, "Solomon / love knot": true,
	"bl (filet)": true, "sp (filet)": true, "lacet": true, "bar": true, "joint dc": true,
}

// Source: Craft Yarn Council, crochet abbreviations and the US/UK table, as
// reproduced in testdata/facts/abbreviations.tsv with its sources.
func TestAbbreviations(t *testing.T) {
	us, uk := LexiconFor(US), LexiconFor(UK)
	checked := 0
	for _, f := range facts(t, "abbreviations.tsv") {
		abbr := f["us_abbr"]
		if f["kind"] != "basic stitch" && f["kind"] != "compound" || elsewhere[abbr] {
			continue
		}
		checked++
		names := strings.Split(strings.ToLower(abbr), " / ")
		id, _ := us.Find(names[0])
		if id == None {
			t.Errorf("US %q is not known", names[0])
			continue
		}
		same := func(l *Lexicon, terms, name string) {
			if name == "" || strings.ContainsAny(name, "(/=") {
				return
			}
			if got, _ := l.Find(strings.ToLower(name)); got != id {
				t.Errorf("%s %q is %s, and US %q is %s", terms, name, got.Words(US), abbr, id.Words(US))
			}
		}
		for _, n := range names[1:] {
			same(us, "US", n)
		}
		same(us, "US", f["full_term"])
		for _, n := range strings.Split(f["uk_abbr"], " / ") {
			same(uk, "UK", n)
		}
		same(uk, "UK", f["uk_term"])
		s := Of(id)
		figure := func(what, want string, got int) {
			if n, err := strconv.Atoi(strings.TrimRight(want, "ndrsth")); err == nil && n != got {
				t.Errorf("%s: %s %d, want %d", abbr, what, got, n)
			}
		}
		figure("takes", f["consumes"], s.Takes)
		figure("makes", f["makes"], s.Makes)
		if s.Kind == Foundation {
			continue // the list gives the chain that it is begun on
		}
		figure("turning chain", f["tch_height_ch"], s.Turn)
		if f["first_ch_from_hook"] != "-" {
			figure("first chain from the hook", f["first_ch_from_hook"], s.FirstChain)
		}
		habit, said := map[string]Habit{"no": NotCounted, "yes": Counted, "varies": Varies}[f["tch_counts_usually"]]
		if said && s.Habit != habit && s.Kind != Post {
			t.Errorf("%s: whether the turning chain counts: %d, want %d", abbr, s.Habit, habit)
		}
	}
	if checked < 30 {
		t.Errorf("only %d entries checked", checked)
	}
}

// Every stitch is found again by its own names, in both sets of terms.
func TestNamesFindTheirStitch(t *testing.T) {
	for _, s := range All() {
		for terms, names := range map[Terms][]string{US: {s.US, s.USWords}, UK: {s.UK, s.UKWords}} {
			for _, n := range names {
				if n == "" {
					continue
				}
				if got, _ := LexiconFor(terms).Find(n); got != s.ID {
					t.Errorf("%v %q is %s, not %s", terms, n, got.Words(US), s.USWords)
				}
			}
			if s.ID.Name(terms) != names[0] || s.ID.Words(terms) != names[1] {
				t.Errorf("%s is named %q, %q in %v terms", s.USWords, s.ID.Name(terms), s.ID.Words(terms), terms)
			}
		}
	}
}

func TestLexiconSaysWhatLongerNamesBegin(t *testing.T) {
	for _, test := range []struct {
		name string
		id   ID
		more bool
	}{
		{"sl", Slip, true}, {"half", None, true}, {"half double", HDC, true},
		{"half double crochet", HDC, false}, {"nonesuch", None, false}, {"", None, false},
	} {
		id, more := LexiconFor(US).Find(test.name)
		if more != test.more || test.id != id {
			t.Errorf("%q: %s, %v", test.name, id.Words(US), more)
		}
	}
}
