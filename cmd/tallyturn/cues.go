package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/cue"
	"crochet/tallyturn/counter/film/timecode"
	"crochet/tallyturn/tui"
)

type cuesCommand struct {
	*walkCommand
	as, rate     string
	film, source bool
	take         int
}

func newCues(w world) *cobra.Command {
	k := cuesCommand{walkCommand: &walkCommand{world: w}}
	c := &cobra.Command{
		Use:   "cues PROJECT",
		Short: "Hand what was filmed over to the edit: captions, chapters, edit lists",
		Long: `cues writes what was filmed of a project for the programs that come after:

` + formatList() + `
In film time it is the film as it is planned, row by row: which footage is shown,
how fast, and what is said over it. In source time (--source) it is all footage
as it was filmed, take by take, the tries that are not used among it. Captions
and chapters then are of one take (--take), and begin with its clip, or with the
clap where nobody has noted how far into the clip that is.

Timecode goes on from the one that was noted for the beginning of a clip, and
needs a rate:

  ` + timecode.Names() + `

` + whatIsNamed,
		Example: `  tallyturn cues pennant.txt
  tallyturn cues pennant.txt --as vtt > pennant.vtt
  tallyturn cues pennant.txt --as edl --rate 29.97df > pennant.edl
  tallyturn cues pennant.txt --as srt --source --take 2 > A002.srt`,
		Args: oneProject,
		RunE: func(_ *cobra.Command, args []string) error { return k.run(args[0]) },
	}
	c.Flags().StringVar(&k.as, "as", "table", "write this `format`")
	c.Flags().StringVar(&k.rate, "rate", "", "count so many `frames` a second")
	c.Flags().BoolVar(&k.film, "film", false, "tell the film as it is planned (the default)")
	c.Flags().BoolVar(&k.source, "source", false, "tell all footage as it was filmed")
	c.Flags().IntVar(&k.take, "take", 0, "with --source, the `take` of this number alone")
	c.MarkFlagsMutuallyExclusive("film", "source")
	k.dataFlag(c, false)
	return c
}

// formatList tells the formats, one a line.
func formatList() string {
	var b strings.Builder
	for _, f := range cue.Formats() {
		fmt.Fprintf(&b, "  %-10s  %s\n", f.Name, f.About)
	}
	return b.String()
}

func (k cuesCommand) run(name string) error {
	format, err := cue.Named(k.as)
	if err != nil {
		return fmt.Errorf("--as: %w", err)
	}
	o := cue.Options{Source: k.source, Take: k.take}
	if k.rate != "" {
		if o.Rate, err = timecode.ParseRate(k.rate); err != nil {
			return fmt.Errorf("--rate: %w", err)
		}
	}
	switch {
	case format.Frame && k.rate == "":
		return fmt.Errorf("--as %s counts frames: say --rate, one of %s", k.as, timecode.Names())
	case k.take != 0 && !k.source:
		return errors.New("--take goes with --source")
	case k.take < 0:
		return fmt.Errorf("takes are counted from 1, so there is no take %d", k.take)
	}
	_, session, err := k.named(name)
	if err != nil {
		return err
	}
	if len(session.Takes) == 0 {
		return fmt.Errorf("%s: nothing of it was filmed", tui.Clean(name))
	}
	made := (*film.Fit).Film
	if k.source {
		made = (*film.Fit).Footage
	}
	list, err := made(session.Fit(session.Script()))
	if err != nil {
		return fmt.Errorf("%s: %w", tui.Clean(name), err)
	}
	out, notes, err := cue.Write(list, format, o)
	if err != nil {
		return fmt.Errorf("%s: %w", tui.Clean(name), err)
	}
	if _, err := k.out.Write(out); err != nil {
		return fmt.Errorf("cannot write the cues: %w", err)
	}
	for _, n := range notes {
		k.complain(errors.New(tui.Clean(n)))
	}
	return nil
}
