package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
	"crochet/tallyturn/pattern/yarn"
)

type yarnCommand struct {
	walkCommand
	weighed       string
	swatch, gauge []string
	ball, margin  string
	left          []string
	piece         string
	row, copy     int
}

func newYarn(w world) *cobra.Command {
	k := yarnCommand{walkCommand: walkCommand{world: w}}
	c := &cobra.Command{
		Use:   "yarn [FILE]",
		Short: "Work out how much yarn a pattern takes, by colour",
		Long: `yarn works out the metres, grams and balls that each colour of a pattern takes,
every copy of its pieces and all ends with it.

It goes by a swatch of yours: so many stitches took so much yarn, by length or by
weight. Of several, how far they differ is carried to the answer. Stitches of
other kinds are told from those of the swatch by measured shares: a half double
crochet takes 1.48 and a double crochet 1.92 times the yarn of a single crochet.

With --left it says whether what is left of a colour lasts: "navy 31 g", by the
scale. --piece, --copy and --row say how far the work has come, the rows and copies
before that one being done.

With --weighed it goes by what was weighed in the walk of a project instead. Without
a FILE it says of that walk what each yarn has taken so far, and whether what is
left lasts.

Without a swatch it gives a rough estimate from the gauge, and says so.

FILE is plain text of at most 4 MB; - is standard input.`,
		Example: `  tallyturn yarn pennant.txt --swatch "20 sc x 22 rows used 8.2 m"
  tallyturn yarn hat.txt --swatch "400 hdc weigh 28 g" --ball "100 g = 200 m"
  tallyturn yarn pennant.txt --ball "50 g = 125 m" --margin 20%
  tallyturn yarn hat.txt --swatch "400 hdc weigh 28 g" --row 12 --left "31 g"
  tallyturn yarn --weighed hat.txt`,
		Args: func(c *cobra.Command, files []string) error {
			if k.weighed != "" && len(files) == 0 {
				return nil
			}
			return patternFiles(1, 1)(c, files)
		},
		RunE: func(c *cobra.Command, files []string) error {
			if len(files) == 0 {
				return k.walked(c)
			}
			return k.run(files[0])
		},
	}
	c.Flags().StringVar(&k.weighed, "weighed", "", "go by what was weighed in the walk of this `project`")
	c.Flags().StringArrayVar(&k.swatch, "swatch", nil, "what a `swatch` took: \"20 sc x 22 rows used 8.2 m\" or\n\"400 sc weigh 6.1 g\"; give several for a range")
	c.Flags().StringArrayVar(&k.gauge, "gauge", nil, aboutGauge+"; used without a swatch")
	c.Flags().StringVar(&k.ball, "ball", "", "what a `ball` has by its band: \"50 g = 125 m\"")
	c.Flags().StringVar(&k.margin, "margin", "10%", "how much more to have, as a `percentage`")
	c.Flags().StringArrayVar(&k.left, "left", nil, "say whether this `yarn` lasts: \"navy 31 g\"")
	c.Flags().StringVar(&k.piece, "piece", "", "with --left: the piece of this `name` is in work (default: the\nfirst)")
	c.Flags().IntVar(&k.copy, "copy", 1, "with --left: of a piece made several times the copy of this\n`number` is in work")
	c.Flags().IntVar(&k.row, "row", 1, "with --left: the row of this `number` comes next")
	c.Flags().StringVar(&k.size, "size", "", "for this `size`, spelled as in the pattern (default: its first)")
	c.Flags().StringVar(&k.terms, "terms", "", "read it in `us|uk` terms, whatever the pattern says")
	c.MarkFlagsMutuallyExclusive("weighed", "swatch")
	k.dataFlag(c, false)
	return c
}

func (k yarnCommand) run(file string) error {
	margin, err := readMargin(k.margin)
	if err != nil {
		return err
	}
	ball, err := readBall(k.ball)
	if err != nil {
		return err
	}
	name, proof, err := k.open(k.world, file)
	if err != nil {
		return err
	}
	rate, err := k.rate(name, proof)
	if err != nil {
		return err
	}
	if ball.MM == 0 {
		rate = rate.Named(proof.Pattern)
	}
	if len(k.left) > 0 {
		return k.lasts(name, proof, rate.With(ball))
	}
	_, err = io.WriteString(k.out, cleanLines(titleOf(proof, name)+"\n\n"+yarn.Text(yarn.Of(proof), rate, ball, margin)))
	return err
}

