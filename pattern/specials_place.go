package pattern

// Where a definition puts its stitch, it leaves open: "7 dc in indicated st or
// ch", "(dc, ch 1, dc) in the st or ch-1 sp specified". The row that works it
// says which place that is.

// leftOpen are words for a place that the row names.
var leftOpen = newWordSet("indicated specified designated stated given named chosen noted called")

// vaguePlaces are nouns that say no more than that the row names what it is.
var vaguePlaces = newWordSet("place spot position location")

// openPlaces are nouns that a definition may leave the choice of.
var openPlaces = newWordSet("st sts stitch stitches ch chs chain chains sp sps space spaces loop loops lp lps place spot position location ring row")

// placeLeftOpen drops what leaves the place of a definition open: the words that say
// so, and the nouns behind "or" that name another kind of place.
func placeLeftOpen(toks []token) []token {
	at := func(k int) *token { return &toks[min(max(k, 0), len(toks)-1)] }
	out := toks[:0:0]
	for k := 0; k < len(toks); k++ {
		t := &toks[k]
		switch last := len(out) - 1; {
		case t.in(leftOpen) && (at(k+1).in(openPlaces) || at(k-1).in(openPlaces)):
			continue
		case t.in(vaguePlaces) && last >= 0 && out[last].isAny("in", "into", "the", "a") && !at(k+1).is("of"):
			st := *t // "in place indicated" is in whatever stitch it is
			st.text, st.opening, st.id = "st", openingOf("st"), vocabulary()["st"].id
			out = append(out, st)
			continue
		case t.is("or") && last >= 0 && out[last].in(openPlaces):
			n := k + 1
			for at(n).isAny("the", "a", "an", "next", "same", "-") || at(n).in(leftOpen) || at(n).kind == tNum && at(n+1).in(openPlaces) || at(n).isAny("ch", "chain") && n+1 < len(toks) {
				if at(n).isAny("ch", "chain") && !at(n+1).is("-") && at(n+1).kind != tNum && !at(n+1).in(openPlaces) {
					break
				}
				if n++; n >= len(toks) {
					break
				}
			}
			if n < len(toks) && toks[n].in(openPlaces) {
				k = n
				continue
			}
		}
		out = append(out, *t)
	}
	return out
}
