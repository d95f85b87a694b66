package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/stitch"
)

type sheetCommand struct {
	world
	as, terms, file string
	restyle, anyway bool
}

func newSheet(w world) *cobra.Command {
	k := sheetCommand{world: w}
	c := &cobra.Command{
		Use:   "sheet FILE",
		Short: "Write the sheet of a proven pattern, to publish it",
		Long: `sheet writes a pattern as it is published: what it is, materials, gauge and
sizes, the abbreviations it uses in full words, the rows piece by piece, making
up as numbered steps, and the cautions that it calls for. The author's words
stay; --terms tells them in US or UK terms, and --restyle writes the rows in one
style.

What is written reads back as the pattern that it came from: that is checked
each time. A pattern with errors is not published; with --anyway it is, its rows
marked.

FILE is plain text of at most 4 MB; - is standard input.

Exit status: 0 the sheet is written, 1 the pattern has errors, 2 a file could
not be read or written or the command line is wrong.`,
		Example: `  tallyturn sheet pennant.txt --as md
  tallyturn sheet pennant.txt --as txt --terms uk -o pennant-uk.txt
  tallyturn demo net | tallyturn sheet - --terms both`,
		Args: patternFiles(1, 1),
		RunE: func(c *cobra.Command, files []string) error { return k.run(files[0]) },
	}
	c.Flags().StringVar(&k.as, "as", "md", "write `md|html|txt`")
	c.Flags().StringVar(&k.terms, "terms", "", "tell it in `us|uk|both` terms (default: as it is written)")
	c.Flags().BoolVar(&k.restyle, "restyle", false, "write the rows in one style")
	c.Flags().BoolVar(&k.anyway, "anyway", false, "publish a pattern with errors, its rows marked")
	c.Flags().StringVarP(&k.file, "output", "o", "", "write to this `file` rather than to standard output")
	return c
}

func (k sheetCommand) run(file string) error {
	write, err := k.form()
	if err != nil {
		return err
	}
	text, err := readSource(file, k.in)
	if err != nil {
		return err
	}
	name := sourceName(file)
	proofs, err := choice{size: allSizes}.proveAll(name, text)
	if err != nil {
		return err
	}
	o := sheet.Options{Restyle: k.restyle}
	if o.Terms, err = k.inTerms(proofs[0]); err != nil {
		return err
	}
	found := 0
	for _, p := range proofs {
		found += p.Errors()
	}
	if found > 0 && !k.anyway {
		k.complain(fmt.Errorf("%s: has %d %s, which 'tallyturn check' shows; --anyway publishes it, its rows marked", name, found, plural(found, "error", "errors")))
		return errFound
	}
	doc := sheet.New(proofs[0], o)
	if len(doc.Unlike) > 0 {
		problem := fmt.Sprintf("%s: the sheet would read otherwise than the pattern: %s", name, strings.Join(doc.Unlike, "; "))
		if !k.anyway {
			return fmt.Errorf("%s; --anyway writes it", problem)
		}
		k.complain(fmt.Errorf("%s", problem))
	}
	return k.put(write(doc))
}

// form is how the sheet is to be written.
func (k sheetCommand) form() (func(*sheet.Doc) string, error) {
	switch k.as {
	case "md":
		return sheet.Markdown, nil
	case "html":
		return sheet.HTML, nil
	case "txt":
		return sheet.Text, nil
	}
	return nil, fmt.Errorf("--as is md, html or txt, not %q", k.as)
}

// inTerms are the terms that the sheet is to be told in.
func (k sheetCommand) inTerms(p *pattern.Proof) ([]stitch.Terms, error) {
	switch strings.ToLower(k.terms) {
	case "":
		return []stitch.Terms{p.Terms}, nil
	case "us":
		return []stitch.Terms{stitch.US}, nil
	case "uk":
		return []stitch.Terms{stitch.UK}, nil
	case "both":
		if p.Terms == stitch.UK {
			return []stitch.Terms{stitch.UK, stitch.US}, nil
		}
		return []stitch.Terms{stitch.US, stitch.UK}, nil
	}
	return nil, fmt.Errorf("--terms is us, uk or both, not %q", k.terms)
}

// put writes the sheet where it is wanted.
func (k sheetCommand) put(s string) error {
	if k.file == "" || k.file == "-" {
		if _, err := fmt.Fprint(k.out, s); err != nil {
			return fmt.Errorf("cannot write the sheet: %w", err)
		}
		return nil
	}
	if err := os.WriteFile(k.file, []byte(s), 0o644); err != nil {
		return fmt.Errorf("%s: cannot be written: %w", sourceName(k.file), reason(err))
	}
	return nil
}
