package counter

import (
	"math"
	"sort"

	"crochet/tallyturn/pattern"
)

// MaxCopies is the most copies of a piece that are planned; a pattern that
// asks for more is walked as if it asked for so many.
const MaxCopies = 1_000_000

// Plan is what there is to walk: every copy of every piece, row by row, in
// the order of the pattern. What it says does not change, and it may be shared.
type Plan struct {
	proof  *pattern.Proof
	pieces []planPiece
	slots  int // copies of pieces that have rows
	sum    extent

	carries carries
	others  otherPlans
}

// extent is a number of rows, of the stitches they are known to have, and of
// those rows of which nobody knows how many that is.
type extent struct{ rows, stitches, unknown int64 }

type planPiece struct {
	proof  *pattern.PieceProof
	copies int
	rows   int
	slot   int      // of the first copy
	before []extent // what comes before each of proof.Rows
	sum    extent   // of one copy
}

// Place is a spot in the plan: after the first Stitch stitches of a row.
// Piece, Copy and Row count from 0.
type Place struct {
	Piece, Copy, Row int
	Stitch           int64
}

// NewPlan lays out what a proof has to walk. A nil proof has nothing.
func NewPlan(p *pattern.Proof) *Plan {
	plan := &Plan{proof: p}
	if p == nil {
		return plan
	}
	for _, pp := range p.Pieces {
		pc := planPiece{proof: pp, rows: pp.Len(), slot: plan.slots}
		if pp.Piece != nil {
			pc.copies = pp.Piece.Copies
		}
		pc.copies = min(max(pc.copies, 1), MaxCopies)
		for _, r := range pp.Rows {
			pc.before = append(pc.before, pc.sum)
			n, known := expect(r)
			if !known {
				pc.sum.unknown += int64(r.Count())
			}
			pc.sum.rows += int64(r.Count())
			pc.sum.stitches = add(pc.sum.stitches, times(n, int64(r.Count())))
		}
		if pc.rows > 0 {
			plan.slots += pc.copies
		}
		plan.sum.rows = add(plan.sum.rows, times(pc.sum.rows, int64(pc.copies)))
		plan.sum.unknown = add(plan.sum.unknown, times(pc.sum.unknown, int64(pc.copies)))
		plan.sum.stitches = add(plan.sum.stitches, times(pc.sum.stitches, int64(pc.copies)))
		plan.pieces = append(plan.pieces, pc)
	}
	return plan
}

// Proof is the proof the plan was made from.
func (p *Plan) Proof() *pattern.Proof { return p.proof }

// Pieces is the number of pieces.
func (p *Plan) Pieces() int { return len(p.pieces) }

// Copies is the number of copies to make of a piece, 0 where there is no such
// piece.
func (p *Plan) Copies(piece int) int {
	if piece < 0 || piece >= len(p.pieces) {
		return 0
	}
	return p.pieces[piece].copies
}

// Rows is the number of rows of a piece, 0 where there is no such piece.
func (p *Plan) Rows(piece int) int {
	if piece < 0 || piece >= len(p.pieces) {
		return 0
	}
	return p.pieces[piece].rows
}

// Row is the proof of a row of a piece and the number the pattern gives the
// row; nil where there is no such row.
func (p *Plan) Row(piece, row int) (proof *pattern.RowProof, number int) {
	if piece < 0 || piece >= len(p.pieces) {
		return nil, 0
	}
	return p.pieces[piece].proof.At(row)
}

// has reports whether a place lies in the plan.
func (p *Plan) has(at Place) bool {
	return at.Copy >= 0 && at.Copy < p.Copies(at.Piece) && at.Row >= 0 && at.Row < p.Rows(at.Piece)
}

// slot numbers the copies of all pieces that have rows, in order.
func (p *Plan) slot(piece, copy int) int { return p.pieces[piece].slot + copy }

// inSlot is the piece and copy of a slot.
func (p *Plan) inSlot(slot int) (piece, copy int) {
	i := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].slot > slot }) - 1
	for p.pieces[i].rows == 0 {
		i--
	}
	return i, slot - p.pieces[i].slot
}

// upTo is how much of its copy of a piece lies before a place. Stitches past
// the number a row should have are not progress.
func (p *Plan) upTo(at Place) extent {
	pc := &p.pieces[at.Piece]
	if at.Row >= pc.rows {
		return pc.sum
	}
	i := sort.Search(len(pc.before), func(i int) bool { return pc.before[i].rows > int64(at.Row) }) - 1
	row := pc.proof.Rows[i]
	n, known := expect(row)
	more := int64(at.Row) - pc.before[i].rows
	e := extent{int64(at.Row), add(pc.before[i].stitches, add(times(n, more), min(at.Stitch, n))), pc.before[i].unknown}
	if !known {
		e.unknown += more
	}
	return e
}

// expect is what a row should have, between 0 and MaxStitches. Nobody knows of a
// row whose words are all talk to the reader: that it makes no stitch is no
// number to hold a maker to.
func expect(r *pattern.RowProof) (int64, bool) {
	if r == nil {
		return 0, false
	}
	n, ok := r.Expect()
	if !ok || n < 0 || n == 0 && onlyTalk(r) {
		return 0, false
	}
	return min(n, MaxStitches), true
}

// onlyTalk reports a row that states nothing and has no instruction that is
// understood.
func onlyTalk(r *pattern.RowProof) bool {
	if r.Stated != nil || r.Row == nil || len(r.Row.Steps) == 0 {
		return false
	}
	for _, s := range r.Row.Steps {
		if s.Op != pattern.OpNote {
			return false
		}
	}
	return true
}

// add and times stay at the greatest number instead of running over.
func add(a, b int64) int64 {
	if a > math.MaxInt64-b {
		return math.MaxInt64
	}
	return a + b
}

func times(a, b int64) int64 {
	if b > 0 && a > math.MaxInt64/b {
		return math.MaxInt64
	}
	return a * b
}
