package config

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/pelletier/go-toml/v2"

	"crochet/tallyturn/tui"
)

var ignoreKeys = cmpopts.IgnoreFields(tui.Wants{}, "Keys")

func TestRead(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       func(*Config)
	}{
		{"nothing", "", func(*Config) {}},
		{"the looks", "ground = \"light\"\ncolour = '16'\nascii = true\nplain = true\n", func(c *Config) {
			c.Ground, c.Colour, c.ASCII, c.Plain = "light", "16", true, true
		}},
		{"never rest", "rest-minutes = 0", func(c *Config) { c.Wants.Rest = 0 }},
		{"signals", "[signals]\nrow-end = \"both\"\nrepeat-end = \"bell\"\ncolour-change = \"flash\"\nmismatch = \"off\"\nrest = \"bell\"\n", func(c *Config) {
			c.Wants.Signals = [tui.Signals]tui.Signal{tui.Bell | tui.Flash, tui.Bell, tui.Flash, 0, tui.Bell}
		}},
		{"dotted", "signals.row-end = \"bell\"", func(c *Config) { c.Wants.Signals[tui.RowEnd] = tui.Bell }},
		{"keys", "[keys]\ntap = [\"F5\", 'page down']\nhunt = \"$\"\n", func(*Config) {}},
	} {
		want := Default()
		c.want(&want)
		got, err := Read([]byte(c.text))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d := cmp.Diff(want, got, ignoreKeys); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}

func TestReadMistakes(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no TOML", "ascii = true\nground = = \n", "line 2: "},
		{"twice", "ascii = true\n\nascii = true\n", "line 3: "},
		{"no such setting", "# hello\n\nascci = true\n", "line 3: there is no setting \"ascci\"; there are ground, colour, ascii, plain and rest-minutes"},
		{"no such part", "[kyes]\ntap = \"x\"\n", "line 1: there is no part \"kyes\"; there are signals and keys"},
		{"no such word", "ground = \"dim\"\n", "line 1: ground is \"auto\", \"dark\" or \"light\""},
		{"no word", "ground = 3\n", "line 1: ground is \"auto\", \"dark\" or \"light\""},
		{"no truth", "\nplain = \"yes\"\n", "line 2: plain is true or false"},
		{"no minutes", "rest-minutes = -1\n", "line 1: rest-minutes is a number from 0 to 1440"},
		{"too many minutes", "rest-minutes = 99999999999999999999\n", "line 1: "},
		{"no such signal", "[signals]\nrow = \"bell\"\n", "line 2: there is no signal \"row\"; there are row-end, repeat-end, colour-change, mismatch and rest"},
		{"no such action", "[keys]\n\nflap = \"x\"\n", "line 3: no key does \"flap\""},
		{"no such key", "[keys]\ntap = [\"space\", \"pedal\"]\n", "line 2: no key is called \"pedal\""},
		{"no key", "[keys]\ntap = 5\n", "line 2: tap is a key, or several in brackets, each in quotes"},
		{"no list of keys", "[keys]\ntap = [5]\n", "line 2: tap is a key, or several in brackets, each in quotes"},
		{"two for one", "[keys]\nhunt = \"h\"\nrows = \"h\"\n", "line 3: h would do two things at one place: \"hunt\" and \"rows\""},
		{"lists of tables", "[[keys]]\ntap = \"x\"\n", "line 1: lists of tables have no meaning here"},
	} {
		got, err := Read([]byte(c.text))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want one line %q", c.name, err, c.want)
		}
		if d := cmp.Diff(Default(), got, ignoreKeys); d != "" {
			t.Errorf("%s: something of the file counts all the same:\n%s", c.name, d)
		}
	}
}

// TestText: the file to begin with is right as it is, and right with every
// setting in it taken up, which changes nothing.
func TestText(t *testing.T) {
	var all map[string]any
	if err := toml.Unmarshal([]byte(Text()), &all); err != nil {
		t.Fatal(err)
	}
	taken := regexp.MustCompile(`(?m)^#([a-z])`).ReplaceAllString(Text(), "$1")
	if n := strings.Count(taken, "\n#") - strings.Count(taken, "\n# "); n != 0 {
		t.Errorf("%d settings are not taken up", n)
	}
	for _, text := range []string{Text(), taken} {
		got, err := Read([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(Default(), got, ignoreKeys); d != "" {
			t.Errorf("the file says something else than the default:\n%s", d)
		}
	}
	for _, a := range tui.Actions() {
		if !strings.Contains(Text(), "\n#"+a.Name+" = ") {
			t.Errorf("the file does not speak of %s", a.Name)
		}
	}
}

func TestLoad(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, Name)
	if c, err := Load(path); err != nil || c.Wants.Rest != 30*time.Minute {
		t.Errorf("without a file: %+v, %v", c, err)
	}
	if err := os.WriteFile(path, []byte("ascii = true\nplain = 3\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if c, err := Load(path); err == nil || err.Error() != path+":2: plain is true or false" || c.ASCII {
		t.Errorf("with a mistake: %+v, %v", c, err)
	}
	if _, err := Load(dir); err == nil || strings.Contains(err.Error(), "\n") {
		t.Errorf("a folder: %v, want one line", err)
	}
}

func TestLook(t *testing.T) {
	full := tui.Look{Colours: tui.TrueColour, Dark: true}
	c := Default()
	if got := c.Look(full); got.Colours != tui.TrueColour || !got.Dark || got.ASCII || got.Wants == nil {
		t.Errorf("by default the look is %+v", got)
	}
	c.Ground, c.Colour, c.ASCII = "light", "16", true
	if got := c.Look(full); got.Colours != tui.Sixteen || got.Dark || !got.ASCII {
		t.Errorf("the look is %+v", got)
	}
	if got := c.Look(tui.Look{}); got.Colours != tui.Plain {
		t.Errorf("a plain terminal is sent colours: %+v", got)
	}
}

// FuzzRead: whatever the file holds, there is an answer, and a mistake is one
// line that names one of the file's.
func FuzzRead(f *testing.F) {
	f.Add([]byte(Text()))
	f.Add([]byte("[keys]\ntap = [\"f5\"]\n"))
	f.Add([]byte("signals.\"row-end\" = 'bell'"))
	f.Add([]byte("a.b.c = [1, {x = 2}]\n[[keys]]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := Read(data)
		if err == nil {
			_ = c.Wants.Keys.Clash()
			return
		}
		at, ok := err.(*LineError)
		if !ok {
			t.Fatalf("%v names no line", err)
		}
		if at.Line < 1 || at.Line > strings.Count(string(data), "\n")+2 {
			t.Fatalf("line %d of %q: %v", at.Line, data, err)
		}
	})
}
