package pattern

import "crochet/tallyturn/pattern/stitch"

// termsOf finds which terms a text is written in: what it says, and what its
// words show.
func termsOf(toks []token) (said, evidence stitch.Terms) {
	us, uk := 0, 0
	chains, misses := 0, 0
	mesh := stitch.Unknown
	for i := range toks {
		t := &toks[i]
		if t.head && said == stitch.Unknown {
			said = termsAlone(toks, i)
		}
		if t.kind == tPunct || t.kind == tNum {
			continue
		}
		if mesh == stitch.Unknown && t.kind == tOrd {
			mesh = meshTerms(toks, i)
		}
		if g := glossTerms(toks, i); g != stitch.Unknown && said == stitch.Unknown {
			said = g
		}
		switch t.text {
		case "terms", "terminology", "abbreviations", "notation", "crochet", "term":
			for j := max(0, i-3); j < min(len(toks), i+4); j++ {
				if toks[j].isAny("sc", "dc") || j < i && toks[j].isMark(".;") {
					continue
				}
				if j > i && toks[j].isMark(".;") {
					break
				}
				if said != stitch.Unknown || t.text == "crochet" && j > i || glossTerms(toks, j) != stitch.Unknown {
					continue
				}
				switch {
				case toks[j].isAny("us", "usa", "american"):
					said = stitch.US
				case toks[j].isAny("uk", "british", "english"):
					if t.text != "crochet" {
						said = stitch.UK
					}
				}
			}
		case "sc", "hdc", "sk", "skip":
			us++
		case "s", "h":
			if spaced(toks, i, "s", "c") || spaced(toks, i, "h", "d", "c") {
				us++
			}
		case "htr", "miss", "tension", "yrh", "dtr":
			if t.text != "dtr" {
				uk++
			}
			if t.text == "miss" {
				misses++
			}
		case "ss":
		case "thread":
			if i > 2 && toks[i-1].isMark("(,=:-") && toks[i-2].is("crochet") && toks[i-3].is("double") && i+2 < len(toks) && toks[i+1].is("over") {
				if timesOver(toks, i+2) == 1 { // "D c, double crochet (thread over once)"
					us += 3
				}
			}
		case "single":
			if i+1 < len(toks) && toks[i+1].is("crochet") {
				us++
			}
			if i > 0 && i+1 < len(toks) && toks[i-1].kind == tNum && toks[i+1].isAny("in", "into", ",", ";", ".", ")") {
				us += 3 // "one single in each": British singles are slip stitches, and seldom whole rows
			}
		}
		if chains == 0 && (t.is("ch") || t.is("chain")) {
			chains = chainsFor(toks, i)
		}
		if chains == 0 && t.kind == tOrd {
			chains = joinTells(toks, i)
		}
		// the first stitch into the chain decides where nothing else does
		if chains == 0 && t.kind == tOrd && i+3 < len(toks) && (toks[i+1].isAny("ch", "chain") && toks[i+2].isAny("from") || toks[i+1].isAny("ch", "chain")) && i > 1 {
			st := -1
			for j := i - 1; j >= max(0, i-4); j-- {
				if toks[j].isAny("dc", "tr", "htr", "hdc", "sc") {
					st = j
					break
				}
			}
			if st >= 0 {
				switch {
				case toks[st].is("dc") && t.num == 2, toks[st].is("tr") && (t.num == 4 || t.num == 3):
					chains = -1
				case toks[st].is("dc") && t.num >= 3, toks[st].is("tr") && t.num == 5:
					chains = 1
				}
			}
		}
	}
	switch {
	case mesh == stitch.US && uk == misses: // old print on both sides of the water has "miss"
		evidence = stitch.US
	case us > 0 && uk == 0:
		evidence = stitch.US
	case uk > 0 && us == 0:
		evidence = stitch.UK
	case us > 2*uk:
		evidence = stitch.US
	case uk > 2*us:
		evidence = stitch.UK
	case chains < 0 || mesh == stitch.UK:
		evidence = stitch.UK
	case chains > 0:
		evidence = stitch.US
	}
	return said, evidence
}

