package pattern

import "strings"

// numberedParts are words that a number in brackets numbers, and does not multiply:
// "Part (2)".
var numberedParts = newWordSet("part motif section piece step size chart colour color page fig figure diagram row round rnd rows rounds")

// copiesBracketed reads how many are made of what a heading names, in a bracket with
// no verb: "EARS (two)", "PAWS (4 alike)", "FLAPS (both alike)". It gives where the
// bracket ends and how many there are, 0 where it says something else.
//
//	copies = "(" [ verb ] ( number | "both" | "a pair" ) [ "alike" | "the same" | "pieces" | "off" ] ")" .
func (r *reader) copiesBracketed(i int) (after int, n int64) {
	if i == 0 || !r.toks[i].isMark("([") || r.toks[i-1].in(numberedParts) {
		return 0, 0
	}
	x := r.scratch(i + 1)
	x.accept("make", "work", "crochet", "need")
	x.accept("a")
	switch t := x.peek(); {
	case t.kind == tNum && !t.frac && 2 <= t.num && t.num <= 12:
		n = t.num
	case t.isAny("both", "pair"):
		n = 2
	default:
		return 0, 0
	}
	x.p++
	said := x.phrase("alike|required|wanted|needed|off|pieces|same") || x.phrase("the", "same")
	if !x.peek().isMark(")]") || x.at(-1).is("both") && !said {
		return 0, 0
	}
	return x.p + 1, n
}

// copiesRunIn reads a heading whose bracket of copies stands before work that runs on
// from it: "EARS (two).—With grey make 4 ch. 1st row.—...". It gives where the work
// begins.
func (r *reader) copiesRunIn(ln line, k int) (name string, body int, ok bool) {
	after, n := r.copiesBracketed(k)
	if n == 0 || after+1 >= ln.end || !r.toks[after].isMark(".:-") {
		return "", 0, false
	}
	body = after + 1
	for body+1 < ln.end && r.toks[body].is("-") {
		body++
	}
	name = strings.ToLower(r.text(ln.start, k))
	if _, isSection := sectionNames[name]; isSection || setupNames[name] || r.names[name] != nil || r.sec == secAbbreviations || r.sec == secSpecial || r.sec == secNotes {
		return "", 0, false
	}
	if _, ok := r.headingWords(line{ln.start, k}); !ok {
		return "", 0, false
	}
	if l, isLabel := r.labelAt(body); isLabel && l.strong {
		return name, body, true
	}
	return name, body, r.beginsWork(line{body, ln.end})
}
