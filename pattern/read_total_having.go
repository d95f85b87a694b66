package pattern

// havingAtEnd takes what stands before the number of a total that is told of the end
// of rows: "having 20 sc at end of Row 8", "with 30 sts on last round". The number
// and what it counts follow, and then the row; "having 5 ch in each loop" is none.
func (x *rowReader) havingAtEnd() bool {
	start := x.p
	if !x.phrase("having|with", "[now]", "[a]", "[total]", "[of]") {
		return false
	}
	k := 1
	if x.peek().kind != tNum || x.peek().frac {
		x.p = start
		return false
	}
	if _, n := x.stitchAt(k); n > 0 {
		k += n
	} else if n, ok := x.nounAt(k); ok && n.chain == 0 {
		k += n.tokens
	} else if x.eachRowAhead(k) == 0 {
		x.p = start
		return false
	}
	if x.eachRowAhead(k) > 0 {
		return true // "with 12 sts each time"
	}
	if n := x.phraseAt(k, "[left|remaining|now]", "at|on|in", "[the]", "end", "of"); n > 0 {
		k += n
	} else if n := x.phraseAt(k, "[left|remaining|now]", "on|in|after", "[the]", "last|final|row|rnd|round"); n > 0 {
		k += n - 1
	} else {
		x.p = start
		return false
	}
	k += max(0, x.phraseAt(k, "[the|this|your]", "[last|final]"))
	if !isRowWord(x.at(k)) {
		x.p = start
		return false
	}
	if k++; x.at(k).kind == tNum {
		k++
	}
	if end := x.at(k); end.kind != tEnd && !end.separator() && !end.isMark("([)") && !end.head {
		x.p = start
		return false
	}
	return true
}
