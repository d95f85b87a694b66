package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

func closing(open string) string {
	switch open {
	case "(":
		return ")"
	case "[":
		return "]"
	case "{":
		return "}"
	}
	return ">"
}

// maxBracket is how many words a bracket may hold.
const maxBracket = 4000

// closer finds the token that closes the bracket at k, or -1.
func (x *rowReader) closer(k int) int {
	open := x.at(k).text
	shut := closing(open)
	depth := 0
	for i := x.p + k; i < min(len(x.ts), x.p+k+maxBracket); i++ {
		switch {
		case x.ts[i].is(open):
			depth++
		case x.ts[i].is(shut):
			if depth--; depth == 0 {
				x.spent += (i - x.p) / 16
				return i
			}
		}
	}
	x.spent += maxBracket / 16
	return -1
}

// bracket = "(" { step } ")" ( times | place | ) .
//
// What a bracket is for shows in what follows it: a number of times makes a
// repeat, a place makes all of it go there, nothing at all makes it a remark.
func (x *rowReader) bracket(before []*Step) []*Step {
	start := x.p
	open := x.peek().text
	end := x.closer(0)
	if end < 0 {
		x.p++
		sp := x.spanFrom(start)
		if open != "<" {
			x.pat.note(Note, CodeReading, sp, "%q is never closed: the row is read as if it were not there", open)
		}
		return []*Step{{Op: OpNote, Span: sp}}
	}
	x.nameMade(before, end)
	if x.oneMeshIn(end) {
		x.p = end + 1
		return x.noteFrom(start)
	}
	if _, to := x.calledAt(1); to == end || x.remark(before, end) {
		x.p = end + 1
		return x.noteFrom(start)
	}
	wasWorked, wasMain := x.worked, x.main
	bad, remarks := len(x.row.bad), len(x.row.remarks)
	ahead := x.lastStep
	x.p++
	g := &Step{Op: OpGroup, Times: Times{Kind: Once}}
	g.Body = x.steps(closing(open))
	if !x.end() {
		x.p++
	}
	x.glossBetween()
	inside := x.p
	if len(g.Body) == 1 && x.ts[start+1].kind == tNum && g.Body[0].shapes() && !g.Body[0].Target.said {
		g.Body[0].bare = true // "(6 dec) 3 times"
	}
	x.close("(", g)
	x.lastStep = ahead // "sc to corner sp, (sc, ch 2, sc) in it": the one before the bracket
	if into := x.intoPlace(start, g); into != nil {
		return into
	}
	if g.Times.Kind != Once || x.groupTimes(g) {
		g.Span = x.spanFrom(start)
		return []*Step{g}
	}
	x.p = inside
	g.Span = x.spanFrom(start)
	if whereJoined(before, g) {
		return []*Step{{Op: OpInto, N: Num{N: 1}, Body: g.Body, Target: Target{Which: Same}, Span: g.Span}}
	}
	if x.asRemark(start, before, g) {
		x.row.bad, x.row.remarks = x.row.bad[:bad], x.row.remarks[:remarks]
		if x.ts[start+1].kind == tNum && x.depth == 1 && x.end() {
			// perhaps a total of a kind not known
			x.row.remarks = append(x.row.remarks, g.Span)
		}
		x.worked, x.main = wasWorked, wasMain
		return []*Step{{Op: OpNote, Span: g.Span, Text: x.src.Slice(g.Span)}}
	}
	return []*Step{g}
}

