package pattern

// begunAs is the name of the special stitch that a round begins with out of its first
// chain, stitch for stitch and space for space: "ch 4, dc in same sp" is the first
// V-stitch of a round of V-stitches, and an author counts it as one. It is empty where
// the round begins otherwise, or where that group has a name of its own.
func begunAs(f *fabric) string {
	if len(f.runs) == 0 || !f.runs[0].turn || !f.runs[0].first || f.runs[0].name != "" {
		return ""
	}
	for i := range f.runs {
		if r := &f.runs[i]; r.first && r.name != "" {
			if sameGroup(f.groupAt(0), f.groupAt(i)) {
				return r.name
			}
			return "" // the first of them tells: the others are alike
		}
	}
	return ""
}

// groupAt gives the runs of the group that opens at run i.
func (f *fabric) groupAt(i int) []run {
	end := i + 1
	for end < len(f.runs) && f.runs[end].in && !f.runs[end].first {
		end++
	}
	return f.runs[i:end]
}

// sameGroup reports whether two groups have the same stitches and spaces, however many
// runs these lie in.
func sameGroup(a, b []run) bool {
	i, j := 0, 0
	var inA, inB int64 // how many of the runs at hand are compared
	for i < len(a) && j < len(b) {
		p, q := &a[i], &b[j]
		if p.kind != q.kind || p.stitch != q.stitch || p.kind == pSpace && p.size != q.size {
			return false
		}
		n := min(p.n-inA, q.n-inB)
		if inA += n; inA == p.n {
			i, inA = i+1, 0
		}
		if inB += n; inB == q.n {
			j, inB = j+1, 0
		}
	}
	return i == len(a) && j == len(b)
}
