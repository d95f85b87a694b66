package pattern

import (
	"slices"

	"crochet/tallyturn/pattern/stitch"
)

// noun is what a place is called.
type noun struct {
	filter Filter
	tokens int
	turn   bool  // a turning chain
	ring   bool  // the ring
	edge   bool  // a row end
	chain  int64 // "ch-3" without "sp": chains or space, as it fits
	marked bool
}

// nounAt reads the name of a kind of place at the k-th token.
//
//	noun = stitch | "st" | "ch" | [ size ] "sp" | "shell" | "tch" | "ring" | ... .
func (x *rowReader) nounAt(k int) (noun, bool) {
	t := x.at(k)
	if t.kind == tNum && !t.frac {
		return x.sizedSpace(k)
	}
	if t.kind != tWord {
		if t.isMark("([") && x.at(k+2).isMark(")]") { // (shell)
			if n, ok := x.nounAt(k + 1); ok && n.tokens == 1 {
				n.tokens = 3
				return n, true
			}
		}
		return noun{}, false
	}
	switch t.text {
	case "st", "sts", "stitch", "stitches", "stiches", "stich", "sttches":
		n := noun{filter: Filter{Kind: AnyStitch}, tokens: 1}
		if x.at(k+1).is("/") && x.at(k+2).isAny("sp", "space") {
			n.tokens = 3
			n.filter.Kind = AnyPlace
		}
		return n, true
	case "tch", "tc":
		if t.text == "tch" {
			return noun{turn: true, tokens: 1}, true
		}
	case "t":
		if x.at(k+1).is("-") && x.at(k+2).is("ch") {
			return noun{turn: true, tokens: 3}, true
		}
	case "standing", "stdg", "chainless", "regular", "plain", "joint", "single", "joined":
		if n, ok := x.nounAt(k + 1); ok {
			n.tokens++
			if t.text == "single" && n.filter.Kind == OneStitch {
				n.filter.Name = "single" // one that is not part of a group
			}
			return n, true
		}
	case "foundation", "base":
		if n := x.phraseAt(k+1, "ch|chain|chs|chains|st|sts|stitch|stitches"); n > 0 && (x.at(k-1).isAny("first", "last", "next", "each", "every") || x.at(k-1).kind == tOrd || x.at(k-1).kind == tNum) {
			m, _ := x.nounAt(k + 1) // "in first foundation ch"
			m.tokens++
			return m, true
		}
	case "turning", "beginning", "beg", "starting", "turn", "initial", "begin", "start":
		if n := x.phraseAt(k+1, "ch|chain|chains|chs"); n > 0 {
			n++
			if x.at(k+n).is("-") && x.at(k+n).glued && x.at(k+n+1).kind == tNum && x.at(k+n+1).glued && !(x.longDash(k+n) && x.totalBehind(k+n)) {
				n += 2
			} else if x.at(k+n).kind == tNum && !x.at(k+n+1).isAny("sp", "sps", "space") {
				n++
			}
			if x.at(k+n).isAny("sp", "space", "loop", "lp") {
				return noun{filter: Filter{Kind: Space}, tokens: n + 1}, true
			}
			return noun{turn: true, tokens: n}, true
		}
		if x.at(k+1).kind == tNum && x.at(k+2).isAny("ch", "chain", "chs") { // "beg 3 ch"
			return noun{turn: true, tokens: 3}, true
		}
		if n, ok := x.nounAt(k + 1); ok && !n.turn {
			n.tokens++
			return n, true
		}
		return noun{}, false
	case "ch", "chs", "chain", "chains":
		return x.chainNoun(k)
	case "sp", "sps", "space", "spaces", "spc", "hole", "holes", "arch", "arches", "mesh", "meshes", "gap", "gaps", "opening":
		return noun{filter: Filter{Kind: Space}, tokens: 1}, true
	case "loop", "loops", "lp", "lps":
		if x.ringLoop {
			return noun{ring: true, tokens: 1}, true
		}
		return noun{filter: Filter{Kind: Space, Name: "loop"}, tokens: 1}, true
	case "corner", "corners":
		n := 1
		if x.at(k + 1).is("-") {
			n++
		}
		if m, ok := x.nounAt(k + n); ok && m.filter.Kind == Space {
			m.tokens += n
			m.filter.corner = true
			return m, true
		}
		if m, ok := x.nounAt(k + n); ok {
			m.tokens += n
			return m, true
		}
		return noun{filter: Filter{Kind: Space, Name: "corner"}, tokens: 1}, true
	case "ring", "circle", "mr", "mc":
		return noun{ring: true, tokens: 1}, true
	case "curtain", "plastic", "wire", "metal", "wooden", "bone", "brass", "wood", "bamboo", "cabone", "rubber", "hair", "key", "napkin", "macrame":
		if x.at(k+1).isAny("ring", "hoop", "circle", "band", "bangle", "elastic", "tie") {
			return noun{ring: true, tokens: 2}, true // what is covered with stitches
		}
	case "hoop", "bangle":
		return noun{ring: true, tokens: 1}, true
	case "magic", "adjustable", "sliding", "amigurumi", "slip", "slipping", "thread", "yarn", "finger", "wrapped", "drawstring", "running", "closing":
		n := 1
		if x.at(k + n).is("-") {
			n++
		}
		if x.at(k+n).isAny("ring", "circle", "loop", "lp") {
			return noun{ring: true, tokens: n + 1}, true
		}
	case "picot", "picots":
		return noun{filter: Filter{Kind: PicotPlace}, tokens: 1 + x.spaceAfter(k+1)}, true
	case "group", "groups", "grp", "pair", "pairs", "tuft", "tufts", "cluster", "clusters", "cl", "petal", "petals", "scallop", "scallops", "block", "blocks", "section", "point":
		if t.text == "cluster" || t.text == "clusters" || t.text == "cl" {
			return noun{filter: Filter{Kind: AnyCluster}, tokens: 1}, true
		}
		return noun{filter: Filter{Kind: NamedGroup, Name: "group"}, tokens: 1}, true
	case "row", "rows", "edge", "side", "sides", "end", "ends":
		if t.text == "side" {
			if m, ok := x.nounAt(k + 1); ok && m.filter.Kind == Space && !m.filter.corner && m.filter.Name != "corner" {
				m.tokens++ // "side sp", "side gap"
				m.filter.Name = sideSpace
				return m, true
			}
		}
		if t.text == "side" || t.text == "sides" {
			// "in the side of each row", "into the sides of the rows"
			if n := x.phraseAt(k+1, "of", "[the]", "[each|every]", "[of]", "[the]", "[next]", "[sc|hdc|dc|tr|htr]", "row|rows", "[end|ends]"); n > 0 {
				return noun{edge: true, tokens: 1 + n}, true
			}
		}
		if t.text == "row" && x.at(k+1).isAny("end", "ends", "edge", "edges") {
			return noun{edge: true, tokens: 2}, true
		}
		if t.text == "row" && x.at(k+1).is("-") && x.at(k+1).glued && x.at(k+2).isAny("end", "ends", "edge", "edges") {
			return noun{edge: true, tokens: 3}, true
		}
		if t.text == "end" || t.text == "ends" {
			if n := x.phraseAt(k+1, "of", "[the]", "[each|every|next]", "of", "[the]", "[next|remaining|rem|last|first]"); n > 0 && x.at(k+1+n).kind == tNum && isRowWord(x.at(k+2+n)) {
				return noun{edge: true, tokens: 3 + n}, true
			}
			if n := x.phraseAt(k+1, "of", "[the]", "[next|first|last]"); n > 0 && x.at(k+1+n).kind == tNum && isRowWord(x.at(k+2+n)) {
				return noun{edge: true, tokens: 3 + n}, true
			}
			if n := x.phraseAt(k+1, "of", "[the]", "[each|every]", "[next]", "[sc|hdc|dc|tr|htr|plain|short|long]", "row|rows"); n > 0 {
				return noun{edge: true, tokens: 1 + n}, true
			}
		}
		return noun{}, false
	case "joining", "join":
		if n := x.phraseAt(k+1, "sl|slip|ss", "[st|stitch]"); n > 0 {
			return noun{marked: true, tokens: n + 1}, true
		}
		if t.text == "joining" && x.at(k+1).isAny("st", "stitch") {
			return noun{filter: Filter{Kind: AnyStitch}, tokens: 2}, true
		}
		return noun{}, false
	case "front", "back", "shoulder", "raglan":
		if x.at(k+1).isAny("loop", "loops", "lp", "lps", "bump", "bumps", "bar", "ridge", "post", "bars", "leg", "legs") {
			return noun{}, false
		}
		fallthrough
	case "underarm", "handle", "armhole", "sleeve", "neck", "neckline", "neckband", "thumb", "thumbhole", "buttonhole", "eyelet", "border", "edging", "cuff", "held", "waiting", "heel", "strap", "gusset", "brim", "yoke", "body":
		// a word for where on the piece they are
		if n, ok := x.nounAt(k + 1); ok && !n.ring && !n.turn && x.at(k+1).kind == tWord {
			n.tokens++
			return n, true
		}
	case "marked", "marker":
		if n, ok := x.nounAt(k + 1); ok {
			n.tokens++
			return n, true
		}
	}
	if sp, n := x.specialAt(k); n > 0 {
		f := Filter{Kind: NamedGroup, Name: sp.Names[0]}
		if sp.Body == nil {
			f = Filter{Kind: AnyCluster, Name: sp.Names[0]}
		}
		return noun{filter: f, tokens: n}, true
	}
	if n := groupWord(x, k); n > 0 {
		return noun{filter: Filter{Kind: NamedGroup, Name: t.text}, tokens: n}, true
	}
	if t.in(bareVs) && !x.at(k+1).isAny("-", "neck", "shape", "shaped") {
		return noun{filter: Filter{Kind: NamedGroup, Name: "v"}, tokens: 1 + x.spaceAfter(k+1)}, true
	}
	if id, n := x.stitchAt(k); n > 0 && (id != stitch.Slip || t.text != "sl" || n > 1) {
		f := Filter{Kind: OneStitch, Stitch: id}
		if stitch.Of(id).Kind == stitch.Compound {
			f = Filter{Kind: AnyCluster, Stitch: id}
		}
		m := noun{filter: f, tokens: n}
		if x.at(k+n).isAny("st", "sts", "stitch", "stitches") { // "in next dc st"
			m.tokens++
		}
		if x.at(k+n).kind == tNum && x.at(k+n).glued && x.at(k+n+1).is("tog") { // "in sc2tog"
			m.tokens += 2
		}
		if x.at(k+m.tokens).isAny("group", "groups", "cluster") {
			m.filter = Filter{Kind: NamedGroup, Name: "group", Stitch: id}
			m.tokens++
		}
		return m, true
	}
	if t.isAny("dec", "decs", "inc", "incs", "increase", "decrease") {
		return noun{filter: Filter{Kind: AnyStitch}, tokens: 1}, true
	}
	return noun{}, false
}

