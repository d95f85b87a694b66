package chart

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// The most that is drawn: places in one row, and places in a chart. More
// cannot be read, and would take long to draw.
const (
	maxRow    = 5_000
	maxPlaces = 40_000
)

// Options chooses how a chart is drawn.
type Options struct {
	// Terms are those of the legend; Unknown takes the pattern's.
	Terms stitch.Terms
	// Both names each stitch in the other terms too, behind its own.
	Both bool
	// Tile is the one part to draw of a chart that comes in several, from 1;
	// 0 draws them all, one below the other.
	Tile int
}

// Chart is a drawing of one piece and of the pieces worked onto it.
type Chart struct {
	Title  string // of the piece
	Terms  stitch.Terms
	Both   bool  // its legend is in both terms
	Pieces []int // what is drawn in it, by their places in the proof

	guests []string // the names of the pieces on it
	groups []group  // in the order drawn
	key    []entry
	notes  []string
	flat   bool
	turns  bool // some of it is worked from the wrong side
	tiles  []box
	tile   int
	yarns  []yarn
}

// figure is a chart while it is drawn.
type figure struct {
	proof  *pattern.Proof
	terms  stitch.Terms
	both   bool
	y      *yarns
	places int

	rows   []laidRow
	levels map[[2]int]*level
	behind []group
	front  []group
	used   usage
	notes  []string
	rings  []*layer
	unroll bool // rounds are drawn as rows

	foundations []*layer
	lead        group // leader lines, rings and foundations
}

// laidRow is a row of a piece, laid.
type laidRow struct {
	piece, row int
	number     string
	title      string
	l          *layer
	v, earlier *level
	links      *pattern.RowLinks
}

// Draw draws a piece of a proof, counted from 0, and in their place on it the
// pieces worked flat onto it. Its errors say why there is nothing to draw.
func Draw(proof *pattern.Proof, piece int, o Options) (*Chart, error) {
	f, l, err := layOn(proof, piece, o, tubeThenRows(proof, piece))
	if err != nil {
		return nil, err
	}
	if f.unroll {
		f.note("The rounds are drawn unrolled: each begins at its number and ends where the next begins.")
		if rows := f.rows[0].links; rows.Ring && rows.Chain == 0 {
			f.note("The first of them is worked into a magic ring.")
		}
	}
	c := &Chart{Title: titleOf(proof, piece), Terms: f.terms, Both: o.Both, flat: l.g.flat, turns: f.turns(), tile: o.Tile}
	f.draw()
	seen := map[int]bool{}
	for _, r := range f.rows {
		if !seen[r.piece] {
			seen[r.piece] = true
			c.Pieces = append(c.Pieces, r.piece)
			if r.piece != piece {
				c.guests = append(c.guests, nameOf(proof, r.piece))
			}
		}
	}
	if f.used.sided && f.turns() {
		f.note("Loops and posts are marked as the words have them: from the side that faces you while you work that row.")
	}
	c.groups = append(append(f.behind, f.lead), f.front...)
	c.key, c.notes, c.yarns = f.legend(), f.notes, f.y.all
	c.cut()
	if o.Tile < 0 || o.Tile > len(c.tiles) {
		return nil, noPart(o.Tile, len(c.tiles))
	}
	return c, nil
}

// lay places all rows of a figure.
func lay(proof *pattern.Proof, piece int, o Options) (*figure, *layer, error) {
	return layOn(proof, piece, o, false)
}

// tubeThenRows reports whether a piece is worked up as a tube and then to and fro,
// as a slipper is. Laid round about, its rows would stand apart like the spokes of
// a wheel: such a piece is drawn unrolled.
func tubeThenRows(proof *pattern.Proof, piece int) bool {
	if piece < 0 || piece >= len(proof.Pieces) {
		return false
	}
	wall, rows, before := 0, 0, -1
	for _, r := range proof.Links(piece, maxRow) {
		n := r.Last - r.First + 1
		if !r.Round {
			if before < 0 {
				return false
			}
			rows += n
			continue
		}
		now := 0
		for _, m := range r.Made {
			if m.Kind == pattern.LinkStitch {
				now++
			}
		}
		if n > 1 {
			wall += n - 1
		}
		if now <= before {
			wall++
		}
		before = now
	}
	return wall > 1 && rows > 1
}

// layFlat is lay with rounds unrolled into rows.
func layFlat(proof *pattern.Proof, piece int, o Options) (*figure, *layer, error) {
	return layOn(proof, piece, o, true)
}

