package pattern

// endingEdit reads how rows that are repeated end otherwise: "as 2nd row, ending with
// 2 tr in last dc", "Rep Row 2, the 9th row ending with 2 tr in last dc". What it ends
// with is worked instead of the last thing the row makes.
//
//	endingEdit = [ [ "the" ] row ] ( "ending" | "finishing" ) "with" step .
func (x *rowReader) endingEdit(r *Refer) bool {
	save := x.p
	x.accept(",", ";")
	x.accept("and", "but", "only")
	x.accept("on", "in")
	start := x.p
	x.accept("the")
	e := Edit{}
	if n, ok := x.rowName(); ok {
		e.Row = n.N
		x.accept(",")
	} else {
		x.p = start
	}
	if !x.phrase("ending|end|ends|finishing|finish", "[off]", "[each|every|the|this]", "[row|rnd|round]", "[however]", "with|by", "[working|making]") {
		x.p = save
		return false
	}
	worked, last := x.worked, x.lastStep
	made := x.step(nil)
	x.worked, x.lastStep = worked, last
	if len(made) != 1 || made[0].Op != OpWork && made[0].Op != OpInto || !made[0].Target.said || made[0].Target.Which == Each || !x.end() && !x.peek().separator() && !x.peek().isMark("([{=-") {
		x.p = save
		return false
	}
	e.End, e.Span = made[0], x.spanFrom(start)
	r.Edits = append(r.Edits, e)
	return true
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
	if !x.phrase("changing|alternating|varying|altering|using|working|keeping|continuing", "[to|in|with]", "[the|your|any|all|each]", "[same|two|three|four|other|different]", "colours|colors|colour|color|shades|stripes|sequence", "[sequence|order|changes|change]") {
		x.p = save
		return false
	}
	from := x.p
	for !x.end() && !x.peek().separator() && !x.peek().isMark("([{") {
		if x.peek().isAny("until", "till", "for", "to") && x.p > from && x.at(1).isAny("you", "the", "piece", "cover", "work", "there", "it") {
			break
		}
		if x.peek().kind == tNum && x.nounFollows(1) {
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
