package sheet

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

var update = flag.Bool("update", false, "write the sheets of the demos anew")

type written struct {
	name, text string
}

// writtenPatterns are all patterns of the test data and the demos.
func writtenPatterns() []written {
	var out []written
	for _, glob := range []string{"../demo/*.txt", "../../testdata/cases/*.case", "../../testdata/dialects/*.txt", "../../testdata/corpus/*/*.case"} {
		files, err := filepath.Glob(glob)
		if err != nil || len(files) == 0 {
			panic(fmt.Sprintf("%s: %v, %d files", glob, err, len(files)))
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				panic(err)
			}
			text, _, _ := strings.Cut(string(data), "\n=== want")
			out = append(out, written{filepath.Base(f), strings.TrimPrefix(text, "=== pattern\n") + "\n"})
		}
	}
	return out
}

func sheetOf(text string, o Options) (*pattern.Proof, *Doc) {
	proof := pattern.Read(text).Prove(pattern.Options{})
	return proof, New(proof, o)
}

// made is the sheet of a pattern in some terms.
type made struct {
	written
	terms stitch.Terms
	proof *pattern.Proof
	doc   *Doc
}

// allSheets are the sheets of all patterns in both terms, made once.
var allSheets = sync.OnceValue(func() []made {
	var out []made
	for _, w := range writtenPatterns() {
		for _, terms := range []stitch.Terms{stitch.US, stitch.UK} {
			proof, doc := sheetOf(w.text, Options{Terms: []stitch.Terms{terms}})
			out = append(out, made{w, terms, proof, doc})
		}
	}
	return out
})

// TestReadsBack holds what is published to the proof of what was written:
// every pattern there is, in both terms and every form.
func TestReadsBack(t *testing.T) {
	good := 0
	for _, m := range allSheets() {
		if len(m.doc.Unlike) > 0 {
			t.Errorf("%s in %s terms is refused: %s", m.name, m.terms, strings.Join(m.doc.Unlike, "\n\t"))
			continue
		}
		good++
		forms := []string{"txt", "md", "html"}
		for i, form := range []string{Text(m.doc), Markdown(m.doc), pageText(parsePage(t, HTML(m.doc)))} {
			again := pattern.Read(form)
			if again.Terms != m.terms {
				t.Errorf("%s in %s terms reads as %s from %s", m.name, m.terms, again.Terms, forms[i])
			}
			if forms[i] != "html" || m.terms == m.proof.Terms {
				continue // New has proven the others; pages are alike in both terms
			}
			if bad := Unlike(m.proof.Pattern, m.proof.Terms, again); len(bad) > 0 {
				t.Errorf("%s in %s terms from %s: %s", m.name, m.terms, forms[i], strings.Join(bad, "\n\t"))
			}
		}
	}
	if good < 800 {
		t.Errorf("only %d sheets were read back", good)
	}
}

// TestGoldens has the sheets of the demos, in both terms.
func TestGoldens(t *testing.T) {
	for _, d := range demo.All() {
		_, doc := sheetOf(d.Text, Options{Terms: []stitch.Terms{stitch.US, stitch.UK}})
		if len(doc.Unlike) > 0 {
			t.Errorf("%s: %v", d.Name, doc.Unlike)
		}
		for as, got := range map[string]string{"txt": Text(doc), "md": Markdown(doc), "html": HTML(doc)} {
			file := filepath.Join("testdata", d.Name+"."+as)
			if *update {
				if err := os.MkdirAll("testdata", 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
				t.Errorf("%s (- want, + got; -update writes it anew):\n%s", file, diff)
			}
		}
	}
}
