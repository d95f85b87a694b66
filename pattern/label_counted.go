package pattern

// surveyCounted finds rows that a maker numbers with a figure and nothing
// else, "2 ch1 turn, sc 11" and then "3 sc", or with an ordinal, "2nd 2 in
// each": line after line begins with the number that comes next. One such line
// could be work, a list of them is not.
func (r *reader) surveyCounted() {
	const fewest = 4
	r.surveyCountedBy(tNum, fewest)
	r.surveyCountedBy(tOrd, fewest)
}

// surveyCountedBy finds the lists that count in figures, or in ordinals. Once
// one is long enough, the parts after it may be shorter.
func (r *reader) surveyCountedBy(by kind, fewest int) {
	var list []int // tokens at which a run of them begins
	work, next, found := 0, int64(0), false
	flush := func() {
		if len(list) >= fewest && 2*work > len(list) || found && len(list) > 1 && work == len(list) {
			if r.counted == nil {
				r.counted = make(map[int]bool)
			}
			for _, i := range list {
				r.counted[i] = true
			}
			found = true
		}
		list, work, next = list[:0], 0, 0
	}
	for _, ln := range r.lines {
		t := &r.toks[ln.start]
		if t.kind != by || t.frac || t.word && by == tNum || ln.end-ln.start < 2 || t.num > 999 {
			continue // a remark between the rows
		}
		after := ln.start + 1
		last := t.num
		if r.toks[after].is("-") && r.toks[after].glued && r.toks[after+1].kind == by && r.toks[after+1].glued && r.toks[after+1].num > last {
			last = r.toks[after+1].num
			after += 2
		}
		if a := &r.toks[after]; by == tNum && (a.isMark(".):") && after == ln.start+1) || isRowWord(a) || a.isAny("x", "mm", "cm", "g", "oz", "ball", "balls", "skein", "skeins") ||
			by == tOrd && a.kind == tWord && a.isAny("one", "ones", "side", "piece", "part", "half", "leg", "arm", "ear", "eye", "size", "st", "sts", "stitch", "ch", "chain", "time", "of", "and", "end", "try") {
			continue
		}
		if t.num != next || next == 0 {
			flush()
			if t.num > 2 {
				continue
			}
		}
		list = append(list, ln.start)
		next = last + 1
		if r.tellsWork(line{after, ln.end}) {
			work++
		}
	}
	flush()
}

// shortWork are the words that notes have for a row with no stitch named.
var shortWork = newWordSet("inc incs dec decs increase increases decrease decreases doubled even plain straight as same again tog ditto mr ring")

// tellsWork reports whether what stands behind a number could be a row: a
// stitch, a word that is short for one, or a bracket with numbers in it.
func (r *reader) tellsWork(ln line) bool {
	for ln.start < ln.end && r.toks[ln.start].isMark(".:)-") {
		ln.start++
	}
	if ln.start >= ln.end {
		return false
	}
	if t := &r.toks[ln.start]; t.isMark("([*") && ln.start+1 < ln.end && r.toks[ln.start+1].kind == tNum {
		return true
	}
	for i := ln.start; i < min(ln.end, ln.start+4); i++ {
		if r.toks[i].in(shortWork) {
			return true
		}
	}
	return r.hasStitches(ln)
}

// countedLabel reads the number of a row of such a list.
func (x *rowReader) countedLabel(l *label) {
	t := x.peek()
	l.weak = true
	l.numbers.First = Num{N: t.num, Span: t.span()}
	l.numbers.Last = l.numbers.First
	x.p++
	if x.peek().is("-") && x.peek().glued && x.at(1).kind == t.kind && x.at(1).num > t.num {
		l.numbers.Last = Num{N: x.at(1).num, Span: x.at(1).span()}
		x.p += 2
	}
	if t.kind == tOrd {
		for x.peek().isMark(".:)-=") && !x.peek().head {
			x.p++
		}
	}
	if x.peek().isMark("/|") && !x.peek().head {
		x.totalCell(l)
	}
	l.end = x.p
}
