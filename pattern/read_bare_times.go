package pattern

// Short notes have "(sc, inc) 6 = 18": what stands behind the bracket is how often it
// is worked, and its total behind an equals sign. Elsewhere such a number is the
// total. One row that has both shows which manner the notes are in.

// bareTimes reports whether any row has both numbers behind a bracket.
func (r *reader) bareTimes() bool {
	for i := 1; i+2 < len(r.toks); i++ {
		if n, all := &r.toks[i], &r.toks[i+2]; n.kind == tNum && !n.frac && r.toks[i-1].isMark(")]") && r.toks[i+1].is("=") && all.kind == tNum && !n.head && !all.head && !all.frac && all.num > n.num {
			return true
		}
		if r.timesThenTotal(i) {
			return true
		}
	}
	return false
}

// timesThenTotal reports whether the number at token i stands close behind a bracket, and a
// greater one in a bracket of its own behind it: "(sc, inc)6. [18]".
func (r *reader) timesThenTotal(i int) bool {
	n, k := &r.toks[i], i+1
	if n.kind != tNum || n.frac || !n.glued || !r.toks[i-1].isMark(")]") || r.toks[i-1].blank {
		return false
	}
	if r.toks[k].is(".") {
		k++
	}
	if k+2 >= len(r.toks) || !r.toks[k].isMark("([") || r.toks[k].head || !r.toks[k+2].isMark(")]") {
		return false
	}
	all := &r.toks[k+1]
	return all.kind == tNum && !all.frac && all.num > n.num
}

// bareTimes reports whether the number here is how often the bracket before it is
// worked, in notes of that manner. Nothing but its total may follow, k tokens on.
func (x *rowReader) bareTimes(k int) bool {
	if !x.pat.bareTimes || x.p == 0 || !x.at(-1).isMark(")]") || x.peek().head || x.peek().word {
		return false
	}
	after := x.at(k)
	return after.kind == tEnd || after.head || after.isMark("=,.;+:") || after.isMark("([") && x.at(k+1).kind != tWord || after.is("-") && !after.glued
}
