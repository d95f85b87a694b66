package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// conventions is what a pattern says once for all its rows.
type conventions struct {
	chain   map[int64]Counts // by chains; 0 for "the beginning chain", whatever its height
	turning int8             // +1 "turn at the end of every row", -1 "do not turn"
	chains  int8             // +1 chains count in the totals, -1 they do not
}

func newConventions() conventions { return conventions{chain: make(map[int64]Counts)} }

// fromNote reads a note outside the rows.
func (c *conventions) fromNote(r *reader, toks []token) {
	for i := range toks {
		t := &toks[i]
		if t.isAny("turn") && i > 0 && toks[i-1].isAny("not", "don't") {
			c.turning = -1
		}
		if t.isAny("no", "not", "isn't", "aren't") && i+1 < len(toks) && (toks[i+1].isAny("st", "stitch") || toks[i+1].isAny("a", "counted") && i+2 < len(toks) && toks[i+2].isAny("st", "stitch", "as")) {
			c.countNote(r, toks, i+1)
			continue
		}
		if k := placeTaken(toks, i); k > i {
			c.countNote(r, toks, k)
			continue
		}
		if t.is("=") && !chainEquals(toks, i) && !chainIs(r, toks, i) {
			continue
		}
		if !t.is("=") && !t.isAny("count", "counts", "counted", "counting", "considered", "stands", "stand", "represents", "replaces", "replace", "reckoned") {
			continue
		}
		c.countNote(r, toks, i)
	}
}

// chainEquals reports "3ch at the start of a round = 1tr": the sign at i says what the
// chains count as that rows begin with.
func chainEquals(toks []token, i int) bool {
	chain, begins := false, false
	for j := i - 1; j >= max(0, i-9) && !toks[j].isMark(".;,(:"); j-- {
		chain = chain || toks[j].isAny("ch", "chain", "chs")
		begins = begins || toks[j].isAny("start", "first", "begin") || toks[j].in(risingWords)
	}
	return chain && begins
}

// chainIs reports "ch 3 = dc", "Ch 3 always = 1 dc", "3ch = 1tr": the sign at i says,
// in a clause of its own, that a number of chains is a stitch, wherever it stands.
func chainIs(r *reader, toks []token, i int) bool {
	j := i - 1
	for j >= 0 && toks[j].isAny("always", "here", "throughout") {
		j--
	}
	chain, number := false, false
	for ; j >= 0; j-- {
		t := &toks[j]
		if !chain && t.isAny("ch", "chs", "chain", "chains") {
			chain = true
		} else if !number && t.kind == tNum {
			number = true
		} else if !t.is("-") || chain == number {
			break
		}
	}
	if !chain || !number {
		return false
	}
	if j > 0 && toks[j].isAny("a", "the", "each", "every", "any") {
		j--
	}
	if j >= 0 && !toks[j].separator() && !toks[j].isMark("*(") && !toks[j+1].head && !strings.Contains(r.src.Text[toks[j].end:toks[j+1].start], ".") {
		return false
	}
	x := r.scratch(0)
	x.ts = append(append([]token(nil), toks[i+1:]...), token{kind: tEnd})
	x.p = 0
	if x.accept("a", "the"); x.peek().kind == tNum && x.peek().num == 1 {
		x.p++
	}
	id, n := x.stitchAt(0)
	x.p += n
	return n > 0 && stitch.Of(id).Turn > 0 && (x.end() || x.peek().separator() || x.peek().isMark(")") || x.peek().head || x.peek().isAny("always", "throughout", "and", "ch", "+", "plus", "&", "with"))
}

// placeWords say what a chain counts as, in more words than one.
var placeWords = [...][]string{{"takes|take|taking", "the", "place", "of"}, {"does|do", "duty", "for|as"}, {"serves|serve|used", "as|for"}, {"is|are", "instead", "of"}}

// placeTaken gives the last word of "takes the place of", "does duty for", which
// say at token i what a chain counts as; i where they do not.
func placeTaken(toks []token, i int) int {
	for _, w := range placeWords {
		k := 0
		for k < len(w) && i+k < len(toks) && toks[i+k].oneOf(w[k]) {
			k++
		}
		if k == len(w) {
			return i + k - 1
		}
	}
	return i
}

