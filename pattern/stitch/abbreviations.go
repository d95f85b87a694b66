package stitch

import "sync"

// Abbreviation is a short word of written patterns that names no stitch.
type Abbreviation struct {
	Short string    // as a list of abbreviations prints it: "st(s)"
	Forms Spellings // how it may be written
	Words string    // in full
}

// abbreviations are in the order of the alphabet.
//
// Source: Craft Yarn Council, crochet abbreviations master list; FO, inv dec,
// MR and tch are common practice, no source.
var abbreviations = []Abbreviation{
	{"alt", "alt", "alternate"},
	{"beg", "beg", "beginning"},
	{"bet", "bet", "between"},
	{"BLO", "blo", "back loops only"},
	{"CC", "cc", "contrasting colour"},
	{"ch(s)", "ch|chs", "chain(s)"},
	{"cont", "cont", "continue"},
	{"dec", "dec", "decrease"},
	{"FLO", "flo", "front loops only"},
	{"FO", "fo", "fasten off"},
	{"foll", "foll", "following"},
	{"inc", "inc", "increase"},
	{"inv dec", "inv dec|invdec", "invisible decrease"},
	{"lp(s)", "lp|lps", "loop(s)"},
	{"MC", "mc", "main colour"},
	{"MR", "mr", "magic ring"},
	{"patt", "patt", "pattern"},
	{"pm", "pm", "place marker"},
	{"prev", "prev", "previous"},
	{"rem", "rem", "remaining"},
	{"rep", "rep", "repeat"},
	{"rnd(s)", "rnd|rnds", "round(s)"},
	{"RS", "rs", "right side"},
	{"sk", "sk", "skip"},
	{"sp(s)", "sp|sps", "space(s)"},
	{"st(s)", "st|sts", "stitch(es)"},
	{"tch", "tch|t-ch", "turning chain"},
	{"tog", "tog", "together"},
	{"WS", "ws", "wrong side"},
	{"yo", "yo", "yarn over"},
	{"yoh", "yoh", "yarn over hook"},
	{"yrh", "yrh", "yarn round hook"},
}

var abbreviationOf = sync.OnceValue(func() map[string]*Abbreviation {
	m := make(map[string]*Abbreviation)
	for i := range abbreviations {
		for _, f := range abbreviations[i].Forms.All() {
			m[f] = &abbreviations[i]
		}
	}
	return m
})

// Abbreviated finds what a short word stands for; lower case, words parted by
// single spaces. It is false for a word that is no abbreviation, or a stitch.
func Abbreviated(word string) (Abbreviation, bool) {
	if a, ok := abbreviationOf()[word]; ok {
		return *a, true
	}
	return Abbreviation{}, false
}
