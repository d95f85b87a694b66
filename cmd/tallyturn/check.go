package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/cmd/tallyturn/report"
	"crochet/tallyturn/pattern"
)

type checkCommand struct {
	world
	choice
	json    bool
	explain string
}

func newCheck(w world) *cobra.Command {
	k := checkCommand{world: w}
	c := &cobra.Command{
		Use:   "check FILE...",
		Short: "Work a pattern row by row and show where its numbers fail",
		Long: `check works each row stitch by stitch into the row below and sets what it makes
against the total that the pattern states. It prints a table for each piece,
then what it found: the line, the words meant, what was expected, what was
found and the likely mend.

FILE is plain text of at most 4 MB; - is standard input.

With --json it prints one JSON object a line, one for each file and size. Where
several files are named, each object begins with the field "file".

With --explain it says what a code of a finding means and checks nothing.

Exit status: 0 no error was found, 1 at least one was, 2 a file could not be
read or the command line is wrong.`,
		Example: `  tallyturn check pennant.txt
  tallyturn check hat.txt --size M
  tallyturn check hat.txt cowl.txt --size all
  tallyturn demo buoy | tallyturn check -
  tallyturn check --explain total-differs`,
		Args: func(c *cobra.Command, files []string) error {
			switch {
			case !c.Flags().Changed("explain"):
				return patternFiles(1, 0)(c, files)
			case len(files) > 0 || c.Flags().NFlag() > 1:
				return wrongUse(c, "--explain goes alone")
			}
			return nil
		},
		RunE: func(c *cobra.Command, files []string) error {
			if len(files) == 0 {
				return k.explainCode()
			}
			return k.run(files)
		},
	}
	c.Flags().StringVar(&k.size, "size", "", "check this `size`, spelled as in the pattern, or all of them\nwith all (default: its first, and the errors of the others)")
	c.Flags().StringVar(&k.terms, "terms", "", "read it in `us|uk` terms, whatever the pattern says")
	c.Flags().BoolVar(&k.json, "json", false, "print JSON, one object a line")
	c.Flags().StringVar(&k.explain, "explain", "", "say what the `code` of a finding means")
	return c
}

// explainCode prints what a code means.
func (k checkCommand) explainCode() error {
	text, ok := pattern.Explain(pattern.Code(k.explain))
	if !ok {
		var codes []string
		for _, c := range pattern.Codes() {
			codes = append(codes, string(c))
		}
		return fmt.Errorf("there is no finding with the code %q; there are %s", k.explain, strings.Join(codes, ", "))
	}
	_, err := fmt.Fprintf(k.out, "%s\n\n%s\n", k.explain, strings.TrimRight(text, "\n"))
	return err
}

func (k checkCommand) run(files []string) error {
	var all report.Tally
	var verdict error
	printed := 0
	for _, file := range files {
		proofs, err := k.proveFile(file)
		if err != nil {
			k.complain(err)
			verdict = errSaid
			continue
		}
		for _, proof := range proofs {
			if verdict == nil && proof.Errors() > 0 {
				verdict = errFound
			}
			all = all.Add(report.Count(proof))
			if printed++; printed > 1 && !k.json {
				fmt.Fprintln(k.out)
			}
			if err := k.print(proof, file, len(files) > 1); err != nil {
				return fmt.Errorf("cannot write the report: %w", err)
			}
		}
	}
	if printed > 1 && !k.json {
		fmt.Fprintf(k.out, "\nIn all %s\n", all)
	}
	return verdict
}

func (k checkCommand) proveFile(file string) ([]*pattern.Proof, error) {
	text, err := readSource(file, k.in)
	if err != nil {
		return nil, err
	}
	c := k.choice
	c.others = c.size == ""
	return c.proveAll(sourceName(file), text)
}

func (k checkCommand) print(proof *pattern.Proof, file string, several bool) error {
	if k.json {
		if !several {
			file = ""
		}
		return report.JSON(k.out, proof, file)
	}
	return report.Text(k.out, proof, textOptions(k.out, sourceName(file)))
}

// textOptions suits a report to where it goes: coloured and as wide as the
// screen on a terminal, plain elsewhere.
func textOptions(out io.Writer, name string) report.Options {
	o := report.Options{Name: name, Width: 100}
	if width, ok := onTerminal(out); ok {
		if width > 0 {
			o.Width = width
		}
		o.Colour = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
	}
	return o
}
