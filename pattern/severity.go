package pattern

import (
	"cmp"
	"slices"
)

// firstAmiss makes an error of a warning that is one of count, a repeat that does not
// come out, stitches passed over that nobody skips, where all before it came out to the
// stitch, or has since a row that agrees with its total: so it is no reading gone
// astray that it shows, and nothing can be meant by it but that a number is
// wrong. Where something was amiss just before, in words or in number, it stays a
// warning: it may only follow from that.
func (pr *prover) firstAmiss(w *pieceWork, found int) {
	var order []int
	for i := found; i < len(pr.out); i++ {
		f := &pr.out[i]
		if f.Severity > Note || f.Code == CodeTrusted || f.Code == CodeUnread || f.Code == CodeMeasure {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(pr.out[a].Span.Start, pr.out[b].Span.Start) })
	for k, i := range order {
		f := &pr.out[i]
		if f.Severity != Warning || f.Code != CodeMisfit && f.Code != CodeStepped {
			continue
		}
		if k == 0 && pr.undefinedBefore(w, f.Span.Start) || k > 0 && !w.agreedBetween(pr.out[order[k-1]].Span.Start, f.Span.Start) {
			continue
		}
		pr.countError(w, f)
	}
}

// undefinedBefore reports whether something of a piece before a place was taken for a
// stitch that is nowhere defined, which is a guess.
func (pr *prover) undefinedBefore(w *pieceWork, at int) bool {
	return slices.ContainsFunc(pr.out, func(f Finding) bool {
		return f.Code == CodeUndefined && w.piece.Rows[0].Span.Start <= f.Span.Start && f.Span.Start <= at
	})
}

// countError makes an error of a warning, but where the row has the number that it
// states. A repeat to the end that leaves a stitch is one all the same: it was to use the
// row below, which has then a stitch too many.
func (pr *prover) countError(w *pieceWork, f *Finding) {
	in := func(r *RowProof) bool { return r.Row.Span.Contains(f.Span) }
	if f.Code != CodeMisfit && slices.ContainsFunc(w.proof.Rows, func(r *RowProof) bool { return in(r) && r.Status == Agrees }) {
		return
	}
	f.Severity = Error
	w.differs(in)
}
