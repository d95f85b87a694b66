package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

const maxDepth = 200 // nesting beyond this is refused, not followed

// row = [ total ] { step | separator } [ total ] .
func (x *rowReader) readRow() {
	x.totalFirst()
	x.row.Steps = x.steps("")
	for !x.end() { // a bracket that closes nothing
		x.p++
		x.row.Steps = append(x.row.Steps, x.steps("")...)
	}
	x.settleTotal()
	x.settleSides()
	inPassOrder(x.row.Steps)
	x.settleEvery()
	x.settleUntil()
	x.settleLoneChange()
	x.fillAlone(x.row.Steps)
}

// steps reads as far as the closing bracket or mark given, or the end.
func (x *rowReader) steps(closer string) []*Step {
	var out []*Step
	if x.depth++; x.depth > maxDepth {
		x.skipTo(closer)
		x.depth--
		return out
	}
	defer func() { x.depth-- }()
	for !x.end() && x.spend(1) {
		t := x.peek()
		if closer != "" && t.is(closer) {
			break
		}
		if t.isMark(")]}") {
			if closer == ")" || closer == "]" || closer == "}" {
				break // mismatched, as print often is
			}
			x.p++
			continue
		}
		if n := x.cornersBeside(); n != nil {
			out = append(out, n...)
			continue
		}
		if x.totalAhead(out) {
			continue
		}
		if s := x.edgingTold(); s != nil {
			out = append(out, s...)
			x.remember(s)
			continue
		}
		if t.opens(opensChain|opensNote) && x.chainBetween(out) {
			continue
		}
		if t.separator() || x.spacedPlus() || t.opens(opensJoint) && x.connector() {
			x.p++
			continue
		}
		before := x.p
		if stop := x.closesMark(closer, out); stop {
			break
		}
		if n := x.lastWhere(); n != nil {
			out = append(out, n)
			continue
		}
		if n := x.skippedCount(out); n != nil {
			out = append(out, n)
			continue
		}
		if n := x.chainTold(out); n != nil {
			out = append(out, n...)
			continue
		}
		if n := x.nameTold(out); n != nil {
			out = append(out, n)
			continue
		}
		if n := x.talk(); n != nil {
			out = append(out, n)
			continue
		}
		if n := x.firstBeing(); n != nil {
			out = append(out, n)
			continue
		}
		if n := x.sideHas(); n != nil {
			out = append(out, n)
			continue
		}
		if n := x.measureTold(); n != nil {
			out = append(out, n)
			continue
		}
		made := x.step(out)
		if n := len(out); n > 0 && len(made) == 1 && x.goesBefore(made[0], out[n-1], before) {
			out = append(out[:n-1], made[0], out[n-1])
			continue
		}
		if n, list := x.listInPlace(out, made, before); n > 0 {
			out = out[:len(out)-n]
			if along := x.along(out, []*Step{list}); along != nil {
				out, list = out[:len(out)-1], along // "dc in each dc, and dc, ch 2, dc in every corner sp"
			}
			out = append(out, list)
			x.remember([]*Step{list})
			continue
		}
		if fill := x.fillList(out, made); fill != nil {
			out = append(out[:len(out)-len(fill.Body)+1], fill)
			x.remember([]*Step{fill})
			continue
		}
		if list := x.runTogether(out, made); list != nil {
			out = append(out[:len(out)-len(list.Body)+1], list)
			x.remember([]*Step{list})
			continue
		}
		if len(made) == 2 && worksInChains(made[1]) {
			if along := x.along(made[:1], made[1:]); along != nil {
				made = []*Step{along} // "dc in each dc and in each of the 2 ch"
			}
		}
		if along := x.along(out, made); along != nil {
			out[len(out)-1] = along
			x.remember([]*Step{along})
			continue
		}
		if n := len(out); n > 1 && out[n-1].Op == OpNote && strings.HasPrefix(out[n-1].Text, "(") {
			// "sc in each st around (the top of a popcorn is one), 3 sc in each corner sp"
			if along := x.along(out[:n-1], made); along != nil {
				out[n-2] = along
				x.remember([]*Step{along})
				continue
			}
		}
		if x.p == before { // nothing understood: take words as they are
			made = x.unknown()
		}
		if out == nil && len(made) > 0 {
			out = make([]*Step, 0, 6) // few lists are longer
		}
		for _, s := range made {
			if s.Op == OpGroup && s.Times.Kind != Once && s.Text == "rest" {
				// "sc in next, inc; repeat to end": all since the row began
				s.Text = ""
				out = x.wrapRest(out, s)
				continue
			}
			if s.Op == OpGroup && s.Text == cycleText {
				s.Text = ""
				out = x.wrapCycle(out, s)
				continue
			}
			out = append(out, s)
		}
		x.remember(made)
	}
	return out
}

// listInPlace makes one group of "2 dc, ch 2 and 2 dc in corner sp": the
// things before "and" go where the last one goes. It gives how many of the
// steps before are part of it.
func (x *rowReader) listInPlace(out, made []*Step, from int) (int, *Step) {
	if len(made) != 1 || made[0].Op != OpWork || !made[0].Target.said || from == 0 || !x.ts[from-1].isAny("and", "&") && !x.saidAll(from) && !x.begunThere(out, from) && !mirrors(out, made[0]) && !besideEach(out, made[0]) || made[0].Legs > 0 {
		return 0, nil
	}
	if w := made[0].Target; w.Which != Next && w.Which != Last && w.Which != Same && w.Which != Each && w.Which != Centre || w.N.N > 1 && !(w.Which == Next && len(w.Of) == 1 && w.Of[0].Kind == Space && mirrors(out, made[0])) {
		return 0, nil
	}
	n, chain := 0, false
	for n < len(out) && n < 6 {
		s := out[len(out)-1-n]
		if s.Op == OpChain && !s.Counts.Said || s.Op == OpPicot || s.Op == OpWork && !s.Target.said && s.Legs == 0 && s.Stitch != stitch.Slip {
			chain = chain || s.Op == OpChain || s.Op == OpPicot
			n++
			continue
		}
		break
	}
	begins := (x.saidAll(from) || x.begunThere(out, from)) && notBegun(out[:len(out)-n])
	for n > 0 && out[len(out)-n].Op == OpChain && !begins {
		n-- // it begins with a stitch
	}
	if n < 2 || !chain || begins && n == 2 && out[len(out)-1].Op != OpChain && out[len(out)-2].Op == OpChain {
		return 0, nil
	}
	body := append([]*Step(nil), out[len(out)-n:]...)
	last := *made[0]
	last.Target = Target{Which: Next, N: last.N}
	last.N = Num{N: 1}
	body = append(body, &last)
	return n, &Step{Op: OpInto, N: Num{N: 1}, Body: body, Target: made[0].Target, Span: cover(body[0].Span, made[0].Span)}
}

// begunThere reports "ch 3, tr, ch 2, 2 tr in that corner" at the start of a
// round: its first stitches go where the last of them does.
func (x *rowReader) begunThere(out []*Step, from int) bool {
	n := len(out)
	if x.row.Kind != Round {
		return false
	}
	for n > 0 && (out[n-1].Op == OpChain && !out[n-1].Counts.Said || out[n-1].Op == OpWork && !out[n-1].Target.said && out[n-1].Legs == 0 && out[n-1].Stitch != stitch.Slip) {
		n--
	}
	list := out[n:]
	if len(list) < 3 || list[0].Op != OpChain || list[len(list)-1].Op != OpChain || n == 0 || !notBegun(out[:n]) {
		return false
	}
	for i := from; i+1 < x.p; i++ {
		if x.ts[i].isAny("that", "same", "this") && x.ts[i+1].isAny("corner", "sp", "space", "loop", "lp", "ch") {
			return true
		}
	}
	return false
}

// notBegun reports whether steps only lead to where a round begins.
func notBegun(steps []*Step) bool {
	for _, s := range steps {
		if makesStitches(s) && s.Stitch != stitch.Slip {
			return false
		}
	}
	return true
}

// besideEach reports the end of "dc, ch 2, dc in every corner sp" behind "dc in each dc":
// the stitch and the chain before it have no other place there.
func besideEach(out []*Step, last *Step) bool {
	n := len(out)
	if n < 3 || last.Target.Which != Each || len(last.Target.Of) != 1 || last.Target.Of[0].Kind != Space || out[n-1].Op != OpChain {
		return false
	}
	first, each := out[n-2], out[n-3]
	return first.Op == OpWork && !first.Target.said && first.Legs == 0 && first.Stitch == last.Stitch && eachStep(each) && each.Target.Bound.Kind == NoBound && stitchesOnly(each.Target.Of)
}

// mirrors reports the end of "2 tr, 2 ch, 2 tr into corner sp": as many of the same
// stitch stand bare on the other side of a chain, and would have no place there.
// Where the place is one worked into already the chain before them may stand for
// one: "3 ch, 1 tr, 2 ch, 2 tr into same sp".
func mirrors(out []*Step, last *Step) bool {
	n := len(out)
	if n < 2 || out[n-1].Op != OpChain || out[n-1].Counts.Said || out[n-2].Op != OpWork || last.N.N < 2 || last.N.Sizes != nil {
		return false
	}
	first := out[n-2]
	if first.Target.said || first.Legs > 0 || first.Stitch != last.Stitch || first.N.N != 1 || first.Target.N.Sizes != nil {
		return false
	}
	begun := n > 2 && out[n-3].Op == OpChain && last.Target.Which == Same
	return first.Target.N.N == last.N.N || begun && first.Target.N.N == last.N.N-1
}

