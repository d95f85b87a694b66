package pattern

// A row notes in its trace which instruction makes which stitch, while it is
// worked. A repeat that goes on alike is one node: the notes of a pass like
// the one before it are dropped, and used again for the next.

// tracer is what the notes of all rows are made of.
type tracer struct {
	fresh []Trace    // not used yet
	nodes []*Trace   // dropped, to be used again
	lists [][]*Trace // of nodes, as well
}

// node keeps a note.
func (tr *tracer) node(t Trace) *Trace {
	if n := len(tr.nodes); n > 0 {
		kept := tr.nodes[n-1]
		tr.nodes = tr.nodes[:n-1]
		*kept = t
		return kept
	}
	if len(tr.fresh) == 0 {
		tr.fresh = make([]Trace, 32)
	}
	kept := &tr.fresh[0]
	tr.fresh = tr.fresh[1:]
	*kept = t
	return kept
}

// list is an empty list of nodes.
func (tr *tracer) list() []*Trace {
	n := len(tr.lists)
	if n == 0 {
		return nil
	}
	l := tr.lists[n-1]
	tr.lists = tr.lists[:n-1]
	return l
}

// drop takes back nodes that nothing else holds.
func (tr *tracer) drop(ts []*Trace) {
	for _, t := range ts {
		if cap(t.Kids) > 0 {
			tr.drop(t.Kids)
		}
		t.Kids = nil
	}
	tr.nodes = append(tr.nodes, ts...)
	tr.lists = append(tr.lists, ts[:0])
}

// leaf notes that a step made n stitches.
func (w *rowWork) leaf(s *Step, n int64) {
	w.log.pass(s, n)
	if w.untraced {
		return
	}
	if k := len(w.trace); k > 0 && n > 0 && w.trace[k-1].Step == s && w.trace[k-1].Kids == nil {
		w.trace[k-1].Stitches += n
		return
	}
	w.trace = append(w.trace, w.pr.traces.node(Trace{Step: s, Times: 1, Stitches: n}))
}

// openNode begins the notes of a pass, and gives those it stands among.
func (w *rowWork) openNode() (outer []*Trace) {
	outer = w.trace
	if w.trace = nil; !w.untraced {
		w.trace = w.pr.traces.list()
	}
	return outer
}

// closeNode ends the notes of a pass. A pass like the last only counts it up.
func (w *rowWork) closeNode(outer []*Trace, t Trace) {
	kids := w.trace
	w.trace = outer
	if w.untraced {
		return
	}
	t.Stitches, t.Kids = sumTrace(kids), orLeaf(kids)
	if k := len(w.trace); k > 0 && sameTrace(w.trace[k-1], &t, true) {
		w.trace[k-1].Times += t.Times
		w.pr.traces.drop(kids)
		return
	}
	w.trace = append(w.trace, w.pr.traces.node(t))
}

// sameTrace reports whether two nodes say the same; at the top their number
// of times may differ.
func sameTrace(a, b *Trace, top bool) bool {
	if a.Step != b.Step || a.Stitches != b.Stitches || len(a.Kids) != len(b.Kids) || (a.Kids == nil) != (b.Kids == nil) || !top && a.Times != b.Times {
		return false
	}
	if top && a.Kids == nil {
		return false
	}
	for i := range a.Kids {
		if !sameTrace(a.Kids[i], b.Kids[i], false) {
			return false
		}
	}
	return true
}

// orLeaf is the notes of a pass, which is no leaf even where it holds none.
func orLeaf(kids []*Trace) []*Trace {
	if kids == nil {
		return []*Trace{}
	}
	return kids
}

func sumTrace(ts []*Trace) int64 {
	n := int64(0)
	for _, t := range ts {
		n += t.total()
	}
	return n
}

// zeroed keeps what was done as instructions that make no stitch of this row.
func zeroed(ts []*Trace) []*Trace {
	out := make([]*Trace, 0, len(ts))
	for _, t := range ts {
		c := *t
		if c.Kids != nil {
			c.Kids = zeroed(c.Kids)
		}
		c.Stitches = 0
		out = append(out, &c)
	}
	return out
}
