package pattern

// surveyCounted finds rows that a maker numbers with a figure and nothing
// else, "2 ch1 turn, sc 11" and then "3 sc": line after line begins with the
// number that comes next. One such line could be work, a list of them is not.
func (r *reader) surveyCounted() {
	const fewest = 4
	var list []int // tokens at which a run of them begins
	work, next := 0, int64(0)
	flush := func() {
		if len(list) >= fewest && 2*work > len(list) {
			if r.counted == nil {
				r.counted = make(map[int]bool)
			}
			for _, i := range list {
				r.counted[i] = true
			}
		}
		list, work, next = list[:0], 0, 0
	}
	for _, ln := range r.lines {
		t := &r.toks[ln.start]
		if t.kind != tNum || t.frac || t.word || ln.end-ln.start < 2 || t.num > 999 {
			continue // a remark between the rows
		}
		after := &r.toks[ln.start+1]
		if after.isMark(".):") || isRowWord(after) || after.isAny("x", "mm", "cm", "g", "oz", "ball", "balls", "skein", "skeins") {
			continue
		}
		last := t.num
		if after.is("-") && after.glued && r.toks[ln.start+2].kind == tNum && r.toks[ln.start+2].glued && r.toks[ln.start+2].num > last {
			last = r.toks[ln.start+2].num
		}
		if t.num != next || next == 0 {
			flush()
			if t.num > 2 {
				continue
			}
		}
		list = append(list, ln.start)
		next = last + 1
		if r.hasStitches(ln) || r.scratch(ln.start+1).phraseAt(0, "inc|dec|even|plain|as|same|tog") > 0 {
			work++
		}
	}
	flush()
}
