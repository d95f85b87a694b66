package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// walkAtOnce gives the command that walks alone, where the arguments can mean
// nothing else: it is what a maker starts many times a day, and need not wait
// for the making of twenty others. Wherever there is a doubt it gives nil, and
// the whole of them decides.
func walkAtOnce(w world, args []string) *cobra.Command {
	for _, arg := range args {
		if !strings.HasPrefix(arg, "-") && !(strings.ContainsAny(arg, "./") && exists(arg)) {
			return nil // it could be the name of a command, or be meant as one
		}
	}
	root := newWalk(w)
	if err := root.ParseFlags(args); err != nil {
		return nil
	}
	if files := root.Flags().Args(); len(files) > 1 || len(files) == 1 && files[0] == "-" {
		return nil
	}
	return root
}
