package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"crochet/tallyturn/cmd/tallyturn/config"
	"crochet/tallyturn/tui"
)

func newConfig(w world) *cobra.Command {
	var check, show bool
	c := &cobra.Command{
		Use:   "config",
		Short: "Write a file of settings to change, or check it",
		Long: `config writes a file with every setting in it, explained, with the keys and what
they do, and says where it is. A file that is there already is left alone.
--check reads it and names the first line that is wrong; --print writes the text
to standard output instead.`,
		Example: `  tallyturn config
  tallyturn config --check
  tallyturn config --print | less`,
		Args: noneOf,
		RunE: func(c *cobra.Command, _ []string) error {
			path := config.Path(configHome())
			switch {
			case check && show:
				return wrongUse(c, "--check and --print do not go together")
			case show:
				_, err := io.WriteString(w.out, config.Text())
				return err
			case check:
				return w.checkConfig(path)
			}
			return w.writeConfig(path)
		},
	}
	c.Flags().BoolVar(&check, "check", false, "read the file and say whether it is right")
	c.Flags().BoolVar(&show, "print", false, "write the text of the file to standard output")
	return c
}

func (w world) checkConfig(path string) error {
	if !exists(path) {
		_, err := fmt.Fprintf(w.out, "%s: there is none; everything is as it comes\n", tui.Clean(path))
		return err
	}
	c, err := config.Load(path)
	if err != nil {
		return err
	}
	for _, name := range c.Wants.Keys.Keyless() {
		if _, err := fmt.Fprintf(w.out, "%s: no key is left for %q, since you gave its own to something else\n", tui.Clean(path), name); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintf(w.out, "%s: is right\n", tui.Clean(path))
	return err
}

func (w world) writeConfig(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("%s: %w", tui.Clean(filepath.Dir(path)), reason(err))
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: is there already, and is left as it is", tui.Clean(path))
	}
	if err != nil {
		return fmt.Errorf("%s: cannot be written: %w", tui.Clean(path), reason(err))
	}
	_, err = io.WriteString(f, config.Text())
	if err = errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("%s: cannot be written: %w", tui.Clean(path), reason(err))
	}
	_, err = fmt.Fprintf(w.out, "%s\n", tui.Clean(path))
	return err
}
