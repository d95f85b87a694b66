package pattern

import "crochet/tallyturn/pattern/stitch"

// totalFirst = ( bracket | number [ noun ] ) [ "(" sign number ")" ] .
//
// It is a total that stands before the work of its row, and not behind it: "Row 2 - 6
// sts: 2 sc in first st, ...", "R3: 18 sts (+6). [1 sc, inc] 6 times.", "Rnd 4 (-8 =
// 24): ...". Common practice in toy patterns, no source.
func (x *rowReader) totalFirst() {
	start := x.p
	for x.peek().isMark("-:=|,") {
		x.p++
	}
	at := x.p
	if x.changeBehind() {
		return
	}
	total, delta, marked := x.countsFirst()
	switch {
	case total == nil && !delta.set, !x.workAhead(marked):
		x.p, x.row.changes = start, rowChanges{}
		return
	}
	if total != nil {
		sp := x.spanFrom(at)
		x.row.Total = &Total{Span: sp, Parts: []TotalPart{*total}, Text: x.src.Slice(sp), first: true}
	}
	if delta.set {
		x.row.changes = rowChanges{delta: delta.n, deltaSet: true}
	}
	for x.peek().isMark("-:=|.") {
		x.p++
	}
}

// changeBehind takes a total that stands before how its row differs from the one below,
// which is all that is said: "Rnd 3 - 21 sc (inc 7)", "4) 48 hdc, inc in every 3rd", "R9: 60
// dc (even)". Where no mark sets the change apart, "28 sc, 7 inc" may be worked as it
// stands, and is.
func (x *rowReader) changeBehind() bool {
	start := x.p
	p, ok := x.countPart()
	if !ok || !x.afterRows || p.N.N <= fewCounted || p.Kind == PartStitch && stitch.Of(p.ID).Kind != stitch.Basic {
		x.p = start
		return false
	}
	sp := x.spanFrom(start)
	x.phrase("[in]", "total|all|altogether|now")
	mark := x.p
	if x.accept("(", "["); x.p == mark && !x.accept(",", ";", ":", "-", "=", ".") || !x.changeAhead(x.ts[mark].isMark("([")) {
		x.p = start
		return false
	}
	if p.Kind == PartStitch && x.main == stitch.None {
		x.main = p.ID
	}
	x.row.Total = &Total{Span: sp, Parts: []TotalPart{*p}, Text: x.src.Slice(sp), first: true}
	return true
}

// changeAhead reports whether the words to the end of the row, or of a bracket, tell only
// how the row changes: "inc 7", "7 inc", "no dec", "even", "inc in every 3rd st", "2 in each".
// In a bracket the number may stand alone with the word of the change.
func (x *rowReader) changeAhead(bracket bool) bool {
	k := 0
	for x.at(k).kind != tEnd && !x.at(k).isMark(")]") {
		if k++; k > maxChangeWords {
			return false
		}
	}
	save := x.p
	defer func() { x.p = save }()
	ends := func() bool { return x.p == save+k || x.peek().isMark(".,;") && x.lastWords() }
	change := "inc|incs|increase|increases|increasing|dec|decs|decrease|decreases|decreasing"
	if x.phrase("no|without|with", "[no|any|further|more]", change+"|shaping|change|changes", "[or|and|,]", "[inc|incs|dec|decs|increases|decreases]") && ends() || x.phrase("even|straight|plain|work", "[even|straight|plain]") && ends() {
		return true
	}
	x.p = save
	if t := x.peek(); t.kind == tNum && (t.num == 2 || t.num == 3) {
		if x.p++; x.phrase("in|into", "each|every|all", "[st|stitch|sc|dc|hdc|one]", "[around]") && ends() {
			return true
		}
	}
	x.p = save
	if x.phrase(change, "[1|one|by]", "[in|on|at|by]", "[each|every|ea|all]") {
		every := x.at(-1).isAny("each", "every", "ea", "all")
		t := x.peek()
		switch {
		case every && (t.kind == tOrd || t.isAny("other", "alternate", "st", "stitch") || t.kind == tNum):
			x.p++
			x.phrase("[st|stitch|sts|sc|dc|hdc|stitches]", "[around]")
			return ends()
		case bracket && t.kind == tNum && !t.frac:
			x.p++
			x.phrase("[st|sts|stitches|times]", "[evenly]", "[around]")
			return ends()
		}
		return false
	}
	if t := x.peek(); bracket && t.kind == tNum && !t.frac {
		x.p++
		return x.phrase("[st|sts|stitches]", change+"|increased|decreased", "[evenly]", "[around]") && ends()
	}
	return false
}

