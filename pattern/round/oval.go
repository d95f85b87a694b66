package round

import (
	"fmt"
	"math"
	"strconv"

	"crochet/tallyturn/pattern/even"
	"crochet/tallyturn/pattern/stitch"
)

// Oval is a flat oval of about long by wide mm: two half circles and a straight
// part between them, worked round a chain. Its error says in one line why there
// is none.
func (f Fabric) Oval(long, wide float64) (*Plan, error) {
	if wide > long {
		long, wide = wide, long
	}
	f.Exact = false // its ends grow alike, or the sides would not lie straight
	asked := [2]float64{long, wide}
	n := math.Round(wide / 2 / f.Height)
	if err := f.reach("oval", wide, n); err != nil {
		return nil, err
	}
	if long/f.Width > 10*MaxRounds {
		return nil, fmt.Errorf("an oval %s long is longer than is worked out", f.tell(long))
	}
	wide = 2 * n * f.Height
	side := int64(math.Round((long-wide)/f.Width)) - 1 // chains between those at the ends
	if side < 1 {
		return nil, fmt.Errorf("an oval %s by %s is as good as round; ask for a circle", f.tell(long), f.tell(wide))
	}
	each := max(2, (f.Increases()+1)/2) // increases at an end
	p := f.plan("Flat oval", int(n))
	p.Across, p.Along = wide, wide+float64(side+1)*f.Width
	p.Title = "Flat oval, " + f.tell(p.Along) + " by " + f.tell(p.Across)
	p.asked(asked[0], p.Along)
	p.asked(asked[1], p.Across)
	straight, up := f.slack()
	p.give((p.Along-p.Across)*straight + p.Across*up)
	p.flatRule(2 * each)
	turn := int64(stitch.Of(f.Stitch).Turn)
	name := f.Stitch.Name(f.Terms)
	from := ordinal(turn+1) + " ch from hook"
	if turn > 1 {
		from += " (skipped chs do not count as a st)"
	}
	p.setup = "Ch " + strconv.FormatInt(side+2+turn, 10) + "."
	along := name + " in next " + chains(side)
	p.first = fmt.Sprintf("%d %s in %s, %s, %d %s in last ch; working along opposite side of ch, %s", each, name, from, along, each, name, along)
	for k := int64(1); k <= int64(n); k++ {
		p.Counts = append(p.Counts, 2*(side+each*k))
	}
	p.rounds(each, side)
	return p, p.prove()
}

func chains(n int64) string {
	return strconv.FormatInt(n, 10) + " ch"
}

// ovalRound is a round of an oval: each end grows from over to into stitches,
// and the sides stay as they are.
func ovalRound(over, into, side int64, ends even.Ends) (even.Spread, error) {
	end, err := even.Of(over, into, ends)
	if err != nil {
		return end, err
	}
	s := even.Spread{Over: 2 * (over + side), Into: 2 * (into + side), Ends: even.Joined}
	for range 2 {
		s.Runs = append(s.Runs, end.Runs...)
		if last := &s.Runs[len(s.Runs)-1]; last.Worth == 1 {
			last.N += side
		} else {
			s.Runs = append(s.Runs, even.Run{N: side, Worth: 1})
		}
	}
	return s, nil
}
