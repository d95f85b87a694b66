package tui

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
)

// Yarn has the colours that the pattern names, as near as the terminal and the
// eye allow: dark yarns are lightened on a dark ground, and light ones
// darkened on a light one, until they can be told from it.

// yarnWords are the words for the colours of yarn, and their ink.
var yarnWords = map[string]role{
	"red": yarnRed, "crimson": yarnRed, "scarlet": yarnRed, "rust": yarnRed, "burgundy": yarnRed, "coral": yarnRed, "rose": yarnRed,
	"orange": yarnOrange, "peach": yarnOrange, "apricot": yarnOrange, "terracotta": yarnOrange, "copper": yarnOrange,
	"yellow": yarnYellow, "gold": yarnYellow, "mustard": yarnYellow, "lemon": yarnYellow, "sand": yarnYellow, "cream": yarnYellow, "beige": yarnYellow, "straw": yarnYellow,
	"green": yarnGreen, "olive": yarnGreen, "moss": yarnGreen, "mint": yarnGreen, "sage": yarnGreen, "kelp": yarnGreen, "lime": yarnGreen,
	"teal": yarnTeal, "turquoise": yarnTeal, "aqua": yarnTeal, "sea": yarnTeal, "foam": yarnTeal,
	"blue": yarnBlue, "navy": yarnBlue, "denim": yarnBlue, "sky": yarnBlue, "indigo": yarnBlue,
	"purple": yarnPurple, "violet": yarnPurple, "lilac": yarnPurple, "lavender": yarnPurple, "plum": yarnPurple, "mauve": yarnPurple,
	"pink": yarnPink, "magenta": yarnPink, "fuchsia": yarnPink,
	"brown": yarnBrown, "tan": yarnBrown, "chocolate": yarnBrown, "rope": yarnBrown, "bark": yarnBrown,
	"white": yarnPale, "grey": yarnPale, "gray": yarnPale, "silver": yarnPale, "black": yarnPale, "charcoal": yarnPale, "slate": yarnPale, "ivory": yarnPale,
}

// colourIn is the colour that an instruction changes to, as it is written; ""
// for any other instruction.
func colourIn(s *pattern.Step) string {
	if s == nil || s.Op != pattern.OpColour && s.Op != pattern.OpAttach {
		return ""
	}
	var last string
	words := strings.FieldsFunc(Clean(s.Text), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == ';' || r == ':' })
	for i, word := range words {
		low := strings.ToLower(word)
		if _, ok := yarnWords[low]; ok {
			return strings.ToLower(strings.Join(named(words, i), " "))
		}
		if len(word) <= 2 && word == strings.ToUpper(word) && word != "RS" && word != "WS" && strings.Trim(word, "ABCDEFGHM") == "" {
			last = word // yarn A, MC
		}
		if low == "to" || low == "with" || low == "colour" || low == "color" || low == "yarn" {
			if i == len(words)-2 && last == "" {
				last = words[i+1]
			}
		}
	}
	return last
}

// shadeWords are words that stand before a colour and belong to its name.
var shadeWords = []string{"light", "lighter", "dark", "darker", "pale", "deep", "bright", "soft", "medium", "dusty", "off"}

// named is the whole name of a colour of which the i-th word is the first that
// is known: "dark kelp green".
func named(words []string, i int) []string {
	from, to := i, i+1
	for from > 0 && slices.Contains(shadeWords, strings.ToLower(words[from-1])) {
		from--
	}
	for to < len(words) && yarnWords[strings.ToLower(words[to])] != 0 {
		to++
	}
	return words[from:to]
}

// yarnInk is the ink of a colour, which is that of the last word of its name
// that is known, and its name.
func yarnInk(colour string) (role, string) {
	words := strings.Fields(strings.ToLower(colour))
	for _, word := range slices.Backward(words) {
		if r, ok := yarnWords[word]; ok {
			return r, colour
		}
	}
	return markDone, colour
}

// yarnsOf is the colour in hand at the beginning of each of some rows.
func yarnsOf(rows []pattern.RowLinks) []string {
	out := make([]string, len(rows))
	now := ""
	for i := range rows {
		out[i] = now
		for j := range rows[i].Made {
			for _, m := range rows[i].Made[j].Marks {
				if c := colourIn(m); c != "" {
					now = c
				}
			}
		}
		for _, m := range rows[i].Marks {
			if c := colourIn(m); c != "" {
				now = c
			}
		}
	}
	return out
}
