package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"crochet/tallyturn/cmd/tallyturn/config"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
	"crochet/tallyturn/tui/ground"
)

var errNoTerminal = errors.New("the walk needs a terminal to draw on; 'tallyturn check FILE' works without one")

// walkCommand opens the screen, on a walk or on the basket.
type walkCommand struct {
	world
	choice
	data    string // folder; "" for the usual one
	anew    bool
	tapKeys []string
	ascii   bool
	plain   bool
}

func (k *walkCommand) flags(c *cobra.Command) {
	c.Flags().StringVar(&k.size, "size", "", "walk this `size`, spelled as in the pattern (default: its first)")
	c.Flags().BoolVar(&k.anew, "anew", false, "begin a new walk; one in progress stays in the basket")
	c.Flags().StringSliceVar(&k.tapKeys, "tap-key", nil, "let this `key` tap as well, as a pedal sends it: f5, x, ctrl+t\n(default: $TALLYTURN_TAP_KEY)")
	c.Flags().BoolVar(&k.ascii, "ascii", false, "draw with nothing but the signs of ASCII")
	c.Flags().BoolVar(&k.plain, "plain", false, "print lines instead of frames, for a screen reader; the keys are\nthe same")
	k.dataFlag(c, false)
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
	sketch := func(s *shelf) tui.Page { return s.placeSketch(o, proof) }
	return k.show(sketch, func(s *shelf) (tui.Page, error) { return s.walk(s.take(o, proof)) })
}

// basket opens the basket or, where nothing is in it, the first demo.
func (k walkCommand) basket() error {
	if k.size != "" || k.anew {
		return errors.New("--size and --anew need a pattern file")
	}
	return k.show((*shelf).sketch, func(s *shelf) (tui.Page, error) {
		all, err := s.recent()
		if err != nil {
			return nil, s.stumble(err)
		}
		if len(all) == 0 {
			return s.beginDemo(demo.All()[0].Name)
		}
		return s.basketOf(all)
	})
}

// afterFirstFrame is how long the going through of the basket's file waits, so
// that it does not take the processor from the drawing of the first frame.
// Whatever is written waits for it.
const afterFirstFrame = 50 * time.Millisecond

// show runs the screen from opening the basket's file to closing it. Sketch is
// what can be shown before the file is opened; nil where that is nothing.
func (k walkCommand) show(sketch func(*shelf) tui.Page, first func(*shelf) (tui.Page, error)) (err error) {
	if _, ok := onTerminal(k.in); !ok {
		return errNoTerminal
	}
	if _, ok := onTerminal(k.out); !ok {
		return errNoTerminal
	}
	settings, wrong := config.Load(config.Path(configHome()))
	look := settings.Look(k.look(k.out))
	look.ASCII = look.ASCII || k.ascii
	s := &shelf{
		file: k.basketFile(), config: configHome(),
		look: look, now: k.now, clock: newRunClock(k.now), tapKeys: k.tapKeyNames(), done: make(chan struct{}),
	}
	defer func() { err = k.report(s, errors.Join(err, s.leave())) }()
	var screen *tui.Screen
	o := tui.Options{
		In: k.in, Out: k.out, Lines: k.plain || settings.Plain || os.Getenv("TERM") == "dumb",
		AskGround: settings.Ground == "auto" && !ground.Known(),
		Then: func() (tui.Page, error) {
			page, err := s.begin(first)
			if err == nil {
				s.goOn(screen)
			}
			return page, err
		},
	}
	var page tui.Page
	if _, _, places, ok := readSketch(store.Glance(s.file)); ok {
		s.places = places // for as long as they are right: see placesNow
	}
	if !o.Lines {
		page = sketch(s)
	}
	if page == nil {
		o.Then = nil
		if page, err = s.begin(first); err != nil {
			return err
		}
	}
	screen = tui.NewScreen(page, o)
	if wrong != nil {
		// Without the folder, so that there is room for the mistake itself.
		screen.Tell(strings.TrimPrefix(wrong.Error(), filepath.Dir(config.Path(configHome()))+string(filepath.Separator)) + "; your settings are not used.")
	}
	if o.Then == nil {
		s.goOn(screen)
	}
	return screen.Run(context.Background())
}

// report writes down what a breakdown of the screen was, in a file beside the
// basket, and names it.
func (k walkCommand) report(s *shelf, err error) error {
	var b *tui.Breakdown
	if !errors.As(err, &b) {
		return err
	}
	path := filepath.Join(filepath.Dir(s.file), "breakdown-"+k.now().UTC().Format("20060102-150405")+".txt")
	text := fmt.Sprintf("tallyturn %s\n%v\n\n%s", version(), b, b.Stack)
	if writeErr := os.WriteFile(path, []byte(text), 0o600); writeErr != nil {
		return errors.Join(err, fmt.Errorf("no report of it could be written: %w", writeErr))
	}
	return errors.Join(err, fmt.Errorf("everything tapped is kept; what happened is written in %s", path))
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

// saved says what is left of a project.
func saved(p store.RescuedProject) string {
	taps := "every tap is there"
	if p.Cut {
		taps = fmt.Sprintf("%d taps and the like are there; the file may be cut off, so perhaps there was more", p.Events)
	}
	switch {
	case p.Whole():
		return p.Title + ": nothing is lost"
	case p.Lost > 0:
		return fmt.Sprintf("%s: all but the last %d taps and the like is there", p.Title, p.Lost)
	case p.NoText:
		return p.Title + ": " + taps + "; the pattern is not, so open its file again"
	case p.NoHead:
		return p.Title + ": " + taps + "; its name, size and file are not"
	}
	return p.Title + ": " + taps
}

// getenv looks a variable up, the data folder named on the command line
// standing before the one in the environment.
func (k walkCommand) getenv(name string) string {
	if name == "TALLYTURN_DATA" && k.data != "" {
		return k.data
	}
	return os.Getenv(name)
}
