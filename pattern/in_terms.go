package pattern

import (
	"sort"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// InTerms gives the pattern in US or UK terms. The author's words stay but for
// the names of stitches and the few other words that differ ("skip" and
// "miss", "gauge" and "tension"), wherever they stand: in rows and totals, in
// notes, definitions, headings, and in what the pattern says of its own terms.
//
// Spellings that answer one another go there and come back as they were. One
// that has no answer on the other side ("sk", "slst") comes back as the usual
// one, and stays so.
func (p *Pattern) InTerms(to stitch.Terms) *Pattern {
	from := p.terms()
	if to == stitch.Unknown || to == from {
		return p
	}
	return readAs(newCrosser(p, from, to).text(), to)
}

// terms are those a pattern is read in.
func (p *Pattern) terms() stitch.Terms {
	switch {
	case p.Terms != stitch.Unknown:
		return p.Terms
	case p.evidence == stitch.UK:
		return stitch.UK
	}
	return stitch.US
}

// zone is how freely words are taken for stitches.
type zone uint8

const (
	inProse zone = iota // "double" may be anything
	inRow               // "double" is a stitch unless its neighbours say otherwise
	inName              // of a piece, the title, a yarn: only what is a stitch everywhere
)

// crosser writes a text in other terms.
type crosser struct {
	p        *Pattern
	from, to stitch.Terms
	lex      *stitch.Lexicon // of the terms it is written in
	there    *stitch.Lexicon
	toks     []token
	zones    []zone // of each token
	both     bool   // the text speaks of both terms
	out      strings.Builder
	at       int
}

func newCrosser(p *Pattern, from, to stitch.Terms) *crosser {
	c := &crosser{p: p, from: from, to: to, lex: stitch.LexiconFor(from), there: stitch.LexiconFor(to)}
	c.toks = lex(smooth(p.Source.Text))
	c.zones = make([]zone, len(c.toks))
	for _, pc := range p.Pieces {
		c.mark(pc.Span, inName)
		for _, r := range pc.Rows {
			c.mark(r.whole(), inRow)
		}
	}
	for _, h := range p.Headers {
		switch h.Kind {
		case HeaderYarn, HeaderHook, HeaderMaterials, HeaderSize, HeaderSkill:
			c.mark(h.Span, inName)
		case HeaderAbbreviations, HeaderTerms: // "British terms: d.c. double crochet, ..."
			c.mark(h.Span, inRow)
		}
	}
	c.markNames()
	us, uk := false, false
	for i := range c.toks {
		us = us || c.toks[i].isAny("us", "usa", "american")
		uk = uk || c.toks[i].isAny("uk", "british")
	}
	c.both = us && uk
	return c
}

// whole is a row with what stands before its label.
func (r *Row) whole() Span {
	sp := r.Span
	if len(r.Setup) > 0 {
		sp.Start = min(sp.Start, r.Setup[0].Span.Start)
	}
	return sp
}

// mark puts the tokens of a span into a zone; the strictest holds.
func (c *crosser) mark(sp Span, z zone) {
	i := sort.Search(len(c.toks), func(i int) bool { return int(c.toks[i].start) >= sp.Start })
	for ; i < len(c.toks) && int(c.toks[i].end) <= sp.End; i++ {
		c.zones[i] = max(c.zones[i], z)
	}
}

// markNames marks every spot that names the title or a piece, so that a name
// is written the same wherever it stands.
func (c *crosser) markNames() {
	names := make(map[string][][]token) // by their first word
	add := func(name string) {
		words := lex(smooth(name))
		words = words[:len(words)-1]
		for i := range words {
			if ambiguous(words[i].text) { // otherwise nothing can be taken wrongly
				names[words[0].text] = append(names[words[0].text], words)
				return
			}
		}
	}
	add(c.p.Title)
	for _, pc := range c.p.Pieces {
		add(pc.Name)
	}
	if len(names) == 0 {
		return
	}
	for i := range c.toks {
		for _, words := range names[c.toks[i].text] {
			k := 0
			for k < len(words) && i+k < len(c.toks) && c.toks[i+k].text == words[k].text {
				k++
			}
			if k == len(words) {
				c.mark(Span{int(c.toks[i].start), int(c.toks[i+k-1].end)}, inName)
			}
		}
	}
}

// text is the source with its words put across.
func (c *crosser) text() string {
	var last found
	for i := 0; i < len(c.toks); {
		t := &c.toks[i]
		if t.kind != tWord {
			i++
			continue
		}
		if word, ok := c.claim(i); ok {
			c.put(i, 1, word)
			i++
			continue
		}
		f := c.stitchName(i, last)
		if f.n > 0 {
			if f.name != f.there {
				c.put(i, f.n, f.there)
			}
			last = f
			i += f.n
			continue
		}
		if n, word := c.crossing(i); n > 0 {
			c.put(i, n, word)
			i += n
			continue
		}
		i++
	}
	c.out.WriteString(c.p.Source.Text[c.at:])
	return c.out.String()
}

// put writes words in the place of n tokens. As many words as before keep what
// stands between them.
func (c *crosser) put(i, n int, words string) {
	src := c.p.Source.Text
	parts := strings.Split(words, " ")
	var old []*token
	for k := i; k < i+n; k++ {
		if c.toks[k].kind != tPunct {
			old = append(old, &c.toks[k])
		}
	}
	for k, w := range parts {
		model := old[min(k, len(old)-1)]
		word := likeCase(w, src[model.start:model.end], allTitle(src, old))
		switch {
		case len(parts) == len(old):
			c.copyTo(int(model.start))
			c.out.WriteString(word)
			c.at = int(model.end)
			continue
		case k == 0:
			c.copyTo(int(old[0].start))
		default:
			c.out.WriteByte(' ')
			if k >= len(old) || len(parts) > len(old) {
				word = likeRest(w, src, old)
			}
		}
		c.out.WriteString(word)
		c.at = int(old[len(old)-1].end)
	}
}

func (c *crosser) copyTo(offset int) {
	if offset > c.at {
		c.out.WriteString(c.p.Source.Text[c.at:offset])
		c.at = offset
	}
}

// likeRest is the case of a word beyond the first where the number of words
// changes: small unless all the words before were not.
func likeRest(w, src string, old []*token) string {
	switch {
	case shouted(src, old):
		return strings.ToUpper(w)
	case len(old) > 1 && allTitle(src, old):
		return strings.ToUpper(w[:1]) + w[1:]
	}
	return w
}

func shouted(src string, old []*token) bool {
	for _, t := range old {
		if s := src[t.start:t.end]; len(s) < 2 || s != strings.ToUpper(s) {
			return false
		}
	}
	return true
}

func allTitle(src string, old []*token) bool {
	for _, t := range old {
		if c := src[t.start]; c < 'A' || c > 'Z' {
			return false
		}
	}
	return true
}

// likeCase writes a word with the capitals of the one in whose place it
// stands: what begins alike stays as it is, and the rest goes by what follows.
func likeCase(word, model string, title bool) string {
	k := 0
	for k < len(word) && k < len(model) && lowerByte(model[k]) == word[k] {
		k++
	}
	rest := model[k:]
	if rest == "" {
		rest = model
	}
	tail := word[k:]
	switch {
	case tail == "":
	case rest == strings.ToUpper(rest) && (len(rest) > 1 || k > 0):
		tail = strings.ToUpper(tail)
	case 'A' <= rest[0] && rest[0] <= 'Z' && k == 0:
		tail = strings.ToUpper(tail[:1]) + tail[1:]
	}
	return model[:k] + tail
}

func lowerByte(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}
