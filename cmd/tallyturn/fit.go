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
	"crochet/tallyturn/pattern/fit"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/tui"
)

type fitCommand struct {
	world
	choice
	around, wide string
	tall         string
	rows         int64
	sizes        string
	ease         string
	stitches     int64
	piece        string
	gauge        []string
	swatch       []string
	ball         string
}

func newFit(w world) *cobra.Command {
	k := fitCommand{world: w}
	c := &cobra.Command{
		Use:   "fit FILE",
		Short: "Write a pattern anew in another size",
		Long: `fit finds the base chain nearest to the measure wished on which every row still
works, and writes the pattern anew: your own words, and only the numbers in them
changed. Pieces that are worked onto another are moved with it: what is centred
stays centred, equal margins and gaps stay equal where they can, a stitch that
two pieces share stays shared.

The new pattern goes to standard output, proven as it is printed. What changed,
what had to be rounded, what was kept as it is and which passages of prose you
should read again goes to standard error.

Lengths are in mm, cm, m or inches: 22cm, "8 1/2 in". The gauge is the one that
the pattern states unless --gauge gives another; several are a swatch counted at
several places.

Higher or lower it comes by rows that repeat, such as Rows 2-14; rows that shape
it stay as many as they are, and those after are counted anew.

FILE is plain text of at most 4 MB; - is standard input.

Exit status: 0 the pattern was written, 1 no size near the wish works, 2 the
wish or the file is no use.`,
		Example: `  tallyturn fit pennant.txt --wide 22cm > wide.txt
  tallyturn fit cowl.txt --around 56cm --ease=-5%
  tallyturn fit net.txt --stitches 40 --gauge "20 dc = 10 cm"
  tallyturn demo pennant | tallyturn fit - --wide 9in`,
		Args: patternFiles(1, 1),
		RunE: func(c *cobra.Command, files []string) error { return k.run(c, files[0]) },
	}
	c.Flags().StringVar(&k.around, "around", "", "make it this `length` around: a wrist, a head, a jar")
	c.Flags().StringVar(&k.wide, "wide", "", "make it this `length` wide as it lies flat")
	c.Flags().Int64Var(&k.stitches, "stitches", 0, "make its widest row so many stitches")
	c.Flags().StringVar(&k.tall, "tall", "", "make it this `length` high, by the rows that repeat")
	c.Flags().Int64Var(&k.rows, "rows", 0, "make it so many rows")
	c.Flags().StringVar(&k.ease, "ease", "", "make it so much larger than --around or --wide, a `length` or a\npercentage; negative for stretch")
	c.Flags().StringVar(&k.sizes, "sizes", "", "write it in several `sizes` at once:\n\"small=22cm, medium=26cm, large=30cm\"")
	c.Flags().StringVar(&k.piece, "piece", "", "fit the piece of this `name` (default: the first that begins on\na chain)")
	c.Flags().StringArrayVar(&k.gauge, "gauge", nil, aboutGauge)
	c.Flags().StringArrayVar(&k.swatch, "swatch", nil, "with --sizes: tell the yarn by what a `swatch` took, as\n\"400 sc weigh 6.1 g\"")
	c.Flags().StringVar(&k.ball, "ball", "", "with --sizes: tell it in balls of this `band`: \"50 g = 125 m\"")
	c.Flags().StringVar(&k.size, "size", "", "go from this `size` of a pattern in several")
	c.Flags().StringVar(&k.terms, "terms", "", "read it in `us|uk` terms, whatever the pattern says")
	return c
}

func (k fitCommand) run(c *cobra.Command, file string) error {
	wish, err := k.wish(c)
	if err != nil {
		return err
	}
	name, proof, err := k.open(k.world, file)
	if err != nil {
		return err
	}
	if all := proof.Pattern.Sizes; len(all) > 1 {
		if k.size == "" {
			return fmt.Errorf("%s: is written in %s; say with --size which of them to go from", name, strings.Join(all, ", "))
		}
		text := proof.Pattern.OneSize(slices.Index(all, proof.Size))
		if proof, err = (choice{terms: k.terms}).prove(name, text); err != nil {
			return err
		}
	}
	g, err := k.readGauge(proof)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if k.sizes != "" {
		sizes, err := readSizes(k.sizes, wish)
		if err != nil {
			return err
		}
		all, err := fit.ToSizes(proof, g, sizes)
		if err != nil {
			return k.failed(name, err)
		}
		if err := k.needs(all, proof, g); err != nil {
			return err
		}
		return k.print(all.Text, all.Lines())
	}
	res, err := fit.To(proof, g, wish)
	if err != nil {
		return k.failed(name, err)
	}
	return k.print(res.Text, res.Lines())
}

