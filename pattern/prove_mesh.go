package pattern

import (
	"fmt"

	"crochet/tallyturn/pattern/stitch"
)

// A row of filet has as many meshes as the one below, unless it is widened or
// drawn in at its ends in so many words. So a row told in meshes alone can be
// held against the one below by counting, and one that is not right need not
// spoil those after it: they are worked on as many meshes as there should be.

// meshesTold is how many meshes a row tells of, and how many of the row below it
// leaves out at its ends, where it tells of nothing else but the chain it turns
// with.
func (pr *prover) meshesTold(row *Row) (told, out int64, ok bool) {
	for _, s := range row.Steps {
		switch {
		case s.isMesh() && s.Target.Which == Each:
			return 0, 0, false // as many as there are
		case s.isMesh():
			told += max(1, s.Target.N.At(pr.size))
		case s.Name == meshEnd && (s.Op == OpSkip || s.Op == OpLeave):
			out += max(1, s.Target.N.At(pr.size))
		case s.Op == OpNote, s.Op == OpTurn, s.Op == OpColour, s.Op == OpFasten:
		case s.Op == OpChain && s.N.At(pr.size) <= 5:
		default:
			return 0, 0, false
		}
	}
	return told, out, told > 0
}

// skipMeshes passes over meshes at the beginning of a row: the stitch before each
// and what it is filled with.
func (w *rowWork) skipMeshes(s *Step) bool {
	n := max(1, s.Target.N.At(w.pr.size))
	if w.below == nil || w.below.free {
		return true
	}
	if have, ok := meshesIn(w.below); ok && n > have {
		return w.overrun(s, n-have, 1)
	}
	for ; n > 0 && !w.ended(); n-- {
		w.norm()
		w.cur.off++
		w.skipped++
		w.norm()
		if w.ended() {
			break
		}
		if w.below.runs[w.cur.i].kind == pSpace {
			w.cur.off++
			w.norm()
			continue
		}
		for k := 0; k < 2 && !w.ended(); k++ {
			w.cur.off++
			w.skipped++
			w.norm()
		}
	}
	return true
}

// freeMeshes works meshes over a row of which nobody knows what it has: what they
// make is known all the same.
func (w *rowWork) freeMeshes(s *Step, n int64, solid bool) bool {
	if s.Target.Which == Each {
		w.free, w.begun = true, true
		return true
	}
	if len(w.out.runs) == 0 && w.pending == 0 {
		w.make(place{stitch: stitch.DC, turn: true}, 1)
		w.leaf(s, 1)
	}
	w.begun, w.meshBegun = true, true
	if n > maxGroups {
		return w.fail(CodeTooLarge, s, 0, "the row makes more than %d meshes", int64(maxGroups))
	}
	for i := int64(0); i < n; i++ {
		made := int64(3)
		if !solid {
			made, w.pending = 1, 2
		}
		w.emit(s, place{stitch: stitch.DC}, made)
	}
	return true
}

// meshesIn is how many meshes of filet a row is made of, open and filled, where
// that comes out: a tall stitch, and then spaces of two chains or two stitches
// more with a stitch behind each.
func meshesIn(f *fabric) (int64, bool) {
	if f == nil || f.free || f.chain || f.ring || f.magic {
		return 0, false
	}
	spaces := int64(0)
	for i := range f.runs {
		switch r := &f.runs[i]; {
		case r.kind == pSpace && r.size == 2:
			spaces += r.n
		case !r.counts():
			return 0, false
		}
	}
	blocks := blocksOf(f)
	return blocks + spaces, blocks >= 0 && blocks+spaces > 0
}

// meshesAmiss reports how many meshes a row tells of and the row below has,
// where the two differ.
func (w *pieceWork) meshesAmiss(row *Row, o outcome) (told, below int64, amiss bool) {
	told, out, ok := w.pr.meshesTold(row)
	if !ok || o.rw.leave && out == 0 || o.rw.below == nil || o.fatal == nil && o.left == 0 && out == 0 {
		return 0, 0, false
	}
	below, known := meshesIn(o.rw.below)
	below -= out
	return told, below, known && told != below && below > 0
}

// meshesDiffer says what is amiss with a row of so many meshes.
func meshesDiffer(told, below int64) string {
	return fmt.Sprintf("the row tells of %s, and the row below has %d to work into", countWords(told, "mesh", "meshes"), below)
}

// meshesUsual is how many meshes the rows of the piece tell of that tell of
// nothing else and leave none out: where two of them, at least, and half of all
// tell of one number, that is the width of the work. It is 0 where there is none.
func (w *pieceWork) meshesUsual() int64 {
	if w.meshWidth != 0 {
		return max(0, w.meshWidth)
	}
	w.meshWidth = -1
	rows, at := 0, make(map[int64]int)
	for _, row := range w.piece.Rows {
		if told, out, ok := w.pr.meshesTold(row); ok && out == 0 {
			rows++
			at[told]++
			if at[told] > 1 && at[told] > at[max(0, w.meshWidth)] {
				w.meshWidth = told
			}
		}
	}
	if w.meshWidth > 0 && 2*at[w.meshWidth] < rows {
		w.meshWidth = -1
	}
	return max(0, w.meshWidth)
}

// meshesStated is how many meshes a total states, where it states nothing else: so
// many are there for the next row, if nobody knows what this one made.
func (w *pieceWork) meshesStated(t *Total) int64 {
	if t == nil || len(t.Parts) != 1 || !t.Parts[0].ofMeshes() {
		return 0
	}
	return min(t.Parts[0].N.At(w.pr.size), maxGroups)
}
