package spoken

import (
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// clause says one step as an instruction: "two single crochet in the next
// stitch". What the tree does not hold is said in the author's words.
func (x *rowTeller) clause(s *pattern.Step) string {
	said, ok := "", false
	manner, plain := x.manner(s)
	if plain {
		said, ok = x.plain(s)
	}
	if !ok {
		return x.written(s)
	}
	return said + manner
}

// written is a step in the author's own words, in small letters as a part of a
// sentence.
func (x *rowTeller) written(s *pattern.Step) string {
	said := x.own(strings.TrimRight(x.source(s), " ,;.:"))
	if s.Op == pattern.OpChain { // "3ch"
		n, rest, _ := strings.Cut(said, " ")
		for _, chains := range []string{"chains", "chain"} {
			if after, ok := strings.CutPrefix(rest, chains); ok && isNumber(n) && (after == "" || after[0] == ',' || after[0] == ' ') {
				return "chain " + n + after
			}
		}
	}
	return said
}

func (x *rowTeller) lost(s *pattern.Step) []string { return x.keeping.Lost(s) }

// loopWords are words that say which loops a stitch goes into.
var loopWords = map[string]string{"blo": "back", "bl": "back", "back": "back", "flo": "front", "fl": "front", "front": "front", "both": "both"}

var loopFill = map[string]bool{"loop": true, "loops": true, "lp": true, "lps": true, "only": true, "working": true, "through": true, "the": true, "under": true, "in": true, "into": true, "of": true}

// manner says how a step is worked, where its words have no more than that
// beside what the tree keeps. It is false where they have.
func (x *rowTeller) manner(s *pattern.Step) (words string, plain bool) {
	loop, how := "", ""
	post := stitch.Of(s.Stitch).Kind == stitch.Post
	for _, w := range x.lost(s) {
		switch {
		case post && (w == "at" || w == "back" || w == "front" || w == "raised" || w == "post" || w == "the"):
		case loopWords[w] != "" && (loop == "" || loop == loopWords[w]):
			loop = loopWords[w]
		case loopFill[w]:
		case w == "=" && s.Counts.Said:
		case w == "loosely" || w == "tightly" || w == "carefully":
			how = " " + w
		case (w == "magic" || w == "adjustable" || w == "mr" || w == "mc") && (s.Op == pattern.OpRing || s.Target.Which == pattern.InRing):
		case w == "ea" && s.Op == pattern.OpWork:
		case (w == "inv" || w == "invis") && s.Legs > 1: // how a decrease is made to look
		case x.atOtherEnd(s, w):
		case w == "your" || (w == "yarn" || w == "f" || w == "o") && s.Op == pattern.OpFasten:
		default:
			return "", false
		}
	}
	switch loop {
	case "both":
		return ", through both loops" + how, true
	case "":
		return how, true
	}
	return ", working in the " + loop + " loop only" + how, true
}

// atOtherEnd reports the word that stands for the second of two changes, "dec ea
// end, 4 between": nothing else of it is written.
func (x *rowTeller) atOtherEnd(s *pattern.Step, w string) bool {
	if s.Op != pattern.OpWork || s.Target.Said() || w != "between" && w != "middle" && w != "centre" && w != "center" {
		return false
	}
	for _, b := range cut(x.source(s)) {
		if b.kind == bitNumber {
			return false
		}
	}
	return true
}

// plain says a step from the tree alone; false where it cannot.
func (x *rowTeller) plain(s *pattern.Step) (string, bool) {
	switch s.Op {
	case pattern.OpWork:
		return x.work(s)
	case pattern.OpInto:
		return x.into(s)
	case pattern.OpGroup:
		return x.inner(s)
	case pattern.OpChain:
		return x.chain(s)
	case pattern.OpSkip:
		return x.skip(s)
	case pattern.OpTurn:
		return "turn", true
	case pattern.OpRing:
		if x.at(s.N) > 0 {
			return "join with a slip stitch to make a ring", true
		}
		return "make a magic ring", true
	case pattern.OpFasten:
		return "fasten off", true
	case pattern.OpJoin:
		return x.join(s)
	}
	return "", false
}

// at is a number for the size that is said.
func (t *teller) at(n pattern.Num) int64 { return n.At(t.size) }

// name is what a step works, as one and as several.
func (x *rowTeller) name(s *pattern.Step) (one, many string, noun, ok bool) {
	if d := s.Defined(); d != nil {
		one = x.special(d)
		return one, plurals(one), true, one != "" && x.names(s, d) // "5 dc in next ch" may be a shell nobody calls one
	}
	if s.Name != "" || s.Stitch == stitch.None || s.Stitch == stitch.Special {
		return "", "", false, false
	}
	one, many = s.Stitch.Words(x.to), s.Stitch.Plural(x.to)
	noun = stitch.Of(s.Stitch).Kind == stitch.Compound
	if noun && !strings.Contains(x.written(s), strings.Fields(one)[0]) {
		return "", "", false, false // "3 dtr tog into next st": the author does not call it a cluster
	}
	return one, many, noun, true
}

// names reports whether the author calls a stitch of her own by its name.
func (x *rowTeller) names(s *pattern.Step, d *pattern.Special) bool {
	said := letters(x.source(s))
	for _, n := range d.Names {
		if strings.Contains(said, letters(n)) {
			return true
		}
	}
	return false
}

// letters is text without what stands between its letters and figures.
func letters(s string) string {
	var b strings.Builder
	for _, bit := range cut(s) {
		if bit.kind != bitSign {
			b.WriteString(bit.low)
		}
	}
	return b.String()
}

// special is the name of a stitch of the pattern's own: the longest of those
// it is given, which is the one in full.
func (x *rowTeller) special(d *pattern.Special) string {
	name := ""
	for _, n := range d.Names {
		if len(n) > len(name) {
			name = n
		}
	}
	if len(name) <= 3 && !strings.ContainsAny(name, "aeiouy") && x.own(name) == name {
		return strings.ToUpper(name) // letters, said one by one
	}
	return x.own(name)
}

func plurals(one string) string {
	switch {
	case strings.HasSuffix(one, "crochet"), strings.HasSuffix(one, "together"):
		return one
	case strings.HasSuffix(one, "ch"), strings.HasSuffix(one, "s"), strings.HasSuffix(one, "sh"):
		return one + "es"
	}
	return one + "s"
}

func article(noun string) string {
	if noun != "" && strings.IndexByte("aeiouFHLMNRSX", noun[0]) >= 0 {
		return "an " + noun
	}
	return "a " + noun
}

// work says stitches and where they go.
func (x *rowTeller) work(s *pattern.Step) (string, bool) {
	one, many, noun, ok := x.name(s)
	if !ok {
		return "", false
	}
	t := &s.Target
	per, places := x.at(s.N), x.at(t.N)
	if x.r != nil && x.r.PlainFirst(s) {
		shape := *s
		shape.Target.N = pattern.Num{N: 1}
		last, ok := x.shapeOnce(&shape, one, many, noun)
		return x.count(max(places, 1), one, many, noun) + ", then " + last, ok
	}
	if s.Legs > 0 && s.Defined() == nil {
		return x.together(s, one)
	}
	if !t.Said() && t.Which == pattern.Next {
		if per > 1 { // an increase
			place, ok := x.place(s)
			return x.count(per, one, many, noun) + " " + place, ok
		}
		if places <= 1 && !noun {
			return "one " + one, true
		}
		return x.count(max(places, 1), one, many, noun), true
	}
	place, ok := x.place(s)
	if !ok {
		return "", false
	}
	said := x.count(per, one, many, noun) + " " + place
	if s.Counts.Said && t.Which == pattern.FromHook {
		counts, ok := x.counts(s.Counts, passed+x.skipped()+" count", passed+x.skipped()+" do not count")
		if !ok {
			return "", false
		}
		said += counts
	}
	return said, true
}

// shapeOnce says one increase or decrease.
func (x *rowTeller) shapeOnce(s *pattern.Step, one, many string, noun bool) (string, bool) {
	if s.Legs > 0 {
		return x.together(s, one)
	}
	place, ok := x.place(s)
	return x.count(x.at(s.N), one, many, noun) + " " + place, ok
}

// passed begins what is said of the chains before the first stitch.
const passed = "; the chains you "

func (t *teller) skipped() string {
	if t.to == stitch.UK {
		return "missed"
	}
	return "skipped"
}

// count says how many of something are worked.
func (x *rowTeller) count(n int64, one, many string, noun bool) string {
	switch {
	case n == 1 && noun:
		return "work " + article(one)
	case n == 1:
		return one
	case noun:
		return "work " + x.number(n) + " " + many
	}
	return x.number(n) + " " + many
}

// together says stitches worked together.
func (x *rowTeller) together(s *pattern.Step, one string) (string, bool) {
	t := &s.Target
	legs := x.number(int64(s.Legs))
	if x.at(s.N) > 1 {
		return "", false
	}
	if !t.Said() {
		said := one + " " + legs + " together"
		if n := x.at(t.N); n > 1 {
			said += ", " + times(n, x.to)
		}
		return said, t.Which == pattern.Next
	}
	if t.Within != nil || t.Row != nil {
		return "", false
	}
	if bound, ok := x.bound(t.Bound); ok && t.Which == pattern.Each && x.at(t.N) == 0 && len(t.Of) == 0 {
		if bound == "" {
			bound = " " + x.way() // "dec all"
		}
		return one + " " + legs + " together" + bound, true
	}
	if t.Bound.Kind != pattern.NoBound {
		return "", false
	}
	kind, kinds, ok := x.noun(s, t.Of)
	n := x.at(t.N)
	switch {
	case !ok:
		return "", false
	case t.Which == pattern.Next && n == 1 && strings.Contains(x.written(s), "next "+legs+" "):
		return one + " the next " + legs + " " + kinds + " together", true
	case (t.Which == pattern.Last || t.Which == pattern.First) && n == int64(s.Legs):
		which := map[pattern.Which]string{pattern.Last: "last", pattern.First: "first"}[t.Which]
		return one + " the " + which + " " + legs + " " + kinds + " together", true
	case t.Which == pattern.Next && n == 1:
		return one + " " + legs + " together in the next " + kind, true
	}
	return "", false
}

// into says several things worked into one place.
func (x *rowTeller) into(s *pattern.Step) (string, bool) {
	if s.Defined() != nil {
		return x.work(s)
	}
	if !s.Target.Said() {
		return "", false
	}
	place, ok := x.place(s)
	if !ok {
		return "", false
	}
	place = "into" + strings.TrimPrefix(strings.TrimPrefix(place, "into"), "in")
	var items []string
	for i := range s.Body {
		if s.Body[i].Op == pattern.OpWork && s.Body[i].Target.Said() {
			return "", false
		}
		items = x.add(items, s.Body, i)
	}
	said := place + " work " + strings.TrimPrefix(series(items), "work ")
	if n := x.at(s.N); n > 1 {
		said += ", " + times(n, x.to)
	}
	return said, len(items) > 0
}

// chain says chains, and what they count as.
func (x *rowTeller) chain(s *pattern.Step) (string, bool) {
	n := x.at(s.N)
	if n <= 0 {
		return "", false
	}
	said := "chain " + x.number(n)
	if s.Counts.Said {
		counts, ok := x.counts(s.Counts, "which counts", "which does not count")
		if !ok {
			return "", false
		}
		said += ", " + counts + ","
	}
	return said, true
}

// counts says what chains stand for.
func (x *rowTeller) counts(c pattern.Counts, does, doesNot string) (string, bool) {
	spread := ""
	if c.Spread {
		spread = " here and throughout"
	}
	if c.As == stitch.None {
		return doesNot + " as a stitch" + spread, true
	}
	one, many := "stitch", "stitches"
	if c.As != stitch.Special {
		one, many = c.As.Words(x.to), c.As.Plural(x.to)
	}
	as := article(one)
	if c.N > 1 {
		as = x.number(c.N) + " " + many
	}
	if c.Space > 0 {
		as += " and a chain-" + x.number(c.Space) + " space"
	}
	return does + " as " + as + spread, true
}

// skip says places passed over.
func (x *rowTeller) skip(s *pattern.Step) (string, bool) {
	t := &s.Target
	if s.Name != "" || t.Within != nil || t.Row != nil || t.Bound.Kind != pattern.NoBound {
		return "", false
	}
	one, many, ok := x.noun(s, t.Of)
	if !ok {
		return "", false
	}
	which := ""
	switch t.Which {
	case pattern.Next:
		which = "next "
	case pattern.First:
		which = "first "
	default:
		return "", false
	}
	if n := x.at(t.N); n > 1 {
		return x.skipping() + " the " + which + x.number(n) + " " + many, true
	}
	return x.skipping() + " the " + which + one, true
}

func (t *teller) skipping() string {
	if t.to == stitch.UK {
		return "miss"
	}
	return "skip"
}

// join says how a round is closed.
func (x *rowTeller) join(s *pattern.Step) (string, bool) {
	t := &s.Target
	if s.Stitch != stitch.None && s.Stitch != stitch.Slip {
		return "", false
	}
	said := "join with a slip stitch"
	switch {
	case !t.Said() && t.Which == pattern.Next && len(t.Of) == 0:
		return said, true
	case t.Said() && t.Which == pattern.First && t.Within == nil && t.Row == nil:
		one, _, ok := x.noun(s, t.Of)
		return said + " to the first " + one, ok
	case t.Said() && t.Which == pattern.TurnTop && t.Within == nil:
		return said + " to the top of the " + x.startChain(), !x.ordinal(s)
	}
	return "", false
}
