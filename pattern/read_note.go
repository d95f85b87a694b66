package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// noteStep is the words from a token on, kept as they stand.
func (x *rowReader) noteStep(start int) *Step {
	sp := x.spanFrom(start)
	return &Step{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}
}

// noteFrom is noteStep by itself.
func (x *rowReader) noteFrom(start int) []*Step { return []*Step{x.noteStep(start)} }

// remarkFrom is noteFrom for words that are told to be a remark.
func (x *rowReader) remarkFrom(start int) []*Step {
	s := x.noteFrom(start)
	x.row.remarks = append(x.row.remarks, s[0].Span)
	return s
}

// note reads the words of a row that are no instruction to the count but are
// often met: they are kept and shown where they stand.
func (x *rowReader) note() []*Step {
	if !x.peek().opens(opensNote) {
		return nil
	}
	start := x.p
	take := func() []*Step { return x.noteFrom(start) }
	clause := func() []*Step { x.toClauseEnd(); return take() }
	sentence := func() []*Step { x.toSentenceEnd(); return take() }
	if x.peek().kind == tNum && x.peek().word && x.nounFollows(1) && x.at(2).isAny("remains", "remain", "is", "are", "left") && !x.at(3).isAny("unworked") {
		return sentence()
	}
	if x.phrase("holding|keeping|leaving|retaining|hold|keep|leave|retain", "[back]", "[on]", "[the]", "[hook]", "[the]", "last", "loop|loops|lp|lps", "[of]", "[each]", "[st|sc|dc|tr|stitch|dtr|hdc]", "[on]", "[the]", "[hook]") {
		if x.p-start >= 4 {
			if id, n := x.stitchAt(0); n > 0 && id != 0 && !x.at(n).isAny("in", "into") {
				x.p += n
			}
			x.accept("on")
			x.accept("hook")
			x.holdBack = !x.heldBack()
			return take()
		}
		x.p = start
	}
	if x.phrase("all", "in|into", "[the]", "one|same|a|1", "place|st|stitch|sp|space|loop|spot") || x.phrase("all", "in|into", "[the]", "one|same|a|1", "ch|chain", "-") && x.sizeOfSpace() {
		return take()
	}
	if x.phrase("[then]", "going|passing|working|coming", "[in]", "front|behind", "[of]", "[the|them|those|these|it]", "[sts|stitches|last]", "[just]", "[made|worked]") {
		return take() // how a cable crosses
	}
	x.p = start
	if x.phrase("[in]", "front|behind|over", "[of]", "the|them|those|these|it", "[sts|stitches|last]", "[just]", "[made|worked]", "[,|and]") && x.workFollows(0) {
		return take() // "in front of these FPtr around each of the 3 skipped sts"
	}
	x.p = start
	if x.phrase("go|going|come|coming|reach|step", "back", "[again]", "[,|and]", "[then]") && x.workFollows(0) {
		return take() // "go back and dc in the skipped st"
	}
	x.p = start
	if x.worked && x.phrase("instead|rather", "of|than") {
		return clause() // "ending with 2 sc in last st instead of 3"
	}
	if x.shapingTold() {
		return sentence()
	}
	if x.countedBefore() {
		return take()
	}
	if x.otherCount() {
		return sentence()
	}
	if x.stitchesTold() {
		return take()
	}
	if x.finishedLike() || x.patternGoesOn() {
		return take()
	}
	if n := x.nameOfMade(); n > 0 {
		x.p += n
		return take()
	}
	if x.phrase("which|that", "gives|makes|is|are|will|should|leaves|brings|give") && !x.at(-1).isAny("that") {
		return clause()
	}
	if from := x.p; x.phrase("[with]", "the", "last|final", "one|of", "[them|these]", "[being|going|goes|worked|to]", "[go]", "in|into") {
		return clause()
	} else {
		x.p = from
	}
	if x.phrase("[with]", "the", "last|final") && func() bool {
		x.nounDrop()
		return x.peek().isAny("going", "worked", "falling", "landing", "placed", "coming", "made")
	}() {
		return clause()
	}
	x.p = start
	if s := x.otherSide(); s != nil {
		return s
	}
	if x.phrase("working|making|work|placing|taking|putting", "[the]", "last|final") {
		if !x.peek().isAny("row", "rnd", "round") && x.peek().kind != tNum || x.lastOnes() {
			return clause()
		}
		x.p = start
	}
	if s := x.alternate(); s != nil {
		return s
	}
	if s := x.aside(); s != nil {
		return s
	}
	if x.peek().isAny("keep", "carry") && x.at(1).isAny("repeating", "going", "working", "doing", "on") {
		return nil
	}
	if x.worked && x.accept("in", "through", "into") {
		x.accept("the")
		if from := x.p; x.loops() && x.p > from && (x.end() || x.peek().separator() || x.peek().isMark("([")) {
			return take()
		}
		x.p = start
	}
	if x.worked && x.phrase("omit|omitting|without|leaving", "[off|out]", "[the]", "turning|tch|ch", "[ch|chain]") && (x.at(-1).isAny("tch") || x.at(-2).is("turning")) {
		return clause() // "omitting the turning ch at the end of the last row"
	}
	x.p = start
	if x.phrase("[always|and]", "counting|including|count|include|reckon") && (x.worked || x.row.Total != nil) && x.clauseHas("ch", "chs", "chain", "chains", "turning") {
		return clause()
	}
	x.p = start
	if x.beginsThere() {
		return take()
	}
	if x.alikeAgain() || x.slipsInside() {
		return sentence()
	}
	x.p = start
	switch t := x.peek(); t.text {
	case "place", "pm", "placing", "mark", "move", "remove", "put", "slip", "marking", "replace", "moving", "rm", "sm", "slide", "use", "using":
		if x.phrase("place|placing|put|position|insert", "[the]", "[safety|toy|plastic|glass|black|both]", "eye|eyes|nose") {
			return sentence()
		}
		if x.phrase("place|placing|put|move|remove|replace|moving|slide|use|using", "[a|the|your|stitch|st|beg|removable|up|another]", "[stitch|st]", "marker|markers|m|pm|marks|stitchmarker") ||
			x.phrase("pm|mark|marking|sm|rm", "[the|this|that|last|first|each|your|rnd|beg|beginning]") || x.phrase("slip|move|slide", "[the]", "marker|m") {
			return clause()
		}
		if t.text == "placing" { // "placing 2 sc in last st"
			x.p = start + 1
			if s := x.work(); s != nil {
				return s
			}
		}
	case "taking", "picking":
		if x.phrase("taking", "careful|care") {
			return sentence()
		}
		if x.phrase("taking|picking|using", "[up]", "[the|both|only|just]", "[the|only]", "both|back|front|loops|loop|under", "[the]", "[loops|loop|only|lps]", "[again|only]") {
			return take()
		}
	case "proceed":
		return clause()
	case "thread":
		if x.at(1).isAny("over", "round", "around") {
			return x.definition()
		}
		return sentence()
	case "roll", "pop", "snip", "swing", "push", "tuck", "wash", "dry", "turn",
		"stuff", "sew", "weave", "pull", "insert", "attach", "weaving", "sewing", "stuffing", "add", "embroider", "glue", "fill", "tighten", "block", "steam", "whipstitch", "whip", "fold", "flatten", "pin", "hide", "tie", "trim", "wrap", "gather", "cinch", "darn", "close", "rotate", "flip", "press", "shape", "tack", "stitch":
		switch {
		case t.text == "attach" || t.text == "tie" && !x.at(1).isAny("off") || t.text == "close":
			if t.text == "attach" || t.text == "tie" {
				if s := x.attach(); s != nil && s[0].Target.said {
					x.p = start
					return nil
				}
				x.p = start
			}
			if x.at(1).isAny("yarn", "thread", "with", "off", "new", "in", "to", "a", "b", "c", "ring", "rnd", "round") && !x.at(1).isAny("the") || x.yarnNamed(1) > 0 || x.at(2).isAny("and", ",") && x.at(1).kind == tWord && x.capital(x.at(1)) {
				break
			}
			return sentence()
		case t.text == "rotate" || t.text == "flip":
			return clause()
		case t.text == "insert" && x.at(1).isAny("hook"), t.text == "block" && (x.at(1).is("over") || x.oneMesh()):
			break
		case t.text == "stitch":
			break
		case t.text == "turn":
			if x.phrase("turn", "each|every|all", "row|rows", "with") {
				return sentence() // how rows are turned all through
			}
			if x.phrase("turn", "to", "work|working|begin|start|continue") || x.phrase("turn", "[the|your]", "cuff|work|piece|band|strip|ribbing|rib|neckband|hat|collar|brim|it|tube", "[so|sideways|on|and]", "[that|sideways|its|the|to]", "[side|long]", "[edge|you|work]") && x.ts[x.p-1].isAny("so", "you", "sideways", "side", "edge", "that", "its", "long") {
				return sentence() // which edge is worked along next
			}
			if !x.at(1).isAny("inside", "right", "upside") {
				break
			}
			return clause()
		case t.text == "pop" && x.at(1).isAny("a", "an") || t.text == "push" || t.text == "swing" || t.text == "pop" && (x.at(1).kind == tNum || x.at(1).isAny("st", "in")):
			break
		case t.text == "fold" || t.text == "pin":
			return sentence()
		case t.text == "add" && x.at(1).kind == tNum:
			break
		default:
			return sentence()
		}
	case "being", "careful", "be", "make", "making", "keeping", "keep", "note", "nb", "tip", "remember", "don't", "do", "does", "take", "check":
		switch {
		case x.phrase("[being|be|taking|take]", "careful|care|sure|certain"), x.phrase("make|making", "sure|certain"), x.phrase("keep|keeping", "[the|in|to|all|your|a]"), x.phrase("note|nb|tip|remember"):
			return sentence()
		case x.phrase("do|don't|does", "[not]", "count|stuff|cut|fasten|break|pull|twist|tighten|forget|remove|skip|miss|mark|weave|sew|work|begin|start|ch|chain|drop|slip|change|carry", "[off]"):
			return sentence()
		case x.phrase("make", "another|second|the|one|a|two", "[more|second|other]", "[leg|piece|ear|arm|wing|fin|same|identical|exactly|side]"):
			if x.at(-1).isAny("leg", "piece", "ear", "arm", "wing", "fin", "same", "identical", "exactly", "another", "second", "more", "other", "side") && !x.nounFollows(0) {
				return sentence()
			}
		}
	case "so":
		if (x.at(1).isMark("*([") || x.at(1).kind == tNum && x.stitchFollows(2)) && x.at(-1).separator() {
			x.p++ // "so *dc, sc* 20 times"
			return take()
		}
		if x.phrase("so", "[that]", "you|there|that|it|the|we|this") {
			// "so you increase 8 sts on every row - at the end of row 6 you have 94 dc"
			for !x.end() && !x.peek().isMark(",;.)]}*{=(") && !(x.peek().is("-") && !x.peek().glued) {
				x.p++
			}
			return take()
		}
	case "this", "these", "that", "it", "there", "if", "when", "for", "because", "you", "your", "here", "since", "at", "after", "before", "while", "optional", "now", "from", "all", "again":
		switch {
		case t.isAny("this", "these") && x.at(1).kind == tNum && isRowWord(x.at(2)) && !x.clauseHas("ch", "chain", "times"):
			return sentence() // "these 2 rows form the pattern"
		case x.phrase("this|these", "forms|form|completes|makes|will|creates|is|are|rnd|round|row|counts|sets|establishes|gives|brings|ends|rows|rounds|two|2|should|step|part|becomes|means"):
			return sentence()
		case t.text == "it" && x.at(1).isAny("will", "should", "is", "may", "measures"), t.text == "there" && x.at(1).isAny("will", "should", "are", "is") && !x.digitsSoon(5):
			return sentence()
		case t.text == "if" || t.text == "because" || t.text == "optional" || t.text == "when" && !x.at(1).is("working"):
			return sentence()
		case t.text == "you" && !x.digitsSoon(7) || t.text == "your":
			return sentence()
		case t.text == "now" && x.at(1).isAny("work", "working", "continue", "begin", "start", "stuff", "we", "you") && !x.at(2).isAny("around", "along", "across", "in", "on", "into", "down", "up") && !x.digitsSoon(9):
			return sentence()
		case t.text == "now" && x.phrase("now", "work|working|continue|begin|start", "[working]", "back", "and", "forth", "[in]", "[rows]"), t.text == "now" && x.phrase("now", "work|working|continue|begin|start", "[working|to]", "[work]", "in", "rows|rounds|rnds|spiral|continuous|the", "[rnds|rounds|round|rows]"):
			return take()
		case x.phrase("at", "[the]", "same", "time"):
			if s := x.meanwhile(start); s != nil {
				return s
			}
			return take()
		case x.rowEndTold():
			return take()
		case t.text == "for" && x.at(1).isAny("more", "longer", "bigger", "larger", "wider", "smaller", "other", "another"):
			return sentence()
		case t.text == "for" && x.at(1).isAny("a", "the", "best", "extra", "this", "rest", "thumb", "neck", "left", "right", "first", "second") && !x.digitsSoon(4) && !x.at(2).isAny("total", "st"):
			return clause()
		case t.text == "before" || t.text == "after" || t.text == "while":
			if !x.digitsSoon(8) {
				return clause()
			}
		case t.text == "from" && x.phrase("from", "now|here|this", "[point]", "[on|onwards|forward]", "[on]"):
			return clause()
		case t.text == "from" && x.worked && x.phrase("from", "[the]", "front|back") && (x.end() || x.peek().separator() || x.peek().is("and")):
			return take()
		case t.text == "from" && x.phrase("from", "[the]", "ws|rs|right|wrong", "[side]"):
			return take()
		}
	case "rs", "ws", "right", "wrong", "with":
		if x.worked && x.phrase("with", "[the]", "last", "[st|stitch|sc|dc|hdc|tr|htr]", "in|into") {
			return clause() // where the last one lands
		}
		if x.phrase("[with]", "[the]", "rs|ws", "[is|of]", "[work|piece|now]", "[facing]", "[you|out|up|front]") || x.phrase("[with]", "[the]", "right|wrong", "side|sides", "[is|of]", "[the|work|piece|now]", "[work|piece]", "[facing]", "[you|out|up|front]", "[together|tog]") {
			return take()
		}
	case "working", "work", "worked", "continue", "cont", "continuing", "begin", "start", "starting", "crochet", "crocheting", "carry", "carrying", "in", "into", "back", "along", "over", "across", "reverse", "up":
		switch {
		case x.phrase("[working|work|worked|continue|crocheting]", "[in|into]", "[the]", "back|front|third|3rd|blo|flo", "loop|loops|lp|lps|blo|flo", "[only]", "[throughout|around|across|now]") && (x.peek().separator() || x.end() || x.peek().isAny("around", "across") || x.workFollows(0) && x.at(-1).isAny("loop", "loops", "lp", "lps", "only")):
			x.phrase("around|across|throughout|of", "[all]", "[sts|each]", "[st]")
			return take()
		case x.phrase("working|work|worked|crochet", "[only]", "in|through|into|over|under|around|behind|across|along|with", "[the|a|all]"):
			if !x.ringNamed(0) && x.prosePlace() {
				return clause()
			}
		case x.phrase("working", "[from]", "left", "to", "right"), x.phrase("from", "left", "to", "right"), x.phrase("in", "opposite|reverse|same", "direction"):
			return take()
		case x.phrase("work|continue|cont|begin|start|working|continuing|starting", "[to|by]", "[work|working|now|crocheting]", "[back|in|as]", "[in|and]", "[a|the]", "[forth|continuous|spiral|joined]", "[in]", "rows|rounds|rnds|spiral|round|forth|row|spirals|circle|ring|established|pattern|set|manner") && (x.peek().separator() || x.end() || x.peek().isAny("and", "without", "do", "for", "until", "from", "as")):
			return sentence()
		case t.text == "carry" || t.text == "carrying":
			return clause()
		case x.phrase("up", "to", "here"):
			return take()
		case t.text == "in" && x.phrase("in", "[the]", "blo|flo|back|front", "[loop|loops|lp|lps]", "[only]") && (x.peek().separator() || x.end() || x.at(-1).isAny("blo", "flo", "loop", "loops", "lps", "lp", "only") && (x.peek().isMark("([*") || x.stitchFollows(0) || x.peek().isAny("inc", "dec"))):
			return take()
		case t.text == "in" && x.phrase("in", "this|same", "way|manner|direction|row|rnd|round") || x.phrase("in", "the", "same", "way|manner|direction"):
			return take()
		case x.phrase("begin|start", "each|every|all", "[new|of]", "[the|other]", "row|rows|rnd|rnds|round|rounds"):
			return sentence() // how the rows to come begin
		case t.text == "begin" || t.text == "start" || t.text == "starting":
			if x.phrase("begin|start|starting", "[by|with|to]", "[the|a]", "[working|decreasing|increasing|stuffing|top|body|head|decreases|increases]") && x.at(-1).isAny("decreasing", "increasing", "stuffing", "top", "body", "head", "decreases", "increases") {
				return take()
			}
			if x.phrase("begin|start", "[in|at]", "[the]", "[same|first|next|center|centre|here]") && (x.peek().separator() || x.end()) {
				return take()
			}
		}
	case "blo", "flo", "bl", "fl", "loosely", "evenly", "tightly", "gently", "throughout", "everywhere", "repeatedly", "beg", "mr":
		if t.text == "mr" && !x.worked {
			break // "mr, ch 2, 12 dc"
		}
		if x.at(1).separator() || x.end1() || t.isAny("loosely", "throughout") || t.isAny("blo", "flo") && x.at(1).kind != tPunct {
			x.p++
			x.accept("only", "throughout")
			return take()
		}
	case "photo", "see", "picture", "video", "fig", "figure", "refer", "nb:", "finished", "finish", "complete", "done", "end", "ends", "edging", "approx", "approximately", "total", "leaving", "left", "right-handed", "secure", "securing", "both", "pick", "drop", "dropping", "alternating", "alternate", "always", "every", "each", "as":
		switch {
		case t.isAny("photo", "see", "picture", "video", "fig", "figure", "refer", "secure", "securing"):
			return sentence()
		case t.isAny("leaving") && x.clauseHas("tail", "yarn"):
			return clause()
		case x.phrase("leaving|leave", "[a|an]", "[long|short|very]", "[long]", "[yarn]", "tail|end|length", "[of|for]"):
			return sentence()
		case x.phrase("end|ends", "[of]", "[row|rnd|round|piece|leg|pattern]") && (x.peek().separator() || x.end()):
			return take()
		case x.yarnTaken():
			x.p = start
			return nil
		case x.phrase("pick|drop|dropping", "[up]", "[a|b|the|c|mc|cc|old|color|colour|yarn]") && x.p-start >= 2:
			return clause()
		case t.isAny("alternating", "alternate") && !x.hasStitchSoon():
			return clause()
		case x.phrase("as", "[you]", "go|before|established|usual|set|needed|pictured|shown|desired"):
			return take()
		case x.phrase("both", "ends|sides"):
			return take()
		}
	case "yo", "yoh", "yrh", "draw", "yarn":
		return x.definition()
	}
	x.p = start
	return nil
}

