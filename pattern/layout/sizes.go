package layout

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
)

// Name is what a piece is called; one without a name is "piece".
func (p *Piece) Name() string {
	if n := p.Proof.Piece.Name; n != "" {
		return n
	}
	return "piece"
}

// Size is how large a piece comes out, in words: "11.1 cm wide, 1.4 cm high".
// Without a gauge it is "".
func (l *Layout) Size(p *Piece) string {
	tell := l.Gauge.Unit.Tell
	switch {
	case p.Form == Unsized:
		return "nobody knows how many stitches it has"
	case l.Nominal:
		return ""
	}
	slack := ""
	if s := tell(p.Slack); p.Slack > 0 && !strings.HasPrefix(s, "0 ") {
		slack = " (±" + s + ")"
	}
	switch {
	case p.Form == Disc && tell(p.Width) == tell(p.Height):
		return tell(p.Width) + slack + " across"
	case p.Form == Ball:
		return tell(p.Width) + slack + " across where it is widest"
	}
	return tell(p.Width) + slack + " wide, " + tell(p.Height) + " high"
}

// Legend tells of each piece its letter, its name, how large it comes out, how
// it lies and where it sits, and then what there is to know of the whole.
func (l *Layout) Legend() []string {
	var out []string
	for i, p := range l.Pieces {
		line := Letter(i) + "  " + p.Name()
		if n := p.Proof.Piece.Copies; n > 1 {
			line += fmt.Sprintf(" (make %d)", n)
		}
		var about []string
		for _, s := range []string{l.Size(p), p.Note, l.sits(p)} {
			if s != "" {
				about = append(about, s)
			}
		}
		if p.Unsure && p.Form != Unsized {
			about = append(about, "some rows of it have no known number of stitches")
		}
		if len(about) > 0 {
			line += ": " + strings.Join(about, "; ")
		}
		out = append(out, line)
	}
	out = append(out, l.Overlaps()...)
	switch {
	case l.Nominal:
		out = append(out, "No gauge is known, so only the proportions mean anything: stitches are drawn as wide as a row of single crochet is high.")
	case l.Squared:
		out = append(out, "The gauge gives only one of stitches and rows: the other follows from the usual height of the stitch.")
	}
	return out
}

// sits says where a piece sits.
func (l *Layout) sits(p *Piece) string {
	s := p.Seat
	if s == nil {
		return ""
	}
	which := fmt.Sprintf("stitches %d-%d of %d", s.From, s.To, s.Of)
	if s.From == s.To {
		which = fmt.Sprintf("stitch %d of %d", s.From, s.Of)
	}
	return "on " + which + " of " + l.rowOf(s)
}

// rowOf is the row of a host that a piece sits on: "Row 3 of A".
func (l *Layout) rowOf(s *Seat) string {
	row := "Row"
	if s.Row != nil && s.Row.Kind == pattern.Round {
		row = "Rnd"
	}
	return fmt.Sprintf("%s %d of %s", row, s.Number, Letter(s.Host))
}

// Overlaps says which pieces take the same stitches of a row.
func (l *Layout) Overlaps() []string {
	var out []string
	for i, p := range l.Pieces {
		for j := range l.Pieces[:i] {
			q := l.Pieces[j]
			a, b := p.Seat, q.Seat
			if a == nil || b == nil || a.Host != b.Host || a.Row != b.Row || a.Number != b.Number {
				continue
			}
			from, to := max(a.From, b.From), min(a.To, b.To)
			switch {
			case from < to:
				out = append(out, fmt.Sprintf("%s and %s share stitches %d-%d of %s.", Letter(j), Letter(i), from, to, l.rowOf(a)))
			case from == to:
				out = append(out, fmt.Sprintf("%s and %s share stitch %d of %s.", Letter(j), Letter(i), from, l.rowOf(a)))
			}
		}
	}
	return out
}
