package main

import (
	"fmt"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// times says how long the pattern takes at the pace at which the project of
// that name in the basket was worked.
func (k sheetCommand) times(name string, proof *pattern.Proof) (string, error) {
	kept, err := k.lookAtBasket()
	if err != nil {
		return "", err
	}
	defer kept.Close() // it was only read
	p, err := projectNamed(kept, name)
	if err != nil {
		return "", err
	}
	p, events, err := kept.Load(p.ID)
	if err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	worked, _ := counter.Replay(counter.NewPlan(provenAgain(p)), events)
	f := counter.Begin(counter.NewPlan(proof)).Outlook(worked.Pace()).Project
	if !f.Known {
		return "", fmt.Errorf("%s: the pace is not known: %s", name, f.Why)
	}
	return "Takes about " + roundTime((f.Low+f.High)/2) + " at the designer's pace, without the making up.", nil
}

// roundTime tells a length of time in ms as one would say it: to the minute
// below a quarter of an hour, and to five minutes above it.
func roundTime(ms int64) string {
	step := int64(5)
	if ms < 15*60_000 {
		step = 1
	}
	minutes := max((ms/60_000+step/2)/step*step, 1)
	switch h, m := minutes/60, minutes%60; {
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %d min", h, m)
	}
}
