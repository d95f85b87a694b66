package round

import (
	"fmt"
	"math"

	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// The band about the flat circle's rule in which a piece still lies flat, since
// fabric stretches. It is our own choice; makers' pages give none.
const (
	leastFlat = 0.9
	mostFlat  = 1.1
)

// Growth is how many stitches each round of a flat piece has more than the one
// below, by the rule of the circle: 2 x pi x height / width.
func (f Fabric) Growth() float64 { return 2 * math.Pi * f.Height / f.Width }

// usual is what print has flat circles grow by. Source: makers' pages on craft
// and mathematics for single, half double and double crochet; for the others
// they differ (testdata/facts/circles.tsv).
var usual = map[stitch.ID]int64{stitch.SC: 6, stitch.HDC: 8, stitch.DC: 12, stitch.TR: 16}

// Increases is how many stitches a round grows by: what is usual for the stitch
// where the rule agrees with it within a tenth, and else the nearest whole
// number.
func (f Fabric) Increases() int64 {
	growth := f.Growth()
	if n, ok := usual[f.Stitch]; ok && float64(n) >= leastFlat*growth && float64(n) <= mostFlat*growth {
		return n
	}
	return max(3, int64(math.Round(growth)))
}

// Rule says the rule of the flat circle in this fabric, as the beginning of a
// sentence.
func (f Fabric) Rule() string {
	return fmt.Sprintf("A round is %s high, so the edge of a flat piece grows by 2 x pi x %s = %s a round, which is %s stitches of %s", f.small(f.Height), f.small(f.Height), f.small(2*math.Pi*f.Height), decimals(f.Growth(), 1), f.small(f.Width))
}

// tell writes a length in the unit of the gauge.
func (f Fabric) tell(mm float64) string { return f.Gauge.Unit.Tell(mm) }

// small writes a short length: "4.5 mm", and in a gauge told in inches "0.18 in".
func (f Fabric) small(mm float64) string {
	if f.Gauge.Unit == gauge.Inches {
		return decimals(mm/gauge.Inch, 2) + " in"
	}
	return decimals(mm, 1) + " mm"
}
