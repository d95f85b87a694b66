package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"sync"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/yarn"
)

const mmPerYard = 914.4 // exact (international yard and pound agreement of 1959)

var statesAmount = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\d\)? ?(m|g|gr|yds?|yards?|metres?|meters?|grams?|grammes?|oz|ounces?|balls?|skeins?|hanks?)\b`)
})

// yarnBlocks are the amounts that are worked out, with what they rest on. They
// stand under a heading of their own: the author's amounts are hers and stay.
func (b *builder) yarnBlocks() []Block {
	if !b.o.Yarn {
		return nil
	}
	var items []string
	var rate yarn.Rate
	sum := yarn.Sum{}
	proofs := inSizes(b.p, b.proof.Terms)
	for _, p := range proofs {
		var err error
		if rate, err = yarn.StatedRate(p); err != nil {
			continue
		}
		ball, _ := yarn.StatedBall(p.Pattern)
		g, _ := gauge.Stated(p)
		for _, a := range yarn.Of(p).Amounts(rate, ball, yarn.Margin) {
			sum.Tails += a.Tails
			sum.Long += a.Long
			if s := amount(a, g.Unit, ball); s != "" {
				if len(proofs) > 1 {
					s = p.InSize() + ", " + s
				}
				items = append(items, s)
			}
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []Block{
		{Kind: Heading, Text: "Yarn, worked out", Sub: true},
		{Kind: List, Items: items},
		{Kind: Para, Text: b.basis(rate, sum)},
	}
}

// amount tells what one colour takes.
func amount(a yarn.Amount, unit gauge.Unit, ball yarn.Ball) string {
	s := clean(a.Colour) + ": "
	switch {
	case a.MM.Mid > 0 && unit == gauge.Inches:
		s += a.MM.Times(1/mmPerYard).String() + " yards (" + a.MM.Times(0.001).String() + " m)"
	case a.MM.Mid > 0:
		s += a.MM.Times(0.001).String() + " m"
	case a.Grams.Mid > 0:
		return s + a.Grams.String() + " g"
	default:
		return ""
	}
	if a.Grams.Mid > 0 {
		s += ", " + a.Grams.String() + " g"
	}
	if a.Balls > 0 {
		s += ", so have " + strconv.FormatFloat(a.Balls, 'f', -1, 64) + " ball"
		if a.Balls > 1 {
			s += "s"
		}
		if ball.Grams > 0 {
			s += " of " + strconv.FormatFloat(ball.Grams, 'g', 4, 64) + " g"
		}
	}
	return s
}

// basis says what the amounts rest on, and how sure they are.
func (b *builder) basis(r yarn.Rate, sum yarn.Sum) string {
	said := "Counted stitch by stitch, "
	switch {
	case r.Rough:
		// without the word for gauge, so that it is the same in all terms
		said += "and estimated from how many stitches there are to a length: it may come to anything in these ranges, or a little beyond them."
	case r.N == 1:
		said += "by what one swatch took, which may be off by a tenth."
	default:
		said += fmt.Sprintf("by what %d swatches took: nine times of ten it lies in these ranges.", r.N)
	}
	said += fmt.Sprintf(" It is with %d cm for each end to weave in", yarn.TailMM/10)
	if sum.Long > 0 {
		said += fmt.Sprintf(" and %d cm for each long tail", yarn.LongTailMM/10)
	}
	said += "; yarn for other seams is not in it."
	for _, h := range b.p.Headers {
		if (h.Kind == pattern.HeaderYarn || h.Kind == pattern.HeaderMaterials) && statesAmount().MatchString(h.Text) {
			return said + " The designer's own amounts stand above, as given."
		}
	}
	return said + " The designer states no amounts."
}
