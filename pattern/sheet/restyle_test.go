package sheet

import (
	"regexp"
	"slices"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

// TestRestyle writes the rows of the demos in one style, in either terms: they
// read back the same, and no word of the other terms is left in them.
func TestRestyle(t *testing.T) {
	left := map[stitch.Terms]*regexp.Regexp{
		stitch.US: regexp.MustCompile(`(?i)\b(htr|miss|tension|ss)\b`),
		stitch.UK: regexp.MustCompile(`(?i)\b(sc|hdc|sk|skip|gauge|single crochet)\b`),
	}
	for _, d := range demo.All() {
		for terms, other := range left {
			_, doc := sheetOf(d.Text, Options{Terms: []stitch.Terms{terms}, Restyle: true})
			if len(doc.Unlike) > 0 {
				t.Errorf("%s in %s terms: %v", d.Name, terms, doc.Unlike)
			}
			if word := other.FindString(Text(doc)); word != "" {
				t.Errorf("%s in %s terms says %q:\n%s", d.Name, terms, word, Text(doc))
			}
		}
	}
}

// TestAbbreviations gathers what is used, each once, and leaves out what a list
// has for nothing.
func TestAbbreviations(t *testing.T) {
	_, doc := sheetOf("Net\n\nUS terms\n\nAbbreviations\ndc: double crochet\ntr: treble\nst(s): stitch(es)\nwhelk: my own knot\n\n"+
		"Strip\nCh 12.\nRow 1: Dc in 4th ch from hook and in each ch across. (10 dc)\nRow 2: Ch 1, turn, FPdc around next st, sc2tog, sk next st, dc in each rem st. (8 sts)\n", Options{})
	var got []string
	for _, k := range doc.Blocks(doc.Versions[0]) {
		if k.Kind == Glossary {
			for _, p := range k.Pairs {
				got = append(got, p[0]+": "+p[1])
			}
		}
	}
	want := []string{"ch(s): chain(s)", "dc: double crochet", "FPdc: front post double crochet", "rem: remaining", "sc2tog: single crochet 2 stitches together", "sk: skip", "st(s): stitch(es)", "whelk: my own knot"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// TestPassages has every word of a pattern in one passage or its label.
func TestPassages(t *testing.T) {
	for _, d := range demo.All() {
		p := pattern.Read(d.Text)
		letters := func(s string) (n int) {
			for _, r := range s {
				if r > ' ' && r != ':' {
					n++
				}
			}
			return n
		}
		sum := 0
		for _, x := range p.Passages() {
			sum += letters(p.Source.Slice(x.Span)) + letters(x.Label)
		}
		if all := letters(d.Text); sum != all {
			t.Errorf("%s: %d letters in passages, %d in the text", d.Name, sum, all)
		}
	}
}
