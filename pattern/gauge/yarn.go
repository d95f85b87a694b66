package gauge

import "strings"

// Range is from the least to the most of something; Most is 0 where there is
// no upper end.
type Range struct{ Least, Most float64 }

// Contains reports whether n lies in the range, its ends included.
func (r Range) Contains(n float64) bool { return n >= r.Least && (r.Most == 0 || n <= r.Most) }

// Weight is a weight of yarn. The figures are guidelines: the pattern's own
// gauge comes before them.
type Weight struct {
	Number   int      // as printed in the skein symbol, 0 to 7
	Name     string   // "Super Fine"
	Sold     []string // what it is sold as
	Stitches Range    // single crochet in 4 inches; of double crochet for lace
	Hook     Range    // millimetres
	Wraps    Range    // wraps per inch
	Yards    Range    // yards per pound
}

// weights are the Craft Yarn Council's categories; wraps and lengths are those
// of Spin Off magazine's sheet. Neither is more than a rough guide.
var weights = []Weight{
	{0, "Lace", words("fingering,size 10 crochet thread,thread,lace"), Range{32, 42}, Range{1.4, 2.25}, Range{18, 0}, Range{2401, 0}},
	{1, "Super Fine", words("sock,fingering,baby,4 ply"), Range{21, 32}, Range{2.25, 3.5}, Range{16, 18}, Range{1901, 2400}},
	{2, "Fine", words("sport,baby"), Range{16, 20}, Range{3.5, 4.5}, Range{14, 15}, Range{1201, 1900}},
	{3, "Light", words("dk,light worsted,double knitting"), Range{12, 17}, Range{4.5, 5.5}, Range{12, 13}, Range{901, 1200}},
	{4, "Medium", words("worsted,afghan,aran"), Range{11, 14}, Range{5.5, 6.5}, Range{10, 11}, Range{601, 900}},
	{5, "Bulky", words("chunky,craft,rug"), Range{8, 11}, Range{6.5, 9}, Range{8, 9}, Range{401, 600}},
	{6, "Super Bulky", words("super bulky,roving,super chunky"), Range{7, 9}, Range{9, 15}, Range{0, 7}, Range{0, 400}},
	{7, "Jumbo", words("jumbo,roving"), Range{0, 6}, Range{15, 0}, Range{}, Range{}},
}

func words(s string) []string { return strings.Split(s, ",") }

// Weights lists the weights of yarn, finest first.
func Weights() []Weight { return append([]Weight(nil), weights...) }

// Numbered finds a weight by its number. It is false outside 0 to 7.
func Numbered(n int) (Weight, bool) {
	if n < 0 || n >= len(weights) {
		return Weight{}, false
	}
	return weights[n], true
}

// Called finds the weights that go by a name, finest first: more than one
// where the trade uses it loosely ("fingering", "baby", "roving").
func Called(name string) []Weight {
	name = strings.ToLower(strings.TrimSpace(name))
	var out []Weight
	for _, w := range weights {
		ok := strings.ToLower(w.Name) == name
		for _, s := range w.Sold {
			ok = ok || s == name
		}
		if ok {
			out = append(out, w)
		}
	}
	return out
}

// ForGauge finds the weights that are sold for so many single crochet in 4
// inches, finest first; the ranges overlap.
func ForGauge(stitches float64) []Weight {
	var out []Weight
	for _, w := range weights {
		if w.Number > 0 && w.Stitches.Contains(stitches) { // lace is measured in double crochet
			out = append(out, w)
		}
	}
	return out
}
