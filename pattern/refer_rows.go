package pattern

// mostNamed is how many rows a reference names one by one.
const mostNamed = 5000

// numbers are the rows that a reference names, in the order in which they are worked.
func (r *Refer) numbers() []int {
	if r.List != nil {
		return r.List
	}
	step := 1
	if r.Last < r.First {
		step = -1
	}
	out := []int{r.First}
	for n := r.First; n != r.Last && len(out) <= mostNamed; {
		n += step
		out = append(out, n)
	}
	return out
}

// allLen is how many rows a reference comes to, its rows as often as it says.
func (r *Refer) allLen(size int) int {
	return r.blockLen(size) * capped(max(r.Times.At(size), 1))
}

// workedAs is the row that Row n of a label is worked as, where the label stands
// for several that are told by others: under "Rows 7-11: Rep Rows 2-6" it is Row 4
// for Row 9.
func (r *Refer) workedAs(row *Row, n, size int) int {
	k := n - int(row.Numbers.First.At(size))
	count := int(row.Numbers.Last.At(size)-row.Numbers.First.At(size)) + 1
	for i, listed := range row.Numbers.List {
		if listed == n {
			k, count = i, len(row.Numbers.List)
		}
	}
	then := 0
	for t := r.Then; t != nil; t = t.Then {
		then += t.allLen(size)
	}
	names := r
	for last := count - then; k >= last && last > 0 && names.Then != nil; {
		k -= last
		names = names.Then
		last = names.allLen(size)
	}
	names = names.sized(size)
	if k < 0 || row.Numbers.Every > 0 {
		k = 0
	}
	switch k %= names.blockLen(size); {
	case names.List != nil:
		return names.List[k]
	case names.Last < names.First:
		return names.First - k
	}
	return names.First + k
}
