package pattern

// picotOf takes how long a picot is where that is said behind its name: "picot of 4
// ch", "picot of ch 5".
func (x *rowReader) picotOf(n *Num) {
	start := x.p
	if !x.accept("of", "with") {
		return
	}
	x.accept("a")
	if k := x.chainsCounted(0); k > 0 {
		n.N = x.peek().num
		x.p += k
		return
	}
	if x.phrase("ch|chain", "[-]") && x.peek().kind == tNum && !x.peek().frac {
		n.N = x.peek().num
		x.p++
		return
	}
	x.p = start
}
