package pattern

import "crochet/tallyturn/pattern/stitch"

// evenTold reads rows told in a sentence that has no stitch of its own to place: "now just
// go round and round without any increases", "work three rows of sc without shaping",
// "continue on these 20 sts", "5 more rounds in the same way".
//
//	evenTold = { verb | number "more" rows | "round and round" | "no increase" | "of" stitch | "on these" number "sts" } .
func (x *rowReader) evenTold() []*Step {
	if x.worked || !x.afterRows || x.depth > 1 || !x.peek().opens(opensEven) {
		return nil
	}
	start := x.p
	s := &Step{Op: OpEven}
	var count Num
	var even, rows, same, moves, keeps, on bool
	for !x.end() {
		save := x.p
		if x.p > start {
			x.accept(",", "and", "or", "but", "in", "of", "with")
		}
		switch {
		case x.phrase("now|then|just|simply|all", "[you|just|simply]"):
			continue
		case !moves && (x.phrase("continue|cont|keep|carry|go|proceed", "[on]", "going|working|to|crocheting", "[work|crochet]") || x.phrase("keep|carry|go", "on") || x.phrase("continue|cont|proceed|go")):
			moves, keeps = true, true
			continue
		case !moves && x.phrase("work|do|make|crochet"):
			moves = true
			continue
		case x.phrase("round|around|back|to|backwards", "and", "round|around|forth|fro|forwards"):
			moves = true
			continue
		case !rows && x.rowsOfWork(&count):
			rows = true
			continue
		case x.evenWord():
			even = true
			continue
		case x.at(2).kind != tNum && !isRowWord(x.at(2)) && x.phrase("the", "same", "[way|again|manner]") || x.phrase("[in]", "the|this|that", "[same]", "way|manner"):
			same = true
			continue
		case !on && x.phrase("on|over", "[all]", "the|these|those", "[same|remaining]") && x.peek().kind == tNum:
			if n, ok := x.number(); ok && x.nounFollows(0) {
				x.nounDrop()
				x.stateUntil(n)
				on = true
				continue
			}
		case s.Stitch == stitch.None && (rows || moves) && x.plainStitchNamed(s):
			continue
		}
		x.p = save
		break
	}
	switch {
	case even, (rows || keeps) && s.Stitch != stitch.None, moves && on:
	case same && rows:
	default:
		x.p = start
		return nil
	}
	out := x.goesEven(s, start, same && !even)
	if r := x.row.Refer; out != nil && r != nil {
		r.Rows = count // it is held against the label
	}
	return out
}

// rowsOfWork takes "three rows", "5 more rounds", "a row", "another round", and how many
// they are.
func (x *rowReader) rowsOfWork(n *Num) bool {
	save := x.p
	x.accept("for", "the", "next")
	x.accept("next", "following")
	if t := x.peek(); t.kind == tNum && !t.frac && !t.big || t.isAny("a", "another", "an") {
		x.p++
		x.accept("more", "further", "plain", "other", "straight")
		if isRowWord(x.peek()) && !x.peek().is("r") {
			x.p++
			x.accept("more")
			*n = Num{N: t.num}
			return true
		}
	}
	x.p = save
	return false
}

// evenWord takes one thing that says the number of stitches stays as it is.
func (x *rowReader) evenWord() bool {
	const changes = "shaping|change|changes|increase|increases|increasing|increased|decrease|decreases|decreasing|inc|dec|incs|decs"
	return x.phrase("even|straight|plain|evenly", "[up|on]") || x.phrase("no|without|with|nor|neither|not", "[any|no|making|further|more]", "[further|more|additional]", changes, "[of|or|and|nor]", "[any|no]", "["+changes+"]")
}

// plainStitchNamed takes the stitch that plain rows are made in.
func (x *rowReader) plainStitchNamed(s *Step) bool {
	id, n := x.stitchAt(0)
	if n == 0 || id == stitch.Slip || stitch.Of(id).Kind != stitch.Basic || x.at(n).isAny("in", "into", "next", "tog", "each") {
		return false
	}
	x.p += n
	s.Stitch = id
	return true
}
