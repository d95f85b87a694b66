package yarn

import (
	"regexp"
	"strings"
	"sync"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
)

// StatedBall is what a pattern's header says of a ball, if it says one thing
// only: "Yarn: cotton, 50 g = 125 m".
func StatedBall(p *pattern.Pattern) (Ball, bool) {
	var ball Ball
	for _, h := range p.Headers {
		if h.Kind != pattern.HeaderYarn && h.Kind != pattern.HeaderMaterials {
			continue
		}
		b, err := ReadBall(h.Text)
		switch {
		case err != nil || b.Grams == 0 || b.MM == 0:
		case ball == (Ball{}):
			ball = b
		case ball != b:
			return Ball{}, false
		}
	}
	return ball, ball != Ball{}
}

// took is the words by which a swatch tells yarn.
var took = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\b(used|uses|took|takes|weighs?|weighed)\b`)
})

// StatedSwatches are the swatches of yarn in a pattern's header, each on a line
// of its own beside the gauge: "Gauge swatch: 400 sc weigh 6.1 g".
func StatedSwatches(p *pattern.Proof) (all []Swatch) {
	for _, h := range p.Pattern.Headers {
		// "20 sc = 10 cm" is a gauge, and no length of yarn.
		if h.Kind != pattern.HeaderGauge || !took().MatchString(h.Text) {
			continue
		}
		text := h.Text
		if name, rest, ok := strings.Cut(text, ":"); ok && strings.HasSuffix(strings.ToLower(name), "swatch") {
			text = rest
		}
		if s, err := ReadSwatch(strings.TrimSuffix(text, "."), p.Terms); err == nil {
			all = append(all, s)
		}
	}
	return all
}

// StatedRate is the rate that a pattern tells by itself: from the swatches in
// its header or, roughly, from its gauge, and its weight by the ball or the yarn
// that the header names. The error says why there is none.
func StatedRate(p *pattern.Proof) (Rate, error) {
	rate := Measured(StatedSwatches(p))
	if rate.N == 0 {
		g, err := gauge.Stated(p)
		if err != nil {
			return Rate{}, err
		}
		if rate, err = Estimated(g); err != nil {
			return Rate{}, err
		}
	}
	return rate.Stated(p.Pattern), nil
}

// Stated is a rate with what a pattern's header says of the weight of its yarn,
// where the rate tells none: by the ball or, of a rough one, by the yarn.
func (r Rate) Stated(p *pattern.Pattern) Rate {
	if ball, ok := StatedBall(p); ok {
		r = r.With(ball)
	}
	return r.Named(p)
}

// Named is a rough rate with the weight of the yarn that a pattern's header
// names, where it names one.
func (r Rate) Named(p *pattern.Pattern) Rate {
	if weights := gauge.StatedYarn(p); len(weights) == 1 && r.Rough {
		r = r.Weighing(weights[0])
	}
	return r
}
