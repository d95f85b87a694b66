package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/chart"
	"crochet/tallyturn/tui"
)

type chartCommand struct {
	world
	choice
	piece, as, to string
	tile          int
}

func newChart(w world) *cobra.Command {
	k := chartCommand{world: w}
	c := &cobra.Command{
		Use:   "chart FILE",
		Short: "Draw a pattern as a symbol chart",
		Long: `chart draws what the pattern makes, stitch by stitch, with the trade's symbols:
each stitch stands in those of the row below that it is worked into. Rows are
numbered where they begin and read from there; rounds run counter-clockwise from
their number. A piece worked flat onto another is drawn in its place on it. The
legend names the symbols used.

It is drawn as seen from the right side. Where several yarns are used they lie
behind the symbols as tints, each but the first with a hatching of its own.

A chart that is larger than a page comes in parts, one below the other; --tile
draws one of them. A piece of more than 40 000 stitches is not drawn.

FILE is plain text of at most 4 MB; - is standard input.`,
		Example: `  tallyturn chart pennant.txt
  tallyturn chart pennant.txt -o pennant.svg
  tallyturn chart star.txt --as svg --terms uk > star.svg
  tallyturn demo buoy | tallyturn chart - --piece Ring`,
		Args: patternFiles(1, 1),
		RunE: func(_ *cobra.Command, files []string) error { return k.run(files[0]) },
	}
	c.Flags().StringVar(&k.piece, "piece", "", "draw the piece of this `name` (default: all of them)")
	c.Flags().StringVar(&k.size, "size", "", "draw this `size`, spelled as in the pattern (default: its first)")
	c.Flags().StringVar(&k.terms, "terms", "", "name the stitches in `us|uk|both` terms (default: the pattern's)")
	c.Flags().StringVar(&k.as, "as", "", "write `svg|png|txt` (default: as the name after -o ends, else txt)")
	c.Flags().StringVarP(&k.to, "output", "o", "", "write to this `file`, not to standard output")
	c.Flags().IntVar(&k.tile, "tile", 0, "draw this `part` only of a chart that comes in several")
	return c
}

func (k chartCommand) run(file string) error {
	as, err := k.format()
	if err != nil {
		return err
	}
	o := chart.Options{Tile: k.tile}
	if o.Both = strings.EqualFold(k.terms, "both"); !o.Both {
		if o.Terms, err = termsNamed(k.terms); err != nil {
			return fmt.Errorf("--terms is us, uk or both, not %q", k.terms)
		}
	}
	name, proof, err := choice{size: k.size}.open(k.world, file)
	if err != nil {
		return err
	}
	pieces, err := k.pieces(name, proof)
	if err != nil {
		return err
	}
	out, err := drawn(proof, pieces, as, o)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if k.to != "" {
		return writeFile(k.to, out)
	}
	if _, err := k.out.Write(out); err != nil {
		return fmt.Errorf("cannot write the chart: %w", reason(err))
	}
	return nil
}

// format is what to write: what is asked for, or what the file's name says.
func (k chartCommand) format() (string, error) {
	as := strings.ToLower(k.as)
	if as == "" {
		as = strings.ToLower(strings.TrimPrefix(filepath.Ext(k.to), "."))
		if k.to == "" {
			as = "txt"
		}
	}
	switch as {
	case "svg", "png", "txt":
		return as, nil
	}
	if k.as == "" {
		return "", fmt.Errorf("%s: the name does not say what to write; --as svg, png or txt does", tui.Clean(k.to))
	}
	return "", fmt.Errorf("--as is svg, png or txt, not %q", k.as)
}

// pieces are the places of the pieces to draw: the one named, or all but those
// that are drawn on another.
func (k chartCommand) pieces(name string, proof *pattern.Proof) ([]int, error) {
	var all []int
	var names []string
	onto := chart.Onto(proof)
	for i, p := range proof.Pieces {
		if k.piece != "" && strings.EqualFold(p.Piece.Name, k.piece) {
			return []int{i}, nil
		}
		if p.Piece.Name != "" {
			names = append(names, tui.Clean(p.Piece.Name))
		}
		if onto[i] < 0 && p.Len() > 0 {
			all = append(all, i)
		}
	}
	if k.piece != "" {
		if len(names) == 0 {
			return nil, fmt.Errorf("%s: its pieces have no names, so there is no %q", name, k.piece)
		}
		return nil, fmt.Errorf("%s: has no piece %q; it has %s", name, k.piece, strings.Join(names, ", "))
	}
	return all, nil
}

// pngScale is how many dots of a picture a single crochet is high.
const pngScale = 32

// drawn draws pieces one below the other.
func drawn(proof *pattern.Proof, pieces []int, as string, o chart.Options) ([]byte, error) {
	if as == "txt" {
		var b strings.Builder
		for i, p := range pieces {
			text, err := chart.Text(proof, p, o)
			if err != nil {
				return nil, err
			}
			if i > 0 {
				b.WriteString("\n")
			}
			b.WriteString(text)
		}
		return []byte(b.String()), nil
	}
	var charts []*chart.Chart
	for _, p := range pieces {
		c, err := chart.Draw(proof, p, o)
		if err != nil {
			return nil, err
		}
		charts = append(charts, c)
	}
	if as == "png" {
		return chart.PNG(pngScale, charts...)
	}
	return chart.Join(charts...), nil
}
