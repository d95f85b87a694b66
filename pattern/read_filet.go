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
	default:
		return nil
	}
	s := &Step{Op: OpWork, Name: "open mesh", Stitch: stitch.DC, Target: Target{Which: Next, N: count}, N: Num{N: 1}}
	if solid {
		s.Name = "solid mesh"
	}
	x.overMeshes()
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
	if len(names) < 2 || len(words) != 2 {
		return false
	}
	solid := false
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
	chains := int64(0)
	for k := from; k+1 < to; k++ {
		if r.toks[k].isAny("ch", "chain") && r.toks[k+1].kind == tNum && !(k+2 < to && r.toks[k+2].isAny("sp", "space")) && !(k+3 < to && r.toks[k+3].isAny("sp", "space")) {
			chains = r.toks[k+1].num
		}
	}
	if solid && chains != 0 && chains != 3 || !solid && chains != 2 {
		return false // of another size than filet usually has
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

// oneMesh reports whether an article, or a word for the first of a row, stands
// before a mesh and counts it: "a block", "beg sp".
func (x *rowReader) oneMesh() bool {
	if x.p == 0 || x.pat.blocks || !x.at(-1).isAny("a", "an", "beg", "beginning", "another", "starting") {
		return false
	}
	after := x.at(1)
	return (x.peek().in(blockWords) || x.peek().in(meshWords)) && (after.kind == tEnd || after.separator() || after.isMark("()[]*") || after.isAny("over", "and", "at", "in", "on", "then", "made"))
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
