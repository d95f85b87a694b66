package pattern

import "crochet/tallyturn/pattern/stitch"

// droppedLoop makes one popcorn of the stitches just read where its hands are told behind
// them, as leaflets do that do not define it: "5 dc in next dc, drop loop from hook,
// insert hook in first of the 5 dc and pull the dropped loop through (popcorn made)".
// A chain that only closes it belongs to it (common practice, no source).
//
//	dropped = droppedFirst { words } draw { words } "through" { words } [ "," "ch" 1 closes ] [ "(popcorn made)" ] .
func (x *rowReader) droppedLoop() []*Step {
	s := x.lastStep
	if s == nil || s.Op != OpWork || s.special != nil || s.Legs > 0 || s.N.N < 2 || s.Target.N.N > 1 || stitch.Of(s.Stitch).Kind == stitch.Compound || s.Stitch == stitch.Slip {
		return nil
	}
	start := x.p
	if !x.loopOffHook() {
		return nil
	}
	drawn := false
	for n := 0; !drawn || !x.peek().isAny("through", "thru", "thro"); n++ {
		if n > mostDropped || x.end() || x.peek().isAny("*", "rep", "repeat") {
			x.p = start
			return nil
		}
		drawn = drawn || x.peek().isAny("draw", "drawing", "pull", "pulling", "bring", "bringing", "pass", "passing")
		x.p++
	}
	x.toClauseEnd()
	x.clusterClosed()
	s.Stitch, s.N, s.bare, s.gathers = stitch.Popcorn, Num{N: 1}, false, true
	return x.noteFrom(start)
}

// mostDropped is how many words may tell how the loop that was dropped is drawn through.
const mostDropped = 45

// loopOffHook takes the words with which the loop leaves the hook.
//
//	droppedFirst = "drop" [ "the" | "last" ... ] "loop" | "remove" [ "the" ] "hook" | "take" [ "the" ] "loop" "off" .
func (x *rowReader) loopOffHook() bool {
	return x.phrase("drop|dropping|slip|slipping|remove|removing|withdraw|withdrawing|take|taking", "[the|your]", "[last|working|hook]", "[last]", "loop|lp|st|stitch", "[from|off]", "[the|your]", "[hook]") ||
		x.phrase("remove|removing|withdraw|withdrawing|take|taking|drop|dropping", "[the|your]", "hook", "[out]", "[from|of]", "[the|last|working]", "[last]", "[loop|lp|st|stitch]")
}

// clusterClosed takes the chain that closes a cluster, and the words that say it is made.
// Without either it takes nothing, and says so.
//
//	closed = [ [ "," ] "ch" 1 ] [ "tightly" | "to close" ] [ "(cluster made)" ] .
func (x *rowReader) clusterClosed() bool {
	start := x.p
	x.accept(",", "and", "then")
	x.accept("and", "then")
	if x.accept("ch", "chain") {
		x.accept("-")
		if x.peek().kind != tNum || x.peek().num != 1 {
			x.p = start
			return false
		}
		x.p++
		if !x.phrase("tightly|firmly") && !x.phrase("to", "close|secure|fasten|lock|tighten|complete|finish", "[off]", "[the|it]", "[popcorn|pc|cluster|cl|st]") && !x.clusterMade() {
			x.p = start
			return false
		}
	} else {
		x.p = start
	}
	if x.clusterMade() {
		for !x.peek().isMark(")].;,") && !x.end() {
			x.p++
		}
		x.accept(")", "]")
	}
	return x.p > start
}

// clusterMade reports "(popcorn made)", "- 1 cl completed", ahead.
func (x *rowReader) clusterMade() bool {
	k := 0
	for x.at(k).isMark("([-,") || x.at(k).kind == tNum && x.at(k).num == 1 || x.at(k).isAny("a", "one", "first", "beg", "beginning", "starting", "another") {
		k++
	}
	if k == 0 || !x.at(k).isAny("popcorn", "pc", "pop", "cluster", "cl", "bobble", "puff") {
		return false
	}
	k++
	if x.at(k).isAny("st", "stitch") {
		k++
	}
	return x.at(k).isAny("made", "completed", "complete", "formed", "done")
}
