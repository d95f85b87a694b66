package pattern

import "slices"

// What follows compares trees by what they mean, whatever words they came
// from: spans are left out, and six times is five more.

func sameNum(a, b Num) bool {
	if len(a.Sizes) == 0 && len(b.Sizes) == 0 {
		return a.N == b.N
	}
	for i := range max(len(a.Sizes), len(b.Sizes)) {
		if a.At(i) != b.At(i) {
			return false
		}
	}
	return true
}

func sameBound(a, b Bound) bool {
	return a.Kind == b.Kind && sameNum(a.N, b.N) && sameFilters(a.Of, b.Of)
}

func sameTarget(a, b *Target) bool {
	if (a.Within == nil) != (b.Within == nil) || a.Within != nil && *a.Within != *b.Within || (a.Row == nil) != (b.Row == nil) {
		return false
	}
	if a.Row != nil {
		r, q := *a.Row, *b.Row
		if r.Number != q.Number || !slices.Equal(r.Sizes, q.Sizes) || r.Piece != q.Piece || r.Below != q.Below || r.After != q.After || !sameNum(r.Skip, q.Skip) {
			return false
		}
	}
	return a.Which == b.Which && sameNum(a.N, b.N) && sameFilters(a.Of, b.Of) && sameBound(a.Bound, b.Bound) && a.plain == b.plain && a.dropped == b.dropped
}

// sameTimes compares how often groups are worked. Inside others "6 times" can
// only mean all of them.
func sameTimes(a, b Times, top bool) bool {
	if a.Kind == Fill || b.Kind == Fill || a.Kind == Once || b.Kind == Once {
		return a.Kind == b.Kind && sameBound(a.Bound, b.Bound)
	}
	open := func(t Times) bool {
		return t.Kind == More && t.star && !t.more || top && t.Kind == Exactly && !t.sure
	}
	if open(a) != open(b) || open(a) && a.Kind != b.Kind {
		return false
	}
	if a.Kind == b.Kind {
		return sameNum(a.N, b.N)
	}
	if a.Kind == Exactly {
		a, b = b, a
	}
	for i := range max(1, len(a.N.Sizes), len(b.N.Sizes)) {
		if a.N.At(i)+1 != b.N.At(i) {
			return false
		}
	}
	return true
}

func sameSteps(a, b []*Step) bool { return sameLists(a, b, true) }

func sameLists(a, b []*Step, top bool) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !sameStep(a[i], b[i], top) {
			return false
		}
	}
	return true
}

func sameStep(a, b *Step, top bool) bool {
	if a.Op != b.Op || a.Stitch != b.Stitch || a.Legs != b.Legs || a.Name != b.Name || a.special != b.special || a.bare != b.bare || a.once != b.once || a.implicit != b.implicit {
		return false
	}
	if !sameNum(a.N, b.N) || a.partial != b.partial || a.stopAt != b.stopAt || a.byTurns != b.byTurns || a.note.Empty() != b.note.Empty() || (a.ending == nil) != (b.ending == nil) {
		return false
	}
	if a.ending != nil && !sameStep(a.ending, b.ending, false) {
		return false
	}
	if a.Op == OpNote {
		return true
	}
	// "inc" names no place and "2 sc in next st" does: both mean it
	if a.Target.said != b.Target.said && !(a.Target.Which == Next && a.N.N >= 2 && a.Op == OpWork) {
		return false
	}
	c, d := a.Counts, b.Counts
	c.Span, d.Span = Span{}, Span{}
	return c == d && sameTarget(&a.Target, &b.Target) && (a.Op != OpGroup || sameTimes(a.Times, b.Times, top)) && (a.special != nil || sameLists(a.Body, b.Body, false))
}

func sameLabels(a, b *Row) bool {
	n, m := a.Numbers, b.Numbers
	if a.Kind != b.Kind || a.Side != b.Side || !sameNum(n.First, m.First) || !sameNum(n.Last, m.Last) || n.Every != m.Every || n.Until != m.Until || !sameNum(n.Count, m.Count) || len(n.List) != len(m.List) {
		return false
	}
	for i := range n.List {
		if n.List[i] != m.List[i] {
			return false
		}
	}
	return true
}

func sameTotal(a, b *Total) bool {
	if a == nil || b == nil {
		return a == b
	}
	if len(a.Parts) != len(b.Parts) || a.delta != b.delta || a.rows != b.rows {
		return false
	}
	for i := range a.Parts {
		p, q := a.Parts[i], b.Parts[i]
		if p.Kind != q.Kind || p.ID != q.ID || p.Size != q.Size || p.ends != q.ends || p.noChains != q.noChains || !sameNum(p.N, q.N) || p.ofMeshes() != q.ofMeshes() || p.Kind != PartStitches && p.Kind != PartStitch && p.Kind != PartSpace && p.Name != q.Name {
			return false
		}
	}
	return true
}

func sameRefer(a, b *Refer) bool {
	if a == nil || b == nil {
		return a == b
	}
	if len(a.List) != len(b.List) || len(a.Edits) != len(b.Edits) || !slices.Equal(a.Sizes[0], b.Sizes[0]) || !slices.Equal(a.Sizes[1], b.Sizes[1]) {
		return false
	}
	for i := range a.List {
		if a.List[i] != b.List[i] {
			return false
		}
	}
	for i := range a.Edits {
		if a.Edits[i].From != b.Edits[i].From || a.Edits[i].To != b.Edits[i].To || a.Edits[i].Between != b.Edits[i].Between || a.Edits[i].More != b.Edits[i].More || a.Edits[i].Was != b.Edits[i].Was || a.Edits[i].At != b.Edits[i].At || a.Edits[i].Row != b.Edits[i].Row || (a.Edits[i].End == nil) != (b.Edits[i].End == nil) {
			return false
		}
		if e, f := a.Edits[i].End, b.Edits[i].End; e != nil && !sameSteps([]*Step{e}, []*Step{f}) {
			return false
		}
	}
	return sameRefer(a.Then, b.Then) && a.First == b.First && a.Last == b.Last && a.LastRows == b.LastRows && a.Piece == b.Piece && sameNum(a.Times, b.Times) && a.More == b.More &&
		sameNum(a.Rows, b.Rows) && sameNum(a.Until, b.Until) && a.UntilRow == b.UntilRow && a.EndRow == b.EndRow && sameNum(a.UntilSts, b.UntilSts) && a.Measure == b.Measure && a.Named == b.Named && a.Forms == b.Forms
}
