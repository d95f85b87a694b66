package pattern

import (
	"strings"
	"unicode/utf8"
)

// label is the heading of a row: "Row 1 (RS):", "Rnds 2-14.", "1st row:",
// "Next 4 rows:".
type label struct {
	end     int // token after it
	kind    RowKind
	numbers Numbering
	side    Side
	next    bool // a row without a number of its own
	weak    bool // a bare number, "4." : a label only where the pattern uses them
	strong  bool // closed by a colon or a dash: it may stand in mid-line
	total   Span // a total that rides in the label
	colour  bool
	inOrder bool // weak, and only where it counts on from the one before: "(3)", "#3"
	name    Span // the tokens that name the row, where the label is part of a sentence
}

// roundWords are what a round is called in a label.
var roundWords = newWordSet("rnd rnds round rounds rd rds")

func isRoundWord(t *token) bool { return t.in(roundWords) }

// labelOpeners are the words that may stand before "row" in a label, in the place of a number.
var labelOpeners = newWordSet("next nxt last final foundation set setup inc dec increase decrease increasing decreasing border edging eyelet joining base beginning starting closing pattern shell short picot another preparation turning ruffle")

// rowVerbs follow a row that is only spoken of: "Row 2 forms the pattern".
var rowVerbs = newWordSet("form forms establish are is have measure set count of and")

