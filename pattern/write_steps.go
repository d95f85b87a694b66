package pattern

import (
	"strings"
	"sync"

	"crochet/tallyturn/pattern/stitch"
)

// sentence writes steps as one sentence. It is false where a step can only be
// written as it stands and does not stand on its own.
func (w *writer) sentence(steps []*Step) (string, bool) {
	var b strings.Builder
	ok := w.list(&b, steps, true)
	s := b.String()
	if s == "" {
		return "", ok
	}
	return sentenceCase(s), ok
}

// sentenceCase begins words with a capital, behind the marks that open a repeat,
// and ends them with a full stop.
func sentenceCase(s string) string {
	k := len(s) - len(strings.TrimLeft(s, "(*["))
	if k < len(s) {
		s = s[:k] + strings.ToUpper(s[k:k+1]) + s[k+1:]
	}
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}

// isAfter reports whether a step may be said behind the row: cutting the yarn,
// and remarks but those that read as a row of their own there.
func (w *writer) isAfter(s *Step) bool {
	if s.Op == OpFasten {
		return true
	}
	text := strings.ToLower(w.asItStands(s))
	first, _, _ := strings.Cut(text, " ")
	switch strings.Trim(first, ",.;:()") {
	case "rep", "repeat", "cont", "continue", "work":
		return false
	}
	return s.Op == OpNote && !strings.Contains(text, ":") && w.beginsSentence(s)
}

// afterwards writes what is done once a row is worked, in the author's words:
// "Fasten off, leaving a tail. Stuff firmly." Each stands on a line of its own
// where it does so in the source; end is where the row's last step ends there.
func (w *writer) afterwards(steps []*Step, end int) string {
	var b strings.Builder
	for _, s := range steps {
		if strings.Contains(w.p.Source.Text[end:max(end, s.Span.Start)], "\n") {
			b.WriteByte('\n')
		} else {
			b.WriteByte(' ')
		}
		b.WriteString(sentenceCase(w.asItStands(s)))
		end = s.Span.End
	}
	return b.String()
}

// list writes steps with commas between; after a remark stands a semicolon,
// so that it cannot run on into the next step.
func (w *writer) list(b *strings.Builder, steps []*Step, top bool) bool {
	for i := 0; i < len(steps); i++ {
		s := steps[i]
		if i > 0 {
			if steps[i-1].Op == OpNote {
				b.WriteString("; ")
			} else {
				b.WriteString(", ")
			}
		}
		text := w.step(s, top)
		if text == "" {
			if text = w.asItStands(s); text == "" {
				return false
			}
			if i > 0 || !top {
				text = w.midSentence(s, text)
			}
		}
		b.WriteString(text)
		if n := steps[i:]; len(n) > 1 && hookAndEach(n[0], n[1]) {
			// "sc in 2nd ch from hook and in each ch across"
			if place := w.place(&n[1].Target, 1, false); place != "" {
				b.WriteString(" and" + place)
				i++
			}
		}
	}
	return true
}

func hookAndEach(a, b *Step) bool {
	return a.Op == OpWork && b.Op == OpWork && a.Stitch == b.Stitch && a.special == b.special && a.Target.Which == FromHook && b.Target.Which == Each &&
		a.Legs == 0 && b.Legs == 0 && a.N.N == 1 && b.N.N == 1 && a.N.Sizes == nil && b.N.Sizes == nil
}

// midSentence takes the capital off words that began a sentence of their own and
// now run on: "Do not join." What is a name keeps it.
func (w *writer) midSentence(s *Step, text string) string {
	if !w.beginsSentence(s) {
		return text
	}
	word, _, _ := strings.Cut(text, " ")
	if lower := strings.ToLower(word); word != strings.ToUpper(word) && sentenceWord()[strings.Trim(lower, ",;:")] {
		return lower + text[len(word):]
	}
	return text
}

// beginsSentence reports whether a step begins a sentence or a line of the
// source.
func (w *writer) beginsSentence(s *Step) bool {
	before := strings.TrimRight(w.p.Source.Text[:s.Span.Start], " \t\r\n")
	return before != "" && (strings.ContainsAny(before[len(before)-1:], ".!?)]") || strings.Contains(w.p.Source.Text[len(before):s.Span.Start], "\n"))
}

// sentenceWord are the words that sentences between stitches begin with.
var sentenceWord = sync.OnceValue(func() map[string]bool {
	m := make(map[string]bool)
	for _, w := range strings.Fields(`do don't fasten break join cut stuff work working turn turning swing change mark place finish close leave leaving weave sew now then repeat continue begin beginning start starting with using in on at from for the this these you here keep
		make put remove move insert thread draw pull note count all both each every go going end ending carry drop pick hold fold lay rotate flip set slip skip as after before without to it if when once round around along across`) {
		m[w] = true
	}
	return m
})

