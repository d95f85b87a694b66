package pattern

import "fmt"

// drawn reads a decrease told by its hands, as magazines do: "draw up a loop
// in each of next 2 sc, yo and through 3 loops on hook", "(insert hook in next
// st, draw up a loop) twice, yo, draw through all 3 loops".
//
//	drawn = loops { "," | "and" } "yo" [ "draw" ] "through" [ "all" ] number "loops" [ "on hook" ] [ "(dec made)" ] .
func (x *rowReader) drawn() []*Step {
	if !x.peek().isAny("draw", "pull", "insert", "(", "[") {
		return nil
	}
	start := x.p
	legs := x.loopsDrawn()
	for legs > 0 && legs < 20 { // "draw up a loop in next sc, draw up a loop in following sc"
		save := x.p
		for x.peek().isAny(",", "and", "&", "then") {
			x.p++
		}
		more := x.loopsDrawn()
		if more == 0 {
			x.p = save
			break
		}
		legs += more
	}
	if legs < 2 || legs > 20 {
		x.p = start
		return nil
	}
	begun := start == 0 || !x.at(start-x.p-1).isAny("yo", "yoh", "yrh", "wrh", "over") && !x.at(start-x.p-2).isAny("yo", "yoh", "yrh", "wrh", "over")
	for x.peek().isAny(",", ";", "and", "&", "then") {
		x.p++
	}
	if s := x.offAsOne(start, legs); s != nil {
		return x.repeated(start, []*Step{s})
	}
	over := x.phrase("yo|yoh|yrh|wrh") || x.phrase("yarn|thread|wool|cotton", "over|round", "[the]", "[hook]")
	for x.peek().isAny(",", "and", "&", "then") {
		x.p++
	}
	x.phrase("draw|pull|drawn")
	off := x.phrase("work|take|draw|slip", "off") || x.phrase("off") // "yarn over and off all loops"
	if !over || !off && !x.phrase("through|thru|thro") || !x.phrase("[all|the|both]", "[of]", "[the]") {
		x.p = start
		return nil
	}
	if n := x.peek(); n.kind == tNum {
		all := x.at(-1).is("all") || x.at(-2).is("all") || x.at(-3).is("all")
		if n.num != legs+1 && !(all && begun) {
			x.p = start // it is worked off in parts: a taller stitch
			return nil
		}
		x.row.loops = append(x.row.loops, loopsTold{n: Num{N: n.num, Span: n.span()}, on: legs + 1})
		x.p++
	}
	if !x.phrase("loops|lps|loop|lp|sts", "[on]", "[the]", "[hook]") {
		x.p = start
		return nil
	}
	if x.phrase("as|at", "one|once") {
		x.accept("st", "stitch")
	}
	x.decMade()
	s := &Step{Op: OpWork, Stitch: x.mainStitch(), Legs: int(legs), N: Num{N: 1}}
	s.Target = Target{Which: Next, N: Num{N: 1}, said: true}
	s.Span = x.spanFrom(start)
	return x.repeated(start, []*Step{s})
}

// offAsOne reads how loops drawn up from several stitches are worked off, "and work
// them off as 1 sc", "and work them together": the decrease that it makes, from start.
//
//	off = "work" [ "off" ] [ "them" | "both" | "all" ] [ "off" ] ( "together" | [ "together" ] "as" "one" [ stitch ] ) .
func (x *rowReader) offAsOne(start int, legs int64) *Step {
	save := x.p
	id := x.mainStitch()
	if !x.phrase("work|working|worked|take|taking", "[off]", "[them|these|both|all|the]", "[loops|lps|sts|stitches]", "[off]") {
		return nil
	}
	together := x.phrase("together|tog", "[off]")
	switch {
	case x.peek().isAny("as", "like") && (x.at(1).isAny("a", "one") || x.at(1).kind == tNum && x.at(1).num == 1 && !x.at(1).frac):
		x.p += 2
		if of, n := x.stitchAt(0); n > 0 {
			x.p += n
			id = of
		} else {
			x.accept("st", "stitch")
		}
	case !together:
		x.p = save
		return nil
	}
	x.decMade()
	return &Step{Op: OpWork, Stitch: id, Legs: int(legs), N: Num{N: 1}, Target: Target{Which: Next, N: Num{N: 1}, said: true}, Span: x.spanFrom(start)}
}

// decMade takes "(1 dec made)", "--dec made": what was just told.
func (x *rowReader) decMade() {
	start := x.p
	open := x.accept("(", "[")
	for !open && x.accept("-", ":", "=") {
		open = x.p-start > 2
	}
	x.accept("a", "one")
	if t := x.peek(); t.kind == tNum && t.num == 1 {
		x.p++
	}
	x.accept("st", "sc", "dc")
	if x.p == start || !x.phrase("dec|decrease|decreased|dec'd", "[made|completed]") {
		x.p = start
		return
	}
	if open := x.ts[start]; open.isMark("([") && !x.accept(closing(open.text)) {
		x.p = start
	}
}

// loopsDrawn takes the loops that are drawn up, one from each of so many
// stitches, and counts them; 0 where there are none.
func (x *rowReader) loopsDrawn() int64 {
	closer := ""
	if x.peek().isMark("([") {
		closer = closing(x.peek().text)
		x.p++
	}
	each := int64(1)
	place := func() bool {
		if !x.phrase("in|through|thru|from|into", "[the]") {
			return false
		}
		if x.phrase("each", "[of]", "[the]", "[next|following|last|first]") && x.peek().kind == tNum && x.peek().num > 1 || x.phrase("[the]", "first|last") && x.peek().kind == tNum {
			each = x.peek().num
			x.p++
			x.nounDrop()
			return true
		}
		if x.phrase("next|following|first") {
			if x.peek().kind == tNum {
				each = x.peek().num
				x.p++
			}
			x.nounDrop()
			return true
		}
		return false
	}
	placed := false
	if x.phrase("insert", "[the|your]", "hook") {
		if placed = place(); !placed {
			return 0
		}
		x.phrase("[,]", "[and]", "yo|yoh|yrh|wrh")
		for x.peek().isAny(",", "and") {
			x.p++
		}
	}
	if !x.phrase("draw|pull", "[up|through]", "a|the|1|one", "loop|lp", "[through]") {
		if placed && closer == "" && x.peek().isAny("work", "working", "take", "taking") {
			return each // "insert hook in each of next 2 sc and work them off as 1 sc"
		}
		return 0
	}
	if !placed && !place() {
		return 0
	}
	if closer != "" {
		if !x.accept(closer) {
			return 0
		}
		tm, ok := x.times()
		if !ok || tm.Kind != Exactly {
			return 0
		}
		return each * tm.N.N
	}
	return each
}

// loopsTold is how many loops words say to work off at once, and how many are on
// the hook by the words before them.
type loopsTold struct {
	n  Num
	on int64
}

// loopsHeld holds the loops that are worked off together, "yo and through all 3
// loops", against those that were drawn up.
func (pr *prover) loopsHeld(row *Row) {
	for i, l := range row.loops {
		if l.n.N == l.on || i > 0 && row.loops[i-1].n.Span == l.n.Span {
			continue
		}
		pr.say(Error, CodeTotal, l.n.Span, fmt.Sprintf("%s are on the hook here, and the row works off all %d", countWords(l.on, "loop", "loops"), l.n.N), fmt.Sprintf("change \"%d\" to \"%d\", or look at how many loops are drawn up", l.n.N, l.on))
	}
}
