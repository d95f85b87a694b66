package pattern

// What is said a second time in other words, or of the size that the work should have
// by now, works nothing.

// glossBetween passes over words between two dashes that say again what a bracket has
// said, where how often it is worked stands behind them: "[2 dc, inc] - that is, one dc
// in each of two sts, then two in the third - rep to end".
func (x *rowReader) glossBetween() {
	if !x.peek().is("-") || x.phraseAt(1, "that", "is|means") <= 0 && x.phraseAt(1, "in", "other", "words") <= 0 && !x.at(1).isAny("meaning", "i.e", "ie") && !(x.at(1).is("i") && x.at(3).is("e")) {
		return
	}
	for k := 2; k < 40; k++ {
		t := x.at(k)
		if t.kind == tEnd || t.isMark(";([{=*") || t.is(".") && k > 6 {
			return
		}
		if t.is("-") && !t.glued {
			if x.at(k+1).isAny("rep", "repeat", "rpt", "repeating", "x", "around", "across") || x.at(k+1).kind == tNum && x.at(k+2).isAny("times", "x") {
				x.p += k + 1
			}
			return
		}
	}
}

// sizedThings are words for what is measured.
var sizedThings = newWordSet("work piece it this hat your the crown circle body base diameter total length width")

// lengthUnits are what a length is given in.
var lengthUnits = newWordSet("cm mm in ins inch inches")

// measureTold takes a sentence of what the work should measure by now: "Piece should
// measure about 6 (7, 7 1/2)" from the center of the crown." It counts no stitches.
func (x *rowReader) measureTold() *Step {
	t := x.peek()
	if !t.in(sizedThings) || x.depth > 1 || x.p > 0 && !x.at(-1).isMark(".!;)") && !t.head {
		return nil
	}
	k := 1
	for ; k < 8 && !x.at(k).isAny("measure", "measures", "measuring"); k++ {
		if w := x.at(k); w.kind != tWord || w.isAny("until", "till") || x.stitchFollows(k) {
			return nil
		}
	}
	if k == 8 {
		return nil
	}
	start, unit := x.p, false
	for x.p += k + 1; !x.end(); x.p++ {
		t := x.peek()
		switch {
		case t.in(lengthUnits), t.isMark("\"'"):
			unit = unit || x.at(-1).kind == tNum || x.at(-1).isMark(")]")
		case t.isMark("(["):
			if end := x.closer(0); end > 0 && x.onlySizes(end) {
				for i := x.p; i < end; i++ {
					unit = unit || x.ts[i].in(lengthUnits) || x.ts[i].isMark("\"'")
				}
				x.p = end
				continue
			}
		}
		if t.isMark(".;!?([{=") || t.head && x.rowCapital() {
			break
		}
		if _, n := x.stitchAt(0); n > 0 {
			x.p = start
			return nil
		}
	}
	if !unit {
		x.p = start
		return nil
	}
	return x.noteStep(start)
}

// onlySizes reports whether a bracket that closes at a token has numbers and units in it
// and nothing else.
func (x *rowReader) onlySizes(end int) bool {
	for i := x.p + 1; i < end; i++ {
		if t := &x.ts[i]; t.kind != tNum && !t.isMark(",-/\"'.") && !t.in(lengthUnits) {
			return false
		}
	}
	return true
}

// inEachPlace reads where all of what stands between two stars goes, "*ss, ch 1* in
// each st around": nothing in it says a place of its own.
func (x *rowReader) inEachPlace(start int, g *Step) *Step {
	if !x.peek().isAny("in", "into") || !x.at(1).in(eachWords) || len(g.Body) == 0 {
		return nil
	}
	for _, b := range g.Body {
		if b.Op != OpChain && b.Op != OpPicot && (b.Op != OpWork || b.Target.said || b.Legs > 0) {
			return nil
		}
	}
	save := x.p
	pl := x.place()
	if len(pl) != 1 || pl[0].Which != Each {
		x.p = save
		return nil
	}
	return &Step{Op: OpInto, Body: g.Body, Target: pl[0], N: Num{N: 1}, Span: x.spanFrom(start)}
}
