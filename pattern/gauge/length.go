package gauge

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Inch is an inch in millimetres (international yard and pound agreement of
// 1959).
const Inch = 25.4

// Unit is how lengths are told.
type Unit uint8

// The units in which patterns give lengths.
const (
	Centimetres Unit = iota
	Inches
)

// Tell writes a length to the tenth of a centimetre or of an inch: "22.1 cm",
// "8.7 in".
func (u Unit) Tell(mm float64) string {
	n, name := mm/10, " cm"
	if u == Inches {
		n, name = mm/Inch, " in"
	}
	n = math.Round(n*10) / 10
	if n == 0 {
		n = 0 // never "-0"
	}
	return strconv.FormatFloat(n, 'f', -1, 64) + name
}

// unitMM is what the words for units of length come to, in millimetres.
var unitMM = map[string]float64{
	"mm": 1, "millimetre": 1, "millimetres": 1, "millimeter": 1, "millimeters": 1,
	"cm": 10, "cms": 10, "centimetre": 10, "centimetres": 10, "centimeter": 10, "centimeters": 10,
	"in": Inch, "ins": Inch, "inch": Inch, "inches": Inch, `"`: Inch,
	"m": 1000, "metre": 1000, "metres": 1000, "meter": 1000, "meters": 1000,
}

func isInch(word string) bool { return unitMM[word] == Inch }

// maxLength is the longest length taken, in millimetres: a kilometre.
const maxLength = 1e6

// Length reads a length with its unit, "22cm", "8 1/2 in", "220 mm", and gives
// it in millimetres with the unit it was told in. A sign may go before it. Its
// error says what is wrong with the text in one line.
func Length(text string) (mm float64, unit Unit, err error) {
	t := strings.TrimSpace(text)
	sign := 1.0
	switch {
	case strings.HasPrefix(t, "-"), strings.HasPrefix(t, "−"), strings.HasPrefix(t, "–"):
		sign = -1
		t = strings.TrimSpace(strings.TrimLeft(t, "-−–"))
	case strings.HasPrefix(t, "+"):
		t = strings.TrimSpace(t[1:])
	}
	toks := scan(t)
	if len(toks) == 0 || !toks[0].isNum {
		return 0, 0, fmt.Errorf("%q is not a length; write it as 22cm or 8.5in", text)
	}
	if len(toks) == 1 {
		return 0, 0, fmt.Errorf("%q has no unit; write %s or %s", text, t+"cm", t+"in")
	}
	per, ok := unitMM[toks[1].word]
	if !ok || len(toks) > 2 {
		return 0, 0, fmt.Errorf("%q is not a length in mm, cm, m or inches", text)
	}
	mm = sign * toks[0].num * per
	if math.Abs(mm) > maxLength {
		return 0, 0, fmt.Errorf("%q is longer than a kilometre", text)
	}
	if isInch(toks[1].word) {
		unit = Inches
	}
	return mm, unit, nil
}
