package counter

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
)

// ChangeKind says what became of a row in another text of the pattern.
type ChangeKind uint8

// What can become of a row.
const (
	RowChanged ChangeKind = iota
	RowAdded
	RowGone
)

// RowChange is neighbouring rows that another text of the pattern changes.
// Rows count from 0: those of the text so far, but for an added row.
type RowChange struct {
	Kind        ChangeKind
	Piece       string
	First, Last int
	Made        bool   // some of them are made already
	Was, Now    int64  // stitches; -1 where nobody knows or there are none
	Words       string // of the first of them as they are now; of a row gone, as they were
}

// Changes is what is different in another text.
type Changes struct {
	Rows []RowChange
	Made bool // rows already made are among them
}

// Compare tells how another text of the pattern changes the rows. It gives
// ErrNoText where that has no rows.
func (s State) Compare(text string) (Changes, error) {
	if s.plan == nil {
		s = Begin(nil)
	}
	other := s.plan.other(text)
	if other == nil {
		return Changes{}, ErrNoText
	}
	m := match(s.plan, other)
	var c Changes
	for i := range s.plan.pieces {
		c.Rows = append(c.Rows, s.changes(m, other, i)...)
	}
	for j := range other.pieces {
		if m.from[j] >= 0 {
			continue
		}
		if n := other.pieces[j].rows; n > 0 {
			c.Rows = append(c.Rows, RowChange{Kind: RowAdded, Piece: other.pieceName(j), Last: n - 1, Was: -1,
				Now: other.expected(j, 0), Words: other.words(j, 0)})
		}
	}
	for _, r := range c.Rows {
		c.Made = c.Made || r.Made
	}
	return c, nil
}

// changes are the changes of one piece.
func (s *State) changes(m *matching, other *Plan, piece int) (out []RowChange) {
	old, to := s.plan, m.to[piece]
	name := old.pieceName(piece)
	add := func(c RowChange) {
		if n := len(out); n > 0 && out[n-1].Kind == c.Kind && out[n-1].Last == c.First-1 && out[n-1].Made == c.Made &&
			out[n-1].Was == c.Was && out[n-1].Now == c.Now && out[n-1].Words == c.Words {
			out[n-1].Last = c.Last
			return
		}
		out = append(out, c)
	}
	next := 0 // row of the other piece
	made := s.farthest(piece)
	for row := range old.pieces[piece].rows {
		now := m.row(piece, row)
		if to >= 0 && now >= 0 {
			for ; next < now; next++ {
				add(RowChange{RowAdded, name, next, next, row < made, -1, other.expected(to, next), other.words(to, next)})
			}
			next = now + 1
			if !m.same(piece, row) {
				add(RowChange{RowChanged, name, row, row, row < made, old.expected(piece, row), other.expected(to, now), other.words(to, now)})
			}
			continue
		}
		add(RowChange{RowGone, name, row, row, row < made, old.expected(piece, row), -1, old.words(piece, row)})
	}
	for ; to >= 0 && next < other.pieces[to].rows; next++ {
		add(RowChange{RowAdded, name, next, next, false, -1, other.expected(to, next), other.words(to, next)})
	}
	return out
}

// farthest is how many rows of a piece are made or begun in the copy that is
// furthest on.
func (s *State) farthest(piece int) int {
	pc := &s.plan.pieces[piece]
	if pc.rows == 0 {
		return 0
	}
	most := 0
	see := func(at Place) {
		n := at.Row
		if at.Stitch > 0 {
			n++
		}
		most = max(most, n)
	}
	if s.at.Piece == piece {
		see(s.at)
	}
	it := s.places.Iterator()
	for it.Seek(pc.slot); !it.Done(); {
		slot, at, _ := it.Next()
		if slot >= pc.slot+pc.copies {
			break
		}
		if slot != s.rowKey().slot {
			see(at)
		}
	}
	return most
}

// matching tells which rows of two plans are the same.
type matching struct {
	to, from []int // pieces of the other plan, and of this one; -1 for none
	rows     []rowMatch
}

// rowMatch is the rows of a piece: the first so many are the same, the last so
// many are the same, and those between are given one by one.
type rowMatch struct {
	rows, others int
	head, tail   int
	middle       []int  // row of the other for each, -1 for none
	equal        []bool // whether it is the same there
}

// row is where a row is in the other plan, -1 where it is gone.
func (m *matching) row(piece, row int) int {
	if m.to[piece] < 0 {
		return -1
	}
	r := &m.rows[piece]
	switch {
	case row < r.head:
		return row
	case row >= r.rows-r.tail:
		return row - r.rows + r.others
	case row-r.head < len(r.middle):
		return r.middle[row-r.head]
	}
	return -1
}

func (m *matching) same(piece, row int) bool {
	r := &m.rows[piece]
	return row < r.head || row >= r.rows-r.tail || row-r.head < len(r.equal) && r.equal[row-r.head]
}

