package yarn

import (
	"errors"
	"math"

	"crochet/tallyturn/pattern/gauge"
)

// Range is a number that is not quite known.
type Range struct{ Low, Mid, High float64 }

// Times is the range so many times as large, and Plus so much larger.
func (r Range) Times(k float64) Range { return Range{r.Low * k, r.Mid * k, r.High * k} }
func (r Range) Plus(k float64) Range  { return Range{r.Low + k, r.Mid + k, r.High + k} }

// Add is two amounts together that are off by the same: of one rate.
func (r Range) Add(s Range) Range { return Range{r.Low + s.Low, r.Mid + s.Mid, r.High + s.High} }

// Rate is how much yarn a single crochet takes: by length, by weight, or both.
// What is not known is all 0.
type Rate struct {
	MM    Range
	Grams Range
	Rough bool // from the gauge, without a swatch
	N     int  // swatches that it rests on
	Own   bool // they are stretches of work that were weighed on the way
}

// oneSwatch is by how much one swatch may be off: makers' pages have 5 to 10 in a
// hundred.
const oneSwatch = 0.1

// Measured is the rate of swatches. Several give a range in which nine in ten
// pieces worked like them lie: Student's t for a piece yet to come. Some were
// measured and others weighed, so each of length and weight has those that tell
// it.
func Measured(swatches []Swatch) Rate {
	r := Rate{N: len(swatches)}
	var mm, grams []float64
	for _, s := range swatches {
		if s.MM > 0 {
			mm = append(mm, s.MM/s.Units)
		}
		if s.Grams > 0 {
			grams = append(grams, s.Grams/s.Units)
		}
	}
	r.MM, r.Grams = predict(mm), predict(grams)
	return r
}

// predict is the range that one more of the same lies in nine times of ten.
func predict(x []float64) Range {
	n := float64(len(x))
	if n == 0 {
		return Range{}
	}
	mean := 0.0
	for _, v := range x {
		mean += v / n
	}
	off := oneSwatch * mean
	if n > 1 {
		sq := 0.0
		for _, v := range x {
			sq += (v - mean) * (v - mean)
		}
		off = student(len(x)-1) * math.Sqrt(sq/(n-1)*(1+1/n))
	}
	return Range{max(mean-off, 0), mean, mean + off}
}

// student is Student's t beyond which one in twenty lies, by degrees of freedom.
func student(free int) float64 {
	table := [...]float64{6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812}
	if free <= len(table) {
		return table[free-1]
	}
	// Cornish and Fisher's expansion about the normal
	const z = 1.6449
	f := float64(free)
	return z + (z*z*z+z)/(4*f) + (5*math.Pow(z, 5)+16*z*z*z+3*z)/(96*f*f)
}

// The length of yarn in a single crochet, in widths of it. Two home measurements
// lie at the ends; the middle is their middle.
const (
	widthsLow  = 6.6
	widthsMid  = 8.4
	widthsHigh = 10.6
)

// Estimated is a rough rate from a gauge in stitches, which is all there is
// without a swatch. The error says why there is none.
func Estimated(g gauge.Gauge) (Rate, error) {
	if !g.Stitches.Known() || g.Kind != gauge.ByStitch {
		return Rate{}, errors.New("the gauge does not say how many stitches there are in a length")
	}
	w := 1 / g.Stitches.PerMM
	return Rate{MM: Range{widthsLow, widthsMid, widthsHigh}.Times(w), Rough: true}, nil
}

// With works out weight from length, or length from weight, where a ball's band
// tells how they go together.
func (r Rate) With(b Ball) Rate {
	if b.MM <= 0 || b.Grams <= 0 {
		return r
	}
	switch {
	case r.Grams.Mid == 0:
		r.Grams = r.MM.Times(b.Grams / b.MM)
	case r.MM.Mid == 0:
		r.MM = r.Grams.Times(b.MM / b.Grams)
	}
	return r
}

// gramsPerPound is exact (international yard and pound agreement of 1959).
const gramsPerPound = 453.59237

// Weighing adds a rough weight to a rate that has only a length, by how many
// yards of yarn of a weight go to a pound (Spin Off magazine's sheet of yarn
// standards).
func (r Rate) Weighing(w gauge.Weight) Rate {
	if r.Grams.Mid > 0 || w.Yards.Least <= 0 || w.Yards.Most <= 0 {
		return r
	}
	grams := func(yards float64) float64 { return gramsPerPound / (yards * 914.4) } // a mm
	mid := (w.Yards.Least + w.Yards.Most) / 2
	r.Grams = Range{r.MM.Low * grams(w.Yards.Most), r.MM.Mid * grams(mid), r.MM.High * grams(w.Yards.Least)}
	return r
}
