package pattern

import "crochet/tallyturn/pattern/stitch"

// A part that goes on from work told elsewhere says how many stitches it begins on:
// "Continuing over 24 sc.", "You have 32 sts on the rnd.", "Rejoin to the 18 sts left for
// the thumb". That count is what its first row is worked on.

// startCount is a count told before a row, and the stitch that it names.
type startCount struct {
	n  Num
	id stitch.ID // None where it only says stitches
}

// startLeads are the words in front of a count that tell it to be what is worked on.
var startLeads = newWordSet("begin begins beginning begun start starts starting started commence commencing continue continues continuing continued working worked work works on onto over across along have have had has having got rejoin rejoining rejoined join joining joined return returning pick attach left remain remaining remains rem from finished ended reached with row rnd round rows counts hold holds held live first last next centre center middle other")

// startTails are the words behind a count that tell the same.
var startTails = newWordSet("left remain remaining remains rem wide unworked free across on at of so now")

// startBars are the words of a sentence whose counts tell something else: of the fabric,
// of what comes later, of what is done with some of the stitches.
var startBars = newWordSet("until till end ends ending will decrease decreasing dec increase increasing inc each every per multiple multiples gauge tension swatch skip skipping miss missing sk leave leaving rep repeat ch chain chains = cm mm inch inches per ease if cast needle skein ball balls skeins counts total totals add adding plus lose gain")

// maxStartWords is how far before a row a count is looked for, in words.
const maxStartWords = 80

// startsOn finds the counts told between the row before and the first words of a row, in
// the words from one token to another. The last told comes first.
func (r *reader) startsOn(from, to int) []startCount {
	var out []startCount
	end := to
	for k := to - 1; k >= max(from, to-maxStartWords) && len(out) < 3; k-- {
		if k > from && !r.toks[k-1].isMark(".;!:") && !r.toks[k].blank && !(r.toks[k].head && r.capital(k)) {
			continue
		}
		if at := r.startCountsIn(k, end); len(at) > 0 {
			out = append(out, at...)
		}
		end = k
	}
	return out
}

// lastWorked is the token after the last row so far.
func (r *reader) lastWorked() int {
	d := r.lastDraft()
	if d == nil {
		return 0
	}
	return r.tokenAt(d.row.Span.End)
}

// startCountsIn finds the counts of one sentence.
func (r *reader) startCountsIn(from, to int) []startCount {
	var out []startCount
	lead := false
	for k := from; k < to; k++ {
		t := &r.toks[k]
		if t.in(startBars) {
			return nil
		}
		lead = lead || t.in(startLeads)
		if t.kind != tNum || t.frac || t.big || t.num < 2 || t.num > maxTold || k > from && r.toks[k-1].isAny("-", "row", "rnd", "round", "rows", "no", "size", "#") {
			continue
		}
		x := r.scratch(k)
		n, ok := x.number()
		if !ok {
			continue
		}
		id, w := x.stitchAt(0)
		if w == 0 {
			id = stitch.None
			if !x.peek().isAny("st", "sts", "stitches", "loops") {
				continue
			}
			w = 1
		}
		x.p += w
		x.phrase("(", "us|uk", ")")
		if x.p > to {
			continue
		}
		bracketed := k > from && r.toks[k-1].isMark("([") && x.peek().isMark(")]")
		if lead || bracketed || x.peek().in(startTails) || x.p < to && x.peek().is(":") {
			out = append([]startCount{{n, id}}, out...)
		}
		k = x.p - 1
	}
	return out
}