// labelAt reads a row label that begins at token i. Sizes says how many sizes
// the pattern has, for ranges that differ.
//
//	label = ( rowword numbers | ordinal rowword | ( "next" | "last" | word ) [ number ] rowword | number "." ) [ remarks ] [ ":" | "." | "-" | "=" ] .
func (r *reader) labelAt(i int) (label, bool) {
	x := r.scratch(i)
	l := label{}
	start := x.p
	t := x.peek()
	if t.head && r.counted[i] {
		x.countedLabel(&l)
		return l, true
	}
	boxed := t.head && t.isMark("([") && isRowWord(x.at(1)) && x.at(2).kind == tNum // "[R1] ch 14, ..."
	if boxed {
		x.p++
		t = x.peek()
	}
	switch {
	case t.is("r") && t.head && x.at(1).is(".") && x.at(2).kind == tNum:
		l.kind = Round
		x.p += 2
		if !x.labelNumbers(&l) {
			return l, false
		}
	case isRowWord(t) && !t.is("r") || t.is("r") && x.at(1).kind == tNum && (x.at(1).glued || x.at(2).separator() || x.at(2).isAny("to", "and", "&", "thru", "(") || t.head && x.workFollows(2)):
		if isRoundWord(t) {
			l.kind = Round
		}
		if t.is("r") {
			l.kind = Round // "R1" is a toy's round as often as a row; joins and turns decide
		}
		x.p++
		x.phrase(".")
		x.phrase("#|no")
		x.phrase(".")
		if !x.labelNumbers(&l) {
			return l, false
		}
	case r.letterLabel(t, x.at(1)):
		l.kind = Round
		x.p++
		if !x.labelNumbers(&l) {
			return l, false
		}
	case t.kind == tOrd:
		x.p++
		l.numbers.First = Num{N: t.num, Span: t.span()}
		l.numbers.Last = l.numbers.First
		if isRowWord(x.peek()) && (x.at(1).is("-") || x.at(1).isAny("to", "and")) && x.at(2).kind == tOrd {
			x.p++
		}
		for x.peek().isAny("-", "to", "and", "&", ",", "through") && x.at(1).kind == tOrd {
			list := x.peek().isAny("and", "&", ",")
			x.p++
			n := x.peek().num
			if list && n != l.numbers.Last.N+1 {
				if l.numbers.List == nil {
					l.numbers.List = []int{int(l.numbers.First.N)}
				}
				l.numbers.List = append(l.numbers.List, int(n))
			} else if l.numbers.List != nil {
				l.numbers.List = append(l.numbers.List, int(n))
			}
			l.numbers.Last = Num{N: n, Span: x.peek().span()}
			x.p++
		}
		if t.head && x.ordinalOfKind(&l) {
			break
		}
		if !isRowWord(x.peek()) {
			return l, false
		}
		if isRoundWord(x.peek()) {
			l.kind = Round
		}
		x.p++
		if x.peek().isAny("below", "of", "from", "end") {
			return l, false
		}
	case t.in(labelOpeners):
		x.p++
		if x.peek().head {
			return l, false // "Edging" on a line of its own, and "Rnd 1" below it
		}
		l.next = true
		if t.is("set") {
			x.accept("-")
			if !x.accept("up") {
				return l, false
			}
		}
		l.numbers.Count = Num{N: 1}
		if x.peek().kind == tNum && isRowWord(x.at(1)) {
			l.numbers.Count, _ = x.number()
		} else if x.peek().kind == tNum && x.at(1).isMark("([") {
			save := x.p
			if n, ok := x.number(); ok && isRowWord(x.peek()) {
				l.numbers.Count = n
			} else {
				x.p = save
			}
		}
		if !isRowWord(x.peek()) || x.peek().head {
			return l, false
		}
		if isRoundWord(x.peek()) {
			l.kind = Round
		}
		x.p++
		if x.peek().kind == tNum && x.at(1).separator() && !x.at(1).is(",") {
			x.p++ // "Dec row 1:" counts on from the row before
		}
		if !x.peek().isMark(":-(.=[") && !t.isAny("next", "nxt") && !(t.isAny("last", "final") && t.head && r.capital(start) && x.peek().isAny("ch", "chain", "turn", "work") && r.capital(x.p)) && !(t.is("foundation") && t.head && x.peek().isAny("as", "like", "same")) {
			return l, false
		}
		if t.is("pattern") && !x.peek().is(":") {
			return l, false
		}
	case t.head && t.kind == tWord && !t.in(rowTalk) && x.at(1).isAny("row", "rows", "rnd", "rnds", "round", "rounds") && !x.at(1).head && x.at(2).kind == tNum && x.ownNumbers(&l, r.underHeading(t.text)):
		// "Rib Rnds 2-3:": a part of the piece that counts by itself
	case t.head && x.dottedNumbers(&l):
	case t.kind == tNum && !t.frac && !t.word && t.head && (x.at(1).isMark(".):") && x.at(1).glued || x.at(1).isMark("-") && x.at(2).kind == tNum && (x.at(3).isMark(".):") || isRowWord(x.at(3)) && x.at(4).isMark(":-.")) || isRowWord(x.at(1)) && x.at(2).isMark(":-.")):
		l.weak = true
		l.numbers.First = Num{N: t.num, Span: t.span()}
		l.numbers.Last = l.numbers.First
		x.p++
		if x.peek().is(")") && x.at(1).is("-") && x.at(2).kind == tNum && x.at(3).is(")") && x.at(2).num > t.num {
			x.p++ // "4)-10)"
		}
		if x.peek().is("-") {
			x.p++
			l.numbers.Last = Num{N: x.peek().num, Span: x.peek().span()}
			x.p++
		}
		if isRowWord(x.peek()) {
			l.weak = false
			if isRoundWord(x.peek()) {
				l.kind = Round
			}
			x.p++
		}
	case t.head && (t.isMark("(") && x.at(1).kind == tNum && x.at(1).glued || t.is("#") && x.at(1).kind == tNum && x.at(1).glued):
		if !x.markedNumbers(&l) {
			return l, false
		}
	case t.is("step") && x.at(1).kind == tNum && x.at(2).isMark(":.-"):
		l.weak = true
		l.numbers.First = Num{N: x.at(1).num}
		l.numbers.Last = l.numbers.First
		x.p += 2
	default:
		return l, false
	}
	x.accept("incl", "inclusive")
	if !x.labelEvery(&l) {
		return l, false
	}
	if boxed {
		if l.strong = x.accept(")", "]"); !l.strong {
			return l, false
		}
	}
	if named := x.p; x.toldOf() {
		l.name, l.end = Span{start, named}, x.p
		l.strong = !x.ts[start].head && start > 0 && x.ts[start-1].isMark(".:!") // "Lovely. Round 2 is 2 hdc in each"
		return l, x.ts[start].head || l.strong && (x.ts[start-1].is(":") || r.capital(start))
	}
	if x.peek().in(rowVerbs) {
		return l, false
	}
	x.labelRemarks(&l)
	if !x.labelClose(&l, start) {
		return l, false
	}
	l.end = x.p
	return l, true
}

