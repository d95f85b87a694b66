package pattern

// beginsThere = ( "begin" | "beginning" | "starting" ) ( "in" | "at" | "with" ) [ "the" ] "same" place .
//
// It says where the first stitch of a round goes, which is where the round was closed:
// "starting in same place as sl st", "beginning in the same st as joining". Where work
// follows that starts with a stitch, that stitch is meant.
func (x *rowReader) beginsThere() bool {
	start := x.p
	if x.worked || !x.accept("begin", "beginning", "start", "starting", "commencing", "commence") {
		return false
	}
	x.accept("each", "rnd", "round")
	if !x.accept("in", "at", "with", "into", "from") {
		x.p = start
		return false
	}
	x.accept("the")
	if !x.peek().is("same") {
		x.p = start
		return false
	}
	t, ok := x.core(false)
	if !ok || t.Which != Same || !x.end() && !x.peek().separator() && !x.peek().isMark("*([") {
		x.p = start
		return false
	}
	return true
}
