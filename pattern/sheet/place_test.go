package sheet

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern/stitch"
)

// TestWhereWordsStand has what a reader would look for in vain if it stood
// elsewhere, and what would trip her up if it stood there at all.
func TestWhereWordsStand(t *testing.T) {
	for _, c := range []struct {
		name, text string
		o          Options
		want       []string // in this order
		not        []string
	}{
		{"a remark between pieces stays there", "Crab\n\nClaw x2\nRnd 1: 5 sc in MR (5)\nFO\n\nBody\nRnd 1: 6 sc in MR (6)\nSet aside for the eyes.\n\nWash it cold.\n",
			Options{}, []string{"- FO: fasten off", "## Claw (make 2)", "FO\n", "## Body", "Set aside", "Wash it cold."}, nil},
		{"a setup in a paragraph of its own stays above its rows", "Sampler\n\nCloth\nCh 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n\nChange here for a longer one.\n\nRow 2: Ch 1, turn, sc in each st across. (4 sc)\n",
			Options{}, []string{"**Row 1:**", "Change here", "**Row 2:**"}, []string{"## Notes"}},
		{"a lone piece's name is the title", "tern egg\nr1 6 sc in magic ring (6)\nr2 inc around (12)\n",
			Options{}, []string{"# Tern egg\n", "## Pattern"}, []string{"Crochet pattern", "## Tern egg"}},
		{"one that is made more than once keeps its heading too", "Tern Egg (make 3)\nRnd 1: 6 sc in magic ring. (6)\n",
			Options{}, []string{"# Tern Egg\n", "## Tern Egg (make 3)"}, nil},
		{"and wherever it stands", "Sizes: S (L)\n\nBib\nCh 11 (15).\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 (14) sc)\n",
			Options{}, []string{"# Bib\n", "**Sizes:** S (L)", "## Pattern"}, []string{"Crochet pattern", "## Bib"}},
		{"the first line is a title", "Square \"Tide Pool\"\nUK terms\n\nMake 6 ch and join with a ss to form a ring.\nRnd 1: 3 ch (counts as first tr), 11 tr into ring, ss to top of 3 ch. (12 tr)\n",
			Options{}, []string{"# Square \"Tide Pool\"\n", "Written in UK terms."}, []string{"Crochet pattern"}},
		{"a first piece among several is none", "Crown\nRnd 1: 8 sc in magic ring. (8 sts)\n\nFlap\nCh 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n",
			Options{}, []string{"# Crochet pattern", "## Crown", "## Flap"}, nil},
		{"no head over columns that are gone", "Petrel egg\nRound\tWork\tSts\nR1\tmagic ring, 6 sc\t6\nR2\tinc in each\t12\n",
			Options{}, []string{"**R1** magic ring, 6 sc (6)"}, []string{"Work"}},
		{"abbreviations on one line", "Sole\n\nAbbreviations: s d c—short double crochet (half double).\n\nCh 24.\n1st row: 1 s d c in 3rd ch from hook, 1 s d c in next ch.\n",
			Options{}, []string{"## Abbreviations", "s d c: short double crochet (half double)"}, []string{"Special stitches"}},
		{"remarks on lines of their own", "Mat\n\nNotes\nJoin each round.\nThe right side faces you throughout, whichever way round\nyou hold the mat.\n\nMat\nRnd 1: 6 sc in magic ring. (6)\n",
			Options{}, []string{"Join each round.\n\nThe right side faces you throughout, whichever way round you hold the mat."}, nil},
		{"parts of a piece stand below it", "Vest\n\nBack\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n\nShape armholes\nRow 2: Turn, sl st in first 2 sts, ch 1, sc in next 4 sts. Leave rem sts unworked. (4 sc)\n",
			Options{}, []string{"## Back", "### Shape armholes"}, nil},
		{"the terms at the top are those of the sheet", "Harbour Mesh (UK)\n\nMesh\nCh 5.\nRow 1: Dc in 2nd ch from hook and in each ch to end. (4 dc)\n",
			Options{Terms: []stitch.Terms{stitch.US}}, []string{"# Harbour Mesh (US)", "Sc in 2nd ch"}, []string{"UK"}},
		{"and none where it is in both", "Harbour Mesh (UK)\n\nMesh\nCh 5.\nRow 1: Dc in 2nd ch from hook and in each ch to end. (4 dc)\n",
			Options{Terms: []stitch.Terms{stitch.UK, stitch.US}}, []string{"# Harbour Mesh\n"}, nil},
		{"terms alone on the first line are no title", "UK\n\nHarbour Mesh\n\nMesh\nCh 5.\nRow 1: Dc in 2nd ch from hook and in each ch to end. (4 dc)\n",
			Options{}, []string{"# Harbour Mesh\n\nWritten in UK terms."}, []string{"\nUK\n"}},
		{"a total in italics behind a bold label", "Pier Lamp\nUS terms\n\n**Rnd 1:** 6 sc in magic ring. *(6 sc)*\n**Rnd 2:** *2 sc in next st; rep from * around. *(12 sc)*\n",
			Options{}, []string{"**Rnd 1:** 6 sc in magic ring. (6 sc)\n", "**Rnd 2:** \\*2 sc in next st; rep from \\* around. (12 sc)\n"}, nil},
		{"restyled: what comes after the row", "Dab\n\nDab\nRnd 1: 4 sc in magic ring. (4)\nRnd 2: (Sc2tog) 2 times. (2)\nFasten off, leaving a tail.\nStuff firmly.\n",
			Options{Restyle: true}, []string{"**Rnd 2:** Sc2tog twice. (2 sts)  \nFasten off, leaving a tail.  \nStuff firmly."}, nil},
		{"restyled: the base of the chain", "Net\nUK terms\n\nNet\n6 ch, ss to form ring.\nRnd 1: 3 ch (counts as first tr), 13 tr into ring, ss to top of 3 ch. (14 tr)\nRnd 2: 3 ch, 1 tr in base of 3 ch, 2 tr in each tr to end, ss to join. (28 tr)\n",
			Options{Restyle: true}, []string{"join with ss in top of beg ch-3", "1 tr in base of 3 ch, 2 tr"}, nil},
	} {
		_, doc := sheetOf(c.text, c.o)
		if len(doc.Unlike) > 0 {
			t.Errorf("%s: %v", c.name, doc.Unlike)
		}
		got := Markdown(doc)
		rest := got
		for _, w := range c.want {
			_, after, ok := strings.Cut(rest, w)
			if !ok {
				t.Errorf("%s: no %q (after what comes before it) in\n%s", c.name, w, got)
				break
			}
			rest = w[len(w)-1:] + after // the next may begin at this one's end of line
		}
		for _, w := range c.not {
			if strings.Contains(got, w) {
				t.Errorf("%s: %q in\n%s", c.name, w, got)
			}
		}
	}
}