// glossTerms reads which terms a text is not in, and so is in the other, off a name
// given in brackets for those who know the others: "double crochet (US single crochet)".
func glossTerms(toks []token, i int) stitch.Terms {
	t := &toks[i]
	if i < 2 || i+1 >= len(toks) || !toks[i-1].isMark("([") {
		return stitch.Unknown
	}
	if !toks[i-2].isAny("crochet", "treble", "dc", "tr", "htr", "dtr", "sc", "hdc") || !toks[i+1].isAny("single", "double", "half", "treble", "triple", "sc", "dc", "hdc", "tr", "htr", "dtr") {
		return stitch.Unknown
	}
	switch {
	case t.isAny("us", "usa", "american"):
		return stitch.UK
	case t.isAny("uk", "british"):
		return stitch.US
	}
	return stitch.Unknown
}

// timesOver is how often the thread is laid over the hook before it is put into the
// work, as the words from a token on have it; -1 where they do not tell.
func timesOver(toks []token, i int) int64 {
	switch t := &toks[i]; {
	case t.is("once"):
		return 1
	case t.is("twice"):
		return 2
	case t.kind == tNum && i+1 < len(toks) && toks[i+1].isAny("time", "times"):
		return t.num
	}
	return -1
}

// chainsFor reads off a turning chain that is said to be a stitch which terms that
// has its name in: three chains are a UK treble, "3 ch (counts as 1 tr)", "4 ch (1
// tr, 1 ch)", and a US double. It is negative for UK terms, positive for US, and 0
// where the chain at i does not tell.
func chainsFor(toks []token, i int) int {
	k := i + 1
	n := int64(0)
	switch {
	case i > 0 && toks[i-1].kind == tNum && !toks[i-1].frac:
		n = toks[i-1].num
	case toks[k].is("-") && toks[k+1].kind == tNum:
		n, k = toks[k+1].num, k+2
	case toks[k].kind == tNum && !toks[k].frac:
		n, k = toks[k].num, k+1
	}
	if n == 2 && doublesInFirst(toks, k) {
		return -1
	}
	if n < 3 || k+4 >= len(toks) {
		return 0
	}
	if !toks[k].isMark("([") {
		return saidToStand(toks, k, n)
	}
	counts := toks[k+1].isAny("counts", "count", "counting", "as", "first", "=", "for", "to")
	for k++; k < len(toks) && toks[k].isAny("counts", "count", "counting", "as", "first", "the", "a", "="); k++ {
	}
	if k+3 < len(toks) && toks[k].kind == tNum && toks[k].num == 1 {
		k++
	} else if !counts {
		return 0
	}
	if k+3 >= len(toks) {
		return 0
	}
	st := &toks[k]
	// the chains of a space that is said behind the stitch
	for k++; k+3 < len(toks) && (toks[k].isMark(",+&") || toks[k].isAny("and", "plus")); k++ {
	}
	switch {
	case toks[k].isMark(")]"), toks[k].isAny("here", "now", "throughout", "st", "stitch", "through", "all"):
	case toks[k].kind == tNum && toks[k+1].isAny("ch", "chain", "chs", "chains"):
		n -= toks[k].num
	case toks[k].isAny("ch", "chain") && toks[k+1].kind == tNum:
		n -= toks[k+1].num
	case toks[k].isAny("ch", "chain") && toks[k+1].is("-") && toks[k+2].kind == tNum:
		n -= toks[k+2].num
	default:
		return 0
	}
	switch {
	case st.is("tr") && n == 3, st.is("dtr") && n == 4:
		return -1
	case st.is("dc") && n == 3, st.is("tr") && n == 4, st.is("dtr") && n == 5:
		return 1
	}
	return 0
}

