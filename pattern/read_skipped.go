package pattern

// skippedCount reads a sentence of its own about the chains skipped at the hook, once
// more was worked: "ch 4, 11 dc in 4th ch from hook, join. The skipped ch count
// as a dc." It holds for the step that skipped them.
func (x *rowReader) skippedCount(before []*Step) *Step {
	open := x.peek().isMark("([")
	k := 0
	if open {
		k = 1
	}
	if !x.worked || x.depth > 1 || x.p == 0 || !open && !x.at(-1).isMark(".;!-,") && !x.at(-1).is("the") || !x.at(k).isAny("the", "these", "those", "your", "skipped", "missed", "unworked") && !x.at(k+1).isAny("skipped", "missed") {
		return nil
	}
	var hook *Step
	for _, s := range before {
		if s.Op == OpWork && s.Target.Which == FromHook && !s.Counts.Said {
			hook = s
		}
	}
	if hook == nil {
		return nil
	}
	start := x.p
	x.p += k
	x.accept("the", "these", "those", "your")
	x.accept("first", "beginning", "other")
	if x.peek().kind == tNum {
		x.p++
	}
	c := Counts{}
	ok := x.phrase("skipped|missed|unworked", "[ch|chs|chain|chains|stitches|sts]") && x.readCounts(&c)
	if ok && open {
		x.accept(".")
		ok = x.accept(")", "]")
	} else if ok {
		ok = x.end() || x.peek().separator() || x.peek().isMark("([{") || x.peek().isAny("so", "and", "which", "giving", "making")
	}
	if !ok {
		x.p = start
		return nil
	}
	c.Span = x.spanFrom(start)
	c.Space = max(0, c.Space)
	hook.Counts = c
	return &Step{Op: OpNote, Span: c.Span, Text: x.src.Slice(c.Span), implicit: true}
}
