package pattern

import "slices"

// endingEdit reads how rows that are repeated end otherwise: "as 2nd row, ending with
// 2 tr in last dc", "Rep Row 2, the 9th row ending with 2 tr in last dc". What it ends
// with is worked instead of the last thing the row makes.
//
//	endingEdit = [ [ "the" ] row ] ( "ending" | "finishing" | "turning" ) [ [ "the" ] row ] "with" step [ "after" row ] .
//
// Old leaflets turn with a chain at the end of each row, and one row ends with another
// chain: "Rows 3 and 4: Work as for Row 2, ending Row 4 with ch 1, turn". It is the chain
// of that row which is another then; without a row named, of each: "as 3rd row, turning
// with 1 ch".
func (x *rowReader) endingEdit(r *Refer) bool {
	save := x.p
	x.accept(",", ";")
	x.accept("and", "but", "only")
	x.accept("on", "in")
	start := x.p
	e := Edit{Row: x.rowOfLabel()}
	if e.Row > 0 {
		x.accept(",")
	} else {
		x.p = start
	}
	turns := x.phrase("turning", "[the]", "[work]") && x.peek().isAny("with", "by")
	verb := turns || x.phrase("ending|end|ends|finishing|finish", "[off]")
	if verb && e.Row == 0 {
		e.Row = x.rowOfLabel()
	}
	if !verb || !x.phrase("[each|every|the|this]", "[row|rnd|round]", "[however]", "with|by", "[working|making|a]") {
		x.p = save
		return false
	}
	worked, last := x.worked, x.lastStep
	made := x.step(nil)
	x.worked, x.lastStep = worked, last
	if turns && e.Row == 0 {
		e.Row = x.turnsAfter()
	}
	if len(made) == 1 && made[0].Op == OpChain && (e.Row > 0 || turns) && (x.end() || x.peek().isMark(",;.") || x.peek().isAny("and", "to", "turn")) {
		x.phrase("to", "turn")
		e.End, e.Span = made[0], x.spanFrom(start)
		r.Edits = append(r.Edits, e)
		return true
	}
	if len(made) != 1 || made[0].Op != OpWork && made[0].Op != OpInto || !made[0].Target.said || made[0].Target.Which == Each || !x.end() && !x.peek().separator() && !x.peek().isMark("([{=-") {
		x.p = save
		return false
	}
	e.End, e.Span = made[0], x.spanFrom(start)
	r.Edits = append(r.Edits, e)
	return true
}

// turnsAfter takes the row at whose end the work is turned otherwise, "turning with ch 1
// after Row 5", and gives its number; 0 where none is named, and it is each row.
func (x *rowReader) turnsAfter() int64 {
	start := x.p
	if x.phrase("after|on|in|at", "[the]", "[end]", "[of]") {
		if n := x.rowOfLabel(); n > 0 {
			return n
		}
	}
	x.p = start
	return 0
}

// rowOfLabel takes the row that ends otherwise, by its number or as the last of those that
// the label stands for, and gives its number; 0 where none is named.
func (x *rowReader) rowOfLabel() int64 {
	start := x.p
	x.accept("the")
	if n, ok := x.rowName(); ok {
		return n.N
	}
	if x.phrase("last|final", "row|rnd|round|one") && x.rowsToTell() > 1 {
		return x.row.Numbers.Last.N
	}
	x.p = start
	return 0
}

// inShade takes the colour that rows are repeated in, "As 2nd row in Medium": one
// word behind "in", with which the clause ends.
func (x *rowReader) inShade() bool {
	save := x.p
	if !x.accept("in", "using") {
		return false
	}
	x.accept("the")
	t := x.peek()
	if t.kind != tWord || t.isAny("each", "every", "next", "same", "last", "first", "all", "turn", "order", "reverse", "pattern", "patt", "rounds", "rows", "row", "round") || t.in(prepositions) {
		x.p = save
		return false
	}
	if _, n := x.stitchAt(0); n > 0 || x.nounFollows(0) {
		x.p = save
		return false
	}
	x.p++
	x.accept("yarn", "wool", "cotton", "thread", "colour", "color")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{=") {
		x.p = save
		return false
	}
	return true
}

