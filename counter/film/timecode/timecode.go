package timecode

import (
	"errors"
	"fmt"
)

// Day is how many frames are numbered in a day; after them it begins anew.
func (r Rate) Day() int64 { return 24 * r.hour() }

func (r Rate) minute() int64 { return 60*r.base - r.drop }     // one that drops
func (r Rate) tenth() int64  { return 10*r.minute() + r.drop } // ten of them, of which one does not
func (r Rate) hour() int64   { return 6 * r.tenth() }

// Format is the timecode of a frame, counted from 0. It has a semicolon before
// the frames where numbers are dropped. A day begins anew after 24 hours, as on
// any recorder; frames before 0 are of the day before.
func (r Rate) Format(frame int64) string {
	day := r.Day()
	frame = (frame%day + day) % day

	// The number is the frame plus what was left out up to it.
	tens, rest := frame/r.tenth(), frame%r.tenth()
	n := frame + 9*r.drop*tens
	if rest >= r.drop {
		n += r.drop * ((rest - r.drop) / r.minute())
	}
	mark := ':'
	if r.Drops() {
		mark = ';'
	}
	s := n / r.base
	return fmt.Sprintf("%02d:%02d:%02d%c%02d", s/3600, s/60%60, s%60, mark, n%r.base)
}

// Parse is the frame that a timecode names. It has four numbers of one or two
// digits with colons between; where numbers are dropped the last may be, and
// often is, a semicolon, a full stop or a comma, and all may be semicolons. A
// number that is left out at this rate is an error, as is one out of bounds.
func (r Rate) Parse(s string) (int64, error) {
	if r.IsZero() {
		return 0, errors.New("no rate was chosen")
	}
	n, dropped, err := split(s)
	switch {
	case err != nil:
		return 0, err
	case dropped && !r.Drops():
		return 0, fmt.Errorf("%q is written with dropped numbers, and at %s none are", s, r.name)
	case n[0] > 23 || n[1] > 59 || n[2] > 59:
		return 0, fmt.Errorf("%q is no time of day", s)
	case n[3] >= r.base:
		return 0, fmt.Errorf("%q: at %s the frames of a second go from 00 to %d", s, r.name, r.base-1)
	}
	minutes := 60*n[0] + n[1]
	if n[2] == 0 && n[3] < r.drop && minutes%10 != 0 {
		return 0, fmt.Errorf("%q is one of the numbers that %s leaves out", s, r.name)
	}
	frame := (60*minutes+n[2])*r.base + n[3]
	return frame - r.drop*(minutes-minutes/10), nil
}

// split takes a timecode apart into hours, minutes, seconds and frames, and
// says whether it is written as one that drops numbers.
func split(s string) (n [4]int64, dropped bool, err error) {
	var marks [3]byte
	rest := s
	for i := range n {
		digits := 0
		for digits < len(rest) && rest[digits] >= '0' && rest[digits] <= '9' && digits < 2 {
			n[i] = n[i]*10 + int64(rest[digits]-'0')
			digits++
		}
		rest = rest[digits:]
		if digits == 0 || (i < len(marks)) == (rest == "") {
			return n, false, notOne(s)
		}
		if i < len(marks) {
			marks[i], rest = rest[0], rest[1:]
		}
	}
	switch string(marks[:]) {
	case ":::":
		return n, false, nil
	case "::;", "::.", "::,", ";;;":
		return n, true, nil
	}
	return n, false, notOne(s)
}

func notOne(s string) error {
	return fmt.Errorf("%q is no timecode; one looks like 01:02:03:04", s)
}
