package pattern

import "crochet/tallyturn/pattern/stitch"

// A list may be repeated whole by a number that stands behind its last stitch, with no
// bracket around it: "R3 1 tr, inc x12 (36)", "inc, 2 sc * 6". Written so, only the
// counts tell it from "sc 12, inc x 6", where the number is that of the increase alone.
// The shortest notes leave out the number as well: "R3 1 sc, inc (18)".

// regroup makes one repeat of such a list where that fits what the row states and what
// it is worked on, and the words as they stand do not. A row that neither settles
// follows the manner of those before it.
func (x *rowReader) regroup(manner bool) bool {
	steps := x.row.Steps
	i := 0
	for i < len(steps) && (steps[i].Op == OpChain && steps[i].N.N <= 4 || leadsOnly(steps[i])) {
		i++
	}
	end := len(steps)
	for end > i && (steps[end-1].Op == OpJoin || steps[end-1].Op == OpFasten || leadsOnly(steps[end-1])) {
		end--
	}
	if g := steps[i:end]; len(g) == 1 && g[0].Op == OpGroup && g[0].Times.Kind == Once && g[0].special == nil {
		body := g[0].Body // "(1 in next, 2 in next) = 27"
		steps = append(append(append([]*Step(nil), steps[:i]...), body...), steps[end:]...)
		end = i + len(body)
	}
	if end-i < 2 || end-i > 6 {
		return false
	}
	last := steps[end-1]
	body, times := append([]*Step(nil), steps[i:end]...), Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
	told := last.Op == OpGroup
	if told {
		if last.Times.Kind != Exactly || last.Times.star || len(last.Body) != 1 || last.Times.N.N < 2 || last.Times.N.Sizes != nil {
			return false
		}
		body[len(body)-1], times = last.Body[0], last.Times
	} else if takes := flowOf(body, 0).takes; takes == 0 || x.countBefore < 3*takes || x.row.Kind != Round || x.off {
		return false // of a few stitches at the end of a round the rest may be left
	}
	if !anyShapes(body) {
		return false
	}
	for _, s := range body {
		if s.Op != OpWork || s.Stitch == stitch.Slip || s.Target.Which != Next || s.Target.Row != nil || s.Target.Bound.Kind != NoBound || s.Target.N.Sizes != nil {
			return false
		}
	}
	g := &Step{Op: OpGroup, Body: body, Times: times, Span: cover(steps[i].Span, last.Span)}
	total := int64(0)
	if t := x.row.Total; t != nil {
		if len(t.Parts) != 1 || t.Parts[0].N.Sizes != nil {
			return false
		}
		total = t.Parts[0].N.N
	}
	asRead, grouped := fitOf(steps[i:end], x.countBefore, total), fitOf([]*Step{g}, x.countBefore, total)
	if asRead.none || grouped.none || asRead.fits > grouped.fits || asRead.fits == grouped.fits && !(manner && asRead.misses > 0) && !(manner && total == 0 && x.countBefore == 0) {
		return false
	}
	x.row.Steps = append(append(append([]*Step(nil), steps[:i]...), g), steps[end:]...)
	return true
}

// leadsOnly reports whether a step makes nothing and stands at either end of a row.
func leadsOnly(s *Step) bool {
	return s.Op == OpNote || s.Op == OpTurn || s.Op == OpColour || s.Op == OpStay
}

// fit is how many of the numbers known of a row its words agree with.
type fit struct {
	fits, misses int
	none         bool // the words do not tell
}

// fitOf holds steps against the stitches below and the total, each 0 where unknown.
func fitOf(steps []*Step, below, total int64) fit {
	f := flowOf(steps, below)
	out := fit{none: f.unknown}
	for _, n := range [...][2]int64{{below, f.takes}, {total, f.makes}} {
		switch {
		case n[0] == 0:
		case n[0] == n[1]:
			out.fits++
		default:
			out.misses++
		}
	}
	return out
}

// flow is what steps take and make, as far as their words alone tell.
type flow struct {
	takes, makes int64
	unknown      bool
}

