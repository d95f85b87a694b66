package pattern

import (
	"testing"

	"crochet/tallyturn/pattern/stitch"
)

// TestChainsTellTerms has a turning chain that is said to be a stitch decide the
// terms where nothing else does. How many chains a stitch has is in the table of
// stitches: a treble has three in UK terms and four in US terms.
func TestChainsTellTerms(t *testing.T) {
	for text, want := range map[string]stitch.Terms{
		"Rnd 1: 4 ch (1 tr, 1 ch), (1 tr, 1 ch) 11 times into ring, ss to 3rd of 4 ch.":              stitch.UK,
		"Rnd 1: 4 ch, 1 tr into ring, (1 ch, 1 tr into ring) 9 times, 1 ch, join to 3rd of 4 ch.":    stitch.UK,
		"Rnd 1: Ch 5, 1 tr in ring, (ch 1, 1 tr in ring) 9 times, ch 1, join to 4th ch of beg ch-5.": stitch.US,
		"Rnd 1: 4 ch (1 dtr), 11 dtr into ring, ss to 4th of 4 ch.":                                  stitch.UK,
		"Rnd 1: Ch 3 (counts as tr), 11 tr in ring, join.":                                           stitch.UK,
		"Rnd 1: Ch 3 (counts as dc), 11 dc in ring, join.":                                           stitch.US,
		"Rnd 1: Ch-4 (counts as first tr here and throughout), 11 tr in ring, join.":                 stitch.US,
		"Rnd 1: Ch 5 (counts as 1 tr and ch-1 sp), (tr in ring, ch 1) 11 times, join.":               stitch.US,
		"Rnd 1: Ch 5 (counts as 1 tr and ch 2), (tr in ring, ch 2) 11 times, join.":                  stitch.UK,
		"Rnd 1: Ch 3, 11 dc in ring, join. (12 dc)":                                                  stitch.Unknown,
		"Rnd 1: Ch 3 (does not count as a tr), 12 tr in ring, join.":                                 stitch.Unknown,
		"Rnd 1: 3 ch (1 tr tall), 11 tr into ring, ss to 3rd ch.":                                    stitch.Unknown,
		"Rnd 1: Ch 3 (counts as tr), 11 sc in ring, join. Rnd 2: skip 1, sc in each st around.":      stitch.US,
		"Rnd 1: 1 d c in 8th ch from hook, *ch 2, miss 2 ch, 1 d c in next ch; rep from *.":          stitch.US,
		"Rnd 1: Dc into the 6th ch, (1 ch, miss 1, dc in next ch) 10 times.":                         stitch.US,
		"Tip: 2 ch., 6 d.c. into first ch. made.":                                                    stitch.UK,
		"Rnd 1: 1 tr in 8th ch from hook, *2 ch, miss 2 ch, 1 tr in next ch; rep from *.":            stitch.UK,
		"Rnd 1: 1 dc in 10th ch from hook, *5 ch, miss 4 ch, 1 dc in next ch; rep from *.":           stitch.UK,
	} {
		if got := Read("Ch 5, join to make a ring.\n" + text + "\n").evidence; got != want {
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
}
