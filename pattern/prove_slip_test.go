package pattern

import (
	"strings"
	"testing"
)

// edging has no totals: each row is held only by the ones beside it. Counts
// worked out by hand: 5, 6, 7, 8, 9, 5 and 5 treble. Common practice, no source.
const edging = `Shrimp edging

UK terms. The 3 ch at the beginning of a row counts as a tr.

Make 7 ch.
1st row: 1 tr into the 4th ch from hook, 1 tr into each of the next 3 ch, turn.
2nd row: 3 ch, 1 tr into the tr at the foot of these ch, 1 tr into each of the next 4 tr, turn.
3rd row: 3 ch, miss the first tr, 1 tr into each of the next 4 tr, 2 tr into the last tr, turn.
4th row: 3 ch, 1 tr into the tr at the foot of these ch, 1 tr into each of the next 6 tr, turn.
5th row: 3 ch, miss the first tr, 1 tr into each of the next 6 tr, 2 tr into the last tr, turn.
6th row: ss over the first 5 tr, 3 ch, 1 tr into each of the next 4 tr, turn.
7th row: 3 ch, miss the first tr, 1 tr into each of the next 4 tr, turn.
`

// zigzag begins each second row with chains that are worked back along, and
// steps back over stitches and a space: 6, 6, 9, 9 and 6 treble, worked out by
// hand. Common practice, no source.
const zigzag = `Gull edging

UK terms. The 3 ch at the beginning of a row counts as a tr.

Make 10 ch.
1st row: 1 tr into the 4th ch from hook, 1 tr into next ch, 2 ch, miss 2 ch, 1 tr into each of the last 3 ch.
2nd row: 3 ch, turn, miss the first tr, 1 tr into each of next 2 tr, 2 ch, 1 tr into each of the last 3 tr.
3rd row: 7 ch, turn, 1 tr into the 4th ch from hook, 1 tr into next ch, 2 ch, miss 2 ch, 1 tr into each of next 3 tr, 2 ch, 1 tr into each of the last 3 tr.
4th row: 3 ch, turn, miss the first tr, 1 tr into each of next 2 tr, (2 ch, 1 tr into each of next 3 tr) twice.
5th row: Turn, ss over the first 3 tr and 2 ch and into the next tr, 3 ch, 1 tr into each of next 2 tr, 2 ch, 1 tr into each of the last 3 tr.
6th row: As 2nd row.
`

// TestOneNumberExplains breaks one number of a pattern that states no totals:
// it is told once, with the number that sets it right, however many rows after
// it come out wrong.
func TestOneNumberExplains(t *testing.T) {
	for _, c := range []struct {
		text, from, to string
		line           int
		mend           string
	}{
		{edging, "Make 7 ch", "Make 6 ch", 5, `change "6 ch" to "7 ch"`},
		{edging, "each of the next 3 ch", "each of the next 4 ch", 6, ""},
		{zigzag, "Make 10", "Make 9", 5, `to "10 ch"`},
		{zigzag, "miss 2 ch, 1 tr into each of the last 3 ch.\n2nd", "miss 3 ch, 1 tr into each of the last 3 ch.\n2nd", 5, ""}, // or the chain: either would do,
		{zigzag, "3rd row: 7 ch", "3rd row: 6 ch", 8, `to "7 ch"`},
		{zigzag, "next 3 tr) twice", "next 4 tr) twice", 9, ""},
	} {
		if p := Read(c.text).Prove(Options{}); p.Errors() != 0 {
			t.Errorf("%v in the right text\n%s", p.Findings, c.text)
			continue
		}
		wrong := strings.Replace(c.text, c.from, c.to, 1)
		if wrong == c.text {
			t.Fatalf("%q is not there", c.from)
		}
		p := Read(wrong).Prove(Options{})
		lines := errorLines(p)
		if len(lines) != 1 || lines[0] != c.line {
			t.Errorf("%q for %q: errors in lines %v, want one in line %d: %v", c.to, c.from, lines, c.line, p.Findings)
			continue
		}
		for _, f := range p.Findings {
			if f.Severity == Error && !strings.Contains(f.Hint, c.mend) {
				t.Errorf("%q for %q: hint %q, want %q", c.to, c.from, f.Hint, c.mend)
			}
		}
	}
}
