package pattern

// surveyTotals finds rows whose total stands in a bracket before the label, in a column
// at the left of the page: "[18] Rnd 3: (inc, sc) x 6". Where the numbers only count the
// rows they are those of a list, and no totals.
func (r *reader) surveyTotals() {
	const fewest = 2
	found := make(map[int]int)
	counting := true
	for _, ln := range r.lines {
		k := r.totalBefore(ln)
		if k == 0 {
			continue
		}
		found[ln.start] = k
		n, row := &r.toks[ln.start+1], &r.toks[k+1]
		counting = counting && (row.kind != tNum || n.num == row.num || n.num == int64(len(found)))
	}
	if len(found) >= fewest {
		r.totalled, r.listed = found, counting
		for _, k := range found {
			r.toks[k].head = true
		}
	}
}

// totalBefore is the token of the row word of a line that begins with a number in a
// bracket, or 0.
func (r *reader) totalBefore(ln line) int {
	x := r.scratch(ln.start)
	if !x.peek().isMark("([{<") {
		return 0
	}
	end := x.closer(0)
	if end < 0 || end-x.p > 4 || end+2 >= ln.end {
		return 0
	}
	x.p++
	if _, ok := x.countPart(); !ok || x.p != end {
		return 0
	}
	k := end + 1
	for k < ln.end && r.toks[k].isMark("-|:") {
		k++
	}
	if k+1 >= ln.end || !isRowWord(&r.toks[k]) || r.toks[k+1].kind != tNum {
		return 0
	}
	return k
}

// labelStart is where the label of a line begins that has one: behind a total.
func (r *reader) labelStart(ln line) int {
	if k := r.totalled[ln.start]; k > 0 {
		return k
	}
	return ln.start
}

// totalledRow begins a row whose total stands before its label.
func (r *reader) totalledRow(ln line) bool {
	k := r.totalled[ln.start]
	if k == 0 {
		return false
	}
	l, ok := r.labelAt(k)
	if !ok || !r.isLabel(l, k) {
		return false
	}
	if l.total.Empty() && !r.listed {
		l.total = Span{ln.start, r.scratch(ln.start).closer(0)}
	}
	r.startNamedRow(l, ln.start, k, ln.end)
	return true
}
