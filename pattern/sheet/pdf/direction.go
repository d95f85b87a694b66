package pdf

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/bidi"
	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/unicode/runenames"
)

// visual is a line of text in the order in which its letters stand on the page
// from left to right: words in Hebrew and Arabic run the other way, by the rules
// of the Unicode bidirectional algorithm (UAX 9) for text without marks of
// direction in it. A line runs the way that most of its letters do. Arabic
// letters take the forms in which they join.
func visual(line string) string {
	if !strings.ContainsFunc(line, toLeft) {
		return line
	}
	rs := []rune(join(line))
	levels := levelsOf(rs)
	top := 0
	for _, l := range levels {
		top = max(top, l)
	}
	// L2: from the highest level down, what is at it or above is turned.
	order := make([]int, len(rs))
	for i := range order {
		order[i] = i
	}
	for level := top; level > 0; level-- {
		for i := 0; i < len(rs); i++ {
			end := i
			for end < len(rs) && levels[end] >= level {
				end++
			}
			slices.Reverse(order[i:end])
			i = end
		}
	}
	var b strings.Builder
	var marks []rune
	for _, i := range order {
		r := rs[i]
		switch {
		case levels[i]%2 == 1 && unicode.In(r, unicode.Mn, unicode.Me):
			marks = append(marks, r) // it stays behind its letter
			continue
		case levels[i]%2 == 1:
			if m := strings.IndexRune(pairs, r); m >= 0 {
				r = rune(pairs[m^1])
			}
		}
		b.WriteRune(r)
		b.WriteString(string(marks))
		marks = nil
	}
	b.WriteString(string(marks))
	return b.String()
}

// levelsOf is how deep each character lies: those of even levels run to the
// right.
func levelsOf(rs []rune) []int {
	is := make([]bidi.Class, len(rs))
	right, left := 0, 0
	for i, r := range rs {
		p, _ := bidi.LookupRune(r)
		switch is[i] = p.Class(); is[i] {
		case bidi.L:
			right++
		case bidi.R, bidi.AL:
			is[i] = bidi.R
			left++
		case bidi.NSM:
			is[i] = bidi.ON
			if i > 0 {
				is[i] = is[i-1]
			}
		}
	}
	base, own := bidi.L, 0
	if left > right {
		base, own = bidi.R, 1
	}
	// W4 to W7: what stands in and beside numbers goes with them, and numbers
	// behind letters that run to the right are like those.
	number := func(i int) bool { return i >= 0 && i < len(is) && (is[i] == bidi.EN || is[i] == bidi.AN) }
	for i := range is {
		if c := is[i]; (c == bidi.CS || c == bidi.ES) && number(i-1) && number(i+1) || c == bidi.ET && (number(i-1) || number(i+1)) {
			is[i] = bidi.EN
		}
	}
	strong := base
	for i := range is {
		switch {
		case is[i] == bidi.L || is[i] == bidi.R:
			strong = is[i]
		case is[i] == bidi.EN && strong == bidi.L:
			is[i] = bidi.L
		case !number(i):
			is[i] = bidi.ON
		}
	}
	way := func(i int) bidi.Class { // of a character in N0 to N2
		if number(i) {
			return bidi.R
		}
		return is[i]
	}
	brackets(rs, is, base, way)
	for i := 0; i < len(is); i++ {
		if is[i] != bidi.ON {
			continue
		}
		end := i
		for end < len(is) && is[end] == bidi.ON {
			end++
		}
		before, after := base, base
		if i > 0 {
			before = way(i - 1)
		}
		if end < len(is) {
			after = way(end)
		}
		if before != after {
			before = base
		}
		for ; i < end; i++ {
			is[i] = before
		}
	}
	out := make([]int, len(rs))
	for i, c := range is {
		switch {
		case c == bidi.R:
			out[i] = 1
		case c == bidi.L:
			out[i] = 2 * own
		default:
			out[i] = 2
		}
	}
	return out
}

