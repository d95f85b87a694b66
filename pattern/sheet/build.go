package sheet

import (
	"hash/fnv"
	"html"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Options chooses what a sheet has on it.
type Options struct {
	Terms    []stitch.Terms // which terms to tell it in, in this order; nil for the pattern's own
	Restyle  bool           // rows in one house style rather than in the author's
	Pictures []Picture      // put in before the cautions
	Yarn     bool           // with the amounts of yarn that are worked out, where the gauge or a swatch tells them
	Times    string         // how long it takes, in a sentence; "" to say nothing
}

// New makes the sheet of a proven pattern.
func New(proof *pattern.Proof, o Options) *Doc {
	p := proof.Pattern.Labelled()
	own := proof.Terms
	terms := o.Terms
	if len(terms) == 0 {
		terms = []stitch.Terms{own}
	}
	d := &Doc{Key: key(proof.Pattern)}
	proofs := inSizes(p, own)
	var whole [][]Block
	for _, t := range terms {
		text := p.InTerms(t).Source.Text
		if o.Restyle {
			var left []*pattern.Row
			if text, left = pattern.WriteOut(pattern.ReadIn(text, t)); d.AsWritten == nil {
				d.AsWritten = labels(left)
			}
		}
		b := build(text, t, proofs, o)
		d.Unlike = append(d.Unlike, b.unlike...)
		if d.Title, d.About = b.title, b.about; len(terms) > 1 {
			d.Title = unsided(d.Title) // it is in both
		}
		whole = append(whole, b.blocks())
	}
	front, back := shared(whole)
	d.Front, d.Back = whole[0][:front], whole[0][len(whole[0])-back:]
	for i, t := range terms {
		d.Versions = append(d.Versions, Version{t, whole[i][front : len(whole[i])-back]})
	}
	d.Says = "Written in " + terms[0].String() + " terms."
	if len(terms) > 1 {
		d.Says = "Written in " + terms[0].String() + " terms first, and again in " + terms[1].String() + " terms below."
	}
	return d
}

// labels are those of rows; a row without one is told by how it begins.
func labels(rows []*pattern.Row) []string {
	var out []string
	for _, r := range rows {
		l := clean(r.Label)
		if l == "" && len(r.Steps) > 0 {
			l = "the row without a number"
		}
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}

// shared is how many blocks all versions begin with, and end with. One version
// shares nothing.
func shared(whole [][]Block) (front, back int) {
	if len(whole) < 2 {
		return 0, 0
	}
	a, b := whole[0], whole[1]
	for front < min(len(a), len(b)) && reflect.DeepEqual(a[front], b[front]) {
		front++
	}
	for front > 0 && a[front-1].Kind == Heading {
		front-- // a heading stays with what it is over
	}
	for back < min(len(a), len(b))-front && reflect.DeepEqual(a[len(a)-1-back], b[len(b)-1-back]) {
		back++
	}
	for back > 0 && a[len(a)-back].Kind != Heading && a[len(a)-back].Kind != Image { // both have a title
		back--
	}
	return front, back
}

// key names a sheet by its title and pieces, so that ticks outlast a mended
// row.
func key(p *pattern.Pattern) string {
	h := fnv.New64a()
	h.Write([]byte(p.Title))
	for _, pc := range p.Pieces {
		h.Write([]byte("\n" + pc.Name))
	}
	return strconv.FormatUint(h.Sum64(), 36)
}

// care is how closely the author's layout is kept.
type care struct {
	rows  bool // every line of the rows as it stands
	words bool // every line outside the rows as it stands, and no list made of them
	title bool // no title but the author's own
}

// cares are tried in this order until one reads back.
var cares = []care{{}, {title: true}, {rows: true}, {rows: true, title: true}, {words: true, title: true}, {true, true, true}}

// builder puts one version together.
type builder struct {
	p      *pattern.Pattern // as the version tells it
	proof  *pattern.Proof   // of p
	o      Options
	care   care
	title  string
	from   titleFrom
	about  []string
	unlike []string

	facts    []fact
	loose    []Block // materials that are not one fact
	measures []fact
	skill    string
	glossary []line
	special  []Block
	notes    []Block // sections before the pieces, with their headings
	making   []Block // pieces
	steps    []Block
	after    []Block // sections after the pieces
	warnings []Block // the author's own
}

// line is a line of words with whether a blank one stands before it.
type line struct {
	text  string
	apart bool
}

// build makes a version with as much freedom as lets it read back as the
// pattern that it came from.
func build(text string, t stitch.Terms, own []*pattern.Proof, o Options) *builder {
	var best *builder
	for _, c := range cares {
		p := pattern.ReadIn(text, t)
		b := &builder{p: p, proof: p.Prove(pattern.Options{Terms: t}), o: o, care: c}
		b.gather()
		b.readBack(t, own)
		if best == nil || len(b.unlike) < len(best.unlike) {
			best = b
		}
		if len(best.unlike) == 0 {
			break
		}
	}
	return best
}

// gather goes through the pattern and sorts what stands in it.
func (b *builder) gather() {
	ps := slices.DeleteFunc(b.p.Passages(), func(x pattern.Passage) bool { return x.Kind == pattern.PagePassage })
	if !b.care.words {
		ps = withoutFurniture(b.p, ps)
	}
	i := 0
	switch b.title, b.from = title(b.p, ps); {
	case b.from == ownTitle:
	case b.care.title:
		b.title, b.from = untitled, noTitle
	case b.from == lineTitle:
		i = 1 // it is said at the top
	}
	for i < len(ps) {
		switch x := ps[i]; x.Kind {
		case pattern.TitlePassage:
			i++
		case pattern.PiecePassage, pattern.RowPassage:
			i += b.piece(ps[i:])
		case pattern.SectionPassage:
			i += b.section(ps[i:])
		default:
			i += b.outside(ps[i:])
		}
	}
}

// section takes a heading that names no piece, and what stands under it.
func (b *builder) section(ps []pattern.Passage) int {
	head, n := clean(b.p.Source.Slice(ps[0].Span)), 1
	var lines []line
	for ; n < len(ps) && ps[n].Kind == pattern.HeaderPassage && ps[n].Label == "" && ps[n].Is == ps[0].Is; n++ {
		lines = append(lines, line{clean(b.p.Source.Slice(ps[n].Span)), ps[n].Apart})
	}
	lower := strings.ToLower(head)
	switch ps[0].Is {
	case pattern.HeaderTerms:
		return n // said at the top
	case pattern.HeaderAssembly:
		b.steps = append(b.steps, Block{Kind: Heading, Text: head}, Block{Kind: Steps, Items: b.assembly(ps[1:n])})
	case pattern.HeaderAbbreviations:
		if !b.care.words && !isSpecial(lower) {
			b.glossary = append(b.glossary, lines...)
			break
		}
		b.special = append(b.special, Block{Kind: Heading, Text: head})
		for _, l := range lines {
			b.special = append(b.special, Block{Kind: Para, Text: l.text})
		}
	case pattern.HeaderSkill:
		b.skill = joined(lines)
	case pattern.HeaderYarn, pattern.HeaderHook, pattern.HeaderMaterials:
		b.materials(head, ps[0].Is, lines)
	case pattern.HeaderGauge, pattern.HeaderSize:
		b.measure(head, ps[0].Is, lines)
	default:
		blocks := append([]Block{{Kind: Heading, Text: head}}, b.paragraphs(lines)...)
		if len(lines) == 0 {
			break // "Pattern", "Instructions"
		}
		switch {
		case isWarning(lower):
			b.warnings = append(b.warnings, blocks...)
		case len(b.making) > 0:
			b.after = append(b.after, blocks...)
		default:
			b.notes = append(b.notes, blocks...)
		}
	}
	return n
}

func isSpecial(heading string) bool {
	return strings.Contains(heading, "special") || strings.Contains(heading, "guide") || strings.Contains(heading, "pattern") || strings.Contains(heading, "definition") || strings.Contains(heading, "explanation")
}

func isWarning(heading string) bool {
	return strings.HasPrefix(heading, "caution") || strings.HasPrefix(heading, "warning") || strings.HasPrefix(heading, "safety")
}

// outside takes words that stand in no section and no piece: what the thing
// is, facts with their label, definitions.
func (b *builder) outside(ps []pattern.Passage) int {
	x := ps[0]
	text := clean(b.p.Source.Slice(x.Span))
	if x.Kind == pattern.HeaderPassage && x.Label != "" {
		label := clean(x.Label)
		switch x.Is {
		case pattern.HeaderYarn, pattern.HeaderHook, pattern.HeaderMaterials:
			b.facts = append(b.facts, fact{label, text, x.Is})
			return 1
		case pattern.HeaderGauge, pattern.HeaderSize:
			b.measures = append(b.measures, fact{label, text, x.Is})
			return 1
		case pattern.HeaderSkill:
			b.skill = text
			return 1
		case pattern.HeaderTerms:
			return 1
		case pattern.HeaderAssembly:
			b.steps = append(b.steps, Block{Kind: Heading, Text: strings.TrimRight(label, ": ")}, Block{Kind: Steps, Items: b.assembly(ps[:1])})
			return 1
		}
		text = label + " " + text
	}
	if label, words, ok := strings.Cut(text, ": "); ok && len(b.making) == 0 && x.Kind == pattern.HeaderPassage && x.Is == pattern.HeaderNote && isMeasure(label) && !b.care.words {
		b.measures = append(b.measures, fact{label + ":", words, x.Is})
		return 1
	}
	if x.Kind == pattern.HeaderPassage && x.Is == pattern.HeaderTerms {
		return 1 // "UK" alone on its line
	}
	if x.Kind == pattern.HeaderPassage && x.Is == pattern.HeaderAbbreviations {
		if defs := definitions(text); defs != nil && !b.care.words {
			b.glossary = append(b.glossary, defs...)
			return 1
		}
		b.special = append(b.special, Block{Kind: Para, Text: text})
		return 1
	}
	if len(ps) > 1 && ps[1].Kind == pattern.RowPassage && isTableHead(b.p.Source.Line(lineOf(b.p.Source, x.Span.Start))) {
		return 1 // over columns that the sheet has not
	}
	n := 1
	lines := []line{{text, false}}
	for n < len(ps) && (ps[n].Kind == pattern.HeaderPassage && ps[n].Is == x.Is && ps[n].Label == "" || ps[n].Kind == pattern.PlainPassage) && x.Is == pattern.HeaderNote {
		lines = append(lines, line{clean(b.p.Source.Slice(ps[n].Span)), ps[n].Apart})
		n++
	}
	var heading []Block
	if len(lines) > 1 && len(b.making) > 0 && !b.care.words && x.Apart && isCord(text, lines[1].text) {
		heading = []Block{{Kind: Heading, Text: text}}
		lines = lines[1:]
	}
	switch blocks := append(heading, b.paragraphs(lines)...); {
	case len(heading) > 0 && len(b.steps) == 0:
		b.making = append(b.making, blocks...)
	case len(b.making) > 0 && len(b.steps) == 0 && (!x.Apart || rowsFollow(ps[n:])):
		b.making = append(b.making, blocks...) // it belongs where it stands
	case len(b.making) > 0 || len(b.steps) > 0:
		b.after = append(b.after, blocks...)
	case len(b.notes) == 0 && len(b.facts) == 0 && len(b.measures) == 0:
		for _, k := range blocks {
			b.about = append(b.about, k.Text)
		}
	default:
		b.notes = append(b.notes, blocks...)
	}
	return n
}

// isCord reports whether a line is the name of something that is all made in the
// next one: "Cord", "Ch 60. Fasten off." With no row in it, it is no piece.
func isCord(head, next string) bool {
	first, _, _ := strings.Cut(strings.ToLower(strings.ReplaceAll(next, "-", " ")), " ")
	return named(head) && len(head) < 30 && 'A' <= head[0] && head[0] <= 'Z' && (first == "ch" || first == "chain" || first == "make")
}

// isMeasure reports whether a label leads to a measure of the finished thing or of
// who it is for.
func isMeasure(label string) bool {
	switch first, _, _ := strings.Cut(strings.TrimRight(strings.ToLower(label), ": "), " "); first {
	case "chest", "bust", "length", "width", "height", "diameter", "circumference", "measures", "measurements", "sleeve", "measurement":
		return true
	case "to":
		return strings.HasPrefix(strings.ToLower(label), "to fit")
	case "actual", "finished", "body", "head", "foot", "hand", "approximate", "approx":
		for _, w := range []string{"size", "chest", "bust", "length", "width", "height", "measure", "circumference", "diameter"} {
			if strings.Contains(strings.ToLower(label), w) {
				return true
			}
		}
	}
	return false
}

// rowsFollow reports whether there is more to make.
func rowsFollow(ps []pattern.Passage) bool {
	for _, x := range ps {
		if x.Kind == pattern.RowPassage {
			return true
		}
	}
	return false
}

// isTableHead reports whether a line of the source is the head of a table of
// rows: "Round | Work | Sts".
func isTableHead(s string) bool {
	cells := strings.FieldsFunc(s, func(r rune) bool { return r == '\t' || r == '|' })
	known := 0
	for _, c := range cells {
		switch strings.Trim(strings.ToLower(strings.TrimSpace(c)), "*_.#: ") {
		case "row", "rows", "rnd", "rnds", "round", "rounds", "r", "no", "work", "what to do", "instruction", "instructions", "pattern", "stitches", "sts", "total", "count", "stitch count", "colour", "color":
			known++
		case "":
		default:
			return false
		}
	}
	return known > 1
}

// paragraphs joins lines that run on.
func (b *builder) paragraphs(lines []line) []Block {
	wide, sentences := 0, true
	for _, l := range lines {
		wide = max(wide, len(l.text))
		sentences = sentences && endsSentence(l.text)
	}
	var out []Block
	before := ""
	for _, l := range lines {
		if l.text == "" {
			continue
		}
		// A line that ends a sentence with room left on it ends there on purpose.
		first, _, _ := strings.Cut(l.text, " ")
		parted := endsSentence(before) && !speaksOfRow(first) && (sentences || len(before)+1+len(first) <= wide)
		before = l.text
		if n := len(out); n > 0 && !l.apart && !b.care.words && !parted && runsOn(out[n-1].Text, l.text) {
			out[n-1].Text += " " + l.text
			continue
		}
		out = append(out, Block{Kind: Para, Text: l.text})
	}
	return out
}

// speaksOfRow reports whether a line begins as a row's label does, as a remark
// on a row may: at the head of a paragraph it would read as the row itself.
func speaksOfRow(first string) bool {
	switch strings.ToLower(first) {
	case "row", "rows", "rnd", "rnds", "round", "rounds":
		return true
	}
	return false
}

func endsSentence(s string) bool {
	return strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, ".)")
}

// runsOn reports whether a line goes on with the one before it, rather than
// being an item of its own.
func runsOn(before, text string) bool {
	if strings.HasPrefix(text, "- ") || strings.HasPrefix(text, "* ") || strings.HasPrefix(text, "• ") {
		return false
	}
	end := before[len(before)-1]
	if len(before) > 40 && 'a' <= end && end <= 'z' {
		return true
	}
	if i := strings.IndexAny(text, ":="); i > 0 && i < 24 {
		return false
	}
	return len(before) > 40 || end != '.' && end != ':' && end != ')'
}

func joined(lines []line) string {
	var out []string
	for _, l := range lines {
		out = append(out, l.text)
	}
	return strings.Join(out, " ")
}

// blocks are those of the version in the order in which they are printed.
func (b *builder) blocks() []Block {
	var out []Block
	add := func(heading string, blocks ...Block) {
		if len(blocks) > 0 {
			out = append(append(out, Block{Kind: Heading, Text: heading}), blocks...)
		}
	}
	out = append(out, b.level())
	if b.o.Times != "" {
		out = append(out, Block{Kind: Para, Text: b.o.Times})
	}
	add("Materials", append(b.materialBlocks(), b.yarnBlocks()...)...)
	add("Measurements", b.measureBlocks()...)
	add("Abbreviations", b.glossaryBlocks()...)
	if len(b.special) > 0 && b.special[0].Kind != Heading {
		out = append(out, Block{Kind: Heading, Text: "Special stitches"})
	}
	out = append(out, b.special...)
	if len(b.notes) > 0 && b.notes[0].Kind != Heading {
		out = append(out, Block{Kind: Heading, Text: "Notes"})
	}
	out = append(out, b.notes...)
	out = append(out, b.making...)
	out = append(out, b.steps...)
	if len(b.after) > 0 && b.after[0].Kind != Heading {
		out = append(out, Block{Kind: Heading, Text: "Notes"})
	}
	out = append(out, b.after...)
	for i := range b.o.Pictures {
		out = append(out, Block{Kind: Image, Picture: &b.o.Pictures[i]})
	}
	return append(out, b.cautionBlocks()...)
}

// clean is text on one line, with what cannot be seen shown.
func clean(s string) string {
	if strings.Contains(s, "&") {
		s = html.UnescapeString(s) // pasted from a page: "Rnd&nbsp;1"
	}
	var b strings.Builder
	space := false
	for _, r := range s {
		switch {
		case r == ' ' || r == '\n' || r == '\t' || r == '\r' || r == 0xa0 || r == 0x2028 || r == 0x2029:
			space = b.Len() > 0
			continue
		case r == 0xad || r >= 0x200b && r <= 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2060 && r <= 0x206f || r == 0xfeff:
			continue // soft hyphens, and marks that turn the direction of writing
		case r < ' ':
			r += 0x2400 // the pictures of control characters
		case r == 0x7f:
			r = 0x2421
		case r >= 0x80 && r < 0xa0 || r == 0xfffe || r == 0xffff:
			r = 0xfffd
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		b.WriteRune(r)
	}
	return unbold(b.String())
}

// unbold takes the marks of bold text off a line that is set in it, or whose
// beginning is.
func unbold(s string) string {
	if rest, ok := strings.CutPrefix(s, "**"); ok && !strings.HasPrefix(rest, " ") {
		if i := strings.Index(rest, "**"); i > 0 {
			return rest[:i] + rest[i+2:]
		}
	}
	return s
}
