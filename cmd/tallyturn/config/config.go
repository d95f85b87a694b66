// Package config reads the maker's own file of settings, and writes one to
// begin with.
//
// The file is TOML. Everything in it is optional. A mistake in it is told by
// its line, and then nothing of the file counts: half of what somebody meant
// is worse than none.
package config

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"crochet/tallyturn/tui"
)

// Name is the file's name in the program's config folder.
const Name = "config.toml"

// Config is the settings.
type Config struct {
	Ground string // "auto", "dark" or "light"
	Colour string // "auto", "none", "16", "256" or "true"
	ASCII  bool
	Plain  bool // lines instead of frames
	Wants  tui.Wants
}

// Default is how it is without a file.
func Default() Config {
	c := Config{Ground: "auto", Colour: "auto"}
	c.Wants.Rest = 30 * time.Minute
	c.Wants.Signals[tui.Mismatch] = tui.Bell | tui.Flash
	c.Wants.Signals[tui.RestTime] = tui.Flash
	return c
}

// Path is where the file is, below the folder of all config files.
func Path(folder string) string { return filepath.Join(folder, "tallyturn", Name) }

// Load reads the file at a path. Where there is none, or it has a mistake, it
// gives the default, and for a mistake an error of one line that names it.
func Load(path string) (Config, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Default(), nil
	}
	if err != nil {
		var in *fs.PathError
		if errors.As(err, &in) {
			err = in.Err
		}
		return Default(), fmt.Errorf("%s: %w", path, err)
	}
	c, err := Read(data)
	if err != nil {
		var at *LineError
		if errors.As(err, &at) {
			return Default(), fmt.Errorf("%s:%d: %w", path, at.Line, at.Err)
		}
		return Default(), fmt.Errorf("%s: %w", path, err)
	}
	return c, nil
}

// LineError says which line has a mistake.
type LineError struct {
	Line int // from 1
	Err  error
}

func (e *LineError) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Err) }
func (e *LineError) Unwrap() error { return e.Err }

// Look is what the terminal can show, as the settings would have it.
func (c Config) Look(look tui.Look) tui.Look {
	switch c.Ground {
	case "dark":
		look.Dark = true
	case "light":
		look.Dark = false
	}
	if look.Colours > tui.Plain { // a terminal that obeys nothing gets nothing to obey
		switch c.Colour {
		case "none":
			look.Colours = tui.NoColour
		case "16":
			look.Colours = tui.Sixteen
		case "256":
			look.Colours = tui.TwoFiftySix
		case "true":
			look.Colours = tui.TrueColour
		}
	}
	look.ASCII = look.ASCII || c.ASCII
	look.Wants = &c.Wants
	return look
}

// Text is the file to begin with: every setting with its default, explained
// and commented out, so that a later version may have better defaults.
func Text() string {
	var b strings.Builder
	b.WriteString(head)
	for _, a := range tui.Actions() {
		quoted := make([]string, len(a.Keys))
		for i, k := range a.Keys {
			quoted[i] = fmt.Sprintf("%q", k)
		}
		fmt.Fprintf(&b, "# %s\n#%s = [%s]\n", a.Does, a.Name, strings.Join(quoted, ", "))
	}
	return b.String()
}

const head = `# Settings of tallyturn. Take the "#" from the front of a setting to change it.
# "tallyturn config --check" reads this file and says whether it is right.

# The ground of the terminal: "auto", "dark" or "light".
#ground = "auto"

# How much colour: "auto", "none", "16", "256" or "true".
#colour = "auto"

# Nothing but the signs of ASCII.
#ascii = false

# Lines instead of frames, for a screen reader or a braille display.
#plain = false

# Remind me to rest my hands after so many minutes without a break; 0 never.
#rest-minutes = 30

# What is told to you when you do not look: "off", "bell", "flash" or "both".
[signals]
#row-end = "off"
#repeat-end = "off"
#colour-change = "off"
#mismatch = "both"
#rest = "flash"

# The keys. Name one, or several in brackets: a letter, "space", "enter",
# "page down", "f5", "ctrl+t". A pedal or page-turner sends a key like any
# other: add it to "tap". Digits, and Enter and Esc in a question, stay as they
# are.
[keys]
`