// groupTimes reads how often a bracket is worked.
func (x *rowReader) groupTimes(g *Step) bool {
	save := x.p
	for x.peek().isMark(",-") {
		x.p++
	}
	x.accept("all", "and")
	rep := x.accept("rep", "repeat", "rpt", "repeated", "work", "worked", "repeating", "do")
	if rep {
		x.phrase("this|these|the|pattern|between", "[sts|sequence|brackets|pattern]")
		x.phrase("[to]", "[all]")
		if x.peek().isAny("from") && (x.at(1).isMark("*([")) {
			x.p = save
			return false
		}
	}
	tm, ok := x.times()
	if n := x.peek(); !ok && rep && n.kind == tNum && !n.frac && x.at(-1).isAny("rep", "repeat", "rpt") && (x.at(1).kind == tEnd || x.at(1).head || x.at(1).isMark(".,;:([=-")) {
		tm = Times{Kind: Exactly, Span: n.span()} // "(sc 1, inc) rep 3"
		tm.N, ok = x.number()
	}
	if !ok {
		if rep && (x.fillsRow() || x.end() || x.peek().separator() && (x.lastWordsAfter(0) || x.at(1).isAny("ss", "sl", "slst", "join", "turn"))) && x.at(-1).isAny("rep", "repeat", "rpt") {
			g.Times = Times{Kind: Fill, Bound: Bound{Kind: ToEnd}}
			return true
		}
		x.p = save
		return false
	}
	tm.shut = tm.Kind == More && x.worked
	if rep && tm.Kind == Exactly && tm.N.N >= 1 {
		tm.star = !tm.sure
	}
	if tm.Kind == Fill && tm.Bound.Kind == ToPlace {
		x.p = save
		return false
	}
	g.Times = tm
	x.endings(g)
	return true
}

// intoPlace reads "(2 dc, ch 2, 2 dc) in next sp", "(dc, ch 1) 3 times in
// next st", "[...] in each ch-3 sp around".
func (x *rowReader) intoPlace(start int, g *Step) []*Step {
	save := x.p
	if x.at(1).isAny("in", "into") {
		x.accept("all")
	}
	pl := x.place()
	if len(pl) == 0 || !pl[0].said || pl[0].Span.Empty() || pl[0].Which == Each && pl[0].Bound.Kind != NoBound && pl[0].Span == pl[0].Bound.Span || x.ts[save].isAny("to", "until", "across", "around", "along") && pl[0].Which == Each && pl[0].Bound.Kind != NoBound {
		x.p = save
		// a number of times, and then the place
		tm, ok := x.times()
		if !ok || tm.Kind == Fill {
			x.p = save
			return nil
		}
		from := x.p
		x.accept("all")
		pl = x.place()
		if len(pl) == 0 || !x.ts[from].isAny("in", "into", "all", "on", "over", "under") {
			x.p = from
			g.Times = tm
			x.endings(g)
			return nil
		}
		g = &Step{Op: OpGroup, Body: g.Body, Times: tm, Span: g.Span}
		tm.sure = true
		g.Times = tm
		g.Span = x.spanFrom(start)
		s := &Step{Op: OpInto, Body: []*Step{g}, Target: pl[0], N: Num{N: 1}, Span: x.spanFrom(start)}
		return x.repeated(start, []*Step{s})
	}
	var out []*Step
	for i, t := range pl {
		s := &Step{Op: OpInto, Body: g.Body, Target: t, N: Num{N: 1}, Span: t.Span}
		if i == 0 {
			s.Span = Span{int(x.ts[start].start), t.Span.End}
		}
		out = append(out, s)
	}
	return x.repeated(start, out)
}

// toldByHand reports a bracket that says how the hands make what was just
// named: "(to dec: draw up a lp in each of 2 sc, yo and through all 3 lps)".
func (x *rowReader) toldByHand(end int) bool {
	if x.phraseAt(1, "to", "[make|work|do]", "[a|an|the]", "inc|dec|decrease|increase|cluster|cl|bobble|popcorn|puff|picot|shell", "[:|-|,]") < 0 {
		return false
	}
	for i := x.p + 2; i < end; i++ {
		if x.ts[i].isAny("yo", "yoh", "yrh", "draw", "pull", "insert", "loops", "lps", "hook", "make", "work") {
			return true
		}
	}
	return false
}

