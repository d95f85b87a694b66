package yarn

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// Swatch is what a measured piece took.
type Swatch struct {
	Stitch stitch.ID
	Units  float64 // what it took, in single crochets, its chains among them
	MM     float64 // of yarn; 0 where it was weighed
	Grams  float64 // 0 where it was measured
}

const example = `"20 sc x 22 rows used 8.2 m" or "400 sc weigh 6.1 g"`

var swatchWords = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(\d+) ([\pL ]+?)(?: (?:x|by|×) (\d+) (?:rows?|rnds?|rounds?))? (?:used|uses|took|takes|weighs?|weighed|=|is|of) (\d+(?:[.,]\d+)?) ?(mm|cm|m|metres?|meters?|yds?|yards?|ft|feet|in|inch|inches|g|grams?|grammes?|oz|ounces?)$`)
})

var lengthOf = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "metre": 1000, "metres": 1000, "meter": 1000, "meters": 1000,
	"yd": 914.4, "yds": 914.4, "yard": 914.4, "yards": 914.4, "ft": 304.8, "feet": 304.8, "in": gauge.Inch, "inch": gauge.Inch, "inches": gauge.Inch}

// gramsPerOunce is exact (international yard and pound agreement of 1959).
const gramsPerOunce = 28.349523125

// ReadSwatch reads what a swatch took: "20 sc x 22 rows used 8.2 m", "400 sc
// weigh 6.1 g". Names of stitches are read in the terms given. Of a swatch in
// rows the foundation chain and the turning chains are counted too. Its error
// says in one line what is wrong.
func ReadSwatch(text string, terms stitch.Terms) (Swatch, error) {
	var s Swatch
	t := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	m := swatchWords().FindStringSubmatch(t)
	if m == nil {
		return s, fmt.Errorf("%q is not a swatch; write it as %s", text, example)
	}
	id, _ := stitch.LexiconFor(terms).Find(m[2])
	if id == stitch.None || id == stitch.Special {
		return s, fmt.Errorf("there is no stitch %q in %s terms; write the swatch as %s", m[2], terms, example)
	}
	s.Stitch = id
	across, _ := strconv.ParseFloat(m[1], 64)
	s.Units = across * Unit(id)
	if m[3] != "" {
		rows, _ := strconv.ParseFloat(m[3], 64)
		turn := float64(stitch.Of(id).Turn)
		s.Units = s.Units*rows + (across+turn+turn*max(rows-1, 0))*chainUnit
	}
	amount, _ := strconv.ParseFloat(strings.Replace(m[4], ",", ".", 1), 64)
	switch per := lengthOf[m[5]]; {
	case per > 0:
		s.MM = amount * per
	case strings.HasPrefix(m[5], "o"):
		s.Grams = amount * gramsPerOunce
	default:
		s.Grams = amount
	}
	if s.Units <= 0 || math.IsInf(s.Units, 0) || s.MM+s.Grams <= 0 || s.Units > 1e9 || s.MM > 1e9 || s.Grams > 1e6 {
		return s, fmt.Errorf("the swatch %q has a number in it that no swatch has", text)
	}
	return s, nil
}

// Ball is a ball of yarn as its band has it: either may be 0 where it is not
// known.
type Ball struct{ MM, Grams float64 }

var (
	ballGrams = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(\d+(?:[.,]\d+)?) ?(g|grams?|grammes?|oz|ounces?)\b`)
	})
	ballMM = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(\d+(?:[.,]\d+)?) ?(m|metres?|meters?|yds?|yards?)\b`)
	})
)

// ReadBall reads "50 g = 125 m", "100 g", "125 m". Its error says in one line
// what is wrong.
func ReadBall(text string) (Ball, error) {
	var b Ball
	t := strings.ToLower(text)
	if m := ballGrams().FindStringSubmatch(t); m != nil {
		b.Grams, _ = strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
		if strings.HasPrefix(m[2], "o") {
			b.Grams *= gramsPerOunce
		}
	}
	if m := ballMM().FindStringSubmatch(t); m != nil {
		b.MM, _ = strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
		b.MM *= lengthOf[m[2]]
	}
	if b.Grams < 0.1 && b.MM < 100 || b.Grams > 1e5 || b.MM > 1e8 {
		return b, fmt.Errorf(`%q is not a ball of yarn; write it as "50 g = 125 m"`, text)
	}
	return b, nil
}
