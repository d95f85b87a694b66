package counter

import (
	"fmt"

	"crochet/tallyturn/pattern"
)

// What a difference could be is reasoned from the steps of the row: only what
// the row has can have gone wrong in it, and only by as much as it makes.

// Cause is a way to come out wrong.
type Cause uint8

// The causes.
const (
	MissedIncrease Cause = iota // worked as fewer stitches than it should be
	MissedPlace                 // a place passed over
	MissedLast                  // the last stitch left out
	MissedChain                 // a turning chain that counts was not counted
	MissedPass                  // a whole pass of a repeat left out
	ExtraDecrease               // stitches worked together that should not be
	MissedDecrease              // worked as several stitches
	ExtraStitch                 // two in one place
	ExtraChain                  // a chain counted or worked into that is no stitch
	ExtraJoin                   // the joining slip stitch counted or worked into
	ExtraPass                   // a pass of a repeat too many
	RowBelow                    // the row below was wrong already
)

// Reason is one thing that a difference could be.
type Reason struct {
	Cause Cause
	Times int64         // how often it happened
	Step  *pattern.Step // where in the row; nil where that says nothing
	Words string
}

// CouldBe tells what the difference between a count and the tally could be:
// likely things first, nothing where the two agree or the row was not worked
// out. At is where the tally stands in the row in hand.
func (s State) CouldBe(at, counted int64) []Reason {
	row, _ := s.Proof()
	if row == nil || at == counted {
		return nil
	}
	if n, ok := s.Expect(); ok {
		at = min(at, n)
	}
	out := s.plan.reasons(row, 0, at, counted-at)
	if r, ok := s.Record(s.at.Piece, s.at.Copy, s.at.Row-1); ok {
		if m, differs := r.Mismatch(); differs && (m.Counted-m.Expected > 0) == (counted > at) && !s.isCarried() {
			out = append([]Reason{{Cause: RowBelow, Times: 1, Words: fmt.Sprintf("the %s below, which came out %s,",
				row.Kind, difference(m.Counted-m.Expected))}}, out...)
		}
	}
	return out
}

// difference puts a difference in words.
func difference(n int64) string {
	if n < 0 {
		return fmt.Sprintf("%d short", -n)
	}
	return fmt.Sprintf("%d over", n)
}

// Difference is CouldBe as a sentence: "1 short: a missed increase in “inc”
// would do it, or a stitch passed over". It is the bare difference where
// nothing is known of the row.
func (s State) Difference(at, counted int64) string {
	words := difference(counted - at)
	reasons := s.CouldBe(at, counted)
	for i, r := range reasons[:min(len(reasons), 3)] {
		switch i {
		case 0:
			words += ": " + r.Words + " would do it"
		case 1:
			words += "; so would " + r.Words
		default:
			words += ", or " + r.Words
		}
	}
	return words
}

// item is an instruction with how often it is worked in a stretch of a row.
type item struct {
	step     *pattern.Step
	stitches int64 // in all
	made     int64 // at a time
}

// inventory is what a stretch of a row is made of.
type inventory struct {
	items  []item
	passes []int64 // stitches of one pass of each repeat with more than one
}

// take gathers the instructions under a trace that have a part between two
// numbers of stitches, as often as times says.
func (v *inventory) take(t *pattern.Trace, base, from, to, mult int64) {
	all := t.Stitches
	if t.Kids != nil {
		all = times(all, t.Times)
	}
	if base+all < from || base > to || all > 0 && (base+all == from || base == to) {
		return
	}
	if t.Kids == nil || t.Step != nil && t.Step.Op == pattern.OpInto {
		n := min(base+all, to) - max(base, from)
		v.add(item{t.Step, times(n, mult), t.Stitches})
		return
	}
	first, last := int64(0), t.Times // passes with a part in it
	if t.Stitches > 0 {
		first = max(from-base, 0) / t.Stitches
		last = min((to-base+t.Stitches-1)/t.Stitches, t.Times)
	} else {
		last = min(last, 1)
	}
	if t.Of > 1 && t.Stitches > 0 && t.Stitches < all {
		v.passes = append(v.passes, t.Stitches)
	}
	kids := func(base, from, to, mult int64) {
		for _, k := range t.Kids {
			v.take(k, base, from, to, mult)
			n := k.Stitches
			if k.Kids != nil {
				n = times(n, k.Times)
			}
			base += n
		}
	}
	if last-first <= 2 {
		for i := first; i < last; i++ {
			kids(base+i*t.Stitches, from, to, mult)
		}
		return
	}
	kids(base+first*t.Stitches, from, to, mult)
	kids(0, 0, t.Stitches, times(mult, last-first-2)) // those between are whole
	kids(base+(last-1)*t.Stitches, from, to, mult)
}

func (v *inventory) add(it item) {
	for i := range v.items {
		if v.items[i].step == it.step {
			v.items[i].stitches = add(v.items[i].stitches, it.stitches)
			return
		}
	}
	v.items = append(v.items, it)
}

// reasons is what a difference of dev in a stretch of a row could be.
func (p *Plan) reasons(row *pattern.RowProof, from, to, dev int64) []Reason {
	if row == nil || row.Trace == nil || dev == 0 {
		return nil
	}
	var v inventory
	v.take(row.Trace, 0, from, to, 1)
	whole := row.Trace.Stitches * max(row.Trace.Times, 1)
	r := reasoner{plan: p, inventory: v, from: from, atEnd: to >= whole, kind: row.Kind}
	if dev < 0 {
		r.short(-dev)
	} else {
		r.over(dev)
	}
	return r.out
}

