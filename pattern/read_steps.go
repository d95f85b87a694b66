package pattern

import "crochet/tallyturn/pattern/stitch"

// skip = ( "skip" | "sk" | "miss" ) [ "next" ] [ number ] noun .
func (x *rowReader) skip() []*Step {
	if !x.peek().opens(opensSkip) {
		return nil
	}
	start := x.p
	if !x.accept("skip", "sk", "miss", "skp", "skipping", "missing", "omit", "pass", "leave", "ignore", "ignoring") {
		return nil
	}
	if x.at(-1).is("pass") && x.peek().is("over") && x.at(1).kind == tNum {
	} else if x.at(-1).isAny("leave", "pass") {
		x.p = start
		return x.leave()
	}
	x.accept("over")
	x.accept("the", "those", "these", "that", "this")
	s := &Step{Op: OpSkip}
	s.Target.Which, s.Target.N, s.Target.said = Next, Num{N: 1}, true
	switch {
	case x.accept("next", "following", "foll", "nxt"):
		x.counted(&s.Target, true)
	case x.accept("each"):
		x.counted(&s.Target, true)
		s.Target.Which = Next
	case x.peek().isAny("center", "centre", "middle") && x.at(1).kind == tNum:
		x.p++ // "skip center 16 sts": those that the shoulders leave between them
		x.counted(&s.Target, true)
		s.Target.Which = Next
	case x.peek().in(middleWords) && x.nounFollows(1):
		x.p++ // "skip centre hdc"
		x.counted(&s.Target, true)
		s.Target.Which, s.Target.N = Next, Num{N: 1}
	case x.peek().isAny("last", "final"):
		x.p++
		s.Target.Which = Last
		x.counted(&s.Target, true)
	case x.peek().kind == tOrd:
		x.ordinal(&s.Target, true)
		if s.Target.Which == Nth {
			s.Target.Which, s.Target.N = Next, Num{N: 1}
		}
	case x.peek().isAny("same"):
		x.p++
		x.counted(&s.Target, true)
	case x.peek().isAny("a", "beg", "beginning", "turning", "base"):
		x.accept("a", "base")
		x.counted(&s.Target, true)
		if s.Target.Which == TurnTop {
			s.Target.Which = Next
		}
	case x.peek().isAny("all", "rem", "remaining", "rest"):
		x.p++
		x.accept("the", "of", "rem", "remaining")
		s.Target.Which = Each
		if _, sized := x.sizedSpace(0); !sized && x.peek().kind == tNum {
			s.Target.Which = Next // "skip all 29 sts of sleeve"
		}
		number := s.Target.Which
		x.counted(&s.Target, true)
		s.Target.Which = number
	case x.peek().kind == tNum && x.at(1).isAny("row", "rows"):
		s.Target.N, _ = x.number()
		x.p++
		s.Target.Which = RowEnds
	default:
		n := x.p
		s.Target.plain = true
		if !x.counted(&s.Target, false) {
			x.p = n
			if !x.peek().separator() && !x.end() && !x.peek().isMark(")*") {
				x.p = start
				return nil
			}
		}
	}
	if of := s.Target.Of; x.worked && len(of) > 0 && of[0].Kind == ChainStitch {
		x.phrase("of|on", "[the]", "turning|turn|beg|beginning|starting", "ch|chain") // "skip 2 ch of turning ch, dc in next ch": they are the next
	}
	x.qualify(&s.Target)
	x.orSpace(&s.Target)
	if x.phrase("below|under|beneath", "[the]", "it|ch|this|chain") {
		s.Target.Which = First
	}
	// "skip next dc, ch-1 sp and dc", "skip 1 sc and ch-1 sp"
	out := []*Step{s}
	for {
		save := x.p
		x.accept(",")
		if x.accept("and", "&") {
			x.accept("the")
			nextWord := x.accept("next", "following", "foll")
			if n, k := x.peek(), 1; nextWord && n.kind == tNum && !n.frac {
				if m, ok := x.nounAt(k); ok && !m.ring && !m.edge && m.chain == 0 {
					t := Target{Which: Next, said: true}
					t.N, _ = x.number()
					x.p += m.tokens
					x.fill(&t, m)
					t.Which = Next
					out = append(out, &Step{Op: OpSkip, Target: t, Span: x.spanFrom(save)})
					continue
				}
			}
			if m, ok := x.nounAt(0); ok && (m.filter.Kind == Space || nextWord) && !m.ring && !m.edge && m.chain == 0 || ok && m.filter.Kind == Space && m.chain > 0 && x.at(m.tokens).isMark(",;.") {
				x.p += m.tokens
				t := Target{Which: Next, N: Num{N: 1}, said: true}
				x.fill(&t, m)
				t.Which = Next
				out = append(out, &Step{Op: OpSkip, Target: t, Span: x.spanFrom(save)})
				continue
			}
		}
		x.p = save
		break
	}
	if len(s.Target.Of) > 0 && s.Target.Of[0].Kind == ChainStitch && !x.worked {
		c := x.countsAs(&Step{Op: OpChain, N: s.Target.N}, start)
		s.Counts = c.Counts
	}
	if behind := x.phrase("behind|underneath", "[the|this|that|it|each|post|dropped|long|spike]", "[post|dropped|long|spike]"); behind || x.dropped(s) {
		if behind {
			x.nounDrop()
		}
		if x.lastStep != nil && x.dropped(s) {
			// the stitch that was dropped has taken its place already
			return x.noteFrom(start)
		}
	}
	x.phrase("for|to", "[a|the]", "[first]", "thumb|buttonhole|armhole|leg|handle|neck|opening|eye|hole|slot|gap|[decrease|dec]")
	s.Span = x.spanFrom(start)
	return out
}

// orSpace reads the other thing that may lie there: "skip 2 dc or ch-2 sp". What
// is passed over is the space where one is next, and else the stitches.
func (x *rowReader) orSpace(t *Target) {
	save := x.p
	if !x.accept("or") {
		return
	}
	x.accept("the", "a", "next")
	var n Num
	if _, sized := x.sizedSpace(0); !sized && x.peek().kind == tNum {
		n, _ = x.number()
	}
	m, ok := x.nounAt(0)
	if !ok || m.ring || m.edge || m.turn {
		x.p = save
		return
	}
	x.p += m.tokens
	space := func(k FilterKind) bool { return k == Space || k == ChainStitch }
	mine := len(t.Of) > 0 && space(t.Of[0].Kind)
	switch {
	case mine && !space(m.filter.Kind):
		t.N, t.Of = n, nil
		if m.filter.Kind != AnyStitch {
			t.Of = []Filter{m.filter}
		}
		if n.N == 0 {
			t.N = Num{N: 1}
		}
		t.orSpace = true
	case !mine && space(m.filter.Kind):
		t.orSpace = true
	default:
		x.p = save
	}
}

// dropped reports whether what is skipped is the stitch behind one that was
// just worked into a row further down.
func (x *rowReader) dropped(skip *Step) bool {
	l := x.lastStep
	return l != nil && l.Op == OpWork && l.Target.dropped && skip.Op == OpSkip && skip.Target.Which == Next && skip.Target.N.N == max(1, l.Target.N.N)
}

