package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern/demo"
)

func newDemo(w world) *cobra.Command {
	k := walkCommand{world: w}
	walk := false
	c := &cobra.Command{
		Use:   "demo [NAME]",
		Short: "List the built-in patterns, print one or walk it",
		Long: `demo lists the patterns that come with the program; demo NAME prints one, as it
would stand in a file of your own, or with --walk opens its walk.`,
		Example: `  tallyturn demo
  tallyturn demo buoy > buoy.txt
  tallyturn demo buoy | tallyturn check -
  tallyturn demo buoy --walk`,
		Args: patternFiles(0, 1),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) (names []string, _ cobra.ShellCompDirective) {
			if len(args) == 0 {
				for _, d := range demo.All() {
					names = append(names, d.Name+"\t"+d.About)
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case c.Flags().NFlag() > 0 && !walk:
				return wrongUse(c, "--size, --anew and --data go with --walk")
			case walk && len(args) == 0:
				return wrongUse(c, "name a demo to walk")
			}
			if len(args) == 0 {
				for _, d := range demo.All() {
					fmt.Fprintf(w.out, "%-10s %s\n", d.Name, d.About)
				}
				return nil
			}
			d, err := demoNamed(args[0])
			if err != nil {
				return err
			}
			if walk {
				return k.demo(d)
			}
			_, err = io.WriteString(w.out, d.Text)
			return err
		},
	}
	c.Flags().BoolVar(&walk, "walk", false, "open the walk of the demo")
	k.flags(c)
	return c
}

func demoNamed(name string) (demo.Demo, error) {
	if d, ok := demo.Find(name); ok {
		return d, nil
	}
	var names []string
	for _, d := range demo.All() {
		names = append(names, d.Name)
	}
	return demo.Demo{}, fmt.Errorf("there is no demo %q; there are %s", name, strings.Join(names, ", "))
}
