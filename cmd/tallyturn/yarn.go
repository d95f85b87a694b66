package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/yarn"
)

type yarnCommand struct {
	world
	choice
	swatch, gauge []string
	ball, margin  string
}

func newYarn(w world) *cobra.Command {
	k := yarnCommand{world: w}
	c := &cobra.Command{
		Use:   "yarn FILE",
		Short: "Work out how much yarn a pattern takes, by colour",
		Long: `yarn works out the metres, grams and balls that each colour of a pattern takes,
every copy of its pieces and all ends with it.

It goes by a swatch of yours: so many stitches took so much yarn, by length or by
weight. Of several, how far they differ is carried to the answer. Stitches of
other kinds are told from those of the swatch by measured shares: a half double
crochet takes 1.48 and a double crochet 1.92 times the yarn of a single crochet.

Without a swatch it gives a rough estimate from the gauge, and says so.

FILE is plain text of at most 4 MB; - is standard input.`,
		Example: `  tallyturn yarn pennant.txt --swatch "20 sc x 22 rows used 8.2 m"
  tallyturn yarn hat.txt --swatch "400 hdc weigh 28 g" --ball "100 g = 200 m"
  tallyturn yarn pennant.txt --ball "50 g = 125 m" --margin 20%`,
		Args: patternFiles(1, 1),
		RunE: func(c *cobra.Command, files []string) error { return k.run(files[0]) },
	}
	c.Flags().StringArrayVar(&k.swatch, "swatch", nil, "what a `swatch` took: \"20 sc x 22 rows used 8.2 m\" or\n\"400 sc weigh 6.1 g\"; give several for a range")
	c.Flags().StringArrayVar(&k.gauge, "gauge", nil, aboutGauge+"; used without a swatch")
	c.Flags().StringVar(&k.ball, "ball", "", "what a `ball` has by its band: \"50 g = 125 m\"")
	c.Flags().StringVar(&k.margin, "margin", "10%", "how much more to have, as a `percentage`")
	c.Flags().StringVar(&k.size, "size", "", "for this `size`, spelled as in the pattern (default: its first)")
	c.Flags().StringVar(&k.terms, "terms", "", "read it in `us|uk` terms, whatever the pattern says")
	return c
}

func (k yarnCommand) run(file string) error {
	name := sourceName(file)
	margin, err := readMargin(k.margin)
	if err != nil {
		return err
	}
	var ball yarn.Ball
	if k.ball != "" {
		if ball, err = yarn.ReadBall(k.ball); err != nil {
			return fmt.Errorf("--ball: %w", err)
		}
	}
	text, err := readSource(file, k.in)
	if err != nil {
		return err
	}
	proof, err := k.prove(name, text)
	if err != nil {
		return err
	}
	rate, err := k.rate(name, proof)
	if err != nil {
		return err
	}
	if weights := gauge.StatedYarn(proof.Pattern); ball.MM == 0 && len(weights) == 1 && rate.Rough {
		rate = rate.Weighing(weights[0])
	}
	title := proof.Pattern.Title
	if title == "" {
		title = name
	}
	_, err = io.WriteString(k.out, cleanLines(title+"\n\n"+yarn.Text(yarn.Of(proof), rate, ball, margin)))
	return err
}

// rate is what a single crochet takes: by the swatches given, or roughly by the
// gauge.
func (k yarnCommand) rate(name string, proof *pattern.Proof) (yarn.Rate, error) {
	if len(k.swatch) == 0 {
		g, err := gaugeOf(proof, k.gauge)
		if err == nil {
			var r yarn.Rate
			if r, err = yarn.Estimated(g); err == nil {
				return r, nil
			}
		}
		return yarn.Rate{}, fmt.Errorf(`%s: %w; a swatch is better still, as --swatch "20 sc x 22 rows used 8.2 m"`, name, err)
	}
	var all []yarn.Swatch
	for _, text := range k.swatch {
		s, err := yarn.ReadSwatch(text, proof.Terms)
		if err != nil {
			return yarn.Rate{}, fmt.Errorf("--swatch: %w", err)
		}
		all = append(all, s)
	}
	return yarn.Measured(all), nil
}

// readMargin reads "10%" and "10".
func readMargin(text string) (float64, error) {
	p, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")), 64)
	if err != nil || !(p >= 0 && p <= 500) {
		return 0, fmt.Errorf("--margin is a percentage from 0%% to 500%%, not %q", text)
	}
	return p / 100, nil
}