// fillList makes a repeat of "3 sc, 1 inc all round": a list of bare stitches
// whose last one runs to the end is all of it meant to.
func (x *rowReader) fillList(out, made []*Step) *Step {
	if len(made) != 1 || made[0].Op != OpWork || made[0].Target.Which != Each || len(made[0].Target.Of) > 0 || made[0].Target.Bound.Kind != ToEnd || made[0].Target.Span != made[0].Target.Bound.Span {
		return nil
	}
	n := 0
	for n < len(out) && out[len(out)-1-n].Op == OpWork && !out[len(out)-1-n].Target.said {
		n++
	}
	if n == 0 || n < len(out) && out[len(out)-1-n].Op != OpChain && out[len(out)-1-n].Op != OpTurn && out[len(out)-1-n].Op != OpNote && out[len(out)-1-n].Op != OpColour {
		return nil
	}
	body := append([]*Step(nil), out[len(out)-n:]...)
	last := *made[0]
	last.Target = Target{Which: Next, N: Num{N: 1}}
	body = append(body, &last)
	return &Step{Op: OpGroup, Body: body, Times: Times{Kind: Fill, Bound: made[0].Target.Bound, Span: made[0].Target.Bound.Span}, Span: cover(body[0].Span, made[0].Span)}
}

// runTogether makes a repeat of "3sc 1inc x6": steps that no mark parts are
// repeated together, where they are all that the row says.
func (x *rowReader) runTogether(out, made []*Step) *Step {
	if len(made) != 1 || made[0].Op != OpGroup || made[0].Times.Kind != Exactly || len(made[0].Body) != 1 || made[0].Body[0].Op != OpWork || x.depth > 1 {
		return nil
	}
	n, end := 0, made[0].Span.Start
	for n < len(out) {
		s := out[len(out)-1-n]
		if s.Op != OpWork || s.Target.said || s.Span.Empty() || s.Span.End > end || strings.TrimSpace(x.src.Text[s.Span.End:end]) != "" {
			break
		}
		end = s.Span.Start
		n++
	}
	if n == 0 || stepsMake(out[:len(out)-n]) || !x.lastWordsAfter(0) && !x.peek().isMark("([{=-,.") {
		return nil
	}
	body := append(append([]*Step(nil), out[len(out)-n:]...), made[0].Body[0])
	return &Step{Op: OpGroup, Body: body, Times: made[0].Times, Span: cover(body[0].Span, made[0].Span)}
}

// saidAll reports "all in corner loop" among the words from a token on.
func (x *rowReader) saidAll(from int) bool {
	for i := max(from, 0); i+1 < x.p; i++ {
		if x.ts[i].is("all") && x.ts[i+1].isAny("in", "into") {
			return true
		}
	}
	return false
}

// along joins "sc in each sc and 3 sc in each ch-2 sp around": both run on
// together, each in its own places.
func (x *rowReader) along(out, made []*Step) *Step {
	if len(out) == 0 || len(made) != 1 {
		return nil
	}
	a, b := out[len(out)-1], made[0]
	open := a.Op == OpAlong
	if c := x.cornersAndSides(a, b); c != nil {
		return c
	}
	if (b.Op == OpWork || b.Op == OpInto) && b.Target.Which == Next && b.Target.N.N <= 1 && b.Legs == 0 && b.Target.Row == nil && len(b.Target.Of) == 1 && b.Target.Of[0].Kind == Space && b.Target.plain && eachStep(a) && len(a.Target.Of) > 0 && a.Target.Bound.Kind == NoBound {
		c := *b // "sc in each sc and 2 sc in the ch-2 sp"
		c.Target.Which, c.Target.N = Each, Num{}
		b = &c
	}
	if c := x.corners(a, b); c != nil {
		return c
	}
	if c := x.throughMiddle(a, b); c != nil {
		return c
	}
	if eachStep(a) && a.Target.Bound.Kind == ToEnd && eachStep(b) && b.Target.Bound.Kind == NoBound && len(b.Target.Of) == 1 && (b.Target.Of[0].Kind == Space || b.Target.Of[0].Kind == ChainStitch) && stitchesOnly(a.Target.Of) {
		c := *a // "dc in each st around, 1 dc in each corner ch"
		c.Target.Bound = Bound{}
		d := *b
		d.Target.Bound = a.Target.Bound
		a, b = &c, &d
	}
	if eachStep(a) && a.Target.Bound.Kind == NoBound && b.Op == OpWork && b.Legs == 0 && b.Target.Which == Next && b.Target.said && b.Target.Row == nil && len(b.Target.Of) == 1 && b.Target.Of[0].Kind == ChainStitch && b.Target.N.N > 1 && b.N.N == 1 && stitchesOnly(a.Target.Of) {
		c := *b // "dc in each dc, dc in each of the 7 ch"
		c.Target.Which, c.Target.N = Each, Num{}
		b = &c
	}
	if withs := (eachStep(a) || open) && a.Target.Bound.Kind == ToEnd && eachStep(b) && x.joinedBy(a, b, "with", "working", "making", "placing", "putting", "doing", "except", "but"); withs {
		c := *a
		c.Target.Bound = Bound{}
		a = &c
		if b.Target.Bound.Kind == NoBound {
			d := *b
			d.Target.Bound = Bound{Kind: ToEnd}
			b = &d
		}
	}
	if !open && !(eachStep(a) && a.Target.Bound.Kind == NoBound) || !eachStep(b) {
		return nil
	}
	if open && a.Target.Bound.Kind != NoBound {
		return nil
	}
	spaces := !open && len(b.Target.Of) == 1 && b.Target.Of[0].Kind == Space && stitchesOnly(a.Target.Of) // where a semicolon parts no more than a comma
	between := bracketsOut(x.src.Slice(Span{min(a.Span.End, b.Span.Start), b.Span.Start}))
	for i, c := range []byte(between) {
		if c == '.' && !strings.HasPrefix(between[i:], ". and ") && !strings.HasPrefix(between[i:], "., ") || c == ';' && !spaces || c == '(' {
			return nil // but "1 d.c. into each d.c. and into each of the 2 ch."
		}
	}
	var body []*Step
	if open {
		body = append(body, a.Body...)
	} else {
		if sameFilters(a.Target.Of, b.Target.Of) {
			return nil
		}
		body = append(body, a)
	}
	body = append(body, b)
	t := Target{Which: Each, Bound: b.Target.Bound, said: true}
	return &Step{Op: OpAlong, Body: body, Target: t, Span: cover(a.Span, b.Span)}
}

// bracketsOut drops a remark in brackets, "in each st around (the top of a
// popcorn is one), 3 sc in each corner": what is worked was read apart.
func bracketsOut(s string) string {
	open, shut := strings.IndexByte(s, '('), strings.IndexByte(s, ')')
	if open < 0 || shut < open {
		return s
	}
	return s[:open] + s[shut+1:]
}

// worksInChains reports "in each of the 2 ch": so many single chains of the row
// below, wherever they lie among its stitches.
func worksInChains(s *Step) bool {
	return s.Op == OpWork && s.Target.Which == Next && len(s.Target.Of) == 1 && s.Target.Of[0].Kind == ChainStitch && s.Target.N.N > 1
}

// corners joins "sc in each sc around, working 3 sc in centre sc of each
// corner": the corners are among the places that the first runs over.
func (x *rowReader) corners(a, b *Step) *Step {
	if c := x.cornersFirst(a, b); c != nil {
		return c
	}
	if a.Op != OpWork || !eachStep(a) || len(a.Target.Of) > 0 && a.Target.Of[0].Kind == Space || a.Target.Bound.Kind != ToEnd && a.Target.Bound.Kind != NoBound || b.Legs > 0 || b.Op != OpWork && b.Op != OpInto {
		return nil
	}
	if !toAllCorners(b) || !x.joinedBy(a, b, "with", "working", "making", "placing", "putting", "doing", "work", "make", "and", "but", "except", "save", "only") && !x.onlyStops(a, b) {
		return nil
	}
	return runsOver(a, b)
}

// toAllCorners reports whether a step goes into the middle of every corner.
func toAllCorners(s *Step) bool {
	return s.Target.Which == Centre && s.Target.Bound.Kind == ToEnd || s.Target.Which == Each && len(s.Target.Of) == 1 && s.Target.Of[0].Name == "corner"
}

// cornersFirst joins the two told the other way about, "3 sc in each corner, sc in each st
// between", "... and sc in every other st".
func (x *rowReader) cornersFirst(a, b *Step) *Step {
	if a.Op != OpWork && a.Op != OpInto || a.Legs > 0 || b.Op != OpWork || b.Legs > 0 || !toAllCorners(a) || len(b.Target.Of) > 0 && b.Target.Of[0].Kind == Space {
		return nil
	}
	if !eachStep(b) || b.Target.Bound.Kind != ToEnd && b.Target.Bound.Kind != NoBound {
		return nil
	}
	return runsOver(b, a)
}

