package sheet

import (
	"sort"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// glossaryBlocks are the abbreviations that the pattern uses, in full words:
// the author's where she gives them, and the usual ones where she does not.
// What she lists and never uses is left out, unless it is hers alone.
func (b *builder) glossaryBlocks() []Block {
	used := b.p.Abbreviations()
	uses := make(map[string]bool)
	for _, a := range used {
		for _, f := range a.Forms {
			uses[f] = true
		}
	}
	said := make(map[string]bool)
	var pairs [][2]string
	var rest []Block
	for _, l := range b.glossary {
		name, words, ok := definition(l.text)
		if !ok {
			if l.text != "" {
				rest = append(rest, Block{Kind: Para, Text: l.text})
			}
			continue
		}
		known := false
		keep := false
		for _, f := range forms(name) {
			said[f] = true
			keep = keep || uses[f]
			known = known || b.known(f)
		}
		if id, _ := stitch.LexiconFor(b.proof.Terms).Find(strings.ToLower(name)); id != stitch.None && !strings.Contains(words, " ") && stitch.Of(id).Kind == stitch.Basic {
			words = id.Words(b.proof.Terms) // "tr: treble"
		}
		if keep || !known {
			pairs = append(pairs, [2]string{name, words})
		}
	}
	for _, a := range used {
		listed := false
		for _, f := range a.Forms {
			listed = listed || said[f]
		}
		if !listed && !b.care.words {
			pairs = append(pairs, [2]string{a.Short, a.Words})
		}
	}
	if len(pairs) == 0 {
		return rest
	}
	sort.SliceStable(pairs, func(i, j int) bool {
		return strings.ToLower(pairs[i][0]) < strings.ToLower(pairs[j][0])
	})
	return append([]Block{{Kind: Glossary, Pairs: pairs}}, rest...)
}

// known reports whether a form is an abbreviation of the trade's.
func (b *builder) known(form string) bool {
	if _, ok := stitch.Abbreviated(form); ok {
		return true
	}
	base := form
	if head, ok := strings.CutSuffix(form, "tog"); ok {
		base = strings.TrimRight(head, "0123456789 ")
	}
	id, _ := stitch.LexiconFor(b.proof.Terms).Find(base)
	return id != stitch.None && stitch.Of(id).Kind != stitch.Compound
}

// definition parts "sc: single crochet", "sc = single crochet" and
// "sc - single crochet".
func definition(s string) (name, words string, ok bool) {
	s = unlist(s)
	for _, mark := range []string{":", "=", " - ", " – ", " — ", "—"} {
		name, words, ok = strings.Cut(s, mark)
		if name, words = strings.TrimSpace(name), strings.TrimSpace(words); ok && name != "" && words != "" && len(name) < 24 && !strings.ContainsAny(words, "=") {
			return name, words, true
		}
	}
	return "", "", false
}

// forms are the ways to write a name of a list: "st(s)" is st and sts.
func forms(name string) []string {
	name = strings.ToLower(name)
	var out []string
	for _, n := range strings.FieldsFunc(name, func(r rune) bool { return r == ',' || r == '/' }) {
		n = strings.TrimSpace(n)
		if head, tail, ok := strings.Cut(n, "("); ok {
			out = append(out, head, head+strings.TrimSuffix(tail, ")"))
			continue
		}
		out = append(out, n)
	}
	return out
}

// definitions are those of a line that gives abbreviations one behind the other:
// "Abbreviations: sc—single crochet; dc—double crochet." nil where it is not all
// made of them.
func definitions(s string) []line {
	head, rest, ok := strings.Cut(s, ":")
	if !ok || !strings.HasPrefix(strings.ToLower(head), "abbreviation") {
		return nil
	}
	mark := ","
	if strings.Contains(rest, ";") {
		mark = ";"
	}
	var out []line
	for d := range strings.SplitSeq(strings.TrimSuffix(strings.TrimSpace(rest), "."), mark) {
		d = strings.TrimSpace(d)
		if _, _, ok := definition(d); !ok {
			return nil
		}
		out = append(out, line{text: d})
	}
	return out
}
