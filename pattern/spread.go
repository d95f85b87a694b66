package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/even"
)

// spreadHint is how the increases of a row that is to have them evenly would
// lie. It is "" where the row works more than one stitch into each, in which
// case only the author knows what they are to be spread over.
func (w *pieceWork) spreadHint(rw *rowWork) string {
	s := rw.deltaStep
	if !s.evenly || rw.free || rw.below == nil || rw.below.free {
		return ""
	}
	over, into := rw.below.stitches(0, 0, false), int64(0)
	id := s.Stitch
	for _, r := range rw.out.runs {
		switch {
		case r.counts() && into == 0:
			id = r.stitch
		case r.counts() && r.stitch != id, r.kind == pSpace:
			return ""
		}
		into += r.worth(r.n)
	}
	if into-rw.delta != over || rw.delta != s.N.At(w.pr.size) {
		return ""
	}
	before := ""
	if rw.stands {
		over, into = over-1, into-1
		before = " after the turning chain"
	}
	ends := even.Whole
	if rw.kind == Round {
		ends = even.Joined
	}
	spread, err := even.Of(over, into, ends)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("spread over %s%s, that is %q", countWords(over, "stitch", "stitches"), before, spread.Words(id, w.pr.terms))
}
