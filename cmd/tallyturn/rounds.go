package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/round"
	"crochet/tallyturn/pattern/stitch"
	"crochet/tallyturn/tui"
)

type roundsCommand struct {
	world
	choice
	circle, ball, oval string
	gauge              []string
	stitch             string
	joined, exact      bool
}

func newRounds(w world) *cobra.Command {
	k := roundsCommand{world: w}
	c := &cobra.Command{
		Use:   "rounds [FILE]",
		Short: "Work out a circle, ball or oval, or what given rounds come to",
		Long: `rounds writes a flat circle, a ball or a flat oval of a size, as a pattern in
rounds. The increases are spread evenly, and every other round begins half a run
later so that they make no corners. It is proven before it is printed.

rounds FILE goes the other way: what size the rounds of a pattern come to, and
whether they lie flat, cup or ruffle, with the geometry behind it. A piece with
corners is measured against a flat one with as many.

A flat circle grows by 2 x pi x the height of a round, in stitches of their width.
What print usually grows by is taken where it is within a tenth of that; --exact
takes the nearest number of stitches in each round instead. With a swatch counted
at several places it says by how much the size may be off.

FILE is plain text of at most 4 MB; - is standard input.`,
		Example: `  tallyturn rounds --circle 12cm --gauge "20 sc and 22 rows = 10 cm"
  tallyturn rounds --ball 3in --gauge "18 sc and 20 rows = 4 in"
  tallyturn rounds --oval 30x20cm --gauge "14 dc and 8 rows = 10 cm"
  tallyturn rounds limpet.txt --gauge "20 sc and 22 rows = 10 cm"`,
		Args: patternFiles(0, 1),
		RunE: func(c *cobra.Command, files []string) error {
			shapes := 0
			for _, s := range []string{k.circle, k.ball, k.oval} {
				if s != "" {
					shapes++
				}
			}
			switch {
			case shapes > 1 || shapes == 1 && len(files) > 0:
				return wrongUse(c, "ask for one thing: --circle, --ball, --oval or a FILE")
			case shapes == 1 && k.size != "":
				return wrongUse(c, "--size goes with a FILE")
			case shapes == 1:
				return k.plan()
			case len(files) == 0:
				return wrongUse(c, "ask for a --circle, a --ball or an --oval, or name a pattern file")
			case k.stitch != "" || k.joined || k.exact:
				return wrongUse(c, "--stitch, --joined and --exact go with --circle, --ball or --oval")
			}
			return k.measure(files[0])
		},
	}
	c.Flags().StringVar(&k.circle, "circle", "", "a flat circle of this `length` across")
	c.Flags().StringVar(&k.ball, "ball", "", "a ball of this `length` across")
	c.Flags().StringVar(&k.oval, "oval", "", "a flat oval of these `lengths`, as 30x20cm")
	c.Flags().StringArrayVar(&k.gauge, "gauge", nil, aboutGauge)
	c.Flags().StringVar(&k.stitch, "stitch", "", "work in this `stitch` (default: that of the gauge)")
	c.Flags().BoolVar(&k.joined, "joined", false, "join each round; taller stitches than single crochet are joined\nanyway")
	c.Flags().BoolVar(&k.exact, "exact", false, "grow by the nearest whole stitch in each round")
	c.Flags().StringVar(&k.terms, "terms", "", "read and write in `us|uk` terms (default: us, or what FILE says)")
	c.Flags().StringVar(&k.size, "size", "", "measure this `size` of FILE, spelled as in the pattern")
	return c
}

// plan writes a shape of a size.
func (k roundsCommand) plan() error {
	terms, err := termsNamed(k.terms)
	if err != nil {
		return err
	}
	if terms == stitch.Unknown {
		terms = stitch.US
	}
	if len(k.gauge) == 0 {
		return errors.New(`give a gauge, as --gauge "20 sc and 22 rows = 10 cm"`)
	}
	g, err := gauge.Read(terms, k.gauge...)
	if err != nil {
		return fmt.Errorf("--gauge: %w", err)
	}
	id, err := stitchNamed(k.stitch, terms)
	if err != nil {
		return err
	}
	f, err := round.Of(g, id, terms)
	if err != nil {
		return err
	}
	f.Joined = f.Joined || k.joined
	f.Exact = k.exact
	p, err := k.shape(f)
	if err != nil {
		return err
	}
	_, err = io.WriteString(k.out, p.Text())
	return err
}

func (k roundsCommand) shape(f round.Fabric) (*round.Plan, error) {
	switch {
	case k.circle != "":
		mm, err := lengthFlag("circle", k.circle)
		if err != nil {
			return nil, err
		}
		return f.Circle(mm)
	case k.ball != "":
		mm, err := lengthFlag("ball", k.ball)
		if err != nil {
			return nil, err
		}
		return f.Ball(mm)
	}
	long, wide, err := twoLengths(k.oval)
	if err != nil {
		return nil, err
	}
	return f.Oval(long, wide)
}

// twoLengths reads "30x20cm" and "30cm x 20cm".
func twoLengths(text string) (a, b float64, err error) {
	one, two, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(text), "×", "x"), "x")
	if !ok {
		return 0, 0, fmt.Errorf("--oval: %q is not two lengths; write them as 30x20cm", text)
	}
	if b, err = lengthFlag("oval", two); err != nil {
		return 0, 0, err
	}
	if _, _, bare := gauge.Length(one); bare != nil {
		one += strings.TrimLeft(two, " 0123456789./+-½¼¾") // the unit is said once
	}
	a, err = lengthFlag("oval", one)
	return a, b, err
}

// stitchNamed finds a stitch by its name; "" is none.
func stitchNamed(name string, terms stitch.Terms) (stitch.ID, error) {
	if name == "" {
		return stitch.None, nil
	}
	id, _ := stitch.LexiconFor(terms).Find(strings.Join(strings.Fields(strings.ToLower(name)), " "))
	if id == stitch.None {
		return id, fmt.Errorf("--stitch: there is no stitch %q in %s terms", name, terms)
	}
	return id, nil
}

// measure says what the rounds of a pattern come to.
func (k roundsCommand) measure(file string) error {
	name, proof, err := k.open(k.world, file)
	if err != nil {
		return err
	}
	g, err := gaugeOf(proof, k.gauge)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	var out []string
	var why error
	for _, pc := range proof.Pieces {
		s, err := round.ShapeOf(pc, g, proof.Terms)
		if err != nil {
			why = err
			continue
		}
		head := pc.Piece.Name
		if head == "" {
			head = "Rounds"
		}
		out = append(out, cleanLines(head+", at "+g.String()+"\n"+s.Text()))
	}
	if len(out) == 0 {
		return fmt.Errorf("%s: nothing in it can be measured: %w", name, why)
	}
	_, err = io.WriteString(k.out, strings.Join(out, "\n"))
	return err
}

// cleanLines makes text of several lines fit for a terminal.
func cleanLines(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		b.WriteString(tui.Clean(strings.TrimSuffix(line, "\n")) + "\n")
	}
	return b.String()
}
