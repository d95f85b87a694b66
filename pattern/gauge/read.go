package gauge

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Kind is what a gauge counts along a row.
type Kind uint8

// What can be counted along a row.
const (
	ByStitch Kind = iota // stitches
	BySpace              // squares of a mesh, spaces
	ByGroup              // shells, repeats and the like: no number of stitches follows from them
)

// Gauge is how closely a fabric is worked.
type Gauge struct {
	Stitches Count     // along a row, of what Kind says
	Rows     Count     // up the fabric, rows or rounds
	Kind     Kind      // what Stitches counts
	Named    string    // how that is called in the text: "sc", "sts", "squares"
	Stitch   stitch.ID // what it was worked in; stitch.None where that is not said
	Unit     Unit      // how its lengths are told
}

// example is what a gauge looks like.
const example = "20 sc and 22 rows = 10 cm"

// ErrNotSaid is the error of Stated where a pattern has no gauge.
var ErrNotSaid = errors.New("the pattern states no gauge")

// Read reads a gauge: "20 sc and 22 rows = 10 cm", "5 sps. to 1 in", "4 in =
// 14 sts in hdc". Several numbers for one thing are a swatch counted at several
// places: "20, 21, 19 sc = 10 cm". Several texts are too: their counts are
// taken together. Names of stitches are read in the terms given. Its error says
// in one line what is missing or impossible.
func Read(terms stitch.Terms, texts ...string) (Gauge, error) {
	var g Gauge
	var across, up []float64
	for _, text := range texts {
		x := reader{toks: scan(text), terms: terms, lex: stitch.LexiconFor(terms)}
		x.read()
		if x.zero {
			return g, fmt.Errorf("the gauge %q has a 0 in it; no fabric comes of that", text)
		}
		a, u := x.pair()
		if len(a) == 0 && len(u) == 0 {
			return g, x.missing(text)
		}
		if x.named != "" {
			if g.Named != "" && g.Kind != x.kind {
				return g, fmt.Errorf("the gauge counts %s and %s; give it in one of them", g.Named, x.named)
			}
			g.Named, g.Kind = x.named, x.kind
		}
		if x.stitch != stitch.None {
			if g.Stitch != stitch.None && g.Stitch != x.stitch {
				return g, fmt.Errorf("the gauge is given in %s and in %s; give it in one stitch", g.Stitch.Name(terms), x.stitch.Name(terms))
			}
			g.Stitch = x.stitch
		}
		if x.inches {
			g.Unit = Inches
		}
		across, up = append(across, a...), append(up, u...)
	}
	g.Stitches, g.Rows = countOf(across), countOf(up)
	return g, g.possible(strings.Join(texts, "; "))
}

// The closest and the loosest fabric taken, per mm.
const (
	closest = 5.0       // ten times finer than the finest thread of the tables
	loosest = 1.0 / 500 // one in half a metre
)

func (g Gauge) possible(text string) error {
	for _, c := range []struct {
		Count
		name string
	}{{g.Stitches, "stitches"}, {g.Rows, "rows"}} {
		if c.Known() && (c.PerMM > closest || c.PerMM < loosest || math.IsInf(c.PerMM, 0)) {
			return fmt.Errorf("the gauge %q comes to %s %s in 10 cm, which no yarn gives", text, figure(100*c.PerMM), c.name)
		}
	}
	return nil
}

// figure writes a number with one decimal at most, or two digits that matter
// where it is small.
func figure(n float64) string {
	if n != 0 && math.Abs(n) < 0.1 {
		return strconv.FormatFloat(n, 'g', 2, 64)
	}
	return strconv.FormatFloat(math.Round(n*10)/10, 'f', -1, 64)
}

// String tells a gauge over 10 cm or 4 in: "20 sc and 22 rows to 10 cm", with
// the spread of a swatch: "20 (±1) sc to 10 cm".
func (g Gauge) String() string {
	mm, over := 100.0, "10 cm"
	if g.Unit == Inches {
		mm, over = 4*Inch, "4 in"
	}
	one := func(c Count, name string) string {
		s := figure(c.In(mm))
		if c.Spread > 0 {
			s += " (±" + figure(c.Spread*mm) + ")"
		}
		return s + " " + name
	}
	var parts []string
	if g.Stitches.Known() {
		parts = append(parts, one(g.Stitches, g.Named))
	}
	if g.Rows.Known() {
		parts = append(parts, one(g.Rows, "rows"))
	}
	return strings.Join(parts, " and ") + " to " + over
}

