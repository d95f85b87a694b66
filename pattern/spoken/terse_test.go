package spoken

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// TestShortNotesAreSaid says rows of a maker's notes in full: the stitch of a
// bare number, the ring once, and both ends where the middle is counted out.
func TestShortNotesAreSaid(t *testing.T) {
	const toy = "whelk, all sc unless said\n\nshell\n"
	for _, c := range []struct {
		text     string
		row      int
		us, uk   string
		unspoken string
	}{
		{toy + "mr 5\nr2 inc all 10\n", 0, "Make a magic ring, then five single crochet into the ring.", "Make a magic ring, then five double crochet into the ring.", ""},
		{toy + "magic ring 5\nr2 inc all 10\n", 0, "Make a magic ring, then five single crochet into the ring.", "Make a magic ring, then five double crochet into the ring.", ""},
		{toy + "(1) 6 MR = 6\n(2) inc x6 = 12\n(3) sc = 12\n(4) sc = 12\n", 0, "Six single crochet into a magic ring.", "Six double crochet into a magic ring.", ""},
		{toy + "mr 5\nr2 2 ea 10\n", 1, "Two single crochet in each stitch all the way around.", "Two double crochet in each stitch all the way round.", ""},
		{toy + "mr 6\nr2 dec all 3\n", 1, "Single crochet two together all the way around.", "Double crochet two together all the way round.", "Decrease"},
		{toy + "ch 9\nr1 8\nr2 dec ea end, 4 between 6\n", 1, "Single crochet two together, four single crochet, then single crochet two together.", "Double crochet two together, four double crochet, then double crochet two together.", "between"},
		{toy + "mr 5\nr2 inc all 10\nr3 dec all 5\nf.o., close hole\n", 2, "Fasten off. Close hole.", "Fasten off. Close hole.", "F. O"},
		{"BUOY\nr1 6sc mr\nr2 inc x6 (12)\nr3 (2 dec)x3 = 9\n", 2, "Two single crochet, then single crochet two together, three times in all.", "Two double crochet, then double crochet two together, three times in all.", ""},
		{toy + "mr 5\nr2 2 in each, join w/ sl st. (10)\n", 1, "oin with a slip stitch", "oin with a slip stitch", " or "},
		{"Ferry Cap\nUS terms. Join each round with sl st.\n\n#1 - 9 hdc in MC, join - 9\n#2 - ch 2, 2 hdc in ea st, join - 18\n#3 - ch 2, hdc around, join - 18\n#4 - ch 2, hdc around, join - 18\n", 0, "Nine half double crochet into a magic ring.", "Nine half treble crochet into a magic ring.", "colour"},
	} {
		proof := pattern.Read(c.text).Prove(pattern.Options{})
		if proof.Errors() > 0 || len(proof.Pieces) != 1 || len(proof.Pieces[0].Rows) <= c.row {
			t.Errorf("%q does not prove: %v", c.text, proof.Findings)
			continue
		}
		index := proof.Pieces[0].Rows[c.row].Index
		for terms, want := range map[stitch.Terms]string{stitch.US: c.us, stitch.UK: c.uk} {
			line, ok := Of(proof, Options{Terms: terms}).Row(0, index)
			if !ok || !strings.Contains(line.Text, want) || c.unspoken != "" && strings.Contains(line.Text, c.unspoken) {
				t.Errorf("%q in %s terms is said\n%q, not\n%q", c.text, terms, line.Text, want)
			}
		}
	}
}
