package spoken

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

// written are all the patterns of the test data, by name.
func written(t testing.TB) map[string]string {
	t.Helper()
	out := make(map[string]string)
	for _, glob := range []string{"cases/*.case", "corpus/*/*.case", "dialects/*.txt"} {
		files, err := filepath.Glob(filepath.Join("..", "..", "testdata", glob))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no files (%v)", glob, err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			text, _, _ := strings.Cut(strings.TrimPrefix(string(data), "=== pattern\n"), "\n=== ")
			out[filepath.Base(f)] = text
		}
	}
	for _, d := range demo.All() {
		out[d.Name] = d.Text
	}
	return out
}

// unspoken are signs and abbreviations that nobody says.
var unspoken = func() []*regexp.Regexp {
	var names []string
	add := func(n string) {
		// what is also a word of every day cannot be told from one
		if !strings.ContainsAny(n, " ") && !plainWords[n] && n != "cl" && n != "puff" && n != "bobble" {
			names = append(names, regexp.QuoteMeta(n))
		}
	}
	for _, s := range stitch.All() {
		for _, n := range []string{s.US, s.UK} {
			if n != "" {
				add(n)
				add(n + "s")
			}
		}
	}
	names = append(names, "sts?", "chs?", "rnds?", "sps?", "rep", "sk", "beg", "foll", "tog", "blo", "flo", "lps?")
	return []*regexp.Regexp{regexp.MustCompile(`[0-9()\[\]{}*\x00-\x1f]`), regexp.MustCompile(`(?i)\basterisk`), regexp.MustCompile(`(?i)\b(` + strings.Join(names, "|") + `)\b`)}
}()

// TestOnlyWordsAreSaid says every pattern of the test data in both sets of
// terms, and wants words alone: no figure, bracket, star or abbreviation.
func TestOnlyWordsAreSaid(t *testing.T) {
	for name, text := range written(t) {
		proof := pattern.Read(text).Prove(pattern.Options{})
		for _, terms := range []stitch.Terms{stitch.US, stitch.UK} {
			for _, p := range Of(proof, Options{Terms: terms}).Parts {
				for _, l := range p.Lines {
					for _, u := range unspoken {
						if found := u.FindString(l.Text); found != "" {
							t.Errorf("%s, %s, %s: %q in %q", name, terms, l.Label, found, l.Text)
						}
					}
				}
			}
		}
	}
}

// TestEveryStitchIsSaid wants each instruction that makes a stitch in what is
// said of its row, by its full name in the terms asked for.
func TestEveryStitchIsSaid(t *testing.T) {
	steps := 0
	for name, text := range written(t) {
		proof := pattern.Read(text).Prove(pattern.Options{})
		for _, terms := range []stitch.Terms{stitch.US, stitch.UK} {
			script := Of(proof, Options{Terms: terms, EveryRow: true})
			for i, pc := range proof.Pieces {
				for _, r := range pc.Rows {
					if r.Status == pattern.Unread {
						continue
					}
					line, ok := script.Row(i, r.Index)
					if !ok {
						t.Errorf("%s: %s is not said", name, r.Label)
					}
					said := strings.ToLower(line.Text)
					eachStep(r.Row.Steps, func(s *pattern.Step) {
						if s.Op != pattern.OpWork || s.Defined() != nil || s.Name != "" || s.Stitch == stitch.None || s.Stitch == stitch.Special {
							return
						}
						steps++
						if !strings.Contains(said, s.Stitch.Words(terms)) && !strings.Contains(said, s.Stitch.Plural(terms)) {
							t.Errorf("%s, %s: no %s in %q", name, r.Label, s.Stitch.Words(terms), line.Text)
						}
					})
				}
			}
		}
	}
	if steps < 1000 {
		t.Errorf("only %d steps looked at", steps)
	}
}

// TestNumbersAreKept wants each number of an instruction, as the author writes
// it, in what is said of its row. How often a repeat is worked is said another
// way, and "top of ch-3" needs no number.
func TestNumbersAreKept(t *testing.T) {
	numbers := 0
	for name, text := range written(t) {
		proof := pattern.Read(text).Prove(pattern.Options{})
		if len(proof.Pattern.Sizes) > 0 {
			continue // only one of several is said
		}
		teller := newTeller(proof, Options{})
		for _, pc := range proof.Pieces {
			for _, r := range pc.Rows {
				if r.Status == pattern.Unread {
					continue
				}
				x := teller.ofRow(r)
				plain := strings.NewReplacer(",", " ", ".", " ", ";", " ", ":", " ", "-", " ")
				said := " " + strings.ToLower(plain.Replace(x.sentences(r.Row.Steps))) + " "
				eachStep(r.Row.Steps, func(s *pattern.Step) {
					if len(s.Body) > 0 && s.Defined() == nil || s.Op == pattern.OpNote || s.Target.Which == pattern.TurnTop && !x.ordinal(s) {
						return
					}
					o := own{from: teller.from, to: teller.to, bits: cut(x.source(s))}
					for i := range o.bits {
						n, _, ok := o.numberAt(i)
						if !ok || n < 2 || s.Op == pattern.OpChain && s.N.N > n { // "making ch 6 instead of ch 5"
							continue
						}
						if m := s.Target.N; m.Span.Empty() && m.N > 1 && m.N != n { // "with 6 sc at the start instead of 4"
							continue
						}
						numbers++
						if !strings.Contains(said, " "+plain.Replace(cardinal(n, false))+" ") && !strings.Contains(said, " "+plain.Replace(ordinal(n, false))+" ") && !(n == 2 && strings.Contains(said, " twice ")) {
							t.Errorf("%s, %s: no %d of %q in %q", name, r.Label, n, x.source(s), said)
						}
					}
				})
			}
		}
	}
	if numbers < 1000 {
		t.Errorf("only %d numbers looked at", numbers)
	}
}

func eachStep(steps []*pattern.Step, f func(*pattern.Step)) {
	for _, s := range steps {
		f(s)
		if s.Defined() == nil {
			eachStep(s.Body, f)
		}
	}
}