// leave = "leave" ( "rem" | "last" number ) noun "unworked" | noun "left unworked" .
func (x *rowReader) leave() []*Step {
	start := x.p
	if x.phrase("do|don't", "[not]", "work", "[over|on|in|into|across]", "[the]", "rem|remaining|rest|last|other") {
		// "do not work over remaining sts"
		s := &Step{Op: OpLeave}
		x.phrase("of", "[the]")
		if x.peek().kind == tNum {
			s.Target.N, _ = x.number()
		}
		x.nounDrop()
		x.phrase("[of]", "[the]", "row|rnd|round")
		s.Span = x.spanFrom(start)
		return []*Step{s}
	}
	x.p = start
	if !x.accept("leave", "leaving", "pass", "leaves") {
		return nil
	}
	if x.phrase("the", "[first]", "ch|chain|st|stitch|loop|lp", "next|nearest|closest", "[to]", "[the]", "hook", "[alone|out|free|unworked|empty]") {
		// "leave the chain next to the hook alone"
		return []*Step{{Op: OpSkip, Span: x.spanFrom(start), Target: Target{Which: Next, N: Num{N: 1}, said: true}}}
	}
	if x.clauseHas("tail") || x.peek().isAny("the", "this", "it", "second", "yarn") && x.clauseHas("hook", "hanging", "later", "aside", "attached") {
		x.p = start
		x.toClauseEnd()
		return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	s := &Step{Op: OpLeave}
	if x.lastStep != nil && x.lastStep.Target.Bound.Kind == ToLast && (x.accept("it") || x.phrase("that|this", "[last]", "[one|st|stitch|sc|dc|tr]")) {
		x.accept("unworked", "free", "alone", "undone")
		s.Span = x.spanFrom(start) // "in each st but the last, leave that one"
		s.Target.N = x.lastStep.Target.Bound.N
		return []*Step{s}
	}
	x.accept("the", "all", "these", "those")
	if x.accept("a") && !x.peek().isAny("st", "stitch") || x.peek().isAny("long", "tail", "end") {
		x.p = start
		return nil
	}
	lastOne := x.peek().isAny("last", "next", "final") && x.at(1).kind != tNum
	nextSaid := x.peek().isAny("next", "following", "first")
	others := x.accept("rem", "remaining", "rest", "last", "next", "following", "first", "remainder", "other", "final") && x.at(-1).isAny("rem", "remaining", "other")
	all := x.at(-1).isAny("rest", "remainder") && x.restEnds() // "sc in first 8, leave the rest."
	x.accept("of", "the")
	if x.peek().kind == tNum {
		s.Target.N, _ = x.number()
	}
	x.accept("rem", "remaining")
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
		x.fill(&s.Target, n)
		if lastOne && !plural(x.at(-1)) {
			s.Target.N = Num{N: 1}
		}
	} else if !x.phrase("row|rnd|round") && !x.peek().isAny("unworked", "free", "alone", "unused", "undone", "for", "be") && !(others && s.Target.N.N > 0 && x.restEnds()) && !all {
		x.p = start
		return nil
	}
	x.phrase("of", "[the]", "row|rnd|round")
	x.accept("un")
	x.accept("-")
	if !x.accept("unworked", "free", "worked", "unused", "unmade", "alone", "undone", "be") && s.Target.N.N == 0 && s.Target.Of == nil && !all {
		x.p = start
		return nil
	}
	x.phrase("for", "[the|a]", "now|thumb|armhole|neck|opening|sleeve|leg|arm|heel|front|back", "[opening|hole]")
	s.Span = x.spanFrom(start)
	if nextSaid && s.Target.N.N > 0 && x.workFollows(x.joiners()) {
		// "leave the next 2 alone and sc in the other 4": passed over, not left to the end of the row
		s.Op, s.Target.Which, s.Target.said = OpSkip, Next, true
	}
	return []*Step{s}
}

// joiners counts the tokens ahead that only join two clauses, ", and then".
func (x *rowReader) joiners() int {
	k := 0
	for x.at(k).separator() || x.at(k).isAny("and", "then", "&") {
		k++
	}
	return k
}

// startAt reads "beginning in second chain from hook".
func (x *rowReader) startAt() []*Step {
	if !x.peek().opens(opensStart) {
		return nil
	}
	start := x.p
	led := x.phrase("[beginning|starting|begin|start]", "[off]", "in|into|with|at|from", "[the]")
	if led {
		x.bumpsOf()
	}
	if !led && !(x.p == 0 && x.peek().kind == tOrd && x.at(1).isAny("ch", "chain") && x.at(2).is("from") && x.at(4).isMark(":,")) || x.peek().kind != tOrd || x.worked || !x.at(1).isAny("ch", "chain") && !(x.at(1).isAny("loop", "lp") && x.at(2).isAny(":", ",", "from", "of")) {
		x.p = start
		return nil
	}
	if (x.p == start+2 && x.ts[start].is("from") || x.p <= start+2 && x.ts[start].isAny("in", "into")) && !x.at(2).isMark(":,") && !(x.at(2).isAny("from", "of") && x.at(3).is("hook") && (x.at(4).isMark(":,") || x.ts[start].is("from") && x.at(4).kind == tNum && x.stitchFollows(5))) {
		x.p = start // "in 2nd ch from hook work 3 sc"
		return nil
	}
	n := x.peek().num
	x.p += 2
	x.phrase("from|off|of", "[the|your]", "hook|hk")
	return []*Step{{Op: OpSkip, Span: x.spanFrom(start), Target: Target{Which: Next, N: Num{N: n - 1}, Of: []Filter{{Kind: ChainStitch}}, said: true}}}
}

// bumpsOf passes over what of a chain is worked into, "back bump of".
func (x *rowReader) bumpsOf() {
	start := x.p
	if !x.phrase("back|top|front|rear|bottom", "[horizontal]", "bump|bumps|ridge|bar|loop|hump", "of", "[the]") || x.peek().kind != tOrd {
		x.p = start
	}
}

