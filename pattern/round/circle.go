package round

import (
	"fmt"
	"math"
)

// MaxRounds is the largest piece worked out, in rounds.
const MaxRounds = 300

// Circle is a flat circle of about so many mm across. Its error says in one
// line why there is none.
func (f Fabric) Circle(across float64) (*Plan, error) {
	n := math.Round(across / 2 / f.Height)
	if err := f.reach("circle", across, n); err != nil {
		return nil, err
	}
	p := f.plan("Flat circle", int(n))
	for k := 1; k <= int(n); k++ {
		p.Counts = append(p.Counts, f.flatCount(k))
	}
	p.Across = 2 * n * f.Height
	p.Title = "Flat circle, " + f.tell(p.Across) + " across"
	p.asked(across, p.Across)
	_, up := f.slack()
	p.give(p.Across * up)
	p.flatRule(f.Increases())
	p.magicRing()
	p.rounds(1, 0)
	return p, p.prove()
}

// flatCount is how many stitches the k-th round of a flat circle has.
func (f Fabric) flatCount(k int) int64 {
	if f.Exact {
		return max(3, int64(math.Round(f.Growth()*float64(k))))
	}
	return f.Increases() * int64(k)
}

// reach refuses what is smaller than one round, or larger than anyone works.
func (f Fabric) reach(what string, mm, rounds float64) error {
	switch {
	case !(mm > 0):
		return fmt.Errorf("a %s of %s is none; give a length above 0", what, f.tell(mm))
	case rounds < 1:
		return fmt.Errorf("a %s of %s is too small: one round of %s makes %s at this gauge", what, f.small(mm), f.Stitch.Name(f.Terms), f.small(2*f.Height))
	case rounds > MaxRounds || mm/f.Width > 10*MaxRounds:
		return fmt.Errorf("a %s of %s takes more than %d rounds, which are not worked out", what, f.tell(mm), MaxRounds)
	}
	return nil
}
