package pattern

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

// A pattern without totals is held together by its rows alone: each uses what
// the one before it leaves. One wrong number then makes row after row come out
// wrong, and often first in a row after the one where it stands. So where
// several rows of a piece are amiss, one number is looked for that explains
// them all.

// Bounds on the search: rows looked back at from the first that is amiss,
// numbers tried in a piece, how long such a piece may be, and how many pieces
// of a pattern are gone through.
const (
	slipBack   = 2
	slipTries  = 160
	slipRows   = 120
	slipPieces = 12
)

// slipFound is one number that explains what is amiss in a piece.
type slipFound struct {
	row   *Row
	edit  edit
	at    Span // the words that hold the number
	score int
}

// oneSlip looks for the number that explains the errors of a piece, and works
// the piece anew from the row that it stands in, as if it were set right. The
// row itself is left as it is written, and is the one that is told of.
func (pr *prover) oneSlip(p *Piece, w *pieceWork, found int, kept int64) *pieceWork {
	errs, score := errorsIn(pr.out[found:]), scoreOf(pr.out[found:])
	if errs < 2 || len(p.Rows) > slipRows || pr.slips >= slipPieces || pr.exhausted() || pr.spent > maxSpent/8 {
		return w
	}
	pr.slips++
	best, ok := pr.searchSlip(p, found, errs, score)
	if !ok {
		return w
	}
	first := pr.firstError(found)
	out := slices.Clone(pr.out)
	pr.out, pr.kept = pr.out[:found:found], kept
	pr.given = map[*Row]edit{best.row: best.edit}
	again := pr.workPiece(p)
	pr.given = nil
	if errorsIn(pr.out[found:]) > 1 {
		pr.out = out
		return w
	}
	pr.tellSlip(again, best, first, found)
	again.flips, again.slipTold = w.flips, true
	return again
}

// firstError is the error of a piece that stands first.
func (pr *prover) firstError(found int) Finding {
	var first *Finding
	for i := found; i < len(pr.out); i++ {
		if f := &pr.out[i]; f.Severity == Error && (first == nil || f.Span.Start < first.Span.Start) {
			first = f
		}
	}
	return *first
}

// searchSlip tries other numbers in the first row with an error and in those
// just before it.
func (pr *prover) searchSlip(p *Piece, found, errs, score int) (slipFound, bool) {
	at := p.rowAt(pr.firstError(found).Span.Start)
	r := pr.rehearse(found)
	defer r.end()
	var all []slipFound
	tries := 0
	test := func(i int, e edit, sp Span) {
		if tries++; tries > slipTries || e.to < 1 {
			return
		}
		if out := r.work(p.with(i, e.apply(p.Rows[i]))); errorsIn(out) == 0 {
			all = append(all, slipFound{row: p.Rows[i], edit: e, at: sp, score: scoreOf(out)})
		}
	}
	for i := at; i >= max(0, at-slipBack); i-- {
		row := p.Rows[i]
		seen := make(map[Span]bool)
		each := func(s *Step, n numAt) {
			if n.num.Span.Empty() || seen[n.num.Span] || n.role == roleChain && s.Op != OpChain {
				return
			}
			seen[n.num.Span] = true
			from := n.num.At(pr.size)
			for k, by := range [...]int64{-1, 1, -2, 2, 3, -3} {
				cost := k/2 + 2*(at-i)
				if n.role == roleHook || n.role == roleNth {
					cost += 3
				}
				test(i, edit{kind: editNumber, span: n.num.Span, to: from + by, size: pr.size, cost: cost}, n.phrase)
			}
		}
		eachNumber(row.Setup, 0, each)
		eachNumber(row.Steps, 0, each)
	}
	if len(all) == 0 {
		return slipFound{}, false
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].score != all[j].score {
			return all[i].score < all[j].score
		}
		return all[i].edit.cost < all[j].edit.cost
	})
	return all[0], all[0].score*2 <= score
}

// tellSlip makes one error of what a wrong number does: the one that its row
// has, or else the first of the rows after it, told at the number.
func (pr *prover) tellSlip(w *pieceWork, s slipFound, first Finding, found int) {
	src := pr.pat.Source
	words := src.Slice(s.at)
	n := Span{s.edit.span.Start - s.at.Start, s.edit.span.End - s.at.Start}
	fresh := words
	if s.at.Contains(s.edit.span) {
		fresh = words[:n.Start] + renumber(words[n.Start:n.End], s.edit.to, pr.size) + words[n.End:]
	}
	hint := fmt.Sprintf("change %s to %s: then the rows after it come out", quote(words), quote(singular(fresh, s.edit.to)))
	w.differs(func(r *RowProof) bool { return r.Row == s.row })
	inRow := s.row.Span.Contains(s.edit.span)
	if !inRow {
		// the chain it is worked on: what it did to the row is told there
		pr.out = slices.DeleteFunc(pr.out, func(f Finding) bool { return f.Severity == Error && s.row.Span.Contains(f.Span) })
	}
	for _, grade := range [...]Severity{Error, Warning} {
		for i := found; i < len(pr.out) && inRow; i++ {
			f := &pr.out[i]
			if f.Severity != grade || !s.row.Span.Contains(f.Span) {
				continue
			}
			switch f.Code {
			case CodeOverrun, CodeMisfit, CodeLeft, CodeStepped, CodeTotal, CodeRest, CodeNoPlace:
				f.Severity, f.Hint = Error, hint
				return
			}
		}
	}
	label := s.row.Label
	if label == "" {
		label = "it"
	}
	msg := first.Message
	switch {
	case !inRow && s.row.Span.Contains(first.Span):
		msg = fmt.Sprintf("%s does not come out on it: %s", label, first.Message)
	case !s.row.Span.Contains(first.Span):
		msg = fmt.Sprintf("%s comes out, and line %d after it does not: %s", label, src.lineAt(first.Span.Start), strings.TrimSuffix(first.Message, "."))
	}
	pr.say(Error, first.Code, s.at, msg, hint)
}
