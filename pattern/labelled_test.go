package pattern

import "testing"

// TestLabelled has pages that are told in sentences, with the labels that they get.
func TestLabelled(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{
			"Cod\n\nRnd 1: 6 sc in ring.\nRnd 2: 2 in each. (12)", // nothing is missing
			"Cod\n\nRnd 1: 6 sc in ring.\nRnd 2: 2 in each. (12)",
		},
		{
			"7 sc in a magic ring.\n2 in each, 14\nthen 2 plain rounds\nThen *5 sc, dec* around so 12 are left.\n",
			"Rnd 1: 7 sc in a magic ring.\nRnd 2: 2 in each, 14\nRnds 3-4: work even\nRnd 5: *5 sc, dec* around so 12 are left.\n",
		},
		{
			"Ch 9\nsc in 2nd ch from hook and in each ch, 8\nch 1 turn, 2 sc in first, 6 sc, 2 sc in last, 10\n",
			"Row 1: Ch 9\nsc in 2nd ch from hook and in each ch, 8\nRow 2: ch 1 turn, 2 sc in first, 6 sc, 2 sc in last, 10\n",
		},
		{
			"ch 3 then 2 sc back from 2nd ch\nturn ch 1 sc across do 4 rows like this\nturn ch 1 inc inc thats 4\n",
			"Row 1: ch 3 then 2 sc back from 2nd ch\nRow 2: turn ch 1 sc across do 4 rows like this\nRow 6: turn ch 1 inc inc thats 4\n",
		},
		{
			"My floats begin with nine single crochet in a magic ring, and on the next round I put two in each, so eighteen.\n",
			"My floats begin with ...\nRnd 1: nine single crochet in a magic ring\nRnd 2: two in each, so eighteen.\n",
		},
	} {
		if got := Read(c.text).Labelled().Source.Text; got != c.want {
			t.Errorf("%q is labelled\n%s\nand not\n%s", c.text, got, c.want)
		}
	}
}
