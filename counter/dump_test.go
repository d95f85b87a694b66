package counter

import (
	"fmt"
	"strings"
)

// Dump is all of a state, the past and the shared parts included, so that two
// states can be compared to the last byte.
func (s State) Dump() string {
	var b strings.Builder
	fmt.Fprintf(&b, "at %+v clock %+v millis %d spent %d others %+v mismatch %+v %v\n",
		s.at, s.clock, s.millis, s.spent, s.others, s.mismatch, s.anyMismatch)
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
		b.WriteByte('\n')
	}
	return b.String()
}