// onlyStops reports whether nothing but stops stands between two steps.
func (x *rowReader) onlyStops(a, b *Step) bool {
	return strings.Trim(x.src.Text[min(a.Span.End, b.Span.Start):b.Span.Start], " ,;.:-\n") == ""
}

// runsOver makes one run of two steps that a row is worked in to its end: what each of its
// places is for tells them apart.
func runsOver(a, b *Step) *Step {
	t := Target{Which: Each, Bound: Bound{Kind: ToEnd}, said: true}
	return &Step{Op: OpAlong, Body: []*Step{a, b}, Target: t, Span: cover(a.Span, b.Span)}
}

// joinedBy reports whether one of the words stands between two steps, or
// right at the start of the second.
func (x *rowReader) joinedBy(a, b *Step, words ...string) bool {
	for i := range x.ts {
		t := &x.ts[i]
		if int(t.start) >= a.Span.End && int(t.start) <= b.Span.Start && t.isAny(words...) {
			return true
		}
	}
	return false
}

func eachStep(s *Step) bool {
	return (s.Op == OpWork || s.Op == OpInto) && s.Target.Which == Each && s.Legs == 0 && s.Target.Row == nil
}

// stitchesOnly reports whether places are stitches and no spaces or chains.
func stitchesOnly(of []Filter) bool {
	for _, f := range of {
		if f.Kind != AnyStitch && f.Kind != OneStitch {
			return false
		}
	}
	return true
}

func sameFilters(a, b []Filter) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// lastWhere takes "last dc in top of ch 3" after work that ran to the end: it
// says where the last of those stitches goes, and is no stitch more.
func (x *rowReader) lastWhere() *Step {
	if !x.peek().opens(opensLast) {
		return nil
	}
	if x.p == 0 {
		return nil
	}
	start := x.p
	sure := x.bounded || len(x.marks) > 0
	x.accept("the")
	if !x.accept("last", "final") {
		x.p = start
		return nil
	}
	x.accept("one")
	if x.peek().kind == tNum {
		x.p++
	}
	x.nounDrop()
	if x.liesBeside() {
		return x.noteStep(start)
	}
	being := x.accept("being") // "the last d.c. being worked into the third of the 4 ch"
	sure = x.accept("going", "goes", "go", "worked", "falling", "landing", "placed", "made", "coming") || being || sure
	if !sure || !x.accept("in", "into", "on") {
		x.p = start
		return nil
	}
	x.accept("the")
	if !x.peek().isAny("top", "tip", "tch", "turning") && !(x.peek().kind == tOrd && (x.at(1).isAny("of", "ch", "st", "chain"))) {
		x.p = start
		return nil
	}
	for !x.end() && !x.peek().isMark(",;.)([{=-") {
		x.p++
	}
	if x.peek().is("-") && x.peek().glued && !(x.longDash(0) && x.totalLike()) {
		x.p += 2 // "top of ch-3", but no total behind a dash of print
	}
	x.row.reachesTop = true
	return x.noteStep(start)
}

// liesBeside takes where the stitch just named lies as the round closes, which is nothing to
// work: "sits before the starting 3ch", "lands right next to the first st of the round".
func (x *rowReader) liesBeside() bool {
	start := x.p
	x.phrase("[will|should|now]", "[now|then]")
	if !x.accept("sits", "sit", "lies", "lie", "comes", "come", "falls", "fall", "lands", "land", "stands", "stand", "ends", "end", "is", "be", "touches", "meets", "meet") {
		x.p = start
		return false
	}
	touches := x.at(-1).isAny("touches", "meets", "meet")
	x.phrase("[up|just|right|directly|immediately|close|exactly]", "[just|right|up]")
	if !x.phrase("before|beside|against|by|behind|after|alongside|next", "[to]") && !touches {
		x.p = start
		return false
	}
	x.accept("the", "your", "that")
	if !x.accept("starting", "beginning", "beg", "first", "turning", "initial", "start", "join", "joining", "marker", "opening") {
		x.p = start
		return false
	}
	for k := 0; k < 8 && !x.end() && !x.peek().separator() && !x.peek().isMark(".;([{)]=") && (x.peek().kind == tWord || x.at(1).isAny("ch", "chain", "sts") || x.at(-1).isAny("-", "ch", "chain") || x.peek().is("-") && x.peek().glued); k++ {
		x.p++
	}
	if !x.edgeEnds(0) && !x.peek().isMark(".;(") {
		x.p = start
		return false
	}
	return true
}

// spend counts work against what the words of a row may cost: brackets in
// brackets are gone through more than once to find what they are for, and
// that must not grow with every level. It is false once all is spent; what
// is left of the row is then not understood.
func (x *rowReader) spend(n int) bool {
	if x.spent += n; x.spent <= 5000+40*len(x.ts) {
		return true
	}
	if !x.gaveUp {
		x.gaveUp = true
		x.row.bad = append(x.row.bad, Span{int(x.peek().start), int(x.ts[len(x.ts)-1].end)})
	}
	x.p = len(x.ts) - 1
	return false
}

// finishingVerbs are, beside the closingWords, what is done with scissors, a needle or an
// iron once the yarn is fastened off.
var finishingVerbs = newWordSet("cut snip trim knot weave block steam iron stuff run glue wash darn brush starch stretch tack")

// worksAgain reports whether the words from a token to here speak of any work.
func (x *rowReader) worksAgain(from int) bool {
	here := x.p
	defer func() { x.p = here }()
	finishing := x.at(from-here).in(finishingVerbs) || x.at(from-here).in(closingWords)
	for x.p = from; x.p < here; x.p++ {
		if _, n := x.stitchAt(0); n > 0 || x.peek().kind == tOrd || isRowWord(x.peek()) ||
			x.peek().isAny("ch", "chs", "chain", "st", "sts", "stitch", "stitches", "rejoin", "join", "attach", "skip", "sk", "miss", "rep", "repeat", "inc", "dec") || !finishing && x.peek().isAny("times", "twice", "each", "every", "next", "sp", "loop", "loops", "edge", "side") {
			return true
		}
	}
	return false
}

// skipTo moves to the closer without reading, where nesting is too deep.
func (x *rowReader) skipTo(closer string) {
	start := x.p
	for !x.end() && (closer == "" || !x.peek().is(closer)) {
		x.p++
	}
	x.spend((x.p - start) / 4)
	x.row.bad = append(x.row.bad, x.spanFrom(start))
}

// connector reports whether a small word only joins two steps here.
func (x *rowReader) connector() bool {
	if x.p == 0 && x.row.noLabel && x.evenAgain() {
		return false // "Then three rounds even": they are so many rows
	}
	switch t := x.peek(); t.text {
	case "next":
		return x.at(1).separator()
	case "to":
		return false
	case "crochet", "always":
		return x.at(1).kind == tNum || x.stitchFollows(1) || x.at(1).isAny("crochet", "work", "make", "inc", "dec")
	case "you", "we", "i", "u":
		return x.makerWorks()
	case "do", "place", "have", "go":
		return x.workNumbered(1)
	case "pop", "put":
		return !x.at(1).isAny("the", "some", "your", "in", "eyes", "stuffing")
	case "with":
		// "hdc in each dc around, with 3 hdc in each ch-2 sp"
		_, n := x.stitchAt(2)
		return x.lastStep != nil && eachStep(x.lastStep) && (x.at(1).kind == tNum && n > 0 && x.at(2+n).isAny("in", "into") || x.at(1).isMark("(["))
	case "a":
		_, n := x.stitchAt(1)
		return n > 0 || x.at(1).isAny("ch", "chain", "shell", "picot", "cluster", "dec", "decrease", "inc", "bobble", "popcorn", "puff") && !x.at(2).is("of") || x.at(1).in(blockWords) || x.at(1).isAny("mesh", "space", "sp") && !x.at(2).isAny("of", "for", "between")
	case "putting", "placing", "doing", "except", "save", "but":
		return x.thereInstead() || t.is("but")
	case "make":
		return !x.at(1).isAny("other", "another", "opposite", "second") && !x.at(1).isAny("sure", "the", "a") && !(x.at(1).isAny("a") && x.at(2).isAny("chain", "ch")) && !x.at(1).isAny("knot")
	case "the":
		return x.at(1).kind == tNum || x.at(1).isAny("following")
	case "work", "working":
		k := 2
		if x.at(1).kind == tNum && x.at(2).isMark("([") {
			_, n := x.sizesAhead(2) // "work 14 (16, 18) more rows"
			k += n
		}
		if x.at(1).kind == tOrd || isRowWord(x.at(1)) || x.at(1).kind == tNum && (isRowWord(x.at(k)) || x.at(k).isAny("more", "further") && isRowWord(x.at(k+1))) {
			return false
		}
		return !x.at(1).isAny("in", "into", "along", "even", "around", "round", "over", "as", "on", "across", "from", "back", "behind", "with", "evenly", "next", "off", "through", "to", "last", "same", "the", "this", "these", "now", "loosely", "both", "rows", "row", "each", "every", "without", "straight", "plain")
	}
	return true
}

