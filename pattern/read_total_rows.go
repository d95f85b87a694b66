package pattern

// mostTotals is how many totals one label may give one behind another.
const mostTotals = 60

// rowsToTell is how many rows the row being read stands for, as far as its label or
// the rows it repeats say; 1 where they do not.
func (x *rowReader) rowsToTell() int {
	n := &x.row.Numbers
	switch {
	case n.List != nil:
		return len(n.List)
	case n.Last.N > n.First.N && n.Last.Sizes == nil && n.Every == 0:
		return capped(n.Last.N - n.First.N + 1)
	case n.Count.N > 1:
		return capped(n.Count.N)
	}
	switch r := x.row.Refer; {
	case r == nil || r.Then != nil:
		return 1
	case r.Rows.N > 0:
		return capped(r.Rows.N)
	case r.Times.N > 0:
		return r.allLen(0)
	}
	return 1
}

// totalsAhead is how many tokens ahead are the totals of the rows of the
// label, one behind the other: "18, 24, 30", "10 sts, then 8 sts, then 6 sts". It is 0
// where there are not just as many numbers as rows, or the numbers are those of sizes.
func (x *rowReader) totalsAhead() int {
	rows, k := x.rowsToTell(), 0
	if rows < 2 || rows > mostTotals || len(x.pat.Sizes) > 1 {
		return 0
	}
	for i := range rows {
		if i > 0 {
			from := k
			for x.at(k).in(turnJoints) {
				k++
			}
			if k == from {
				return 0
			}
		}
		t := x.at(k)
		if t.kind != tNum || t.frac || t.big || t.num < 1 {
			return 0
		}
		k++
		if n, ok := x.nounAt(k); ok && !n.edge && !n.ring && !n.turn {
			k += n.tokens
		}
		if x.at(k).isAny("in", "on", "after", "at") && isRowWord(x.at(k+1)) && x.at(k+2).kind == tNum {
			k += 3 // "18 sts in Rnd 3, 24 in Rnd 4"
		}
	}
	return k
}

// turnJoints may stand between the totals of rows.
var turnJoints = newWordSet(", / - > ; : | and & then +")

// totalOfRows reads the totals of the rows of a label, one behind the other, and keeps
// them for the rows they belong to.
//
//	totals = number [ noun ] { ( "," | "then" | "and" | "/" ) number [ noun ] } .
func (x *rowReader) totalOfRows(start int, before []*Step) bool {
	from := x.p
	end := x.p + x.totalsAhead()
	if end == from || x.depth > 1 {
		return false
	}
	bracket := start < from && x.ts[from-1].isMark("([{<")
	turn := max(0, x.phraseAt(end-x.p, "respectively"), x.phraseAt(end-x.p, "in", "turn|order"), x.phraseAt(end-x.p, "in", "that|this", "order"))
	after := &x.ts[end+turn]
	if after.is(".") && bracket {
		after = &x.ts[end+turn+1]
	}
	if bracket && !after.isMark(")]}>") || !bracket && after.kind != tEnd && !after.separator() && !after.head && !after.isMark("([{") {
		return false
	}
	var parts []TotalPart
	for x.p < end {
		if part, ok := x.part(end); ok {
			parts = append(parts, part)
			continue
		}
		if x.p++; isRowWord(x.at(-1)) {
			x.p++
		}
	}
	if len(parts) != x.rowsToTell() {
		x.p = from
		return false
	}
	x.p += turn
	named := parts[len(parts)-1]
	for i := range parts {
		if p := &parts[i]; p.Name == "" {
			p.Name, p.Kind, p.ID, p.Size, p.word = named.Name, named.Kind, named.ID, named.Size, named.word
		}
	}
	for x.peek().is(".") && bracket || bracket && x.peek().isMark(")]}>") {
		x.p++
	}
	sp := x.spanFrom(start)
	x.row.Total = &Total{Span: sp, Parts: parts, Text: x.src.Slice(sp), after: len(before), depth: x.depth, rows: true}
	return true
}

// ofRow is the total of the k-th row of a label, from 0; nil where it is stated for none.
func (t *Total) ofRow(k int) *Total {
	if k >= len(t.Parts) {
		return nil
	}
	one := *t
	one.Parts, one.rows = t.Parts[k:k+1:k+1], false
	if sp := one.Parts[0].Span; !sp.Empty() {
		one.Span = sp
	}
	return &one
}

// last is the total of the last row of a label.
func (t *Total) last() *Total {
	if t == nil || !t.rows {
		return t
	}
	return t.ofRow(len(t.Parts) - 1)
}
