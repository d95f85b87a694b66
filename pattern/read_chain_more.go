package pattern

// chainsMore reads the chains to turn with that are told apart from those of the
// foundation: "Ch 28, plus 1 for turning", "Chain 30, then 2 more to turn", "Ch 28 (plus 1
// turning ch)".
//
//	more = [ "," ] [ "(" ] [ "and" | "then" | "plus" | "+" ] number [ "more" | "extra" | "turning" ] [ "ch" ] [ ( "to" | "for" ) "turning" ] [ ")" ] .
func (x *rowReader) chainsMore(of *Step) *Step {
	if x.worked || x.depth > 1 || of.Op != OpChain || of.N.N < 5 || of.Counts.Said {
		return nil
	}
	start := x.p
	fail := func() *Step { x.p = start; return nil }
	for x.peek().isMark(",;-") && !x.peek().glued || x.peek().is(",") {
		x.p++
	}
	bracket := x.accept("(")
	x.accept("and", "then", "&")
	plus := x.accept("plus", "+")
	from := x.p
	n, ok := x.number()
	if !ok || n.N < 1 || n.N > 5 {
		return fail()
	}
	more := x.accept("more", "extra", "additional")
	turning := x.phrase("turning", "ch|chain|chains|chs")
	if !turning {
		x.accept("ch", "chain", "chains", "chs")
		more = x.accept("more", "extra") || more
		turning = x.phrase("to|for", "[the|your]", "turn|turning|tch", "[ch|chain|chains|chs]")
	}
	if !turning && !(plus && (x.end() || x.peek().isMark(".)"))) && !(more && x.peek().isMark(".)")) {
		return fail()
	}
	sp := x.spanFrom(from)
	if bracket && !x.accept(")") || !x.end() && !x.peek().separator() && !x.peek().isMark("([") && !x.peek().head && !x.peek().isAny("and", "then") {
		return fail()
	}
	return &Step{Op: OpChain, N: n, Span: sp}
}
