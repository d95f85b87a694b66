package pattern

import (
	"sort"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Abbreviation is a short word of the pattern with what it stands for.
type Abbreviation struct {
	Short string   // as the pattern writes it: "FPdc"; "st(s)" for what has several forms
	Words string   // in full, in the pattern's terms
	Forms []string // how it is written, lower case
}

// Abbreviations gathers the abbreviations that rows, definitions, notes and making
// up use, in the order of the alphabet.
func (p *Pattern) Abbreviations() []Abbreviation {
	g := gathered{p: p, terms: p.terms(), of: make(map[string]*Abbreviation), own: make(map[string]bool)}
	for _, s := range p.Specials {
		for _, n := range s.Names {
			g.own[n] = true
		}
	}
	c := newCrosser(p, g.terms, g.terms) // to find names as they are found across
	var spans []Span
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			spans = append(spans, r.whole())
		}
		for _, h := range pc.Notes {
			spans = append(spans, h.Span)
		}
	}
	for _, s := range p.Specials {
		spans = append(spans, s.Span)
	}
	for _, h := range p.Assembly {
		spans = append(spans, h.Span)
	}
	for _, h := range p.Headers {
		if h.Kind == HeaderNote {
			spans = append(spans, h.Span)
		}
	}
	for _, sp := range spans {
		i := sort.Search(len(c.toks), func(i int) bool { return int(c.toks[i].start) >= sp.Start })
		for i < len(c.toks) && int(c.toks[i].end) <= sp.End {
			i += g.take(c, i)
		}
	}
	out := make([]Abbreviation, 0, len(g.of))
	for _, a := range g.of {
		out = append(out, *a)
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := strings.ToLower(out[i].Short), strings.ToLower(out[j].Short)
		return a < b || a == b && out[i].Short < out[j].Short
	})
	return out
}

type gathered struct {
	p     *Pattern
	terms stitch.Terms
	of    map[string]*Abbreviation
	own   map[string]bool // what the pattern defines for itself
}

// take looks at token i and gives how many to go on by.
func (g *gathered) take(c *crosser, i int) int {
	t := &c.toks[i]
	if t.kind != tWord {
		return 1
	}
	if u := c.tok(i + 1); t.is("inv") && u.is("dec") {
		g.general("inv dec")
		return 2
	}
	if f := c.stitchName(i, found{}); f.n > 0 && f.id != stitch.Special {
		g.stitch(c, i, f)
		return f.n
	}
	g.general(t.text)
	return 1
}

func (g *gathered) general(word string) {
	a, ok := stitch.Abbreviated(word)
	if !ok || word == "tog" && len(g.of) > 0 {
		return
	}
	if _, ok := g.of[a.Short]; !ok {
		g.of[a.Short] = &Abbreviation{Short: a.Short, Words: a.Words, Forms: a.Forms.All()}
	}
}

// stitch notes a stitch that is written short, with its legs.
func (g *gathered) stitch(c *crosser, i int, f found) {
	name, words := f.name, f.id.Words(g.terms)
	if strings.Contains(name, "crochet") || strings.Contains(name, "stitch") || ambiguous(name) || strings.EqualFold(name, words) || strings.EqualFold(name, words+"s") || g.own[name] {
		return
	}
	if short := f.id.Name(g.terms); name == short+"s" {
		name = short
	}
	written := oneLine(g.p.Source.Text[c.toks[i].start:c.toks[i+f.n-1].end])
	if len(written) > len(name) {
		written = written[:len(name)]
	}
	if written != strings.ToUpper(written) || len(written) == 1 {
		if rest := written[1:]; rest == strings.ToLower(rest) {
			written = strings.ToLower(written)
		}
	}
	if name == "mb" {
		words = "make " + words
	}
	if n, u := c.tok(i+f.n), c.tok(i+f.n+1); n.kind == tNum && u.is("tog") && n.glued {
		written += n.text + "tog"
		name += n.text + "tog"
		words += " " + n.text + " stitches together"
	}
	if old, ok := g.of[name]; ok {
		if old.Short == strings.ToUpper(old.Short) {
			old.Short = written // "SC" at the head of a row is no reason to print it so
		}
		return
	}
	g.of[name] = &Abbreviation{Short: written, Words: words, Forms: []string{name}}
}
