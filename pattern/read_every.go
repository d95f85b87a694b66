package pattern

import "crochet/tallyturn/pattern/stitch"

// everyShaped = ( change | number stitch ) [ "in" | "after" ] "every" ( ordinal | "other" | number ) [ noun ] [ "around" ]
//
//	| "decrease" "every" ordinal "and" ordinal [ noun ] [ "together" ]
//	| "work" "each" number "sts together" | "every" ordinal noun "doubled" .
//
//	change = "increase" [ "one" ] | "double" | "decrease" | stitch .
//
// The places of the increases or decreases follow from the words, so that it is
// a repeat and no number that is spread: "increase in every third stitch" is
// two plain ones and one doubled, all around.
func (x *rowReader) everyShaped() []*Step {
	t := x.peek()
	if t.kind == tNum && !x.everySoon() || t.kind != tNum && (t.kind != tWord || !t.opens(opensChange|opensEven) && !t.plainStitch() && !t.isAny("double", "doubling", "each", "every", "one")) {
		return nil
	}
	start := x.p
	x.phrase("with|making|work|working|now|crochet", "[a|an|one|1]")
	if x.p == start && x.peek().kind == tNum && x.peek().num == 1 && x.at(1).isAny("inc", "increase", "dec", "decrease") {
		x.p++
	}
	e := everyRead{id: x.mainStitch()}
	if s, n := x.stitchAt(0); n > 0 && stitch.Of(s).Kind == stitch.Basic && x.at(n).isAny("each", "every") && !x.peek().is("double") {
		x.p += n // "sc every 4th and 5th st together"
		e.id = s
	} else if s, n := x.stitchAt(1); n > 0 && x.peek().num == 2 && stitch.Of(s).Kind == stitch.Basic && x.at(1+n).isAny("in", "into") && x.at(2+n).in(everyWords) {
		x.p += 1 + n // "2 sc in every 3rd st"
		e.id, e.sign, e.each = s, 1, true
	} else if x.peek().num == 2 && x.at(1).isAny("in", "into") && x.at(2).in(everyWords) && (x.at(3).kind == tOrd || x.at(3).isAny("other", "alternate")) {
		x.p++ // "2 into every third"
		e.sign, e.each = 1, true
	}
	switch t := x.peek(); {
	case t.isAny("increase", "inc", "increasing"):
		e.sign = 1
		x.p++
		x.abbreviatedBy("in", "at", "every", "each", "over")
	case t.isAny("double", "doubling"):
		e.sign, e.doubles = 1, true
		x.p++
		x.accept("up")
	case t.isAny("decrease", "dec", "decreasing"):
		e.sign = -1
		x.p++
		x.abbreviatedBy("in", "at", "every", "each", "over")
	}
	x.phrase("[by]", "[working|a|one]", "[st|stitch|time]")
	if n := x.peek(); n.kind == tNum && n.num == 1 && x.at(1).isAny("st", "stitch", "time", "in", "at", "on", "every", "each") {
		x.p++
		x.accept("st", "stitch", "time")
	}
	x.accept("once")
	e.after = x.accept("after")
	if e.after || !e.doubles {
		x.accept("in", "into", "at", "on")
		if e.sign < 0 && x.at(1).in(everyWords) && x.at(2).num == 2 {
			x.accept("over") // "dec over every 2 sc"
		}
	}
	e.each = e.each || x.at(-1).isAny("in", "into") && x.peek().isAny("each", "ea")
	if !x.acceptIn(everyWords) || !x.everyWhich(&e) {
		x.p = start
		return nil
	}
	x.accept("up")
	x.phrase("around|across|throughout")
	x.phrase("all|right", "round|around|across|along")
	x.phrase("to", "[the]", "end")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{<") && !x.peek().isAny("join", "so", "which", "for", "making", "giving", "and", "then") {
		x.p = start
		return nil
	}
	if e.sign > 0 && x.bounded { // "sc around, working 2 sc in every 4th st"
		return []*Step{{Op: OpDelta, Stitch: e.id, N: Num{N: 1}, Target: Target{N: Num{N: e.plain[0] + 1}}, Span: x.spanFrom(start)}}
	}
	return x.everySteps(e, start)
}

// everyWords are what "every" is written as.
var everyWords = newWordSet("each every ea ev")

// everyRead is what everyShaped has read: an increase or a decrease of a stitch, and how
// many plain ones may stand before each, the likeliest first.
type everyRead struct {
	id      stitch.ID
	sign    int // 1, -1, or 0 where only "together" tells
	legs    int // of a decrease
	plain   []int64
	doubles bool // "double every 3rd st"
	after   bool // "after every 3 sts"
	each    bool // "in each 6 sts" is in each of them
}

