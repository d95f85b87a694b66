package pattern

import "crochet/tallyturn/pattern/stitch"

// initialStitch is the stitch that a letter stands for which the pattern defines nowhere,
// where the total of the row says it: "*B in next, sc in next 3; ... 4 bobbles". A bead
// worked in a place is a bead stitch.
func (x *rowReader) initialStitch() stitch.ID {
	t := x.peek()
	if t.kind != tWord || !x.at(1).isAny("in", "into") || !x.at(2).isAny("next", "each", "every", "first", "last", "same", "the", "following", "foll") {
		return stitch.None
	}
	if t.is("bead") {
		return stitch.BeadStitch
	}
	if len(t.text) != 1 {
		return stitch.None
	}
	for k := 3; x.at(k).kind != tEnd; k++ {
		w := x.at(k + 1)
		if x.at(k).kind != tNum || w.kind != tWord || len(w.text) < 2 || w.text[0] != t.text[0] {
			continue
		}
		if id, n := x.stitchAt(k + 1); n > 0 && stitch.Of(id).Kind == stitch.Compound {
			return id
		}
	}
	return stitch.None
}
