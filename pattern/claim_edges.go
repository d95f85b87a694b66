package pattern

import (
	"fmt"
	"strings"
)

// pairsClaim reads how many pairs of stitches a row that is folded has: "slip st
// the 9 pairs of sts together".
func (r *reader) pairsClaim(at *claimRow, i int) {
	t := &r.toks[i]
	if t.kind != tNum || t.frac || t.big || t.num < 2 || i+3 >= len(r.toks) || !r.toks[i+1].isAny("pairs", "pair") || !r.toks[i+2].is("of") || !r.toks[i+3].isAny("st", "sts", "stitches", "loops", "sc", "dc", "hdc", "htr", "tr") || int(t.start) < at.row.Span.Start {
		return
	}
	said := false
	for k := i + 4; k < min(i+9, len(r.toks)) && !said; k++ {
		said = r.toks[k].isAny("together", "tog")
	}
	for k := i - 1; k >= max(0, i-14) && !said && !r.toks[k+1].blank; k-- {
		said = r.toks[k].isAny("fold", "folded", "seam", "sew", "join", "graft", "whip", "whipstitch")
	}
	if said {
		r.claimOf(claimPairs, at, t, t, &r.toks[i+3])
	}
}

// pairsClaimed compares them with the stitches of the row: one in the middle may
// be left over.
func (pr *prover) pairsClaimed(c *claim) {
	last := pr.lastOf(c)
	if last == nil || last.Made/2 == c.n.N || pr.amissIn(c.piece, c.span.Start) {
		return
	}
	pr.say(Error, CodeRest, c.span, fmt.Sprintf("the pattern says %d pairs here, and %s makes %d, which are %d pairs", c.n.N, last.Label, last.Made, last.Made/2),
		fmt.Sprintf("change \"%s\" to %d pairs, if the rows are right", oneLine(pr.pat.Source.Slice(c.span)), last.Made/2))
}

// amissIn reports whether a row of a piece was found wrong before some place: what
// follows from it is not told again.
func (pr *prover) amissIn(p *Piece, before int) bool {
	for i := range pr.out {
		if f := &pr.out[i]; f.Severity == Error && len(p.Rows) > 0 && p.Rows[0].Span.Start <= f.Span.Start && f.Span.Start < before {
			return true
		}
	}
	return false
}

// goesOnUntil reports whether words between rows say to go on with them to some
// length, or until something is seen: how many they are is not known.
func goesOnUntil(words string) bool {
	words = strings.ToLower(words)
	for _, w := range [...]string{"until", "length", "form the pattern", "desired", "measures"} {
		if strings.Contains(words, w) {
			return true
		}
	}
	return false
}

// lastOf is the row that a claim stands in or behind, where how many stitches it
// makes is proven.
func (pr *prover) lastOf(c *claim) *RowProof {
	w := pr.workOf(c.piece)
	if w == nil {
		return nil
	}
	line := pr.pat.Source.lineAt(c.row.Span.Start)
	var last *RowProof
	for _, rp := range w.proof.Rows {
		if rp.Line <= line {
			last = rp
		}
	}
	if last == nil || last.Line != line || last.Status != Agrees && last.Status != Unstated || last.Made <= 0 {
		return nil
	}
	return last
}

// endsClaim reads along how many rows an edge is worked, "sc in the end of each
// of the 12 rows down one side".
func (r *reader) endsClaim(at *claimRow, i int) {
	t := &r.toks[i]
	if t.kind != tNum || t.frac || t.big || t.num < 3 || i < 4 || i+2 >= len(r.toks) || !r.toks[i+1].is("rows") || !r.toks[i-1].is("the") || !r.toks[i-2].is("of") || !r.toks[i-3].isAny("each", "ends", "sides", "edge", "end", "side") || int(t.start) < at.row.Span.Start || int(t.start) >= at.row.Span.End {
		return
	}
	ends := false
	for k := i - 3; k >= max(0, i-7) && !ends; k-- {
		ends = r.toks[k].isAny("end", "ends", "side", "sides", "edge")
	}
	if ends {
		r.claimOf(claimEnds, at, t, t, &r.toks[i+1])
	}
}

// alongClaimed compares them with the rows that were worked before: those of a
// piece, or those of it that go back and forth.
func (pr *prover) alongClaimed(c *claim) {
	at := -1
	for i, w := range pr.pieces {
		if w.piece == c.piece {
			at = i
		}
	}
	if at < 0 || pr.amissIn(c.piece, c.span.Start) {
		return // it was told, or another number of the same row was
	}
	end := -1 // of the row before, and what is said behind it
	for _, w := range pr.pieces[:at+1] {
		for _, row := range w.piece.Rows {
			if row.Span.End <= c.row.Span.Start {
				end = max(end, row.Span.End)
			}
		}
	}
	if end < 0 || goesOnUntil(pr.pat.Source.Text[end:c.row.Span.Start]) {
		return
	}
	line := pr.pat.Source.lineAt(c.row.Span.Start)
	flat := 0
	for i := at; i >= 0; i-- {
		w := pr.pieces[i]
		if hasMeasure(w.piece) {
			return
		}
		all, run := 0, 0
		for _, rp := range w.proof.Rows {
			if rp.Line >= line {
				break
			}
			all += rp.Count()
			if rp.Row.Kind == FlatRow {
				run += rp.Count()
			} else {
				run = 0
			}
			if n := int(c.n.N); n == all || n == run || rp.Status == Unread {
				return
			}
		}
		if flat == 0 {
			flat = run
		}
		if n := int(c.n.N); n == all+1 {
			return // with the foundation
		}
	}
	if flat < 3 {
		return
	}
	pr.say(Error, CodeRest, c.span, fmt.Sprintf("the pattern says %d rows here, and %d are worked before it", c.n.N, flat),
		fmt.Sprintf("change \"%s\" to \"%d rows\", or look for a number of rows that is wrong before it", oneLine(pr.pat.Source.Slice(c.span)), flat))
}
