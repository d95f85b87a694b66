package main

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/fit"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/yarn"
)

// needs adds the yarn of each size: by the swatches given or stated, or roughly
// by the gauge. Where there is none nothing is added.
func (k fitCommand) needs(all *fit.Several, proof *pattern.Proof, g gauge.Gauge) error {
	ball, err := readBall(k.ball)
	if err != nil {
		return err
	}
	swatches, err := readSwatches(k.swatch, proof.Terms)
	if err != nil {
		return err
	}
	if len(swatches) == 0 {
		swatches = yarn.StatedSwatches(proof)
	}
	rate := yarn.Measured(swatches)
	if rate.N == 0 {
		if rate, err = yarn.Estimated(g); err != nil {
			return nil // nothing tells it, and the sizes are what was asked for
		}
	}
	if rate = rate.With(ball).Stated(proof.Pattern); ball == (yarn.Ball{}) {
		ball, _ = yarn.StatedBall(proof.Pattern)
	}
	all.NeedsYarn(rate, ball)
	return nil
}

// readSizes reads "small=22cm, medium=26cm around, large=30cm x 40cm,
// huge=60 sts": names with the measure of each.
func readSizes(text string, common fit.Wish) ([]fit.Size, error) {
	var out []fit.Size
	for _, part := range strings.Split(text, ",") {
		name, measure, ok := strings.Cut(part, "=")
		name, measure = strings.TrimSpace(name), strings.TrimSpace(measure)
		switch {
		case !ok || measure == "":
			return nil, fmt.Errorf("--sizes: %q names no measure; write it as small=22cm, large=30cm", strings.TrimSpace(part))
		case name == "":
			return nil, fmt.Errorf("--sizes: %q names no size; write it as small=22cm, large=30cm", strings.TrimSpace(part))
		case strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != ' ' && r != '-' }):
			return nil, fmt.Errorf("--sizes: %q is no name for a size; use letters and digits", name)
		}
		for _, s := range out {
			if strings.EqualFold(s.Name, name) {
				return nil, fmt.Errorf("--sizes: %q is named twice", name)
			}
		}
		w := common
		if err := sizeMeasure(&w, measure); err != nil {
			return nil, err
		}
		out = append(out, fit.Size{Name: name, Wish: w})
	}
	return out, nil
}

// sizeMeasure reads "22cm", "22cm around", "22cm x 40cm", "60 sts".
func sizeMeasure(w *fit.Wish, text string) error {
	across, up, both := cutTimes(text)
	if both {
		mm, err := lengthFlag("sizes", up)
		if err != nil {
			return err
		}
		w.Tall = mm
	}
	for _, sts := range []string{"sts", "st", "stitches"} {
		if number, ok := strings.CutSuffix(across, sts); ok {
			n, err := strconv.ParseInt(strings.TrimSpace(number), 10, 64)
			if err != nil || n < 1 {
				return fmt.Errorf("--sizes: %q is no number of stitches", across)
			}
			w.Stitches = n
			return nil
		}
	}
	to := &w.Wide
	if length, ok := strings.CutSuffix(across, "around"); ok {
		across, to = strings.TrimSpace(length), &w.Around
	}
	mm, err := lengthFlag("sizes", across)
	if err != nil {
		return err
	}
	*to = mm
	return nil
}

// cutTimes cuts "22cm x 40cm" in two.
func cutTimes(text string) (across, up string, both bool) {
	for _, by := range []string{" x ", "×", " by "} {
		if a, b, ok := strings.Cut(text, by); ok {
			return strings.TrimSpace(a), strings.TrimSpace(b), true
		}
	}
	return text, "", false
}
