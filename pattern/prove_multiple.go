package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/stitch"
)

// Where nobody knows how many places the row below has, a row that does the same in each
// of them still makes a multiple of what it makes in one: "(sc, hdc, 5 dc, hdc, sc) in
// each loop" never comes to 44.

// perPlace is what a row makes that does one thing as often as the row below has room
// for: by itself, and in each place; chains in each place are told apart. It is not ok
// where the words do not tell.
type perPlace struct {
	alone, each, chains int64
	repeats             bool // there is such a thing
	mayCount            bool // a chain at the start may be one stitch more
}

// perPlaceOf reads it off the steps of a row, for stitches of one kind, or of any for
// stitch.None.
func perPlaceOf(steps []*Step, kind stitch.ID, size int) (p perPlace, ok bool) {
	for _, s := range steps {
		switch {
		case leadsOnly(s), s.Op == OpJoin, s.Op == OpFasten, s.Op == OpAttach && !p.repeats:
		case s.Op == OpChain && p.alone == 0 && !p.repeats:
			p.mayCount = p.mayCount || s.N.At(size) > 1 || s.Counts.Said
		case !p.repeats && asOftenAsFits(s):
			one := *s
			one.Times, one.Target = Times{}, Target{Which: Next, N: Num{N: 1}}
			p.repeats = true
			var told bool
			if p.each, p.chains, told = madeOnce(&one, kind, size); !told {
				return p, false
			}
		default:
			n, _, told := madeOnce(s, kind, size)
			if !told {
				return p, false
			}
			p.alone += n
		}
	}
	return p, p.repeats && p.each > 1
}

// comesTo reports whether so many stitches are made in whole places, or so many with
// the chains.
func (p *perPlace) comesTo(n int64) bool {
	return n%p.each == 0 || p.chains > 0 && n%(p.each+p.chains) == 0
}

// asOftenAsFits reports whether a step is worked in each place, or again and again to the
// end of the row.
func asOftenAsFits(s *Step) bool {
	switch s.Op {
	case OpGroup:
		return s.Times.Kind == Fill && s.Times.Bound.Kind == ToEnd && s.ending == nil && s.special == nil
	case OpWork, OpInto:
		return s.Target.Which == Each && (s.Target.Bound.Kind == NoBound || s.Target.Bound.Kind == ToEnd) && s.Target.N.N <= 1 && s.Target.Row == nil && s.special == nil
	}
	return false
}

// madeOnce is how many stitches and chains a step makes, where its words alone tell.
func madeOnce(s *Step, kind stitch.ID, size int) (n, chains int64, ok bool) {
	times := int64(1)
	switch {
	case leadsOnly(s), s.Op == OpSkip, s.Op == OpWork && s.Stitch == stitch.Slip:
		return 0, 0, true
	case s.special != nil || s.ending != nil || s.Target.Which == Each || s.Target.Row != nil:
		return 0, 0, false
	case s.Op == OpChain:
		return 0, s.N.At(size), !s.Counts.Said
	case s.Op == OpWork:
		if stitch.Of(s.Stitch).Kind != stitch.Basic && s.Legs == 0 {
			return 0, 0, false
		}
		if kind != stitch.None && s.Stitch != kind {
			return 0, 0, true
		}
		return mul(max(s.N.At(size), 1), max(s.Target.N.At(size), 1)), 0, true
	case s.Op == OpInto:
		times = max(s.Target.N.At(size), 1)
	case s.Op == OpGroup && s.Times.Kind == Exactly:
		times = s.Times.N.At(size)
	case s.Op != OpGroup || s.Times.Kind != Once:
		return 0, 0, false
	}
	for _, b := range s.Body {
		k, c, told := madeOnce(b, kind, size)
		if !told {
			return 0, 0, false
		}
		n, chains = n+mul(k, times), chains+mul(c, times)
		if n > maxNumber || chains > maxNumber {
			return 0, 0, false
		}
	}
	return n, chains, true
}

// noMultiple says what is amiss with a row of which only the author knows the number,
// where her total is none that the row can come to; "" where it is.
func (w *pieceWork) noMultiple(row *Row, total *Total) string {
	if total == nil || total.delta || total.rows || len(row.Setup) > 0 {
		return ""
	}
	for _, part := range total.Parts {
		if part.share || part.per > 0 || part.Kind != PartStitches && part.Kind != PartStitch {
			continue
		}
		p, ok := perPlaceOf(row.Steps, part.ID, w.pr.size)
		n := part.N.At(w.pr.size) - p.alone
		if !ok || n < p.each || p.comesTo(n) || p.mayCount && p.comesTo(n-1) {
			continue
		}
		return fmt.Sprintf("%s in each place never come to %d", countWords(p.each, "stitch", "stitches"), part.N.At(w.pr.size))
	}
	return ""
}
