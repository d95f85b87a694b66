package pattern

import "crochet/tallyturn/pattern/stitch"

// chainTold reads what the chain that a row begins with counts as, told in words of its
// own before any stitch: "The ch 4 counts as 1 dc and ch 1.", "Ch 3, turn. The ch 3 stands
// over the first sc as a dc.", "Counting ch 3 as first dc, skip ...". It holds for the
// chain just made; where there is none the row before has ended with it.
//
//	chain told = [ "the" ] chain ( counts | "stands over" place "as" stitch )
//	           | ( "counting" | "taking" ) [ "the" ] chain ( "as" | "for" ) stitch .
func (x *rowReader) chainTold(before []*Step) []*Step {
	if x.worked || x.depth > 1 || !x.peek().in(chainTellers) {
		return nil
	}
	start := x.p
	led := x.phrase("counting|count|taking|take|treating|treat|using|use|reckoning|letting|let")
	said := x.phrase("the|this|that|your|these", "[turning|beginning|beg|starting|first|last|initial|previous]") || x.phrase("turning|beginning|starting", "[chain|chains]")
	if !led && !said {
		return nil
	}
	skipped := x.at(-1).is("first") && len(before) == 0 // "the first 2 ch", of a foundation
	made := x.beginningChain()
	if made == nil || skipped {
		x.p = start
		return nil
	}
	c := Counts{}
	if led {
		x.accept("to")
		led = x.peek().isAny("as", "for", "be", "stand", "count", "is", "=")
		x.accept("be")
	} else {
		led = !x.standsOverPlace(&c) // which has said what it counts as
	}
	if led && !x.readCounts(&c) || !c.Said || !x.end() && !x.peek().separator() && !x.peek().isMark("*([{-)") && !x.peek().isAny("and", "so", "throughout") {
		x.p = start
		return nil
	}
	c.Span = x.spanFrom(start)
	x.phrase("[,]", "so")
	if c.Space == restOfChain {
		c.Space = max(0, made.N.N-int64(stitch.Of(c.As).Turn))
	}
	for _, s := range before {
		if s.Op == OpChain && (made.N.N == 0 || s.N.N == made.N.N) && !s.Counts.Said {
			s.Counts = c
			return []*Step{{Op: OpNote, Span: c.Span, Text: x.src.Slice(c.Span), implicit: true}}
		}
	}
	if made.N.N == 0 {
		made.N = Num{N: int64(stitch.Of(c.As).Turn) + c.Space}
	}
	made.Counts, made.Span = c, c.Span
	return []*Step{made}
}

// chainTellers open such words.
var chainTellers = newWordSet("the this that your these turning beginning starting counting count taking take treating treat using use reckoning letting let")

// beginningChain takes the name of the chain that a row begins with, "ch 3", "3 ch", "ch";
// its number is 0 where none is told.
func (x *rowReader) beginningChain() *Step {
	s := &Step{Op: OpChain}
	start := x.p
	if x.peek().kind == tNum && !x.peek().frac && x.at(1).isAny("ch", "chs", "chain", "chains") {
		s.N, _ = x.number()
		x.p++
	} else if x.accept("ch", "chain", "chs", "chains", "tch") {
		x.accept("-")
		if x.peek().kind == tNum && !x.peek().frac {
			s.N, _ = x.number()
		}
	} else if !x.ts[x.p-1].isAny("chain", "chains") {
		x.p = start
		return nil
	}
	return s
}

// standsOverPlace reads "stands over the first sc as a dc", "takes the place of the first
// dc": where a chain stands, and for what.
func (x *rowReader) standsOverPlace(c *Counts) bool {
	start := x.p
	if x.phrase("stands|stand|comes|goes|lies|sits", "over|on|above", "[the]", "first|same|last", "[st|stitch]") {
		if _, n := x.stitchAt(0); n > 0 {
			x.p += n
		}
		if x.peek().isAny("as", "for", "and") && x.readCounts(c) {
			return true
		}
	}
	x.p = start
	if x.phrase("take|takes|fill|fills|taking|filling", "[up]", "[the]", "place|position", "of", "[the|a]", "[first|1]") {
		if id, n := x.stitchAt(0); n > 0 {
			x.p += n
			c.Said, c.As, c.N = true, id, 1
			x.countsSpace(c)
			return true
		}
	}
	x.p = start
	return false
}
