package stitch

import "sync"

// Short is an abbreviation of print that is no stitch.
type Short struct {
	One, Many string // in full, of one and of several; Many is "" where it has none
}

// shorts are the abbreviations beside the stitches, as most patterns list
// them: Craft Yarn Council, crochet abbreviations.
var shorts = sync.OnceValue(func() map[string]Short {
	return map[string]Short{
		"alt": {One: "alternate"}, "approx": {One: "approximately"}, "beg": {One: "beginning"},
		"bet": {One: "between"}, "btw": {One: "between"}, "bl": {One: "back loop"}, "blo": {One: "back loop only"}, "flo": {One: "front loop only"}, "fl": {One: "front loop"},
		"ch": {"chain", "chains"}, "chs": {"chains", "chains"}, "cc": {One: "contrasting colour"}, "mc": {One: "main colour"}, "col": {"colour", "colours"},
		"cont": {One: "continue"}, "dec": {"decrease", "decreases"}, "decs": {"decreases", "decreases"}, "inc": {"increase", "increases"}, "incs": {"increases", "increases"},
		"hk": {One: "hook"}, "invdec": {One: "invisible decrease"}, "fo": {One: "fasten off"}, "foll": {One: "following"}, "folls": {One: "follows"}, "fol": {One: "following"}, "gr": {"group", "groups"}, "grp": {"group", "groups"},
		"incl": {One: "including"}, "lp": {"loop", "loops"}, "lps": {"loops", "loops"}, "mr": {One: "magic ring"}, "nxt": {One: "next"},
		"pat": {"pattern", "patterns"}, "patt": {"pattern", "patterns"}, "pm": {One: "place a marker"}, "prev": {One: "previous"}, "rem": {One: "remaining"},
		"rep": {One: "repeat"}, "reps": {One: "repeats"}, "rnd": {"round", "rounds"}, "rnds": {"rounds", "rounds"}, "rd": {"round", "rounds"}, "rds": {"rounds", "rounds"},
		"rs": {One: "right side"}, "ws": {One: "wrong side"}, "sk": {One: "skip"}, "sm": {One: "slip the marker"}, "sp": {"space", "spaces"}, "sps": {"spaces", "spaces"},
		"st": {"stitch", "stitches"}, "sts": {"stitches", "stitches"}, "tbl": {One: "through the back loop"}, "tch": {One: "turning chain"}, "t-ch": {One: "turning chain"},
		"tog": {One: "together"}, "yo": {One: "yarn over"}, "yoh": {One: "yarn over hook"}, "yrh": {One: "yarn round hook"}, "rm": {One: "remove the marker"},
		"pcs": {One: "pieces"}, "sh": {"shell", "shells"}, "blk": {"block", "blocks"}, "blks": {"blocks", "blocks"}, "fpo": {One: "front post"},
		"bpo": {One: "back post"}, "fp": {One: "front post"}, "bp": {One: "back post"}, "thru": {One: "through"}, "til": {One: "until"},
		"inv": {One: "invisible"}, "ea": {One: "each"}, "aro": {One: "around"}, "arnd": {One: "around"}, "lh": {One: "left-hand"}, "rh": {One: "right-hand"},
	}
})

// InFull gives an abbreviation that is no stitch in full; lower case.
func InFull(word string) (Short, bool) {
	s, ok := shorts()[word]
	return s, ok
}

// Plural is the stitch's name in full for several of them. The names that end
// in "crochet" do not change (common practice, no source).
func (id ID) Plural(t Terms) string {
	name := id.Words(t)
	switch {
	case name == "":
		return ""
	case hasEnd(name, "crochet"):
		return name
	case hasEnd(name, "stitch"):
		return name + "es"
	}
	return name + "s"
}

func hasEnd(s, end string) bool { return len(s) >= len(end) && s[len(s)-len(end):] == end }