// bareVs name a V-stitch, or several, by its shape: "in each V", "9 Vs".
var bareVs = newWordSet("v vs v's")

// groupWord is the length of a word that print uses for several stitches in
// one place, whether the pattern defines it or not.
func groupWord(x *rowReader, k int) int {
	switch t := x.at(k); t.text {
	case "shell", "shells", "fan", "fans", "scale", "scales":
		return 1
	case "v":
		if x.at(k+1).is("-") && x.at(k+2).isAny("st", "sts", "stitch", "stitches") {
			return 3
		}
		if x.at(k+1).isAny("st", "sts", "stitch", "stitches") {
			return 2
		}
	}
	return 0
}

// spaceWords are what a space made by chains is called.
var spaceWords = newWordSet("sp sps space spaces loop loops lp lps arch arches arc arcs")

// spaceAfter is 1 where a word for a space follows.
func (x *rowReader) spaceAfter(k int) int {
	if x.at(k).in(spaceWords) {
		return 1
	}
	if x.at(k).isAny("corner", "corners") && x.at(k+1).in(spaceWords) {
		return 2 // "ch-2 corner sp"
	}
	return 0
}

// cornerBefore reports whether the word for a space that ends before the k-th token is
// that of a corner.
func (x *rowReader) cornerBefore(k int) bool { return x.at(k-2).isAny("corner", "corners") }

// chainNoun reads "ch", "ch-2 sp", "ch sp", "ch 2 loop", "ch-3".
func (x *rowReader) chainNoun(k int) (noun, bool) {
	n := 1
	if x.longDash(k+n) && x.at(k+n+1).kind == tNum && x.spaceAfter(k+n+2) == 0 {
		return noun{filter: Filter{Kind: ChainStitch}, tokens: 1}, true // "2 sc in last ch\u201418 sc"
	}
	if x.at(k+n).is("-") && (x.at(k+n).glued && x.at(k+n+1).glued || x.at(k+n+1).kind == tWord) {
		n++
	}
	if t := x.at(k + n); t.kind == tNum && !t.frac && !(x.at(k+n-1).is(".") || x.at(k+n-1).is("-") && !t.glued) {
		m := n + 1
		if x.at(k + m).is("-") {
			m++
		}
		if s := x.spaceAfter(k + m); s > 0 {
			return noun{filter: Filter{Kind: Space, Size: t.num, corner: x.cornerBefore(k + m + s)}, tokens: m + s}, true
		}
		if x.at(k+m).is("picot") || x.at(k+m).is("picots") {
			return noun{filter: Filter{Kind: PicotPlace}, tokens: m + 1}, true
		}
		return noun{filter: Filter{Kind: Space, Size: t.num}, chain: t.num, tokens: n + 1}, true
	}
	if s := x.spaceAfter(k + n); s > 0 {
		return noun{filter: Filter{Kind: Space, corner: x.cornerBefore(k + n + s)}, tokens: n + s}, true
	}
	if x.at(k+1).isAny("handle", "handles", "strap", "straps") {
		return noun{filter: Filter{Kind: Space}, tokens: 2}, true // "40 sc over each ch handle"
	}
	if x.at(k-1).isAny("each", "every", "both") && x.at(k-2).isAny("over", "under") && x.row != nil && x.row.Numbers.First.N > 1 {
		return noun{filter: Filter{Kind: Space}, tokens: 1}, true // over a chain is around all of it
	}
	if x.at(k+1).isAny("st", "sts", "stitch", "stitches") || x.at(k+1).isAny("mesh", "link") && x.at(k+2).is("from") {
		return noun{filter: Filter{Kind: ChainStitch}, tokens: 2}, true
	}
	if x.at(k+1).is("-") && x.at(k+2).isAny("st", "sts") {
		return noun{filter: Filter{Kind: ChainStitch}, tokens: 3}, true
	}
	return noun{filter: Filter{Kind: ChainStitch}, tokens: 1}, true
}

// sizedSpace reads "2-ch sp", "3 ch loop", "2ch sp" and the like.
func (x *rowReader) sizedSpace(k int) (noun, bool) {
	t := x.at(k)
	n := 1
	if x.at(k + n).is("-") {
		n++
	}
	if id, m := x.stitchAt(k + n); m > 0 && x.at(k+n+m).isAny("group", "groups", "shell", "shells", "cluster", "clusters", "fan", "grp") {
		// "3-dc group", "7-tr shell"
		return noun{filter: Filter{Kind: NamedGroup, Name: "group", Stitch: id}, tokens: n + m + 1}, true
	}
	if !x.at(k+n).isAny("ch", "chain", "chs", "chains") {
		return noun{}, false
	}
	n++
	if x.at(k + n).is("-") {
		n++
	}
	if s := x.spaceAfter(k + n); s > 0 {
		return noun{filter: Filter{Kind: Space, Size: t.num, corner: x.cornerBefore(k + n + s)}, tokens: n + s}, true
	}
	return noun{}, false
}

// severalBefore reports whether more than one stitch goes in the place that begins at a
// token: a number above one stands before its stitch.
func (x *rowReader) severalBefore(place int) bool {
	k := place - 1
	for k > max(0, place-4) && x.ts[k].kind == tWord && !x.ts[k].isAny("and", "then") {
		k--
	}
	return k >= 0 && x.ts[k].kind == tNum && x.ts[k].num > 1 && k < place-1
}

