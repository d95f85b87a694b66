package pattern

import "strings"

// MakingUp is the making up in steps, each on one line: the items of the
// author's list or, where she lists none, her sentences. A line that only goes
// on with the one before is no step of its own.
func (p *Pattern) MakingUp() []string {
	var paragraphs []string
	listed := false
	before := -1 // the line on which the last part ends
	for _, h := range p.Assembly {
		first, _ := p.Source.Position(h.Span.Start)
		item, isItem := listItem(strings.TrimSpace(p.Source.Line(first)), h.Text)
		listed = listed || isItem
		if n := len(paragraphs); n > 0 && !isItem && first == before+1 {
			paragraphs[n-1] += " " + item
		} else {
			paragraphs = append(paragraphs, item)
		}
		before, _ = p.Source.Position(max(h.Span.End-1, h.Span.Start))
	}
	if listed {
		return paragraphs
	}
	var steps []string
	for _, text := range paragraphs {
		steps = append(steps, sentencesOf(text)...)
	}
	return steps
}

// listItem is the text of a line without the number or bullet that makes it an
// item of a list, and whether it has one. The text may have lost it already.
func listItem(line, text string) (string, bool) {
	mark := ""
	digits := len(line) - len(strings.TrimLeft(line, "0123456789"))
	switch {
	case strings.HasPrefix(line, "- "), strings.HasPrefix(line, "* "), strings.HasPrefix(line, "+ "):
		mark = line[:2]
	case strings.HasPrefix(line, "• "):
		mark = "• "
	case digits > 0 && digits < 3 && (strings.HasPrefix(line[digits:], ". ") || strings.HasPrefix(line[digits:], ") ")):
		mark = line[:digits+2]
	}
	if mark == "" {
		return text, false
	}
	return strings.TrimPrefix(text, mark), true
}

// sentencesOf cuts a paragraph after each stop that ends a sentence.
func sentencesOf(text string) (out []string) {
	start := 0
	for i := 0; i+2 < len(text); i++ {
		stop := text[i] == '.' || text[i] == '!' || text[i] == '?'
		if stop && text[i+1] == ' ' && 'A' <= text[i+2] && text[i+2] <= 'Z' && i-start > 3 {
			out = append(out, text[start:i+1])
			start = i + 2
		}
	}
	if text[start:] != "" {
		out = append(out, text[start:])
	}
	return out
}