// print writes the pattern, and what there is to say about it.
func (k fitCommand) print(text string, lines []string) error {
	if _, err := io.WriteString(k.out, text); err != nil {
		return fmt.Errorf("cannot write the pattern: %w", reason(err))
	}
	for _, line := range lines {
		fmt.Fprintln(k.err, tui.Clean(line))
	}
	return nil
}

// failed says why there is no such size.
func (k fitCommand) failed(name string, err error) error {
	var far *fit.NotWithinReach
	if !errors.As(err, &far) {
		return fmt.Errorf("%s: %w", name, err)
	}
	of := ""
	if one := (*fit.OfSize)(nil); errors.As(err, &one) {
		of = "size " + one.Name + ": "
	}
	for i, line := range far.Lines() {
		if i == 0 {
			line = "tallyturn: " + name + ": " + of + line
		}
		fmt.Fprintln(k.err, tui.Clean(line))
	}
	return errFound
}

// wish reads the measures asked for.
func (k fitCommand) wish(c *cobra.Command) (fit.Wish, error) {
	w := fit.Wish{Stitches: k.stitches, Rows: k.rows, Piece: k.piece}
	for _, m := range []struct {
		flag, text string
		to         *float64
	}{{"around", k.around, &w.Around}, {"wide", k.wide, &w.Wide}, {"tall", k.tall, &w.Tall}} {
		if !c.Flags().Changed(m.flag) {
			continue
		}
		mm, err := lengthFlag(m.flag, m.text)
		if err != nil {
			return w, err
		}
		*m.to = mm
	}
	if c.Flags().Changed("stitches") && k.stitches < 1 {
		return w, fmt.Errorf("--stitches is a number from 2 up, not %d", k.stitches)
	}
	if c.Flags().Changed("sizes") {
		for _, other := range []string{"around", "wide", "stitches"} {
			if c.Flags().Changed(other) {
				return w, fmt.Errorf("--sizes says how wide each size is; leave out --%s", other)
			}
		}
	}
	if (len(k.swatch) > 0 || k.ball != "") && k.sizes == "" {
		return w, errors.New("--swatch and --ball tell the yarn of --sizes; of one size 'tallyturn yarn' tells it")
	}
	if c.Flags().Changed("rows") && k.rows < 1 {
		return w, fmt.Errorf("--rows is a number from 1 up, not %d", k.rows)
	}
	if c.Flags().Changed("ease") {
		e, err := readEase(k.ease)
		if err != nil {
			return w, err
		}
		w.Ease = e
	}
	return w, nil
}

func lengthFlag(flag, text string) (float64, error) {
	mm, _, err := gauge.Length(text)
	switch {
	case err != nil:
		return 0, fmt.Errorf("--%s: %w", flag, err)
	case mm <= 0:
		return 0, fmt.Errorf("--%s: %q is no length to make a piece of", flag, text)
	}
	return mm, nil
}

// readEase reads "-5%" or "2cm".
func readEase(text string) (fit.Ease, error) {
	t := strings.ReplaceAll(strings.TrimSpace(text), "−", "-")
	if number, ok := strings.CutSuffix(t, "%"); ok {
		p, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		switch {
		case err != nil || p != p:
			return fit.Ease{}, fmt.Errorf("--ease: %q is no percentage; write it as -5%%", text)
		case p <= -100 || p > 1000:
			return fit.Ease{}, fmt.Errorf("--ease: %s leaves nothing that could be made", text)
		}
		return fit.Ease{Percent: p}, nil
	}
	mm, _, err := gauge.Length(t)
	if err != nil {
		return fit.Ease{}, fmt.Errorf("--ease: %w; or a percentage, as -5%%", err)
	}
	return fit.Ease{MM: mm}, nil
}

// readGauge is the gauge given, or the one that the pattern states. There may
// be none: a wish for stitches needs none.
func (k fitCommand) readGauge(proof *pattern.Proof) (gauge.Gauge, error) {
	if len(k.gauge) > 0 {
		return gaugeOf(proof, k.gauge)
	}
	g, err := gauge.Stated(proof)
	if errors.Is(err, gauge.ErrNotSaid) || err != nil && !k.measured() {
		return gauge.Gauge{}, nil
	}
	return g, err
}

// measured reports whether a length is asked for.
func (k fitCommand) measured() bool {
	return k.around != "" || k.wide != "" || k.tall != "" || k.sizes != ""
}