// said is a thing that a gauge names, in the order of the text.
type said struct {
	counts []float64 // nil for a length
	rows   bool      // they are rows
	mm, up float64   // a length, and the other side of a square; up is 0 for none
}

// reader takes a gauge's words apart.
type reader struct {
	toks  []token
	terms stitch.Terms
	lex   *stitch.Lexicon

	items  []said
	kind   Kind
	named  string
	stitch stitch.ID
	inches bool
	zero   bool
	across bool // "across", "in diameter": rounds lie on both sides of their middle
}

func (x *reader) at(i int) token {
	if i < 0 || i >= len(x.toks) {
		return token{}
	}
	return x.toks[i]
}

// read goes through the words once.
//
//	gauge  = { counts noun | rowword numbers | length | "in" stitch } .
//	counts = number { ( "," | "/" | ";" | "-" | "and" | "to" ) number } .
//	length = number [ "x" number ] unit [ "x" number unit ] | ( "the" | "an" | "per" ) unit .
func (x *reader) read() {
	for i := 0; i < len(x.toks); {
		switch t := x.at(i); {
		case t.isNum:
			i = x.figures(i)
		case isRow(t) && x.at(i+1).isNum:
			i = x.rowNumbers(i + 1)
		case t.is("the", "an", "a", "per", "each", "every", "/") && unitMM[x.at(i+1).word] > 0 && !x.at(i+1).is(`"`):
			i = x.length(i+1, 1)
		case t.is("across", "diameter", "wide"):
			x.across = true
			i++
		default:
			if id, n := x.stitchAt(i); n > 0 {
				if x.stitch == stitch.None {
					x.stitch = id
				}
				i += n
			} else {
				i++
			}
		}
	}
}

func isRow(t token) bool {
	return t.is("row", "rows", "rnd", "rnds", "round", "rounds", "r")
}

// figures reads what begins with a number, at i.
func (x *reader) figures(i int) int {
	if x.at(i+1).is("x", "by") && x.at(i+2).isNum && unitMM[x.at(i+3).word] > 0 {
		return x.square(i)
	}
	if unitMM[x.at(i+1).word] > 0 {
		return x.length(i+1, x.at(i).num)
	}
	nums := []float64{x.at(i).num}
	k := i + 1
	for x.at(k).is(",", "/", ";", "-", "and", "&", "to", "or") && x.at(k+1).isNum {
		nums = append(nums, x.at(k+1).num)
		k += 2
	}
	rows, n := x.noun(k)
	if n == 0 {
		if k > i+1 {
			return i + 1 // what follows the mark may be something by itself
		}
		return k
	}
	for _, v := range nums {
		x.zero = x.zero || v == 0
	}
	x.items = append(x.items, said{counts: nums, rows: rows})
	return k + n
}

// noun reads what is counted, at i: whether it is rows, and how many words.
func (x *reader) noun(i int) (rows bool, n int) {
	t := x.at(i)
	if t.is("plain", "foundation", "loose", "full", "complete", "of") && i+1 < len(x.toks) {
		if rows, n := x.noun(i + 1); n > 0 {
			return rows, n + 1
		}
	}
	name := func(kind Kind, n int) (bool, int) {
		if x.named == "" {
			x.kind, x.named = kind, t.word
		}
		return false, n
	}
	switch {
	case isRow(t):
		return true, 1
	case t.is("st", "sts", "stitch", "stitches", "s"):
		return name(ByStitch, 1)
	case t.is("square", "squares", "mesh", "meshes", "sp", "sps", "space", "spaces", "hole", "holes"):
		return name(BySpace, 1)
	case t.is("shell", "shells", "cluster", "clusters", "group", "groups", "repeat", "repeats", "rep", "reps", "motif", "motifs", "fan", "fans", "scallop", "scallops", "v", "block", "blocks", "pattern", "patterns", "wave", "waves", "ripple", "ripples"):
		return name(ByGroup, 1)
	}
	id, n := x.stitchAt(i)
	if n > 0 {
		if x.stitch == stitch.None {
			x.stitch = id
		}
		if x.named == "" {
			x.kind, x.named = ByStitch, id.Name(x.terms)
		}
	}
	return false, n
}

