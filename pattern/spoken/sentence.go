package spoken

import (
	"unicode"
	"unicode/utf8"
)

// sentence gives text a capital and a full stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	r, n := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(r)) + s[n:]
	switch s[len(s)-1] {
	case '.', '!', '?':
		return s
	case ',', ';', ':':
		return s[:len(s)-1] + "."
	}
	return s + "."
}

// capitals gives each sentence of a text its capital.
func capitals(s string) string {
	out := []byte(nil)
	up := true
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if up && unicode.IsLetter(r) {
			out = utf8.AppendRune(out, unicode.ToUpper(r))
			up = false
		} else {
			out = append(out, s[i:i+n]...)
		}
		switch r {
		case '.', '!', '?':
			up = true
		}
		i += n
	}
	return string(out)
}
