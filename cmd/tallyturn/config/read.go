package config

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"crochet/tallyturn/tui"
)

// mostBytes is the largest file that is read: no file of settings is near it.
const mostBytes = 1 << 20

// mostRest is the longest time without a rest that can be set, in minutes.
const mostRest = 24 * 60

// reader reads one file.
type reader struct {
	p     unstable.Parser
	c     Config
	keys  map[string][]string
	where map[string]int // the line of each key
}

// Read reads a file of settings. The error is a LineError.
func Read(data []byte) (Config, error) {
	if len(data) > mostBytes {
		return Default(), &LineError{1, fmt.Errorf("the file is larger than %d bytes", mostBytes)}
	}
	// The whole of it first: what stands twice, and all that is no TOML.
	var all map[string]any
	if err := toml.Unmarshal(data, &all); err != nil {
		var at *toml.DecodeError
		if errors.As(err, &at) {
			row, _ := at.Position()
			return Default(), &LineError{row, errors.New(strings.TrimPrefix(at.Error(), "toml: "))}
		}
		return Default(), &LineError{1, err}
	}
	r := &reader{c: Default(), keys: map[string][]string{}, where: map[string]int{}}
	r.p.Reset(data)
	table := ""
	for r.p.NextExpression() {
		e := r.p.Expression()
		name, line := r.key(e)
		var err error
		switch e.Kind {
		case unstable.Table:
			table = name
			if table != "signals" && table != "keys" {
				err = fmt.Errorf("there is no part %q; there are signals and keys", table)
			}
		case unstable.KeyValue:
			err = r.set(table, name, e.Value(), line)
		default:
			err = errors.New("lists of tables have no meaning here")
		}
		if err != nil {
			return Default(), &LineError{line, err}
		}
	}
	if err := r.p.Error(); err != nil {
		return Default(), &LineError{1, err}
	}
	if len(r.keys) > 0 {
		keymap, err := tui.NewKeymap(r.keys)
		if err != nil {
			return Default(), &LineError{1, err}
		}
		if clash := keymap.Clash(); clash != "" {
			return Default(), &LineError{r.clashLine(clash), errors.New(clash)}
		}
		r.c.Wants.Keys = keymap
	}
	return r.c, nil
}

// clashLine is the last line that is named in a clash.
func (r *reader) clashLine(clash string) (line int) {
	for name, l := range r.where {
		if strings.Contains(clash, strconv.Quote(name)) {
			line = max(line, l)
		}
	}
	return max(line, 1)
}

// key is the name of an expression, dots and all, and the line it is on.
func (r *reader) key(e *unstable.Node) (name string, line int) {
	var parts []string
	for it := e.Key(); it.Next(); {
		n := it.Node()
		parts = append(parts, string(n.Data))
		line = r.p.Shape(n.Raw).Start.Line
	}
	return strings.Join(parts, "."), line
}

func (r *reader) set(table, name string, v *unstable.Node, line int) error {
	if before, after, dotted := strings.Cut(name, "."); dotted && table == "" {
		table, name = before, after
	}
	switch table {
	case "":
		return r.general(name, v)
	case "signals":
		return r.signal(name, v)
	case "keys":
		list, err := r.strings(name, v)
		if err != nil {
			return err
		}
		if _, err := tui.NewKeymap(map[string][]string{name: list}); err != nil {
			return err
		}
		r.keys[name], r.where[name] = list, line
		return nil
	}
	return fmt.Errorf("there is no part %q; there are signals and keys", table)
}

func (r *reader) general(name string, v *unstable.Node) (err error) {
	switch name {
	case "ground":
		r.c.Ground, err = oneOf(name, v, "auto", "dark", "light")
	case "colour":
		r.c.Colour, err = oneOf(name, v, "auto", "none", "16", "256", "true")
	case "ascii":
		r.c.ASCII, err = yes(name, v)
	case "plain":
		r.c.Plain, err = yes(name, v)
	case "rest-minutes":
		n, convErr := strconv.Atoi(string(v.Data))
		if v.Kind != unstable.Integer || convErr != nil || n < 0 || n > mostRest {
			return fmt.Errorf("rest-minutes is a number from 0 to %d", mostRest)
		}
		r.c.Wants.Rest = time.Duration(n) * time.Minute
	default:
		return fmt.Errorf("there is no setting %q; there are ground, colour, ascii, plain and rest-minutes", name)
	}
	return err
}

var occasions = map[string]tui.Occasion{
	"row-end": tui.RowEnd, "repeat-end": tui.RepeatEnd, "colour-change": tui.ColourChange, "mismatch": tui.Mismatch, "rest": tui.RestTime,
}

var signals = map[string]tui.Signal{"off": 0, "bell": tui.Bell, "flash": tui.Flash, "both": tui.Bell | tui.Flash}

func (r *reader) signal(name string, v *unstable.Node) error {
	o, ok := occasions[name]
	if !ok {
		return fmt.Errorf("there is no signal %q; there are row-end, repeat-end, colour-change, mismatch and rest", name)
	}
	word, err := oneOf(name, v, "off", "bell", "flash", "both")
	r.c.Wants.Signals[o] = signals[word]
	return err
}

// strings is a string, or a list of them.
func (r *reader) strings(name string, v *unstable.Node) (list []string, err error) {
	wrong := fmt.Errorf("%s is a key, or several in brackets, each in quotes", name)
	switch v.Kind {
	case unstable.String:
		return []string{string(v.Data)}, nil
	case unstable.Array:
		for it := v.Children(); it.Next(); {
			n := it.Node()
			if n.Kind != unstable.String {
				return nil, wrong
			}
			list = append(list, string(n.Data))
		}
		return list, nil
	}
	return nil, wrong
}

func oneOf(name string, v *unstable.Node, words ...string) (string, error) {
	if word := string(v.Data); v.Kind == unstable.String && slices.Contains(words, word) {
		return word, nil
	}
	last := len(words) - 1
	return words[0], fmt.Errorf("%s is \"%s\" or \"%s\"", name, strings.Join(words[:last], "\", \""), words[last])
}

func yes(name string, v *unstable.Node) (bool, error) {
	if v.Kind != unstable.Bool {
		return false, fmt.Errorf("%s is true or false", name)
	}
	return string(v.Data) == "true", nil
}