// nameOfMade is the length of "picot made", "first shell completed": what was
// just made, by its name.
func (x *rowReader) nameOfMade() int {
	if x.lastStep == nil {
		return 0
	}
	k := 0
	for x.at(k).isAny("a", "an", "one", "the", "first", "beginning", "beg") || x.at(k).num == 1 && x.at(k).kind != tWord {
		k++
	}
	n, ok := x.nounAt(k)
	if !ok || n.ring || !x.at(k+n.tokens).isAny("made", "completed", "formed", "complete") {
		return 0
	}
	if after := x.at(k + n.tokens + 1); after.kind != tEnd && !after.separator() && !after.isMark(")]*") && !after.head {
		return 0
	}
	return k + n.tokens + 1
}

// digitsSoon reports whether a number stands within the next n words.
func (x *rowReader) digitsSoon(n int) bool {
	for k := 0; k < n; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(".;)]") {
			return false
		}
		if t.kind == tNum {
			return true
		}
	}
	return false
}

// prosePlace reports whether "working in ..." goes on to say only where, with
// no count of its own: "working over the ends", "working behind petals".
func (x *rowReader) prosePlace() bool {
	for k := 0; k < 20; k++ {
		t := x.at(k)
		switch {
		case t.kind == tEnd || t.isMark(",;:.)"):
			return true
		case t.kind == tNum && !t.isAny("one", "two"), t.isAny("each", "next", "every"):
			return false
		}
		if _, n := x.stitchAt(k); n > 0 && k > 0 && x.at(k-1).kind == tNum {
			return false
		}
	}
	return false
}

