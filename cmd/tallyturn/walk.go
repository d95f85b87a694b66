package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"github.com/adrg/xdg"
	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

var errNoTerminal = errors.New("the walk needs a terminal to draw on; 'tallyturn check FILE' works without one")

// walkCommand opens the screen, on a walk or on the basket.
type walkCommand struct {
	world
	choice
	data    string // folder; "" for the usual one
	anew    bool
	tapKeys []string
}

func (k *walkCommand) flags(c *cobra.Command) {
	c.Flags().StringVar(&k.size, "size", "", "walk this `size`, spelled as in the pattern (default: its first)")
	c.Flags().BoolVar(&k.anew, "anew", false, "begin a new walk; one in progress stays in the basket")
	c.Flags().StringSliceVar(&k.tapKeys, "tap-key", nil, "let this `key` tap as well, as a pedal sends it: f5, x, ctrl+t\n(default: $TALLYTURN_TAP_KEY)")
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
		w, err := s.walk(s.take(o, proof))
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
	s := &shelf{look: k.look(k.out), now: k.now, tapKeys: k.tapKeyNames()}
	s.store, err = store.Open(file)
	done := func() error { return s.store.Close() }
	if errors.Is(err, store.ErrLocked) {
		s.lookOnly = inOtherWindow
		s.store, done, err = lookAt(file)
	}
	switch {
	case errors.Is(err, store.ErrDamaged):
		return k.rescue(file)
	case err != nil:
		return fmt.Errorf("%s: %w", file, err)
	}
	defer func() { err = errors.Join(err, done()) }()
	if s.screen, err = first(s, tui.Options{In: k.in, Out: k.out}); err != nil {
		return err
	}
	return s.screen.Run(context.Background())
}

// tapKeyNames are the further keys that tap, named as the screen knows them:
// those given here or else those in the environment.
func (k walkCommand) tapKeyNames() []string {
	names := k.tapKeys
	if len(names) == 0 {
		names = strings.FieldsFunc(os.Getenv("TALLYTURN_TAP_KEY"), func(r rune) bool { return r == ',' })
	}
	for i, name := range names {
		if name = strings.TrimSpace(name); utf8.RuneCountInString(name) > 1 {
			name = strings.ToLower(name)
		}
		names[i] = name
	}
	return names
}

// rescue makes a new basket of what can be read in a damaged one and says what
// that is. The program ends with it: on a screen it would not be read.
func (k walkCommand) rescue(file string) error {
	r, err := store.Rescue(file)
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	said := []error{fmt.Errorf("%s: %w; it is kept as %s", file, store.ErrDamaged, r.Aside)}
	for _, p := range r.Projects {
		said = append(said, errors.New(saved(p)))
	}
	if len(r.Projects) == 0 {
		said = append(said, errors.New("nothing in it could be read; the basket is empty now"))
	} else {
		said = append(said, errors.New("all this is in a new basket; start again to go on"))
	}
	return errors.Join(said...)
}

// saved says what is left of a project.
func saved(p store.RescuedProject) string {
	switch {
	case p.Whole():
		return p.Title + ": nothing is lost"
	case p.Lost > 0:
		return fmt.Sprintf("%s: all but the last %d taps and the like is there", p.Title, p.Lost)
	case p.NoText:
		return p.Title + ": every tap is there; the pattern is not, so open its file again"
	}
	return p.Title + ": every tap is there; its name, size and file are not"
}

// getenv looks a variable up, the data folder named on the command line
// standing before the one in the environment.
func (k walkCommand) getenv(name string) string {
	if name == "TALLYTURN_DATA" && k.data != "" {
		return k.data
	}
	return os.Getenv(name)
}
