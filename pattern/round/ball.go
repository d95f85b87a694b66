package round

import (
	"fmt"
	"math"
)

// Ball is a ball of about so many mm across. As print has it, it grows like a
// flat circle to its widest round, goes on even, and closes as it grew; with
// Exact each round is as long as the circle at its height, N x sin(angle), as
// makers' pages of 2010 to 2013 have it. Either way it has as many rounds as
// lie between its poles. Its error says in one line why there is none.
func (f Fabric) Ball(across float64) (*Plan, error) {
	rounds := math.Round(math.Pi * across / 2 / f.Height) // the last of them is the hole that is drawn shut
	if err := f.reach("ball", across, rounds/2); err != nil {
		return nil, err
	}
	p := f.plan("Ball", int(rounds)-1)
	widest := math.Pi * across / f.Width
	if f.Exact {
		for i := 1; i < int(rounds); i++ {
			p.Counts = append(p.Counts, max(3, int64(math.Round(widest*math.Sin(math.Pi*float64(i)/rounds)))))
		}
	} else {
		n := f.Increases()
		m := max(1, int64(math.Round(widest/float64(n))))
		for k := int64(1); k <= m; k++ {
			p.Counts = append(p.Counts, n*k)
		}
		for even := int64(rounds) - 2*m; even > 0; even-- {
			p.Counts = append(p.Counts, n*m)
		}
		for k := m - 1; k >= 1; k-- {
			p.Counts = append(p.Counts, n*k)
		}
	}
	if len(p.Counts) < 3 {
		return nil, fmt.Errorf("a ball of %s is too small to be worked in rounds of %s at this gauge", f.small(across), f.Stitch.Name(f.Terms))
	}
	most := int64(0)
	for _, c := range p.Counts {
		most = max(most, c)
	}
	p.Across = float64(most) * f.Width / math.Pi
	p.Title = "Ball, " + f.tell(p.Across) + " across"
	p.asked(across, p.Across)
	around, _ := f.slack()
	p.give(p.Across * around)
	r := p.Across / 2
	p.note(fmt.Sprintf("The widest round is %d stitches of %s, a circle %s across. The ball holds about %s of stuffing.", most, f.small(f.Width), f.tell(p.Across), volume(4*math.Pi/3*r*r*r)))
	p.caution = "Stuffing and small parts can be swallowed. A ball for a child or a pet comes under the rules for toys of the place where it goes, such as EN 71-1 in Europe or 16 CFR 1501 and ASTM F963 in the United States; they come before anything said here."
	p.magicRing()
	p.rounds(1, 0)
	p.end = "Stuff. Fasten off, leaving a tail; weave it through the stitches of the last round and draw it shut."
	return p, p.prove()
}

// volume writes cubic millimetres: "270 ml", "1.2 l".
func volume(mm3 float64) string {
	ml := mm3 / 1000
	switch {
	case ml >= 1000:
		return decimals(ml/1000, 1) + " l"
	case ml >= 10:
		return decimals(ml, 0) + " ml"
	}
	return decimals(ml, 1) + " ml"
}