// joinTells reads off the chain that a round is joined to how many stand for its first
// stitch: "4 ch, 1 tr in next st, (1 ch, 1 tr in next st) 8 times, 1 ch, join to 3rd of 4
// ch" has a treble of three. It is told as by chainsFor.
func joinTells(toks []token, i int) int {
	k := i + 1
	if !toks[k].is("of") && !(toks[k].isAny("ch", "chain", "st", "stitch") && toks[k+1].is("of")) {
		return 0
	}
	for ; k < len(toks) && (toks[k].isAny("ch", "chain", "st", "stitch", "of", "the", "first", "beg", "beginning", "starting") || toks[k].is("-")); k++ {
	}
	if k >= len(toks) || toks[k].kind != tNum || toks[k].num <= toks[i].num || toks[k].num > toks[i].num+7 {
		return 0
	}
	tall := ""
	for j := i - 1; j > 0 && j > i-80 && !isRowWord(&toks[j]); j-- {
		t := &toks[j]
		if !t.isAny("tr", "dtr", "dc", "sc", "hdc", "htr") || !(toks[j-1].kind == tNum || toks[j-1].isMark("([,*")) {
			continue
		}
		if tall != "" && tall != t.text {
			return 0
		}
		tall = t.text
	}
	switch n := toks[i].num; {
	case tall == "tr" && n == 3, tall == "dtr" && n == 4:
		return -1
	case tall == "dc" && n == 3, tall == "tr" && n == 4, tall == "dtr" && n == 5:
		return 1
	}
	return 0
}

// doublesInFirst reports "2 ch, 6 dc into first ch" behind the two chains: a ring that is
// low enough for a British double alone (common practice, no source).
func doublesInFirst(toks []token, k int) bool {
	for k < len(toks) && (toks[k].isMark(",;.") || toks[k].isAny("work", "make", "and", "then", "chs", "ch")) {
		k++
	}
	if k+1 >= len(toks) || toks[k].kind != tNum || !toks[k+1].is("dc") && !spaced(toks, k+1, "d", "c") {
		return false
	}
	for k++; k < len(toks) && (toks[k].isAny("dc", "d", "c") || toks[k].is(".")); k++ {
	}
	if k+3 >= len(toks) || !toks[k].isAny("in", "into") {
		return false
	}
	if k++; toks[k].is("the") {
		k++
	}
	return (toks[k].is("first") || toks[k].kind == tOrd && toks[k].num == 1) && toks[k+1].isAny("ch", "chain", "of")
}

// saidToStand is chainsFor for n chains that a sentence speaks of: "The ch 3 at the
// beginning of a row takes the place of 1 d c".
func saidToStand(toks []token, k int, n int64) int {
	for end := min(k+12, len(toks)-4); k < end; k++ {
		if toks[k].isMark(".;([*,") || toks[k].isAny("not", "never", "doesn't", "don't", "no") || toks[k].isAny("ch", "chain", "chs") && toks[k+1].kind == tNum {
			return 0
		}
		after := k + 1
		if j := placeTaken(toks, k); j > k {
			after = j + 1
		} else if !toks[k].isAny("counts", "count", "counted", "stands", "stand", "represents", "replaces") {
			continue
		}
		for after+3 < len(toks) && toks[after].isAny("as", "for", "the", "a", "first", "=") {
			after++
		}
		if after+3 < len(toks) && toks[after].kind == tNum && toks[after].num == 1 {
			after++
		}
		st := &toks[after]
		if st.is("d") && toks[after+1].is("c") {
			st = &toks[after+1]
		}
		next := after + 1
		if toks[min(next, len(toks)-1)].isAny("and", "plus", "+", "with") || next+1 < len(toks) && toks[next+1].isAny("and", "plus", "+") {
			return 0
		}
		switch {
		case st.is("tr") && n == 3, st.is("dtr") && n == 4:
			return -1
		case (st.is("dc") || st.is("c")) && n == 3, st.is("tr") && n == 4, st.is("dtr") && n == 5:
			return 1
		}
		return 0
	}
	return 0
}

// termsAlone is the terms that a line is in which nothing but their name stands:
// "UK", "(US)", "UK version".
func termsAlone(toks []token, from int) stitch.Terms {
	said := stitch.Unknown
	for i := from; toks[i].kind != tEnd && (i == from || !toks[i].head); i++ {
		t := &toks[i]
		switch {
		case t.isAny("us", "usa", "american") && said == stitch.Unknown:
			said = stitch.US
		case t.isAny("uk", "british") && said == stitch.Unknown:
			said = stitch.UK
		case t.isAny("version", "pattern") && said != stitch.Unknown, t.isMark("()[]*.:-"):
		default:
			return stitch.Unknown
		}
	}
	return said
}