// makerWorks takes the maker in front of what is worked, "you do 3 sc", "then you go *3
// plain, ...", "I now work 12 sc".
func (x *rowReader) makerWorks() bool {
	k := 1
	for x.at(k).isAny("now", "then", "just", "simply", "only", "also", "again", "will") {
		k++
	}
	switch {
	case x.at(k).in(toldWork) && (x.workNumbered(k+1) || x.at(k+1).isMark("*([") || x.at(k+1).in(everyWords) || x.at(k+1).isAny("a", "an", "into", "in") && !x.at(k).isAny("have", "get", "go", "did")):
		x.p += k
	case x.at(k).in(toldSteps):
		x.p += k - 1
	default:
		return false
	}
	return true
}

// workNumbered reports so many stitches at the token k on, or so many into a place.
func (x *rowReader) workNumbered(k int) bool {
	return x.at(k).kind == tNum && !x.at(k).frac && (x.stitchFollows(k+1) || x.at(k+1).isAny("in", "into"))
}

// thereInstead takes the word before what some of the places get that a run goes through,
// "sc in each dc around, putting 3 sc in each corner space", "except work 3 dc into the
// middle sc of every corner".
func (x *rowReader) thereInstead() bool {
	if x.lastStep == nil || !eachStep(x.lastStep) && x.lastStep.Op != OpAlong {
		return false
	}
	k := 1
	for x.at(k).isAny("for", "that", "you", "work", "working", "make", "making", "put", "place", "do", "placing", "putting", "with") {
		k++
	}
	_, n := x.stitchAt(k + 1)
	if x.at(k).isMark("([") || x.at(k).kind == tNum && n > 0 && x.at(k+1+n).isAny("in", "into", "to", "at") {
		x.p += k - 1
		return true
	}
	return false
}

// remember keeps what later words lean on.
func (x *rowReader) remember(steps []*Step) {
	for _, s := range steps {
		x.lastStep = s
		if s.Op != OpNote {
			x.off = s.Op == OpFasten
		}
		if s.Op != OpNote {
			x.alongEdge = s.Op == OpFree && s.N.N == 0 && s.N.Sizes == nil
		}
		switch s.Op {
		case OpWork:
			x.worked = true
			if s.Stitch != stitch.Slip {
				x.main = s.Stitch
			}
			x.bounded = (s.Target.Which == Each || s.Target.Which == Last || s.Target.Which == TurnTop || s.Target.Bound.Kind != NoBound) && !s.Target.Bound.leaves()
			x.bounded = x.bounded || x.row.bothLayers && s.N.N <= 1 && !s.Target.said // "sc through both sides to close, 4 sc"
		case OpGroup, OpInto, OpAlong:
			x.worked = true
			x.bounded = (s.Times.Kind == Fill || s.Target.Which == Each || s.Target.Which == Last) && !s.Times.Bound.leaves() && !s.Target.Bound.leaves()
		case OpJoin:
			x.bounded = true
		case OpFree, OpEven, OpLeave, OpDelta:
			x.worked, x.bounded = true, true
		}
	}
}

// wrapRest makes a repeat of everything since the row's opening chains.
func (x *rowReader) wrapRest(out []*Step, rep *Step) []*Step {
	i := 0
	for i < len(out) && (out[i].Op == OpChain && i < 2 || out[i].Op == OpTurn || out[i].Op == OpNote || out[i].Op == OpColour || out[i].Op == OpStay) {
		i++
	}
	if i == len(out) {
		return out
	}
	rep.Body = append([]*Step(nil), out[i:]...)
	rep.Span = cover(rep.Body[0].Span, rep.Span)
	return append(out[:i:i], rep)
}

// step reads one step, or the few that one phrase makes.
func (x *rowReader) step(before []*Step) []*Step {
	t := x.peek()
	if t.kind == tPunct {
		switch t.text {
		case "*", "**", "\u2020", "\u2021", "#", "+", "\u00a7", "\u00a4":
			return x.star()
		case "(", "[", "{", "<":
			if s := x.drawn(); s != nil {
				return s
			}
			return x.bracket(before)
		case "@":
			return x.marker()
		}
		return nil
	}
	if t.isAny("work", "crochet") && x.at(1).kind == tNum && x.at(2).is("times") {
		x.p++
	}
	if s := x.edgesSum(); s != nil {
		return s
	}
	if s := x.sidesAndCorners(); s != nil {
		return s
	}
	if s := x.hostFirst(); s != nil {
		return s
	}
	if s := x.timesBefore(before); s != nil {
		return s
	}
	if t.kind == tNum && x.at(1).plainStitch() || t.is("double") || t.plainStitch() && x.at(1).in(everyWords) && x.at(2).kind == tOrd {
		if s := x.everyShaped(); s != nil {
			return s
		}
	}
	if s := x.yarnBefore(); s != nil {
		return s
	}
	if s := x.rowsChanging(); s != nil {
		return s
	}
	if s := x.inStitch(); s != nil {
		return s
	}
	if s := x.fallsSo(); s != nil {
		return s
	}
	if s := x.alongBack(); s != nil {
		return s
	}
	// most steps begin with a stitch, a number of them, or chains, and then
	// nothing else can be meant
	switch {
	case t.kind == tNum && t.num == 2 && x.at(1).plainStitch():
		if s := x.betweenEnds(); s != nil {
			return s
		}
		if s := x.work(); s != nil {
			return s
		}
	case t.plainStitch(), t.kind == tNum && !t.frac && x.at(1).plainStitch(), x.picksUp():
		if s := x.work(); s != nil {
			return s
		}
	case t.kind == tWord && t.text == "ch":
		if s := x.chain(); s != nil {
			return s
		}
	}
	if s := x.plainRow(); s != nil {
		return s
	}
	if s := x.evenTold(); s != nil {
		return s
	}
	if s := x.again(before); s != nil {
		return s
	}
	if s := x.meshEnds(); s != nil {
		return s
	}
	if s := x.allMeshes(); s != nil {
		return s
	}
	if s := x.blocksOf(); s != nil {
		return s
	}
	if s := x.shareSaid(); s != nil {
		return s
	}
	if s := x.notCounted(); s != nil {
		return s
	}
	if s := x.meshGloss(); s != nil {
		return s
	}
	if s := x.droppedLoop(); s != nil {
		return s
	}
	if s := x.ringAfter(before); s != nil {
		return s
	}
	if s := x.soOn(); s != nil {
		return s
	}
	if s := x.betweenEnds(); s != nil {
		return s
	}
	if s := x.drawn(); s != nil {
		return s
	}
	if s := x.matchSide(); s != nil {
		return s
	}
	if s := x.handling(); s != nil {
		return s
	}
	if s := x.way(); s != nil {
		return s
	}
	if s := x.onThese(); s != nil {
		return s
	}
	if s := x.everyShaped(); s != nil {
		return s
	}
	if s := x.repeat(); s != nil {
		return s
	}
	if s := x.ending(); s != nil {
		return s
	}
	if s := x.refer(); s != nil {
		return s
	}
	if s := x.edges(); s != nil {
		return s
	}
	if s := x.fold(); s != nil {
		return s
	}
	if s := x.bothLayers(); s != nil {
		return s
	}
	if s := x.goOn(); s != nil {
		return s
	}
	if s := x.edgeShaping(); s != nil {
		return s
	}
	if s := x.edgeGloss(); s != nil {
		return s
	}
	if s := x.evenWork(); s != nil {
		return s
	}
	if s := x.rowsTold(); s != nil {
		return s
	}
	if t := x.peek(); t.isAny("do", "don't") {
		if s := x.leave(); s != nil {
			return s
		}
	}
	if s := x.restTold(); s != nil {
		return s
	}
	if s := x.partTold(); s != nil {
		return s
	}
	if s := x.note(); s != nil {
		return s
	}
	if s := x.picot(); s != nil {
		return s
	}
	if s := x.chain(); s != nil {
		return s
	}
	if s := x.skip(); s != nil {
		return s
	}
	if s := x.control(); s != nil {
		return s
	}
	if s := x.everyNth(); s != nil {
		return s
	}
	if s := x.delta(); s != nil {
		return s
	}
	if s := x.placeFirst(); s != nil {
		return s
	}
	if s := x.shape(); s != nil {
		return s
	}
	if s := x.work(); s != nil {
		return s
	}
	if s := x.inColours(); s != nil {
		return s
	}
	if s := x.bareStitches(); s != nil {
		return s
	}
	return x.lateNote()
}

// unknown takes words up to the next separator. Words that could be an
// instruction stop the row from being proven; others are a note.
func (x *rowReader) unknown() []*Step {
	start := x.p
	hard := false
	depth := 0
	for !x.end() {
		t := x.peek()
		if x.p > start && depth == 0 && (t.isAny(",", ";", ".", "!", "?", ":", ")", "]", "}", "*", "**") || t.isMark("([") || t.isMark("{<") && x.totalLike()) {
			break
		}
		if x.p > start && depth == 0 && x.worked && x.longDash(0) && x.totalBehind(0) {
			break
		}
		if t.kind == tNum || t.kind == tOrd {
			hard = true
		}
		if t.isAny("in", "into", "ch", "each", "every", "times", "twice", "next", "skip", "sk", "inc", "dec", "rep", "repeat") {
			hard = true
		}
		if _, n := x.stitchAt(0); n > 0 {
			hard = true
		}
		x.p++
	}
	sp := x.spanFrom(start)
	if hard && x.off && !x.worksAgain(start) {
		hard = false // "pompom 8 cm", once the yarn is fastened off
	}
	if hard && !x.at(-1).is("apart") && !x.prosy(start) {
		x.ownCount(start)
		x.row.bad = append(x.row.bad, sp)
		x.worked, x.bounded = true, true // so that the total after it is seen as one
	}
	return []*Step{{Op: OpNote, Span: sp, Text: x.src.Slice(sp)}}
}

