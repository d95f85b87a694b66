package main

import (
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"crochet/tallyturn/tui"
)

// manDate stands on the manual pages. It changes with them and not with the
// day they are written, so that the same program writes the same bytes.
var manDate = time.Date(2026, time.November, 1, 0, 0, 0, 0, time.UTC)

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
			root := c.Root()
			root.DisableAutoGenTag = true
			head := &doc.GenManHeader{Title: "TALLYTURN", Section: "1", Source: "tallyturn", Manual: "tallyturn", Date: &manDate}
			if len(args) == 0 {
				return doc.GenMan(root, head, w.out)
			}
			if err := os.MkdirAll(args[0], 0o755); err != nil {
				return fmt.Errorf("%s: cannot be made: %w", tui.Clean(args[0]), reason(err))
			}
			if err := doc.GenManTree(root, head, args[0]); err != nil {
				return fmt.Errorf("%s: cannot be written to: %w", tui.Clean(args[0]), reason(err))
			}
			return nil
		},
	}
}