// place = [ preposition ] core { "and" [ preposition ] core } [ bound ] .
//
// It gives nil where no place is named. With each the second core of "in each
// sc and in each ch-1 sp" joins the first.
func (x *rowReader) place() []Target {
	start := x.p
	if t := x.peek(); t.kind == tPunct || t.kind == tEnd {
		return nil // which is met oftener than any place
	}
	t, more, ok := x.ordinalsFromHook()
	if !ok {
		t, ok = x.core(true)
	}
	if !ok {
		x.p = start
		if x.acceptIn(prepositions) && !x.loops() { // "sc in blo around"
			x.p = start
		}
		if b, ok := x.bound(); ok { // "sc across", "sc to last 2 sts"
			return []Target{{Span: b.Span, Which: Each, Bound: b, said: true}}
		}
		x.p = start
		return nil
	}
	out := []Target{t}
	if more > 0 {
		out = append(out, Target{Span: x.ts[x.p-1].span(), Which: Next, N: Num{N: more}, Of: t.Of, said: true})
	}
	for {
		save := x.p
		x.placeRemark(t.Which == FromHook)
		if x.placesListed(&out[len(out)-1]) {
			continue // "in each tr, ch-1 sp and cluster"
		}
		comma := x.accept(",")
		if end, ok := x.onToEnd(); ok && (t.Which == FromHook || t.Which == Nth) {
			out = append(out, end)
			break
		}
		if !x.accept("and", "&", "then", "+") && !(comma && x.peek().isAny("in", "into") && !x.makesThere()) && !x.slipsOverInto(start) {
			x.p = save
			break
		}
		if last := out[len(out)-1]; last.Which == Each && last.Bound.Kind == NoBound && x.peek().isAny("in", "into") && x.makesThere() {
			x.p = save
			break // "dc in each dc and in each corner sp work dc, ch 2, dc"
		}
		x.accept("then", "also", "of")
		if t := x.peek(); t.kind == tNum && t.num == 1 && x.at(1).isAny("in", "into") {
			if x.severalBefore(start) {
				x.p = save // "2 sc in the first st and 1 in each of the others": a step of its own
				break
			}
			x.p++ // "in next ch and one in each ch to the end"
		}
		last := &out[len(out)-1]
		if n, ok := x.nounAt(0); ok && last.Which == Each && last.N.N == 0 && last.Bound.Kind == NoBound && (n.filter.Kind == Space || n.filter.Kind == ChainStitch && !n.turn && len(last.Of) > 0 && last.Of[0].Kind != ChainStitch || n.filter.Kind == ChainStitch && len(last.Of) == 0) && n.chain == 0 {
			x.p += n.tokens // "in each st and ch-1 sp"
			last.Of = append(filters(*last), n.filter)
			last.Span.End = int(x.ts[x.p-1].end)
			continue
		}
		if n, ok := x.nounAt(0); ok && last.Which == Next && n.filter.Kind == Space && n.chain == 0 && x.at(n.tokens-1).kind == tWord {
			from := x.p
			x.p += n.tokens // "sl st in next 2 dc and ch-2 sp"
			out = append(out, Target{Span: x.spanFrom(from), Which: Next, N: Num{N: 1}, Of: []Filter{n.filter}, said: true, plain: true})
			continue
		}
		if x.otherSideBegins() {
			x.p = save
			break
		}
		t, ok := x.core(false)
		if !ok {
			if b, ok := x.bound(); ok && b.Kind != NoBound && (x.at(-1).kind == tWord) {
				out = append(out, Target{Span: b.Span, Which: Each, Bound: b, Of: out[len(out)-1].Of, said: true}) // "and all along the ch"
				continue
			}
			x.p = save
			break
		}
		if t.Which == Each && last.Which == Each && last.N.N == 0 && t.Bound.Kind == NoBound && last.Bound.Kind == NoBound &&
			(len(t.Of) > 0 && (t.Of[0].Kind == Space || t.Of[0].Kind == NamedGroup || t.Of[0].Kind == AnyCluster || t.Of[0].Kind == ChainStitch || t.Of[0].Kind == PicotPlace || differ(t.Of, last.Of) || !sameFilters(t.Of, filters(*last)) && last.Of != nil)) {
			last.Of = append(filters(*last), t.Of...)
			last.Span = cover(last.Span, t.Span)
			continue
		}
		if len(out) == 1 {
			countedOn(last, &t)
		}
		out = append(out, t)
	}
	last := &out[len(out)-1]
	if last.Which == Each {
		x.exceptions(last)
		x.phrase("counting|including", "[the]", "[top]", "[of]", "[the]", "[beg|turning|beginning]", "ch|chain|tch", "[-]")
		if x.at(-1).is("-") || x.at(-1).isAny("ch") && x.peek().kind == tNum {
			x.p++
		}
	}
	if b, ok := x.bound(); ok {
		last.Bound = b
		if (last.Which == Nth || last.Which == FromHook) && len(out) == 1 && x.ts[start].is("from") && b.Kind != ToPlace {
			// "sc from the 2nd ch to the end"
			out = append(out, Target{Span: b.Span, Which: Each, Bound: b, Of: last.Of, said: true})
			return out
		}
		if last.Which == Next && last.N.N <= 1 && !last.said {
			last.Which = Each
		}
		if last.Which == Next && b.Kind != NoBound && last.N.N <= 1 && b.Kind != ToEnd {
			last.Which = Each
		}
		last.Span = cover(last.Span, b.Span)
	}
	return out
}

// placesListed takes the other places of a list that "each" begins, "in each tr, ch-1 sp and
// cluster": at least two, of which the last has "and" before it.
func (x *rowReader) placesListed(t *Target) bool {
	if t.Which != Each || t.N.N > 0 || t.Bound.Kind != NoBound || len(t.Of) == 0 || !x.peek().is(",") {
		return false
	}
	of := filters(*t)
	for k := 0; ; {
		and := x.at(k).isAny("and", "&")
		if !and && !x.at(k).is(",") {
			return false
		}
		k++
		if !and && x.at(k).isAny("and", "&") {
			and = true
			k++
		}
		n, ok := x.nounAt(k)
		if !ok || n.turn || n.ring || n.edge || x.at(k).kind == tNum && n.filter.Kind != Space || len(of) > 6 {
			return false
		}
		if slices.Contains(of, n.filter) {
			return false // "in each dc, and dc, ch 2, dc in every corner sp" begins what the corners get
		}
		k += n.tokens
		of = append(of, n.filter)
		if !and {
			continue
		}
		if x.at(k).isAny("in", "into", "next", "twice", "times", "x") || x.at(k).kind == tNum || x.at(k).is(",") && x.at(k+1).isAny("ch", "chain") {
			return false // "..., ch 1 and dc in next", "..., and tr, ch 2, tr in each corner"
		}
		x.p += k
		t.Of = of
		t.Span.End = int(x.ts[x.p-1].end)
		return true
	}
}

// makesThere reports a place that begins a clause of its own, "in each sp around
// make (3 sc, picot, 3 sc)": what goes into it stands behind it.
func (x *rowReader) makesThere() bool {
	for k := 1; k < 9; k++ {
		switch t := x.at(k); {
		case t.isAny("make", "work"):
			return true
		case t.kind == tEnd, t.isMark(",.;()"):
			return false
		}
	}
	return false
}

// placeRemark passes over a remark between two places, and keeps what it says
// of the chains skipped: "in 4th ch from hook (counts as dc) and in each ch".
func (x *rowReader) placeRemark(hook bool) {
	save := x.p
	if !x.peek().isMark("([") {
		return
	}
	end := x.closer(0)
	if end < 0 || end-x.p > 30 || !(x.ts[end+1].isAny("and", "&") || x.ts[end+1].is(",") || hook) {
		return
	}
	x.p++
	x.accept("the", "first", "skipped", "missed", "these", "beginning", "beg", "last", "other")
	x.accept("skipped", "missed", "unworked", "other")
	if x.peek().kind == tNum {
		x.p++
	}
	x.accept("skipped", "missed", "unworked", "beginning")
	x.accept("ch", "chs", "chains", "chain")
	c := Counts{}
	if !x.readCounts(&c) {
		x.p = save
		return
	}
	c.Span = x.spanFrom(save)
	c.Space = max(0, c.Space)
	if hook {
		x.hookCounts = c
	}
	x.p = end + 1
}

func differ(a, b []Filter) bool {
	return len(a) > 0 && len(b) > 0 && a[0] != b[0] && a[0].Kind == OneStitch && b[0].Kind == OneStitch
}

func filters(t Target) []Filter {
	if len(t.Of) == 0 {
		return []Filter{{Kind: AnyStitch}}
	}
	return t.Of
}

// prepositions go before a place.
var prepositions = newWordSet("in into on over through thru inside under within onto from ino n")

// preposition takes "in", "into the", "through both loops of" and the like,
// and says whether there was one.
func (x *rowReader) preposition() bool {
	start := x.p
	if x.peek().isAny("all", "only") && x.at(1).isAny("in", "into", "through") {
		x.p++
	}
	if x.acceptIn(prepositions) {
		x.loops()
		x.accept("the", "a", "an", "to")
		x.loops()
		return true
	}
	if x.peek().isAny("across", "along") && x.stretchAhead() {
		x.p++
		x.accept("the")
		return true
	}
	if x.phraseAt(0, "at|to|on", "[each|every|all]", "[of]", "[the]", "[four|4|6|six|3|three]", "[outer]", "corner|corners") > 0 {
		x.p++
		x.accept("the")
		return true
	}
	if x.peek().isAny("at", "from") && x.at(1).isAny("front", "back") && x.at(2).isAny("round", "around", "of") {
		x.p += 2
	}
	if x.peek().isAny("around", "round", "about") {
		// "around next st" is a post; "around" alone is a bound.
		x.p++
		x.accept("the")
		if n := x.phraseAt(0, "post|posts|stem|stems|vertical|bar|leg|legs|shank|upright|pillar|base|body|stalk", "[bar|post]", "of", "[the]"); n > 0 {
			x.p += n
			return true
		}
		if x.phrase("front|back", "of", "[the]") {
			return true // "round front of next tr"
		}
		if x.peek().isAny("next", "each", "same", "following", "foll", "every", "front", "back", "first", "last", "post", "skipped", "missed", "rem", "remaining") || x.peek().kind == tOrd && !x.at(1).isAny("leg") {
			return true
		}
		if t := x.peek(); t.kind == tNum && !x.at(1).isAny("times", "time", "x") || x.rowThenNoun() {
			return true
		}
		if id, n := x.stitchAt(0); n > 0 && id != stitch.None {
			return true
		}
		if x.peek().isAny("ch", "chain") && x.nounFollows(0) && (x.at(-1).is("the") || x.at(1).is("-") && x.at(2).kind == tNum) {
			return true // "12 sc around the ch-12"
		}
	}
	x.p = start
	if x.loops() {
		if x.accept("of") {
			x.accept("the")
		}
		return true
	}
	return false
}

