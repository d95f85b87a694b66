package pattern

import "testing"

// What is done with scissors and needle once the yarn is fastened off hides no wrong
// total before it.
func TestFinishingIsNoDoubt(t *testing.T) {
	for _, after := range []string{
		"Cut 12 cm strands and knot one in every corner, both ends.",
		"Weave in 2 tails along each side.",
		"Trim 5 cm from every loop.",
	} {
		text := "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\nRow 2: Ch 1, sc in each st across. (19 sc)\nFasten off. " + after + "\n"
		if n := Read(text).Prove(Options{}).Errors(); n != 1 {
			t.Errorf("%q: %d errors, want the wrong total alone", after, n)
		}
	}
}
