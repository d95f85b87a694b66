package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/stitch"
)

// sumClaim reads a total behind an edging that is told in so many stitches in each
// of so many places: "7 sc in each of the 4 corner sps and 3 sc in each of the
// other 13 meshes along each of the 4 sides (184 sc)".
func (r *reader) sumClaim(i int) {
	if !r.toks[i].isMark("([") || i+3 >= len(r.toks) || !r.counts(i+1) || !r.toks[i+3].isMark(")]") {
		return
	}
	id := r.stitchNamed(i + 2)
	if id == stitch.None {
		return
	}
	// back to where the sentence begins
	from := i - 1
	for from > 0 && i-from < 60 && !r.toks[from].isMark(".;:([)]*") && !r.toks[from].is("-") && !r.toks[from].blank {
		from--
	}
	if from > 0 && !r.toks[from].isMark(":-") && !r.toks[from].blank {
		return // what the sentences before it work is a part of the total too
	}
	k := from
	if r.toks[k].kind == tPunct {
		k++
	}
	for k < i && r.toks[k].isAny("work", "make", "crochet", "now", "place") {
		k++
	}
	sum := int64(0)
	for k < i {
		per, places, next, ok := r.shareOf(k, i, id)
		if !ok {
			return
		}
		if sum += mul(per, places); sum > maxNumber {
			return
		}
		for k = next; k < i && (r.toks[k].isAny(",", "and", "then", "with", "work")); k++ {
		}
	}
	if sum == 0 {
		return
	}
	n := &r.toks[i+1]
	r.pat.claims = append(r.pat.claims, claim{kind: claimSum, n: Num{N: n.num, Span: n.span()}, span: Span{int(n.start), int(r.toks[i+2].end)}, sum: sum})
}

// counts reports whether a token is a plain number.
func (r *reader) counts(k int) bool {
	t := &r.toks[k]
	return t.kind == tNum && !t.frac && !t.big && t.num > 0
}

// stitchNamed is the stitch that one token names, or None.
func (r *reader) stitchNamed(k int) stitch.ID {
	if id, n := r.scratch(k).stitchAt(0); n == 1 {
		return id
	}
	return stitch.None
}

// shareOf reads "3 sc in each of the other 13 meshes along each of the 4 sides" from
// k: how many in each, in how many places.
func (r *reader) shareOf(k, end int, id stitch.ID) (per, places int64, next int, ok bool) {
	if k+4 >= end || !r.counts(k) || r.stitchNamed(k+1) != id || !r.toks[k+2].isAny("in", "into", "over", "on") || !r.toks[k+3].isAny("each", "every") {
		return
	}
	per, k = r.toks[k].num, k+4
	pass := func() {
		for k < end && r.toks[k].isAny("of", "the", "other", "remaining", "rem", "these", "all") {
			k++
		}
	}
	pass()
	if k >= end || !r.counts(k) {
		return
	}
	places = r.toks[k].num
	noun := false
	for k++; k < end && r.toks[k].kind == tWord && !r.toks[k].isAny("and", "along", "on", "across", "round", "around", "in", "into", "then", "between", "at", "to", "each"); k++ {
		noun = true
		if r.stitchNamed(k) == id && k+1 < end && r.toks[k-1].kind == tNum {
			return
		}
	}
	if !noun {
		return
	}
	if k+2 < end && r.toks[k].isAny("along", "on", "across", "at", "of", "down") {
		k++
		if !r.toks[k].isAny("each", "every") {
			return // "along the top": how it is meant does not show
		}
		k++
		pass()
		if k >= end || !r.counts(k) {
			return
		}
		places = mul(places, r.toks[k].num)
		k++
		if k >= end || !r.toks[k].isAny("sides", "edges", "ends", "corners") {
			return
		}
		k++
	}
	return per, places, k, true
}

// sumClaimed holds the total against what the words come to, where the row was not
// worked out.
func (pr *prover) sumClaimed(c *claim) {
	if c.n.At(pr.size) == c.sum {
		return
	}
	for i := range pr.out {
		if f := &pr.out[i]; f.Severity == Error && (f.Span.Contains(c.span) || c.span.Contains(f.Span)) {
			return // said already
		}
	}
	for _, w := range pr.pieces {
		for _, rp := range w.proof.Rows {
			if rp.Row.Span.Contains(c.span) && (rp.Status == Agrees || rp.Status == Differs) {
				return // the fabric knows better
			}
		}
	}
	pr.say(Error, CodeTotal, c.span, fmt.Sprintf("so many in each of so many are %d, and the pattern states %d", c.sum, c.n.At(pr.size)), "the total, or one of the numbers before it")
}
