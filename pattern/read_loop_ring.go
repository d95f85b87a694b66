package pattern

// tallestRaise is the longest chain that only raises a first round to the height of its
// stitches; a longer one is a loop of its own.
const tallestRaise = 4

// loopNamesRing reports whether "the loop" of a first round is the ring it stands on: its
// chain is joined, or there is no chain but the one that raises the round, and the round
// speaks of one loop only, "ch 3, 2 dc, (ch 1, 3 dc) 5 times into the loop".
func loopNamesRing(setup, body []token) bool {
	if !speaksOfOneLoop(body) {
		return false
	}
	if len(setup) > 0 {
		return saysJoined(setup)
	}
	return !longChains(body)
}

// speaksOfOneLoop reports whether words name a loop to work into, and always the same one.
func speaksOfOneLoop(words []token) bool {
	found := false
	for i := range words {
		if words[i].isAny("loops", "lps", "hook") {
			return false
		}
		if i == 0 || !words[i].isAny("loop", "lp") {
			continue
		}
		at := &words[i-1]
		if i > 1 && at.isAny("the", "this", "that") {
			at = &words[i-2]
		}
		if !at.isAny("in", "into") {
			return false
		}
		found = true
	}
	return found
}

// saysJoined reports whether the words in front of a first round join its chain.
func saysJoined(words []token) bool {
	for i := range words {
		if words[i].isAny("join", "joined", "joining", "close", "closed", "ss", "sl", "slip", "slst", "loop", "ring", "circle") {
			return true
		}
	}
	return false
}

// longChains reports whether words make chains that are worked into themselves.
func longChains(words []token) bool {
	for i := range words {
		if words[i].isAny("ch", "chs", "chain", "chains") {
			if i > 0 && words[i-1].kind == tNum && words[i-1].num > tallestRaise || i+1 < len(words) && words[i+1].kind == tNum && words[i+1].num > tallestRaise {
				return true
			}
		}
	}
	return false
}