// maxChangeWords is how long such words may be.
const maxChangeWords = 9

// firstDelta is by how many a row is said to differ from the one below it.
type firstDelta struct {
	n   Num
	set bool
}

// countsFirst reads what totalFirst takes. Marked tells that no stitch could begin with
// the words just read: they name none, or a mark closes them.
func (x *rowReader) countsFirst() (total *TotalPart, delta firstDelta, marked bool) {
	if x.peek().isMark("([{<") {
		end := x.closer(0)
		if end < 0 || end-x.p > 9 || end == x.p+1 || x.followsTimes(end+1) {
			return nil, delta, false
		}
		x.p++
		x.accept("total", "now", "makes", "making", "gives", "count", "stitches", "sts")
		x.accept(":")
		for x.p < end {
			if x.signedCount(&delta) {
				continue
			}
			if x.acceptIn(countJoints) {
				continue
			}
			p, ok := x.countPart()
			if !ok || total != nil {
				return nil, delta, false
			}
			total = p
		}
		x.p = end + 1
		after := x.peek()
		marked = after.isMark("-:=|.") || after.head || total != nil && total.Kind == PartStitches && (total.Name != "" || total.N.N > fewCounted) || total == nil
		return total, delta, marked
	}
	p, ok := x.countPart()
	if !ok {
		return nil, delta, false
	}
	generic := p.Kind == PartStitches && p.Name != ""
	if x.peek().isMark("([") && x.at(1).isMark("+-\u00b1") {
		x.p++
		if !x.signedCount(&delta) || !x.accept(")", "]") {
			return nil, delta, false
		}
	}
	switch after := x.peek(); {
	case after.is(":"), generic && (after.isMark("-=|.") || after.head):
		return p, delta, true
	}
	return nil, delta, false
}

// fewCounted is the largest number in a bracket that may be one of stitches to work.
const fewCounted = 3

// countJoints may stand between the numbers of a total.
var countJoints = newWordSet(", ; = / - total in all altogether each every per rnd round row time now")

// countPart reads a number, and the stitches it counts.
func (x *rowReader) countPart() (*TotalPart, bool) {
	start := x.p
	n, ok := x.number()
	if !ok {
		return nil, false
	}
	p := &TotalPart{N: n, Kind: PartStitches}
	if x.accept("st", "sts", "stitch", "stitches") {
		p.Name = x.at(-1).text
	} else if id, k := x.stitchAt(0); k > 0 && id != stitch.None {
		x.p += k
		p.Kind, p.ID = PartStitch, id
	}
	p.Span = x.spanFrom(start)
	return p, true
}

// signedCount reads "+6", "-8 sts": by how many the row differs from the one below it.
func (x *rowReader) signedCount(d *firstDelta) bool {
	sign, n := x.peek(), x.at(1)
	if !sign.isMark("+-\u00b1") || n.kind != tNum || n.frac || n.big || d.set {
		return false
	}
	x.p++
	num, _ := x.number()
	if sign.is("-") {
		num.N = -num.N
	}
	x.accept("st", "sts", "stitches", "sc", "dc", "hdc", "inc", "dec")
	d.n, d.set = num, true
	return true
}

// workAhead reports whether the work of a row follows what was read of its total.
func (x *rowReader) workAhead(marked bool) bool {
	k := 0
	for x.at(k).isMark("-:=|.") {
		k++
	}
	t := x.at(k)
	if t.kind == tEnd || !marked {
		return false
	}
	if t.kind == tNum && !t.frac {
		k++
		if x.at(k).is("x") {
			k++
		}
		return x.stitchFollows(k) || x.at(k).isAny("inc", "dec", "in", "ch", "chain", "ss") || x.at(k).isMark("([")
	}
	return x.stitchFollows(k) || t.isMark("([{*") || t.isAny("inc", "dec", "ch", "chain", "skip", "sk", "miss", "turn", "work", "with", "make", "increase", "decrease", "inv", "invdec", "join", "working", "repeat", "rep", "as", "using", "double")
}