// stretchAhead reports whether "across" goes on to say over which stitches:
// "across first 6 sts", "across the next 10 (12) sts". Without them it runs to
// the end.
func (x *rowReader) stretchAhead() bool {
	k := 1
	if x.at(k).is("the") {
		k++
	}
	if t := x.at(k); t.isAny("next", "first", "last", "following", "rem", "remaining") || t.kind == tOrd && t.num == 1 {
		k++
	} else if x.at(k - 1).is("the") {
		return false
	}
	if t := x.at(k); t.kind != tNum || t.frac {
		return false
	}
	if _, n := x.sizesAhead(k + 1); n > 0 {
		k += n
	}
	n, ok := x.nounAt(k + 1)
	return ok && !n.ring && !n.edge && !x.at(k+1+n.tokens).isAny("sp", "each")
}

// loops takes "front loop only of", "BLO" and the like: where in the top of
// the stitch the hook goes, which changes no count.
func (x *rowReader) loops() bool {
	if !x.peek().opens(opensLoops) {
		return false
	}
	start := x.p
	x.phrase("the")
	ok := x.phrase("back|front|rear|both|unused|free|remaining|top|third|far|near", "[or]", "[back|front|2]", "loop|loops|lp|lps|bump|bumps|bar|ridge|horizontal", "[bar]", "[only]") ||
		x.phrase("blo|flo|bl|fl|tbl|tfl|blp|flp|bls|fls") ||
		x.phrase("horizontal", "bar") || x.phrase("b|f", "l", "[o]")
	if !ok && x.peek().kind == tOrd && x.at(1).isAny("loop", "lp", "loops") && x.at(1+1).isAny("of", "only") {
		x.p += 2
		ok = true
	}
	if !ok {
		x.p = start
		return false
	}
	x.accept("only")
	save := x.p
	if !x.phrase("of", "[the]") && !x.phrase("in|on", "[the]") {
		x.p = save
	} else if _, isNoun := x.nounAt(0); !isNoun && !x.startsCore() {
		x.p = save
	}
	return true
}

func (x *rowReader) startsCore() bool {
	t := x.peek()
	return t.kind == tOrd || t.kind == tNum || t.isAny("each", "next", "every", "all", "same", "last", "rem", "remaining", "following", "foll", "any", "ea", "these", "those")
}

// pointers point at a place.
var pointers = newWordSet("the that this these those your its very")

// eachWords are what "each" is written as.
var eachWords = newWordSet("each every ea all ev")

// nextWords are what "next" is written as.
var nextWords = newWordSet("next nxt following foll nex succeeding")

// core reads one place.
//
//	core = "each" [ "of" ] [ "next" [ number ] ] [ noun ] | "next" [ number ] [ noun ] | "same" noun
//	     | "first" [ number ] noun | "last" [ number ] noun | ordinal noun [ "from hook" ] | "ring"
//	     | "top of" noun | "centre" noun "of" noun | "between" ... | number noun | noun .
func (x *rowReader) core(first bool) (Target, bool) {
	start := x.p
	if x.peek().is("back") && x.at(1).isAny("in", "into") {
		// "dc back in the sc just before these 2 dc"
		x.p++
		x.preposition()
		x.accept("the", "same")
		if x.peek().kind == tOrd {
			x.p++
		}
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
			for !x.end() && !x.peek().isMark(",;.)*") {
				x.p++
			}
			return Target{Which: Same, said: true, Span: x.spanFrom(start)}, true
		}
		x.p = start
	}
	if t, ok := x.otherPart(); ok {
		return t, true
	}
	t := Target{said: true}
	if x.phrase("at|in|into", "its|the", "base|foot") && x.restEnds() {
		t.Which, t.Span = Same, x.spanFrom(start) // "ch 3, 1 dc at its base"
		return t, true
	}
	x.p = start
	x.behindPetals()
	prep := x.preposition()
	done := func(ok bool) (Target, bool) {
		if !ok {
			x.p = start
			return Target{}, false
		}
		x.qualify(&t)
		t.Span = x.spanFrom(start)
		return t, true
	}
	x.acceptIn(pointers)
	if prep && x.rowThenNoun() {
		return done(x.rowsNoun(&t))
	}
	if prep {
		if t, ok := x.corresponding(start); ok {
			return t, true
		}
		x.adjectives()
	}
	w := x.peek()
	switch {
	case w.isAny("end") && prep && x.nounFollows(1) && !x.at(1).isAny("of"):
		x.p++
		t.Which = Last
		return done(x.counted(&t, true))
	case w.isAny("end") && prep && (x.end1() || x.at(1).isMark(",;.)]")):
		x.p++
		t.Which, t.N = Last, Num{N: 1}
		return done(true)
	case w.isAny("other", "others") && prep:
		x.p++
		t.Which = Next
		if w.is("others") {
			t.Which, t.Bound = Each, Bound{Kind: ToEnd}
			return done(true)
		}
		if x.peek().kind != tNum && (x.end() || plural(x.peek())) {
			t.Which = Each
		}
		return done(x.counted(&t, true))
	case w.kind == tNum && prep && x.at(1).isAny("unworked", "free", "unused"):
		t.Which = Unworked
		t.N, _ = x.number()
		x.p++
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
		}
		return done(true)
	case w.is("all") && (x.at(1).isAny("around", "round", "across", "along") || x.at(1).is("the") && x.at(2).is("way")):
		t.Which = Each
		b, ok := x.bound()
		t.Bound = b
		return done(ok)
	case w.in(eachWords), w.is("per") && x.nounFollows(1) && !plural(x.at(1)):
		return done(x.each(&t)) // "2 hdc per stitch"
	case w.in(nextWords):
		x.p++
		t.Which = Next
		return done(x.counted(&t, true))
	case w.isAny("ch", "chain", "st", "stitch") && prep && (x.at(1).is("first") && x.at(2).isAny("worked") || x.at(1).isAny("that", "which") && x.at(2).isAny("holds", "has")):
		for !x.end() && !x.peek().isMark(",;.)*(") {
			x.p++
		}
		t.Which = Same
		return done(true)
	case w.isAny("same"):
		x.p++
		t.Which = Same
		x.accept("first", "last", "base")
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
			x.fill(&t, n)
			if t.Which == TurnTop || t.Which == InRing {
				t.Which = Same
			}
		} else {
			x.accept("place", "spot", "one")
		}
		t.Which = Same
		return done(true)
	case w.isAny("last", "final"):
		x.p++
		t.Which = Last
		return done(x.counted(&t, prep))
	case w.kind == tOrd:
		return done(x.ordinal(&t, prep))
	case w.isAny("top") && x.at(1).is("of") && (x.at(2).is("same") || x.at(2).is("the") && x.at(3).is("same")) && x.nounFollows(3):
		x.p += 3
		x.accept("same")
		x.nounDrop()
		t.Which = Same
		return done(true)
	case w.isAny("top"), w.isAny("tip"):
		x.p++
		if !x.phrase("of", "[the]", "[same]") {
			x.phrase("[loop|lp|ch|chain]", "of", "[the]")
		}
		return done(x.topOf(&t))
	case w.isAny("base", "bottom"):
		if prep && (x.end1() || x.at(1).isMark(",;.)*")) {
			x.p++
			t.Which = Same
			return done(true)
		}
		x.p++
		x.phrase("of", "[the]", "[same|first|beg|beginning|starting|turning]")
		if x.at(-1).isAny("of", "the") && x.peek().kind == tNum && x.at(1).isAny("ch", "chain", "chains") {
			x.p++ // "base of 3 ch"
		}
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
		}
		t.Which = Same
		return done(true)
	case x.spineNamed():
		t.Which, t.N, t.Of = Centre, Num{N: 1}, []Filter{{Kind: Space, Name: spine}}
		return done(true)
	case w.isAny("center", "centre", "middle", "mid", "central"):
		x.p++
		return done(x.centre(&t))
	case w.isAny("any"):
		x.p++
		x.accept("of", "the")
		t.Which = Anywhere
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
			x.fill(&t, n)
			t.Which = Anywhere
			return done(true)
		}
		return done(false)
	case w.isAny("between", "bet", "betw", "btw"):
		x.p++
		t.Which = Between
		if x.eachGap(&t) {
			return done(true)
		}
		x.accept("the", "each", "of")
		x.accept("next", "any")
		if x.peek().kind == tNum {
			x.accept("two")
		}
		return done(x.counted(&t, true))
	case w.isAny("skipped", "missed", "skip", "unworked", "unused"):
		if w.text == "skip" && !prep {
			return done(false)
		}
		x.p++
		t.Which = SkippedOne
		if w.isAny("unworked", "unused") {
			t.Which = Unworked
		}
		return done(x.counted(&t, true))
	case w.isAny("rem", "remaining", "rest", "remainder"):
		x.p++
		x.phrase("of", "[the]")
		t.Which = Each
		t.Bound = Bound{Kind: ToEnd}
		return done(x.counted(&t, prep))
	case w.isAny("one", "ones", "st", "stitch", "sts") && x.skippedBehind() > 0:
		x.p += x.skippedBehind()
		t.Which = SkippedOne // "in the one you missed"
		t.N = Num{N: 1}
		if w.isAny("ones", "sts") {
			t.Which, t.N = Unworked, Num{}
		}
		return done(true)
	case w.isAny("where") && x.at(1).isAny("joined", "you", "the"), w.isAny("there") && !prep && !x.at(1).in(countTalk):
		for !x.end() && !x.peek().isMark(",;.)*(") {
			x.p++
		}
		t.Which = Same
		return done(true)
	case prep && w.isAny("it", "them", "this", "that", "there", "one") && !x.oneNoun():
		x.p++
		t.Which = Same
		t.plain = w.isAny("it")
		if l := x.lastStep; l != nil && (l.Times.Bound.Kind == ToLast || l.Target.Bound.Kind == ToLast) && w.isAny("it", "that", "one", "them", "there") {
			t.Which, t.N = Next, Num{N: 1} // "until 1 dc is left, dc in it"
			b := l.Times.Bound
			if b.Kind != ToLast {
				b = l.Target.Bound
			}
			t.N = b.N
			if len(b.Of) > 0 && b.Of[0].Kind == Space {
				t.Of = b.Of // "until you reach the last gap, 2 tr in there"
			}
			return done(true)
		}
		if l := x.lastStep; l != nil && l.Target.Bound.Kind == ToPlace && w.isAny("it", "that", "there", "this") {
			t.Which, t.N, t.Of = Next, Num{N: 1}, l.Target.Bound.Of // "tr to next corner sp, 3 tr in it"
			if l.Target.Bound.centre {
				t.Which = Centre
			}
			return done(true)
		}
		if w.isAny("one") {
			t.Which = Next
			x.phrase("[right]", "after|following|beyond", "[it|that]")
		}
		return done(true)
	case w.isAny("joining", "join") && prep && (x.at(1).separator() || x.at(1).kind == tEnd):
		x.p++ // "sc in joining": where the round before was closed
		t.Which = Same
		return done(true)
	case w.isAny("marked") && prep:
		x.p++
		t.Which = Next
		return done(x.counted(&t, true))
	case w.kind == tNum && prep && x.at(1).isAny("ch", "chain") && x.at(-1).is("the") && x.at(-2).isAny("under", "over"):
		t.Which, t.N, t.plain = Next, Num{N: 1}, true
		t.Of = []Filter{{Kind: Space, Size: w.num}}
		x.p += 2
		return done(true)
	case w.kind == tNum && prep:
		if n, ok := x.sizedSpace(0); ok {
			x.p += n.tokens
			t.Which = Next
			t.N.N = 1
			x.fill(&t, n)
			t.plain = t.Which == Next
			return done(true)
		}
		t.Which = Next
		return done(x.counted(&t, false))
	case w.kind == tNum && !first:
		// "and 2 sts": only where a noun follows
		if _, ok := x.nounAt(1); ok && !x.at(2).isAny("in") {
			if _, n := x.stitchAt(1); n == 0 {
				t.Which = Next
				return done(x.counted(&t, false))
			}
		}
		return done(false)
	case prep:
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
			t.Which = Next
			t.N.N = 1
			x.fill(&t, n)
			t.plain = t.Which == Next
			if plural(&x.ts[x.p-1]) {
				t.Which = Each
				t.N.N = 0
			}
			return done(true)
		}
	}
	return done(false)
}

