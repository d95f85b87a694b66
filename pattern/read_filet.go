package pattern

import "crochet/tallyturn/pattern/stitch"

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
