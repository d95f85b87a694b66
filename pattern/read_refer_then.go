package pattern

// keepsOn takes what says to go on with rows: "keep on repeating", "carry on with
// the", "keep going with". The rows follow.
func (x *rowReader) keepsOn() bool {
	start := x.p
	if x.phrase("keep|carry|go|continue|cont", "[on]", "[going|on]", "repeating|rep|doing|working|with|in", "[with|in]", "[the|these|those]") {
		t := x.peek()
		if isRowWord(t) && x.at(1).kind == tNum || t.kind == tOrd || t.isAny("last", "previous") || t.kind == tNum && isRowWord(x.at(1)) {
			return true
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
