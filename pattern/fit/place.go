package fit

import (
	"fmt"
	"regexp"
	"sync"

	"crochet/tallyturn/pattern"
)

// seat is where a piece sits on another, as written.
type seat struct {
	piece  int
	at     pattern.Placing // as the pattern has it
	num    pattern.Num     // the number that its place is written with
	after  string          // the piece that it is told from; "" for the row itself
	fills  bool            // it goes on to the end of the row
	placed pattern.Placing // in the new size
}

// perch is a row of a piece with what sits on it.
type perch struct {
	host  int
	row   int
	of    int64
	seats []*seat // in the order along the row
}

// perches finds which rows are worked onto, before anything is changed.
func (f *fitter) perches() []*perch {
	var out []*perch
	for i, p := range f.proof.Pieces {
		s := f.work.Try(i, nil).Sits
		if s == nil {
			continue
		}
		host := f.indexOf(s.Host)
		if host < 0 || host == i {
			continue
		}
		var on *perch
		for _, x := range out {
			if x.host == host && x.row == s.Row {
				on = x
			}
		}
		if on == nil {
			on = &perch{host: host, row: s.Row, of: s.Of}
			out = append(out, on)
		}
		t := &seat{piece: i, at: *s}
		t.num, t.after = f.placeNumber(p.Piece)
		for _, step := range p.Piece.Rows[0].Steps {
			t.fills = t.fills || fillsRow(step)
		}
		k := len(on.seats)
		on.seats = append(on.seats, t)
		for k > 0 && on.seats[k-1].at.From > s.From {
			on.seats[k] = on.seats[k-1]
			k--
		}
		on.seats[k] = t
	}
	return out
}

func (f *fitter) indexOf(p *pattern.PieceProof) int {
	for i, q := range f.proof.Pieces {
		if q.Piece == p.Piece || q.Piece.Line == p.Piece.Line && q.Piece.Name == p.Piece.Name {
			return i
		}
	}
	return -1
}

// placeNumber finds the number that says where on another piece a piece
// begins: "in 8th st of Row 3", "skip 4 sts from first fin".
func (f *fitter) placeNumber(p *pattern.Piece) (num pattern.Num, after string) {
	first := p.Rows[0]
	for _, s := range append(append([]*pattern.Step(nil), first.Setup...), first.Steps...) {
		if s.Target.Row == nil {
			continue
		}
		num = s.Target.N
		if s.Target.Which == pattern.First && num.Span.Empty() {
			if at := firstWord().FindStringIndex(f.proof.Pattern.Source.Slice(s.Target.Span)); at != nil {
				num = pattern.Num{N: 1, Span: pattern.Span{Start: s.Target.Span.Start + at[0], End: s.Target.Span.Start + at[1]}}
			}
		}
		return num, s.Target.Row.After
	}
	return pattern.Num{}, ""
}

