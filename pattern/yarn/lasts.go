package yarn

import (
	"fmt"
	"strings"
)

// Left is what is still to be worked when copies before copy of piece, and of
// it the rows before row, are done.
func (u *Usage) Left(piece, copy, row int) []Sum {
	out, done := u.Sums(), u.Upto(piece, copy, row, 0)
	for i := range out {
		out[i].Stitches = max(out[i].Stitches-done[i].Stitches, 0)
		out[i].Units = max(out[i].Units-done[i].Units, 0)
		out[i].Tails = max(out[i].Tails-done[i].Tails, 0)
		out[i].Long = max(out[i].Long-done[i].Long, 0)
	}
	return out
}

// Whole is a sum in single crochets, its tails with it, at a rate; where that
// tells no length, the tails are set against a medium yarn.
func (r Rate) Whole(s Sum) float64 {
	per := r.MM.Mid
	if per == 0 {
		per = guessedMM
	}
	return s.Units + (float64(s.Tails)*TailMM+float64(s.Long)*LongTailMM)/per
}

// Weight is what a sum weighs at a rate, its tails with it; all 0 where the rate
// tells no weight.
func (r Rate) Weight(s Sum) Range { return r.Grams.Times(r.Whole(s)) }

// Length is the yarn in a sum in mm, its tails with it; all 0 where the rate tells
// no length.
func (r Rate) Length(s Sum) Range {
	if r.MM.Mid == 0 {
		return Range{}
	}
	return r.MM.Times(s.Units).Plus(float64(s.Tails)*TailMM + float64(s.Long)*LongTailMM)
}

// Verdict says whether yarn lasts.
type Verdict uint8

// What can be said of it, from bad to good.
const (
	DoesNotLast Verdict = iota // less than the least that it may take
	MayNotLast                 // within the range of what it takes
	Lasts                      // the most that it may take, and less than the usual margin more
	LastsEasily                // the most that it may take, and the usual margin
)

func (v Verdict) String() string {
	return [...]string{"does not last", "may not last", "lasts", "lasts easily"}[v]
}

// Judge says whether so many grams are enough for what is still to be worked.
func Judge(need Range, grams float64) Verdict {
	switch {
	case grams < need.Low:
		return DoesNotLast
	case grams < need.High:
		return MayNotLast
	case grams < need.High*(1+Margin):
		return Lasts
	}
	return LastsEasily
}

// Told puts the judgement of a colour in a line.
func Told(colour string, need Range, grams float64) string {
	return fmt.Sprintf("%s: the rest takes %s g, and %s g are left. It %s.", colour, need, Grams(grams), Judge(need, grams))
}

// Grams tells a weight in grams with the digits that matter.
func Grams(g float64) string { return digits(g, g) }

// ReadLeft reads "navy 31 g": the colour, as an index in Colours, and grams. The
// colour may be left out where there is one. Its error says in one line what is
// wrong.
func (u *Usage) ReadLeft(text string) (colour int, grams float64, err error) {
	b, err := ReadBall(text)
	if err != nil || b.Grams == 0 {
		return 0, 0, fmt.Errorf(`%q is no weight of yarn; write it as "navy 31 g"`, text)
	}
	t := strings.ToLower(text)
	found := -1
	for i, c := range u.Colours {
		name, _, _ := strings.Cut(strings.ToLower(c), " (")
		if strings.Contains(t, name) && (found < 0 || len(c) > len(u.Colours[found])) {
			found = i
		}
	}
	if rest := strings.TrimSpace(ballGrams().ReplaceAllString(t, "")); found < 0 && (len(u.Colours) > 1 || rest != "") {
		return 0, 0, fmt.Errorf("%q names none of the colours: %s", text, strings.Join(u.Colours, ", "))
	}
	return max(found, 0), b.Grams, nil
}