// match finds the pieces of two plans that belong together, by their names or
// else by their places, and in them the rows.
func match(a, b *Plan) *matching {
	m := &matching{to: make([]int, len(a.pieces)), from: make([]int, len(b.pieces)), rows: make([]rowMatch, len(a.pieces))}
	for j := range m.from {
		m.from[j] = -1
	}
	for i := range m.to {
		m.to[i] = -1
	}
	take := func(by func(i, j int) bool) {
		for i := range m.to {
			for j := range m.from {
				if m.to[i] < 0 && m.from[j] < 0 && by(i, j) {
					m.to[i], m.from[j] = j, i
				}
			}
		}
	}
	take(func(i, j int) bool { return strings.EqualFold(a.pieceName(i), b.pieceName(j)) })
	take(func(i, j int) bool { return i == j })
	for i, j := range m.to {
		if j >= 0 {
			m.rows[i] = matchRows(a, i, b, j)
		}
	}
	return m
}

// mostMatched bounds the work of finding what is common to the middles.
const mostMatched = 4_000_000

func matchRows(a *Plan, i int, b *Plan, j int) rowMatch {
	r := rowMatch{rows: a.pieces[i].rows, others: b.pieces[j].rows}
	signA, signB := a.signs(i), b.signs(j)
	equal := func(x, y int) bool { return signA(x) == signB(y) }
	short := min(r.rows, r.others)
	for r.head < short && equal(r.head, r.head) {
		r.head++
	}
	for r.tail < short-r.head && equal(r.rows-1-r.tail, r.others-1-r.tail) {
		r.tail++
	}
	n, k := r.rows-r.head-r.tail, r.others-r.head-r.tail
	r.middle, r.equal = make([]int, n), make([]bool, n)
	common := make([]int, n) // row of the other that is the same, -1
	for x := range common {
		common[x] = -1
	}
	if int64(n)*int64(k) <= mostMatched {
		longestCommon(n, k, func(x, y int) bool { return equal(r.head+x, r.head+y) }, common)
	}
	// Between rows that are the same, rows are the old ones changed, in order.
	x, y := 0, 0
	for x < n || y < k {
		nextX := x
		for nextX < n && common[nextX] < 0 {
			nextX++
		}
		nextY := k
		if nextX < n {
			nextY = common[nextX]
		}
		for ; x < nextX; x++ {
			r.middle[x] = -1
			if y < nextY {
				r.middle[x] = r.head + y
				y++
			}
		}
		y = nextY
		if x < n {
			r.middle[x], r.equal[x] = r.head+y, true
			x++
			y++
		}
	}
	return r
}

// longestCommon finds the longest run of pairs in order that are equal.
func longestCommon(n, k int, equal func(x, y int) bool, common []int) {
	best := make([][]int32, n+1)
	for x := range best {
		best[x] = make([]int32, k+1)
	}
	for x := n - 1; x >= 0; x-- {
		for y := k - 1; y >= 0; y-- {
			if equal(x, y) {
				best[x][y] = best[x+1][y+1] + 1
			} else {
				best[x][y] = max(best[x+1][y], best[x][y+1])
			}
		}
	}
	for x, y := 0, 0; x < n && y < k; {
		switch {
		case equal(x, y):
			common[x] = y
			x++
			y++
		case best[x+1][y] >= best[x][y+1]:
			x++
		default:
			y++
		}
	}
}

// sign is what a row is known by: its words, whatever its label, and its
// number.
type sign struct {
	words string
	n     int64
}

// signs gives the sign of each row of a piece.
func (p *Plan) signs(piece int) func(row int) sign {
	known := map[*pattern.RowProof]sign{}
	return func(row int) sign {
		r, _ := p.Row(piece, row)
		s, ok := known[r]
		if !ok {
			s = sign{words: strings.ToLower(p.wordsOf(r)), n: -1}
			if n, ok := expect(r); ok {
				s.n = n
			}
			known[r] = s
		}
		return s
	}
}

// wordsOf is the words of a row on one line, without its label.
func (p *Plan) wordsOf(r *pattern.RowProof) string {
	if r == nil || r.Row == nil || p.proof.Pattern == nil || p.proof.Pattern.Source == nil {
		return ""
	}
	var b strings.Builder
	for _, w := range p.proof.Words(r) {
		b.WriteString(w.Text)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

func (p *Plan) words(piece, row int) string {
	r, _ := p.Row(piece, row)
	return p.wordsOf(r)
}

func (p *Plan) expected(piece, row int) int64 {
	r, _ := p.Row(piece, row)
	if n, ok := expect(r); ok {
		return n
	}
	return -1
}

func (p *Plan) pieceName(piece int) string {
	if pp := p.pieces[piece].proof; pp.Piece != nil {
		return pp.Piece.Name
	}
	return ""
}

// Text is the pattern's text, "" where the plan was not made from one.
func (p *Plan) Text() string {
	if p.proof == nil || p.proof.Pattern == nil || p.proof.Pattern.Source == nil {
		return ""
	}
	return p.proof.Pattern.Source.Text
}

// other is the plan of another text in the same size, nil where it has no
// rows. The last few are remembered.
func (p *Plan) other(text string) *Plan {
	p.others.Lock()
	defer p.others.Unlock()
	for _, o := range p.others.known {
		if o.Text() == text {
			return o
		}
	}
	size := ""
	if p.proof != nil {
		size = p.proof.Size
	}
	o := NewPlan(pattern.Read(text).Prove(pattern.Options{Size: size}))
	if o.slots == 0 {
		return nil
	}
	const most = 4
	if len(p.others.known) >= most {
		p.others.known = slices.Delete(p.others.known, 0, 1)
	}
	p.others.known = append(p.others.known, o)
	return o
}
