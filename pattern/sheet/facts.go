package sheet

import (
	"fmt"
	"regexp"
	"strings"
	"sync"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
)

// fact is a line with a label: "Yarn:", "medium cotton".
type fact struct {
	label, text string
	kind        pattern.HeaderKind
}

// materials takes a section of them.
func (b *builder) materials(head string, kind pattern.HeaderKind, lines []line) {
	if kind != pattern.HeaderMaterials && len(lines) == 1 {
		b.facts = append(b.facts, fact{strings.TrimRight(head, ":") + ":", lines[0].text, kind})
		return
	}
	var items []string
	for _, l := range lines {
		items = append(items, unlist(l.text))
	}
	if kind != pattern.HeaderMaterials {
		b.loose = append(b.loose, Block{Kind: Heading, Text: head, Sub: true})
	}
	if len(items) > 0 {
		b.loose = append(b.loose, Block{Kind: List, Items: items})
	}
}

// measure takes a section of gauge or sizes.
func (b *builder) measure(head string, kind pattern.HeaderKind, lines []line) {
	for i, l := range lines {
		label := strings.TrimRight(head, ":") + ":"
		if i > 0 {
			label = ""
		}
		b.measures = append(b.measures, fact{label, l.text, kind})
	}
}

func (b *builder) materialBlocks() []Block {
	var pairs [][2]string
	weighed := false
	for _, f := range b.facts {
		switch f.kind {
		case pattern.HeaderHook:
			f.text = b.hook(f.text)
		case pattern.HeaderYarn:
			if w := gauge.StatedYarn(b.p); len(w) == 1 && !weighed && !strings.Contains(f.text, w[0].Name+" (") {
				pairs = append(pairs, [2]string{f.label, f.text})
				f = fact{label: "Yarn weight:", text: fmt.Sprintf("%d (%s)", w[0].Number, w[0].Name)}
				weighed = true
			}
		}
		pairs = append(pairs, [2]string{f.label, f.text})
	}
	var out []Block
	if len(pairs) > 0 {
		out = append(out, Block{Kind: Facts, Pairs: pairs})
	}
	return append(out, b.loose...)
}

var namesHook = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\bU[SK]\b|\b[B-Z]-?[0-9]`)
})

// hook adds the names of a hook's size on both sides of the Atlantic to what
// the author says of it, where she gives millimetres alone.
func (b *builder) hook(text string) string {
	mm, ok := gauge.StatedHook(b.p)
	if !ok || namesHook().MatchString(text) || !strings.Contains(text, "mm") {
		return text
	}
	h, ok := gauge.OfMM(mm)
	if !ok {
		return text
	}
	var names []string
	if h.US != "" {
		names = append(names, "US "+h.US)
	}
	if h.UK != "" {
		names = append(names, "UK "+h.UK)
	}
	if len(names) == 0 {
		return text
	}
	return text + " (" + strings.Join(names, ", ") + ")"
}

func (b *builder) measureBlocks() []Block {
	var pairs [][2]string
	for _, f := range b.measures {
		pairs = append(pairs, [2]string{f.label, f.text})
	}
	if len(pairs) == 0 {
		return nil
	}
	return []Block{{Kind: Facts, Pairs: pairs}}
}