// stitchesTold takes a clause that tells which stitches come over which, before the work
// that does it: "now put dc on the sc and sc on the dc, so *dc, sc* 20 times".
func (x *rowReader) stitchesTold() bool {
	start := x.p
	if x.phrase("[now]", "put|place", "[a|an]") && x.stitchFollows(0) {
		for k := 0; k < 16; k++ {
			if t := x.at(k); t.kind != tWord || t.isAny("in", "next") {
				if t.is(",") && x.at(k+1).isAny("so", "thus") && x.at(k+2).isMark("*([") {
					x.p += k
					return true
				}
				break
			}
		}
	}
	x.p = start
	return false
}

// definition folds "yo, insert hook in next st, draw up a loop, ..." into a
// note: it says how a stitch is made, with stars and times of its own. It ends where the
// loops are worked off and the row goes on, "yo and draw through all loops, ch 3".
func (x *rowReader) definition() []*Step {
	start := x.p
	if x.peek().isAny("yarn", "thread") && !x.at(1).isAny("over", "round") {
		return nil
	}
	if x.peek().is("draw") && !x.at(1).isAny("up", "through", "yarn", "loop") {
		return nil
	}
	for off := false; !x.end() && !x.peek().isMark("(;."); x.p++ {
		if t := x.peek(); t.isAny("through", "thru", "thro") {
			off = true
		} else if off && t.is(",") && x.clusterClosed() {
			break
		} else if off && t.isMark(",*") && x.rowGoesOn() {
			break
		}
	}
	return x.noteFrom(start)
}