// countNote reads "ch 2 does not count as a st", "the beginning ch-3 counts
// as the first dc" around the word at i.
func (c *conventions) countNote(r *reader, toks []token, i int) {
	if countsOther(toks, i) {
		return
	}
	n, found, any, no := int64(0), false, false, false
	var heights []int64
	for j := i - 1; j >= 0 && j > i-24; j-- {
		t := &toks[j]
		if t.isMark(".;") && !r.goesOn(toks, j) {
			break
		}
		if len(heights) > 0 && t.isAny("count", "counts", "counted", "stands", "stand", "represents", "=") {
			break // "ch 3 counts as a dc, ch 1 does not count"
		}
		switch {
		case t.isAny("not", "never", "doesn't", "don't", "isn't", "no", "aren't"):
			no = true
		case t.kind == tNum && !t.frac:
			n = t.num
			if j > 0 && (toks[j-1].isAny("ch", "chain") || toks[j-1].isAny("-", "of") && j > 1 && toks[j-2].isAny("ch", "chain")) || j+1 < len(toks) && (toks[j+1].isAny("ch", "chain", "chs", "chains") || toks[j+1].is("-") && j+2 < len(toks) && toks[j+2].isAny("ch", "chain")) {
				heights = append(heights, n)
				found = true
			}
		case t.isAny("chs", "chains", "ch", "chain", "tch"):
			found = true
			if j > 0 && (toks[j-1].is("start") || toks[j-1].in(risingWords)) || t.is("tch") {
				any = true
			}
			if t.isAny("chains", "chs") && !any && len(heights) == 0 {
				// "Chains are not counted in stitch counts"
				for k := i; k < min(len(toks), i+6); k++ {
					if toks[k].isAny("counts", "total", "totals", "count") && k > i {
						if no {
							c.chains = -1
						} else {
							c.chains = 1
						}
						return
					}
				}
			}
		}
	}
	if !found {
		return
	}
	k := Counts{Said: true, N: 1, Spread: true}
	if no {
		k.As = stitch.None
	} else {
		k.As = stitch.Special
		x := r.scratch(0)
		x.ts = append(append([]token(nil), toks[i+1:]...), token{kind: tEnd})
		x.p = 0
		x.accept("always", "here", "throughout")
		x.accept("as", "for")
		for x.peek().isAny("the", "a", "first", "1", "one", "your") || x.peek().kind == tNum || x.peek().kind == tOrd {
			x.p++
		}
		if id, n := x.stitchAt(0); n > 0 && !x.peek().isAny("st", "stitch") {
			k.As = id
			x.p += n
			x.countsSpace(&k)
			c.countsToo(x)
		} else if !x.peek().isAny("st", "stitch", "sts") && !x.end() && !x.peek().separator() && !x.peek().isAny("throughout", "in", "unless", "always", "and") {
			return
		}
	}
	if len(heights) == 0 {
		c.chain[0] = k
		return
	}
	for _, h := range heights {
		c.chain[h] = k
	}
}

// countsToo reads what chains of other heights count as behind the first, without the word:
// "ch-3 is counted as one dc, ch-4 as one dc and one ch".
func (c *conventions) countsToo(x *rowReader) {
	for {
		save := x.p
		x.accept(",", ";", "and")
		x.accept("and")
		x.phrase("[the|a]", "[turning|beginning|beg|starting|first]", "ch|chain", "[-|of]")
		n := x.peek()
		if x.p == save || n.kind != tNum || n.frac || n.big {
			x.p = save
			return
		}
		x.p++
		if !x.phrase("as|for", "[a|an|one|1|the|first]", "[a|an|one|1|first]") {
			x.p = save
			return
		}
		id, words := x.stitchAt(0)
		if words == 0 {
			x.p = save
			return
		}
		x.p += words
		k := Counts{Said: true, N: 1, Spread: true, As: id}
		x.countsSpace(&k)
		if _, told := c.chain[n.num]; !told {
			c.chain[n.num] = k
		}
	}
}

// countsOther reports whether what counts, at the word i, is no chain though one
// is told of before it: "Picot = ch 3, sl st in 3rd ch from hook (a picot
// doesn't count as a stitch)".
func countsOther(toks []token, i int) bool {
	for i > 0 && toks[i-1].isAny("do", "does", "don't", "doesn't", "not", "never", "no", "is", "are", "isn't", "aren't", "will", "be") {
		i--
	}
	return i > 0 && toks[i-1].isAny("picot", "picots", "knot", "knots", "slipknot")
}

// goesOn reports whether a stop only ends a word cut short: "3 ch. at the
// beginning", "ch. 3".
func (r *reader) goesOn(toks []token, j int) bool {
	if j == 0 || j+1 >= len(toks) || !toks[j-1].isAny("ch", "chs", "chain", "beg") {
		return false
	}
	return toks[j+1].kind == tNum || !toks[j-1].is("chain") && lowerAt(r.src.Text, toks[j+1].start)
}

// fromSteps reads "(counts as dc here and throughout)" inside a row.
func (c *conventions) fromSteps(steps []*Step) {
	for _, s := range steps {
		if s.Op == OpChain && s.Counts.Said && s.Counts.Spread {
			if _, ok := c.chain[s.N.N]; !ok {
				c.chain[s.N.N] = s.Counts
			}
		}
		if len(s.Body) > 0 && s.special == nil {
			c.fromSteps(s.Body)
		}
	}
}
