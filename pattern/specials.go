package pattern

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// specialLine keeps the definitions a line holds: "Shell: 5 dc in same st",
// "BS = sc through both loops. MB = make bobble".
//
//	definition = name { "(" name ")" } ( ":" | "=" | "-" ) body .
func (r *reader) specialLine(ln line) {
	ln.end = r.wrapped(ln)
	starts := []int{ln.start}
	equals := 0
	for k := ln.start; k < ln.end; k++ {
		if r.toks[k].is("=") {
			equals++
		}
	}
	if equals == 1 {
		// "Ch 3 counts as dc. Corner = (3 dc, ch 2, 3 dc) in one space."
		for k := ln.start; k < ln.end && !r.toks[k].is("="); k++ {
			if r.toks[k].is(".") && k > ln.start+3 {
				starts[0] = k + 1
			}
		}
	}
	if equals > 1 {
		starts = starts[:0]
		for k := ln.start; k < ln.end; k++ {
			if r.toks[k].is("=") {
				j := k
				for j > ln.start && !r.toks[j-1].isMark(".;,") && !(j < k && r.toks[j-1].is("=")) {
					j--
				}
				if j > ln.start && r.toks[j-1].is("=") {
					j = k - 1 // "v = 2 in 1   A = 2 tog": one word is the name
				}
				starts = append(starts, j)
			}
		}
	}
	if equals == 0 {
		starts = r.definitionsOn(ln)
		for k := ln.start + 1; k+4 < ln.end; k++ {
			// "st. - stitch; B. - bobble, thus: (yarn over hook, ..."
			if n := k + 1; r.toks[k].is(";") && r.toks[n].kind == tWord && r.toks[n+1].is(".") && r.toks[n+2].is("-") && r.madeOnHook(n, ln.end) && !slices.ContainsFunc(r.toks[n:ln.end], func(t token) bool { return t.is(";") }) {
				starts = append(starts, n)
			}
		}
	}
	for i, s := range starts {
		end := ln.end
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		r.define(s, end)
	}
	r.definitionsTold(ln)
}

// fullLine is how many letters a line has at least that was broken for its length.
const fullLine = 50

// wrapped is where a line ends that goes on in the lines below it: in small
// letters, with no blank line between and no definition there.
func (r *reader) wrapped(ln line) int {
	end := ln.end
	for from := ln.start; ; {
		t := &r.toks[end]
		if t.kind != tWord || !t.head || t.blank || t.bold || t.heading > 0 || !lowerAt(r.src.Text, t.start) || r.toks[end-1].isMark(".:;") || r.toks[end-1].end-r.toks[from].start < fullLine {
			return end
		}
		from = end
		for end++; r.toks[end].kind != tEnd && !r.toks[end].head; end++ {
			if end-from < 6 && (r.toks[end].isMark(":=") || r.toks[end].is("-") && !r.toks[end].glued) {
				return from
			}
		}
	}
}

// definitionsOn finds where the definitions of a line begin, which has more
// than one: "Shell: 5 dc in same st. Half shell: 3 dc in same st."
func (r *reader) definitionsOn(ln line) []int {
	starts := []int{ln.start}
	for k := ln.start + 2; k < ln.end; k++ {
		if !r.toks[k].is(".") || r.toks[k].glued && k+1 < ln.end && r.toks[k+1].glued {
			continue
		}
		for j := k + 1; j < min(ln.end, k+7); j++ {
			t := &r.toks[j]
			if t.is(":") && j > k+1 && j+1 < ln.end {
				starts = append(starts, k+1)
			}
			if t.kind != tWord && !t.is("-") && !t.isMark("()") {
				break
			}
		}
	}
	return starts
}

