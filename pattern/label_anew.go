package pattern

// beginsAnew reports a row that is the first of another part though no name stands above it:
// its number is one again, and it is worked into a chain or a ring of its own.
func (r *reader) beginsAnew(l *label, start, end int) bool {
	if l.numbers.First.N != 1 || r.heading.set || r.piece == nil || !r.hasFirstRow() {
		return false
	}
	if len(r.setup) > 0 {
		return r.chains(r.tokenAt(int(r.setup[0].start)), start)
	}
	return r.chains(l.end, end) && r.hooked(l.end, end) || r.rings(l.end, end)
}

// chainAnew reports the line of a chain or a ring with the first row of another part right
// below it, where the rows above are done.
func (r *reader) chainAnew(ln line) bool {
	return r.row != nil && !r.toks[ln.start].blank && r.endsSentence() && r.piece != nil && r.firstRowAt(ln.end) && (r.row.row.Numbers.First.N == 1 || r.hasFirstRow()) && r.chains(ln.start, ln.end)
}

// hasFirstRow reports whether the piece that rows are added to has one with the number one.
func (r *reader) hasFirstRow() bool {
	for _, row := range r.piece.Rows[:min(len(r.piece.Rows), 3)] {
		if row.Numbers.First.N == 1 {
			return true
		}
	}
	return false
}

// chains reports whether the words from a token to another begin with a chain that more than
// a turn is made of.
func (r *reader) chains(from, to int) bool {
	x := r.scratch(from)
	x.phrase("make|start|begin|commence|work|again|now", "[with|by|a|another]", "[a]")
	return x.p < to && x.chainMade() > 1 && !x.peek().isAny("sp", "space", "loop", "-")
}

// hooked reports whether a stitch from the hook is named soon.
func (r *reader) hooked(from, to int) bool {
	for i := from; i < min(to, from+24); i++ {
		if r.toks[i].isAny("hook", "hk") {
			return true
		}
	}
	return false
}

// rings reports whether the words begin in a ring made for them: "6 sc in magic ring".
func (r *reader) rings(from, to int) bool {
	for i := from; i < min(to, from+16) && !r.toks[i].isMark(",;."); i++ {
		if r.toks[i].isAny("magic", "mr") || r.toks[i].is("ring") && r.toks[max(i-1, from)].isAny("adjustable", "sliding", "thread", "yarn") {
			return true
		}
	}
	return false
}
