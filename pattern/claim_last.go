package pattern

import "fmt"

// lastRowClaim reads which row a label with several is said to end with, at the
// word for a row: "(8 blocks at the end of Row 8)", "At the end of Row 15 do not
// fasten off". What happens at the end of a row between the first and the last is
// none: a colour may change there. It reports whether it is such a claim.
func (r *reader) lastRowClaim(at *claimRow, i int) bool {
	t := &r.toks[i+1]
	row := at.row
	if i < 3 || t.kind != tNum || t.frac || t.big || int(t.start) >= row.Span.End || !spansRows(row) {
		return false
	}
	from := i - 1
	for from > 0 && r.toks[from].isAny("the", "last", "of") {
		from--
	}
	switch {
	case r.toks[from].is("end") && from < i-1:
		for from--; from > 0 && r.toks[from].is("the"); from-- {
		}
		if !r.toks[from].isAny("at", "by", "on") {
			return false
		}
	case r.toks[from].isAny("after", "completing", "finishing"):
	default:
		return false
	}
	// a total before it, or the end of the work behind it
	total := false
	for k := from - 1; k > max(0, from-5) && !r.toks[k].isMark(".;:,([{"); k-- {
		total = total || r.toks[k].kind == tNum && !isRowWord(&r.toks[k-1])
	}
	after := i + 2
	for after < len(r.toks)-1 && r.toks[after].isAny(",", "do", "does", "don't", "not", "the", "yarn") {
		after++
	}
	if b := &r.toks[after]; !b.isAny("fasten", "fo", "finish", "cut", "break") && !(total && b.isMark(")]}.") && r.toks[from-1].kind == tWord) {
		return false
	}
	if r.toks[after].isAny("cut", "break") && !r.toks[after-1].isAny("not", "don't", "do", ",") && !r.toks[after+1].isAny("yarn", "off", "the", "thread") {
		return false
	}
	r.claimOf(claimLast, at, t, &r.toks[i], t)
	return true
}

// spansRows reports a label for a range of rows, each after the other.
func spansRows(r *Row) bool {
	n := &r.Numbers
	return countsOn(r) && len(n.First.Sizes) == 0 && len(n.Last.Sizes) == 0 && n.Last.N > n.First.N
}

// lastClaimed compares the row that words take for the last of a label with the label.
func (pr *prover) lastClaimed(c *claim) bool {
	first, last, said := c.row.Numbers.First.N, c.row.Numbers.Last.N, c.n.N
	if said == last || pr.errsIn(c.row, 0) || said <= first-1 || said > last+(last-first)+2 {
		return false
	}
	pr.say(Error, CodeRange, c.span, fmt.Sprintf("%s ends with %d, and %d is said to be its last", c.row.Label, last, said),
		fmt.Sprintf("change one of the two, to %d or %d", last, said))
	return true
}