// flowOf adds up plain steps worked along so many stitches, or along a number that
// is not known, 0.
func flowOf(steps []*Step, below int64) flow {
	var f flow
	for i, s := range steps {
		var by flow
		switch {
		case leadsOnly(s), s.Op == OpJoin, s.Op == OpFasten, s.Op == OpRing:
		case s.Op == OpChain && f.makes == 0 && s.N.N <= 2 && !s.Counts.Said:
		case s.Op == OpSkip && s.Target.Which == Next:
			by.takes = s.Target.N.N
		case s.Op == OpWork && s.Target.Which == InRing, s.Op == OpWork && s.Target.Which == FromHook && s.Target.N.N == 2 && i > 0 && steps[i-1].Op == OpChain && steps[i-1].N.N == 2:
			by.makes = s.N.N
		case s.Op == OpWork && (s.Target.Which == Next || s.Target.Which == Last || s.Target.Which == First) && s.Target.Row == nil && s.Target.Within == nil && stitchesOnly(s.Target.Of):
			n := max(s.Target.N.N, 1)
			by = flow{takes: mul(n, int64(max(s.Legs, 1))), makes: mul(n, max(s.N.N, 1))}
		case s.Op == OpWork && s.Target.Which == Each && s.Target.Bound.Kind != ToLast && s.Legs == 0 && s.Target.Row == nil && below > f.takes && s.Target.Bound.Kind != ToPlace:
			n := below - f.takes
			by = flow{takes: n, makes: mul(n, max(s.N.N, 1))}
		case s.Op == OpEven && below > 0:
			by = flow{takes: below - f.takes, makes: below - f.takes}
		case s.Op == OpGroup && s.special == nil && s.ending == nil && s.Times.N.Sizes == nil:
			by = flowOf(s.Body, 0)
			switch n := below - f.takes; {
			case s.Times.Kind == Exactly:
				by = flow{mul(by.takes, s.Times.N.N), mul(by.makes, s.Times.N.N), by.unknown}
			case s.Times.Kind == Fill && s.Times.Bound.Kind == ToEnd && below > 0 && by.takes > 0 && n%by.takes == 0:
				by = flow{n, mul(by.makes, n/by.takes), by.unknown}
			case s.Times.Kind != Once:
				by.unknown = true
			}
		default:
			by.unknown = true
		}
		f = flow{f.takes + by.takes, f.makes + by.makes, f.unknown || by.unknown}
		if f.takes > maxNumber || f.makes > maxNumber || len(s.Target.N.Sizes) > 0 || len(s.N.Sizes) > 0 {
			f.unknown = true
		}
		if f.unknown {
			return f
		}
	}
	return f
}

// countAfter is how many stitches a row comes to that stands on so many: what it
// states, or else what its words make; 0 where neither tells.
func countAfter(row *Row, below int64) int64 {
	if t := row.Total; t != nil {
		if len(t.Parts) == 1 && t.Parts[0].N.Sizes == nil && t.Parts[0].Kind == PartStitches {
			return t.Parts[0].N.N
		}
		if f := flowOf(row.Steps, below); len(t.Parts) == 1 && t.Parts[0].N.Sizes == nil && t.Parts[0].Kind == PartStitch && !f.unknown && row.Refer == nil && len(row.bad) == 0 && f.makes == t.Parts[0].N.N {
			return f.makes // "16 sc", and nothing else is in it
		}
		return 0
	}
	if row.Refer != nil || len(row.bad) > 0 || len(row.Setup) > 0 && !notBegun(row.Setup) {
		return 0
	}
	if f := flowOf(row.Steps, below); !f.unknown && (f.takes == f.makes || row.Numbers.Last.N <= row.Numbers.First.N) {
		return f.makes
	}
	return 0
}

// timesBefore = number [ "x" | "times" ] bracket .
//
// "6x(2 sc, inc)", "6(2 sc, inc)": how often a bracket is worked stands before it. A
// number set apart, "6 (2 sc, inc)", might be a total as well; it is taken for this only
// where the row below has just so many stitches.
func (x *rowReader) timesBefore(before []*Step) []*Step {
	t := x.peek()
	if t.kind != tNum || t.frac || t.big || t.num == 0 {
		return nil
	}
	start, k := x.p, 1
	if x.at(k).is("times") && !x.at(2).isMark("([{") {
		return x.timesOfStep(start)
	}
	if x.at(k).isAny("x", "times") {
		k++
	}
	open := x.at(k)
	if !open.isMark("([{") || k == 1 && (!x.startsClause() || !x.worksWithin(k)) || k == 2 && !open.glued && !x.worksWithin(k) {
		return nil
	}
	n, ok := x.number()
	if !ok || x.p != start+1 {
		x.p = start
		return nil
	}
	x.p = start + k
	bad, worked := len(x.row.bad), x.worked
	s := x.bracket(before)
	if len(s) == 1 && s[0].Op == OpGroup && s[0].Times.Kind == Once && len(s[0].Body) > 0 {
		f := flowOf(s[0].Body, 0)
		if k == 2 || open.glued && !f.unknown || !f.unknown && x.countBefore > 0 && mul(f.takes, n.N) == x.countBefore {
			s[0].Times = Times{Kind: Exactly, N: n, sure: true}
			s[0].Span = x.spanFrom(start)
			return s
		}
	}
	x.p, x.row.bad, x.worked = start, x.row.bad[:bad], worked
	return nil
}

// timesOfStep = number "times" stitch .
//
// "6 times 2 sts together": how often a stitch is worked stands before it.
func (x *rowReader) timesOfStep(start int) []*Step {
	n, ok := x.number()
	if ok && x.accept("times") {
		if s := x.work(); len(s) == 1 && s[0].Op == OpWork && s[0].Target.Which == Next && s[0].Target.Row == nil {
			return []*Step{{Op: OpGroup, Body: s, Times: Times{Kind: Exactly, N: n, sure: true}, Span: x.spanFrom(start)}}
		}
	}
	x.p = start
	return nil
}

// worksWithin reports whether the bracket k tokens on has a stitch in it, and is no
// list of sizes.
func (x *rowReader) worksWithin(k int) bool {
	end := x.closer(k)
	for i := x.p + k + 1; i < end; i++ {
		if t := &x.ts[i]; t.isAny("inc", "dec") || t.plainStitch() {
			return true
		}
	}
	return false
}
