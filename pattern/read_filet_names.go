package pattern

// meshNames are the words for a mesh by itself, in the names that pages give it.
var meshNames = newWordSet("mesh square sq space sp block blk bl box hole")

// meshFills are the words for whether one is filled.
var meshFills = map[string]bool{"open": false, "empty": false, "solid": true, "filled": true, "closed": true, "full": true}

// meshLine reports a line above the work that says what a mesh of filet is, and
// by which letters it goes: "Open mesh (OM): ch 2, sk 2 sts, dc in next dc",
// "BL (block) over an open mesh: 2 dc in ch-2 sp, dc in next dc".
func (r *reader) meshLine(ln line) bool {
	if r.row != nil || len(r.pat.Pieces) > 0 || len(r.setup) > 0 {
		return false
	}
	_, _, ok := r.meshDefined(ln.start, ln.end)
	return ok
}

// meshDefined reads the definition of a mesh: the short names it gives it, and
// whether it is filled.
//
//	mesh = name { "(" name ")" } [ ( "over" | "above" | "on" ) [ "a" ] mesh ] ( ":" | "=" | "-" ) body .
func (r *reader) meshDefined(from, to int) (short []string, solid, ok bool) {
	if r.pat.blocks {
		return nil, false, false
	}
	k := from
	for k < to && (r.toks[k].isMark("^*") || ornament(&r.toks[k])) {
		k++ // a bullet
	}
	named, start := false, k
	for k < to && k-start < 12 {
		open := r.toks[k].isMark("([")
		if open {
			k++
		}
		first := k
		for k < to && r.toks[k].kind == tWord && !r.toks[k].isAny("over", "above", "on") {
			k++
		}
		switch words := r.toks[first:k]; {
		case len(words) == 0:
			return nil, false, false
		case len(words) == 2 && words[1].in(meshNames):
			fill, known := meshFills[words[0].text]
			if !known || named && fill != solid {
				return nil, false, false
			}
			named, solid = true, fill
		case len(words) == 1 && words[0].isAny("block", "space") && !named:
			named, solid = true, words[0].is("block")
		case len(words) == 1:
			short = append(short, words[0].text)
		default:
			return nil, false, false
		}
		if open {
			if k >= to || !r.toks[k].isMark(")]") {
				return nil, false, false
			}
			k++
		}
		if k < to && r.toks[k].isMark("([") {
			continue
		}
		break
	}
	for k < to && r.toks[k].isAny("over", "above", "on", "a", "an", "another", "the") || k < to && r.toks[k].in(meshKinds) {
		k++
	}
	if k+2 >= to || to-k > 24 || !r.toks[k].isMark(":=") && !(r.toks[k].is("-") && !r.toks[k].glued) {
		return nil, false, false
	}
	if !named && len(short) == 1 && r.pat.meshes != nil { // "BL over a block: dc in next 3 dc", below what BL is
		solid, named = r.pat.meshes[short[0]]
	}
	if !named || !r.usualMesh(solid, k+1, to) || !r.tallIn(k+1, to) {
		return nil, false, false
	}
	return short, solid, true
}

// tallIn reports whether a double crochet, of either side of the Atlantic, is named.
func (r *reader) tallIn(from, to int) bool {
	for k := from; k < to; k++ {
		if r.toks[k].isAny("dc", "tr", "double", "treble") {
			return true
		}
		if isRowWord(&r.toks[k]) {
			return false
		}
	}
	return false
}

// keepMesh keeps the letters of a mesh that is defined, so that rows of them are read
// as rows of meshes.
func (r *reader) keepMesh(from, to int) bool {
	short, solid, ok := r.meshDefined(from, to)
	if !ok {
		return false
	}
	kind := 0
	if solid {
		kind = 1
	}
	if r.meshesTold[kind] = true; r.meshesTold[1-kind] {
		r.pat.filet = true // both kinds are told
	}
	for _, n := range short {
		if _, known := sectionNames[n]; known {
			continue
		}
		if r.pat.meshes == nil {
			r.pat.meshes = make(map[string]bool)
		}
		r.pat.meshes[n] = solid
	}
	return true
}
