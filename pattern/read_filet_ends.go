package pattern

// inFilet reports work in meshes: somewhere numbers of open and filled ones stand
// in a row, "4 sps, 7 bls, 4 sps".
func (r *reader) inFilet() bool {
	for i := 0; i+4 < len(r.toks); i++ {
		if r.toks[i].kind != tNum || !r.toks[i+1].in(blockWords) && !r.toks[i+1].in(meshWords) {
			continue
		}
		k := i + 2
		if r.toks[k].is(".") {
			k++
		}
		if !r.toks[k].isAny(",", ";", "and") || k+2 >= len(r.toks) || r.toks[k+1].kind != tNum {
			continue
		}
		if a, b := &r.toks[i+1], &r.toks[k+2]; a.in(blockWords) && b.in(meshWords) || a.in(meshWords) && b.in(blockWords) {
			return true
		}
	}
	return false
}

// meshEnds = ( "slip" | "sl st" | "skip" ) [ "over" ] [ "first" ] [ number ] mesh [ "at each end" ] |
// "leave" [ "last" ] [ number ] mesh [ "unworked" ] .
//
// So filet is drawn in at its ends.
func (x *rowReader) meshEnds() []*Step {
	if !x.pat.filet {
		return nil
	}
	start := x.p
	switch {
	case x.phrase("leave|leaving", "[the]"):
		n, ok := x.endMeshes()
		if !ok {
			break
		}
		x.accept("unworked", "free", "undone", "over")
		x.phrase("at|on", "[the]", "end|edge", "[of]", "[the|this]", "[row]")
		sp := x.spanFrom(start)
		return []*Step{{Op: OpLeave, Name: meshEnd, Target: Target{N: n}, Span: sp}}
	case x.worked:
	case x.phrase("[to|turn]", "[,]", "[work|then]", "slip|sl|ss|slst", "[st|stitch|stitches|sts]", "[back]", "over|across|along", "[the]"), x.phrase("skip|sk|miss|omit", "[over]", "[the]"):
		n, ok := x.endMeshes()
		if !ok {
			break
		}
		both := x.phrase("at|on", "each|both|either", "end|ends|side|sides", "[of]", "[the]", "[row]")
		if !both && x.ts[start].isAny("skip", "sk", "miss", "omit") && !x.phrase("at|on", "[the]", "beginning|start|beg", "[of]", "[the|this]", "[row]") {
			break
		}
		sp := x.spanFrom(start)
		s := &Step{Op: OpSkip, Name: meshEnd, Target: Target{Which: Next, N: n, said: true, Span: sp}, Span: sp}
		if both {
			return []*Step{s, {Op: OpLeave, Name: meshEnd, Target: Target{N: n}, Span: sp}}
		}
		return []*Step{s}
	}
	x.p = start
	return nil
}

// endMeshes reads how many meshes at an end are meant: "first sp", "1 block",
// "last 2 meshes".
func (x *rowReader) endMeshes() (Num, bool) {
	save := x.p
	n := Num{N: 1}
	edge := x.accept("first", "last", "end", "final", "a")
	if x.peek().kind == tNum && !x.peek().frac {
		n, _ = x.number()
	} else if !edge {
		x.p = save
		return n, false
	}
	x.accept("open", "solid", "filled", "end", "last", "first")
	if t := x.peek(); !t.in(blockWords) && !t.in(meshWords) && !t.isAny("square", "squares", "sq", "sqs") {
		x.p = save
		return n, false
	}
	x.p++
	if x.peek().is(".") && x.at(1).isMark(",;") {
		x.p++
	}
	return n, true
}

// meshEnd is the name of a step that leaves out meshes at an end of the row.
const meshEnd = "mesh"
