package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/sheet/pdf"
	"crochet/tallyturn/pattern/stitch"
	"crochet/tallyturn/pattern/yarn"
	"crochet/tallyturn/tui"
)

type sheetCommand struct {
	*walkCommand
	as, told, file  string
	paper, size     string
	with            []string
	restyle, anyway bool
}

func newSheet(w world) *cobra.Command {
	k := sheetCommand{walkCommand: &walkCommand{world: w}}
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
		Example: `  tallyturn sheet pennant.txt
  tallyturn sheet pennant.txt -o pennant.html --terms both
  tallyturn sheet pennant.txt -o pennant.pdf --paper letter --with chart
  tallyturn sheet pennant.txt --as txt --terms uk -o pennant-uk.txt
  tallyturn demo net | tallyturn sheet - --terms both`,
		Args: patternFiles(1, 1),
		RunE: func(c *cobra.Command, files []string) error { return k.run(files[0]) },
	}
	c.Flags().StringVar(&k.as, "as", "", "write `md|html|pdf|txt` (default: as the name after -o ends, else md)")
	c.Flags().StringVar(&k.paper, "paper", "a4", "print a PDF on `a4|letter`")
	c.Flags().StringVar(&k.told, "terms", "", "tell it in `us|uk|both` terms (default: as it is written)")
	c.Flags().StringSliceVar(&k.with, "with", nil, "put in `chart,layout,times,yarn`: drawings, in a page and\nin print; how long it takes at the pace you worked it at;\nand the yarn it takes, worked out beside your own amounts")
	c.Flags().StringVar(&k.size, "size", "", "draw and time this `size` of a pattern in several (default: its first);\nthe rows tell all of them")
	c.Flags().BoolVar(&k.restyle, "restyle", false, "write the rows in one style")
	c.Flags().BoolVar(&k.anyway, "anyway", false, "publish a pattern with errors, its rows marked")
	c.Flags().StringVarP(&k.file, "output", "o", "", "write to this `file` rather than to standard output")
	k.dataFlag(c, false)
	return c
}

func (k sheetCommand) run(file string) error {
	form, err := k.form()
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
	drawn := proofs[0]
	if k.size != "" {
		if drawn, err = (choice{size: k.size}).prove(name, text); err != nil {
			return err
		}
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
	if i := slices.Index(k.with, "yarn"); i >= 0 {
		if _, err := yarn.StatedRate(proofs[0]); err != nil {
			return fmt.Errorf("%s: the yarn cannot be worked out: %w", name, err)
		}
		o.Yarn = true
		k.with = slices.Delete(slices.Clone(k.with), i, i+1)
	}
	if i := slices.Index(k.with, "times"); i >= 0 {
		if o.Times, err = k.times(file, drawn); err != nil {
			return err
		}
		k.with = slices.Delete(slices.Clone(k.with), i, i+1)
	}
	if o.Pictures, err = k.pictures(name, drawn, o.Terms); err != nil {
		return err
	}
	doc := sheet.New(proofs[0], o)
	if len(doc.Unlike) > 0 {
		problem := fmt.Sprintf("%s: the sheet would read otherwise than the pattern: %s", name, strings.Join(doc.Unlike, "; "))
		if !k.anyway {
			return fmt.Errorf("%s; --anyway writes it", problem)
		}
		k.complain(fmt.Errorf("%s", problem))
	}
	if n := len(doc.AsWritten); n > 0 {
		k.complain(fmt.Errorf("%s: %d %s in another manner, which the style of the sheet cannot tell, and %s as written: %s", name, n, plural(n, "row is", "rows are"), plural(n, "stands", "stand"), tui.Clean(someOf(doc.AsWritten))))
	}
	out, err := form(doc)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return k.put(out)
}

// mostNamed is how many rows are named one by one.
const mostNamed = 8

// someOf names things, the first of many.
func someOf(all []string) string {
	if len(all) > mostNamed {
		return strings.Join(all[:mostNamed], ", ") + fmt.Sprintf(" and %d more", len(all)-mostNamed)
	}
	return strings.Join(all, ", ")
}

// form is how the sheet is to be written: as asked for, as the name of the file
// ends, or in Markdown.
func (k sheetCommand) form() (func(*sheet.Doc) ([]byte, error), error) {
	var paper pdf.Paper
	switch strings.ToLower(k.paper) {
	case "a4":
		paper = pdf.A4
	case "letter":
		paper = pdf.Letter
	default:
		return nil, fmt.Errorf("--paper is a4 or letter, not %q", k.paper)
	}
	as := k.format()
	if slices.ContainsFunc(k.with, func(w string) bool { return w != "times" && w != "yarn" }) && as != "html" && as != "pdf" {
		return nil, fmt.Errorf("--with goes with html and pdf: only they hold drawings")
	}
	text := func(write func(*sheet.Doc) string) func(*sheet.Doc) ([]byte, error) {
		return func(d *sheet.Doc) ([]byte, error) { return []byte(write(d)), nil }
	}
	switch as {
	case "md", "":
		return text(sheet.Markdown), nil
	case "html":
		return text(sheet.HTML), nil
	case "txt":
		return text(sheet.Text), nil
	case "pdf":
		if _, ok := onTerminal(k.out); ok && (k.file == "" || k.file == "-") {
			return nil, fmt.Errorf("a PDF is not for the screen: name a file with -o")
		}
		return func(d *sheet.Doc) ([]byte, error) { return pdf.Write(d, paper) }, nil
	}
	if k.as == "" {
		return nil, fmt.Errorf("%s: the name does not say what to write; --as md, html, pdf or txt does", sourceName(k.file))
	}
	return nil, fmt.Errorf("--as is md, html, pdf or txt, not %q", k.as)
}

// format is what to write, as asked for or as the name of the file ends; ""
// where neither says.
func (k sheetCommand) format() string {
	if k.as != "" {
		return strings.ToLower(k.as)
	}
	return strings.ToLower(strings.TrimPrefix(filepath.Ext(k.file), "."))
}

// inTerms are the terms that the sheet is to be told in.
func (k sheetCommand) inTerms(p *pattern.Proof) ([]stitch.Terms, error) {
	switch strings.ToLower(k.told) {
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
	return nil, fmt.Errorf("--terms is us, uk or both, not %q", k.told)
}

// put writes the sheet where it is wanted.
func (k sheetCommand) put(out []byte) error {
	if k.file == "" || k.file == "-" {
		if _, err := k.out.Write(out); err != nil {
			return fmt.Errorf("cannot write the sheet: %w", err)
		}
		return nil
	}
	return writeFile(k.file, out)
}
