package counter

import "iter"

// MaxMilligrams is the most that a ball of yarn can weigh, in mg: a hundred
// kilograms, more than any scale at home takes.
const MaxMilligrams = 100_000_000

// Standing is where every copy stood at a moment. It is a value, like a State,
// and shares what did not change.
type Standing struct {
	plan   *Plan
	at     Place
	places *placeMap
}

// Standing is where every copy stands.
func (s State) Standing() Standing { return Standing{s.planned(), s.at, s.places} }

// Plan is what was walked.
func (g Standing) Plan() *Plan { return g.plan }

// At is the place that was in hand.
func (g Standing) At() Place { return g.at }

// Places goes through the places of the copies that were begun, in the order of
// the plan.
func (g Standing) Places() iter.Seq[Place] {
	return func(yield func(Place) bool) {
		if g.plan == nil || g.plan.slots == 0 {
			return
		}
		tell := func(at Place) bool { return at.Row == 0 && at.Stitch == 0 || yield(at) }
		here, told := g.plan.slot(g.at.Piece, g.at.Copy), false
		for it := g.places.Iterator(); !it.Done(); {
			slot, at, _ := it.Next()
			if slot >= here && !told {
				told = true
				if !tell(g.at) {
					return
				}
			}
			if slot != here && !tell(at) {
				return
			}
		}
		if !told {
			tell(g.at)
		}
	}
}

// Weighing is what was left of a yarn or, where Now is set, a change of the
// pattern since it was weighed last.
type Weighing struct {
	Colour     string
	Milligrams int64
	Ball       int  // from 0, in the order taken up
	AtFirst    bool // what the first ball weighed before the first stitch
	Where      Standing
	Now        *Standing // of a change: where the copies stand in the new plan
}

// onScale is a weighing and those before it. It is never changed.
type onScale struct {
	Weighing
	below *onScale
}

// Weighings are what was weighed, the oldest first, and what changed the
// pattern in between.
func (s State) Weighings() []Weighing {
	n := 0
	for w := s.scale; w != nil; w = w.below {
		n++
	}
	all := make([]Weighing, n)
	for w := s.scale; w != nil; w = w.below {
		n--
		all[n] = w.Weighing
	}
	return all
}

// checkWeigh says whether a weighing can be.
func (s *State) checkWeigh(e Event) error {
	if e.N < 0 || e.N > MaxMilligrams || e.Row < OnTheScale || e.Row > AtFirst || e.Row == AtFirst && e.Copy != 0 {
		return ErrBadWeight
	}
	if e.Copy < 0 {
		return ErrNoBall
	}
	for w := s.scale; e.Copy > 0; w = w.below {
		if w == nil {
			return ErrNoBall
		}
		if w.Now == nil && w.Ball >= e.Copy-1 {
			break
		}
	}
	return nil
}
