package pattern

import (
	"fmt"
	"strings"
)

// misread takes back the errors of a piece of which most rows do not come out.
// An author slips once or twice in a piece, and a slip is told once; where one
// row after another is amiss, it is the reading that is: a mesh or a shell of
// her own, a foundation that stands elsewhere. Then the rows are not proven,
// and nothing in them is called wrong.
func (pr *prover) misread(w *pieceWork, found int) {
	if errs := errorsIn(pr.out[found:]); errs < misreadRows || errs > 1000 {
		return
	}
	rows := 0
	amiss := make(map[*Row]bool)
	seen := make(map[*Row]bool, len(w.proof.Rows))
	for _, r := range w.proof.Rows {
		if seen[r.Row] {
			continue // the same words once more
		}
		rows++
		if seen[r.Row] = true; r.Status == Differs || pr.errsIn(r.Row, found) {
			amiss[r.Row] = true
		}
	}
	wrong := len(amiss)
	if wrong < misreadRows || wrong*2 < rows {
		return
	}
	for i := found; i < len(pr.out); i++ {
		if f := &pr.out[i]; f.Severity == Error {
			if strings.HasPrefix(f.Hint, "change ") {
				return // one number of the author's explains it
			}
			break
		}
	}
	told := false
	for i := found; i < len(pr.out); i++ {
		f := &pr.out[i]
		if f.Severity != Error || f.Code == CodeTooLarge || f.Code == CodeTooMuch {
			continue
		}
		f.Severity, f.Hint = Warning, ""
		if !told {
			told = true
			f.Hint = fmt.Sprintf("%d of %d rows of this piece do not come out: more likely they are read amiss than wrong in so many places", wrong, rows)
		}
	}
	for _, r := range w.proof.Rows {
		if r.Status == Differs || amiss[r.Row] {
			r.Status = Unread
		}
	}
}

// errsIn reports whether an error since found stands in a row.
func (pr *prover) errsIn(row *Row, found int) bool {
	for i := found; i < len(pr.out); i++ {
		if f := &pr.out[i]; f.Severity == Error && row.Span.Contains(f.Span) {
			return true
		}
	}
	return false
}

// misreadRows is how many rows of a piece are amiss at least before the reading
// of it is doubted.
const misreadRows = 4

// readAmiss reports a row that is so far from coming out that no slip of the
// author's explains it, with the words at which it fails: one number wrong leaves
// a few stitches over or asks for a few too many, and never leaves more than
// half of the row below, or asks for spaces where there is none. Then it is the
// reading that is doubted, and the row is told as one not understood.
func (w *pieceWork) readAmiss(row, label *Row, o outcome) (Span, bool) {
	if row != label || o.rw.below == nil || o.rw.below.free || o.rw.below.chain || o.rw.below.ring || w.slippedBefore() {
		return Span{}, false
	}
	if p := o.fatal; p != nil {
		if p.code != CodeOverrun || p.step == nil || p.step.Span.Empty() {
			return Span{}, false
		}
		of := p.step.Target.Of
		spaces := len(of) > 0 && of[0].Kind == Space && !o.rw.below.has(Filter{Kind: Space})
		return p.step.Span, spaces && o.rw.below.stitches(0, 0, true) >= amissPlaces
	}
	if o.left < amissPlaces || o.left <= o.rw.taken || o.rw.leave || o.status != Differs && (o.status != Unstated || row.Kind != Round || row == lastOf(w.piece)) || o.status == Differs && 2*o.made >= o.left+o.rw.taken {
		return Span{}, false
	}
	if len(row.Steps) == 0 || countsPlaces(row.Steps) {
		return Span{}, false // one of its numbers may be wrong
	}
	sp := row.Steps[0].Span
	for _, s := range row.Steps {
		sp = cover(sp, s.Span)
	}
	return sp, !sp.Empty()
}

// countsPlaces reports whether steps say how many places they go into, or how
// often they are worked.
func countsPlaces(steps []*Step) bool {
	for _, s := range steps {
		if s.Target.N.N > 1 || s.Op == OpGroup && (s.Times.Kind == Exactly || s.Times.Kind == More) || s.special == nil && countsPlaces(s.Body) {
			return true
		}
	}
	return false
}

// amissPlaces is how many places a row below has at least for such a doubt.
const amissPlaces = 4

// slippedBefore reports whether the row before did not come out: then this one
// may be amiss for its sake.
func (w *pieceWork) slippedBefore() bool {
	n := len(w.proof.Rows)
	return n > 0 && w.proof.Rows[n-1].Status == Differs
}
