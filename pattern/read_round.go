package pattern

// goesRound reports whether a row is a round, though it is called a row as old
// leaflets call them: it stands on a ring, or on a row that was joined, and ends
// with a slip stitch.
func (r *reader) goesRound(d *rowDraft) bool {
	if r.before != nil {
		if !joinsRound(r.before.Steps) && !(r.before.Kind == FlatRow && loopsShut(r.before.Steps)) {
			return false
		}
	} else if !holdsRing(d.setup) && !holdsRing(d.body[:min(len(d.body), 12)]) {
		return false
	}
	joins := false
	for k := max(0, len(d.body)-20); k < len(d.body); k++ {
		t := &d.body[k]
		if t.is("turn") && len(d.body)-k < 8 {
			return false
		}
		joins = joins || t.isAny("ss", "slst", "join", "joining") || t.isAny("sl", "slip") && k+1 < len(d.body) && d.body[k+1].isAny("st", "stitch")
	}
	return joins || shutsLoop(d.body)
}

// shutsLoop reports whether the words of a row end in the last half of a loop, a
// chain and a stitch into the first one: "2 ch, 1 tr into first dc".
func shutsLoop(body []token) bool {
	for k := len(body) - 2; k > 4 && len(body)-k < 12; k-- {
		if !body[k].is("first") || !body[k-1].isAny("in", "into") {
			continue
		}
		for j := k - 2; j > k-8 && j > 0; j-- {
			if body[j].isAny("ch", "chain") {
				return body[j-1].kind == tNum || body[j+1].kind == tNum
			}
		}
	}
	return false
}

// loopsShut reports whether a row ended so.
func loopsShut(steps []*Step) bool {
	for _, s := range steps {
		if s.ending != nil && closesLoop(s.Body, s.ending.Body) {
			return true
		}
	}
	return false
}

// holdsRing reports whether words speak of a ring to work into.
func holdsRing(words []token) bool {
	for i := range words {
		if words[i].isAny("ring", "circle") {
			return true
		}
	}
	return false
}
