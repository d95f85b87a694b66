package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// rowReader reads the words of one row by recursive descent. Every production
// stands above its code in EBNF; words in quotes are matched whatever their
// case, and commas, full stops and semicolons may stand between steps freely.
type rowReader struct {
	src    *Source
	ts     []token // ends with tEnd
	p      int
	lex    *stitch.Lexicon
	other  *stitch.Lexicon // the other side's terms, for patterns that give both
	pat    *Pattern
	names  map[string]*Special
	row    *Row
	marks  []openMark
	closed []closedMark
	depth  int

	spent  int // see spend
	gaveUp bool

	main     stitch.ID // the row's stitch, for inc and dec
	worked   bool      // a step that makes stitches has been read
	bounded  bool      // the last such step ran to the end of the row
	lastStep *Step

	alongEdge bool // the last such step runs along an edge, by no number
	off       bool // the yarn was fastened off

	rowsAsked    int64     // "6 more rows like the 2nd"
	terse        int8      // whether the row is written in few words; 0 where it is not known yet
	bareAt       Span      // a number by itself that was taken for stitches
	bareIn       stitch.ID // and for which
	afterRows    bool      // the row stands on another, or on a foundation
	ringLoop     bool      // "the loop" of this first round is the ring
	above        *Row      // the one read before it in its piece, or nil
	afterShaping bool      // and that one increases or decreases
	totalBefore  int64     // what that one states, of a single number
	countBefore  int64     // how many stitches it comes to, where its words alone tell; 0 where not

	every      []everyOpen
	holdBack   bool   // the last loops of the stitches that follow are held back: a cluster
	hookCounts Counts // what the chains skipped at the hook count as, just read
}

// restart forgets what was read, and goes on from a token.
func (x *rowReader) restart(p int) {
	x.p, x.depth, x.spent, x.gaveUp = p, 0, 0, false
	x.marks, x.closed = x.marks[:0], x.closed[:0]
	x.main, x.worked, x.bounded, x.lastStep, x.alongEdge = stitch.None, false, false, nil, false
	x.rowsAsked, x.holdBack, x.hookCounts, x.off = 0, false, Counts{}, false
	x.above, x.every = nil, nil
	x.terse, x.bareIn, x.afterRows, x.afterShaping, x.totalBefore, x.countBefore = 0, stitch.None, false, false, 0, 0
}

// closedMark is the last group closed under a mark.
type closedMark struct {
	text  string
	group *Step
}

// close keeps a group for words that repeat it later.
func (x *rowReader) close(mark string, group *Step) {
	for i := range x.closed {
		if x.closed[i].text == mark {
			x.closed[i].group = group
			return
		}
	}
	x.closed = append(x.closed, closedMark{mark, group})
}

// closedUnder is the last group closed under a mark, or nil.
func (x *rowReader) closedUnder(mark string) *Step {
	for i := range x.closed {
		if x.closed[i].text == mark {
			return x.closed[i].group
		}
	}
	return nil
}

type openMark struct {
	text    string
	partial int // steps before "**", or -1
}

// peek is the next token. It stays at the last one, which is the end: a
// production that has gone past it is brought back here.
func (x *rowReader) peek() *token {
	if x.p >= len(x.ts) {
		x.p = len(x.ts) - 1
	}
	return &x.ts[x.p]
}

// at is the token k further on.
func (x *rowReader) at(k int) *token {
	if i := x.p + k; i < len(x.ts) {
		if i < 0 {
			return &x.ts[0]
		}
		return &x.ts[i]
	}
	return &x.ts[len(x.ts)-1]
}

func (x *rowReader) end() bool { return x.peek().kind == tEnd }

// isMark reports whether a token is one of these marks of a single byte.
func (t *token) isMark(marks string) bool {
	return t.kind == tPunct && len(t.text) == 1 && strings.IndexByte(marks, t.text[0]) >= 0
}

// isAny reports whether a token is one of these words or marks.
func (t *token) isAny(words ...string) bool {
	if !t.named() || t.text == "" {
		return false
	}
	for _, w := range words {
		// a first look at the letter spares most of the comparing
		if len(w) == len(t.text) && w[0] == t.text[0] && w == t.text {
			return true
		}
	}
	return false
}

// named reports whether the token can be matched by its text: figures cannot.
func (t *token) named() bool { return t.kind == tWord || t.kind == tPunct || t.word }

// accept takes the next token if it is one of these.
func (x *rowReader) accept(words ...string) bool {
	if x.peek().isAny(words...) {
		x.p++
		return true
	}
	return false
}

// plainStitch reports whether a token is the abbreviation of a plain stitch,
// which begins nothing but work in it.
func (t *token) plainStitch() bool {
	if t.kind != tWord {
		return false
	}
	switch t.text {
	case "sc", "hdc", "dc", "tr", "htr", "dtr":
		return true
	}
	return false
}

// phrase takes a run of words if it stands next. A word in the pattern may be
// "a|b" for either, and "[a]" for one that may be missing.
func (x *rowReader) phrase(words ...string) bool {
	n := x.phraseAt(0, words...)
	if n < 0 {
		return false
	}
	x.p += n
	return true
}

// phraseAt reports how many tokens the phrase takes from the k-th on, or -1.
func (x *rowReader) phraseAt(k int, words ...string) int {
	start := k
	for _, w := range words {
		optional := w[0] == '['
		if optional {
			w = w[1 : len(w)-1]
		}
		if x.at(k).oneOf(w) {
			k++
		} else if !optional {
			return -1
		}
	}
	return k - start
}

