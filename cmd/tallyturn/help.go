package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

// newHelp is the command that shows another's help. Unlike cobra's own it
// takes a command that does not exist for the mistake it is.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:     "help [COMMAND]",
		Short:   "Show how a command goes",
		Example: "  tallyturn help check",
		RunE: func(c *cobra.Command, args []string) error {
			about, rest, err := c.Root().Find(args)
			if err != nil {
				return wrongUse(c.Root(), err.Error())
			}
			if len(rest) > 0 {
				return wrongUse(c.Root(), fmt.Sprintf("there is no command %q", rest[0]))
			}
			about.InitDefaultHelpFlag()
			about.InitDefaultVersionFlag()
			return about.Help()
		},
	}
}
