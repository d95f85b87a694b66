package fit

import (
	"errors"
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
)

// height makes the piece as high as is wished, by the rows that repeat, and
// gives the rows after them their new numbers.
func (f *fitter) height() error {
	pc := f.proof.Pieces[f.main]
	m := &f.res.Up
	m.WasStitches, m.WasMM = float64(rowsOf(pc)), f.tape.up(pc)
	m.Stitches, m.MM = m.WasStitches, m.WasMM
	if f.wish.Tall == 0 && f.wish.Rows == 0 {
		return nil
	}
	m.Asked, m.Unit = true, f.tape.gauge.Unit
	all := f.stretches()
	if len(all) == 0 {
		return fmt.Errorf("no rows of %s repeat as they are (\"Rows 2-14\"), so there is no rule by which it could be higher", pieceName(pc))
	}
	src := f.proof.Pattern.Source
	if sp := f.proof.Pattern.CountsRows(pc.Piece); !sp.Empty() {
		line, _ := src.Position(sp.Start)
		return fmt.Errorf("line %d says how many rows there are (%q), and what is worked along them would have to be counted anew", line, src.Slice(sp))
	}
	last := int64(0)
	for _, r := range pc.Piece.Rows {
		n := r.Numbers
		if first := n.First.At(0); first > 0 && len(n.List) == 0 && first <= last {
			return fmt.Errorf("the rows of %s are numbered anew at %s, so they cannot be counted on", pieceName(pc), r.Label)
		}
		last = max(last, n.Last.At(0))
		if r.Numbers.Every > 0 {
			return fmt.Errorf("%s of %s stands for rows all over the piece, so its rows cannot be counted anew", r.Label, pieceName(pc))
		}
	}
	perRow := f.tape.gauge.Rows.Length(1)
	var more float64 // in rows of the gauge
	if f.wish.Tall > 0 {
		m.WishMM = f.wish.Tall
		if n := f.tape.gauge.Rows.In(f.wish.Tall); n > most {
			return fmt.Errorf("%s comes to %.0f rows, more than the %d that are worked out", m.Unit.Tell(f.wish.Tall), n, int64(most))
		}
		more = (f.wish.Tall - m.WasMM) / perRow
	} else {
		m.WishN = f.wish.Rows
		for _, s := range all {
			s.height = float64(s.unit)
		}
		more = float64(f.wish.Rows) - m.WasStitches
	}
	grow(all, more)
	least := m.WasStitches
	for _, s := range all {
		least -= float64(s.rows - s.least)
		m.Stitches += float64(s.now - s.rows)
	}
	if f.wish.Rows > 0 && float64(f.wish.Rows) < least {
		return fmt.Errorf("%s has %d rows at least; fewer would cut rows that shape it", pieceName(pc), int64(least))
	}
	if f.wish.Tall > 0 {
		shortest := m.WasMM
		for _, s := range all {
			shortest -= float64(s.rows-s.least) / float64(s.unit) * s.height * perRow
		}
		if f.wish.Tall < shortest-perRow {
			return fmt.Errorf("%s is %s high at least; less would cut rows that shape it", pieceName(pc), m.Unit.Tell(shortest))
		}
	}
	for _, s := range all {
		if s.now == s.rows {
			continue
		}
		if err := f.lengthen(s); err != nil {
			return err
		}
	}
	return f.renumber(all)
}

// lengthen writes how many rows a stretch has.
func (f *fitter) lengthen(s *stretch) error {
	by := s.now - s.rows
	f.res.Moved = append(f.res.Moved, Move{What: s.label, Was: countOf(int(s.rows), "row"), Now: fmt.Sprint(s.now)})
	ref := s.row.Refer
	if ref == nil {
		return nil // its label says it all
	}
	repeat := referred(ref)
	if sp := ref.Times.Span; !sp.Empty() {
		f.changes[sp] = ref.Times.At(0) + by/repeat
	}
	if sp := ref.Rows.Span; !sp.Empty() {
		f.changes[sp] = ref.Rows.At(0) + by
	}
	if sp := ref.Until.Span; !sp.Empty() {
		f.changes[sp] = ref.Until.At(0) + by
	}
	return nil
}