// remark reports whether a bracket is only something to know, and takes it.
func (x *rowReader) remark(before []*Step, end int) bool {
	t := x.at(1)
	if end < 0 {
		return false
	}
	size := end - x.p
	if size <= 1 {
		x.p = end + 1
		return true
	}
	if x.toldByHand(end) {
		x.p = end + 1
		return true
	}
	// the other side's name for the stitch just named: "14dc (14tr)"
	if x.otherName(end) {
		x.p = end + 1
		return true
	}
	if t.isAny("first", "1st") && size <= 5 && len(before) > 0 && before[len(before)-1].Op == OpChain {
		x.p = end + 1
		return true
	}
	if t.isAny("counts", "count", "does", "do", "not", "see", "mark", "place", "pm", "rs", "ws", "right", "wrong", "note", "photo", "this", "these", "now", "make", "be", "being",
		"here", "remember", "optional", "if", "you", "your", "for", "approx", "about", "first", "same", "both", "marked", "move", "stuff", "including", "excluding", "with", "color", "colour", "a", "b", "c", "d", "mc", "cc", "like", "or", "as", "that", "which", "one", "all", "it", "going", "corner", "the", "=", "picot", "shell", "cluster", "v", "solid", "open", "inc", "dec", "increase", "decrease", "decreases", "beg", "skipped", "turning", "mesh", "made", "each", "and", "use", "using", "don't", "do", "optional", "loosely", "facing", "base", "i", "always") {
		after := &x.ts[end+1]
		switch {
		case x.followsTimes(end+1) || after.isAny("in", "into", "over", "to", "until", "around", "across", "rep", "repeat", "x", "*", "all"):
			return false
		case t.isAny("inc", "dec", "shell", "cluster", "picot", "v", "first", "one", "increase", "decrease", "corner", "open", "solid", "a", "b", "c", "d", "each", "skipped", "turning", "beg", "base"):
			// a remark only when it says "made", or is a name in one or two words
			for i := x.p + 1; i < end; i++ {
				if x.ts[i].isAny("made", "complete", "completed", "formed", "counts", "count", "does", "added", "dropped", "worked") {
					x.p = end + 1
					return true
				}
			}
			if size <= 3 && len(before) > 0 && !x.at(-1).isMark(",;.:*([") {
				x.p = end + 1
				return true
			}
			return false
		}
		x.p = end + 1
		return true
	}
	for i := x.p + 1; i < end; i++ {
		if x.ts[i].isAny("made", "counts", "count", "photo", "completed", "facing", "cm", "mm", "inches", "inch", "sl") && !x.followsTimes(end+1) && !x.ts[end+1].isAny("in", "into", "over", "all") {
			if x.ts[i].is("sl") || x.ts[i].isAny("made") && (x.ts[i-1].isAny("last", "just", "first") || i > x.p+2 && x.ts[i-2].isAny("last", "first", "just")) {
				continue
			}
			if x.ts[i].isAny("counts", "count") && x.ts[x.p+1].isAny("ch") && x.ts[x.p+2].kind == tNum && i > x.p+4 {
				continue // a chain with its own remark, inside a group
			}
			x.p = end + 1
			return true
		}
	}
	return false
}

// nameMade takes a name for the group just read: "(shell made)", "(this is called a
// shell)".
func (x *rowReader) nameMade(before []*Step, end int) {
	if end < 0 {
		return
	}
	if from, to := x.calledAt(1); to == end || to > 0 && x.ts[to].is(".") && to+1 == end {
		x.nameGroup(before, from, to, true)
		return
	}
	if x.phraseAt(1, "[an|one|the]", "inc|increase") == end-x.p-1 {
		x.nameGroup(before, end-1, end, true)
		return
	}
	words := end - 1
	for words > x.p && end-x.p <= 8 && !x.ts[words].isAny("made", "complete", "completed", "formed") {
		words-- // "(shell made over shell)"
	}
	if words-x.p > 5 || words <= x.p || words < end-1 && !x.ts[words+1].isAny("over", "in", "into", "on") {
		return
	}
	x.nameGroup(before, x.p+1, words, false)
}