// prosy reports whether the words from a token up to here are talk between the
// rows, "Push a straw into the handle if it flops": part of a sentence, or of a
// line, that names no stitch and no place for one, and counts nothing that
// could be one.
func (x *rowReader) prosy(from int) bool {
	here := x.p
	defer func() { x.p = here }()
	for from > 0 && !x.ts[from].head && !x.ts[from-1].isMark(".!)]") {
		from--
	}
	if here-from < 4 || x.ts[from].isAny("go", "work", "working", "in", "into", "along", "from", "over", "through", "with") {
		return false
	}
	for i := from; i < here; i++ {
		t := &x.ts[i]
		if t.isAny("ch", "chs", "chain", "chains", "each", "every", "times", "twice", "inc", "dec", "rep", "repeat", "skip", "sk", "miss", "st", "sts", "stitch", "sp", "sps", "across", "around", "evenly", "loop", "loops", "blo", "flo", "turn", "join", "next") {
			return false
		}
		if t.kind == tOrd || t.kind == tNum && !t.word && !isRowWord(&x.ts[max(i-1, 0)]) && !(i > 1 && x.ts[i-1].isAny("and", "-", "to", "+") && x.ts[i-2].kind == tNum) {
			return false
		}
		x.p = i
		if _, n := x.stitchAt(0); n > 0 {
			return false
		}
	}
	return true
}

// yarnFirst passes over the yarn that a chain is made with, where it is named
// before it: "With stone commence with 44 ch".
func (x *rowReader) yarnFirst() {
	if x.leadIn() {
		return
	}
	if x.whereBegun() {
		return
	}
	if x.peek().isAny("begin", "start", "beginning", "starting") && x.at(1).isAny("with", "in") && x.at(2).kind == tWord && x.at(3).isAny("and", ",", "ch", "chain") {
		for k := 3; k <= 4; k++ {
			if x.at(k).isAny("ch", "chain") && x.at(k+1).kind == tNum {
				x.p += k // "Begin with blue and ch 11"
				return
			}
		}
	}
	if !x.peek().isAny("with", "using", "in") || x.ringNamed(1) {
		return
	}
	for k := 1; k <= 8 && (x.at(k).kind == tWord || x.hookSize(k) || k > 2 && x.at(k).is(",") && x.at(k+1).opens(opensChain)) && !x.at(k).plainStitch(); k++ {
		if k > 1 && x.at(k).isAny("ch", "chain", "make", "work", "begin", "start", "commence") {
			x.p += k
			return
		}
	}
}

// ringNamed reports whether a ring to work into is named from the token k further on, before
// anything else is: "in a magic ring, ch 3" is no yarn that the chain is made with.
func (x *rowReader) ringNamed(k int) bool {
	for x.at(k).isAny("a", "an", "the", "your") {
		k++
	}
	n, ok := x.nounAt(k)
	return ok && n.ring && !x.at(k).is("mc")
}

// leadIn passes over what opens the sentence of a foundation: "To begin, ch 12", "First of
// all chain 20".
func (x *rowReader) leadIn() bool {
	start := x.p
	if !x.worked && !x.afterRows && (x.phrase("to", "begin|start|commence", "[off]", "[with]") || x.phrase("first|firstly|okay|ok|so", "[of|off]", "[all]", "[you|we|i]")) {
		x.accept(",", ":")
		if x.peek().isAny("ch", "chain") && x.at(2).isAny("of", "is", "counts", "at", "always") {
			x.p = start
			return false // "First ch 2 of each row is counted as 1 stitch."
		}
		if x.peek().isAny("ch", "chain") && x.at(1).kind == tNum && x.at(1).num > 1 || x.peek().kind == tNum && x.peek().num > 1 && x.at(1).isAny("ch", "chain", "chains") {
			return true
		}
	}
	x.p = start
	return false
}

// hookSize reports whether the token k further on is a number that tells of the hook or the
// yarn: "with a 4 mm hook", "with 2 strands".
func (x *rowReader) hookSize(k int) bool {
	t := x.at(k)
	return t.kind == tNum && (x.at(k+1).isAny("mm", "ply", "strands", "strand", "hook", ".") || x.at(k-1).is(".") || x.at(k-1).isAny("size", "no", "colour", "color")) || t.is(".") && x.at(k-1).kind == tNum && t.glued && x.at(k+1).kind == tNum
}

// whereBegun passes over where on the piece a chain begins it: "Commence at the
// toe with 10 ch.", "Starting at lower edge, ch 54".
func (x *rowReader) whereBegun() bool {
	if !x.peek().isAny("begin", "start", "beginning", "starting", "commence", "commencing") || !x.at(1).isAny("at", "from", "on", "in") || x.worked {
		return false
	}
	for k := 2; k < 9; k++ {
		t := x.at(k)
		switch {
		case t.isAny("with", "by", ",", "make", "work") && k > 2:
			n := k + 1
			for x.at(n).isAny("with", "by", "a", "the", "chaining", "make", "making", "work") {
				n++
			}
			if x.at(n).isAny("ch", "chain") && (x.at(n+1).kind == tNum || x.at(n+1).is("of") && x.at(n+2).kind == tNum) || x.at(n).kind == tNum && x.at(n+1).isAny("ch", "chain", "chains", "chs") {
				x.p += n
				return true
			}
		case t.isAny("ch", "chain") && k > 2 && x.at(k+1).kind == tNum:
			x.p += k
			return true
		case t.kind != tWord || x.stitchFollows(k):
			return false
		}
	}
	return false
}

// chain = ( "ch" number | number "ch" | "chain" word | "make a chain of" number "sts" ) [ counts ] .
func (x *rowReader) chain() []*Step {
	if !x.peek().opens(opensChain) {
		return nil
	}
	start := x.p
	x.yarnFirst()
	if x.p > start && x.peek().isAny("make", "work") && x.at(1).kind == tNum {
		x.p++ // "With white make 20 ch."
	}
	var n Num
	ok := false
	switch {
	case x.ringOf(&n):
		ch := &Step{Op: OpChain, N: n, Span: x.spanFrom(start)}
		return []*Step{ch, {Op: OpRing, N: n, Span: ch.Span}}
	case x.peek().isAny("ch", "chain", "chs", "cha") && !x.at(1).isAny("sp", "space", "sts"):
		x.p++
		x.phrase(".")
		x.accept("-", "a", "another")
		x.accept("loosely", "of")
		if x.peek().is(":") && x.at(1).kind == tNum && x.p == start+1 {
			x.p++ // "Foundation chain: 52"
		}
		if x.peek().kind == tNum {
			n, ok = x.number()
			if x.peek().is("-") && x.spaceAfter(1) > 0 || x.spaceAfter(0) > 0 && !x.at(-1).isMark(",") {
				ok = false // "ch-3 sp" is a place
			}
			x.accept("sts", "st", "stitches", "chs", "loosely", "chains")
			if x.peek().is("for") && (x.at(1).isAny("first", "1st", "the", "a", "an") || x.at(1).kind == tOrd || x.at(1).kind == tNum) && x.countsFor() {
				// "ch 3 for first dc": as if it said "counts as"
				return []*Step{x.countsAs(&Step{Op: OpChain, N: n, Span: x.spanFrom(start)}, start)}
			}
		} else if x.phrase("an", "even|odd", "number") {
			n, ok = Num{}, true
		}
	case x.peek().kind == tNum && x.at(1).isMark("([{") && len(x.pat.Sizes) > 1:
		n, ok = x.number()
		ok = ok && x.accept("ch", "chain", "chains", "chs")
		if ok {
			x.accept("loosely", "sts")
		}
	case x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chains", "chs") && x.at(2).is("for") && func() bool { x.p += 2; ok := x.countsFor(); x.p -= 2; return ok }():
		n, _ = x.number()
		x.p++
		return []*Step{x.countsAs(&Step{Op: OpChain, N: n, Span: x.spanFrom(start)}, start)}
	case x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chains", "chs") && !x.at(1).isAny("sp"):
		if _, sized := x.sizedSpace(0); sized {
			break
		}
		if x.at(2).kind == tNum && x.at(2).glued {
			break
		}
		n, ok = x.number()
		x.p++
		x.accept("loosely", "sts", "st", "stitches")
	case x.peek().kind == tNum && x.peek().num <= 5 && x.at(1).isAny("turning", "turn") && x.at(2).isAny("ch", "chain", "chains", "chs") && !x.at(3).isAny("sp", "space", "loop"):
		n, ok = x.number() // "1 turning chain, sc 5"
		x.p += 2
	case x.startsClause() && x.risingChain(&n):
		ok = true
	case !x.worked && !x.afterRows && x.overFoundation(&n):
		ok = true
	case x.phrase("cast", "on") && x.peek().kind == tNum:
		n, ok = x.number()
		ok = ok && x.accept("ch", "chain", "chains", "sts")
	case x.phrase("begin|start|starting|beginning|commence|commencing", "with|by", "[chaining|making|working]", "[a]"):
		if x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chains", "chs") {
			n, ok = x.number()
			x.p++
		} else if x.accept("ch", "chain", "chains") {
			x.accept("-", "of")
			if x.peek().kind == tNum {
				n, ok = x.number()
			}
		} else if x.at(-1).isAny("chaining") && x.peek().kind == tNum {
			n, ok = x.number()
		}
		x.accept("sts", "st", "stitches")
	case x.phrase("[make|work|begin|start]", "[with]", "a", "[foundation|base|loose|starting|beginning]", "chain|ch", "of"), x.phrase("[make|work]", "[a]", "foundation|base|starting|beginning|initial", "chain|ch", "[of|:|-]"):
		if x.peek().kind == tNum {
			n, ok = x.number()
			x.accept("sts", "st", "stitches", "ch", "chs", "chains", "chain")
		}
	}
	if !ok {
		x.p = start
		return nil
	}
	x.standsOver()
	s := &Step{Op: OpChain, N: n, Span: x.spanFrom(start)}
	x.chainForWhat()
	if c := x.ringClose(s); c != nil {
		return c
	}
	if p := x.picotClose(s); p != nil {
		return p
	}
	if more := x.chainsMore(s); more != nil {
		return []*Step{s, x.countsAs(more, start)}
	}
	return []*Step{x.countsAs(s, start)}
}