// shift tells the new number of a row from the old one.
type shift struct {
	from []int64 // rows after this number
	by   []int64 // are moved by so many
}

func (s shift) to(n int64) int64 {
	out := n
	for i, from := range s.from {
		if n >= from {
			out += s.by[i]
		}
	}
	return out
}

// renumber gives rows their new numbers, in labels and wherever they are named.
func (f *fitter) renumber(all []*stretch) error {
	shifts := make(map[int]shift)
	var main shift
	for _, s := range all {
		if s.now != s.rows && s.last > 0 {
			main.from = append(main.from, max(s.last, s.first))
			main.by = append(main.by, s.now-s.rows)
		}
	}
	if len(main.from) == 0 {
		return nil
	}
	shifts[f.main] = main
	f.renumbered = true
	// a piece that counts on from the one it sits on goes on counting on
	for _, p := range f.perched {
		sh, ok := shifts[p.host]
		if !ok {
			continue
		}
		host := f.proof.Pieces[p.host].Piece
		for _, s := range p.seats {
			pc := f.proof.Pieces[s.piece].Piece
			if first := pc.Rows[0].Numbers.First.At(0); first > 1 && first == lastNumber(host)+1 {
				by := sh.to(lastNumber(host)) - lastNumber(host)
				shifts[s.piece] = shift{from: []int64{1}, by: []int64{by}}
			}
		}
	}
	f.shiftBehind(shifts)
	for i, p := range f.proof.Pieces {
		for _, row := range p.Piece.Rows {
			if sh, ok := shifts[i]; ok {
				if err := f.relabel(row, sh); err != nil {
					return err
				}
			}
			if ref := row.Refer; ref != nil && ref.LastRows == 0 {
				on := i
				if ref.Piece != "" {
					on = f.named(ref.Piece, i)
				}
				if sh, ok := shifts[on]; ok {
					var wanted []int64
					for r := ref; r != nil; r = r.Then {
						switch {
						case len(r.List) > 0:
							for _, n := range r.List {
								wanted = append(wanted, int64(n))
							}
						case r.Last != r.First:
							wanted = append(wanted, int64(r.First), int64(r.Last))
						default:
							wanted = append(wanted, int64(r.First))
						}
					}
					if err := f.rename(ref.Span, wanted, sh, row.Label); err != nil {
						return err
					}
				}
			}
			for _, r := range rowRefs(append(append([]*pattern.Step(nil), row.Setup...), row.Steps...)) {
				if r.Number == 0 {
					continue
				}
				on := f.refersTo(i, r)
				if sh, ok := shifts[on]; ok {
					if err := f.rename(r.Span, []int64{int64(r.Number)}, sh, row.Label); err != nil {
						return err
					}
				}
			}
		}
	}
	return nil
}

// shiftBehind has the parts behind the main piece count on as they did: a
// shoulder that began with the row after its last one, and the other shoulder,
// which began with that number too.
func (f *fitter) shiftBehind(shifts map[int]shift) {
	host := f.proof.Pieces[f.main].Piece
	follows := map[int64]bool{lastNumber(host) + 1: lastNumber(host) > 0}
	for i := f.main + 1; i < len(f.proof.Pieces); i++ {
		pc := f.proof.Pieces[i].Piece
		if len(pc.Rows) == 0 || !follows[pc.Rows[0].Numbers.First.At(0)] {
			continue
		}
		follows[lastNumber(pc)+1] = true
		if _, seated := shifts[i]; !seated {
			shifts[i] = shifts[f.main] // its rows are numbers of the main piece, gone on with
		}
	}
}

