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