// risingWords tell that a chain only brings the hook to the height of the row.
var risingWords = newWordSet("turning beginning starting beg rising raising lifting standing climbing height initial")

// risingChain takes a chain that is told by what it is for: "turning chain 1, sc 25",
// "rising ch 3, dc 11 in the ring", "3 rising chains". Pages put into English from
// languages whose word for it that is have it (common practice, no source).
func (x *rowReader) risingChain(n *Num) bool {
	start := x.p
	ends := func() bool {
		t := x.peek()
		return t.kind == tEnd || t.head || t.separator() || t.isMark("([")
	}
	if x.acceptIn(risingWords) {
		ok := false
		if x.accept("ch", "chain") {
			x.accept("of", "-")
			if x.peek().kind == tNum {
				*n, ok = x.number()
			}
		} else if x.peek().kind == tNum {
			*n, ok = x.number()
			ok = x.accept("ch", "chs", "chain", "chains") && ok
		}
		if ok && ends() && (!x.worked || !x.ts[start].isAny("beginning", "beg", "starting", "initial")) {
			return true
		}
	} else if x.peek().kind == tNum && x.peek().num <= 8 {
		*n, _ = x.number()
		x.accept("-")
		if x.acceptIn(risingWords) && x.accept("ch", "chs", "chain", "chains") && ends() {
			return true
		}
	}
	x.p = start
	return false
}

// overFoundation takes a foundation named as the place of the first row: "With 26 ch made,",
// "over a chain of 22:", "on 24 ch work".
func (x *rowReader) overFoundation(n *Num) bool {
	start := x.p
	if x.phrase("with|over|on|upon|using|along", "[a|your|the|these]", "[chain|ch]", "[of]") && x.peek().kind == tNum {
		named := x.at(-1).is("of")
		num, ok := x.number()
		if ok && (x.accept("ch", "chain", "chains", "chs") || named) && !x.peek().isAny("sp", "sps", "space", "spaces", "loop", "loops", "-") {
			x.accept("sts", "st", "stitches")
			x.accept("made", "worked", "done")
			*n = num
			return true
		}
	}
	x.p = start
	return false
}

// chainForWhat passes over what a foundation is good for: "ch 22 for 5 fans", "ch 40 for
// the brim".
func (x *rowReader) chainForWhat() {
	if n := x.chainedIn(); n > 0 {
		x.p += n
		return
	}
	k := x.phraseAt(0, "for", "[the|your|a]")
	if k < 0 || x.worked || x.afterRows {
		return
	}
	if x.at(k).kind == tNum {
		k++
	}
	if _, n := x.stitchAt(k); n > 0 || x.at(k).kind != tWord || isRowWord(x.at(k)) {
		return
	}
	if t := x.at(k + 1); t.kind == tEnd || t.separator() || t.isMark(".:") {
		x.p += k + 1
	}
}

// chainedIn is the length of what a foundation is chained with, "in sea blue", "with the
// grey"; 0 where it is anything else.
func (x *rowReader) chainedIn() int {
	if x.worked || x.afterRows || !x.peek().isAny("in", "with", "using") {
		return 0
	}
	for k := 1; k <= 4; k++ {
		t := x.at(k)
		if k > 1 && (t.kind == tEnd || t.separator() || t.isMark(".:")) {
			return k
		}
		_, n := x.stitchAt(k)
		if t.kind != tWord || n > 0 || x.nounFollows(k) || t.isAny("same", "next", "each", "first", "last", "ring", "circle", "round", "a", "top", "back", "front", "sl", "order", "this", "and", "to") {
			return 0
		}
	}
	return 0
}

// ringOf takes a ring told by the chain it is made of: "Ring of 4 ch", "make a ring of 6
// chain".
func (x *rowReader) ringOf(n *Num) bool {
	start := x.p
	if x.phrase("[make|form|work|with]", "[a]", "ring|circle", "of|from") && !x.worked && x.peek().kind == tNum {
		num, ok := x.number()
		if ok && x.accept("ch", "chain", "chains", "chs") {
			x.accept("sts", "st", "stitches")
			*n = num
			return true
		}
	}
	x.p = start
	return false
}

// countsFor reports whether "for 1 tr", "for h d c" says what a chain stands
// for; it takes "for".
func (x *rowReader) countsFor() bool {
	k := 1
	for x.at(k).isAny("the", "a", "an", "first", "1st") || x.at(k).kind == tOrd || x.at(k).kind == tNum && x.at(k).num == 1 {
		k++
	}
	_, n := x.stitchAt(k)
	return n > 0
}

// untwisted takes what warns of a chain that is twisted: "being careful not to twist",
// "without twisting it", "making sure the chain is not twisted".
func (x *rowReader) untwisted() bool {
	const chain = "[ch|chain|chs|it|work|foundation|sts|stitches]"
	save := x.p
	x.accept(",")
	open := x.accept("(")
	x.accept("but")
	told := x.phrase("[being|taking|take|be|making|make]", "[very|good]", "careful|care|sure|certain", "[that]", "[the|your|it]", chain, "[is|are|does|do|lies]", "not|isn't|aren't|doesn't|never|untwisted|flat", "[to|be|get]", "[be|get]", "[twist|twisted|twisting]", "[the|your]", chain, "[chain]") ||
		x.phrase("without|no|not|don't|do", "[not]", "twisting|twist", "[of]", "[the|your]", chain, "[chain]")
	if !told || open && !x.accept(")") {
		x.p = save
		return false
	}
	return true
}

// untwistedAhead reports whether such words stand next.
func (x *rowReader) untwistedAhead() bool {
	save := x.p
	defer func() { x.p = save }()
	return x.untwisted()
}

// ringClose makes a ring of a chain that is joined to its beginning.
func (x *rowReader) ringClose(s *Step) []*Step {
	start := x.p
	for x.peek().isAny(",", ";", ".", "and", "-") {
		x.p++
	}
	if !x.peek().opens(opensClose) {
		x.p = start
		return nil
	}
	x.untwisted()
	for x.peek().isAny(",", "and") {
		x.p++
	}
	at := x.p
	joined := x.phrase("join|close|connect|joined|closed") || x.phrase("s", "s") || x.phrase("sl|slip|ss|slst", "[st|stitch]")
	if !joined {
		x.p = start
		return nil
	}
	ring := false
	for k := 0; k < 24; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(";") || t.isMark(".") && x.at(k+1).kind != tPunct && !x.at(k+1).isAny("to", "in", "into", "s") {
			break
		}
		if t.isMark(",") && !x.at(k+1).isAny("being", "taking", "making", "careful", "without", "form", "to", "forming") {
			break
		}
		if (t.isAny("ring", "circle") || t.is("loop") && (k == 1 || x.at(k-1).isAny("a", "form"))) && (k > 0 && !x.at(k-1).isAny("in", "into") || k == 1 && x.ts[at].isAny("join", "close", "connect") && x.p == at+1) {
			ring = true
		}
	}
	first := x.joinTarget()
	if !ring && !(first && x.firstInRow(s)) && !(x.firstInRow(s) && !x.worked && (x.peek().isMark(",.;") || x.peek().is("to") && x.at(1).isAny("form", "make", "close", "join", "connect", "beginning", "start", "beg") || x.untwistedAhead() || x.end())) {
		x.p = start
		return nil
	}
	x.phrase("to", "join|connect", "in|into", "[a|the]", "ring|circle|loop|round")
	x.phrase("[to]", "form|make|forming|making|for", "[a|the]", "[ch|chain]", "ring|circle|loop|round")
	x.phrase("to", "[the]", "ring")
	x.phrase("[in|into]", "a", "ring|circle|loop")
	if x.at(-1).isAny("join", "close", "connect") {
		x.phrase("in|into", "[a|the]", "ring|circle|loop")
	}
	x.bySlip()
	x.untwisted()
	r := &Step{Op: OpRing, N: s.N, Span: x.spanFrom(at)}
	return []*Step{s, r}
}