// refersTo is the piece whose row is named.
func (f *fitter) refersTo(i int, r *pattern.RowRef) int {
	if r.Piece != "" {
		return f.named(r.Piece, i)
	}
	for _, p := range f.perched {
		for _, s := range p.seats {
			if s.piece == i && p.row == r.Number {
				return p.host
			}
		}
	}
	return i
}

// named finds a piece by its name, before the i-th or anywhere.
func (f *fitter) named(name string, i int) int {
	for k := i; k >= 0; k-- {
		if sameName(f.proof.Pieces[k].Piece.Name, name) {
			return k
		}
	}
	for k, p := range f.proof.Pieces {
		if sameName(p.Piece.Name, name) {
			return k
		}
	}
	return -1
}

func rowRefs(steps []*pattern.Step) []*pattern.RowRef {
	var out []*pattern.RowRef
	for _, s := range steps {
		if s.Target.Row != nil {
			out = append(out, s.Target.Row)
		}
		out = append(out, rowRefs(s.Body)...)
	}
	return out
}

// relabel writes the new numbers of a label.
func (f *fitter) relabel(row *pattern.Row, sh shift) error {
	n := row.Numbers
	if len(n.List) > 0 {
		var wanted []int64
		for _, k := range n.List {
			wanted = append(wanted, int64(k))
		}
		if sh.to(wanted[len(wanted)-1]) == wanted[len(wanted)-1] {
			return nil
		}
		if row.Label == "" {
			return nil
		}
		sp := pattern.Span{Start: row.Span.Start, End: n.Last.Span.End}
		return f.rename(sp, wanted, sh, row.Label)
	}
	for _, x := range []pattern.Num{n.First, n.Last} {
		was := x.At(0)
		to := sh.to(was)
		if x.Span == n.First.Span && n.First.Span != n.Last.Span && was != n.Last.At(0) && sh.to(was-1) != to && sh.to(was-1) == was-1 && was > 1 {
			to = sh.to(was) // a range that begins where another ends
		}
		if to == was || was == 0 {
			continue
		}
		if x.Span.Empty() || !numbered(f.proof.Pattern.Source.Slice(x.Span)) {
			return fmt.Errorf("%s has a number that cannot be written anew", row.Label)
		}
		f.changes[x.Span] = to
	}
	return nil
}

// rename writes the new numbers of rows that words name.
func (f *fitter) rename(sp pattern.Span, wanted []int64, sh shift, label string) error {
	moves := false
	for _, n := range wanted {
		moves = moves || sh.to(n) != n
	}
	if !moves {
		return nil
	}
	text := f.proof.Pattern.Source.Slice(sp)
	at := 0
	for _, n := range wanted {
		found := false
		for at < len(text) && !found {
			if text[at] < '0' || text[at] > '9' {
				at++
				continue
			}
			end := at
			for end < len(text) && text[end] >= '0' && text[end] <= '9' {
				end++
			}
			if text[at:end] == fmt.Sprint(n) {
				to := pattern.Span{Start: sp.Start + at, End: sp.Start + end}
				for _, tail := range []string{"st", "nd", "rd", "th"} {
					if strings.HasPrefix(strings.ToLower(text[end:]), tail) {
						to.End += 2
					}
				}
				if sh.to(n) != n {
					f.changes[to] = sh.to(n)
				}
				found = true
			}
			at = end
		}
		if !found {
			return errors.New(label + " names a row whose number cannot be written anew")
		}
	}
	return nil
}

func numbered(s string) bool {
	return strings.ContainsAny(s, "0123456789") || len(s) > 2
}

func lastNumber(p *pattern.Piece) int64 {
	n := int64(0)
	for _, r := range p.Rows {
		n = max(n, r.Numbers.Last.At(0))
	}
	return n
}

// rowsOf is how many rows a piece has.
func rowsOf(p *pattern.PieceProof) int64 { return int64(p.Len()) }
