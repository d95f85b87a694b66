// Package timecode counts frames: the hours, minutes, seconds and frames that
// cameras stamp on them and that edit lists speak of.
//
// It uses whole numbers throughout, so a frame is never off by one because of
// a fraction that could not be written down. The numbering is that of SMPTE ST
// 12-1, written here from the common accounts of it: at 30 frames a second that
// are really 30000/1001, drop-frame counting leaves out the numbers 00 and 01
// at the beginning of every minute but each tenth, so that what is counted
// keeps within a few milliseconds of the clock for an hour. At 60000/1001 it
// leaves out 00 to 03. No frame is left out, only numbers.
package timecode

import (
	"fmt"
	"strings"
)

// Rate is how many frames a second has, and how they are numbered. The zero
// Rate is none at all.
type Rate struct {
	num, den int64 // frames per second, exactly
	base     int64 // frames that a second is counted as
	drop     int64 // numbers left out at a minute's beginning
	name     string
}

var rates = []Rate{
	{24000, 1001, 24, 0, "23.976"},
	{24, 1, 24, 0, "24"},
	{25, 1, 25, 0, "25"},
	{30000, 1001, 30, 2, "29.97df"},
	{30000, 1001, 30, 0, "29.97ndf"},
	{30, 1, 30, 0, "30"},
	{50, 1, 50, 0, "50"},
	{60000, 1001, 60, 4, "59.94df"},
	{60000, 1001, 60, 0, "59.94ndf"},
	{60, 1, 60, 0, "60"},
}

// otherwise is what else the rates are called.
var otherwise = map[string]string{
	"23.98": "23.976", "24000/1001": "23.976",
	"30000/1001df": "29.97df", "30000/1001ndf": "29.97ndf",
	"60000/1001df": "59.94df", "60000/1001ndf": "59.94ndf",
}

// Rates are all there are, slow to fast.
func Rates() []Rate { return append([]Rate(nil), rates...) }

// Names are what Rates are called, in one line.
func Names() string {
	names := make([]string, len(rates))
	for i, r := range rates {
		names[i] = r.name
	}
	return strings.Join(names, ", ")
}

// ParseRate finds a rate by its name. 23.98 and the exact fractions are
// understood too. 29.97 and 59.94 alone are not: how the frames are numbered
// has to be said.
func ParseRate(s string) (Rate, error) {
	want := strings.ToLower(strings.TrimSpace(s))
	if name, ok := otherwise[want]; ok {
		want = name
	}
	for _, r := range rates {
		if want == r.name {
			return r, nil
		}
	}
	switch want {
	case "29.97", "59.94", "30000/1001", "60000/1001":
		name := "29.97"
		if strings.HasPrefix(want, "59") || strings.HasPrefix(want, "60") {
			name = "59.94"
		}
		return Rate{}, fmt.Errorf("%s is counted in two ways: say %sdf where timecode is written with a semicolon, 01:00:00;00, and numbers are dropped, or %sndf where it is not", name, name, name)
	}
	return Rate{}, fmt.Errorf("there is no rate %q; there are %s", s, Names())
}

func (r Rate) String() string { return r.name }

// IsZero tells whether no rate was chosen.
func (r Rate) IsZero() bool { return r.num == 0 }

// Fraction is how many frames a second has, exactly.
func (r Rate) Fraction() (num, den int64) { return r.num, r.den }

// Drops tells whether numbers are left out.
func (r Rate) Drops() bool { return r.drop > 0 }

// MaxMillis is the longest time, in ms, that is told in frames, and MaxFrames
// the most frames that are told in time: about a year.
const (
	MaxMillis = 366 * 24 * 60 * 60 * 1000
	MaxFrames = MaxMillis / 1000 * 60
)

// Frames is the number of the frame boundary nearest to a time in ms, halves
// up. Times below zero are zero, times past [MaxMillis] are that.
func (r Rate) Frames(ms int64) int64 {
	ms = min(max(ms, 0), MaxMillis)
	return (2*ms*r.num + 1000*r.den) / (2 * 1000 * r.den)
}

// Millis is when a frame begins, to the nearest ms, halves up. Numbers below
// zero are zero, those past [MaxFrames] are that.
func (r Rate) Millis(frame int64) int64 {
	frame = min(max(frame, 0), MaxFrames)
	return (2*frame*1000*r.den + r.num) / (2 * r.num)
}
