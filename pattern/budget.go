package pattern

import "fmt"

// A proof may take so much work and no more, however the pattern is put
// together: rows of many places, repeated many times, each unlike the last.
// The work is counted in steps, never in time, so that the same text always
// comes out the same.
const (
	maxSpent = 30_000_000 // instructions worked and runs of places gone over
	maxKept  = 3_000_000  // runs of places and notes of instructions kept
)

// spend counts work done.
func (pr *prover) spend(n int) { pr.spent += int64(n) }

// exhausted reports whether the proof has cost all it may.
func (pr *prover) exhausted() bool { return pr.spent > maxSpent || pr.kept > maxKept }

// step counts one instruction worked. It is false where the row, or the
// pattern, has had all that it may.
func (w *rowWork) step(s *Step) bool {
	w.steps++
	w.pr.spent++
	if w.steps > maxSteps {
		return w.fail(CodeTooLarge, s, 0, "more than %d instructions: this row is too large to be worked one by one", maxSteps)
	}
	if w.pr.exhausted() {
		return w.fail(CodeTooLarge, s, 0, "the rows up to here take more than %d instructions: they are too large to be worked one by one", maxSpent)
	}
	return true
}

// tooMuch keeps a row that is not worked out since the pattern has had all
// the work that it may, and says so the first time.
func (w *pieceWork) tooMuch(row *Row, it item) {
	pr := w.pr
	if !pr.saidMuch {
		pr.saidMuch = true
		pr.say(Error, CodeTooLarge, row.labelSpan, fmt.Sprintf("the rows before this take more than %d instructions: they and the rest are not worked out", maxSpent), "")
	}
	w.unknownRow(row, it)
}

// beyond is a count that is more than can be worked out: sums and products
// stop at it.
const beyond = 4 * maxNumber

// mul multiplies counts.
func mul(a, b int64) int64 {
	if a > 0 && b > beyond/a {
		return beyond
	}
	return a * b
}

// tooMany reports whether a row makes more stitches than can be counted.
func (f *fabric) tooMany() bool {
	n := int64(0)
	for i := range f.runs {
		if n += f.runs[i].n; n > maxNumber {
			return true
		}
	}
	return false
}

// size is the number of nodes in a trace, counted as far as limit.
func (t *Trace) size(limit int64) int64 {
	n := int64(1)
	for _, k := range t.Kids {
		if n >= limit {
			break
		}
		n += k.size(limit - n)
	}
	return n
}
