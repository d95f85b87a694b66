package stitch

// Translated is the stitch that a name of two words means which was put into English
// word by word, "solid stitch", "low points": None for "air stitches", which are
// chains. ok tells whether it is such a name at all. Both words are in lower case.
func Translated(first, noun string) (id ID, ok bool) {
	id, ok = translatedKinds[first]
	switch noun {
	case "stitch", "stitches", "st", "sts", "m", "point", "points":
		return id, ok && first != "short"
	case "loop", "loops":
		return None, first == "air"
	case "needle", "needles":
		return SC, first == "short"
	}
	return None, false
}

// translatedKinds are the first words of such names. A feste Masche or fastmaske is the
// solid one, a maglia bassa or punto bajo the low one, a Luftmasche that of air: Craft
// Yarn Council, "International Crochet Terms", and Garnstudio's glossaries.
var translatedKinds = map[string]ID{
	"air":   None,
	"solid": SC, "fixed": SC, "firm": SC, "low": SC, "short": SC, "tight": SC,
	"high": DC, "tall": DC,
}
