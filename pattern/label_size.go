package pattern

import (
	"regexp"
	"strings"
	"sync"
)

// sizesInLabel are the numbers of all sizes as they stand in the label of rows:
// "5 (6, 7)", "3-5 (3-6)".
var sizesInLabel = sync.OnceValue(func() *regexp.Regexp {
	const one = `\d+(?:\s*[-–—]\s*\d+)?`
	return regexp.MustCompile(`(` + one + `)\s*[(\[]\s*(` + one + `(?:\s*[,;:]\s*` + one + `)*)\s*[)\]]`)
})

// LabelOf is the label of a row with the numbers of the size that was proven: for
// the larger of two sizes "Rows 3-5 (3-6)" is "Rows 3-6". What does not name a
// number for each size stays as it is written.
func (p *Proof) LabelOf(r *RowProof) string {
	n := len(p.Pattern.Sizes)
	if n < 2 {
		return r.Label
	}
	return sizesInLabel().ReplaceAllStringFunc(r.Label, func(s string) string {
		m := sizesInLabel().FindStringSubmatch(s)
		all := append([]string{m[1]}, strings.FieldsFunc(m[2], func(c rune) bool { return c == ',' || c == ';' || c == ':' })...)
		if len(all) != n || p.size >= n {
			return s
		}
		own := strings.TrimSpace(all[p.size])
		if from := strings.TrimRight(m[1], "0123456789"); from != "" && strings.Trim(own, "0123456789") == "" {
			return from + own // "3-6 (7, 8)" is 3-7
		}
		return own
	})
}
