package counter

import (
	"fmt"
	"strings"
)

// Dump is all of a state, the past and the shared parts included, so that two
// states can be compared to the last byte.
func (s State) Dump() string {
	var b strings.Builder
	fmt.Fprintf(&b, "at %+v clock %+v reel %+v millis %d spent %d others %+v mismatch %+v %v\n",
		s.at, s.clock, s.reel, s.millis, s.spent, s.others, s.mismatch, s.anyMismatch)
	for it := s.rows.Iterator(); !it.Done(); {
		key, k, _ := it.Next()
		fmt.Fprintf(&b, "row %+v %+v\n", key, k)
	}
	for it := s.places.Iterator(); !it.Done(); {
		slot, at, _ := it.Next()
		fmt.Fprintf(&b, "place %d %+v\n", slot, at)
	}
	for p := (&past{s.top, s.below}); p != nil; p = p.below {
		fmt.Fprintf(&b, "past %v %d %d", p.kind, p.n, p.times)
		if p.moved != nil {
			fmt.Fprintf(&b, " %+v", *p.moved)
		}
		if p.event != nil {
			fmt.Fprintf(&b, " %+v", *p.event)
		}
		if p.extra != nil {
			fmt.Fprintf(&b, " before: %s", p.extra.dump())
		}
		b.WriteByte('\n')
	}
	for u := s.undone; u != nil; u = u.below {
		e := u.event
		e.At = 0
		fmt.Fprintf(&b, "undone %+v %d\n", e, u.times)
	}
	b.WriteString(s.extras.dump())
	fmt.Fprintf(&b, "stride %d\n", s.stride)
	return b.String()
}

func (x *extras) dump() string {
	var b strings.Builder
	for it := x.markers.Iterator(); !it.Done(); {
		key, text, _ := it.Next()
		fmt.Fprintf(&b, "marker %+v %q\n", key, text)
	}
	for it := x.notes.Iterator(); !it.Done(); {
		key, text, _ := it.Next()
		fmt.Fprintf(&b, "note %+v %q\n", key, text)
	}
	for it := x.ticked.Iterator(); !it.Done(); {
		i, _, _ := it.Next()
		fmt.Fprintf(&b, "ticked %d\n", i)
	}
	for g := x.checks; g != nil; g = g.below {
		fmt.Fprintf(&b, "check %d %d\n", g.at, g.counted)
	}
	for it := x.carried.Iterator(); !it.Done(); {
		slot, c, _ := it.Next()
		fmt.Fprintf(&b, "carried %d %v\n", slot, c.diffs)
	}
	if h := x.hunt; h != nil {
		fmt.Fprintf(&b, "hunt %d %d rows %d %d row %d %d %d stretch %d %d dev %d %v left %d asked %d\n",
			h.piece, h.copy, h.good, h.bad, h.row, h.number, h.end, h.lo, h.hi, h.dev, h.known, h.left, h.asked)
	}
	for w := x.scale; w != nil; w = w.below {
		fmt.Fprintf(&b, "weighed %q %d ball %d first %v change %v at", w.Colour, w.Milligrams, w.Ball, w.AtFirst, w.Now != nil)
		for at := range w.Where.Places() {
			fmt.Fprintf(&b, " %+v", at)
		}
		b.WriteByte('\n')
	}
	fmt.Fprintf(&b, "declined %q\n", x.declined)
	return b.String()
}

// WorkDump is the work of a state, without the time and the past: what Back
// and Redo go through.
func (s State) WorkDump() string {
	var b strings.Builder
	fmt.Fprintf(&b, "at %+v others %+v mismatch %+v %v\n", s.at, s.others, s.mismatch, s.anyMismatch)
	for r := range s.Records() {
		r.Millis, r.Unravelled = 0, 0
		if r.Finished || r.Torn > 0 {
			fmt.Fprintf(&b, "row %+v\n", r)
		}
	}
	for slot := range s.planned().slots {
		fmt.Fprintf(&b, "place %+v\n", s.left(slot))
	}
	b.WriteString(s.extras.dump())
	return b.String()
}