// joinTarget passes over where a join goes, and says if it is the first chain.
func (x *rowReader) joinTarget() bool {
	x.bySlip()
	x.phrase("the", "ends")
	first := false
	save := x.p
	if x.accept("in", "into", "to", "through", "at") {
		x.accept("the")
		if x.peek().isAny("form", "make") {
			x.p = save
			return false
		}
		if o := x.peek(); o.kind == tOrd && o.num == 1 || o.isAny("beg", "beginning", "starting", "start", "furthest") {
			if t := x.at(1); t.kind == tWord && !t.isAny("of", "the", "beg", "foundation", "ch", "chain", "chs", "st", "stitch", "made", "sc", "dc", "to", "and", "with", "being", "turn", "one", "taking") {
				x.p = save // "join to the first leg"
				return false
			}
			first = true
			x.p++
			x.phrase("[of]", "[the]", "[beg|foundation]", "ch|chain|chs|st|stitch", "[made|st|stitch]")
			x.phrase("made")
			return first
		}
		if x.phrase("first|beginning", "[ch|chain|st]") {
			return true
		}
	}
	x.p = save
	return first
}

// bySlip passes over what a join is made with: "with a sl st", "by working a slip
// stitch", "with a s.s.".
func (x *rowReader) bySlip() bool {
	return x.phrase("with|by|using", "[a|an]", "[working]", "[a|an]", "sl|slip|ss|slst|slpst", "[-]", "[st|stitch]") ||
		x.phrase("with|by|using", "[a|an]", "s", "[.]", "s", "[.]")
}

// firstInRow reports whether nothing came before s in its row but notes.
func (x *rowReader) firstInRow(s *Step) bool { return !x.worked }

// picotClose reads "ch 3, sl st in 3rd ch from hook": a picot.
func (x *rowReader) picotClose(s *Step) []*Step {
	start := x.p
	for x.peek().isAny(",", ";", "and") {
		x.p++
	}
	isSlip := false
	if t := x.peek(); t.kind == tNum && t.num == 1 && x.stitchFollows(1) {
		x.p++ // "3 ch, 1 dc in 3rd ch from hook"
	}
	if id, n := x.stitchAt(0); n > 0 && (id == stitch.Slip || id == stitch.SC) {
		isSlip = id == stitch.Slip
		x.p += n
		from := x.p
		pl := x.place()
		if len(pl) == 1 && pl[0].Bound.Kind == NoBound {
			p := pl[0]
			back := p.Which == FromHook && p.N.N >= s.N.N-1 && x.worked && s.N.N <= 8
			if isSlip && x.worked && s.N.N <= 8 {
				last := x.lastMade(from)
				back = back || p.Which == FromHook && p.N.N <= s.N.N || p.Which == Same && s.N.N >= 2 && s.N.N <= 5 || last ||
					p.Which == First && len(p.Of) == 1 && p.Of[0].Kind == ChainStitch ||
					p.Which == TurnTop && p.N.N == 1
			}
			if n := x.chainNamed(from); n > 0 && n != s.N.N && p.Which != FromHook || n == 0 && x.depth == 1 && x.firstMade(from) || n > 0 && p.Which == TurnTop && x.ts[from+1].is("top") && x.roundEnd() {
				back = false // "ch 2, sl st in top of ch-3" closes the round
			}
			if !isSlip && p.Which == FromHook && p.N.N <= s.N.N && x.worked && s.N.N <= 8 {
				// "ch 5, sc in 3rd ch from hook (picot made), ch 2": the rest of the chain leads on
				back = back || x.saysPicot() || x.chainFollows()
			}
			if p.Which == FromHook && p.N.N < s.N.N && x.worksDownChain() {
				back = false // "ch 4, sl st in 2nd ch from hook, sc in next ch": an arm
			}
			if back {
				x.phrase("(", "picot|p", "[made|formed]", ")")
				x.phrase("for", "[a]", "picot|p")
				return []*Step{{Op: OpPicot, N: s.N, Span: Span{s.Span.Start, int(x.ts[x.p-1].end)}}}
			}
		}
	}
	x.p = start
	return nil
}

// worksDownChain reports a stitch in the next of the chains just made: what was closed
// into the chain before it is no picot then.
func (x *rowReader) worksDownChain() bool {
	k := 0
	for x.at(k).separator() || x.at(k).isAny("and", "then") {
		k++
	}
	if x.at(k).kind == tNum {
		k++
	}
	_, n := x.stitchAt(k)
	if n == 0 {
		return false
	}
	k += n
	p := x.phraseAt(k, "in|into", "[the|each]", "[of]", "[the]", "next|following|foll|rem|remaining|last")
	if p < 0 {
		p = x.phraseAt(k, "in|into", "each")
	}
	if k += p; p < 0 {
		return false
	}
	if x.at(k).kind == tNum {
		k++
	}
	return x.at(k).isAny("ch", "chs", "chain", "chains") && !x.at(k+1).isAny("-", "sp", "sps", "space", "spaces", "loop", "loops", "lp") && x.at(k+1).kind != tNum
}

// saysPicot reports words that name what was just made a picot.
func (x *rowReader) saysPicot() bool {
	save := x.p
	defer func() { x.p = save }()
	return x.phrase("[(]", "[for|forming|makes]", "[a|1]", "picot|p", "[made|formed|)|,|;|.]")
}

// chainFollows reports a chain after a comma.
func (x *rowReader) chainFollows() bool {
	return x.peek().isAny(",", ";") && (x.at(1).isAny("ch", "chain") && x.at(2).kind == tNum || x.at(1).kind == tNum && x.at(2).isAny("ch", "chain"))
}

// chainNamed is the length of the chain that the words from a token on name,
// or 0.
func (x *rowReader) chainNamed(from int) int64 {
	for i := from; i < x.p; i++ {
		if !x.ts[i].isAny("ch", "chain", "chs", "chains") {
			continue
		}
		for _, k := range [...]int{i + 1, i + 2, i - 1, i - 2} {
			if k >= from && k < x.p && x.ts[k].kind == tNum {
				return x.ts[k].num
			}
		}
	}
	return 0
}

// firstMade reports whether the words from a token on name the first stitch of
// a round that ends with them: "ss into top of first cluster".
func (x *rowReader) firstMade(from int) bool {
	for i := from; i < x.p; i++ {
		if t := &x.ts[i]; t.kind == tOrd && t.num == 1 || t.isAny("first", "beg", "beginning") {
			return i+1 < x.p && !x.ts[i+1].isAny("ch", "chain", "of") && x.roundEnd()
		}
	}
	return false
}

// lastMade reports whether the words from a token on name the stitch just made.
func (x *rowReader) lastMade(from int) bool {
	for i := from; i < x.p; i++ {
		if x.ts[i].isAny("last", "made", "base", "top") {
			return true
		}
	}
	return false
}

// counts = "(" "counts as" ... ")" | "does not count ..." | "= 1 dc" .
func (x *rowReader) countsAs(s *Step, start int) *Step {
	save := x.p
	paren := false
	k := 0
	if x.at(k).is(",") {
		k++
		if x.at(k).is("which") {
			k++
		}
	}
	if x.at(k).is("-") {
		k++
	}
	if x.at(k).isMark("([") {
		paren = true
		k++
	}
	x.p += k
	c := Counts{}
	from := x.p
	if x.readCounts(&c) {
		c.Span = x.spanFrom(from)
		if paren {
			for !x.end() && !x.peek().isMark(")]") {
				if x.peek().isAny("throughout") {
					c.Spread = true
				}
				x.p++
			}
			if !x.end() {
				x.p++
			}
		}
		if c.Space == restOfChain {
			c.Space = max(0, s.N.N-int64(stitch.Of(c.As).Turn))
		}
		s.Counts = c
		s.Span = x.spanFrom(start)
		return s
	}
	x.p = save
	return s
}

