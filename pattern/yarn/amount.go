package yarn

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Usual lengths beside the stitches, in mm, and the usual margin (common
// practice, no source).
const (
	TailMM     = 150 // to weave in
	LongTailMM = 600 // to sew with
	Margin     = 0.1
)

// Amount is what one colour takes.
type Amount struct {
	Colour string
	Sum
	MM    Range // 0 where nobody can know
	Grams Range
	Balls float64 // to have; 0 where nobody can know
}

// Amounts is what a usage comes to at a rate, its tails with it. With a ball it
// says how many to have, a margin added to the most it may take.
func (u *Usage) Amounts(r Rate, b Ball, margin float64) []Amount {
	r = r.With(b)
	out := make([]Amount, len(u.Colours))
	for i, s := range u.Sums() {
		a := Amount{Colour: u.Colours[i], Sum: s}
		a.MM, a.Grams = r.Length(s), r.Weight(s)
		switch {
		case b.MM > 0 && a.MM.High > 0:
			a.Balls = math.Ceil(a.MM.High*(1+margin)/b.MM - 1e-9)
		case b.Grams > 0 && a.Grams.High > 0:
			a.Balls = math.Ceil(a.Grams.High*(1+margin)/b.Grams - 1e-9)
		}
		out[i] = a
	}
	return out
}

// guessedMM is the yarn in a single crochet where only weights are known, which
// tails are set against: that of a medium yarn.
const guessedMM = 45

// Text is the amounts as a table with what they rest on.
func Text(u *Usage, r Rate, b Ball, margin float64) string {
	all := u.Amounts(r, b, margin)
	name := len("total")
	for _, a := range all {
		name = max(name, len([]rune(a.Colour)))
	}
	var out strings.Builder
	fmt.Fprintf(&out, "  %-*s  stitches  ends%s%s%s\n", name, "", head(r.With(b).MM, "metres", 14), head(r.With(b).Grams, "grams", 12), head(Range{Mid: b.MM + b.Grams}, "balls", 7))
	for _, a := range all {
		fmt.Fprintf(&out, "  %-*s  %8d  %4d%s%s", name, a.Colour, a.Stitches, a.Tails+a.Long, cell(a.MM.Times(0.001), 14), cell(a.Grams, 12))
		if b.MM+b.Grams > 0 {
			if a.Balls > 0 {
				fmt.Fprintf(&out, "%7s", strconv.FormatFloat(a.Balls, 'f', -1, 64))
			} else {
				fmt.Fprintf(&out, "%7s", "-")
			}
		}
		out.WriteByte('\n')
	}
	for _, line := range notes(u, r, b, margin) {
		fmt.Fprintf(&out, "%s\n", line)
	}
	return out.String()
}

func head(r Range, name string, width int) string {
	if r.Mid == 0 {
		return ""
	}
	return fmt.Sprintf("%*s", width, name)
}

func cell(r Range, width int) string {
	if r.Mid == 0 {
		return ""
	}
	return fmt.Sprintf("%*s", width, r.String())
}

// String tells a range with the digits that matter: "8.2 to 9.1", "130 to 180".
func (r Range) String() string {
	low, high := digits(r.Low, r.High), digits(r.High, r.High)
	if low == high {
		return high
	}
	return low + " to " + high
}

func digits(v, top float64) string {
	switch {
	case top >= 100:
		return strconv.FormatFloat(math.Round(v), 'f', -1, 64)
	case top >= 1:
		return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

// notes say what the amounts rest on.
func notes(u *Usage, r Rate, b Ball, margin float64) []string {
	out := []string{r.Basis()}
	sum := Sum{}
	for _, s := range u.Sums() {
		sum.Tails += s.Tails
		sum.Long += s.Long
	}
	ends := fmt.Sprintf("%d cm for each end to weave in", TailMM/10)
	if sum.Long > 0 {
		ends += fmt.Sprintf(", %d cm for each long tail to sew with", LongTailMM/10)
	}
	out = append(out, "With "+ends+"; seams with other yarn are not in it.")
	if b.MM+b.Grams > 0 {
		out = append(out, fmt.Sprintf("Balls are for the most it may take and %.0f %% more.", 100*margin))
	}
	if u.Unknown > 0 {
		out = append(out, fmt.Sprintf("Without %s of no known number of stitches.", rowsWord(u.Unknown)))
	}
	return out
}

// Basis says in a line what a rate rests on.
func (r Rate) Basis() string {
	switch {
	case r.Rough:
		return fmt.Sprintf("A rough estimate, from the gauge alone: a single crochet takes %s mm, 6.6 to 10.6 times its width by two home measurements. A swatch that was measured or weighed comes much nearer.", r.MM)
	case r.Own && r.N < enoughStretches:
		return "From " + stretchesWord(r.N) + " of work, weighed on the way; it may be off by a tenth."
	case r.Own:
		return "From " + stretchesWord(r.N) + " of work, weighed on the way; nine times of ten it lies in the range."
	case r.N == 1:
		return "From one swatch, which may be off by a tenth. Two or more show how far."
	}
	return fmt.Sprintf("From %d swatches; nine times of ten it lies in the range.", r.N)
}

func stretchesWord(n int) string {
	if n == 1 {
		return "1 stretch"
	}
	return fmt.Sprintf("%d stretches", n)
}

func rowsWord(n int64) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}
