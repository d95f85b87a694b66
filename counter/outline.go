package counter

import "crochet/tallyturn/pattern"

// outline is a row cut into groups, each small enough to be looked at: one
// time through an instruction, or where one makes many stitches in as many
// places, a stretch of it. It is as small as the trace it is made from, be the
// row ever so long.
type outline struct {
	row      *pattern.RowProof
	root     node
	groups   int64
	stitches int64
}

// node is a trace with its groups counted.
type node struct {
	trace            *pattern.Trace
	kids             []node
	times            int64
	groups, stitches int64 // of one time through
	per              int64 // leaf: stitches of a group
}

// stretch is about how many stitches of a long instruction make a group: as
// many as the eye takes in.
const stretch = 10

func newOutline(row *pattern.RowProof) *outline {
	o := &outline{row: row, root: cut(row.Trace)}
	o.groups = times(o.root.groups, o.root.times)
	o.stitches = times(o.root.stitches, o.root.times)
	return o
}

func cut(t *pattern.Trace) node {
	n := node{trace: t, times: 1}
	if t == nil {
		return n
	}
	if t.Kids == nil {
		n.stitches = t.Stitches
		n.per = max(n.stitches, 1)
		if unit, _ := unitOf(t.Step); unit > 0 && n.stitches > stretch {
			n.per = max(stretch/unit, 1) * unit
		}
		n.groups = (n.stitches + n.per - 1) / n.per
		return n
	}
	n.times = t.Times
	if t.Step != nil && t.Step.Op == pattern.OpInto {
		// All that goes into one place is one thing to the eye.
		n.stitches = t.Stitches
		n.per = max(n.stitches, 1)
		n.groups = min(n.stitches, 1)
		return n
	}
	for _, k := range t.Kids {
		kid := cut(k)
		n.groups = add(n.groups, times(kid.groups, kid.times))
		n.stitches = add(n.stitches, times(kid.stitches, kid.times))
		n.kids = append(n.kids, kid)
	}
	return n
}

// unitOf is how many stitches an instruction makes at a time, and in how many
// places of the row below; 0 where it is not worked along that row.
func unitOf(s *pattern.Step) (stitches, places int64) {
	if s == nil || s.Op != pattern.OpWork || len(s.N.Sizes) > 0 {
		return 0, 0
	}
	switch s.Target.Which {
	case pattern.Next, pattern.Each, pattern.First, pattern.Last, pattern.TurnTop:
	default:
		return 0, 0
	}
	if s.Legs > 1 {
		return 1, int64(s.Legs)
	}
	return max(s.N.N, 1), 1
}

// bound is the number of stitches before a group, the groups counted from 0.
func (o *outline) bound(group int64) int64 {
	if group <= 0 {
		return 0
	}
	if group >= o.groups {
		return o.stitches
	}
	n, at := &o.root, int64(0)
	for {
		pass := group / n.groups
		group -= pass * n.groups
		at += pass * n.stitches
		if n.kids == nil {
			return at + group*n.per
		}
		for i := range n.kids {
			k := &n.kids[i]
			if all := k.groups * k.times; group < all {
				n = k
				break
			} else {
				group -= all
				at += k.stitches * k.times
			}
		}
	}
}

// group is the group that holds the stitch after the first so many.
func (o *outline) group(stitch int64) int64 {
	if stitch >= o.stitches {
		return max(o.groups-1, 0)
	}
	n, at := &o.root, int64(0)
	for {
		pass := stitch / n.stitches
		stitch -= pass * n.stitches
		at += pass * n.groups
		if n.kids == nil {
			return at + stitch/n.per
		}
		for i := range n.kids {
			k := &n.kids[i]
			if all := k.stitches * k.times; stitch < all {
				n = k
				break
			} else {
				stitch -= all
				at += k.groups * k.times
			}
		}
	}
}

// within is how many groups have a part between two numbers of stitches.
func (o *outline) within(from, to int64) int64 {
	if to <= from {
		return 0
	}
	return o.group(to-1) - o.group(from) + 1
}

// edges are ends of passes and instructions on either side of a stitch, from
// the widest repeat to the instruction itself, in stitches before them.
func (o *outline) edges(stitch int64) []int64 {
	var out []int64
	n, at := &o.root, int64(0)
	for stitch < at+n.stitches*n.times && n.stitches > 0 {
		at += (stitch - at) / n.stitches * n.stitches
		out = append(out, at, at+n.stitches)
		if n.kids == nil {
			break
		}
		for i := range n.kids {
			k := &n.kids[i]
			all := k.stitches * k.times
			if stitch < at+all {
				n = k
				out = append(out, at, at+all)
				break
			}
			at += all
		}
	}
	return out
}
