package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"
	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

var errNoTerminal = errors.New("the walk needs a terminal to draw on; 'tallyturn check FILE' works without one")

// walkCommand opens the screen, on a walk or on the basket.
type walkCommand struct {
	streams
	choice
	data string // folder; "" for the usual one
	anew bool
}

func (k *walkCommand) flags(c *cobra.Command) {
	c.Flags().StringVar(&k.size, "size", "", "walk this `size`, spelled as in the pattern (default: its first)")
	c.Flags().BoolVar(&k.anew, "anew", false, "begin a new walk; one in progress stays in the basket")
	c.Flags().StringVar(&k.data, "data", "", "keep the basket in this `folder` (default: $TALLYTURN_DATA, or\ntallyturn in the user's data folder)")
}

// file opens the walk of a pattern file.
func (k walkCommand) file(name string) error {
	text, err := readSource(name, k.in)
	if err != nil {
		return err
	}
	if name == "-" {
		return errors.New("a walk cannot begin from standard input, where the keys come from; save the pattern in a file")
	}
	path, err := filepath.Abs(name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return k.pattern(origin{name: name, path: path, text: text, size: k.size, anew: k.anew})
}

// demo opens the walk of a pattern that comes with the program.
func (k walkCommand) demo(d demo.Demo) error {
	return k.pattern(origin{name: d.Name, text: d.Text, size: k.size, anew: k.anew})
}

func (k walkCommand) pattern(o origin) error {
	proof, err := k.prove(o.name, o.text)
	if err != nil {
		return err
	}
	return k.show(func(s *shelf, at tui.Options) (*tui.Screen, error) {
		w, err := s.take(o, proof)
		if err != nil {
			return nil, err
		}
		return tui.NewScreen(w, at), nil
	})
}

// basket opens the basket or, where nothing is in it, the first demo.
func (k walkCommand) basket() error {
	if k.size != "" || k.anew {
		return errors.New("--size and --anew need a pattern file")
	}
	return k.show(func(s *shelf, at tui.Options) (*tui.Screen, error) {
		all, err := s.store.Projects()
		if err != nil {
			return nil, err
		}
		if len(all) == 0 {
			w, err := s.beginDemo(demo.All()[0].Name)
			if err != nil {
				return nil, err
			}
			return tui.NewScreen(w, at), nil
		}
		b, err := s.basket()
		if err != nil {
			return nil, err
		}
		return tui.NewScreen(b, at), nil
	})
}

// show runs a screen from opening the basket's file to closing it.
func (k walkCommand) show(first func(*shelf, tui.Options) (*tui.Screen, error)) (err error) {
	if _, ok := onTerminal(k.in); !ok {
		return errNoTerminal
	}
	if _, ok := onTerminal(k.out); !ok {
		return errNoTerminal
	}
	file := store.DefaultPath(k.getenv, func() string { return xdg.DataHome })
	kept, err := store.Open(file)
	switch {
	case errors.Is(err, store.ErrLocked):
		return fmt.Errorf("%w; leave it there first, or keep another with --data", err)
	case errors.Is(err, store.ErrDamaged):
		return fmt.Errorf("%s: %w; it was left as it is: move it aside to begin another", file, err)
	case err != nil:
		return fmt.Errorf("%s: %w", file, err)
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	s := &shelf{store: kept, look: tui.FindLook(k.out), now: time.Now}
	if s.screen, err = first(s, tui.Options{In: k.in, Out: k.out}); err != nil {
		return err
	}
	return s.screen.Run(context.Background())
}

// getenv looks a variable up, the data folder named on the command line
// standing before the one in the environment.
func (k walkCommand) getenv(name string) string {
	if name == "TALLYTURN_DATA" && k.data != "" {
		return k.data
	}
	return os.Getenv(name)
}
