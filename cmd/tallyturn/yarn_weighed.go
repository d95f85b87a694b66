package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/skein"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/yarn"
	"crochet/tallyturn/store"
)

// walkNamed is the walk of the project that --weighed names.
func (k yarnCommand) walkNamed() (store.Project, counter.State, error) {
	kept, err := k.lookAtBasket()
	if err != nil {
		return store.Project{}, counter.State{}, err
	}
	defer kept.Close() // it was only read
	p, err := projectNamed(kept, k.weighed)
	if err != nil {
		return store.Project{}, counter.State{}, err
	}
	p, events, err := kept.Load(p.ID)
	if err != nil {
		return store.Project{}, counter.State{}, fmt.Errorf("%s: %w", k.weighed, err)
	}
	walked, _ := counter.Replay(counter.NewPlan(provenAgain(p)), events)
	return p, walked, nil
}

// byWalk is the rate of what was weighed in a walk, for all that a pattern takes.
func (k yarnCommand) byWalk(proof *pattern.Proof) (yarn.Rate, error) {
	p, walked, err := k.walkNamed()
	if err != nil {
		return yarn.Rate{}, err
	}
	var book skein.Book
	own := book.Weighed(walked, skein.StatedRate(walked))
	if !own.Known() {
		return yarn.Rate{}, fmt.Errorf("%s: was not weighed twice, nor once and at the start, so nothing tells what a stitch takes", heading(p))
	}
	units := 0.0
	for _, s := range yarn.Of(proof).Sums() {
		units = max(units, yarn.Rate{}.Whole(s))
	}
	return own.Rate(units), nil
}

// walked says what a walk has taken of each yarn, and whether the rest lasts.
func (k yarnCommand) walked(c *cobra.Command) error {
	for _, name := range []string{"swatch", "gauge", "ball", "margin", "left", "piece", "copy", "row", "size", "terms"} {
		if c.Flags().Changed(name) {
			return fmt.Errorf("--%s needs a FILE; without one the walk of the project is told as it is", name)
		}
	}
	p, walked, err := k.walkNamed()
	if err != nil {
		return err
	}
	var book skein.Book
	text := heading(p) + "\n\n" + book.Of(walked, skein.StatedRate(walked)).Text()
	if _, err := io.WriteString(k.out, cleanLines(text)); err != nil {
		return fmt.Errorf("cannot write the account: %w", err)
	}
	return nil
}
