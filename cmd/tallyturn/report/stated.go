package report

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
)

// stated is the total that the pattern states for a row, without the brackets
// and dashes that set it off; "" where it states none. In a pattern of several
// sizes it is the number for the one that was proven.
func stated(p *pattern.Proof, r *pattern.RowProof) string {
	if r.Stated == nil {
		return ""
	}
	if len(p.Pattern.Sizes) < 2 || len(r.Stated.Parts) == 0 {
		return bare(r.Stated.Text)
	}
	size := 0
	for i, name := range p.Pattern.Sizes {
		if strings.EqualFold(name, p.Size) {
			size = i
		}
	}
	parts := make([]string, len(r.Stated.Parts))
	for i, part := range r.Stated.Parts {
		parts[i] = strings.TrimSpace(fmt.Sprintf("%d %s", part.N.At(size), part.Name))
	}
	return strings.Join(parts, ", ")
}

// bare takes off what a total is set off with: "(28 sts)", "- 28 sts.",
// "= 28".
func bare(total string) string {
	total = strings.Trim(total, " \t.,;:=-–—")
	for _, pair := range []string{"()", "[]", "{}"} {
		inner, ok := strings.CutPrefix(total, pair[:1])
		if !ok {
			continue
		}
		if inner, ok = strings.CutSuffix(inner, pair[1:]); ok && balanced(inner, pair) {
			return bare(inner)
		}
	}
	return total
}

// balanced reports whether no bracket in the text closes one before it.
func balanced(text, pair string) bool {
	depth := 0
	for i := range len(text) {
		switch text[i] {
		case pair[0]:
			depth++
		case pair[1]:
			if depth--; depth < 0 {
				return false
			}
		}
	}
	return true
}
