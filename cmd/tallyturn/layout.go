package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/layout"
	"crochet/tallyturn/tui"
)

type layoutCommand struct {
	world
	choice
	gauge []string
	as    string
}

func newLayout(w world) *cobra.Command {
	k := layoutCommand{world: w}
	c := &cobra.Command{
		Use:   "layout FILE",
		Short: "Draw the pieces to scale where they join, and say how large they come out",
		Long: `layout draws each piece of a pattern to the scale of its gauge, as it lies flat:
the outline by the widths of its rows, circles for rounds, and pieces that are
worked onto others where they join them, so that one in the wrong place is seen
at once. Below it says how large each comes out.

It is drawn in letters, or with --as svg at full size for a browser or a page.
Pieces are seen from the side that faces you, as a right-hander works them.

Without a gauge the proportions are right and there are no sizes.

FILE is plain text of at most 4 MB; - is standard input.`,
		Example: `  tallyturn layout pennant.txt
  tallyturn layout cowl.txt --size M --gauge "16 hdc and 11 rows = 4 in"
  tallyturn layout pennant.txt --as svg > pennant.svg`,
		Args: patternFiles(1, 1),
		RunE: func(c *cobra.Command, files []string) error { return k.run(files[0]) },
	}
	c.Flags().StringArrayVar(&k.gauge, "gauge", nil, aboutGauge)
	c.Flags().StringVar(&k.as, "as", "txt", "write `txt|svg`")
	c.Flags().StringVar(&k.size, "size", "", "draw this `size`, spelled as in the pattern (default: its first)")
	c.Flags().StringVar(&k.terms, "terms", "", "read it in `us|uk` terms, whatever the pattern says")
	return c
}

// The drawing in letters is so large where the terminal does not say how wide
// it is.
const (
	layoutColumns = 76
	layoutLines   = 24
)

func (k layoutCommand) run(file string) error {
	if k.as != "txt" && k.as != "svg" {
		return fmt.Errorf("--as is txt or svg, not %q", k.as)
	}
	name, proof, err := k.open(k.world, file)
	if err != nil {
		return err
	}
	g, err := gaugeOf(proof, k.gauge)
	switch {
	case err != nil && len(k.gauge) > 0:
		return err
	case err != nil:
		if _, stated := gauge.Stated(proof); !errors.Is(stated, gauge.ErrNotSaid) {
			fmt.Fprintf(k.err, "tallyturn: %s\n", tui.Clean(fmt.Sprintf("%s: %v", name, err)))
		}
		g = gauge.Gauge{}
	}
	l := layout.Of(proof, g)
	title := titleOf(proof, name)
	if k.as == "svg" {
		_, err = io.WriteString(k.out, l.SVG(title))
		return err
	}
	columns := layoutColumns
	if width, ok := onTerminal(k.out); ok && width > 8 {
		columns = min(width-4, 200)
	}
	_, err = io.WriteString(k.out, cleanLines(title+"\n\n"+l.Text(columns, layoutLines)))
	return err
}