// toldOf takes the verb of a row that is told in a sentence, "Rnd 1 is just 6 sc in a
// magic ring", "Rnds 5-8 are plain", where work follows it.
func (x *rowReader) toldOf() bool {
	start := x.p
	if x.phrase("is|are|goes|go|will|has|gets", "[be|like|so|worked]", "[this|:]", "[just|simply|only|all|nothing]", "[a|but]") {
		if x.workFollows(0) || x.peek().isMark("([*") || x.peek().isAny("mr", "magic", "increase", "decrease", "plain", "even") && !x.at(1).isAny("row", "rows", "round", "rounds", "rnd", "rnds") {
			return true
		}
	}
	x.p = start
	return false
}

// underHeading reports whether the heading that rows stand under has a word in
// it: "Band Round 1" under "RIBBED BAND".
func (r *reader) underHeading(word string) bool {
	name := ""
	switch {
	case r.heading.set:
		name = r.heading.name
	case r.piece != nil:
		name = r.piece.Name
	}
	for _, f := range strings.Fields(name) {
		if strings.EqualFold(f, word) {
			return true
		}
	}
	return false
}

// ownNumbers reads a label whose numbers are those of a part of the piece, "Rib
// Rnds 2-3:": so many rows more. Where the part has a heading of its own, they
// are its numbers.
func (x *rowReader) ownNumbers(l *label, inHeading bool) bool {
	start := x.p
	own := label{}
	if isRoundWord(x.at(1)) {
		l.kind = Round
	}
	x.p += 2
	if !x.labelNumbers(&own) || !x.peek().isMark(":([") && !(x.peek().isMark("-.") && (x.workFollows(1) || x.at(1).isAny("*", "rep", "repeat"))) || own.numbers.List != nil {
		x.p = start
		return false
	}
	if inHeading {
		l.numbers = own.numbers
		return true
	}
	l.next = true
	l.numbers.Count = Num{N: own.numbers.Last.N - own.numbers.First.N + 1}
	return l.numbers.Count.N > 0
}

// rowsOfKind are what rows are that some patterns count by themselves.
var rowsOfKind = newWordSet("inc increase increasing dec decrease decreasing pattern patt pat rib ribbing ribbed lace shell mesh edging border brim crown cuff yoke shaping joining colour color")

// ordinalOfKind reads what kind of row a number told in words counts, "1st dec rnd:", "2nd
// and 3rd pattern rows:": so many rows more, since the others of the piece are not among
// those it counts.
func (x *rowReader) ordinalOfKind(l *label) bool {
	n := l.numbers.Last.N - l.numbers.First.N + 1
	if !x.peek().in(rowsOfKind) || x.peek().head || !isRowWord(x.at(1)) || !x.at(2).isMark(":.-(") || l.numbers.List != nil || n < 1 {
		return false
	}
	if isRoundWord(x.at(1)) {
		l.kind = Round
	}
	x.p += 2
	l.next = true
	l.numbers = Numbering{Count: Num{N: n}}
	return true
}

// markedNumbers reads a row's number in brackets or behind a hash, as notes
// have them: "(3)", "(5) - (9)", "(5-9)", "#8 thru #14".
func (x *rowReader) markedNumbers(l *label) bool {
	l.weak, l.inOrder = true, true
	one := func() (Num, bool) {
		start := x.p
		open := x.accept("(")
		if !open && !x.accept("#") {
			return Num{}, false
		}
		n, ok := x.number()
		if ok && open && x.peek().is("-") && x.at(1).kind == tNum && x.at(2).is(")") {
			l.numbers.First = n
			x.p++
			n, _ = x.number()
		}
		if !ok || n.N > 999 || open && !x.accept(")") {
			x.p = start
			return Num{}, false
		}
		return n, true
	}
	n, ok := one()
	if !ok {
		return false
	}
	if l.numbers.First.N == 0 {
		l.numbers.First = n
	}
	l.numbers.Last = n
	if save := x.p; x.accept("-", "to", "thru", "through", "and", "&", "+") {
		if n, ok := one(); ok && n.N > l.numbers.Last.N {
			l.numbers.Last = n
		} else {
			x.p = save
		}
	}
	return true
}

