package main

import (
	"errors"
	"fmt"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
)

// aboutGauge is what --gauge is in every command that measures.
const aboutGauge = "work to this `gauge`, whatever the pattern says:\n\"20 sc and 22 rows = 10 cm\"; several are a swatch counted at\nseveral places"

// gaugeOf is the gauge given, or else the one that the pattern states. Its
// error fits on one line.
func gaugeOf(proof *pattern.Proof, given []string) (gauge.Gauge, error) {
	if len(given) > 0 {
		g, err := gauge.Read(proof.Terms, given...)
		if err != nil {
			return g, fmt.Errorf("--gauge: %w", err)
		}
		return g, nil
	}
	g, err := gauge.Stated(proof)
	if errors.Is(err, gauge.ErrNotSaid) {
		return g, errors.New(`states no gauge; give one, as --gauge "20 sc and 22 rows = 10 cm"`)
	}
	return g, err
}
