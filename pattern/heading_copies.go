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

// nameSetOff reads a heading whose name alone stands between brackets, with the copies
// behind it or none: "[Leaf]", "[Leaf] 2 pieces", "<Fin> x4". It gives the words of the name
// and where what follows them begins.
func (r *reader) nameSetOff(ln line) (name line, after int, ok bool) {
	if !r.toks[ln.start].isMark("[<{") || ln.end-ln.start > 14 {
		return line{}, 0, false
	}
	shut := r.scratch(ln.start).closer(0)
	if shut < ln.start+2 || shut >= ln.end {
		return line{}, 0, false
	}
	name = line{ln.start + 1, shut}
	for k := name.start; k < name.end; k++ {
		if r.toks[k].kind == tPunct && !r.toks[k].isMark("&-/'") {
			return line{}, 0, false
		}
	}
	after = shut + 1
	if after < ln.end && r.makeAt(after, ln.end) == 0 {
		return line{}, 0, false
	}
	n, ok := r.headingWords(name)
	return name, after, ok && n == name.end-name.start
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
