package pattern

// lastOnes reports where each of the last stitches goes, as many places as there are
// stitches: "2 sc in 4th and 3rd chs of turning ch-4", "2 dc in 5th and 4th of 5 ch",
// "3 dc in next 3 ch of tch". They are the last of those worked already. Nothing is
// taken where they go into one place, which would make more of them.
func (x *rowReader) lastOnes() bool {
	start := x.p
	defer func() { x.p = start }()
	t := x.peek()
	if t.kind != tNum || t.frac || t.num < 2 {
		return false
	}
	want := t.num
	x.p++
	if !x.nounFollows(0) {
		return false
	}
	x.nounDrop()
	if !x.accept("in", "into", "on") {
		return false
	}
	x.accept("the")
	places := int64(0)
	for x.peek().kind == tOrd {
		places++
		x.p++
		x.accept("ch", "chain", "st", "stitch", "dc", "tr")
		for x.peek().isAny(",", "and", "&", "the") {
			x.p++
		}
	}
	if places == 0 {
		x.phrase("[each]", "[of]", "[the]", "[next|last|top]")
		if x.peek().kind == tNum && x.at(1).isAny("ch", "chs", "chains", "sts", "stitches") && x.at(2).isAny("of") {
			places = x.peek().num
		}
	}
	return places == want
}
