package pattern

import "crochet/tallyturn/pattern/stitch"

// placesFirst reads a stitch told behind the places that it goes into, as translations
// have it: "in the 2nd ch from the hook and the next 4 ch 1 sc each", "in each following
// ch work 1 dc". It takes one stitch alone, the same for all of the places.
//
//	placesFirst = place [ "work" | "make" ] [ number ] stitch [ "each" ] .
func (x *rowReader) placesFirst() []*Step {
	start := x.p
	no := func() []*Step { x.p = start; return nil }
	places := x.place()
	if len(places) == 0 {
		return no()
	}
	x.accept(",", ":")
	x.accept("work", "make", "working", "put", "place", "crochet")
	x.accept("only")
	count := Num{N: 1}
	if t := x.peek(); t.kind == tNum && !t.frac {
		count, _ = x.number()
	}
	id, n := x.stitchAt(0)
	if n == 0 || id == stitch.Slip || stitch.Of(id).Kind == stitch.Compound {
		return no()
	}
	x.p += n
	each := x.accept("each", "ea", "apiece")
	if !each && len(places) < 2 || !x.endsClause() || !x.at(0).isMark(",;.([=-") && !x.end() && !x.peek().head {
		return no()
	}
	for i := range places {
		if places[i].Which != FromHook && places[i].Which != Next && places[i].Which != Each && places[i].Which != Nth && places[i].Which != First {
			return no()
		}
	}
	x.worked = true
	out := make([]*Step, len(places))
	for i, t := range places {
		out[i] = &Step{Op: OpWork, Stitch: id, N: count, Target: t, Span: t.Span}
	}
	out[0].Span.Start = int(x.ts[start].start)
	out[len(out)-1].Span.End = int(x.ts[x.p-1].end)
	return out
}

// ordinalsFromHook reads chains at the hook that are counted out one by one, "in 4th and
// 5th ch from hook": the first of them, and how many lie right behind it.
func (x *rowReader) ordinalsFromHook() (t Target, more int64, ok bool) {
	start := x.p
	x.preposition()
	x.accept("the")
	first, k := x.peek().num, 1
	if x.peek().kind != tOrd {
		x.p = start
		return t, 0, false
	}
	t = Target{Which: FromHook, Of: []Filter{{Kind: ChainStitch}}, N: Num{N: first, Span: x.peek().span()}, said: true}
	for {
		m := k
		for x.at(m).isAny(",", "and", "&", "the") {
			m++
		}
		if m == k || x.at(m).kind != tOrd || x.at(m).num != first+more+1 {
			break
		}
		k, more = m+1, more+1
	}
	end := x.phraseAt(k, "ch|chs|chain|chains", "[sts|stitches]", "from|fr|off", "[the|your]", "hook|hk|needle")
	if more == 0 || end <= 0 {
		x.p = start
		return Target{}, 0, false
	}
	t.Span = Span{int(x.ts[start].start), int(x.peek().end)} // the chains behind are counted from it
	x.p += k + end
	return t, more, true
}
