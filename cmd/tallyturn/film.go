package main

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/cmd/tallyturn/report"
	"crochet/tallyturn/counter/film/timeline"
)

type filmCommand struct {
	*walkCommand
	as string
}

func newFilm(w world) *cobra.Command {
	k := filmCommand{walkCommand: &walkCommand{world: w}}
	c := &cobra.Command{
		Use:   "film PROJECT",
		Short: "Show what was filmed of a project, and how the words fit",
		Long: `film draws the takes of a project: which row is where, which tries are not used,
what went wrong. Below stands, row by row, how long the footage is, how long the
words take that are said over it, and what would bring the two together.

` + whatIsNamed,
		Example: `  tallyturn film pennant.txt
  tallyturn film pennant.txt --as svg > takes.svg`,
		Args: oneProject,
		RunE: func(_ *cobra.Command, args []string) error { return k.run(args[0]) },
	}
	c.Flags().StringVar(&k.as, "as", "text", "write `text|svg`: both, or the picture of the takes alone")
	k.dataFlag(c, false)
	return c
}

// usualWidth is how wide text is laid out where nobody looks at it.
const usualWidth = 80

func (k filmCommand) run(name string) error {
	switch k.as {
	case "text", "svg":
	default:
		return fmt.Errorf("--as is text or svg, not %q", k.as)
	}
	p, session, err := k.named(name)
	if err != nil {
		return err
	}
	text := timeline.SVG(session, heading(p))
	if k.as == "text" {
		width, _ := onTerminal(k.out)
		text = timeline.Clean(heading(p)) + "\n" + strings.Join(timeline.Text(session, cmp.Or(width, usualWidth)), "\n") + "\n"
		if len(session.Takes) > 0 {
			text += "\n" + report.Footage(session.Fit(session.Script()))
		}
	}
	if _, err := io.WriteString(k.out, text); err != nil {
		return fmt.Errorf("cannot write the timeline: %w", err)
	}
	return nil
}
