package pattern

import "slices"

// definedInline reads what a group is made of where that is told behind its name, the
// first time it is used: "V-st (dc, ch 1, dc) in next sc". It gives the group and the
// length of its name with the bracket, which where the pattern has defined it already
// is only passed over; nil where no such bracket stands n tokens on.
func (x *rowReader) definedInline(n int) (*Special, int) {
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
	names := []string{x.peek().text}
	if usual := usualGroups[names[0][:1]]; usual != nil {
		names = usual.Names
	}
	sp := &Special{Span: Span{int(x.ts[start].start), int(x.ts[end].end)}, Names: names, Takes: 1, Body: body}
	for _, name := range names {
		if x.names[name] == nil {
			x.names[name] = sp
		}
	}
	return x.names[names[0]], shut + 1 - start
}
