package main

import (
	"bytes"
	"errors"
	"fmt"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	utf "golang.org/x/text/encoding/unicode"
)

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

// decode gives the text in the bytes of a file, or says why there is none.
// Text is UTF-8, UTF-16 with its mark, or what word processors of old wrote
// as plain text, Windows-1252.
func decode(data []byte) (string, error) {
	for _, f := range foreign {
		if bytes.HasPrefix(data, []byte(f.start)) {
			return "", fmt.Errorf("is %s; save the pattern as plain text first", f.what)
		}
	}
	if len(data) > sourceLimit {
		return "", fmt.Errorf("is over %d MB, more than any one pattern needs", sourceLimit>>20)
	}
	data, err := coding(data).NewDecoder().Bytes(bytes.TrimPrefix(data, []byte("\ufeff")))
	switch {
	case err != nil:
		return "", fmt.Errorf("is not plain text: %w", err)
	case bytes.IndexByte(data, 0) >= 0:
		return "", errors.New("is not plain text: it holds zero bytes")
	case len(bytes.TrimSpace(data)) == 0:
		return "", errors.New("is empty")
	}
	return string(data), nil
}

// coding guesses how text was put into bytes. A stray byte in a text that has
// letters in UTF-8 is left as it is, to be shown where it stands.
func coding(data []byte) encoding.Encoding {
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}), bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return utf.UTF16(utf.LittleEndian, utf.ExpectBOM)
	case !utf8.Valid(data) && !bytes.ContainsFunc(data, letterBeyondASCII):
		return charmap.Windows1252
	}
	return encoding.Nop
}

// letterBeyondASCII is false for a byte that is no UTF-8.
func letterBeyondASCII(r rune) bool { return r > unicode.MaxASCII && r != utf8.RuneError }