// asItStands is a step in the author's words, on one line.
func (w *writer) asItStands(s *Step) string {
	text := strings.TrimSpace(tidy(w.p.Source.Slice(s.Span)))
	if s.Op != OpNote {
		text = strings.TrimRight(text, " ,;.")
	}
	return text
}

// step writes one step in the house style; "" where it has none.
func (w *writer) step(s *Step, top bool) string {
	if s.special != nil && w.names[s.special] == "" || !w.covered(s) {
		return ""
	}
	switch s.Op {
	case OpWork:
		return w.work(s)
	case OpInto:
		return w.into(s)
	case OpGroup:
		return w.group(s, top)
	case OpChain:
		return w.chain(s)
	case OpSkip:
		return w.skip(s)
	case OpTurn:
		return "turn"
	case OpRing:
		if s.N.N > 0 || s.N.Sizes != nil {
			return "join with " + stitch.Slip.Name(w.terms) + " in first ch to form a ring"
		}
		return "make a magic ring"
	case OpFasten:
		return "fasten off"
	case OpJoin:
		return w.join(s)
	}
	return ""
}

func (w *writer) work(s *Step) string {
	name := s.Stitch.Name(w.terms)
	if s.special != nil {
		name = w.names[s.special]
	} else if s.Name != "" || name == "" {
		return ""
	}
	if s.Legs > 0 && s.special == nil {
		name += itoa(int64(s.Legs)) + "tog"
	}
	return w.worked(s, name)
}

// worked puts a name, how many and the place together.
func (w *writer) worked(s *Step, name string) string {
	t := &s.Target
	if !t.said && t.Which == Next {
		switch {
		case s.N.N == 1 && s.N.Sizes == nil && t.N.N == 1 && t.N.Sizes == nil:
			return name
		case s.N.N == 1 && s.N.Sizes == nil && (s.bare || s.Legs > 0 || t.N.Sizes != nil || s.Op == OpInto):
			return number(t.N) + " " + name
		case s.Op == OpInto || s.Legs > 0:
			return ""
		}
	}
	place := w.place(t, s.N.N, s.Legs > 0)
	if place == "" || s.Legs > 0 && s.N.N != 1 {
		return ""
	}
	if s.N.N != 1 || s.N.Sizes != nil {
		name = number(s.N) + " " + name
	}
	if s.Counts.Said {
		if t.Which != FromHook {
			return ""
		}
		place += " (skipped chs" + w.counts(s.Counts, " count", " do not count") + ")"
	}
	return name + place
}

// place writes where a stitch goes, with the preposition before it.
func (w *writer) place(t *Target, per int64, legs bool) string {
	if t.Within != nil || t.Row != nil || t.plain || t.dropped || t.foot {
		return ""
	}
	one, many, ok := w.noun(t.Of)
	if !ok {
		return ""
	}
	bound := w.bound(t.Bound)
	if t.Bound.Kind != NoBound && bound == "" {
		return ""
	}
	in := " in "
	if legs {
		in = " over "
	}
	several := t.N.N > 1 || t.N.Sizes != nil
	switch t.Which {
	case Next:
		if t.Bound.Kind != NoBound || legs {
			return ""
		}
		if !several {
			return " in next " + one
		}
		if per > 1 {
			return " in each of next " + number(t.N) + " " + many
		}
		return " in next " + number(t.N) + " " + many
	case Each:
		if t.N.N != 0 || legs {
			return ""
		}
		return " in each " + strings.ReplaceAll(one, " and ", " and in each ") + bound
	case First, Last:
		word := map[Which]string{First: "first ", Last: "last "}[t.Which]
		if t.Bound.Kind != NoBound {
			return ""
		}
		if several {
			return in + word + number(t.N) + " " + many
		}
		return in + word + one
	case Same:
		if t.Bound.Kind != NoBound || legs {
			return ""
		}
		return " in same " + one
	case FromHook:
		if t.N.Sizes != nil || legs {
			return ""
		}
		return " in " + ordinal(t.N.N) + " ch from hook"
	case InRing:
		return " in ring"
	case TurnTop:
		if n := w.beginning(); n > 0 {
			return " in top of beg ch-" + itoa(n)
		}
		return " in top of tch"
	}
	return ""
}

// beginning is how many chains the round being written begins with, where they
// are a stitch to join to; 0 where it has none. A row has a turning chain.
func (w *writer) beginning() int64 {
	if !w.round || len(w.steps) == 0 || w.steps[0].Op != OpChain || w.steps[0].N.Sizes != nil || w.steps[0].N.N < 2 {
		return 0
	}
	return w.steps[0].N.N
}

