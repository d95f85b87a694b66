package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

func newBasket(w world) *cobra.Command {
	k := &walkCommand{world: w}
	c := &cobra.Command{
		Use:   "basket",
		Short: "Take everything out of the basket, or in again",
		Long: `The basket holds every pattern you have walked, with all that happened. export
writes it as lines of JSON, to be kept or taken to another machine; import
takes such a file in. Alone, tallyturn shows the basket.`,
		Example: `  tallyturn basket export autumn.jsonl
  tallyturn basket import autumn.jsonl`,
		Args: noneOf,
		RunE: func(c *cobra.Command, _ []string) error { return wrongUse(c, "say export or import") },
	}
	k.dataFlag(c, true)
	c.AddCommand(newBasketExport(k), newBasketImport(k))
	return c
}

func noneOf(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return wrongUse(c, fmt.Sprintf("there is no command %q", args[0]))
	}
	return nil
}

func newBasketExport(k *walkCommand) *cobra.Command {
	return &cobra.Command{
		Use:   "export [FILE]",
		Short: "Write everything in the basket to a new file",
		Long: `export writes every pattern in the basket and all that happened with it, as
lines of JSON, to a file that is not there yet or to standard output. The same
basket gives the same bytes. It may be open in another window.`,
		Example: `  tallyturn basket export autumn.jsonl
  tallyturn basket export | gzip > autumn.jsonl.gz`,
		Args: atMostOne,
		RunE: func(c *cobra.Command, args []string) error {
			kept, err := k.lookAtBasket()
			if err != nil {
				return err
			}
			defer kept.Close() // it was only read
			if len(args) == 0 || args[0] == "-" {
				return kept.Export(k.out)
			}
			return exportTo(kept, args[0])
		},
	}
}

func newBasketImport(k *walkCommand) *cobra.Command {
	return &cobra.Command{
		Use:   "import FILE",
		Short: "Take what export wrote into the basket",
		Long: `import takes a file in that export wrote, or standard input where it is named
"-": all of it or, if a line is damaged, nothing. What is in the basket already
is not taken in again; where a walk went on differently here and there, both
are kept.`,
		Example: `  tallyturn basket import autumn.jsonl
  gunzip < autumn.jsonl.gz | tallyturn basket import -`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return wrongUse(c, "name a file that export wrote")
			}
			return atMostOne(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return k.importBasket(args[0]) },
	}
}

func atMostOne(c *cobra.Command, args []string) error {
	if len(args) > 1 {
		return wrongUse(c, fmt.Sprintf("%q is one argument too many", args[1]))
	}
	return nil
}

// dataFlag lets a command name the folder of the basket.
func (k *walkCommand) dataFlag(c *cobra.Command, below bool) {
	flags := c.Flags()
	if below {
		flags = c.PersistentFlags()
	}
	flags.StringVar(&k.data, "data", "", "keep the basket in this `folder` (default: $TALLYTURN_DATA, or\ntallyturn in the user's data folder)")
}

// basketFile is where the basket is.
func (k walkCommand) basketFile() string {
	return store.DefaultPath(k.getenv, dataHome)
}

// lookAtBasket opens the basket for reading, whoever else has it open.
func (k walkCommand) lookAtBasket() (*store.Store, error) {
	file := k.basketFile()
	kept, err := store.Look(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: there is no basket yet", file)
	case err != nil:
		return nil, fmt.Errorf("%s: %w", file, reason(err))
	}
	return kept, nil
}

func exportTo(kept *store.Store, path string) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	switch {
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s: is there already, and is left as it is", tui.Clean(path))
	case err != nil:
		return fmt.Errorf("%s: cannot be written: %w", tui.Clean(path), reason(err))
	}
	defer func() {
		if err = errors.Join(err, f.Close()); err != nil {
			os.Remove(path) // half of it is no use
		}
	}()
	if err := kept.Export(f); err != nil {
		return err
	}
	return f.Sync()
}

func (k walkCommand) importBasket(name string) error {
	var from io.Reader = k.in
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return fmt.Errorf("%s: cannot be opened: %w", sourceName(name), reason(err))
		}
		defer f.Close() // it is only read
		from = f
	}
	kept, err := store.Open(k.basketFile())
	if errors.Is(err, store.ErrLocked) {
		return fmt.Errorf("%w; leave it there first", err)
	} else if err != nil {
		return fmt.Errorf("%s: %w", k.basketFile(), reason(err))
	}
	merged, err := kept.Import(from)
	if err = errors.Join(err, kept.Close()); err != nil {
		return fmt.Errorf("%s: %w; nothing was taken in", sourceName(name), err)
	}
	for _, m := range merged {
		fmt.Fprintf(k.out, "%s: %s\n", tui.Clean(heading(m.Project)), becameOf(m))
	}
	return nil
}

// becameOf says what came of a project that was taken in.
func becameOf(m store.Merged) string {
	switch {
	case m.Split && m.New:
		return "went on differently here and there; both are in the basket"
	case m.New:
		return fmt.Sprintf("taken in, with %d events", m.Added)
	case m.Added > 0:
		return fmt.Sprintf("%d events taken in", m.Added)
	}
	return "nothing new"
}
