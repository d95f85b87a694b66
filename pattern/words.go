package pattern

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Words cuts a row's text at its instructions, in the order they stand, with
// what comes before it without a label: the foundation, the turning chain
// that the row before ends with. The text is on one line and free of control
// bytes; put together with no space between it reads as written.
func (p *Proof) Words(r *RowProof) []Word {
	var out []Word
	for _, steps := range [][]*Step{r.Lead, r.Row.Setup, r.Row.Steps} {
		if len(steps) == 0 {
			continue
		}
		if len(out) > 0 {
			out = append(out, Word{Text: " "})
		}
		out = p.wordsOf(out, steps)
	}
	return out
}

// wordsOf cuts the text under a list of steps.
func (p *Proof) wordsOf(out []Word, steps []*Step) []Word {
	var leaves []*Step
	leaves = leafSteps(leaves, steps, 0)
	sort.SliceStable(leaves, func(i, j int) bool { return leaves[i].Span.Start < leaves[j].Span.Start })
	span := steps[0].Span
	for _, s := range steps {
		span = cover(span, s.Span)
	}
	at := span.Start
	for _, s := range leaves {
		if s.Span.Empty() || s.Span.Start < at || s.Span.End > span.End {
			continue
		}
		out = p.word(out, Span{at, s.Span.Start}, nil)
		out = p.word(out, s.Span, s)
		at = s.Span.End
	}
	end := span.End
	for end < len(p.Pattern.Source.Text) && strings.IndexByte(".)]}", p.Pattern.Source.Text[end]) >= 0 {
		end++
	}
	return p.word(out, Span{at, end}, nil)
}

// leafSteps gathers the steps that are no lists of others.
func leafSteps(into []*Step, steps []*Step, depth int) []*Step {
	for _, s := range steps {
		if len(s.Body) > 0 && s.special == nil && depth < maxDepth {
			into = leafSteps(into, s.Body, depth+1)
			if s.ending != nil {
				into = leafSteps(into, s.ending.Body, depth+1)
			}
			continue
		}
		if !s.implicit || s.Op == OpNote {
			into = append(into, s)
		}
	}
	return into
}

func (p *Proof) word(out []Word, sp Span, s *Step) []Word {
	if sp.Empty() {
		return out
	}
	text := tidy(p.Pattern.Source.Slice(sp))
	if text == "" {
		return out
	}
	return append(out, Word{Text: text, Step: s})
}

// tidy folds white space and control bytes to single spaces and shows bytes
// that are no text as a mark.
func tidy(s string) string {
	var b strings.Builder
	space := false
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		i += n
		switch {
		case r <= ' ' || r == 0x7f || r == 0xa0 || r >= 0x80 && r < 0xa0:
			space = true
			continue
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		b.WriteRune(r)
	}
	if space {
		b.WriteByte(' ')
	}
	return b.String()
}
