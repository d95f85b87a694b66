package skein

import (
	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern/yarn"
)

// Basis is what a weight rests on.
type Basis uint8

// What there can be, from the least sure to the surest.
const (
	Unknown    Basis = iota // nothing tells a weight
	RoughModel              // the gauge
	BySwatch                // swatches
	ByOthers                // what was weighed of the other yarns of the walk
	ByScale                 // what was weighed of it
)

// Account is the yarns of a walk.
type Account struct {
	Yarns  []Yarn // in the order taken up
	InHand int    // the one of the stitch in hand
	Blind  int64  // rows of no known number of stitches: they are in nothing here
}

// Yarn is one of them.
type Yarn struct {
	Name     string
	Stitches int64 // worked so far
	All      int64 // in the whole pattern
	Basis    Basis
	Rests    int        // stretches between weighings, or swatches, that it rests on
	Used     yarn.Range // grams so far; 0 where nothing tells a weight
	Length   yarn.Range // mm so far; 0 where nothing tells a length
	Rest     yarn.Range // grams that the rest takes from here; 0 where nothing tells
	Left     *Left      // nil where it was never weighed
	Balls    int        // that were weighed
	First    float64    // grams of the first ball before the first stitch; 0 where that was not noted
}

// Left is what was on the scale last, and whether it lasts.
type Left struct {
	Grams   float64
	AtFirst bool          // it was weighed before the first stitch
	At      counter.Place // in hand when it was weighed
	Since   yarn.Range    // grams used since
	Now     yarn.Range    // grams that are left by now
	Over    yarn.Range    // grams left over at the end; below 0 what lacks
	Known   bool          // whether Since, Now, Over and Verdict are known
	Verdict yarn.Verdict
}

// StatedRate is what the pattern of a walk tells by itself. It is zero where that
// has no gauge and no swatch: then only what is weighed tells anything.
func StatedRate(s counter.State) yarn.Rate {
	proof := s.Plan().Proof()
	if proof == nil {
		return yarn.Rate{}
	}
	rate, err := yarn.StatedRate(proof)
	if err != nil {
		return yarn.Rate{}
	}
	return rate
}

// Of is the account of a walk. The rate is for yarns of which too little was
// weighed; the zero Rate tells nothing.
func (b *Book) Of(s counter.State, rate yarn.Rate) *Account {
	plan := s.Plan()
	u := b.usage(plan)
	at := s.At()
	a := &Account{InHand: u.ColourAt(at.Piece, at.Row, at.Stitch), Blind: u.Unknown}
	worked, all := b.worked(s.Standing()), u.Sums()

	type weighed struct {
		readings  []reading
		over      float64
		stretches []yarn.Stretch
		step      float64
	}
	each := make([]weighed, len(u.Colours))
	others := b.Weighed(s, rate)
	for i := range u.Colours {
		w := &each[i]
		w.readings, w.over = b.readings(s, i, rate)
		w.step = yarn.Step(bare(w.readings))
		w.stretches = yarn.Stretches(bare(w.readings), w.step)
	}
	for i, name := range u.Colours {
		w := &each[i]
		y := Yarn{Name: name, Stitches: worked[i].Stitches, All: all[i].Stitches, Length: rate.Length(worked[i])}
		y.Rests = rate.N
		takes := func(units float64) yarn.Range { return rate.Grams.Times(units) }
		switch own := yarn.FromStretches(w.stretches, w.step); {
		case own.Known():
			y.Basis, y.Rests, takes = ByScale, own.Of, own.Takes
		case others.Known():
			y.Basis, y.Rests, takes = ByOthers, others.Of, others.Takes
		case rate.Grams.Mid == 0:
		case rate.Rough:
			y.Basis = RoughModel
		default:
			y.Basis = BySwatch
		}
		// What was worked by the count of all texts walked, and what is to come.
		sofar := w.over + rate.Whole(worked[i])
		rest := max(rate.Whole(all[i])-rate.Whole(worked[i]), 0)
		y.Used, y.Rest = used(w.stretches, max(sofar, 0), takes), takes(rest)
		for _, r := range w.readings {
			y.Balls = max(y.Balls, r.Ball+1)
			if r.first {
				y.First = r.Grams
			}
		}
		if n := len(w.readings); n > 0 {
			last := w.readings[n-1]
			y.Left = left(last, sofar, rest, takes, y.Basis != Unknown)
		}
		a.Yarns = append(a.Yarns, y)
	}
	return a
}

// Weighed is the rate that all weighings of a walk tell together, whatever the
// yarn; it is not known where too little was weighed.
func (b *Book) Weighed(s counter.State, rate yarn.Rate) yarn.Own {
	var all []yarn.Stretch
	step := 0.0
	for i := range b.usage(s.Plan()).Colours {
		readings, _ := b.readings(s, i, rate)
		own := yarn.Step(bare(readings))
		if found := yarn.Stretches(bare(readings), own); len(found) > 0 {
			all, step = append(all, found...), max(step, own)
		}
	}
	return yarn.FromStretches(all, step)
}

// bare are readings without where they were taken.
func bare(all []reading) []yarn.Reading {
	out := make([]yarn.Reading, len(all))
	for i, r := range all {
		out[i] = r.Reading
	}
	return out
}

// used is what so many units have taken: what the scale showed of it, and the
// rest by the rate.
func used(stretches []yarn.Stretch, sofar float64, takes func(float64) yarn.Range) yarn.Range {
	var seen yarn.Stretch
	for _, s := range stretches {
		seen.Units += s.Units
		seen.Grams += s.Grams
	}
	if seen.Units > sofar+1e-9 {
		return takes(sofar) // some of it was ripped
	}
	return takes(sofar - seen.Units).Plus(seen.Grams)
}

// left is whether what was on the scale lasts.
func left(r reading, sofar, rest float64, takes func(float64) yarn.Range, known bool) *Left {
	l := &Left{Grams: r.Grams, AtFirst: r.first, At: r.at, Known: known}
	if !known {
		return l
	}
	// Where stitches were ripped, or the text has fewer to come, less than
	// nothing is taken: that much is on the ball again.
	signed := func(units float64) yarn.Range {
		if units >= 0 {
			return takes(units)
		}
		back := takes(-units)
		return yarn.Range{Low: -back.High, Mid: -back.Mid, High: -back.Low}
	}
	since := sofar - r.Units
	l.Since = signed(since)
	l.Now = yarn.Range{Low: max(l.Grams-l.Since.High, 0), Mid: max(l.Grams-l.Since.Mid, 0), High: max(l.Grams-l.Since.Low, 0)}
	need := signed(rest + since)
	l.Over = yarn.Range{Low: l.Grams - need.High, Mid: l.Grams - need.Mid, High: l.Grams - need.Low}
	l.Verdict = yarn.Judge(need, l.Grams)
	return l
}