// labelNumbers reads the numbers after "Row".
func (x *rowReader) labelNumbers(l *label) bool {
	switch t := x.peek(); {
	case t.kind == tNum && !t.frac && !t.big:
	case t.kind == tWord && roman(t.text) > 0 && (x.at(1).isMark(":.-()") || x.at(1).isAny(",", "&", "and", "to") && roman(x.at(2).text) == roman(t.text)+1 || x.at(1).is("to") && roman(x.at(2).text) > 0):
		n := Num{N: int64(roman(t.text)), Span: t.span()}
		x.p++
		l.numbers.First, l.numbers.Last = n, n
		for x.peek().isAny("-", "to", ",", "&", "and") {
			m, through := int64(roman(x.at(1).text)), x.peek().isAny("-", "to")
			if m <= l.numbers.Last.N || !through && m != l.numbers.Last.N+1 {
				break
			}
			l.numbers.Last = Num{N: m, Span: x.at(1).span()}
			x.p += 2 // "Rnds V, VI & VII"
		}
		return true
	default:
		return false
	}
	letter := x.at(-1).text
	n, _ := x.number()
	l.numbers.First, l.numbers.Last = n, n
	for {
		k := 0
		list := false
		if x.at(0).is(")") && x.at(1).is("-") && (x.at(2).kind == tNum && x.at(3).is(")") || isRowWord(x.at(2)) && x.at(3).kind == tNum && x.at(4).is(")")) {
			k++ // "r6) - r8)"
		}
		if x.at(k).is("up") && x.at(k+1).isAny("to", "through", "until", "till") {
			k++ // "Round 6 up to Round 10"
		}
		switch {
		case x.at(k).isAny("-", "to", "through", "thru", "till", "until"):
			k++
			for x.at(k).is("-") {
				k++
			}
		case x.at(k).is("=") && x.src.Text[x.at(k).start] >= 0x80 && x.at(k+1).kind == tNum && x.at(k+1).num > l.numbers.Last.N && x.pluralLabel():
			k++ // "Rows 4\u219215"
		case x.at(k).isMark(":") && x.at(k).glued && x.at(k+1).kind == tNum && x.at(k+1).glued && x.at(k+2).is(":"):
			k++ // "R31:32:"
		case x.at(k).isAny("and", "&", ",", "/", "+"):
			list = true
			k++
			if x.at(k).isAny("and", "&") {
				k++
			}
		case x.at(k).is("+") && x.at(k).glued:
			x.p++
			return true
		default:
			return true
		}
		if x.at(k).kind == tOrd && isRowWord(x.at(k+1)) {
			return true
		}
		if isRowWord(x.at(k)) {
			k++
			if x.at(k).is(".") {
				k++
			}
		} else if len(letter) == 1 && x.at(k).is(letter) && x.at(k+1).kind == tNum && x.at(k+1).glued {
			k++ // "L2 - L4", where a letter numbers the rows of a part
		}
		if x.at(k).isAny("end") && !list {
			x.p += k + 1
			return true
		}
		m := x.at(k)
		if m.kind != tNum || m.frac || m.big {
			return true
		}
		if list && m.num <= l.numbers.Last.N {
			return true
		}
		if !list && x.at(k-1).is("-") && !x.at(k-1).glued && !m.glued && m.num <= l.numbers.Last.N {
			return true // "Row 5 - 3 sc ...": a dash, not a range
		}
		if !list && x.at(k-1).is("-") && x.at(k-1).glued && !x.pluralLabel() && (x.at(k+1).isAny("ch", "chain") || m.num <= l.numbers.Last.N) {
			return true // "Row 3—1 ch, ..."
		}
		if !list && x.at(k-1).is("-") && x.dashByNext(l.numbers.Last.N, k) {
			return true // "R1-6 sc in MR" and below it "R2-6 inc"
		}
		if !list && x.at(k-1).is("-") {
			// "Row 5 - 6 sc in ring": the number belongs to a stitch
			if _, n := x.stitchAt(k + 1); n > 0 && !x.at(k-1).glued {
				return true
			}
			if x.at(k+1).isAny("sc", "dc", "inc", "ch", "sts", "x") && !x.at(k-1).glued {
				return true
			}
		}
		if list && !x.at(k+1).separator() && !x.at(k+1).isAny("and", "&", "to", "(", "[") && x.at(k-1).is(",") && !x.listsNext(l, k) {
			return true
		}
		x.p += k
		num, _ := x.number()
		switch {
		case list && l.numbers.List == nil && num.N == l.numbers.Last.N+1 && l.numbers.First.N == l.numbers.Last.N:
			l.numbers.Last = num
		case list && l.numbers.List == nil && num.N == l.numbers.Last.N+1:
			l.numbers.Last = num
		case list:
			if l.numbers.List == nil {
				for v := l.numbers.First.N; v <= l.numbers.Last.N && v < l.numbers.First.N+1000; v++ {
					l.numbers.List = append(l.numbers.List, int(v))
				}
			}
			l.numbers.List = append(l.numbers.List, int(num.N))
			l.numbers.Last = num
		default:
			if l.numbers.List != nil {
				for v := l.numbers.Last.N + 1; v <= num.N && v < l.numbers.Last.N+1000; v++ {
					l.numbers.List = append(l.numbers.List, int(v))
				}
			}
			l.numbers.Last = num
			if l.numbers.List == nil && num.Sizes == nil {
				x.rangesOfSizes(&l.numbers)
			}
		}
	}
}

