package pattern

import (
	"strings"
	"testing"
)

// TestPageWords: what a page says before and behind its pattern makes no rows, and
// it is told that it is not read. Before a row it is read on.
func TestPageWords(t *testing.T) {
	const rows = "Harbour Mug Mat\n\nUS terms.\n\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\nRow 2: Ch 1, turn, sc in each st across. (12)\nFasten off.\n"
	for _, c := range []struct {
		before, behind string
		told           bool
	}{
		{"Skip to content\nMenu\nPrint this pattern\n\n", "", false},
		{"", "\nShare this: Post | Pin\n\nMaggie, 12 May: ch 1 and sc in row 2 gave me 13 sts!\n", true},
		{"", "\nRelated\nSix crabs in a row, 1 May 2020\nJoin 12 of us for sc in the round\n", true},
		{"", "\n3 thoughts on \"Mug Mat\"\nSkip row 2 and turn, it is quicker\n", true},
		{"", "\n12 Comments\nWork 3 more sc in each st if your mug is large.\n", true},
		{"", "\nTags: mats, 12 sc, ch 1\n", true},
	} {
		p := Read(c.before + rows + c.behind).Prove(Options{})
		if p.Pattern.Title != "Harbour Mug Mat" || len(p.Pieces) != 1 || p.Pieces[0].Len() != 2 || p.Pieces[0].Rows[1].Status != Agrees {
			t.Errorf("%q: %q has %d pieces", c.before+c.behind, p.Pattern.Title, len(p.Pieces))
		}
		for _, x := range p.Pattern.Passages() {
			if at := p.Pattern.Page; x.Kind == PagePassage != (!at.Empty() && x.Span.Start >= at.Start) {
				t.Errorf("%q: %q is a passage of kind %d", c.behind, p.Pattern.Source.Slice(x.Span), x.Kind)
			}
		}
		told := false
		for _, f := range p.Findings {
			told = told || strings.Contains(f.Message, "are those of the page")
			if f.Severity > Note {
				t.Errorf("%q: %v", c.before+c.behind, f)
			}
		}
		if told != c.told {
			t.Errorf("%q: told %v that words are not read", c.behind, told)
		}
	}
	if p := Read(rows + "\nShare this: Post | Pin\n\nFinishing\nSew the mat to its lid.\n"); len(p.Assembly) != 1 {
		t.Errorf("the making up below the page's own words is lost: %v", p.Assembly)
	}
	p := Read(rows[:strings.Index(rows, "Row 2")] + "Comments\nRow 2: Ch 1, turn, sc in each st across. (12)\n").Prove(Options{})
	n := 0
	for _, pc := range p.Pieces {
		n += pc.Len()
	}
	if n != 2 {
		t.Errorf("a row below a heading of comments is lost: %d rows", n)
	}
}
