package round

import (
	"errors"
	"math"
	"slices"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// Lies is how work in rounds lies on a table.
type Lies uint8

// The ways to lie.
const (
	Flat    Lies = iota
	Cups         // the edge is too short for it
	Ruffles      // the edge is too long for it
	Upright      // the edge is as long as what the piece was begun on
)

func (l Lies) String() string { return [...]string{"flat", "cups", "ruffles", "upright"}[l] }

// Row is what a row of rounds, or several alike, comes to at its end.
type Row struct {
	Proof *pattern.RowProof
	Edge  float64 // length of its edge, mm
	Flat  float64 // length of the edge of a flat piece of as many rounds, mm
	Lies  Lies
}

// Shape is what a piece worked in rounds comes to.
type Shape struct {
	Piece    *pattern.PieceProof
	Gauge    gauge.Gauge
	Rows     []Row
	Start    float64 // length of the edge that the first round is worked round: 0 for a ring
	Straight float64 // of an oval, how long its chain is; else 0
	Corners  int     // of a square or other piece with corners; else 0
	High     float64 // its rounds laid end to end, mm: how far the edge is from the start
	Width    float64 // of a stitch
	Height   float64 // of its first round

	Widest  float64   // across where it is widest, mm, as the rounds stand up
	Mouth   float64   // across its last round, mm
	Deep    float64   // how high it stands, mm; 0 where it lies flat
	Hollow  float64   // how high it stands where it is stuffed and closed, mm
	Heights []float64 // as Rows: of one round of each, mm
	Profile []Spot    // the piece from the side, round by round: at most a few hundred
	FlatEnd int       // index in Rows of the last that lies flat; -1 for none
}

// Spot is where the edge of a round is, on a piece that stands with its first
// round down: so far out from its middle and so far up, mm.
type Spot struct{ Out, Up float64 }

// maxProfile is how many rounds a profile has; those beyond go on straight.
const maxProfile = 400

// Closes reports whether the piece draws in to a ball.
func (s *Shape) Closes() bool { return s.Start == 0 && s.Mouth < closed*s.Widest }

// maxWalked is the most rounds that are gone through one by one.
const maxWalked = 100_000

// ShapeOf works out what a piece comes to at a gauge. Terms are those of its
// proof. Its error says why nothing follows: the piece is worked in rows, or
// the gauge counts no stitches.
func ShapeOf(pc *pattern.PieceProof, g gauge.Gauge, terms stitch.Terms) (*Shape, error) {
	f, err := Of(g, stitch.None, terms)
	switch {
	case err != nil:
		return nil, err
	case len(pc.Rows) == 0 || pc.Rows[0].Kind != pattern.Round:
		return nil, errors.New("it is worked in rows, not in rounds")
	case pc.Len() > maxWalked:
		return nil, errors.New("it has too many rounds to be worked out")
	}
	s := &Shape{Piece: pc, Gauge: g, Width: f.Width, FlatEnd: -1}
	first := pc.Rows[0]
	switch {
	case has(first.Row.Steps, pattern.OpOtherSide):
		// the chains at its ends lie half in the straight part, and the edge of
		// its ends begins there
		s.Straight = float64(first.Available) * f.Width
		s.Start = 2 * (s.Straight - f.Width)
	case first.Available > 0 && 2*first.Taken > first.Made: // a chain joined into a ring, or another piece
		s.Start = float64(first.Available) * f.Width
	}
	s.Corners = corners(pc.Rows)
	widths := gauge.Widths(pc)
	if s.Start == 0 {
		// a ring of chains opens as far as the first round fills it
		full := widths[0]*f.Width - 2*math.Pi*f.Height
		if ring := float64(ringChains(first.Row)) * f.Width; full > 0.1*2*math.Pi*f.Height {
			s.Start = min(full, ring)
		}
	}
	s.follow(f, widths, terms)
	return s, nil
}

// ringChains is how many chains the ring has that a round is worked into; 0 for
// a magic ring.
func ringChains(r *pattern.Row) int64 {
	steps := slices.Concat(r.Setup, r.Steps)
	for i, st := range steps {
		if st.Op == pattern.OpChain && i+1 < len(steps) && (steps[i+1].Op == pattern.OpRing || steps[i+1].Op == pattern.OpJoin) {
			return st.N.At(0)
		}
	}
	return 0
}

// has reports whether any of the steps is of a kind.
func has(steps []*pattern.Step, op pattern.Op) bool {
	for _, st := range steps {
		if st.Op == op || has(st.Body, op) {
			return true
		}
	}
	return false
}

// follow goes up the piece round by round.
func (s *Shape) follow(f Fabric, widths []float64, terms stitch.Terms) {
	// with corners, the middle of each side moves out by a round's height, and
	// the edge grows by more than that of a circle
	grows := 2 * math.Pi
	if s.Corners > 0 {
		m := float64(s.Corners)
		grows = 2 * m * math.Tan(math.Pi/m)
	}
	edge, radius, before := s.Start, s.Start/grows, growth{}
	flat := true
	for i, r := range s.Piece.Rows {
		if r.Kind != pattern.Round || widths[i] < 0 {
			return // rows, or stitches that nobody knows: the rest is not worked out
		}
		h := f.Height
		if s.Gauge.Stitch != stitch.None {
			h *= s.Gauge.Height(r, terms)
		}
		if i == 0 {
			s.Height = h
		}
		s.Heights = append(s.Heights, h)
		for range r.Count() {
			to := widths[i] * f.Width
			now := growth{to - edge, h}
			out := now.plus(before).out(grows)
			before, edge = now, to
			s.High += h
			up := h * math.Sqrt(1-out*out)
			if s.Hollow += up; out < leastFlat {
				s.Deep += up
			}
			radius = min(max(to/grows, radius-h), radius+h)
			s.Widest = max(s.Widest, 2*radius)
			if spot := (Spot{radius, s.Deep}); len(s.Profile) < maxProfile {
				s.Profile = append(s.Profile, spot)
			} else {
				s.Profile[maxProfile-1] = spot
			}
		}
		row := Row{Proof: r, Edge: edge, Flat: s.Start + grows*s.High}
		row.Lies = s.lies(row)
		s.Rows = append(s.Rows, row)
		if flat = flat && row.Lies == Flat; flat {
			s.FlatEnd = i
		}
	}
	s.Mouth = 2 * radius
}

// growth is by how much an edge grows over a height.
type growth struct{ by, height float64 }

func (g growth) plus(h growth) growth { return growth{g.by + h.by, g.height + h.height} }

// out is how far outward it leads for its height, from -1, straight in, over 0,
// straight up, to 1, flat.
func (g growth) out(grows float64) float64 {
	return min(max(g.by/grows/g.height, -1), 1)
}

// lies compares the edge of a row with that of a flat piece. What differs by a
// stitch, or by a thirtieth of the whole edge, is not told from what is flat.
func (s *Shape) lies(r Row) Lies {
	switch share := (r.Edge - s.Start) / (r.Flat - s.Start); {
	case math.Abs(r.Edge-r.Flat) <= max(s.Width, r.Flat/30):
		return Flat
	case s.Start > 0 && s.Straight == 0 && math.Abs(share) < 1-leastFlat:
		return Upright
	case share < leastFlat:
		return Cups
	case share > mostFlat:
		return Ruffles
	}
	return Flat
}

// corners is how many corners rounds have, one above the other: places into
// which a group goes or three stitches or more, as often in each round that
// grows. It is 0 where they are none or not the same number.
func corners(rows []*pattern.RowProof) int {
	groups, threes := 0, 0
	for i, r := range rows {
		if i == 0 || r.Made <= r.Available || r.Trace == nil {
			continue
		}
		g, t := cornersIn(r.Trace)
		groups, threes = same(groups, g), same(threes, t)
	}
	return max(groups, threes, 0)
}

// same is n where it is a number of corners and all rounds so far had as many:
// so far is 0 before the first and -1 where they do not agree.
func same(soFar int, n int64) int {
	if n < 3 || n > 8 || soFar != 0 && int64(soFar) != n {
		return -1
	}
	return int(n)
}

// cornersIn counts the groups that go into one place, and the threes that do.
func cornersIn(t *pattern.Trace) (groups, threes int64) {
	st := t.Step
	switch {
	case st != nil && st.Op == pattern.OpInto && t.Stitches >= 3:
		return 1, 0
	case t.Kids == nil:
		if st != nil && st.Op == pattern.OpWork && t.Stitches >= 3 && t.Stitches == st.N.At(0) {
			return 0, 1
		}
		return 0, 0
	}
	for _, k := range t.Kids {
		g, n := cornersIn(k)
		groups, threes = groups+g, threes+n
	}
	return t.Times * groups, t.Times * threes
}