type reasoner struct {
	inventory
	plan  *Plan
	from  int64
	atEnd bool
	kind  pattern.RowKind
	out   []Reason
}

func (r *reasoner) say(c Cause, n int64, s *pattern.Step, words string) {
	r.out = append(r.out, Reason{c, n, s, words})
}

// several is "a missed increase" or "3 missed increases".
func several(n int64, one, many string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// short gathers what leaves k stitches too few.
func (r *reasoner) short(k int64) {
	in := func(s *pattern.Step) string { return " in " + r.plan.quote(s) }
	for _, it := range r.items {
		if unit := gain(it); unit > 1 && k%(unit-1) == 0 && k/(unit-1) <= it.stitches/unit {
			n := k / (unit - 1)
			r.say(MissedIncrease, n, it.step, several(n, "a missed increase", "missed increases")+in(it.step))
		}
	}
	if r.atEnd && len(r.items) > 0 && k == 1 {
		if last := r.lastStitch(); last != nil && last.Legs <= 1 && r.kind == pattern.FlatRow {
			words := "a skipped last stitch"
			if last.Target.Which == pattern.TurnTop {
				words = "nothing worked into the top of the turning chain"
			}
			r.say(MissedLast, 1, last, words)
		}
	}
	if it := r.chain(); it.step != nil && it.stitches == k {
		r.say(MissedChain, 1, it.step, "the turning chain not counted, which counts as a stitch here")
	}
	for _, it := range r.items {
		if unit, places := unitOf(it.step); unit == 1 && places == 1 && it.stitches >= k {
			r.say(MissedPlace, k, it.step, several(k, "a place passed over", "places passed over")+in(it.step))
		} else if n := gain(it); n > 1 && k%n == 0 && k/n <= it.stitches/n {
			r.say(MissedPlace, k/n, it.step, several(k/n, "a place passed over", "places passed over")+in(it.step))
		}
	}
	for _, n := range r.passes {
		if n > 1 && n == k {
			r.say(MissedPass, 1, nil, "a whole pass of the repeat left out")
			break
		}
	}
	for _, it := range r.items {
		if it.step != nil && it.step.Legs > 1 && k%int64(it.step.Legs-1) == 0 {
			n := k / int64(it.step.Legs-1)
			r.say(ExtraDecrease, n, it.step, several(n, "a decrease", "decreases")+" too many, as "+r.plan.quote(it.step))
			break
		}
	}
}

// over gathers what leaves k stitches too many.
func (r *reasoner) over(k int64) {
	in := func(s *pattern.Step) string { return " in " + r.plan.quote(s) }
	for _, it := range r.items {
		if it.step == nil || it.step.Legs <= 1 {
			continue
		}
		if g := int64(it.step.Legs - 1); k%g == 0 && k/g <= it.stitches {
			r.say(MissedDecrease, k/g, it.step, several(k/g, "a missed decrease", "missed decreases")+in(it.step))
		}
	}
	for _, it := range r.items {
		if it.step == nil {
			continue
		}
		switch {
		case it.step.Op == pattern.OpChain && it.stitches == 0 && r.from == 0 && k == 1 && it.step == r.items[0].step:
			r.say(ExtraChain, 1, it.step, "the turning chain counted or worked into, which is no stitch")
		case it.step.Op == pattern.OpJoin && r.atEnd && k == 1:
			r.say(ExtraJoin, 1, it.step, "the joining slip stitch counted or worked into")
		}
	}
	for _, n := range r.passes {
		if n > 1 && n == k {
			r.say(ExtraPass, 1, nil, "a pass of the repeat too many")
			break
		}
	}
	for _, it := range r.items {
		unit, places := unitOf(it.step)
		if unit == 0 && gain(it) > 0 || unit == 1 && places == 1 {
			r.say(ExtraStitch, k, it.step, several(k, "a stitch too many", "stitches too many")+in(it.step))
		} else if unit > 1 {
			r.say(ExtraStitch, k, it.step, several(k, "an increase too many", "increases too many")+", as"+in(it.step)[3:])
		}
	}
}

// gain is how many stitches an instruction makes in one place.
func gain(it item) int64 {
	if it.step == nil {
		return 0
	}
	if unit, places := unitOf(it.step); unit > 0 {
		if places > 1 {
			return 0
		}
		return unit
	}
	if it.step.Op == pattern.OpInto || it.step.Op == pattern.OpWork {
		return it.made
	}
	return 0
}

// chain is the chain that stands for a stitch at the beginning of the row.
func (r *reasoner) chain() item {
	if r.from == 0 {
		for _, it := range r.items {
			if it.step != nil && it.step.Op == pattern.OpChain && it.stitches > 0 {
				return it
			}
			if it.stitches > 0 {
				break
			}
		}
	}
	return item{}
}

// lastStitch is the instruction that makes the last stitch.
func (r *reasoner) lastStitch() *pattern.Step {
	for i := len(r.items) - 1; i >= 0; i-- {
		if r.items[i].stitches > 0 {
			return r.items[i].step
		}
	}
	return nil
}
