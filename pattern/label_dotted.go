package pattern

// dottedNumbers reads a label whose numbers are ordinals in the manner of German and its
// neighbours, where a full stop makes them so: "1. Rd:", "5. - 9. Rnd:", "3. and 4. row".
//
//	dotted numbers = number "." { ( "-" | "to" | "and" | "&" | "," | "+" ) number "." } row word [ "." ] .
func (x *rowReader) dottedNumbers(l *label) bool {
	start := x.p
	one := func() (Num, bool) {
		t := x.peek()
		if t.kind != tNum || t.frac || t.word || t.big || !x.at(1).is(".") {
			return Num{}, false
		}
		x.p += 2
		return Num{N: t.num, Span: t.span()}, true
	}
	n, ok := one()
	if !ok {
		return false
	}
	first := n
	for x.peek().isAny("-", "to", "and", "&", ",", "+", "/", "till", "until") {
		next := x.peek().isAny("and", "&", ",", "+", "/")
		x.p++
		m, ok := one()
		if !ok || m.N <= n.N || next && m.N != n.N+1 {
			x.p = start
			return false
		}
		n = m
	}
	if !isRowWord(x.peek()) || x.peek().is("r") || x.peek().head {
		x.p = start
		return false
	}
	if isRoundWord(x.peek()) {
		l.kind = Round
	}
	x.p++
	if x.peek().is(".") && x.peek().glued && x.at(1).is(":") {
		x.p++ // "1. Rd.: "
	}
	if !x.peek().isMark(":-.=([") && !x.workFollows(0) {
		x.p = start
		return false
	}
	l.numbers.First, l.numbers.Last = first, n
	return true
}
