package counter

import (
	"encoding/binary"
	"errors"
)

// An event as bytes, version 1:
//
//	1 byte    1, the version
//	1 byte    the kind
//	1 byte    which of N, Piece, Copy, Row and Text follow: bits 0 to 4
//	varint    At
//	varint    each of N, Piece, Copy and Row that follows
//	uvarint   the length of Text in bytes, and Text, if it follows
//
// Numbers are as in encoding/binary, as short as can be. What is zero or
// empty does not follow. So equal events have equal bytes, and a tap of one
// stitch has ten. Kinds that are not known are read all the same.
const encoding = 1

const (
	hasN = 1 << iota
	hasPiece
	hasCopy
	hasRow
	hasText
	hasAll = 1<<iota - 1
)

// ErrBadEvent is given for bytes that are not one event.
var ErrBadEvent = errors.New("not an event")

// AppendBinary appends the event as bytes. The error is always nil.
func (e Event) AppendBinary(b []byte) ([]byte, error) {
	fields := [...]int64{e.N, int64(e.Piece), int64(e.Copy), int64(e.Row)}
	var has byte
	for i, v := range fields {
		if v != 0 {
			has |= 1 << i
		}
	}
	if e.Text != "" {
		has |= hasText
	}
	b = append(b, encoding, byte(e.Kind), has)
	b = binary.AppendVarint(b, e.At)
	for _, v := range fields {
		if v != 0 {
			b = binary.AppendVarint(b, v)
		}
	}
	if e.Text != "" {
		b = binary.AppendUvarint(b, uint64(len(e.Text)))
		b = append(b, e.Text...)
	}
	return b, nil
}

// MarshalBinary is the event as bytes. The error is always nil.
func (e Event) MarshalBinary() ([]byte, error) { return e.AppendBinary(nil) }

// UnmarshalBinary reads an event that fills b. It gives ErrBadEvent, and
// leaves e alone, for anything AppendBinary would not write.
func (e *Event) UnmarshalBinary(b []byte) error {
	if len(b) < 3 || b[0] != encoding || b[2]&^hasAll != 0 {
		return ErrBadEvent
	}
	r := reader{b: b[3:]}
	got := Event{Kind: Kind(b[1])}
	has := b[2]
	got.At = r.varint()
	if has&hasN != 0 {
		got.N = r.set()
	}
	if has&hasPiece != 0 {
		got.Piece = r.int()
	}
	if has&hasCopy != 0 {
		got.Copy = r.int()
	}
	if has&hasRow != 0 {
		got.Row = r.int()
	}
	if has&hasText != 0 {
		got.Text = r.text()
	}
	if r.bad || len(r.b) != 0 {
		return ErrBadEvent
	}
	*e = got
	return nil
}

// reader takes numbers and text off the front of b until one is bad.
type reader struct {
	b   []byte
	bad bool
}

func (r *reader) varint() int64 {
	v, n := binary.Varint(r.b)
	r.skip(n)
	return v
}

// skip takes n bytes, of which the last would be zero if a number were longer
// than it need be.
func (r *reader) skip(n int) {
	if n <= 0 || n > 1 && r.b[n-1] == 0 {
		r.bad, r.b = true, nil
		return
	}
	r.b = r.b[n:]
}

// set reads a number that is said to be other than zero.
func (r *reader) set() int64 {
	v := r.varint()
	r.bad = r.bad || v == 0
	return v
}

func (r *reader) int() int {
	v := r.set()
	r.bad = r.bad || int64(int(v)) != v
	return int(v)
}

func (r *reader) text() string {
	n, k := binary.Uvarint(r.b)
	r.skip(k)
	if r.bad || n == 0 || n > uint64(len(r.b)) {
		r.bad = true
		return ""
	}
	s := string(r.b[:n])
	r.b = r.b[n:]
	return s
}
