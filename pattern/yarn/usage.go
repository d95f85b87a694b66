package yarn

import (
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Part is what a row takes of one yarn.
type Part struct {
	Colour   int     // index in Usage.Colours
	Stitches int64   // stitches that are counted
	Units    float64 // yarn in all, in single crochets
}

// Row is what one of the rows First to Last takes, counted from 0 among those
// walked; each of them the same.
type Row struct {
	First, Last int
	Parts       []Part
	Known       bool  // its stitches are known
	Tails       []int // colours that a yarn is begun or ended in, once for each end
	Long        []int // colours that end in a long tail, to sew with
}

// Piece is one copy of a piece.
type Piece struct {
	Proof *pattern.PieceProof
	Rows  []Row
}

// Usage is the yarn that a pattern takes, in single crochets.
type Usage struct {
	Colours []string // in the order taken up
	Pieces  []Piece  // as in the proof
	Unknown int64    // rows whose stitches nobody knows: they are not in it
}

// mostPlaces is the longest row whose stitches are followed one by one, to see
// where in it a colour changes.
const mostPlaces = 20_000

// Of finds what yarn a pattern takes. A nil proof takes none.
func Of(p *pattern.Proof) *Usage {
	u := &Usage{}
	if p == nil {
		u.Colours = []string{Plain}
		return u
	}
	c := counting{u: u, colours: newColours(p.Pattern), lex: stitch.LexiconFor(p.Terms), src: p.Pattern.Source}
	for i, pc := range p.Pieces {
		c.piece(pc, p.Links(i, mostPlaces))
	}
	if len(u.Colours) == 0 {
		u.Colours = []string{Plain}
	}
	return u
}

// counting goes through a pattern in the order it is worked.
type counting struct {
	u       *Usage
	colours colours
	lex     *stitch.Lexicon
	src     *pattern.Source
	now     int
}

// take takes up a yarn by its name.
func (c *counting) take(name string) {
	for i, n := range c.u.Colours {
		if strings.EqualFold(n, name) {
			c.now = i
			return
		}
	}
	c.now = len(c.u.Colours)
	c.u.Colours = append(c.u.Colours, name)
}

func (c *counting) piece(pc *pattern.PieceProof, links []pattern.RowLinks) {
	out := Piece{Proof: pc}
	begun, ended := false, false
	for _, l := range links {
		r := Row{First: l.First, Last: l.Last, Known: l.Known}
		if l.Row == nil {
			continue
		}
		for _, s := range l.Row.Row.Setup {
			if name := c.colours.in(s); name != "" && l.First == 0 {
				c.take(name)
			}
		}
		row := rowCount{counting: c, row: &r}
		switch {
		case l.Known:
			row.links(&l)
		default:
			row.kinds(l.Row)
		}
		if !begun {
			r.Tails = append(r.Tails, row.firstColour())
			begun = true
		}
		marks := l.Marks
		if !l.Known {
			marks = l.Row.Row.Steps
		}
		for _, s := range marks {
			if s.Op == pattern.OpFasten {
				row.end(s)
				ended = true
			}
		}
		out.Rows = append(out.Rows, r)
	}
	if n := len(out.Rows); n > 0 && !ended {
		out.Rows[n-1].Tails = append(out.Rows[n-1].Tails, c.now)
	}
	c.u.Pieces = append(c.u.Pieces, out)
}

// rowCount counts one row.
type rowCount struct {
	*counting
	row *Row
}

func (r *rowCount) add(units float64, stitches int64) {
	if len(r.u.Colours) == 0 {
		r.take(Plain)
	}
	for i := range r.row.Parts {
		if p := &r.row.Parts[i]; p.Colour == r.now {
			p.Units += units
			p.Stitches += stitches
			return
		}
	}
	r.row.Parts = append(r.row.Parts, Part{r.now, stitches, units})
}

func (r *rowCount) firstColour() int {
	if len(r.row.Parts) > 0 {
		return r.row.Parts[0].Colour
	}
	return r.now
}

// end ends the yarn with a tail, which is long where the words say so.
func (r *rowCount) end(s *pattern.Step) {
	if text := strings.ToLower(s.Text + " " + r.src.Slice(s.Span)); strings.Contains(text, "tail") && (strings.Contains(text, "long") || strings.Contains(text, "sew")) {
		r.row.Long = append(r.row.Long, r.now)
		return
	}
	r.row.Tails = append(r.row.Tails, r.now)
}

// change takes up the yarn that a step names. Within a piece the old one is
// ended and the new one begun.
func (r *rowCount) change(s *pattern.Step, within bool) {
	name := r.colours.in(s)
	if name == "" {
		return
	}
	before := r.now
	had := len(r.u.Colours) > 0
	r.take(name)
	if within && had && r.now != before {
		r.row.Tails = append(r.row.Tails, before, r.now)
	}
}

// links counts a row stitch by stitch.
func (r *rowCount) links(l *pattern.RowLinks) {
	if l.First > 0 {
		r.add(float64(l.Start)*chainUnit, 0)
	}
	made := false
	for i := range l.Made {
		m := &l.Made[i]
		for _, s := range m.Marks {
			r.change(s, made || l.First > 0)
			if s.Op == pattern.OpFasten {
				r.end(s)
			}
		}
		if i == 0 {
			r.add(float64(l.Chain)*chainUnit, 0)
		}
		switch m.Kind {
		case pattern.LinkSpace:
			r.add(float64(m.Chains)*chainUnit, 0)
		case pattern.LinkPicot:
			r.add(float64(m.Chains)*chainUnit+slipUnit, 0)
		default:
			made = true
			units, n := Unit(m.Stitch), int64(1)
			switch {
			case m.Turn:
				units = float64(m.Chains) * chainUnit
			case m.Step != nil && m.Step.Legs > 1:
				units *= legUnit * float64(m.Step.Legs)
			}
			if m.Stitch == stitch.Slip {
				n = 0
			}
			r.add(units, n)
		}
	}
	if l.Joined {
		r.add(slipUnit, 0)
	}
	for _, s := range l.Marks {
		r.change(s, true)
	}
}

// kinds counts a row by the kinds of stitch in it.
func (r *rowCount) kinds(row *pattern.RowProof) {
	n, known := row.Expect()
	if !known {
		r.u.Unknown += int64(r.row.Last - r.row.First + 1)
		return
	}
	r.row.Known = true
	if row.Status == pattern.Trusted || row.Status == pattern.Unread || len(row.ByKind) == 0 {
		r.add(float64(n), n)
		return
	}
	for _, k := range row.ByKind {
		id, _ := r.lex.Find(k.Name)
		switch {
		case strings.HasPrefix(k.Name, "ch-"):
			r.add(float64(k.N)*3*chainUnit, 0)
		case id == stitch.Slip:
			r.add(float64(k.N)*slipUnit, 0)
		case id == stitch.None:
			r.add(float64(k.N)*Unit(stitch.DC), k.N)
		default:
			r.add(float64(k.N)*Unit(id), k.N)
		}
	}
}

// Sum is what all of it takes, every copy of each piece, by colour: stitches
// and units, tails and long tails.
type Sum struct {
	Stitches    int64
	Units       float64
	Tails, Long int64
}

// Sums adds the whole pattern up.
func (u *Usage) Sums() []Sum {
	out := make([]Sum, len(u.Colours))
	for _, p := range u.Pieces {
		p.upTo(out, p.Proof.Len(), 0, max(p.Proof.Piece.Copies, 1))
	}
	return out
}

// Upto adds up what is worked when copies before copy of piece, and of it the
// rows before row, are done, and of that row the share given, 0 to 1.
func (u *Usage) Upto(piece, copy, row int, share float64) []Sum {
	out := make([]Sum, len(u.Colours))
	for i, p := range u.Pieces {
		if i > piece {
			break
		}
		copies := max(p.Proof.Piece.Copies, 1)
		if i == piece {
			copies = copy
		}
		p.upTo(out, p.Proof.Len(), 0, copies)
		if i == piece {
			p.upTo(out, row, share, 1)
		}
	}
	return out
}

// AddCopy adds to sums what is worked of one copy of a piece when the rows
// before row are done, and of that row the share given, 0 to 1. It adds nothing
// where there is no such piece.
func (u *Usage) AddCopy(sums []Sum, piece, row int, share float64) {
	if piece >= 0 && piece < len(u.Pieces) {
		u.Pieces[piece].upTo(sums, row, share, 1)
	}
}

// ColourAt is the colour, as an index in Colours, of the stitch after the first
// so many of a row; past the end of the row that of its last stitch, and past
// the last row of the piece that of the last.
func (u *Usage) ColourAt(piece, row int, stitch int64) int {
	colour := 0
	for i, p := range u.Pieces {
		if i > piece {
			break
		}
		for _, r := range p.Rows {
			here := i == piece && r.First <= row && row <= r.Last
			for _, part := range r.Parts {
				colour = part.Colour
				if here && stitch < part.Stitches {
					return colour
				}
				if here {
					stitch -= part.Stitches
				}
			}
			if here {
				return colour
			}
		}
	}
	return colour
}

// upTo adds the rows before row of so many copies, and a share of it.
func (p *Piece) upTo(out []Sum, row int, share float64, copies int) {
	for _, r := range p.Rows {
		rows := float64(min(r.Last+1, row) - r.First)
		part := 0.0
		if r.First <= row && row <= r.Last {
			part = share
		}
		if rows < 0 || rows+part == 0 {
			continue
		}
		for _, x := range r.Parts {
			out[x.Colour].Units += x.Units * (rows + part) * float64(copies)
			out[x.Colour].Stitches += int64(float64(x.Stitches)*(rows+part)) * int64(copies)
		}
		if rows+part < float64(r.Last-r.First+1) {
			continue // its ends are counted when all of it is done
		}
		for _, c := range r.Tails {
			out[c].Tails += int64(copies)
		}
		for _, c := range r.Long {
			out[c].Long += int64(copies)
		}
	}
}
