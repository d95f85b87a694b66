package pattern

import "strings"

// onePart reads which part of the work is meant, "first leg", "the 1 leg",
// "leg 2", "other side's half": a part told from its like. "It" is the part
// that the words before it have just named.
//
//	part = [ "the" ] ( ordinal | "other" | ... | number ) name | name number | "it" .
func (x *rowReader) onePart() bool {
	start := x.p
	x.accept("the")
	t := x.peek()
	switch {
	case (t.kind == tOrd || t.in(whichPart)) && x.partAt(1),
		t.kind == tNum && !t.frac && t.num > 0 && t.num < 10 && x.at(1).in(partWords) && !strings.HasSuffix(x.at(1).text, "s"),
		t.in(partWords) && !strings.HasSuffix(t.text, "s") && x.at(1).kind == tNum && x.at(1).num < 10 && !x.stitchFollows(2) && !x.at(2).isAny("x", "inc", "dec", "ch", "st", "sts"):
		x.p += 2
		return true
	case t.is("it") && x.p == start && x.partBefore(6):
		x.p++
		return true
	}
	x.p = start
	return false
}

// partAt reports the name of a part: a word for one, or a piece of the pattern.
func (x *rowReader) partAt(k int) bool {
	for _, pc := range x.pat.Pieces {
		if pc.Name != "" && strings.EqualFold(strings.TrimSuffix(x.at(k).text, "s"), strings.TrimSuffix(pc.Name, "s")) {
			return true
		}
	}
	return x.at(k).in(partWords)
}

// partBefore reports whether a part was named in the few words before here.
func (x *rowReader) partBefore(words int) bool {
	for k := 1; k <= min(words, x.p); k++ {
		if x.at(-k).in(partWords) {
			return true
		}
	}
	return false
}