func layOn(proof *pattern.Proof, piece int, o Options, unroll bool) (*figure, *layer, error) {
	f := &figure{unroll: unroll, proof: proof, terms: o.Terms, both: o.Both, y: newYarns(proof.Pattern), levels: make(map[[2]int]*level)}
	if f.terms == stitch.Unknown {
		f.terms = proof.Terms
	}
	if piece < 0 || piece >= len(proof.Pieces) {
		return nil, nil, fmt.Errorf("there is no piece %d", piece+1)
	}
	rows, err := f.expand(piece)
	if err != nil {
		return nil, nil, err
	}
	l := f.begin(rows)
	top, err := f.stack(l, piece, rows, nil, l.base(rows))
	if err != nil {
		return nil, nil, err
	}
	if err := f.guests(l, piece, top, 0); err != nil {
		return nil, nil, err
	}
	return f, l, nil
}

// Onto tells for each piece of a proof whether the chart of another shows it:
// the place of that piece, or -1.
func Onto(proof *pattern.Proof) []int {
	out := make([]int, len(proof.Pieces))
	for i := range out {
		out[i] = -1
		if rows := proof.Links(i, maxRow); len(rows) > 0 && sitsFlat(rows, i) {
			out[i] = rows[0].Host
		}
	}
	return out
}

// sitsFlat reports whether a piece is worked in rows onto another.
func sitsFlat(rows []pattern.RowLinks, piece int) bool {
	if len(rows) == 0 || !rows[0].Known || rows[0].Host < 0 || rows[0].Host == piece {
		return false
	}
	for _, r := range rows {
		if r.Round {
			return false
		}
	}
	return true
}

// expand gives each row of a piece links of its own.
func (f *figure) expand(piece int) ([]pattern.RowLinks, error) {
	pc := f.proof.Pieces[piece]
	if pc.Len() == 0 {
		return nil, fmt.Errorf("%s has no rows", nameOf(f.proof, piece))
	}
	links := f.proof.Links(piece, maxRow)
	if links == nil {
		return nil, fmt.Errorf("%s is not worked out", nameOf(f.proof, piece))
	}
	var out []pattern.RowLinks
	for _, r := range links {
		n := r.Last - r.First + 1
		if r.Known {
			f.places += n * max(len(r.Made)+len(r.Earlier), 1)
		} else {
			want, ok := r.Row.Expect()
			if ok && want > maxRow {
				return nil, fmt.Errorf("%s has %d stitches, and a chart of a row has at most %d", r.Row.Label, want, maxRow)
			}
			r.Made = unknown(max(want, 1))
			f.places += n * len(r.Made)
		}
		if f.places > maxPlaces || n > maxPlaces {
			return nil, fmt.Errorf("%s has too many rows and stitches for a chart: more than %d", nameOf(f.proof, piece), maxPlaces)
		}
		for i := r.First; i <= r.Last; i++ {
			one := r
			one.First, one.Last = i, i
			if i < r.Last { // the yarn is fastened off after the last of them
				one.Marks = slices.DeleteFunc(slices.Clone(r.Marks), func(s *pattern.Step) bool { return s.Op == pattern.OpFasten })
			}
			out = append(out, one)
		}
	}
	return out, nil
}

// unknown stands for n stitches of a row that was not worked out.
func unknown(n int64) []pattern.Link {
	out := make([]pattern.Link, n)
	for i := range out {
		out[i] = pattern.Link{Bases: []pattern.Base{{}}}
	}
	return out
}

// begin chooses the ground for a piece and lays its foundation.
func (f *figure) begin(rows []pattern.RowLinks) *layer {
	l := &layer{yarns: f.y, digits: len(strconv.Itoa(len(rows)))}
	first := &rows[0]
	chain := drawnChain(first)
	l.pitch = pitchOf(rows, chain)
	upper, lower, one := 0, 0, sameBase(first)
	for _, m := range first.Made {
		for _, b := range m.Bases {
			switch b.Kind {
			case pattern.BaseChain:
				upper++
			case pattern.BaseOther:
				lower++
			case pattern.BaseRing:
				first.Ring = true
			}
		}
	}
	switch {
	case f.unroll:
		l.g = ground{flat: true}
		if upper > 0 && lower == 0 && !first.Ring && !(first.Round && one) {
			for i := range chain {
				l.chain = append(l.chain, stand{float64(i) * l.pitch, 0})
			}
		}
		l.g.mirror = fromWrongSide(rows)
		f.foundations = append(f.foundations, l)
		return l
	case first.Ring:
		l.g = ground{closed: first.Round}
		l.ring = ringLeast
		f.used.ring = first.Chain == 0
		if first.Chain > 0 {
			l.ring = math.Max(float64(first.Chain)*chainLong/(2*math.Pi), 0.35)
			f.used.chain = true
		}
	case first.Round && one && upper > 0:
		// all in one chain: it is the middle
		l.g = ground{closed: true}
		l.ring = 0.35
		f.used.chain = true
		toRing(first)
		first.Chain = 1
	case first.Round && lower > 0 || upper > 0 && lower > 0:
		pastEnd(first, chain)
		l.g = ground{closed: true, length: float64(max(chain-1, 1))}
		f.used.chain = true
		for i := range chain {
			l.chain = append(l.chain, stand{float64(max(chain-1, 1) - i), 0})
		}
		for _, m := range first.Made {
			if len(m.Bases) == 1 && m.Bases[0].At == chain-1 {
				switch m.Bases[0].Kind {
				case pattern.BaseChain:
					l.ends[0]++
				case pattern.BaseOther:
					l.ends[1]++
				}
			}
		}
	case first.Round:
		l.g = ground{closed: true}
		n := max(chain, len(first.Made), 6)
		l.ring = float64(n) / (2 * math.Pi)
		if upper > 0 {
			f.used.chain = true
			for i := range chain {
				l.chain = append(l.chain, stand{l.g.turn() * (float64(chain-1-i) + 0.5) / float64(chain), l.ring})
			}
		}
	default:
		l.g = ground{flat: true}
		if upper > 0 {
			f.used.chain = true
			for i := range chain {
				l.chain = append(l.chain, stand{float64(i) * l.pitch, 0})
			}
		}
	}
	l.g.mirror = l.g.flat && fromWrongSide(rows)
	f.shape(l, rows)
	f.foundation(l, first)
	return l
}

