package yarn

import "math"

// Reading is what the scale showed of a ball of one colour when so much of the
// colour was worked.
type Reading struct {
	Units float64 // worked by then, in single crochets, ends with it
	Ball  int     // the one on the scale, from 0
	Grams float64
}

// Stretch is work between two readings, and the yarn that went into it.
type Stretch struct{ Units, Grams float64 }

// fineStep and wholeStep are the smallest steps of a fine scale and of a
// kitchen's, in grams; fewSteps is how many of them must have gone before two
// readings tell anything.
const (
	fineStep  = 0.1
	wholeStep = 1.0
	fewSteps  = 2
)

// Step is the smallest step of the scale, in grams, as far as readings show it:
// where all are whole it is taken for one that shows no less.
func Step(readings []Reading) float64 {
	for _, r := range readings {
		if r.Grams != math.Trunc(r.Grams) {
			return fineStep
		}
	}
	return wholeStep
}

// Stretches are the stretches of work between readings of one colour, in the
// order of time, told apart by a scale of a step. Readings that are too near one
// another make one stretch. Across another ball, a heavier one, or work that was
// ripped nothing can be told.
func Stretches(readings []Reading, step float64) (out []Stretch) {
	for i, from := 1, 0; i < len(readings); i++ {
		was, now := readings[from], readings[i]
		s := Stretch{now.Units - was.Units, was.Grams - now.Grams}
		few := s.Grams < fewSteps*step-1e-9
		switch {
		case now.Ball != was.Ball || s.Units < 0 || few && s.Grams <= -fewSteps*step+1e-9:
			from = i
		case few || s.Units == 0:
		default:
			out = append(out, s)
			from = i
		}
	}
	return out
}

// Own is a rate from what was weighed on the way. The zero Own knows nothing.
//
// The weight that a stretch takes grows with its units, and so does its
// variance. The best guess is then all that was used by all that was worked, the
// ratio estimate of sampling, which is a line through the origin with weights of
// 1/units.
type Own struct {
	Stretch            // all of it
	Of      int        // the stretches
	rates   [2]float64 // of the thinnest and the thickest stretch, in grams a unit
	spread  float64    // standard deviation of what one unit takes, in grams
	step    float64    // of the scale
}

// enoughStretches is how many stretches it takes to tell how far they scatter.
const enoughStretches = 3

// FromStretches is the rate of stretches weighed on a scale of a step.
func FromStretches(all []Stretch, step float64) Own {
	o := Own{Of: len(all), step: step}
	for i, s := range all {
		o.Units += s.Units
		o.Grams += s.Grams
		rate := s.Grams / s.Units
		if i == 0 {
			o.rates = [2]float64{rate, rate}
		}
		o.rates = [2]float64{min(o.rates[0], rate), max(o.rates[1], rate)}
	}
	if o.Of < 2 {
		return o
	}
	sq := 0.0
	for _, s := range all {
		off := s.Grams - o.Grams/o.Units*s.Units
		sq += off * off / s.Units
	}
	o.spread = math.Sqrt(sq / float64(o.Of-1))
	return o
}

// Known reports whether there is a rate.
func (o Own) Known() bool { return o.Of > 0 }

// Rate is the rate by which so many units are told.
func (o Own) Rate(units float64) Rate {
	if !o.Known() || units <= 0 {
		return Rate{}
	}
	return Rate{Grams: o.Takes(units).Times(1 / units), N: o.Of, Own: true}
}

// Takes is what so many units more take, in grams. From three stretches on it is
// the range in which nine in ten lie, by Student's t; of fewer it is what was
// seen, or a tenth to either side. It is never closer than the scale can tell.
func (o Own) Takes(units float64) Range {
	if !o.Known() || units <= 0 {
		return Range{}
	}
	share := units / o.Units
	mid := o.Grams * share
	scale := o.step * share
	r := Range{mid - scale, mid, mid + scale}
	if o.Of >= enoughStretches {
		off := student(o.Of-1) * o.spread * math.Sqrt(units+units*share)
		r = Range{mid - max(off, scale), mid, mid + max(off, scale)}
	} else {
		r.Low = min(r.Low, units*o.rates[0], mid*(1-oneSwatch)-scale)
		r.High = max(r.High, units*o.rates[1], mid*(1+oneSwatch)+scale)
	}
	r.Low = max(r.Low, 0)
	return r
}
