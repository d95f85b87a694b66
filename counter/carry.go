package counter

import (
	"fmt"
	"slices"
	"sync"

	"crochet/tallyturn/pattern"
)

// A copy that is carried on with a difference is worked from what is on the
// hook: from the row after it on, the numbers of another proof hold.

// carried is the rows of a copy that came out otherwise and were carried on
// with, in their order, and what follows from them.
type carried struct {
	diffs []pattern.Difference
	proof *pattern.Carried
}

// carries remembers what was proven of differences. It changes nothing about
// a plan: the same differences prove the same.
type carries struct {
	sync.Mutex
	known map[string]*carried
}

// mostCarries is how many are remembered.
const mostCarries = 256

// carryOn is what follows from differences in a piece; nil where that cannot
// be told.
func (p *Plan) carryOn(piece int, diffs []pattern.Difference) *carried {
	if p.proof == nil || len(diffs) == 0 {
		return nil
	}
	p.carries.Lock()
	defer p.carries.Unlock()
	key := fmt.Sprint(piece, diffs)
	if c, ok := p.carries.known[key]; ok {
		return c
	}
	var c *carried
	if proof := p.proof.CarryOn(piece, diffs); proof != nil {
		c = &carried{diffs, proof}
	}
	if p.carries.known == nil || len(p.carries.known) >= mostCarries {
		p.carries.known = make(map[string]*carried)
	}
	p.carries.known[key] = c
	return c
}

// rowProof is the proof that holds for a row of a copy.
func (s *State) rowProof(key rowKey) *pattern.RowProof {
	piece, _ := s.plan.inSlot(key.slot)
	if c := s.carriedIn(key.slot); c != nil && key.row > c.diffs[0].Row {
		if r, _ := c.proof.Piece.At(key.row); r != nil {
			return r
		}
	}
	r, _ := s.plan.Row(piece, key.row)
	return r
}

// carriedIn is what a copy is carried on with, nil where it is not.
func (s *State) carriedIn(slot int) *carried {
	if s.carried == nil || s.carried.Len() == 0 {
		return nil
	}
	c, _ := s.carried.Get(slot)
	return c
}

// isCarried reports whether the row in hand is worked from a difference that
// was accepted: then the row below is as it should be.
func (s *State) isCarried() bool {
	c := s.carriedIn(s.rowKey().slot)
	return c != nil && s.at.Row > c.diffs[0].Row
}

// accepted reports whether a row was carried on from with a difference.
func (s *State) accepted(key rowKey) bool {
	c := s.carriedIn(key.slot)
	return c != nil && slices.ContainsFunc(c.diffs, func(d pattern.Difference) bool { return d.Row == key.row })
}

// carry notes what the row just ended leaves to the next ones.
func (s *State) carry(key rowKey, e Event) {
	c := s.carriedIn(key.slot)
	differs := false
	if want, known := expect(s.rowProof(key)); known {
		differs = e.Kind == Carry && e.N != want
	}
	if c == nil && !differs {
		return
	}
	s.setCarried(key.slot, withDifference(c, key.row, e.N, differs))
}

// withDifference is the differences of a copy with another one for a row, or
// none.
func withDifference(c *carried, row int, count int64, differs bool) (diffs []pattern.Difference) {
	if c != nil {
		for _, d := range c.diffs {
			if d.Row < row {
				diffs = append(diffs, d)
			}
		}
	}
	if differs {
		diffs = append(diffs, pattern.Difference{Row: row, Count: count})
	}
	if c != nil {
		for _, d := range c.diffs {
			if d.Row > row {
				diffs = append(diffs, d)
			}
		}
	}
	return diffs
}

// loseCarried drops the differences of a row and those after it.
func (s *State) loseCarried(slot, row int) {
	c := s.carriedIn(slot)
	if c == nil {
		return
	}
	n := 0
	for n < len(c.diffs) && c.diffs[n].Row < row {
		n++
	}
	if n < len(c.diffs) {
		s.setCarried(slot, c.diffs[:n:n])
	}
}

func (s *State) setCarried(slot int, diffs []pattern.Difference) {
	piece, _ := s.plan.inSlot(slot)
	if c := s.plan.carryOn(piece, diffs); c != nil {
		s.carried = s.carried.Set(slot, c)
	} else if s.carriedIn(slot) != nil {
		s.carried = s.carried.Delete(slot)
	}
}

// Carried is what follows from the differences that the copy in hand is
// carried on with: which rows change, which do not work any more, which pieces
// sit elsewhere, and how to come right again. It is nil where there are none.
func (s State) Carried() *pattern.Carried {
	if c := s.carriedIn(s.rowKey().slot); c != nil {
		return c.proof
	}
	return nil
}

// IfCarried is what would follow from carrying on with a count of the row in
// hand; nil where nothing would.
func (s State) IfCarried(count int64) *pattern.Carried {
	if s.Finished() || checkCount(count) != nil {
		return nil
	}
	if want, known := s.Expect(); !known || want == count {
		return nil
	}
	c := s.plan.carryOn(s.at.Piece, withDifference(s.carriedIn(s.rowKey().slot), s.at.Row, count, true))
	if c == nil {
		return nil
	}
	return c.proof
}