// fromWrongSide reports whether the first row of a piece worked to and fro is
// a wrong side row: seen from the right side it then runs from left to right.
func fromWrongSide(rows []pattern.RowLinks) bool {
	right := true // whether the row in hand would be a right side row
	for i := range rows {
		if i > 0 && rows[i].Turned {
			right = !right
		}
		switch rows[i].Row.Side {
		case pattern.RightSide:
			return !right
		case pattern.WrongSide:
			return right
		}
	}
	return false
}

// mostPitch is how far apart the chains of a foundation may come to lie.
const mostPitch = 2.5

// pitchOf is how far apart the stitches of a piece stand that is worked
// plainly: as far as the widest of its symbols needs, and so that what the
// first row puts into its chains has room over them.
func pitchOf(rows []pattern.RowLinks, chain int) float64 {
	p := 1.0
	for i := range rows {
		for k := range rows[i].Made {
			p = max(p, symbolOf(rows[i].Made[k].Stitch).wide())
		}
	}
	n := 0
	for _, m := range rows[0].Made {
		if m.Kind == pattern.LinkStitch {
			n++
		}
	}
	if rows[0].Chain > 1 {
		p = max(p, min(float64(n)/float64(chain), mostPitch))
	}
	return p
}

// base is where the first row begins.
func (l *layer) base(rows []pattern.RowLinks) float64 {
	switch {
	case len(l.chain) > 0 && l.g.closed && l.g.length == 0:
		return l.ring + chainRise
	case len(l.chain) > 0:
		return chainRise
	case rows[0].Ring && rows[0].Chain > 0:
		return l.ring + chainRise
	}
	return l.ring
}

// drawnChain is how many chains of the foundation lie under the first row:
// those that turn at its end stand up beside it.
func drawnChain(r *pattern.RowLinks) int {
	n := r.Chain - r.Start
	if len(r.Made) > 0 && r.Made[0].Turn && len(r.Made[0].Bases) == 1 && r.Made[0].Bases[0].Kind == pattern.BaseChain {
		n = r.Made[0].Bases[0].At
	}
	for i, m := range r.Made {
		for _, b := range m.Bases {
			if (b.Kind == pattern.BaseChain || b.Kind == pattern.BaseOther) && (i > 0 || !m.Turn) {
				n = max(n, b.At+1)
			}
		}
	}
	return max(n, 1)
}

// sameBase reports whether all stitches of a row stand in one place.
func sameBase(r *pattern.RowLinks) bool {
	var one *pattern.Base
	for i := range r.Made {
		m := &r.Made[i]
		if m.Kind != pattern.LinkStitch {
			continue
		}
		for k := range m.Bases {
			if one == nil {
				one = &m.Bases[k]
			} else if *one != m.Bases[k] {
				return false
			}
		}
	}
	return one != nil && len(r.Made) > 2
}

