package pattern

import (
	"fmt"
	"strings"
)

// restCount holds the number in "sc in each of the remaining 15 sts" or "in
// each of the 20 sc across" against how many places there are to the end: a
// maker who counts as many as the row says must come to its end with them.
func (w *rowWork) restCount(s *Step, rest []*Step) {
	t := &s.Target
	n := t.N.At(w.pr.size)
	if n <= 0 || t.Bound.Kind != ToEnd || t.Which != Each && t.Which != Next || t.Row != nil || t.Within != nil || s.Legs > 1 || w.own != nil {
		return
	}
	if host := w.host; host != nil && restSaid(w.pr.pat.Source.Slice(s.Span)) {
		if host.piece != nil && w.pr.amissIn(host.piece.piece, s.Span.Start) {
			return
		}
		w.host = nil // along a row of another piece they are counted as well
		defer func() { w.host = host }()
	}
	if !w.countable(t.Of) {
		return
	}
	of := w.resolve(s, t.Of)
	there := w.eachLeft(of) - w.needAtEnd(rest, of)
	if there == n || w.leftWith(of)-w.needAtEnd(rest, of) == n || there <= 0 || w.slack > 0 && there+1 == n {
		return
	}
	w.problems = append(w.problems, problem{code: CodeRest, sev: Error, step: s, msg: fmt.Sprintf("%s here, and the row says %d", countWords(there, "stitch is left", "stitches are left"), n)})
}

// restSaid reports whether words say that they tell of all that is left.
func restSaid(words string) bool {
	words = strings.ToLower(words)
	return strings.Contains(words, "remaining") || strings.Contains(words, "rem.") || strings.Contains(words, "rem ")
}

// leaves holds the number in "leaving 8 sts unworked" against how many are
// left there.
func (w *rowWork) leaves(s *Step, rest []*Step) {
	n := s.Target.N.At(w.pr.size)
	if n <= 0 || !w.countable(s.Target.Of) || stepsMake(rest) || w.nest > 0 || w.taken == 0 {
		return
	}
	there := w.leftWith(nil)
	if there == n || w.left(nil) == n || w.left(w.resolve(s, s.Target.Of)) == n {
		return
	}
	sev := Error
	if there == 0 && n > maxRestAmiss {
		sev = Warning
	}
	w.problems = append(w.problems, problem{code: CodeRest, sev: sev, step: s, msg: fmt.Sprintf("%s here, and the row says %d", countWords(there, "stitch is left", "stitches are left"), n)})
}

// maxRestAmiss is how many stitches a row with nothing left may say it leaves for that
// to be a slip. Where it says more, its work was read amiss before.
const maxRestAmiss = 4

// countable reports whether the places to the end of the row below are known,
// and are stitches.
func (w *rowWork) countable(of []Filter) bool {
	if w.below == nil || w.below.free || w.below.magic || w.below.ring || w.free || w.nest > 0 || w.host != nil {
		return false
	}
	return len(of) == 0 || of[0].Kind == AnyStitch || of[0].Kind == OneStitch || of[0].Kind == ChainStitch && w.below.chain
}
