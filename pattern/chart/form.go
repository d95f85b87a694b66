package chart

import (
	"math"

	"crochet/tallyturn/pattern"
)

// The shape of a piece shows in what its rows do over each other. Increases
// that stand over increases, and decreases over decreases, make the peaks and
// valleys of a ripple. Rounds that increase in the same three, four or six
// places make a triangle, a square or a hexagon. Where neither is so, rows are
// straight and rounds are circles.

// item is something that a row made, picots apart, with the places below that
// it stands in; both are counted in the order in which t grows.
type item struct {
	space  bool
	chains int
	lo, hi float64 // NaN where nobody knows
	ring   bool
}

// one reports whether it stands in a single place.
func (x item) one() bool { return x.lo == x.hi }

// sequence is a row as items.
type sequence struct {
	items []item
	pos   []float64 // of each thing made, its place among the items
	dir   int
	known bool
	round bool
	high  float64
	chain bool // it stands in the foundation
}

// sequences reads rows as items. It ends where a row turns back in itself.
func sequences(rows []pattern.RowLinks, dir int) []sequence {
	var out []sequence
	for i := range rows {
		r := &rows[i]
		if i > 0 && r.Turned {
			dir = -dir
		}
		s := sequence{dir: dir, known: r.Known && len(r.Earlier) == 0 && !r.Even, round: r.Round}
		s.pos = make([]float64, len(r.Made))
		n := 0
		for k := range r.Made {
			if r.Made[k].Kind != pattern.LinkPicot {
				n++
			}
		}
		s.items = make([]item, n)
		at := 0
		for k := range r.Made {
			m := &r.Made[k]
			p := at
			if dir < 0 {
				p = n - 1 - at
			}
			if m.Kind == pattern.LinkPicot {
				s.pos[k] = float64(max(p-1, 0))
				continue
			}
			s.pos[k] = float64(p)
			at++
			x := item{space: m.Kind == pattern.LinkSpace, chains: m.Chains, lo: math.NaN(), hi: math.NaN()}
			if x.space {
				s.items[p] = x
				continue
			}
			s.high = math.Max(s.high, symbolOf(m.Stitch).high)
			for _, b := range m.Bases {
				v := math.NaN()
				switch b.Kind {
				case pattern.BaseChain:
					v, s.chain = float64(b.At), true
				case pattern.BaseRow:
					if i > 0 && b.At < len(out[i-1].pos) {
						v = out[i-1].pos[b.At]
					}
				case pattern.BaseRing:
					x.ring = true
				default:
					s.known = false
				}
				if math.IsNaN(v) {
					s.known = s.known && b.Kind == pattern.BaseRing
					continue
				}
				if math.IsNaN(x.lo) || v < x.lo {
					x.lo = v
				}
				if math.IsNaN(x.hi) || v > x.hi {
					x.hi = v
				}
			}
			s.items[p] = x
		}
		s.spaces()
		out = append(out, s)
	}
	return out
}

// spaces has each space of chains reach from what the stitch before it stands
// in to what the one after it does.
func (s *sequence) spaces() {
	n := len(s.items)
	beside := func(i, by int) *item {
		for k := 1; k < n; k++ {
			j := i + by*k
			if !s.round && (j < 0 || j >= n) {
				return nil
			}
			if x := &s.items[((j%n)+n)%n]; !x.space {
				return x
			}
		}
		return nil
	}
	for i := range s.items {
		x := &s.items[i]
		if !x.space {
			continue
		}
		a, b := beside(i, -1), beside(i, 1)
		if a == nil {
			a = b
		}
		if b == nil {
			b = a
		}
		if a != nil {
			x.lo, x.hi, x.ring = a.hi, b.lo, a.ring && b.ring
		}
	}
}

// squareMesh is how much taller the stitches of filet are drawn, so that its
// meshes are square: 1 for what is no filet.
func squareMesh(rows []pattern.RowLinks) float64 {
	seqs := sequences(rows, -1)
	chains, spaces, high := 0, 0, 0.0
	for i, s := range seqs {
		if !s.known || s.round || i > 0 && s.high != high {
			return 1
		}
		high = s.high
		for k, x := range s.items {
			if !x.space {
				if !x.one() || k > chains && chains > 0 && s.items[k-chains].lo == x.lo {
					return 1
				}
				continue
			}
			if chains == 0 {
				chains = x.chains
			}
			if x.one() && k > 0 && k+1 < len(s.items) || x.chains != chains && k > 0 && k+1 < len(s.items) {
				return 1
			}
			spaces++
		}
	}
	if chains == 0 || high == 0 || spaces < 4 || len(rows) < 2 {
		return 1
	}
	return math.Min(math.Max(float64(chains+1)/high, 1), 1.6)
}
