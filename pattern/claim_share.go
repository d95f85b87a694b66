package pattern

import (
	"fmt"
	"slices"
	"strings"
)

// maxCorner is how many stitches of a corner, at most, a number that is said of
// each side may leave out.
const maxCorner = 3

// sharesClaimed holds what a total says of each side against what it says of
// all: "28 dc (7 on each side)". Sides may be told with their corners or
// without, but are told alike through a piece.
func (pr *prover) sharesClaimed() {
	var shapes []int64
	for _, w := range pr.pieces {
		type sided struct {
			rp  *RowProof
			per TotalPart
			all int64
		}
		var rows []sided
		done := make(map[*Row]bool)
		saying := pr.sayingShares(w.piece)
		for i, rp := range w.proof.Rows {
			row := writtenAs(rp, saying)
			if row.Refer != nil && i+1 < len(w.proof.Rows) && writtenAs(w.proof.Rows[i+1], saying) == row {
				continue // of rows told in one what is said holds of the last
			}
			if done[row] || rp.Status == Differs || len(row.shares) != 1 || rp.Stated == nil && rp.Status != Unstated {
				continue
			}
			done[row] = true
			per := row.shares[0]
			all, ok := rp.Made, rp.Made > 0
			if rp.Stated != nil && !onlyShares(rp.Stated.Parts) {
				all, ok = onlyCount(rp.Stated, pr.size)
			}
			if ok && per.halves && !per.figures {
				pr.halvesClaimed(rp, per, all)
				continue
			}
			if ok && per.N.At(pr.size) > 1 && ofSides(per.Name) && !per.figures {
				rows = append(rows, sided{rp, per, all})
			}
		}
		if len(rows) > 0 && shapes == nil {
			shapes = sidesNamed(pr.pat.Source.Text)
		}
		for i, r := range rows {
			// the ways under which the other rows come out, or all where there are none
			var ways [][2]int64
			for k, o := range rows {
				if k != i {
					ways = append(ways, sidesOf(o.all, o.per.N.At(pr.size), shapes)...)
				}
			}
			mine := sidesOf(r.all, r.per.N.At(pr.size), shapes)
			if len(ways) == 0 && len(mine) > 0 || slices.ContainsFunc(mine, func(m [2]int64) bool { return slices.Contains(ways, m) }) {
				continue
			}
			if len(rows) == 2 && len(mine) > 0 {
				continue // either may be right
			}
			pr.say(Error, CodeTotal, r.per.Span, fmt.Sprintf("%s says %d for each side, and %d in all", r.rp.Label, r.per.N.At(pr.size), r.all), "one of the two numbers, or the number of sides")
			r.rp.Status = Differs
		}
	}
}

// halvesClaimed holds what is said of either side of the middle of a row against the whole
// of it: between the halves stand the stitches of the middle. One stitch more or fewer is let
// pass: it may be the turning chain.
func (pr *prover) halvesClaimed(rp *RowProof, per TotalPart, all int64) {
	n := per.N.At(pr.size)
	if by := all - 2*n; by >= -1 && by <= max(per.middle, 1) {
		return
	}
	pr.say(Error, CodeTotal, per.Span, fmt.Sprintf("%s says %d on each side of the middle, and has %d in all", rp.Label, n, all), "one of the two numbers, or a row before")
	rp.Status = Differs
}

// sayingShares are the rows of a piece that are told to be like others and say what
// there is of each side, "Rnd 4: the same. 48 sc (6 on each side)", by the line they
// begin on; nil where none is.
func (pr *prover) sayingShares(p *Piece) map[int]*Row {
	var out map[int]*Row
	for _, row := range p.Rows {
		if row.Refer == nil || len(row.shares) == 0 {
			continue
		}
		if out == nil {
			out = make(map[int]*Row)
		}
		out[pr.pat.Source.lineAt(row.Span.Start)] = row
	}
	return out
}

// writtenAs is the row that the author wrote for a row of the proof: of one that is like
// another it is that which says so.
func writtenAs(rp *RowProof, saying map[int]*Row) *Row {
	if row := saying[rp.Line]; row != nil && row.Label == rp.Label {
		return row
	}
	return rp.Row
}

// sidesNamed are how many sides the work of a pattern may have: four, where
// its words tell of no other shape.
func sidesNamed(text string) []int64 {
	text = strings.ToLower(text)
	out := []int64{4}
	for _, s := range [...]struct {
		sides int64
		words string
	}{{2, "shawl/spine/wing/each side of/either side of/both sides of"}, {3, "triang/three sides/3 sides/three corners/3 corners"}, {5, "pentag/five sides/5 sides/star/5 corners/five corners"}, {6, "hexag/six sides/6 sides/six corners/6 corners/star"}, {8, "octag/eight sides/8 sides/star"}} {
		for _, w := range strings.Split(s.words, "/") {
			if strings.Contains(text, w) {
				out = append(out, s.sides)
				break
			}
		}
	}
	return out
}

// sidesOf are the numbers of sides, and the stitches of a corner left out of
// each, under which so many on each side make so many in all.
func sidesOf(all, per int64, shapes []int64) [][2]int64 {
	var out [][2]int64
	for _, sides := range shapes {
		if c := all - sides*per; c >= 0 && c <= maxCorner*sides && c%sides == 0 {
			out = append(out, [2]int64{sides, c / sides})
		}
	}
	return out
}

// onlyCount is the number of all stitches that a total states, where it states
// one.
func onlyCount(t *Total, size int) (int64, bool) {
	n, found := int64(0), 0
	for _, p := range t.Parts {
		if p.Kind == PartStitches || p.Kind == PartStitch {
			n = p.N.At(size)
			found++
		}
	}
	return n, found == 1
}

// ofSides reports whether a share is told of each side of the work.
func ofSides(words string) bool {
	words = strings.ToLower(words)
	return (strings.Contains(words, "side") || strings.Contains(words, "edge")) && !strings.Contains(words, " long ") && !strings.Contains(words, " short ") && !strings.Contains(words, "both") && !strings.Contains(words, "either") && !strings.Contains(words, "other")
}