// coloursVaried takes what rows that are repeated do with the colours, which changes no
// count: "changing colours to please yourself", "alternating the colours as before".
func (x *rowReader) coloursVaried() bool {
	save := x.p
	x.accept(",")
	x.accept("and", "but")
	named := x.phrase("changing|alternating|varying|altering|using|working|keeping|continuing|following|in|with", "[to|in|with|on]", "[the|your|any|all|each]", "[same|two|three|four|other|different|whichever|whatever|any]", "colours|colors|colour|color|shades|shade|stripes|sequence", "[sequence|order|changes|change]")
	if !named && !x.phrase("changing|alternating|varying", "[the|your]") {
		x.p = save
		return false
	}
	from := x.p
	for !x.end() && !x.peek().separator() && !x.peek().isMark("([{") {
		if x.peek().isAny("until", "till", "for", "to") && x.p > from && x.at(1).isAny("you", "the", "piece", "cover", "work", "there", "it") {
			break
		}
		_, n := x.stitchAt(0)
		if x.peek().kind == tNum && x.nounFollows(1) || !named && (n > 0 || x.peek().kind == tNum || isRowWord(x.peek())) {
			x.p = save
			return false
		}
		x.p++
	}
	return true
}

// endingOtherwise gives steps whose last work is another: a repeat that is the last of
// them keeps its passes, and the ending stands behind it.
func endingOtherwise(steps []*Step, end *Step) []*Step {
	if end.Op == OpChain {
		return turningOtherwise(steps, end)
	}
	for i := len(steps) - 1; i >= 0; i-- {
		s := steps[i]
		if !makesStitches(s) {
			continue
		}
		e := *end
		if s.Op == OpWork || s.Op == OpInto {
			out := append([]*Step(nil), steps...)
			out[i] = &e
			return out
		}
		out := append([]*Step(nil), steps[:i+1]...)
		return append(append(out, &e), steps[i+1:]...)
	}
	return steps
}

// turningOtherwise gives steps with another chain at their end, behind all that is worked.
func turningOtherwise(steps []*Step, chain *Step) []*Step {
	out, e := append([]*Step(nil), steps...), *chain
	at := len(out)
	for i := len(out) - 1; i >= 0 && !makesStitches(out[i]); i-- {
		switch out[i].Op {
		case OpChain:
			out[i] = &e
			return out
		case OpTurn:
			at = i
		}
	}
	return slices.Insert(out, at, &e)
}

// rowsEnding gives the rows of "9th to 12th rows: As 2nd row, the 9th row ending with
// ...": one of those that the label stands for ends otherwise than the others.
func rowsEnding(out []*Row, row *Row, edits []Edit, size int) []*Row {
	first, last := row.Numbers.First.At(size), row.Numbers.Last.At(size)
	if len(out) != 1 || last-first > 500 || first < 1 {
		return out
	}
	for _, e := range edits {
		if e.End == nil || e.Row < first || e.Row > last {
			continue
		}
		for int64(len(out)) < last-first+1 {
			out = append(out, out[len(out)-1])
		}
		k := e.Row - first
		out[k] = endedOtherwise(out[k], e)
	}
	return out
}

// endedOtherwise is a row that ends as an edit has it.
func endedOtherwise(r *Row, e Edit) *Row {
	c := *r
	c.Steps = endingOtherwise(r.Steps, e.End)
	c.Total = nil
	return &c
}

// endedAt is a row that stands for the n-th of a label whose words have that one end
// otherwise.
func endedAt(rows []*Row, label *Row, n int) []*Row {
	if label.Refer == nil || len(rows) != 1 {
		return rows
	}
	for _, e := range label.Refer.Edits {
		if e.End != nil && e.Row == int64(n) {
			return []*Row{endedOtherwise(rows[0], e)}
		}
	}
	return rows
}
