package skein

import (
	"strings"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern/yarn"
)

// Book remembers what patterns take, so that they are not counted again at each
// look. The zero Book is empty.
type Book struct {
	usages map[*counter.Plan]*yarn.Usage
}

// usage is what a plan takes.
func (b *Book) usage(plan *counter.Plan) *yarn.Usage {
	if u, ok := b.usages[plan]; ok {
		return u
	}
	if b.usages == nil {
		b.usages = map[*counter.Plan]*yarn.Usage{}
	}
	u := yarn.Of(plan.Proof())
	b.usages[plan] = u
	return u
}

// worked is what is worked of each yarn where copies stand.
func (b *Book) worked(g counter.Standing) []yarn.Sum {
	u := b.usage(g.Plan())
	sums := make([]yarn.Sum, len(u.Colours))
	for at := range g.Places() {
		share := 0.0
		if row, _ := g.Plan().Row(at.Piece, at.Row); row != nil {
			if n, known := row.Expect(); known && n > 0 {
				share = min(float64(at.Stitch)/float64(n), 1)
			}
		}
		u.AddCopy(sums, at.Piece, at.Row, share)
	}
	return sums
}

// colourOf is which yarn of a pattern a name is; where there is one only, it is
// that; -1 for one that the pattern has not.
func colourOf(u *yarn.Usage, name string) int {
	for i, c := range u.Colours {
		if strings.EqualFold(c, name) {
			return i
		}
	}
	if len(u.Colours) == 1 {
		return 0
	}
	return -1
}

// reading is a weighing with what was worked by then.
type reading struct {
	yarn.Reading
	at    counter.Place
	first bool
}

// readings are the weighings of a colour of the plan in hand, the oldest first.
// Across a change of the pattern what was worked goes on from where it was,
// however much of it the new text has.
func (b *Book) readings(s counter.State, colour int, r yarn.Rate) (out []reading, over float64) {
	u := b.usage(s.Plan())
	name := u.Colours[colour]
	sum := func(g counter.Standing) float64 {
		if i := colourOf(b.usage(g.Plan()), name); i >= 0 {
			return r.Whole(b.worked(g)[i])
		}
		return 0
	}
	for _, w := range s.Weighings() {
		switch {
		case w.Now != nil:
			over += sum(w.Where) - sum(*w.Now)
		case colourOf(u, w.Colour) != colour:
		case w.AtFirst:
			// There is one first weight: the last that was given.
			if len(out) > 0 && out[0].first {
				out = out[1:]
			}
			out = append([]reading{{yarn.Reading{Grams: grams(w)}, counter.Place{}, true}}, out...)
		default:
			out = append(out, reading{yarn.Reading{Units: over + sum(w.Where), Ball: w.Ball, Grams: grams(w)}, w.Where.At(), false})
		}
	}
	return out, over
}

func grams(w counter.Weighing) float64 { return float64(w.Milligrams) / 1000 }
