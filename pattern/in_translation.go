package pattern

import "crochet/tallyturn/pattern/stitch"

// Patterns put into English word by word keep the names that stitches have where they
// come from: "2 solid m. in each m.", "6 fm in the ring", "15 air stitches".
// stitch.Translated tells what they are.

// translatedShort are letters that stand for stitches wherever a pattern has the first of
// them behind a number.
var translatedShort = []struct {
	sign  string
	means map[string]string
}{
	// fm, fM: German, Danish, Norwegian, Swedish
	{"fm", map[string]string{"fm": "sc", "m": "st", "ms": "sts", "lm": "ch", "km": "slst", "kjm": "slst", "hstb": "hdc", "hstm": "hdc", "stb": "dc", "stm": "dc", "dstb": "tr"}},
}

// translated gives the words of a text with the names of stitches put word by word into
// English as the trade has them. It gives back the same where there are none: a name
// counts only where a number or "each" stands before one of them.
func translated(toks []token, terms stitch.Terms) []token {
	counted := false
	for i := 1; i < len(toks) && !counted; i++ {
		counted = (toks[i-1].kind == tNum || toks[i-1].kind == tOrd || toks[i-1].in(eachWords)) && translatedAt(toks, i) > 0
	}
	if !counted {
		return toks
	}
	out := make([]token, 0, len(toks))
	for i := 0; i < len(toks); i++ {
		n := translatedAt(toks, i)
		if n == 0 {
			out = append(out, toks[i])
			continue
		}
		t, w := toks[i], "ch"
		if id, _ := stitch.Translated(t.text, toks[i+1].text); id != stitch.None {
			w = id.Name(terms)
		}
		t.text, t.end = w, toks[i+n-1].end
		t.opening, t.id = openingOf(w), vocabulary()[w].id
		out = append(out, t)
		i += n - 1
	}
	return out
}

// translatedAt is the length of such a name at a token; 0 where there is none.
func translatedAt(toks []token, i int) int {
	if i+1 >= len(toks) || toks[i+1].blank {
		return 0
	}
	if _, ok := stitch.Translated(toks[i].text, toks[i+1].text); !ok {
		return 0
	}
	return 2
}

// translatedLetters enters the letters that such patterns have for their stitches.
func (r *reader) translatedLetters() {
	if r.pat.filet {
		return // "3 FM" are filled meshes
	}
	for _, l := range translatedShort {
		n := 0
		for i := 1; i < len(r.toks); i++ {
			if r.toks[i].isAny("mesh", "meshes") {
				n = 0
				break
			}
			if r.toks[i].is(l.sign) && r.toks[i-1].kind == tNum {
				n++
			}
		}
		if n < 2 {
			continue
		}
		if r.aliases == nil {
			r.aliases = make(map[string]string)
		}
		for k, w := range l.means {
			if _, told := r.aliases[k]; !told {
				r.aliases[k] = wordIn(w, r.pat.Terms)
			}
		}
	}
}

// wordIn is the short word for a stitch, given in US terms, in those of a pattern.
func wordIn(us string, terms stitch.Terms) string {
	if id, ok := map[string]stitch.ID{"sc": stitch.SC, "hdc": stitch.HDC, "dc": stitch.DC, "tr": stitch.TR}[us]; ok && terms == stitch.UK {
		return id.Name(terms)
	}
	return us
}
