package tui

import (
	"math"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// A weave is the row in hand over the row below, set out as they hang
// together: where several stitches go into one, or one goes into several,
// both take the room of the larger number, so that what is joined stands over
// what it is joined to. Both rows run as the row in hand is worked, from left
// to right.

// mostWoven is the most stitches of a row that are set out; longer rows are
// drawn as a braid.
const mostWoven = 1200

// sign is a stitch as the trade draws it, two cells high: its cap and its stem.
type sign struct{ cap, stem rune }

// thread is one stitch of a weave, or a space of chains.
type thread struct {
	sign  sign
	x     float64 // its middle, in places from the left
	nth   int64   // it is this stitch of its row, from 0; -1 for a space
	feet  []int   // the places of the row below it stands in, as they are met
	yarn  role    // the ink of its yarn
	named string  // the colour that begins with it; "" where it goes on
}

type weave struct {
	threads []thread
	below   []thread
	places  int   // from left to right
	total   int64 // stitches
	ring    bool
}

// weaver sets out weaves and keeps the links of the piece it looked at last.
type weaver struct {
	proof *pattern.Proof
	piece int
	rows  []pattern.RowLinks
	yarns []string // the colour in hand at the beginning of each of rows
	row   int
	last  *weave
	known bool // last is of row
}

// of is the weave of a row; nil where nobody knows what stands where, or where
// the work has come to differ from the pattern.
func (v *weaver) of(s counter.State) *weave {
	at, proof := s.At(), s.Plan().Proof()
	if proof == nil || s.Finished() {
		return nil
	}
	if v.proof != proof || v.piece != at.Piece {
		*v = weaver{proof: proof, piece: at.Piece, rows: proof.Links(at.Piece, mostWoven)}
		v.yarns = yarnsOf(v.rows)
	}
	if !v.known || v.row != at.Row {
		v.row, v.known, v.last = at.Row, true, v.set(at.Row)
	}
	if n, ok := s.Expect(); v.last == nil || !ok || n != v.last.total {
		return nil
	}
	return v.last
}

// find is the entry of a row among the links.
func (v *weaver) find(row int) int {
	for i := range v.rows {
		if v.rows[i].First <= row && row <= v.rows[i].Last {
			return i
		}
	}
	return -1
}

func (v *weaver) set(row int) *weave {
	i := v.find(row)
	if i < 0 || !v.rows[i].Known {
		return nil
	}
	cur := &v.rows[i]
	w := &weave{ring: cur.Ring}
	var under []thread // of the row below, as they are met
	switch b := v.find(row - 1); {
	case cur.Ring:
		under = []thread{{sign: sign{stem: 'O'}, nth: -1, yarn: markDone}}
	case cur.Chain > 0:
		for range cur.Chain {
			under = append(under, thread{sign: sign{stem: 'o'}, nth: -1, yarn: markDone})
		}
	case b >= 0 && v.rows[b].Known:
		made := v.rows[b].Made
		ink, _ := yarnInk(v.yarns[b])
		for j := range made {
			l := &made[j]
			for _, m := range l.Marks {
				if c := colourIn(m); c != "" {
					ink, _ = yarnInk(c)
				}
			}
			under = append(under, thread{sign: signOf(l), nth: -1, yarn: ink})
		}
		if cur.Turned {
			for i, j := 0, len(under)-1; i < j; i, j = i+1, j-1 {
				under[i], under[j] = under[j], under[i]
			}
		}
	}
	meet := func(b pattern.Base) int {
		n := -1
		switch {
		case b.Kind == pattern.BaseRow && cur.Turned:
			n = len(under) - 1 - b.At
		case b.Kind == pattern.BaseRow:
			n = b.At
		case b.Kind == pattern.BaseChain:
			n = cur.Chain - 1 - b.At
		case b.Kind == pattern.BaseRing && cur.Ring:
			n = 0
		}
		if n >= len(under) {
			return -1
		}
		return n
	}
	ink, _ := yarnInk(v.yarns[i])
	for j := range cur.Made {
		l := &cur.Made[j]
		if l.Kind == pattern.LinkPicot {
			continue
		}
		t := thread{sign: signOf(l), nth: -1, yarn: ink}
		for _, m := range l.Marks {
			if c := colourIn(m); c != "" {
				ink, t.named = yarnInk(c)
				t.yarn = ink
			}
		}
		if l.Kind == pattern.LinkStitch {
			t.nth = w.total
			w.total++
			for _, b := range l.Bases {
				if n := meet(b); n >= 0 {
					t.feet = append(t.feet, n)
				}
			}
		}
		w.threads = append(w.threads, t)
	}
	w.place(under)
	return w
}

// place gives every stitch its middle.
func (w *weave) place(under []thread) {
	x := 0.0
	free := 0 // the first place of the row below that is not set yet
	spread := func(ts []thread, from, wide float64) {
		for i := range ts {
			ts[i].x = from + (float64(i)+0.5)*wide/float64(len(ts))
		}
	}
	left := func(upto int) { // places that nothing stands in
		for ; free < upto; free++ {
			under[free].x = x + 0.5
			x++
		}
	}
	for i := 0; i < len(w.threads); {
		lo, hi := reachOf(w.threads[i].feet)
		end := i + 1
		if lo < 0 || lo < free { // a space, or worked back into what is set
			t := &w.threads[i]
			if lo < 0 && free < len(under) && w.skips(end, free) && t.nth < 0 {
				under[free].x = x + 0.5 // a space over what is passed over
				free++
			}
			t.x = x + 0.5
			x++
			i = end
			continue
		}
		left(lo)
		for end < len(w.threads) {
			l, h := reachOf(w.threads[end].feet)
			if l < 0 { // a space between stitches in the same place
				next := end + 1
				if next < len(w.threads) {
					if nl, _ := reachOf(w.threads[next].feet); nl >= 0 && nl <= hi {
						end = next
						continue
					}
				}
				break
			}
			if l > hi {
				break
			}
			hi = max(hi, h)
			end++
		}
		wide := float64(max(end-i, hi+1-lo))
		spread(w.threads[i:end], x, wide)
		spread(under[lo:hi+1], x, wide)
		free = hi + 1
		x += wide
		i = end
	}
	left(len(under))
	w.below = under
	w.places = int(math.Ceil(x))
}

// skips reports whether the next stitch from the i-th on passes a place over.
func (w *weave) skips(i, place int) bool {
	for ; i < len(w.threads); i++ {
		if lo, _ := reachOf(w.threads[i].feet); lo >= 0 {
			return lo > place
		}
	}
	return true
}

// reachOf is the first and the last of some places; -1 where there are none.
func reachOf(feet []int) (lo, hi int) {
	if len(feet) == 0 {
		return -1, -1
	}
	lo, hi = feet[0], feet[0]
	for _, f := range feet {
		lo, hi = min(lo, f), max(hi, f)
	}
	return lo, hi
}

// signOf is how the trade draws a stitch: a T for those above single crochet,
// with as many bars across as there are yarn overs but for the first.
func signOf(l *pattern.Link) sign {
	if l.Kind == pattern.LinkSpace {
		return sign{stem: 'o'}
	}
	st := stitch.Of(l.Stitch)
	switch {
	case l.Stitch == stitch.Slip:
		return sign{stem: '•'}
	case st.Kind == stitch.Compound:
		return sign{'┬', '◊'}
	}
	switch {
	case l.Stitch == stitch.None || l.Stitch == stitch.Special:
		return sign{stem: '∙'}
	case st.Turn <= 1:
		return sign{stem: '+'}
	case st.Turn == 2:
		return sign{'┬', '│'}
	case st.Turn == 3:
		return sign{'┬', '┼'}
	}
	return sign{'┬', '╪'}
}
