package pattern

import "fmt"

// changesClaimed holds by how many a row is said to differ from the one below it, "18 sts
// (+6)", against the two of them, where both agree with their totals. Without a total the
// row itself is held against it.
func (pr *prover) changesClaimed() {
	for _, w := range pr.pieces {
		for i, rp := range w.proof.Rows {
			c := &rp.Row.changes
			if i == 0 || !c.deltaSet || c.delta.Span.Empty() || rp.Label != rp.Row.Label {
				continue
			}
			before := w.proof.Rows[i-1]
			if rp.Status != Agrees || rp.Stated == nil || rp.Left > 0 || before.Status != Agrees || before.Made != rp.Available {
				continue
			}
			if told, by := c.delta.At(pr.size), rp.Made-before.Made; told != by {
				pr.say(Error, CodeTotal, c.delta.Span, fmt.Sprintf("%s is said to differ by %d from the row below, and goes from %d to %d", rp.Label, told, before.Made, rp.Made), "")
			}
		}
	}
}