// spaced reports an abbreviation in the spelling of old print, "s. c." or
// "h d c", at a token.
func spaced(toks []token, i int, letters ...string) bool {
	for _, l := range letters {
		if i >= len(toks) || !toks[i].is(l) {
			return false
		}
		if i++; i < len(toks) && toks[i].is(".") {
			i++
		}
	}
	return true
}

// findSizes reads which sizes the pattern is written for.
//
//	"Sizes: S (M, L)" | "Size: small, medium and large" .
func (r *reader) findSizes() {
	if r.pat.Sizes = r.sizesTold(); r.pat.Sizes != nil {
		return
	}
	for i, ln := range r.lines {
		x := r.scratch(ln.start)
		if !x.phrase("[finished|garment|hat|to]", "size|sizes|sizing|fit") {
			continue
		}
		x.phrase("(", "s", ")")
		marked := x.phrase(":") || x.phrase("-") || x.phrase("=") || x.sizeWord()
		from, end := x.p, ln.end
		if from >= end && i+1 < len(r.lines) {
			// "SIZES" on a line of its own, "S (M, L)" on the next
			from, end = r.lines[i+1].start, r.lines[i+1].end
			if from+1 >= end || !r.toks[from+1].isMark("([{") {
				continue
			}
		} else if !marked {
			continue
		}
		if names := r.sizeNames(from, end); len(names) > 1 {
			if !r.listsOf(len(names)) {
				// `Small (25") [Medium (27"), Large (29")]`: each has its measure in brackets
				if named := r.namesOfSizes(r.scratch(from)); r.areSizes(named) {
					names = named
				}
			}
			r.pat.Sizes = names
			return
		}
	}
	if r.pat.Sizes = r.sizesOfTitle(); r.pat.Sizes != nil {
		return
	}
	r.inferSizes()
	if len(r.pat.Sizes) == 0 {
		r.lettersOfSizes()
	}
}

// sizesOfTitle reads what the first line has of sizes behind a name: "Cap, sizes
// Small (Large)".
func (r *reader) sizesOfTitle() []string {
	if len(r.lines) == 0 {
		return nil
	}
	first := r.lines[0]
	for i := first.start + 1; i+1 < first.end; i++ {
		if !r.toks[i].isAny("size", "sizes") || !r.toks[i-1].isMark(",-:([") {
			continue
		}
		x := r.scratch(i + 1)
		x.phrase(":")
		if !x.sizeWord() {
			continue
		}
		if names := r.sizeNames(x.p, first.end); len(names) > 1 && r.listsOf(len(names)) {
			return names
		}
	}
	return nil
}

// lettersOfSizes finds "(S, M, L)" or "S/M/L" in the first lines, where the
// numbers that follow come in as many.
func (r *reader) lettersOfSizes() {
	for _, ln := range r.lines[:min(len(r.lines), 12)] {
		for i := ln.start; i < ln.end; i++ {
			var names []string
			for k := i; k < ln.end && sizeLetter(r.toks[k].text) != "" && len(r.toks[k].text) <= 3; k++ {
				names = append(names, r.text(k, k+1))
				if !r.toks[k+1].isMark(",/(") {
					break
				}
				for r.toks[k+1].isMark(",/(") {
					k++
				}
			}
			if len(names) > 2 && r.listsOf(len(names)) {
				r.pat.Sizes = names
				return
			}
		}
	}
}

// listsOf reports whether numbers stand in lists of so many, "10 (11, 12)".
func (r *reader) listsOf(n int) bool {
	for i := 0; i+4 < len(r.toks); i++ {
		if m, _ := r.sizeList(i); m == n {
			return true
		}
	}
	return false
}

// sizeNames reads "S (M, L)", "small (medium, large)", "6 (12, 18) months". A
// stroke parts names, "S/M/L"; in "Child (Teen/Small, Large)" and "S/M (L/XL)" it
// is of the name where only so the numbers of the pattern come in as many.
func (r *reader) sizeNames(i, end int) []string {
	names := r.sizeNamesBy(i, end, ",;/|")
	if whole := r.sizeNamesBy(i, end, ",;|"); len(whole) > 1 && len(whole) < len(names) && !r.listsOf(len(names)) && r.listsOf(len(whole)) {
		return whole
	}
	return names
}