func plural(t *token) bool {
	switch t.text {
	case "sts", "stitches", "chs", "chains", "sps", "spaces", "loops", "lps", "shells", "meshes", "corners", "gaps", "arches":
		return true
	}
	return false
}

// partWords are what a piece or a part of one is called, where it has no other name.
var partWords = newWordSet("leg legs arm arms fluke flukes lobe lobes horn horns pincer prong hump piece pieces part half cup motif wing ear fin tube thumb toe finger claw tentacle foot")

// partPlaces may go before a part of the work.
var partPlaces = newWordSet("in into around round on along across over all from")

// whichPart tell one part of the work from the others.
var whichPart = newWordSet("other next left right last same previous remaining")

// otherPart reads "around the first leg", "of second leg", "in the chs", "on
// the other side of the chs": work that goes round several parts at once.
func (x *rowReader) otherPart() (Target, bool) {
	if !x.peek().opens(opensPart) {
		return Target{}, false
	}
	start := x.p
	t := Target{said: true, N: Num{N: 1}}
	x.acceptIn(partPlaces)
	prep := x.p > start
	x.accept("around", "in")
	x.phrase("each|every", "[of]", "[the]")
	if x.peek().kind == tNum && !x.peek().frac {
		t.N, _ = x.number()
		x.nounDrop()
		x.accept("of", "from", "around", "on")
	}
	named := x.onePart()
	if !named {
		x.accept("the")
	}
	ok := false
	switch {
	case named:
		ok = true
	case x.phrase("other|opposite|back|second", "side", "of", "[each|the]", "[of]", "[the]"):
		if x.peek().kind == tNum {
			t.N, _ = x.number()
		}
		ok = x.accept("ch", "chs", "chain", "chains") && (prep || t.N.N > 1)
		if ok && (x.peek().isMark(",;") || x.end() || true) && x.ts[start].isAny("along", "across") {
			ok = false // the other side of the foundation is a place of its own
		}
	}
	if !ok || !prep {
		x.p = start
		return Target{}, false
	}
	t.Which = Next
	t.Span = x.spanFrom(start)
	t.Row = &RowRef{Piece: "\x00", Span: t.Span}
	return t, true
}

// otherPart2 reads "the first leg" after "join to".
func (x *rowReader) otherPart2() (Target, bool) {
	start := x.p
	if x.onePart() {
		sp := x.spanFrom(start)
		return Target{Which: Next, N: Num{N: 1}, said: true, Span: sp, Row: &RowRef{Piece: "\x00", Span: sp}}, true
	}
	x.p = start
	return Target{}, false
}

// otherSideBegins reports "on the other side of the chain 10 d c" behind a place: what is
// worked there is told next, and it is no further place of what came before.
func (x *rowReader) otherSideBegins() bool {
	k := x.phraseAt(0, "on|along|down|up|over|across", "[the]", "other|opposite|second", "side|edge", "[of]", "[the|your]", "[foundation|starting|base]", "[ch|chain|loop]")
	if k <= 0 {
		return false
	}
	for x.at(k).isAny("work", "make", ",") {
		k++
	}
	return x.at(k).kind == tNum || x.stitchFollows(k)
}

// onToEnd is all that follows the first chain, "dc in the 4th ch and on to the end".
func (x *rowReader) onToEnd() (Target, bool) {
	start := x.p
	if !x.phrase("and|&|then", "[so|right]", "on|onwards|onward", "to|till|until", "[the]", "[very]", "end", "[of]", "[the]", "[row|chain|ch]") {
		return Target{}, false
	}
	sp := x.spanFrom(start)
	return Target{Which: Each, Bound: Bound{Kind: ToEnd, Span: sp}, said: true, Span: sp}, true
}

// ofTheChain passes over the foundation named once more behind a place counted from the
// hook: "in the 2nd ch from hook of your 15 chs".
func (x *rowReader) ofTheChain() {
	start := x.p
	if x.phrase("of|in", "the|your|this|that", "[foundation|starting|base]") {
		if t := x.peek(); t.kind == tNum && !t.frac {
			x.p++
		}
		if x.accept("ch", "chs", "chain", "chains") {
			return
		}
	}
	x.p = start
}

// adjectiveInBracket passes over what tells in a bracket which stitch is meant, before
// its name: "in next (centre corner) sc".
func (x *rowReader) adjectiveInBracket() {
	if !x.peek().isMark("([") {
		return
	}
	if end := x.closer(0) - x.p; end > 1 && end < 6 && x.wordsOnly(1, end) && x.nounFollows(end+1) && x.at(end+1).kind == tWord {
		x.p += end + 1
	}
}

