package pattern

import "strings"

// A row that comes out but for its words that are not understood is taken to come out
// without them. Where it does not, they may be to blame, or a slip of the author's.

// slipBeside reports whether a row with words that are not understood misses its stated
// total, or the row below, by one number that is out by one or two, and the words are
// none that could make up for it: then it is the number that is wrong.
func (w *pieceWork) slipBeside(row, label *Row, below *fabric, total *Total) bool {
	if label != row || w.trial != nil || row.Refer != nil || len(row.Steps) == 0 || below != nil && (below.free || below.bare) ||
		total == nil || total.delta || total.rows || !checkable(total) {
		return false
	}
	src := w.pr.pat.Source
	for _, sp := range row.bad {
		_, count := w.pr.pat.ownCounts[sp]
		if w.behindRow(row, sp, total) {
			continue // it was counted before
		}
		if !count && (sp.Len() > maxRemark || holdsNumber(src.Slice(sp)) || !placeOnly(src.Slice(sp)) && (asksForWork(src.Slice(sp)) || !src.apart(sp))) {
			return false
		}
	}
	found, tries, each := false, 0, 1+len(w.readings(row, below))
	w.tried(func() {
		for _, by := range []int64{-1, 1, -2, 2} {
			w.pr.nearRows(row, by, func(r *Row) {
				if tries += each; tries <= maxBeside && !found && r.Total == row.Total {
					found = w.anyReading(r, below, total, func(o outcome) bool { return o.status == Agrees })
				}
			})
		}
	})
	return found
}

// maxBeside is how often the row is worked with a number changed.
const maxBeside = 300

// placeOnly reports whether words tell where a stitch goes and nothing more, "in any
// st", "in first foundation ch".
func placeOnly(s string) bool {
	f := strings.Fields(strings.ToLower(s))
	if len(f) < 2 || len(f) > 9 || !strings.Contains(" in into on at to of around under behind through over ", " "+f[0]+" ") {
		return false
	}
	for _, word := range f[1:] {
		if strings.Contains(" and then each every both next last twice times more work rep repeat skip inc dec ", " "+strings.Trim(word, ".,;:()")+" ") {
			return false
		}
	}
	return true
}
