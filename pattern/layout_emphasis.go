package pattern

// slanted takes the stars off a total that Markdown sets in italics at the end
// of a line, "in each st. *(64 sts)*", "Join. *30 sts*": they mark no repeat.
func slanted(l, rest []token) []token {
	n := len(l)
	if n < 3 || !l[n-1].is("*") || !l[n-1].glued {
		return l
	}
	if len(rest) > 0 && rest[0].isAny("rep", "repeat", "x", "to", "until", "across", "around", "in", "into") {
		return l // "*(2 sc)*" and below it "repeat 6 times"
	}
	open := n - 2
	for open > 0 && !l[open].is("*") {
		open--
	}
	in := l[open+1 : n-1]
	if !l[open].is("*") || len(in) == 0 || !in[0].glued || l[open].glued || open > 0 && !l[open-1].isMark(".,;-!)]") && l[open-1].kind != tWord {
		return l
	}
	bracket := in[0].isMark("([{")
	if bracket {
		if len(in) < 3 || !in[len(in)-1].isMark(")]}") {
			return l
		}
		in = in[1 : len(in)-1]
	}
	if in[0].kind != tNum || !bracket && (open == 0 || l[open-1].kind == tWord) {
		return l
	}
	for i := range in {
		if in[i].isAny("inc", "dec", "into", "next", "skip", "sk", "miss", "turn", "x") || in[i].is("in") && i+1 < len(in) && !in[i+1].isAny("all", "total") || in[i].is("ch") && i+1 < len(in) && in[i+1].kind == tNum && !in[i+1].glued {
			return l
		}
	}
	if open == 0 {
		l[1].head, l[1].blank, l[1].heading = l[0].head, l[0].blank, l[0].heading
	}
	return append(l[:open:open], l[open+1:n-1]...)
}