// control = turn | "do not turn" | join | "fasten off" | ring | colour | other side .
func (x *rowReader) control() []*Step {
	if !x.peek().opens(opensControl) {
		return nil
	}
	start := x.p
	if s := x.startAt(); s != nil {
		return s
	}
	one := func(op Op) []*Step {
		return []*Step{{Op: op, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	switch {
	case x.peek().isAny("turn", "turning") && x.at(1).isAny("the", "your") && x.turnsAside():
		x.toClauseEnd()
		return one(OpNote)
	case x.phrase("turn|turning", "with"):
		if c := x.chain(); c != nil {
			return append(c, &Step{Op: OpTurn, Span: Span{int(x.ts[start].start), int(x.ts[start].end)}})
		}
		return one(OpTurn)
	case x.phrase("stop|end|finish", "there|here|now", "[and]", "[with|leave|leaving]", "[the]", "[last|rem|remaining]"):
		s := &Step{Op: OpLeave}
		if x.peek().kind == tNum {
			s.Target.N, _ = x.number()
			x.nounDrop()
		}
		x.accept("unworked", "free", "left")
		s.Span = x.spanFrom(start)
		return []*Step{s}
	case x.peek().is("off") && x.worked && (x.peek().head || x.p > 0 && (x.at(-1).separator() || x.at(-1).isAny("then", "and"))) && (x.at(1).kind == tEnd || x.at(1).head || x.at(1).separator()):
		x.p++ // "dc round then off"
		return one(OpFasten)
	case x.phrase("[and]", "turn|turning", "[the|your|work]", "[work|over|piece|around]") && (!x.peek().isAny("ch", "chain") || x.turnsThenChains(start)):
		x.phrase("each|every", "time|row|rnd|round")
		return one(OpTurn)
	case x.phrase("do|does", "not", "turn", "[work]"), x.phrase("don't|without|never|no", "turn|turning", "[work]"):
		x.phrase("or|and", "join")
		return one(OpStay)
	case x.phrase("do", "not", "join|close|sl|slip", "[the|round|rnd|rounds|rnds|st]", "[rnd|rounds|round|rnds]"), x.phrase("don't|without|no", "join|joining|close"):
		x.phrase("or|and", "turn")
		x.phrase("the", "rnd|round|rounds|rnds")
		if x.phrase("but", "carry|use|mark|place|work|keep|move") && !x.clauseHas("turn", "next") {
			x.toClauseEnd() // "but carry a thread up between last and first sc"
		}
		return one(OpStay)
	case x.fastensOn():
		return x.attach()
	case x.phrase("fasten|finish|tie|bind|cast|close|end|break|cut|fo|f|fastening", "off|o"), x.phrase("f", ".", "o", "[.]"), x.phrase("fo|foff|fasten|finished"), x.phrase("break|cut|clip|snip|end|tie|broken", "[off]", "[and]", "[the|your|main|secure|fasten]", "yarn|thread|cotton|wool|off|tail|color|colour|a|b|c"), x.cutsShort():
		x.phrase("and|&", "weave|secure|fasten|hide", "[in]", "[off|the|all]", "[end|ends|off]")
		if save := x.p; x.phrase("[,]", "leaving|leave|with|keeping|keep", "[a|an|enough]") && x.clauseHas("tail", "end", "ends", "length", "yarn", "thread", "inch", "inches", "ins", "cm") {
			x.toClauseEnd()
		} else {
			x.p = save
		}
		if x.peek().kind == tNum && x.at(1).in(lengthUnits) {
			x.toClauseEnd() // "Cut 6 inches long"
		}
		if k := x.at(1); x.peek().kind == tWord && (k.kind == tEnd || k.isMark(",;.([")) {
			if _, n := x.stitchAt(0); n == 0 && !x.peek().isAny("turn", "join", "repeat") {
				x.p++ // the colour
			}
		}
		if x.peek().isAny("the", "here", "neatly", "both", "each", "at", "after", "first", "second", "invisibly", "with", "loosely", "securely", "this") && !x.hasStitchSoon() {
			x.toClauseEnd()
		}
		return one(OpFasten)
	}
	x.p = start
	if s := x.ring(); s != nil {
		return s
	}
	if s := x.otherSide(); s != nil {
		return s
	}
	x.p = start
	if s := x.join(); s != nil {
		return s
	}
	x.p = start
	if s := x.workedInLoops(); s != nil {
		return s
	}
	if s := x.attach(); s != nil {
		return s
	}
	if s := x.colour(); s != nil {
		return s
	}
	x.p = start
	if s := x.leaveStep(); s != nil {
		return s
	}
	x.p = start
	return nil
}

// turnsThenChains reports "turn ch 1 sc in each", where nothing parts the turn that token
// start tells from the chain behind it. "The turn ch 3" is the chain that it is turned with.
func (x *rowReader) turnsThenChains(start int) bool {
	if !x.ts[start].is("turn") || x.p != start+1 || x.at(1).kind != tNum || x.at(1).frac {
		return false
	}
	return start == 0 || x.ts[start-1].separator() || x.ts[start-1].isAny("and", "then", "n")
}

// hasStitchSoon reports whether an instruction follows in the same clause.
func (x *rowReader) hasStitchSoon() bool {
	for k := 0; k < 12; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(",.;)(") {
			return false
		}
		if _, n := x.stitchAt(k); n > 0 || t.isAny("ch", "chain") {
			return true
		}
	}
	return false
}

// clauseHas reports whether one of the words stands in this clause.
func (x *rowReader) clauseHas(words ...string) bool {
	for k := 0; k < 14; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(",.;)") {
			return false
		}
		if t.isAny(words...) {
			return true
		}
	}
	return false
}

// turnsAside reports "turn the cloth sideways", "turn the piece right side
// out": no turn of a row.
func (x *rowReader) turnsAside() bool {
	for k := 2; k < 9; k++ {
		t := x.at(k)
		if t.isAny("sideways", "out", "upside", "inside", "clockwise", "degrees") {
			return true
		}
		if t.kind == tEnd || t.isAny(",", ".", ";", "and") {
			return false
		}
	}
	return false
}

func (x *rowReader) leaveStep() []*Step {
	if x.peek().isAny("leave", "leaving") {
		return x.leave()
	}
	return nil
}

// ring = "magic ring" [ "," ] | "MR" ":" .
func (x *rowReader) ring() []*Step {
	if !x.peek().opens(opensRing) {
		return nil
	}
	start := x.p
	if x.coveredRing() || x.threadRing() || x.yarnThenRing() {
		return []*Step{{Op: OpRing, Span: x.spanFrom(start)}}
	}
	if x.phrase("make|start|begin|create|form|starting|with|into|working|work|in", "[in|into|with]", "a", "ring|circle|loop", "of") {
		if n, ok := x.number(); ok && n.N > 1 && x.accept("ch", "chain", "chains", "chs") && (x.end() || x.peek().separator()) {
			sp := x.spanFrom(start) // "Into a ring of 6 ch: ..."
			return []*Step{{Op: OpChain, N: n, Span: sp}, {Op: OpRing, Span: sp}}
		}
		x.p = start
	}
	x.phrase("make|start|begin|create|form|starting|using|with|into|working|work|in|inside", "[with|in|into|inside]", "[a|an]", "[in|into|inside]")
	x.phrase("[make|form]", "[a|an|the]")
	n, ok := x.nounAt(0)
	if x.p == start && x.p == 0 && x.peek().isAny("ring", "circle") && x.at(1).separator() {
		x.p++ // "Round 1: ring, 1 ch, 7 sc"
		return []*Step{{Op: OpRing, Span: x.spanFrom(start)}}
	}
	if x.peek().isAny("mc", "ring", "circle") && x.at(-1).isAny("with", "using", "in") {
		x.p = start
		return nil
	}
	if x.at(-1).isAny("in", "into", "inside", "a") && x.peek().isAny("mr", "mc", "magic", "adjustable", "sliding", "slip", "thread", "yarn") && x.ts[start].isAny("in", "into", "inside", "work", "working") {
		x.p += n.tokens
		x.accept("work", "make", "working")
		return []*Step{{Op: OpRing, Span: x.spanFrom(start)}}
	}
	if !ok || !n.ring || x.peek().isAny("ring", "circle") || x.peek().isAny("mc") && !x.at(1).separator() && x.at(1).kind != tNum {
		x.p = start
		return nil
	}
	x.p += n.tokens
	x.inColour()
	s := &Step{Op: OpRing, Span: x.spanFrom(start)}
	out := []*Step{s}
	x.phrase("with")
	if t := x.peek(); t.kind == tNum && !t.frac && (x.end1() || x.at(1).separator() || x.at(1).isMark("([{=")) {
		// "MC 8", "magic ring 6": so many in it
		num, _ := x.number()
		out = append(out, &Step{Op: OpWork, Stitch: x.mainStitch(), N: num, Span: x.spanFrom(start), Target: Target{Which: InRing, said: true}})
	}
	return out
}

// coveredRing takes a ring of wire or wood that a first round covers, where it is named
// before the stitches: "Over a 20 cm wire ring, work 84 sc".
func (x *rowReader) coveredRing() bool {
	start := x.p
	if x.worked || !x.accept("over", "around", "round", "onto", "on", "into", "in") || !x.accept("a", "an", "the", "your", "one") {
		x.p = start
		return false
	}
	if x.peek().kind == tNum && x.at(1).isAny("cm", "mm", "inch", "in", "\"") {
		x.p += 2
		x.accept("-", "wide", "round")
	}
	n, ok := x.nounAt(0)
	if !ok || !n.ring || n.tokens == 1 && x.at(-1).is("the") && x.ts[start].isAny("in", "into") {
		x.p = start
		return false
	}
	x.p += n.tokens
	if x.accept(","); !x.workFollows(0) && !x.peek().isAny("work", "make", "crochet", "do") {
		x.p = start
		return false
	}
	return true
}

// threadRing takes a ring that is laid of the end of the yarn and told so in words: "circle
// with thread end", "loop of the yarn tail", "ring made with the thread".
func (x *rowReader) threadRing() bool {
	start := x.p
	if x.worked {
		return false
	}
	x.phrase("make|start|begin|form|in|into|inside|with", "[with|in|into]")
	x.accept("a", "an", "the")
	if x.phrase("ring|circle|loop", "[made|formed|laid]", "with|of|from|by", "[the|your]", "thread|yarn|cotton|wool", "[end|tail]") && (x.end() || x.peek().separator()) {
		return true
	}
	x.p = start
	return false
}

// yarnThenRing takes a ring made with a yarn that is named before it: "With deep pink make
// a slip ring", "In cream, form a magic loop".
func (x *rowReader) yarnThenRing() bool {
	const longestName = 5
	if x.worked || !x.peek().isAny("with", "in", "using") {
		return false
	}
	start := x.p
	for k := 1; k <= longestName; k++ {
		switch t := x.at(k); {
		case k > 1 && t.isAny("make", "form", "start", "begin", "create", "do", "work"):
			x.p += k + 1
			x.accept("with", "by", "making")
			x.accept("a", "an", "the", "your")
			if n, ok := x.nounAt(0); ok && n.ring && !x.peek().is("mc") {
				x.p += n.tokens
				return true
			}
			x.p = start
			return false
		case t.kind != tWord && !t.is(",") || x.stitchFollows(k):
			return false
		}
	}
	return false
}

// inColour passes over the yarn a ring is made with: "magic ring in cream,",
// "in the darker grey and ...".
func (x *rowReader) inColour() {
	if !x.peek().isAny("in", "with", "using") {
		return
	}
	for k := 1; k <= 4; k++ {
		switch t := x.at(k); {
		case k > 1 && (t.kind == tEnd || t.separator() || t.isAny("and", "then")):
			if x.wordsOnly(1, k) && !x.at(1).isAny("each", "next", "first", "same", "back", "front", "blo", "flo") {
				x.p += k
			}
			return
		case t.kind != tWord || t.isAny("ring", "circle", "loop", "chain"):
			return
		}
	}
}

func (x *rowReader) end1() bool { return x.at(1).kind == tEnd }

// roundTheEnd are the words that lead round the end of a chain.
var roundTheEnd = newWordSet("now then pivot turn turning rotate spin flip swing swinging go going come coming carry carrying move moving keep continue continuing return returning work working crochet back round around along down up on in into to and so over across the your it work piece chain ch upside further do there")

// swingsRound takes "swing the work round and go back along the other side of the
// chain", however many words lead up to the side.
func (x *rowReader) swingsRound() bool {
	if !x.worked {
		return false
	}
	k := 0
	for ; !x.at(k).isAny("other", "opposite"); k++ {
		if k > 16 || !x.at(k).in(roundTheEnd) {
			return false
		}
	}
	n := x.phraseAt(k, "other|opposite", "side|edge|half", "of", "[the|your|this]", "[foundation|starting|base|beginning|original|initial|beg]", "chain|ch|chains|chs|foundation")
	if n < 0 {
		n = x.phraseAt(k, "other|opposite", "side|edge|half")
		if end := x.at(k + max(n, 0)); !end.isMark(",;:)") || k < 3 {
			return false
		}
	}
	if k < 3 {
		return false
	}
	x.p += k + n
	x.accept("with")
	return true
}

// turnsOver takes "turn work upside down", "flip the chain round", in the row that is
// worked into the foundation chain, where a mark or a stitch follows at once: the other
// side of the chain is not named, and is all that there is to work.
func (x *rowReader) turnsOver() bool {
	if !x.worked || x.above != nil {
		return false
	}
	start := x.p
	x.accept("now", "then")
	over := false
	if x.phrase("turn|flip|rotate|spin|pivot", "[the|your|it|this]", "[work|piece|chain|ch]") {
		chain := x.at(-1).isAny("chain", "ch")
		over = x.phrase("upside", "[-]", "down") || chain && x.phrase("around|round|over")
	}
	if over && x.peek().is("so") { // "so you can work the other loops"
		for k := 0; k < 12 && !x.end() && !x.peek().separator() && x.peek().kind != tNum; k++ {
			x.p++
		}
	}
	mark := x.p
	x.accept(",", ";", ":")
	x.accept("and", "then")
	x.accept("then", "work", "crochet", "do")
	if x.accept(":"); !over || x.peek().kind != tNum && !x.stitchFollows(0) || x.sideNamed() {
		x.p = start
		return false
	}
	x.p = mark
	return true
}

// sideNamed reports whether the clause ahead names the side that it is worked along.
func (x *rowReader) sideNamed() bool {
	for k := 0; x.at(k).kind != tEnd && !x.at(k).separator(); k++ {
		if x.at(k).isAny("side", "underside", "bottom", "opposite") {
			return true
		}
	}
	return false
}

// cutsShort takes "cut" where what follows is the length of the end, and no yarn is named:
// "Cut, leaving a 6-inch end.", "Break off 8 ins. from the work".
func (x *rowReader) cutsShort() bool {
	start := x.p
	if x.phrase("cut|break|clip|snip", "[off]") && (x.peek().kind == tNum && x.at(1).in(lengthUnits) || x.peek().is(",") && x.at(1).isAny("leaving", "leave")) {
		return true
	}
	x.p = start
	return false
}

// goesBefore reports the other side of the chain named behind what is worked along it,
// "sc in next 5 ch along other side of ch", with no mark between.
func (x *rowReader) goesBefore(side, work *Step, from int) bool {
	return side.Op == OpOtherSide && from > 0 && work.Op == OpWork && (work.Target.Which == Next && work.Target.Bound.Kind == NoBound || work.Target.Which == Each) &&
		x.ts[from].isAny("along", "on", "down", "across", "over", "in", "into", "up", "of", "back") && !x.ts[from-1].separator() && !x.ts[from-1].isAny("and", "then", "now", "work", "working") &&
		(x.end() || x.peek().separator() || x.peek().isMark("([{)") || x.placedAlong(work))
}

// placedAlong takes the place that follows the side where it is, "sc along the other side
// in next 14 ch", for the work before it.
func (x *rowReader) placedAlong(work *Step) bool {
	if work.Target.said || !x.peek().isAny("in", "into") {
		return false
	}
	start := x.p
	t := x.place()
	if len(t) != 1 {
		x.p = start
		return false
	}
	work.Target = t[0]
	return true
}

// otherSide = "working along opposite side of ch" .
func (x *rowReader) otherSide() []*Step {
	if !x.peek().opens(opensOther) {
		return nil
	}
	start := x.p
	if x.swingsRound() {
		return []*Step{{Op: OpOtherSide, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	x.accept("now")
	if x.phrase("turn|flip|rotate|swing", "the|your", "chain|ch|work|piece", "[upside|around|round]", "[down]", "[and]", "[then]", "[work|do|make|go|come]") && x.worked && !x.at(-1).isAny("work", "piece", "chain", "ch") {
		if _, n := x.stitchAt(0); n > 0 || x.peek().kind == tNum {
			for k := 0; k < 9 && !x.at(k).separator() && x.at(k).kind != tEnd; k++ {
				if x.at(k).isAny("side", "underside") && x.at(k-1).isAny("other", "opposite", "the") && x.at(k+1).separator() {
					// "turn the work upside down and do 5 sc along the other side"
					s := &Step{Op: OpOtherSide, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}
					w := x.work()
					x.phrase("along|on|across|down", "the", "[other|opposite]", "side|underside")
					return append([]*Step{s}, w...)
				}
			}
			return []*Step{{Op: OpOtherSide, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
		}
	}
	x.p = start
	if x.turnsOver() {
		return []*Step{{Op: OpOtherSide, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	x.accept("now")
	x.phrase("pivot|turn|rotate|spin|flip", "[the]", "[work|piece]", "[upside]", "[down|around]", "[and|to|,]", "[then]")
	x.phrase("carry|carrying|swing|swinging|move|go|come|keep", "on|round|around|back|over|going", "[and]", "[work|working]")
	x.phrase("working|work|continue|continuing|cont|go|now|crochet|sc|proceed", "[work|to|working|and]", "[back]", "[work|working]")
	if x.ts[start].is("sc") {
		x.p = start
		return nil
	}
	x.phrase("around|round")
	x.accept("now", "back", "down", "and", "work", "working", "to", "up")
	x.accept("in", "on", "along", "into", "down", "across", "to", "around", "over", "up", "of", "at")
	x.accept("the")
	if x.p > start && x.phrase("bottom|underside|back", "[edge|loops|side]", "[of]", "[the]", "[foundation|starting|base|beginning]", "[ch|chain|chains|loops]") && x.at(-1).isAny("bottom", "underside", "ch", "chain", "chains", "loops", "edge", "side") && !(x.at(-1).is("loops") && x.at(-2).is("back")) && (x.at(-1).isAny("underside", "ch", "chain", "chains") || x.ts[start].isAny("working", "work", "carry", "swing", "turn")) {
		x.accept("with")
		return []*Step{{Op: OpOtherSide, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	}
	if !x.phrase("opposite|other|unused|second|remaining|free|underside|under|reverse|back", "[side|sides|loops|loop|lps|edge]", "[of|along]", "[the]") &&
		!x.phrase("other|opposite") {
		x.p = start
		return nil
	}
	if !x.phrase("[your|the]", "[foundation|starting|base|beginning|original|beg|initial|same]", "ch|chain|chs|foundation|chains|side|loops|lps|edge", "[chain|ch|edge|sts]", "[of]", "[your|the]", "[foundation|starting|base|beginning|beg]", "[ch|chain|chs]") && !x.at(-1).isAny("side", "edge") {
		if x.peek().isAny("foundation", "base") && x.at(1).isMark(",;:.") && x.at(-1).isAny("of", "the") {
			x.p++ // "the other side of the foundation:"
		} else if !(x.peek().isMark(",;:.") || x.peek().isAny("in", "into")) || !x.at(-1).isAny("side", "edge", "loops", "of") {
			x.p = start
			return nil
		}
	}
	x.phrase("[of]", "[the]", "foundation|starting|base|beginning|beg|initial", "[ch|chain|row]")
	x.accept("with")
	return []*Step{{Op: OpOtherSide, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
}

// join = "join" [ "with sl st" ] [ place ] | "sl st" place "to join" .
func (x *rowReader) join() []*Step {
	if !x.peek().isAny("invisible", "inv", "seamless", "join", "close", "connect", "joining", "joined", "closed", "closing", "unite") {
		one := 0
		if t := x.peek(); t.kind == tNum && t.num == 1 {
			one = 1
		}
		if id, _ := x.stitchAt(one); id != stitch.Slip {
			return nil
		}
	}
	start := x.p
	s := &Step{Op: OpJoin}
	switch {
	case x.phrase("invisible|inv|seamless", "join"), x.phrase("join|close|connect|joining|joined|closed|closing|unite", "[the|each|off|this|it]", "[rnd|round|with|together|circle|ring|work|here]"):
		if x.at(-1).is("with") {
			x.p--
		}
		if x.peek().isAny("yarn", "thread", "new", "a", "b", "c", "d", "color", "colour", "cotton", "wool", "mc", "cc", "next", "contrasting", "any") && !(x.peek().is("a") && x.at(1).isAny("sl", "slip")) {
			x.p = start
			return nil
		}
		if x.peek().isAny("to", "onto", "with") {
			save := x.p
			x.p++
			_, part := x.otherPart2()
			x.p = save
			if part {
				x.p = start
				return nil
			}
		}
		x.lastLoop()
		if t := x.peek(); !x.worked && t.kind == tWord && !t.isAny("with", "in", "to", "into", "by", "and", "then", "the", "being", "without", "using", "form", "here", "as", "sl", "ss", "together") {
			x.p = start
			return nil
		}
		if x.phrase("as", "[before|usual|in|established|for]", "[before|row|rnd|round|previous]", "[rnd|round]") {
			return x.joined(s, start)
		}
		if x.phrase("with|by|using", "[a|an|the]") {
			if x.peek().kind == tNum && x.peek().num == 1 {
				x.p++
			}
			if id, n := x.stitchAt(0); n > 0 {
				x.p += n
				if id != stitch.Slip {
					// join with a tall stitch, or yarn joined with sc
					if x.worked {
						s.Stitch = id
					} else {
						x.p = start
						return nil
					}
				}
			} else if x.phrase("invisible|seamless|inv", "join|stitch") {
			} else {
				x.p = start
				return nil
			}
		} else if id, n := x.stitchAt(0); n > 0 && id == stitch.Slip {
			x.p += n
		} else if x.phrase("yarn") {
			x.p = start
			return nil
		}
		x.phrase("together")
		if pl := x.place(); len(pl) > 0 {
			s.Target = pl[0]
			if s.Target.Row != nil || !x.worked && s.Target.Which != First && s.Target.Which != TurnTop && s.Target.Which != Same {
				x.p = start // yarn joined somewhere, not a round closed
				return nil
			}
		} else if x.phrase("to|in|into|at", "[the]", "[top|beginning|beg|start|first|1st]", "[of]", "[the]") {
			if n, ok := x.nounAt(0); ok {
				x.p += n.tokens
				x.fill(&s.Target, n)
				x.qualify(&s.Target)
			} else if x.peek().kind == tOrd {
				x.ordinal(&s.Target, true)
				x.qualify(&s.Target)
			} else if x.toChains(&s.Target) {
				x.qualify(&s.Target)
			} else if x.peek().isAny("top", "beg", "beginning", "same") {
				x.p++
				x.core(false)
			} else {
				x.phrase("form|make", "[a|the]", "[ring|circle|round]")
			}
		}
		if !x.worked && s.Target.Which == Next && !s.Target.said {
			// "Join." before anything was worked: it may close the chain
		}
		return x.joined(s, start)
	}
	one := 0
	if t := x.peek(); t.kind == tNum && t.num == 1 && x.row.Kind == Round {
		one = 1 // "1 ss into 3rd of 3 ch"
	}
	id, n := x.stitchAt(one)
	if n == 0 || id != stitch.Slip || !x.worked {
		return nil
	}
	n += one
	x.p += n
	if x.phrase("[,]", "join|joining") || x.phrase("to", "join|close") {
		if pl := x.place(); len(pl) > 0 {
			s.Target = pl[0]
		} else {
			x.p = start + n
			x.phrase("to", "[the]")
			x.phrase("join|close", "[rnd|round|the]", "[rnd|round]")
			x.toPlace(s)
		}
		return x.joined(s, start)
	}
	p0 := x.p
	pl := x.place()
	if len(pl) == 0 && x.phrase("to") {
		x.p = p0
		x.toPlace(s)
		if x.p > p0 {
			pl = []Target{s.Target}
		}
	}
	if len(pl) == 1 {
		s.Target = pl[0]
		if x.phrase("[,]", "to", "join|close|finish", "[rnd|round|the]", "[rnd|round]") || x.phrase("[,]", "join|joining", "[rnd|round]") || x.phrase("(", "join|joined", ")") {
			return x.joined(s, start)
		}
		// "sl st in first sc" at the end of what was worked closes the round
		if x.worked && x.begunThing(p0) && x.roundEnd() {
			s.Target.Which, s.Target.N = First, Num{N: 1} // "sl st to beg cluster"
			return x.joined(s, start)
		}
		if w := pl[0].Which; (w == First || w == TurnTop || w == Nth && pl[0].Within != nil) && (pl[0].N.N <= 1 || w != First) && x.roundEnd() {
			return x.joined(s, start)
		}
	}
	if x.end() || x.peek().isMark(".") && x.at(1).kind == tEnd || x.peek().isMark(".;") && x.row.Kind == Round && len(pl) == 0 && x.bounded && x.roundEnd() {
		if len(pl) == 0 && x.row.Kind == Round {
			return x.joined(s, start) // "..., ss."
		}
	}
	x.p = start
	return nil
}

// begunThing reports whether a place, from its preposition on, is what the round was
// begun with: "to beg cluster", "in the beginning puff". The chain it was begun with is
// a place of its own.
func (x *rowReader) begunThing(from int) bool {
	k := from - x.p
	for x.at(k).isAny("in", "into", "to", "with", "the", "top", "of") {
		k++
	}
	return x.p+k > from && x.at(k).isAny("beg", "beginning", "starting", "start") && x.at(k+1).kind == tWord && !x.at(k+1).isAny("ch", "chain", "chs", "chains", "of", "t", "tch", "turning")
}

// toPlace reads "to first sc", "to top of ch 3".
func (x *rowReader) toPlace(s *Step) {
	save := x.p
	x.accept("up", "over", "across")
	if !x.accept("to", "in", "into", "with") {
		x.p = save
		return
	}
	x.accept("the")
	if t, ok := x.coreAfterTo(); ok {
		s.Target = t
		return
	}
	x.p = save
}

// coreAfterTo reads a place after a bare "to".
func (x *rowReader) coreAfterTo() (Target, bool) {
	t := Target{said: true}
	start := x.p
	ok := false
	switch w := x.peek(); {
	case w.kind == tOrd:
		ok = x.ordinal(&t, true)
	case w.isAny("top"):
		x.p++
		x.phrase("of", "[the]")
		ok = x.topOf(&t)
	case w.isAny("same", "next", "beg", "beginning", "base", "center", "centre", "middle", "last"):
		t, ok = x.core(false)
		if !ok {
			if n, k := x.nounAt(0); k {
				x.p += n.tokens
				x.fill(&t, n)
				ok = true
			}
		}
	default:
		if n, k := x.nounAt(0); k {
			x.p += n.tokens
			x.fill(&t, n)
			t.N.N = 1
			ok = true
		} else {
			ok = x.toChains(&t)
		}
	}
	if !ok {
		x.p = start
		return t, false
	}
	x.qualify(&t)
	return t, true
}

// toChains takes the chains a round began with by their number alone, "s.s. to 3
// ch.", "join to the 4-ch": their top is meant. A space or loop of chains has its
// noun behind it.
func (x *rowReader) toChains(t *Target) bool {
	n := x.chainsCounted(0)
	if n == 0 || !x.at(-1).isAny("to", "into", "in", "the", "first", "beginning", "beg", "starting", "of") || x.peek().num > 9 {
		return false
	}
	end := x.at(n)
	if end.kind != tEnd && !end.separator() && !end.isMark("([{)*=") && !end.isAny("at", "turn", "of", "with", "and", "to", "from", "fasten", "break") {
		return false
	}
	x.p += n
	t.Which, t.Of, t.said = TurnTop, nil, true
	return true
}

func (x *rowReader) joined(s *Step, start int) []*Step {
	if s.Stitch == stitch.None {
		x.phrase("with|by|using", "[a|an]", "sl|slip|ss|slst", "[-]", "[st|stitch]") // "join to first st with a slip stitch"
	}
	x.phrase("to", "join|close", "[rnd|round|the]", "[rnd|round]")
	x.phrase("[to]", "form|forming", "[a]", "ring|circle")
	x.phrase("together")
	s.Span = x.spanFrom(start)
	return []*Step{s}
}

// roundEnd reports whether nothing more is worked after this point but a
// turning chain, a total or a fastening off.
func (x *rowReader) roundEnd() bool {
	if len(x.marks) > 0 {
		return false
	}
	for k := 0; ; k++ {
		t := x.at(k)
		switch {
		case t.kind == tEnd:
			return true
		case t.separator(), t.isAny("and", "&", "then", "turn", "fasten", "off", "fo", "break", "cut", "yarn", "thread", "to", "join", "the", "rnd", "round", "do", "not", "leaving", "leave", "a", "tail", "long", "weave", "in", "ends", "end"):
		case t.isMark("([{"):
			for !t.isMark(")]}") && t.kind != tEnd {
				k++
				t = x.at(k)
			}
		case t.isAny("ch", "chain") && x.at(k+1).kind == tNum:
			k++
			if n := x.at(k + 1); n.isMark(",") {
				k++
			}
			if n := x.at(k + 1); n.kind != tEnd && !n.isAny("turn", ".", ";", "(", "[", "and", "-", "=") {
				return false
			}
		case t.kind == tNum:
			return true // a total
		default:
			return false
		}
	}
}

// attach = "join" [ yarn ] [ "with" ( "sl st" | stitch ) ] place | "attach yarn" place | "standing sc" place .
func (x *rowReader) attach() []*Step {
	if !x.peek().opens(opensAttach) {
		return nil
	}
	start := x.p
	x.phrase("with|using", "[the]", "[color|colour|yarn]", "a|b|c|d|e|f|g|mc|cc|color|colour|yarn|rs|ws", "[facing|a|b|c|d|e]", "[,]")
	x.phrase("with", "[the]", "rs|ws|right|wrong", "[side]", "[side]", "[of]", "[work]", "[facing]", "[you]", "[,]")
	x.phrase("rs|ws", "facing", "[you]", "[,]")
	x.accept(",")
	if x.yarnPlaced(start) {
	} else if x.phrase("new", "col|color|colour|yarn", "[.]", "in|into") {
		x.p--
	} else if !x.phrase("join|attach|rejoin|reattach|connect|connecting|tie|fasten|joining|insert|fix|start", "[in|on]", "[the]", "[new|next|contrasting|main|same|second|your|color|colour]", "[color|colour|yarn|thread|cotton|wool]", "[a|b|c|d|e|f|mc|cc|yarn|on]", "[again|of]") {
		if !x.phrase("re", "-", "join|attach", "[yarn|thread]") {
			x.p = start
			return nil
		}
	}
	x.articleBack()
	s := &Step{Op: OpAttach}
	x.phrase("color|colour|yarn", "[a|b|c|d|e|f]")
	x.yarnWords()
	x.colourWord()
	x.accept(",")
	if x.peek().isAny("to", "at", "onto", "with") {
		x.p++
		if t, ok := x.otherPart2(); ok {
			s.Target = t
			if x.phrase("with|by|using", "[a|an]") {
				if x.peek().kind == tNum {
					x.p++
				}
				if id, n := x.stitchAt(0); n > 0 {
					x.p += n
					s.Stitch = id
				}
			}
			s.Span = x.spanFrom(start)
			s.Text = x.src.Slice(s.Span)
			return []*Step{s}
		}
		x.p--
	}
	if x.phrase("with|by|using", "[a|an]") {
		x.phrase("standing|stdg")
		if id, n := x.stitchAt(0); n > 0 {
			x.p += n
			if id != stitch.Slip {
				s.Stitch = id
			}
		} else {
			x.p--
			x.colourWord()
		}
	} else if id, n := x.stitchAt(0); n > 0 && id == stitch.Slip {
		x.p += n
	}
	pl := x.joinedInLoops()
	if pl == nil {
		pl = x.place()
	}
	if len(pl) == 0 {
		if x.phrase("to|at", "one|any", "of", "[the|these|those]") || x.phrase("to|at", "[the|a|any]") {
			if t, ok := x.coreAfterTo(); ok {
				pl = []Target{t}
			} else {
				x.placeInWords(s)
			}
		} else if x.peek().isAny("in", "into") && x.at(1).isAny("the", "first", "last", "edge", "any") {
			x.placeInWords(s) // "in first skipped st of Rnd 1"
		}
	} else if x.peek().is("of") && x.at(1).is("the") && x.at(2).kind == tNum && pl[0].Row == nil {
		pl = nil
		x.placeInWords(s) // "in the first of the 2 underarm ch"
	}
	if len(pl) == 0 && x.at(-1).isAny("to", "the") {
		pl = nil
	}
	if len(pl) > 0 {
		s.Target = pl[0]
	} else if s.Stitch == stitch.None && !s.Target.said {
		s.Target.Which = Anywhere
	}
	if x.phrase("with|by|using", "[a|an]") {
		if id, n := x.stitchAt(0); n > 0 {
			x.p += n
			if id != stitch.Slip {
				s.Stitch = id
			}
		}
	}
	s.Span = x.spanFrom(start)
	s.Text = x.src.Slice(s.Span)
	return []*Step{s}
}

// articleBack gives back the article of a place that was taken for the letter of a yarn,
// "join in a ch-1 sp".
func (x *rowReader) articleBack() {
	if !x.at(-1).is("a") {
		return
	}
	n, ok := x.nounAt(0)
	if !ok || n.ring || x.at(n.tokens).is("yarn") {
		return
	}
	if x.p--; x.at(-1).isAny("in", "on") {
		x.p--
	}
}

// fastensOn reports yarn that is fastened to where the work begins, "fasten thread at
// right-hand corner", "tie cotton to the edge", and not cut.
func (x *rowReader) fastensOn() bool {
	if !x.peek().isAny("fasten", "tie") || x.at(1).is("off") {
		return false
	}
	k := 1
	for k < 4 && x.wordsOnly(k, k+1) && !x.at(k).isAny("in", "into", "to", "at", "on", "and") {
		k++
	}
	if k == 1 || !x.at(k).isAny("in", "into", "to", "at") {
		return false
	}
	return !x.worked || x.at(k+1).isAny("any", "first", "next", "last", "same", "right-hand") || x.at(k+1).kind == tOrd
}

// yarnPlaced reports "with C in any corner sp:", "with cream in any st": yarn
// joined where no word says so.
func (x *rowReader) yarnPlaced(start int) bool {
	if !x.ts[start].isAny("with", "using") || x.worked {
		return false
	}
	if x.p == start {
		x.p++
	}
	for k := 0; k < 3 && x.peek().kind == tWord && !x.peek().isAny("in", "into") && x.wordsOnly(0, 1); k++ {
		x.p++
	}
	if x.p > start+1 && x.peek().isAny("in", "into") && x.at(1).isAny("any", "a") {
		return true
	}
	if x.p = start; x.phrase("with|using", "[the]", "[color|colour|yarn]", "a|b|c|d|e|f|g|mc|cc|color|colour|yarn|rs|ws", "[facing|a|b|c|d|e]", "[,]") {
		x.accept(",")
	}
	return false
}

// placeInWords passes over where yarn is joined, told in words that name no
// place of the row below: what is worked from there is free.
func (x *rowReader) placeInWords(s *Step) {
	for !x.end() && !x.peek().isMark(",;.:)") {
		if _, n := x.stitchAt(1); x.peek().is("and") && (n > 0 || x.at(1).isAny("work", "ch", "crochet", "evenly")) {
			break
		}
		x.p++
	}
	s.Target = Target{Which: Anywhere}
}

// yarnNames are what a yarn is called, whatever its colour.
var yarnNames = newWordSet("color colour yarn thread cotton wool shade strand")

// yarnWords takes a yarn that is told in more than one word: "border color", "the
// dark edging yarn", up to where it is joined.
func (x *rowReader) yarnWords() {
	k := 0
	for k < 4 && x.at(k).kind == tWord && !x.at(k).in(yarnNames) {
		if t := x.at(k); t.in(prepositions) || t.isAny("to", "at", "with", "and", "by", "around", "between", "from", "turn", "ch", "any", "each", "next", "same", "first", "last") || x.stitchFollows(k) {
			return
		}
		k++
	}
	if k == 0 || !x.at(k).in(yarnNames) {
		return
	}
	if k++; x.at(k).kind == tWord && len(x.at(k).text) == 1 {
		k++ // "edging colour c"
	}
	if x.at(k).isAny("in", "into", "to", "with", "at", "on", "between", "around", ",") {
		x.p += k
	}
}

// colourWord takes one word that may be the name of a colour.
func (x *rowReader) colourWord() {
	if n := x.yarnNamed(0); n > 0 {
		x.p += n
		return
	}
	t := x.peek()
	if t.kind != tWord || t.isAny("in", "into", "to", "at", "on", "with", "and", "from", "sl", "ss", "by", "around", "through", "between", "over", "turn", "ch", "fasten", "the", "using", "of") {
		return
	}
	if _, n := x.stitchAt(0); n > 0 {
		return
	}
	if x.at(1).isAny("in", "to", "with", "at", ",", "on", "into", "yarn", "between", "around") || x.end1() || x.at(1).separator() {
		x.p++
		x.accept("yarn")
	} else if x.at(1).isAny("and", "then") && x.capital(t) && (x.at(2).isAny("work", "ch", "make", "rep", "repeat") || x.at(2).kind == tNum || x.stitchFollows(2)) {
		x.p++ // "join Foam and work 90 sc"
	}
}

// colour = ( "with" | "change to" | "using" ) name .
func (x *rowReader) colour() []*Step {
	if !x.peek().opens(opensColour) {
		return nil
	}
	start := x.p
	switch {
	case x.yarnTaken():
		return []*Step{{Op: OpColour, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	case x.phrase("change|switch|changing|switching|swap", "[to]", "[the]", "[color|colour|colors|colours|yarn]", "[to|a|b|c|d|e]"):
	case x.phrase("cc|col|colour|color", "to"):
	case x.cutColour(), x.colourBehind():
		return []*Step{{Op: OpColour, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	case x.phrase("pick|drop|carry|cut|carrying|dropping|join", "up|color|colour|a|b|c|d|e|mc|cc|yarn"):
	case x.phrase("with|in|using", "color|colour|yarn|col|a|b|c|d|e|f|g|h|mc|cc"):
		if x.at(-1).isAny("a") && !x.peek().separator() && !x.peek().isAny("ch", "make", "sc", "dc", "work", "rs", "and") {
			if _, n := x.stitchAt(0); n > 0 || x.peek().kind == tWord {
				x.p = start
				return nil
			}
		}
	case x.inYarn():
		return []*Step{{Op: OpColour, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	case x.hookNote():
		return []*Step{{Op: OpNote, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	case x.phrase("with|using"):
		// a colour by name, up to the comma: "with foam, ch 20"
		k := 0
		if n := x.yarnClause(); n > 0 {
			x.p += n
			return []*Step{{Op: OpColour, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
		}
		for k < 8 && (x.at(k).kind == tWord || x.at(k).kind == tOrd) && !x.at(k).isAny("in", "into", "ch", "chain") {
			if _, n := x.stitchAt(k); n > 0 {
				x.p = start
				return nil
			}
			k++
		}
		if k == 0 || !x.at(k).isAny(",", ";", ":", "-", "ch", "chain") && !(k == 1 && x.at(k).kind == tNum && x.stitchFollows(k+1)) {
			x.p = start
			return nil
		}
		x.p += k
		return []*Step{{Op: OpColour, Span: x.spanFrom(start), Text: x.src.Slice(x.spanFrom(start))}}
	default:
		return nil
	}
	for k := 0; k < 12 && !x.end() && !x.peek().isMark(",;.)]:*"); k++ {
		if k == 0 && x.at(-1).isAny("a", "b", "c", "d", "e", "f", "mc", "cc") {
			if _, n := x.stitchAt(0); n > 0 || x.peek().isAny("ch", "work", "and", "make", "join") {
				break
			}
		}
		if k > 0 && x.peek().isAny("and", "then") && (x.at(1).isAny("work", "ch", "make", "rep", "repeat") || x.at(1).kind == tNum || x.stitchFollows(1)) {
			break // "change to white and work 1 dc in each stitch"
		}
		if x.rowsNamed() {
			break
		}
		if x.peek().isMark("(") {
			for !x.end() && !x.peek().isMark(")") {
				x.p++
			}
		}
		x.p++
	}
	sp := x.spanFrom(start)
	return []*Step{{Op: OpColour, Span: sp, Text: x.src.Slice(sp)}}
}

// yarnClause is the length of "size 10 thread", "two strands of yarn", up to
// the comma.
func (x *rowReader) yarnClause() int {
	yarn := false
	for k := 0; k < 9; k++ {
		t := x.at(k)
		yarn = yarn || t.isAny("thread", "yarn", "wool", "cotton", "strand", "strands")
		if t.isAny(",", ";", ":", "ch", "chain") {
			if !yarn {
				return 0
			}
			return k
		}
		if t.kind != tWord && t.kind != tNum {
			return 0
		}
	}
	return 0
}

// hookNote takes "using the 4 mm hook".
func (x *rowReader) hookNote() bool {
	if t := x.peek(); t.kind == tNum && x.at(1).isAny("mm") && x.at(2).is("hook") {
		x.p += 3 // "with MC and 6.0mm hook"
		return true
	}
	if !x.peek().isAny("using", "with", "use") {
		return false
	}
	for k := 1; k < 9; k++ {
		t := x.at(k)
		if t.isAny("hook", "needle") {
			x.p += k + 1
			return true
		}
		if t.kind == tEnd || t.isAny(",", ";", ".", "ch", "chain") {
			return false
		}
	}
	return false
}

// placeFirst = preposition place [ "work" | "make" ] step { "," step } .
//
// Old booklets name the place before what goes into it.
func (x *rowReader) placeFirst() []*Step {
	start := x.p
	if !x.peek().isAny("in", "into", "over", "around", "through", "between", "on", "under", "work", "working", "make", "knit", "crochet") {
		return nil
	}
	x.accept("work", "working", "make", "knit", "crochet")
	if s := x.placesFirst(); s != nil {
		return s
	}
	t, ok := x.core(true)
	if !ok {
		x.p = start
		return nil
	}
	if x.peek().isAny("tog", "together", "as") {
		x.p = start
		return nil // "work the first 2 dc tog"
	}
	if b, ok := x.bound(); ok {
		t.Bound = b
	}
	x.hookCounts = Counts{}
	x.placeRemark(t.Which == FromHook)
	counts := x.hookCounts
	x.hookCounts = Counts{}
	x.accept(",", ":")
	x.accept("work", "make", "working", "put", "place", "crochet")
	x.accept(":")
	var body []*Step
	begun, dubbed := x.lastStep, (*Step)(nil)
	for !x.end() {
		save := x.p
		for x.peek().isAny(",", "and", "&", "then") {
			x.p++
		}
		if x.peek().isMark("([") && len(body) == 0 {
			// in next sp work (2 dc, ch 2, 2 dc)
			open := x.peek().text
			x.p++
			inner := x.steps(closing(open))
			x.accept(")", "]", "}")
			if tm, ok := x.times(); ok {
				inner = []*Step{{Op: OpGroup, Body: inner, Times: tm, Span: x.spanFrom(save)}}
			}
			body = append(body, inner...)
			break
		}
		item := x.bareItem()
		if item == nil {
			x.p = save
			break
		}
		body = append(body, item...)
		x.worked = true
		if x.peek().isMark("(") {
			if end := x.closer(0); end > 0 && end-x.p < 8 && x.ts[x.p+1].kind == tWord {
				made := x.madeThere(body, begun, end)
				x.nameMade(made, end)
				dubbed = made[len(made)-1]
				x.p = end + 1
			}
		}
	}
	if len(body) == 0 {
		x.p = start
		return nil
	}
	x.phrase("all", "in", "[the]", "same", "[place|st|sp|loop|space]")
	t.Span = cover(t.Span, t.Span)
	s := &Step{Op: OpInto, Body: body, Target: t, Counts: counts, Span: x.spanFrom(start)}
	if dubbed != nil && dubbed.Op == OpInto && len(dubbed.Body) == len(body) {
		s.special, s.Name = dubbed.special, dubbed.Name // all of it has the name
	}
	return []*Step{s}
}

// bareItem reads a stitch or chain that names no place of its own.
func (x *rowReader) bareItem() []*Step {
	start := x.p
	if x.peek().isAny("rep", "repeat", "skip", "sk", "miss", "turn", "join", "in", "over") {
		return nil
	}
	if s := x.picot(); s != nil {
		return s
	}
	if s := x.chain(); s != nil {
		if s[0].Op == OpChain && (x.p >= len(x.ts) || x.chainThenPlace()) && len(s) == 1 {
			// the chain leads on to the next place: it is not in this one
			x.p = start
			return nil
		}
		return s
	}
	s := x.work()
	if len(s) != 1 || s[0].Op != OpWork || s[0].Target.said {
		if len(s) == 1 && s[0].Op == OpInto && !s[0].Target.said {
			return s
		}
		x.p = start
		return nil
	}
	return s
}

// chainThenPlace reports whether what follows a chain is not another bare
// stitch, so that the chain parts this place from the next.
func (x *rowReader) chainThenPlace() bool {
	save := x.p
	defer func() { x.p = save }()
	for x.peek().isAny(",", "and", "&", "then") {
		x.p++
	}
	if s := x.picot(); s != nil {
		return false
	}
	s := x.work()
	return len(s) != 1 || s[0].Op != OpWork || s[0].Target.said
}

// picot = "picot" [ "of ch 3" ] .
func (x *rowReader) picot() []*Step {
	if !x.peek().opens(opensPicot) {
		return nil
	}
	start := x.p
	x.accept("make", "work", "a")
	n := Num{N: 3}
	if x.phrase("ch|chain", "[-]") && x.peek().kind == tNum && (x.at(1).is("picot") || x.at(1).is("-") && x.at(2).is("picot")) {
		n.N = x.peek().num
		x.p++
		x.accept("-")
	} else {
		x.p = start
		x.accept("make", "work", "a", "1", "one")
		if x.peek().kind == tNum && x.peek().num == 1 && x.at(1).isAny("picot", "p") {
			x.p++
		} else if x.peek().kind == tNum && (x.at(1).is("-") && x.at(2).isAny("ch", "picot") || x.at(1).is("ch") && x.at(2).is("picot")) {
			// "3-ch picot"
			n.N = x.peek().num
			x.p++
			x.accept("-")
			x.accept("ch")
			x.accept("-")
		}
	}
	if !x.peek().isAny("picot", "picots") && !(x.peek().is("p") && (x.at(1).separator() || x.end1())) {
		x.p = start
		return nil
	}
	x.p++
	if x.peek().isMark("([") && x.at(2).isAny("ch", "chain") || x.peek().isMark("(") && x.at(1).isAny("ch", "chain", "made") {
		if end := x.closer(0); end > 0 {
			x.p = end + 1 // how it is made
		}
	}
	x.picotOf(&n)
	s := &Step{Op: OpPicot, N: n, Span: x.spanFrom(start)}
	save := x.p
	if pl := x.place(); len(pl) > 0 && pl[0].Which != Same && pl[0].Which != TurnTop {
		if pl[0].Which == Next && pl[0].N.N <= 1 || pl[0].Which == Each {
			x.p = save
		}
	}
	return []*Step{s}
}