// stitchAt finds the stitch named at i, by the longest name that fits.
func (x *reader) stitchAt(i int) (stitch.ID, int) {
	best, words := stitch.None, 0
	name := ""
	for k := i; k < len(x.toks) && k < i+4 && !x.toks[k].isNum; k++ {
		if name != "" {
			name += " "
		}
		name += strings.ReplaceAll(x.toks[k].word, ".", " ")
		id, more := x.lex.Find(name)
		if id != stitch.None {
			best, words = id, k-i+1
		}
		if !more {
			break
		}
	}
	return best, words
}

// rowNumbers reads "Rnds 1 and 2", "Rows 1-4", at the first number: so many
// rows.
func (x *reader) rowNumbers(i int) int {
	first := x.at(i).num
	n, k := 1.0, i+1
	for x.at(k).is(",", "-", "to", "and", "&") && x.at(k+1).isNum && unitMM[x.at(k+2).word] == 0 {
		if to := x.at(k + 1).num; x.at(k).is("-", "to") && to > first {
			n += to - first
		} else {
			n++
		}
		k += 2
	}
	x.items = append(x.items, said{counts: []float64{n}, rows: true})
	return k
}

// square reads "4 x 4 in", at the first number.
func (x *reader) square(i int) int {
	per := unitMM[x.at(i+3).word]
	x.inches = x.inches || isInch(x.at(i+3).word)
	x.items = append(x.items, said{mm: x.at(i).num * per, up: x.at(i+2).num * per})
	x.zero = x.zero || x.at(i).num == 0 || x.at(i+2).num == 0
	return i + 4
}

// length takes a length of n of the unit at i.
func (x *reader) length(i int, n float64) int {
	unit := unitMM[x.at(i).word]
	it := said{mm: n * unit}
	k := i + 1
	if x.at(k).is("x", "by") && x.at(k+1).isNum && unitMM[x.at(k+2).word] > 0 {
		it.up = x.at(k+1).num * unitMM[x.at(k+2).word]
		k += 3
	}
	x.zero = x.zero || it.mm == 0
	x.inches = x.inches || isInch(x.at(i).word) && len(x.items) == 0 || isInch(x.at(i).word) && x.items[len(x.items)-1].counts != nil
	x.items = append(x.items, it)
	return k
}

// pair sets each count against its length, which follows it or, where the text
// begins with a length, goes before it: stitches and rows per mm. Of lengths
// side by side, "4 in / 10 cm", the first is taken.
func (x *reader) pair() (across, up []float64) {
	before := len(x.items) > 0 && x.items[0].counts == nil
	rounds := x.across && x.named == ""
	for i, it := range x.items {
		if it.counts == nil {
			continue
		}
		l := x.lengthFor(i, before)
		if l == nil {
			continue
		}
		mm := l.mm
		if it.rows && l.up > 0 {
			mm = l.up
		}
		for _, n := range it.counts {
			switch {
			case !it.rows:
				across = append(across, n/mm)
			case rounds:
				up = append(up, 2*n/mm) // a disc of n rounds is 2n of them across
			default:
				up = append(up, n/mm)
			}
		}
	}
	return across, up
}

func (x *reader) lengthFor(i int, before bool) *said {
	after := func() *said {
		for k := i + 1; k < len(x.items); k++ {
			if x.items[k].counts == nil {
				return &x.items[k]
			}
		}
		return nil
	}
	earlier := func() *said {
		var l *said
		for k := i - 1; k >= 0; k-- {
			if x.items[k].counts == nil {
				l = &x.items[k]
			} else if l != nil {
				break
			}
		}
		return l
	}
	if before {
		if l := earlier(); l != nil {
			return l
		}
		return after()
	}
	if l := after(); l != nil {
		return l
	}
	return earlier()
}

// missing says what a text lacks to be a gauge.
func (x *reader) missing(text string) error {
	counts, lengths := 0, 0
	for _, it := range x.items {
		if it.counts != nil {
			counts++
		} else {
			lengths++
		}
	}
	switch {
	case counts > 0 && lengths == 0:
		return fmt.Errorf("the gauge %q names no length; write it as %q", text, example)
	case counts == 0 && lengths > 0:
		return fmt.Errorf("the gauge %q counts no stitches or rows; write it as %q", text, example)
	}
	return fmt.Errorf("%q is not a gauge; write it as %q", text, example)
}
