package pattern

import "crochet/tallyturn/pattern/stitch"

// everyShaped = ( "increase" [ "one" ] [ "in" ] "every" ordinal [ noun ]
//
//	| "decrease" "every" ordinal "and" ordinal [ noun ] [ "together" ]
//	| "work" "each" number "sts together" ) [ "around" ] .
//
// The places of the increases or decreases follow from the words, so that it is
// a repeat and no number that is spread: "increase in every third stitch" is
// two plain ones and one doubled, all around.
func (x *rowReader) everyShaped() []*Step {
	if t := x.peek(); t.kind != tWord || !t.opens(opensChange|opensEven) && !t.plainStitch() {
		return nil
	}
	start := x.p
	x.phrase("with|making|work|now", "[a|an|one]")
	id := x.mainStitch()
	if s, n := x.stitchAt(0); n > 0 && stitch.Of(s).Kind == stitch.Basic && x.at(n).isAny("each", "every") {
		x.p += n // "sc every 4th and 5th st together"
		id = s
	}
	sign := 0
	switch t := x.peek(); {
	case t.isAny("increase", "inc", "increasing"):
		sign = 1
		x.p++
		x.abbreviatedBy("in", "at", "every", "each")
	case t.isAny("decrease", "dec", "decreasing"):
		sign = -1
		x.p++
		x.abbreviatedBy("in", "at", "every", "each")
	}
	x.phrase("[by]", "[working|a|one|1]", "[st|stitch]")
	x.accept("in", "into", "at", "on")
	if !x.accept("every", "each") {
		x.p = start
		return nil
	}
	plain, legs := int64(0), 0
	switch t := x.peek(); {
	case sign > 0 && t.kind == tOrd && t.num >= 2:
		x.p++
		plain = t.num - 1
	case sign <= 0 && t.kind == tOrd && x.at(1).isAny("and", "&") && x.at(2).kind == tOrd && x.at(2).num == t.num+1:
		x.p += 3
		plain, legs = t.num-1, 2
	case sign <= 0 && t.kind == tNum && (t.num == 2 || t.num == 3) && x.nounFollows(1):
		x.p++
		legs = int(t.num)
	case sign <= 0 && t.is("pair"):
		legs = 2
		x.p++
		x.accept("of")
	default:
		x.p = start
		return nil
	}
	noun := x.p
	x.nounDrop()
	together := x.accept("together", "tog")
	if sign == 0 && !together || sign != 0 && !together && legs > 0 && x.p == noun {
		x.p = start
		return nil
	}
	x.phrase("around|across|throughout")
	x.phrase("all|right", "round|around|across|along")
	x.phrase("to", "[the]", "end")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{<") && !x.peek().is("join") {
		x.p = start
		return nil
	}
	all, sp := x.spanFrom(start), x.ts[start].span() // no step has the words to itself
	shape := &Step{Op: OpWork, Stitch: id, N: Num{N: 2}, Target: Target{Which: Next, N: Num{N: 1}}, Span: sp}
	if legs > 0 {
		shape.N, shape.Legs = Num{N: 1}, legs
	}
	body := []*Step{shape}
	if plain > 0 {
		body = []*Step{{Op: OpWork, Stitch: id, N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: plain}}, Span: sp}, shape}
	}
	return []*Step{{Op: OpGroup, Body: body, Times: Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}, Span: all}}
}

// abbreviatedBy takes the full stop of "Inc. in every 4th d.c." where the
// sentence goes on with one of the words.
func (x *rowReader) abbreviatedBy(words ...string) {
	if x.peek().is(".") && x.peek().glued && x.at(1).isAny(words...) {
		x.p++
	}
}
