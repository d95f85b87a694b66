package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/spoken"
)

type sayCommand struct {
	*walkCommand
	size, terms, as, piece string
	rate                   int
	everyRow, notes        bool
}

func newSay(w world) *cobra.Command {
	k := sayCommand{walkCommand: &walkCommand{world: w}}
	c := &cobra.Command{
		Use:   "say FILE",
		Short: "Write a pattern as it is said aloud, with the time each row takes",
		Long: `say writes the words of a voice-over, row by row, as one would say them to
someone who stitches along: numbers in words, abbreviations in full, repeats told
and the total at the end. Before each row stands how long it takes to read, in
minutes and seconds. With --notes your own notes are said behind the rows that
you kept them with in the walk of FILE.

FILE is plain text of at most 4 MB; - is standard input.`,
		Example: `  tallyturn say pennant.txt
  tallyturn say pennant.txt --terms uk --piece coil
  tallyturn say hat.txt --size M --rate 110 --as markdown > hat.md
  tallyturn demo buoy | tallyturn say -`,
		Args: patternFiles(1, 1),
		RunE: func(c *cobra.Command, files []string) error { return k.run(files[0]) },
	}
	c.Flags().StringVar(&k.terms, "terms", "", "say it in `us|uk` terms, whatever it is written in\n(default: as it is written)")
	c.Flags().IntVar(&k.rate, "rate", int(spoken.DefaultRate), "read so many `words` a minute")
	c.Flags().StringVar(&k.as, "as", "text", "write `text|markdown`")
	c.Flags().BoolVar(&k.everyRow, "every-row", false, "say rows alike one by one, rather than once")
	c.Flags().StringVar(&k.size, "size", "", "say this `size`, spelled as in the pattern (default: its first)")
	c.Flags().BoolVar(&k.notes, "notes", false, "say the notes too that you kept with rows in the walk")
	c.Flags().StringVar(&k.piece, "piece", "", "say the piece of this `name` alone")
	k.dataFlag(c, false)
	return c
}

func (k sayCommand) run(file string) error {
	o := spoken.Options{Rate: spoken.Rate(k.rate), EveryRow: k.everyRow, Piece: k.piece}
	var err error
	if o.Terms, err = termsNamed(k.terms); err != nil {
		return err
	}
	if o.Rate < spoken.SlowestRate || o.Rate > spoken.FastestRate {
		return fmt.Errorf("--rate is %.0f to %.0f words a minute, not %d", spoken.SlowestRate, spoken.FastestRate, k.rate)
	}
	write := (*spoken.Script).Text
	switch k.as {
	case "text":
	case "markdown":
		write = (*spoken.Script).Markdown
	default:
		return fmt.Errorf("--as is text or markdown, not %q", k.as)
	}
	name, proof, err := choice{size: k.size}.open(k.walkCommand.world, file)
	if err != nil {
		return err
	}
	if k.piece != "" && !hasPiece(proof, k.piece) {
		return fmt.Errorf("%s: has no piece %q; it has %s", name, k.piece, pieceNames(proof))
	}
	if k.notes {
		_, session, err := k.named(file)
		if err != nil && proof.Pattern.Title != "" { // walked from another file, or a demo
			if _, titled, again := k.named(proof.Pattern.Title); again == nil {
				session, err = titled, nil
			}
		}
		if err != nil {
			return err
		}
		o.Notes = session.Notes()
	}
	if _, err := io.WriteString(k.out, write(spoken.Of(proof, o))); err != nil {
		return fmt.Errorf("cannot write the script: %w", err)
	}
	if n := proof.Errors(); n > 0 {
		k.complain(fmt.Errorf("%s: 'tallyturn check' finds %d %s in it; the counts said are those worked out", name, n, plural(n, "error", "errors")))
	}
	return nil
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

func hasPiece(p *pattern.Proof, name string) bool {
	for _, pc := range p.Pieces {
		if strings.EqualFold(pc.Piece.Name, name) {
			return true
		}
	}
	return false
}

func pieceNames(p *pattern.Proof) string {
	var names []string
	for _, pc := range p.Pieces {
		if pc.Piece.Name != "" {
			names = append(names, pc.Piece.Name)
		}
	}
	if len(names) == 0 {
		return "one piece, without a name"
	}
	return strings.Join(names, ", ")
}
