package report

import "crochet/tallyturn/pattern"

// The fields below say what the rows come to and what follows from them. In a
// piece they hold for one copy of it; in_all counts every copy.

type workObject struct {
	Rows     int64 `json:"rows"`
	Stitches int64 `json:"stitches"`
	ByKind   kinds `json:"by_kind"`
	Unknown  int64 `json:"rows_unknown"` // rows whose stitches are not known
}

type impliedObject struct {
	Work     workObject    `json:"work"`
	Chains   *chainsObject `json:"chains,omitempty"`
	Placed   *placedObject `json:"placed,omitempty"`
	HostRows []hostObject  `json:"host_rows,omitempty"`
}

// chainsObject is the foundation chains a piece comes out on: the multiples
// of multiple, plus so many more, from least up; multiple is 0 where it comes
// out on the chains written only.
type chainsObject struct {
	Written  int64 `json:"written"`
	Multiple int64 `json:"multiple"`
	Plus     int64 `json:"plus"`
	Least    int64 `json:"least"`
}

// placedObject is a stretch of stitches of a row, from first to last, both
// counted from 1.
type placedObject struct {
	Piece  string `json:"piece"` // the other piece
	Row    int    `json:"row"`
	First  int64  `json:"first"`
	Last   int64  `json:"last"`
	Of     int64  `json:"of"`
	Before int64  `json:"before"`
	After  int64  `json:"after"`
}

type hostObject struct {
	Row         int            `json:"row"`
	Of          int64          `json:"of"`
	Pieces      []placedObject `json:"pieces"`
	Free        []int64        `json:"free"` // before the first, between, after the last
	Symmetrical bool           `json:"symmetrical"`
}

func newImplied(pi *pattern.PieceImplied) impliedObject {
	o := impliedObject{Work: workObject{pi.Rows, pi.Stitches, pi.ByKind, pi.Unknown}}
	if m := pi.Chain; m != nil {
		o.Chains = &chainsObject{m.Chains, m.Of, m.Plus, m.Least}
	}
	if s := pi.Sits; s != nil {
		p := newPlaced(*s, s.Host)
		o.Placed = &p
	}
	for _, h := range pi.Hosts {
		ho := hostObject{Row: h.Number, Of: h.Of, Free: h.Free, Symmetrical: h.Symmetrical}
		for _, p := range h.Pieces {
			ho.Pieces = append(ho.Pieces, newPlaced(p, p.By))
		}
		o.HostRows = append(o.HostRows, ho)
	}
	return o
}

func newPlaced(p pattern.Placing, other *pattern.PieceProof) placedObject {
	return placedObject{other.Piece.Name, p.Row, p.From, p.To, p.Of, p.Before(), p.After()}
}
