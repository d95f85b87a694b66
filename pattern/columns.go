package pattern

// columnTotals sets a mark before totals that stand in a column of their own,
// parted from the words of the row by a wide gap alone:
//
//	Round 2: inc around      12
//	Round 3: (sc, inc) around      18
func columnTotals(text string, toks []token) []token {
	var out []token
	copied := 0
	for i := 1; i < len(toks); i++ {
		if toks[i].kind != tNum || toks[i].head || !columnAt(text, toks, i) {
			continue
		}
		mark := token{kind: tPunct, text: "=", opening: vocabulary()["="].opens, start: toks[i].start, end: toks[i].start}
		out = append(append(out, toks[copied:i]...), mark)
		copied = i
	}
	if out == nil {
		return toks
	}
	return append(out, toks[copied:]...)
}

// columnAt reports whether the number at i ends its line, a labelled row, with
// a wide gap before it.
func columnAt(text string, toks []token, i int) bool {
	p, t := &toks[i-1], &toks[i]
	if !wideGap(text[p.end:t.start]) || p.kind == tPunct && !p.isMark(")].") || p.isAny("next", "ch", "skip", "sk", "last", "first", "of", "in", "to", "row", "rnd", "round") {
		return false
	}
	end := i + 1
	if end < len(toks) && !toks[end].head && toks[end].kind == tWord {
		end++ // "12 sts"
	}
	if end+3 < len(toks) && !toks[end].head && toks[end].is("(") && toks[end+1].isMark("+-") && toks[end+2].kind == tNum && toks[end+3].is(")") {
		end += 4 // "24 sts (+8)"
	}
	if end < len(toks) && !toks[end].head {
		return false
	}
	for i--; i > 0 && !toks[i].head; i-- {
	}
	return isRowWord(&toks[i])
}

// wideGap reports whether what lies between two words is a gap of a table.
func wideGap(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] == '\t' {
			return true
		}
	}
	return len(s) >= 3
}
