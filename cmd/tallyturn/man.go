package main

import (
	"embed"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"crochet/tallyturn/tui"
)

// The manual pages are written from the commands by a test, with -update: what
// writes them is in the test and not in the program, whose start would have to
// wait for it.
//
//go:embed manual
var manual embed.FS

func newMan(w world) *cobra.Command {
	return &cobra.Command{
		Use:   "man [FOLDER]",
		Short: "Write the manual page, or one for each command",
		Long: `man writes the manual page of tallyturn to standard output, or into a folder one
for each command. They are made from the same words as --help.`,
		Example: `  tallyturn man | man -l -
  tallyturn man ~/.local/share/man/man1`,
		Args: atMostOne,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				page, err := manual.ReadFile("manual/tallyturn.1")
				if err != nil {
					return err
				}
				_, err = w.out.Write(page)
				return err
			}
			return writeManual(args[0])
		},
	}
}

// writeManual writes every page into a folder, which is made if there is none.
func writeManual(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("%s: cannot be made: %w", tui.Clean(dir), reason(err))
	}
	pages, err := manual.ReadDir("manual")
	if err != nil {
		return err
	}
	for _, p := range pages {
		page, err := manual.ReadFile("manual/" + p.Name())
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(dir, p.Name()), page, 0o644); err != nil {
			return fmt.Errorf("%s: cannot be written to: %w", tui.Clean(dir), reason(err))
		}
	}
	return nil
}