// define keeps one definition.
func (r *reader) define(from, to int) {
	if r.keepMesh(from, to) {
		return
	}
	k := from
	var names []string
	for k < to && r.toks[k].isMark("^-\"'") {
		k++ // a bullet, or quotes about the name
	}
	if k+2 < to && r.toks[k].isAny("a", "an", "each", "every", "the") && r.toks[k+1].kind == tWord {
		k++ // "Each corner = (2 dc, ch 2, 2 dc)"
	}
	start := k
	for k < to && k-start < 6 && !r.toks[k].isAny("means", "mean") && !(k > start && r.isMadeOf(k, to)) && (r.toks[k].kind == tWord || r.toks[k].word || r.toks[k].kind == tNum && k > start || r.toks[k].is("-") && r.toks[k].glued && k+1 < to && r.toks[k+1].glued && r.toks[k+1].kind == tWord && k > start || r.toks[k].is("/")) {
		k++
	}
	if k == start || k >= to {
		return
	}
	names = append(names, strings.Split(r.nameIn(start, k), " or ")...)
	for k < to && r.toks[k].isMark("\"'") {
		k++
	}
	for k < to && r.toks[k].isMark("([") {
		j := k + 1
		for j < to && !r.toks[j].isMark(")]") {
			j++
		}
		if j-k > 5 {
			return
		}
		if n := r.nameIn(k+1, j); n != "" {
			names = append(names, n)
		}
		k = j + 1
	}
	if k+1 < to && r.toks[k].is(".") && r.toks[k].glued && r.toks[k+1].isMark(":=-") {
		k++ // "B. - bobble"
	}
	if r.isMadeOf(k, to) {
		k++
	} else if m := r.saysMeans(k, to); m > 0 {
		k = m
	} else if k >= to || !r.toks[k].isMark(":=-") {
		return
	}
	for k < to && r.toks[k].isMark(":=-") {
		k++
	}
	if k >= to {
		return
	}
	k = r.afterFullName(k, to)
	if len(names) == 1 && len(names[0]) <= 2 && r.alias(names[0], k, to) {
		return
	}
	if r.defineMesh(names, k, to) {
		return
	}
	if len(names) == 1 && (names[0] == "inc" || names[0] == "dec") && r.toks[k].kind == tNum && k+1 < to && r.toks[k+1].isAny("in", "into", "tog", "together", "sts", "st") && r.shapingGloss(k, to) != "" {
		return // "inc = 2 in 1" tells us nothing new
	}
	if keep := r.definable(names, k, to); keep != nil {
		r.keepSpecial(keep, from, k, to)
	}
}

// nameIn is the name that stands among tokens.
func (r *reader) nameIn(from, to int) string {
	var parts []string
	for ; from < to; from++ {
		if t := &r.toks[from]; t.kind == tWord || t.kind == tNum || t.word {
			parts = append(parts, t.text)
		}
	}
	return strings.Join(parts, " ")
}

// definable gives the names that a pattern may define for itself; none where one of
// them is a word that means the same everywhere.
func (r *reader) definable(names []string, k, to int) []string {
	var keep []string
	for _, n := range names {
		id, _ := r.lex.Find(n)
		if id != stitch.None && stitch.Of(id).Kind != stitch.Compound && n != "single" {
			return nil // "sc = single crochet" tells us nothing new
		}
		if strings.Contains(n, "tog") {
			return nil // "sc2tog: single crochet 2 together" tells us nothing new either
		}
		if _, bad := sectionNames[n]; bad || len(n) > 40 || n == "" || n == "st" || n == "sts" || n == "ch" || n == "row" || n == "rnd" || n == "sk" || n == "skip" || n == "rep" || n == "sp" || n == "turn" || n == "join" || n == "dec" && !r.digitIn(k, to) || n == "in" || (n == "a" || n == "b") && !r.madeOnHook(k, to) || n == "rs" || n == "ws" || n == "yo" || n == "tog" || n == "beg" || n == "tch" || n == "mr" || n == "blo" || n == "flo" || n == "pm" || n == "dec" || n == "invdec" || n == "inv dec" || n == "chain" || n == "magic ring" || n == "next" || n == "rem" {
			return nil
		}
		keep = append(keep, n)
	}
	return keep
}

// keepSpecial keeps a definition that begins at from, with its body from k on.
func (r *reader) keepSpecial(names []string, from, k, to int) {
	sp := &Special{Span: Span{int(r.toks[from].start), int(r.toks[to-1].end)}, Names: names, Takes: 1}
	sp.toks = append([]token(nil), r.toks[k:to]...)
	r.pat.Specials = append(r.pat.Specials, sp)
	r.name(sp)
}

// isMadeOf reports "is" before the stitches that a name stands for: "a corner is (2 dc,
// ch 2, 2 dc) in one space".
func (r *reader) isMadeOf(k, to int) bool {
	if k+2 >= to || !r.toks[k].is("is") {
		return false
	}
	if r.toks[k+1].isMark("([") {
		return r.toks[k+2].kind == tNum || r.toks[k+2].isAny("dc", "tr", "htr", "hdc", "sc")
	}
	return r.toks[k+1].kind == tNum && r.toks[k+1].num > 1 && r.scratch(k+2).stitchFollows(0)
}

