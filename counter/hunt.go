package counter

import (
	"fmt"
	"math/bits"
)

// Hunt is the guided search for a slip. It asks for counts between two
// landmarks and halves, with each answer, the stretch that holds the slip,
// until one group is left. It is a value; an answer gives another one.
//
// It holds on to one thing: between two landmarks there is a known difference
// other than none. Whatever the answers, one half of the stretch inherits it,
// so however many slips there are the hunt ends at one.
type Hunt struct {
	plan        *Plan
	state       *State // as it was when the hunt began
	piece, copy int

	// While more than one row may hold it: row good came out right (-1 for
	// none before), row bad did not.
	good, bad int

	row     int
	number  int
	line    *outline
	end     int64    // how far the row is worked
	markers []Marker // in it
	checks  *given

	lo, hi int64 // the stretch, in stitches of the row
	dev    int64 // what it has more than it should
	known  bool  // whether dev is
	left   int   // questions it may still take
	asked  int   // questions answered
}

// Question is what a Hunt asks: the stitches between two landmarks of a row.
type Question struct {
	Row      int // from 0
	Number   int // the number the pattern gives the row
	From, To Landmark
	Expect   int64 // by the pattern
}

// Slip is what a Hunt ends at: the one group between From and To of a row that
// differs by Dev from what it should have.
type Slip struct {
	Piece, Copy, Row int   // from 0
	Number           int   // the number the pattern gives the row
	From, To         int64 // stitches of the row before it and up to its end
	Dev              int64 // stitches over or, negative, short
	Where            string
	Reasons          []Reason
	Mend             string
}

// seek begins the hunt that an event asks for.
func (s *State) seek(e Event) (Hunt, error) {
	at := Place{Piece: e.Piece, Copy: e.Copy, Row: e.Row}
	if !s.plan.has(at) {
		return Hunt{}, ErrNoSuchRow
	}
	if e.N != NotCounted {
		if err := checkCount(e.N); err != nil {
			return Hunt{}, err
		}
	}
	slot := s.plan.slot(e.Piece, e.Copy)
	h := Hunt{plan: s.plan, piece: e.Piece, copy: e.Copy, good: -1, bad: e.Row}
	state := *s
	state.hunt = nil
	h.state = &state
	want := h.expect(e.Row)
	if want < 0 {
		return Hunt{}, ErrNoCount
	}
	inHand := s.at.Piece == e.Piece && s.at.Copy == e.Copy && s.at.Row == e.Row
	end, count := want, e.N
	if inHand {
		end = min(s.at.Stitch, want)
		if at, n, ok := s.Checked(); ok && count == NotCounted && at == s.at.Stitch {
			count = n
		}
	} else if k, _ := s.rows.Get(rowKey{slot, e.Row}); count == NotCounted && k.finished {
		count = k.counted
	}
	if end == 0 {
		return Hunt{}, ErrNoStitches
	}
	if end == want {
		h.good = s.counted(slot, e.Row)
	} else {
		h.good = e.Row - 1 // a row in the middle is not the rows below
	}
	h.enter(e.Row, end)
	if inHand {
		h.checks = s.checks
	}
	if count != NotCounted {
		h.learn(count)
	}
	return h, nil
}

// counted is the last row before one that the maker counted and that agreed,
// or that she carried on from: what follows is held against her count there.
func (s *State) counted(slot, before int) int {
	it := s.rows.Iterator()
	if it.Seek(rowKey{slot, before}); it.Done() {
		it.Last()
	}
	for !it.Done() {
		key, k, ok := it.Prev()
		if !ok || key.slot < slot {
			break
		}
		if key.slot > slot || key.row >= before {
			continue
		}
		if n, known := expect(s.rowProof(key)); known && k.finished && (k.counted == n || s.accepted(key)) {
			return key.row
		}
	}
	return -1
}

// expect is what a row should have, -1 where nobody knows.
func (h *Hunt) expect(row int) int64 {
	if n, ok := expect(h.state.rowProof(rowKey{h.plan.slot(h.piece, h.copy), row})); ok {
		return n
	}
	return -1
}

// enter makes a row the one that is looked into.
func (h *Hunt) enter(row int, end int64) {
	key := rowKey{h.plan.slot(h.piece, h.copy), row}
	h.row, h.end = row, end
	_, h.number = h.plan.Row(h.piece, row)
	h.line = newOutline(h.state.rowProof(key))
	if h.line.groups == 0 || h.line.stitches < end {
		h.line.groups, h.line.stitches = 1, end // not worked out: one group
		h.line.root = node{times: 1, groups: 1, stitches: end, per: end}
	}
	h.markers = h.state.MarkersIn(h.piece, h.copy, row)
	h.checks = nil
	h.lo, h.hi, h.known = 0, end, false
}

// learn takes the count of the whole row as far as it is worked.
func (h *Hunt) learn(count int64) {
	h.known, h.dev = true, count-h.end
	for g := h.checks; g != nil; g = g.below {
		if d := g.counted - g.at; d != 0 && g.at > 0 && g.at < h.hi {
			h.hi, h.dev = g.at, d
		}
	}
	for g := h.checks; g != nil; g = g.below {
		if g.counted == g.at && g.at > h.lo && g.at < h.hi {
			h.lo = g.at
		}
	}
	h.left = ceilLog2(h.line.within(h.lo, h.hi)) + 1 - min(h.asked, 1)
}

func ceilLog2(n int64) int {
	if n <= 1 {
		return 0
	}
	return bits.Len64(uint64(n - 1))
}

// Groups is how many groups may hold the slip.
func (h Hunt) Groups() int64 { return h.line.within(h.lo, h.hi) }

