package pattern

// item is a stretch of rows of a piece in the order they are worked.
type item struct {
	row      *Row
	from, to int // numbers; to < from where the count is not known
	block    []*Row
	more     bool // rows that follow row by its own words: "rep Rows 2-3 twice"
}

func (i item) count() int { return i.to - i.from + 1 }

// sequence puts the rows of a piece in the order they are worked: rows given
// as lists ("Rows 3, 5 and 7", "all even rows") go between the others.
func (pr *prover) sequence(p *Piece) []item {
	var out, seg []item
	var every []item
	last := 0
	flush := func() {
		seg = fillEvery(seg, every)
		out = append(out, seg...)
		seg, every = nil, nil
	}
	for i, r := range p.Rows {
		n := r.Numbers
		first, end := int(n.First.At(pr.size)), int(n.Last.At(pr.size))
		switch {
		case n.First.N == 0 && len(n.First.Sizes) == 0:
			// no number: it counts on, unless the next label leaves room only for less
			first = last + 1
			end = last + max(1, int(n.Count.At(pr.size)))
			if r.noLabel && i+1 < len(p.Rows) && last == 0 {
				if next := int(p.Rows[i+1].Numbers.First.At(pr.size)); next == 1 {
					first, end = 0, 0
				}
			}
		case n.Every > 0:
			every = append(every, item{row: r, from: first, to: first})
			end = first
		case len(n.List) > 0:
			if first <= last && len(seg) > 0 && !interleaves(seg, n.List) {
				flush()
			}
			for _, k := range n.List {
				seg = insert(seg, item{row: r, from: k, to: k})
			}
			last = max(last, n.List[len(n.List)-1])
			continue
		}
		if end < first {
			pr.say(Warning, CodeRange, r.labelSpan, "the rows run backwards: "+r.Label, "")
			end = first
		}
		it := item{row: r, from: first, to: end}
		if first <= last && len(seg) > 0 {
			if first > seg[0].from && roomFor(seg, first, end) {
				seg = insert(seg, it)
				last = max(last, end)
				continue
			}
			flush() // numbering begins again
		}
		seg = append(seg, it)
		last = end
	}
	flush()
	return out
}

// interleaves reports whether a list of row numbers fits between those of a
// segment.
func interleaves(seg []item, list []int) bool {
	for _, k := range list {
		if !roomFor(seg, k, k) {
			return false
		}
	}
	return true
}

func roomFor(seg []item, from, to int) bool {
	for _, s := range seg {
		if s.from <= to && from <= s.to {
			return false
		}
	}
	return true
}

func insert(seg []item, it item) []item {
	i := len(seg)
	for i > 0 && seg[i-1].from > it.from {
		i--
	}
	seg = append(seg, item{})
	copy(seg[i+1:], seg[i:])
	seg[i] = it
	return seg
}

// fillEvery puts "Row 2 and all even rows" into the gaps between the others.
func fillEvery(seg, every []item) []item {
	for _, e := range every {
		top := e.row.Numbers.Until
		for _, s := range seg {
			top = max(top, s.to)
		}
		step := e.row.Numbers.Every
		for n := e.from + step; n <= top+step-1 && n < e.from+step*maxEvery; n += step {
			if n > top {
				break
			}
			if roomFor(seg, n, n) {
				seg = insert(seg, item{row: e.row, from: n, to: n})
			}
		}
	}
	return seg
}

// maxEvery bounds how many gaps one "all even rows" may fill.
const maxEvery = 5000

// rowNumbered finds the row of a piece that has a number.
func (pr *prover) rowNumbered(p *Piece, n int) *Row {
	var found *Row
	for _, r := range p.Rows {
		first, last := int(r.Numbers.First.At(pr.size)), int(r.Numbers.Last.At(pr.size))
		if len(r.Numbers.List) > 0 {
			for _, k := range r.Numbers.List {
				if k == n {
					found = r
				}
			}
			continue
		}
		if r.Numbers.First.N == 0 {
			continue
		}
		if first <= n && n <= last || r.Numbers.Every > 0 && n >= first && (n-first)%r.Numbers.Every == 0 {
			if found == nil || r.Numbers.Every == 0 {
				found = r
			}
		}
	}
	if found == nil {
		// an unlabelled first row is Row 1
		if n == 1 && len(p.Rows) > 0 && p.Rows[0].noLabel {
			return p.Rows[0]
		}
	}
	return found
}
