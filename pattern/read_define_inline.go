package pattern

import (
	"slices"

	"crochet/tallyturn/pattern/stitch"
)

// definedInline reads what a group is made of where that is told behind its name, the
// first time it is used: "V-st (dc, ch 1, dc) in next sc". It gives the group and the
// length of its name with the bracket, which where the pattern has defined it already
// is only passed over; nil where no such bracket stands n tokens on.
func (x *rowReader) definedInline(n int) (*Special, int) {
	if x.at(n).is("of") {
		return x.definedOf(n)
	}
	if !x.at(n).isMark("([") {
		return nil, 0
	}
	end := x.closer(n)
	if end < 0 || end-x.p-n > 24 || !x.ts[end+1].isAny("in", "into") {
		return nil, 0
	}
	start, worked, bad, last := x.p, x.worked, len(x.row.bad), x.lastStep
	open := x.at(n).text
	x.p += n + 1
	body := x.steps(closing(open))
	shut := x.p
	x.p, x.worked, x.lastStep = start, worked, last
	if shut != end || len(x.row.bad) > bad || len(body) < 1 || !unplacedList(body) || !slices.ContainsFunc(body, makesStitches) {
		x.row.bad = x.row.bad[:bad]
		return nil, 0
	}
	return x.defineHere(end, body), shut + 1 - start
}

// defineHere keeps a group under the name that stands next, told to the end-th token, where
// it is not defined yet. It gives what the name means.
func (x *rowReader) defineHere(end int, body []*Step) *Special {
	names := []string{x.peek().text}
	if usual := usualGroups[names[0][:1]]; usual != nil {
		names = usual.Names
	}
	sp := &Special{Span: Span{int(x.ts[x.p].start), int(x.ts[end].end)}, Names: names, Takes: 1, Body: body}
	for _, name := range names {
		if x.names[name] == nil {
			x.names[name] = sp
		}
	}
	return x.names[names[0]]
}

// definedOf reads a group told without a bracket before its place: "shell of 2 dc, ch 1 and
// 2 dc in next sc".
//
//	of   = "of" item { ( "," | "and" ) item } ( "in" | "into" ) .
//	item = [ number ] stitch | "ch" number .
func (x *rowReader) definedOf(n int) (*Special, int) {
	start, made := x.p, int64(0)
	defer func() { x.p = start }()
	x.p += n + 1
	var body []*Step
	for len(body) < 9 && !x.peek().isAny("in", "into") {
		x.accept(",")
		x.accept("and")
		at := x.p
		count := Num{N: 1}
		chain := x.accept("ch", "chain")
		if chain {
			x.accept("-")
		}
		if t := x.peek(); t.kind == tNum && !t.frac && !t.big && t.num > 0 && t.num < 30 {
			count = Num{N: t.num, Span: t.span()}
			x.p++
		}
		if chain || x.accept("ch", "chs", "chain", "chains") {
			body = append(body, &Step{Op: OpChain, N: count, Span: x.spanFrom(at)})
			continue
		}
		id, words := x.stitchAt(0)
		if words == 0 || id == stitch.Slip {
			return nil, 0
		}
		x.p += words
		made += count.N
		sp := x.spanFrom(at)
		body = append(body, &Step{Op: OpWork, Stitch: id, N: Num{N: 1}, Target: Target{Which: Next, N: count, said: true, Span: sp}, Span: sp})
	}
	if made < 2 || !x.peek().isAny("in", "into") {
		return nil, 0
	}
	end := x.p
	x.p = start
	return x.defineHere(end-1, body), end - start
}
