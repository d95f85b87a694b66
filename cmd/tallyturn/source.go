package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
	"crochet/tallyturn/tui"
)

// sourceLimit is the largest pattern taken, in bytes: a book of them, and far
// from anything that one maker writes as one pattern.
const sourceLimit = 4 << 20

// readSource reads the pattern text in a file, or in in where its name is "-".
// Its errors name the file and fit on one line.
func readSource(file string, in io.Reader) (string, error) {
	from, name := in, sourceName(file)
	if file != "-" {
		info, err := os.Stat(file)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return "", fmt.Errorf("%s: there is no such file", name)
		case err != nil:
			return "", fmt.Errorf("%s: cannot be opened: %w", name, reason(err))
		case info.IsDir():
			return "", fmt.Errorf("%s: is a folder, not a pattern file", name)
		}
		f, err := os.Open(file)
		if err != nil {
			return "", fmt.Errorf("%s: cannot be opened: %w", name, reason(err))
		}
		defer f.Close()
		from = f
	}
	data, err := io.ReadAll(io.LimitReader(from, sourceLimit+1))
	if err != nil {
		return "", fmt.Errorf("%s: cannot be read: %w", name, reason(err))
	}
	text, err := decode(data)
	if err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	return text, nil
}

// sourceName is what a file is called in what is said about it.
func sourceName(file string) string {
	if file == "-" {
		return "standard input"
	}
	return tui.Clean(file)
}

// reason strips the name from a file error, which the message has already.
func reason(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// choice is how the maker wants a pattern read.
type choice struct{ size, terms string }

// prove reads and proves the pattern. Its errors say why there is nothing to
// work: no rows, or no such size.
func (c choice) prove(name, text string) (*pattern.Proof, error) {
	o := pattern.Options{Size: c.size}
	switch strings.ToLower(c.terms) {
	case "":
	case "us":
		o.Terms = stitch.US
	case "uk":
		o.Terms = stitch.UK
	default:
		return nil, fmt.Errorf("--terms is us or uk, not %q", c.terms)
	}
	p := pattern.Read(text)
	if err := hasSize(p, c.size); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	proof := p.Prove(o)
	if proof.Summary().Rows == 0 {
		return nil, fmt.Errorf("%s: no rows or rounds were found in it", name)
	}
	return proof, nil
}

func hasSize(p *pattern.Pattern, size string) error {
	if size == "" {
		return nil
	}
	for _, s := range p.Sizes {
		if strings.EqualFold(s, size) {
			return nil
		}
	}
	if len(p.Sizes) == 0 {
		return fmt.Errorf("has one size only, so not %q", size)
	}
	return fmt.Errorf("has no size %q; it has %s", size, strings.Join(p.Sizes, ", "))
}
