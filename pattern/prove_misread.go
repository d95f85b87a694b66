package pattern

import "fmt"

// misread takes back the errors of a piece of which most rows do not come out.
// An author slips once or twice in a piece, and a slip is told once; where one
// row after another is amiss, it is the reading that is: a mesh or a shell of
// her own, a foundation that stands elsewhere. Then the rows are not proven,
// and nothing in them is called wrong.
func (pr *prover) misread(w *pieceWork, found int) {
	rows, wrong := 0, 0
	seen := make(map[*Row]bool, len(w.proof.Rows))
	for _, r := range w.proof.Rows {
		if seen[r.Row] {
			continue // the same words once more
		}
		seen[r.Row] = true
		rows++
		if r.Status == Differs {
			wrong++
		}
	}
	if wrong < misreadRows || wrong*2 < rows {
		return
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
		if r.Status == Differs {
			r.Status = Unread
		}
	}
}

// misreadRows is how many rows of a piece are amiss at least before the reading
// of it is doubted.
const misreadRows = 4