// dashByNext reports whether the number k tokens on, behind the dash of a label, counts
// stitches and no rows: the next line is labelled with the number that follows the one
// before the dash.
func (x *rowReader) dashByNext(first int64, k int) bool {
	if !x.stitchFollows(k+1) && !x.at(k+1).isAny("inc", "dec", "ch", "in") {
		return false
	}
	word := x.p
	for word > 0 && !x.ts[word].head && !isRowWord(&x.ts[word]) {
		word--
	}
	for i := x.p + k; i+1 < min(len(x.ts), x.p+80); i++ {
		if t := &x.ts[i]; t.head && t.text == x.ts[word].text && x.ts[i+1].kind == tNum {
			return x.ts[i+1].num == first+1 && x.at(k).num != first
		}
	}
	return false
}

// listsNext reports whether the number k tokens on, behind a comma, is the next
// row of a label and counts no stitches: "Rows 6, 7 sc in each st", "r29, 30 plain".
func (x *rowReader) listsNext(l *label, k int) bool {
	if x.at(k).num != l.numbers.Last.N+1 {
		return false
	}
	if x.pluralLabel() && l.numbers.First.N == l.numbers.Last.N {
		return true
	}
	w := x.at(k + 1)
	if w.isAny("inc", "dec", "increase", "decrease") {
		return x.at(k+2).isAny("ea", "each", "both", "at") && x.phraseAt(k+2, "[at]", "ea|each|both", "end|ends|side|sides") > 0
	}
	return w.isAny("plain", "straight", "even", "same", "as", "rep", "repeat", "like")
}

// rangesOfSizes takes the rows of the further sizes behind those of the first:
// "10-15 (14-21, 16-25)".
func (x *rowReader) rangesOfSizes(n *Numbering) {
	first, last := []int64{n.First.N}, []int64{n.Last.N}
	if n.First.Sizes != nil || !x.peek().isMark("([") {
		return
	}
	k := 1
	for x.at(k).kind == tNum && x.at(k+1).isAny("-", "to") && x.at(k+2).kind == tNum {
		first, last = append(first, x.at(k).num), append(last, x.at(k+2).num)
		if k += 3; !x.at(k).isMark(",;") {
			break
		}
		k++
	}
	if len(first) != len(x.pat.Sizes) || len(first) < 2 || !x.at(k).isMark(")]") {
		return
	}
	x.p += k + 1
	end := int(x.ts[x.p-1].end)
	n.First.Sizes, n.Last.Sizes = first, last
	n.Last.Span.End = end
}

// pluralLabel reports whether the label says "Rows".
func (x *rowReader) pluralLabel() bool {
	for i := x.p; i >= max(0, x.p-4); i-- {
		if x.ts[i].isAny("rows", "rnds", "rounds", "rds", "r") {
			return true
		}
	}
	return false
}