// each reads what follows "each".
func (x *rowReader) each(t *Target) bool {
	x.p++
	t.Which = Each
	if _, sized := x.sizedSpace(0); x.peek().is("one") && !sized && !x.nounFollows(1) {
		x.p++
		if n := x.phraseAt(0, "of", "[the|those|these|your]"); n > 0 && (x.at(n).kind == tNum && !x.at(n).frac || x.nounFollows(n)) {
			x.p++ // "in every one of those 24", "in each one of the sts"
			x.accept("the", "those", "these", "your")
			if x.peek().kind == tNum {
				t.Which = Next
			}
			return x.counted(t, true)
		}
		return true // "2 hdc in each one"
	}
	start := x.p
	if x.phrase("[one|ch|chain|st|stitch]", "after|afterwards|thereafter|following", "[that|it]") && (x.end() || x.peek().separator() || x.peek().isMark("([*)")) && !x.at(-1).is("following") {
		t.Bound = Bound{Kind: ToEnd} // "sc in 2nd ch from hook and in each one after"
		return true
	}
	x.p = start
	x.phrase("of")
	if x.lastLeft(t) {
		return true
	}
	x.phrase("and", "every")
	x.accept("the", "these", "those")
	if x.accept("rest", "others", "remainder") {
		t.Bound = Bound{Kind: ToEnd}
		x.phrase("of", "[the]")
		x.counted(t, true)
		t.Which = Each
		return true
	}
	if x.accept("next", "following", "foll", "nxt") {
		t.Which = Next
		if all := x.at(-2).is("all") || x.at(-2).is("the") && x.at(-3).is("all"); x.at(-1).isAny("following", "foll") && x.peek().kind != tNum && (x.at(-2).isAny("every", "each") || x.at(-2).is("the") && x.at(-3).is("of") || all) {
			ok := x.counted(t, true) // "in every following ch": all of them
			t.Which, t.N = Each, Num{}
			return ok
		}
		return x.counted(t, true)
	}
	if x.peek().kind == tNum && x.at(1).isAny("ch", "chain") && x.at(-1).isAny("each", "every") && !x.at(2).isAny("sp", "-", "loop", "space") {
		t.Of = []Filter{{Kind: Space, Size: x.peek().num}} // "under each 5 chain"
		x.p += 2
		return true
	}
	if x.accept("rem", "remaining", "other", "unworked", "single", "individual", "further") {
		t.Bound = Bound{Kind: ToEnd}
		if x.peek().is("one") && !x.nounFollows(1) {
			x.p++
			return true // "1 sc in every further one"
		}
		if _, sized := x.sizedSpace(0); x.peek().kind == tNum && !sized {
			t.Which = Next
		}
		return x.counted(t, true)
	}
	if x.accept("last") {
		t.Which = Last
		return x.counted(t, true)
	}
	if w := x.peek(); w.kind == tOrd && x.at(1).kind == tNum || w.is("first") {
		x.p++
		t.Which = Next // "each of 1st 4 d c"
		return x.counted(t, true)
	}
	if x.peek().kind == tNum {
		if n, ok := x.sizedSpace(0); ok {
			x.p += n.tokens
			x.fill(t, n)
			t.Which = Each
			return true
		}
		if (x.end1() || x.at(1).head) && x.at(-1).is("all") && !x.at(-2).isAny("in", "into", "of", "the") {
			return true // "inc all 12": twelve is what it comes to
		}
		t.Which = Next
		return x.counted(t, false)
	}
	if x.peek().isAny("side", "end") && !x.nounFollows(0) {
		return false
	}
	if x.accept("corner") {
		t.Of = []Filter{{Kind: Space, Name: "corner"}}
		if n, ok := x.nounAt(0); ok {
			x.p += n.tokens
			n.filter.corner = n.filter.Kind == Space
			x.fill(t, n)
			t.Which = Each
			if n.filter.Kind == AnyStitch || n.filter.Kind == OneStitch {
				t.Which, t.N, t.Bound = Centre, Num{N: 1}, Bound{Kind: ToEnd} // "each corner sc": the middle one of what was worked there
			}
		}
		return true
	}
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
		x.fill(t, n)
		if !n.edge && !n.ring {
			t.Which = Each
		}
		return true
	}
	if x.leavesOut() {
		return true // "all but the last st"
	}
	// "in each across"
	return x.peek().isAny("around", "across", "to", ",", ".", ";", "round", "along", "|", "/", "~", "-", "=", "(", "[", "{", "<", ":", ")", "]", "}") || x.end()
}

// lastLeft takes "them" for the stitches that the step before stopped short of: "until you
// come to the last 4 sts, sc in each of them".
func (x *rowReader) lastLeft(t *Target) bool {
	l := x.lastStep
	if l == nil || !x.peek().isAny("them", "those", "these") || !x.end1() && !x.at(1).separator() && !x.at(1).isMark("([)]*") {
		return false
	}
	b := l.Times.Bound
	if b.Kind != ToLast {
		b = l.Target.Bound
	}
	if b.Kind != ToLast || b.N.N < 2 {
		return false
	}
	x.p++
	t.Which, t.N, t.Of = Next, b.N, b.Of
	return true
}

// leftWords say of stitches that they were left, or stand side by side.
var leftWords = newWordSet("rem remaining consecutive skipped missed free unworked adjacent underarm")

// counted reads an optional number and an optional noun.
func (x *rowReader) counted(t *Target, nounOptional bool) bool {
	x.accept("of")
	n, sized := x.sizedSpace(0)
	if !sized && x.peek().kind == tNum && !x.rowsDown() {
		num, ok := x.number()
		if !ok {
			return false
		}
		t.N = num
		nounOptional = true
	} else if t.Which == Next || t.Which == Last || t.Which == SkippedOne || t.Which == Unworked || t.Which == Between {
		t.N = Num{N: 1}
		if t.Which == Unworked {
			t.N.N = 0
		}
	}
	defer x.gloss()
	if x.peek().isAny("skipped", "missed") && t.Which == Next && t.N.N > 0 && t.said && x.skippedHere() {
		t.Which = SkippedOne // "in each of the 3 skipped sts"
	}
	if x.acceptIn(leftWords) && x.at(-1).isAny("rem", "remaining") && t.Which == Next && t.N.N > 1 && t.Bound.Kind == NoBound && (x.at(-3).is("the") && x.at(-5).isAny("each", "all") || x.at(-3).is("all")) {
		t.Bound = Bound{Kind: ToEnd} // "each of the 11 remaining": they are all there are
	}
	if t.N.N > 0 && t.Which == Next && x.peek().isAny("more", "further", "other", "others", "additional") && x.nounFollows(1) {
		x.p++ // "in 2nd ch from hook and in 7 more ch"
	}
	if t.N.N > 1 && t.Which == Next && x.peek().in(middleWords) && x.nounFollows(1) {
		x.p++ // "miss the 7 centre d.c.": those that the sides leave between them
	}
	x.adjectives()
	x.loops()
	x.accept("of")
	x.adjectiveInBracket()
	if !sized {
		var ok bool
		if n, ok = x.nounAt(0); !ok {
			if t.N.N > 0 && x.accept("places", "ones", "of", "place", "one") {
				return true
			}
			return nounOptional
		}
	}
	x.p += n.tokens
	which := t.Which
	x.fill(t, n)
	if which != Next {
		t.Which = which
	}
	return true
}

// fill sets what a noun says.
func (x *rowReader) fill(t *Target, n noun) {
	switch {
	case n.turn:
		t.Which = TurnTop
	case n.ring:
		t.Which = InRing
	case n.edge:
		t.Which = RowEnds
	case n.marked:
	case n.chain > 0:
		t.Of = []Filter{n.filter}
	case n.filter.Kind == AnyStitch:
		t.Of = nil
		return
	default:
		t.Of = []Filter{n.filter}
	}
}

// oneNoun reports "one s c" with nothing after it.
func (x *rowReader) oneNoun() bool {
	if !x.peek().is("one") {
		return false
	}
	n, ok := x.nounAt(1)
	if !ok || n.tokens == 0 {
		return false
	}
	after := x.at(1 + n.tokens)
	return after.kind == tEnd || after.isAny(",", ";", ".", ")", "]", "*", "and")
}

// skippedBehind is the length of "one you skipped", "st just missed"; 0 where
// nothing of the kind stands here.
func (x *rowReader) skippedBehind() int {
	if !x.skippedHere() {
		return 0
	}
	return max(0, x.phraseAt(0, "one|ones|st|stitch|sts|stitches", "[that|which]", "[you|we|i|was|were|is|are]", "[have|had|just]", "[just]", "skipped|missed|passed|jumped", "[over|before|earlier]"))
}

// skippedHere reports whether the row itself has said what to skip: those that
// another row left are not its own.
func (x *rowReader) skippedHere() bool {
	for i := range x.ts[:max(x.p-1, 0)] {
		if x.ts[i].isAny("skip", "sk", "skipping", "miss", "missing") {
			return true
		}
	}
	return false
}

