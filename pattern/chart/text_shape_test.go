package chart

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
)

const grannyOfThree = `Mooring Granny

US terms

Ch 4, join with sl st in first ch to form ring.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join with sl st in top of beg ch-3. (12 dc, 4 ch-2 sps)
Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times, join. (24 dc)
Rnd 3: Sl st in next 2 dc and in ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, 3 dc in next ch-1 sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, 3 dc in next ch-1 sp, ch 1; rep from * 2 more times, join. (36 dc)
`

const swellRipple = `Swell

US terms

Ch 28.
Row 1: 2 dc in 4th ch from hook, dc in next 4 ch, dc3tog, dc in next 4 ch, 3 dc in next ch, dc in next 4 ch, dc3tog, dc in next 4 ch, 2 dc in last ch. (25 dc)
Rows 2-3: Ch 3 (counts as dc), turn, dc in same st, dc in next 4 sts, dc3tog, dc in next 4 sts, 3 dc in next st, dc in next 4 sts, dc3tog, dc in next 4 sts, 2 dc in last st. (25 dc)
`

// TestShapes has a granny square as rings and a ripple as waves.
func TestShapes(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{grannyOfThree, `
  oo †  † 8  o  † † † o † †  † oo
  †         3                   †
        o † † 8  o  † † † o
  †    o        2          o    †
  †    †                   †    †
  o    †     2o†† 8 oo     †    o
  †    †     †    1  †     †    †
  †    o     †       †     o    †
  †    †     †       †     †    †
  o    †     oo† † †oo     †    o
  †    †                   †    †
  †    o                   o    †
        o  † † † o † † †  o
  †                             †
  oo  † †  † o † † † o †  † †  oo
`},
		{swellRipple, `
    † †                   † † †                   † 8 3
        † †           † †       † †           † †
            † †   † †               † †   † †
  2 8 †         Λ         † † †         Λ         † †
        † †           † †       † †           † †
            † †   † †               † †   † †
    † †         Λ         † † †         Λ         † † ooo 1
        † †           † †       † †           † †
            † †   † †               † †   † †
    o o         Λ         o o o         Λ         o o
        o o           o o       o o           o o
            o o   o o               o o   o o
                o                       o
`},
	} {
		got, err := Text(prove(c.text), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		_, got, _ = strings.Cut(got, "\n")
		n := strings.Count(c.want, "\n")
		if lines := strings.SplitAfter(got, "\n"); len(lines) > n {
			got = strings.Join(lines[:n], "")
		}
		if diff := cmp.Diff(strings.Split(c.want, "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("- want, + got:\n%s", diff)
		}
	}
}

// holdsStitches has as many letters of each stitch in a chart that shows a shape
// as the rows have stitches, and no line that a terminal would fold. It says
// whether there is such a chart.
func holdsStitches(t *testing.T, name string, p *pattern.Proof, piece int) bool {
	t.Helper()
	f, _, err := lay(p, piece, Options{})
	if err != nil {
		return false
	}
	ls := newLetters()
	lines := f.motif(ls, &seen{})
	if lines == nil {
		ls = newLetters()
		lines = f.ripple(ls, &seen{})
	}
	if lines == nil {
		return false
	}
	drawn := strings.Join(lines, "\n")
	for _, l := range lines {
		if n := utf8.RuneCountInString(l); n > 80 {
			t.Errorf("%s: a line of %d letters", name, n)
		}
	}
	made := map[textKind]int{}
	for _, r := range f.rows {
		for i := range r.v.made {
			if m := &r.v.made[i]; m.link.Kind == pattern.LinkStitch && !m.link.Turn {
				made[kindOf(m)]++
			}
		}
	}
	for _, k := range ls.order {
		if letter := ls.of[k]; letter < "0" || letter > "9" { // numbers are of rows, too
			if n := strings.Count(drawn, letter); n != made[k] {
				t.Errorf("%s: %d times %q for %d stitches\n%s", name, n, letter, made[k], drawn)
			}
		}
	}
	return true
}

// TestTooWideForShapes marks what has no room for its shape.
func TestTooWideForShapes(t *testing.T) {
	wide := strings.NewReplacer("Ch 28", "Ch 148", "Row 1: 2 dc in 4th ch from hook, dc in next 4 ch, dc3tog, dc in next 4 ch, 3 dc in next ch,", "Row 1: 2 dc in 4th ch from hook, dc in next 4 ch, dc3tog, dc in next 4 ch, (3 dc in next ch, dc in next 4 ch, dc3tog, dc in next 4 ch) 10 times, 3 dc in next ch,",
		"dc in same st, dc in next 4 sts, dc3tog, dc in next 4 sts,", "dc in same st, dc in next 4 sts, dc3tog, dc in next 4 sts, (3 dc in next st, dc in next 4 sts, dc3tog, dc in next 4 sts) 10 times,", "(25 dc)", "(145 dc)").Replace(swellRipple)
	p := prove(wide)
	if p.Errors() > 0 {
		t.Fatal(p.Findings)
	}
	got, err := Text(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	drawn, key, _ := strings.Cut(got, "o  ch: chain")
	low, high := strings.Count(drawn, "▼"), strings.Count(drawn, "▲")
	// Of its three parts each shares three stitches with the next, and so a mark
	// at the most.
	if low+high < 25 || low+high > 27 || low < 12 || high < 13 || !strings.Contains(key, "▲▼  peak and valley") {
		t.Errorf("%d valleys and %d peaks in\n%s", low, high, got)
	}
}

// TestTubeThenRows draws a slipper, a tube and then rows, unrolled: its rows lie
// over one another and are as wide at the top as at the bottom. A flat round with
// rows about it stays round.
func TestTubeThenRows(t *testing.T) {
	const toe = "Rnd 1: 6 hdc in magic ring. (6)\nRnd 2: 2 hdc in each st around. (12)\n"
	for text, unrolled := range map[string]bool{
		toe + "Rnds 3-6: Hdc in each st around. (12)\nRow 7: Hdc in next 8 sts, leave rem 4 sts unworked. (8)\nRows 8-12: Ch 1, turn, hdc in each st across. (8)\n": true,
		toe + "Rnds 3-6: Hdc in each st around. (12)\n":                                              false,
		toe + "Row 3: Hdc in next 8 sts, turn. (8)\nRow 4: Ch 1, turn, hdc in each st across. (8)\n": false,
	} {
		p := prove(text)
		c, err := Draw(p, 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		b := c.extent()
		said := strings.Contains(strings.Join(c.notes, " "), "drawn unrolled")
		if c.flat != unrolled || said != unrolled || unrolled && b.max.x-b.min.x > 20 {
			t.Errorf("flat %v, said %v, %.0f wide for\n%s", c.flat, said, b.max.x-b.min.x, text)
		}
	}
}

// TestCornersBetweenIncreases finds the corners of a square whose corner spaces
// lie between two stitches of the round below.
func TestCornersBetweenIncreases(t *testing.T) {
	const square = "US terms\n\nCh 5, join with sl st in first ch to form ring.\nRnd 1: Ch 3 (counts as dc), 15 dc in ring, join. (16 dc)\n" +
		"Rnd 2: Ch 4 (counts as tr), tr in same st, ch 2, 2 tr in next dc, *dc in next 2 dc, 2 tr in next dc, ch 2, 2 tr in next dc; rep from * 2 more times, dc in next 2 dc, join. (16 tr, 8 dc, 4 ch-2 sps)\n" +
		"Rnd 3: Ch 1, *sc in each st to corner sp, 3 sc in ch-2 sp; rep from * 3 more times, sc in each st to end, join.\n"
	p := prove(square)
	if p.Errors() > 0 {
		t.Fatal(p.Findings)
	}
	c := cornersOf(p.Links(0, maxRow))
	if c == nil || c.n != 4 || c.first != 1 {
		t.Errorf("corners: %+v", c)
	}
	round := strings.ReplaceAll(square, ", 3 sc in ch-2 sp", ", sc in ch-2 sp")
	if c := cornersOf(prove(round).Links(0, maxRow)); c != nil {
		t.Errorf("a round that grows no further has corners: %+v", c)
	}
}