// lasts says of each yarn that is left whether it is enough.
func (k yarnCommand) lasts(name string, proof *pattern.Proof, rate yarn.Rate) error {
	if rate.Grams.Mid == 0 {
		return errors.New(`grams cannot be told from this: weigh the swatch, or give the --ball, as "50 g = 125 m"`)
	}
	piece, row := 0, -1
	if k.piece != "" {
		piece = slices.IndexFunc(proof.Pieces, func(p *pattern.PieceProof) bool { return strings.EqualFold(p.Piece.Name, k.piece) })
	}
	if piece < 0 {
		return fmt.Errorf("%s: has no piece %q", name, k.piece)
	}
	for _, r := range proof.Pieces[piece].Rows {
		if r.First <= k.row && k.row <= r.Last {
			row = r.Index + k.row - r.First
		}
	}
	if row < 0 {
		return fmt.Errorf("%s: has no row %d there", name, k.row)
	}
	if most := max(proof.Pieces[piece].Piece.Copies, 1); k.copy < 1 || k.copy > most {
		return fmt.Errorf("%s: makes %d of that piece, so there is no copy %d", name, most, k.copy)
	}
	u := yarn.Of(proof)
	left := u.Left(piece, k.copy-1, row)
	for _, text := range k.left {
		colour, grams, err := u.ReadLeft(text)
		if err != nil {
			return fmt.Errorf("--left: %w", err)
		}
		if _, err := io.WriteString(k.out, cleanLines(yarn.Told(u.Colours[colour], rate.Weight(left[colour]), grams)+"\n")); err != nil {
			return err
		}
	}
	if rate.Rough {
		_, err := io.WriteString(k.out, "A rough estimate, from the gauge alone.\n")
		return err
	}
	return nil
}

// rate is what a single crochet takes: by the swatches given, or roughly by the
// gauge.
func (k yarnCommand) rate(name string, proof *pattern.Proof) (yarn.Rate, error) {
	if k.weighed != "" {
		return k.byWalk(proof)
	}
	if len(k.swatch) == 0 {
		if all := yarn.StatedSwatches(proof); len(all) > 0 && len(k.gauge) == 0 {
			return yarn.Measured(all), nil
		}
		g, err := gaugeOf(proof, k.gauge)
		if err == nil {
			var r yarn.Rate
			if r, err = yarn.Estimated(g); err == nil {
				return r, nil
			}
		}
		return yarn.Rate{}, fmt.Errorf(`%s: %w; a swatch is better still, as --swatch "20 sc x 22 rows used 8.2 m"`, name, err)
	}
	all, err := readSwatches(k.swatch, proof.Terms)
	return yarn.Measured(all), err
}

// readBall reads what a ball has; nothing where nothing is said.
func readBall(text string) (yarn.Ball, error) {
	if text == "" {
		return yarn.Ball{}, nil
	}
	ball, err := yarn.ReadBall(text)
	if err != nil {
		return yarn.Ball{}, fmt.Errorf("--ball: %w", err)
	}
	return ball, nil
}

// readSwatches reads what swatches took.
func readSwatches(texts []string, terms stitch.Terms) (all []yarn.Swatch, err error) {
	for _, text := range texts {
		s, err := yarn.ReadSwatch(text, terms)
		if err != nil {
			return nil, fmt.Errorf("--swatch: %w", err)
		}
		all = append(all, s)
	}
	return all, nil
}

// readMargin reads "10%" and "10".
func readMargin(text string) (float64, error) {
	p, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")), 64)
	if err != nil || !(p >= 0 && p <= 500) {
		return 0, fmt.Errorf("--margin is a percentage from 0%% to 500%%, not %q", text)
	}
	return p / 100, nil
}
