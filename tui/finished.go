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
	account := f.account()
	if large := f.brush().largest(good, "finished", 2, f.inner, f.height-3-len(f.lines)-len(account)-3); large != nil {
		for _, l := range append(large, nil) {
			f.put(l...)
		}
	}
	f.put(clipOrShort(f.inner, []span{{good, "✓ finished"}, {quiet, "  every row of every piece is worked"}})...)
	room := max(f.height-2-len(f.lines), 0)
	top := min(f.w.top, max(len(account)-room, 0))
	for _, l := range account[top:min(top+room, len(account))] {
		f.put(l...)
	}
	for len(f.lines) < f.height-2 {
		f.blank(1)
	}
	f.lines = f.lines[:max(f.height-2, 0)]
	if more := len(account) - top - room; f.w.note == "" && (more > 0 || top > 0) {
		text := fmt.Sprintf("Up and Down show the rest: %s above, %d below.", count(int64(top), "line"), max(more, 0))
		if cells(text) > f.inner {
			text = fmt.Sprintf("Up and Down show the rest: %d more.", top+max(more, 0))
		}
		f.put(span{quiet, text})
		f.line(f.w.buttonRow().spans()...)
		return
	}
	f.footer()
}

// clipOrShort is a line, without its last part where there is no room for it.
func clipOrShort(width int, line []span) []span {
	if spanCells(line) > width && len(line) > 1 {
		return line[:len(line)-1]
	}
	return line
}

// scrollEnd moves the account of the end by a line.
func (w *Walk) scrollEnd(step int) {
	f := w.frame()
	w.top = min(max(w.top+step, 0), max(len(f.account())-1, 0))
}

// account is what came of it all, line by line.
func (f *frame) account() [][]span {
	if f.w.mode != walking {
		return append(make([][]span, f.gap()), f.question(f.inner)...)
	}
	s := f.w.state
	_, stitches := s.Stitches()
	rows, _ := s.Rows()
	known := count(stitches, "stitch")
	if unknown, _ := s.Unknown(); unknown > 0 {
		known += fmt.Sprintf(" and those of %s of no known number", count(unknown, "row"))
	}
	out := [][]span{{{base, fmt.Sprintf("%s, %s, %s of work", count(rows, "row"), known, clockTime(s.Millis(f.w.now)))}}}
	out = append(out, make([][]span, f.gap())...)
	out = append(out, f.pieceLines()...)
	return append(out, f.assembly()...)
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

// assembly tells the making up, where the pattern does.
func (f *frame) assembly() [][]span {
	proof := f.w.state.Plan().Proof()
	if proof == nil || proof.Pattern == nil || len(proof.Pattern.Assembly) == 0 {
		return nil
	}
	out := append(make([][]span, f.gap()), []span{{strong, "Making up"}})
	if n := f.w.state.Adrift(); n > 0 {
		out = append(out, fold(lead, fmt.Sprintf("≠ %s belonged to a step that reads otherwise by now: tick again what is done.", count(int64(n), "tick")), min(f.inner, wordsWide))...)
	}
	for i, step := range proof.Pattern.MakingUp() {
		head := fmt.Sprintf("%2d ", i+1)
		sign := f.stepSign(i)
		for _, l := range fold(base, Clean(step), min(f.inner, wordsWide)-len(head)-2) {
			out = append(out, append([]span{sign, {keycap, " " + head}}, l...))
			head, sign.text = "   ", " "
		}
	}
	return out
}
