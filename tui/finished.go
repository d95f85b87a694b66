package tui

import (
	"fmt"

	"crochet/tallyturn/counter"
)

// finished is the end of the last piece: each piece, its rows, and whether
// every row came out as it should.
func (f *frame) finished() {
	f.heading()
	f.blank(f.gap())
	f.put(span{good, "✓ finished"}, span{quiet, "  every row of every piece is worked"})
	s := f.w.state
	_, stitches := s.Stitches()
	rows, _ := s.Rows()
	f.put(span{base, fmt.Sprintf("%s, %s, %s of work", count(rows, "row"), count(stitches, "stitch"), clockTime(s.Millis(f.w.now)))})
	f.blank(f.gap())
	for _, l := range f.pieceLines() {
		f.put(l...)
	}
	f.assembly()
	for len(f.lines) < f.height-2 {
		f.blank(1)
	}
	f.lines = f.lines[:max(f.height-2, 0)]
	f.footer()
}

func (f *frame) gap() int {
	if f.height < 16 {
		return 0
	}
	return 1
}

// pieceLines tells of each piece, and of each row that came out different.
func (f *frame) pieceLines() [][]span {
	s := f.w.state
	plan := s.Plan()
	differ := map[int][]counter.Mismatch{}
	for m := range s.Mismatches() {
		differ[m.Piece] = append(differ[m.Piece], m)
	}
	var out [][]span
	for i := range plan.Pieces() {
		if plan.Rows(i) == 0 {
			continue
		}
		name := pieceName(plan, i)
		if name == "" {
			name = "the piece"
		}
		rows := "  " + count(int64(plan.Rows(i)), "row")
		if n := plan.Copies(i); n > 1 {
			rows = fmt.Sprintf("  %d copies of %s", n, count(int64(plan.Rows(i)), "row"))
		}
		if len(differ[i]) == 0 {
			out = append(out, []span{{good, "✓ "}, {strong, name}, {base, rows}, {good, "  every row agrees"}})
			continue
		}
		out = append(out, []span{{alarm, "≠"}, {base, " "}, {strong, name}, {base, rows},
			{lead, fmt.Sprintf("  %d differ", len(differ[i]))}})
		for _, m := range differ[i] {
			where := fmt.Sprintf("    row %d", m.Row+1)
			if plan.Copies(i) > 1 {
				where += fmt.Sprintf(" of copy %d", m.Copy+1)
			}
			out = append(out, []span{{base, fmt.Sprintf("%s: %d counted for %d, %s",
				where, m.Counted, m.Expected, overOrShort(m.Counted-m.Expected))}})
		}
	}
	return out
}

// assembly tells the making up, where the pattern does and there is room.
func (f *frame) assembly() {
	proof := f.w.state.Plan().Proof()
	if proof == nil || proof.Pattern == nil || len(proof.Pattern.Assembly) == 0 {
		return
	}
	f.blank(f.gap())
	f.put(span{strong, "Making up"})
	for i, h := range proof.Pattern.Assembly {
		head := fmt.Sprintf("%2d ", i+1)
		for _, l := range fold(base, Clean(h.Text), min(f.inner, wordsWide)-len(head)) {
			f.put(append([]span{{keycap, head}}, l...)...)
			head = "   "
		}
	}
}