// oneOf matches a list written with bars.
func (t *token) oneOf(list string) bool {
	if !t.named() || t.text == "" {
		return false
	}
	// Rows are matched against these lists more than anything else is done:
	// a search by the library costs three times as much on lists as short.
	for i, n := 0, len(t.text); i+n <= len(list); i++ {
		if list[i] == t.text[0] && list[i:i+n] == t.text && (i+n == len(list) || list[i+n] == '|') {
			return true
		}
		for i < len(list) && list[i] != '|' {
			i++
		}
	}
	return false
}

// separator reports whether the token only parts steps.
func (t *token) separator() bool { return t.isMark(",.;:-=/\"'|^_`\\!?>~") }

// spanFrom is the span from a token to the last one taken.
func (x *rowReader) spanFrom(start int) Span {
	x.peek()
	if x.p <= start {
		return Span{int(x.ts[start].start), int(x.ts[start].start)}
	}
	return Span{int(x.ts[start].start), int(x.ts[x.p-1].end)}
}

// number = figure | word , [ sizes ] .
// sizes  = "(" number { ("," | ":" | "-") number } ")" .
func (x *rowReader) number() (Num, bool) {
	t := x.peek()
	if t.kind != tNum || t.frac {
		return Num{}, false
	}
	n := Num{N: t.num, Span: t.span()}
	x.p++
	if sizes, ok := x.sizeList(n.N); ok {
		n.Sizes = sizes
		n.Span.End = int(x.ts[x.p-1].end)
	}
	return n, true
}

// sizeList takes a list of numbers in brackets when it has one number for
// each further size of the pattern.
func (x *rowReader) sizeList(first int64) ([]int64, bool) { return x.sizesOf(first, tNum) }

// sizesOf is sizeList for numbers or for ordinals, "8th (12th, 16th)".
func (x *rowReader) sizesOf(first int64, number kind) ([]int64, bool) {
	if sizes, ok := x.sizesCounted(first, number, len(x.pat.Sizes)-1); ok {
		return sizes, true
	}
	return x.ownSizes(first, number)
}

// ownSizes is sizesOf in a row that some sizes work, with a number for each of
// those: "66 (72)" where two of three sizes work it.
func (x *rowReader) ownSizes(first int64, number kind) ([]int64, bool) {
	if x.row == nil || len(x.row.only) != len(x.pat.Sizes) {
		return nil, false
	}
	own := x.row.sizesWorking()
	listed, ok := x.sizesCounted(first, number, own-1)
	if !ok || own == len(x.pat.Sizes) {
		return nil, false
	}
	sizes := make([]int64, len(x.pat.Sizes))
	next := 0
	for i, worked := range x.row.only {
		// a size that does not work the row has the number of the one before
		sizes[i] = listed[max(next-1, 0)]
		if worked {
			sizes[i] = listed[next]
			next++
		}
	}
	return sizes, true
}

// sizesCounted takes a list in brackets of as many numbers as are wanted.
func (x *rowReader) sizesCounted(first int64, number kind, want int) ([]int64, bool) {
	if want < 1 {
		return nil, false
	}
	sizes := []int64{first}
	k := 0
	for len(sizes) <= want {
		open := x.at(k)
		if !open.isMark("([{") {
			return nil, false
		}
		k++
		for {
			t := x.at(k)
			if t.kind != number {
				return nil, false
			}
			sizes = append(sizes, t.num)
			k++
			if x.at(k).isMark(",:-;/") {
				k++
				if x.at(k).isMark("[({") { // 29 (33, [37], 41)
					return nil, false
				}
				continue
			}
			break
		}
		if !x.at(k).isMark(")]}") {
			return nil, false
		}
		k++
		// ch 50 (50) 56 (56) 62: sizes in and out of brackets by turns
		if len(sizes) <= want && x.at(k).kind == number {
			sizes = append(sizes, x.at(k).num)
			k++
		}
	}
	if len(sizes) != want+1 {
		return nil, false
	}
	x.p += k
	return sizes, true
}

// stitchAt finds the longest stitch name that begins at the k-th token, and
// how many tokens it takes; 0 where there is none.
func (x *rowReader) stitchAt(k int) (stitch.ID, int) {
	id, n := x.lookup(x.lex, k)
	if n == 0 && x.pat.Terms == stitch.Unknown {
		// Terms that mean one thing only are understood on either side.
		if id, n = x.lookup(x.other, k); n > 0 && !unmistakable(x.at(k).text) {
			return stitch.None, 0
		}
	}
	return id, n
}

func unmistakable(w string) bool {
	switch w {
	case "sc", "hdc", "htr":
		return true
	}
	return false
}

func (x *rowReader) lookup(l *stitch.Lexicon, k int) (stitch.ID, int) {
	t := x.at(k)
	if t.kind != tWord || !t.opens(opensStitch) {
		return stitch.None, 0
	}
	best, n := stitch.None, 0
	id, more := l.Find(t.text)
	if id != stitch.None {
		best, n = id, 1
	}
	if !more {
		return best, n
	}
	var buf [48]byte
	name := append(buf[:0], t.text...)
	for j := k + 1; j < k+9; {
		if u := x.at(j); u.is(".") && len(x.at(j-1).text) == 1 || u.is("-") && u.glued {
			j++ // "s. c.", "half-double"
		}
		u := x.at(j)
		if u.kind != tWord || len(name)+1+len(u.text) > cap(name) {
			break
		}
		name = append(append(name, ' '), u.text...)
		j++
		id, more := l.Find(string(name))
		if id != stitch.None {
			best, n = id, j-k
		}
		if !more {
			break
		}
	}
	return best, n
}
