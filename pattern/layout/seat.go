package layout

import (
	"math"

	"crochet/tallyturn/pattern"
)

// Seat is where a piece sits on a row of another.
type Seat struct {
	Host     int // index of the piece
	Row      *pattern.RowProof
	Number   int   // of the row
	From, To int64 // the stitches it takes, from 1, as the row was made
	Of       int64 // stitches of the row
	A, B     Point // the ends of the line that they share, where they are in the host
}

// seat finds where a piece sits and joins it there, if its host is drawn so
// that the place can be shown.
func (l *Layout) seat(i int, links [][]pattern.RowLinks) {
	p := l.Pieces[i]
	if len(links[i]) == 0 || len(p.Outline) == 0 {
		return
	}
	first := &links[i][0]
	if !first.Known || first.Host < 0 || first.Host >= i {
		return
	}
	host, on := l.Pieces[first.Host], linksOf(links[first.Host], first.HostRow)
	if on == nil {
		return
	}
	least, most := -1, -1
	for _, k := range first.Made {
		for _, b := range k.Bases {
			if b.Kind != pattern.BaseHost || b.At < 0 || b.At >= len(on.Made) {
				continue
			}
			if least < 0 || b.At < least {
				least = b.At
			}
			most = max(most, b.At)
		}
	}
	if least < 0 {
		return
	}
	row, number := host.Proof.At(first.HostRow)
	s := &Seat{Host: first.Host, Row: row, Number: number}
	for k, m := range on.Made {
		if m.Kind != pattern.LinkStitch {
			continue
		}
		s.Of++
		if k <= least {
			s.From = s.Of
		}
		if k <= most {
			s.To = s.Of
		}
	}
	at, whole := places(on.Made)
	if whole == 0 {
		return
	}
	half := 0.5
	if least == most && on.Made[least].Kind == pattern.LinkSpace {
		half = float64(on.Made[least].Chains) / 2
	}
	p.Seat = s
	if !host.join(p, s, first.HostRow, (at[least]-half)/whole, (at[most]+half)/whole) {
		p.Seat = nil
	}
}

// join places a piece on the stretch of a host's row from one share of its
// length to another. It is false where the host is not drawn so that it can be.
func (host *Piece) join(p *Piece, s *Seat, row int, from, to float64) bool {
	var b *Band
	for i := range host.Bands {
		if r := host.Bands[i].Row; r.Index <= row && row < r.Index+r.Count() {
			b = &host.Bands[i]
		}
	}
	if b == nil {
		return false
	}
	rows := float64(b.Row.Count())
	top := b.From + (b.To-b.From)*(float64(row-b.Row.Index)+1)/rows
	switch host.Form {
	case Rows, Tube:
		dir, start := b.dir, b.starts
		if back := row - b.Row.Index; host.Form == Rows && back%2 == 1 {
			// one of several rows alike, which run to and fro
			start, dir = start+dir*(b.Right-b.Left), -dir
		}
		width := b.Right - b.Left
		s.A, s.B = Point{start + dir*from*width, top}, Point{start + dir*to*width, top}
		p.At = Point{(s.A.X + s.B.X) / 2, top}
	case Disc:
		// rounds begin at the top and run anticlockwise
		angle := func(share float64) float64 { return math.Pi/2 + 2*math.Pi*share }
		spot := func(a float64) Point {
			sin, cos := math.Sincos(a)
			return Point{top * cos, top * sin}
		}
		s.A, s.B = spot(angle(from)), spot(angle(to))
		p.At = Point{(s.A.X + s.B.X) / 2, (s.A.Y + s.B.Y) / 2}
		p.Turn = angle((from+to)/2) - math.Pi/2
	default:
		return false
	}
	return true
}