var firstWord = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\b(?:1st|first)\b`)
})

// free lists the stitches before, between and after the seats of a row.
func (p *perch) free() []int64 {
	var out []int64
	end := int64(0)
	for _, s := range p.seats {
		out = append(out, s.at.Before()-end)
		end = max(end, s.at.To)
	}
	return append(out, p.of-end)
}

// place moves what sits on pieces that have become wider or narrower.
func (f *fitter) place(perches []*perch) error {
	changed := map[int]bool{f.main: true}
	for _, p := range perches { // in the order of the pieces that sit on them
		if !changed[p.host] {
			continue
		}
		if err := f.seat(p, changed); err != nil {
			return err
		}
	}
	return f.goOn(changed)
}

// goOn works pieces anew that go on from the one before them without a
// beginning of their own, where that has changed: the body of a cowl under a
// heading of its own.
func (f *fitter) goOn(changed map[int]bool) error {
	for i := 1; i < len(f.proof.Pieces); i++ {
		pc := f.proof.Pieces[i]
		if !changed[i-1] || changed[i] || f.kept[i] != nil || pc.Sits() != nil || len(pc.Rows) == 0 {
			continue
		}
		if _, ok := baseOf(pc, 0); ok && len(pc.Piece.Rows[0].Setup) > 0 {
			continue
		}
		out := f.work.Try(i, f.changes)
		if out.Stop == nil && (len(out.Proof.Rows) == 0 || out.Proof.Rows[0].Available == pc.Rows[0].Available) {
			continue
		}
		sv := f.solverFor(i)
		out, ch := sv.solve(f.changes)
		if out == nil {
			return &standing{piece: i, rows: sv.stood}
		}
		f.changes = ch.With(out.Totals)
		f.keep(i, out)
		changed[i] = true
	}
	return nil
}

// seat moves the pieces of one row.
func (f *fitter) seat(p *perch, changed map[int]bool) error {
	row := f.kept[p.host].Proof
	now, ok := stitchesOf(row, p.row)
	if !ok || now == p.of {
		return nil
	}
	gaps := p.free()
	free := now
	filler := false
	for _, s := range p.seats {
		free -= s.at.To - s.at.From + 1
		filler = filler || s.fills && s.at.To == p.of
	}
	if filler {
		return f.fill(p, changed)
	}
	for _, g := range gaps {
		if g < 0 {
			free -= g
		}
	}
	fresh := share(gaps, free)
	name := f.proof.Pieces[p.host]
	if fresh == nil {
		return fmt.Errorf("what is worked onto Row %d of %s needs %d stitches, and it would have %d", p.row, pieceName(name), now-free, now)
	}
	end := int64(0)
	for i, s := range p.seats {
		width := s.at.To - s.at.From
		s.placed = s.at
		s.placed.From = end + fresh[i] + 1
		s.placed.To = s.placed.From + width
		s.placed.Of = now
		end = max(end, s.placed.To)
		if err := f.moveTo(p, s); err != nil {
			return err
		}
	}
	return nil
}

// moveTo writes the new place of a piece.
func (f *fitter) moveTo(p *perch, s *seat) error {
	pc := f.proof.Pieces[s.piece]
	by := s.placed.From - s.at.From
	if s.after != "" {
		for _, t := range p.seats {
			if sameName(t.at.By.Piece.Name, s.after) {
				by = (s.placed.From - t.placed.To) - (s.at.From - t.at.To)
			}
		}
	}
	ch := pattern.Changes{}
	if !s.num.Span.Empty() && by != 0 {
		ch[s.num.Span] = s.num.At(0) + by
	}
	out := f.work.Try(s.piece, f.changes.With(ch))
	where := fmt.Sprintf("Row %d of %s", p.row, pieceName(f.proof.Pieces[p.host]))
	if out.Stop != nil || out.Sits == nil || out.Sits.From != s.placed.From || out.Sits.To != s.placed.To {
		f.res.Look = append(f.res.Look, fmt.Sprintf("%s belongs on stitches %d-%d of %s now; its place is not written as a number that can be changed", pieceName(pc), s.placed.From, s.placed.To, where))
		return nil
	}
	f.changes = f.changes.With(ch)
	f.keep(s.piece, out)
	f.res.Moved = append(f.res.Moved, Move{
		What: pieceName(pc) + " on " + where,
		Was:  fmt.Sprintf("stitches %d-%d of %d", s.at.From, s.at.To, s.at.Of),
		Now:  fmt.Sprintf("%d-%d of %d", s.placed.From, s.placed.To, s.placed.Of),
	})
	return nil
}

// fill works a piece anew that goes along a row to its end.
func (f *fitter) fill(p *perch, changed map[int]bool) error {
	for _, s := range p.seats {
		sv := f.solverFor(s.piece)
		out, ch := sv.solve(f.changes)
		if out == nil {
			return &standing{piece: s.piece, rows: sv.stood}
		}
		f.changes = ch.With(out.Totals)
		f.keep(s.piece, out)
		if s.fills {
			changed[s.piece] = true
		}
		if len(p.seats) > 1 {
			f.res.Look = append(f.res.Look, fmt.Sprintf("%s stays where it is on Row %d of %s, beside a piece that fills the row", pieceName(f.proof.Pieces[s.piece]), p.row, pieceName(f.proof.Pieces[p.host])))
		}
	}
	return nil
}

// standing is the error of a piece that does not work on its changed host.
type standing struct {
	piece int
	rows  map[*pattern.Row]int
}

func (s *standing) Error() string { return "a piece worked onto it does not come out" }

// stitchesOf is how many stitches a row of a piece has.
func stitchesOf(p *pattern.PieceProof, number int) (int64, bool) {
	for i := len(p.Rows) - 1; i >= 0; i-- {
		if r := p.Rows[i]; r.First <= number && number <= r.Last {
			return r.Expect()
		}
	}
	return 0, false
}
