package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"unicode/utf8"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// sourceLimit is the largest pattern taken, in bytes: a book of them, and far
// from anything that one maker writes as one pattern.
const sourceLimit = 4 << 20

// readSource reads the pattern text in a file, or on in where the name is "-".
// Its errors name the file and fit on one line.
func readSource(name string, in io.Reader) (string, error) {
	from := in
	if name != "-" {
		info, err := os.Stat(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return "", fmt.Errorf("%s: there is no such file", name)
		case err != nil:
			return "", fmt.Errorf("%s: cannot be opened: %w", name, reason(err))
		case info.IsDir():
			return "", fmt.Errorf("%s: is a folder, not a pattern file", name)
		}
		f, err := os.Open(name)
		if err != nil {
			return "", fmt.Errorf("%s: cannot be opened: %w", name, reason(err))
		}
		defer f.Close()
		from = f
	}
	name = sourceName(name)
	data, err := io.ReadAll(io.LimitReader(from, sourceLimit+1))
	if err != nil {
		return "", fmt.Errorf("%s: cannot be read: %w", name, reason(err))
	}
	if err := isText(data); err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	return string(data), nil
}

// sourceName is what a file is called in what is said about it.
func sourceName(file string) string {
	if file == "-" {
		return "standard input"
	}
	return file
}

// reason strips the name from a file error, which the message has already.
func reason(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// foreign are the beginnings of files that makers keep patterns in and that
// hold no plain text.
var foreign = []struct{ start, what string }{
	{"%PDF-", "a PDF"},
	{"PK\x03\x04", "a document or archive"},
	{"\xd0\xcf\x11\xe0", "an office document"},
	{"{\\rtf", "a rich-text document"},
	{"\x89PNG", "a picture"},
	{"\xff\xd8\xff", "a picture"},
}

// isText says why data cannot be the text of a pattern, if so.
func isText(data []byte) error {
	for _, f := range foreign {
		if bytes.HasPrefix(data, []byte(f.start)) {
			return fmt.Errorf("is %s; save the pattern as plain text first", f.what)
		}
	}
	switch {
	case len(data) > sourceLimit:
		return fmt.Errorf("is over %d MB, more than any one pattern needs", sourceLimit>>20)
	case bytes.IndexByte(data, 0) >= 0:
		return errors.New("is not plain text: it holds zero bytes")
	case len(bytes.TrimSpace(data)) == 0:
		return errors.New("is empty")
	case !utf8.Valid(data) && mostlyBroken(data):
		return errors.New("is not plain text in UTF-8")
	}
	return nil
}

// mostlyBroken lets a few stray bytes pass, as one pasted from an older
// program, and tells them from a file in some other coding altogether.
func mostlyBroken(data []byte) bool {
	broken := 0
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			broken++
		}
		i += n
	}
	return broken*10 > len(data)
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
