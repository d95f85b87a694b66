package pattern

import (
	"math"
	"strings"
)

// Implied is what a pattern says without saying it: what its proof comes to.
type Implied struct {
	Pieces   []*PieceImplied // as in Proof.Pieces
	Rows     int64           // rows of the whole project, every copy of each piece
	Stitches int64           // its stitches, turning chains that count among them
	ByKind   []KindCount     // by kind, in the order first made; chains and spaces are left out
	Unknown  int64           // rows whose stitches nobody knows: they are not in Stitches
}

// PieceImplied is what one piece comes to, one copy of it.
type PieceImplied struct {
	Piece    *PieceProof
	Rows     int64
	Stitches int64
	ByKind   []KindCount
	Unknown  int64
	Chain    *Multiple // nil where it begins otherwise, or nothing can be said
	Sits     *Placing  // where it is worked onto another piece; nil where it is not
	Hosts    []HostRow // its rows that other pieces are worked onto, in order
}

// Multiple is the foundation chains that a piece can be begun on.
type Multiple struct {
	Chains int64 // as written
	Of     int64 // it comes out on any multiple of this; 0 for the chains written and no other
	Plus   int64 // and so many chains more, fewer than Of
	Least  int64 // the shortest chain it comes out on
}

// Placing is a piece that is worked onto a row of another.
type Placing struct {
	By       *PieceProof // the piece that is worked on
	Host     *PieceProof // the piece that it is worked onto
	Row      int         // the number of the row
	From, To int64       // the stitches it takes, from 1; both are among them
	Of       int64       // stitches of the row
}

// Before and After are the stitches of the row to either side.
func (p Placing) Before() int64 { return p.From - 1 }

// After is the number of stitches beyond the piece.
func (p Placing) After() int64 { return p.Of - p.To }

// HostRow is a row with the pieces that are worked onto it.
type HostRow struct {
	Number      int
	Of          int64     // its stitches
	Pieces      []Placing // in the order they stand along the row
	Free        []int64   // stitches before the first, between them and after the last; negative where two overlap
	Symmetrical bool      // the set looks the same from the other end of the row
}

// Implied works out what the pattern says without saying it. It works pieces
// anew on other foundation chains and takes a good deal longer than reading a
// field does; the same proof always gives the same answer.
func (p *Proof) Implied() *Implied {
	im := &Implied{}
	budget := impliedRows
	var earlier []*pieceWork
	for _, pc := range p.Pieces {
		pi := &PieceImplied{Piece: pc}
		pi.count()
		if w := pc.work; w != nil {
			t := tester{proof: p, piece: pc, earlier: earlier, budget: &budget}
			pi.Chain = t.multiple()
			pi.Sits, pi.Hosts = placingOf(w.host), hostRows(w)
			earlier = append(earlier, w)
		}
		copies := int64(max(pc.Piece.Copies, 1))
		im.Rows = plus(im.Rows, copies, pi.Rows)
		im.Stitches = plus(im.Stitches, copies, pi.Stitches)
		im.Unknown = plus(im.Unknown, copies, pi.Unknown)
		for _, k := range pi.ByKind {
			im.ByKind = addKind(im.ByKind, k.Name, copies, k.N)
		}
		im.Pieces = append(im.Pieces, pi)
	}
	return im
}

// count adds up the rows of a piece.
func (pi *PieceImplied) count() {
	for _, r := range pi.Piece.Rows {
		n := int64(r.Count())
		pi.Rows += n
		made, known := r.Expect()
		if !known || made < 0 {
			pi.Unknown += n
			continue
		}
		pi.Stitches = plus(pi.Stitches, n, made)
		if r.Status == Trusted || r.Status == Unread {
			continue // counted by the author, not by kind
		}
		for _, k := range r.ByKind {
			if k.Name != "picot" && !strings.HasPrefix(k.Name, "ch-") {
				pi.ByKind = addKind(pi.ByKind, k.Name, n, k.N)
			}
		}
	}
}

func addKind(to []KindCount, name string, times, n int64) []KindCount {
	for i := range to {
		if to[i].Name == name {
			to[i].N = plus(to[i].N, times, n)
			return to
		}
	}
	return append(to, KindCount{name, plus(0, times, n)})
}

// plus adds n so many times over; no further than there are numbers.
func plus(sum, times, n int64) int64 {
	if times > 0 && n > (math.MaxInt64-sum)/times {
		return math.MaxInt64
	}
	return sum + times*n
}

func placingOf(u *hostUse) *Placing {
	if u == nil || u.piece == nil || u.to <= u.from || u.from < 0 {
		return nil
	}
	return &Placing{By: u.by.proof, Host: u.piece.proof, Row: u.number, From: u.from + 1, To: u.to, Of: u.of}
}

// hostRows gathers what is worked onto a piece, row by row.
func hostRows(w *pieceWork) []HostRow {
	var out []HostRow
	for _, u := range w.uses { // in the order of rows and places
		p := placingOf(u)
		if p == nil {
			continue
		}
		if k := len(out); k == 0 || out[k-1].Number != p.Row {
			out = append(out, HostRow{Number: p.Row, Of: p.Of})
		}
		h := &out[len(out)-1]
		h.Pieces = append(h.Pieces, *p)
	}
	for i := range out {
		h := &out[i]
		end := int64(0)
		for _, p := range h.Pieces {
			h.Free = append(h.Free, p.Before()-end)
			end = max(end, p.To)
		}
		h.Free = append(h.Free, h.Of-end)
		h.Symmetrical = h.symmetrical()
	}
	return out
}

func (h *HostRow) symmetrical() bool {
	n := len(h.Pieces)
	for i, p := range h.Pieces {
		q := h.Pieces[n-1-i]
		if p.Before() != q.After() || p.To-p.From != q.To-q.From {
			return false
		}
	}
	return true
}