// saysMeans is where a definition begins that is told in a sentence: "Corner" in Rnds
// 2 and 3 means (3 dc, ch 2, 3 dc); 0 where the words behind a name say no such thing.
func (r *reader) saysMeans(k, to int) int {
	for j := k; j < min(to-1, k+12); j++ {
		t := &r.toks[j]
		if t.isAny("means", "mean") {
			return j + 1
		}
		if j == k && !t.isAny("in", "on", "for", "from", "throughout", "always", "here") || t.isMark(".;(:=*") {
			return 0
		}
	}
	return 0
}

// afterFullName passes over the name an abbreviation stands for, "C6 - cable
// over six: skip 3 sts, ...", to the words that define it.
func (r *reader) afterFullName(k, to int) int {
	for j := k; j < min(to-1, k+7); j++ {
		t := &r.toks[j]
		if t.isMark(":=") && j > k {
			return j + 1
		}
		if t.is(",") && r.toks[j+1].is("thus") {
			return min(j+3, to-1) // "bobble, thus: (yarn over hook, ..."
		}
		if t.kind != tWord && t.kind != tNum && !t.is("-") {
			return k
		}
	}
	return k
}

// madeOnHook reports whether a definition tells how a stitch is drawn up, so that one
// letter is its name, and no colour's: "B: (yarn over hook, insert hook into st, ...".
func (r *reader) madeOnHook(from, to int) bool {
	for k := from; k+1 < to; k++ {
		if r.toks[k].isAny("yarn", "wool", "thread", "cotton") && r.toks[k+1].isAny("over", "round", "around") || r.toks[k].isAny("insert", "inserting") && r.toks[k+1].isAny("hook", "the") || r.toks[k].isAny("yo", "yoh", "yrh") {
			return true
		}
	}
	return false
}

// alias keeps a letter that stands for a word we know: "X = single crochet",
// "V = increase", as charts of toys have it.
func (r *reader) alias(name string, from, to int) bool {
	if len(name) != 1 {
		return false
	}
	for k := from + 1; k < to; k++ {
		if r.toks[k].isMark("(") {
			to = k + 1 // "V = increase (2 X in one stitch)"
		}
	}
	x := r.scratch(from)
	id, n := x.stitchAt(0)
	word := ""
	switch {
	case n > 0 && from+n >= to-1:
		word = r.nameOf(id)
	case x.peek().isAny("increase", "inc") && from+1 >= to-1:
		word = "inc"
	case x.peek().isAny("decrease", "dec") && from+1 >= to-1:
		word = "dec"
	default:
		word = r.shapingGloss(from, to)
	}
	if word == "" {
		return false
	}
	r.addAlias(name, word)
	return true
}

// nameOf is the name of a stitch in the terms that the text is read in.
func (r *reader) nameOf(id stitch.ID) string {
	if r.lex == stitch.LexiconFor(stitch.UK) {
		return id.Name(stitch.UK)
	}
	return id.Name(stitch.US)
}

// unalias puts the words for the letters.
func (r *reader) unalias(toks []token) {
	if len(r.aliases) == 0 {
		return
	}
	for i := range toks {
		if t := &toks[i]; t.kind == tWord && !(t.is("tog") && i > 0 && toks[i-1].kind == tNum) {
			if t.text == "a" && !t.glued && i+1 < len(toks) && toks[i+1].kind == tWord && !toks[i+1].isAny("x", "in", "into", "around", "across", "all", "then", "and", "to", "each", "until") {
				continue // "stuff a bit"
			}
			if w, ok := r.aliases[t.text]; ok && !(t.text == "x" && i > 0 && (toks[i-1].isMark(")]") || toks[i-1].kind == tWord && i+1 < len(toks) && toks[i+1].kind == tNum)) {
				t.text, t.opening, t.id = w, openingOf(w), vocabulary()[w].id
			}
		}
	}
}

func (r *reader) digitIn(from, to int) bool {
	for k := from; k < to; k++ {
		if r.toks[k].kind == tNum {
			return true
		}
	}
	return false
}

