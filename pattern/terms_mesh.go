package pattern

import "crochet/tallyturn/pattern/stitch"

// meshTerms reads off the first mesh of a foundation which terms its stitch has
// its name in: "1 dc in 8th ch from hook, *ch 2, skip 2 ch, 1 dc in next ch*"
// passes five chains for the mesh, and three for the stitch, which is the height
// of a US double. At i is the number of the chain. It is Unknown where the words
// there tell of no mesh, or of none that comes out.
func meshTerms(toks []token, i int) stitch.Terms {
	t := &toks[i]
	if t.kind != tOrd || t.num < 5 || t.num > 20 || i < 2 {
		return stitch.Unknown
	}
	j := i - 1
	for j > 0 && toks[j].isAny("in", "into", "the", "on") {
		j--
	}
	word := toks[j].text
	switch {
	case j == 0:
	case toks[j].is("c") && toks[j-1].is("d"):
		word = "dc"
	case toks[j].is("r") && toks[j-1].is("t"):
		word = "tr"
	}
	if word != "dc" && word != "tr" {
		return stitch.Unknown
	}
	made, skipped := int64(0), int64(0)
	for k := i + 1; k+1 < min(len(toks), i+20) && skipped == 0; k++ {
		n, before := &toks[k+1], &toks[k-1]
		switch {
		case n.kind == tNum && toks[k].isAny("skip", "sk", "miss", "missing", "skipping"):
			skipped = n.num
		case made > 0 || !toks[k].isAny("ch", "chain", "chs", "chains") || before.kind == tOrd:
		case n.kind == tNum:
			made = n.num
		case before.kind == tNum:
			made = before.num
		}
	}
	if made == 0 || skipped == 0 || made > 9 || skipped > 9 {
		return stitch.Unknown
	}
	height := t.num - 1 - made - skipped
	switch {
	case word == "dc" && height == int64(stitch.Of(stitch.DC).Turn):
		return stitch.US
	case word == "tr" && height == int64(stitch.Of(stitch.DC).Turn):
		return stitch.UK
	}
	return stitch.Unknown
}
