package spoken

import (
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// teller says one proof.
type teller struct {
	proof    *pattern.Proof
	opts     Options
	from, to stitch.Terms
	size     int
	keeping  *pattern.Keeping
	said     map[*pattern.Row]saidRow // the rows said so far
}

func newTeller(proof *pattern.Proof, o Options) *teller {
	t := &teller{proof: proof, opts: o, from: proof.Terms, to: o.Terms, keeping: proof.Pattern.Keeping(), said: make(map[*pattern.Row]saidRow)}
	if t.to == stitch.Unknown {
		t.to = t.from
	}
	for i, name := range proof.Pattern.Sizes {
		if strings.EqualFold(name, proof.Size) {
			t.size = i
		}
	}
	return t
}

// own says words of the author's that belong to an instruction.
func (t *teller) own(text string) string {
	o := own{from: t.from, to: t.to, size: t.size, sizes: len(t.proof.Pattern.Sizes)}
	return o.say(text)
}

// remarked says a remark in a row: words about the work, as a part of a
// sentence.
func (t *teller) remarked(text string) string {
	o := own{from: t.from, to: t.to, size: t.size, sizes: len(t.proof.Pattern.Sizes), prose: true}
	return small1(o.say(text))
}

// prose says words of the author's about the work.
func (t *teller) prose(text string) string {
	o := own{from: t.from, to: t.to, size: t.size, sizes: len(t.proof.Pattern.Sizes), prose: true}
	return sentence(capitals(o.say(text)))
}

// title says a name as it is written but for what is not spoken.
func (t *teller) title(name string) string {
	o := own{from: t.from, to: t.to, prose: true}
	return o.say(name)
}

func (t *teller) number(n int64) string { return cardinal(n, t.to == stitch.UK) }

// opening is what the author says before the work begins.
func (t *teller) opening() Part {
	p := Part{Piece: -1, Title: t.proof.Pattern.Title}
	var notes []pattern.Header
	for _, h := range t.proof.Pattern.Headers {
		if h.Kind == pattern.HeaderNote && !ofTerms(h.Text) && !strings.ContainsAny(t.proof.Pattern.Source.Slice(h.Span), "|\t") { // no head of a table
			notes = append(notes, h)
		}
	}
	p.Lines = t.paragraphs(notes)
	return p
}

// ofTerms reports a line on the terms that the pattern is written in; it is said
// in those that the hearer wants.
func ofTerms(line string) bool {
	line = strings.ToLower(line)
	return strings.HasPrefix(line, "written in ") && strings.Contains(line, " terms")
}

// closing is the making up.
func (t *teller) closing() Part {
	return Part{Piece: -1, Title: "Making up", Lines: t.paragraphs(t.proof.Pattern.Assembly)}
}

// paragraphs says lines that are of no row, those of one paragraph together.
func (t *teller) paragraphs(lines []pattern.Header) []Line {
	var out []Line
	source := t.proof.Pattern.Source
	for i := 0; i < len(lines); {
		text, last := lines[i].Text, lines[i].Span.End
		for i++; i < len(lines) && lines[i].Span.Start >= last && strings.Count(source.Slice(pattern.Span{Start: last, End: lines[i].Span.Start}), "\n") == 1; i++ {
			text += " " + lines[i].Text
			last = lines[i].Span.End
		}
		out = append(out, Line{First: -1, Last: -1, Text: t.prose(text)})
	}
	return out
}
