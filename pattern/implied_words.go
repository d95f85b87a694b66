package pattern

import (
	"fmt"
	"strings"
)

// manyPieces is how many pieces on one row are still told one by one.
const manyPieces = 8

// String says on which chains a piece comes out: "comes out on any multiple
// of 6 chains, plus 2".
func (m Multiple) String() string {
	var s string
	switch {
	case m.Of == 0:
		return fmt.Sprintf("comes out on %d chains and on no other number", m.Chains)
	case m.Of == 1:
		return fmt.Sprintf("comes out on any number of chains from %d up", m.Least)
	case m.Plus == 0:
		s = fmt.Sprintf("comes out on any multiple of %d chains", m.Of)
	default:
		s = fmt.Sprintf("comes out on any multiple of %d chains, plus %d", m.Of, m.Plus)
	}
	if m.Least > m.Of+m.Plus {
		s += fmt.Sprintf(", from %d up", m.Least)
	}
	return s
}

// String says where a piece sits: "worked into stitches 7-12 of 30 of Row 9
// of Panel; 6 before, 18 after".
func (p Placing) String() string {
	return fmt.Sprintf("worked into %s of %d of %s; %d before, %d after", p.stitches(), p.Of, rowName(p.Host, p.Row), p.Before(), p.After())
}

func (p Placing) stitches() string {
	if p.From == p.To {
		return fmt.Sprintf("stitch %d", p.From)
	}
	return fmt.Sprintf("stitches %d-%d", p.From, p.To)
}

// String says what is worked onto a row and what that leaves free: "Row 9, 30
// stitches, takes First Fin on 4-9, Second Fin on 13-18; free: 3 before, 3
// between, 12 after; not symmetrical".
func (h HostRow) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Row %d, %s, takes ", h.Number, countWords(h.Of, "stitch", "stitches"))
	if len(h.Pieces) > manyPieces {
		fmt.Fprintf(&b, "%d pieces", len(h.Pieces))
	} else {
		for i, p := range h.Pieces {
			if i > 0 {
				b.WriteString(", ")
			}
			name := p.By.Piece.Name
			if name == "" {
				name = "the piece of line " + itoa(int64(p.By.Piece.Line))
			}
			fmt.Fprintf(&b, "%s on %s", name, strings.TrimPrefix(strings.TrimPrefix(p.stitches(), "stitches "), "stitch "))
		}
	}
	fmt.Fprintf(&b, "; free: %d before, ", h.Free[0])
	if len(h.Pieces) > 1 {
		b.WriteString(between(h.Free[1:len(h.Free)-1]) + ", ")
	}
	fmt.Fprintf(&b, "%d after", h.Free[len(h.Free)-1])
	if len(h.Pieces) > 1 {
		if h.Symmetrical {
			b.WriteString("; symmetrical")
		} else {
			b.WriteString("; not symmetrical")
		}
	}
	return b.String()
}

// between says what is free between neighbours.
func between(free []int64) string {
	var parts []string
	least, most := free[0], free[0]
	for _, n := range free {
		least, most = min(least, n), max(most, n)
		if n < 0 {
			parts = append(parts, "-"+itoa(-n))
		} else {
			parts = append(parts, itoa(n))
		}
	}
	switch {
	case least == most && least < 0:
		return countWords(-least, "stitch shared", "stitches shared")
	case least == most && len(free) > 1:
		return itoa(least) + " between each two"
	case least == most:
		return itoa(least) + " between"
	case len(free) >= manyPieces:
		return fmt.Sprintf("%d to %d between", least, most)
	}
	return strings.Join(parts, ", ") + " between"
}

// rowName names a row of a piece: "Row 9 of Panel".
func rowName(pc *PieceProof, n int) string {
	name := fmt.Sprintf("Row %d", n)
	if pc != nil && pc.Piece.Name != "" {
		name += " of " + pc.Piece.Name
	}
	return name
}

// StitchWords says how many stitches there are, by kind where there is more
// than one: "14 stitches (9 sc, 5 hdc)".
func StitchWords(n int64, kinds []KindCount) string {
	s := countWords(n, "stitch", "stitches")
	if len(kinds) < 2 {
		if len(kinds) == 1 && kinds[0].N == n {
			return itoa(n) + " " + kinds[0].Name
		}
		return s
	}
	parts := make([]string, len(kinds))
	for i, k := range kinds {
		parts[i] = itoa(k.N) + " " + k.Name
	}
	return s + " (" + strings.Join(parts, ", ") + ")"
}
