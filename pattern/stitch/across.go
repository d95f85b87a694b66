package stitch

import (
	"strings"
	"sync"
)

// A Pair is one thing as the two sides of the Atlantic write it.
type Pair struct{ US, UK string }

// Words that name no stitch and differ all the same.
//
// Source: the Craft Yarn Council's US/UK table has skip and miss, gauge and
// tension, yarn over and yarn over hook; the forms of the verb follow.
var crossings = []Pair{
	{"skip", "miss"}, {"skips", "misses"}, {"skipped", "missed"}, {"skipping", "missing"}, {"sk", "miss"},
	{"gauge", "tension"}, {"gauges", "tensions"},
	{"yo", "yoh"}, {"yo", "yrh"}, {"yarn over", "yarn over hook"}, {"yarn over", "yarn round hook"},
	{"csdc", "cstr"},
}

// spellings pairs ways to write the plain stitches beyond the abbreviation,
// the full name and their plurals, which pair by themselves. Each stands in
// one pair of its stitch, so that a word taken across comes back as it was.
var spellings = map[ID][]Pair{
	SC: {{"single", "double"}, {"singles", "doubles"}, {"s c", "d c"}, {"scs", "dcs"}, {"single crochet stitch", "double crochet stitch"},
		{"single crochet stitches", "double crochet stitches"}},
	HDC:  {{"half dc", "half tr"}, {"half double", "half treble"}, {"half doubles", "half trebles"}},
	DC:   {{"double", "treble"}, {"doubles", "trebles"}, {"d c", "t r"}, {"dcs", "trs"}},
	TR:   {{"treble", "double treble"}, {"trebles", "double trebles"}, {"tr c", "d tr"}, {"trs", "dtrs"}},
	DTR:  {{"double treble", "triple treble"}, {"d tr", "tr tr"}},
	TRTR: {{"triple treble", "quadruple treble"}, {"tr tr", "quad tr"}},
}

// crossed is how a spelling of a stitch is written across.
type crossed [count]map[string]string

// across has what US spellings are in UK terms, and UK ones in US terms.
var across = sync.OnceValues(acrossTables)

func acrossTables() (uk, us *crossed) {
	uk, us = new(crossed), new(crossed)
	for i := range table {
		s := &table[i]
		if s.US == "" {
			continue
		}
		uk[i], us[i] = make(map[string]string), make(map[string]string)
		add := func(p Pair) {
			if _, ok := uk[i][p.US]; !ok {
				uk[i][p.US] = p.UK
			}
			if _, ok := us[i][p.UK]; !ok {
				us[i][p.UK] = p.US
			}
		}
		add(Pair{s.US, s.UK})
		add(Pair{s.USWords, s.UKWords})
		for _, p := range spellings[ID(i)] {
			add(p)
		}
		if s.US != s.UK && !strings.HasSuffix(s.UK, "s") {
			add(Pair{s.US + "s", s.UK + "s"})
		}
		add(Pair{s.USWords + "s", s.UKWords + "s"})
	}
	return uk, us
}

// Across is how a name of a stitch is written in the other terms: the spelling
// that answers it, or else the usual one. The name is as Lexicon.Find takes it.
func (id ID) Across(name string, to Terms) string {
	forth, toUS := across()
	from := US
	if to == US {
		forth, from = toUS, UK
	}
	if id == None || id >= count || id == Special {
		return name
	}
	if there, ok := forth[id][name]; ok {
		return there
	}
	lex := LexiconFor(to)
	// "front post dc": the last words are those of the plain stitch
	base := id.Base()
	for _, cut := range cuts(name) {
		if there, ok := forth[base][name[cut:]]; ok {
			if got, _ := lex.Find(name[:cut] + there); got == id {
				return name[:cut] + there
			}
		}
	}
	if got, _ := lex.Find(name); got == id {
		return name
	}
	short, words := Of(id).US, Of(id).USWords
	if from == US {
		short, words = Of(id).UK, Of(id).UKWords
	}
	if strings.Contains(name, "crochet") || len(name) > 8 {
		if strings.HasSuffix(name, "s") {
			return words + "s"
		}
		return words
	}
	return short
}

// cuts are the places at which a name may be parted from what it begins with,
// the longest end first.
func cuts(name string) []int {
	var out []int
	for i := 1; i < len(name); i++ {
		if name[i-1] == ' ' || i == 2 {
			out = append(out, i)
		}
	}
	return out
}

// Crossing is how a word that names no stitch, "skip" or "gauge", is written
// in the other terms. It is false for one that is the same in both.
func Crossing(word string, to Terms) (string, bool) {
	for _, p := range crossings {
		switch {
		case to == UK && p.US == word:
			return p.UK, true
		case to == US && p.UK == word:
			return p.US, true
		}
	}
	return "", false
}

// Crossings are the words that name no stitch and differ between the terms.
func Crossings() []Pair { return append([]Pair(nil), crossings...) }
