package pattern

// countingTail passes over what a total is said to count or to leave out, behind its
// numbers: "18 tr including turning ch", "14 dc with the beginning chain", "30 sc, ch-1 not
// included", "67 tr., the turning ch. being the first", "20 dc, ch 3 standing for one". How
// the chain counts shows in the number.
func (x *rowReader) countingTail() bool {
	start := x.p
	for x.peek().isMark(",;-") || x.peek().isAny("and", "all") {
		x.p++
	}
	bracket := x.accept("(")
	led := x.phrase("[not|without|always]", "counting|including|incl|counted|included|inc|incl.", "[.|in]") || x.acceptIn(countingLeads)
	chain := false
	for k := 0; k < 12; k++ {
		t := x.peek()
		if t.kind == tEnd || t.isMark(".;!)]}") || t.head && k > 0 && x.rowCapital() || t.is(",") && chain {
			break
		}
		chain = chain || t.isAny("ch", "chs", "chain", "chains", "tch", "turning", "tc")
		led = led || t.isAny("included", "counted", "counting", "counts", "count", "incl", "including") || t.in(standingWords)
		_, stitch := x.stitchAt(0)
		if !t.in(countingWords) && !t.in(standingWords) && t.kind != tNum && t.kind != tOrd && stitch == 0 {
			x.p = start
			return false
		}
		x.p += max(1, stitch)
		if x.peek().is(".") && x.at(-1).isAny("ch", "chs") && (x.at(1).kind == tNum || x.at(1).kind == tWord && !x.at(1).head) {
			x.p++ // "the turning ch. being the first", "counting the ch. 3"
		}
	}
	if !led || !chain || bracket && !x.accept(")") {
		x.p = start
		return false
	}
	return true
}

// countingLeads begin such words, and countingWords are the others of them.
var (
	countingLeads = newWordSet("with without excluding exclude plus less incl including counting")
	countingWords = newWordSet("the a an as one them these those of in place first turning beginning beg starting initial skipped missed ch chs chain chains tch tc st sts stitch stitches - not is are isn't aren't doesn't does do don't included including counted counting counts count incl it for each at start beginning")
	standingWords = newWordSet("standing stands stand being taking taken takes forming forms replacing replaces reckoned reckoning")
)

// leavesChainsOut reports whether a total, from a token to where its text ends, is said to
// count no chains: "15 sts, not counting the chains", "40 dc (excluding ch-sps)". What is
// said of the chain at the beginning tells nothing of those between stitches.
func (x *rowReader) leavesChainsOut(from, end int) bool {
	out := false
	for i := from; i < len(x.ts) && int(x.ts[i].start) < end; i++ {
		switch t := &x.ts[i]; {
		case t.isAny("excluding", "exclude", "without", "not", "ignoring", "disregarding"):
			out = true
		case t.isAny("turning", "beginning", "beg", "first", "starting", "initial", "skipped"):
			return false
		case t.isAny("chains", "chs", "spaces", "sps", "loops"):
			return out
		}
	}
	return false
}