// readCounts reads what a chain counts as.
func (x *rowReader) readCounts(c *Counts) bool {
	from := x.p
	if !x.peek().opens(opensCounts|opensStitch) && x.at(-1).kind != tNum {
		return false
	}
	if k := x.phraseAt(0, "[the|these|missed|skipped]", "[missed|skipped]"); x.at(k).is("and") && k > 0 {
		// "the 3 ch missed and this tr count as 2 tr": the chains are one of them
		k += 1 + max(0, x.phraseAt(k+1, "[this|the|first|next]"))
		if id, m := x.stitchAt(k); m > 0 {
			k += m
			if p := x.phraseAt(k, "count|counts|counting|stand|stands", "[as|for]"); p > 0 && x.at(k+p).kind == tNum && x.at(k+p).num == 2 {
				k += p + 1
				if same, m := x.stitchAt(k); m > 0 && same == id {
					x.p += k + m
					c.Said, c.As, c.N = true, id, 1
					return true
				}
			}
		}
	}
	x.phrase("[the|your]", "[other|turning|beginning|beg|starting|this|skipped|first|these|missed]", "[skipped|missed]")
	if x.peek().kind == tNum && x.at(1).isAny("skipped", "missed", "unworked", "ch", "chs", "chain", "chains", "beginning") && !x.at(2).isMark("),") {
		x.p++
		x.accept("skipped", "missed", "unworked", "beginning")
	}
	x.phrase("[ch|chain|chs|chains]")
	x.phrase("-")
	if x.peek().kind == tNum && x.at(1).isAny("does", "do", "counts", "is", "count", "will", "skipped", "chs", "ch") {
		x.p++
		x.accept("skipped", "missed")
		x.accept("chs", "ch", "chains")
	}
	x.accept("which", "that", "this", "it", "here", "always", "now", "and", "will")
	x.accept("always", "now", "here", "will", "once", "time")
	opens := from > 0 && x.ts[from-1].isMark("([")
	switch {
	case x.phrase("isn't|aren't", "[counted]", "[as]", "[a]", "[st|stitch|sts|stitches|counted|one]"), opens && x.phrase("=|is|are", "nothing|none|0|no", "[st|sts|stitch]"), opens && x.phrase("no", "st|sts|stitch|stitches"), x.phrase("is|are", "no", "st|sts|stitch|stitches"):
		c.Said, c.As = true, stitch.None
		c.Spread = x.spreadAhead()
		return true
	case opens && x.p == from && x.bareCounts(c):
		return true
	case opens && x.p == from && x.peek().isAny("counts", "counted") && x.at(1).isMark(")]"): // "ch 3 (counts)"
		x.p++
		c.Said, c.As, c.N = true, stitch.Special, 1
		return true
	case opens && x.p == from && x.peek().isAny("a", "1", "one") && x.at(1).isAny("st", "stitch") && x.at(2).isMark(")],"):
		x.p += 2
		c.Said, c.As, c.N = true, stitch.Special, 1
		return true
	case x.phrase("do|does|will|is|are", "not", "[be]", "count|counted|counts|considered"), x.phrase("doesn't|don't|isn't|won't|not|never|didn't", "[to]", "[be]", "count|counted|counts|counting"),
		x.phrase("is|are", "not", "[counted|included]", "[as]", "[a|1]", "st|stitch|sts|counted|included"), x.phrase("not", "[counted|included]", "[as]", "a", "st|stitch"), x.phrase("no", "st|stitch"), x.phrase("is", "not", "[a]", "st|stitch|counted"), x.phrase("uncounted"):
		c.Said, c.As = true, stitch.None
		c.Spread = x.spreadAhead()
		x.phrase("as|for|in", "[a|1|the|an]", "[first]", "[st|stitch|sc|hdc|dc|tr|count|sts|total|anything]", "[count]")
		if id, n := x.stitchAt(0); n > 0 && id != stitch.None {
			x.p += n
		}
		return true
	case x.phrase("that's|it's|count|counts|counted|counting|considered|stands|standing|reckoned|taken|replaces|acts|forms|represents|equals|is|are|stand|=|as|becomes|to|for", "[counted|considered|counts|count|stand|stands]", "[in|for|as|up]", "[as]", "[the|a|your|an]"):
		c.Spread = x.spreadAhead()
		x.accept("the", "a", "an", "your")
		if x.peek().kind == tOrd || x.peek().isAny("beginning", "beg") {
			x.p++
		}
		c.N = 1
		if x.peek().kind == tNum {
			c.N = x.peek().num
			x.p++
		}
		x.accept("first", "1st", "beg")
		if x.peek().isAny("st", "sts", "stitch", "stitches") {
			x.p++
			c.Said, c.As = true, stitch.Special // a stitch, whatever the row is worked in
			x.countsSpace(c)
			return true
		}
		if id, n := x.stitchAt(0); n > 0 {
			x.p += n
			x.phrase("st|stitch")
			c.Said, c.As = true, id
			x.countsSpace(c)
			x.standsOn()
			return true
		}
		return false
	}
	if x.at(-1).isMark("=") || !opens {
		return false // "(ch 3, 2 dc, ch 2, 3 dc)" is a list
	}
	// "(1dc, ch 2)", "ch 6 (1tr, ch2)": said in so few words
	save := x.p
	n := int64(1)
	if x.peek().kind == tNum {
		n = x.peek().num
		x.p++
	}
	if id, k := x.stitchAt(0); k > 0 && x.at(-1).kind == tNum && n <= 2 && x.closesSoon() {
		x.p += k
		if x.phrase("[and|+|,]", "[plus]", "ch|chain", "[-]") || x.at(-1).isAny("ch", "chain") {
			if x.peek().kind == tNum {
				c.Said, c.As, c.N, c.Space = true, id, n, x.peek().num
				x.p++
				return true
			}
		}
		if x.phrase("[and|+|,]", "[plus]"); x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chs") {
			c.Said, c.As, c.N, c.Space = true, id, n, x.peek().num
			x.p += 2
			return true
		}
	}
	x.p = save
	return x.stitchAndChain(c)
}

// stitchAndChain reads "(dc and ch 1)", "(dc + ch 1)", "(tr plus 2 ch)" after a chain: what
// it counts as, where nothing behind the bracket says that it is worked there.
func (x *rowReader) stitchAndChain(c *Counts) bool {
	save := x.p
	id, k := x.stitchAt(0)
	if k == 0 || !x.at(k).isAny("and", "+", "plus", "&") || !x.closesSoon() {
		return false
	}
	x.p += k
	c.As = id
	if x.countsSpace(c); x.peek().isMark(")]") && c.Space > 0 && x.at(1).kind != tNum && !x.at(1).isAny("in", "into", "twice", "x", "across", "around", "to") {
		c.Said, c.N = true, 1
		return true
	}
	*c = Counts{}
	x.p = save
	return false
}

// restOfChain is the space of a chain that counts as "a dc and a space": what is
// left of it above the stitch.
const restOfChain = -1

// standsOn takes where a chain that counts stands, which the slip stitches before
// it have led to: "to stand as a tr on the last of these", "over the fifth of them".
func (x *rowReader) standsOn() {
	save := x.p
	if x.accept("on", "over", "above") && x.accept("the") && (x.peek().kind == tOrd || x.peek().isAny("last", "same")) {
		x.p++
		if x.phrase("of", "these|those|them|the", "[ss|sts|st|slip]", "[sts]") || x.phrase("ss|one|slip|sl", "[st|stitch]") {
			return
		}
	}
	x.p = save
}

// bareCounts reads "(1st tr)", "(a dc)", "(a dc and ch-1)" after a chain.
func (x *rowReader) bareCounts(c *Counts) bool {
	save := x.p
	if !(x.peek().kind == tOrd && x.peek().num == 1 || x.peek().isAny("a", "an", "beg") || x.peek().kind == tNum && x.peek().num == 1) {
		return false
	}
	x.p++
	id, n := x.stitchAt(0)
	if n == 0 || !x.closesSoon() {
		x.p = save
		return false
	}
	x.p += n
	c.Said, c.As, c.N = true, id, 1
	x.countsSpace(c)
	if !x.peek().isMark(")],") {
		*c = Counts{}
		x.p = save
		return false
	}
	return true
}

// closesSoon reports whether a bracket closes after "1 tr, ch 2".
func (x *rowReader) closesSoon() bool {
	for k := 0; k < 8; k++ {
		t := x.at(k)
		if t.isMark(")]") {
			return !x.at(k+1).isAny("in", "into", "x", "twice") && !x.followsTimes(x.p+k+1)
		}
		if t.isMark(";.") || t.kind == tEnd {
			return false
		}
	}
	return false
}

// spreadAhead looks for "throughout" before the words end.
func (x *rowReader) spreadAhead() bool {
	for k := 0; k < 14; k++ {
		t := x.at(k)
		if t.isAny("throughout", "hereafter", "pattern") {
			return true
		}
		if t.kind == tEnd || t.isMark(")].;") {
			return false
		}
	}
	return false
}

// countsSpace reads the rest of "dc and ch-1 sp", "dc + 2 ch".
func (x *rowReader) countsSpace(c *Counts) {
	save := x.p
	x.accept(",")
	x.accept("and", "plus", "+", "&", "with", "then")
	x.accept("a", "an", "one", "1", "first", "the")
	if x.at(-1).isAny("a", "an", "one", "first", "the", "and", "plus", "+", "&") && x.peek().isAny("space", "sp", "hole", "gap", "mesh") && c.As != stitch.Special {
		c.Space = restOfChain
		x.p++
		x.phrase("beside|behind|after|following|next", "[to]", "[it]")
		return
	}
	if x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chs") || x.peek().kind == tNum && x.at(1).is("-") && x.at(2).isAny("ch") {
		c.Space = x.peek().num
		x.p += 2
		if x.at(-1).is("-") {
			x.p++
		}
	} else if x.accept("ch", "chain") {
		x.accept("-")
		if (x.peek().isMark(")],;.") || x.peek().kind == tEnd) && x.at(-1).isAny("ch", "chain") && c.As != stitch.Special && x.at(-2).isAny("+", "and", "plus", "a", "one", "&") {
			c.Space = 1 // "(= tr + ch)"
			return
		}
		if x.peek().kind != tNum {
			x.p = save
			return
		}
		c.Space = x.peek().num
		x.p++
	} else {
		x.p = save
		return
	}
	x.accept("-")
	x.accept("sp", "space", "loop", "lp", "arch", "sps")
	if x.peek().isAny("as", "at", "does", "doesn't", "do", "don't", "is", "isn't", "are", "counts", "count", "never", "always", "not", "=") {
		x.p, c.Space = save, 0 // "ch 3 counts as a dc, ch 1 does not count"
	}
}