// wordsOnly reports whether tokens a to b further on are words that name no
// stitch: a colour in a label.
func (x *rowReader) wordsOnly(a, b int) bool {
	for k := a; k < b; k++ {
		if x.at(k).kind != tWord || x.at(k).isAny("ch", "chain", "turn", "inc", "dec", "join", "skip", "sk") {
			return false
		}
		if _, n := x.stitchAt(k); n > 0 {
			return false
		}
	}
	return true
}

func (x *rowReader) stitchFollows(k int) bool {
	_, n := x.stitchAt(k)
	return n > 0
}

func roman(s string) int {
	switch s {
	case "i":
		return 1
	case "ii":
		return 2
	case "iii":
		return 3
	case "iv":
		return 4
	case "v":
		return 5
	case "vi":
		return 6
	case "vii":
		return 7
	case "viii":
		return 8
	case "ix":
		return 9
	case "x":
		return 10
	}
	return 0
}

// labelEvery reads "and all even-numbered rows", "and every alternate row".
func (x *rowReader) labelEvery(l *label) bool {
	save := x.p
	if !x.phrase("and|&", "all|every|each", "[the]", "[following|foll|other|subsequent]") {
		return true
	}
	other := x.at(-1).is("other")
	switch {
	case x.accept("even", "odd", "alternate", "alt", "ws", "rs", "wrong", "right"):
		l.numbers.Every = 2
	case other:
		l.numbers.Every = 2
	case x.peek().kind == tOrd:
		l.numbers.Every = int(x.peek().num)
		x.p++
	default:
		x.p = save
		return true
	}
	x.accept("-")
	x.accept("numbered", "side")
	x.accept("even", "odd")
	if isRowWord(x.peek()) {
		x.p++
	}
	if x.accept("to", "through", "until", "till", "thru") {
		x.accept("row", "rnd", "round")
		if x.peek().kind == tNum {
			l.numbers.Until = int(x.peek().num)
			x.p++
		}
		x.accept("incl", "inclusive")
	}
	return true
}

// labelRemarks reads what rides in brackets in a label: the side, a colour, a
// number of rows, a total.
func (x *rowReader) labelRemarks(l *label) {
	for tries := 0; tries < 3; tries++ {
		if x.peek().is("/") && x.at(1).kind == tWord {
			x.p += 2
		}
		if x.phrase("-", "rs|ws") || x.phrase("rs|ws") {
			l.side = sideOf(x.at(-1))
			continue
		}
		if !x.peek().isMark("([<") {
			return
		}
		end := x.closer(0)
		if end < 0 || end-x.p > 12 {
			return
		}
		in := x.at(1)
		switch {
		case end == x.p+2 && x.ts[end+1].isAny("*", "x") && x.ts[end+1].glued && x.ts[end+2].kind == tNum:
			return // "(v)*5" is worked so often
		case in.isAny("rs", "ws", "right", "wrong") || x.ts[end-1].isAny("side", "rs", "ws"):
			l.side = sideOf(in)
			if !in.isAny("rs", "ws", "right", "wrong") {
				for i := x.p; i < end; i++ {
					if x.ts[i].isAny("rs", "ws", "right", "wrong") {
						l.side = sideOf(&x.ts[i])
					}
				}
			}
		case in.isAny("dec", "inc", "decrease", "increase", "decreases", "increases", "plain", "even") && end == x.p+2 && x.ts[end+1].isAny("ch", "chain", "turn", ":", ".", "-"):
		case in.kind == tNum && isRowWord(x.at(2)):
		case in.kind == tNum && (x.at(2).isMark(")]") || x.at(2).isAny("sc", "sts", "st", "dc", "hdc", "tr", "stitches", "htr")) && (x.ts[end+1].isMark(":-.=") || end+1 < len(x.ts) && x.ts[end+1].kind == tEnd):
			l.total = Span{x.p, end}
		case in.kind == tWord && x.ts[end+1].isMark(":-.=(") && !in.isAny("sc", "inc", "ch", "dc", "hdc", "tr", "dec"):
		case in.kind == tWord && end-x.p <= 3 && len(in.text) <= 2 && !in.isAny("sc", "dc", "tr", "ch", "ss"):
			l.colour = true
		case in.kind == tWord && x.ts[end-1].isAny("row", "rnd", "round", "rows", "only", "color", "colour", "sizes", "rounds"):
		case in.isAny("x") && x.at(2).kind == tNum:
		default:
			return
		}
		x.p = end + 1
		if x.peek().is(",") && x.at(1).isAny("(", "rs", "ws") {
			x.p++
		}
	}
}

