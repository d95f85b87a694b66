package counter

import "crochet/tallyturn/pattern"

// A copy that is carried on with a difference is worked from what is on the
// hook: from the row after it on, the numbers of another proof hold.

// carried is the numbers that hold from a row on.
type carried struct {
	from  int // the row, from 0
	count int64
	proof *pattern.PieceProof
	below *carried // of earlier rows
}

// rowProof is the proof that holds for a row of a copy.
func (s *State) rowProof(key rowKey) *pattern.RowProof {
	piece, _ := s.plan.inSlot(key.slot)
	if s.carried != nil && s.carried.Len() > 0 {
		for c, _ := s.carried.Get(key.slot); c != nil; c = c.below {
			if key.row >= c.from {
				if r, _ := c.proof.At(key.row); r != nil {
					return r
				}
			}
		}
	}
	r, _ := s.plan.Row(piece, key.row)
	return r
}

// carry notes what the row just ended leaves to the next ones.
func (s *State) carry(key rowKey, e Event) {}

// loseCarried drops the differences that came after a row.
func (s *State) loseCarried(slot, row int) {
	c, ok := s.carried.Get(slot)
	if !ok {
		return
	}
	for c != nil && c.from > row {
		c = c.below
	}
	s.setCarried(slot, c)
}

func (s *State) setCarried(slot int, c *carried) {
	if c == nil {
		s.carried = s.carried.Delete(slot)
	} else {
		s.carried = s.carried.Set(slot, c)
	}
}

// isCarried reports whether the row in hand is worked from a difference that
// was accepted: then the row below is as it should be.
func (s *State) isCarried() bool {
	c, _ := s.carried.Get(s.rowKey().slot)
	return c != nil && s.at.Row >= c.from
}
