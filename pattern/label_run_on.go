package pattern

// A message typed in one go has its rows in the middle of it, with no mark to set them
// apart: "rnd 1 five sc in ring rnd 2 inc x5 so 10 rnd 3 and 4 plain". That they are labels
// shows in that they count on from the first.

// fewestRunOn is how many rows that count on show that they are labels.
const fewestRunOn = 3

// besideRunOn are the words before a row that is only spoken of.
var besideRunOn = newWordSet("repeat rep as like of from to in for on see until till the last same than after before at through and with between work")

// surveyRunOn finds the labels of rows that run on, on a page that has no others.
func (r *reader) surveyRunOn() {
	if r.hasLabel || r.weakOK || len(r.counted) > 0 {
		return
	}
	var list []int
	next := int64(1)
	for i := 1; i+2 < len(r.toks); i++ {
		t := &r.toks[i]
		if !isRowWord(t) || r.toks[i+1].kind != tNum || r.toks[i+1].frac || r.toks[i+1].num != next || r.toks[i-1].in(besideRunOn) {
			continue
		}
		l, ok := r.runOnLabel(i)
		if !ok || !r.tellsWork(line{l.end, min(l.end+12, len(r.toks))}) && !r.beginsStep(line{l.end, r.lineEnd(i)}) {
			continue
		}
		if !r.toks[i].head && r.mayLabel(i) && l.end > i+2 && r.toks[l.end-1].is(":") {
			return // they have marks
		}
		list = append(list, i)
		next = l.numbers.Last.N + 1
	}
	if len(list) < fewestRunOn {
		return
	}
	r.runOn = make(map[int]bool, len(list))
	for _, i := range list {
		r.runOn[i] = true
	}
}

// runOnLabel reads the label of such a row.
func (r *reader) runOnLabel(i int) (label, bool) {
	head := r.toks[i].head
	r.toks[i].head = true // as at the head of a line
	l, ok := r.labelAt(i)
	r.toks[i].head = head
	l.strong = true
	return l, ok && !l.weak && l.numbers.First.N > 0
}

// runsOn finds the first of such rows on a line that leads up to it with talk, or 0.
func (r *reader) runsOn(ln line) int {
	if r.runOn == nil || r.row != nil || len(r.setup) > 0 {
		return 0
	}
	for k := ln.start; k < ln.end; k++ {
		switch t := &r.toks[k]; {
		case r.runOn[k] && k > ln.start:
			return k
		case t.isAny("ch", "chain", "chains", "ring") || r.ringBegins(k, ln.end):
			return 0 // it begins there
		}
	}
	return 0
}