// noun names the places that a target means, as one and as several.
func (w *writer) noun(of []Filter) (one, many string, ok bool) {
	if len(of) == 0 {
		return "st", "sts", true
	}
	for i, f := range of {
		if i > 0 {
			one, many = one+" and ", many+" and "
		}
		a, b := "", ""
		switch {
		case f.Kind == AnyStitch:
			a, b = "st", "sts"
		case f.Kind == OneStitch:
			a = f.Stitch.Name(w.terms)
			b = a
		case f.Kind == ChainStitch:
			a, b = "ch", "ch"
		case f.Kind == Space && f.Name == "" && f.Size > 0:
			a = "ch-" + itoa(f.Size) + " sp"
			b = a + "s"
		case f.Kind == Space && f.Name == "":
			a, b = "sp", "sps"
		}
		if a == "" {
			return "", "", false
		}
		one, many = one+a, many+b
	}
	return one, many, true
}

// bound writes how far a run goes, with a space before it.
func (w *writer) bound(b Bound) string {
	way := " across"
	if w.round {
		way = " around"
	}
	switch b.Kind {
	case ToEnd:
		return way
	case ToLast:
		one, many, ok := w.noun(b.Of)
		switch {
		case !ok || len(b.Of) > 1:
			return ""
		case b.N.N == 1 && b.N.Sizes == nil:
			return way + " to last " + one
		}
		return way + " to last " + number(b.N) + " " + many
	}
	return ""
}

func (w *writer) into(s *Step) string {
	if s.special != nil {
		return w.worked(s, w.names[s.special])
	}
	if s.N.N != 1 || !s.Target.said {
		return ""
	}
	var b strings.Builder
	for _, k := range s.Body {
		if k.Op == OpWork && k.Target.said {
			return ""
		}
	}
	if !w.list(&b, s.Body, false) {
		return ""
	}
	place := w.place(&s.Target, 1, false)
	if place == "" {
		return ""
	}
	return "(" + b.String() + ")" + place
}

func (w *writer) group(s *Step, top bool) string {
	if s.partial != 0 || s.stopAt || s.byTurns || s.ending != nil || !s.note.Empty() || s.Times.Kind == Once || len(s.Body) == 0 {
		return ""
	}
	var b strings.Builder
	if !w.list(&b, s.Body, false) {
		return ""
	}
	body, t := b.String(), s.Times
	star := "*" + body + "; rep from *"
	switch {
	case t.Kind == Fill:
		bound := w.bound(t.Bound)
		if bound == "" {
			return ""
		}
		if top {
			return star + bound
		}
		return "(" + body + ")" + bound
	case t.Kind == More && t.star && !t.more && top:
		return star + " " + number(t.N) + " times" // it may be meant as all of them
	case t.Kind == Exactly && (!top || !t.sure):
		if !alone(s.Body) {
			body = "(" + body + ")"
		}
		if t.N.N == 2 && t.N.Sizes == nil {
			return body + " twice"
		}
		return body + " " + number(t.N) + " times"
	case t.N.Sizes != nil:
		return ""
	case !top:
		return "(" + body + ") " + itoa(t.N.N+1) + " times"
	}
	n := t.N.N
	if t.Kind == Exactly {
		n--
	}
	switch n {
	case 0:
		return ""
	case 1:
		return star + " once more"
	}
	return star + " " + itoa(n) + " more times"
}

// alone reports whether what is repeated is one decrease, increase or the like,
// which needs no brackets: "sc2tog twice".
func alone(body []*Step) bool {
	return len(body) == 1 && body[0].Op == OpWork && !body[0].Target.said && body[0].N.N == 1 && body[0].N.Sizes == nil
}

func (w *writer) chain(s *Step) string {
	if s.N.N == 0 && s.N.Sizes == nil {
		return ""
	}
	text := "ch " + number(s.N)
	if s.Counts.Said {
		text += " (" + w.counts(s.Counts, "counts", "does not count") + ")"
	}
	return text
}

// counts writes what a chain counts as, behind the verb.
func (w *writer) counts(c Counts, does, doesNot string) string {
	spread := ""
	if c.Spread {
		spread = " here and throughout"
	}
	if c.As == stitch.None {
		return doesNot + " as a st" + spread
	}
	as := "st"
	if c.As != stitch.Special {
		as = c.As.Name(w.terms)
	}
	switch {
	case c.N > 1:
		as = itoa(c.N) + " " + as
	case c.As == stitch.Special:
		as = "a st"
	}
	if c.Space > 0 {
		as += " and ch-" + itoa(c.Space) + " sp"
	}
	return does + " as " + as + spread
}

