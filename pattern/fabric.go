package pattern

import "crochet/tallyturn/pattern/stitch"

// placeKind is a kind of place that a row can be worked into.
type placeKind uint8

const (
	pStitch placeKind = iota // the top of a stitch
	pSpace                   // a space made by chains; Size chains long
	pChain                   // one chain of a foundation
	pPicot                   // a picot, hanging on the stitch before it
	pGap                     // the gap between two groups
)

// place is one thing that a row can be worked into.
type place struct {
	kind   placeKind
	stitch stitch.ID
	size   int32
	name   string // of the group or special stitch it is part of
	first  bool   // it opens a group: several things in one place
	in     bool   // it is part of a group
	turn   bool   // the top of a turning chain
	id     int32  // which place it is, from 1; only where links are wanted
}

func (p place) isStitch() bool { return p.kind == pStitch }

// counts reports whether the place is a stitch for counting: slip stitches
// are not, unless a total says so.
func (p place) counts() bool {
	return p.kind == pStitch && p.stitch != stitch.Slip && p.stitch != stitch.None
}

// worth is how many stitches n such places count for.
func (p place) worth(n int64) int64 {
	if !p.counts() {
		return 0
	}
	return n
}

// run is n equal places in a row.
type run struct {
	place
	n int64
}

// fabric is what a row offers to the next: its places in the order they were
// made, as runs.
type fabric struct {
	runs  []run
	ring  bool // a ring: takes any number of stitches in its middle
	magic bool // a ring with nothing else to work into
	free  bool // nobody knows how many places there are
	bare  bool // only their number is known, from a stated total: not what stands among them
	chain bool // a foundation chain, counted from the hook
	slips bool // its slip stitches are worked like others
	edged bool // part of it runs along edges, where the corners may be told or not

	closed stitch.ID // the tall stitch that stands for a part of its last loop
}

// add puts n places at the end.
func (f *fabric) add(p place, n int64) {
	if n <= 0 {
		return
	}
	n = min(n, beyond)
	if k := len(f.runs); k > 0 && f.runs[k-1].place == p && !p.first {
		f.runs[k-1].n = min(f.runs[k-1].n+n, beyond)
		return
	}
	f.runs = append(f.runs, run{p, n})
}

// reversed is the fabric met from the other side.
func (f *fabric) reversed() *fabric {
	g := *f
	g.runs = make([]run, 0, len(f.runs))
	for i := len(f.runs) - 1; i >= 0; i-- {
		r := f.runs[i]
		opens := r.in && (i == len(f.runs)-1 || !f.runs[i+1].in || f.runs[i+1].first)
		r.first = false
		if opens { // a group's last place is now its first
			g.add(firstOf(r.place), 1)
			r.n--
		}
		g.add(r.place, r.n)
	}
	return &g
}

func firstOf(p place) place {
	p.first = true
	return p
}

// stitches counts the stitches from run i, offset off, to the end.
func (f *fabric) stitches(i int, off int64, slips bool) int64 {
	n := int64(0)
	for ; i < len(f.runs); i++ {
		r := &f.runs[i]
		if r.counts() || slips && r.isStitch() || r.kind == pChain {
			n += r.n - off
		}
		off = 0
	}
	return n
}

// anyStitch reports whether there is a stitch or a chain to work into.
func (f *fabric) anyStitch() bool {
	for i := range f.runs {
		if r := &f.runs[i]; r.n > 0 && (r.isStitch() || r.kind == pChain) {
			return true
		}
	}
	return false
}

// equal reports whether two fabrics offer the same.
func (f *fabric) equal(g *fabric) bool {
	if f.ring != g.ring || f.free != g.free || f.chain != g.chain || len(f.runs) != len(g.runs) || f.slips != g.slips {
		return false
	}
	for i := range f.runs {
		if f.runs[i] != g.runs[i] {
			return false
		}
	}
	return true
}

// size is the number of places of every kind.
func (f *fabric) size() int64 {
	n := int64(0)
	for _, r := range f.runs {
		n += r.n
	}
	return n
}

// has reports whether any place passes the filter.
func (f *fabric) has(fl Filter) bool {
	for i := range f.runs {
		if fl.match(&f.runs[i].place) {
			return true
		}
	}
	return false
}

// match reports whether a place is of the family.
func (fl Filter) match(p *place) bool {
	switch fl.Kind {
	case AnyStitch:
		return p.kind == pStitch || p.kind == pChain
	case OneStitch:
		if p.kind != pStitch || fl.Name == "single" && p.in {
			return false
		}
		return p.stitch == fl.Stitch || p.stitch.Base() == fl.Stitch
	case Space:
		if p.kind == pGap {
			return fl.Size == 0 && !fl.corner && fl.Name != sideSpace
		}
		if fl.Name == "gap" || fl.Name == sideSpace {
			return false
		}
		if p.kind != pSpace {
			return false
		}
		if fl.Name == "corner" {
			return p.in
		}
		if fl.Name == "between" && p.in {
			return false
		}
		return fl.Size == 0 || int64(p.size) == fl.Size
	case ChainStitch:
		return p.kind == pChain || p.kind == pSpace || p.turn
	case AnyPlace:
		return p.kind != pPicot
	case NamedGroup:
		if fl.Name == "group" {
			return p.in
		}
		return p.in && p.name == fl.Name
	case PicotPlace:
		return p.kind == pPicot
	case AnyCluster:
		return p.kind == pStitch && (stitch.Of(p.stitch).Kind == stitch.Compound || p.stitch == stitch.Special || fl.Name != "" && p.name == fl.Name)
	}
	return false
}

// groups is how many groups there are.
func (f *fabric) groups() int {
	n := 0
	for i := range f.runs {
		if r := &f.runs[i]; r.in && (r.first || i == 0 || !f.runs[i-1].in) {
			n++
		}
	}
	return n
}

// gapped reports whether the gaps between the groups are places: the stitches of a
// group are passed over to reach them.
func (f *fabric) gapped() bool {
	for i := range f.runs {
		if f.runs[i].kind == pGap {
			return true
		}
	}
	return false
}

// withGaps marks the gaps between neighbouring groups as places, for rows
// that are worked between them.
func (f *fabric) withGaps() *fabric {
	g := *f
	g.runs = make([]run, 0, len(f.runs)*2)
	if f.has(Filter{Kind: Space, Name: "between"}) {
		return f
	}
	for i, r := range f.runs {
		if i > 0 && r.first && (f.runs[i-1].in || f.runs[i-1].kind == pStitch) && r.kind == pStitch {
			g.runs = append(g.runs, run{place{kind: pGap}, 1})
		} else if i > 0 && r.kind == pStitch && !r.in && f.runs[i-1].in {
			g.runs = append(g.runs, run{place{kind: pGap}, 1})
		}
		g.runs = append(g.runs, r)
	}
	return &g
}