// ordinal reads "2nd ch from hook", "3rd st", "first 3 sts".
func (x *rowReader) ordinal(t *Target, prep bool) bool {
	o := x.peek()
	// "second half", "first leg", "2nd row": no place
	x.p++
	if sizes, ok := x.sizesOf(o.num, tOrd); ok {
		t.Which = Nth
		t.N = Num{N: o.num, Sizes: sizes, Span: Span{int(o.start), int(x.at(-1).end)}}
	} else if o.num == 1 {
		t.Which = First
		t.N = Num{N: 1}
		if x.peek().kind == tNum {
			if n, ok := x.sizedSpace(0); ok {
				x.p += n.tokens
				x.fill(t, n)
				t.Which = First
				return true
			}
			t.N, _ = x.number()
		}
	} else {
		t.Which = Nth
		t.N = Num{N: o.num, Span: o.span()}
	}
	if !x.peek().is("and") || x.at(1).kind != tNum || t.Which != First { // "2 sc in first and 1 sc in each of next 4"
		x.accept("and", "only", "following")
	}
	x.adjectives()
	n, ok := x.nounAt(0)
	switch {
	case ok:
		x.p += n.tokens
		which := t.Which
		x.fill(t, n)
		t.Which = which
		if n.turn {
			t.Which = TurnTop
			return true
		}
		if n.ring {
			t.Which = InRing
			return true
		}
		if n.chain > 0 && which == Nth && x.at(0).isAny("of") {
			t.Of = []Filter{{Kind: ChainStitch}}
		}
	case prep && (x.peek().isAny("of", "from", "fr", "and", ")", "]", "*") || x.endsClause()), prep && x.end():
	default:
		return false
	}
	if x.phrase("from|off|fr|on", "[the|your]", "hook|hk|needle") || x.phrase("from", "end") {
		x.ofTheChain()
		t.Which = FromHook
		t.Of = []Filter{{Kind: ChainStitch}}
		t.N = Num{N: o.num, Span: o.span()}
	}
	return true
}

// topOf reads what follows "top of".
func (x *rowReader) topOf(t *Target) bool {
	switch w := x.peek(); {
	case w.isAny("each", "every", "all"):
		return x.each(t) // "in top of each puff"
	case w.isAny("next", "following") && x.at(1).kind == tNum && !x.nounFollows(1):
		x.p++
		t.Which = Next
		return x.counted(t, true)
	case w.isAny("center", "centre", "middle"):
		x.p++
		return x.centre(t)
	case w.kind == tOrd && w.num > 1:
		if n, ok := x.nounAt(1); ok && n.filter.Kind != ChainStitch && n.chain == 0 && !n.turn {
			return x.ordinal(t, true)
		}
	}
	if x.peek().is("it") && x.lastStep != nil { // "to the tch, dc in top of it"
		x.p++
		t.Which = TurnTop
		return true
	}
	same := x.peek().is("same")
	opening := x.peek().kind == tOrd && x.peek().num == 1 || x.peek().is("first")
	x.accept("the", "same", "first", "last", "that", "next", "previous", "prev")
	if x.peek().kind == tOrd {
		x.p++
	}
	n, ok := x.nounAt(0)
	if ok && same && !n.turn && n.filter.Kind != ChainStitch {
		x.p += n.tokens
		t.Which = Same
		return true
	}
	if !ok {
		if x.accept("one") { // "the top of the first one"
			t.Which, t.N = First, Num{N: 1}
			return true
		}
		if n := x.chainsCounted(0); n > 0 { // "top of 3 ch", "top of 3-ch"
			x.p += n
			t.Which = TurnTop
			return true
		}
		return false
	}
	x.p += n.tokens
	x.fill(t, n)
	if n.turn || n.chain > 0 || n.filter.Kind == ChainStitch {
		t.Which = TurnTop
		t.Of = nil
		return true
	}
	t.Which = Next
	if opening {
		t.Which = First
	}
	t.N = Num{N: 1}
	return true
}

// chainsCounted is the length of "3 ch", "3-ch": so many chains spoken of as
// one thing; 0 where none stand at the k-th token.
func (x *rowReader) chainsCounted(k int) int {
	if t := x.at(k); t.kind != tNum || t.frac {
		return 0
	}
	n := 1
	if x.at(k + n).is("-") {
		n++
	}
	if !x.at(k+n).isAny("ch", "chain", "chains", "chs") {
		return 0
	}
	return n + 1
}

// centre reads what follows "centre": "dc of next shell", "st of each group".
func (x *rowReader) centre(t *Target) bool {
	t.Which = Centre
	t.N = Num{N: 1}
	x.accept("-")
	if x.peek().kind == tNum {
		t.N, _ = x.number()
	}
	n, ok := x.nounAt(0)
	if ok {
		x.p += n.tokens
		if !n.turn && !n.ring && !n.edge {
			t.Of = []Filter{n.filter}
		}
	}
	if all, grouped := x.ofGroup(); grouped {
		if all {
			t.Bound = Bound{Kind: ToEnd}
		}
		return true
	}
	if !ok && !x.peek().isAny("of") {
		return false
	}
	if !ok {
		// "to centre of next loop": the loop itself
		save := x.p
		x.p++
		x.accept("the", "same", "corner", "each")
		x.accept("next", "following", "last", "beg")
		if x.peek().kind == tOrd {
			x.p++
		}
		if n, ok := x.nounAt(0); ok && n.filter.Kind == Space && !n.turn && !n.ring {
			x.p += n.tokens
			t.Which, t.Of = Next, []Filter{n.filter}
			return true
		}
		x.p = save
	}
	return true
}

// attaches takes "of the first wing to attach it to the body": the row is
// worked through that piece as well, and takes its own places.
func (x *rowReader) attaches() bool {
	save := x.p
	if x.phrase("of|on", "the") {
		for k := 0; k < 5 && x.peek().kind != tEnd && x.peek().kind != tPunct; k++ {
			if x.phrase("to", "attach|join") {
				x.toClauseEnd()
				return true
			}
			x.p++
		}
	}
	x.p = save
	return false
}

// qualify reads what may follow a noun and narrows it.
func (x *rowReader) qualify(t *Target) {
	for x.peek().opens(opensQuality) {
		switch {
		case x.attaches():
			return
		case x.ofOtherMotif(t):
		case x.leftIn(t):
		case x.whichIs():
		case x.phrase("from|off|fr", "[the|your]", "hook|hk"):
			t.Which = FromHook
			x.ofTheChain()
		case x.phrase("as", "[the]", "s", "[.]", "s"):
			t.Which = Same
		case x.phrase("as", "[the]", "first|beg|last|previous", "two|three|four|2|3|4|one"), x.asFirst(), x.phrase("as", "[the]", "ss|slst|join|joining|joined|sl|slip|last|first|previous|prev|beg|base|before|tch|turning|ch", "[sl|slip|st]", "[st|stitch|sc|dc|hdc|ch|chain]", "[was]", "[made]"):
			if t.Which != Same {
				t.Which = Same
			}
		case x.phrase("below", "[the]", "next", "st|stitch|sc|dc"), x.phrase("that|which", "follow|follows|is|are|remain|remains", "[still]", "[left]", "[over]"), x.phrase("after", "it|that|this|them"), x.phrase("there", "is|are"),
			(t.Which == Each || t.Which == Next) && (x.end1() || x.at(1).separator() || x.at(1).isMark("([")) && x.phrase("after|left|remaining|afterwards"):
			if t.Which == Next && t.N.N > 1 && x.at(-1).is("remaining") && t.Bound.Kind == NoBound {
				t.Bound = Bound{Kind: ToEnd} // "each of the 11 sts remaining"
			}
		case x.phrase("first|last|just", "made|worked"), x.phrase("below"), x.justMade(t), x.phrase("made"):
		case x.phrase("at", "[the]", "base|foot|bottom", "of", "these|those|this|the|your", "[turning|beg|beginning]", "[3|2|4]", "ch|chs|chain|chains"), x.phrase("at", "[the]", "base|foot|bottom", "of", "[the]", "[beg|beginning|turning|same]", "ch|tch|chain", "[-]"):
			if !x.worked && t.Which == Next && t.N.N <= 1 {
				t.Which, t.foot = First, true // it stands beside the chain: one more
			}
			if x.peek().kind == tNum && x.at(-1).isAny("ch", "-", "chain") {
				x.p++
			}
		case x.phrase("of", "[the]", "previous|prev|preceding|last", "row|rnd|round|r"), x.phrase("on", "[the]", "previous|prev|preceding|last", "row|rnd|round"),
			x.phrase("from", "[the]", "previous|prev|preceding|last", "row|rnd|round"), x.phrase("in", "[the]", "previous|prev|preceding|last", "row|rnd|round"),
			x.phrase("of", "[the]", "row|rnd|round", "below|before"):
			if x.peek().is("below") {
				x.p++
			}
		case x.besidePiece(t):
		case len(t.Of) > 0 && t.Of[0].Kind == Space && x.betweenCorners():
			t.Of = []Filter{{Kind: Space, Size: t.Of[0].Size, Name: sideSpace}}
		case len(t.Of) > 0 && t.Of[0].Kind == Space && x.betweenThings():
			t.Of = []Filter{{Kind: Space, Name: "gap"}}
		case len(t.Of) == 1 && t.Of[0].Kind == OneStitch && x.phrase("between|bet", "[each|the|next|two|2]", "[2]", "groups|shells|clusters|fans|petals"):
			f := t.Of[0]
			f.Name = "single"
			t.Of = []Filter{f}
		case x.rowOf(t):
		case t.Row != nil && x.behindPetals():
		case x.partOf(t):
		case x.alongSides(t):
		case x.onSide(t):
		case x.phrase("at", "[the]", "[beg|beginning|end]", "of", "[the]", "[last|previous|prev|this]", "row|rnd|round"),
			x.phrase("at", "beg|beginning|start"):
		case x.phrase("(", "mark|marked", "[this]", "[st|stitch]", ")"):
		default:
			return
		}
	}
}