// calledAt finds the name in "called inc", "this is known as a corner", k tokens on: its
// tokens from and to, which are 0 where nothing is named so.
func (x *rowReader) calledAt(k int) (from, to int) {
	n := x.phraseAt(k, "[this|these|it|which|that|all]", "[group]", "[is|are|will]", "[be]", "[always|hereafter|henceforth|afterwards|now]", "called|named|termed", "[hereafter|now]", "[a|an|one|the]")
	if n <= 0 {
		n = x.phraseAt(k, "[this|these|it|which|that]", "[is|are]", "[hereafter|now]", "known", "[hereafter]", "as", "[a|an|one|the]")
	}
	if n <= 0 {
		return 0, 0
	}
	from = x.p + k + n
	for to = from; to < from+4; to++ {
		if t := &x.ts[to]; t.kind != tWord && !(t.is("-") && t.glued) {
			break
		}
	}
	if t := &x.ts[to]; to == from || !t.separator() && t.kind != tEnd && !t.isMark("()]}") {
		return 0, 0
	}
	return from, to
}

// nameTold takes the name that is told behind a group, " - called inc", for it.
func (x *rowReader) nameTold(before []*Step) *Step {
	from, to := x.calledAt(0)
	if to == 0 || !x.nameGroup(before, from, to, true) {
		return nil
	}
	start := x.p
	x.p = to
	return &Step{Op: OpNote, Span: x.spanFrom(start)}
}

// nameGroup gives the group just read the name that stands between two tokens. One that
// is called so may have a name that print uses for something else.
func (x *rowReader) nameGroup(before []*Step, from, to int, called bool) bool {
	for len(before) > 0 && before[len(before)-1].Op == OpNote && called {
		before = before[:len(before)-1]
	}
	if len(before) == 0 {
		return false
	}
	s := before[len(before)-1]
	for s.Op == OpGroup && len(s.Body) > 0 {
		s = s.Body[len(s.Body)-1]
	}
	var body []*Step
	switch {
	case s.Op == OpInto && s.special == nil:
		body = s.Body
	case s.Op == OpWork && s.N.N >= 2 && s.Legs == 0:
		c := *s
		c.Target = Target{Which: Next, N: s.N}
		c.N = Num{N: 1}
		body = []*Step{&c}
	default:
		return false
	}
	name := ""
	for i := from; i < to; i++ {
		if t := &x.ts[i]; t.kind == tWord && !t.isAny("first", "one", "a", "an", "another", "corner", "the", "last", "next", "second", "beg", "beginning") || called && t.is("corner") {
			if t.in(blockWords) || t.in(meshWords) {
				return false // of filet, which print knows without being told
			}
			if name != "" {
				name += " "
			}
			name += t.text
		}
	}
	if name == "" || x.names[name] != nil {
		if x.names[name] != nil && x.names[name].Body != nil {
			x.dub(s, x.names[name])
		}
		return false
	}
	if id, _ := x.lex.Find(name); id != stitch.None && !(called && stitch.Of(id).Kind == stitch.Compound) {
		return false
	}
	sp := &Special{Span: s.Span, Names: []string{name}, Takes: 1, Body: body}
	x.names[name], x.names[name+"s"] = sp, sp
	if base, ok := strings.CutSuffix(name, " st"); ok {
		x.names[base+" sts"], x.names[base+" stitch"] = sp, sp
	}
	x.dub(s, sp)
	return true
}