// sizeNamesBy reads names of sizes between marks.
func (r *reader) sizeNamesBy(i, end int, marks string) []string {
	var names []string
	name := -1
	open := false
	flush := func(to int) {
		if name >= 0 && to > name {
			names = append(names, r.text(name, to))
		}
		name = -1
	}
	for k := i; k < end; k++ {
		t := &r.toks[k]
		switch {
		case t.isMark("([{"):
			flush(k)
			open = true
		case t.isMark(")]}"):
			flush(k)
			if open && len(names) > 1 {
				return names
			}
		case t.isMark(marks) || t.isAny("and", "&") && name >= 0 && !open:
			flush(k)
		case t.isMark("."):
			flush(k)
			if len(names) > 1 {
				return shortNames(names)
			}
			return nil
		case t.isAny("and", "&", "or"):
		default:
			if name < 0 {
				name = k
			}
		}
	}
	flush(end)
	if open {
		return names
	}
	return shortNames(names)
}

// shortNames accepts a plain list only where every name looks like a size.
func shortNames(names []string) []string {
	for _, n := range names {
		if len(n) > 14 {
			return nil
		}
		for i := range n {
			if '0' <= n[i] && n[i] <= '9' {
				return nil
			}
		}
	}
	return names
}

// sizeWord reports a word that names a size with another in brackets behind it.
func (x *rowReader) sizeWord() bool {
	if x.peek().kind == tNum && !x.peek().frac && x.at(1).isMark("([") && x.at(2).kind == tNum && x.at(3).isMark(",)]") {
		return true // "Sizes 4 (6, 8)."
	}
	return x.peek().isAny("xs", "s", "m", "l", "xl", "small", "medium", "large", "newborn", "baby", "child", "teen", "adult") && x.at(1).isMark("([")
}

// inferSizes counts the numbers of "ch 25 (31, 37)" where no line says how
// many sizes there are: such a list with a word behind it that it counts, more
// than once, is no total and no aside.
func (r *reader) inferSizes() {
	var seen [maxInferred + 1]int
	best := 0
	for i := 0; i+4 < len(r.toks); i++ {
		n, after := r.sizeList(i)
		if n < 2 {
			continue
		}
		if i > 0 && r.toks[i-1].isAny("ch", "chain") && !r.toks[after].isAny("times", "in") {
			best = n
			break
		}
		if r.countsSizes(i, after) {
			if seen[n]++; seen[n] >= 3 && best == 0 {
				best = n
			}
		}
	}
	for j := 1; j <= best; j++ {
		r.pat.Sizes = append(r.pat.Sizes, "size "+string(rune('0'+j%10)))
	}
}

// maxInferred is the most sizes that are taken to be meant without a word.
const maxInferred = 16

// sizeList gives how many numbers "25 (31, 37)" has, and the token after it; 0
// where no such list begins at token i.
func (r *reader) sizeList(i int) (n, after int) {
	if r.toks[i].kind != tNum || r.toks[i].word || !r.toks[i+1].isMark("([") || r.toks[i+2].kind != tNum {
		return 0, 0
	}
	n, k := 1, i+2
	for r.toks[k].kind == tNum {
		n++
		k++
		if !r.toks[k].isMark(",:;") && !(r.toks[k].is("-") && r.toks[k-1].num > r.toks[i].num && r.toks[k+1].kind == tNum && r.toks[k+1].num > r.toks[k-1].num) {
			break
		}
		k++
	}
	if !r.toks[k].isMark(")]") || n > maxInferred {
		return 0, 0
	}
	return n, k + 1
}

// countsSizes reports whether a list of numbers stands where one number for
// each size would: what it counts is behind it, and no label before it.
func (r *reader) countsSizes(i, after int) bool {
	if i > 0 && (isRowWord(&r.toks[i-1]) || r.toks[i].head) || r.toks[after].head {
		return false
	}
	x := r.scratch(after)
	return x.peek().isAny("ch", "chs", "chains", "cm", "g", "mm", "inches", "rows", "rnds", "rounds", "missed", "skipped") || x.nounFollows(0)
}