// totalCell takes the total of a table that has it before the words of the row, "3 | 18
// | (1 sc, inc) x6".
func (x *rowReader) totalCell(l *label) bool {
	if x.at(1).kind != tNum || x.at(1).frac || !x.at(2).is(x.peek().text) || x.at(3).head || x.at(3).kind == tEnd || x.at(3).is(x.peek().text) {
		return false
	}
	l.total = Span{x.p, x.p + 2}
	x.p += 3
	if x.peek().isMark("+-") && x.at(1).kind == tNum && (x.at(2).isMark("([/|") || x.at(2).kind == tWord) {
		x.p += 2 // how many more than before
		x.accept("/", "|")
	}
	return true
}

func sideOf(t *token) Side {
	if t.isAny("ws", "wrong") {
		return WrongSide
	}
	return RightSide
}

// pointer reports a mark from beyond the keyboard that stands between a label and its row,
// as pages set them: "Row 1 » ch 1".
func pointer(t *token) bool {
	c, _ := utf8.DecodeRuneInString(t.text)
	return t.kind == tPunct && c >= utf8.RuneSelf
}

// labelClose takes the mark that ends a label. Without one a label must stand
// at the head of its line.
func (x *rowReader) labelClose(l *label, start int) bool {
	if x.peek().is(",") && x.at(1).isAny("with", "rs", "ws") {
		x.p++
		if x.peek().isAny("rs", "ws") {
			l.side = sideOf(x.peek())
			x.p++
		}
	}
	if x.peek().is(",") && x.ts[start].head {
		// "Rnd 2, green:", "Round 1, magic ring ...": the comma closes the label
		for k := 1; k <= 4; k++ {
			if t := x.at(k); t.is(":") {
				if k > 1 && x.wordsOnly(1, k) {
					x.p += k
				}
				break
			} else if t.kind != tWord {
				break
			}
		}
		if x.peek().is(",") && !x.at(1).isAny("and", "then", "but", "which", "so") {
			x.p++
			l.strong = l.strong || isRowWord(&x.ts[start])
			return true
		}
	}
	if x.peek().is(",") && start > 0 && x.ts[start-1].is(".") && x.ts[start].kind == tOrd && x.capital(&x.ts[start]) && x.workFollows(1) {
		x.p++ // "Ch 9. First row, sc in 2nd ch"
		l.strong = true
		return true
	}
	if x.peek().is("is") && x.ts[start].head {
		if _, n := x.stitchAt(1); n > 0 {
			x.p++ // "Row 1 is sc in 2nd ch"
			return true
		}
	}
	t := x.peek()
	switch {
	case t.is(":"), t.is("="), t.is(")") && (l.weak || t.glued && l.numbers.Last.N > 0 && (start == 0 || !x.ts[start-1].isMark("(["))):
		if t.is("=") && (x.at(1).kind == tNum && (x.at(2).isAny("in", "inches", "inch", "cm", "mm", "\"") || x.at(1).frac)) {
			return false
		}
		x.p++
		l.strong = true
	case t.is("-"):
		x.p++
		l.strong = true
	case t.is("."), t.is(";") && x.ts[start].head:
		x.p++
		l.strong = true
	case x.ts[start].head && t.isMark("|/") && x.totalCell(l):
	case x.ts[start].head && !t.head && pointer(t):
		x.p++
		return true
	case x.ts[start].head && t.isMark("~|>/\"'\\^"):
		for x.peek().isMark("~|>/^-:\\") {
			x.p++
		}
		return true
	default:
		if l.numbers.Every > 0 && t.is(",") {
			x.p++
			return true
		}
		if !x.ts[start].head {
			return false
		}
		if t.kind == tWord && t.isAny("to", "from", "for", "has", "should", "will", "was", "may", "can") {
			return false
		}
		if t.kind == tEnd || t.head {
			return true
		}
		if t.is(",") {
			return false
		}
		return true
	}
	for x.peek().isMark("-:") && !x.peek().head {
		x.p++
	}
	return true
}