// rowGoesOn reports whether plain work stands behind the mark that ends how a stitch is
// made by its hands: chains, a skip, stitches with their place.
func (x *rowReader) rowGoesOn() bool {
	k := 1
	for x.at(k).isAny("and", "then", "*") {
		k++
	}
	switch t := x.at(k); {
	case t.isAny("ch", "chain"):
		return x.at(k+1).kind == tNum || x.at(k+1).is("-") && x.at(k+2).kind == tNum
	case t.isAny("skip", "sk", "miss", "turn", "join"):
		return true
	}
	return x.clauseOfWork(k)
}

func (x *rowReader) toClauseEnd() {
	depth, start := 0, x.p
	for !x.end() {
		t := x.peek()
		if depth == 0 && (t.isMark(",;.)]}*{=") || t.isMark("([") && x.totalLike()) || t.head && x.p > start && x.rowCapital() {
			return
		}
		if t.isMark("([") {
			depth++
		}
		if t.isMark(")]") {
			depth--
		}
		x.p++
	}
}

// toSentenceEnd goes to the full stop, or to a bracket that closes before it.
func (x *rowReader) toSentenceEnd() {
	depth, start := 0, x.p
	for !x.end() {
		t := x.peek()
		if depth == 0 && (t.isMark(".)]};{=") || t.isMark("([<") && x.totalLike() || t.is("-") && !t.glued && x.totalLike()) {
			return
		}
		if depth == 0 && t.is(",") && x.clauseOfWork(1) {
			return // a remark does not swallow the work behind it
		}
		if t.head && x.p > start && x.rowCapital() || depth == 0 && t.is("and") && x.at(1).isAny("work", "crochet") && x.stitchFollows(2) {
			return
		}
		if t.isMark("([") {
			depth++
		}
		if t.isMark(")]") {
			depth--
		}
		x.p++
	}
}