// Asked is how many questions were answered.
func (h Hunt) Asked() int { return h.asked }

// Agrees reports that the count is what it should be: there is no slip.
func (h Hunt) Agrees() bool { return h.known && h.dev == 0 }

// over reports whether there is nothing left to ask.
func (h *Hunt) over() bool {
	if h.Agrees() {
		return true
	}
	return h.known && h.midRow() < 0 && h.Groups() <= 1
}

// midRow is the row to ask for, halfway between good and bad; -1 where the
// row is settled.
func (h *Hunt) midRow() int {
	mid := h.good + (h.bad-h.good)/2
	for d := 0; d < h.bad-h.good; d++ {
		for _, row := range [2]int{mid - d, mid + d} {
			if row > h.good && row < h.bad && h.expect(row) > 0 {
				return row
			}
		}
		if d > 1000 {
			break // rows without number as far as the eye reaches
		}
	}
	return -1
}

// Question is what to ask next; false where the hunt is over.
func (h Hunt) Question() (Question, bool) {
	if h.over() {
		return Question{}, false
	}
	if !h.known {
		return h.ask(0, h.end), true
	}
	if row := h.midRow(); row >= 0 {
		_, number := h.plan.Row(h.piece, row)
		noun := h.line.row.Kind.String()
		return Question{Row: row, Number: number, Expect: h.expect(row),
			From: Landmark{Words: "the beginning of the " + noun},
			To:   Landmark{Words: "the end of the " + noun, Stitch: h.expect(row)}}, true
	}
	m := h.choose()
	if h.hi-m < m-h.lo {
		return h.ask(m, h.hi), true
	}
	return h.ask(h.lo, m), true
}

func (h *Hunt) ask(from, to int64) Question {
	return Question{Row: h.row, Number: h.number, From: h.landmark(from), To: h.landmark(to), Expect: to - from}
}

// choose is the landmark to cut the stretch at: near the middle, and plain to
// see. What it leaves is never more than the questions left can halve to one.
func (h *Hunt) choose() int64 {
	first, last := h.line.group(h.lo), h.line.group(h.hi-1)
	middle := h.line.bound(first + (last-first+1)/2)
	most := int64(1) << min(max(h.left-1, 0), 62)
	best, score := middle, int64(-1)
	try := func(m int64) {
		if m <= h.lo || m >= h.hi {
			return
		}
		worse := max(h.line.within(h.lo, m), h.line.within(m, h.hi))
		if worse > most || worse > last-first {
			return // too much left, or nothing gained
		}
		if n := times(worse, ease[h.landmark(m).Kind]); score < 0 || n < score || n == score && m < best {
			best, score = m, n
		}
	}
	try(middle)
	for _, m := range h.line.edges(middle) {
		try(m)
	}
	for _, m := range h.markers {
		try(m.Stitch)
	}
	return best
}

// answer takes the count that the Question asked for.
func (h *Hunt) answer(n int64) Hunt {
	next := *h
	q, _ := h.Question()
	next.asked++
	switch {
	case !h.known:
		next.learn(n)
	case h.midRow() >= 0:
		if n == q.Expect {
			next.good = q.Row
			break
		}
		next.bad = q.Row
		next.enter(q.Row, q.Expect)
		next.learn(n)
	default:
		next.left--
		d := n - q.Expect
		from, to := q.From.Stitch, q.To.Stitch
		switch {
		case d != 0:
			next.lo, next.hi, next.dev = from, to, d
		case from == h.lo:
			next.lo = to
		default:
			next.hi = from
		}
	}
	return next
}

// Slip is where the hunt ended; false while it goes on, and where the count
// agrees.
func (h Hunt) Slip() (Slip, bool) {
	if !h.over() || h.Agrees() {
		return Slip{}, false
	}
	group := h.line.group(h.lo)
	s := Slip{Piece: h.piece, Copy: h.copy, Row: h.row, Number: h.number, Dev: h.dev,
		From: max(h.line.bound(group), 0), To: min(h.line.bound(group+1), h.end)}
	s.From, s.To = max(s.From, h.lo), min(s.To, h.hi)
	here := h.line.row.Here(s.From)
	s.Where = "the whole " + h.line.row.Kind.String()
	if here.Step != nil {
		s.Where = h.plan.quote(here.Step)
		if n := s.To - s.From; here.Of > n {
			s.Where = fmt.Sprintf("%s of %s", ordinals(here.Nth, here.Nth+n-1), s.Where)
		}
		if passes := passWords(here.Passes); passes != "" {
			s.Where += " in " + passes
		}
	}
	s.Reasons = h.plan.reasons(h.line.row, s.From, s.To, s.Dev)
	s.Mend = h.mend(s)
	return s, true
}

// ordinals names stitches by their numbers.
func ordinals(from, to int64) string {
	if from == to {
		return fmt.Sprintf("stitch %d", from)
	}
	return fmt.Sprintf("stitches %d to %d", from, to)
}

// mend says how to put a slip right.
func (h *Hunt) mend(s Slip) string {
	has, should := max(s.To-s.From+s.Dev, 0), s.To-s.From
	words := fmt.Sprintf("It holds %s where it should hold %d. ", plural(has, "stitch"), should)
	words += fmt.Sprintf("Unravel to stitch %d", s.From+1)
	if h.row != h.state.at.Row || h.piece != h.state.at.Piece || h.copy != h.state.at.Copy {
		words += fmt.Sprintf(" of row %d", h.row+1)
	}
	words += " and work it again as written"
	if s.Dev < 0 {
		return words + fmt.Sprintf(", or carry on and add %d on a later row.", -s.Dev)
	}
	return words + fmt.Sprintf(", or carry on and take %d away on a later row.", s.Dev)
}
