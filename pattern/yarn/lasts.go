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

// Weight is what a sum weighs at a rate, its tails with it; all 0 where the rate
// tells no weight.
func (r Rate) Weight(s Sum) Range {
	per := r.MM.Mid
	if per == 0 {
		per = guessedMM
	}
	return r.Grams.times(s.Units + (float64(s.Tails)*TailMM+float64(s.Long)*LongTailMM)/per)
}

// Lasts says whether so many grams are enough for what is still to be worked.
func Lasts(colour string, need Range, grams float64) string {
	word := "It lasts"
	switch {
	case grams < need.Low:
		word = "It does not last"
	case grams < need.High:
		word = "It may not last"
	}
	return fmt.Sprintf("%s: the rest takes %s g, and %s g are left. %s.", colour, need, digits(grams, grams), word)
}

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
