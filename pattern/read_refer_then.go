package pattern

// keepsOn takes what says to go on with rows: "keep on repeating", "carry on with
// the", "keep going with". The rows follow.
func (x *rowReader) keepsOn() bool {
	start := x.p
	if x.phrase("[and|just]", "keep|carry|go|continue|cont|so", "[on]", "[going|on]", "repeating|rep|doing|working|with|in", "[with|in]", "[the|these|those|that|this]", "[same]") {
		t := x.peek()
		if isRowWord(t) && x.at(1).kind == tNum || t.kind == tOrd || t.isAny("last", "previous") || t.kind == tNum && (isRowWord(x.at(1)) || x.at(1).is("-") && isRowWord(x.at(2))) {
			return true
		}
	}
	x.p = start
	return false
}

// otherRows takes the rows a sentence speaks of that it tells by another: "all other rows",
// "every row after that is worked", "the remaining rows are". It takes nothing where no
// words of likeness follow.
func (x *rowReader) otherRows() bool {
	start := x.p
	if (x.phrase("all|every|each", "[of]", "[the]", "other|further|following|remaining|subsequent|later") || x.phrase("the", "other|further|following|remaining|subsequent|rest", "[of]", "[the]") || x.phrase("all|every|each")) &&
		x.p > start && isRowWord(x.peek()) {
		told := x.p > start+1
		x.p++
		if x.phrase("after|from", "that|this|here|it", "[on]") || told {
			x.accept("are", "is", "go", "goes", ":")
			x.accept("then", "just", "all")
			x.accept("worked", "made", "done")
			if x.peek().isAny("same", "as", "like", "exactly", "the", "repeat") {
				return true
			}
		}
	}
	x.p = start
	return false
}

// mostThen is how many references one sentence may give one behind another.
const mostThen = 20

// referThen reads the rows to work behind others that are repeated: "then rep
// Rows 2 and 3 once", "then 1st to 4th rows once more", "followed by Row 2". It
// is nil where none are told, and takes nothing then.
func (x *rowReader) referThen() *Refer {
	start := x.p
	x.accept(",", ";", ".")
	x.accept("and")
	r := &Refer{}
	if !x.phrase("then|followed", "[by]", "[rep|repeat|work|do|make]", "[the]", "[instructions]", "[for|of]", "[the]") || !x.referRows(r, true) || r.LastRows > 0 || r.Piece != "" || r.Named != "" {
		x.p = start
		return nil
	}
	x.referTimes(r)
	x.accept("again")
	if !x.end() && !x.peek().separator() && !x.peek().isMark("([{=<") || r.Measure || r.Rows.N > 0 || r.Until.N > 0 || r.UntilRow > 0 || r.UntilSts.N > 0 || r.EndRow > 0 {
		x.p = start
		return nil
	}
	r.Span = x.spanFrom(start)
	return r
}