// name enters the names of a special stitch, with their plurals.
func (r *reader) name(sp *Special) {
	for _, n := range sp.Names {
		for _, v := range []string{n, n + "s", n + " st", n + " sts", n + " stitch", n + " stitches", n + "es"} {
			if _, ok := r.names[v]; !ok || v == n {
				r.names[v] = sp
			}
		}
		if strings.HasSuffix(n, " stitch") {
			r.names[strings.TrimSuffix(n, " stitch")] = sp
			r.names[strings.TrimSuffix(n, " stitch")+"s"] = sp
			r.names[n+"es"] = sp
		}
		if base, ok := strings.CutSuffix(n, " st"); ok {
			r.names[base+" stitch"] = sp
			r.names[base+" stitches"] = sp
		}
	}
}

// spaced reports a group with a space in it: what is called an increase and is such a
// group is not the usual one.
func (sp *Special) spaced() bool {
	return slices.ContainsFunc(sp.Body, func(s *Step) bool { return s.Op == OpChain })
}

// readSpecials reads the bodies of the definitions kept.
func (r *reader) readSpecials() {
	kept := r.pat.Specials[:0]
	for _, sp := range r.pat.Specials {
		if r.readSpecial(sp) {
			kept = append(kept, sp)
			continue
		}
		for k, v := range r.names {
			if v == sp {
				delete(r.names, k)
			}
		}
	}
	r.pat.Specials = kept
}

// readSpecial decides what a definition makes. It is false where it defines
// nothing that can be worked.
func (r *reader) readSpecial(sp *Special) bool {
	toks := sp.toks
	sp.toks = nil
	if r.readMaking(sp, toks) {
		return true
	}
	// what follows may tell of how it is used: "2 dc, ch 2, 2 dc in one sp. A shell on a
	// shell goes into its sp."
	for k := 1; k+2 < len(toks); k++ {
		if toks[k].isMark(".;") && !toks[k+1].head {
			return r.readMaking(sp, toks[:k])
		}
	}
	return false
}

// readMaking reads the words of a definition. It is false where they are not understood.
func (r *reader) readMaking(sp *Special, toks []token) bool {
	toks = placeLeftOpen(toks)
	if doublesPlaces(toks) {
		return false // "inc = double 1 stitch": it is no double crochet
	}
	if oneTop(toks) {
		sp.Stitch = compoundOf(sp.Names)
		if decreases(sp.Names) {
			if sp.Takes = insertions(toks); sp.Takes > 1 && sp.Stitch == stitch.None {
				sp.Stitch = r.decreaseOf(sp.Names)
			}
		}
		return true
	}
	var row Row
	saved := r.names
	r.names = without(saved, sp)
	x := r.rowReaderFor(toks, &row)
	r.unalias(x.ts)
	x.readRow()
	r.names = saved
	if len(row.bad) > 0 {
		return compoundOf(sp.Names) != stitch.None
	}
	var work []*Step
	for _, s := range row.Steps {
		if s.Op != OpNote && s.Op != OpLeave {
			work = append(work, s)
		}
	}
	if len(work) == 1 && work[0].Op == OpGroup && work[0].Times.Kind == Once {
		work = work[0].Body
	}
	if len(work) == 0 {
		return compoundOf(sp.Names) != stitch.None
	}
	if len(work) == 1 && work[0].Op == OpWork && work[0].Legs > 0 {
		sp.Stitch, sp.Takes = work[0].Stitch, int64(work[0].Legs)
		if work[0].Target.Which == Same || work[0].Target.Which == Next && work[0].Target.said && x.inOne(work[0]) {
			sp.Takes = 1
		}
		return true
	}
	body, sameplace := placeBody(work)
	if body == nil {
		return compoundOf(sp.Names) != stitch.None
	}
	sp.Body = body
	sp.seq = !sameplace
	return true
}

// inOne reports "dc2tog in next st": all legs in one place.
func (x *rowReader) inOne(s *Step) bool {
	return s.Target.N.N == 1 && !s.Target.N.Span.Empty()
}

func without(names map[string]*Special, sp *Special) map[string]*Special {
	out := make(map[string]*Special, len(names))
	for k, v := range names {
		if v != sp {
			out[k] = v
		}
	}
	return out
}

func compoundOf(names []string) stitch.ID {
	for _, n := range names {
		if id := compoundNamed(n); id != stitch.None {
			return id
		}
		for _, w := range strings.Fields(n) {
			if id := compoundNamed(w); id != stitch.None {
				return id
			}
		}
	}
	return stitch.None
}

