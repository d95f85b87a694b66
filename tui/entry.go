package tui

import (
	"errors"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// entry is a number being given: the one offered until a digit is typed.
type entry struct {
	offer  int64
	digits string
}

// mostDigits is more than any number of stitches has.
const mostDigits = 15

var errTooLong = errors.New("no row is that long")

// add types a digit; false where the number would get too long.
func (e *entry) add(digit string) bool {
	if len(e.digits) >= mostDigits {
		return false
	}
	e.digits = strings.TrimLeft(e.digits+digit, "0")
	if e.digits == "" {
		e.digits = "0"
	}
	return true
}

// erase rubs a digit out; false where there is none.
func (e *entry) erase() bool {
	if e.digits == "" {
		return false
	}
	e.digits = e.digits[:len(e.digits)-1]
	return true
}

// number is the number given.
func (e entry) number() (int64, error) {
	if e.digits == "" {
		return e.offer, nil
	}
	n, err := strconv.ParseInt(e.digits, 10, 64)
	if err != nil {
		return 0, errTooLong
	}
	return n, nil
}

// String is the number as it stands in its box.
func (e entry) String() string {
	if e.digits == "" {
		return strconv.FormatInt(e.offer, 10)
	}
	return e.digits
}

// sentence makes a line of an error: a capital and a full stop.
func sentence(s string) string {
	s = Clean(s)
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	s = string(unicode.ToUpper(r)) + s[n:]
	if strings.ContainsRune(".!?", rune(s[len(s)-1])) {
		return s
	}
	return s + "."
}
