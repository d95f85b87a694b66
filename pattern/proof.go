package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Status is how a row's proof came out.
type Status uint8

const (
	Agrees   Status = iota // worked out, and equal to the stated total
	Differs                // worked out, and not equal
	Unstated               // worked out; the pattern states no total
	Trusted                // read, but only the author knows the number: her total is taken
	Unread                 // not understood, or the piece is read amiss: the stated total is taken
)

var statusNames = [...]string{"agrees", "differs", "unstated", "trusted", "unread"}

func (s Status) String() string { return statusNames[s] }

// Options chooses how a pattern is proven.
type Options struct {
	// Size names the size to prove, as the pattern spells it (case does not
	// matter); empty is the first.
	Size string
	// Terms overrules what the pattern says or shows; Unknown leaves it be.
	Terms stitch.Terms
	// Others adds the errors that only the sizes have that are not proven.
	Others bool
}

// Proof is a pattern worked stitch by stitch.
type Proof struct {
	Pattern  *Pattern
	Terms    stitch.Terms
	Size     string
	Pieces   []*PieceProof
	Findings []Finding // in the order of the source

	size int // the size, counted from 0
}

// PieceProof is the proof of one piece.
type PieceProof struct {
	Piece *Piece
	Rows  []*RowProof // in the order worked; neighbours with equal figures folded into one

	work *pieceWork // how it was worked, to work it again
}

// Len is the number of rows the maker walks in the piece.
func (p *PieceProof) Len() int {
	if len(p.Rows) == 0 {
		return 0
	}
	last := p.Rows[len(p.Rows)-1]
	return last.Index + last.Count()
}

// At finds the i-th row walked, from 0, and the number the pattern gives it.
// It is nil when there is no such row.
func (p *PieceProof) At(i int) (row *RowProof, number int) {
	lo, hi := 0, len(p.Rows)
	for lo < hi {
		mid := (lo + hi) / 2
		if r := p.Rows[mid]; i >= r.Index+r.Count() {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if i < 0 || lo >= len(p.Rows) {
		return nil, 0
	}
	return p.Rows[lo], p.Rows[lo].First + i - p.Rows[lo].Index
}

// RowProof is the proof of one row, or of several neighbours alike.
type RowProof struct {
	Row         *Row   // the words that are worked: its own, or those of the row it repeats
	Label       string // as the pattern has it, "Rows 2-14"
	Kind        RowKind
	Side        Side
	First, Last int // the numbers of the rows this stands for
	Index       int // place of the first of them among the rows of the piece, from 0
	Line        int // source line of the label

	// Lead is what the row before left to this one: "ch 3, turn".
	Lead []*Step

	Available int64 // stitches the row below offers
	Taken     int64 // places of it that are worked into
	Skipped   int64 // passed over in so many words
	Left      int64 // not reached
	Made      int64 // stitches made; -1 where not known
	ByKind    []KindCount
	Stated    *Total // nil where the pattern states none
	Status    Status

	// Trace is which instruction makes which stitch; nil where the row was
	// not worked out.
	Trace *Trace

	reading options // how its words were read
	on      ground  // what it was worked on
}

// Count is how many rows this proof stands for.
func (r *RowProof) Count() int { return r.Last - r.First + 1 }

// Expect is the number of stitches the maker should have at the end of the
// row: the count worked out or, where there is none, the stated one. It is
// false where neither is known.
func (r *RowProof) Expect() (int64, bool) {
	if r.Status == Trusted || r.Status == Unread {
		if r.Stated != nil && r.Stated.N > 0 {
			return r.Stated.N, true
		}
	}
	return r.Made, r.Made >= 0
}

// KindCount is a number of stitches of a kind, named in the pattern's terms.
type KindCount struct {
	Name string
	N    int64
}

// Summary counts rows by how their proof came out.
type Summary struct {
	Rows, Agrees, Differs, Unstated, Trusted, Unread int
}

// InSize names the size that was proven, with the word before it: "size M"; ""
// where there is only one.
func (p *Proof) InSize() string {
	if len(p.Pattern.Sizes) < 2 {
		return ""
	}
	return namedSize(p.Size)
}

// namedSize is the name of a size with the word before it, once.
func namedSize(name string) string {
	if strings.HasPrefix(strings.ToLower(name), "size") {
		return name
	}
	return "size " + name
}

// Summary counts the rows of all pieces, each copy of a piece once.
func (p *Proof) Summary() Summary {
	var s Summary
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			n := r.Count()
			s.Rows += n
			switch r.Status {
			case Agrees:
				s.Agrees += n
			case Differs:
				s.Differs += n
			case Unstated:
				s.Unstated += n
			case Trusted:
				s.Trusted += n
			case Unread:
				s.Unread += n
			}
		}
	}
	return s
}

// Errors is the number of error findings.
func (p *Proof) Errors() int {
	n := 0
	for _, f := range p.Findings {
		if f.Severity == Error {
			n++
		}
	}
	return n
}

// PlainFirst reports whether the number before an increase or a decrease was
// read as so many plain stitches before it, "(6 dec) 3 times", since only so
// the row comes out.
func (r *RowProof) PlainFirst(s *Step) bool { return s.plainFirst() && r.reading.has(optPlainFirst) }
