package pattern

import (
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// blockWords are what a filled mesh of filet is called.
var blockWords = newWordSet("block blocks bl bls blk blks bk bks")

// meshWords are what a mesh left open is called, where it is no place to work
// into.
var meshWords = newWordSet("mesh meshes sps spaces sp space")

// meshKinds tell a mesh left open from a filled one, or do not.
var meshKinds = newWordSet("open solid filled closed next first last block blocks blk blks bl space spaces mesh meshes sp sps each same rem remaining beg beginning centre center")

// filet = ( number | "a" | "beg" ) mesh [ "over" mesh ] .
//
// So rows of filet are told once it is known what a mesh is: "3 open meshes",
// "2 solid meshes", "4 blocks", "a block over the first space".
func (x *rowReader) filet(start int, count Num, counted bool) []*Step {
	t := x.peek()
	solid := false
	switch {
	case t.isAny("open", "o") && x.at(1).isAny("mesh", "meshes", "m", "space", "spaces", "sp", "sps"):
		x.p += 2
	case t.isAny("solid", "filled", "closed", "s") && x.at(1).isAny("mesh", "meshes", "m", "block", "blocks"):
		x.p += 2
		solid = true
	case counted && t.in(blockWords):
		x.p++
		solid = true
	case counted && t.in(meshWords):
		x.p++
	case counted && x.pat.meshes != nil && t.kind == tWord && x.ownMesh(&solid):
		x.p++
	case !counted && x.pat.meshes != nil && t.kind == tWord && x.at(1).is("x") && x.at(2).kind == tNum && x.ownMesh(&solid):
		x.p += 2 // "OM x 3"
		count, _ = x.number()
	default:
		return nil
	}
	s := &Step{Op: OpWork, Name: "open mesh", Stitch: stitch.DC, Target: Target{Which: Next, N: count}, N: Num{N: 1}}
	if solid {
		s.Name = "solid mesh"
	}
	x.overMeshes()
	if x.pat.filet {
		x.accept("more", "further", "again", "between", "across")
	}
	s.Span = x.spanFrom(start)
	return []*Step{s}
}

// ownMesh reports letters of the author's own for a mesh, "3 OS, 2 SS".
func (x *rowReader) ownMesh(solid *bool) bool {
	filled, ok := x.pat.meshes[x.peek().text]
	*solid = filled
	return ok
}

// defineMesh keeps the letters for a mesh that is defined as filet usually has
// it, "Open square (OS) = ch 2, skip 2 sts, dc in next dc": rows of them are read
// as rows of meshes.
func (r *reader) defineMesh(names []string, from, to int) bool {
	words := strings.Fields(names[0])
	if len(words) > 2 && (words[0] == "beg" || words[0] == "beginning" || words[0] == "starting") {
		words = words[1:]
	}
	solid := false
	if filled, known := meshNamed(names); known && r.pat.filet {
		return r.usualMesh(filled, from, to) // "bl: dc in next 3 sts" is a mesh, and no stitch of its own
	}
	if len(names) < 2 || len(words) != 2 {
		return false
	}
	switch words[0] {
	case "open", "empty":
	case "solid", "filled", "closed", "full":
		solid = true
	default:
		return false
	}
	switch words[1] {
	case "mesh", "square", "sq", "space", "sp", "block", "blk":
	default:
		return false
	}
	if !r.usualMesh(solid, from, to) {
		return false
	}
	for _, n := range names[1:] {
		if !strings.Contains(n, " ") {
			if r.pat.meshes == nil {
				r.pat.meshes = make(map[string]bool)
			}
			r.pat.meshes[n] = solid
		}
	}
	return true
}

// meshNamed reports whether all the names that something is given are words for a mesh
// that is filled, or all for one left open: "Bl (block)".
func meshNamed(names []string) (filled, known bool) {
	blocks, spaces := 0, 0
	for _, n := range names {
		switch t := (token{id: vocabulary()[n].id}); {
		case t.in(blockWords):
			blocks++
		case t.in(meshWords):
			spaces++
		}
	}
	return blocks > 0, len(names) > 0 && (blocks == len(names) || spaces == len(names))
}

// usualMesh reports whether the words that define a mesh make it of the size that
// filet usually has: two chains, or three stitches with the one that ends it.
func (r *reader) usualMesh(solid bool, from, to int) bool {
	chains := int64(0)
	for k := from; k+1 < to; k++ {
		if r.toks[k].is(".") && r.capital(k+1) {
			break // what is told of the turns is no part of it
		}
		if r.toks[k].isAny("ch", "chain") && r.toks[k+1].kind == tNum && !(k+2 < to && r.toks[k+2].isAny("sp", "space")) && !(k+3 < to && r.toks[k+3].isAny("sp", "space")) {
			chains = r.toks[k+1].num
		}
	}
	return solid && (chains == 0 || chains == 3) || !solid && chains == 2
}

// oneMesh reports whether an article, or a word for the first of a row, stands
// before a mesh and counts it: "a block", "beg sp".
func (x *rowReader) oneMesh() bool {
	if x.p == 0 || x.pat.blocks || !x.at(-1).isAny("a", "an", "beg", "beginning", "another", "starting") {
		return false
	}
	after := x.at(1)
	return (x.peek().in(blockWords) || x.peek().in(meshWords)) && (after.kind == tEnd || after.separator() || after.isMark("()[]*") || after.isAny("over", "and", "at", "in", "on", "then", "made"))
}

// allMeshes = [ "a" ] "row" "of" spaces | "all" spaces | spaces "all across" .
//
// "All spaces.", "All spaces, 13 in the row.", "Blocks all across.": a row of
// meshes of one kind, as many as the row below has. How many they are may stand
// behind it.
func (x *rowReader) allMeshes() []*Step {
	if !x.pat.filet || x.worked || x.depth > 1 || !x.peek().isAny("all", "only", "a", "row", "work", "make") && !x.peek().in(meshWords) && !x.peek().in(blockWords) && !x.peek().isAny("open", "solid", "filled") && x.pat.meshes == nil {
		return nil
	}
	start := x.p
	x.accept("work", "make")
	all := x.phrase("all|only", "[of]") || x.phrase("[a]", "row", "of") || x.phrase("row", "of", "all")
	solid := false
	switch {
	case x.phrase("open", "meshes|mesh|spaces|squares|sps"), x.phrase("spaces|sps|meshes|sp"):
	case x.phrase("solid|filled", "meshes|mesh|squares|blocks"), x.phrase("blocks|bls|blks|bl"):
		solid = true
	case x.pat.meshes != nil && x.peek().kind == tWord && x.ownMesh(&solid):
		x.p++
	default:
		x.p = start
		return nil
	}
	x.accept(".")
	if n := x.p; x.phrase("[all]", "across|along") || x.phrase("all", "the", "way", "[across|along]") || x.phrase("to", "[the]", "end") {
		all = true
	} else {
		x.p = n
	}
	if x.at(-1).is(".") {
		x.p-- // the stop of the sentence, and not of the word
	}
	if !all || !x.end() && !x.peek().separator() && !x.peek().isMark("([") {
		x.p = start
		return nil
	}
	s := &Step{Op: OpWork, Name: "open mesh", Stitch: stitch.DC, Target: Target{Which: Each, Bound: Bound{Kind: ToEnd}}, N: Num{N: 1}, Span: x.spanFrom(start)}
	if solid {
		s.Name = "solid mesh"
	}
	x.worked = true
	x.meshTotal()
	return []*Step{s}
}

// meshTotal reads how many meshes a row has, told behind it: ", 13 in the row".
func (x *rowReader) meshTotal() {
	save := x.p
	x.accept(",", "-", ";", "(")
	from := x.p
	if x.peek().kind == tNum && !x.peek().frac {
		n, _ := x.number()
		x.acceptIn(meshWords)
		if x.phrase("in|across", "[the|this|each]", "row|all") || x.phrase("of", "them") || x.phrase("in", "number") {
			sp := x.spanFrom(from)
			x.setTotal([]TotalPart{{N: n, Kind: PartSpace, Name: "meshes", word: "meshes", Span: sp}}, sp, nil)
			x.accept(")")
			return
		}
	}
	x.p = save
}

// meshGloss reads what stitches come to, told behind them: "for 1 block",
// "making a space".
func (x *rowReader) meshGloss() []*Step {
	l := x.lastStep
	if !x.pat.filet || !x.worked || l == nil || l.isMesh() {
		return nil
	}
	start := x.p
	if !x.phrase("for|forming|making|makes|form|to", "[form|make]", "[a|first|next|another|this|the]", "[first|next]") {
		return nil
	}
	many := int64(0)
	if x.peek().kind == tNum && !x.peek().frac {
		many = x.peek().num
		x.p++
	}
	// so many of them only behind a repeat of as many passes
	told := many <= 1 || l.Op == OpGroup && l.Times.Kind == Exactly && l.Times.N.Sizes == nil && l.Times.N.N == many
	if told && (many > 0 || x.p > start+1) && (x.peek().in(blockWords) || x.peek().in(meshWords)) && !x.at(1).isAny("of", "in", "on", "over", "at") {
		x.p++
		return x.noteFrom(start)
	}
	x.p = start
	return nil
}

// oneMeshIn reports a bracket up to a token that calls the stitches before it one mesh:
// "d c in next 3 d c (1 bl), * ch 2, skip 2 d c, d c in next d c (1 sp.)". Behind all the
// work of a row, with no other before it, it is the total, "dc in next 2 ch. (1 block)".
func (x *rowReader) oneMeshIn(end int) bool {
	l := x.lastStep
	if !x.worked || l == nil || l.isMesh() || end < 0 || !x.oneAt(end) {
		return false
	}
	if !x.at(2).in(blockWords) && !x.at(2).in(meshWords) {
		return false
	}
	for i := x.p - 1; i > 0; i-- {
		if x.ts[i].isMark(")]") && x.oneAt(i) {
			return true
		}
	}
	k := end + 1 - x.p
	for x.at(k).separator() || x.at(k).isAny("and", "then") {
		k++
	}
	return x.at(k).is("*") || x.at(k).isAny("ch", "rep", "repeat", "skip", "miss") || x.stitchFollows(k) || x.at(k).kind == tNum && x.stitchFollows(k+1)
}

// overMeshes takes what a mesh stands over, which its place in the row says.
func (x *rowReader) overMeshes() {
	save := x.p
	if !x.accept("over", "on", "above") {
		return
	}
	x.accept("the", "a")
	for x.peek().in(meshKinds) || x.peek().kind == tNum || x.peek().kind == tOrd {
		x.p++
	}
	if last := x.at(-1); !last.in(blockWords) && !last.in(meshWords) && !last.isAny("next", "first", "last", "same") {
		x.p = save
	}
}

// isMesh reports a mesh of filet that is told by its name.
func (s *Step) isMesh() bool {
	return s.Op == OpWork && (s.Name == "open mesh" || s.Name == "solid mesh")
}
