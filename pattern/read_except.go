package pattern

// exceptWords stand before what "each" leaves out.
var exceptWords = newWordSet("except excepting but bar save excluding omitting barring apart aside")

// exceptions takes what is left out of "each": the first stitch of the row, its
// last ones, or both.
//
//	exceptions = exceptWord [ "for" | "from" ] left [ "and" left ] | "after" [ "the" ] "first" .
//	left       = [ "the" | "those" ] [ "very" ] ( "first" | "last" [ number ] ) [ noun ] .
func (x *rowReader) exceptions(t *Target) {
	start := x.p
	if !x.peek().in(exceptWords) && x.phraseAt(0, "after", "[the]", "first") < 0 {
		return
	}
	x.p++
	x.accept("for", "from", "in")
	end := x.p
	for {
		x.phrase("[the|those]", "[very]")
		first := x.peek().is("first") || x.peek().kind == tOrd && x.peek().num == 1
		if !first && !x.peek().isAny("last", "final") {
			break
		}
		x.p++
		n := Num{N: 1}
		if x.peek().kind == tNum {
			if first {
				break // more than one left out at the beginning is a step of its own
			}
			n, _ = x.number()
		}
		if one, ok := x.nounAt(0); ok && (one.filter.Kind == AnyStitch || one.filter.Kind == OneStitch) {
			x.p += one.tokens
		} else {
			x.accept("one", "ones")
		}
		if first {
			t.butFirst = true
		} else {
			t.Bound = Bound{Kind: ToLast, N: n, within: true}
		}
		end = x.p
		if !x.accept("and", "&") {
			break
		}
	}
	if x.p = end; end == start+1 || !t.butFirst && t.Bound.Kind == NoBound {
		x.p = start
		return
	}
	t.Span = cover(t.Span, x.ts[x.p-1].span())
}

// leavesOut reports whether "each" goes on with what it leaves out at once.
func (x *rowReader) leavesOut() bool {
	return x.peek().in(exceptWords) && x.phraseAt(1, "[for|from|in]", "[the|those]", "[very]", "first|last|final") > 0
}
