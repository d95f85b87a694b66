package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
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
type choice struct {
	size, terms string
	others      bool // say what is wrong in the other sizes as well
}

// allSizes, given as a size, stands for each of them in turn.
const allSizes = "all"

// prove reads and proves the pattern in the size wanted. Its errors say why
// there is nothing to work: no rows, or no such size.
func (c choice) prove(name, text string) (*pattern.Proof, error) {
	o := pattern.Options{Size: c.size, Others: c.others}
	terms, err := termsNamed(c.terms)
	if err != nil {
		return nil, err
	}
	o.Terms = terms
	p := pattern.Read(text)
	if c.size != "" && !hasSize(p, c.size) {
		if len(p.Sizes) == 0 {
			return nil, fmt.Errorf("%s: has one size only, so not %q", name, c.size)
		}
		return nil, fmt.Errorf("%s: has no size %q; it has %s", name, c.size, strings.Join(p.Sizes, ", "))
	}
	proof := p.Prove(o)
	if proof.Summary().Rows == 0 {
		return nil, fmt.Errorf("%s: no rows or rounds were found in it", name)
	}
	return proof, nil
}

// open reads the file and proves what is in it. The name is what the file is
// called in what is said about it.
func (c choice) open(w world, file string) (name string, proof *pattern.Proof, err error) {
	name = sourceName(file)
	text, err := readSource(file, w.in)
	if err != nil {
		return name, nil, err
	}
	proof, err = c.prove(name, text)
	return name, proof, err
}

// titleOf is the title of a pattern or, where it has none, what its file is
// called, with the size that is meant of those that it comes in.
func titleOf(proof *pattern.Proof, name string) string {
	if proof.Pattern.Title != "" {
		name = proof.Pattern.Title
	}
	if size := proof.InSize(); size != "" {
		name += ", " + size + " of " + strings.Join(proof.Pattern.Sizes, ", ")
	}
	return name
}

// writeFile writes what a command has made into the file named for it.
func writeFile(file string, out []byte) error {
	if err := os.WriteFile(file, out, 0o666); err != nil {
		return fmt.Errorf("%s: cannot be written: %w", sourceName(file), reason(err))
	}
	return nil
}

// termsNamed reads the terms of a command line; "" leaves it to the pattern.
func termsNamed(name string) (stitch.Terms, error) {
	switch strings.ToLower(name) {
	case "":
		return stitch.Unknown, nil
	case "us":
		return stitch.US, nil
	case "uk":
		return stitch.UK, nil
	}
	return stitch.Unknown, fmt.Errorf("--terms is us or uk, not %q", name)
}

// proveAll is prove, for each size where all of them are wanted.
func (c choice) proveAll(name, text string) ([]*pattern.Proof, error) {
	sizes := []string{c.size}
	if strings.EqualFold(c.size, allSizes) {
		p := pattern.Read(text)
		switch {
		case hasSize(p, allSizes): // it has one of that name
		case len(p.Sizes) > 0:
			sizes = p.Sizes
		default:
			sizes = []string{""}
		}
	}
	proofs := make([]*pattern.Proof, len(sizes))
	for i, size := range sizes {
		proof, err := choice{size: size, terms: c.terms, others: c.others}.prove(name, text)
		if err != nil {
			return nil, err
		}
		proofs[i] = proof
	}
	return proofs, nil
}

func hasSize(p *pattern.Pattern, size string) bool {
	return slices.ContainsFunc(p.Sizes, func(s string) bool { return strings.EqualFold(s, size) })
}