// oneTop reports whether a definition closes several legs into one top.
func oneTop(toks []token) bool {
	for i := range toks {
		t := &toks[i]
		if t.isAny("tog", "together", "yo", "yoh", "yrh", "insert", "cluster", "loops") && !(t.is("loops") && i > 0 && toks[i-1].isAny("both", "back", "front")) {
			if t.isAny("tog", "together") && i > 0 && toks[i-1].kind == tNum && toks[i-1].glued {
				// dc3tog over 3 sts: what it takes is read from the words
				same := false
				for j := range toks {
					same = same || toks[j].isAny("same", "one")
				}
				return same
			}
			return true
		}
		if t.is("drop") || t.is("draw") || t.is("leaving") || t.isAny("incomplete", "unfinished", "bobble", "popcorn", "puff") {
			return true
		}
	}
	return false
}

// doublesPlaces reports whether the words of a definition begin with the doubling of a stitch.
func doublesPlaces(toks []token) bool {
	return len(toks) > 2 && toks[0].isAny("double", "doubling") && (toks[1].kind == tNum || toks[1].isAny("a", "the", "one", "each", "every")) && toks[2].isAny("st", "stitch", "sc")
}

// decreases reports whether a stitch is called a decrease.
func decreases(names []string) bool {
	for _, n := range names {
		for _, w := range strings.Fields(n) {
			if w == "dec" || w == "decrease" {
				return true
			}
		}
	}
	return false
}

// decreaseOf is the stitch that a decrease is one of by its name, "hdc dec".
func (r *reader) decreaseOf(names []string) stitch.ID {
	for _, n := range names {
		for _, w := range []string{" dec", " decrease"} {
			if base, ok := strings.CutSuffix(n, w); ok {
				if id, _ := r.lex.Find(base); id != stitch.None && stitch.Of(id).Kind != stitch.Compound {
					return id
				}
			}
		}
	}
	return stitch.None
}

// insertions is how many stitches a decrease goes into that is told as the hook
// goes: "[yo, insert hook in next st, yo, pull up a lp] twice" goes into two,
// "draw up a loop in each of next 3 sts" into three. It is 1 where that is not told.
func insertions(toks []token) int64 {
	at := func(k int) *token { return &toks[min(max(k, 0), len(toks)-1)] }
	var sum, open, inside int64
	for k := range toks {
		t := &toks[k]
		switch {
		case t.isAny("same", "one"):
			return 1
		case t.isMark("(["):
			open, inside = 1, 0
		case t.isMark(")]") && open == 1:
			open = 0
			times := int64(1)
			switch n := at(k + 1); {
			case n.is("twice"):
				times = 2
			case n.is("thrice"):
				times = 3
			case n.kind == tNum && at(k+2).isAny("times", "x"):
				times = n.num
			}
			sum += inside * times
		case t.is("next") && k > 0:
			n := int64(1)
			if at(k+1).kind == tNum {
				n = at(k + 1).num
			}
			if open == 1 {
				inside += n
			} else {
				sum += n
			}
		}
	}
	if sum < 2 || sum > 9 {
		return 1
	}
	return sum
}

// placeBody takes the steps of a definition as the things that go into one
// place; sameplace is false where they go into several.
func placeBody(work []*Step) (body []*Step, sameplace bool) {
	sameplace = true
	for i, s := range work {
		switch s.Op {
		case OpInto:
			body = append(body, s.Body...)
			if i == 0 && s.Target.Within != nil {
				sameplace = false // "shell in ch-2 sp of next shell" finds its own place
			}
			if i > 0 && s.Target.Which != Same && s.Target.said {
				sameplace = false
			}
		case OpWork:
			c := *s
			n := s.N
			if s.N.N <= 1 && s.Target.Which == Next && !s.Target.said {
				n = s.Target.N
			}
			if s.Legs > 0 {
				c.Legs = 0
				c.Stitch = stitch.Cluster
			}
			c.N = Num{N: 1}
			c.bare = false
			c.Target = Target{Which: Next, N: n}
			if i > 0 && s.Target.said && s.Target.Which != Same {
				sameplace = false
			}
			body = append(body, &c)
		case OpChain, OpPicot, OpGroup:
			body = append(body, s)
		case OpSkip:
			sameplace = false
			body = append(body, s)
		default:
			return nil, false
		}
	}
	if !sameplace {
		return work, false
	}
	return body, true
}