// brackets gives both of a pair the way of what they hold (N0).
func brackets(rs []rune, is []bidi.Class, base bidi.Class, way func(int) bidi.Class) {
	var open []int
	for i, r := range rs {
		m := strings.IndexRune(pairs, r)
		if m < 0 || is[i] != bidi.ON {
			continue
		}
		if m%2 == 0 {
			open = append(open, i)
			continue
		}
		n := len(open) - 1
		if n < 0 || rs[open[n]] != rune(pairs[m^1]) {
			continue
		}
		from := open[n]
		open = open[:n]
		same, other := false, false
		for k := from + 1; k < i; k++ {
			same = same || way(k) == base
			other = other || way(k) != base && way(k) != bidi.ON
		}
		to := base
		if !same && other {
			context := base
			for k := from - 1; k >= 0; k-- {
				if c := way(k); c == bidi.L || c == bidi.R {
					context = c
					break
				}
			}
			to = context
		}
		if same || other {
			is[from], is[i] = to, to
		}
	}
}

func toLeft(r rune) bool {
	return r >= 0x590 && unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Nko, unicode.Thaana)
}

const pairs = "()[]{}<>"

// The forms of an Arabic letter.
const (
	alone = iota
	final
	initial
	medial
)

// arabic is the forms of each Arabic letter, by the names that Unicode gives
// them: those of the block Arabic Presentation Forms-B, and the letters of other
// languages in Forms-A.
var arabic = sync.OnceValue(func() map[string][4]rune {
	out := make(map[string][4]rune)
	add := func(from, to rune) {
		for r := from; r <= to; r++ {
			name := runenames.Name(r)
			for form, word := range []string{" ISOLATED FORM", " FINAL FORM", " INITIAL FORM", " MEDIAL FORM"} {
				if strings.HasSuffix(name, word) {
					letters := norm.NFKC.String(string(r))
					f := out[letters]
					if f[form] == 0 {
						f[form] = r
					}
					out[letters] = f
				}
			}
		}
	}
	add(0xfe80, 0xfefc)
	add(0xfb50, 0xfbb1)
	add(0xfbd3, 0xfbff)
	return out
})

// join gives Arabic letters the forms in which they join. An alef behind a lam
// is one sign with it.
func join(s string) string {
	rs := []rune(s)
	mark := func(r rune) bool { return unicode.In(r, unicode.Mn) }
	next := func(i, step int) rune { // the letter beside, past marks
		for i += step; i >= 0 && i < len(rs); i += step {
			if !mark(rs[i]) {
				return rs[i]
			}
		}
		return 0
	}
	// A letter joins the one behind it where it has an initial form, and the one
	// before it where it has a final one.
	leads := func(r rune) bool { f := arabic()[string(r)]; return f[initial] != 0 || r == 0x640 }
	follows := func(r rune) bool { f := arabic()[string(r)]; return f[final] != 0 || r == 0x640 }
	var b strings.Builder
	for i := 0; i < len(rs); i++ {
		r := rs[i]
		letters := string(r)
		if r == 0x644 && i+1 < len(rs) {
			if _, ok := arabic()[letters+string(rs[i+1])]; ok {
				letters += string(rs[i+1])
			}
		}
		forms, ok := arabic()[letters]
		if !ok {
			b.WriteRune(r)
			continue
		}
		joined := leads(next(i, -1)) && forms[final] != 0
		if len(letters) > len(string(r)) {
			i++
		}
		on := forms[initial] != 0 && follows(next(i, 1))
		form := forms[alone]
		switch {
		case joined && on && forms[medial] != 0:
			form = forms[medial]
		case joined:
			form = forms[final]
		case on:
			form = forms[initial]
		}
		if form == 0 || !has(form) {
			b.WriteString(letters)
			continue
		}
		b.WriteRune(form)
	}
	return b.String()
}
