package pattern

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// leftClaim reads how many stitches an opening that is drawn shut is said to
// have: "weave through the last 6 sts", "gather the remaining 9 stitches".
func (r *reader) leftClaim(at *claimRow, i int) {
	t := &r.toks[i]
	if t.kind != tNum || t.frac || t.big || t.num < 2 || i+1 >= len(r.toks) || !r.toks[i-1].isAny("last", "remaining", "rem", "final", "left") || !r.toks[i+1].isAny("st", "sts", "stitch", "stitches", "sc", "dc", "hdc", "htr", "loops") {
		return
	}
	if r.drawsShut(i) {
		r.claimOf(claimLeft, at, t, t, &r.toks[i+1])
		return
	}
	for k := i - 1; k >= max(0, i-14) && !r.toks[k+1].blank; k-- {
		switch w := &r.toks[k]; {
		case w.isMark(";.!") && k < i-1 && !r.toks[k-1].isAny("rem", "st", "sts"), w.isAny("each", "work", "in", "sc", "dc", "every", "end", "rep", "repeat"):
			return // stitches are worked into them, or it is a sentence before
		case w.isAny("through", "thru") && r.toks[k+1].kind == tNum:
			return // "Rows 32 thru 36"
		case w.isAny("through", "thru", "gather", "cinch", "thread", "weave"):
			r.claimOf(claimLeft, at, t, t, &r.toks[i+1])
			return
		}
	}
}

// drawsShut reports "draw the remaining 12 sc together", "pull last 6 sts up tightly"
// around the number at token i.
func (r *reader) drawsShut(i int) bool {
	k := i - 1
	for k > 0 && r.toks[k].isAny("last", "remaining", "rem", "final", "the", "up", "these", "all") {
		k--
	}
	if !r.toks[k].isAny("draw", "pull", "sew", "gather", "catch", "draws", "drawing", "pulling") || i+2 >= len(r.toks) {
		return false
	}
	after := &r.toks[i+2]
	return after.isAny("together", "tog", "up", "closed", "shut", "tight", "tightly")
}

// leftClaimed compares it with what the row before has.
func (pr *prover) leftClaimed(c *claim) {
	last := pr.lastOf(c)
	if last == nil || last.Made == c.n.N {
		return
	}
	if c.row.Span.End < c.span.Start && strings.Count(pr.pat.Source.Text[c.row.Span.End:c.span.Start], "\n") > 6 {
		return // far from it
	}
	pr.say(Error, CodeRest, c.span, fmt.Sprintf("the pattern says %d stitches here, and %s makes %d", c.n.N, last.Label, last.Made),
		fmt.Sprintf("change \"%s\" to %d, if the rows are right", oneLine(pr.pat.Source.Slice(c.span)), last.Made))
}

// endsClaimed compares the total of a row that is worked in the end of each
// row, so many stitches in each, with the rows there are: once along, or along
// both sides, with or without the foundation.
func (pr *prover) endsClaimed(miscounted map[*Piece]bool) {
	known := make(map[*Piece]bool)
	measured := func(p *Piece) bool {
		if _, ok := known[p]; !ok {
			known[p] = hasMeasure(p)
		}
		return known[p]
	}
	for i, w := range pr.pieces {
		for k, rp := range w.proof.Rows {
			if rp.Status != Trusted || rp.Stated == nil || rp.Row.Total == nil || len(rp.Stated.Parts) != 1 {
				continue
			}
			per, ok := pr.perEnd(rp.Row)
			if !ok {
				continue
			}
			of, rows := w, int64(rp.Index)
			if k == 0 && i > 0 { // along the piece before
				of = pr.pieces[i-1]
				rows = int64(of.proof.Len())
			}
			if rows < 2 || measured(of.piece) || miscounted[of.piece] {
				continue
			}
			switch n := rp.Stated.N; n {
			case per * rows, per * (rows + 1), per*rows + 1, 2 * per * rows, 2 * per * (rows + 1):
			default:
				pr.say(Error, CodeTotal, rp.Row.Total.Span, fmt.Sprintf("%d in the end of each of %d rows are %d, and the row states %s", per, rows, per*rows, rp.Stated.Text),
					"the total, or the number of rows")
				rp.Status = Differs
			}
		}
	}
}

// hasMeasure reports whether the rows of a piece are ended by a tape.
func hasMeasure(p *Piece) bool {
	for _, r := range p.Rows {
		if r.Refer != nil && r.Refer.Measure {
			return true
		}
	}
	return false
}

// perEnd is how many stitches a row works in the end of each row, where it does
// nothing else.
func (pr *prover) perEnd(row *Row) (int64, bool) {
	per := int64(0)
	for _, s := range row.Steps {
		switch {
		case s.Op == OpFree || s.Op == OpWork && s.Target.Which == RowEnds:
			words := strings.FieldsFunc(strings.ToLower(pr.pat.Source.Slice(s.Span)), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
			words = alongDropped(words)
			if per > 0 || len(words) < 4 || words[len(words)-1] != "row" && words[len(words)-2] != "row" {
				return 0, false
			}
			per = 1
			end, each := false, false
			for i, word := range words {
				n, number := numberWords[word]
				if v, err := strconv.ParseInt(word, 10, 32); err == nil {
					n, number = v, true
				}
				switch {
				case number && i == 0:
					per = n
				case number, word == "evenly", word == "side", word == "sides", word == "both", word == "other":
					return 0, false
				case word == "end", word == "ends":
					end = true
				case word == "each", word == "every":
					each = true
				}
			}
			if !end || !each {
				return 0, false
			}
		case s.Op == OpGroup, makesStitches(s):
			return 0, false
		}
	}
	return per, per > 0
}

// alongDropped leaves out which edge it is that the ends of rows make, "along one
// edge of the cuff".
func alongDropped(words []string) []string {
	for i, w := range words {
		switch w {
		case "along", "down", "up", "round", "around", "of", "on":
			if i > 3 && (words[i-1] == "row" || words[i-1] == "end") && words[i-2] != "the" {
				return words[:i]
			}
		}
	}
	return words
}
