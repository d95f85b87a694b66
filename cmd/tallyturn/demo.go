package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern/demo"
)

func newDemo(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "demo [NAME]",
		Short: "List the built-in patterns, or print one",
		Long: `demo lists the patterns that come with the program; demo NAME prints one, as it
would stand in a file of your own.`,
		Example: `  tallyturn demo
  tallyturn demo buoy > buoy.txt
  tallyturn demo buoy | tallyturn check -`,
		Args: patternFiles(0, 1),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				for _, d := range demo.All() {
					fmt.Fprintf(s.out, "%-10s %s\n", d.Name, d.About)
				}
				return nil
			}
			d, err := demoNamed(args[0])
			if err != nil {
				return err
			}
			_, err = io.WriteString(s.out, d.Text)
			return err
		},
	}
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
