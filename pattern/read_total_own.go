package pattern

import "strings"

// A row is often counted in a unit of the author's own, which no list of words has:
// "6 Vs", "Again 7 lacets", "46 so far", "2 for each sector". Such words behind all the
// work of a row are looked at once it is known what the row comes to.

// ownCount keeps the words from a token up to here, which were not understood, as a
// count in the author's own unit, where they can be one: a number alone among words
// none of which works anything, behind a mark, and nothing worked behind them.
func (x *rowReader) ownCount(start int) {
	if start == 0 || x.depth > 1 || !x.worked && x.row.Refer == nil || !x.ts[start].head && !x.ts[start-1].isMark(".,;:-=!(") || !x.lastWords() && !x.idleBehind() {
		return
	}
	at := -1
	for i := start; i < x.p; i++ {
		t := &x.ts[i]
		switch {
		case t.kind == tNum && at < 0 && !t.frac && !t.big && t.num > 0:
			at = i
		case t.kind != tWord && !t.isMark("'-"), t.isAny("with", "but", "work", "working", "then"), x.stitchFollows(i - x.p), at < 0 && i-start >= maxOwnLead, i-at > maxOwnTail && at >= 0:
			return
		case t.isAny("each", "every") && at > 0 && x.ts[i-1].isAny("for", "on", "at", "in", "per", "along"):
		case t.in(idleNever) && !(at > 0 && t.is("in") && x.ts[i+1].isAny("each", "every", "all", "total")):
			return
		}
	}
	if at < 0 || at+1 == x.p && at == start || at+1 < x.p && x.ts[at+1].isAny("cm", "mm", "in", "inch", "inches", "of", "on", "at", "more", "rows", "rounds", "rnds", "times", "x") {
		return
	}
	n := &x.ts[at]
	if x.pat.ownCounts == nil {
		x.pat.ownCounts = make(map[Span]TotalPart)
	}
	sp := x.spanFrom(start)
	x.pat.ownCounts[sp] = TotalPart{Span: sp, N: Num{N: n.num, Span: n.span()}, Name: strings.TrimSpace(x.src.Slice(Span{int(n.end), sp.End})), Kind: PartOther}
}

// idleBehind reports whether only sentences of talk follow in the row, "Put something
// good on the telly": no number, no stitch and no place for one.
func (x *rowReader) idleBehind() bool {
	if !x.peek().isMark(".!)") {
		return false
	}
	for k := 1; k <= maxTalkBehind; k++ {
		switch t := x.at(k); {
		case t.kind == tEnd:
			return true
		case t.kind == tNum || t.kind == tOrd || t.isMark("*([") || t.in(idleNever) || x.stitchFollows(k):
			return false
		}
	}
	return false
}

// maxTalkBehind is how many words of talk are looked through.
const maxTalkBehind = 60

// Bounds on the words around the number of such a count.
const (
	maxOwnLead = 4
	maxOwnTail = 7
)
