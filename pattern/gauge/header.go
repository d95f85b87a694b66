package gauge

import (
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Stated is the gauge that a pattern states in its header. Several lines of it
// complete one another: the first that tells the stitches and the first that
// tells the rows are taken. The error is ErrNotSaid where nothing is said of
// it, and otherwise says what was said and why it is no use.
func Stated(p *pattern.Proof) (Gauge, error) {
	var g Gauge
	var first error
	found := false
	for _, h := range p.Pattern.Headers {
		if h.Kind != pattern.HeaderGauge {
			continue
		}
		one, err := Read(p.Terms, h.Text)
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		found = true
		if one.Stitches.Known() && !g.Stitches.Known() {
			g.Stitches, g.Kind, g.Named, g.Unit = one.Stitches, one.Kind, one.Named, one.Unit
		}
		if one.Rows.Known() && !g.Rows.Known() {
			g.Rows = one.Rows
			if !g.Stitches.Known() {
				g.Unit = one.Unit
			}
		}
		if g.Stitch == stitch.None {
			g.Stitch = one.Stitch
		}
	}
	switch {
	case found:
		return g, nil
	case first != nil:
		return g, first
	}
	return g, ErrNotSaid
}

// StatedYarn finds the weights of yarn that a pattern's header names: several
// where the name is used for more than one; none where it names none, or
// different ones for different yarns.
func StatedYarn(p *pattern.Pattern) []Weight {
	var all []Weight
	for _, h := range p.Headers {
		if h.Kind != pattern.HeaderYarn && h.Kind != pattern.HeaderMaterials {
			continue
		}
		found := weightsIn(scan(h.Text))
		switch {
		case len(found) == 0:
		case all == nil:
			all = found
		case all[0].Number != found[0].Number:
			return nil
		}
	}
	if all == nil && p.Terms == stitch.UK { // in US words four plies may be any yarn
		for _, h := range p.Headers {
			if h.Kind == pattern.HeaderYarn || h.Kind == pattern.HeaderMaterials {
				toks := scan(h.Text)
				for i := 0; i+1 < len(toks); i++ {
					if toks[i].isNum && toks[i].num == 4 && (toks[i+1].is("ply") || i+2 < len(toks) && toks[i+1].is("-") && toks[i+2].is("ply")) {
						return Called("4 ply")
					}
				}
			}
		}
	}
	return all
}

// weightsIn finds the first weight of yarn that words name: "DK", "double
// knitting", "weight 4", "#4", "medium wool". Words that describe anything
// ("light", "fine") name one only before a word for yarn.
func weightsIn(toks []token) []Weight {
	for i := range toks {
		if toks[i].is("weight", "category", "cyc", "#") && i+1 < len(toks) && toks[i+1].isNum {
			if w, ok := Numbered(int(toks[i+1].num)); ok && toks[i+1].num == float64(w.Number) {
				return []Weight{w}
			}
		}
		for _, n := range []int{2, 1} {
			if i+n > len(toks) {
				continue
			}
			name := toks[i].word
			if n == 2 {
				name += " " + toks[i+1].word
			}
			if name == "double knitting" {
				return Called(name)
			}
			if name == "cotton thread" || name == "crochet thread" || name == "thread crochet" {
				return Called("thread")
			}
			if found := Called(name); len(found) > 0 && (sure[name] || i+n < len(toks) && toks[i+n].is("yarn", "weight", "wool", "cotton", "acrylic", "thread", "-", "(")) {
				return found
			}
		}
	}
	return nil
}

// sure are names of weights that mean nothing else beside yarn.
var sure = map[string]bool{"dk": true, "light worsted": true, "worsted": true, "aran": true, "chunky": true, "bulky": true, "super bulky": true, "super chunky": true, "fingering": true, "super fine": true, "roving": true}

// StatedHook finds the size of the hook that a pattern's header names, in mm.
// It is false where none is named or the name is that of several sizes.
func StatedHook(p *pattern.Pattern) (mm float64, ok bool) {
	for _, h := range p.Headers {
		if h.Kind != pattern.HeaderHook && !(h.Kind == pattern.HeaderMaterials && strings.Contains(strings.ToLower(h.Text), "hook")) {
			continue
		}
		toks := scan(h.Text)
		for i := 0; i+1 < len(toks); i++ {
			if toks[i].isNum && toks[i+1].is("mm") && toks[i].num > 0 {
				return toks[i].num, true
			}
		}
		if h.Kind != pattern.HeaderHook {
			continue
		}
		for _, w := range strings.FieldsFunc(h.Text, func(r rune) bool { return strings.ContainsRune(" ,;()", r) }) {
			if named := Named(w); len(named) == 1 && strings.ContainsAny(w, "ABCDEFGHIJKLMNPQS") {
				return named[0], true
			}
		}
	}
	return 0, false
}