func (w *writer) skip(s *Step) string {
	word := "sk"
	if w.terms == stitch.UK {
		word = "miss"
	}
	t := &s.Target
	one, many, ok := w.noun(t.Of)
	if !ok || s.Name != "" || t.Which != Next || t.Within != nil || t.Row != nil || t.Bound.Kind != NoBound || len(t.Of) > 1 || t.orSpace {
		return ""
	}
	switch {
	case t.plain: // "sk 2 ch" may pass over other things than "sk next 2 ch"
		if t.N.N == 1 && t.N.Sizes == nil {
			return word + " 1 " + one
		}
		return word + " " + number(t.N) + " " + many
	case t.N.N == 1 && t.N.Sizes == nil:
		return word + " next " + one
	}
	return word + " next " + number(t.N) + " " + many
}

func (w *writer) join(s *Step) string {
	t := &s.Target
	text := "join with " + stitch.Slip.Name(w.terms)
	switch {
	case s.Stitch != stitch.None && s.Stitch != stitch.Slip:
		return ""
	case !t.said && t.Which == Next && len(t.Of) == 0:
		return text
	case t.said && (t.Which == First || t.Which == TurnTop):
		if place := w.place(t, 1, false); place != "" {
			return text + place
		}
	}
	return ""
}

// number writes a number, with those of the other sizes behind it.
func number(n Num) string {
	if n.Sizes == nil {
		return itoa(n.N)
	}
	var rest []string
	for _, v := range n.Sizes[1:] {
		rest = append(rest, itoa(v))
	}
	return itoa(n.Sizes[0]) + " (" + strings.Join(rest, ", ") + ")"
}

// total writes a stated total, with a space before it.
func (w *writer) total(t *Total) (string, bool) {
	if t == nil {
		return "", true
	}
	var parts []string
	for _, p := range t.Parts {
		if p.ends > 0 || p.noChains {
			return "", false // what stands at the ends, and what is left out, is told in the author's words
		}
		n, one := number(p.N), p.N.N == 1 && p.N.Sizes == nil
		word := ""
		switch p.Kind {
		case PartStitches:
			word = "sts"
			if one {
				word = "st"
			}
		case PartStitch:
			word = p.ID.Name(w.terms)
		case PartSpace:
			word = "sp"
			if p.ofMeshes() {
				word = "meshes"
				if one {
					word = "mesh"
				}
				break // the spaces of filet with its blocks
			}
			if p.Size > 0 {
				word = "ch-" + itoa(p.Size) + " sp"
			}
			if !one {
				word += "s"
			}
		case PartChain:
			word = "ch"
		default:
			word = p.Name
			if p.ofBlocks() {
				word = p.word
			}
		}
		if word == "" {
			return "", false
		}
		parts = append(parts, n+" "+word)
	}
	return " (" + strings.Join(parts, ", ") + ")", len(parts) > 0
}

// covered reports whether the tree keeps all that a step's words say, so that
// it may be written in other words. Loops, posts, "loosely" and the like are
// read and passed by: a step that has them is written as it stands.
func (w *writer) covered(s *Step) bool {
	if s.Span.Empty() || s.Op == OpNote {
		return s.Op != OpNote
	}
	at := s.Span.Start
	for _, k := range s.Body {
		if s.special == nil && s.Span.Contains(k.Span) && k.Span.Start >= at {
			if !w.plainWords(at, k.Span.Start) {
				return false
			}
			at = k.Span.End
		}
	}
	return w.plainWords(at, s.Span.End)
}

func (w *writer) plainWords(from, to int) bool {
	if from >= to {
		return true
	}
	text := w.smooth[from:to]
	toks := lex(text)
	x := w.back.rowReaderFor(toks[:len(toks)-1], &Row{})
	for x.p = 0; !x.end(); {
		t := x.peek()
		if t.kind != tWord {
			if t.kind == tPunct && !t.isAny(",", ";", ".", "(", ")", "[", "]", "{", "}", "*", "-", "x", ":") || t.frac {
				return false
			}
			x.p++
			continue
		}
		if _, n := x.specialAt(0); n > 0 {
			x.p += n
			continue
		}
		if plainWord()[t.text] {
			x.p++
			continue
		}
		_, n := x.stitchAt(0)
		if n == 0 {
			return false
		}
		x.p += n
	}
	return true
}

// plainWord are the words whose sense the tree keeps.
var plainWord = sync.OnceValue(func() map[string]bool {
	m := make(map[string]bool)
	for _, s := range strings.Fields(`a across all and around as beg beginning ch chain chains chs circle count counts counted dec decrease does each ends end every fasten
		first following foll for form from here hook in inc increase into join last make miss more next nxt not of off once over rem remain remaining rep repeat ring rnd
		round row same sk skip sl sp space spaces sps st stitch stitches sts tch the then throughout time times to tog together top turn turning twice until up way with
		within work worked x will adjustable loop closed skipped missed do thru thrice until rows rounds rnds beginning complete crochet foundation  now place`) {
		m[s] = true
	}
	return m
})
