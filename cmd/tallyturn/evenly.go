package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/even"
	"crochet/tallyturn/pattern/stitch"
)

func newEvenly(w world) *cobra.Command {
	var terms, ends string
	var round bool
	c := &cobra.Command{
		Use:   "evenly WORDS...",
		Short: "Spread increases or decreases evenly over a row",
		Long: `evenly writes the row that increases or decreases evenly, and says how the
increases lie. WORDS say what is wanted: "increase 7 over 61", "dec 9 over 80
hdc", "61 into 68".

The plain stitches between two increases differ by one at most, and the row
reads the same from both ends wherever the numbers allow it. It is proven before
it is printed.

With --round, or where WORDS say "around", the end of the round is its
beginning: it ends with an increase.`,
		Example: `  tallyturn evenly increase 7 over 61
  tallyturn evenly decrease 9 over 80 dc
  tallyturn evenly 61 into 68 --ends half
  tallyturn evenly inc 6 around 48`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return wrongUse(c, `say what is wanted, as "increase 7 over 61"`)
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			t, err := termsNamed(terms)
			if err != nil {
				return err
			}
			ask, err := even.Read(strings.Join(args, " "), t)
			if err != nil {
				return err
			}
			how, err := endsNamed(ends, round || ask.Around)
			if err != nil {
				return err
			}
			s, err := even.Of(ask.Over, ask.Into, how)
			if err != nil {
				return err
			}
			if ask.Stitch == stitch.None {
				ask.Stitch = stitch.SC
			}
			row := s.Row(ask.Stitch, t)
			if err := provenRow(s, ask.Stitch, t); err != nil {
				return err
			}
			_, err = fmt.Fprintf(w.out, "%s\n\n%s\n", row, s.About())
			return err
		},
	}
	c.Flags().StringVar(&terms, "terms", "us", "read and write in `us|uk` terms")
	c.Flags().BoolVar(&round, "round", false, "it is a round: its end is its beginning")
	c.Flags().StringVar(&ends, "ends", "", "what a row has at its ends: `whole|half|none` of the run of plain\nstitches between two increases; none begins with a run and ends\nwith an increase (default: whole, and none for a round)")
	return c
}

func endsNamed(name string, round bool) (even.Ends, error) {
	switch name {
	case "":
		if round {
			return even.Joined, nil
		}
		return even.Whole, nil
	case "whole":
		if round {
			return 0, fmt.Errorf("a round has no ends; --ends is half or none for it")
		}
		return even.Whole, nil
	case "half":
		return even.Halved, nil
	case "none":
		return even.Joined, nil
	}
	return 0, fmt.Errorf("--ends is whole, half or none, not %q", name)
}

// provenRow works a spread row into a row of its own.
func provenRow(s even.Spread, id stitch.ID, terms stitch.Terms) error {
	proof := pattern.Read(s.Trial(id, terms)).Prove(pattern.Options{Terms: terms})
	if sum := proof.Summary(); sum.Rows != 2 || sum.Agrees != 2 || len(proof.Findings) > 0 {
		return fmt.Errorf("the row for %d into %d could not be proven, so it is not printed", s.Over, s.Into)
	}
	return nil
}