// pastEnd has the way back along a chain begin in the chain behind its end, where
// several stitches go round the end already: "3 sc in last ch, working along
// opposite side, sc in next 6 ch" are in the other six.
func pastEnd(r *pattern.RowLinks, chain int) {
	round, last := 0, -1
	for _, m := range r.Made {
		for _, b := range m.Bases {
			switch {
			case b.Kind == pattern.BaseChain && b.At == 0:
				round++
			case b.Kind == pattern.BaseOther:
				if last < 0 && b.At > 0 {
					return // it says where it begins
				}
				last = max(last, b.At)
			}
		}
	}
	if round < 2 || last < 0 || last+1 >= chain {
		return
	}
	made := make([]pattern.Link, len(r.Made))
	for i, m := range r.Made {
		bases := slices.Clone(m.Bases)
		for k := range bases {
			if bases[k].Kind == pattern.BaseOther {
				bases[k].At++
			}
		}
		m.Bases = bases
		made[i] = m
	}
	r.Made = made
}

// toRing has all stitches of a row stand in a ring.
func toRing(r *pattern.RowLinks) {
	made := make([]pattern.Link, len(r.Made))
	for i, m := range r.Made {
		m.Bases = []pattern.Base{{Kind: pattern.BaseRing}}
		made[i] = m
	}
	r.Made = made
	r.Ring = true
}

// stack lays the rows of a piece one on the other.
func (f *figure) stack(l *layer, piece int, rows []pattern.RowLinks, below *level, base float64) (float64, error) {
	pc := f.proof.Pieces[piece]
	f.y.now = -1
	for i := range rows {
		r := &rows[i]
		rp, number := pc.At(r.First)
		x := laidRow{piece: piece, row: r.First, l: l, links: r, number: strconv.Itoa(number)}
		word := "Row"
		if rp.Kind == pattern.Round {
			word = "Round"
		}
		x.title = word + " " + x.number
		if n, ok := rp.Expect(); ok {
			x.title += fmt.Sprintf(" (%d)", n)
		}
		l.turns, l.begins = l.turnsOf(r.First)
		if len(r.Earlier) > 0 {
			x.earlier = l.lay(r, r.Earlier, below, nil, base)
			base = x.earlier.top
		}
		x.v = l.lay(r, r.Made, below, x.earlier, base)
		for _, s := range r.Marks {
			f.y.change(s)
		}
		if r.Even {
			f.note("Where increases or decreases are to be spread evenly, they are drawn so; their places are the maker's choice.")
		}
		base, below = x.v.top, x.v
		if len(x.v.made) == 0 && i > 0 {
			base, below = f.rows[len(f.rows)-1].v.top, f.rows[len(f.rows)-1].v
		}
		f.levels[[2]int{piece, r.First}] = x.v
		f.rows = append(f.rows, x)
		l.host = nil
	}
	return base, nil
}

// turns reports whether any row is worked from the wrong side.
func (f *figure) turns() bool {
	for _, r := range f.rows {
		if r.links.Turned {
			return true
		}
	}
	return false
}

func (f *figure) note(s string) {
	for _, n := range f.notes {
		if n == s {
			return
		}
	}
	f.notes = append(f.notes, s)
}

// guests lays the pieces that are worked flat onto a piece already laid.
func (f *figure) guests(l *layer, host int, top float64, depth int) error {
	if depth > 8 {
		return nil
	}
	last := f.proof.Pieces[host].Len() - 1
	for p := range f.proof.Pieces {
		if p == host || f.laid(p) {
			continue
		}
		links := f.proof.Links(p, maxRow)
		if !sitsFlat(links, p) || links[0].Host != host {
			continue
		}
		on := f.levels[[2]int{host, links[0].HostRow}]
		if on == nil {
			continue
		}
		rows, err := f.expand(p)
		if err != nil {
			return err
		}
		base := on.top
		if links[0].HostRow != last {
			base = top + 1.5
		}
		g := l.g
		g.closed = false
		guest := &layer{g: g, yarns: f.y, digits: len(strconv.Itoa(len(rows))), host: on, ring: l.ring, pitch: l.pitch}
		below := &level{dir: on.dir, made: on.made, first: on.first}
		end, err := f.stack(guest, p, rows, below, base)
		if err != nil {
			return err
		}
		if err := f.guests(guest, p, end, depth+1); err != nil {
			return err
		}
	}
	return nil
}

func (f *figure) laid(piece int) bool {
	for _, r := range f.rows {
		if r.piece == piece {
			return true
		}
	}
	return false
}

// titleOf is the name of a piece, with the size that is drawn of those that the
// pattern comes in.
func titleOf(p *pattern.Proof, piece int) string {
	if len(p.Pattern.Sizes) > 1 {
		return nameOf(p, piece) + ", size " + clean(p.Size)
	}
	return nameOf(p, piece)
}

// nameOf is what a piece is called.
func nameOf(p *pattern.Proof, piece int) string {
	if n := p.Pieces[piece].Piece.Name; n != "" {
		return clean(n)
	}
	if p.Pattern.Title != "" {
		return clean(p.Pattern.Title)
	}
	return "The piece"
}