// rowOf reads "of Row 9 [of Body]", "on Rnd 3", "2 rows below".
func (x *rowReader) rowOf(t *Target) bool {
	start := x.p
	if x.accept("of", "on", "from", "in", "along") {
		x.accept("the")
		if n, ok := x.rowName(); ok {
			ref := &RowRef{Number: int(n.N), Sizes: n.Sizes, Span: x.spanFrom(start)}
			if t.Row != nil {
				ref.After = t.Row.After
			}
			save := x.p
			if x.accept("of", "on") {
				x.accept("the")
				if name := x.pieceName(); name != "" {
					ref.Piece = name
				} else {
					x.p = save
				}
			}
			ref.Span = x.spanFrom(start)
			t.Row = ref
			return true
		}
		// "of first leg", "of Body": another piece
		if name := x.pieceName(); name != "" {
			t.Row = &RowRef{Piece: name, Span: x.spanFrom(start)}
			return true
		}
	}
	x.p = start
	if x.rowsDown() {
		x.p += 3
		t.dropped = true
		return true
	}
	return false
}

// rowsDown reports whether "2 rows below" stands here: so far down the place lies.
func (x *rowReader) rowsDown() bool {
	return x.peek().kind == tNum && x.at(1).isAny("rows", "row", "rnds", "rounds", "rnd") && x.at(2).isAny("below", "down", "before", "lower", "beneath")
}

// betweenThings reads "between groups", "between dc" after "in each space".
func (x *rowReader) betweenThings() bool {
	save := x.p
	if !x.accept("between", "bet", "betw") {
		return false
	}
	x.accept("each", "the", "next", "two", "any")
	if x.peek().kind == tNum {
		x.p++
	}
	if x.accept("them", "those") {
		return true
	}
	if n, ok := x.nounAt(0); ok {
		x.p += n.tokens
		return true
	}
	if x.at(-1).isAny("between", "bet", "betw") && (x.end() || x.peek().separator()) {
		return true // "in each space between, 3 dc"
	}
	x.p = save
	return false
}

// asFirst reads "as first 2 sc": the place of the stitches that began.
func (x *rowReader) asFirst() bool {
	save := x.p
	if x.accept("as", "with") {
		x.accept("the")
		if o := x.peek(); o.kind == tOrd || o.isAny("last", "beg", "previous") {
			x.p++
			if x.peek().kind == tNum {
				x.p++
			}
			if n, ok := x.nounAt(0); ok {
				x.p += n.tokens
				return true
			}
		}
	}
	x.p = save
	return false
}

// besidePiece reads "from first fin", "after Left Tie": along the row that
// another piece sits on.
func (x *rowReader) besidePiece(t *Target) bool {
	start := x.p
	if !x.accept("from", "after", "beyond", "past", "beside") {
		return false
	}
	x.accept("the", "edge", "end", "last", "side")
	x.accept("of")
	x.accept("the", "last", "previous")
	if name := x.pieceName(); name != "" {
		t.Row = &RowRef{After: name, Span: x.spanFrom(start)}
		return true
	}
	x.p = start
	return false
}

// rowName reads "Row 9", "9th rnd", "Rnd. 3".
func (x *rowReader) rowName() (Num, bool) {
	if isRowWord(x.peek()) {
		k := 1
		if x.at(k).is(".") {
			k++
		}
		if n := x.at(k); n.kind == tNum && !n.frac {
			x.p += k
			return x.number()
		}
	}
	if o := x.peek(); o.kind == tOrd && isRowWord(x.at(1)) {
		x.p += 2
		return Num{N: o.num, Span: o.span()}, true
	}
	return Num{}, false
}

// rowWords are what a row or a round is called.
var rowWords = newWordSet("row rows rnd rnds round rounds r rd rds rw rws")

func isRowWord(t *token) bool {
	return t.in(rowWords)
}

// pieceName takes the name of a piece of this pattern, if one stands next.
func (x *rowReader) pieceName() string {
	best, n := "", 0
	for _, pc := range x.pat.Pieces {
		if k := x.matchName(pc); k > n {
			best, n = pc.Name, k
		}
	}
	x.p += n
	return best
}

// matchName is how many tokens here are the name of a piece; 0 where they are
// not.
func (x *rowReader) matchName(pc *Piece) int {
	if pc.words == nil {
		toks := lex(smooth(pc.Name))
		pc.words = make([]string, 0, len(toks)) // the end left out
		for i := range toks[:len(toks)-1] {
			pc.words = append(pc.words, toks[i].text)
		}
	}
	for i, w := range pc.words {
		if x.at(i).text != w {
			return 0
		}
	}
	return len(pc.words)
}

// partOf reads "of ch-5", "of next shell", "of turning ch": the thing that
// the place is part of.
func (x *rowReader) partOf(t *Target) bool {
	start := x.p
	if !x.accept("of", "on") {
		return false
	}
	x.accept("the", "same", "each", "every", "a", "this", "that")
	each, same := x.at(-1).isAny("each", "every"), x.at(-1).is("same")
	here := !each && !x.at(-1).is("a")
	many, counted := x.eachOfMany(each)
	if x.peek().isAny("missed", "skipped") && x.at(1).isAny("ch", "chain", "chs") {
		x.p += 2
		t.Which = TurnTop
		return true
	}
	if x.accept("next", "following", "last", "beg", "beginning", "every", "initial", "starting") {
		here = false
	}
	first := x.peek().kind == tOrd && x.peek().num == 1
	here = here && x.peek().kind != tOrd
	if x.peek().kind == tOrd {
		x.p++
	}
	if m, ok := x.nounAt(1); ok && t.Which == First && t.N.N <= 1 && x.peek().kind == tNum && m.filter.Kind == OneStitch && m.chain == 0 {
		x.p += 1 + m.tokens // "the first of the 10 tr": the next one, for they stand together
		t.Which, t.Of = Next, []Filter{m.filter}
		return true
	}
	n, ok := x.nounAt(0)
	if k := x.chainsCounted(0); !ok && k > 0 {
		n, ok = noun{turn: true, tokens: k}, true // "3rd of 5 ch"
	}
	if !ok && x.peek().kind == tOrd && x.at(1).isAny("ch", "chain") {
		n, ok = noun{turn: true, tokens: 2}, true
	}
	if !ok {
		x.p = start
		return false
	}
	x.p += n.tokens
	switch {
	case n.turn:
		t.Which = TurnTop
	case n.ring:
		t.Which = InRing
	case t.Which == Nth && (n.chain > 0 || n.filter.Kind == ChainStitch):
		// "3rd ch of ch-5": the turning chain where it counts, a loop elsewhere
		t.Which = TurnTop
		if n.chain > 0 {
			t.Within = &Filter{Kind: Space, Size: n.chain}
		}
	case t.Which == Same || t.Which == Anywhere:
	case same && t.Which == Nth && n.filter.Kind == Space:
		t.Which, t.N, t.Of = Same, Num{N: 1}, []Filter{n.filter} // "in 5th ch of same loop"
	default:
		f := n.filter
		t.Within = &f
		t.first = first
		t.here = here && f.Kind == NamedGroup
		switch {
		case counted && t.Which == Next:
			t.N = many
		case each && t.Which == Next:
			t.Which = Each
		case each:
			t.Bound = Bound{Kind: ToEnd}
		}
	}
	x.phrase("first", "made")
	return true
}

// eachOfMany takes how many there are of what a place is part of, behind "each": "of each of
// the 12 shells", "of each of next 4 groups".
func (x *rowReader) eachOfMany(each bool) (n Num, ok bool) {
	save := x.p
	if !each {
		return n, false
	}
	x.phrase("of", "[the|these|those]", "[next|following|remaining|other]")
	if t := x.peek(); t.kind == tNum && !t.frac && !t.big && t.num > 1 {
		if m, named := x.nounAt(1); named && m.filter.Kind == NamedGroup {
			return x.number()
		}
	}
	if m, named := x.nounAt(0); x.p == save || !named || m.filter.Kind != NamedGroup {
		x.p = save
	}
	return n, false
}
