package gauge

import (
	"math"
	"sort"
	"strings"
)

// Hook is a size of hook.
type Hook struct {
	MM    float64 // millimetres, across the shaft
	US    string  // the United States name, "H-8"; "" where there is none
	UK    string  // the old number of the United Kingdom; "" where there is none
	Steel bool    // a fine hook of steel, numbered in a series of its own
}

// hooks are in order of size, steel ones last.
//
// Names follow the Craft Yarn Council's hook list; 2.5, 3 and 7 mm have no
// letter on it. Steel numbers are the commoner of the two makers' series.
var hooks = []Hook{
	{MM: 2, UK: "14"}, {MM: 2.25, US: "B-1", UK: "13"}, {MM: 2.5, UK: "12-13"}, {MM: 2.75, US: "C-2", UK: "12"},
	{MM: 3, UK: "11"}, {MM: 3.125, US: "D"}, {MM: 3.25, US: "D-3", UK: "10"}, {MM: 3.5, US: "E-4", UK: "9"}, {MM: 3.75, US: "F-5", UK: "9"},
	{MM: 4, US: "G-6", UK: "8"}, {MM: 4.25, US: "G"}, {MM: 4.5, US: "7", UK: "7"}, {MM: 5, US: "H-8", UK: "6"},
	{MM: 5.25, US: "I"}, {MM: 5.5, US: "I-9", UK: "5"}, {MM: 5.75, US: "J"}, {MM: 6, US: "J-10", UK: "4"},
	{MM: 6.5, US: "K-10 1/2", UK: "3"}, {MM: 7, UK: "2"}, {MM: 8, US: "L-11", UK: "0"}, {MM: 9, US: "M/N-13", UK: "00"},
	{MM: 10, US: "N/P-15", UK: "000"}, {MM: 11.5, US: "P-16"}, {MM: 12}, {MM: 15, US: "P/Q"}, {MM: 15.75, US: "Q"}, {MM: 16, US: "Q"},
	{MM: 19, US: "S"}, {MM: 25, US: "T/U/X"}, {MM: 30, US: "T/X"},
	{MM: 0.75, US: "14", Steel: true}, {MM: 0.85, US: "13", Steel: true}, {MM: 1, US: "12", Steel: true}, {MM: 1.1, US: "11", Steel: true},
	{MM: 1.3, US: "10", Steel: true}, {MM: 1.4, US: "9", Steel: true}, {MM: 1.5, US: "8", Steel: true}, {MM: 1.65, US: "7", Steel: true},
	{MM: 1.8, US: "6", Steel: true}, {MM: 1.9, US: "5", Steel: true}, {MM: 2, US: "4", Steel: true}, {MM: 2.1, US: "3", Steel: true},
	{MM: 2.25, US: "2", Steel: true}, {MM: 2.75, US: "1", Steel: true}, {MM: 3.25, US: "0", Steel: true}, {MM: 3.5, US: "00", Steel: true},
}

// otherSteel is the second makers' series of steel hooks, by number.
var otherSteel = map[string]float64{"5": 1.75, "6": 1.6, "7": 1.5, "8": 1.4, "9": 1.25, "10": 1.15, "11": 1.05, "12": 1, "13": 0.95, "14": 0.9}

// Hooks lists every hook of the table, the ordinary ones by size and then the
// steel ones by size.
func Hooks() []Hook { return append([]Hook(nil), hooks...) }

// OfMM finds the ordinary hook of a size. It is false where no hook of that
// size is sold.
func OfMM(mm float64) (Hook, bool) {
	for _, h := range hooks {
		if !h.Steel && math.Abs(h.MM-mm) < 0.01 {
			return h, true
		}
	}
	return Hook{}, false
}

// Nearest finds the ordinary hook nearest to a size; of two as near, the
// larger.
func Nearest(mm float64) Hook {
	best := hooks[0]
	for _, h := range hooks {
		if !h.Steel && math.Abs(h.MM-mm) <= math.Abs(best.MM-mm) {
			best = h
		}
	}
	return best
}

// Named gives the sizes in millimetres that a United States name can mean,
// smallest first: "H", "h-8", "H/8" and "8" all mean the 5 mm hook. More than
// one says that the name alone is not enough; none that it is not known.
func Named(name string) []float64 {
	letters, number := split(name)
	var out []float64
	for _, h := range hooks {
		if !h.Steel && h.US != "" && h.answers(letters, number) {
			out = append(out, h.MM)
		}
	}
	sort.Float64s(out)
	return out
}

// SteelNumbered gives the sizes in millimetres that the number of a steel hook
// can mean, smallest first. Most numbers mean two: makers differ.
func SteelNumbered(number string) []float64 {
	number = strings.TrimSpace(number)
	var out []float64
	for _, h := range hooks {
		if h.Steel && h.US == number {
			out = append(out, h.MM)
		}
	}
	if mm, ok := otherSteel[number]; ok && (len(out) == 0 || out[0] != mm) {
		out = append(out, mm)
	}
	sort.Float64s(out)
	return out
}

// answers reports whether a name with these letters and this number can be
// the hook's: what the name leaves out may be anything.
func (h Hook) answers(letters, number string) bool {
	l, n := split(h.US)
	if letters == "" && number == "" || number != "" && n != number {
		return false
	}
	if letters == "" || letters == l {
		return true
	}
	for _, one := range strings.Split(l, "/") {
		if one == letters {
			return true
		}
	}
	return false
}

var halves = strings.NewReplacer(" 1/2", ".5", "½", ".5", "-1/2", ".5", " .5", ".5")

// split parts "K-10 1/2" into its letters, "K", and its number, "10.5".
func split(name string) (letters, number string) {
	name = halves.Replace(strings.ToUpper(strings.TrimSpace(name)))
	name = strings.TrimSpace(strings.TrimPrefix(name, "US "))
	name = strings.TrimSpace(strings.TrimPrefix(name, "SIZE "))
	at := strings.IndexAny(name, "0123456789")
	if at < 0 {
		return strings.Trim(name, " -"), ""
	}
	return strings.Trim(name[:at], " -/"), strings.TrimSpace(name[at:])
}