// clauseOfWork reports whether the clause that begins k tokens on is work that
// could be nothing else: "sc around", "3 sc in next st", "inc in each st".
func (x *rowReader) clauseOfWork(k int) bool {
	if x.at(k).isAny("work", "make", "working") && x.at(k+1).kind == tNum {
		k++
	}
	if x.at(k).kind == tNum && !x.at(k).frac {
		k++
	}
	n := 0
	if x.at(k).isAny("inc", "dec") {
		n = 1
	} else if id, k := x.stitchAt(k); k > 0 && id != stitch.Slip {
		n = k
	}
	if n == 0 || x.at(k).isAny("plain", "slip", "double", "single", "treble", "half", "star", "shell", "spike") {
		return false
	}
	k += n
	return x.at(k).kind == tNum || x.at(k).isAny("in", "into", "around", "across", "each", "evenly", "x", "to", "along", "over")
}

// rowCapital reports whether the token begins its line with a capital.
func (x *rowReader) rowCapital() bool {
	c := x.src.Text[x.peek().start]
	return 'A' <= c && c <= 'Z'
}

// totalLike reports whether a bracket here begins with a number.
func (x *rowReader) totalLike() bool { return x.at(1).kind == tNum }

// lateNote takes, after all else failed, phrases that carry no count.
func (x *rowReader) lateNote() []*Step {
	start := x.p
	if x.peek().kind != tWord {
		return nil
	}
	// words up to the next mark, none of which could be an instruction
	for k := 0; ; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isAny(",", ";", ".", ":", ")", "]", "}", "(", "[", "*", "**", "{") || t.is("=") && x.at(k+1).kind == tNum {
			if k == 0 {
				return nil
			}
			x.p += k
			break
		}
		if k > 0 && strings.HasSuffix(x.peek().text, "ing") && t.isAny("in", "into", "across", "around") && !x.at(k+1).isAny("each", "every", "next") {
			continue
		}
		if t.kind == tNum || t.kind == tOrd || t.isAny("in", "into", "each", "every", "times", "ch", "next", "skip", "sk", "inc", "dec", "twice", "rep", "repeat", "turn", "join", "across", "around") {
			return nil
		}
		if _, n := x.stitchAt(k); n > 0 {
			return nil
		}
	}
	return x.remarkFrom(start)
}

// sizeOfSpace takes the rest of "ch-2 space" after its dash.
func (x *rowReader) sizeOfSpace() bool {
	if x.peek().kind != tNum || !x.at(1).isAny("sp", "sps", "space", "loop", "lp", "arch") {
		return false
	}
	x.p += 2
	return true
}
