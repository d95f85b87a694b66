package spoken

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

var update = flag.Bool("update", false, "write the expected scripts anew")

// TestGoldens holds on to what is said of the demos, in both sets of terms,
// and of patterns in other manners.
func TestGoldens(t *testing.T) {
	texts := written(t)
	check := func(name, got string) {
		file := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
			return
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s is said otherwise; run again with -update (-want +got):\n%s", name, diff)
		}
	}
	say := func(text string, o Options) *Script { return Of(pattern.Read(text).Prove(pattern.Options{}), o) }
	for _, d := range demo.All() {
		check(d.Name+"-us.txt", say(d.Text, Options{Terms: stitch.US}).Text())
		check(d.Name+"-uk.txt", say(d.Text, Options{Terms: stitch.UK}).Text())
	}
	check("pennant.md", say(texts["pennant"], Options{}).Markdown())
	check("buoy-every-row.txt", say(texts["buoy"], Options{EveryRow: true, Piece: "buoy", Rate: 110}).Text())
	var others strings.Builder
	for _, name := range []string{
		"001.txt", "004.txt", "007.txt", "025.txt", "031.txt", "034.txt", "043.txt", "049.txt", "055.txt",
		"002-one-slip-one-finding.case", "011-fins-worked-onto-a-panel.case", "015-granny-square.case", "022-rows-that-repeat-rows.case", "023-sizes.case",
		"025-loops-and-posts.case", "034-a-row-that-cannot-be-read.case", "045-nested-repeats.case", "047-mixed-heights-in-one-row.case",
		"185-sea-urchin-translated.case", "203-harbour-cloth-edging.case", "306-drizzle-stripe-blanket-uk.case", "309-bilge-slipper-sole.case",
	} {
		if texts[name] == "" {
			t.Errorf("no pattern %s", name)
			continue
		}
		others.WriteString("== " + name + "\n" + say(texts[name], Options{}).Text() + "\n")
	}
	check("others.txt", others.String())
}

// TestHostileText says text that is meant to do something else: it stays text.
func TestHostileText(t *testing.T) {
	text := "<script>alert(1)</script> *Cap* \x1b[31m\n\nUS terms\n\n## Fin_one [x](y) \x07\nRnd 1: 6 sc in magic ring. (6)\nStuff <b>firmly</b> & \x1b]0;no\x07 `now` \xff\xfe.\nRnd 2: 2 sc in each st around. (12)\n"
	s := Of(pattern.Read(text).Prove(pattern.Options{}), Options{Notes: []Note{{0, 1, "Mind *this* \x1b[2J <i>!"}}})
	for _, out := range []string{s.Text(), s.Markdown()} {
		for _, r := range out {
			if r != '\n' && (r < ' ' || r == 0x7f) {
				t.Errorf("%q holds a control character", out)
				break
			}
		}
	}
	if md := s.Markdown(); strings.Contains(strings.ReplaceAll(md, `\<`, ""), "<") || strings.Contains(md, "[x](") {
		t.Errorf("the Markdown holds markup of the pattern's:\n%s", md)
	}
	if l, ok := s.Row(0, 1); !ok || !strings.HasSuffix(l.Text, "Mind this two j i!") && !strings.Contains(l.Text, "Mind this") {
		t.Errorf("the note is not with its row: %q", l.Text)
	}
}

func FuzzSay(f *testing.F) {
	for _, d := range demo.All() {
		f.Add(d.Text)
	}
	f.Add("Row 1: *sc in BLO \u00bd (2 (4, 6)) x3; rep from * to **.\nch-3sp 1,000,000,000,000,000,000 sc9tog")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			return
		}
		proof := pattern.Read(text).Prove(pattern.Options{})
		for _, o := range []Options{{}, {Terms: stitch.UK, EveryRow: true}} {
			s := Of(proof, o)
			for _, p := range s.Parts {
				for _, l := range p.Lines {
					if strings.ContainsAny(l.Text, "0123456789*()[]{}\n\x1b") {
						t.Fatalf("%q", l.Text)
					}
				}
			}
			s.Markdown()
			s.Text()
		}
	})
}