// madeThere is what a bracket behind a list of stitches in one place names, "in same
// sp make 2 dc, ch 2 and 3 dc (shell made)": all of them, where the list ends there.
// A chain before it that stands for a stitch is one of them, if only so the list
// reads the same from both ends.
func (x *rowReader) madeThere(body []*Step, begun *Step, end int) []*Step {
	after := &x.ts[end+1]
	if len(body) < 3 || !after.isMark(",;.*") && after.kind != tEnd || after.is(",") && !x.ts[end+2].isMark("*") {
		return body
	}
	first, last := body[0], body[len(body)-1]
	if first.Op != OpWork || last.Op != OpWork || first.Legs > 0 || first.N.Sizes != nil {
		return body
	}
	whole := append([]*Step(nil), body...)
	if bare := func(s *Step) int64 { return mul(max(s.N.N, 1), max(s.Target.N.N, 1)) }; begun != nil && begun.Op == OpChain && begun.N.N >= 2 && first.Stitch == last.Stitch && bare(first)+1 == bare(last) {
		c := *first
		c.N, c.Target = last.N, last.Target
		whole[0] = &c
	}
	return []*Step{{Op: OpInto, Body: whole, N: Num{N: 1}, Span: cover(first.Span, last.Span)}}
}

// dub makes a step an instance of a special stitch that it was named for.
func (x *rowReader) dub(s *Step, sp *Special) {
	if s.Op == OpWork {
		t := s.Target
		*s = Step{Op: OpInto, Span: s.Span, N: Num{N: 1}, Target: t, Body: sp.Body, special: sp, Name: sp.Names[0]}
		return
	}
	s.special, s.Name = sp, sp.Names[0]
}

// followsTimes reports whether the token at i begins a number of times.
func (x *rowReader) followsTimes(i int) bool {
	save := x.p
	x.p = i
	if x.p >= len(x.ts) {
		x.p = save
		return false
	}
	x.accept(",")
	_, ok := x.times()
	x.p = save
	return ok
}

// otherName reports "(14tr)" after "14dc", or "(tr)" after "dc".
func (x *rowReader) otherName(end int) bool {
	k := 1
	if x.at(k).kind == tNum {
		k++
	}
	other := x.other
	if other == nil || x.p == 0 {
		return false
	}
	save := x.lex
	x.lex = other
	id, n := x.lookup(other, k)
	x.lex = save
	if n == 0 || x.p+k+n != end {
		return false
	}
	own, m := x.lookup(x.lex, k)
	shared := m == n && own == id
	for back := 1; back <= 3 && x.p-back >= 0; back++ {
		if mine, m := x.lookup(x.lex, -back); m == back && mine == id {
			// one name on both sides: "6 hdc (18 hdc)" ends with a total
			return !shared || back != n || x.at(-back).text != x.at(k).text
		}
	}
	return false
}

// asRemark reports whether a bracket that nothing follows repeats in other
// words what stands before it, rather than being work of its own.
func (x *rowReader) asRemark(start int, before []*Step, g *Step) bool {
	if len(before) == 0 {
		return false
	}
	if start > 0 && x.ts[start-1].isAny(",", ";", ".", ":", "*", "(", "[", "**", "then", "and") {
		prev := before[len(before)-1]
		if x.ts[start-1].isMark(".,") && prev.Op != OpChain && len(g.Body) > 0 && len(x.row.bad) > 0 && x.row.bad[len(x.row.bad)-1].Start >= g.Span.Start {
			return true
		}
		return false
	}
	return true
}

// whereJoined reports a list in a bracket right behind the place where yarn is
// joined, which goes all into that place: "with C in any corner sp: (ch 3, 2 dc,
// ch 2, 3 dc)".
func whereJoined(before []*Step, g *Step) bool {
	if len(before) == 0 || before[len(before)-1].Op != OpAttach || !before[len(before)-1].Target.said || len(g.Body) < 3 {
		return false
	}
	chains := 0
	for _, s := range g.Body {
		switch {
		case s.Op == OpChain:
			chains++
		case s.Op != OpWork || s.Target.said || s.Legs > 0:
			return false
		}
	}
	return g.Body[0].Op == OpChain && chains > 1
}
