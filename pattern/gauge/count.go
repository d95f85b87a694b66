package gauge

import "math"

// Count is how many stitches, or rows, there are in a length of fabric.
type Count struct {
	PerMM  float64 // in a millimetre: the mean of the places counted; 0 where it is not known
	Spread float64 // of PerMM: the sample standard deviation over the places; 0 for one place
	Places int     // how many were counted
}

// Known reports whether there is a count at all.
func (c Count) Known() bool { return c.PerMM > 0 }

// Length is how long n of them are, in mm; 0 where the count is not known.
func (c Count) Length(n float64) float64 {
	if !c.Known() {
		return 0
	}
	return n / c.PerMM
}

// Slack is how far the length of n of them may be off, in mm, as far as the
// places of the swatch differ: one standard deviation, to first order. It is 0
// for a swatch counted at one place.
func (c Count) Slack(n float64) float64 {
	if !c.Known() {
		return 0
	}
	return n / c.PerMM * c.Spread / c.PerMM
}

// In is how many of them there are in a length in mm, not rounded.
func (c Count) In(mm float64) float64 { return mm * c.PerMM }

// countOf is the count of several places, each per mm.
func countOf(places []float64) Count {
	n := float64(len(places))
	if n == 0 {
		return Count{}
	}
	sum := 0.0
	for _, p := range places {
		sum += p
	}
	c := Count{PerMM: sum / n, Places: len(places)}
	if len(places) > 1 {
		sq := 0.0
		for _, p := range places {
			sq += (p - c.PerMM) * (p - c.PerMM)
		}
		c.Spread = math.Sqrt(sq / (n - 1))
	}
	return c
}
