package pattern

import (
	"fmt"
	"sort"
)

// item is a stretch of rows of a piece in the order they are worked.
type item struct {
	row      *Row
	from, to int // numbers; to < from where the count is not known
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
		if !r.forSize(pr.size) {
			continue
		}
		n := r.Numbers
		first, end := int(n.First.At(pr.size)), int(n.Last.At(pr.size))
		switch {
		case n.First.N == 0 && len(n.First.Sizes) == 0:
			// no number: it counts on, unless the next label leaves room only for less
			first = last + 1
			end = last + max(1, int(n.Count.At(pr.size)), pr.rowsRepeated(r, last))
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
			pr.say(Warning, CodeRange, r.labelSpan, "the rows run backwards: "+r.Label, fmt.Sprintf("%d to %d, if that is meant", end, first))
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

// numbered finds the rows of a piece by their numbers.
type numbered struct {
	of     *Piece
	size   int
	single map[int]int   // the last row with just this number, by its place among the rows
	again  map[int][]int // all of them, where there are several
	other  []int         // rows with ranges and lists
	at     map[*Row]int
}

func (pr *prover) numberedOf(p *Piece) *numbered {
	if x := pr.index; x != nil && x.of == p && x.size == pr.size {
		return x
	}
	x := &numbered{of: p, size: pr.size, single: make(map[int]int, len(p.Rows)), again: make(map[int][]int), at: make(map[*Row]int, len(p.Rows))}
	for i, r := range p.Rows {
		x.at[r] = i
		n := &r.Numbers
		switch first := int(n.First.At(pr.size)); {
		case len(n.List) > 0 || n.Every > 0 || n.First.N != 0 && first != int(n.Last.At(pr.size)):
			x.other = append(x.other, i)
		case n.First.N != 0:
			if was, twice := x.single[first]; twice {
				if x.again[first] == nil {
					x.again[first] = []int{was}
				}
				x.again[first] = append(x.again[first], i)
			}
			x.single[first] = i
		}
	}
	pr.index = x
	return x
}

// nearer chooses of two rows with one number, by their places, the one that a
// row at a third place means; -1 is none.
func nearer(a, b, at int) int {
	if (a < at) == (b < at) {
		return max(a, b)
	}
	if a >= 0 && a < at {
		return a
	}
	return b
}

// rowNumbered finds the row of a piece that has a number: the last of them
// before the row that asks, or the last of all where none is before it, but
// any other before "all even rows".
func (pr *prover) rowNumbered(p *Piece, n int, asks *Row) *Row {
	x := pr.numberedOf(p)
	pr.spend(len(x.other) / 4)
	at, asked := x.at[asks]
	if !asked {
		at = len(p.Rows)
	}
	found, every := -1, -1
	if i, ok := x.single[n]; ok {
		found = i
	}
	if same := x.again[n]; same != nil {
		if k := sort.SearchInts(same, at); k > 0 {
			found = same[k-1]
		}
	}
	for _, i := range x.other {
		m := &p.Rows[i].Numbers
		first, last := int(m.First.At(pr.size)), int(m.Last.At(pr.size))
		switch {
		case len(m.List) > 0:
			for _, k := range m.List {
				if k == n {
					found = nearer(found, i, at)
				}
			}
		case m.First.N == 0:
		case m.Every > 0:
			if every < 0 && (first <= n && n <= last || n >= first && (n-first)%m.Every == 0) {
				every = i
			}
		case first <= n && n <= last:
			found = nearer(found, i, at)
		}
	}
	switch {
	case found >= 0:
		return p.Rows[found]
	case every >= 0:
		return p.Rows[every]
	case n == 1 && len(p.Rows) > 0 && p.Rows[0].noLabel:
		return p.Rows[0] // an unlabelled first row is Row 1
	}
	return nil
}
