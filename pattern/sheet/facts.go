package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
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
		items = append(items, b.namesHooks(unlist(l.text)))
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
	symbol := b.symbol()
	var out []Block
	for _, f := range b.facts {
		switch f.kind {
		case pattern.HeaderHook:
			f.text = b.hook(f.text)
		case pattern.HeaderYarn:
			if symbol != "" {
				pairs = append(pairs, [2]string{f.label, f.text})
				f = fact{label: symbolLabel, text: symbol}
				symbol = ""
			}
		case pattern.HeaderMaterials:
			if strings.TrimRight(strings.ToLower(f.label), ": .") == "materials" && !b.care.words { // the heading says so
				var items []string
				for s := range strings.SplitSeq(f.text, "; ") {
					items = append(items, b.namesHooks(s))
				}
				out = append(out, Block{Kind: List, Items: items})
				continue
			}
			f.text = b.namesHooks(f.text)
		}
		pairs = append(pairs, [2]string{f.label, f.text})
	}
	if len(pairs) > 0 {
		out = append([]Block{{Kind: Facts, Pairs: pairs}}, out...)
	}
	out = append(out, b.loose...)
	for i := len(out) - 1; i >= 0 && symbol != ""; i-- {
		if out[i].Kind == List {
			at := yarnItem(out[i].Items)
			out[i].Items = slices.Insert(slices.Clone(out[i].Items), at, symbolLabel+" "+symbol)
			symbol = ""
		}
	}
	if symbol != "" && len(out) > 0 {
		out = append(out, Block{Kind: Facts, Pairs: [][2]string{{symbolLabel, symbol}}})
	}
	return out
}

const symbolLabel = "Yarn weight:"

// yarnItem is the place behind the first item that is of yarn, or behind all.
func yarnItem(items []string) int {
	for i, item := range items {
		for _, w := range strings.FieldsFunc(strings.ToLower(item), func(r rune) bool { return r != '-' && (r < 'a' || r > 'z') }) {
			switch w {
			case "yarn", "wool", "cotton", "thread", "acrylic", "dk", "aran", "worsted", "chunky", "bulky", "fingering", "knitting", "merino", "linen":
				return i + 1
			}
		}
	}
	return len(items)
}

// symbol is the number in the yarn's weight symbol with its name, where the author
// names a weight and not its number: "3 (Light)". A name that the trade uses for
// two is settled by the gauge, and else gives both.
func (b *builder) symbol() string {
	found := gauge.StatedYarn(b.p)
	if len(found) > 1 {
		if g, err := gauge.Stated(b.proof); err == nil && g.Stitches.Known() && g.Stitch == stitch.SC {
			var near []gauge.Weight
			for _, w := range gauge.ForGauge(g.Stitches.In(4 * gauge.Inch)) {
				for _, f := range found {
					if f.Number == w.Number {
						near = append(near, w)
					}
				}
			}
			if len(near) == 1 {
				found = near
			}
		}
	}
	if len(found) == 0 || len(found) > 2 {
		return ""
	}
	var out []string
	for _, w := range found {
		s := fmt.Sprintf("%d (%s)", w.Number, w.Name)
		for _, f := range b.facts {
			if strings.Contains(f.text, w.Name+" (") || strings.Contains(f.text, s) {
				return ""
			}
		}
		for _, k := range b.loose {
			for _, item := range k.Items {
				if strings.Contains(item, s) {
					return ""
				}
			}
		}
		out = append(out, s)
	}
	return strings.Join(out, " or ")
}

var (
	namesHook = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`\bU[SK]\b|\b[B-Z]-?[0-9]`)
	})
	// a hook by its millimetres: "3.5 mm hook", "3 mm steel crochet hook"
	hookByMM = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)\b(\d+(?:\.\d+)?) ?mm( steel)?(?: crochet)? hooks?\b`)
	})
)

// hook adds the names of a hook's size on both sides of the Atlantic to what
// the author says of it, where she gives millimetres alone.
func (b *builder) hook(text string) string {
	mm, ok := gauge.StatedHook(b.p)
	if !ok {
		return text
	}
	if !strings.Contains(text, "mm") { // "H-8"
		if h, ok := gauge.OfMM(mm); ok && h.UK != "" {
			return fmt.Sprintf("%s (%s mm, UK %s)", text, strconv.FormatFloat(mm, 'f', -1, 64), h.UK)
		}
		return fmt.Sprintf("%s (%s mm)", text, strconv.FormatFloat(mm, 'f', -1, 64))
	}
	if namesHook().MatchString(text) {
		return text
	}
	if names := hookNames(mm, strings.Contains(strings.ToLower(text), "steel")); names != "" {
		return text + " (" + names + ")"
	}
	return text
}

// namesHooks adds them behind each hook in a line of materials.
func (b *builder) namesHooks(text string) string {
	if namesHook().MatchString(text) || b.care.words {
		return text
	}
	return hookByMM().ReplaceAllStringFunc(text, func(s string) string {
		m := hookByMM().FindStringSubmatch(s)
		mm, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return s
		}
		if names := hookNames(mm, m[2] != ""); names != "" {
			return s + " (" + names + ")"
		}
		return s
	})
}

// hookNames are the names of a size of hook: "US E-4, UK 9".
func hookNames(mm float64, steel bool) string {
	h, ok := gauge.OfMM(mm)
	for _, s := range gauge.Hooks() {
		if steel && s.Steel && s.MM == mm {
			return "US steel " + s.US
		}
	}
	if !ok || steel {
		return ""
	}
	var names []string
	if h.US != "" {
		names = append(names, "US "+h.US)
	}
	if h.UK != "" {
		names = append(names, "UK "+h.UK)
	}
	return strings.Join(names, ", ")
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