// everyWhich reads which stitches it falls on.
func (x *rowReader) everyWhich(e *everyRead) bool {
	t := x.peek()
	n, ordinal := int64(0), t.kind == tOrd && t.num >= 2
	switch {
	case ordinal:
		n = t.num
	case t.isAny("other", "alternate", "alternating"):
		n, ordinal = 2, true
	case t.kind == tNum && !t.frac:
		n = t.num
	}
	switch noun := x.nounFollows(1); {
	case e.sign <= 0 && t.kind == tOrd && x.at(1).isAny("and", "&") && x.at(2).kind == tOrd && x.at(2).num == t.num+1:
		x.p += 3
		e.plain, e.legs = []int64{t.num - 1}, 2
	case e.sign == 0 && ordinal && noun:
		x.p++ // "every 4th st doubled"
		x.nounDrop()
		if !x.phrase("[is|are|being|gets]", "doubled|increased") {
			return false
		}
		e.sign, e.plain = 1, []int64{n - 1}
		return true
	case e.sign > 0 && ordinal && !e.after:
		x.p++
		e.plain = []int64{n - 1}
	case e.sign < 0 && ordinal && !e.after:
		x.p++
		e.plain, e.legs = []int64{n - 1, n - 2}, 2
	case e.sign <= 0 && t.kind == tNum && (t.num == 2 || t.num == 3) && noun && !e.after && !x.at(2).isMark("([") && (e.sign == 0 || x.togetherAt(1)):
		x.p++
		e.plain, e.legs = []int64{0}, int(t.num)
	case e.sign != 0 && !e.each && t.kind == tNum && n >= 2 && n < 100 && noun && !x.togetherAt(1):
		x.p++ // "inc every 4 sts", "dec after every 4 sts"
		switch {
		case e.after:
			e.plain = []int64{n}
		case e.sign > 0:
			e.plain = []int64{n - 1, n}
		default:
			e.plain = []int64{n - 2, n, n - 1}
		}
		if e.sign < 0 {
			e.legs = 2
		}
	case e.sign <= 0 && t.is("pair"):
		x.p++
		e.plain, e.legs = []int64{0}, 2
		x.accept("of")
	case e.sign == 0 && t.kind != tNum && t.kind != tOrd && x.nounFollows(0) && !e.after: // "every stitch double"
		x.nounDrop()
		if !x.phrase("[is|are|being|gets]", "double|doubled|increased") {
			return false
		}
		e.sign, e.plain = 1, []int64{0}
		return true
	case e.doubles && x.nounFollows(0):
		e.plain = []int64{0} // "double each st"
	default:
		return false
	}
	x.nounDrop()
	together := x.accept("together", "tog")
	return together || e.sign != 0
}

// togetherAt reports whether a noun k tokens on has "together" behind it.
func (x *rowReader) togetherAt(k int) bool {
	n, ok := x.nounAt(k)
	return ok && x.at(k+n.tokens).isAny("together", "tog")
}

// everySoon reports "every" behind a number and what it counts.
func (x *rowReader) everySoon() bool {
	for k := 1; k < 6; k++ {
		if x.at(k).in(everyWords) {
			return true
		}
	}
	return false
}

// everySteps makes the repeat.
func (x *rowReader) everySteps(e everyRead, start int) []*Step {
	all, sp := x.spanFrom(start), x.ts[start].span() // no step has the words to itself
	shape := &Step{Op: OpWork, Stitch: e.id, N: Num{N: 2}, Target: Target{Which: Next, N: Num{N: 1}}, Span: sp}
	if e.legs > 0 {
		shape.N, shape.Legs = Num{N: 1}, e.legs
	}
	group := &Step{Op: OpGroup, Times: Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}, Span: all}
	group.Body = withPlain(shape, e.plain[0])
	if len(e.plain) > 1 {
		x.every = append(x.every, everyOpen{group, shape, e.plain})
	}
	return []*Step{group}
}

// withPlain is so many plain stitches before one that shapes.
func withPlain(shape *Step, plain int64) []*Step {
	if plain <= 0 {
		return []*Step{shape}
	}
	return []*Step{{Op: OpWork, Stitch: shape.Stitch, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: plain}}, Span: shape.Span}, shape}
}

// everyOpen is a repeat of which the words leave open how many plain stitches it has:
// "dec every 5 sts" may be worked on five or leave five between.
type everyOpen struct {
	group, shape *Step
	plain        []int64
}

// settleEvery takes the first number of plain stitches with which the row comes to what it
// states, or where it states nothing uses up the row below.
func (x *rowReader) settleEvery() {
	total := int64(0)
	if t := x.row.Total; t != nil && len(t.Parts) == 1 {
		total = t.Parts[0].N.N
	}
	for _, e := range x.every {
		for _, n := range e.plain {
			e.group.Body = withPlain(e.shape, n)
			if f := fitOf(x.row.Steps, x.countBefore, total); !f.none && f.misses == 0 && f.fits > 0 {
				return
			}
		}
		e.group.Body = withPlain(e.shape, e.plain[0])
		if e.shape.Legs > 0 {
			x.row.bad = append(x.row.bad, e.group.Span) // people mean several things by it
		}
	}
}

// abbreviatedBy takes the full stop of "Inc. in every 4th d.c." where the
// sentence goes on with one of the words.
func (x *rowReader) abbreviatedBy(words ...string) {
	if x.peek().is(".") && x.peek().glued && x.at(1).isAny(words...) {
		x.p++
	}
}

// settleUntil works a row that decreases until so many stitches remain, "dec until 8 sts
// remain", as often as that takes: they remain of all the stitches, not of the row below.
func (x *rowReader) settleUntil() {
	var only *Step
	for _, s := range x.row.Steps {
		switch {
		case leadsOnly(s) || s.Op == OpFasten:
		case only != nil:
			return
		default:
			only = s
		}
	}
	if only == nil {
		return
	}
	dec, bound := only, only.Target.Bound
	if only.Op == OpGroup && only.Times.Kind == Fill && len(only.Body) == 1 {
		dec, bound = only.Body[0], only.Times.Bound
	}
	left := bound.N.N
	if dec.Op != OpWork || dec.Legs != 2 || bound.Kind != ToLast || bound.within || len(bound.N.Sizes) > 0 || left < 2 || x.countBefore != 2*left {
		return
	}
	if t := x.row.Total; t != nil && (len(t.Parts) != 1 || t.Parts[0].N.N != left) {
		return
	}
	if only.Op == OpGroup {
		only.Times = Times{Kind: Exactly, N: Num{N: left}, Span: only.Times.Span, sure: true}
		return
	}
	only.Target.Which, only.Target.N, only.Target.Bound = Next, Num{N: left}, Bound{}
}
