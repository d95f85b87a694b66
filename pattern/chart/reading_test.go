package chart

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// TestBothTerms has a legend that readers on both sides of the Atlantic can use.
// The pairs are those of the Craft Yarn Council's table of US and UK terms.
func TestBothTerms(t *testing.T) {
	text := "Mat\nUS terms\n\nCh 4, join with sl st in first ch to form a ring.\nRnd 1: Ch 1, 8 sc in ring, join with sl st in first sc. (8 sc)\nRnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around, join with sl st in top of beg ch-3. (16 dc)\nRnd 3: Ch 1, sc2tog 8 times, join with sl st in first st. (8 sts)\n"
	proof := pattern.Read(text).Prove(pattern.Options{})
	for _, c := range []struct {
		terms stitch.Terms
		want  []string
	}{
		{stitch.US, []string{"(US and UK terms)", "ch: chain", "sl st: slip stitch (UK ss)", "sc: single crochet (UK dc)", "dc: double crochet (UK tr)", "sc2tog: single crochet 2 stitches together (UK dc2tog)"}},
		{stitch.UK, []string{"(UK and US terms)", "ch: chain", "ss: slip stitch (US sl st)", "dc: double crochet (US sc)", "tr: treble crochet (US dc)", "dc2tog: double crochet 2 stitches together (US sc2tog)"}},
	} {
		drawing, err := Draw(proof, 0, Options{Terms: c.terms, Both: true})
		if err != nil {
			t.Fatal(err)
		}
		svg := string(drawing.SVG())
		for _, w := range c.want {
			if !strings.Contains(svg, w) {
				t.Errorf("%s first: no %q in the legend", c.terms, w)
			}
		}
		if strings.Contains(svg, "chain (") {
			t.Errorf("%s first: a chain is a chain on both sides", c.terms)
		}
		letters, err := Text(proof, 0, Options{Terms: c.terms, Both: true})
		if err != nil || !strings.Contains(letters, c.want[3]) || !strings.Contains(letters, c.want[0]) {
			t.Errorf("in letters: %v\n%s", err, letters)
		}
	}
}

func TestReading(t *testing.T) {
	for text, want := range map[string]string{
		"Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\nRow 2: Ch 1, turn, sc in each st across. (4 sc)\n":                       "from right to left",
		"Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n":                                                                       "read every round from its number, against the clock.",
		"Rnd 1: 6 sc in magic ring, join with sl st in first sc. (6)\nRnd 2: Ch 1, turn, 2 sc in each st around, join with sl st in first sc. (12)\n": "with it where the wrong side faces you",
	} {
		c, err := Draw(pattern.Read(text).Prove(pattern.Options{}), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := c.Reading(); !strings.Contains(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
